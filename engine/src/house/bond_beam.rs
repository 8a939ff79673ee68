//! The plan of the bond beam: its pieces, the joints of the upper layers, and a mark on each part, as a drawing shows it.

use kurbo::Point;

use super::House;
use super::built_in::BeamPart;
use super::part::{Material, Meaning, Outline, Part, Place};
use crate::curve::Chain;
use crate::units::Length;
use crate::wall::Made;

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
    let half = 0.5 * beam.width.value.in_m();
    let edge = |by: Length| (beam.offset + by).in_m();
    let top = 0.5 * house.wall.least_top_thickness();
    let outlines = line.band(edge(-top), edge(top), CHORD).into_iter();
    let outlines = outlines.map(|points| Outline::area(points, Meaning::Seen)).collect();
    let mut parts = vec![Part::new("wall", "top of the wall", Material::Cob, outlines)];
    let (mut marks, mut away) = (Vec::new(), Vec::new());
    for (place, part) in beam.parts.iter().enumerate() {
        let joints = part.joints();
        let mut outlines: Vec<Outline> =
            joints.windows(2).map(|ends| Outline::area(piece(part, [ends[0], ends[1]], half), Meaning::Seen)).collect();
        if beam.layers.value > 1 {
            // The joints of each second layer stand over the middles of the pieces below.
            let middles = joints.windows(2).map(|ends| 0.5 * (ends[0] + ends[1]));
            let across = middles.map(|middle| [-half, half].map(|right| beside(&part.middle, middle, right)).to_vec());
            outlines.extend(across.map(|ends| Outline::line(ends, Meaning::Hidden)));
        }
        let stretch = &beam.stretches[part.longest];
        let stem = stretch.path("pieces");
        let over: Vec<&str> = part.over.iter().map(|&place| beam.stretches[place].name.as_str()).collect();
        parts.push(Part::new(&stem, &over.join(" with "), Material::Timber, outlines));
        let middle = 0.5 * part.middle.length();
        marks.push(Place::new(&stem, &mark(place), beside(&part.middle, middle, half)));
        away.push(-part.middle.direction(middle).turn_90());
    }
    Some(BeamPlan { parts, marks, away })
}

/// The outline of a piece between two distances along the middle of its part, in metres: straight, or sawn to the curve.
fn piece(part: &BeamPart, [from, to]: [f64; 2], half: f64) -> Vec<Point> {
    let edge = |right: f64| -> Vec<Point> {
        let ends = [from, to].map(|along| beside(&part.middle, along, right));
        match part.division.made {
            Made::Straight => ends.to_vec(),
            Made::Sawn => {
                let pieces = part.middle.part(from, to).into_iter().map(|piece| piece.offset(right));
                let points: Vec<Point> = pieces.flat_map(|piece| piece.flatten(CHORD).collect::<Vec<_>>()).collect();
                points.into_iter().chain([ends[1]]).collect()
            }
        }
    };
    edge(-half).into_iter().chain(edge(half).into_iter().rev()).collect()
}

/// The point to the right of a line at a distance along it, in metres.
fn beside(middle: &Chain, along: f64, right: f64) -> Point {
    middle.at(along) - middle.direction(along).turn_90() * right
}
