//! Dimension lines with their numbers, read from the row that the dimension names.

use engine::answers::Answers;
use engine::house::part::{Dimension, Measured};
use engine::units::Fineness;
use kurbo::Vec2;

use super::labels::Label;
use super::lettering_box::Turn;
use super::sheet::{LETTERING, Sheet};
use crate::lettering;
use crate::paper::{SLATE, weight};
use crate::svg::Element;

/// What the ticks take from an upright line, in millimetres; words too long for the rest stand level beside it.
const TICKS: f64 = 1.5;

/// What the number of a row reads: set out to 1 mm or 1/16 in, built to 5 mm or 1/8 in.
pub(super) fn number(answers: &Answers, path: &str) -> Option<String> {
    let set_out = [".radius", ".along", ".x", ".y"].iter().any(|noun| path.ends_with(noun));
    let fineness = if set_out { Fineness::SetOut } else { Fineness::Hand };
    Some(answers.rows.find(path)?.quantity.shown(answers.system, fineness))
}

/// What the row of a mark on a pole reads: to 5 mm or 1/4 in.
pub(super) fn marked(answers: &Answers, path: &str) -> Option<String> {
    Some(answers.rows.find(path)?.quantity.shown(answers.system, Fineness::Mark))
}

/// Draws a dimension; `clear` is how far its line stands off what it measures, in millimetres.
pub(super) fn draw(sheet: &mut Sheet, answers: &Answers, dimension: &Dimension, clear: f64) {
    said(sheet, answers, dimension, (clear, ""));
}

/// Draws it with words after its number.
pub(super) fn said(sheet: &mut Sheet, answers: &Answers, dimension: &Dimension, (clear, after): (f64, &str)) {
    let Some(number) = number(answers, &dimension.path) else { return };
    let words = format!("{number}{after}");
    match dimension.measured {
        Measured::Between { from, to, away } => {
            let off = sheet.direction(away).map(|part| part * clear);
            let ends = [from, to].map(|point| {
                let [x, y] = sheet.at(point);
                ([x, y], [x + off[0], y + off[1]])
            });
            between(sheet, &dimension.path, ends, &words);
        }
        Measured::Radius { centre, on } => {
            let (centre, on) = (sheet.at(centre), sheet.at(on));
            let reach = Vec2::new(on[0] - centre[0], on[1] - centre[1]);
            let inward = -reach.normalize() * reach.hypot().min(16.0);
            let from = [on[0] + inward.x, on[1] + inward.y];
            line(sheet, from, on);
            tick(sheet, on, reach);
            let label = Label { path: dimension.path.clone(), ..Label::beside(from, LETTERING, &format!("R {words}")) };
            sheet.avoid(&[from, on], false, 1.0);
            sheet.label(label);
        }
    }
}

fn between(sheet: &mut Sheet, path: &str, ends: [([f64; 2], [f64; 2]); 2], words: &str) {
    let [(from, a), (to, b)] = ends;
    let along = Vec2::new(b[0] - a[0], b[1] - a[1]);
    if (from[0] - a[0]).hypot(from[1] - a[1]) > 1.0 {
        line(sheet, gap(from, a), a);
        line(sheet, gap(to, b), b);
    }
    line(sheet, a, b);
    tick(sheet, a, along);
    tick(sheet, b, along);
    sheet.avoid(&[a, b], false, 1.5);
    let is_upright = along.y.abs() > 2.0 * along.x.abs();
    let middle = [(a[0] + b[0]) * 0.5, (a[1] + b[1]) * 0.5];
    let beside = LETTERING * 0.75;
    let width = lettering::width(words, LETTERING);
    let (turn, preferred) = if is_upright && width > along.hypot() - TICKS {
        let aside = width * 0.5 + LETTERING * 0.4;
        // Away from the part first: beside a short line the words are wider than its distance from the part.
        let outward = if a[0] < from[0] { -aside } else { aside };
        (Turn::Level, vec![[middle[0] + outward, middle[1]], [middle[0] - outward, middle[1]]])
    } else if is_upright {
        (Turn::Upright, vec![[middle[0] - beside, middle[1]], [middle[0] + beside, middle[1]]])
    } else if along.x.abs() > 2.0 * along.y.abs() {
        (Turn::Level, vec![[middle[0], middle[1] - beside], [middle[0], middle[1] + beside]])
    } else {
        (Turn::Level, Vec::new())
    };
    let stays = !preferred.is_empty();
    sheet.label(Label { turn, preferred, path: path.to_owned(), stays, ..Label::beside(middle, LETTERING, words) });
}

/// A millimetre from the part towards the dimension line, where its witness line begins.
fn gap(from: [f64; 2], to: [f64; 2]) -> [f64; 2] {
    let way = Vec2::new(to[0] - from[0], to[1] - from[1]).normalize();
    [from[0] + way.x, from[1] + way.y]
}

fn line(sheet: &mut Sheet, from: [f64; 2], to: [f64; 2]) {
    sheet.push(Element::line(from, to).with("stroke", SLATE).with("stroke-width", weight::THIN));
}

fn tick(sheet: &mut Sheet, at: [f64; 2], along: Vec2) {
    let along = along.normalize();
    let slash = (along + along.turn_90()) * 0.9;
    let (from, to) = ([at[0] - slash.x, at[1] - slash.y], [at[0] + slash.x, at[1] + slash.y]);
    sheet.push(Element::line(from, to).with("stroke", SLATE).with("stroke-width", weight::SEEN));
}
