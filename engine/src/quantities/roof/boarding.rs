//! Rows of the deck on straight rafters: its courses, boards, edge and water, pegs, and what holds the boards down.

use super::super::line::bind;
use super::super::need::Need;
use super::super::uneven::bind_line;
use super::deck::{dry, outlets, pegs, spare, upstand};
use super::deck_boards::{self, Bought};
use crate::house::{Boarding, House, Rafters, Roof};
use crate::reason::Answer;
use crate::roof::deck;
use crate::row::Rows;
use crate::units::{Force, Length};

/// What two levels of one eave differ by from rounding alone.
const ROUNDED: Length = Length::mm(1e-6);

/// Why nothing is said of single boards.
const HOLLOW: &str = "a hollow of the eave parts them";

/// Binds what places the eave in the plane of the roof.
fn on_slope<T>(answer: Answer<T>, house: &House, rows: &Rows) -> Answer<T> {
    let paths = ["roof.eave-offset", "roof.falls", "roof.pitch"];
    bind_line(paths.iter().fold(answer, |answer, path| bind(answer, rows, path)), house, rows)
}

/// What covers the plane, its edge and its water; before the layers on it.
pub(super) fn walk(house: &House, boarding: &Boarding, rows: &mut Rows) {
    let width = rows.known("width that one board of the deck covers", &boarding.width);
    let count = deck::course_count(width, &boarding.slope).from("cover", "roof.deck.width");
    let count = ["roof.eave-along", "roof.pitch"].iter().fold(count, |count, path| bind(count, rows, path));
    rows.add("roof.deck.courses", "courses of boards from the low eave up", count);
    if boarding.courses.is_empty() {
        rows.not_known(
            "roof.deck.unsupported",
            format!("courses whose boards lie on fewer than two rafters: {HOLLOW}"),
        );
    } else {
        let unsupported = counted(deck::unsupported_courses(&boarding.courses), house, rows);
        rows.add("roof.deck.unsupported", "courses whose boards lie on fewer than two rafters", unsupported);
    }
    let edge = on_slope(deck::edge_length(&boarding.slope), house, rows);
    rows.add("roof.deck.edge-length", "edge boards all round, along low eave, verges and high eave", edge);
    water(house, boarding, rows);
    upstand(boarding.upstand.as_ref(), rows);
    spare(boarding.upstand.as_ref(), &boarding.downspouts, rows);
    pegs(&boarding.pegs, rows);
}

/// Binds what a count of courses, rafters and verges follows from.
fn counted(answer: Answer<u64>, house: &House, rows: &Rows) -> Answer<u64> {
    let paths = ["roof.deck.courses", "roof.poles.count", "roof.rafters.first"];
    paths.iter().fold(on_slope(answer, house, rows), |answer, path| bind(answer, rows, path))
}

/// The boards. Hands back what is bought for them, where there is a cutting list.
pub(super) fn boards(house: &House, (roof, boarding): (&Roof, &Boarding), rows: &mut Rows) -> Option<Need> {
    let Boarding { width, kerf, stock, cut, .. } = boarding;
    let boards = Bought { width, kerf, stock, cut: cut.as_ref() };
    deck_boards::sold(&boards, rows);
    if boarding.courses.is_empty() {
        for (noun, words) in [("boards", "boards of the deck"), ("bought-length", "boards to buy")] {
            rows.not_known(format!("roof.deck.{noun}"), format!("{words}, cut course by course: {HOLLOW}"));
        }
        return None;
    }
    if let Some(laid) = &boarding.laid {
        let by_stock = |answer: Answer<u64>, rows: &Rows| {
            stock.iter().fold(counted(answer, house, rows), |answer, length| bind(answer, rows, &length.path))
        };
        let count = by_stock(deck::pieces_over_rafters(laid), rows);
        rows.add("roof.deck.boards", "boards of the deck, their joints over rafters", count);
        let in_line = by_stock(deck::joints_in_line(laid), rows);
        rows.add("roof.deck.in-line", "joints of boards beside a joint of the course below", in_line);
    }
    deck_boards::purchase(roof, &boards, rows, |answer, rows| {
        bind(on_slope(answer, house, rows), rows, "roof.deck.width")
    })
}

fn water(house: &House, boarding: &Boarding, rows: &mut Rows) {
    let Some(water) = &boarding.water else {
        dry(rows);
        return;
    };
    outlets(&boarding.downspouts, "rafter", rows);
    let lowest = bind(deck::lowest_of_edge(&boarding.eave), rows, "roof.deck.outlets");
    let title =
        "lowest place of the low edge, among its ends, corners, rafters and three places between two, from rafter 1 on";
    rows.add("roof.deck.lowest-place", title, counted(lowest, house, rows));
    let found = |answer: Answer<Length>, depth: Length, rows: &Rows| {
        let answer = bind(bind(answer, rows, "roof.deck.outlets"), rows, "roof.deck.lowest-place");
        // Where nothing stands only another place of the eave could change that.
        if depth > ROUNDED { bind(answer, rows, "roof.pitch") } else { answer }
    };
    for ((name, _), catchment) in boarding.downspouts.iter().zip(&water.catchments) {
        let (title, stem) = (name.replace('-', " "), format!("roof.deck.downspouts.{name}"));
        let paths = ["roof.eave-offset", "roof.falls", "roof.deck.outlets", "roof.deck.lowest-place"];
        let area = paths.iter().fold(deck::catchment(catchment), |area, path| bind(area, rows, path));
        // Of several each knows its own part of the line only, by where the edge lies lowest.
        let area = if water.catchments.len() == 1 { bind_line(area, house, rows) } else { area };
        rows.add(format!("{stem}.catchment"), format!("roof in plan that drains to downspout {title}"), area);
        if let Some(depth) = catchment.depth_if_blocked {
            let blocked = found(deck::depth_if_blocked(depth), depth, rows);
            rows.add(format!("{stem}.if-blocked"), format!("water over downspout {title} if it is blocked"), blocked);
        }
    }
    let depth = water.ponding.map_or(Length::ZERO, |(_, depth)| depth);
    let standing = found(deck::standing_water(depth), depth, rows);
    rows.add("roof.deck.standing-water", "deepest water behind the edge board with all downspouts open", standing);
}

/// What holds the boards; after the rows of the gust.
pub(super) fn held(roof: &Roof, boarding: &Boarding, rows: &mut Rows) {
    let Some((uplift, _)) = deck_boards::uplift(roof, &boarding.held, rows) else { return };
    let title = "what boards bear that run on past their last rafter, with a person at their end: have lookouts or blocking worked out";
    rows.not_known("roof.deck.past-bearing", title);
    if boarding.courses.is_empty() {
        rows.not_known("roof.deck.pull", format!("pull on the fasteners of a board: {HOLLOW}"));
        return;
    }
    let past = deck::farthest_past_rafters(&boarding.courses);
    let past = rows.add(
        "roof.deck.past-rafters",
        "farthest that a board runs on past the last rafter under it",
        bind(past, rows, "roof.deck.unsupported"),
    );
    let next = Rafters::path(1, "across");
    let Some(apart) = rows.value::<Length>(&next) else { return };
    let pull = deck::pull_at_rafter(uplift, boarding.width.value, apart, past)
        .from("uplift", "roof.deck.uplift")
        .from("cover", "roof.deck.width")
        .from("apart", next)
        .from("run on", "roof.deck.past-rafters");
    let pull: Force = rows.add("roof.deck.pull", "largest pull on a board's fasteners where it lies on a rafter", pull);
    let (Some(withdrawal), Some(laid)) = (&boarding.held.withdrawal, &boarding.laid) else { return };
    let each = deck::fasteners_at_rafter(pull, withdrawal.value)
        .from("pull", "roof.deck.pull")
        .from("withdrawal", "roof.deck.withdrawal");
    let each = rows.add("roof.deck.fasteners-at-rafter", "fasteners of a board where it lies on a rafter", each);
    let places = deck::held_places(&boarding.courses, laid);
    let places =
        ["roof.deck.boards", "roof.deck.unsupported"].iter().fold(places, |places, path| bind(places, rows, path));
    let places = rows.add("roof.deck.held-places", "places where a board lies on a rafter, joints twice", places);
    let all = deck::fasteners_over_rafters(each, places)
        .from("each", "roof.deck.fasteners-at-rafter")
        .from("places", "roof.deck.held-places");
    rows.add("roof.deck.fasteners", "fasteners of the deck, at every rafter under every board", all);
}
