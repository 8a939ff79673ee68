//! The leaves of the page: which rows belong to each, which of them it shows large, and how each stands.

use std::sync::LazyLock;

use engine::answers::Answers;
use engine::check::State;

use super::standing::Standing;

/// A leaf of the page.
#[derive(Clone, Debug)]
pub struct Leaf {
    /// Its word in the address; empty for the way round the house.
    pub name: String,
    /// How the paths of its rows begin.
    reads: Vec<String>,
    figures: Vec<String>,
}

/// How a leaf stands, as the way round the house shows it.
#[derive(Clone, Debug)]
pub struct Door {
    /// The leaf's word.
    pub leaf: String,
    /// The most urgent state of its checks, empty when it has none.
    pub state: &'static str,
    /// In a few words: how many checks stand so, how many fail beside those that are not known, or the number that matters.
    pub words: String,
}

static LEAVES: LazyLock<Vec<Leaf>> = LazyLock::new(|| {
    let mut table = csv::Reader::from_reader(include_str!("../../../data/leaves.csv").as_bytes());
    let words = |cell: Option<&str>| cell.unwrap_or("").split_whitespace().map(str::to_owned).collect();
    let leaf = |record: csv::StringRecord| Leaf {
        name: record.get(0).unwrap_or("").to_owned(),
        reads: words(record.get(2)),
        figures: words(record.get(3)),
    };
    table.records().flatten().map(leaf).collect()
});

/// All leaves, the way round the house first.
#[cfg(test)]
pub fn all() -> &'static [Leaf] {
    &LEAVES
}

/// The leaf of a row: the one that names the longest beginning of its path.
pub fn of(path: &str) -> &'static str {
    let begins = |start: &str| path.strip_prefix(start).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'));
    let all = LEAVES.iter().flat_map(|leaf| leaf.reads.iter().map(move |start| (leaf, start)));
    let longest = all.filter(|(_, start)| begins(start)).max_by_key(|(_, start)| start.len());
    longest.map_or("book", |(leaf, _)| leaf.name.as_str())
}

/// Paths of the rows that a leaf shows large; `@` stands for the recipe of the wall.
pub fn figures(leaf: &str, answers: &Answers) -> Vec<String> {
    let recipe = answers.recipes.first().map_or("", String::as_str);
    let all = LEAVES.iter().filter(|known| known.name == leaf).flat_map(|known| &known.figures);
    let paths = all.map(|path| path.replace('@', recipe));
    let per_area = press::orders::total_per_area(answers.system);
    let is_in_own_units = |path: &String| !path.starts_with("order.total-per-") || path == per_area;
    paths.filter(|path| is_in_own_units(path) && answers.rows.find(path).is_some()).collect()
}

/// How each leaf stands, from its checks.
pub fn doors(standing: &Standing) -> Vec<Door> {
    LEAVES.iter().filter(|leaf| !leaf.name.is_empty()).map(|leaf| door(leaf, standing)).collect()
}

/// The states of a leaf's checks.
fn states(leaf: &Leaf, standing: &Standing) -> Vec<State> {
    let both = standing.answers.checks.iter().zip(standing.checks.iter());
    both.filter(|(_, check)| check.leaf == leaf.name).map(|(check, _)| check.state).collect()
}

fn door(leaf: &Leaf, standing: &Standing) -> Door {
    let states = states(leaf, standing);
    let worst = states.iter().min().copied();
    let words = match worst {
        Some(worst) => {
            let counted = |wanted: State| match states.iter().filter(|state| **state == wanted).count() {
                0 => None,
                1 => Some(format!("1 {}", wanted.word())),
                count => Some(format!("{count} {}", plural(wanted))),
            };
            let failing = (worst == State::NotKnown).then(|| counted(State::Fails)).flatten();
            counted(worst).into_iter().chain(failing).collect::<Vec<_>>().join(", ")
        }
        None => {
            let first = figures(&leaf.name, &standing.answers).into_iter().next();
            let row = first.and_then(|path| standing.answers.rows.find(&path));
            row.map_or_else(String::new, |row| row.shown(standing.answers.system))
        }
    };
    Door { leaf: leaf.name.clone(), state: worst.map_or("", State::word), words }
}

fn plural(state: State) -> &'static str {
    match state {
        State::Holds => "hold",
        State::Fails => "fail",
        other => other.word(),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use super::*;

    #[test]
    fn a_row_belongs_to_the_leaf_that_names_the_longest_beginning_of_its_path() {
        assert_eq!(of("wall.thickness"), "walls");
        assert_eq!(of("wall.cob.clay"), "earth");
        assert_eq!(of("site.outlet.from-footing"), "ground");
        assert_eq!(of("site.area"), "stuff");
        assert_eq!(of("waller.area"), "book");
    }

    #[test]
    fn a_door_says_what_fails_behind_what_is_not_known() {
        let text = include_str!("../../../builds/burdock-rise/burdock-rise.loam.toml");
        let doors = doors(&Standing::of(text, None).unwrap());
        let earth = doors.iter().find(|door| door.leaf == "earth").unwrap();
        assert_eq!((earth.state, earth.words.as_str()), ("not known", "2 not known, 2 fail"));
    }

    #[test]
    fn every_table_of_a_build_file_has_a_leaf() {
        let tables = ["build", "site", "ground", "water", "wall", "openings", "built-in", "services", "roof", "poles"];
        let tables = tables
            .into_iter()
            .chain(["earth", "skin", "floor", "weather", "crew", "dates", "prices", "rules", "tests"]);
        for table in tables {
            assert!(LEAVES.iter().any(|leaf| leaf.reads.iter().any(|start| start == table)), "{table}");
        }
    }
}
