//! What paper shows of a deck on straight rafters beside its rows: courses with their joints, cutting list, downspouts.

use kurbo::{Point, Vec2};

use super::{Frame, House};
use crate::solve::polygon;
use crate::units::Length;

/// A deck on straight rafters as it is laid; places in plan, in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct BoardingPlan {
    /// Its courses, from the low eave up.
    pub courses: Vec<CoursePlan>,
    /// The lengths of stock with the pieces cut from each: course and piece, both from 1.
    pub sticks: Vec<(Length, Vec<(usize, usize)>)>,
    /// Low eave, verges and high eave.
    pub eave: Vec<Point>,
    /// The axes of the rafters, low end first.
    pub rafters: Vec<[Point; 2]>,
    /// Downspouts: name and place.
    pub downspouts: Vec<(String, Point)>,
}

/// A course of boards.
#[derive(Clone, Debug, PartialEq)]
pub struct CoursePlan {
    /// Its boards in their order.
    pub pieces: Vec<Length>,
    /// The rafters over which they meet, from 1.
    pub joints: Vec<usize>,
    /// Its lower edge within the eave.
    pub edge: Vec<[Point; 2]>,
    /// Each joint from its lower edge to its upper one.
    pub meets: Vec<[Point; 2]>,
}

/// The boards of the roof; none where nobody asks for them, or where the roof does not fall one way.
#[must_use]
pub fn boarding_plan(house: &House) -> Option<BoardingPlan> {
    let roof = house.roof.as_ref()?;
    let (Frame::OneWay { rafters, .. }, Some(boarding)) = (&roof.frame, &roof.boarding) else { return None };
    let at = |across: f64, up: f64| rafters.point(Length::m(across), Length::m(up));
    let slope = &boarding.slope;
    let laid = boarding.laid.as_ref();
    let course = |(number, [low, high]): (usize, [f64; 2])| {
        let joints = laid.and_then(|laid| laid.joints.get(number)).map_or(&[][..], Vec::as_slice);
        let mut met = polygon::crossings(&slope.outline, Point::new(0.0, low), Vec2::new(1.0, 0.0));
        met.sort_by(f64::total_cmp);
        let meet = |&joint: &usize| {
            let across = slope.rafters[joint].in_m();
            [at(across, low), at(across, high)]
        };
        CoursePlan {
            pieces: laid.and_then(|laid| laid.pieces.get(number)).cloned().unwrap_or_default(),
            joints: joints.iter().map(|joint| joint + 1).collect(),
            edge: met.chunks_exact(2).map(|ends| [at(ends[0], low), at(ends[1], low)]).collect(),
            meets: joints.iter().map(meet).collect(),
        }
    };
    let courses: Vec<CoursePlan> = slope.strips(boarding.width.value).into_iter().enumerate().map(course).collect();
    let named: Vec<(usize, usize)> = courses
        .iter()
        .enumerate()
        .flat_map(|(course, own)| (1..=own.pieces.len()).map(move |piece| (course + 1, piece)))
        .collect();
    let sticks = boarding.cut.iter().flat_map(|plan| &plan.sticks);
    let sticks = sticks.map(|stick| (stick.stock, stick.pieces.iter().map(|&piece| named[piece]).collect()));
    let outlets = boarding.water.iter().flat_map(|water| &water.catchments);
    let downspouts = boarding.downspouts.iter().zip(outlets).map(|((name, _), one)| {
        let [across, up, _] = boarding.eave[one.outlet].place;
        (name.clone(), at(across, up))
    });
    Some(BoardingPlan {
        sticks: sticks.collect(),
        eave: slope.outline.iter().map(|point| at(point.x, point.y)).collect(),
        rafters: rafters
            .places
            .iter()
            .enumerate()
            .map(|(place, one)| one.eave.map(|up| rafters.point(rafters.across(place), up)))
            .collect(),
        downspouts: downspouts.collect(),
        courses,
    })
}
