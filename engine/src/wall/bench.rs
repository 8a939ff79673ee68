//! A seat of cob along a face of the wall: its front upright at one distance from the wall line, its back the wall.

use crate::curve::{Shape, Side};
use crate::reason::formula;
use crate::solve::quadrature::integral;
use crate::units::{Area, Length, Slope, Volume};

/// A bench as it stands, in metres.
#[derive(Clone, Copy, Debug)]
pub struct Bench<'a> {
    /// The wall behind it, above level 0.
    pub shape: Shape<'a>,
    /// The face that it stands against.
    pub side: Side,
    /// From where to where along the line; the second may lie past the start of a closed line.
    pub stretch: [f64; 2],
    /// Offset of its front to the right of the line.
    pub front: f64,
    /// Offset of the face of the stem wall, which is its back below level 0.
    pub stem: f64,
    /// Levels of the floor or ground that it stands on, and of its seat.
    pub levels: [f64; 2],
}

impl Bench<'_> {
    /// Offset of its back at a distance along the line and a level, in metres.
    #[must_use]
    pub fn back(&self, along: f64, level: f64) -> f64 {
        if level < 0.0 { self.stem } else { self.shape.offset(self.side, along, level) }
    }

    /// Integral of a quantity over its levels, stem wall and cob behind it apart.
    fn over_levels(&self, mut of: impl FnMut(f64) -> f64) -> f64 {
        let [foot, seat] = self.levels;
        [[foot, seat.min(0.0)], [foot.max(0.0), seat]]
            .into_iter()
            .filter(|[from, to]| from < to)
            .map(|[from, to]| integral(from, to, &mut of))
            .sum()
    }

    /// Plan area between back and front at a level, in m².
    #[must_use]
    pub fn area_at(&self, level: f64) -> f64 {
        self.shape.over_pieces(self.stretch, |piece, [from, to], start| {
            let curvature = self.shape.line.pieces()[piece].curvature();
            integral(from, to, |along| {
                let back = self.back(start + along, level);
                let [low, high] = [self.front.min(back), self.front.max(back)];
                (high - low) * (1.0 + 0.5 * curvature * (high + low))
            })
        })
    }

    fn front_length(&self) -> f64 {
        self.shape.over_pieces(self.stretch, |piece, [from, to], _| {
            (to - from) * (1.0 + self.shape.line.pieces()[piece].curvature() * self.front)
        })
    }
}

formula! {
    /// Volume of a bench.
    ///
    /// ```text
    /// V = ∫∫∫ (1 + κ n) dn ds dz, from its back to its front, along the wall, from the floor to the seat
    /// n: distance from the wall line, κ: curvature of the wall line
    /// back: the face of the wall above the foot of the cob, the face of the stem wall below it
    /// ```
    /// Source: volume element along a plane curve; exact for straight runs and arcs.
    pub fn bench_volume(depth: Length, seat: Length; bench: &Bench<'_>) -> Volume {
        Volume::m3(bench.over_levels(|level| bench.area_at(level)))
    }
}

formula! {
    /// Area of the front of a bench.
    ///
    /// ```text
    /// S = h ∫ (1 + κ n) ds        n: distance of the front from the wall line, h: height of the seat
    /// ```
    /// Source: length of a parallel curve, differential geometry of plane curves.
    pub fn bench_front(seat: Length; bench: &Bench<'_>) -> Area {
        seat * Length::m(bench.front_length())
    }
}

formula! {
    /// Area of the seat of a bench.
    ///
    /// ```text
    /// S = ∫∫ (1 + κ n) dn ds, from the face of the wall to the front
    /// ```
    /// Source: area element along a plane curve; exact for straight runs and arcs.
    pub fn bench_top(depth: Length; bench: &Bench<'_>) -> Area {
        Area::m2(bench.area_at(bench.levels[1]))
    }
}

formula! {
    /// Area of the two ends of a bench.
    ///
    /// ```text
    /// S = 2 ∫ d(z) dz        d(z): from the back to the front at height z
    /// ```
    /// Source: area of a trapezium, the stem wall and the cob behind it apart.
    pub fn bench_ends(depth: Length, seat: Length; bench: &Bench<'_>) -> Area {
        let end = |along: f64| bench.over_levels(|level| (bench.front - bench.back(along, level)).abs());
        Area::m2(bench.stretch.into_iter().map(end).sum())
    }
}

formula! {
    /// Area of the face of the wall that a bench covers.
    ///
    /// ```text
    /// S = √(1 + b²) ∫ l(z) dz, from the foot of the cob to the seat        l(z): length of the face, b: batter
    /// ```
    /// Source: area of a leaning strip along a curve, integrated over the height.
    pub fn bench_covers(batter: Slope, seat: Length; bench: &Bench<'_>) -> Area {
        let [foot, seat] = bench.levels;
        let [from, to] = [foot.max(0.0), seat.max(0.0)];
        Area::m2(integral(from, to, |level| bench.shape.face_strip(bench.side, bench.stretch, level)))
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use kurbo::Point;

    use super::*;
    use crate::curve::{Along, PlanLine, Vertex, Way};

    #[test]
    fn a_bench_in_a_ring_is_a_sector_between_two_circles_even_across_the_start_of_the_line() {
        let vertex =
            |x: f64, y: f64| Vertex { at: Point::new(x, 0.0), round: 0.5, way: Way::Through(Point::new(0.0, y)) };
        let line = PlanLine::closed(&[vertex(2.0, 2.0), vertex(-2.0, -2.0)]).unwrap();
        let thickness = Along::even(0.4);
        let shape = Shape { line: &line, thickness: &thickness, lean: [0.1, 0.0] };
        let whole = line.length();
        for stretch in [[0.5, 1.5], [whole - 0.5, whole + 0.5]] {
            let bench = Bench { shape, side: Side::Inner, stretch, front: -0.6, stem: -0.25, levels: [-0.1, 0.3] };
            let sector = |outer: f64, inner: f64| 0.5 * (outer * outer - inner * inner) / 2.0;
            // The face leans from a radius of 1.8 at the foot of the cob to 1.83 at the seat.
            let mean_of_squares = (1.8 * 1.8 + 1.8 * 1.83 + 1.83 * 1.83) / 3.0;
            let cob = 0.3 * 0.25 * (mean_of_squares - 1.4 * 1.4);
            let volume = bench_volume(Length::m(0.43), Length::m(0.4), &bench).value.in_m3();
            assert!((volume - cob - 0.1 * sector(1.75, 1.4)).abs() < 1e-14, "{volume}");
            let front = bench_front(Length::m(0.4), &bench).value.in_m2();
            assert!((front - 0.4 * 1.4 / 2.0).abs() < 1e-14, "{front}");
            assert!((bench_top(Length::m(0.43), &bench).value.in_m2() - sector(1.83, 1.4)).abs() < 1e-14);
            let ends = bench_ends(Length::m(0.43), Length::m(0.4), &bench).value.in_m2();
            assert!((ends - 2.0 * (0.1 * 0.35 + 0.3 * 0.415)).abs() < 1e-14, "{ends}");
        }
        let half =
            Bench { shape, side: Side::Outer, stretch: [0.0, 0.5 * whole], front: 0.7, stem: 0.2, levels: [0.0, 0.4] };
        let volume = bench_volume(Length::m(0.5), Length::m(0.4), &half).value.in_m3();
        assert!((volume - 0.4 * 0.5 * PI * (2.7 * 2.7 - 2.2 * 2.2)).abs() < 1e-13, "{volume}");
    }
}
