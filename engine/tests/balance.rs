//! Earth is neither made nor lost: of topsoil and of subsoil, what comes in is what goes out and what is left.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/edit.rs"]
#[allow(dead_code, reason = "shared with the laws")]
mod edit;

use edit::{BUILDS, answered, rewritten, spelled, try_answered};
use engine::answers::Answers;
use engine::known::Origin;
use engine::units::Quantity;
use proptest::prelude::*;

const PAGE: &str = include_str!("../../docs/earth-balance.md");
const RING: &str = include_str!("../../builds/plain-ring/plain-ring.loam.toml");

fn value(answers: &Answers, path: &str) -> Option<f64> {
    answers.rows.find(path)?.quantity.si()
}

/// How much more goes in than goes out and is left, as a share of what goes in, by stage and by total.
fn gaps(answers: &Answers, heap: &str, measure: &str) -> Vec<(String, f64)> {
    let at = |noun: &str| value(answers, &format!("balance.{heap}.{noun}{measure}"));
    let Some((came, went)) = at("in").zip(at("out")) else { return Vec::new() };
    let left = at("surplus").unwrap_or(0.0) - at("short").unwrap_or(0.0);
    vec![(format!("{heap}{measure}"), (came - went - left) / came.max(went).max(1e-6))]
}

fn closes(answers: &Answers) -> Result<(), String> {
    let all = [("topsoil", ""), ("subsoil", ""), ("subsoil", "-mass")];
    let mut gaps: Vec<(String, f64)> =
        all.into_iter().flat_map(|(heap, measure)| gaps(answers, heap, measure)).collect();
    // The totals are the sums of the stages, not carried along with them.
    for heap in ["topsoil", "subsoil"] {
        let stages = |noun: &str| {
            let end = format!(".{noun}");
            let stem = format!("balance.{heap}.");
            let rows = answers
                .rows
                .iter()
                .filter(|row| row.path.strip_prefix(&stem).and_then(|rest| rest.strip_suffix(&end)).is_some());
            rows.map(|row| row.quantity.si().unwrap()).sum::<f64>()
        };
        for noun in ["in", "out"] {
            if let Some(total) = value(answers, &format!("balance.{heap}.{noun}")) {
                gaps.push((format!("{heap} {noun}"), (stages(noun) - total) / total.max(1e-6)));
            }
        }
    }
    match gaps.iter().find(|(_, gap)| gap.abs() > 1e-9) {
        Some((name, gap)) => Err(format!("{name} does not close: {gap}")),
        None => Ok(()),
    }
}

/// The plain ring with the earth of the page.
fn worked() -> String {
    let (_, rest) = PAGE.split_once("```toml\n").unwrap();
    let (earth, _) = rest.split_once("```").unwrap();
    format!("{RING}\n{earth}")
}

#[test]
fn the_balance_of_every_build_closes() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        closes(&answers).unwrap_or_else(|fault| panic!("{name}: {fault}"));
        assert!(value(&answers, "balance.topsoil.in").unwrap() > 1.0, "{name} strips nothing");
    }
    closes(&answered(&worked())).unwrap();
}

#[test]
fn soil_from_the_trench_is_taken_from_its_heap_and_soil_from_a_pit_is_not() {
    let from = |from: &str| answered(&worked().replace("from = \"trench\"", &format!("from = \"{from}\"")));
    let left = |answers: &Answers| {
        value(answers, "balance.subsoil.surplus").unwrap_or(0.0)
            - value(answers, "balance.subsoil.short").unwrap_or(0.0)
    };
    let (trench, pit) = (from("trench"), from("pit"));
    let mixed = value(&trench, "balance.subsoil.mixes.cob.soil.out").unwrap();
    assert!((left(&pit) - left(&trench) - mixed).abs() < 1e-9);
    assert!((value(&pit, "balance.pit").unwrap() - mixed).abs() < 1e-12);
    assert_eq!(value(&trench, "balance.pit"), None);
}

#[test]
fn the_footing_of_an_oven_digs_through_the_fill_into_the_ground_and_its_base_is_filled() {
    let with_oven = |depth: &str, text: String| {
        let footing = format!("depth = \"{depth}\", width = \"1.5 m\"");
        let base = "height = \"700 mm\", diameter = \"1 m\", ring = \"200 mm\"";
        let place =
            "kind = \"oven\"\nat = [\"0 m\", \"0 m\"]\nfaces = \"0 deg\"\ndiameter = \"500 mm\"\ninsulation = \"0 mm\"";
        let oven = format!("[built-in.oven]\n{place}\nbase = {{ {base} }}\nfooting = {{ {footing}, loose = 1.5 }}\n");
        answered(&format!("{text}\n{oven}"))
    };
    let dug = |answers: &Answers| value(answers, "balance.subsoil.footings.oven.in");
    // The stripped ground lies at -0.60 m, the underside of the floor's layers at -0.25 m with rammed earth between; the
    // footing is 1.7671 m² wide. Down to -0.80 m it goes through 0.35 m of rammed earth and 0.20 m of ground.
    let answers = with_oven("700 mm", worked());
    closes(&answers).unwrap();
    assert!((dug(&answers).unwrap() - 1.7671 * (0.35 / 0.9 + 0.20)).abs() < 1e-4);
    // Down to -0.45 m it stands in rammed earth; in the layers of the floor it digs nothing.
    assert!((dug(&with_oven("350 mm", worked())).unwrap() - 1.7671 * 0.20 / 0.9).abs() < 1e-4);
    assert_eq!(dug(&with_oven("150 mm", worked())), None);
    // Without a floor there is the stripped ground alone.
    assert!((dug(&with_oven("700 mm", RING.to_owned())).unwrap() - 1.7671 * 0.20).abs() < 1e-4);
    // Within the ring: π/4 × 0.6² × 0.7 = 0.1979 m³, half as much again loose, bought as what fills the footing.
    let fill = value(&answers, "built-in.oven.fill-loose-volume").unwrap();
    assert!((fill - 0.2969).abs() < 5e-5, "{fill}");
    let ordered = &answers.rows.find("order.gravel.needed").unwrap().reason.inputs;
    assert!(ordered.iter().any(|input| input.path == "built-in.oven.fill-loose-volume"));
}

#[test]
fn the_page_worked_by_hand_says_what_the_program_says() {
    let answers = answered(&worked());
    let lines = PAGE.lines().filter_map(|line| line.strip_prefix("| `")?.strip_suffix(" |")?.split_once("` | "));
    let mut count = 0;
    for (path, by_hand) in lines {
        let ours = value(&answers, path).unwrap_or_else(|| panic!("there is no {path}"));
        let decimals = by_hand.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        let digit = 10f64.powi(-i32::try_from(decimals).unwrap());
        let gap = (ours - by_hand.parse::<f64>().unwrap()).abs();
        assert!(gap <= 0.5 * digit * (1.0 + 1e-9), "{path}: {by_hand} by hand, {ours} here");
        count += 1;
    }
    assert!(count >= 18, "{count} lines");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_balance_closes_whatever_is_changed(
        build in 0..BUILDS.len() + 1,
        changes in prop::collection::vec((any::<prop::sample::Index>(), 0.5..1.8f64), 1..5),
    ) {
        let mut text = if build == BUILDS.len() { worked() } else { BUILDS[build].1.to_owned() };
        let given: Vec<(String, Quantity)> = answered(&text)
            .rows
            .iter()
            .filter(|row| row.own == Some(Origin::Given) && row.reason.inputs.is_empty())
            .filter(|row| !row.path.starts_with("prices.") && row.quantity.kind().of_si(1.0).is_some())
            .map(|row| (row.path.clone(), row.quantity))
            .collect();
        for (at, by) in changes {
            let (path, quantity) = at.get(&given);
            let changed = quantity.kind().of_si(quantity.si().unwrap() * by).unwrap();
            let other = rewritten(&text, path, &spelled(changed));
            if try_answered(&other).is_some() {
                text = other;
            }
        }
        closes(&answered(&text)).map_err(TestCaseError::fail)?;
    }
}
