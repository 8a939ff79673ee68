//! A brick crushed at home under a lever: the force on it, how far friction and a crooked seat blur it, what it stores.

use crate::reason::formula;
use crate::units::{Force, Length, Mass, Moment, Pressure};

formula! {
    /// Force on the brick under a lever.
    ///
    /// ```text
    /// F = g (m b + m′ c) / a        m: what hangs at b from the pin, m′: beam, its middle at c, a: from pin to brick
    /// ```
    /// Source: moments about the pin.
    pub fn lever_force(
        hung: Mass, hung_arm: Length, beam: Mass, beam_arm: Length, brick_arm: Length, gravity: f64
    ) -> Force {
        let moment = hung.in_kg() * hung_arm.in_m() + beam.in_kg() * beam_arm.in_m();
        Force::n(gravity * moment / brick_arm.in_m())
    }
}

formula! {
    /// Force that friction in the pin may add or take.
    ///
    /// ```text
    /// ΔF = μ d R / 2 a        d: diameter of the pin, R: what it holds, the force on the brick less what hangs and the beam
    /// ```
    /// Source: a pin that slips; moments about it.
    pub fn pin_friction(friction: f64, pin: Length, brick_arm: Length, pin_force: Force) -> Force {
        let slip: Moment = pin_force.abs() * (pin * 0.5);
        Force::n(friction * slip.in_n_m() / brick_arm.in_m())
    }
}

formula! {
    /// What the pin of a lever holds down: the force on the brick less all that weighs on the beam.
    ///
    /// ```text
    /// R = F − g (m + m′)        m: what hangs, m′: beam
    /// ```
    /// Source: balance of upright forces.
    pub fn pin_force(force: Force, hung: Mass, beam: Mass, gravity: f64) -> Force {
        force - Force::n(gravity * (hung + beam).in_kg())
    }
}

formula! {
    /// Force on a brick under a lever, whichever way the pin rubs.
    ///
    /// ```text
    /// F − ΔF
    /// ```
    /// Source: the lesser of both ends of the band.
    pub fn certain_force(force: Force, friction: Force) -> Force {
        force - friction
    }
}

formula! {
    /// Stress at the edge of a brick that is pressed beside its middle.
    ///
    /// ```text
    /// σ = F / (b d) (1 + 6 e / d)        up to e = d/6;  σ = 2 F / (3 b (d/2 − e)) beyond, where the far edge lifts
    /// ```
    /// Source: straight spread of stress in a section that bears no pull, elementary statics.
    pub fn at_the_edge(load: Force, width: Length, depth: Length, beside_middle: Length) -> Pressure {
        let (b, d, e) = (width.in_m(), depth.in_m(), beside_middle.abs().in_m());
        let shape = if e <= d / 6.0 { (1.0 + 6.0 * e / d) / (b * d) } else { 2.0 / (3.0 * b * (0.5 * d - e)) };
        Pressure::pa(load.in_n() * shape)
    }
}

formula! {
    /// Work that beam and what hangs can do when the brick gives way: they fall until the block under the beam stops them.
    ///
    /// ```text
    /// E = F h        F: force on the brick, h: what the beam falls over the brick
    /// ```
    /// Source: elementary mechanics; moments about the pin turn both weights into the force on the brick.
    pub fn stored(force: Force, drop: Length) -> Moment {
        force * drop
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stress_at_the_edge_grows_without_a_step_where_the_far_edge_lifts() {
        let edge = |e: f64| at_the_edge(Force::kn(10.0), Length::m(0.1), Length::m(0.12), Length::m(e)).value.in_pa();
        assert!((edge(0.0) - 10_000.0 / 0.012).abs() < 1e-6);
        assert!((edge(0.02) / edge(0.0) - 2.0).abs() < 1e-12);
        assert!((edge(0.02 + 1e-9) / edge(0.02) - 1.0).abs() < 1e-6);
    }

    /// By hand: 40 kg fall 0.8 m, a beam of 9 kg at 1.3 m from the pin 0.1 · 1.3 / 0.3 m, under 9.80665 m/s².
    #[test]
    fn the_beam_falls_with_what_hangs_from_it() {
        let kilos = Mass::kg;
        let force = lever_force(kilos(40.0), Length::m(2.4), kilos(9.0), Length::m(1.3), Length::m(0.3), 9.80665).value;
        let found = stored(force, Length::m(0.1)).value.in_n_m();
        assert!((found - (313.812_8 + 38.245_935)).abs() < 1e-6, "{found}");
    }

    /// By hand: 0.3 · 0.01 m · 3000 N about the pin, over 0.3 m.
    #[test]
    fn a_pin_that_holds_three_kilonewtons_blurs_the_force_by_thirty_newtons() {
        for held in [3000.0, -3000.0] {
            let found = pin_friction(0.3, Length::m(0.02), Length::m(0.3), Force::n(held)).value.in_n();
            assert!((found - 30.0).abs() < 1e-9, "{found}");
        }
    }

    #[test]
    fn moments_about_the_pin_balance() {
        let kilos = Mass::kg;
        let force = lever_force(kilos(40.0), Length::m(2.4), kilos(9.0), Length::m(1.3), Length::m(0.3), 9.80665).value;
        assert!((force.in_n() * 0.3 - 9.80665 * (40.0 * 2.4 + 9.0 * 1.3)).abs() < 1e-9);
    }
}
