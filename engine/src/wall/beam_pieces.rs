//! How a part of the bond beam is divided: straight pieces that hold to its curve, or fewer that are sawn to it.

use crate::curve::Chain;
use crate::reason::formula;
use crate::solve::whole::rounded_down;
use crate::units::{Angle, Length};

/// What a bond beam is made of, as far as it bounds a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timber {
    /// Width of the beam.
    pub width: Length,
    /// The longest timber as it comes.
    pub piece: Length,
    /// Length of the lap from one piece to the next.
    pub scarf: Length,
    /// How far a straight piece may leave the curve.
    pub fit: Length,
    /// Planks that lie on each other.
    pub layers: u64,
}

/// The middle of a part of the bond beam.
#[derive(Clone, Copy, Debug)]
pub enum Middle<'a> {
    /// Straight, this long.
    Straight(Length),
    /// An arc.
    Arc {
        /// Along the middle.
        length: Length,
        /// Of the middle.
        radius: Length,
    },
    /// Of any shape, measured as it lies.
    Measured(&'a Chain),
}

/// How the pieces of a part are made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Made {
    /// Straight, their ends cut to a bevel.
    Straight,
    /// Sawn to the curve.
    Sawn,
}

/// The pieces of a part in one layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Division {
    /// How many, all as long along the middle.
    pub pieces: u64,
    /// How they are made.
    pub made: Made,
}

impl Timber {
    /// The same where the top slopes so that lengths in plan grow so many times: the longest is shorter in plan.
    #[must_use]
    pub fn on_slope(self, grows: f64) -> Timber {
        if grows > 1.0 {
            Timber { piece: super::timber_in_plan(self.piece, self.scarf, grows).value, ..self }
        } else {
            self
        }
    }

    /// The least distance from joint to joint along the middle: a scarf; two where joints of the next layer stand between.
    #[must_use]
    pub fn joints_apart(&self) -> Length {
        if self.layers > 1 { 2.0 * self.scarf } else { self.scarf }
    }

    /// The pieces of a part; none where there are none that hold joints far enough apart out of timber that is long enough.
    #[must_use]
    pub fn division(&self, middle: Middle<'_>) -> Option<Division> {
        let most = rounded_down(middle.length() / self.joints_apart());
        let longest = self.piece - self.scarf + Length::m(NEARLY);
        let worst = |pieces: u64| middle.worst(pieces, self.width);
        let holds = |worst: Worst| worst.mitred <= longest && worst.height <= self.fit + Length::m(NEARLY);
        if let Some(pieces) = (1..=most).find(|&pieces| holds(worst(pieces))) {
            return Some(Division { pieces, made: Made::Straight });
        }
        (most > 0 && worst(most).sawn <= longest).then_some(Division { pieces: most, made: Made::Sawn })
    }
}

/// What binary fractions round, in metres.
const NEARLY: f64 = 1e-9;

impl Middle<'_> {
    /// Length along the middle.
    #[must_use]
    pub fn length(&self) -> Length {
        match self {
            Middle::Straight(length) | Middle::Arc { length, .. } => *length,
            Middle::Measured(chain) => Length::m(chain.length()),
        }
    }

    fn worst(&self, pieces: u64, width: Length) -> Worst {
        match self {
            Middle::Straight(length) => {
                let each = *length / pieces as f64;
                Worst { mitred: each, sawn: each, ..Worst::NOTHING }
            }
            Middle::Arc { length, radius } => Worst::of_arc(*length, *radius, pieces, width),
            Middle::Measured(chain) => Worst::of_chain(chain, pieces, width),
        }
    }
}

/// The largest measures of any of the pieces of a part, its ends cut square to its middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Worst {
    /// Length of a straight piece along its longer edge.
    pub(super) mitred: Length,
    /// Length of a sawn piece from corner to corner.
    pub(super) sawn: Length,
    /// Height of the middle over the chord.
    pub(super) height: Length,
    /// Angle of an end from square to the chord.
    pub(super) bevel: Angle,
}

/// 1 less the cosine of half the angle of one piece at the centre.
pub(super) fn rise(length: Length, radius: Length, pieces: u64) -> f64 {
    let quarter = length / (4.0 * pieces as f64 * radius);
    2.0 * quarter.sin() * quarter.sin()
}

impl Worst {
    const NOTHING: Worst = Worst { mitred: Length::ZERO, sawn: Length::ZERO, height: Length::ZERO, bevel: Angle::ZERO };

    pub(super) fn of_arc(length: Length, radius: Length, pieces: u64, width: Length) -> Worst {
        let half = length / (2.0 * pieces as f64 * radius);
        let chord = 2.0 * radius * half.sin();
        Worst {
            mitred: chord + width * half.tan(),
            sawn: chord + width * half.sin(),
            height: radius * rise(length, radius, pieces),
            bevel: Angle::rad(half),
        }
    }

    fn of_chain(chain: &Chain, pieces: u64, width: Length) -> Worst {
        let each = chain.length() / pieces as f64;
        (0..pieces).fold(Worst::NOTHING, |worst, place| {
            let one = Worst::of_one(chain, [place, place + 1].map(|joint| joint as f64 * each), width);
            Worst {
                mitred: worst.mitred.max(one.mitred),
                sawn: worst.sawn.max(one.sawn),
                height: worst.height.max(one.height),
                bevel: if one.bevel > worst.bevel { one.bevel } else { worst.bevel },
            }
        })
    }

    /// The measures of the piece between two distances along a chain, in metres.
    fn of_one(chain: &Chain, joints: [f64; 2], width: Length) -> Worst {
        let [start, end] = joints.map(|along| chain.at(along));
        let chord = end - start;
        let along = chord.normalize();
        let bevels = joints.map(|at| along.cross(chain.direction(at)).atan2(along.dot(chain.direction(at))).abs());
        let edge = |by: fn(f64) -> f64| Length::m(chord.hypot()) + 0.5 * width * bevels.map(by).iter().sum::<f64>();
        let far = chain.part(joints[0], joints[1]).into_iter().flat_map(|piece| piece.farthest(along.turn_90()));
        let height = far.map(|point| along.cross(point - start).abs()).fold(0.0, f64::max);
        Worst {
            mitred: edge(f64::tan),
            sawn: edge(f64::sin),
            height: Length::m(height),
            bevel: Angle::rad(bevels[0].max(bevels[1])),
        }
    }
}

formula! {
    /// Length along its middle of a part of the bond beam that is divided into pieces.
    ///
    /// A run or a corner too short for a piece of its own is joined to the longer of those beside it, or takes of them what it
    /// lacks.
    ///
    /// ```text
    /// l = Σ lᵢ − Σ a        a: what a short one beside it takes, its half or all of k s − l′
    /// s: length of a scarf, l′: length of the short one, k: 1 for one layer, 2 for more
    /// ```
    /// Source: the sum of its parts.
    pub fn part_length(; length: Length) -> Length {
        length
    }
}

formula! {
    /// Length along its middle of a part of the bond beam that is as long as one piece must be, with what it takes of the parts
    /// beside it.
    ///
    /// ```text
    /// l = k s        s: length of a scarf, k: 1 for one layer; 2 for more, each second one with its joints between
    /// ```
    /// Source: a joint stands a scarf from the next one, common practice, no source.
    pub fn lengthened(scarf: Length, layers: u64; length: Length) -> Length {
        length
    }
}

formula! {
    /// Pieces in one layer over a part of changing curvature, all as long along the middle of the beam.
    ///
    /// ```text
    /// n: the least for which no straight piece leaves the middle by more than f, nor is longer along its edge than p − s
    /// where then l / n < k s:  n = l / (k s), rounded down, each sawn to the curve
    /// f: how far a piece may leave the curve, p: longest timber, s: length of a scarf
    /// k: 1 for one layer; 2 for more, each second one with its joints over the middles of the pieces below
    /// ```
    /// Source: measured from joint to joint, piece by piece; exact for straight runs and arcs.
    pub fn measured_pieces(
        length: Length, width: Length, piece: Length, scarf: Length, fit: Length, layers: u64; pieces: u64
    ) -> u64 {
        pieces
    }
}

formula! {
    /// Length to which the longest straight piece of such a part is cut: along its edge, from bevel to bevel, its scarf with it.
    ///
    /// ```text
    /// c = max(a + ½ w (tan β₁ + tan β₂)) + s        a: chord, β: bevels of its ends from square
    /// ```
    /// Source: measured from joint to joint, piece by piece; exact for straight runs and arcs.
    pub fn measured_cut(length: Length, pieces: u64, width: Length, scarf: Length; middle: &Chain) -> Length {
        Worst::of_chain(middle, pieces, width).mitred + scarf
    }
}

formula! {
    /// Length to which a plank is cut for the longest sawn piece of such a part: from corner to corner, its scarf with it.
    ///
    /// ```text
    /// c = max(a + ½ w (sin β₁ + sin β₂)) + s        a: chord, β: angles from square to the chord of its ends
    /// ```
    /// Source: measured from joint to joint, piece by piece; exact for straight runs and arcs.
    pub fn measured_sawn_cut(length: Length, pieces: u64, width: Length, scarf: Length; middle: &Chain) -> Length {
        Worst::of_chain(middle, pieces, width).sawn + scarf
    }
}

formula! {
    /// The largest bevel of an end of the pieces of such a part, from square.
    ///
    /// ```text
    /// β = max ∠(chord, middle of the beam at the joint)
    /// ```
    /// Source: measured from joint to joint, piece by piece; exact for straight runs and arcs.
    pub fn measured_bevel(length: Length, pieces: u64; middle: &Chain) -> Angle {
        Worst::of_chain(middle, pieces, Length::ZERO).bevel
    }
}

formula! {
    /// The largest height of the middle of the beam over the chord of a piece of such a part.
    ///
    /// ```text
    /// f = max (distance of the middle from the chord)
    /// ```
    /// Source: measured from joint to joint, piece by piece; exact for straight runs and arcs.
    pub fn measured_sagitta(length: Length, pieces: u64; middle: &Chain) -> Length {
        Worst::of_chain(middle, pieces, Length::ZERO).height
    }
}

formula! {
    /// Width of a plank out of which any piece of such a part can be sawn to the curve.
    ///
    /// ```text
    /// w′ = w + f        f: largest height of the middle over the chord
    /// ```
    /// Source: parallel lines; the hollow edge at the ends of a piece lies nearer to its chord, so a little less would do.
    pub fn measured_plank(width: Length, sagitta: Length) -> Length {
        width + sagitta
    }
}

#[cfg(test)]
mod tests {
    use kurbo::Point;

    use super::*;
    use crate::curve::Piece;

    const TIMBER: Timber =
        Timber { width: Length::m(0.2), piece: Length::m(3.0), scarf: Length::m(0.4), fit: Length::m(0.02), layers: 1 };

    fn turned(degrees: f64, radius: f64) -> Middle<'static> {
        Middle::Arc { length: Length::m(radius * degrees.to_radians()), radius: Length::m(radius) }
    }

    #[test]
    fn straight_pieces_leave_a_curve_by_no_more_than_is_allowed() {
        // Six pieces of a circle of 2 m leave it by 0.267 949 m, and are 0.515 470 m shorter than their outer edge is long.
        let ring = turned(360.0, 2.0);
        for (fit, pieces) in [(0.267_95, 6), (0.267_94, 7)] {
            let timber = Timber { fit: Length::m(fit), ..TIMBER };
            assert_eq!(timber.division(ring), Some(Division { pieces, made: Made::Straight }));
        }
    }

    #[test]
    fn the_outer_edge_of_a_piece_with_its_scarf_is_no_longer_than_the_timber() {
        // The outer edge of one of six is 2 + 0.2 tan 30° = 2.115 470 m long.
        let ring = turned(360.0, 2.0);
        for (piece, pieces) in [(2.515_48, 6), (2.515_46, 7)] {
            let timber = Timber { fit: Length::m(0.3), piece: Length::m(piece), ..TIMBER };
            assert_eq!(timber.division(ring), Some(Division { pieces, made: Made::Straight }));
        }
    }

    #[test]
    fn pieces_shorter_than_their_joints_ask_for_are_fewer_and_sawn() {
        // A quarter of a circle of 0.637 m is 1.000 597 m long: straight it takes four of 250 mm.
        let corner = turned(90.0, 0.637);
        let timber = |scarf: f64, layers| Timber { scarf: Length::mm(scarf), layers, ..TIMBER };
        let straight = Some(Division { pieces: 4, made: Made::Straight });
        assert_eq!(timber(250.0, 1).division(corner), straight);
        assert_eq!(timber(251.0, 1).division(corner), Some(Division { pieces: 3, made: Made::Sawn }));
        // With joints of the next layer between, those of one layer are two scarfs apart.
        assert_eq!(timber(125.0, 2).division(corner), straight);
        assert_eq!(timber(126.0, 2).division(corner), Some(Division { pieces: 3, made: Made::Sawn }));
        // Shorter than one piece must be, it has none.
        assert_eq!(timber(1001.0, 1).division(corner), None);
        assert_eq!(timber(1000.0, 1).division(corner), Some(Division { pieces: 1, made: Made::Sawn }));
    }

    #[test]
    fn two_pieces_over_a_straight_and_an_arc_are_measured_from_joint_to_joint() {
        // Half a metre along x, then 60° to the left round (0.5, 1): the joint lies on the arc, at (0.770 198, 0.037 195).
        let (corner, centre) = (Point::new(0.5, 0.0), Point::new(0.5, 1.0));
        let end = Point::new(0.5 + 0.75_f64.sqrt(), 0.5);
        let pieces = vec![Piece::straight(Point::ORIGIN, corner), Piece::short_arc(corner, centre, end)];
        let middle = Chain::of(pieces).unwrap();
        let [length, width] = [Length::m(middle.length()), Length::mm(200.0)];
        // The first: chord 0.771 096 m, bevels 2.7648° and 12.9112°; the second: chord 0.754 452 m, both 22.1620°.
        let first = Worst::of_one(&middle, [0.0, 0.5 * middle.length()], width);
        assert!((first.mitred.in_m() - 0.798_849).abs() < 5e-7, "{first:?}");
        assert!((first.sawn.in_m() - 0.798_263).abs() < 5e-7, "{first:?}");
        assert!((first.height.in_m() - 0.025_283).abs() < 5e-7, "{first:?}");
        let longest = measured_cut(length, 2, width, Length::mm(300.0), &middle).value.in_m();
        assert!((longest - 1.135_916).abs() < 5e-7, "{longest}");
        assert!((measured_bevel(length, 2, &middle).value.in_deg() - 22.1620).abs() < 5e-5);
    }
}
