//! Reads tables of facts: a name, a number, and where it comes from, one to a line.

use crate::sources::{Citation, Standing};

/// One number of the trade.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// Its name in its table.
    pub name: String,
    /// The number; its name or the head of its column says in which unit.
    pub number: f64,
    /// Where it comes from, and how we have it.
    pub citation: Citation,
}

/// The fields of one line, by the heads of their columns.
pub struct Line<'t> {
    table: &'t str,
    heads: &'t csv::StringRecord,
    record: csv::StringRecord,
    number: u64,
}

impl Line<'_> {
    /// The text of a column.
    ///
    /// # Errors
    /// One sentence that names table and line when there is no such column.
    pub fn text(&self, head: &str) -> Result<String, String> {
        let column = self.heads.iter().position(|own| own == head);
        let field = column.and_then(|column| self.record.get(column));
        field.map(str::to_owned).ok_or_else(|| self.fault(&format!("there is no column `{head}`")))
    }

    /// The number of a column.
    ///
    /// # Errors
    /// One sentence that names table and line when it is no number.
    pub fn number(&self, head: &str) -> Result<f64, String> {
        let text = self.text(head)?;
        let number = text.parse::<f64>().ok().filter(|number| number.is_finite());
        number.ok_or_else(|| self.fault(&format!("`{head}` is \"{text}\", not a number")))
    }

    /// Work, place and how we have it.
    ///
    /// # Errors
    /// One sentence that names table and line when a column is missing or the standing is not one of ours.
    pub fn citation(&self) -> Result<Citation, String> {
        Ok(Citation { work: self.text("work")?, place: self.text("place")?, standing: self.standing("how")? })
    }

    /// How we have what stands in the line.
    ///
    /// # Errors
    /// One sentence that names table and line when the word is not one of ours.
    pub fn standing(&self, head: &str) -> Result<Standing, String> {
        let word = self.text(head)?;
        Standing::read(&word).ok_or_else(|| self.fault(&format!("how we have it: \"{word}\"")))
    }

    /// A sentence that names table and line.
    #[must_use]
    pub fn fault(&self, what: &str) -> String {
        format!("{}, line {}: {what}", self.table, self.number)
    }
}

/// Every line of a table as `one` reads it.
///
/// # Errors
/// One sentence that names table and line.
pub fn lines<T>(table: &str, text: &str, one: impl Fn(&Line<'_>) -> Result<T, String>) -> Result<Vec<T>, String> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let heads = reader.headers().map_err(|error| format!("{table}: {error}"))?.clone();
    let mut all = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|error| format!("{table}: {error}"))?;
        let number = record.position().map_or(0, csv::Position::line);
        all.push(one(&Line { table, heads: &heads, record, number })?);
    }
    Ok(all)
}

/// Every fact of a table with the columns name, number, work, place, how.
///
/// # Errors
/// One sentence that names table and line.
pub fn facts(table: &str, text: &str) -> Result<Vec<Fact>, String> {
    lines(table, text, |line| {
        Ok(Fact { name: line.text("name")?, number: line.number("number")?, citation: line.citation()? })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_that_cannot_be_read_is_named_with_its_table() {
        let told =
            |line: &str| facts("a.csv", &format!("name,number,work,place,how\nb,1,w,p,seen\n{line}\n")).unwrap_err();
        assert_eq!(told("c,much,w,p,seen"), "a.csv, line 3: `number` is \"much\", not a number");
        assert_eq!(told("c,NaN,w,p,seen"), "a.csv, line 3: `number` is \"NaN\", not a number");
        assert_eq!(told("c,1,w,p,sure"), "a.csv, line 3: how we have it: \"sure\"");
        assert!(told("c,1,w").starts_with("a.csv: "));
        assert_eq!(facts("a.csv", "name,how\nb,seen\n").unwrap_err(), "a.csv, line 2: there is no column `number`");
    }

    #[test]
    fn a_line_is_read_as_written() {
        let all = facts("a.csv", "name,number,work,place,how\nb,1.25,w,p,seen\n").unwrap();
        assert_eq!((all[0].name.as_str(), all[0].number, all[0].citation.standing), ("b", 1.25, Standing::Seen));
    }
}
