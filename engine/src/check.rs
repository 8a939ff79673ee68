//! Rules, and what they say of a value: holds, tight, fails, on trust, not known. A state is computed, never set.

#[cfg(test)]
mod laws;

use crate::known::Origin;
use crate::row::{Row, Rows, shown};
use crate::sources::Citation;
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
    /// Of a clause without text: the path of the row whose figure stands beside it, for who decides.
    pub shows: Option<String>,
    /// Where the limit comes from.
    pub citation: Citation,
    /// The path of the row with which it stands: where there is no such row, it says nothing.
    pub stands_with: Option<String>,
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
        if self.borrowed.is_some() { Origin::Judgement } else { self.citation.standing.into() }
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
    /// without its text says *not known*, with the figure that it shows; a rule of a kind of roof says nothing where no row
    /// of that kind is. This is the only way to make a check.
    #[must_use]
    pub fn against(rule: &Rule, rows: &Rows) -> Vec<Check> {
        if rule.stands_with.as_ref().is_some_and(|path| rows.find(path).is_none()) {
            return Vec::new();
        }
        let Some(limit) = &rule.limit else { return vec![Check::without_text(rule, rows)] };
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

    fn without_text(rule: &Rule, rows: &Rows) -> Check {
        let Some(row) = rule.shows.as_deref().and_then(|path| rows.find(path)) else {
            return Check::not_known(rule, None, &rule.title);
        };
        Check { found: Some(row.quantity), ..Check::not_known(rule, Some(&row.path), &row.title) }
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
            (None, None) => self.clause(),
            (None, Some(found)) => format!("{subject}: {}. {}", shown(found, system), self.clause()),
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

    /// The clause whose text is missing, and what to supply.
    fn clause(&self) -> String {
        let (title, place) = (capital(&self.rule.title), &self.rule.citation.place);
        format!("{title}, {place}: {}. {}", self.state.word(), self.rule.when_unknown)
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
