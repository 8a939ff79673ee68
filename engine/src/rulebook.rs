//! Reads rulebooks: rules as data, each with its limit, its source and how we have it.

use std::sync::LazyLock;

use toml::de::{DeTable, DeValue};

use crate::check::{Comparison, Limit, Rule};
use crate::sources::{Citation, Standing};
use crate::units::{self, Kind};

/// A rulebook that comes with the program.
pub struct Rulebook {
    /// The name that a build file uses.
    pub name: &'static str,
    // Constant data, read from its text once: reading all of them each time takes a fifth of the answers of a house.
    rules: LazyLock<Result<Vec<Rule>, String>>,
}

impl Rulebook {
    /// Its rules in its order, clauses whose text is missing last.
    #[must_use]
    pub fn rules(&self) -> &[Rule] {
        self.rules.as_deref().unwrap_or_default()
    }
}

/// The rulebooks that come with the program.
pub static SHIPPED: [Rulebook; 7] = [
    Rulebook {
        name: "trade-practice",
        rules: LazyLock::new(|| read(include_str!("../../data/rulebooks/trade-practice.toml"))),
    },
    Rulebook {
        name: "cob-appendix",
        rules: LazyLock::new(|| read(include_str!("../../data/rulebooks/cob-appendix.toml"))),
    },
    Rulebook {
        name: "new-mexico",
        rules: LazyLock::new(|| read(include_str!("../../data/rulebooks/new-mexico.toml"))),
    },
    Rulebook {
        name: "eurocode-timber",
        rules: LazyLock::new(|| read(include_str!("../../data/rulebooks/eurocode-timber.toml"))),
    },
    Rulebook {
        name: "asd-timber",
        rules: LazyLock::new(|| read(include_str!("../../data/rulebooks/asd-timber.toml"))),
    },
    Rulebook { name: "nzs-4298", rules: LazyLock::new(|| read(include_str!("../../data/rulebooks/nzs-4298.toml"))) },
    Rulebook {
        name: "clay-plaster",
        rules: LazyLock::new(|| read(include_str!("../../data/rulebooks/clay-plaster.toml"))),
    },
];

/// The rules of the rulebooks so named, in the order in which they ship.
pub fn rules_of(names: &[String]) -> impl Iterator<Item = &'static Rule> {
    let is_named = |book: &&Rulebook| names.iter().any(|name| name == book.name);
    SHIPPED.iter().filter(is_named).flat_map(Rulebook::rules)
}

/// The limit that the first of them sets to what a row measures.
#[must_use]
pub fn limit_of(names: &[String], measures: &str) -> Option<&'static Limit> {
    rules_of(names).filter_map(|rule| rule.limit.as_ref()).find(|limit| limit.measures == measures)
}

/// The rules of a rulebook in its order, those with a limit first, then the clauses whose text is missing.
///
/// # Errors
/// One sentence that names the rule and what is wrong with it.
pub fn read(text: &str) -> Result<Vec<Rule>, String> {
    let table = DeTable::parse(text).map_err(|error| error.message().to_owned())?;
    let table = table.get_ref();
    let book =
        Book { title: word(table, "title", "the rulebook")?, borrowed: maybe_word(table, "borrowed", "the rulebook")? };
    let mut rules = Vec::new();
    for (id, rule) in tables(table, "rule")? {
        rules.push(book.rule(id, rule)?);
    }
    for (id, clause) in tables(table, "missing")? {
        rules.push(book.missing(id, clause)?);
    }
    if rules.is_empty() { Err("the rulebook has no [rule.NAME]".to_owned()) } else { Ok(rules) }
}

/// Every `[group.NAME]` with its name.
fn tables<'t>(book: &'t DeTable<'_>, group: &str) -> Result<Vec<(&'t str, &'t DeTable<'t>)>, String> {
    let Some(value) = book.get(group) else { return Ok(Vec::new()) };
    let named = value.get_ref().as_table().ok_or_else(|| format!("`{group}` is not a table of tables"))?;
    named
        .iter()
        .map(|(id, table)| {
            let id = id.get_ref().as_ref();
            let table = table.get_ref().as_table().ok_or_else(|| format!("{group} {id} is not a table"))?;
            Ok((id, table))
        })
        .collect()
}

/// What all rules of a rulebook share.
struct Book {
    title: String,
    borrowed: Option<String>,
}

impl Book {
    fn rule(&self, id: &str, rule: &DeTable<'_>) -> Result<Rule, String> {
        let place = format!("rule {id}");
        let standing = word(rule, "standing", &place)?;
        let standing = Standing::read(&standing).ok_or_else(|| format!("{place}: `{standing}` is not a standing"))?;
        self.read(id, rule, &place, Some(limit(rule, &place)?), standing)
    }

    /// A clause of which we have the heading at most; it has no limit and no standing to write.
    fn missing(&self, id: &str, clause: &DeTable<'_>) -> Result<Rule, String> {
        let place = format!("missing {id}");
        let written =
            ["at-most", "at-least", "measures", "standing"].into_iter().find(|key| clause.get(*key).is_some());
        match written {
            Some(key) => Err(format!("{place} has `{key}`; a clause whose text is there is a rule")),
            None => {
                let shows = maybe_word(clause, "shows", &place)?;
                Ok(Rule { shows, ..self.read(id, clause, &place, None, Standing::Missing)? })
            }
        }
    }

    fn read(
        &self,
        id: &str,
        rule: &DeTable<'_>,
        place: &str,
        limit: Option<Limit>,
        standing: Standing,
    ) -> Result<Rule, String> {
        Ok(Rule {
            id: id.to_owned(),
            rulebook: self.title.clone(),
            title: word(rule, "title", place)?,
            limit,
            shows: None,
            stands_with: maybe_word(rule, "stands-with", place)?,
            citation: Citation { work: word(rule, "source", place)?, place: word(rule, "place", place)?, standing },
            borrowed: self.borrowed.clone(),
            when_unknown: word(rule, "when-unknown", place)?,
            who_decides: maybe_word(rule, "who-decides", place)?.unwrap_or_default(),
        })
    }
}

fn limit(rule: &DeTable<'_>, place: &str) -> Result<Limit, String> {
    let (comparison, bound) = match (rule.get("at-most"), rule.get("at-least")) {
        (Some(bound), None) => (Comparison::AtMost, bound),
        (None, Some(bound)) => (Comparison::AtLeast, bound),
        _ => return Err(format!("{place} needs one limit, `at-most` or `at-least`")),
    };
    let kind = word(rule, "kind", place)?;
    let kind = Kind::named(&kind).ok_or_else(|| format!("{place}: `{kind}` is not a kind of quantity"))?;
    let bound = bound.get_ref().as_str().ok_or_else(|| format!("{place}: the limit is text with a unit"))?;
    let bound = units::parse(bound, kind).map_err(|misread| format!("{place}: {}", misread.message))?;
    Ok(Limit { measures: word(rule, "measures", place)?, comparison, bound })
}

fn maybe_word(table: &DeTable<'_>, key: &str, place: &str) -> Result<Option<String>, String> {
    table.get(key).map(|_| word(table, key, place)).transpose()
}

/// The text of a key, or what is missing at that place.
pub(crate) fn word(table: &DeTable<'_>, key: &str, place: &str) -> Result<String, String> {
    match table.get(key).map(|value| value.get_ref()) {
        Some(DeValue::String(text)) => Ok(text.clone().into_owned()),
        _ => Err(format!("{place} needs `{key}` as text")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shipped_rulebook_reads() {
        for book in &SHIPPED {
            let rules = book.rules.as_ref().unwrap_or_else(|error| panic!("{}: {error}", book.name));
            assert!(!rules.is_empty(), "{} has no rules", book.name);
        }
    }

    #[test]
    fn no_two_shipped_rules_share_a_name() {
        let mut names: Vec<&str> = SHIPPED.iter().flat_map(Rulebook::rules).map(|rule| rule.id.as_str()).collect();
        let count = names.len();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), count);
    }

    #[test]
    fn every_rule_of_a_borrowed_rulebook_says_for_what_it_was_written() {
        let borrowed = |name| {
            let book = SHIPPED.iter().find(|book| book.name == name).unwrap();
            book.rules().iter().map(|rule| rule.borrowed.as_deref()).collect::<Vec<_>>()
        };
        assert!(borrowed("new-mexico").iter().all(|words| words.unwrap().contains("not for cob")));
        assert!(borrowed("cob-appendix").iter().all(Option::is_none));
    }

    #[test]
    fn a_missing_clause_has_no_limit_and_no_standing_to_write() {
        let clause = "title = \"t\"\n[missing.a]\ntitle = \"a\"\nsource = \"w\"\nplace = \"1\"\n\
                      when-unknown = \"Supply your text of 1\"\n";
        let rules = read(clause).unwrap();
        assert_eq!((&rules[0].limit, rules[0].citation.standing), (&None, Standing::Missing));
        assert_eq!(rules[0].shows, None);
        let shows = read(&format!("{clause}shows = \"a.b\"\n")).unwrap();
        assert_eq!(shows[0].shows.as_deref(), Some("a.b"));
        let stands = read(&format!("{clause}stands-with = \"a.c\"\n")).unwrap();
        assert_eq!((rules[0].stands_with.as_deref(), stands[0].stands_with.as_deref()), (None, Some("a.c")));
        let told = read(&format!("{clause}at-most = \"1 m\"\n")).unwrap_err();
        assert_eq!(told, "missing a has `at-most`; a clause whose text is there is a rule");
    }

    #[test]
    fn a_rule_without_a_source_is_refused() {
        let text = "title = \"t\"\n[rule.a]\nat-most = \"1 m\"\nkind = \"length\"\ntitle = \"a\"\nmeasures = \"a\"\n\
                    standing = \"seen\"\nplace = \"1\"\nwhen-unknown = \"Measure a\"\n";
        assert_eq!(read(text).unwrap_err(), "rule a needs `source` as text");
    }
}
