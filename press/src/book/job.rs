//! The job on one page: numbers, people, dates, how the checks stand.

use engine::answers::Answers;
use engine::build::Path;
use engine::check::State;
use serde_json::{Value, json};

use super::rows::{figures, said};
use crate::spoken::{capital, marked};

/// The figures that a builder is asked for first: its row, and what it is called here.
const FIGURES: [(&str, &str); 11] = [
    ("room.area", "Room inside"),
    ("wall.length", "Wall, length on its middle"),
    ("wall.volume", "Cob in the wall"),
    ("wall.outer-area", "Outer face to plaster"),
    ("wall.inner-area", "Inner face to plaster"),
    ("wall.stem.volume", "Stem wall"),
    ("water.trench.volume", "Trench to dig under the wall"),
    ("water.drain.volume", "Trench of the drain"),
    ("earth.recipes.cob.whole-batches", "Batches of cob"),
    ("roof.area", "Roof on its surface"),
    ("order.total", "All orders that have a price"),
];

pub(super) fn chapter(answers: &Answers) -> Value {
    let about = &answers.about;
    let place = if about.place.is_empty() { "not written".to_owned() } else { about.place.clone() };
    let people: Vec<[String; 2]> = answers
        .rows
        .iter()
        .filter(|row| row.path.starts_with("crew.") && row.path != "crew.placing" || row.path.starts_with("dates."))
        .map(|row| [capital(&row.title), marked(answers, row)])
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
        "room": said(answers, "room.area").unwrap_or_else(|| "none: the wall is open".to_owned()),
        "wall": said(answers, "wall.thickness").unwrap_or_default(),
        "figures": figures(answers, "", &of_the_roof(answers)),
        "people": people,
        "states": states,
    })
}

/// The same, where no deck is laid with the words of a first cut.
fn of_the_roof(answers: &Answers) -> [(&'static str, &'static str); 11] {
    let is_first_cut = |path: &str| path == "roof.area" && answers.deck.is_none() && answers.boarding.is_none();
    FIGURES.map(|(path, words)| (path, if is_first_cut(path) { "Roof on the slope, first cut" } else { words }))
}
