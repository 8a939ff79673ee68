//! Rows of the deck on the measured poles: its surface, shims, eave and water, pegs, the cover of its eye.

use super::super::line::bind;
use super::super::uneven::bind_line;
use crate::build::DeckBedding;
use crate::house::{Deck, House, Ring};
use crate::known::Known;
use crate::reason::Answer;
use crate::roof;
use crate::roof::deck;
use crate::row::Rows;
use crate::units::{Area, Force, Length, Quantity};

/// Binds what makes the surface: the poles as they lie, and where the deck ends round the eye.
pub(super) fn on_poles<T>(answer: Answer<T>, rows: &Rows) -> Answer<T> {
    bind(bind(answer, rows, "roof.ring.pitch"), rows, "roof.deck.edge")
}

/// The surface. Hands back its area.
pub(super) fn surface(deck: &Deck, rows: &mut Rows) -> Area {
    rows.known("radius at which the deck ends round the eye", &deck.edge);
    rows.known("width that one board of the deck covers", &deck.width);
    let hole = deck::hole_area(deck.edge.value).from("edge radius", "roof.deck.edge");
    let hole = rows.add("roof.deck.hole-area", "hole round which the deck ends, in plan", hole);
    let eave = rows.value("roof.eave-area").unwrap_or(Area::ZERO);
    let plan = roof::roofed(eave, hole).from("eave area", "roof.eave-area").from("eye area", "roof.deck.hole-area");
    rows.add("roof.deck.plan-area", "deck in plan", plan);
    let area = on_poles(deck::deck_area(&deck.frame), rows);
    let area = rows.add("roof.area", "area of the deck on its twisted surface", area);
    let bend = on_poles(deck::summed_mean_curvature(&deck.frame), rows);
    rows.add("roof.deck.mean-curvature", "mean curvature of the deck summed over it, in metres", bend);
    let twist = on_poles(deck::summed_gaussian_curvature(&deck.frame), rows);
    rows.add("roof.deck.gaussian-curvature", "Gaussian curvature of the deck summed over it", twist);
    let steepest = on_poles(deck::steepest_slope(&deck.frame), rows);
    let title = format!("steepest slope of the deck, in the bay {}", steepest_bay(deck));
    rows.add("roof.deck.steepest", title, steepest);
    let twisted = on_poles(deck::largest_twist_on_a_metre(&deck.frame), rows);
    rows.add("roof.deck.twist", "largest twist of a board on a metre of it, in radians", twisted);
    area
}

fn steepest_bay(deck: &Deck) -> String {
    let all = deck.frame.steepest();
    let place = (0..all.len()).fold(0, |best, place| if all[place].slope > all[best].slope { place } else { best });
    between(deck.frame.bays()[place].rafters)
}

fn between([from, to]: [usize; 2]) -> String {
    format!("between poles {} and {}", from + 1, to + 1)
}

/// `is_raised`: a second ring lifts its boards off the poles.
pub(super) fn walk(house: &House, (deck, is_raised): (&Deck, bool), rows: &mut Rows) {
    if is_raised {
        let title = "shims of the deck: a second ring stands above its poles and lifts the boards off them";
        rows.not_known("roof.deck.shim-count", title);
    } else {
        shims(deck, rows);
    }
    eave(deck, rows);
    water(house, deck, rows);
    noted("upstand of the sheet at the eye", "roof.deck.upstand.eye", deck.upstand[0].as_ref(), rows);
    upstand(deck.upstand[1].as_ref(), rows);
    spare(deck.upstand[1].as_ref(), &deck.downspouts, rows);
    pegs(&deck.pegs, rows);
    cover(deck, rows);
}

/// The upstand at the edge of the roof.
pub(super) fn upstand(upstand: Option<&Known<Length>>, rows: &mut Rows) {
    noted("upstand of the sheet at the edge of the roof", "roof.deck.upstand.edge", upstand, rows);
}

/// Depth pegs of each layer that is poured.
pub(super) fn pegs(pegs: &Known<Length>, rows: &mut Rows) {
    let pegs = rows.known("from one depth peg on the roof to the next", pegs);
    let area = rows.value("roof.area").unwrap_or(Area::ZERO);
    let count = deck::depth_pegs(area, pegs).from("area", "roof.area").from("spacing", "roof.deck.pegs");
    rows.add("roof.deck.peg-count", "depth pegs on the roof for each layer that is poured", count);
}

/// A value that only the builder knows: a row, or not known.
pub(super) fn noted<T: Copy + Into<Quantity>>(
    title: &str,
    path: &str,
    known: Option<&Known<T>>,
    rows: &mut Rows,
) -> Option<T> {
    match known {
        Some(known) => Some(rows.known(title, known)),
        None => {
            rows.not_known(path, title);
            None
        }
    }
}

fn shims(deck: &Deck, rows: &mut Rows) {
    rows.known("least height of a shim under the deck", &deck.shim);
    let bearing = rows.known("width of a pole's top that carries shims, both sides together", &deck.bearing);
    rows.known("from one station of the shim table to the next along a pole", &deck.spacing);
    let bedded = |answer: Answer<Length>, rows: &Rows| {
        let made = ["roof.deck.shim", "roof.deck.bearing"].iter();
        let answer = made.fold(on_poles(answer, rows), |answer, path| bind(answer, rows, path));
        if deck.shims_are_ruled_by_cuts() { answer } else { bind(answer, rows, "roof.deck.spacing") }
    };
    for (place, stations) in deck.shims.rafters.iter().enumerate() {
        let largest = bedded(deck::largest_shim(stations), rows);
        rows.add(Ring::path(place, "shim"), format!("place {}, highest shim on its pole", place + 1), largest);
    }
    let count = on_poles(deck::shim_count(&deck.shims), rows);
    rows.add("roof.deck.shim-count", "shims under the deck, both sides", bind(count, rows, "roof.deck.spacing"));
    let volume = deck::shim_volume(bearing, &deck.frame, &deck.shims).from("bearing", "roof.deck.bearing");
    let volume = bind(on_poles(volume, rows), rows, "roof.deck.shim");
    let is_flat = deck.bedding == DeckBedding::Flat;
    let volume = if is_flat { volume } else { bind(volume, rows, "roof.deck.spacing") };
    rows.add("roof.deck.shim-volume", "wood of all shims, laid without gaps", volume);
}

fn eave(deck: &Deck, rows: &mut Rows) {
    for (place, tail) in deck::tails(&deck.frame).into_iter().enumerate() {
        let cut = bind(deck::eave_cut(tail), rows, "roof.ring.pitch");
        let title = format!("place {}, along its top from over the plate to the cut at the eave", place + 1);
        rows.add(Ring::path(place, "eave-cut"), title, cut);
    }
    let eave = on_poles(deck::eave_length(&deck.frame), rows);
    rows.add("roof.deck.eave-length", "edge board along the eave", eave);
    let eye = on_poles(deck::eye_length(&deck.frame), rows);
    rows.add("roof.deck.eye-length", "edge of the deck round the eye", eye);
    let place = on_poles(deck::lowest_place(&deck.eave), rows);
    let place = rows.add("roof.deck.lowest-place", "lowest place of the eave, in quarters of a bay from pole 1", place);
    let place = usize::try_from(place.saturating_sub(1)).unwrap_or(0);
    let (pole, quarter) = (place / deck::PLACES_IN_BAY + 1, place % deck::PLACES_IN_BAY);
    let level = bind(deck::lowest_level(&deck.eave), rows, "roof.ring.pitch");
    let level = bind(level, rows, &Ring::path(pole - 1, "seat-level"));
    let (level, at) = match quarter {
        0 => (level, format!("at pole {pole}")),
        _ => (bind(level, rows, "roof.deck.edge"), format!("{quarter} quarters on from pole {pole}")),
    };
    rows.add("roof.deck.lowest-level", format!("level of the eave where it is lowest, {at}"), level);
}

fn water(house: &House, deck: &Deck, rows: &mut Rows) {
    let Some(water) = &deck.water else {
        dry(rows);
        return;
    };
    outlets(&deck.downspouts, "pole", rows);
    let found = |answer: Answer<Length>, rows: &Rows| bind(on_poles(answer, rows), rows, "roof.deck.outlets");
    for (place, (name, _)) in deck.downspouts.iter().enumerate() {
        let Some(catchment) = deck.catchment(place) else { continue };
        let title = name.replace('-', " ");
        let stem = format!("roof.deck.downspouts.{name}");
        // In plan the bays follow the corners of the eye and the eave; heights only say which way water goes.
        let area = [
            "roof.deck.edge",
            "roof.deck.lowest-place",
            "roof.deck.outlets",
            "roof.centre-x",
            "roof.centre-y",
            "roof.eye",
            "roof.turned",
            "poles.count",
            "roof.eave-offset",
        ];
        let area = area.iter().fold(deck::catchment(catchment), |answer, path| bind(answer, rows, path));
        let area = bind_line(area, house, rows);
        rows.add(format!("{stem}.catchment"), format!("roof in plan that drains to downspout {title}"), area);
        if let Some(depth) = catchment.depth_if_blocked {
            let depth = found(deck::depth_if_blocked(depth), rows);
            rows.add(format!("{stem}.if-blocked"), format!("water over downspout {title} if it is blocked"), depth);
        }
    }
    let depth = water.ponding.map_or(Length::ZERO, |(_, depth)| depth);
    let standing = deck::standing_water(depth);
    let standing = match water.ponding {
        Some(_) => found(standing, rows),
        // Nothing stands: only another place of the eave could change that.
        None => bind(standing, rows, "roof.deck.lowest-place"),
    };
    rows.add("roof.deck.standing-water", "deepest water behind the edge board with all downspouts open", standing);
}

/// What is said where nobody wrote where water leaves.
pub(super) fn dry(rows: &mut Rows) {
    let what = "water that stands behind the edge board: write roof.deck.downspouts";
    rows.not_known("roof.deck.standing-water", what);
}

/// Downspouts, each after a pole that is called so, and how many there are.
pub(super) fn outlets(downspouts: &[(String, Known<u64>)], noun: &str, rows: &mut Rows) {
    for (name, pole) in downspouts {
        rows.known(format!("downspout {}, half-way on from {noun}", name.replace('-', " ")), pole);
    }
    let mut outlets = deck::outlet_count(downspouts.len() as u64);
    for (_, pole) in downspouts {
        outlets = bind(outlets, rows, &pole.path);
    }
    rows.add("roof.deck.outlets", "downspouts of the roof", outlets);
}

/// Whether the sheet is turned up higher than water stands when one downspout is blocked.
pub(super) fn spare(upstand: Option<&Known<Length>>, downspouts: &[(String, Known<u64>)], rows: &mut Rows) {
    let title = "what is left of the upstand at the edge over the deepest water, one downspout blocked";
    let depths = downspouts.iter().map(|(name, _)| format!("roof.deck.downspouts.{name}.if-blocked"));
    let depths = rows.parts::<Length>(depths.chain(["roof.deck.standing-water".to_owned()]));
    // A downspout that is blocked and has no other to spill to has no depth: water rises to the edge.
    let is_told = depths.len() == downspouts.len() + 1;
    let deepest = depths.into_iter().max_by(|a, b| a.2.in_m().total_cmp(&b.2.in_m()));
    match (upstand, deepest) {
        (Some(upstand), Some((_, path, deep))) if is_told && !downspouts.is_empty() => {
            let spare =
                deck::spare_upstand(upstand.value, deep).from("upstand", upstand.path.as_str()).from("deepest", path);
            rows.add("roof.deck.spare-upstand", title, spare);
        }
        _ => rows.not_known("roof.deck.spare-upstand", title),
    }
}

fn cover(deck: &Deck, rows: &mut Rows) {
    let cover = &deck.cover;
    let lap = rows.known("how far the cover of the eye lies over the deck", &cover.lap);
    let people = rows.known("people on the cover of the eye at one time", &cover.people);
    let each = rows.known("mass of each of them", &cover.each);
    let things = rows.known("mass of tools and material on the cover of the eye", &cover.things);
    let clear = deck::hole_width(deck.edge.value).from("edge radius", "roof.deck.edge");
    let clear = rows.add("roof.deck.hole-width", "clear width of the hole, through which one can fall", clear);
    let size = deck::cover_size(clear, lap).from("clear", "roof.deck.hole-width").from("lap", "roof.deck.cover.lap");
    rows.add("roof.deck.cover.size", "width of the cover of the eye, until it has its guard", size);
    let load = deck::cover_load(people, each, things, roof::STANDARD_GRAVITY_M_S2)
        .from("people", "roof.deck.cover.people")
        .from("mass of each", "roof.deck.cover.each")
        .from("things", "roof.deck.cover.things")
        .without("gravity m s2");
    let load: Force = rows.add("roof.deck.cover.load", "load that comes on the cover of the eye", load);
    let title = "what the cover of the eye carries";
    match noted(title, "roof.deck.cover.carries", cover.carries.as_ref(), rows) {
        Some(carries) => {
            let times = deck::cover_over_load(carries, load)
                .from("carries", "roof.deck.cover.carries")
                .from("load", "roof.deck.cover.load");
            rows.add("roof.deck.cover.over-load", "what the cover of the eye carries, in loads that come on it", times);
        }
        None => {
            rows.not_known("roof.deck.cover.over-load", "what the cover of the eye carries, in loads that come on it")
        }
    }
}
