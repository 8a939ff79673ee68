//! A value that changes evenly between places along a line: thickness, height.

use kurbo::{Point, Vec2};

use super::line::PlanLine;

/// A value in metres along a line, straight between its knots and even past the first and last of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Along {
    /// Distance along the line and value there, in metres, by distance.
    knots: Vec<[f64; 2]>,
    /// Length of the closed line that it goes round, in metres.
    round: Option<f64>,
}

impl Along {
    /// The same value everywhere, in metres.
    #[must_use]
    pub fn even(value: f64) -> Along {
        Along { knots: vec![[0.0, value]], round: None }
    }

    /// Straight between knots: distance along the line and value, in metres, by distance. On a closed line, of the length
    /// given, the last knot leads on to the first.
    #[must_use]
    pub fn between(knots: &[[f64; 2]], closed: Option<f64>) -> Along {
        let [Some(first), Some(last)] = [knots.first(), knots.last()] else { return Along::even(0.0) };
        if knots.iter().all(|knot| knot[1] == first[1]) {
            return Along::even(first[1]);
        }
        let mut all = knots.to_vec();
        if let Some(length) = closed {
            all.insert(0, [last[0] - length, last[1]]);
            all.push([first[0] + length, first[1]]);
        }
        Along { knots: all, round: closed }
    }

    /// Whether it is the same everywhere.
    #[must_use]
    pub fn is_even(&self) -> bool {
        self.knots.len() == 1
    }

    /// The value at a distance along the line, both in metres.
    #[must_use]
    pub fn at(&self, along: f64) -> f64 {
        let along = self.turned(along);
        let after = self.knots.partition_point(|knot| knot[0] <= along);
        match (after.checked_sub(1).map(|before| self.knots[before]), self.knots.get(after)) {
            (Some([from, low]), Some(&[to, high])) => low + (high - low) * (along - from) / (to - from),
            (Some([_, value]), None) | (None, Some(&[_, value])) => value,
            (None, None) => 0.0,
        }
    }

    /// Change of the value for each metre along the line.
    #[must_use]
    pub fn slope(&self, along: f64) -> f64 {
        let along = self.turned(along);
        let after = self.knots.partition_point(|knot| knot[0] <= along);
        match (after.checked_sub(1).map(|before| self.knots[before]), self.knots.get(after)) {
            (Some([from, low]), Some(&[to, high])) => (high - low) / (to - from),
            _ => 0.0,
        }
    }

    /// The distance less whole turns of a closed line.
    fn turned(&self, along: f64) -> f64 {
        match (self.round, self.knots.first()) {
            (Some(length), Some(first)) => first[0] + (along - first[0]).rem_euclid(length),
            _ => along,
        }
    }

    /// Distances along the line at which the slope changes, in metres.
    pub fn breaks(&self) -> impl Iterator<Item = f64> + '_ {
        self.knots.iter().map(|knot| knot[0])
    }

    /// The least and the greatest value, in metres.
    #[must_use]
    pub fn range(&self) -> [f64; 2] {
        let values = self.knots.iter().map(|knot| knot[1]);
        values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], value| [low.min(value), high.max(value)])
    }
}

/// The level of a wall's top along its line: heights between places, and a slope across the plan, in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Top {
    /// Heights along the line.
    pub heights: Along,
    /// Rise for each metre in plan, and the place at which it adds nothing.
    pub slope: Option<(Vec2, Point)>,
}

impl Top {
    /// Whether it is level.
    #[must_use]
    pub fn is_level(&self) -> bool {
        self.heights.is_even() && self.slope.is_none()
    }

    /// Level at a distance along the line.
    #[must_use]
    pub fn at(&self, line: &PlanLine, along: f64) -> f64 {
        let slope = self.slope.map_or(0.0, |(rise, from)| (line.at(along).point - from).dot(rise));
        self.heights.at(along) + slope
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn between_knots_it_is_straight_and_round_a_closed_line_it_leads_on() {
        let along = Along::between(&[[1.0, 0.4], [3.0, 0.6]], Some(6.0));
        assert!((along.at(2.0) - 0.5).abs() < 1e-15 && (along.slope(2.0) - 0.1).abs() < 1e-15);
        assert!((along.at(5.0) - 0.5).abs() < 1e-15 && (along.slope(5.0) + 0.05).abs() < 1e-15);
        assert!((along.at(11.0) - 0.5).abs() < 1e-15 && (along.at(-4.0) - 0.5).abs() < 1e-15);
        assert_eq!(along.range(), [0.4, 0.6]);
        let open = Along::between(&[[0.0, 0.4], [2.0, 0.3]], None);
        assert!((open.at(9.0) - 0.3).abs() < 1e-15 && open.slope(9.0) == 0.0);
        assert!(Along::between(&[[0.0, 0.4], [2.0, 0.4]], None).is_even());
    }
}
