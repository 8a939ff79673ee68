//! How strength falls with moisture, from bricks crushed damp.

use crate::earth::tables::number;
use crate::reason::formula;
use crate::solve::chance::t_place;
use crate::solve::least_squares::Basis;
use crate::units::{Pressure, Ratio};

formula! {
    /// Strength at a moisture, as a line through the logarithms of what the bricks bore has it.
    ///
    /// ```text
    /// ln f = a − b u        u: moisture of dry mass; only between the driest and the dampest brick that was crushed
    /// ```
    /// Source: a straight line through logarithms fitted by least squares; that strength falls so is common practice of soil
    /// testing, and the bricks decide.
    pub fn damp_strength(moisture: Ratio; log_strength: f64) -> Pressure {
        Pressure::pa(log_strength.exp())
    }
}

formula! {
    /// How fast strength falls with moisture: what the logarithm of the strength loses for a moisture of one.
    ///
    /// ```text
    /// b = − Σ (uᵢ − ū) ln fᵢ / Σ (uᵢ − ū)²        uᵢ: moisture of a brick, fᵢ: its strength, ū: mean moisture
    /// ```
    /// Source: a straight line through logarithms fitted by least squares.
    pub fn fall_with_moisture(; fall: f64) -> f64 {
        fall
    }
}

formula! {
    /// Moisture of the driest or the dampest of the bricks: outside of them nothing is said of the strength.
    ///
    /// ```text
    /// u₁ = min uᵢ, u₂ = max uᵢ
    /// ```
    /// Source: a fitted line holds where there were tests.
    pub fn tested_moisture(moisture: Ratio) -> Ratio {
        moisture
    }
}

formula! {
    /// Strength at a moisture that 19 of 20 more bricks would exceed, as a line through the logarithms has it.
    ///
    /// ```text
    /// ln f = a − b u − t s √(1 + h)        t: of one side at 5 %, n − 2 degrees of freedom, s: scatter about the line, h: leverage at u
    /// ```
    /// Source: prediction limit of a straight line fitted by least squares.
    pub fn damp_strength_low(moisture: Ratio; log_strength: f64) -> Pressure {
        Pressure::pa(log_strength.exp())
    }
}

/// A line through the logarithms of strengths against moisture.
#[derive(Clone, Debug, PartialEq)]
pub struct DampLine {
    /// a, the logarithm of the strength in pascals at no moisture.
    pub at_none: f64,
    /// b, what the logarithm falls by for a moisture of one.
    pub fall: f64,
    /// How the logarithms scatter about the line.
    pub spread: f64,
    /// The driest and the dampest brick.
    pub tested: [Ratio; 2],
    basis: Basis,
    freedom: usize,
}

/// Why bricks give no line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DampFault {
    /// Fewer moistures than this.
    Few(usize),
    /// They are all of one moisture.
    Same,
}

impl DampLine {
    /// The line through bricks of known moisture.
    ///
    /// # Errors
    /// When their moistures are too few or all alike: two moistures carry any line, and nothing could contradict it.
    pub fn through(bricks: &[(Ratio, Pressure)]) -> Result<DampLine, DampFault> {
        let least = (number("damp-moistures") as usize).max(3);
        if bricks.len() < least {
            return Err(DampFault::Few(least));
        }
        let moistures: Vec<f64> = bricks.iter().map(|(moisture, _)| moisture.in_fraction()).collect();
        let logs: Vec<f64> = bricks.iter().map(|(_, strength)| strength.in_pa().ln()).collect();
        let [low, high] = [f64::min, f64::max].map(|side| moistures.iter().copied().reduce(side).unwrap_or(f64::NAN));
        let basis = Basis::of(&[vec![1.0; bricks.len()], moistures.clone()]).map_err(|_| DampFault::Same)?;
        if distinct(&moistures) < least {
            return Err(DampFault::Few(least));
        }
        let line = basis.coefficients(&logs);
        let squares: f64 =
            moistures.iter().zip(&logs).map(|(moisture, log)| (log - line[0] - line[1] * moisture).powi(2)).sum();
        let freedom = bricks.len() - 2;
        Ok(DampLine {
            at_none: line[0],
            fall: -line[1],
            spread: (squares / freedom as f64).sqrt(),
            tested: [low, high].map(Ratio::fraction),
            basis,
            freedom,
        })
    }

    /// The logarithm of the strength at a moisture, and of what 19 of 20 more bricks would exceed; none outside of what was
    /// tested.
    #[must_use]
    pub fn at(&self, moisture: Ratio) -> Option<[f64; 2]> {
        if moisture < self.tested[0] || moisture > self.tested[1] {
            return None;
        }
        let middle = self.at_none - self.fall * moisture.in_fraction();
        let leverage = self.basis.leverage(&[1.0, moisture.in_fraction()]);
        let wide = t_place(number("lower-share"), self.freedom) * self.spread * (1.0 + leverage).sqrt();
        Some([middle, middle - wide])
    }
}

/// How many moistures there are.
fn distinct(moistures: &[f64]) -> usize {
    let mut rising = moistures.to_vec();
    rising.sort_by(f64::total_cmp);
    rising.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
    rising.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bricks(list: &[(f64, f64)]) -> Vec<(Ratio, Pressure)> {
        list.iter().map(|&(moisture, kpa)| (Ratio::fraction(moisture), Pressure::kpa(kpa))).collect()
    }

    #[test]
    fn bricks_on_a_line_give_it_back_and_nothing_is_read_outside_of_them() {
        let list: Vec<(f64, f64)> = [0.02, 0.05, 0.08, 0.1].map(|u: f64| (u, 1200.0 * (-14.0 * u).exp())).to_vec();
        let line = DampLine::through(&bricks(&list)).unwrap();
        assert!((line.fall - 14.0).abs() < 1e-9 && (line.at_none.exp() / 1.2e6 - 1.0).abs() < 1e-9);
        assert!((line.at(Ratio::fraction(0.06)).unwrap()[0].exp() / (1.2e6 * (-0.84_f64).exp()) - 1.0).abs() < 1e-9);
        assert_eq!([line.at(Ratio::fraction(0.01)), line.at(Ratio::fraction(0.12))], [None, None]);
    }

    #[test]
    fn two_bricks_two_moistures_or_bricks_all_alike_give_no_line() {
        let twins = [(0.02, 900.), (0.02, 900.), (0.1, 400.)];
        assert_eq!(DampLine::through(&bricks(&twins)), Err(DampFault::Few(3)), "no scatter is seen, not none there");
        assert_eq!(DampLine::through(&bricks(&[(0.02, 900.), (0.1, 400.)])), Err(DampFault::Few(3)));
        assert_eq!(DampLine::through(&bricks(&[(0.02, 900.), (0.02, 800.), (0.02, 850.)])), Err(DampFault::Same));
    }
}
