//! What a drawing shows of a deck in plan: its bays with their courses, top lines of poles with their stations, downspouts.

use kurbo::Point;

use super::deck::Deck;
use crate::roof::deck::{self, Bay, Place, Station, TopLine};

/// A deck in plan; metres.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DeckPlan {
    /// Its bays, each named after the pole before it.
    pub bays: Vec<BayPlan>,
    /// The top lines of the poles, from the eave to the eye.
    pub tops: Vec<[Point; 2]>,
    /// The stations of the shim table, pole by pole.
    pub stations: Vec<Vec<Point>>,
    /// Downspouts: name and place.
    pub downspouts: Vec<(String, Point)>,
}

/// A bay in plan.
#[derive(Clone, Debug, PartialEq)]
pub struct BayPlan {
    /// Its outline.
    pub outline: Vec<Point>,
    /// The lines between its courses.
    pub courses: Vec<[Point; 2]>,
    /// The middle of its eave and the middle of its edge of the eye.
    pub middle: [Point; 2],
    /// How many boards it takes.
    pub boards: usize,
}

/// The plan of a deck.
#[must_use]
pub(super) fn deck_plan(deck: &Deck) -> DeckPlan {
    let bay = |(number, bay): (usize, &Bay<'_>)| BayPlan {
        outline: deck::round(bay).into_iter().map(flat).collect(),
        courses: deck::course_lines(bay, deck.width.value).into_iter().map(|ends| ends.map(flat)).collect(),
        middle: [bay.at_eave(0.5), bay.at_eye(0.5)].map(flat),
        boards: deck.boards.iter().filter(|(of, _)| *of == number).count(),
    };
    let outlets = deck.water.iter().flat_map(|water| &water.catchments);
    let downspouts = deck.downspouts.iter().zip(outlets);
    DeckPlan {
        bays: deck.frame.bays().iter().enumerate().map(bay).collect(),
        tops: deck.frame.rafters().iter().map(|top| [top.eave, top.eye].map(flat)).collect(),
        stations: deck.frame.rafters().iter().zip(&deck.shims.rafters).map(stations).collect(),
        downspouts: downspouts.map(|((name, _), one)| (name.clone(), flat(deck.eave[one.outlet].place))).collect(),
    }
}

fn stations((top, stations): (&TopLine, &Vec<Station>)) -> Vec<Point> {
    let [eave, eye] = [top.eave, top.eye].map(|place| (flat(place), top.along(place)));
    let at = |station: &Station| eave.0.lerp(eye.0, (station.along - eave.1) / (eye.1 - eave.1));
    stations.iter().map(at).collect()
}

fn flat([x, y, _]: Place) -> Point {
    Point::new(x, y)
}
