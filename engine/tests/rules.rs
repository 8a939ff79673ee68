//! Every rule that comes with the program: it does not fail at its bound, fails just past it, and some build has its row.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/builds.rs"]
#[allow(dead_code, reason = "some tests take single builds, others all")]
mod builds;

use builds::{BUILDS, BURDOCK_RISE, TANSY_BANK};
use engine::answers::{Answers, Inputs, answers};
use engine::check::{Check, Comparison, Limit, Rule, State};
use engine::known::Known;
use engine::row::Rows;
use engine::rulebook::{Rulebook, SHIPPED};
use engine::units::Quantity;

fn limits() -> impl Iterator<Item = (&'static Rule, &'static Limit)> {
    SHIPPED.iter().flat_map(Rulebook::rules).filter_map(|rule| Some((rule, rule.limit.as_ref()?)))
}

/// What a rule says of a value that lies past its bound by a share of it, or short of it where that is negative.
fn state(rule: &Rule, limit: &Limit, past: f64) -> State {
    let bound = limit.bound.si().unwrap();
    let way = match limit.comparison {
        Comparison::AtMost => past,
        Comparison::AtLeast => -past,
    };
    let size = if bound == 0.0 { 1.0 } else { bound.abs() };
    let value = match limit.bound {
        // Of what is counted the next is one more.
        Quantity::Count(_) => Quantity::Count((bound + if way > 0.0 { way.ceil() } else { way.floor() }) as u64),
        other => other.kind().of_si(bound + way * size).unwrap(),
    };
    let mut rows = Rows::default();
    rows.known("thing", &Known::given(value, limit.measures.replace('*', "thing"), 1));
    Check::against(rule, &rows)[0].state
}

#[test]
fn no_rule_fails_at_its_bound_or_short_of_it_and_every_one_fails_a_millionth_past_it() {
    let mut count = 0;
    for (rule, limit) in limits() {
        for past in [-0.5, -1e-6, 0.0] {
            let found = state(rule, limit, past);
            assert!(matches!(found, State::OnTrust | State::Tight | State::Holds), "{}: {found:?} at {past}", rule.id);
        }
        assert_eq!(state(rule, limit, 1e-6), State::Fails, "{}", rule.id);
        count += 1;
    }
    assert!(count > 25, "{count} rules with a limit");
}

#[test]
fn every_rule_measures_a_row_that_some_build_has() {
    // No build has a ring of poles by allowable stresses; the first with another code has.
    let by_stresses = TANSY_BANK
        .replace("eurocode-timber", "asd-timber")
        .replace("class = \"C24\"", "class = \"DF-L No.2\"")
        .replace("terrain = \"2\"", "exposure = \"c\"")
        // So strong a wind that its anchors must hold something.
        .replace("wind = \"23 m/s\"", "wind = \"60 m/s\"");
    // Nor rafters that a wind lifts by the European code.
    let european = BURDOCK_RISE
        .replace("asd-timber", "eurocode-timber")
        .replace("class = \"DF-L No.2\"", "class = \"C24\"")
        .replace("exposure = \"c\"", "terrain = \"2\"");
    let houses: Vec<Answers> = BUILDS
        .into_iter()
        .chain([("Tansy Bank by allowable stresses", by_stresses.as_str()), ("Burdock Rise by Europe's", &european)])
        .map(|(name, text)| {
            let found = answers(&Inputs { build: text.as_bytes(), system: None });
            found.unwrap_or_else(|problems| panic!("{name}: {}", problems.all()[0]))
        })
        .collect();
    for (rule, limit) in limits() {
        // No build file has a place for what tested plaster bears; what holds a ring that has lost a pole, and bolts by allowable stresses,
        // are for an engineer:
        // such a rule says so of every house that it is about.
        let open = ["tests.plaster.", "roof.without.", "roof.crossings.*.asd-bolt"];
        let is_open =
            |start: &&str| limit.measures.starts_with(*start) && (start.ends_with('.') || limit.measures == **start);
        if open.iter().any(is_open) {
            let says = houses.iter().flat_map(|house| Check::against(rule, &house.rows));
            assert!(says.into_iter().all(|check| check.state == State::NotKnown), "{}", rule.id);
            continue;
        }
        let mut rows = houses.iter().flat_map(|house| house.rows.matching(&limit.measures));
        let is_of_its_kind = |row: &engine::row::Row| row.quantity.kind() == limit.bound.kind();
        assert!(rows.any(is_of_its_kind), "{} measures {}, which no build has", rule.id, limit.measures);
    }
}
