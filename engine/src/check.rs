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

impl Comparison {
    /// The side in words, such as "at most".
    #[must_use]
    pub fn in_words(self) -> &'static str {
        match self {
            Comparison::AtMost => "at most",
            Comparison::AtLeast => "at least",
        }
    }
}

/// What a rule measures, and how far that may go.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// The path of the row it measures; `*` stands for one key.
    pub measures: String,
    /// Which side of the bound is right.
    pub comparison: Comparison,
    /// How far the value may go.
    pub bound: Quantity,
}

impl Limit {
    /// The limit in words, such as "at most 1.000 m".
    #[must_use]
    pub fn in_words(&self, system: System) -> String {
        format!("{} {}", self.comparison.in_words(), shown(self.bound, system))
    }
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
    /// The limit; none of a clause whose text we do not have, against which nothing can be held.
    pub limit: Option<Limit>,
    /// Where the limit comes from.
    pub citation: Citation,
    /// For what it was written, where that is not cob.
    pub borrowed: Option<String>,
    /// What to measure, decide, write or supply when the value or the text is not known.
    pub when_unknown: String,
    /// Who must decide, where a licensed person must; empty otherwise.
    pub who_decides: String,
}

impl Rule {
    /// How far the rule itself can be relied on: only a clause seen in the code or supplied by the builder counts as a
    /// table. That a rule written for another material suits cob is our judgement.
    #[must_use]
    pub fn origin(&self) -> Origin {
        if self.borrowed.is_some() {
            return Origin::Judgement;
        }
        match self.citation.standing {
            Standing::Missing | Standing::Memory | Standing::Quoted => Origin::Memory,
            Standing::CommonPractice => Origin::CommonPractice,
            Standing::Seen | Standing::Derived | Standing::Supplied => Origin::Table,
        }
    }
}

/// What a rule says of a value, the most urgent first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// The value or the text of the rule is not known.
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
    /// The path of the row that was measured, or the rule's pattern when there is no such row; none where the rule's
    /// text is missing.
    pub path: Option<String>,
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

    /// How many assumed values are named again at the later checks of a rule.
    const FEW: usize = 3;

    /// Holds a rule against every row it measures. A rule on one path says *not known* when there is no such row; a rule
    /// on each of many things says nothing when there are none, and *not known* of each that could not be measured; a rule
    /// without its text says *not known*. This is the only way to make a check.
    #[must_use]
    pub fn against(rule: &Rule, rows: &Rows) -> Vec<Check> {
        let Some(limit) = &rule.limit else { return vec![Check::not_known(rule, None, &rule.title)] };
        let measures = limit.measures.as_str();
        let found = rows.matching(measures).map(|row| Check::of(rule, limit, row, rows));
        let unknown = rows.unknown(measures).map(|(path, title)| Check::not_known(rule, Some(path), title));
        let checks: Vec<Check> = found.chain(unknown).collect();
        if !checks.is_empty() || measures.contains('*') {
            return checks;
        }
        vec![Check::not_known(rule, Some(measures), &rule.title)]
    }

    /// The assumed values, path and title, with which the state may be another, and how many more there are: all of them at the
    /// first check of a rule, a few at those after it, since poles and crossings of one roof lean on the same.
    #[must_use]
    pub fn leaning(&self, first_of_rule: bool) -> (&[(String, String)], usize) {
        let all = if matches!(self.state, State::OnTrust | State::Fails) { &self.leans_on[..] } else { &[] };
        let is_short = first_of_rule || all.len() <= Check::FEW + 1;
        let (named, more) = all.split_at(if is_short { all.len() } else { Check::FEW });
        (named, more.len())
    }

    fn not_known(rule: &Rule, path: Option<&str>, subject: &str) -> Check {
        Check {
            rule: rule.clone(),
            path: path.map(str::to_owned),
            subject: subject.to_owned(),
            found: None,
            state: State::NotKnown,
            leans_on: Vec::new(),
        }
    }

    fn of(rule: &Rule, limit: &Limit, row: &Row, rows: &Rows) -> Check {
        let leans_on: Vec<(String, String)> =
            rows.leaning(&row.path).map(|known| (known.path.clone(), known.title.clone())).collect();
        let state = match (row.quantity.si(), limit.bound.si()) {
            (Some(found), Some(bound)) if row.quantity.kind() == limit.bound.kind() => {
                let counted = matches!(row.quantity, Quantity::Count(_));
                let leans = rule.origin().min(row.origin) < Origin::Table;
                state(found, limit.comparison, bound, counted, leans)
            }
            _ => State::NotKnown,
        };
        Check {
            rule: rule.clone(),
            path: Some(row.path.clone()),
            subject: row.title.clone(),
            found: Some(row.quantity),
            state,
            leans_on,
        }
    }

    /// The check in a sentence or two: what was found, what the limit is, by how much it is missed, and for what a
    /// borrowed rule was written; or what to measure or supply.
    #[must_use]
    pub fn sentence(&self, system: System) -> String {
        let subject = capital(&self.subject);
        let wanted = self.rule.limit.as_ref().map(|limit| limit.in_words(system));
        let mut sentence = match (wanted, self.found) {
            (None, _) => {
                format!("{subject}, {}: {}. {}", self.rule.citation.place, self.state.word(), self.rule.when_unknown)
            }
            (Some(wanted), None) => format!("{subject}: {wanted} wanted. {}", self.rule.when_unknown),
            (Some(wanted), Some(found)) => format!("{subject}: {}, {wanted} wanted", shown(found, system)),
        };
        if let Some((gap, way)) = self.missed_by() {
            sentence.push_str(&format!(", {} {way}", shown(gap, system)));
        }
        sentence.push('.');
        if let Some(borrowed) = self.borrowed_in_words() {
            sentence.push_str(&format!(" {borrowed}"));
        }
        sentence
    }

    /// What a check of a borrowed rule must say beside it.
    #[must_use]
    pub fn borrowed_in_words(&self) -> Option<String> {
        self.rule.borrowed.as_ref().map(|written_for| format!("Borrowed: {written_for}."))
    }

    /// How far a failing value is past its limit, and on which side.
    fn missed_by(&self) -> Option<(Quantity, &'static str)> {
        let limit = self.rule.limit.as_ref().filter(|_| self.state == State::Fails)?;
        let way = match limit.comparison {
            Comparison::AtMost => "too much",
            Comparison::AtLeast => "too little",
        };
        Some((self.found?.gap_to(limit.bound)?, way))
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn state(found: f64, comparison: Comparison, limit: f64, counted: bool, leans: bool) -> State {
    let slack = Check::ROUNDING * limit.abs();
    // Of a limit below zero the larger number is the stricter one.
    let [less, more] = if limit < 0.0 { [limit / 0.9, 0.9 * limit] } else { [0.9 * limit, limit / 0.9] };
    let (fails, tight) = match comparison {
        Comparison::AtMost => (found > limit + slack, found > less + slack),
        Comparison::AtLeast => (found < limit - slack, found < more - slack),
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
            limit: Some(Limit { measures: "thing.width".into(), comparison, bound: Length::m(1.0).into() }),
            citation: Citation { work: "a test".into(), place: String::new(), standing },
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
    fn a_borrowed_rule_is_at_best_on_trust_says_so_and_never_hides_a_failure() {
        let borrowed = Rule {
            borrowed: Some("written for bricks, not for cob".into()),
            ..rule(Comparison::AtMost, Standing::Seen)
        };
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
}
