//! The section of a round pole: whole, with a flat seat cut into it, and with a hole for a bolt bored square to the seat.

use std::f64::consts::PI;

use crate::reason::formula;
use crate::units::{Area, Length, SecondMoment, SectionModulus};

formula! {
    /// Area of the section of a round pole.
    ///
    /// ```text
    /// A = π d² / 4
    /// ```
    /// Source: area of a circle.
    pub fn round_area(diameter: Length) -> Area {
        diameter * diameter * (PI / 4.0)
    }
}

formula! {
    /// Section modulus of a round pole, by which it resists bending.
    ///
    /// ```text
    /// W = π d³ / 32
    /// ```
    /// Source: second moment of a circle, over its radius.
    pub fn round_modulus(diameter: Length) -> SectionModulus {
        SectionModulus::m3(PI / 32.0 * diameter.in_m().powi(3))
    }
}

formula! {
    /// Second moment of area of a round pole, by which it resists sagging.
    ///
    /// ```text
    /// I = π d⁴ / 64
    /// ```
    /// Source: second moment of a circle.
    pub fn round_second_moment(diameter: Length) -> SecondMoment {
        SecondMoment::m4(PI / 64.0 * diameter.in_m().powi(4))
    }
}

formula! {
    /// Width of a flat seat cut into a round pole.
    ///
    /// ```text
    /// b = 2 √(a (d − a))        a: depth of the seat
    /// ```
    /// Source: chord of a circle.
    pub fn seat_width(diameter: Length, seat_depth: Length) -> Length {
        Length::m(2.0 * (seat_depth * (diameter - seat_depth)).in_m2().sqrt())
    }
}

formula! {
    /// Depth of a flat seat of a wanted width.
    ///
    /// ```text
    /// a = (d − √(d² − b²)) / 2
    /// ```
    /// Source: chord of a circle.
    pub fn seat_depth(diameter: Length, seat_width: Length) -> Length {
        (diameter - Length::m((diameter * diameter - seat_width * seat_width).in_m2().sqrt())) * 0.5
    }
}

formula! {
    /// What is left of the section of a pole with a flat seat and a bolt hole square to it, through the middle.
    ///
    /// ```text
    /// A = ∫ dA        over the circle, less the segment above the seat, less the strip of the hole
    /// ```
    /// Source: area of a circular segment and of a strip of a circle, in closed form.
    pub fn net_area(diameter: Length, seat_depth: Length, hole: Length) -> Area {
        Area::m2(Net::of(diameter, seat_depth, hole).area)
    }
}

formula! {
    /// How far the middle of what is left lies off the axis of the pole, towards the seat; below zero away from it.
    ///
    /// ```text
    /// y = ∫ y dA / A
    /// ```
    /// Source: first moment of a circular segment and of a strip of a circle, in closed form.
    pub fn net_centroid(diameter: Length, seat_depth: Length, hole: Length) -> Length {
        let net = Net::of(diameter, seat_depth, hole);
        Length::m(net.first / net.area)
    }
}

formula! {
    /// Second moment of what is left of a pole, about the axis along the seat through its own middle.
    ///
    /// ```text
    /// I = ∫ y² dA − A y₀²        y₀: from the axis of the pole to the middle of what is left
    /// ```
    /// Source: second moment of a circular segment and of a strip of a circle, in closed form; Steiner's theorem.
    pub fn net_second_moment(diameter: Length, seat_depth: Length, hole: Length) -> SecondMoment {
        let net = Net::of(diameter, seat_depth, hole);
        SecondMoment::m4(net.second - net.first * net.first / net.area)
    }
}

formula! {
    /// Second moment of what is left of a pole, about the axis square to the seat.
    ///
    /// ```text
    /// I = ∫ x² dA
    /// ```
    /// Source: second moment of a circular segment and of a strip of a circle, in closed form.
    pub fn net_second_moment_sideways(diameter: Length, seat_depth: Length, hole: Length) -> SecondMoment {
        SecondMoment::m4(Net::of(diameter, seat_depth, hole).sideways)
    }
}

formula! {
    /// Least section modulus of what is left of a pole, bent so that the seat lies above or below.
    ///
    /// ```text
    /// W = I / max(r − a − y₀, r + y₀)        r: radius, a: depth of the seat
    /// ```
    /// Source: the definition of the section modulus, at the edge farther from the middle.
    pub fn net_modulus(diameter: Length, seat_depth: Length, hole: Length) -> SectionModulus {
        let inertia = net_second_moment(diameter, seat_depth, hole).value;
        let off = net_centroid(diameter, seat_depth, hole).value;
        let radius = diameter * 0.5;
        inertia / (radius - seat_depth - off).max(radius + off)
    }
}

formula! {
    /// Section modulus of what is left of a pole, bent sideways, along the seat.
    ///
    /// ```text
    /// W = 2 I / w        w: greatest width: the diameter, or that of the seat where it is cut past the axis
    /// ```
    /// Source: the definition of the section modulus.
    pub fn net_modulus_sideways(diameter: Length, seat_depth: Length, hole: Length) -> SectionModulus {
        let inertia = net_second_moment_sideways(diameter, seat_depth, hole).value;
        let past = seat_depth > diameter * 0.5;
        let width = if past { seat_width(diameter, seat_depth).value } else { diameter };
        inertia / (width * 0.5)
    }
}

formula! {
    /// Width of the strongest rectangular beam that can be sawn from a log.
    ///
    /// ```text
    /// b = d / √3
    /// ```
    /// Source: greatest b h² in a circle; the inscribed rectangle by which ASTM D3957 grades a log.
    pub fn sawn_width(diameter: Length) -> Length {
        diameter / 3.0_f64.sqrt()
    }
}

formula! {
    /// Depth of the strongest rectangular beam that can be sawn from a log.
    ///
    /// ```text
    /// h = d √(2/3)
    /// ```
    /// Source: greatest b h² in a circle; the inscribed rectangle by which ASTM D3957 grades a log.
    pub fn sawn_depth(diameter: Length) -> Length {
        diameter * (2.0_f64 / 3.0).sqrt()
    }
}

formula! {
    /// Share of the section modulus of a log that the strongest beam sawn from it keeps.
    ///
    /// ```text
    /// W′ / W = (b h² / 6) / (π d³ / 32)
    /// ```
    /// Source: greatest b h² in a circle; the inscribed rectangle by which ASTM D3957 grades a log.
    pub fn sawn_share(diameter: Length) -> crate::units::Ratio {
        let sawn = rectangle_modulus(sawn_width(diameter).value, sawn_depth(diameter).value).value;
        crate::units::Ratio::fraction(sawn / round_modulus(diameter).value)
    }
}

formula! {
    /// Section modulus of a rectangle.
    ///
    /// ```text
    /// W = b h² / 6
    /// ```
    /// Source: second moment of a rectangle, over half its depth.
    pub fn rectangle_modulus(width: Length, depth: Length) -> SectionModulus {
        SectionModulus::m3(width.in_m() * depth.in_m().powi(2) / 6.0)
    }
}

formula! {
    /// Second moment of area of a rectangle.
    ///
    /// ```text
    /// I = b h³ / 12
    /// ```
    /// Source: second moment of a rectangle.
    pub fn rectangle_second_moment(width: Length, depth: Length) -> SecondMoment {
        SecondMoment::m4(width.in_m() * depth.in_m().powi(3) / 12.0)
    }
}

/// Area and moments about the axes of the pole, in metres.
struct Net {
    area: f64,
    /// ∫ y dA, y towards the seat.
    first: f64,
    /// ∫ y² dA.
    second: f64,
    /// ∫ x² dA.
    sideways: f64,
}

impl Net {
    fn of(diameter: Length, seat_depth: Length, hole: Length) -> Net {
        let (r, a, g) = (0.5 * diameter.in_m(), seat_depth.in_m(), 0.5 * hole.in_m());
        let circle = Net { area: PI * r * r, first: 0.0, second: PI * r.powi(4) / 4.0, sideways: PI * r.powi(4) / 4.0 };
        let seat = Net::segment(r, a);
        let below = Net::half_strip(r, g);
        // Where the hole is wider than the seat it takes the whole segment with it.
        let above = if g * g <= a * (2.0 * r - a) { Net::rectangle(g, r - a) } else { below.mirrored().less(&seat) };
        circle.less(&seat).less(&below).less(&above)
    }

    /// The segment of depth `a` cut off a circle at its top.
    fn segment(r: f64, a: f64) -> Net {
        let half = ((r - a) / r).clamp(-1.0, 1.0).acos();
        let (sin, cos) = half.sin_cos();
        let cube = sin.powi(3);
        Net {
            area: r * r * (half - sin * cos),
            first: 2.0 / 3.0 * r.powi(3) * cube,
            second: r.powi(4) / 4.0 * (half - sin * cos + 2.0 * cube * cos),
            sideways: r.powi(4) / 12.0 * (3.0 * half - 3.0 * sin * cos - 2.0 * cube * cos),
        }
    }

    /// The strip of half width `g` from the lower arc up to the level through the middle.
    fn half_strip(r: f64, g: f64) -> Net {
        let angle = (g / r).clamp(-1.0, 1.0).asin();
        let height = (r * r - g * g).sqrt();
        Net {
            area: g * height + r * r * angle,
            first: -(r * r * g - g.powi(3) / 3.0),
            second: (g * (5.0 * r * r - 2.0 * g * g) * height + 3.0 * r.powi(4) * angle) / 12.0,
            sideways: r.powi(4) / 4.0 * (angle - (4.0 * angle).sin() / 4.0),
        }
    }

    /// The strip of half width `g` from the level through the middle up to a flat top at `top`, below the middle if negative.
    fn rectangle(g: f64, top: f64) -> Net {
        Net {
            area: 2.0 * g * top,
            first: g * top * top,
            second: 2.0 * g * top.powi(3) / 3.0,
            sideways: 2.0 * g.powi(3) * top / 3.0,
        }
    }

    fn mirrored(&self) -> Net {
        Net { first: -self.first, ..*self }
    }

    fn less(&self, part: &Net) -> Net {
        Net {
            area: self.area - part.area,
            first: self.first - part.first,
            second: self.second - part.second,
            sideways: self.sideways - part.sideways,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The same by summing thin squares.
    fn summed(d: f64, a: f64, hole: f64) -> [f64; 4] {
        const COUNT: u32 = 1_500;
        let (r, step) = (d / 2.0, d / f64::from(COUNT));
        let at = |index: u32| -r + (f64::from(index) + 0.5) * step;
        let mut sums = [0.0; 4];
        for (x, y) in (0..COUNT).flat_map(|i| (0..COUNT).map(move |j| (at(i), at(j)))) {
            if x * x + y * y <= r * r && y <= r - a && x.abs() >= hole / 2.0 {
                for (sum, part) in sums.iter_mut().zip([1.0, y, y * y, x * x]) {
                    *sum += part * step * step;
                }
            }
        }
        sums
    }

    #[test]
    fn a_section_with_seat_and_hole_agrees_with_the_sum_of_small_squares() {
        // No seat, a shallow seat narrower than the hole, a seat wider than it, one cut past the axis.
        for (a, hole) in [(0.0, 0.0), (0.0, 0.02), (0.0005, 0.03), (0.02, 0.018), (0.09, 0.02)] {
            let net = Net::of(Length::m(0.15), Length::m(a), Length::m(hole));
            let sums = summed(0.15, a, hole);
            for (found, expected) in [net.area, net.first, net.second, net.sideways].into_iter().zip(sums) {
                assert!((found - expected).abs() < 3e-3 * expected.abs() + 1e-8, "{a} {hole}: {found} {expected}");
            }
        }
    }

    #[test]
    fn a_whole_pole_is_the_same_both_ways() {
        let (d, none) = (Length::mm(150.0), Length::ZERO);
        let near = |found: f64, expected: f64| assert!((found / expected - 1.0).abs() < 1e-12, "{found} {expected}");
        near(net_area(d, none, none).value.in_m2(), round_area(d).value.in_m2());
        near(net_modulus(d, none, none).value.in_m3(), round_modulus(d).value.in_m3());
        near(net_modulus_sideways(d, none, none).value.in_m3(), round_modulus(d).value.in_m3());
        near(net_second_moment(d, none, none).value.in_m4(), round_second_moment(d).value.in_m4());
    }

    #[test]
    fn no_other_rectangle_in_a_log_is_stronger() {
        let log = Length::mm(150.0);
        let strongest = rectangle_modulus(sawn_width(log).value, sawn_depth(log).value).value;
        for share in 1..100 {
            let width = log * (f64::from(share) / 100.0);
            let depth = Length::m((log * log - width * width).in_m2().sqrt());
            assert!(rectangle_modulus(width, depth).value.in_m3() <= strongest.in_m3() * (1.0 + 1e-12));
        }
    }

    #[test]
    fn the_depth_of_a_seat_gives_its_width_back() {
        let width = seat_width(Length::mm(150.0), Length::mm(20.0)).value;
        assert!((seat_depth(Length::mm(150.0), width).value.in_mm() - 20.0).abs() < 1e-9);
    }
}
