//! The deck on straight rafters that fall one way: boards over their tops from verge to verge, their cutting list, its water.

use kurbo::Point;

use super::Wall;
use super::deck::{self, length};
use super::deck_told::{self, Held};
use super::place::shown;
use super::rafters::Rafters;
use super::ring::CHORD;
use crate::build::{self, Source};
use crate::known::{Known, Origin};
use crate::roof::deck::{Drainage, EdgePoint, Nesting, Row, Slope, Staggered, drainage, staggered};
use crate::units::{self, Length, System, Volume};
use crate::wall;

/// The deck of a roof that falls one way.
#[derive(Clone, Debug)]
pub struct Boarding {
    /// Width that one board covers.
    pub width: Known<Length>,
    /// What a saw cut takes.
    pub kerf: Known<Length>,
    /// Lengths of boards that are sold.
    pub stock: Vec<Known<Length>>,
    /// What holds the boards down.
    pub held: Held,
    /// Height of the upstand at the edge, where it is written.
    pub upstand: Option<Known<Length>>,
    /// From one depth peg to the next.
    pub pegs: Known<Length>,
    /// What a bucket holds as it is hoisted.
    pub bucket: Known<Volume>,
    /// Downspouts: name, and the rafter after which each stands half-way to the next.
    pub downspouts: Vec<(String, Known<u64>)>,
    /// Its plane with the rafters under it; across is counted from the first rafter.
    pub slope: Slope,
    /// Its courses, from the low eave up; none where a hollow of the eave parts them.
    pub courses: Vec<Row>,
    /// Where their boards meet; none without courses, or where no stock that is assumed reaches from rafter to rafter.
    pub laid: Option<Staggered>,
    /// What they are cut from; none where they are not laid.
    pub cut: Option<Nesting>,
    /// Places of the low edge.
    pub eave: Vec<EdgePoint>,
    /// Where its water goes; none without downspouts.
    pub water: Option<Drainage>,
}

/// The boards over the rafters, where `[roof.deck]` asks for them; `None` where a fault was told.
pub(super) fn place(
    source: &Source<'_>,
    written: &build::Roof,
    wall: &Wall,
    (rafters, pitch, overhang): (&Rafters, units::Slope, Length),
    system: System,
) -> Option<Option<Boarding>> {
    let keys = &written.deck;
    if keys.at.is_none() {
        return Some(None);
    }
    if !is_of_one_plane(source, keys) {
        return None;
    }
    let width = length(source, &keys.width, [40.0, 400.0], "the width of a deck board", system).unwrap_or_else(|| {
        let why = "a board that is held by two in each rafter and does not cup";
        Known::assumed(Length::mm(120.0), "roof.deck.width", Origin::Judgement, why)
    });
    let [kerf, pegs] = [deck::kerf, deck::pegs].map(|of| of(source, keys, system));
    let bucket = deck::bucket(source, keys, system);
    let upstand = length(source, &keys.upstand[1], [0.0, 600.0], "the height of an upstand", system);
    let held = deck_told::held(source, &keys.held, system);
    let count = rafters.places.len();
    let in_row = format!("with a bay after it in a row of {count}");
    let downspouts = deck::downspouts(source, keys, (count.saturating_sub(1), "rafter", &in_row));
    let stock = deck::stock(source, keys, system);
    let (stock, downspouts) = (stock?, downspouts?);
    let slope = slope(wall, rafters, pitch, overhang);
    let courses = slope.courses(width.value).unwrap_or_default();
    let laid = laid(source, keys, &courses, &stock, system)?;
    let pieces: Vec<Length> = laid.iter().flat_map(|laid| laid.pieces.iter().flatten().copied()).collect();
    let cut = if laid.is_some() { deck::cut(source, keys, (&pieces, &stock), kerf.value, system)? } else { None };
    let eave = slope.edge_points();
    let nearest = |across: Length| {
        let off = |number: &usize| (eave[*number].place[0] - across.in_m()).abs();
        (0..eave.len()).min_by(|one, other| off(one).total_cmp(&off(other)))
    };
    let outlets: Vec<usize> =
        downspouts.iter().filter_map(|(_, rafter)| nearest(slope.half_way(rafter.value)?)).collect();
    let water = (!outlets.is_empty()).then(|| drainage(&eave, false, &outlets));
    Some(Some(Boarding {
        width,
        kerf,
        stock,
        held,
        upstand,
        pegs,
        bucket,
        downspouts,
        slope,
        courses,
        laid,
        cut,
        eave,
        water,
    }))
}

/// Eave and verges in plan, across from the first rafter and up from the origin of the plan.
fn slope(wall: &Wall, rafters: &Rafters, pitch: units::Slope, overhang: Length) -> Slope {
    let [thickness, height] = wall.means();
    let eave = wall::eave_offset(thickness, wall.batter_outside.value, height, overhang).value;
    let outline = wall.line.outline(eave.in_m(), CHORD * wall.line.length());
    let turned = |point: Point| {
        let [across, up] = rafters.reach(point).map(Length::in_m);
        Point::new(across, up)
    };
    Slope {
        outline: outline.into_iter().map(turned).collect(),
        rafters: (0..rafters.places.len()).map(|place| rafters.across(place)).collect(),
        pitch,
    }
}

/// Where the boards meet; nothing inside where stock that is assumed does not reach.
fn laid(
    source: &Source<'_>,
    keys: &build::Deck,
    courses: &[Row],
    stock: &[Known<Length>],
    system: System,
) -> Option<Option<Staggered>> {
    if courses.is_empty() {
        return Some(None);
    }
    let longest = stock.iter().map(|length| length.value).fold(Length::ZERO, Length::max);
    match (staggered(courses, longest), keys.stock.first()) {
        (Ok(laid), _) => Some(Some(laid)),
        (Err(_), None) => Some(None),
        (Err(rafter), Some(first)) => {
            let message = format!(
                "boards of {} and less cannot be laid about rafter {}: from a verge one must reach past the rafter beside it, and else from rafter to rafter",
                shown(longest, system),
                rafter + 1
            );
            source.fault(first.span.clone(), "roof.deck.stock", message, "write a longer length that is sold");
            None
        }
    }
}

/// Refuses what is written of a deck that is twisted over poles round an eye.
fn is_of_one_plane(source: &Source<'_>, keys: &build::Deck) -> bool {
    let lengths = [&keys.shim, &keys.bearing, &keys.spacing, &keys.edge, &keys.upstand[0], &keys.held.rows];
    let bedding = keys.bedding.as_ref().map(|one| (&one.span, &one.path));
    let shear = keys.held.shear.as_ref().map(|one| (&one.span, &one.path));
    let cover = &keys.cover;
    let covers = [
        cover.lap.as_ref().map(|one| (&one.span, &one.path)),
        cover.people.as_ref().map(|one| (&one.span, &one.path)),
        cover.each.as_ref().map(|one| (&one.span, &one.path)),
        cover.things.as_ref().map(|one| (&one.span, &one.path)),
        cover.carries.as_ref().map(|one| (&one.span, &one.path)),
    ];
    let lengths = lengths.into_iter().flatten().map(|one| (&one.span, &one.path));
    let Some((span, path)) = bedding.into_iter().chain(lengths).chain(shear).chain(covers.into_iter().flatten()).next()
    else {
        return true;
    };
    let message = "this is for a deck round an eye: on straight rafters boards lie in one plane, without shims";
    source.fault(span.clone(), path, message, "leave it out");
    false
}
