//! The lines of the plasticity chart, in percent: liquid limit across, plasticity index upwards.

use super::plasticity::{a_line, u_line};
use crate::earth::tables::number;
use crate::units::Ratio;

/// A place in the chart: liquid limit and plasticity index, in percent.
pub type PlasticPlace = [f64; 2];

/// The lines of the chart.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartLines {
    /// The A-line from the band of CL-ML up.
    pub a: [PlasticPlace; 2],
    /// The U-line from that band up.
    pub u: [PlasticPlace; 2],
    /// The band of CL-ML: between both lines and its own bounds.
    pub band: [PlasticPlace; 4],
    /// The liquid limit that parts L from H.
    pub high: f64,
    /// Where each name stands: in the middle of what it is given up to the end of the chart.
    pub names: [(&'static str, PlasticPlace); 5],
}

/// The lines up to a liquid limit, in percent.
#[must_use]
pub fn chart_lines(most: f64) -> ChartLines {
    let [low, high, limit] = ["band-low", "band-high", "high-limit"].map(number);
    let [a_slope, a_foot, u_slope, u_foot] = ["a-line-slope", "a-line-foot", "u-line-slope", "u-line-foot"].map(number);
    let a_at = |index: f64| a_foot + index / a_slope;
    let u_at = |index: f64| u_foot + index / u_slope;
    let on = |line: fn(Ratio) -> crate::reason::Answer<Ratio>, at: f64| line(Ratio::percent(at)).value.in_percent();
    let band = [[u_at(low), low], [a_at(low), low], [a_at(high), high], [u_at(high), high]];
    let [lean, fat] = [0.5 * (a_at(high) + limit), 0.5 * (limit + most)];
    let above = |at: f64| [at, 0.5 * (on(a_line, at) + on(u_line, at))];
    ChartLines {
        a: [[a_at(low), low], [most, on(a_line, most)]],
        u: [[u_at(high), high], [most, on(u_line, most)]],
        names: [
            ("CL", above(lean)),
            ("CH", above(fat)),
            ("CL-ML", [0.5 * (u_at(low) + a_at(high)), 0.5 * (low + high)]),
            ("ML", [lean, 0.5 * on(a_line, lean)]),
            ("MH", [fat, 0.5 * on(a_line, fat)]),
        ],
        band,
        high: limit,
    }
}

#[cfg(test)]
mod tests {
    use super::super::plasticity::plasticity_class;
    use super::*;

    #[test]
    fn each_name_stands_where_the_chart_gives_it_and_both_lines_keep_their_bounds() {
        let lines = chart_lines(80.0);
        for (name, [limit, index]) in lines.names {
            assert_eq!(plasticity_class(Ratio::percent(limit), Ratio::percent(index)), Some(name));
        }
        // By hand: 0.73 (80 - 20) = 43.8 and 0.9 (80 - 8) = 64.8; 20 + 4 / 0.73 = 25.479.
        assert!((lines.a[1][1] - 43.8).abs() < 1e-9 && (lines.u[1][1] - 64.8).abs() < 1e-9);
        assert!((lines.a[0][0] - 25.479_452).abs() < 1e-6);
    }
}
