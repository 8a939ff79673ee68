//! The plan of the bond beam: its pieces, the joints of the upper layers, and a mark on each part, as a drawing shows it.

use super::House;
use super::built_in::Stretch;
use super::part::{Material, Meaning, Outline, Part, Place};
use crate::units::Length;

/// The bond beam in plan and its cutting list.
#[derive(Clone, Debug, PartialEq)]
pub struct BeamPlan {
    /// The wall's top below it, and its pieces.
    pub parts: Vec<Part>,
    /// Where each part's mark stands, beside the beam; named by the mark, with the stem of the part's rows.
    pub marks: Vec<Place>,
    /// Which way each mark stands off, by place in the list of marks.
    pub away: Vec<kurbo::Vec2>,
}

/// Chord error of drawn curves, in metres.
const CHORD: f64 = 0.001;

/// The mark of a part of the beam, by its place: A, B, to Z, then AA.
#[must_use]
pub fn mark(place: usize) -> String {
    let letter = |number: usize| char::from(b'A' + u8::try_from(number % 26).unwrap_or(0));
    match place / 26 {
        0 => letter(place).to_string(),
        round => format!("{}{}", letter(round - 1), letter(place)),
    }
}

/// The plan of the bond beam; none without one.
#[must_use]
pub fn beam_plan(house: &House) -> Option<BeamPlan> {
    let beam = house.bond_beam.as_ref()?;
    let line = &house.wall.line;
    let half = 0.5 * beam.width.value;
    let edge = |by: Length| (beam.offset + by).in_m();
    let at = |along: f64, right: f64| {
        let station = line.at(along);
        station.point - station.axis.turn_90() * right
    };
    let top = 0.5 * house.wall.least_top_thickness();
    let outlines = line.band(edge(-top), edge(top), CHORD).into_iter();
    let outlines = outlines.map(|points| Outline::area(points, Meaning::Seen)).collect();
    let mut parts = vec![Part::new("wall", "top of the wall", Material::Cob, outlines)];
    let (mut marks, mut away) = (Vec::new(), Vec::new());
    for (place, stretch) in beam.stretches.iter().enumerate() {
        let joints = joints(stretch);
        let across = |along: f64| [at(along, edge(-half)), at(along, edge(half))];
        let pieces = joints.windows(2).map(|ends| {
            let [[a, b], [c, d]] = [across(ends[0]), across(ends[1])];
            Outline::area(vec![a, b, d, c], Meaning::Seen)
        });
        let mut outlines: Vec<Outline> = pieces.collect();
        if beam.layers.value > 1 {
            // The joints of each second layer stand over the middles of the pieces below.
            let middles = joints.windows(2).map(|ends| 0.5 * (ends[0] + ends[1]));
            outlines.extend(middles.map(|middle| Outline::line(across(middle).to_vec(), Meaning::Hidden)));
        }
        let stem = stretch.path("pieces");
        parts.push(Part::new(&stem, &stretch.name, Material::Opening, outlines));
        let middle = 0.5 * (stretch.along[0] + stretch.along[1]);
        marks.push(Place::new(&stem, &mark(place), at(middle, edge(half))));
        away.push(-line.at(middle).axis.turn_90());
    }
    Some(BeamPlan { parts, marks, away })
}

/// Distances along the line at which the pieces of a part end.
fn joints(stretch: &Stretch) -> Vec<f64> {
    let [from, to] = stretch.along;
    let count = stretch.pieces.max(1);
    (0..=count).map(|number| from + (to - from) * number as f64 / count as f64).collect()
}
