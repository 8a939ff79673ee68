//! Laws that hold for every house: what reaches what, doubling, mirroring, spelling, sums.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/behind.rs"]
mod behind;
#[path = "laws/edit.rs"]
mod edit;
#[path = "laws/exempt.rs"]
mod exempt;
#[path = "laws/told.rs"]
mod told;
#[path = "laws/whole.rs"]
mod whole;

use std::collections::BTreeMap;

use behind::{Reach, Ways, steps};
use edit::{BUILDS, answered, rewritten, spelled, spelled_at};
use engine::answers::Answers;
use engine::known::Origin;
use engine::row::{Row, Rows};
use engine::units::{Kind, Money, Quantity};
use exempt::{group_of, is_of_one_batch, is_of_the_code, is_of_the_worst_place, is_trimming};

/// Thousands of houses are answered, most of them in many short texts.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn rows(answers: &Answers) -> BTreeMap<String, Quantity> {
    answers.rows.iter().map(|row| (row.path.clone(), row.quantity)).collect()
}

/// The row of a path and all that it was computed from, through all reasons.
fn behind<'rows>(rows: &'rows Rows, path: &str) -> Vec<&'rows Row> {
    let mut seen: BTreeMap<&str, &Row> = BTreeMap::new();
    let mut open: Vec<&Row> = rows.find(path).into_iter().collect();
    while let Some(row) = open.pop() {
        if seen.insert(&row.path, row).is_none() {
            open.extend(row.reason.inputs.iter().filter_map(|input| rows.find(&input.path)));
        }
    }
    seen.into_values().collect()
}

fn given(answers: &Answers) -> Vec<&Row> {
    answers.rows.iter().filter(|row| row.own == Some(Origin::Given) && row.reason.inputs.is_empty()).collect()
}

/// A written value changed by a hundredth, or by a little where it is zero.
fn nudged(quantity: Quantity, share: f64) -> Quantity {
    match quantity {
        // The worst score of a panel has none above it.
        Quantity::Count(count) if share < 0.0 => Quantity::Count(count.saturating_sub(1)),
        Quantity::Count(count) => Quantity::Count(count + 1),
        Quantity::Date(date) => Quantity::Date(date.tomorrow().unwrap()),
        Quantity::Money(money) => Quantity::Money(Money { minor: money.minor + 1, ..money }),
        Quantity::Number(number) => Quantity::Number(number * (1.0 + share)),
        other => {
            let si = other.si().unwrap();
            let moved = if si == 0.0 { 0.1 * share } else { si * (1.0 + share) };
            other.kind().of_si(moved).unwrap()
        }
    }
}

/// What each written value, changed by a hundredth, moves, and what reaches it: row, changed key, moved, reached.
fn moves(name: &str, text: &str) -> Vec<(String, String, bool, Reach)> {
    let before = answered(text);
    let old = rows(&before);
    let ways = Ways::of(&before.rows);
    let mut found = Vec::new();
    for row in given(&before) {
        let path = row.path.as_str();
        // A plate that is measured at each pole has as many seats as poles: it takes no pole more by itself.
        if path == "poles.count" && before.rows.find("roof.seats.1").is_some() {
            continue;
        }
        let change = |share: f64| rewritten(text, path, &spelled_at(text, path, nudged(row.quantity, share)));
        let after = |share: f64| edit::try_answered(&change(share)).map(|answers| rows(&answers));
        let shares = [0.01, 0.001, -0.01];
        // What stands just at a limit, as a lift that wants a platform, is changed the other way.
        let alike = shares.into_iter().find_map(|share| after(share).filter(|new| new.len() == old.len()));
        let new = alike.or_else(|| shares.into_iter().find_map(after));
        // A run has room for the anchors that lie in it, and may have none for one more.
        let is_of_anchors = path.starts_with("wall.anchors.") && path.ends_with(".count");
        let Some(new) = new else {
            // A trial mix is a whole number of steps: no hundredth of either is.
            let is_of_steps = path == "tests.mixes.floor.step" || path == "tests.mixes.floor.plan.batch";
            assert!(is_of_anchors || is_of_steps, "{name}: no small change of {path} is accepted");
            continue;
        };
        if old.len() != new.len() {
            // Runs of the ring and the spiral meet without a corner; a moved point makes one, and rows for it. Another pole and another
            // anchor have rows of their own.
            let is_smooth = ["plain-ring", "spiral-wall"].contains(&name);
            let makes = is_smooth && path.starts_with("wall.line.") || path == "poles.count" || is_of_anchors;
            assert!(makes, "{name}: {path} makes other rows");
            continue;
        }
        let reached = ways.to(path);
        for other in before.rows.iter() {
            let now = new.get(&other.path).unwrap_or_else(|| panic!("{name}: {path} makes no row {}", other.path));
            let moved = !is_alike(&other.path, old[&other.path], *now);
            found.push((other.path.clone(), path.to_owned(), moved, reached.how(&other.path)));
        }
    }
    found
}

#[test]
fn a_written_value_changed_by_a_hundredth_moves_no_row_that_it_does_not_reach() {
    let mut faults = Vec::new();
    for (name, text) in BUILDS {
        let unreached = moves(name, text).into_iter().filter(|(.., moved, reached)| *moved && *reached == Reach::None);
        faults.extend(unreached.map(|(row, path, ..)| format!("{name}: {row} by {path}")));
    }
    assert!(faults.is_empty(), "moved and not reached:\n{}", faults.join("\n"));
}

#[test]
fn a_written_value_changed_by_a_hundredth_moves_every_row_that_it_reaches() {
    let mut faults = Vec::new();
    for (name, text) in BUILDS {
        // At right angles a point moved along its run turns no corner, and a ring's arc keeps its radius when its middle
        // moves along it; a plan out of square has no such chance.
        let text = edit::out_of_square(text);
        let all = moves(name, &text);
        let has_gap = all.iter().any(|(row, ..)| row.starts_with("wall.gap."));
        for (_, path, ..) in all.iter().filter(|(row, path, ..)| row == path && path.starts_with("earth.")) {
            // What cancels in one row must show in another.
            let mut reached = all.iter().filter(|(row, by, _, how)| by == path && row != path && *how == Reach::Smooth);
            let count = reached.clone().count();
            assert!(count == 0 || reached.any(|(_, _, moved, _)| *moved), "{name}: {path} moves none of {count} rows");
        }
        let parts = |stem: &str| all.iter().filter(|(row, path, ..)| row == path && path.starts_with(stem)).count();
        let moves = |row: &str, group: &str| {
            all.iter().any(|(other, path, moved, _)| *moved && other == row && group_of(path) == group)
        };
        let found = all
            .iter()
            .filter(|(_, _, moved, reached)| *reached == Reach::Smooth && !moved)
            .filter(|(row, path, ..)| !cancels(name, row, path))
            .filter(|(row, path, ..)| !(is_of_the_worst_place(name, row) && moves(row, group_of(path))))
            .filter(|(row, path, ..)| !(has_gap && is_trimming(row, path)))
            .filter(|(row, path, ..)| !is_of_one_batch(row, path, parts))
            .map(|(row, path, ..)| format!("{name}: {row} by {path}"));
        faults.extend(found);
    }
    assert!(faults.is_empty(), "reached and unmoved:\n{}", faults.join("\n"));
}

/// Where what is written goes in twice and comes out as nothing.
fn cancels(name: &str, row: &str, path: &str) -> bool {
    // A corner between straight runs is halved by its own point: what its rounding takes from the whole way round it takes
    // half from the way to the outlet, and the depth there does not change. Both corners of the ring are rounded by the
    // thickness of the wall.
    let point = row.strip_prefix("wall.line.").and_then(|rest| rest.strip_suffix(".trench-depth"));
    let by_thickness = name == "plain-ring" && path == "wall.thickness";
    let rounding = point.is_some_and(|point| by_thickness || path == format!("wall.line.{point}.round"));
    // A boundary between two lifts takes from the one what it gives to the other, and so does a niche across it.
    let across = path.starts_with("wall.lifts.") || path == "built-in.bread-niche.sill";
    let boundary = row.ends_with(".standing") && across;
    // Larger batches are fewer, lighter buckets more; a mean height does not know how long it is.
    let by_the_bucket = [".brim", ".heap", ".density", ".bulking", ".batch"].iter().any(|noun| path.ends_with(noun));
    let of_the_piles = ["earth.", "tests.bulking."].iter().any(|stem| path.starts_with(stem));
    let size_of_a_batch = of_the_piles
        && (by_the_bucket || path.starts_with("tests."))
        && ["earth.recipes.", "order.", "wall.lifts.", "wall.cob.", "balance.", "site."]
            .iter()
            .any(|stem| row.starts_with(stem));
    // So are those of a lot and of a bay, where the recipe is written in shares of one batch.
    let batches = of_the_piles && row.ends_with(".batches") && !row.starts_with("earth.");
    let mean = row == "water.drain.girth" && path == "water.drain.length";
    // Nor does an even load know how large the roof is.
    let even = row == "roof.dead-load" && !path.starts_with("roof.layers.");
    // The topsoil of the drain goes back on top of it: what is left on the heap does not know how much it was.
    let back = row.starts_with("balance.topsoil.") && path.starts_with("water.") && !path.ends_with(".width");
    // The ring's corners are so blunt that their rounding hardly shortens it: less than binary fractions round.
    let blunt = by_thickness && ["water.", "balance.", "set-out.pole."].iter().any(|stem| row.starts_with(stem))
        || name == "plain-ring" && row.starts_with("set-out.points.") && path.starts_with("wall.line.");
    // The level of a small hole changes how long a bent face is there, by less than the rounding of the whole face.
    let small = path.starts_with("built-in.") && path.ends_with(".level") && !row.starts_with("built-in.");
    let small = small && !row.starts_with("wall.");
    // So are those of the spiral out of square, whose runs meet smoothly as they are written.
    let on_the_line = [".station", ".trench-depth"].iter().any(|noun| row.ends_with(noun));
    let blunt = blunt || name == "spiral-wall" && path.starts_with("wall.line.") && on_the_line;
    // A height higher than a lift does not move it; where the wall is lower, another height does.
    let higher = name == "spiral-wall" && row.starts_with("wall.lifts.second.") && path == "wall.line.seat.height";
    // A threshold follows the floor, and the outlet lies as much below the high end of the trench however deep that is.
    let follows = row.ends_with(".inside") && path == "ground.floor"
        || row == "set-out.pole.trench-high.on-pole" && path == "water.trench.depth";
    // A baseline that the builder leaves to the program stands off the corner of the wall that reaches farthest: of that
    // corner's own pegs it moves along.
    let farthest = match name {
        "burdock-rise" | "quince-hut" => ["south", "west"],
        _ => ["", ""],
    };
    let corner = row.strip_prefix("set-out.corner-").and_then(|rest| rest.split('.').nth(1));
    let stands_off = corner.is_some_and(|corner| farthest.contains(&corner))
        && (row.ends_with(".along") || row.ends_with(".offset"))
        && path.starts_with("wall.line.");
    // So does the peg of the end of an open wall that reaches farthest.
    let end = name == "spiral-wall" && row.starts_with("set-out.points.outer.") && path.starts_with("wall.line.outer.");
    // A pole that is left over does not move what the choice of the others costs.
    let left_over = row.starts_with("poles.choice.") && path.starts_with("poles.pile.");
    // The beam lifts the plate and the prop alike.
    let lifted = row == "roof.raising.prop-above-plate" && path == "wall.bond-beam.height";
    back || batches
        || exempt::is_of_a_beam_alike_for_all(row, path)
        || exempt::is_of_an_odd_layer(row, path)
        || exempt::is_of_the_worst_score(name, path)
        || exempt::is_of_a_level_rafter(row, path)
        || exempt::is_determinate(row, path)
        || exempt::is_of_the_least_snow(name, row, path)
        || exempt::is_of_a_band(row, path)
        || exempt::is_round_one_corner(name, row, path)
        || exempt::is_of_the_middle_rafter(name, row, path)
        || exempt::is_of_the_sieve(row, path)
        || left_over
        || lifted
        || end
        || stands_off
        || follows
        || higher
        || small
        || blunt
        || rounding
        || boundary
        || size_of_a_batch
        || mean
        || even
}

/// The same, or so nearly that solving a frame rounds more away.
fn is_alike(path: &str, one: Quantity, other: Quantity) -> bool {
    let [one_si, other_si] = [one.si(), other.si()].map(|si| si.unwrap_or(f64::NAN));
    // A bond beam is far stiffer along than across, and what its poles push across nearly cancels: a millionth of a newton is
    // rounded away, and half of that in each of two planks.
    let in_plan = [(".ring-force", 2e-6), (".moment-plan", 2e-6), (".held-force", 2e-6), (".held-moment", 2e-6)];
    let in_plan = in_plan.iter().chain(&[(".scarf-force", 1e-6), (".scarf-across", 2e-5)]);
    // How far off the middle a load falls that all but balances is rounded to a picometre.
    let in_plan = in_plan.chain(&[(".farthest", 1e-12), (".off-middle", 1e-12), (".tipping", 1e-11)]);
    let rounded = in_plan.filter(|(noun, _)| path.starts_with("roof.beam.") && path.ends_with(noun));
    let rounded = rounded.map(|(_, most)| *most).fold(0.0, f64::max);
    exempt::is_of_a_frame(path) && (one_si - other_si).abs() <= 1e-9 * one_si.abs() + rounded || same(one, other)
}

/// Equal but for the rounding of binary fractions: a hundredth of anything moves a row by far more.
fn same(one: Quantity, other: Quantity) -> bool {
    match (one.si(), other.si()) {
        (Some(one), Some(other)) => near(one, other),
        _ => one == other,
    }
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-12 * one.abs().max(other.abs()).max(1e-3)
}

#[test]
fn doubled_lengths_make_four_times_the_areas_and_eight_times_the_volumes() {
    for (name, text) in BUILDS {
        let before = answered(text);
        let mut doubled = text.to_owned();
        // Who builds a house twice as large reaches no higher.
        let reached = |row: &Row| {
            [
                "skin.reach",
                "wall.platform.above",
                "roof.bolt.diameter",
                "roof.bolt.washer",
                "wall.bond-beam.bolt",
                "wall.bond-beam.washer",
            ]
            .contains(&row.path.as_str())
        };
        for row in given(&before).into_iter().filter(|row| !reached(row)) {
            if let Quantity::Length(length) = row.quantity {
                doubled = rewritten(&doubled, &row.path, &spelled((length * 2.0).into()));
            }
        }
        // A lift of at most 450 mm, or a drawing's north, does not grow with the house; nor does what leans on it.
        let by_thumb = |row: &Row| row.path.starts_with("wall.lifts.");
        // Buckets, loaves, densities and prices do not grow with the house either.
        let measured = |row: &Row| {
            row.own.is_some() && !matches!(row.quantity.kind(), Kind::Length | Kind::Slope | Kind::Ratio | Kind::Number)
        };
        let rounded = |row: &Row| row.own.is_none() && steps(row.quantity);
        let fixed = |row: &Row| {
            reached(row)
                || is_of_the_code(&row.path)
                || rounded(row)
                || measured(row)
                || row.is_assumed() && (by_thumb(row) || row.reason.inputs.is_empty())
        };
        let thumb = before.rows.matching("wall.lifts.*.top").any(Row::is_assumed);
        let scales = |path: &str| {
            let by_thumb = thumb && path.starts_with("wall.lifts.");
            !by_thumb && !behind(&before.rows, path).into_iter().any(fixed)
        };
        let new = rows(&answered(&doubled));
        let scaling: Vec<(String, Quantity)> = rows(&before).into_iter().filter(|(path, _)| scales(path)).collect();
        assert!(scaling.len() > 50, "{name}: too little scales");
        for (path, quantity) in scaling {
            let factor = match quantity.kind() {
                Kind::Length => 2.0,
                Kind::Area => 4.0,
                Kind::Volume | Kind::SectionModulus => 8.0,
                // Water behind an edge board is as dense there: what it lays on a metre grows as its section.
                Kind::LineLoad if path == "roof.loads.pond" => 4.0,
                _ => 1.0,
            };
            if let (Some(old), Some(new)) = (quantity.si(), new[&path].si()) {
                assert!(near(old * factor, new), "{name}: {path}: {old} became {new}");
            }
        }
    }
}

#[test]
fn metric_and_us_spelling_give_the_same_answers() {
    for (name, text) in BUILDS {
        let before = answered(text);
        for us in [true, false] {
            let mut other = text.to_owned();
            for row in given(&before) {
                let spelling = match (row.quantity, us) {
                    (Quantity::Length(length), true) => format!("{:.20} in", length.in_inches()),
                    (Quantity::Length(length), false) => format!("{:.19} cm", length.in_cm()),
                    (Quantity::Area(area), true) => format!("{:.16} sq ft", area.in_sq_ft()),
                    (Quantity::Area(area), false) => format!("{:.16} m2", area.in_m2()),
                    (Quantity::Volume(volume), true) => format!("{:.16} US gal", volume.in_us_gal()),
                    (Quantity::Volume(volume), false) => format!("{:.16} L", volume.in_litres()),
                    (Quantity::Mass(mass), true) => format!("{:.15} lb", mass.in_lb()),
                    (Quantity::Mass(mass), false) => format!("{:.15} kg", mass.in_kg()),
                    (Quantity::Density(density), true) => format!("{:.15} pcf", density.in_lb_ft3()),
                    (Quantity::Density(density), false) => format!("{:.15} kg/m3", density.in_kg_m3()),
                    (Quantity::SurfaceMass(mass), true) => format!("{:.16} lb/sq ft", mass.in_lb_ft2()),
                    (Quantity::SurfaceMass(mass), false) => format!("{:.16} kg/m2", mass.in_kg_m2()),
                    _ => continue,
                };
                other = rewritten(&other, &row.path, &format!("\"{spelling}\""));
            }
            let new = rows(&answered(&other));
            for (path, quantity) in rows(&before) {
                match (quantity.si(), new[&path].si()) {
                    (Some(old), Some(_)) => {
                        assert!(
                            is_alike(&path, quantity, new[&path]),
                            "{name}: {path} is {new:?}, not {old}",
                            new = new[&path].si()
                        )
                    }
                    _ => assert_eq!(quantity, new[&path]),
                }
            }
        }
    }
}

#[test]
fn a_mirrored_plan_gives_the_same_bill() {
    let [(_, text), ..] = BUILDS;
    let before = answered(text);
    let after = answered(&edit::mirrored(text));
    for path in [
        "wall.volume",
        "wall.length",
        "room.area",
        "wall.outer-area",
        "wall.inner-area",
        "wall.stem.volume",
        "water.trench.volume",
        // The poles of a ring lie the same way round whichever way the plan is, so what lies on them differs.
        "roof.eave-area",
        "roof.plan-area",
        "roof.deck.plan-area",
        "order.soil.units",
        "order.stone.loads",
        "order.gravel.ground",
    ] {
        let value = |answers: &Answers| answers.rows.find(path).unwrap().quantity.si().unwrap();
        assert!((value(&before) - value(&after)).abs() < 1e-9, "{path}: {} and {}", value(&before), value(&after));
    }
}
