//! Whether soil slides on the sheet under it, and how hard it pushes on the edge board and the tails of the rafters.
//!
//! A strip of soil from eye to eave, as long as the slope: its weight pulls it down the slope, friction on the sheet holds it,
//! water under pressure takes a part of that friction away, battens take up some of the push.

use super::layers::STANDARD_GRAVITY_M_S2;
use crate::reason::formula;
use crate::units::{Angle, Density, Length, LineLoad, Pressure, Ratio};

formula! {
    /// Safety of soil against sliding down its sheet: what holds over what pulls.
    ///
    /// ```text
    /// FS = tan δ / tan β        δ: friction of soil on sheet, β: pitch
    /// ```
    /// Source: an endless slope on a plane, any textbook of soil mechanics.
    pub fn slide_safety(friction: Angle, pitch: Angle) -> f64 {
        friction.in_rad().tan() / pitch.in_rad().tan()
    }
}

formula! {
    /// Safety of soil against sliding down its sheet when water stands in it and flows along the slope.
    ///
    /// ```text
    /// FS = (1 − m ρ′ / ρ) tan δ / tan β        m: share of the depth under water, ρ′: of water, ρ: of wet soil
    /// ```
    /// Source: an endless slope with seepage along it, any textbook of soil mechanics.
    pub fn wet_slide_safety(friction: Angle, pitch: Angle, under_water: Ratio, water: Density, soil: Density) -> f64 {
        let left = 1.0 - under_water.in_fraction() * (water / soil);
        left * friction.in_rad().tan() / pitch.in_rad().tan()
    }
}

formula! {
    /// Safety of soil against sliding with battens across the slope.
    ///
    /// ```text
    /// FS = FS₀ + R / (s q sin β)        FS₀: without battens, R: what a batten holds on each metre, s: between battens on the slope,
    ///                                  q: weight on each area of slope
    /// ```
    /// Source: equilibrium along the slope of the soil between two battens.
    pub fn batten_slide_safety(
        without_battens: f64, batten_holds: LineLoad, spacing: Length, weight: Pressure, pitch: Angle
    ) -> f64 {
        without_battens + batten_holds / (weight * spacing * pitch.in_rad().sin())
    }
}

formula! {
    /// Pull of the soil down its slope, on each area of slope.
    ///
    /// ```text
    /// t = q sin β        q: weight on each area of slope
    /// ```
    /// Source: the part of a weight along a slope.
    pub fn downhill_pull(weight: Pressure, pitch: Angle) -> Pressure {
        weight * pitch.in_rad().sin()
    }
}

formula! {
    /// Push down the slope into the edge board and the tails that carry it, on each metre of eave, when the friction is let down
    /// by a wanted safety.
    ///
    /// On a round roof the strips widen towards the eave; there the push is more than of an even strip by the share of the widths.
    ///
    /// ```text
    /// P = q L sin β (1 − FS / s)        L: soil along the slope, s: safety wanted of the friction; not below 0
    /// ```
    /// Source: equilibrium along the slope of an even strip of soil.
    pub fn edge_push(weight: Pressure, slope_length: Length, pitch: Angle, safety: f64, wanted: f64) -> LineLoad {
        weight * slope_length * (pitch.in_rad().sin() * (1.0 - safety / wanted).max(0.0))
    }
}

formula! {
    /// Push into the edge board with no friction at all: the bound that a soaked, greased or frozen sheet cannot pass.
    ///
    /// ```text
    /// P = q L sin β
    /// ```
    /// Source: equilibrium along the slope of an even strip of soil.
    pub fn edge_push_without_friction(weight: Pressure, slope_length: Length, pitch: Angle) -> LineLoad {
        weight * slope_length * pitch.in_rad().sin()
    }
}

formula! {
    /// Push of ponded water on each metre of the edge board.
    ///
    /// ```text
    /// P = ½ ρ g h²        h: height of the water at the board
    /// ```
    /// Source: pressure of still water.
    pub fn water_push(height: Length, water: Density) -> LineLoad {
        LineLoad::n_m(0.5 * water.in_kg_m3() * STANDARD_GRAVITY_M_S2 * height.in_m().powi(2))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn soil_on_a_sheet_as_steep_as_its_friction_just_holds_and_water_takes_that_away() {
        let slope = Angle::deg(18.0);
        assert!((slide_safety(slope, slope).value - 1.0).abs() < 1e-12);
        let wet = |share| {
            let (water, soil) = (Density::kg_m3(1000.0), Density::kg_m3(2000.0));
            wet_slide_safety(slope, slope, Ratio::fraction(share), water, soil).value
        };
        assert!((wet(0.0) - 1.0).abs() < 1e-12 && (wet(1.0) - 0.5).abs() < 1e-12);
    }

    #[test]
    fn what_the_edge_must_hold_is_nothing_where_the_friction_has_its_safety_and_all_without_friction() {
        let (weight, slope, pitch) = (Pressure::kpa(2.0), Length::m(3.0), Angle::deg(18.0));
        let push = |safety: f64| edge_push(weight, slope, pitch, safety, 1.5).value;
        assert_eq!(push(1.5), LineLoad::ZERO);
        assert_eq!(push(2.0), LineLoad::ZERO);
        let all = edge_push_without_friction(weight, slope, pitch).value;
        assert!((push(0.0) - all).abs() < LineLoad::n_m(1e-9));
        assert!((all.in_kn_m() - 6.0 * 18.0_f64.to_radians().sin()).abs() < 1e-12);
    }

    #[test]
    fn battens_that_hold_the_whole_pull_add_one_to_the_safety() {
        let (weight, pitch, apart) = (Pressure::kpa(2.0), Angle::deg(18.0), Length::m(0.6));
        let all = downhill_pull(weight, pitch).value * apart;
        assert!((batten_slide_safety(1.1, all, apart, weight, pitch).value - 2.1).abs() < 1e-12);
    }
}
