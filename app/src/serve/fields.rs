//! The fields of a leaf: keys of the build file with their words, spread over the things that a house has.

use std::sync::LazyLock;

use engine::units::System;
use toml::de::{DeTable, DeValue};

use super::standing::Standing;
use super::wire::Field;

/// A field as the table has it; `*` in its key stands for the name of a thing.
#[derive(Debug)]
struct Known {
    leaf: String,
    group: String,
    key: Vec<String>,
    /// When it is shown: always, `?` where it is written, or `key=word|word` where that key of the same thing says so.
    when: String,
    title: String,
    usual: [String; 2],
    purpose: String,
    choices: Vec<String>,
}

static KNOWN: LazyLock<Vec<Known>> = LazyLock::new(|| {
    let mut table = csv::Reader::from_reader(include_str!("../../../data/fields.csv").as_bytes());
    table.records().flatten().map(|record| known(&record)).collect()
});

fn known(record: &csv::StringRecord) -> Known {
    let cell = |place: usize| record.get(place).unwrap_or("").to_owned();
    let words = |text: &str, by: char| text.split(by).filter(|word| !word.is_empty()).map(str::to_owned).collect();
    Known {
        leaf: cell(0),
        group: cell(1),
        key: words(&cell(2), '.'),
        when: cell(3),
        title: cell(4),
        usual: [cell(5), cell(6)],
        purpose: cell(7),
        choices: words(&cell(8), '|'),
    }
}

/// The fields of a leaf in the order of their groups.
pub fn fields(leaf: &str, text: &str, standing: Option<&Standing>, system: System) -> Vec<Field> {
    let Ok(file) = DeTable::parse(text) else { return Vec::new() };
    let file = file.get_ref();
    let mut fields = Vec::new();
    for known in KNOWN.iter().filter(|known| known.leaf == leaf) {
        let mut found = Vec::new();
        spread(file, &known.key, &mut Vec::new(), &mut Vec::new(), &mut found);
        for (key, names) in found {
            fields.extend(field(known, &key, &names, file, text, standing, system));
        }
    }
    // Things that have a group of their own keep their fields together.
    let mut groups: Vec<String> = Vec::new();
    for field in &fields {
        if !groups.contains(&field.group) {
            groups.push(field.group.clone());
        }
    }
    fields.sort_by_key(|field| groups.iter().position(|group| *group == field.group));
    fields
}

/// All keys of a pattern that a file has things for, each with the names of its things.
fn spread(
    table: &DeTable<'_>,
    rest: &[String],
    key: &mut Vec<String>,
    names: &mut Vec<String>,
    found: &mut Vec<(String, Vec<String>)>,
) {
    let Some(star) = rest.iter().position(|part| part == "*") else {
        let whole = key.iter().chain(rest).map(String::as_str).collect::<Vec<_>>().join(".");
        found.push((whole, names.clone()));
        return;
    };
    let Some(holder) = value(table, &rest[..star]) else { return };
    let before = key.len();
    key.extend(rest[..star].iter().cloned());
    for (name, inside) in things(holder) {
        key.push(name.clone());
        names.push(name);
        match inside {
            Some(inside) => spread(inside, &rest[star + 1..], key, names, found),
            None if star + 1 == rest.len() => found.push((key.join("."), names.clone())),
            None => {}
        }
        names.pop();
        key.pop();
    }
    key.truncate(before);
}

/// The named things of a table or of a list of tables; a plain value is a thing without an inside.
fn things<'a, 'i>(holder: &'a DeValue<'i>) -> Vec<(String, Option<&'a DeTable<'i>>)> {
    match holder {
        DeValue::Table(table) => {
            let all = table.iter().map(|(name, value)| (name.get_ref().to_string(), value.get_ref().as_table()));
            all.collect()
        }
        DeValue::Array(list) => {
            let tables = list.iter().filter_map(|entry| entry.get_ref().as_table());
            tables.filter_map(|table| Some((named(table)?.to_owned(), Some(table)))).collect()
        }
        _ => Vec::new(),
    }
}

fn named<'a>(table: &'a DeTable<'_>) -> Option<&'a str> {
    table.get("name")?.get_ref().as_str()
}

/// The value at keys of a table, entries of lists by their names.
fn value<'a, 'i>(table: &'a DeTable<'i>, keys: &[String]) -> Option<&'a DeValue<'i>> {
    spanned(table, keys).map(toml::Spanned::get_ref)
}

fn spanned<'a, 'i>(table: &'a DeTable<'i>, keys: &[String]) -> Option<&'a toml::Spanned<DeValue<'i>>> {
    let (first, rest) = keys.split_first()?;
    let found = table.get(first.as_str())?;
    if rest.is_empty() {
        return Some(found);
    }
    match found.get_ref() {
        DeValue::Table(inside) => spanned(inside, rest),
        DeValue::Array(list) => {
            let (name, rest) = rest.split_first()?;
            let mut entries =
                list.iter().filter(|entry| entry.get_ref().as_table().and_then(named) == Some(name.as_str()));
            let entry = entries.next()?;
            if rest.is_empty() { Some(entry) } else { spanned(entry.get_ref().as_table()?, rest) }
        }
        _ => None,
    }
}

fn field(
    known: &Known,
    path: &str,
    names: &[String],
    file: &DeTable<'_>,
    text: &str,
    standing: Option<&Standing>,
    system: System,
) -> Option<Field> {
    let keys: Vec<String> = path.split('.').map(str::to_owned).collect();
    let written = spanned(file, &keys).and_then(|found| said(found, text)).unwrap_or_default();
    if !is_shown(known, &keys, &written, file) {
        return None;
    }
    let choices = choices(known, file, &written);
    // One chooses among things that there are.
    if choices.is_empty() && !known.choices.is_empty() {
        return None;
    }
    let filled = |template: &str, name: Option<&String>| {
        template.replace("{}", &name.map_or_else(String::new, |name| name.replace('-', " ")))
    };
    let usual = &known.usual[usize::from(system == System::Us)];
    Some(Field {
        thing: thing(known, &keys),
        title: filled(&known.title, names.last()),
        taken: if written.is_empty() { taken(path, standing, system) } else { String::new() },
        written,
        usual: if usual.is_empty() { String::new() } else { format!("{usual} (common practice, no source)") },
        purpose: known.purpose.clone(),
        group: filled(&known.group, names.first()),
        choices,
        path: path.to_owned(),
    })
}

fn is_shown(known: &Known, keys: &[String], written: &str, file: &DeTable<'_>) -> bool {
    match known.when.split_once('=') {
        None => known.when.is_empty() || !written.is_empty(),
        Some((key, words)) => {
            let star = known.key.iter().rposition(|part| part == "*").unwrap_or(0);
            let thing = keys[..=star].iter().cloned().chain([key.to_owned()]).collect::<Vec<_>>();
            value(file, &thing).and_then(DeValue::as_str).is_some_and(|said| words.split('|').any(|word| word == said))
        }
    }
}

/// The thing that a group is about: its keys up to its name.
fn thing(known: &Known, keys: &[String]) -> String {
    let star = known.key.iter().position(|part| part == "*").filter(|_| known.group.contains("{}"));
    star.map_or_else(String::new, |star| keys[..=star].join("."))
}

/// Words to choose from: those of the table, or for `@key` the names of the things of that key; what is written is among them.
fn choices(known: &Known, file: &DeTable<'_>, written: &str) -> Vec<String> {
    let named = |word: &String| match word.strip_prefix('@') {
        Some(key) => {
            let keys: Vec<String> = key.split('.').map(str::to_owned).collect();
            value(file, &keys)
                .map_or_else(Vec::new, |holder| things(holder).into_iter().map(|(name, _)| name).collect())
        }
        None => vec![word.clone()],
    };
    let mut choices: Vec<String> = known.choices.iter().flat_map(named).collect();
    if !choices.is_empty() && !written.is_empty() && !choices.iter().any(|choice| choice == written) {
        choices.push(written.to_owned());
    }
    choices
}

/// A value as written, without its quotes; the values of a list with commas between.
fn said(found: &toml::Spanned<DeValue<'_>>, text: &str) -> Option<String> {
    match found.get_ref() {
        DeValue::String(words) => Some(words.to_string()),
        DeValue::Array(list) => {
            let values: Option<Vec<String>> = list.iter().map(|entry| said(entry, text)).collect();
            values.map(|values| values.join(", "))
        }
        DeValue::Table(_) => None,
        _ => text.get(found.span()).map(str::to_owned),
    }
}

/// What stands in for a value that is not written.
fn taken(path: &str, standing: Option<&Standing>, system: System) -> String {
    let Some(standing) = standing else { return String::new() };
    let row = standing.answers.rows.find(path).map(|row| row.shown(system));
    let word =
        || standing.answers.assumed.iter().find(|(key, ..)| *key == path).map(|(_, value, _)| (*value).to_owned());
    row.or_else(word).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_says_what_it_is_for_and_stands_in_a_leaf() {
        assert!(KNOWN.len() > 100);
        for known in KNOWN.iter() {
            let key = known.key.join(".");
            assert!(!known.purpose.is_empty() && !known.title.is_empty(), "{key}");
            assert!(super::super::leaves::all().iter().any(|leaf| leaf.name == known.leaf), "{key}");
            assert_eq!(known.usual[0].is_empty(), known.usual[1].is_empty(), "{key}");
        }
    }

    #[test]
    fn a_field_of_a_thing_is_there_for_each_of_them_and_only_where_it_applies() {
        let text = include_str!("../../../builds/tansy-bank/tansy-bank.loam.toml");
        let standing = Standing::of(text, None).unwrap();
        let fields = fields("walls", text, Some(&standing), System::Metric);
        let find = |path: &str| fields.iter().find(|field| field.path == path);
        assert_eq!(find("openings.reading-window.sill").unwrap().written, "700 mm");
        assert_eq!(find("openings.reading-window.sill").unwrap().group, "Opening: reading window");
        assert!(find("openings.door.sill").is_none());
        assert_eq!(find("wall.line.back.at").unwrap().written, "-2.45 m, -1.15 m");
        assert_eq!(find("wall.lifts.sills.top").unwrap().written, "680 mm");
        assert_eq!(find("wall.stem.through").unwrap().taken, "1.500 m");
        assert_eq!(find("wall.thickness").unwrap().usual, "400 to 600 mm (common practice, no source)");
    }

    #[test]
    fn every_leaf_of_the_demo_house_has_fields() {
        let text = include_str!("../../../builds/tansy-bank/tansy-bank.loam.toml");
        for leaf in super::super::leaves::all() {
            assert!(!fields(&leaf.name, text, None, System::Us).is_empty(), "{}", leaf.name);
        }
    }
}
