//! Boards over straight rafters: by hand on a rectangle, over a round eave, and what is refused of a deck without an eye.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/builds.rs"]
#[allow(dead_code, reason = "some tests take single builds, others all")]
mod builds;
#[path = "demos/mod.rs"]
mod demos;

use std::f64::consts::PI;

use builds::BURDOCK_RISE;
use demos::{answered, changed, value};
use engine::answers::Answers;
use engine::check::State;

/// A store of 5 m by 3 m on the wall's line, its roof falling to the south; invented.
const STORE: &str = r#"
format = 1

[build]
name = "Boarded store"
about = "A store under boards on straight rafters"
invented = true

[site]
units = "metric"

[ground]
outside = "-450 mm"
floor = "-100 mm"

[water.trench]
width = "500 mm"
depth = "800 mm"
fall = "1:100"
run = "southwest"
along = "1 m"

[water.drain]
length = "8 m"
daylight = "-1.45 m"

[wall]
thickness = "400 mm"
height = "2 m"
batter = { inside = "0 %", outside = "0 %" }
stem = { height = "500 mm", width = "400 mm" }

[[wall.line]]
name = "southwest"
at = ["0 m", "0 m"]
round = "300 mm"

[[wall.line]]
name = "southeast"
at = ["5 m", "0 m"]
round = "300 mm"

[[wall.line]]
name = "northeast"
at = ["5 m", "3 m"]
round = "300 mm"

[[wall.line]]
name = "northwest"
at = ["0 m", "3 m"]
round = "300 mm"

[openings.door]
kind = "door"
run = "southeast"
along = "1.5 m"
width = "800 mm"
height = "1.9 m"

[earth]
bucket = { fill = "struck", brim = "14 L" }

[earth.ingredients.soil]
kind = "soil"
density = "1200 kg/m3"
moisture = "12 %"
clay = "30 %"

[earth.ingredients.sand]
kind = "sand"
density = "1600 kg/m3"
moisture = "6 %"
bulking = 1.3

[earth.recipes.cob]
buckets = { soil = 3, sand = 3 }
straw = "1.5 %"
water = "17 %"

[weather]
gust = "30 m/s"

[roof]
kind = "one-way"
overhang = "300 mm"
pitch = "1:5"
falls = "-90 deg"
spacing = "600 mm"

[roof.deck]
width = "150 mm"
kerf = "3 mm"
stock = ["3 m", "4 m"]
withdrawal = "150 N"
upstand = { edge = "150 mm" }

[roof.deck.downspouts]
barrel = { pole = 2 }

[[roof.layers]]
name = "boards"
of = "boards"
thickness = "24 mm"
saturated = "600 kg/m3"
loose = 1

[poles]
diameter = "150 mm"
"#;

fn near(one: f64, other: f64) {
    assert!((one - other).abs() < 1e-9 * other.abs().max(1.0), "{one} and {other}");
}

/// Within what an eave that is drawn in chords takes off.
fn close(one: f64, other: f64) {
    assert!((one - other).abs() < 1e-3 * other, "{one} and {other}");
}

fn of(answers: &Answers, noun: &str) -> f64 {
    value(answers, &format!("roof.deck.{noun}"))
}

#[test]
fn a_rectangle_is_boarded_as_it_is_by_hand() {
    let found = answered(STORE);
    // Eave 500 mm outside of the line: 6 m by 4 m in plan, its corners rounded by 800 mm; 4 √1.04 = 4.0792 m up, 28 courses of 150 mm.
    let (round, stretch) = (0.8_f64, 1.04_f64.sqrt());
    let area = 24.0 - (4.0 - PI) * round * round;
    near(value(&found, "roof.eave-area"), area);
    near(value(&found, "roof.area"), area * stretch);
    near(of(&found, "courses"), 28.0);
    // A course is as wide as the eave at its edge that lies nearer to the middle.
    let wide = |up: f64| {
        let in_corner = (round - up.min(4.0 - up)).max(0.0);
        6.0 - 2.0 * (round - (round * round - in_corner * in_corner).max(0.0).sqrt())
    };
    let course = |number: u32| {
        let [low, high] = [0.0, 1.0].map(|next| ((f64::from(number) + next) * 0.15 / stretch).min(4.0));
        wide(low).max(wide(high))
    };
    close(of(&found, "boards-length"), (0..28).map(course).sum());
    // A quarter of an ellipse at each corner, in a thousand chords.
    let at = |step: u32| (f64::from(step) * PI / 2000.0).sin_cos();
    let quarter: f64 = (0..1000)
        .map(|step| {
            let ((sin, cos), (next_sin, next_cos)) = (at(step), at(step + 1));
            (round * (next_sin - sin)).hypot(round * (next_cos - cos) * stretch)
        })
        .sum();
    close(of(&found, "edge-length"), 2.0 * (4.4 + 2.4 * stretch) + 4.0 * quarter);
    // Rafters over 5 m, 9 bays of 556 mm; two boards a course, no joint beside another. The last course, within
    // 28 mm of the high eave, is 4.8 m wide and lies on 8 of them.
    near(value(&found, "roof.poles.count"), 10.0);
    near(of(&found, "boards"), 56.0);
    near(of(&found, "in-line"), 0.0);
    let places = 27.0 * 11.0 + 9.0;
    near(of(&found, "held-places"), places);
    near(of(&found, "unsupported"), 0.0);
    near(of(&found, "past-rafters"), 0.5);
    // One downspout takes all; the low eave is level, so no water stands, and blocked it has no other way.
    close(of(&found, "downspouts.barrel.catchment"), area);
    near(of(&found, "standing-water"), 0.0);
    assert!(found.rows.find("roof.deck.downspouts.barrel.if-blocked").is_none());
    assert!(found.rows.find("roof.deck.spare-upstand").is_none(), "blocked, it lets water rise to the edge");
    let (past, apart) = (0.5, 5.0 / 9.0);
    let reach = apart / 2.0 + past + 0.75 * past * past / apart;
    near(of(&found, "pull"), of(&found, "uplift") * 0.15 * reach);
    let each = (of(&found, "pull") / 150.0).ceil().max(2.0);
    near(of(&found, "fasteners"), each * places);
    // A piece of 4 m at most and one of 2 m at least: every course takes a length of its own, its rest another's.
    assert!(of(&found, "bought-length") > of(&found, "boards-length") && of(&found, "waste") < 0.25);
}

#[test]
fn layers_on_boards_that_are_laid_out_are_no_first_cut() {
    let titled = |text: &str| answered(text).rows.find("roof.layers.boards.area").unwrap().title.clone();
    assert!(!titled(STORE).contains("first cut"));
    let deck = STORE.find("[roof.deck]").unwrap()..STORE.find("[[roof.layers]]").unwrap();
    let without = STORE.replace(&STORE[deck], "");
    assert!(titled(&without).contains("first cut"));
    assert!(answered(&without).rows.matching("roof.deck.*").next().is_none());
}

#[test]
fn two_downspouts_share_a_level_eave_and_a_higher_upstand_than_water_is_left_over() {
    let found = answered(&changed(STORE, "barrel = { pole = 2 }", "barrel = { pole = 2 }\nswale = { pole = 8 }"));
    close(of(&found, "downspouts.barrel.catchment"), value(&found, "roof.eave-area") / 2.0);
    near(of(&found, "downspouts.swale.catchment"), of(&found, "downspouts.barrel.catchment"));
    near(of(&found, "spare-upstand"), 0.15);
}

#[test]
fn an_eave_that_is_round_gathers_water_at_its_lowest_place_and_leaves_short_courses_on_few_rafters() {
    let line = STORE.find("[[wall.line]]").unwrap()..STORE.find("[openings").unwrap();
    let round = r#"[[wall.line]]
name = "southwest"
at = ["2.5 m", "0 m"]
arc = { through = ["0 m", "2.5 m"] }

[[wall.line]]
name = "southeast"
at = ["-2.5 m", "0 m"]
arc = { through = ["0 m", "-2.5 m"] }

"#;
    let text = STORE.replace(&STORE[line], round);
    let found = answered(&text);
    assert!(value(&found, "roof.poles.count") * of(&found, "courses") > of(&found, "held-places"), "short courses");
    assert!(of(&found, "standing-water") > 0.05, "an outlet beside the lowest place");
    // Courses of 150 mm over a circle of 3 m: chords at the edge of each course that is nearer to the middle, summed by hand.
    let step = 0.15 / 1.04_f64.sqrt();
    let count = (6.0 / step).ceil();
    near(of(&found, "courses"), count);
    let half_chord = |up: f64| (9.0 - up * up).max(0.0).sqrt();
    let longest = |course: u32| {
        let [low, high] = [0.0, 1.0].map(|next| (-3.0 + (f64::from(course) + next) * step).min(3.0));
        2.0 * if low < 0.0 && high > 0.0 { 3.0 } else { half_chord(low).max(half_chord(high)) }
    };
    let whole: f64 = (0..count as u32).map(longest).sum();
    close(of(&found, "boards-length"), whole);
    let middle = text.replace("pole = 2", "pole = 5");
    assert!(of(&answered(&middle), "standing-water") < of(&found, "standing-water"));
}

#[test]
fn the_upstand_rule_holds_a_roof_that_falls_one_way_too() {
    let state = |text: &str| {
        let found = answered(text);
        found.checks.iter().find(|check| check.path.as_deref() == Some("roof.deck.upstand.edge")).unwrap().state
    };
    assert_ne!(state(BURDOCK_RISE), State::Fails);
    let of = |edge: &str| {
        changed(BURDOCK_RISE, "upstand = { edge = \"8 in\" }", &format!("upstand = {{ edge = \"{edge}\" }}"))
    };
    assert_ne!(state(&of("150 mm")), State::Fails);
    assert_eq!(state(&of("149.9 mm")), State::Fails);
}
