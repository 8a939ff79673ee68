//! Reads the table of tolerances: what near enough means at each step, and what it protects.

use std::sync::LazyLock;

use toml::de::DeTable;

use crate::known::Origin;
use crate::rulebook::word;
use crate::units::{self, Kind, Quantity};

/// What near enough means at one step.
#[derive(Clone, Debug, PartialEq)]
pub struct Tolerance {
    /// Its name.
    pub name: String,
    /// The step of the work.
    pub step: String,
    /// What is measured.
    pub measures: String,
    /// How far off is near enough, unless the builder writes another.
    pub within: Quantity,
    /// The path of the row that it protects; `*` stands for one key.
    pub protects: String,
    /// What goes wrong past it.
    pub why: String,
    /// How we have it: judgement or common practice.
    pub origin: Origin,
}

// Constant data, read from its text once.
static SHIPPED: LazyLock<Result<Vec<Tolerance>, String>> =
    LazyLock::new(|| read(include_str!("../../data/tolerances.toml")));

/// The tolerances that come with the program, in the order of the work.
#[must_use]
pub fn tolerances() -> &'static [Tolerance] {
    SHIPPED.as_deref().unwrap_or_default()
}

/// The tolerances of a table in its order.
///
/// # Errors
/// One sentence that names the tolerance and what is wrong with it.
pub fn read(text: &str) -> Result<Vec<Tolerance>, String> {
    let table = DeTable::parse(text).map_err(|error| error.message().to_owned())?;
    let listed = table.get_ref().get("tolerance").and_then(|value| value.get_ref().as_array());
    let listed = listed.ok_or_else(|| "the table has no [[tolerance]]".to_owned())?;
    let tables = listed.iter().map(|one| one.get_ref().as_table());
    tables.map(|table| one(table.ok_or_else(|| "a tolerance is not a table".to_owned())?)).collect()
}

fn one(table: &DeTable<'_>) -> Result<Tolerance, String> {
    let name = word(table, "name", "a tolerance")?;
    let place = format!("tolerance {name}");
    let (kind, within) = (word(table, "kind", &place)?, word(table, "within", &place)?);
    let kind = Kind::named(&kind).ok_or_else(|| format!("{place}: `{kind}` is not a kind of quantity"))?;
    let within = units::parse(&within, kind).map_err(|misread| format!("{place}: {}", misread.message))?;
    let origin = match word(table, "standing", &place)?.as_str() {
        "judgement" => Origin::Judgement,
        "common practice" => Origin::CommonPractice,
        other => return Err(format!("{place}: `{other}` is not judgement or common practice")),
    };
    Ok(Tolerance {
        step: word(table, "step", &place)?,
        measures: word(table, "measures", &place)?,
        protects: word(table, "protects", &place)?,
        why: word(table, "why", &place)?,
        name,
        within,
        origin,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shipped_table_reads_and_no_name_stands_twice() {
        let shipped = SHIPPED.as_ref().unwrap_or_else(|error| panic!("{error}"));
        let mut names: Vec<&str> = shipped.iter().map(|one| one.name.as_str()).collect();
        assert!(names.len() >= 18);
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), shipped.len());
    }

    #[test]
    fn a_fault_of_the_table_is_named() {
        assert_eq!(read("").unwrap_err(), "the table has no [[tolerance]]");
        let told = read("[[tolerance]]\nname = \"a\"\nkind = \"length\"\nwithin = \"5 kg\"\n").unwrap_err();
        assert!(told.starts_with("tolerance a: "), "{told}");
    }
}
