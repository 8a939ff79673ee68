//! How a material and the meaning of a line are drawn: fills that also differ in black and white, weights by meaning.

use engine::house::part::{Material, Meaning, Part};

use super::hatch::{self, Light};
use super::sheet::Sheet;
use crate::paper::{INK, LIME, weight};
use crate::svg::{Element, Run};

/// What is hatched where it is cut.
const HATCHED: [Material; 8] = [
    Material::Cob,
    Material::Stone,
    Material::Gravel,
    Material::Earth,
    Material::Plaster,
    Material::Timber,
    Material::Glass,
    Material::Insulation,
];

/// Puts the hatches on the sheet that fills name.
pub(super) fn define(sheet: &mut Sheet) {
    for material in HATCHED {
        sheet.define(hatch::pattern(material));
    }
}

/// Draws every outline of a part.
pub(super) fn draw(sheet: &mut Sheet, part: &Part) {
    for meaning in [Meaning::Hidden, Meaning::Seen, Meaning::Cut] {
        let outlines: Vec<_> = part.outlines.iter().filter(|outline| outline.meaning == meaning).collect();
        let points: Vec<Vec<[f64; 2]>> = outlines.iter().map(|outline| sheet.points(outline)).collect();
        let runs: Vec<Run<'_>> = outlines
            .iter()
            .zip(&points)
            .map(|(outline, points)| if outline.closed { Run::Closed(points) } else { Run::Open(points) })
            .collect();
        if runs.is_empty() {
            continue;
        }
        let closed = outlines.iter().all(|outline| outline.closed);
        let fill = match (part.material, meaning) {
            (Material::Opening, Meaning::Seen) if closed => LIME.to_owned(),
            (material, Meaning::Cut) if closed && HATCHED.contains(&material) => {
                format!("url(#{})", hatch::name(material, Light::Even))
            }
            _ => "none".to_owned(),
        };
        let (width, dashes) = match meaning {
            Meaning::Cut => (weight::CUT, None),
            Meaning::Seen => (weight::SEEN, None),
            Meaning::Hidden => (weight::HIDDEN, Some("2 1.2")),
        };
        let drawn = Element::path(&runs).with("fill", fill).with("stroke", INK).with("stroke-width", width);
        let drawn = drawn.with("stroke-linejoin", "round").data_path(&part.path);
        sheet.push(match dashes {
            Some(dashes) => drawn.with("stroke-dasharray", dashes),
            None => drawn,
        });
        // Beds run through all the cob: words have to stand across them.
        let cost = match meaning {
            Meaning::Cut => 3.0,
            _ if part.path.starts_with("wall.lifts.") => 0.1,
            _ => 1.0,
        };
        for (outline, points) in outlines.iter().zip(&points) {
            let spaced: Vec<[f64; 2]> = thinned(points);
            sheet.avoid(&spaced, outline.closed, cost);
        }
    }
}

/// Enough points of a smooth line for labels to keep off it.
fn thinned(points: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut kept: Vec<[f64; 2]> = Vec::new();
    for (index, &point) in points.iter().enumerate() {
        let far = kept.last().is_none_or(|last| (last[0] - point[0]).hypot(last[1] - point[1]) > 2.0);
        if far || index + 1 == points.len() {
            kept.push(point);
        }
    }
    kept
}
