//! The wall can be set out from what is printed: from rounded offsets, from rounded tapes, with ordinates; and is checked.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/edit.rs"]
#[allow(dead_code, reason = "the laws use more of it")]
mod edit;

use std::collections::BTreeSet;

use edit::BUILDS;
use engine::answers::{Answers, Inputs, answers};
use engine::house::{Marks, Peg};
use engine::row::shown;
use engine::set_out::{Leg, adjusted_east, adjusted_north, closing_length, misclosure_east, misclosure_north};
use engine::units::{Angle, Kind, Length, Quantity, System, parse};
use kurbo::Point;

/// Every build in both unit systems.
fn all() -> impl Iterator<Item = (&'static str, Answers)> {
    BUILDS.into_iter().flat_map(|(name, text)| {
        [System::Metric, System::Us].map(|system| {
            (
                name,
                answers(&Inputs { build: text.as_bytes(), system: Some(system) }).unwrap_or_else(|_| panic!("{name}")),
            )
        })
    })
}

/// A length as a builder reads it off the paper, in metres.
fn printed(answers: &Answers, path: &str) -> f64 {
    let row = answers.rows.find(path).unwrap_or_else(|| panic!("there is no {path}"));
    match parse(&row.shown(answers.system), Kind::Length).unwrap() {
        Quantity::Length(length) => length.in_m(),
        other => panic!("{path} is {other:?}"),
    }
}

fn by_offsets(answers: &Answers, peg: &Peg) -> Point {
    let reading = ["along", "offset"].map(|noun| printed(answers, &format!("{}.{noun}", peg.path)));
    answers.pegs.baseline.point(reading)
}

/// Where two tapes meet to the left of the baseline; a centre may lie behind it.
fn by_tapes(answers: &Answers, peg: &Peg) -> Point {
    let [a, b] = ["from-a", "from-b"].map(|noun| printed(answers, &format!("{}.{noun}", peg.path)));
    let c = printed(answers, "set-out.baseline");
    let along = (a * a - b * b + c * c) / (2.0 * c);
    let aside = (a * a - along * along).max(0.0).sqrt();
    let side = answers.pegs.baseline.reading(peg.at)[1].signum();
    answers.pegs.baseline.point([along, side * aside])
}

fn has_tapes(peg: &Peg) -> bool {
    !matches!(peg.marks, Marks::Station(..))
}

#[test]
fn pegs_set_by_the_printed_offsets_stand_within_a_millimetre_and_a_half() {
    let mut count = 0;
    for (name, answers) in all() {
        for peg in &answers.pegs.pegs {
            let gap = by_offsets(&answers, peg).distance(peg.at);
            assert!(gap < 0.0015, "{name}: {} stands {:.1} mm off", peg.path, gap * 1000.0);
            count += 1;
        }
    }
    assert!(count > 150, "{count} pegs are set");
}

#[test]
fn pegs_set_by_the_two_printed_tapes_stand_within_five_millimetres() {
    let mut worst: f64 = 0.0;
    for (name, answers) in all() {
        for peg in answers.pegs.pegs.iter().filter(|peg| has_tapes(peg)) {
            let gap = by_tapes(&answers, peg).distance(peg.at);
            assert!(gap < 0.005, "{name}: {} stands {:.1} mm off", peg.path, gap * 1000.0);
            worst = worst.max(gap);
        }
    }
    println!("the worst stands {:.2} mm off", worst * 1000.0);
}

/// The legs from peg to peg along the wall, each as long as it is printed, and the pegs.
fn traverse(answers: &Answers) -> (Vec<Leg>, Vec<Point>) {
    let on = answers.pegs.pegs.iter().filter(|peg| peg.marks.is_on_the_line());
    let on: Vec<Point> = on.map(|peg| peg.at).collect();
    let legs = (0..on.len()).map(|index| {
        let way = on[(index + 1) % on.len()] - on[index];
        let printed = shown(Length::m(way.hypot()).into(), answers.system);
        let Ok(Quantity::Length(length)) = parse(&printed, Kind::Length) else { panic!("{printed}") };
        Leg { length, bearing: Angle::rad(way.x.atan2(way.y)) }
    });
    (legs.collect(), on)
}

fn closing(legs: &[Leg]) -> f64 {
    closing_length(misclosure_east(legs).value, misclosure_north(legs).value).value.in_m()
}

#[test]
fn a_traverse_round_the_pegs_closes_within_the_rounding_of_its_printed_legs() {
    let mut worst: f64 = 0.0;
    for (name, answers) in all() {
        let (legs, on) = traverse(&answers);
        let half = match answers.system {
            System::Metric => 0.0005,
            System::Us => 0.0254 / 32.0,
        };
        let rounding = half * legs.len() as f64 + 1e-9;
        let missed = closing(&legs);
        assert!(missed <= rounding, "{name}: {missed} m");
        worst = worst.max(missed);
        for (so_far, peg) in on.iter().enumerate() {
            let way = *peg - on[0];
            let [east, north] =
                [adjusted_east(&legs, so_far), adjusted_north(&legs, so_far)].map(|way| way.value.in_m());
            assert!((east - way.x).hypot(north - way.y) <= rounding, "{name}: peg {so_far}");
        }
        for long in 0..legs.len() {
            let mut misread = legs.clone();
            misread[long].length = misread[long].length + Length::mm(50.0);
            let found = closing(&misread);
            assert!(
                (found - 0.05).abs() <= rounding,
                "{name}: leg {long} is read 50 mm too long and misses by {found} m"
            );
        }
    }
    assert!(worst > 1e-4, "no leg is rounded: {worst}");
}

#[test]
fn every_peg_is_tied_by_a_check_tape_that_reads_what_lies_between_the_pegs() {
    for (name, answers) in all() {
        let mut tied = BTreeSet::new();
        for check in &answers.pegs.checks {
            let [from, to] = check.ends.map(|end| &answers.pegs.pegs[end]);
            let found = printed(&answers, &check.path);
            let door = matches!(from.marks, Marks::Jamb(..));
            // A door is as wide as its jambs are apart on the straight through them.
            let gap = (found - from.at.distance(to.at)).abs();
            assert!(gap < if door { 0.002 } else { 0.001 }, "{name}: {} is {gap} off", check.path);
            tied.extend(check.ends);
        }
        assert_eq!(tied.len(), answers.pegs.pegs.len(), "{name}: a peg has no check tape");
    }
}

#[test]
fn ordinates_stand_on_the_arc() {
    let mut count = 0;
    for (name, answers) in all() {
        for arc in &answers.pegs.ordinates {
            let centre = answers.pegs.pegs.iter().find(|peg| peg.marks == Marks::ArcCentre(arc.run)).unwrap().at;
            let radius = arc.ends[0].distance(centre);
            let (middle, along) = (arc.ends[0].midpoint(arc.ends[1]), (arc.ends[1] - arc.ends[0]).normalize());
            let away = (middle - centre).normalize();
            for step in 0..=arc.steps {
                let ordinate = printed(&answers, &format!("set-out.ordinates.{}.{step}", arc.name));
                let aside = if step == 0 { 0.0 } else { printed(&answers, &format!("set-out.steps.{step}")) };
                for side in [-1.0, 1.0] {
                    let point = middle + along * (side * aside) + away * ordinate;
                    let gap = (point.distance(centre) - radius).abs();
                    assert!(gap < 0.0015, "{name}: ordinate {step} of {} is {gap} off", arc.name);
                    count += 1;
                }
            }
        }
    }
    assert!(count >= 16, "{count} ordinates");
}

#[test]
fn marks_of_the_pole_rise_and_differ_by_what_the_levels_differ() {
    for (name, answers) in all() {
        let value = |path: String| answers.rows.find(&path).map(|row| row.quantity.si().unwrap());
        let lowest = &answers.story_pole[0];
        let mut last = f64::NEG_INFINITY;
        for mark in &answers.story_pole {
            let above = value(mark.path("from-benchmark")).unwrap();
            let zero = value(lowest.path("from-benchmark")).unwrap();
            let on_pole = value(mark.path("on-pole")).unwrap_or(0.0);
            assert!((above - zero - on_pole).abs() < 1e-9, "{name}: {}", mark.key);
            assert!(on_pole >= last, "{name}: {} is out of order", mark.key);
            last = on_pole;
            let benchmark = value("site.set-out.benchmark".to_owned()).unwrap();
            let sum: f64 = mark.parts.iter().map(|(path, sign)| sign * value(path.clone()).unwrap()).sum();
            assert!((above + benchmark - sum).abs() < 1e-9, "{name}: {} is not the sum of its parts", mark.key);
        }
    }
}

#[test]
fn every_tolerance_protects_a_row_of_a_build_and_the_builders_word_counts() {
    let builds: Vec<Answers> = all().map(|(_, answers)| answers).collect();
    for one in engine::tolerance::tolerances() {
        let protects = builds.iter().any(|answers| answers.rows.matching(&one.protects).next().is_some());
        assert!(protects, "{} protects {}, which is no row", one.name, one.protects);
    }
    let within =
        |answers: &Answers| answers.rows.find("rules.tolerances.stem-level.within").unwrap().shown(answers.system);
    assert_eq!([within(&builds[0]), within(&builds[4])], ["8 mm", "10 mm"]);
}
