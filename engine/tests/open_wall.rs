//! A wall that ends: what its rows and drawings show beside closed forms.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers};
use engine::house::part::{Measured, Outline, Part};
use kurbo::{Point, Rect};

const SPIRAL_WALL: &str = include_str!("../../builds/spiral-wall/spiral-wall.loam.toml");

/// Six metres of straight wall, 400 mm thick, 2 m high, with a window and a gate.
const STRAIGHT: &str = r#"
format = 1
[build]
name = "Straight wall"
[ground]
outside = "-400 mm"
[water.trench]
width = "500 mm"
depth = "700 mm"
fall = "1:100"
run = "west"
along = "2 m"
[wall]
ends = "open"
thickness = "400 mm"
height = "2 m"
stem = { height = "500 mm" }
[[wall.line]]
name = "west"
at = ["0 m", "0 m"]
[[wall.line]]
name = "east"
at = ["6 m", "0 m"]
[openings.window]
kind = "window"
run = "west"
along = "1.5 m"
width = "600 mm"
height = "500 mm"
sill = "800 mm"
[openings.gate]
kind = "door"
run = "west"
along = "4 m"
width = "1 m"
height = "1.9 m"
"#;

fn answered(build: &str) -> Answers {
    answers(&Inputs { build: build.as_bytes(), system: None })
        .unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn row(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("no row {path}")).quantity.si().unwrap()
}

fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 1e-9, "{found} is not {wanted}");
}

fn twice_area(outline: &Outline) -> f64 {
    let points = &outline.points;
    (0..points.len()).map(|at| points[at].to_vec2().cross(points[(at + 1) % points.len()].to_vec2())).sum()
}

fn outlines<'a>(parts: &'a [Part], path: &str) -> Vec<&'a Outline> {
    parts.iter().filter(|part| part.path == path).flat_map(|part| &part.outlines).collect()
}

#[test]
fn a_straight_wall_is_length_times_thickness_times_height() {
    let answers = answered(STRAIGHT);
    near(row(&answers, "wall.gross-volume"), 6.0 * 0.4 * 2.0);
    // The gate starts on the ground outside, 400 mm below the foot of the cob, and its head is at 1.5 m.
    near(row(&answers, "wall.volume"), 4.8 - 0.4 * (0.6 * 0.5 + 1.5));
    near(row(&answers, "wall.stem.volume"), 6.0 * 0.4 * 0.5 - 0.4 * 0.4);
    near(row(&answers, "wall.turning"), 0.0);
    near(row(&answers, "openings.window.pier-before"), 1.2);
    near(row(&answers, "openings.window.pier"), 3.5 - 1.8);
    near(row(&answers, "openings.gate.pier"), 1.5);
    near(row(&answers, "openings.window.corner-distance"), 1.2);
    near(row(&answers, "openings.gate.corner-distance"), 1.5);
    for path in ["room.area", "wall.enclosed-area", "wall.footprint", "room.height", "room.foot-above-floor"] {
        assert!(answers.rows.find(path).is_none(), "{path} of a wall that encloses nothing");
    }
}

#[test]
fn a_trench_under_an_open_wall_falls_from_both_ends_and_is_least_deep_at_the_farther_one() {
    for (along, high, other) in [("2 m", "east", "west"), ("4.5 m", "west", "east")] {
        let build = STRAIGHT.replace("along = \"2 m\"", &format!("along = \"{along}\""));
        let answers = answered(&build);
        let at: f64 = along.trim_end_matches(" m").parse().unwrap();
        let (longer, shorter) = (at.max(6.0 - at), at.min(6.0 - at));
        near(row(&answers, "water.trench.longest-way"), longer);
        near(row(&answers, "water.trench.low-depth"), 0.7 + 0.01 * longer);
        near(row(&answers, &format!("wall.line.{high}.trench-depth")), 0.7);
        near(row(&answers, &format!("wall.line.{other}.trench-depth")), 0.7 + 0.01 * (longer - shorter));
        let low = 0.7 + 0.01 * longer;
        let mean = |way: f64| way * (low - 0.005 * way);
        near(row(&answers, "water.trench.volume"), 0.5 * (mean(longer) + mean(shorter)));
        let section = answers.trench_section.as_ref().unwrap();
        let rubble = &outlines(&section.parts, "water.trench")[0].points;
        near(rubble[1].x, longer);
        near(rubble[0].y, -0.4 - 0.7);
        near(rubble[1].y, row(&answers, "water.trench.outlet-level"));
    }
}

#[test]
fn the_plan_shows_one_outline_from_end_to_end_parted_by_what_is_cut() {
    let answers = answered(STRAIGHT);
    let cob = outlines(&answers.plan.parts, "wall");
    let area: f64 = cob.iter().map(|outline| 0.5 * twice_area(outline).abs()).sum();
    assert_eq!(cob.len(), 3, "window and gate part the wall into three");
    near(area, 0.4 * (6.0 - 1.6));
    let stem = outlines(&answers.plan.parts, "wall.stem");
    assert_eq!(stem.len(), 1);
    near(0.5 * twice_area(stem[0]).abs(), 6.0 * 0.4);
    assert!(answers.plan.places.iter().all(|place| place.path != "room.area"));
    let spiral = answered(SPIRAL_WALL);
    let [cob, stem, trench] =
        ["wall", "wall.stem", "water.trench"].map(|path| outlines(&spiral.plan.parts, path).len());
    assert_eq!([cob, stem, trench], [2, 1, 1]);
}

#[test]
fn the_plan_of_the_spiral_is_as_large_as_its_length_and_turning_say() {
    let spiral = answered(SPIRAL_WALL);
    let length = row(&spiral, "wall.length");
    for (path, width) in [("wall.stem", "wall.stem.width"), ("water.trench", "water.trench.width")] {
        let area = 0.5 * twice_area(outlines(&spiral.plan.parts, path)[0]).abs();
        let said = length * row(&spiral, width);
        // Drawn with chords of a millimetre; what the one face loses the other wins.
        assert!((area - said).abs() < 1e-3 * said, "{path}: {area} is not {said}");
    }
}

#[test]
fn a_section_of_an_open_wall_shows_each_winding_that_it_cuts_and_no_room() {
    // From the middle of the seat's arc the cut goes on through the straight run one way and the north the other.
    let build = SPIRAL_WALL.replace("run = \"north\"\nalong = \"1.2 m\"", "run = \"west\"\nalong = \"1.885 m\"");
    assert_ne!(build, SPIRAL_WALL);
    let answers = answered(&build);
    let stems = outlines(&answers.section.parts, "wall.stem");
    assert_eq!(stems.len(), 3);
    let boxes: Vec<Rect> = stems.iter().map(|outline| bounds(&outline.points)).collect();
    for pair in boxes.windows(2) {
        assert!(pair[0].x1 < pair[1].x0, "{boxes:?}");
    }
    for path in ["ground.floor", "wall.inner-area"] {
        assert!(outlines(&answers.section.parts, path).is_empty(), "{path} where there is no room");
    }
    let ground = outlines(&answers.section.parts, "ground.outside");
    assert_eq!(ground.len(), stems.len() + 1, "ground to both sides and between");
    for dimension in &answers.section.dimensions {
        let Measured::Between { from, to, .. } = dimension.measured else { panic!("no radius is drawn here") };
        let (drawn, said) = (from.distance(to), row(&answers, &dimension.path));
        assert!((drawn - said).abs() < 1e-3, "{}: {drawn} is not {said}", dimension.path);
    }
    let through_the_peep = answered(SPIRAL_WALL);
    assert_eq!(outlines(&through_the_peep.section.parts, "wall.stem").len(), 2, "past the seat to the south-east");
    let straight = answered(STRAIGHT);
    assert_eq!(outlines(&straight.section.parts, "wall.stem").len(), 1);
}

fn bounds(points: &[Point]) -> Rect {
    points.iter().fold(Rect::from_points(points[0], points[0]), |bounds, point| bounds.union_pt(*point))
}

#[test]
fn unrolled_an_open_wall_runs_once_from_end_to_end() {
    for build in [STRAIGHT, SPIRAL_WALL] {
        let answers = answered(build);
        let length = row(&answers, "wall.length");
        let points: Vec<f64> = answers
            .unrolled
            .places
            .iter()
            .filter(|place| place.path.starts_with("wall.line."))
            .map(|place| place.at.x)
            .collect();
        near(points[0], 0.0);
        near(points[points.len() - 1], length);
        let openings = answers.rows.matching("openings.*.width").count();
        let drawn = answers.unrolled.parts.iter().filter(|part| part.path.starts_with("openings."));
        assert_eq!(drawn.map(|part| part.outlines.len()).sum::<usize>(), openings, "each opening is drawn once");
        for dimension in &answers.unrolled.dimensions {
            let Measured::Between { from, to, .. } = dimension.measured else { panic!("no radius is drawn here") };
            let (drawn, said) = (from.distance(to), row(&answers, &dimension.path));
            let most = if dimension.path.ends_with(".width") { 1.01 * said } else { said };
            assert!(said - 1e-9 < drawn && drawn < most + 1e-9, "{}: {drawn} is not {said}", dimension.path);
        }
    }
}

#[test]
fn a_closed_house_with_a_curve_says_how_long_it_is_and_how_tight() {
    let build = include_str!("../../builds/plain-ring/plain-ring.loam.toml");
    let tangent = 4.0 / 3.0 * 2.0 * (2.0f64.sqrt() - 1.0);
    let curve = format!("curve = {{ leave = [\"0 m\", \"{tangent} m\"], arrive = [\"-{tangent} m\", \"0 m\"] }}");
    let quarter = format!("{curve}\n\n[[wall.line]]\nname = \"north\"\nat = [\"0 m\", \"2 m\"]\n");
    let rest = "arc = { through = [\"-1.414213562373095 m\", \"1.414213562373095 m\"] }";
    let curved = build.replacen("arc = { through = [\"0 m\", \"2 m\"] }", &(quarter + rest), 1);
    let (ring, answers) = (answered(build), answered(&curved));
    let value = |path: &str| (row(&ring, path), row(&answers, path));
    for path in ["wall.length", "wall.enclosed-area", "wall.volume", "room.area"] {
        let (circle, cubic) = value(path);
        assert!((circle - cubic).abs() < 1e-3 * circle && circle != cubic, "{path}: {circle} and {cubic}");
    }
    assert!((row(&answers, "wall.line.east.least-radius") - 2.0).abs() < 0.02);
    assert!((row(&answers, "wall.line.east.run") - std::f64::consts::PI).abs() < 1e-3);
    let drawn = answers.plan.dimensions.iter().any(|dimension| dimension.path.starts_with("wall.line.east."));
    assert!(!drawn, "a cubic curve has neither one radius nor a straight length");
}
