//! The scale on which test panels are scored, from 0, the best, in three aspects.

use std::sync::LazyLock;

use crate::earth::tables::number;
use crate::facts::lines;
use crate::sources::Citation;
use crate::units::Length;

/// What a panel is scored for, in the order in which it is looked at.
pub const ASPECTS: [&str; 3] = ["crack", "dusting", "adhesion"];

/// A score, and what a judge sees, wipes or hears.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is scored.
    pub aspect: String,
    /// The score.
    pub score: usize,
    /// What is found.
    pub words: String,
    /// The width that no crack reaches; none of what is no width, nor of the worst.
    pub below: Option<Length>,
    /// Where it comes from.
    pub citation: Citation,
}

static SCALE: LazyLock<Result<Vec<Step>, String>> = LazyLock::new(|| {
    let text = include_str!("../../../../data/earth/panel-scale.csv");
    lines("panel-scale.csv", text, |line| {
        let below = if line.text("below_mm")?.is_empty() { None } else { Some(Length::mm(line.number("below_mm")?)) };
        let (aspect, score) = (line.text("aspect")?, line.number("score")? as usize);
        Ok(Step { aspect, score, words: line.text("words")?, below, citation: line.citation()? })
    })
});

/// The scale, aspect by aspect, the best score first.
#[must_use]
pub fn scale() -> &'static [Step] {
    SCALE.as_deref().unwrap_or_default()
}

/// The worst score: it rejects a panel.
#[must_use]
pub fn worst() -> usize {
    number("worst-score") as usize
}

/// The score that is good enough.
#[must_use]
pub fn good() -> usize {
    number("good-score") as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_aspect_has_a_word_for_every_score_and_wider_cracks_score_worse() {
        for aspect in ASPECTS {
            let scores: Vec<usize> =
                scale().iter().filter(|step| step.aspect == aspect).map(|step| step.score).collect();
            assert_eq!(scores, (0..=worst()).collect::<Vec<_>>(), "{aspect}");
        }
        let widths: Vec<f64> = scale().iter().filter_map(|step| Some(step.below?.in_mm())).collect();
        assert!(widths.len() == worst() && widths.is_sorted(), "{widths:?}");
        assert!(good() < worst());
    }
}
