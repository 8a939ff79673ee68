//! Scarfs of a bond beam, the earth under its seats, feet that may slide on it.

use super::{BUILDS, answered, value};
use engine::check::State;

#[test]
fn a_foot_that_may_slide_tips_the_beam_and_pushes_the_wall_no_more_than_its_friction() {
    let [(_, text), ..] = BUILDS;
    let answers = answered(text);
    // tan 16° and tan 27°, 120 mm and half of 280 mm.
    let (slope, under) = (16.0_f64.to_radians().tan(), 27.0_f64.to_radians().tan());
    let most = slope * 120.0 / 140.0;
    let seats: Vec<f64> =
        (1..=9).map(|place| value(&answers, &format!("roof.beam.seats.{place}.tipping")).unwrap()).collect();
    assert!(seats.iter().all(|share| *share < most + 1e-12), "{seats:?}");
    assert!(seats.iter().any(|share| (share - most).abs() < 1e-12), "{seats:?}");
    assert!((value(&answers, "roof.feet.slips").unwrap() - slope / under).abs() < 1e-12);
    // The most that any foot presses is what the wall may be pushed by, at most.
    let pushes = value(&answers, "roof.feet.pushes").unwrap();
    let up = (1..=9).filter_map(|place| value(&answers, &format!("roof.feet.{place}.up"))).fold(0.0, f64::max);
    assert!(pushes > 0.0 && pushes < slope * up * (1.0 + 1e-9), "{pushes} of {up}");
    let states: Vec<State> = answers
        .checks
        .iter()
        .filter(|check| {
            check.path.as_deref().is_some_and(|path| path.starts_with("roof.feet.") || path.starts_with("roof.scarf."))
        })
        .map(|check| check.state)
        .collect();
    assert!(states.len() == 3 && states.iter().all(|state| *state == State::OnTrust), "{states:?}");
}

#[test]
fn a_foot_rougher_than_the_wall_under_the_beam_fails() {
    let [(_, text), ..] = BUILDS;
    let rough = answered(&text.replacen("friction = \"16 deg\"", "friction = \"28 deg\"", 1));
    let feet = rough.checks.iter().find(|check| check.path.as_deref() == Some("roof.feet.slips")).unwrap();
    assert_eq!(feet.state, State::Fails);
}

#[test]
fn the_earth_under_a_seat_is_held_against_the_bricks_that_were_crushed_and_not_known_without_them() {
    let [(_, text), ..] = BUILDS;
    let answers = answered(text);
    let bore = value(&answers, "tests.cob.compression").unwrap();
    for place in 1..=9 {
        let row = |noun: &str| value(&answers, &format!("roof.beam.seats.{place}.{noun}")).unwrap();
        assert!((row("earth") - row("eased") / bore).abs() < 1e-12);
        assert!(row("eased") < row("pressure"), "spread by what gave: {place}");
    }
    let is_brick = |part: &&str| part.trim_start_matches(|of: char| of != '[').starts_with("[tests.bricks");
    let kept: String = text.split_inclusive("\n\n").filter(|part| !is_brick(part)).collect();
    let silent = answered(&kept);
    let unknown: Vec<&str> = silent.rows.unknown("roof.beam.seats.*.earth").map(|(_, title)| title).collect();
    assert!(unknown.len() == 9 && unknown.iter().all(|title| title.contains("no bricks were crushed")), "{unknown:?}");
}

#[test]
fn a_scarf_of_one_layer_is_not_known_and_a_short_one_has_no_room_for_its_bolts() {
    let [(_, text), ..] = BUILDS;
    let one =
        answered(&text.replacen("layers = 2", "layers = 1", 1).replacen("scarf = \"210 mm\"", "scarf = \"240 mm\"", 1));
    let unknown: Vec<&str> = one.rows.unknown("roof.beam.*.scarf").map(|(_, title)| title).collect();
    assert!(!unknown.is_empty() && unknown.iter().all(|title| title.contains("its only layer")), "{unknown:?}");
    // Two M10 want 2 x 80 and 50 mm.
    let short = answered(&text.replacen("scarf = \"210 mm\"", "scarf = \"200 mm\"", 1));
    assert!((value(&short, "roof.scarf.room.along").unwrap() - 210.0 / 200.0).abs() < 1e-12);
    let room = short.checks.iter().find(|check| check.path.as_deref() == Some("roof.scarf.room.along")).unwrap();
    assert_eq!(room.state, State::Fails);
}

#[test]
fn the_bolts_of_a_scarf_by_hand() {
    let [(_, text), ..] = BUILDS;
    let answers = answered(text);
    let part = |noun: &str| value(&answers, &format!("roof.beam.east-end.{noun}")).unwrap();
    // Half of the way from joint to joint: the part in its five pieces.
    let long = value(&answers, "wall.bond-beam.runs.east-end.length").unwrap();
    let pieces = value(&answers, "wall.bond-beam.runs.east-end.pieces").unwrap();
    assert!((part("half-piece") - long / pieces / 2.0).abs() < 1e-9);
    // An M10 between halves of a plank of 60 mm, C24, 350 kg/m3: f across the grain 25.83 / 1.5 N/mm2, tilting √2 − 1 of 30 mm x 10 mm.
    let across = 0.082 * 0.9 * 350.0 / (1.35 + 0.015 * 10.0) * 30.0 * 10.0 * (2.0_f64.sqrt() - 1.0);
    assert!((value(&answers, "roof.scarf.across").unwrap() / across - 1.0).abs() < 1e-9, "{across}");
    // Two bolts, permanent load under a roof: 0.6 / 1.3.
    let holds = |force: f64| 2.0 * force * 0.6 / 1.3;
    let used = part("scarf-force").hypot(part("scarf-across")) / holds(across)
        + part("scarf-lift") / holds(value(&answers, "roof.scarf.washers").unwrap());
    assert!((part("scarf") - used).abs() < 1e-9, "{} is not {used}", part("scarf"));
}

#[test]
fn on_a_top_that_slopes_a_piece_is_cut_longer_than_in_plan_and_on_a_level_one_it_is_not() {
    let text = include_str!("../../../builds/burdock-rise/burdock-rise.loam.toml");
    let answers = answered(text);
    let of = |run: &str, noun: &str| value(&answers, &format!("wall.bond-beam.runs.{run}.{noun}")).unwrap();
    let [piece, scarf] = ["piece", "scarf"].map(|noun| value(&answers, &format!("wall.bond-beam.{noun}")).unwrap());
    // Along its sides the top rises 2 in 12, along south and north not at all; a corner is taken as steep as the top is.
    let steep = (1.0_f64 + 1.0 / 36.0).sqrt();
    for (run, growth) in [("east", steep), ("west", steep), ("north-corner", steep), ("south", 1.0), ("north", 1.0)] {
        assert!((of(run, "growth") - growth).abs() < 1e-12, "{run}");
        let cut = (of(run, "cut-in-plan") - scarf) * growth + scarf;
        assert!((of(run, "cut-length") - cut).abs() < 1e-12 && cut < piece + 1e-9, "{run}: {cut}");
    }
    let level = answered(BUILDS[0].1);
    assert!(level.rows.matching("wall.bond-beam.runs.*.growth").next().is_none());
    assert!(level.rows.find("wall.bond-beam.length-on-slope").is_none());
}

#[test]
fn a_wall_lower_at_one_point_makes_the_beam_longer_towards_it_and_nowhere_else() {
    let text = BUILDS[0].1;
    let gap = text.find("[wall.gap]").unwrap();
    let next = gap + text[gap..].find("\n[").unwrap() + 1;
    let without = format!("{}{}", &text[..gap], &text[next..]);
    let lower = without.replacen("name = \"back\"\n", "name = \"back\"\nheight = \"2 m\"\n", 1);
    assert_ne!(lower, without);
    let answers = answered(&lower);
    let of = |path: &str| value(&answers, path).unwrap();
    let slope = |run: &str| (of(&format!("wall.bond-beam.runs.{run}.growth")).powi(2) - 1.0).sqrt();
    // 150 mm from point to point, less or more over the beam, which lies beside the line; steepest round the corner at the lower.
    let mean = 0.15 / (of("wall.length") + of("wall.line.back.station") - of("wall.line.west-end.station"));
    assert!((slope("west-end") / mean - 1.0).abs() < 0.02, "{} is not {mean}", slope("west-end"));
    assert!(slope("back") > 0.15 / (of("wall.line.east-end.station") - of("wall.line.back.station")));
    assert!(["east-end", "hollow"].iter().all(|run| slope(run) < 1e-6));
}
