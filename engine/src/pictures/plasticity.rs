//! Tested limits as a picture: where each soil's fine part lies in the plasticity chart, and what its limits may be off.

use crate::earth::soil::{ChartLines, PlasticPlace, chart_lines, outline_of_limits};
use crate::house::{House, Limits};

/// The least end of the chart across, in percent; of more than this only what is needed is drawn.
const LEAST: f64 = 60.0;
/// Ends of the chart are whole tens.
const TEN: f64 = 10.0;

/// The plasticity chart of a house.
#[derive(Clone, Debug)]
pub struct PlasticityPicture {
    /// The greatest liquid limit of the chart, in percent.
    pub most: f64,
    /// Its lines.
    pub lines: ChartLines,
    /// The soils in it.
    pub soils: Vec<PlasticSoil>,
}

/// A soil in the chart.
#[derive(Clone, Debug)]
pub struct PlasticSoil {
    /// What it is called.
    pub words: String,
    /// The rows of its liquid limit, its index and what that may be off.
    pub paths: [String; 3],
    /// Where it lies.
    pub at: PlasticPlace,
    /// The corners of where it may lie.
    pub outline: Vec<PlasticPlace>,
}

/// The chart with the limits of a house; none where none are tested.
pub(super) fn plasticity(house: &House) -> Option<PlasticityPicture> {
    let soils: Vec<PlasticSoil> = house.limits.iter().map(soil).collect();
    let farthest = soils.iter().flat_map(|soil| &soil.outline).map(|[limit, _]| *limit).reduce(f64::max)?;
    let most = ((farthest + 1.0) / TEN).ceil() * TEN;
    let most = most.max(LEAST);
    Some(PlasticityPicture { most, lines: chart_lines(most), soils })
}

fn soil(limits: &Limits) -> PlasticSoil {
    let [liquid, plastic, error] = [&limits.liquid, &limits.plastic, &limits.error].map(|share| share.value);
    PlasticSoil {
        words: format!("{}, {}", limits.of, limits.name).replace('-', " "),
        paths: ["liquid", "index", "index-error"].map(|noun| limits.path(noun)),
        at: [liquid.in_percent(), (liquid - plastic).in_percent()],
        outline: outline_of_limits(liquid, plastic, error),
    }
}
