//! Rows of the boards of a deck: courses, stock to buy, what is wasted, what holds them.

use super::super::line::bind;
use super::super::need::Need;
use super::boarding;
use super::deck::on_poles;
use crate::build::DeckBedding;
use crate::house::{BoardsHeld, Deck, House, Roof};
use crate::known::Known;
use crate::reason::Answer;
use crate::roof;
use crate::roof::deck::{self, Nesting};
use crate::row::{Rows, shown};
use crate::units::{Area, Length, Pressure, System};

/// Boards that are bought: what they cover, what they are cut from.
pub(super) struct Bought<'a> {
    pub width: &'a Known<Length>,
    pub kerf: &'a Known<Length>,
    pub stock: &'a [Known<Length>],
    pub cut: Option<&'a Nesting>,
}

/// Why nothing is said of single boards under which a second ring stands.
const RAISED: &str = "a second ring lifts the boards off the poles";

/// The boards on poles round an eye. Hands back what is bought for them, where there is a cutting list.
pub(super) fn walk(roof: &Roof, deck: &Deck, rows: &mut Rows) -> Option<Need> {
    let boards = Bought { width: &deck.width, kerf: &deck.kerf, stock: &deck.stock, cut: deck.cut.as_ref() };
    sold(&boards, rows);
    if roof.is_raised() {
        for (noun, words) in [("boards", "boards of the deck"), ("bought-length", "boards to buy")] {
            rows.not_known(format!("roof.deck.{noun}"), format!("{words}, cut bay by bay: {RAISED}"));
        }
        return None;
    }
    let laid = |answer: Answer<u64>, rows: &Rows| bind(on_poles(answer, rows), rows, "roof.deck.width");
    let count = laid(deck::board_count(deck.boards.len() as u64), rows);
    rows.add("roof.deck.boards", "boards of the deck, cut bay by bay", count);
    purchase(roof, &boards, rows, |answer, rows| bind(on_poles(answer, rows), rows, "roof.deck.width"))
}

/// What a saw and a sawmill say of boards.
pub(super) fn sold(boards: &Bought<'_>, rows: &mut Rows) {
    rows.known("what a saw cut takes off a board", boards.kerf);
    for length in boards.stock {
        rows.known("a length of boards that is sold", length);
    }
}

/// What boards are cut from and bought as, after the row of how many there are; `laid` adds what their lengths follow from.
pub(super) fn purchase(
    roof: &Roof,
    boards: &Bought<'_>,
    rows: &mut Rows,
    laid: impl Fn(Answer<Length>, &Rows) -> Answer<Length>,
) -> Option<Need> {
    let Some(plan) = boards.cut else {
        rows.not_known(
            "roof.deck.bought-length",
            "boards to buy: write as roof.deck.stock a length that is long enough",
        );
        return None;
    };
    let pieces = laid(deck::pieces_length(plan), rows);
    let pieces = rows.add("roof.deck.boards-length", "boards of the deck as cut, all together", pieces);
    let cut = |answer: Answer<u64>, rows: &Rows| {
        let paths = ["roof.deck.boards", "roof.deck.boards-length", "roof.deck.kerf"].into_iter();
        let answer = paths.fold(answer, |answer, path| bind(answer, rows, path));
        boards.stock.iter().fold(answer, |answer, stock| bind(answer, rows, &stock.path))
    };
    for (place, length) in boards.stock.iter().enumerate() {
        if boards.stock[..place].iter().all(|other| other.value != length.value) {
            let count = cut(deck::lengths_of(length.value, plan).without("stock"), rows);
            let [metric, us] = [System::Metric, System::Us].map(|system| shown(length.value.into(), system));
            let title = format!("lengths of {metric} ({us}) to buy for the deck");
            rows.add(format!("roof.deck.buy.{}", place + 1), title, count);
        }
    }
    let fewest = cut(deck::fewest_lengths(plan), rows);
    rows.add("roof.deck.fewest", "lengths of the longest stock that no cutting list goes below", fewest);
    let bought = bought(boards.stock, plan, rows);
    let offcuts = deck::offcuts(pieces, bought)
        .from("pieces length", "roof.deck.boards-length")
        .from("bought length", "roof.deck.bought-length");
    rows.add("roof.deck.offcuts", "offcuts and saw cuts of the boards", offcuts);
    let area = rows.value("roof.area").unwrap_or(Area::ZERO);
    let wasted = deck::boards_wasted(area, boards.width.value, bought)
        .from("covered", "roof.area")
        .from("cover", "roof.deck.width")
        .from("bought length", "roof.deck.bought-length");
    rows.add("roof.deck.waste", "boards bought that do not cover the deck, mitres with them", wasted);
    let area = deck::bought_area(boards.width.value, bought)
        .from("cover", "roof.deck.width")
        .from("bought length", "roof.deck.bought-length");
    let area = rows.add("roof.deck.bought-area", "boards to buy for the deck, offcuts with them", area);
    let (layer, thickness) = roof.board_layer()?;
    let volume = roof::layer_volume(area, thickness.value)
        .from("area", "roof.deck.bought-area")
        .from("thickness", thickness.path.as_str());
    rows.add("roof.deck.bought-volume", "boards to buy for the deck, by volume", volume);
    let paths = ["area", "volume", "length"].map(|noun| format!("roof.deck.bought-{noun}"));
    Some(Need::of(&layer.of, paths))
}

fn bought(stock: &[Known<Length>], plan: &Nesting, rows: &mut Rows) -> Length {
    let mut bought = deck::bought_length(plan);
    for (place, length) in stock.iter().enumerate() {
        let path = format!("roof.deck.buy.{}", place + 1);
        if rows.value::<u64>(&path).is_some_and(|count| count > 0) {
            bought = bind(bind(bought, rows, &path), rows, &length.path);
        }
    }
    rows.add("roof.deck.bought-length", "boards to buy for the deck, all lengths together", bought)
}

/// What holds the boards; after the rows of the gust.
pub(in super::super) fn held(house: &House, rows: &mut Rows) {
    let Some(roof) = &house.roof else { return };
    if let Some(boarding) = &roof.boarding {
        boarding::held(roof, boarding, rows);
    }
    let Some(deck) = &roof.deck else { return };
    let held = &deck.held;
    let Some((uplift, thickness)) = uplift(roof, held, rows) else { return };
    let between_rows = rows.known("from one row of fasteners to the other at a board's end", &held.rows);
    let shear = rows.known("shear modulus of the boards of the deck", &held.shear);
    if roof.is_raised() {
        rows.not_known("roof.deck.pull", format!("pull on a row of fasteners: {RAISED}"));
        return;
    }
    let made = deck::Held { uplift, shear, section: [deck.width.value, thickness.value], between_rows };
    let boards = deck.boards_alone();
    let mut pull = on_poles(deck::largest_pull(&made, &boards), rows);
    let wind = ["roof.deck.uplift", "roof.deck.width"];
    let twisted = ["roof.deck.shear", thickness.path.as_str(), "roof.deck.rows"];
    // A board that lies flat pulls with the wind alone.
    let twisted = twisted.into_iter().filter(|_| deck.bedding == DeckBedding::Ruled);
    for path in wind.into_iter().chain(twisted) {
        pull = bind(pull, rows, path);
    }
    let pull = rows.add("roof.deck.pull", "largest pull on a row of fasteners at a board's end", pull);
    let Some(withdrawal) = &held.withdrawal else { return };
    let most = deck::fasteners_at_end(pull, withdrawal.value)
        .from("pull on row", "roof.deck.pull")
        .from("withdrawal", "roof.deck.withdrawal");
    rows.add("roof.deck.fasteners-at-end", "fasteners at the end of a board, at most", most);
    let all = deck::all_fasteners(withdrawal.value, &made, &boards).from("withdrawal", "roof.deck.withdrawal");
    let all = bind(bind(all, rows, "roof.deck.pull"), rows, "roof.deck.boards");
    rows.add("roof.deck.fasteners", "fasteners of the deck, both ends of every board", all);
}

/// What a fastener holds, and the uplift of the gust on the bare deck, with the thickness of its boards; none where either lacks.
pub(super) fn uplift<'a>(roof: &'a Roof, held: &BoardsHeld, rows: &mut Rows) -> Option<(Pressure, &'a Known<Length>)> {
    let withdrawal = "what one fastener of the deck holds against being pulled out";
    match &held.withdrawal {
        Some(known) => drop(rows.known(withdrawal, known)),
        None => rows.not_known("roof.deck.withdrawal", withdrawal),
    }
    let told = (rows.value::<Pressure>("wall.cover.pressure"), roof.board_layer());
    let (Some(pressure), Some((_, thickness))) = told else {
        let what = "pull on the fasteners of a board: write weather.gust and a layer of boards";
        rows.not_known("roof.deck.pull", what);
        return None;
    };
    let suction = rows.known("suction over the deck and push under it for each pressure of the gust", &held.suction);
    let uplift = deck::uplift(pressure, suction)
        .from("gust pressure", "wall.cover.pressure")
        .from("coefficient", "roof.deck.suction");
    Some((rows.add("roof.deck.uplift", "uplift of the gust on the bare deck", uplift), thickness))
}
