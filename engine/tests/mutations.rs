//! Whatever is done to a build file, it is answered or refused: no fall, no standstill, no number that is none.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]
#![allow(clippy::disallowed_types, reason = "a standstill is told by the clock")]

#[path = "laws/builds.rs"]
#[allow(dead_code, reason = "some tests take single builds, others all")]
mod builds;

use std::ops::Range;
use std::time::{Duration, Instant};

use builds::{BUILDS, BURDOCK_RISE};
use engine::answers::{Answers, Computed, Inputs, answers, compute};
use engine::house::part::{Measured, Part};
use engine::pictures::{Pictures, View};
use engine::units::{Length, Quantity, System};
use proptest::prelude::*;
use proptest::sample::Index;

/// A hundred thousand build files are tried, each in many short texts.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// Numbers that are too large, too small, none at all, or nearly right.
const NUMBERS: [&str; 26] = [
    "0",
    "-0",
    "0.0",
    "1",
    "-1",
    "2",
    "10",
    "100",
    "0.001",
    "1e-9",
    "1e-300",
    "5e-324",
    "1e9",
    "1e300",
    "1e308",
    "-1e308",
    "1e309",
    "nan",
    "inf",
    "1/3",
    "1/0",
    "½",
    "18446744073709551615",
    "0.1e1",
    "1_000",
    "3,5",
];

/// Values of every kind that TOML has, and of kinds that a build file has.
const VALUES: [&str; 30] = [
    "true",
    "0",
    "-1",
    "1.5",
    "nan",
    "-inf",
    "2027-06-01",
    "9999-12-31",
    "07:32:00",
    "\"\"",
    "\" \"",
    "\"door\"",
    "\"window\"",
    "\"us\"",
    "\"west\"",
    "\"1 m\"",
    "\"-1 m\"",
    "\"3 m\"",
    "\"0 mm\"",
    "\"1e200 km\"",
    "\"5 %\"",
    "\"89.999 deg\"",
    "\"1:1\"",
    "\"1e300 %\"",
    "[]",
    "{}",
    "[\"1 m\", \"1 m\"]",
    "[[[]]]",
    "{ through = [] }",
    "'''",
];

#[derive(Clone, Debug)]
enum Change {
    DropBytes(Index, usize),
    RepeatBytes(Index, usize),
    SwapBytes(Index, Index),
    SetByte(Index, u8),
    Cut(Index),
    DropLine(Index),
    RepeatLine(Index, Index),
    SwapLines(Index, Index),
    Number(Index, usize),
    Scaled(Index, f64),
    Value(Index, usize),
    SameValue(Index, Index),
}

/// Numbers and values nine times in ten: they leave a file that can be read.
fn change() -> impl Strategy<Value = Change> {
    let at = any::<Index>;
    prop_oneof![
        1 => (at(), 1..40usize).prop_map(|(at, count)| Change::DropBytes(at, count)),
        1 => (at(), 1..40usize).prop_map(|(at, count)| Change::RepeatBytes(at, count)),
        1 => (at(), at()).prop_map(|(a, b)| Change::SwapBytes(a, b)),
        1 => (at(), any::<u8>()).prop_map(|(at, byte)| Change::SetByte(at, byte)),
        1 => at().prop_map(Change::Cut),
        3 => at().prop_map(Change::DropLine),
        1 => (at(), at()).prop_map(|(a, b)| Change::RepeatLine(a, b)),
        3 => (at(), at()).prop_map(|(a, b)| Change::SwapLines(a, b)),
        12 => (at(), 0..NUMBERS.len()).prop_map(|(at, number)| Change::Number(at, number)),
        60 => (at(), 0.3..2.0).prop_map(|(at, by)| Change::Scaled(at, by)),
        12 => (at(), 0..VALUES.len()).prop_map(|(at, value)| Change::Value(at, value)),
        6 => (at(), at()).prop_map(|(a, b)| Change::SameValue(a, b)),
    ]
}

/// Byte ranges of the numbers in a text.
fn numbers(text: &[u8]) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < text.len() {
        let length = text[at..].iter().take_while(|byte| byte.is_ascii_digit() || **byte == b'.').count();
        if length > 0 {
            found.push(at..at + length);
        }
        at += length.max(1);
    }
    found
}

/// Byte ranges of what stands after the equals sign of a line.
fn values(text: &[u8]) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut begin = 0;
    for line in text.split_inclusive(|byte| *byte == b'\n') {
        if let Some(equals) = line.iter().position(|byte| *byte == b'=') {
            let end = begin + line.len() - usize::from(line.ends_with(b"\n"));
            found.push((begin + equals + 1).min(end)..end);
        }
        begin += line.len();
    }
    found
}

fn lines(text: &[u8]) -> Vec<Vec<u8>> {
    text.split_inclusive(|byte| *byte == b'\n').map(<[u8]>::to_vec).collect()
}

fn changed(mut text: Vec<u8>, change: &Change) -> Vec<u8> {
    if text.is_empty() {
        return text;
    }
    let size = text.len();
    let one = |ranges: Vec<Range<usize>>, at: &Index| (!ranges.is_empty()).then(|| at.get(&ranges).clone());
    match change {
        Change::DropBytes(at, count) => {
            let at = at.index(size);
            text.drain(at..(at + count).min(size));
        }
        Change::RepeatBytes(at, count) => {
            let at = at.index(size);
            let again = text[at..(at + count).min(size)].to_vec();
            text.splice(at..at, again);
        }
        Change::SwapBytes(a, b) => text.swap(a.index(size), b.index(size)),
        Change::SetByte(at, byte) => text[at.index(size)] = *byte,
        Change::Cut(at) => text.truncate(at.index(size)),
        Change::DropLine(at) => {
            let mut lines = lines(&text);
            lines.remove(at.index(lines.len()));
            text = lines.concat();
        }
        Change::RepeatLine(a, b) => {
            let mut lines = lines(&text);
            let again = a.get(&lines).clone();
            lines.insert(b.index(lines.len()), again);
            text = lines.concat();
        }
        Change::SwapLines(a, b) => {
            let mut lines = lines(&text);
            let count = lines.len();
            lines.swap(a.index(count), b.index(count));
            text = lines.concat();
        }
        Change::Number(at, number) => {
            if let Some(range) = one(numbers(&text), at) {
                text.splice(range, NUMBERS[*number].bytes());
            }
        }
        Change::Scaled(at, by) => {
            let Some(range) = one(numbers(&text), at) else { return text };
            let number = String::from_utf8_lossy(&text[range.clone()]).parse::<f64>().unwrap_or(1.0);
            text.splice(range, (number * by).to_string().into_bytes());
        }
        Change::Value(at, value) => {
            if let Some(range) = one(values(&text), at) {
                text.splice(range, VALUES[*value].bytes());
            }
        }
        Change::SameValue(a, b) => {
            let values = values(&text);
            if let (Some(from), Some(to)) = (one(values.clone(), a), one(values, b)) {
                let value = text[from].to_vec();
                text.splice(to, value);
            }
        }
    }
    text
}

fn is_number(quantity: Quantity) -> bool {
    quantity.si().is_none_or(f64::is_finite)
}

/// Everything that is shown of a house, in both systems of units, is made of numbers.
fn all_numbers(answers: &Answers) -> Result<(), TestCaseError> {
    for row in answers.rows.iter() {
        prop_assert!(is_number(row.quantity), "{} is {:?}", row.path, row.quantity);
        for system in [System::Metric, System::Us] {
            prop_assert!(!row.shown(system).is_empty(), "{} shows nothing", row.path);
        }
    }
    for check in &answers.checks {
        prop_assert!(check.found.is_none_or(is_number), "{:?}", check);
        prop_assert!(!check.sentence(answers.system).is_empty());
    }
    let (plan, section) = (&answers.plan, &answers.section);
    for Part { path, outlines, .. } in plan.parts.iter().chain(&section.parts) {
        for point in outlines.iter().flat_map(|outline| &outline.points) {
            prop_assert!(point.is_finite(), "{path} is drawn at {point:?}");
        }
    }
    for dimension in plan.dimensions.iter().chain(&section.dimensions) {
        let drawn = match dimension.measured {
            Measured::Between { from, to, away } => from.is_finite() && to.is_finite() && away.is_finite(),
            Measured::Radius { centre, on } => centre.is_finite() && on.is_finite(),
        };
        prop_assert!(drawn, "{dimension:?}");
    }
    let ends = plan.section.iter().chain(plan.places.iter().chain(&section.places).map(|place| &place.at));
    for point in ends {
        prop_assert!(point.is_finite(), "{point:?}");
    }
    Ok(())
}

/// Every part of a build that is answered has a closed body about as large as its row, or words why it has none; so has its
/// roof, as a first cut.
fn all_bodies(house: &Computed) -> Result<(), TestCaseError> {
    let solids = house.bodies(Length::mm(5.0));
    for body in solids.bodies.iter().chain(&house.roof_bodies()) {
        prop_assert!(body.mesh.points.iter().flatten().all(|value| value.is_finite()), "{} is not placed", body.path);
        prop_assert_eq!(body.mesh.open_edges(), 0, "{} is open", body.path);
    }
    for body in &solids.bodies {
        let (found, row) = (body.mesh.volume(), body.volume.unwrap().in_m3());
        prop_assert!((found - row).abs() <= 0.02 * row + 1e-6, "{} holds {found}, its row says {row}", body.path);
    }
    prop_assert!(solids.left_out.iter().all(|(path, why)| !path.is_empty() && !why.is_empty()));
    Ok(())
}

/// Every picture of a build that is answered is drawn at places that are numbers.
fn all_pictures(house: &Computed) -> Result<(), TestCaseError> {
    let Pictures { elevations, exploded, .. } = house.pictures();
    prop_assert_eq!(elevations.len(), 4);
    for View { parts, faces } in elevations.iter().map(|one| &one.view).chain([&exploded.view]) {
        for face in faces {
            prop_assert!(face.body < parts.len());
            prop_assert!(face.points.iter().flatten().all(|value| value.is_finite()), "{:?}", parts[face.body]);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1024, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_build_file_with_anything_done_to_it_is_answered_or_refused(
        build in 0..BUILDS.len(),
        changes in prop::collection::vec(change(), 1..8),
    ) {
        let text = changes.iter().fold(BUILDS[build].1.as_bytes().to_vec(), changed);
        let start = Instant::now();
        match compute(&Inputs { build: &text, system: None }) {
            Ok(house) => {
                all_bodies(&house)?;
                all_pictures(&house)?;
                all_numbers(&house.into_answers())?;
            }
            Err(problems) => {
                prop_assert!(!problems.is_empty());
                for problem in problems.all() {
                    prop_assert!(!problem.message.is_empty() && !problem.hint.is_empty() && problem.line > 0);
                }
            }
        }
        prop_assert!(start.elapsed() < Duration::from_secs(5), "it took {:?}", start.elapsed());
    }
}

#[test]
fn a_build_file_cut_anywhere_is_answered_or_refused() {
    for (_, build) in BUILDS {
        for end in 0..build.len() {
            if let Err(problems) = answers(&Inputs { build: &build.as_bytes()[..end], system: None }) {
                assert!(!problems.is_empty(), "cut at byte {end}");
            }
        }
    }
}

#[test]
fn a_value_of_any_other_kind_in_any_place_is_answered_or_refused() {
    for (_, build) in BUILDS {
        for place in values(build.as_bytes()) {
            for value in VALUES {
                let text = format!("{}{value}{}", &build[..place.start], &build[place.end..]);
                if let Ok(answers) = answers(&Inputs { build: text.as_bytes(), system: None }) {
                    all_numbers(&answers).unwrap_or_else(|fault| panic!("{value} in {place:?}: {fault}"));
                }
            }
        }
    }
}

#[test]
fn an_extreme_number_in_any_place_is_answered_or_refused() {
    for (_, build) in &BUILDS[1..] {
        // What stands on a line of words changes no answer.
        let is_read =
            |place: &Range<usize>| !build[..place.start].rsplit('\n').next().is_some_and(|line| line.starts_with('#'));
        for place in numbers(build.as_bytes()).into_iter().filter(is_read) {
            for (turn, number) in NUMBERS.iter().enumerate() {
                let text = format!("{}{number}{}", &build[..place.start], &build[place.end..]);
                if let Ok(house) = compute(&Inputs { build: text.as_bytes(), system: None }) {
                    // Bodies take their time: each place is tried with a third of the numbers, its neighbour with another.
                    let is_turn = (turn + place.start) % 3 == 0;
                    let bodies = if is_turn { all_bodies(&house) } else { Ok(()) };
                    bodies
                        .and_then(|()| all_numbers(&house.into_answers()))
                        .unwrap_or_else(|fault| panic!("{number} in {place:?}: {fault}"));
                }
            }
        }
    }
}

#[test]
fn an_opening_whose_middle_stands_where_a_corner_ends_is_drawn() {
    // Without the deadmen that would meet it there.
    let is_kept = |part: &&str| !part.starts_with("[wall.anchors.west]");
    let kept: String = BURDOCK_RISE.split_inclusive("\n\n").filter(is_kept).collect();
    let text = kept.replace("along = \"5 ft 8 in\"", "along = \"36 in\"");
    assert!(text != kept && kept != BURDOCK_RISE);
    let answers = answers(&Inputs { build: text.as_bytes(), system: None }).unwrap();
    all_numbers(&answers).unwrap();
}
