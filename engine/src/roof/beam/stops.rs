//! The stops along a bond beam: its corners, the seats of poles, the anchors, in their order.

use super::given::Beam;

/// The nodes of a ring; each is joined to the next, the last to the first.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Stops {
    /// Where they are in plan, in metres.
    pub at: Vec<[f64; 2]>,
    /// How far each lies along the line from its first corner.
    pub along: Vec<f64>,
    /// The side of the line that the member after each lies on.
    pub side: Vec<usize>,
    /// Whether nothing but an anchor is there.
    pub is_anchor_alone: Vec<bool>,
    /// The stop of each seat.
    pub seats: Vec<usize>,
    /// The stop of each anchor.
    pub anchors: Vec<usize>,
    /// All the way round.
    pub length: f64,
}

/// Stops nearer to each other than this are one, in metres.
const ONE: f64 = 1e-3;

/// A corner nearer than this to a seat or an anchor is taken to be there, in metres: a member much shorter than its neighbours rounds
/// their forces away.
const CLOSE: f64 = 0.02;

#[derive(Clone, Copy)]
enum What {
    Corner,
    Seat(usize),
    Anchor(usize),
}

impl Stops {
    /// Those of a ring, with its anchors among them or without.
    pub(super) fn of(beam: &Beam, anchored: bool) -> Stops {
        let corners: Vec<[f64; 2]> = beam.line.iter().map(|corner| corner.map(|part| part.in_m())).collect();
        let count = corners.len();
        let sides: Vec<f64> = (0..count).map(|side| apart(corners[side], corners[(side + 1) % count])).collect();
        let starts: Vec<f64> = sides
            .iter()
            .scan(0.0, |sum, side| {
                let start = *sum;
                *sum += side;
                Some(start)
            })
            .collect();
        let length = sides.iter().sum();
        let place = |point: [f64; 2]| nearest(&corners, &starts, &sides, point);
        let plan = |point: [crate::units::Length; 2]| point.map(|part| part.in_m());
        let mut marks: Vec<(f64, usize, What)> =
            starts.iter().enumerate().map(|(side, start)| (*start, side, What::Corner)).collect();
        marks.extend(beam.seats.iter().enumerate().map(|(seat, at)| {
            let (along, side) = place(plan(*at));
            (along, side, What::Seat(seat))
        }));
        let anchors = if anchored { beam.anchors.as_slice() } else { &[] };
        marks.extend(anchors.iter().enumerate().map(|(anchor, own)| {
            let (along, side) = place(plan(own.at));
            (along, side, What::Anchor(anchor))
        }));
        marks.sort_by(|one, other| one.0.total_cmp(&other.0));
        let mut stops =
            Stops { seats: vec![0; beam.seats.len()], anchors: vec![0; anchors.len()], length, ..Stops::default() };
        let mut is_corner_alone = Vec::new();
        for (along, side, what) in marks {
            let is_corner = matches!(what, What::Corner);
            let gap = stops.along.last().map_or(f64::INFINITY, |last| along - last);
            let moves = !is_corner && is_corner_alone.last() == Some(&true) && is_corner_alone.len() > 1 && gap < CLOSE;
            let near = moves || gap < if is_corner { CLOSE } else { ONE };
            if let (true, Some(last)) = (moves, stops.along.len().checked_sub(1)) {
                let share = (along - starts[side]) / sides[side];
                stops.at[last] = between(corners[side], corners[(side + 1) % count], share);
                stops.along[last] = along;
                is_corner_alone[last] = false;
            }
            let stop = if length - along < ONE {
                0
            } else {
                if !near {
                    let share = (along - starts[side]) / sides[side];
                    stops.at.push(between(corners[side], corners[(side + 1) % count], share));
                    stops.along.push(along);
                    stops.side.push(side);
                    stops.is_anchor_alone.push(true);
                    is_corner_alone.push(is_corner);
                }
                stops.at.len() - 1
            };
            stops.is_anchor_alone[stop] &= matches!(what, What::Anchor(_));
            match what {
                What::Corner if near => stops.side[stop] = side,
                What::Corner => {}
                What::Seat(seat) => stops.seats[seat] = stop,
                What::Anchor(anchor) => stops.anchors[anchor] = stop,
            }
        }
        stops
    }

    /// The stop after one.
    pub(super) fn next(&self, stop: usize) -> usize {
        (stop + 1) % self.at.len()
    }

    /// For each stop the one of fewer, of the same ring, that it is or that it lies after.
    pub(super) fn among(&self, fewer: &Stops) -> Vec<usize> {
        let after = |along: &f64| fewer.along.partition_point(|one| *one <= along + ONE).saturating_sub(1);
        self.along.iter().map(after).collect()
    }

    /// The shorter way round between two stops.
    pub(super) fn apart(&self, one: usize, other: usize) -> f64 {
        let way = (self.along[one] - self.along[other]).abs();
        way.min(self.length - way)
    }
}

fn apart(one: [f64; 2], other: [f64; 2]) -> f64 {
    (other[0] - one[0]).hypot(other[1] - one[1])
}

fn between(one: [f64; 2], other: [f64; 2], share: f64) -> [f64; 2] {
    [0, 1].map(|axis: usize| one[axis] + (other[axis] - one[axis]) * share)
}

/// How far along the line the place lies that is nearest to a point, and its side.
fn nearest(corners: &[[f64; 2]], starts: &[f64], sides: &[f64], point: [f64; 2]) -> (f64, usize) {
    let mut best = (f64::INFINITY, 0.0, 0);
    for (side, (&start, &long)) in starts.iter().zip(sides).enumerate() {
        let (from, to) = (corners[side], corners[(side + 1) % corners.len()]);
        let dot = (0..2).map(|axis| (point[axis] - from[axis]) * (to[axis] - from[axis])).sum::<f64>();
        let share = (dot / (long * long)).clamp(0.0, 1.0);
        let off = apart(point, between(from, to, share));
        if off < best.0 {
            best = (off, start + share * long, side);
        }
    }
    (best.1, best.2)
}

#[cfg(test)]
mod tests {
    use super::super::super::standing::Wood;
    use super::*;
    use crate::units::{Density, Length, Pressure};

    /// A square of 4 m whose first side is parted in its middle, with one seat on that side.
    fn parted(seat: f64) -> Stops {
        let plan = |x: f64, y: f64| [x, y].map(Length::m);
        let beam = Beam {
            line: [[0.0, 0.0], [2.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]].map(|[x, y]| plan(x, y)).to_vec(),
            width: Length::mm(200.0),
            height: Length::mm(100.0),
            layers: 2,
            wood: Wood { young: Pressure::mpa(1e4), shear: Pressure::mpa(650.0), density: Density::kg_m3(500.0) },
            seats: vec![plan(seat, 0.0)],
            anchors: Vec::new(),
        };
        Stops::of(&beam, false)
    }

    #[test]
    fn a_corner_just_beside_a_seat_is_taken_there_and_one_farther_off_stays() {
        for (seat, count) in [(1.981, 5), (1.995, 5), (2.005, 5), (2.019, 5), (1.979, 6), (2.021, 6)] {
            let stops = parted(seat);
            assert_eq!(stops.at.len(), count, "{seat}");
            assert!((stops.at[stops.seats[0]][0] - seat).abs() < 1e-12, "{seat}: the seat keeps its place");
            // What follows the parting is the second side.
            let after = stops.along.iter().position(|along| *along >= 2.0_f64.min(seat) - 1e-9).unwrap();
            assert_eq!(stops.side[after], if count == 6 && seat < 2.0 { 0 } else { 1 }, "{seat}");
        }
    }

    #[test]
    fn a_seat_just_beside_the_first_corner_has_a_stop_of_its_own() {
        let stops = parted(0.01);
        assert_eq!((stops.at.len(), stops.along[0]), (6, 0.0));
    }
}
