//! Laws of rules and what they say of a value.

use super::*;
use crate::known::Known;
use crate::sources::Standing;
use crate::units::Length;

fn rule(comparison: Comparison, standing: Standing) -> Rule {
    Rule {
        id: "width".into(),
        rulebook: "a test".into(),
        title: "width".into(),
        limit: Some(Limit { measures: "thing.width".into(), comparison, bound: Length::m(1.0).into() }),
        citation: Citation { work: "a test".into(), place: String::new(), standing },
        shows: None,
        stands_with: None,
        borrowed: None,
        when_unknown: "Measure the width".into(),
        who_decides: String::new(),
    }
}

fn found(width: f64, origin: Origin, comparison: Comparison, standing: Standing) -> State {
    let mut rows = Rows::default();
    rows.known("width", &Known::assumed(Length::m(width), "thing.width", origin, "a test"));
    Check::against(&rule(comparison, standing), &rows)[0].state
}

#[test]
fn a_maximum_holds_to_nine_tenths_is_tight_to_the_limit_and_fails_just_past_it() {
    let at = |width| found(width, Origin::Given, Comparison::AtMost, Standing::Seen);
    assert_eq!(at(0.9), State::Holds);
    assert_eq!(at(0.900_001), State::Tight);
    assert_eq!(at(1.0), State::Tight);
    assert_eq!(at(1.000_001), State::Fails);
}

#[test]
fn a_minimum_fails_just_below_is_tight_up_to_a_ninth_more_and_then_holds() {
    let at = |width| found(width, Origin::Given, Comparison::AtLeast, Standing::Seen);
    assert_eq!(at(0.999_999), State::Fails);
    assert_eq!(at(1.0), State::Tight);
    assert_eq!(at(1.111), State::Tight);
    assert_eq!(at(1.112), State::Holds);
}

#[test]
fn a_minimum_below_zero_fails_just_below_is_tight_within_a_tenth_and_then_holds() {
    let at = |found| state(found, Comparison::AtLeast, -1.0, false, false);
    assert_eq!([at(-1.000_001), at(-1.0), at(-0.91)], [State::Fails, State::Tight, State::Tight]);
    assert_eq!([at(-0.9), at(0.0), at(2.0)], [State::Holds; 3]);
}

#[test]
fn what_could_not_be_measured_of_one_thing_is_not_known_under_its_own_name() {
    let each = Limit { measures: "*.width".into(), comparison: Comparison::AtMost, bound: Length::m(1.0).into() };
    let rule = Rule { limit: Some(each), ..rule(Comparison::AtMost, Standing::Seen) };
    let mut rows = Rows::default();
    rows.known("width of the one", &Known::given(Length::m(0.5), "one.width", 3));
    rows.not_known("other.width", "width of the other");
    rows.not_known("other.height", "height of the other");
    let checks = Check::against(&rule, &rows);
    assert_eq!(checks.iter().map(|check| check.state).collect::<Vec<_>>(), [State::Holds, State::NotKnown]);
    assert_eq!(checks[1].path.as_deref(), Some("other.width"));
    let said = checks[1].sentence(System::Metric);
    assert_eq!(said, "Width of the other: at most 1.000 m wanted. Measure the width.");
    assert!(Check::against(&rule, &Rows::default()).is_empty());
}

#[test]
fn a_weak_rule_or_a_weak_input_caps_the_state_at_on_trust_but_never_hides_a_failure() {
    for (origin, standing) in [
        (Origin::CommonPractice, Standing::Seen),
        (Origin::Given, Standing::Quoted),
        (Origin::Given, Standing::CommonPractice),
    ] {
        assert_eq!(found(0.5, origin, Comparison::AtMost, standing), State::OnTrust);
        assert_eq!(found(0.95, origin, Comparison::AtMost, standing), State::OnTrust);
        assert_eq!(found(1.1, origin, Comparison::AtMost, standing), State::Fails);
    }
}

#[test]
fn a_rule_without_a_value_says_what_to_measure() {
    let checks = Check::against(&rule(Comparison::AtMost, Standing::Seen), &Rows::default());
    assert_eq!(checks.len(), 1);
    assert_eq!(checks[0].state, State::NotKnown);
    assert_eq!(checks[0].sentence(System::Metric), "Width: at most 1.000 m wanted. Measure the width.");
}

#[test]
fn a_missing_clause_is_not_known_and_says_what_to_supply() {
    let clause = Rule {
        title: "walls out of plane".into(),
        limit: None,
        citation: Citation { work: "a code".into(), place: "A1".into(), standing: Standing::Missing },
        when_unknown: "Supply your text of A1 and its table".into(),
        ..rule(Comparison::AtMost, Standing::Seen)
    };
    let mut rows = Rows::default();
    rows.known("width", &Known::given(Length::m(0.5), "thing.width", 3));
    let checks = Check::against(&clause, &rows);
    assert_eq!(checks.len(), 1);
    assert_eq!((checks[0].state, &checks[0].path, checks[0].found), (State::NotKnown, &None, None));
    let said = checks[0].sentence(System::Metric);
    assert_eq!(said, "Walls out of plane, A1: not known. Supply your text of A1 and its table.");
}

#[test]
fn a_missing_clause_with_a_figure_is_not_known_however_small_the_figure_is() {
    let clause = Rule {
        title: "what holds the foot".into(),
        limit: None,
        shows: Some("thing.width".into()),
        citation: Citation { work: "a code".into(), place: "A1".into(), standing: Standing::Missing },
        when_unknown: "Have it decided".into(),
        ..rule(Comparison::AtMost, Standing::Seen)
    };
    for width in [1e-6, 0.5, 1e6] {
        let mut rows = Rows::default();
        rows.known("width", &Known::given(Length::m(width), "thing.width", 3));
        let checks = Check::against(&clause, &rows);
        assert_eq!(checks.len(), 1);
        assert_eq!((checks[0].state, checks[0].path.as_deref()), (State::NotKnown, Some("thing.width")));
    }
    let mut rows = Rows::default();
    rows.known("width of the foot", &Known::given(Length::m(0.5), "thing.width", 3));
    let said = Check::against(&clause, &rows).remove(0).sentence(System::Metric);
    assert_eq!(said, "Width of the foot: 500 mm. What holds the foot, A1: not known. Have it decided.");
    let without = Check::against(&clause, &Rows::default()).remove(0).sentence(System::Metric);
    assert_eq!(without, "What holds the foot, A1: not known. Have it decided.");
}

#[test]
fn a_borrowed_rule_is_at_best_on_trust_says_so_and_never_hides_a_failure() {
    let borrowed =
        Rule { borrowed: Some("written for bricks, not for cob".into()), ..rule(Comparison::AtMost, Standing::Seen) };
    let against = |width| {
        let mut rows = Rows::default();
        rows.known("width", &Known::given(Length::m(width), "thing.width", 3));
        Check::against(&borrowed, &rows).remove(0)
    };
    assert_eq!(against(0.5).state, State::OnTrust);
    assert_eq!(against(0.95).state, State::OnTrust);
    assert_eq!(against(1.06).state, State::Fails);
    let said = against(1.06).sentence(System::Metric);
    let past = "Width: 1.060 m, at most 1.000 m wanted, 60 mm too much.";
    assert_eq!(said, format!("{past} Borrowed: written for bricks, not for cob."));
    let missing = Check::against(&borrowed, &Rows::default()).remove(0);
    assert_eq!(missing.state, State::NotKnown);
    assert!(missing.sentence(System::Metric).ends_with("Borrowed: written for bricks, not for cob."));
}

#[test]
fn a_failing_check_says_by_how_much() {
    let mut rows = Rows::default();
    rows.known("width of the door", &Known::given(Length::m(1.06), "thing.width", 3));
    let check = &Check::against(&rule(Comparison::AtMost, Standing::Seen), &rows)[0];
    let said = check.sentence(System::Metric);
    assert_eq!(said, "Width of the door: 1.060 m, at most 1.000 m wanted, 60 mm too much.");
}

#[test]
fn a_count_is_never_tight() {
    assert_eq!(state(5.0, Comparison::AtLeast, 5.0, true, false), State::Holds);
    assert_eq!(state(4.0, Comparison::AtLeast, 5.0, true, false), State::Fails);
}
