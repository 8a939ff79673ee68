//! What a notch leaves of a round pole.

use std::f64::consts::PI;

use crate::solve::frame::Section;

/// The section of a round pole of diameter `d` cut flat to a depth `a`, square to its upright plane.
///
/// ```text
/// cos θ = 1 − a/R,  A = π R² − R² (θ − sin θ cos θ),  e = 2 R³ sin³θ / (3 A)
/// Iz = π R⁴/4 − R⁴ (θ − sin θ cos θ + 2 sin³θ cos θ)/4 − A e²,  Iy = π R⁴/4 − R⁴ (3 θ − 3 sin θ cos θ − 2 sin³θ cos θ)/12
/// J = A⁴ / (4 π² (Iy + Iz))
/// ```
/// Circular segment, elementary geometry; J as that of an ellipse of the same area and polar second moment (Saint-Venant's
/// approximation, from memory), exact for a: 0.
pub(super) fn left(diameter: f64, depth: f64) -> Section {
    let radius = 0.5 * diameter;
    let half_angle = (1.0 - depth / radius).acos();
    let (sine, cosine) = half_angle.sin_cos();
    let cube = sine.powi(3);
    let cut = half_angle - sine * cosine;
    let area = radius * radius * (PI - cut);
    let aside = 2.0 * radius.powi(3) * cube / (3.0 * area);
    let fourth = radius.powi(4);
    let about_z = fourth * (PI - cut - 2.0 * cube * cosine) / 4.0 - area * aside * aside;
    let about_y = fourth * (PI / 4.0 - (3.0 * cut - 2.0 * cube * cosine) / 12.0);
    let twist = area.powi(4) / (4.0 * PI * PI * (about_y + about_z));
    Section::Even { area, about_y, about_z, twist }
}

/// Half the length of the cut along a pole: where the other pole, of diameter `d`, goes in to the depth `a` at an angle φ.
///
/// ```text
/// l/2 = √(a (d − a)) / sin φ
/// ```
pub(super) fn half_length(depth: f64, other: f64, sine: f64) -> f64 {
    (depth * (other - depth)).max(0.0).sqrt() / sine
}

#[cfg(test)]
mod tests {
    use super::*;

    fn constants(diameter: f64, depth: f64) -> [f64; 4] {
        let all = left(diameter, depth).at(0.0);
        [all.area, all.about_y, all.about_z, all.twist]
    }

    #[test]
    fn no_cut_leaves_the_round_section() {
        let whole = Section::Round { first: 0.16, last: 0.16 }.at(0.0);
        for (left, round) in constants(0.16, 0.0).iter().zip([whole.area, whole.about_y, whole.about_z, whole.twist]) {
            assert!((left / round - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn a_cut_to_the_middle_leaves_the_half_circle() {
        // Half circle, R = 1: A = π/2, I about its diameter π/8, about its own middle π/8 − 8/(9π), across π/8; from memory.
        let [area, about_y, about_z, _] = constants(2.0, 1.0);
        assert!((area - PI / 2.0).abs() < 1e-12 && (about_y - PI / 8.0).abs() < 1e-12);
        assert!((about_z - (PI / 8.0 - 8.0 / (9.0 * PI))).abs() < 1e-12);
    }

    #[test]
    fn the_segment_is_the_sum_of_its_strips() {
        let (radius, depth, strips) = (0.08_f64, 0.03, 200_000);
        let height = (2.0 * radius - depth) / f64::from(strips);
        let strip = |number: i32| {
            let up = -radius + height * (f64::from(number) + 0.5);
            let wide = 2.0 * (radius * radius - up * up).sqrt();
            [wide * height, wide * height * up, wide * height * up * up, height * wide.powi(3) / 12.0]
        };
        let mut sums = [0.0; 4];
        for number in 0..strips {
            strip(number).iter().zip(&mut sums).for_each(|(own, sum)| *sum += own);
        }
        let [area, about_y, about_z, _] = constants(2.0 * radius, depth);
        let told = [sums[0], sums[3], sums[2] - sums[1] * sums[1] / sums[0]];
        for (own, told) in [area, about_y, about_z].iter().zip(told) {
            assert!((own / told - 1.0).abs() < 1e-6, "{own} {told}");
        }
    }
}
