//! A loop of levels from the benchmark and back to it: rise and fall, closing error, levels shared out by set-ups.

use crate::reason::formula;
use crate::units::Length;

/// What the staff reads from one place of the level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sights {
    /// On the point behind, whose level is known.
    pub back: Length,
    /// On the point before.
    pub fore: Length,
}

formula! {
    /// Rise from the point behind to the point before; a fall when negative.
    ///
    /// ```text
    /// r = back sight − fore sight
    /// ```
    /// Source: rise and fall, from memory of surveying texts.
    pub fn rise(back_sight: Length, fore_sight: Length) -> Length {
        back_sight - fore_sight
    }
}

formula! {
    /// Closing error of a loop of levels that ends where it began.
    ///
    /// ```text
    /// e = Σ back sights − Σ fore sights
    /// ```
    /// Source: rise and fall, from memory of surveying texts.
    pub fn level_closing(; sights: &[Sights]) -> Length {
        sights.iter().map(|one| one.back - one.fore).sum()
    }
}

formula! {
    /// Level of a point of a closed loop, the closing error shared out evenly by set-ups.
    ///
    /// ```text
    /// z = z₀ + Σ rises so far − e k / n        k, n: set-ups so far, set-ups in all
    /// ```
    /// Source: adjustment by number of set-ups, from memory of surveying texts.
    pub fn adjusted_level(start: Length; sights: &[Sights], so_far: usize) -> Length {
        let share = so_far as f64 / sights.len().max(1) as f64;
        let so_far = &sights[..so_far.min(sights.len())];
        start + level_closing(so_far).value - level_closing(sights).value * share
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_adjusted_loop_ends_at_the_level_where_it_began() {
        let sights = [(1.42, 1.05), (1.318, 1.627), (0.98, 1.044)]
            .map(|(back, fore)| Sights { back: Length::m(back), fore: Length::m(fore) });
        let start = Length::m(-0.35);
        assert!((level_closing(&sights).value.in_mm() + 3.0).abs() < 1e-9);
        assert!((adjusted_level(start, &sights, 3).value - start).in_mm().abs() < 1e-9);
        assert!((adjusted_level(start, &sights, 1).value.in_m() - 0.021).abs() < 1e-12);
    }
}
