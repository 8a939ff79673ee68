//! The outline of a cut gets a point wherever it crosses an upright line of a face.

use super::fault::Fault;
use super::places::SNAP;
use super::rim::{Chain, Rim, SIDES, Spot};
use crate::curve::Shape;

impl Rim<'_> {
    /// Adds the points at which the outline crosses the upright lines at these distances along the line, in metres, on the
    /// faces that have it, and says of each point which line it ends.
    pub fn refine(&mut self, shape: &Shape<'_>, places: &[f64]) -> Result<(), Fault> {
        for chain in 0..self.chains.len() {
            let refined = self.refined(shape, &self.chains[chain], places)?;
            self.chains[chain].spots = refined;
        }
        Ok(())
    }

    fn refined(&self, shape: &Shape<'_>, chain: &Chain, places: &[f64]) -> Result<Vec<Spot>, Fault> {
        let mut spots = chain.spots.clone();
        for spot in &mut spots {
            spot.lines = spot.along.map(|along| near(places, along));
        }
        let count = spots.len();
        let mut all: Vec<Spot> = Vec::with_capacity(2 * count);
        for index in 0..count {
            all.push(spots[index]);
            let next = (index + 1) % count;
            if next == 0 && !self.is_closed() {
                break;
            }
            let [from, to] = [spots[index], spots[next]];
            for (share, face, line) in self.crossings(shape, chain.turn, [from, to], places)? {
                let spot = self.spot(shape, chain.turn, self.between(from.at, to.at, share))?;
                let apart = |other: &Spot| (other.at[0] - spot.at[0]).hypot(other.at[1] - spot.at[1]);
                let before = all.len() - 1;
                let close = if apart(&all[before]) < SNAP {
                    &mut all[before]
                } else if apart(&to) < SNAP {
                    if next == 0 { &mut all[0] } else { &mut spots[next] }
                } else {
                    all.push(spot);
                    &mut all[before + 1]
                };
                close.lines[face] = close.lines[face].or(Some(line));
            }
        }
        Ok(all)
    }

    /// Where the outline between two points crosses upright lines: share of the way, face, line; in order.
    fn crossings(
        &self,
        shape: &Shape<'_>,
        turn: f64,
        [from, to]: [Spot; 2],
        places: &[f64],
    ) -> Result<Vec<(f64, usize, usize)>, Fault> {
        let mut found = Vec::new();
        for face in (0..2).filter(|&face| self.is_on(face)) {
            let (a, b) = (from.along[face], to.along[face]);
            let first = places.partition_point(|place| *place <= a.min(b) + SNAP);
            let lines = places[first..].iter().take_while(|place| **place < a.max(b) - SNAP);
            for (line, place) in lines.enumerate() {
                let miss = |share: f64| -> Result<f64, Fault> {
                    let at = self.between(from.at, to.at, share);
                    Ok(self.along(shape, SIDES[face], at)? + turn - place)
                };
                found.push((root(a - place, b - place, miss)?, face, first + line));
            }
        }
        found.sort_by(|a, b| a.0.total_cmp(&b.0));
        Ok(found)
    }

    fn spot(&self, shape: &Shape<'_>, turn: f64, at: [f64; 2]) -> Result<Spot, Fault> {
        let along = [self.along(shape, SIDES[0], at)? + turn, self.along(shape, SIDES[1], at)? + turn];
        Ok(Spot { at, along, lines: [None; 2] })
    }
}

/// The line within a snap of a distance.
fn near(places: &[f64], along: f64) -> Option<usize> {
    let next = places.partition_point(|place| *place < along - SNAP);
    places.get(next).is_some_and(|place| *place <= along + SNAP).then_some(next)
}

/// Where in 0..1 a function with these values of opposite sign at its ends is nothing, to 1e-10 of its own unit.
///
/// Source: false position as M. Dowell and P. Jarratt (1971) mend it ("Illinois"), from memory.
fn root(at_start: f64, at_end: f64, of: impl Fn(f64) -> Result<f64, Fault>) -> Result<f64, Fault> {
    let (mut low, mut high) = ([0.0, at_start], [1.0, at_end]);
    for _ in 0..60 {
        let share = (low[0] * high[1] - high[0] * low[1]) / (high[1] - low[1]);
        let value = of(share)?;
        if value.abs() < 1e-10 {
            return Ok(share);
        }
        if (value < 0.0) == (high[1] < 0.0) {
            low[1] *= 0.5;
        } else {
            low = high;
        }
        high = [share, value];
    }
    Ok(high[0])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_root_is_found_where_a_function_is_flat_at_one_end() {
        let share = root(-0.001, 0.999, |x: f64| Ok(x.powi(5) - 0.001)).unwrap();
        assert!((share.powi(5) - 0.001).abs() < 1e-10);
    }

    #[test]
    fn the_line_near_a_place_is_found_from_both_sides() {
        let places = [0.0, 1.0, 2.0];
        assert_eq!([0.99999, 1.00001, 1.5, 2.1].map(|along| near(&places, along)), [Some(1), Some(1), None, None]);
    }
}
