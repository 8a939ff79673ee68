//! The tables of loads: facts of codes and trade, combinations, and how a load that comes and goes may lie.

use std::sync::LazyLock;

use crate::facts::{Fact, facts, lines};
use crate::sources::Citation;

/// One combination of a code: the factor of each load.
#[derive(Clone, Debug, PartialEq)]
pub struct Combination {
    /// The set that it belongs to, such as "EN 6.10" or "ASD".
    pub method: String,
    /// Its name in the set.
    pub name: String,
    /// Of what stays.
    pub permanent: f64,
    /// Of people, tools and heaps on the roof.
    pub imposed: f64,
    /// Of snow.
    pub snow: f64,
    /// Of wind that presses down.
    pub wind_down: f64,
    /// Of wind that lifts.
    pub wind_up: f64,
    /// The word by which timber knows the shortest load in it: a duration of EN 1995-1-1 or of the NDS.
    pub duration: String,
    /// Where it comes from.
    pub citation: Citation,
}

/// How a load that comes and goes may lie on a roof.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pattern {
    /// Everywhere.
    All,
    /// Between the walls alone.
    InsideOnly,
    /// On the eaves alone.
    EavesOnly,
    /// On the half that is loaded first.
    FirstHalf,
    /// On the other half.
    SecondHalf,
}

impl Pattern {
    /// Every pattern.
    pub const ALL: [Pattern; 5] =
        [Pattern::All, Pattern::InsideOnly, Pattern::EavesOnly, Pattern::FirstHalf, Pattern::SecondHalf];

    /// Its name in the table.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Pattern::All => "all",
            Pattern::InsideOnly => "inside only",
            Pattern::EavesOnly => "eaves only",
            Pattern::FirstHalf => "first half",
            Pattern::SecondHalf => "second half",
        }
    }

    /// The share of the load that lies on a zone; none where the table does not have the pattern.
    #[must_use]
    pub fn share(self, zone: Zone) -> Option<f64> {
        let own = PATTERNS.as_deref().unwrap_or_default().iter().find(|row| row.name == self.name())?;
        Some(own.shares[zone as usize])
    }
}

/// A part of the roof.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Zone {
    /// Between the walls, on the half that is loaded first.
    InsideFirst,
    /// Between the walls, on the other half.
    InsideSecond,
    /// The eaves of the half that is loaded first.
    EavesFirst,
    /// The eaves of the other half.
    EavesSecond,
}

impl Zone {
    /// Every zone, in the order of the table's columns.
    pub const ALL: [Zone; 4] = [Zone::InsideFirst, Zone::InsideSecond, Zone::EavesFirst, Zone::EavesSecond];
}

#[derive(Debug)]
struct Shares {
    name: String,
    shares: [f64; 4],
}

type Table<T> = LazyLock<Result<Vec<T>, String>>;

// Constant data, read from its text once.
static FACTS: Table<Fact> = LazyLock::new(|| facts("facts.csv", include_str!("../../../data/loads/facts.csv")));
static COMBINATIONS: Table<Combination> =
    LazyLock::new(|| combinations_of("combinations.csv", include_str!("../../../data/loads/combinations.csv")));
static PATTERNS: Table<Shares> =
    LazyLock::new(|| patterns("patterns.csv", include_str!("../../../data/loads/patterns.csv")));

/// A fact of the table by its name; none where the table has no such name.
#[must_use]
pub fn fact(name: &str) -> Option<&'static Fact> {
    FACTS.as_deref().unwrap_or_default().iter().find(|fact| fact.name == name)
}

/// Every combination, set by set.
#[must_use]
pub fn combinations() -> &'static [Combination] {
    COMBINATIONS.as_deref().unwrap_or_default()
}

fn combinations_of(table: &str, text: &str) -> Result<Vec<Combination>, String> {
    lines(table, text, |line| {
        Ok(Combination {
            method: line.text("method")?,
            name: line.text("name")?,
            permanent: line.number("permanent")?,
            imposed: line.number("imposed")?,
            snow: line.number("snow")?,
            wind_down: line.number("wind_down")?,
            wind_up: line.number("wind_up")?,
            duration: line.text("duration")?,
            citation: line.citation()?,
        })
    })
}

fn patterns(table: &str, text: &str) -> Result<Vec<Shares>, String> {
    lines(table, text, |line| {
        let heads = ["inside_first", "inside_second", "eaves_first", "eaves_second"];
        let mut shares = [0.0; 4];
        for (share, head) in shares.iter_mut().zip(heads) {
            *share = line.number(head)?;
        }
        line.citation()?;
        Ok(Shares { name: line.text("pattern")?, shares })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_table_reads_and_no_name_stands_twice() {
        let facts = FACTS.as_ref().unwrap().iter().map(|fact| fact.name.clone());
        let sets = COMBINATIONS.as_ref().unwrap().iter().map(|one| format!("{} {}", one.method, one.name));
        let mut names: Vec<String> = facts.chain(sets).collect();
        let count = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!((names.len(), count > 60), (count, true));
        assert_eq!(PATTERNS.as_ref().unwrap().len(), Pattern::ALL.len());
    }

    #[test]
    fn a_table_with_a_slip_names_itself_and_the_line() {
        let heads = include_str!("../../../data/loads/combinations.csv").lines().next().unwrap();
        let told = combinations_of("combinations.csv", &format!("{heads}\nASD,D,one,0,0,0,0,permanent,w,p,memory\n"));
        assert_eq!(told.unwrap_err(), "combinations.csv, line 2: `permanent` is \"one\", not a number");
        let told = patterns("patterns.csv", "pattern,inside_first\nall,1\n").unwrap_err();
        assert_eq!(told, "patterns.csv, line 2: there is no column `inside_second`");
    }

    #[test]
    fn two_patterns_that_complete_each_other_cover_every_zone_once() {
        let share = |pattern: Pattern, zone| pattern.share(zone).unwrap();
        for zone in Zone::ALL {
            assert_eq!(share(Pattern::InsideOnly, zone) + share(Pattern::EavesOnly, zone), 1.0);
            assert_eq!(share(Pattern::FirstHalf, zone) + share(Pattern::SecondHalf, zone), 1.0);
            assert_eq!(share(Pattern::All, zone), 1.0);
        }
    }

    #[test]
    fn every_set_has_a_combination_for_what_stays_alone_and_for_wind_that_lifts() {
        for method in ["EN 6.10", "EN 6.10ab", "LRFD", "ASD"] {
            let own: Vec<_> = combinations().iter().filter(|one| one.method == method).collect();
            let passing = |one: &&&Combination| one.imposed + one.snow + one.wind_down + one.wind_up == 0.0;
            assert!(own.iter().any(|one| passing(&one)), "{method}");
            assert!(own.iter().any(|one| one.wind_up > 0.0 && one.permanent <= 1.0), "{method}");
            assert!(own.iter().all(|one| one.wind_up == 0.0 || one.wind_down == 0.0), "{method}");
        }
    }
}
