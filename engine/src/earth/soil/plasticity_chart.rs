//! The lines of the plasticity chart, in percent: liquid limit across, plasticity index upwards.

use super::plasticity::{a_line, plasticity_class, u_line};
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
///
/// Source: ASTM D2487, the chart, quoted; the band of CL-ML from memory; that a name stands in the middle of its field is ours.
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

/// The corners of where limits may lie that may be off, without what no soil has: an index below zero or above the U-line.
///
/// Source: both limits off by as much, each on its own, our judgement; the U-line as the upper bound of soils: ASTM D2487, the chart, quoted.
#[must_use]
pub fn outline_of_limits(liquid_limit: Ratio, plastic_limit: Ratio, error: Ratio) -> Vec<PlasticPlace> {
    let [liquid, plastic, error] = [liquid_limit, plastic_limit, error].map(Ratio::in_percent);
    let corners = [[1.0, -1.0], [1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0]].map(|[right, up]| {
        let [liquid, plastic] = [liquid + right * error, plastic + up * error];
        [liquid, liquid - plastic]
    });
    let [slope, foot] = ["u-line-slope", "u-line-foot"].map(number);
    let under_the_u_line = within(&corners, |[limit, index]| slope * (limit - foot) - index);
    within(&under_the_u_line, |[_, index]| index)
}

/// A place lies on a line to within this, in percent.
const ROUNDING: f64 = 1e-9;

/// What of a convex outline lies where a measure that is straight is not below zero.
fn within(outline: &[PlasticPlace], measure: impl Fn(PlasticPlace) -> f64) -> Vec<PlasticPlace> {
    sides(outline)
        .flat_map(|[from, to]| {
            let [own, next] = [from, to].map(|place| measure(place) + ROUNDING);
            let kept = (own >= 0.0).then_some(from);
            let crossed = ((own < 0.0) != (next < 0.0)).then(|| between(from, to, own / (own - next)));
            kept.into_iter().chain(crossed)
        })
        .collect()
}

fn sides(outline: &[PlasticPlace]) -> impl Iterator<Item = [PlasticPlace; 2]> {
    outline.iter().zip(outline.iter().cycle().skip(1)).map(|(from, to)| [*from, *to])
}

fn between(from: PlasticPlace, to: PlasticPlace, share: f64) -> PlasticPlace {
    [0, 1].map(|axis| from[axis] + share * (to[axis] - from[axis]))
}

/// The names that the fine part may have: at its limits, at the corners of where they may lie, and on each stretch between two lines of the
/// chart that the sides of it cross, each once.
///
/// Source: ASTM D2487, the chart; the band of CL-ML from memory; that each name within what limits may be off counts is our judgement.
#[must_use]
pub fn classes_of_limits(liquid_limit: Ratio, plastic_limit: Ratio, error: Ratio) -> Vec<&'static str> {
    let own = [liquid_limit.in_percent(), (liquid_limit - plastic_limit).in_percent()];
    let outline = outline_of_limits(liquid_limit, plastic_limit, error);
    let stretches = sides(&outline).flat_map(|[from, to]| {
        let mut shares: Vec<f64> = crossings(from, to).chain([0.0, 1.0]).collect();
        shares.sort_by(f64::total_cmp);
        let middles: Vec<f64> = shares.windows(2).map(|pair| 0.5 * (pair[0] + pair[1])).collect();
        middles.into_iter().chain([0.0]).map(move |share| between(from, to, share))
    });
    let mut classes: Vec<&'static str> = Vec::new();
    for [limit, index] in std::iter::once(own).chain(stretches) {
        let class = plasticity_class(Ratio::percent(limit), Ratio::percent(index));
        classes.extend(class.filter(|class| !classes.contains(class)));
    }
    classes
}

/// Where a side crosses the A-line, the bounds of the band, and what parts L from H, as shares of its length.
fn crossings(from: PlasticPlace, to: PlasticPlace) -> impl Iterator<Item = f64> {
    let [slope, foot] = ["a-line-slope", "a-line-foot"].map(number);
    let [low, high, parting] = ["band-low", "band-high", "high-limit"].map(number);
    let measures =
        |[limit, index]: PlasticPlace| [index - slope * (limit - foot), index - low, index - high, limit - parting];
    let shares = measures(from).into_iter().zip(measures(to)).map(|(own, next)| own / (own - next));
    shares.filter(|share| (0.0..1.0).contains(share))
}

#[cfg(test)]
mod tests {
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

    /// By hand: at 22 % and 19.5 %, each 5 points off, the index is 2.5, and at corners and middles of sides -7.5, -2.5, 7.5 or 12.5: none of
    /// them lies between 4 and 7, where all sides but one pass.
    #[test]
    fn a_name_that_lies_between_the_corners_is_found_where_a_side_crosses_its_lines() {
        let classes = |limit: f64, plastic: f64, error: f64| {
            let mut found = classes_of_limits(Ratio::percent(limit), Ratio::percent(plastic), Ratio::percent(error));
            found.sort_unstable();
            found
        };
        assert_eq!(classes(22.0, 19.5, 5.0), ["CL", "CL-ML", "ML"]);
        assert_eq!(classes(36.0, 18.0, 2.0), ["CL"]);
        assert_eq!(classes(36.0, 18.0, 0.0), ["CL"]);
        assert_eq!(classes(49.0, 27.0, 2.0), ["CH", "CL", "MH", "ML"]);
    }

    /// By hand: at 20 % and 18 %, each 5 points off, the index would go from -8 to 12, and one corner is cut off at 0, from 15 % to 23 %.
    /// At 60 % and 16 %, each 4 points off, both upper corners, 44 at 56 % and 52 at 64 %, come down to 43.2 and 50.4 on the U-line.
    #[test]
    fn limits_may_lie_no_lower_than_zero_and_no_higher_than_the_u_line() {
        let share = Ratio::percent;
        let outline = outline_of_limits(share(20.0), share(18.0), share(5.0));
        assert_eq!(outline.len(), 5);
        assert!(outline.iter().all(|[limit, index]| *index >= -1e-8 && *index <= 0.9 * (limit - 8.0)));
        assert!(outline.iter().any(|[limit, index]| (limit - 25.0).abs() + (index - 12.0).abs() < 1e-9));
        let fat = outline_of_limits(share(60.0), share(16.0), share(4.0));
        assert!(fat.iter().all(|[limit, index]| *index <= 0.9 * (limit - 8.0) + 1e-8) && fat.len() == 4, "{fat:?}");
        assert_eq!(outline_of_limits(share(36.0), share(18.0), share(2.0)).len(), 4);
        // By hand: 0.9 (43 - 8) = 31.5: on the U-line itself, and sure of it, it stays where it is.
        assert_eq!(outline_of_limits(share(43.0), share(11.5), Ratio::ZERO).len(), 4);
    }
}
