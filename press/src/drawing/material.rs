//! How a material and the meaning of a line are drawn: fills that also differ in black and white, weights by meaning.

use engine::house::part::{Material, Meaning, Part};

use super::sheet::Sheet;
use crate::paper::{CLAY, INK, LIME, SLATE, weight};
use crate::svg::{Element, Run};

/// Puts the hatches on the sheet that fills name.
pub(super) fn define(sheet: &mut Sheet) {
    let pattern = |id: &str, size: f64, marks: Vec<Element>| {
        let ground = Element::named("pattern").with("id", id.to_owned()).with("width", size).with("height", size);
        marks.into_iter().fold(ground.with("patternUnits", "userSpaceOnUse"), Element::child)
    };
    let stroke = |from, to| Element::line(from, to).with("stroke", SLATE).with("stroke-width", weight::THIN);
    let fleck = |from, to| Element::line(from, to).with("stroke", CLAY).with("stroke-width", 0.25);
    let ground = |size: f64, fill: &'static str, opacity: f64| {
        Element::rectangle([0.0, 0.0], size, size).with("fill", fill).with("fill-opacity", opacity)
    };
    sheet.define(pattern(
        "cob",
        5.0,
        vec![
            ground(5.0, CLAY, 0.2),
            fleck([0.7, 1.1], [2.0, 0.6]),
            fleck([3.4, 2.0], [4.2, 2.9]),
            fleck([1.2, 3.9], [2.4, 4.1]),
        ],
    ));
    sheet.define(pattern("stone", 3.0, vec![ground(3.0, SLATE, 0.1), stroke([0.0, 3.0], [3.0, 0.0])]));
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
            (Material::Cob, Meaning::Cut) if closed => "url(#cob)",
            (Material::Stone, Meaning::Cut) if closed => "url(#stone)",
            (Material::Opening, Meaning::Seen) if closed => LIME,
            _ => "none",
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
