//! Courses of boards across a bay: how long each is cut and at what angles its ends.
//!
//! Courses run with the string between the two tails, from the outermost place of the eave to the eye. They are set out in the
//! bay's mean plane; a board is as long as its ruling, which leaves that plane. That it winds as well makes it longer by an eighth
//! of the square of its twist times its width over its length, as a share: no tape shows it.

use super::bay::Bay;
use super::space::{Place, between, cross, dot, minus, plus, unit};
use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Angle, Area, Length, Ratio};

/// A board as cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Board {
    /// Its course, counted from the eave, from 0.
    pub course: usize,
    /// From its longest point to its longest point.
    pub length: Length,
    /// The angle of each end from square, above zero where the end leans to the next rafter on its way up; none where it ends on
    /// the curve of an edge and is cut to it in place.
    pub ends: [Option<Angle>; 2],
    /// How far it is twisted on each metre, in radians.
    pub twist_on_a_metre: f64,
}

/// The courses of a bay.
#[derive(Clone, Debug, PartialEq)]
pub struct Courses {
    /// The boards, from the eave up.
    pub boards: Vec<Board>,
    /// What they cover.
    pub covered: Area,
}

/// Chords that stand for the curve of an edge within a bay.
const CHORDS: u32 = 32;
/// A rafter that a course meets by less than this does not end it.
const TOUCH: f64 = 0.001;

/// The courses of boards, each covering `cover`, that deck a bay.
#[must_use]
pub fn courses(bay: &Bay<'_>, cover: Length) -> Courses {
    let outline = outline(bay);
    let (low, high) =
        outline.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at[1]), high.max(at[1])));
    let sides = bay.patch.corners.map(|ends| Side { ends: ends.map(|place| flat(bay, place)) });
    let count = rounded_up((high - low) / cover.in_m());
    let board = |course: u64| {
        let from = low + course as f64 * cover.in_m();
        let to = (from + cover.in_m()).min(high);
        let [left, right] = reach(&outline, from, to)?;
        let [one, next] = [0, 1].map(|side| sides[side].share(0.5 * (from + to)));
        let off = sides[1].off_plane(next) - sides[0].off_plane(one);
        let u = 0.5 * (one + next);
        let twist_on_a_metre = bay.patch.twist_at(u).in_rad() / bay.patch.width_at(u).in_m();
        let ends = [0, 1].map(|side| sides[side].meets(from, to).then(|| sides[side].lean()));
        Some(Board { course: course as usize, length: Length::m((right - left).hypot(off)), ends, twist_on_a_metre })
    };
    Courses { boards: (0..count).filter_map(board).collect(), covered: Area::m2(area(&outline)) }
}

/// The lines between the courses of a bay, each from edge to edge of the deck, as places on it; a course that the eye parts has
/// two.
#[must_use]
pub fn course_lines(bay: &Bay<'_>, cover: Length) -> Vec<[Place; 2]> {
    let places = round(bay);
    let flats: Vec<[f64; 3]> = places.iter().map(|&place| flat(bay, place)).collect();
    let (low, high) =
        flats.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at[1]), high.max(at[1])));
    let count = rounded_up((high - low) / cover.in_m());
    let line = |course: u64| {
        let level = low + course as f64 * cover.in_m();
        let mut met: Vec<(f64, Place)> = (0..places.len())
            .filter_map(|from| {
                let to = (from + 1) % places.len();
                let (a, b) = (flats[from], flats[to]);
                let share = (level - a[1]) / (b[1] - a[1]);
                ((a[1] - level) * (b[1] - level) < 0.0)
                    .then(|| (a[0] + share * (b[0] - a[0]), between(places[from], places[to], share)))
            })
            .collect();
        met.sort_by(|a, b| a.0.total_cmp(&b.0));
        met.chunks_exact(2).map(|pair| [pair[0].1, pair[1].1]).collect::<Vec<_>>()
    };
    (1..count).flat_map(line).collect()
}

formula! {
    /// What of the boards does not cover the deck, as a share of what is bought: mitres, offcuts, saw cuts.
    ///
    /// ```text
    /// a = 1 − A / (b l)        A: area of the deck, b: cover of a board, l: of all stock
    /// ```
    /// Source: the definition of the share.
    pub fn boards_wasted(covered: Area, cover: Length, bought_length: Length) -> Ratio {
        Ratio::fraction(1.0 - covered / (cover * bought_length))
    }
}

/// A rafter's top line beside the mean plane: along the courses, up the bay, off the plane.
struct Side {
    ends: [[f64; 3]; 2],
}

impl Side {
    fn lean(&self) -> Angle {
        let [eave, eye] = self.ends;
        Angle::rad((eye[0] - eave[0]).atan2(eye[1] - eave[1]))
    }

    fn meets(&self, from: f64, to: f64) -> bool {
        let [eave, eye] = self.ends;
        to.min(eye[1]) - from.max(eave[1]) > TOUCH
    }

    /// The share of the way from eave to eye at a level of the mean plane.
    fn share(&self, level: f64) -> f64 {
        let [eave, eye] = self.ends;
        ((level - eave[1]) / (eye[1] - eave[1])).clamp(0.0, 1.0)
    }

    fn off_plane(&self, share: f64) -> f64 {
        let [eave, eye] = self.ends;
        eave[2] + share * (eye[2] - eave[2])
    }
}

/// The bay's outline in its mean plane: along the string between the tails, and square to it towards the eye.
fn outline(bay: &Bay<'_>) -> Vec<[f64; 3]> {
    round(bay).into_iter().map(|place| flat(bay, place)).collect()
}

/// Places round a bay: along its eave, and back along its edge of the eye.
#[must_use]
pub fn round(bay: &Bay<'_>) -> Vec<Place> {
    let share = |chord: u32| f64::from(chord) / f64::from(CHORDS);
    let eave = (0..=CHORDS).map(|chord| bay.at_eave(share(chord)));
    let eye = (0..=CHORDS).rev().map(|chord| bay.at_eye(share(chord)));
    eave.chain(eye).collect()
}

fn flat(bay: &Bay<'_>, place: Place) -> [f64; 3] {
    let [[eave, eye], [next_eave, next_eye]] = bay.patch.corners;
    let square = unit(cross(minus(next_eye, eave), minus(eye, next_eave)));
    let string = minus(next_eave, eave);
    let along = unit(plus(string, square, -dot(string, square)));
    let up = cross(square, along);
    let up = if dot(up, minus(eye, eave)) < 0.0 { up.map(|part| -part) } else { up };
    let from = minus(place, eave);
    [dot(from, along), dot(from, up), dot(from, square)]
}

/// How far an outline reaches along the courses between two levels.
pub(super) fn reach(outline: &[[f64; 3]], from: f64, to: f64) -> Option<[f64; 2]> {
    let next = outline.iter().cycle().skip(1);
    let cut = outline.iter().zip(next).flat_map(|(a, b)| {
        [from, to].map(|level| {
            let crosses = (a[1] - level) * (b[1] - level) < 0.0;
            crosses.then(|| a[0] + (b[0] - a[0]) * (level - a[1]) / (b[1] - a[1]))
        })
    });
    let within = outline.iter().filter(|at| (from..=to).contains(&at[1])).map(|at| at[0]);
    let all: Vec<f64> = cut.flatten().chain(within).collect();
    let least = all.iter().copied().min_by(f64::total_cmp)?;
    let most = all.iter().copied().max_by(f64::total_cmp)?;
    Some([least, most])
}

fn area(outline: &[[f64; 3]]) -> f64 {
    let points: Vec<kurbo::Point> = outline.iter().map(|&[x, y, _]| kurbo::Point::new(x, y)).collect();
    crate::solve::polygon::area(&points)
}
