//! The bond beam: joints far enough apart for their scarfs in every layer, no piece longer than its timber, short corners joined.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/edit.rs"]
#[allow(dead_code, reason = "shared with the laws")]
mod edit;
#[path = "bond_beam/scarfs.rs"]
mod scarfs;

use edit::{BUILDS, answered};
use engine::answers::Answers;
use engine::check::{Check, State};

fn value(answers: &Answers, path: &str) -> Option<f64> {
    answers.rows.find(path).and_then(|row| row.quantity.si())
}

/// The stems of the parts of a beam with the length of each along its middle.
fn parts(answers: &Answers) -> Vec<(String, f64)> {
    let rows = answers.rows.matching("wall.bond-beam.runs.*.pieces");
    rows.map(|row| {
        let stem = row.path.trim_end_matches(".pieces").to_owned();
        let length = ["part-length", "length"].iter().find_map(|noun| value(answers, &format!("{stem}.{noun}")));
        (stem, length.unwrap())
    })
    .collect()
}

#[test]
fn joints_of_a_layer_and_of_the_next_stand_a_scarf_apart_and_the_parts_are_the_whole() {
    let mut beams = 0;
    for (name, text) in BUILDS {
        let answers = answered(text);
        let beam = |noun: &str| value(&answers, &format!("wall.bond-beam.{noun}")).unwrap();
        if answers.rows.find("wall.bond-beam.scarf").is_none() {
            continue;
        }
        beams += 1;
        let between = if beam("layers") > 1.0 { 2.0 } else { 1.0 };
        let whole = value(&answers, "wall.top-length").unwrap();
        let mut sum = 0.0;
        for (stem, length) in parts(&answers) {
            let pieces = value(&answers, &format!("{stem}.pieces")).unwrap();
            assert!(length / pieces > between * beam("scarf") - 1e-9, "{name}: {stem}: {length} in {pieces}");
            sum += length;
        }
        assert!((sum - whole).abs() < 1e-9, "{name}: the parts are {sum}, the beam is {whole}");
        assert!(beam("longest") <= beam("piece") + 1e-9, "{name}: {}", beam("longest"));
    }
    assert_eq!(beams, 3);
}

#[test]
fn a_corner_shorter_than_a_piece_must_be_is_cut_with_the_run_beside_it() {
    let [(_, text), ..] = BUILDS;
    let answers = answered(text);
    let value = |path: &str| value(&answers, &format!("wall.bond-beam.runs.{path}"));
    let corners = ["back-corner", "east-end-corner"];
    for corner in corners {
        let length = value(&format!("{corner}.length")).unwrap();
        assert!(length < 0.4 && value(&format!("{corner}.pieces")).is_none(), "{corner}: {length}");
    }
    let own: f64 = corners.iter().map(|corner| value(&format!("{corner}.length")).unwrap()).sum();
    let (joined, run) = (value("back.part-length").unwrap(), value("back.length").unwrap());
    assert!((joined - run - own).abs() < 1e-12, "{joined} of {run} and {own}");
}

/// A wall of four straight runs, the corner at its first point rounded by a radius, with a beam of one layer.
fn cornered(round: &str, beam: &str) -> String {
    let point = |name: &str, x: u32, y: u32| format!("[[wall.line]]\nname = \"{name}\"\nat = [\"{x} m\", \"{y} m\"]\n");
    format!(
        "format = 1\n[build]\nname = \"Corners\"\n[wall]\nthickness = \"400 mm\"\nheight = \"2.2 m\"\n\
         bond-beam = {{ width = \"200 mm\", height = \"100 mm\", {beam} }}\n{}round = \"{round}\"\n{}{}{}",
        point("south", 0, 0),
        point("east", 5, 0),
        point("north", 5, 4),
        point("west", 0, 4),
    )
}

#[test]
fn a_sharp_corner_takes_what_one_piece_lacks_from_both_runs_beside_it() {
    // A quarter of a circle of 240 mm is 377.0 mm long: a piece must be 400 mm, and 11.5 mm come from either side.
    let answers = answered(&cornered("240 mm", "scarf = \"400 mm\""));
    let value = |path: &str| value(&answers, &format!("wall.bond-beam.runs.{path}")).unwrap();
    assert!((value("south-corner.length") - 0.376_991).abs() < 5e-7);
    assert!((value("south-corner.part-length") - 0.4).abs() < 1e-12);
    assert!((value("south-corner.pieces") - 1.0).abs() < 1e-12);
    for run in ["south", "west"] {
        let gives = value(&format!("{run}.length")) - value(&format!("{run}.part-length"));
        assert!((gives - 0.5 * (0.4 - 0.376_991)).abs() < 5e-7, "{run} gives {gives}");
    }
    // Its ends lie 0.011 504 m before and behind the quarter: 0.355 680 m apart, each at 45° to the chord, and sawn its corners
    // reach 0.1 sin 45° farther on either side.
    let cut = value("south-corner.cut-length");
    assert!((cut - (0.355_680 + 0.2 * std::f64::consts::FRAC_1_SQRT_2 + 0.4)).abs() < 2e-6, "{cut}");
    // A quarter of a circle of 255 mm, 400.6 mm long, is a part of its own.
    let answers = answered(&cornered("255 mm", "scarf = \"400 mm\""));
    assert!(answers.rows.find("wall.bond-beam.runs.south-corner.part-length").is_none());
}

#[test]
fn planks_of_a_lower_class_use_more_of_their_strength_and_the_poles_do_not_feel_it() {
    let [(_, text), ..] = BUILDS;
    let (own, lower) = (answered(text), answered(&text.replacen("class = \"C24\"", "class = \"C16\"", 1)));
    let shear = |answers: &Answers| {
        let of = |noun: &str| value(answers, &format!("roof.beam.back.{noun}")).unwrap();
        of("shear") / of("shear-force")
    };
    // Shear of 4.0 and of 3.2 N/mm2 by EN 338.
    assert!((shear(&lower) / shear(&own) - 4.0 / 3.2).abs() < 1e-9, "{} {}", shear(&lower), shear(&own));
    for row in ["roof.members.1.bending", "roof.crossings.1.bearing"] {
        assert_eq!(value(&lower, row), value(&own, row));
    }
}

#[test]
fn an_anchor_that_nobody_pulled_is_not_known_and_its_pull_stays() {
    let [(_, text), ..] = BUILDS;
    let row = "roof.beam.anchors.back-1";
    let told = answered(text);
    let [pull, used] = ["pull", "used"].map(|noun| value(&told, &format!("{row}.{noun}")).unwrap());
    assert!((used - pull / 4200.0).abs() < 1e-12);
    let kept = text.lines().filter(|line| !line.starts_with("holds = \"4.2 kN\"") && !line.starts_with("holds-by"));
    let silent = answered(&kept.collect::<Vec<_>>().join("\n"));
    assert_eq!(value(&silent, &format!("{row}.pull")), Some(pull));
    assert_eq!(silent.rows.unknown("roof.beam.anchors.*.used").count(), 10);
}

#[test]
fn what_lifts_is_found_with_nine_tenths_of_what_stays_and_the_strength_of_wood_is_not() {
    let [(_, text), ..] = BUILDS;
    let answers = answered(text);
    let lifts =
        |path: &str| path.ends_with(".held-down") || path.starts_with("roof.beam.anchors.") && path.ends_with(".pull");
    let lifted = answers.rows.iter().filter(|row| lifts(&row.path)).count();
    let tenths: Vec<&str> = answers
        .rows
        .iter()
        .filter(|row| row.title.contains("under 0.9 G + wind up"))
        .map(|row| row.path.as_str())
        .collect();
    assert!(lifted > 9 && tenths.len() == lifted, "{lifted} rows lift: {tenths:?}");
    assert!(tenths.iter().all(|path| lifts(path)), "{tenths:?}");
}

fn title<'a>(answers: &'a Answers, path: &str) -> &'a str {
    answers.rows.find(path).map_or("", |row| row.title.as_str())
}

#[test]
fn of_pole_and_planks_the_softer_counts_each_with_what_helps_along_its_own_grain() {
    let [(_, text), ..] = BUILDS;
    let graded = |planks: &str, poles: &str| {
        let text = text.replacen("class = \"C24\"", &format!("class = \"{planks}\""), 1);
        answered(&text.replacen("class = \"C24\"", &format!("class = \"{poles}\""), 1))
    };
    let (of_pole, of_planks) = (graded("C30", "C14"), graded("C14", "C30"));
    for place in 1..=9 {
        let row = |noun: &str| format!("roof.beam.seats.{place}.{noun}");
        assert!(title(&of_pole, &row("bearing")).contains("bearing strength of the pole"), "{place}");
        assert!(title(&of_planks, &row("bearing")).contains("bearing strength of the bond beam used"), "{place}");
        // EN 1995-1-1, 6.1.5: 30 mm beside the seat to either side, along the beam for its planks and along the pole for the pole.
        let [pole, planks] = [&of_pole, &of_planks].map(|answers| value(answers, &row("area")).unwrap());
        let flat = planks / 0.28 - 0.06;
        assert!((pole - flat * (0.28 + 0.06)).abs() < 1e-12, "{place}: {pole} for a flat of {flat}");
    }
}

/// The house of which nobody says what holds the feet of its poles.
fn silent_of_feet() -> String {
    let [(_, text), ..] = BUILDS;
    let kept: String = text.split_inclusive("\n\n").filter(|part| !part.starts_with("[roof.feet]")).collect();
    assert!(kept.len() < text.len());
    kept
}

#[test]
fn feet_that_are_held_tip_the_beam_in_no_check_that_fails() {
    let answers = answered(&silent_of_feet());
    let seats: Vec<f64> = (1..=9)
        .map(|place| {
            let row = |noun: &str| format!("roof.beam.seats.{place}.{noun}");
            for noun in ["tipping", "pressure", "off-middle"] {
                assert!(title(&answers, &row(noun)).contains("feet free to slide"), "{place}: {noun}");
            }
            assert!(title(&answers, &row("held-farthest")).contains("feet held"), "{place}");
            value(&answers, &row("held-farthest")).unwrap()
        })
        .collect();
    // Of half of 280 mm, at the seat where it is the farthest.
    let most = seats.iter().copied().fold(0.0, f64::max);
    let share = value(&answers, "roof.beam.held-tipping").unwrap();
    assert!((share - most / 0.14).abs() < 1e-12 && share > 1.0, "{share}");
    let feet = answers.checks.iter().find(|check| check.path.as_deref() == Some("roof.feet.slips")).unwrap();
    assert_eq!(feet.state, State::NotKnown);
    let said = format!("would fall {:.0} % of half", 100.0 * share);
    assert!(
        feet.subject.to_lowercase().contains("nobody wrote [roof.feet]") && feet.subject.contains(&said),
        "{}",
        feet.subject
    );
    let tipping = |check: &&Check| check.path.as_deref().is_some_and(|path| path.ends_with(".tipping"));
    assert!(answers.checks.iter().filter(tipping).all(|check| check.state != State::Fails));
}

/// The house with secondary rafters on trimmers, in a wind.
fn beside_secondary(wind: &str) -> String {
    let [(_, text), ..] = BUILDS;
    let keys = "\n[roof.secondary]\ncount = 2\nat = \"60 %\"\ndiameter = \"150 mm\"\ntrimmer = \"140 mm\"\nof = \"larch-pole\"\n";
    format!("{}{keys}", text.replace("wind = \"23 m/s\"", &format!("wind = \"{wind}\"")))
}

#[test]
fn beside_secondary_rafters_no_share_of_an_anchor_and_no_twist_is_known_whether_poles_lift_there_or_not() {
    // In so strong a wind anchors must hold what poles lift; in a breeze they need not, and rafters between them still may lift.
    for (wind, lifts) in [("60 m/s", true), ("5 m/s", false)] {
        let answers = answered(&beside_secondary(wind));
        let pulls: Vec<&str> =
            answers.rows.matching("roof.beam.anchors.*.pull").map(|row| row.title.as_str()).collect();
        assert_eq!(!pulls.is_empty(), lifts, "{wind}: {pulls:?}");
        assert!(pulls.iter().all(|title| title.contains("of the poles alone")), "{pulls:?}");
        let unknown: Vec<&str> = answers.rows.unknown("roof.beam.anchors.*.used").map(|(_, title)| title).collect();
        assert_eq!(unknown.len(), 10, "{wind}: as many as there are anchors: {unknown:?}");
        let beside = |title: &&str| title.contains("what secondary rafters press on it and lift");
        assert!(unknown.iter().all(beside), "{unknown:?}");
        assert_eq!(answers.rows.matching("roof.beam.anchors.*.used").count(), 0);
        let parts = answers.rows.matching("roof.beam.*.shear-force").count();
        let twists: Vec<&str> = answers.rows.unknown("roof.beam.*.twist").map(|(_, title)| title).collect();
        assert!(parts > 0 && twists.len() == parts && twists.iter().all(beside), "{wind}: {twists:?} of {parts}");
        assert_eq!(answers.rows.matching("roof.beam.*.twist").count(), 0);
    }
}

#[test]
fn beside_secondary_rafters_a_roof_without_anchors_is_not_told_that_nothing_must_hold_it_down() {
    let text = beside_secondary("5 m/s");
    // What is bought for them with them.
    let is_kept = |part: &&str| !part.contains("[wall.anchors.") && !part.contains("[prices.deadman]");
    let kept: String = text.split_inclusive("\n\n").filter(is_kept).collect();
    assert!(!kept.contains("[wall.anchors.") && text.contains("[wall.anchors."));
    let answers = answered(&kept);
    let unknown: Vec<&str> = answers.rows.unknown("roof.beam.anchors.*.used").map(|(_, title)| title).collect();
    assert!(matches!(unknown[..], [title] if title.contains("no [wall.anchors] are written")), "{unknown:?}");
}

#[test]
fn planks_of_a_class_weigh_its_mean_unless_somebody_weighed_them() {
    let [(_, text), ..] = BUILDS;
    let line = text.lines().find(|line| line.starts_with("density = \"590 kg/m3\"")).unwrap();
    assert_eq!(value(&answered(text), "wall.bond-beam.density"), Some(590.0));
    // C24 has 420 kg/m3 by EN 338.
    assert_eq!(value(&answered(&text.replacen(line, "", 1)), "wall.bond-beam.density"), Some(420.0));
}

/// The text of the house in a wind, its beam so wide and 100 mm high; of its feet nobody says anything.
fn in_wind(wind: &str, width: &str) -> String {
    let text = silent_of_feet().replace("wind = \"23 m/s\"", &format!("wind = \"{wind}\""));
    let beam = "width = \"280 mm\"\nheight = \"120 mm\"";
    assert!(text.contains(beam));
    text.replacen(beam, &format!("width = \"{width}\"\nheight = \"100 mm\""), 1)
}

/// The house by allowable stresses, in a wind, its beam so wide.
fn american(wind: &str, width: &str) -> Answers {
    let text = in_wind(wind, width)
        .replace("eurocode-timber", "asd-timber")
        .replace("class = \"C24\"", "class = \"DF-L No.2\"")
        .replace("terrain = \"2\"", "exposure = \"c\"");
    answered(&text)
}

#[test]
fn by_european_rules_too_a_seat_is_told_how_wide_the_beam_must_be_and_so_wide_it_holds() {
    let seat = |place: usize, noun: &str| format!("roof.beam.seats.{place}.{noun}");
    let told = |answers: &Answers| -> Vec<usize> {
        (1..=9).filter(|&place| value(answers, &seat(place, "width-needed")).is_some()).collect()
    };
    let narrow = answered(&in_wind("25.3 m/s", "80 mm"));
    let places = told(&narrow);
    let shares: Vec<Option<f64>> = (1..=9).map(|place| value(&narrow, &seat(place, "tipping"))).collect();
    assert!(!places.is_empty(), "{shares:?}");
    let mut widest = 0.0_f64;
    for place in places {
        let off = ["farthest", "off-middle"].iter().find_map(|noun| value(&narrow, &seat(place, noun))).unwrap();
        let [share, wide] = ["tipping", "width-needed"].map(|noun| value(&narrow, &seat(place, noun)).unwrap());
        assert!((share - 2.0 * off / 0.08).abs() < 1e-12 && share > 2.0 / 3.0, "{place}: {share}");
        // A third of the width off the middle.
        assert!((wide - 3.0 * off).abs() < 1e-9, "{place}: {wide} for {off}");
        assert!(title(&narrow, &seat(place, "tipping")).contains("widen it to at least"), "{place}");
        widest = widest.max(wide);
    }
    let wide = answered(&in_wind("25.3 m/s", &format!("{:.0} mm", 1000.0 * widest + 1.5)));
    assert!(told(&wide).is_empty());
    assert!((1..=9).filter_map(|place| value(&wide, &seat(place, "tipping"))).all(|share| share < 2.0 / 3.0));
}

#[test]
fn a_seat_whose_load_falls_near_the_edge_or_outside_is_told_how_wide_or_whither() {
    let seat = |noun: &str| format!("roof.beam.seats.5.{noun}");
    let near = "off the middle of the bond beam, near its edge";
    for (width, says) in [("120 mm", near), ("80 mm", "outside of the bond beam: it tips")] {
        let answers = american("60 m/s", width);
        let title = title(&answers, &seat("asd-tipping"));
        assert!(title.contains(says) && title.contains("move the seat outwards by at least"), "{title}");
        let own = value(&answers, "wall.bond-beam.width").unwrap();
        let [share, wide] = ["asd-tipping", "width-needed"].map(|noun| value(&answers, &seat(noun)).unwrap());
        let off = ["farthest", "off-middle"].iter().find_map(|noun| value(&answers, &seat(noun))).unwrap();
        assert!((share - 2.0 * off / own).abs() < 1e-12 && share > 2.0 / 3.0, "{share}");
        // A third of the width off the middle: 1.5 against overturning.
        assert!((wide - 3.0 * off).abs() < 1e-9, "{wide} for {off}");
        assert!(title.contains("widen it to at least 125 mm"), "{title}");
    }
    // As much wider as is told, the load falls where the rule lets it, and nothing is advised.
    let answers = american("60 m/s", "126 mm");
    assert!(value(&answers, &seat("asd-tipping")).unwrap() < 2.0 / 3.0);
    assert!(value(&answers, &seat("width-needed")).is_none());
    assert!(!title(&answers, &seat("asd-tipping")).contains("widen"));
}

#[test]
fn a_seat_that_hardly_presses_is_told_to_be_held_down_where_no_wall_is_wide_enough_for_the_beam() {
    let answers = american("46 m/s", "200 mm");
    let title = title(&answers, "roof.beam.seats.5.asd-tipping");
    assert!(
        title.contains("it hardly presses there") && title.contains("an anchor beside it or more weight"),
        "{title}"
    );
    assert!(!title.contains("widen") && value(&answers, "roof.beam.seats.5.width-needed").is_none(), "{title}");
}
