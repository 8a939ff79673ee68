//! The card at the gate: what to look at, what to refuse, and what each delivery should measure.

use engine::answers::Answers;
use engine::house::Stuff;
use serde_json::{Value, json};

use crate::orders;
use crate::spoken::{capital, spoken};

/// What to look at and what to refuse, by kind of stuff.
const TABLE: &str = include_str!("../../../data/book/gate.csv");

pub(super) fn chapter(answers: &Answers) -> Result<Value, String> {
    let mut reader = csv::Reader::from_reader(TABLE.as_bytes());
    let mut entries = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|fault| format!("data/book/gate.csv: {fault}"))?;
        let [stuff, look, refuse, how] = [0, 1, 2, 3].map(|field| record.get(field).unwrap_or_default().to_owned());
        let names: Vec<String> = of(answers, &stuff).map(|order| spoken(&order.name)).collect();
        if !names.is_empty() {
            let what = if stuff == Stuff::Other.word() { "Other things".to_owned() } else { capital(&stuff) };
            entries.push(json!({"what": what, "names": names.join(", "), "look": look, "refuse": refuse, "how": how}));
        }
    }
    let lines = orders::lines(answers);
    let comes: Vec<[String; 4]> = answers
        .orders
        .iter()
        .zip(&lines)
        .filter(|(order, _)| order.stuff != Stuff::Water)
        .map(|(_, line)| [capital(&spoken(&line.name)), line.order.clone(), line.loads.clone(), line.mass.clone()])
        .collect();
    Ok(json!({"entries": entries, "comes": comes}))
}

fn of<'a>(answers: &'a Answers, stuff: &'a str) -> impl Iterator<Item = &'a engine::money::Order> {
    answers.orders.iter().filter(move |order| order.stuff.word() == stuff)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use super::*;

    #[test]
    fn every_kind_of_stuff_but_water_has_its_line() {
        let kinds = [
            Stuff::Soil,
            Stuff::Sand,
            Stuff::Aggregate,
            Stuff::Straw,
            Stuff::Stone,
            Stuff::Gravel,
            Stuff::Poles,
            Stuff::Timber,
            Stuff::Other,
        ];
        let mut reader = csv::Reader::from_reader(TABLE.as_bytes());
        let words: Vec<String> = reader.records().map(|record| record.unwrap()[0].to_owned()).collect();
        assert_eq!(words, kinds.map(Stuff::word));
    }
}
