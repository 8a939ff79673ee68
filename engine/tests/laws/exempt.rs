//! Where a written value need not move a row that it reaches.

/// Rows of the worst place of a wall that changes along its line: only what makes that place moves them.
pub fn is_of_the_worst_place(name: &str, row: &str) -> bool {
    let worst = [
        "wall.top-thickness",
        "wall.thickness-at-third",
        "wall.slenderness",
        "wall.highest",
        "wall.lowest",
        "wall.overall-x",
        "wall.overall-y",
        "room.height",
        "wall.lifts.last.height",
        "set-out.pole.wall-top.from-benchmark",
        "set-out.pole.wall-top.on-pole",
        "wall.wet-height",
        "wall.settlement",
        "wall.lifts.last.wet-top",
        "wall.lifts.last.settlement",
        "wall.lifts.last.step",
        "wall.lifts.last.above-ground",
        "wall.lifts.last.platform",
    ];
    ["quince-hut", "spiral-wall"].contains(&name)
        && (worst.contains(&row) || row.starts_with("wall.lifts.last.top-thickness-at."))
        || is_where_it_is_used_most(row)
}

/// Rows of the place where a pole or a part of the bond beam is used most, of a low seat of a rafter that tapers, and of the slope along a
/// straight run: corners, batters and seats far from it, and a point moved along that run, move them by less than is compared, and others
/// by more.
fn is_where_it_is_used_most(row: &str) -> bool {
    let nouns = [
        ("roof.beam.", ".moment-plan"),
        ("roof.beam.", ".scarf-across"),
        ("roof.beam.", ".bending"),
        ("roof.beam.", ".shear"),
        ("roof.beam.", ".shear-force"),
        ("roof.beam.seats.", "-low.area"),
        ("roof.members.", ".modulus"),
        ("roof.crossings.", ".bolt-side"),
        ("wall.bond-beam.runs.", ".growth"),
        ("wall.bond-beam.runs.", ".timber-in-plan"),
    ];
    nouns.iter().any(|(stem, noun)| row.starts_with(stem) && row.ends_with(noun))
}

/// On a roof of low slope the least snow of ASCE 7 counts no more than 20 psf of what lies on the ground: more of it, where it governs,
/// moves neither that snow nor what the rafters bear of it.
pub fn is_of_the_least_snow(name: &str, row: &str, path: &str) -> bool {
    name == "burdock-rise" && path == "site.loads.snow" && (row == "roof.loads.snow" || is_of_a_frame(row))
}

/// Rows that are forces of a frame, or follow from them.
pub fn is_of_a_frame(row: &str) -> bool {
    ["roof.members.", "roof.crossings.", "roof.feet.", "roof.beam."].iter().any(|stem| row.starts_with(stem))
}

/// Rows of a roof that do not grow with the house, since a code adds a length of its own to a crossing's seat, or since the place where
/// a pole is used most depends on its loads.
pub fn is_of_the_code(row: &str) -> bool {
    let of_poles = [("roof.crossings.", ".seat"), ("roof.members.", ".modulus")];
    // Sand, silt and clay have the sizes that a standard gives them, however large the grains of a house are.
    let of_grains = row.starts_with("tests.gradings.") && row.contains(".finer.");
    of_grains || of_poles.iter().any(|(stem, noun)| row.starts_with(stem) && row.ends_with(noun))
}

/// A rafter that is alike at both ends is sheared, pulled and pushed by what lies between its seats alone, and both of them carry half
/// of what lies on all of it, however far apart they are.
pub fn is_of_a_level_rafter(row: &str, path: &str) -> bool {
    let between = ["shear-force", "asd-shear", "push", "pull"].iter().any(|noun| row.ends_with(noun));
    let of_rafter = row.starts_with("roof.members.rafter.") && between;
    // Where a rafter that tapers is used most it is all but not pulled.
    let loads = ["roof.layers.", "roof.soil.", "roof.spacing"].iter().any(|stem| path.starts_with(stem));
    row == "roof.members.rafter.pull" && loads
        || of_rafter && ["roof.overhang", "wall.thickness"].contains(&path)
        || row.starts_with("roof.crossings.") && row.contains("-seat.") && path == "wall.batter.inside"
}

/// A ring on sliding feet is nearly determinate: how stiff its ties are moves few of its forces, and a corner's rounding moves only what
/// follows from feet near it by more than is compared. What a bolt itself bears and wants, and what goes round the bond beam in plan, is
/// moved all the same.
pub fn is_determinate(row: &str, path: &str) -> bool {
    let of_the_bolt = [".bolt", "bolt-end", "bolt-side"].iter().any(|noun| row.ends_with(noun));
    let round_the_beam =
        [".moment-plan", ".scarf-across", ".ring-force", ".scarf-force", ".held-force", ".held-moment"];
    let in_plan = row.starts_with("roof.beam.") && round_the_beam.iter().any(|noun| row.ends_with(noun));
    is_of_a_frame(row) && (path == "roof.bolt.diameter" && !of_the_bolt || path.ends_with(".round") && !in_plan)
}

/// The middle of a band does not know how wide it is, nor its half where it lies: what both ends are off by moves no sand that is added,
/// and no share moves what it may be off.
pub fn is_of_a_band(row: &str, path: &str) -> bool {
    let ends = |nouns: &[&str]| nouns.iter().any(|noun| row.ends_with(noun));
    let is_middle = row.starts_with("tests.soils.") && ends(&[".clay", ".clay-over-tested"])
        || row.starts_with("tests.sand-to-add.") && ends(&[".dry", ".buckets"])
        || row.starts_with("tests.feel.") && row.ends_with(".clay-within");
    let is_half = row.starts_with("tests.soils.") && row.ends_with(".clay-error");
    let is_off = [".error", ".off"].iter().any(|noun| path.ends_with(noun));
    path.starts_with("tests.gradings.") && if is_off { is_middle } else { is_half }
}

/// Soil that went through the sieve of 2 mm before a hydrometer was read is all of what its clay is said of: what that sieve passes
/// cancels.
pub fn is_of_the_sieve(row: &str, path: &str) -> bool {
    let sieves = [("laboratory", "e", "soil"), ("college", "c", "clay-soil")];
    sieves.iter().any(|(grading, sieve, soil)| {
        let of_it = ["clay", "error"].map(|noun| format!("tests.gradings.{grading}.{noun}"));
        let of_soil = [format!("tests.soils.{soil}.clay"), "tests.sand-to-add.".to_owned(), "tests.feel.".to_owned()];
        let is_of_it = of_it.iter().chain(&of_soil).any(|stem| row.starts_with(stem));
        path == format!("tests.gradings.{grading}.sieves.{sieve}.passing") && is_of_it
    })
}

/// Trimmings that do not go back to the tarp fill the gap under the roof: what is mixed for both does not change.
pub fn is_trimming(row: &str, path: &str) -> bool {
    ["wall.trim", "wall.returned"].contains(&path) && !row.starts_with("wall.")
}

/// Shares of a batch do not change how large it is; how many buckets a batch has of its one ingredient changes that alone; and
/// soil as wet as the floor's mix brings the water that it takes. `parts` counts what is written that begins so.
pub fn is_of_one_batch(row: &str, path: &str, parts: impl Fn(&str) -> usize) -> bool {
    let Some((recipe, measure)) = path.strip_prefix("earth.recipes.").and_then(|rest| rest.split_once('.')) else {
        return false;
    };
    let own = row.strip_prefix("earth.recipes.").and_then(|rest| rest.strip_prefix(recipe)).unwrap_or_default();
    if measure.starts_with("dry.") {
        return [".loose-volume", ".placed-volume", ".batches"].contains(&own);
    }
    let is_alone = measure.starts_with("buckets.") && parts(&format!("earth.recipes.{recipe}.buckets.")) == 1;
    is_alone || path == "earth.recipes.floor-mix.buckets.soil" && own.starts_with(".water-")
}

/// What a value has in common with its like at the other named points of the wall.
pub fn group_of(path: &str) -> &str {
    match path.strip_prefix("wall.line.").and_then(|rest| rest.split_once('.')) {
        Some((_, noun @ ("height" | "thickness" | "round"))) => noun,
        Some(_) => "shape",
        // What holds at every point that writes none of its own.
        None if path.starts_with("roof.seats.") => "roof.seats",
        None if path.starts_with("wall.batter.") => "wall.batter",
        None => path.strip_prefix("wall.").filter(|noun| ["height", "thickness"].contains(noun)).unwrap_or(path),
    }
}

/// The beam of a lever weighs alike on each brick: their scatter does not know it.
pub fn is_of_a_beam_alike_for_all(row: &str, path: &str) -> bool {
    row.ends_with(".deviation") && [".lever.beam", ".lever.middle"].iter().any(|noun| path.ends_with(noun))
}

/// Scores count by their order: the worst of them, which only one judge gave, is still the worst when it is worse.
pub fn is_of_the_worst_score(name: &str, path: &str) -> bool {
    match name {
        "tansy-bank" => path == "tests.panels.inside.each.a.adhesion.il",
        "burdock-rise" => path == "tests.panels.inside.each.a.dusting.jo",
        _ => false,
    }
}

/// Of two layers as of three one plank counts.
pub fn is_of_an_odd_layer(row: &str, path: &str) -> bool {
    row == "roof.beam.planks" && path == "wall.bond-beam.layers"
}

/// A rafter along a side wall lies on a corner's own arcs where its wall ends: its tail there lies between two of one middle, wherever
/// that is.
pub fn is_round_one_corner(name: &str, row: &str, path: &str) -> bool {
    let of_side =
        name == "burdock-rise" && ["roof.rafters.1.", "roof.rafters.9."].iter().any(|stem| row.starts_with(stem));
    let of_plan = path.starts_with("wall.line.") || path == "roof.falls";
    of_side && (row.ends_with("-tail") || row.ends_with("-seat")) && of_plan
}

/// The middle rafter stays in the middle when the plate moves in on both sides alike; the thinnest lies there. And where a top slopes with
/// its rafters, nothing is packed where it stands highest against them.
pub fn is_of_the_middle_rafter(name: &str, row: &str, path: &str) -> bool {
    let follows = ["roof.rafters.high-thinnest", "roof.members.rafter.modulus", "roof.crossings.low-seat.seat"];
    let is_middle = row.starts_with("roof.rafters.5.") || follows.contains(&row);
    let on_slope = name == "quince-hut" && row.ends_with(".high-packing");
    on_slope || name == "burdock-rise" && is_middle && (path == "wall.batter.inside" || path == "wall.line.west.x")
}
