//! Water that stands behind the edge board of a ring when its outlet is blocked, on the tails of the poles.

use super::super::poles::{self, Layout, Ring};
use super::{Extra, Fault, OnPole};
use crate::units::{Length, LineLoad};

/// The load on each tail: the wedge of water over half the way to either neighbour, deepest at the board, none where its level
/// meets the slope.
///
/// `weight` is that of the water behind each metre of board, `reach` how far it stands up the slope in plan.
///
/// # Errors
/// Poles that make no ring.
pub fn ponded(layout: &Layout, ring: &Ring, weight: LineLoad, reach: Length) -> Result<Extra, Fault> {
    let lies = poles::laid(layout, &ring.sets)?;
    let butts: Vec<[f64; 3]> = lies.iter().map(|lie| lie.at(lie.ends[0])).collect();
    let apart = |one: usize, other: usize| {
        let [from, to] = [butts[one], butts[other]];
        (to[0] - from[0]).hypot(to[1] - from[1])
    };
    let count = butts.len();
    let loads = (0..count)
        .map(|pole| {
            let board = 0.5 * (apart(pole, (pole + 1) % count) + apart(pole, (pole + count - 1) % count));
            let along = reach.in_m() / ring.sets[pole].pitch.in_rad().cos();
            let most = 2.0 * weight.in_n_m() * board / along;
            OnPole::Line { pole, span: [Length::ZERO, Length::m(along)], down: [LineLoad::n_m(most), LineLoad::ZERO] }
        })
        .collect();
    Ok(Extra { name: "water behind the edge board".into(), loads })
}
