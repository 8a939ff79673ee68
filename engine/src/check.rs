//! Rules, and what they say of a value: holds, tight, fails, on trust, not known. A state is computed, never set.

use crate::known::Origin;
use crate::row::{Row, Rows, shown};
use crate::sources::{Citation, Standing};
use crate::units::{Quantity, System};

/// Which side of its limit a value must stay on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comparison {
    /// The value may equal the limit, not pass it.
    AtMost,
    /// The value may equal the limit, not stay below it.
    AtLeast,
}

/// A rule taken from a code, a standard or the trade.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// Its name in its rulebook.
    pub id: String,
    /// The rulebook's title.
    pub rulebook: String,
    /// What is measured, in a builder's words.
    pub title: String,
    /// The path of the row it measures; `*` stands for one key.
    pub measures: String,
    /// Which side of the limit is right.
    pub comparison: Comparison,
    /// The limit.
    pub limit: Quantity,
    /// Where the limit comes from.
    pub citation: Citation,
    /// What to measure, decide or write when the value is not known.
    pub when_unknown: String,
    /// Who must decide, where a licensed person must; empty otherwise.
    pub who_decides: String,
}

impl Rule {
    /// How far the rule itself can be relied on: only a clause seen in the code or supplied by the builder counts as a
    /// table.
    #[must_use]
    pub fn origin(&self) -> Origin {
        match self.citation.standing {
            Standing::Memory | Standing::Quoted => Origin::Memory,
            Standing::CommonPractice => Origin::CommonPractice,
            Standing::Seen | Standing::Derived | Standing::Supplied => Origin::Table,
        }
    }
}

/// What a rule says of a value, the most urgent first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// The value is not known.
    NotKnown,
    /// The value is past the limit.
    Fails,
    /// Would hold if something assumed, remembered or quoted is true.
    OnTrust,
    /// Within the limit by less than a tenth.
    Tight,
    /// Within the limit.
    Holds,
}

impl State {
    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            State::NotKnown => "not known",
            State::Fails => "fails",
            State::OnTrust => "on trust",
            State::Tight => "tight",
            State::Holds => "holds",
        }
    }
}

/// A rule held against a value.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// The rule.
    pub rule: Rule,
    /// The path of the row that was measured, or the rule's pattern when there is none.
    pub path: String,
    /// What the measured thing is called.
    pub subject: String,
    /// The value, when it is known.
    pub found: Option<Quantity>,
    /// What the rule says.
    pub state: State,
    /// The assumed values that the verdict leans on, weaker than a table: path and title.
    pub leans_on: Vec<(String, String)>,
}

impl Check {
    /// Values closer to the limit than this share of it count as equal to it: rounding of binary fractions, not of
    /// walls.
    const ROUNDING: f64 = 1e-9;

    /// Holds a rule against every row it measures. A rule on one path says *not known* when there is no such row; a rule
    /// on each of many things says nothing when there are none. This is the only way to make a check.
    #[must_use]
    pub fn against(rule: &Rule, rows: &Rows) -> Vec<Check> {
        let checks: Vec<Check> = rows.matching(&rule.measures).map(|row| Check::of(rule, row, rows)).collect();
        if !checks.is_empty() || rule.measures.contains('*') {
            return checks;
        }
        vec![Check {
            rule: rule.clone(),
            path: rule.measures.clone(),
            subject: rule.title.clone(),
            found: None,
            state: State::NotKnown,
            leans_on: Vec::new(),
        }]
    }

    fn of(rule: &Rule, row: &Row, rows: &Rows) -> Check {
        let leans_on: Vec<(String, String)> = rows
            .reached_from(&row.path)
            .into_iter()
            .filter(|known| known.own.is_some_and(|own| own < Origin::Table))
            .map(|known| (known.path.clone(), known.title.clone()))
            .collect();
        let state = match (row.quantity.si(), rule.limit.si()) {
            (Some(found), Some(limit)) if row.quantity.kind() == rule.limit.kind() => {
                let counted = matches!(row.quantity, Quantity::Count(_));
                let leans = rule.origin().min(row.origin) < Origin::Table;
                state(found, rule.comparison, limit, counted, leans)
            }
            _ => State::NotKnown,
        };
        Check {
            rule: rule.clone(),
            path: row.path.clone(),
            subject: row.title.clone(),
            found: Some(row.quantity),
            state,
            leans_on,
        }
    }

    /// The check in one sentence: what was found, what the limit is, and by how much it is missed.
    #[must_use]
    pub fn sentence(&self, system: System) -> String {
        let limit = shown(self.rule.limit, system);
        let side = match self.rule.comparison {
            Comparison::AtMost => "at most",
            Comparison::AtLeast => "at least",
        };
        let Some(found) = self.found else {
            return format!("{}: {side} {limit} wanted. {}.", capital(&self.subject), self.rule.when_unknown);
        };
        let subject = capital(&self.subject);
        let mut sentence = format!("{subject}: {}, {side} {limit} wanted", shown(found, system));
        if self.state == State::Fails
            && let Some(gap) = found.gap_to(self.rule.limit)
        {
            let way = if self.rule.comparison == Comparison::AtMost { "too much" } else { "too little" };
            sentence.push_str(&format!(", {} {way}", shown(gap, system)));
        }
        sentence.push('.');
        sentence
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn state(found: f64, comparison: Comparison, limit: f64, counted: bool, leans: bool) -> State {
    let slack = Check::ROUNDING * limit.abs();
    let (fails, tight) = match comparison {
        Comparison::AtMost => (found > limit + slack, found > 0.9 * limit + slack),
        Comparison::AtLeast => (found < limit - slack, found < limit / 0.9 - slack),
    };
    match (fails, leans, tight && !counted) {
        (true, _, _) => State::Fails,
        (false, true, _) => State::OnTrust,
        (false, false, true) => State::Tight,
        (false, false, false) => State::Holds,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::known::Known;
    use crate::units::Length;

    fn rule(comparison: Comparison, standing: Standing) -> Rule {
        Rule {
            id: "width".into(),
            rulebook: "a test".into(),
            title: "width".into(),
            measures: "thing.width".into(),
            comparison,
            limit: Length::m(1.0).into(),
            citation: Citation { work: "a test".into(), place: String::new(), standing },
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
}
