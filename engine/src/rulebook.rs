//! Reads rulebooks: rules as data, each with its limit, its source and how we have it.

use toml::de::{DeTable, DeValue};

use crate::check::{Comparison, Rule};
use crate::sources::{Citation, Standing};
use crate::units::{self, Kind};

/// The trade's own rules for cob walls.
const TRADE_PRACTICE: &str = include_str!("../../data/rulebooks/trade-practice.toml");

/// The rulebooks that come with the program: the name a build file uses, and the text.
pub const SHIPPED: [(&str, &str); 1] = [("trade-practice", TRADE_PRACTICE)];

/// The rules of a rulebook.
///
/// # Errors
/// One sentence that names the rule and what is wrong with it.
pub fn read(text: &str) -> Result<Vec<Rule>, String> {
    let book = DeTable::parse(text).map_err(|error| error.message().to_owned())?;
    let book = book.get_ref();
    let title = word(book, "title", "the rulebook")?;
    let rules =
        book.get("rule").and_then(|rules| rules.get_ref().as_table()).ok_or("the rulebook has no [rule.NAME]")?;
    rules
        .iter()
        .map(|(id, rule)| {
            let id = id.get_ref().as_ref();
            let rule = rule.get_ref().as_table().ok_or_else(|| format!("rule {id} is not a table"))?;
            read_rule(id, &title, rule)
        })
        .collect()
}

fn read_rule(id: &str, rulebook: &str, rule: &DeTable<'_>) -> Result<Rule, String> {
    let place = format!("rule {id}");
    let (comparison, limit) = match (rule.get("at-most"), rule.get("at-least")) {
        (Some(limit), None) => (Comparison::AtMost, limit),
        (None, Some(limit)) => (Comparison::AtLeast, limit),
        _ => return Err(format!("{place} needs one limit, `at-most` or `at-least`")),
    };
    let kind = word(rule, "kind", &place)?;
    let kind = Kind::named(&kind).ok_or_else(|| format!("{place}: `{kind}` is not a kind of quantity"))?;
    let limit = limit.get_ref().as_str().ok_or_else(|| format!("{place}: the limit is text with a unit"))?;
    let limit = units::parse(limit, kind).map_err(|misread| format!("{place}: {}", misread.message))?;
    let standing = word(rule, "standing", &place)?;
    let standing = Standing::read(&standing).ok_or_else(|| format!("{place}: `{standing}` is not a standing"))?;
    Ok(Rule {
        id: id.to_owned(),
        rulebook: rulebook.to_owned(),
        title: word(rule, "title", &place)?,
        measures: word(rule, "measures", &place)?,
        comparison,
        limit,
        citation: Citation { work: word(rule, "source", &place)?, place: word(rule, "place", &place)?, standing },
        when_unknown: word(rule, "when-unknown", &place)?,
        who_decides: rule.get("who-decides").and_then(|who| who.get_ref().as_str()).unwrap_or("").to_owned(),
    })
}

fn word(table: &DeTable<'_>, key: &str, place: &str) -> Result<String, String> {
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
        for (name, text) in SHIPPED {
            let rules = read(text).unwrap_or_else(|error| panic!("{name}: {error}"));
            assert!(!rules.is_empty(), "{name} has no rules");
        }
    }

    #[test]
    fn a_rule_without_a_source_is_refused() {
        let text = "title = \"t\"\n[rule.a]\nat-most = \"1 m\"\nkind = \"length\"\ntitle = \"a\"\nmeasures = \"a\"\n\
                    standing = \"seen\"\nplace = \"1\"\nwhen-unknown = \"Measure a\"\n";
        assert_eq!(read(text).unwrap_err(), "rule a needs `source` as text");
    }
}
