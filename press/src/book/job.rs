//! The job on one page: numbers, people, dates, how the checks stand.

use engine::answers::Answers;
use engine::build::Path;
use engine::check::State;
use serde_json::{Value, json};

/// The figures that a builder is asked for first: what it is called here, and its row.
const FIGURES: [(&str, &str); 11] = [
    ("Room inside", "room.area"),
    ("Wall, length on its middle", "wall.length"),
    ("Cob in the wall", "wall.volume"),
    ("Outer face to plaster", "wall.outer-area"),
    ("Inner face to plaster", "wall.inner-area"),
    ("Stem wall", "wall.stem.volume"),
    ("Trench to dig under the wall", "water.trench.volume"),
    ("Trench of the drain", "water.drain.volume"),
    ("Batches of cob", "earth.recipes.cob.whole-batches"),
    ("Roof on the slope, first cut", "roof.area"),
    ("All orders that have a price", "order.total"),
];

pub(super) fn chapter(answers: &Answers) -> Value {
    let about = &answers.about;
    let row = |path: &str| answers.rows.find(path).map(|row| row.shown(answers.system));
    let figures = FIGURES.iter().filter_map(|(title, path)| {
        let found = answers.rows.find(path)?;
        Some(json!([title, found.shown(answers.system)]))
    });
    let place = if about.place.is_empty() { "not written".to_owned() } else { about.place.clone() };
    let people: Vec<[String; 2]> = answers
        .rows
        .iter()
        .filter(|row| row.path.starts_with("crew.") && row.path != "crew.placing" || row.path.starts_with("dates."))
        .map(|row| [capital(&row.title), row.shown(answers.system)])
        .collect();
    let path = about.path.map_or("not written: ask your building official first", |path| match path {
        Path::Exempt => "exempt from a permit; that is not exempt from the code",
        Path::Prescriptive => "by the prescriptive rules of a code, where it has one for cob",
        Path::Engineered => "by an engineer's design",
    });
    let states: Vec<Value> = [State::NotKnown, State::Fails, State::OnTrust, State::Tight, State::Holds]
        .into_iter()
        .map(|state| {
            let count = answers.checks.iter().filter(|check| check.state == state).count();
            json!([state.word(), count.to_string()])
        })
        .collect();
    json!({
        "about": about.about,
        "invented": about.invented,
        "place": place,
        "use": about.use_,
        "path": path,
        "room": row("room.area").unwrap_or_else(|| "none: the wall is open".to_owned()),
        "wall": row("wall.thickness").unwrap_or_default(),
        "figures": figures.collect::<Vec<_>>(),
        "people": people,
        "states": states,
    })
}

/// The text with its first letter large.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
