//! What paper shows of straight rafters beside their rows: where they lie, their poles, openings and trimmers.

use kurbo::{Point, Rect};

use super::part::{Material, Meaning, Outline, Part};
use super::ring_plan::{Round, people};
use super::{Frame, House, Rafters, Roof, roof_openings};
use crate::units::Length;
use crate::wall;

/// Chord error of drawn curves, in metres.
const CHORD: f64 = 0.002;

/// The rafters of a roof as drawings show them; lengths in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct RafterPlan {
    /// The rafters in the order of their places.
    pub places: Vec<PlacedRafter>,
    /// The top of the wall and the eave.
    pub parts: Vec<Part>,
    /// The line of the plate.
    pub plate: Vec<Point>,
    /// Openings for flues.
    pub openings: Vec<OpeningPlan>,
}

/// A rafter in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedRafter {
    /// The stem of its rows, without a dot at its end.
    pub stem: String,
    /// The tag of its pole; none where the poles are not measured.
    pub tag: Option<String>,
    /// Whether somebody measured it.
    pub is_measured: bool,
    /// Whether its thin end lies low.
    pub is_turned: bool,
    /// Whether it lies along a side wall.
    pub is_on_side: bool,
    /// Its axis from its low end.
    pub axis: [Point; 2],
    /// Its diameters there.
    pub diameters: [f64; 2],
    /// Where it rests.
    pub seats: [Point; 2],
    /// Stretches of its axis that are left, as shares of it.
    pub left: Vec<[f64; 2]>,
    /// How many people lift its thin end while its thick one stays down; none where it takes a tripod, a ramp or a rope.
    pub people: Option<u64>,
}

/// The opening for a flue.
#[derive(Clone, Debug, PartialEq)]
pub struct OpeningPlan {
    /// The stem of its rows.
    pub stem: String,
    /// Its corners; none where its listing is not known.
    pub corners: Vec<Point>,
    /// The flue.
    pub flue: Rect,
    /// Its trimmers.
    pub trimmers: Vec<Round>,
}

/// The rafters of the roof; none where it does not fall one way.
#[must_use]
pub fn rafter_plan(house: &House) -> Option<RafterPlan> {
    let roof = house.roof.as_ref()?;
    let Frame::OneWay { rafters, .. } = &roof.frame else { return None };
    let wall = &house.wall;
    let [thickness, height] = wall.means();
    let plate = wall::plate_offset(wall.batter_inside.value, wall.batter_outside.value, height).value.in_m();
    let out = wall::eave_offset(thickness, wall.batter_outside.value, height, roof.overhang.value).value.in_m();
    let half = 0.5 * wall.least_top_thickness().in_m();
    let seen = |points| Outline::area(points, Meaning::Seen);
    let top = wall.line.band(plate - half, plate + half, CHORD).into_iter().map(seen).collect();
    let eave = vec![Outline::area(wall.line.outline(out, CHORD), Meaning::Hidden)];
    Some(RafterPlan {
        places: (0..rafters.places.len()).map(|place| placed(house, (roof, rafters), place)).collect(),
        parts: vec![
            Part::new("wall", "top of the wall", Material::Cob, top),
            Part::new("roof.overhang", "eave", Material::Timber, eave),
        ],
        plate: wall.line.outline(plate, CHORD),
        openings: openings(house, roof, rafters),
    })
}

fn placed(house: &House, (roof, rafters): (&Roof, &Rafters), place: usize) -> PlacedRafter {
    let one = &rafters.places[place];
    let across = rafters.across(place);
    let at = |up: Length| rafters.point(across, up);
    let pole = rafters.pole(place);
    let cut = pole.map(|(_, cut)| cut);
    let mean = roof.diameter.value;
    let people = cut.zip(rafters.pile.as_ref()).and_then(|(cut, pile)| {
        let ends = [cut.butt.max(cut.tip), cut.butt.min(cut.tip)];
        people(ends, cut.length, (roof.density.value, pile.alone.value))
    });
    let laid = rafters.pile.as_ref().and_then(|pile| pile.laid.get(place));
    PlacedRafter {
        stem: format!("roof.rafters.{}", place + 1),
        tag: pole.map(|(own, _)| own.tag.clone()),
        is_measured: pole.is_some_and(|(own, _)| own.is_measured),
        is_turned: laid.is_some_and(|laid| laid.is_turned),
        is_on_side: one.is_on_side,
        axis: one.eave.map(at),
        diameters: cut.map_or([mean; 2], |cut| [cut.butt, cut.tip]).map(Length::in_m),
        seats: one.seats.map(at),
        left: left(house, rafters, place),
        people,
    }
}

/// What openings leave of a rafter, as shares of its axis.
fn left(house: &House, rafters: &Rafters, place: usize) -> Vec<[f64; 2]> {
    let [low, high] = rafters.places[place].eave;
    let mut left: Vec<[f64; 2]> = vec![[0.0, 1.0]];
    for opening in roof_openings(house) {
        let Some(framed) = opening.framed.filter(|framed| framed.cut.contains(&place)) else { continue };
        let share = |up: Length| ((up - low) / (high - low)).clamp(0.0, 1.0);
        let gap = [-0.5, 0.5].map(|side| share(opening.reach[1] + framed.side * side));
        left = left.into_iter().flat_map(|[from, to]| [[from, to.min(gap[0])], [from.max(gap[1]), to]]).collect();
        left.retain(|[from, to]| to > from);
    }
    left
}

fn openings(house: &House, roof: &Roof, rafters: &Rafters) -> Vec<OpeningPlan> {
    let one = |opening: super::RoofOpening<'_>| {
        let [across, up] = opening.reach;
        let at = |aside: Length, along: Length| rafters.point(across + aside, up + along);
        let side = opening.framed.as_ref().map(|framed| framed.side * 0.5);
        let corners = side.map_or_else(Vec::new, |half| {
            [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]].map(|[a, b]| at(half * a, half * b)).to_vec()
        });
        let beside = opening.framed.as_ref().and_then(|framed| framed.beside).zip(side);
        let trimmers = beside.map_or_else(Vec::new, |([one, other], half)| {
            let off = half + roof.diameter.value * 0.5;
            let trimmer = |(noun, sign): (&str, f64)| Round {
                axis: [one, other].map(|place| rafters.point(rafters.across(place), up + off * sign)),
                diameter: roof.diameter.value.in_m(),
                path: opening.thing.path(noun),
            };
            [("below", -1.0), ("above", 1.0)].map(trimmer).to_vec()
        });
        let middle = rafters.point(across, up);
        let radius = 0.5 * opening.diameter.value.in_m();
        let flue = Rect::new(middle.x - radius, middle.y - radius, middle.x + radius, middle.y + radius);
        OpeningPlan { stem: opening.thing.stem(), corners, flue, trimmers }
    };
    roof_openings(house).into_iter().map(one).collect()
}
