//! How much water makes the fine part of a soil flow or crumble, and what it is called by that.

use crate::earth::tables::number;
use crate::reason::formula;
use crate::units::Ratio;

formula! {
    /// Plasticity index: the span of moisture in which the fine part can be shaped.
    ///
    /// ```text
    /// PI = LL − PL        LL: moisture at which it flows, PL: at which a thread of 3 mm crumbles, both of dry mass
    /// ```
    /// Source: ASTM D4318, from memory.
    pub fn plasticity_index(liquid_limit: Ratio, plastic_limit: Ratio) -> Ratio {
        liquid_limit - plastic_limit
    }
}

formula! {
    /// A-line: clays lie above it, silts below.
    ///
    /// ```text
    /// PI = 0.73 (LL − 20 %)
    /// ```
    /// Source: ASTM D2487, quoted.
    pub fn a_line(liquid_limit: Ratio) -> Ratio {
        Ratio::percent(number("a-line-slope") * (liquid_limit.in_percent() - number("a-line-foot")))
    }
}

formula! {
    /// U-line: no natural soil has been found above it; a point there says that a test went wrong.
    ///
    /// ```text
    /// PI = 0.9 (LL − 8 %)
    /// ```
    /// Source: ASTM D2487, quoted.
    pub fn u_line(liquid_limit: Ratio) -> Ratio {
        Ratio::percent(number("u-line-slope") * (liquid_limit.in_percent() - number("u-line-foot")))
    }
}

formula! {
    /// How far a soil lies above the A-line; below zero it is silt.
    ///
    /// ```text
    /// e = PI − PI A
    /// ```
    /// Source: ASTM D2487, the chart, quoted.
    pub fn over_the_a_line(index: Ratio, on_the_line: Ratio) -> Ratio {
        index - on_the_line
    }
}

formula! {
    /// How far a soil lies below the U-line.
    ///
    /// ```text
    /// e = PI U − PI
    /// ```
    /// Source: ASTM D2487, the chart, quoted.
    pub fn under_the_u_line(on_the_line: Ratio, index: Ratio) -> Ratio {
        on_the_line - index
    }
}

formula! {
    /// Moisture of the part under 0.425 mm, when sand and stones hold none of the water.
    ///
    /// Limits are measured on that part alone: the moisture of the whole soil against them says a soil is stiff that is
    /// about to flow.
    ///
    /// ```text
    /// w′ = w / p        w: moisture of the whole, p: share of the dry mass under 0.425 mm
    /// ```
    /// Source: the definition of water content in soil testing; true while the fine part fills the room between the grains.
    pub fn water_of_fines(moisture: Ratio, fine_share: Ratio) -> Ratio {
        Ratio::fraction(moisture / fine_share)
    }
}

formula! {
    /// Liquidity index: 0 where it crumbles, 1 where it flows.
    ///
    /// ```text
    /// LI = (w′ − PL) / PI        w′: moisture of the part under 0.425 mm
    /// ```
    /// Source: the definition of the index in soil testing.
    pub fn liquidity(moisture_of_fines: Ratio, plastic_limit: Ratio, plasticity_index: Ratio) -> f64 {
        (moisture_of_fines - plastic_limit) / plasticity_index
    }
}

formula! {
    /// What the plasticity index may be off, when each limit may.
    ///
    /// ```text
    /// e PI = 2 e        e: how far each limit may be off, both the wrong way
    /// ```
    /// Source: the index is the difference of both limits.
    pub fn index_off(error: Ratio) -> Ratio {
        error * 2.0
    }
}

formula! {
    /// Names that the fine part may have.
    ///
    /// ```text
    /// n        at the limits, and wherever they may lie by what either or both of them are off
    /// ```
    /// Source: ASTM D2487, the chart; the band of CL-ML from memory.
    pub fn names_of_limits(liquid_limit: Ratio, plastic_limit: Ratio, error: Ratio; count: usize) -> u64 {
        count as u64
    }
}

/// What the fine part is called: CL, CH, ML, MH or CL-ML. None where a fact is missing.
///
/// Source: ASTM D2487, the chart; the band of CL-ML from memory.
#[must_use]
pub fn plasticity_class(liquid_limit: Ratio, plasticity_index: Ratio) -> Option<&'static str> {
    let (limit, index) = (liquid_limit.in_percent(), plasticity_index.in_percent());
    let line = a_line(liquid_limit).value.in_percent();
    let (high, low_band, high_band) = (number("high-limit"), number("band-low"), number("band-high"));
    if [high, low_band, high_band, line].iter().any(|number| number.is_nan()) {
        return None;
    }
    Some(match (limit >= high, index >= line) {
        (true, true) => "CH",
        (true, false) => "MH",
        (false, true) if index > high_band => "CL",
        (false, true) if index >= low_band => "CL-ML",
        (false, _) => "ML",
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_corner_of_the_chart_has_its_name() {
        let class = |limit: f64, index: f64| plasticity_class(Ratio::percent(limit), Ratio::percent(index)).unwrap();
        assert_eq!(
            [class(60.0, 35.0), class(60.0, 20.0), class(35.0, 20.0), class(35.0, 8.0)],
            ["CH", "MH", "CL", "ML"]
        );
        assert_eq!([class(22.0, 5.0), class(22.0, 3.0), class(50.0, 30.0)], ["CL-ML", "ML", "CH"]);
    }

    #[test]
    fn moisture_of_the_whole_soil_hides_that_its_fine_part_is_about_to_flow() {
        let share = Ratio::percent;
        let index = plasticity_index(share(40.0), share(20.0)).value;
        assert_eq!(liquidity(share(20.0), share(20.0), index).value, 0.0);
        let wet = water_of_fines(share(20.0), share(55.0)).value;
        assert!((liquidity(wet, share(20.0), index).value - 0.82).abs() < 0.005);
    }
}
