//! The deck of the roof: its figures, the shim table, the boards as cut, what each is cut from.

use engine::answers::Answers;
use engine::house::{BoardLine, DeckTables, ShimLine};
use engine::roof::deck::EdgeBoard;
use engine::row::shown;
use engine::units::{Angle, Length};
use kurbo::Point;
use serde_json::{Value, json};

use super::roof;
use super::rows::{cell, figures};
use crate::spoken::spoken;

/// The rows of the chapter, and what they are called here.
const FIGURES: [(&str, &str); 21] = [
    ("area", "Deck on its twisted surface"),
    ("deck.plan-area", "Deck in plan"),
    ("deck.edge", "Radius at which it ends round the eye"),
    ("deck.steepest", "Steepest slope"),
    ("deck.shim-count", "Shims"),
    ("deck.shim-volume", "Wood of all shims"),
    ("deck.boards", "Boards"),
    ("deck.boards-length", "Boards as cut"),
    ("deck.bought-length", "Boards to buy"),
    ("deck.fewest", "Lengths that no list goes below"),
    ("deck.waste", "Bought and not on the deck"),
    ("deck.fasteners-at-end", "Fasteners at an end, at most"),
    ("deck.fasteners", "Fasteners in all"),
    ("deck.eave-length", "Edge board along the eave"),
    ("deck.lowest-level", "Lowest level of the eave"),
    ("deck.standing-water", "Deepest water behind the edge board"),
    ("deck.spare-upstand", "Left of the upstand, one downspout blocked"),
    ("deck.peg-count", "Depth pegs of each layer"),
    ("deck.hoisted", "Hoisted in buckets, soaked"),
    ("deck.cover.size", "Cover of the eye, across"),
    ("deck.cover.load", "Load that comes on it"),
];

/// The chapter; empty without a ring of measured poles.
pub(super) fn chapter(answers: &Answers) -> Value {
    let none = DeckTables::default();
    let deck = answers.deck.as_ref().unwrap_or(&none);
    let shims: Vec<Vec<String>> = deck.shims.iter().map(|line| shim(answers, line)).collect();
    let boards: Vec<[String; 5]> = deck.boards.iter().map(|line| board(answers, line)).collect();
    let figures = if answers.deck.is_some() { figures(answers, "roof.", &FIGURES) } else { Vec::new() };
    let cuts = deck.cuts.iter().enumerate();
    json!({
        "figures": figures,
        "lies": lies(answers),
        "on": boards_on(answers),
        "shims": {"header": SHIMS, "rows": shims},
        "boards": {"header": BOARDS, "rows": boards},
        "sticks": sticks(answers, &deck.sticks, |&place| {
            let board = &deck.boards[place];
            ([board.bay, board.course], board.length)
        }),
        "cuts": cuts.map(|(pole, &cut)| [(pole + 1).to_string(), length(answers, cut)]).collect::<Vec<_>>(),
        "eave": eave(answers, deck),
        "edges": {"header": EDGES, "rows": edges(answers, deck)},
        "water": water(answers, &deck.plan.downspouts),
        "layers": layers(answers),
    })
}

/// On what poles the deck of this book lies.
fn lies(answers: &Answers) -> String {
    let lies = on_poles(answers);
    if answers.ring_plan.as_ref().is_some_and(|ring| ring.second.is_some()) {
        return format!(
            "{lies} Levels, edges and areas here are those of the poles alone. The heads of the second ring stand above them and lift the boards \
             off them: how high shims are on the poles, how boards are cut, and how many fasteners hold them, is not known. Lay the second \
             ring first, set strings over its tops, and take shims and boards from those."
        );
    }
    lies
}

/// The hold on boards before anybody works on them.
fn boards_on(answers: &Answers) -> &'static str {
    if answers.rows.find("roof.deck.fasteners").is_some() {
        "!Boards on and screwed as listed, edge guarded, eye covered: nobody works on it before"
    } else {
        "!Boards on, and an engineer has said how many fasteners hold them, which is not known here; edge guarded, eye covered: nobody works \
         on it before"
    }
}

fn on_poles(answers: &Answers) -> String {
    match answers.ring_plan.as_ref().map_or(0, roof::typical) {
        0 => "The deck lies on the tops of the poles as they are measured and raised.".to_owned(),
        typical => format!(
            "The deck is drawn on poles of which nobody measured {typical}: make no shim and cut no board by these tables before each pole is \
             measured, written and raised."
        ),
    }
}

const SHIMS: [&str; 8] =
    ["pole", "along", "left, inner", "left, outer", "left, cut", "right, inner", "right, outer", "right, cut"];
const BOARDS: [&str; 5] = ["board", "length", "left end", "right end", "of no."];
const EDGES: [&str; 8] =
    ["bay", "straight", "bent", "at a quarter", "half-way", "three quarters", "its ends, bevel", "frame of the eye"];
const WATER: [&str; 3] = ["downspout", "drains in plan", "deep if it is blocked"];
const LAYERS: [&str; 7] = ["layer", "area", "in place", "loose", "buckets", "each, soaked", "all, soaked"];
const STICKS: [&str; 3] = ["no.", "stock", "boards and their lengths"];

pub(super) fn length(answers: &Answers, length: Length) -> String {
    shown(length.into(), answers.system)
}

fn angle(answers: &Answers, angle: Angle) -> String {
    shown(angle.into(), answers.system)
}

fn shim(answers: &Answers, line: &ShimLine) -> Vec<String> {
    let sides = line.sides.iter().flat_map(|side| match side {
        Some(shim) => [length(answers, shim.inner), length(answers, shim.outer), angle(answers, shim.cut)],
        None => ["–", "–", "–"].map(str::to_owned),
    });
    [line.pole.to_string(), length(answers, line.along)].into_iter().chain(sides).collect()
}

fn board(answers: &Answers, line: &BoardLine) -> [String; 5] {
    let [left, right] = line.ends.map(|end| end.map_or_else(|| "in place".to_owned(), |end| angle(answers, end)));
    let from = line.from.map_or_else(|| "–".to_owned(), |(number, _)| number.to_string());
    [format!("{}.{}", line.bay, line.course), length(answers, line.length), left, right, from]
}

/// What each length of stock is cut into: its boards, each by two numbers and its length.
pub(super) fn sticks<P>(
    answers: &Answers,
    sticks: &[(Length, Vec<P>)],
    piece: impl Fn(&P) -> ([usize; 2], Length),
) -> Value {
    let named = |one: &P| {
        let ([of, number], long) = piece(one);
        format!("{of}.{number}: {}", length(answers, long))
    };
    let stick = |(number, (stock, pieces)): (usize, &(Length, Vec<P>))| {
        let pieces: Vec<String> = pieces.iter().map(named).collect();
        [(number + 1).to_string(), length(answers, *stock), pieces.join(", ")]
    };
    json!({"header": STICKS, "rows": sticks.iter().enumerate().map(stick).collect::<Vec<_>>()})
}

/// The edge board of each bay: straight from tail to tail, bent to the eave, how far the eave stands out from the string.
fn edges(answers: &Answers, deck: &DeckTables) -> Vec<Vec<String>> {
    let line = |(bay, (edge, eye)): (usize, (&EdgeBoard, &Length))| {
        let bevels = edge.bevels.map(|bevel| bevel.map_or_else(|| "–".to_owned(), |bevel| angle(answers, bevel)));
        let lengths = [edge.string, edge.curve].into_iter().chain(edge.ordinates).map(|one| length(answers, one));
        let name = [(bay + 1).to_string()].into_iter();
        name.chain(lengths).chain([bevels.join(", "), length(answers, *eye)]).collect()
    };
    deck.edges.iter().zip(&deck.eye).enumerate().map(line).collect()
}

/// What drains to each downspout, and how deep water stands over it when it is blocked.
pub(super) fn water(answers: &Answers, downspouts: &[(String, Point)]) -> Value {
    let of = |name: &str, noun: &str| cell(answers, &format!("roof.deck.downspouts.{name}.{noun}"));
    let line = |(name, _): &(String, Point)| [spoken(name), of(name, "catchment"), of(name, "if-blocked")];
    json!({"header": WATER, "rows": downspouts.iter().map(line).collect::<Vec<_>>()})
}

/// The layers in the order in which they are laid.
pub(super) fn layers(answers: &Answers) -> Value {
    let stems = answers.rows.matching("roof.layers.*.area").filter_map(|row| row.path.strip_suffix(".area"));
    let of = |stem: &str, noun: &str| {
        let path = format!("{stem}.{noun}");
        if answers.rows.find(&path).is_some() { cell(answers, &path) } else { "–".to_owned() }
    };
    let line = |stem: &str| -> Vec<String> {
        let name = spoken(stem.rsplit('.').next().unwrap_or(stem));
        let nouns = ["area", "volume", "loose-volume", "buckets", "bucket-mass", "saturated-mass"];
        [name].into_iter().chain(nouns.map(|noun| of(stem, noun))).collect()
    };
    json!({"header": LAYERS, "rows": stems.map(line).collect::<Vec<_>>()})
}

/// Levels of the eave, a line a bay: its tail, and three places on to the next.
fn eave(answers: &Answers, deck: &DeckTables) -> Vec<Vec<String>> {
    let line = |(bay, levels): (usize, &[Length])| {
        let levels = levels.iter().map(|&level| length(answers, level));
        std::iter::once((bay + 1).to_string()).chain(levels).collect()
    };
    deck.eave.chunks(4).enumerate().map(line).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use super::*;
    use engine::answers::{Inputs, answers};

    const QUINCE_HUT: &str = include_str!("../../../builds/quince-hut/quince-hut.loam.toml");
    const TANSY_BANK: &str = include_str!("../../../builds/tansy-bank/tansy-bank.loam.toml");

    fn chapter_of(build: &str) -> Value {
        chapter(&answers(&Inputs { build: build.as_bytes(), system: None }).unwrap())
    }

    #[test]
    fn every_board_is_cut_from_one_length_and_every_pole_has_its_shims() {
        let deck = chapter_of(TANSY_BANK);
        let rows = |table: &str| deck[table]["rows"].as_array().unwrap().clone();
        let boards = rows("boards").len();
        let cut: usize = rows("sticks").iter().map(|stick| stick[2].as_str().unwrap().split(", ").count()).sum();
        assert_eq!(cut, boards);
        assert!(rows("boards").iter().all(|board| board[5] != "–"));
        let poles: std::collections::BTreeSet<String> =
            rows("shims").iter().map(|shim| shim[0].as_str().unwrap().to_owned()).collect();
        assert_eq!((poles.len(), deck["cuts"].as_array().unwrap().len()), (9, 9));
        assert!(rows("shims").iter().all(|shim| shim[2].as_str().unwrap().ends_with(" mm")));
        assert_eq!(deck["figures"].as_array().unwrap().len(), FIGURES.len());
    }

    #[test]
    fn under_a_second_ring_nothing_is_listed_that_is_not_known_and_the_hold_on_boards_says_so() {
        let keys = "\n[roof.secondary]\nkind = \"ring\"\nat = \"60 %\"\ndiameter = \"130 mm\"\nof = \"larch-pole\"\n";
        let (plain, raised) = (chapter_of(TANSY_BANK), chapter_of(&format!("{TANSY_BANK}{keys}")));
        for table in ["shims", "boards", "sticks"] {
            assert_eq!(raised[table]["rows"], json!([]), "{table}");
        }
        assert!(plain["on"].as_str().unwrap().contains("as listed"));
        let on = raised["on"].as_str().unwrap();
        assert!(on.starts_with('!') && on.contains("not known") && !on.contains("listed"), "{on}");
        assert!(raised["lies"].as_str().unwrap().contains("how many fasteners hold them"));
        assert!(
            !raised["cuts"].as_array().unwrap().is_empty() && !raised["edges"]["rows"].as_array().unwrap().is_empty()
        );
    }

    #[test]
    fn a_roof_whose_poles_are_not_measured_has_no_chapter_of_its_deck() {
        assert_eq!(chapter_of(QUINCE_HUT)["figures"], json!([]));
    }
}
