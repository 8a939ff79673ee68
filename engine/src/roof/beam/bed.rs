//! A timber on an earth wall: how the earth beneath bears it where a pole presses.

use crate::reason::formula;
use crate::units::{Angle, Force, Length, Pressure, Ratio, SecondMoment};

formula! {
    /// How stiff the earth bears a beam: newtons on each metre of it for each metre by which it sinks.
    ///
    /// ```text
    /// k = 0.65 ¹²√(Eₛ b⁴ / (E I)) Eₛ / (1 − ν²)        Eₛ, ν: of the earth, E I: of the beam, b: its width
    /// ```
    /// Source: Vesic, Bending of beams resting on isotropic elastic solid, 1961, for a beam on ground as wide as one likes; the top
    /// of a wall is narrower and gives more, which lengthens the stretch that bears by its fourth root.
    pub fn bed_stiffness(
        earth: Pressure, width: Length, stiffness: Pressure, second_moment: SecondMoment; poisson: f64
    ) -> Pressure {
        let beam = stiffness.in_pa() * second_moment.in_m4();
        earth * (0.65 * (earth.in_pa() * width.in_m().powi(4) / beam).powf(1.0 / 12.0) / (1.0 - poisson * poisson))
    }
}

formula! {
    /// Length over which a beam hands a load on to the earth beneath, about as far to either side.
    ///
    /// ```text
    /// L = ⁴√(4 E I / k)        k: how stiff the earth bears it
    /// ```
    /// Source: Hetényi, Beams on Elastic Foundation, 1946, from memory.
    pub fn elastic_length(bed: Pressure, stiffness: Pressure, second_moment: SecondMoment) -> Length {
        Length::m((4.0 * stiffness.in_pa() * second_moment.in_m4() / bed.in_pa()).powf(0.25))
    }
}

formula! {
    /// How far off the middle of a beam a pole presses on the earth beneath, since it thrusts at the top.
    ///
    /// ```text
    /// e = H h / F        H: thrust across the beam, h: its height
    /// ```
    /// Source: equilibrium of the beam beneath its seat; what it hands on by its twist is left out.
    pub fn off_middle(thrust: Force, height: Length, force: Force) -> Length {
        height * (thrust / force)
    }
}

formula! {
    /// Greatest pressure on the earth under the edge of a beam beneath a pole.
    ///
    /// ```text
    /// p = F / (2 L b) (1 + 6 e / b) up to e = b/6, F / (3 L (b/2 − e)) from there on        e: off the middle, b: width
    /// ```
    /// Source: Hetényi, Beams on Elastic Foundation, 1946, from memory; pressure under a load off the middle without tension.
    pub fn bed_pressure(force: Force, elastic: Length, width: Length, off: Length) -> Pressure {
        let (even, share) = (force / (elastic * width * 2.0), off.abs() / width);
        if share <= 1.0 / 6.0 { even * (1.0 + 6.0 * share) } else { even * (2.0 / (3.0 * (0.5 - share))) }
    }
}

formula! {
    /// How far off the middle of a beam a load falls, of half its width: above one it falls outside.
    ///
    /// ```text
    /// u = 2 e / b        e: off the middle, b: width
    /// ```
    /// Source: equilibrium of the beam beneath its seat; what its twist hands on is left out.
    pub fn off_share(off: Length, width: Length) -> Ratio {
        Ratio::fraction(off * 2.0 / width)
    }
}

formula! {
    /// Width of a beam off whose middle a load falls as far as a rule lets it.
    ///
    /// ```text
    /// b = 2 e / u        e: off the middle, u: how far the rule lets it fall, of half the width
    /// ```
    /// Source: the definition of the share; how much it may be, the rule of the code says.
    pub fn width_needed(off: Length, limit: Ratio) -> Length {
        off * (2.0 / limit.in_fraction())
    }
}

formula! {
    /// How far off the middle of a beam a pole presses on the earth beneath when its foot is about to slip: no thrust is greater.
    ///
    /// ```text
    /// e = h tan φ        h: height of the beam, φ: angle of friction of the foot on it
    /// ```
    /// Source: Coulomb's friction; equilibrium of the beam beneath its seat.
    pub fn off_at_slip(friction: Angle, height: Length) -> Length {
        height * friction.in_rad().tan()
    }
}

formula! {
    /// Share of the friction under a beam that is used when a foot on it is about to slip.
    ///
    /// ```text
    /// u = tan φ / tan φ′        φ: angle of friction of the foot on the beam, φ′: of the beam on the earth
    /// ```
    /// Source: Coulomb's friction; the earth bears what the foot presses, and the beam's own weight besides, which is left out.
    pub fn slip_share(friction: Angle, under_beam: Angle) -> Ratio {
        Ratio::fraction(friction.in_rad().tan() / under_beam.in_rad().tan())
    }
}

formula! {
    /// Push of a foot on the beam, and of the beam on the top of the wall: the thrust of a foot that does not give, or that at which it
    /// slips where that is less.
    ///
    /// ```text
    /// H = min(H′, F tan φ)        H′: thrust across the beam of a foot that is held, F: what it presses, φ: angle of friction
    /// ```
    /// Source: Coulomb's friction.
    pub fn foot_push(friction: Angle; thrust: Force, force: Force) -> Force {
        thrust.abs().min(force * friction.in_rad().tan())
    }
}

formula! {
    /// Pressure on the earth under a beam beneath a pole, once the earth has given a little where it was pressed most.
    ///
    /// ```text
    /// p = F / ((b − 2 e) (f + 2 h))        b, h: width and height of the beam, e: off its middle, f: length on which the pole bears
    /// ```
    /// Source: Meyerhof's width that bears, from memory; through the planks the load spreads by one in one, common practice.
    pub fn eased_pressure(width: Length, height: Length; force: Force, flat: Length, off: Length) -> Pressure {
        force / ((width - off * 2.0) * (flat + height * 2.0))
    }
}

formula! {
    /// Share of what bricks of the cob bore that a pressure uses.
    ///
    /// ```text
    /// u = p / R        p: pressure on the earth, R: least strength of the bricks that were crushed
    /// ```
    /// Source: the one over the other; how much of it may be used, a rule says.
    pub fn earth_used(pressure: Pressure, strength: Pressure) -> Ratio {
        Ratio::fraction(pressure / strength)
    }
}

/// Moment and greatest force across at a distance from the middle of a load of one that lies over a width, in metres.
///
/// ```text
/// m = L/4 exp(−x/L) (cos x/L − sin x/L),  v = 1/2 exp(−x/L) cos x/L        of a load at one place, both summed over the width
/// ```
/// Hetényi, Beams on Elastic Foundation, 1946, from memory: uniform loading over a part of a beam without end. Over the width itself
/// the force across counts as at its edge.
pub(super) fn beside(distance: f64, elastic: f64, wide: f64) -> [f64; 2] {
    let faded = |far: f64| (-far / elastic).exp();
    let (sine, cosine) = (|far: f64| (far / elastic).sin(), |far: f64| (far / elastic).cos());
    if wide <= POINT {
        let bent = 0.25 * elastic * faded(distance) * (cosine(distance) - sine(distance));
        return [bent, 0.5 * faded(distance) * cosine(distance)];
    }
    let half = 0.5 * wide;
    let bent = |far: f64| 0.25 * elastic * elastic * faded(far) * sine(far);
    let sheared = |far: f64| 0.25 * elastic * faded(far) * (sine(far) - cosine(far));
    let edge = distance.max(half);
    let moment = if distance < half {
        bent(half - distance) + bent(half + distance)
    } else {
        bent(distance + half) - bent(distance - half)
    };
    [moment / wide, (sheared(edge + half) - sheared(edge - half)) / wide]
}

/// A load narrower than this acts at one place, in metres.
const POINT: f64 = 1e-4;
