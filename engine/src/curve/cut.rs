//! What an opening through a wall, or a niche into one of its faces, takes out of it.

use kurbo::Vec2;

use super::along::Along;
use super::form::{Form, angle, over_angles};
use super::line::{PlanLine, Station};
use super::shape::{Jamb, Shape, Side};
use crate::solve::quadrature::integral;

/// How far a cut goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Depth {
    /// Through both faces. Inside of the crease, at this distance outside of the line in the frame of the cut, the first and
    /// the second jamb run apart by so many metres for each metre at the greatest width, and in proportion where the
    /// form is narrower.
    Through {
        /// y of the crease, in metres.
        crease: f64,
        /// Splay of the jamb behind and of the jamb ahead.
        splay: [f64; 2],
    },
    /// Into one face, to a flat bottom square to the axis.
    Into {
        /// The face.
        side: Side,
        /// y of the bottom, in metres.
        bottom: f64,
    },
}

/// An opening or a niche: its middle on the line, the form it has there, how far it goes. Its frame has x along the line, y
/// to the outside, z up; the jambs are level lines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// Its middle.
    pub station: Station,
    /// Its form, outside of the crease.
    pub form: Form,
    /// How far it goes.
    pub depth: Depth,
}

impl Cut {
    /// A level cut straight through, as wide inside as outside.
    #[must_use]
    pub fn straight(station: Station, form: Form) -> Cut {
        Cut { station, form, depth: Depth::Through { crease: 0.0, splay: [0.0; 2] } }
    }

    /// The jambs behind and ahead, at a level in metres.
    #[must_use]
    pub fn jambs(&self, level: f64) -> [Jamb; 2] {
        let half = self.form.half_at(level);
        let (crease, splay) = match self.depth {
            // A lintel is as long inside as outside.
            Depth::Through { crease, .. } if half > self.form.half() => (crease, [0.0; 2]),
            Depth::Through { crease, splay } => (crease, splay.map(|splay| splay * half / self.form.half())),
            Depth::Into { .. } => (0.0, [0.0; 2]),
        };
        [Jamb { x: -half, crease, splay: -splay[0] }, Jamb { x: half, crease, splay: splay[1] }]
    }

    /// From where to where it cuts a face at a level: distances along the line, in metres, the second past the length of a
    /// closed line where it lies across its start, the first below 0 never; `None` where a jamb never meets the face.
    #[must_use]
    pub fn stretch(&self, shape: &Shape<'_>, side: Side, level: f64) -> Option<[f64; 2]> {
        let [behind, ahead] = self.jambs(level);
        let from = shape.meeting(side, self.station, behind, level)?;
        let to = shape.meeting(side, self.station, ahead, level)?;
        Some(if from < 0.0 && shape.line.is_closed() {
            [from + shape.line.length(), to + shape.line.length()]
        } else {
            [from, to]
        })
    }

    /// From where to where the line itself lies between the jambs at a level, as [`Cut::stretch`].
    #[must_use]
    pub fn on_line(&self, line: &PlanLine, level: f64) -> Option<[f64; 2]> {
        self.stretch(&Shape { line, thickness: &Along::even(0.0), lean: [0.0; 2] }, Side::Outer, level)
    }

    /// The pieces of the line that it touches at either face, at the foot of the wall or its own, by place.
    #[must_use]
    pub fn touches(&self, shape: &Shape<'_>) -> Vec<usize> {
        let level = self.form.widest_above(0.0);
        let mut touched: Vec<usize> = [Side::Inner, Side::Outer]
            .into_iter()
            .filter_map(|side| self.stretch(shape, side, level))
            .flat_map(|stretch| shape.line.pieces_between(stretch))
            .collect();
        touched.sort_unstable();
        touched.dedup();
        touched
    }

    /// From where to where along the line it reaches at either face, in metres, at its foot or at its widest and at its top; its
    /// own middle where it meets none.
    #[must_use]
    pub fn reach(&self, shape: &Shape<'_>) -> [f64; 2] {
        let middle = shape.line.along_line(self.station);
        let levels = [self.form.bottom().max(0.0), self.form.widest_above(0.0), self.form.top()];
        let stretches = levels.into_iter().flat_map(|level| {
            [Side::Inner, Side::Outer].into_iter().filter_map(move |side| self.stretch(shape, side, level))
        });
        // What lies across the start of a closed line is counted on from its middle, as the middle is.
        let turned = stretches.map(|[from, to]| {
            let turn = ((middle - from.midpoint(to)) / shape.line.length()).round() * shape.line.length();
            [from + turn, to + turn]
        });
        turned.fold([middle; 2], |[low, high], [from, to]| [low.min(from), high.max(to)])
    }

    /// Plan area that it takes out at a level, in m²; 0 above and below it.
    ///
    /// ```text
    /// A = −∮ y dx, round the part of the wall between the jambs
    /// ```
    /// Source: Green's theorem. Exact for straight runs and arcs of even thickness, else by Gauss-Legendre.
    #[must_use]
    pub fn area(&self, shape: &Shape<'_>, level: f64) -> f64 {
        self.try_area(shape, level).unwrap_or(0.0)
    }

    fn try_area(&self, shape: &Shape<'_>, level: f64) -> Option<f64> {
        let under = |side: Side| -> Option<f64> {
            Some(shape.under(side, self.station, self.stretch(shape, side, level)?, level))
        };
        match self.depth {
            Depth::Through { .. } => {
                let [behind, ahead] = self.jambs(level);
                let sides = self.jamb_area(shape, behind, level)? - self.jamb_area(shape, ahead, level)?;
                Some(under(Side::Outer)? - under(Side::Inner)? + sides)
            }
            Depth::Into { side: Side::Inner, bottom } => {
                Some(2.0 * self.form.half_at(level) * bottom - under(Side::Inner)?)
            }
            Depth::Into { side: Side::Outer, bottom } => {
                Some(under(Side::Outer)? - 2.0 * self.form.half_at(level) * bottom)
            }
        }
    }

    /// ∫ y dx along a jamb from the inner to the outer face.
    fn jamb_area(&self, shape: &Shape<'_>, jamb: Jamb, level: f64) -> Option<f64> {
        if jamb.splay == 0.0 {
            return Some(0.0);
        }
        let [inner, outer] = self.jamb_depths(shape, jamb, level)?;
        let (low, high) = (inner.min(jamb.crease), outer.min(jamb.crease));
        Some(0.5 * (low + high) * (jamb.at(high) - jamb.at(low)))
    }

    /// y at which a jamb meets the inner and the outer face at a level, in metres.
    #[must_use]
    pub fn jamb_depths(&self, shape: &Shape<'_>, jamb: Jamb, level: f64) -> Option<[f64; 2]> {
        let right = -self.station.axis.turn_90();
        let depth = |side: Side| -> Option<f64> {
            let along = shape.meeting(side, self.station, jamb, level)?;
            Some((shape.point(side, along, level) - self.station.point).dot(right))
        };
        Some([depth(Side::Inner)?, depth(Side::Outer)?])
    }

    /// Volume that it takes out between two levels, in m³.
    ///
    /// ```text
    /// V = ∫ A(z) dz
    /// ```
    /// Source: volume by parallel sections.
    #[must_use]
    pub fn volume(&self, shape: &Shape<'_>, from: f64, to: f64) -> f64 {
        self.form.over_levels(from, to, |level| self.area(shape, level))
    }

    /// Area of a face that it takes out between two levels, in m².
    #[must_use]
    pub fn face(&self, shape: &Shape<'_>, side: Side, from: f64, to: f64) -> f64 {
        self.form.over_levels(from, to, |level| {
            self.stretch(shape, side, level).map_or(0.0, |stretch| shape.face_strip(side, stretch, level))
        })
    }

    /// Area of the jambs and of the arch between two levels, in m².
    ///
    /// ```text
    /// S = ∫∫ √(1 + k² + m²) dy dz        k: slope of the jamb in plan, m: of the outline seen along the axis
    /// ```
    /// Source: area of a surface x(y, z), any textbook of vector calculus.
    #[must_use]
    pub fn sides(&self, shape: &Shape<'_>, from: f64, to: f64) -> f64 {
        let [low, high] = [from.max(self.form.bottom()), to.min(self.form.top())];
        let spring = self.form.spring();
        let upright = if low < high.min(spring) {
            integral(low, high.min(spring), |level| self.girth(shape, level, [0.0, 1.0]))
        } else {
            0.0
        };
        let Some([radius, middle]) = self.form.circle().filter(|_| low.max(spring) < high) else { return upright };
        upright
            + over_angles([low.max(spring), high].map(|level| angle(level, [radius, middle])), |angle| {
                self.girth(shape, middle + radius * angle.sin(), [-radius * angle.sin(), radius * angle.cos()])
            })
    }

    /// Depth of both jambs at a level, stretched by how half width and level go on: [dh, dz].
    fn girth(&self, shape: &Shape<'_>, level: f64, [dh, dz]: [f64; 2]) -> f64 {
        let greatest = self.form.half();
        let one = |jamb: Jamb| -> f64 {
            let Some([inner, outer]) = self.jamb_depths(shape, jamb, level) else { return 0.0 };
            let [inner, outer] = match self.depth {
                Depth::Through { .. } => [inner, outer],
                Depth::Into { side: Side::Inner, bottom } => [inner, bottom.max(inner)],
                Depth::Into { side: Side::Outer, bottom } => [bottom.min(outer), outer],
            };
            let crease = jamb.crease.clamp(inner, outer);
            let whole_splay = match self.depth {
                Depth::Through { splay, .. } => {
                    if jamb.x < 0.0 {
                        splay[0]
                    } else {
                        splay[1]
                    }
                }
                Depth::Into { .. } => 0.0,
            };
            let straight = (outer - crease) * dh.hypot(dz);
            let splayed = integral(inner, crease, |y| {
                let widened = dh * (1.0 + whole_splay * (jamb.crease - y) / greatest);
                (dz * dz * (1.0 + jamb.splay * jamb.splay) + widened * widened).sqrt()
            });
            straight + splayed
        };
        self.jambs(level).map(one).iter().sum()
    }
}

impl Shape<'_> {
    /// ∫ y dx along a face between two distances along the line, at a level, in the frame of a station; metres and m².
    #[must_use]
    pub fn under(&self, side: Side, station: Station, stretch: [f64; 2], level: f64) -> f64 {
        let right = -station.axis.turn_90();
        self.over_pieces(stretch, |piece, [from, to], start| {
            if self.thickness.is_even() {
                let part = self.line.pieces()[piece].part(from, to).offset(self.offset(side, 0.0, level));
                return part.area_under(station.point, station.axis);
            }
            integral(from, to, |along| {
                let (point, tangent) = self.on_face(side, piece, along, start, level);
                (point - station.point).dot(right) * tangent.dot(station.axis)
            })
        })
    }

    /// Area of a face between two distances along the line for each metre of level, in m.
    ///
    /// ```text
    /// dS/dz = ∫ √((1 + κ n)² (1 + b²) + n′²) ds        n: offset of the face, b: its lean, κ: curvature of the line
    /// ```
    /// Source: area of a parametric surface, any textbook of vector calculus.
    #[must_use]
    pub fn face_strip(&self, side: Side, stretch: [f64; 2], level: f64) -> f64 {
        let lean = 1.0_f64.hypot(self.lean[usize::from(side == Side::Outer)]);
        self.over_pieces(stretch, |piece, [from, to], start| {
            let on = &self.line.pieces()[piece];
            if self.thickness.is_even() {
                return lean * (to - from) * (1.0 + on.curvature() * self.offset(side, 0.0, level));
            }
            integral(from, to, |along| {
                let scale = 1.0 + on.curvature() * self.offset(side, start + along, level);
                (lean * scale).hypot(self.widening(side, start + along))
            })
        })
    }

    /// Sum over the pieces of the line, and the stretches of even change of thickness, between two distances along it.
    pub fn over_pieces(&self, [from, to]: [f64; 2], mut part: impl FnMut(usize, [f64; 2], f64) -> f64) -> f64 {
        let whole = self.line.length();
        let pieces = self.line.pieces();
        let mut piece = self.line.at(from).piece;
        let mut start = if self.line.is_closed() { (from / whole).floor() * whole } else { 0.0 };
        let mut sum = 0.0;
        loop {
            let begin = start + self.line.start(piece);
            let [low, high] = [from.max(begin), to.min(begin + pieces[piece].length())];
            if low < high {
                let mut last = low;
                let knots = self.thickness.breaks().map(|knot| knot + start);
                for knot in knots.filter(|knot| low < *knot && *knot < high) {
                    sum += part(piece, [last - begin, knot - begin], begin - start);
                    last = knot;
                }
                sum += part(piece, [last - begin, high - begin], begin - start);
            }
            piece += 1;
            if piece == pieces.len() && self.line.is_closed() {
                (piece, start) = (0, start + whole);
            }
            if piece == pieces.len() || start + self.line.start(piece) >= to {
                return sum;
            }
        }
    }

    /// The place of a face and its tangent for each metre along the line.
    fn on_face(&self, side: Side, piece: usize, along: f64, start: f64, level: f64) -> (kurbo::Point, Vec2) {
        let on = &self.line.pieces()[piece];
        let axis = on.direction(along);
        let normal = -axis.turn_90();
        let offset = self.offset(side, start + along, level);
        let tangent = axis * (1.0 + on.curvature() * offset) + normal * self.widening(side, start + along);
        (on.at(along) + normal * offset, tangent)
    }
}

#[cfg(test)]
mod tests;
