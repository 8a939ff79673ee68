//! The wall unrolled and the long section of the trench, beside closed forms and the rows that their numbers come from.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers};
use engine::house::part::{Meaning, Measured, Outline, Section};
use kurbo::{Point, Vec2};

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
const BURDOCK_RISE: &str = include_str!("../../builds/burdock-rise/burdock-rise.loam.toml");
const PLAIN_RING: &str = include_str!("../../builds/plain-ring/plain-ring.loam.toml");
const BUILDS: [&str; 3] = [TANSY_BANK, BURDOCK_RISE, PLAIN_RING];

fn answered(build: &str) -> Answers {
    answers(&Inputs { build: build.as_bytes(), system: None })
        .unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn row(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("no row {path}")).quantity.si().unwrap()
}

fn outlines<'a>(section: &'a Section, path: &str) -> Vec<&'a Outline> {
    section.parts.iter().filter(|part| part.path == path).flat_map(|part| &part.outlines).collect()
}

/// Area of a part whose holes turn the other way.
fn area(section: &Section, path: &str) -> f64 {
    let twice = |points: &[Point]| -> f64 {
        (0..points.len()).map(|at| points[at].to_vec2().cross(points[(at + 1) % points.len()].to_vec2())).sum()
    };
    outlines(section, path).iter().map(|outline| 0.5 * twice(&outline.points)).sum()
}

fn drawn_at(section: &Section, path: &str) -> Point {
    section.places.iter().rfind(|place| place.path == path).unwrap_or_else(|| panic!("no place {path}")).at
}

/// Length of the line times the height, and what the widths written take out of it between foot and top.
fn whole_and_taken(answers: &Answers) -> (f64, f64) {
    let taken = |opening: &str| {
        let value = |noun: &str| answers.rows.find(&format!("{opening}.{noun}")).map(|row| row.quantity.si().unwrap());
        let bottom = value("sill").or_else(|| value("threshold")).unwrap();
        value("width").unwrap() * (bottom + value("height").unwrap() - bottom.max(0.0))
    };
    let openings = answers.rows.matching("openings.*.width").map(|row| taken(row.path.trim_end_matches(".width")));
    (row(answers, "wall.length") * row(answers, "wall.height"), openings.sum())
}

#[test]
fn the_cob_of_straight_runs_is_length_times_height_less_the_openings() {
    // Under a level top, and up to it.
    let fifth = "[[wall.lifts]]\nname = \"lift-5\"\ntop = \"8 ft\"\n\n";
    assert!(BURDOCK_RISE.contains(fifth));
    let kept = BURDOCK_RISE.lines().filter(|line| !line.starts_with("top = { slope"));
    let level = kept.collect::<Vec<_>>().join("\n");
    let answers = answered(&level.replacen(fifth, "", 1));
    let (whole, taken) = whole_and_taken(&answers);
    assert!((area(&answers.unrolled, "wall") - (whole - taken)).abs() < 1e-9);
}

#[test]
fn in_a_ring_an_opening_takes_the_arc_over_its_width() {
    let answers = answered(PLAIN_RING);
    let (whole, taken) = whole_and_taken(&answers);
    let arc = 2.0 * 2.0 * (0.8f64 / (2.0 * 2.0)).asin();
    assert!((area(&answers.unrolled, "wall") - (whole - taken * arc / 0.8)).abs() < 1e-9);
}

#[test]
fn where_the_wall_bends_a_little_more_than_the_widths_is_taken_out() {
    let answers = answered(TANSY_BANK);
    let (whole, taken) = whole_and_taken(&answers);
    let drawn = whole - area(&answers.unrolled, "wall");
    assert!(taken < drawn && drawn < 1.005 * taken, "{drawn} taken out, {taken} by the widths");
}

#[test]
fn an_opening_across_the_first_point_is_drawn_at_both_ends() {
    let build = PLAIN_RING.replace("run = \"west\"\nalong = \"3 m\"", "run = \"east\"\nalong = \"100 mm\"");
    assert_ne!(build, PLAIN_RING);
    let answers = answered(&build);
    let length = row(&answers, "wall.length");
    let mut ends: Vec<[f64; 2]> = outlines(&answers.unrolled, "openings.door")
        .iter()
        .map(|outline| [outline.points[0].x, outline.points[1].x])
        .collect();
    ends.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let half = 2.0 * (0.4f64 / 2.0).asin();
    let expected = [[0.0, 0.1 + half], [length + 0.1 - half, length]];
    assert_eq!(ends.len(), 2);
    for (drawn, expected) in ends.iter().flatten().zip(expected.iter().flatten()) {
        assert!((drawn - expected).abs() < 1e-9, "{ends:?}");
    }
    let (whole, taken) = whole_and_taken(&answers);
    assert!((area(&answers.unrolled, "wall") - (whole - taken * 2.0 * half / 0.8)).abs() < 1e-9);
    assert_eq!(outlines(&answers.unrolled, "wall").len(), 1, "the cob hangs together over the door");
}

#[test]
fn from_outside_the_walk_goes_to_the_right() {
    // The house is a rectangle: who faces its south wall from outside has the east to the right, and so on round.
    let answers = answered(BURDOCK_RISE);
    let plan = |path: &str| answers.plan.places.iter().find(|place| place.path == path).unwrap().at;
    for (opening, corner, right) in [
        ("openings.door", "wall.line.east", Vec2::new(1.0, 0.0)),
        ("openings.east-window", "wall.line.north", Vec2::new(0.0, 1.0)),
        ("openings.hatch", "wall.line.west", Vec2::new(-1.0, 0.0)),
        ("openings.west-window", "wall.line.south", Vec2::new(0.0, -1.0)),
    ] {
        assert!((plan(corner) - plan(opening)).dot(right) > 0.0, "{corner} is not to the right of {opening}");
        let unrolled = drawn_at(&answers.unrolled, corner).x - drawn_at(&answers.unrolled, opening).x;
        assert!(unrolled > 0.0, "{corner} is drawn to the left of {opening}");
    }
}

#[test]
fn two_rows_show_the_whole_wall_and_part_no_opening() {
    for build in BUILDS {
        let answers = answered(build);
        for path in ["wall", "wall.stem"] {
            let rows: f64 = answers.unrolled_rows.iter().map(|section| area(section, path)).sum();
            let whole = area(&answers.unrolled, path);
            assert!((rows - whole).abs() < 1e-9, "{path}: {rows} in rows, {whole} m² in all");
        }
        for opening in answers.rows.matching("openings.*.width") {
            let path = opening.path.trim_end_matches(".width");
            let count: usize = answers.unrolled_rows.iter().map(|section| outlines(section, path).len()).sum();
            assert_eq!(count, 1, "{path} is parted");
        }
    }
}

#[test]
fn lifts_are_parted_by_lines_that_stop_at_openings() {
    let answers = answered(TANSY_BANK);
    let lengths = |lift: &str| -> Vec<f64> {
        outlines(&answers.unrolled, &format!("wall.lifts.{lift}"))
            .iter()
            .map(|line| line.points[1].x - line.points[0].x)
            .collect()
    };
    // The bed of the first lift meets the door alone; that of the fourth also both lights, and the window ends below it.
    assert_eq!((lengths("first").len(), lengths("fourth").len(), lengths("last").len()), (2, 4, 0));
    let whole = row(&answers, "wall.length");
    let gaps = whole - lengths("first").iter().sum::<f64>();
    assert!((0.9..0.9 * 1.005).contains(&gaps), "{gaps}");
}

#[test]
fn every_dimension_and_level_is_as_long_and_as_high_as_its_row_says() {
    for build in BUILDS {
        let answers = answered(build);
        let sections = [&answers.unrolled].into_iter().chain(&answers.unrolled_rows).chain(&answers.trench_section);
        for section in sections.chain(&answers.trench_rows) {
            for dimension in &section.dimensions {
                let Measured::Between { from, to, .. } = dimension.measured else { panic!("no radius is drawn here") };
                let (drawn, said) = (from.distance(to), row(&answers, &dimension.path));
                // A width is measured straight across, and drawn along the wall.
                let most = if dimension.path.ends_with(".width") { 1.01 * said } else { said };
                assert!(said - 1e-9 < drawn && drawn < most + 1e-9, "{}: {drawn} is not {said}", dimension.path);
            }
            for level in &section.levels {
                let said = match level.path.as_str() {
                    "wall" => 0.0,
                    "wall.stem.height" => -row(&answers, &level.path),
                    path => row(&answers, path),
                };
                assert!((level.at.in_m() - said).abs() < 1e-9, "{}: {} is not {said}", level.path, level.at.in_m());
            }
        }
    }
}

#[test]
fn the_trench_falls_evenly_to_the_level_of_its_outlet_and_the_drain_on_to_daylight() {
    for build in BUILDS {
        let answers = answered(build);
        let section = answers.trench_section.as_ref().unwrap();
        let half = 0.5 * row(&answers, "wall.length");
        let [high, outlet] = [0, 1].map(|at| outlines(section, "water.trench")[0].points[at]);
        assert_eq!((high.x, outlet.x), (0.0, half));
        assert!((outlet.y - row(&answers, "water.trench.outlet-level")).abs() < 1e-9);
        assert!((high.y - outlet.y - half * row(&answers, "water.trench.fall")).abs() < 1e-9);
        let drain = outlines(section, "water.drain");
        let bottom = drain.iter().find(|outline| outline.meaning == Meaning::Cut);
        let Some(daylight) = answers.rows.find("water.drain.daylight") else {
            assert!(bottom.is_none(), "nobody knows how the drain falls");
            assert!(outlines(section, "ground.outside").iter().all(|outline| outline.meaning == Meaning::Hidden));
            continue;
        };
        let [from, to] = [bottom.unwrap().points[0], bottom.unwrap().points[1]];
        assert_eq!(from, outlet);
        assert!((to.y - daylight.quantity.si().unwrap()).abs() < 1e-9);
        assert!((from.y - to.y - row(&answers, "water.drain.fall") * (to.x - from.x)).abs() < 1e-9);
    }
}

#[test]
fn without_a_trench_there_is_no_long_section_and_without_a_drain_it_ends_at_the_outlet() {
    let (dry, rest) = PLAIN_RING.split_once("[water.trench]").unwrap();
    let (trench, rest) = rest.split_once("[water.drain]").unwrap();
    let wall = &rest[rest.find("[wall]").unwrap()..];
    let answers = answered(&format!("{dry}{wall}"));
    assert!(answers.trench_section.is_none() && answers.trench_rows.is_empty());
    let answers = answered(&format!("{dry}[water.trench]{trench}{wall}"));
    let section = answers.trench_section.unwrap();
    assert_eq!(answers.trench_rows.first(), Some(&section));
    assert_eq!(answers.trench_rows.len(), 1);
    assert!(section.dimensions.iter().any(|dimension| dimension.path == "water.trench.low-depth"));
    assert!(outlines(&section, "water.drain").is_empty());
}
