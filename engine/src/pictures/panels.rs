//! Crack scores of test panels as a picture: where each panel lies among its mixes, what each judge scored, and the mix that is chosen.

use crate::earth::mixture::shares;
use crate::house::{House, Panels};

/// The crack scores of panels of one face.
#[derive(Clone, Debug)]
pub struct PanelPicture {
    /// Their name.
    pub name: String,
    /// The ingredient whose share is drawn across.
    pub ingredient: String,
    /// Who scored them.
    pub judges: Vec<String>,
    /// The panels.
    pub panels: Vec<ScoredPanel>,
    /// The share of the ingredient in the chosen mix, and its buckets; none where nothing is chosen.
    pub chosen: Option<(f64, Vec<(String, f64)>)>,
}

/// A panel that was scored.
#[derive(Clone, Debug)]
pub struct ScoredPanel {
    /// Its name.
    pub name: String,
    /// The share of the ingredient.
    pub share: f64,
    /// What each judge scored its crack.
    pub cracks: Vec<Option<u64>>,
    /// Whether a score rejects it.
    pub is_rejected: bool,
}

/// The panels of a house whose cracks were scored.
pub(super) fn panels(house: &House) -> Vec<PanelPicture> {
    house.panels.iter().filter(|panels| panels.scores(0).next().is_some()).map(picture).collect()
}

fn picture(panels: &Panels) -> PanelPicture {
    let found = &panels.found;
    let chosen = found.choice.as_ref().ok().and_then(|chosen| {
        let counts = &found.counts[chosen.best.first()?.0];
        let buckets = counts.iter().map(|count| f64::from(*count) * panels.step.value);
        Some((*shares(counts).first()?, panels.parts.iter().cloned().zip(buckets).collect()))
    });
    let scored = panels.each.iter().enumerate().map(|(place, panel)| ScoredPanel {
        name: panel.name.clone(),
        share: panel.shares()[0],
        cracks: panel.scores[0].iter().map(|score| score.as_ref().map(|score| score.value)).collect(),
        is_rejected: found.rejected.contains(&place),
    });
    PanelPicture {
        name: panels.name.clone(),
        ingredient: panels.parts[0].clone(),
        judges: panels.judges.clone(),
        panels: scored.collect(),
        chosen,
    }
}
