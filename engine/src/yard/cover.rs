//! The sheet over the bare top of a wall: how large, and what holds it down in a gust.

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Area, Density, Force, Length, Mass, Pressure, Speed, SurfaceMass};

formula! {
    /// Width of the sheet: over the top and down both faces.
    ///
    /// ```text
    /// w = t′ + 2 lap        t′: thickness of the wall at its top
    /// ```
    /// Source: a section through the wall.
    pub fn cover_width(top_thickness: Length, lap: Length) -> Length {
        top_thickness + lap * 2.0
    }
}

formula! {
    /// Sheet over the whole wall at its top, before sheets lie over each other.
    ///
    /// ```text
    /// S = l w
    /// ```
    /// Source: a strip of even width.
    pub fn cover_area(length: Length, width: Length) -> Area {
        length * width
    }
}

formula! {
    /// Whole sheets, each lapped over the one before.
    ///
    /// ```text
    /// n = l / (a − o) × (w − o) / (b − o), each rounded up        a, b: sides of a sheet, o: overlap
    /// ```
    /// Source: each sheet gains its size less an overlap; round a wall the last lies over the first.
    pub fn cover_sheets(length: Length, width: Length, sheet_length: Length, sheet_width: Length, overlap: Length) -> u64 {
        let along = rounded_up(length / (sheet_length - overlap)).max(1);
        along * rounded_up((width - overlap) / (sheet_width - overlap)).max(1)
    }
}

formula! {
    /// Battens on the top of the wall, under the sheet.
    ///
    /// ```text
    /// n = l / s, rounded up
    /// ```
    /// Source: gaps between equal battens.
    pub fn battens(length: Length, spacing: Length) -> u64 {
        rounded_up(length / spacing).max(1)
    }
}

formula! {
    /// Pressure of a gust.
    ///
    /// ```text
    /// q = ½ ρ v²        ρ: density of the air
    /// ```
    /// Source: Bernoulli's equation, the form that ASCE 7 and EN 1991-1-4 use, from memory.
    pub fn gust_pressure(gust: Speed, air: Density) -> Pressure {
        Pressure::pa(0.5 * air.in_kg_m3() * gust.in_m_s() * gust.in_m_s())
    }
}

formula! {
    /// Force with which a gust lifts the sheet.
    ///
    /// ```text
    /// F = q c S        c: coefficient of suction
    /// ```
    /// Source: the definition of the coefficient.
    pub fn uplift(pressure: Pressure, coefficient: f64, area: Area) -> Force {
        pressure * area * coefficient
    }
}

formula! {
    /// Ballast that holds the sheet, or what ties to pegs must hold instead.
    ///
    /// ```text
    /// m = s F / g − m′ S        s: safety, m′: mass of the sheet on each area; not below 0
    /// ```
    /// Source: weight against lift.
    pub fn ballast(uplift: Force, safety: f64, weight: SurfaceMass, area: Area) -> Mass {
        let lifted = Mass::kg(uplift.in_kgf() * safety);
        (lifted - weight * area).max(Mass::ZERO)
    }
}

formula! {
    /// Filled bags.
    ///
    /// ```text
    /// n = m / m bag, rounded up
    /// ```
    /// Source: equal bags.
    pub fn bags(ballast: Mass, bag: Mass) -> u64 {
        rounded_up(ballast / bag)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gust_of_24_metres_in_a_second_presses_with_353_pascals() {
        let pressure = gust_pressure(Speed::m_s(24.0), Density::kg_m3(1.226)).value;
        assert!((pressure.in_pa() - 0.613 * 576.0).abs() < 1e-9);
    }

    #[test]
    fn sheets_lie_over_each_other_all_round() {
        let sheets = |length: f64, width: f64| {
            let [sheet_length, sheet_width, overlap] = [6.3, 1.8, 0.3].map(Length::m);
            cover_sheets(Length::m(length), Length::m(width), sheet_length, sheet_width, overlap).value
        };
        assert_eq!(sheets(18.0, 1.5), 3);
        assert_eq!(sheets(18.01, 1.5), 4);
        assert_eq!(sheets(18.0, 1.9), 6);
    }

    #[test]
    fn ballast_weighs_more_than_the_lift_by_the_safety() {
        let force = Force::kgf(100.0);
        let ballast = ballast(force, 1.5, SurfaceMass::kg_m2(0.5), Area::m2(20.0)).value;
        assert!((ballast - Mass::kg(140.0)).abs() < Mass::kg(1e-9));
        assert_eq!(bags(ballast, Mass::kg(20.0)).value, 7);
    }
}
