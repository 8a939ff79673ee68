//! Sections and elevations with their levels: what is cut, what is seen beyond, and how high it lies.

use engine::answers::Answers;
use engine::house::Detail;
use engine::house::handles::On;
use engine::house::part::{Dimension, Level, Material, Meaning, Outline, Place, Section};
use engine::units::{Fineness, Quantity};
use kurbo::{Point, Rect};

use super::area::Area;
use super::frame::Frame;
use super::labels::Label;
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, dimension, material};
use crate::lettering;
use crate::paper::{INK, Paper, SLATE, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// From the drawn part to the words of its levels, and blank paper behind them, in millimetres.
const BESIDE_LEVELS: f64 = 7.5;

const SECTION: &str = "Cross-section of the house";
const UNROLLED: &str = "The wall unrolled, seen from outside";

/// The cross-section at the largest true scale that fits the paper.
#[must_use]
pub fn section(answers: &Answers, paper: Paper) -> Scaled {
    let margins = Margins { left: 2.0, top: 14.0, right: 0.0, bottom: 8.0 };
    let rows = [&answers.section];
    drawn(answers, sheet(answers, paper, SECTION, margins, &rows), &rows, Some(On::Section))
}

/// The cross-section in the frame of an earlier one.
#[must_use]
pub fn section_held(answers: &Answers, frame: &Frame) -> Scaled {
    drawn(answers, Sheet::held(SECTION, frame, answers.system), &[&answers.section], Some(On::Section))
}

/// The wall unrolled and seen from outside, in one row or in two, whichever shows it at the larger true scale.
#[must_use]
pub fn unrolled(answers: &Answers, paper: Paper) -> Scaled {
    let margins = Margins { left: 5.0, top: 13.0, right: 0.0, bottom: 9.0 };
    let whole = (&answers.unrolled, Some(On::Unrolled));
    larger(answers, paper, UNROLLED, margins, whole, &answers.unrolled_rows)
}

/// The wall unrolled in the frame of an earlier drawing, in as many rows as that has.
#[must_use]
pub fn unrolled_held(answers: &Answers, frame: &Frame) -> Scaled {
    let sheet = Sheet::held(UNROLLED, frame, answers.system);
    if frame.rows() == 1 {
        drawn(answers, sheet, &[&answers.unrolled], Some(On::Unrolled))
    } else {
        drawn(answers, sheet, &answers.unrolled_rows.each_ref(), Some(On::Unrolled))
    }
}

/// The long section of the trench, one half of it, and of its drain, in one row or in two, whichever shows it at the larger
/// true scale; `None` without a trench.
#[must_use]
pub fn trench_section(answers: &Answers, paper: Paper) -> Option<Scaled> {
    let margins = Margins { left: 18.0, top: 8.0, right: 0.0, bottom: 12.0 };
    let title = "Long section of the trench, from its high end one way round to the outlet, and of the drain";
    let whole = answers.trench_section.as_ref()?;
    Some(larger(answers, paper, title, margins, (whole, None), &answers.trench_rows))
}

/// A detail at the largest true scale that fits the paper.
#[must_use]
pub fn detail(answers: &Answers, detail: &Detail, paper: Paper) -> Scaled {
    // Beside the wall there is little but the names of what is in it.
    let left = match detail.name {
        "stem-detail" => 8.0,
        "window-plan-detail" => 3.0,
        _ => 34.0,
    };
    let margins = Margins { left, top: 4.0, right: 0.0, bottom: 10.0 };
    let rows = [&detail.section];
    drawn(answers, sheet(answers, paper, &detail.title, margins, &rows), &rows, None)
}

/// Whichever is larger on the paper, the whole or its rows below each other; the whole when both are alike.
fn larger(
    answers: &Answers,
    paper: Paper,
    title: &str,
    margins: Margins,
    (whole, held): (&Section, Option<On>),
    rows: &[Section],
) -> Scaled {
    let (whole, rows) = ([whole], rows.iter().collect::<Vec<_>>());
    let (one, several) = (sheet(answers, paper, title, margins, &whole), sheet(answers, paper, title, margins, &rows));
    if several.times_smaller() < one.times_smaller() {
        drawn(answers, several, &rows, held)
    } else {
        drawn(answers, one, &whole, held)
    }
}

/// A sheet for sections below each other, each with room for the words of its levels on the right.
fn sheet(answers: &Answers, paper: Paper, title: &str, margins: Margins, rows: &[&Section]) -> Sheet {
    let row = |section: &&Section| {
        let right = beside_levels(answers, section);
        (extent(&section.parts), Margins { right, ..margins })
    };
    let rows: Vec<_> = rows.iter().map(row).collect();
    Sheet::new(title, &rows, paper.room(paper.drawing_mm()), answers.system)
}

/// Room for the words of the levels of a section on its right, in millimetres.
pub(super) fn beside_levels(answers: &Answers, section: &Section) -> f64 {
    let widths = section.levels.iter().map(|level| lettering::width(&words(answers, level), LETTERING));
    BESIDE_LEVELS + widths.fold(0.0, f64::max)
}

/// Sections below each other, and where a finger takes hold of them.
fn drawn(answers: &Answers, mut sheet: Sheet, rows: &[&Section], held: Option<On>) -> Scaled {
    material::define(&mut sheet);
    for (row, section) in rows.iter().enumerate() {
        sheet.turn_to(row);
        if let Some(on) = held {
            sheet.avoid_handles(answers, on);
        }
        draw(&mut sheet, answers, section);
    }
    sheet.finished()
}

pub(super) fn draw(sheet: &mut Sheet, answers: &Answers, section: &Section) {
    ground_and_levels(sheet, answers, section);
    for dimension in &section.dimensions {
        dimension::draw(sheet, answers, dimension, clearance(dimension));
    }
    for place in &section.places {
        name(sheet, answers, section, place);
    }
}

/// The parts of a section and, to the right of them, its levels.
pub(super) fn ground_and_levels(sheet: &mut Sheet, answers: &Answers, section: &Section) {
    for part in &section.parts {
        if part.material == Material::Ground {
            grass(sheet, &part.outlines);
        }
        material::draw(sheet, part);
    }
    let right = sheet.right_of(extent(&section.parts));
    let marks: Vec<[f64; 2]> =
        section.levels.iter().map(|level| sheet.at(Point::new(right, level.at.in_m()))).collect();
    let heights: Vec<f64> = marks.iter().map(|[_, y]| *y).collect();
    for ((level, mark), beside) in section.levels.iter().zip(marks).zip(spread(&heights, sheet.lines_between())) {
        draw_level(sheet, answers, level, mark, beside);
    }
}

/// How far a dimension line stands off: those of an opening near it, others clear of the part.
fn clearance(dimension: &Dimension) -> f64 {
    match dimension.path.rsplit('.').next() {
        _ if dimension.path.contains(".frame.") => 6.0,
        Some("sill" | "height" | "depth" | "low-depth") => 2.0,
        _ => 6.0,
    }
}

/// The name of a place: in its opening where it fits, a slope below the line that has it, a named point of the wall line
/// below its tick, a lift in its band, all else where it is.
fn name(sheet: &mut Sheet, answers: &Answers, section: &Section, place: &Place) {
    let at = sheet.at(place.at);
    let line = LETTERING * 0.75;
    let words = spoken(&place.name);
    let slope = answers.rows.find(&place.path).map(|row| row.quantity);
    let (words, preferred) = if let Some(slope @ Quantity::Slope(_)) = slope {
        let slope = slope.shown(answers.system, Fineness::Figure);
        (format!("{words} {slope}"), vec![[at[0], at[1] + line], [at[0], at[1] - line]])
    } else if place.path.starts_with("wall.line.") {
        let foot = [at[0], at[1] + 2.5];
        let tick = Element::line(at, foot).with("stroke", INK).with("stroke-width", weight::SEEN);
        sheet.push(tick.data_path(&place.path));
        (words, vec![[at[0], foot[1] + line]])
    } else if place.path.ends_with(".thickness") || place.path.ends_with(".gap") {
        let Some(thickness) = answers.rows.find(&place.path) else { return };
        let words = format!("{words} {}", thickness.shown(answers.system));
        // A coat is thinner than its name is high: the name stands on its open side.
        let aside = lettering::width(&words, LETTERING) * 0.5 + 4.0;
        let preferred = match place.path.split('.').nth(1) {
            Some("outside") => [at[0] - aside, at[1]],
            Some("inside") => [at[0] + aside, at[1]],
            _ => at,
        };
        (words, vec![preferred])
    } else if place.path.matches('.').count() == 1 && place.path.starts_with("openings.") {
        in_opening(sheet, section, place)
    } else if place.path.starts_with("wall.lifts.") {
        let right = sheet.at(Point::new(extent(&section.parts).x1, 0.0))[0];
        // Enough places along the band that none of another band is nearer.
        let aside = (0..48).flat_map(|step| [0.0, 0.3, 0.6].map(|down| [4.0 * f64::from(step), down]));
        let places = aside.map(|[right, down]| [at[0] + right, at[1] + down]);
        let half = lettering::width(&words, LETTERING) * 0.5;
        // In an opening the name would say nothing of the lift.
        let openings = holes(sheet, section);
        let is_clear = |[x, y]: &[f64; 2]| {
            x + half < right
                && !openings.iter().any(|hole| hole.overlaps(Area::about([*x, *y], 2.0 * half, LETTERING * 0.5)))
        };
        (words, places.filter(is_clear).collect())
    } else {
        (words, vec![at])
    };
    // A lift's name beside its band would be that of another.
    let stays = place.path.starts_with("wall.lifts.");
    sheet.label(Label { path: place.path.clone(), preferred, stays, ..Label::beside(at, LETTERING, &words) });
}

/// The openings on paper, each as a box.
fn holes(sheet: &Sheet, section: &Section) -> Vec<Area> {
    let outlines =
        section.parts.iter().filter(|part| part.path.starts_with("openings.")).flat_map(|part| &part.outlines);
    outlines.map(|outline| Area::round(&sheet.points(outline))).collect()
}

/// The name of an opening, one word a line inside it where it is wide enough, else on one line over it or under it.
fn in_opening(sheet: &Sheet, section: &Section, place: &Place) -> (String, Vec<[f64; 2]>) {
    let [x, y] = sheet.at(place.at);
    let outlines = section.parts.iter().filter(|part| part.path == place.path).flat_map(|part| &part.outlines);
    let corners = |outline: &Outline| Some((*outline.points.first()?, *outline.points.get(2)?));
    let spans = outlines.filter_map(corners).map(|(from, to)| Rect::from_points(from, to));
    let size = spans.into_iter().find(|span| span.contains(place.at)).unwrap_or_default();
    let widest = place.name.split('-').map(|word| lettering::width(word, LETTERING)).fold(0.0, f64::max);
    if widest + LETTERING * 0.5 < sheet.paper(size.width()) {
        // Above or below the middle, where on a screen a finger takes hold of it.
        let aside = sheet.paper(size.height()) * 0.3;
        return (place.name.replace('-', "\n"), vec![[x, y], [x, y - aside], [x, y + aside]]);
    }
    let words = spoken(&place.name);
    let aside = sheet.paper(size.height()) * 0.5 + LETTERING * 0.8;
    (words, vec![[x, y - aside], [x, y + aside]])
}

/// Short strokes under the line of the ground where it is cut.
fn grass(sheet: &mut Sheet, outlines: &[Outline]) {
    for outline in outlines.iter().filter(|outline| outline.meaning == Meaning::Cut) {
        for run in sheet.points(outline).windows(2) {
            let ([first, y], [last, end]) = (run[0], run[1]);
            let count = ((last - first).abs() / 2.2).floor() as u32;
            for step in 0..count {
                let along = 2.2 * f64::from(step) + 1.4;
                let (x, y) = (first + along, y + (end - y) * along / (last - first));
                let stroke = Element::line([x, y + 0.6], [x - 1.2, y + 2.2]);
                sheet.push(stroke.with("stroke", SLATE).with("stroke-width", weight::THIN));
            }
        }
    }
}

/// What is written at a level: the height over the foot of the cob and the name.
fn words(answers: &Answers, level: &Level) -> String {
    let height = Quantity::from(level.at).shown(answers.system, Fineness::SetOut);
    let sign = if level.at.in_m() > 0.0 { "+" } else { "" };
    format!("{sign}{height} {}", spoken(&level.name))
}

/// From line to line of words beside levels, in millimetres.
pub(super) const LINE: f64 = LETTERING * 1.4;

/// Where words stand beside marks that come from below to above, in sheet millimetres: as near to them, together, as a
/// line's distance from each other allows (isotonic regression by pooling neighbours), and on the sheet, between its highest line
/// and its lowest; words that are too many for it go on below.
pub(super) fn spread(marks: &[f64], [highest, lowest]: [f64; 2]) -> Vec<f64> {
    let line = LINE;
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (index, mark) in marks.iter().enumerate() {
        let (mut sum, mut count) = (mark + line * index as f64, 1);
        while let Some(&(below, of)) = pools.last()
            && below / of as f64 <= sum / count as f64
        {
            (sum, count) = (sum + below, count + of);
            pools.pop();
        }
        pools.push((sum, count));
    }
    let level = pools.into_iter().flat_map(|(sum, count)| std::iter::repeat_n(sum / count as f64, count));
    // Levelled by their order, all of them have the same room: what is moved into it still is nearest.
    let top = highest + line * marks.len().saturating_sub(1) as f64;
    level.enumerate().map(|(index, level)| level.min(lowest).max(top) - line * index as f64).collect()
}

/// A level: a thin line clear of what is drawn, a triangle on it, and its words.
fn draw_level(sheet: &mut Sheet, answers: &Answers, level: &Level, [x, y]: [f64; 2], beside: f64) {
    let (from, to) = ([x + 0.8, y], [x + 5.0, y]);
    sheet.push(Element::line(from, to).with("stroke", SLATE).with("stroke-width", weight::THIN));
    let triangle = [[x + 2.4, y], [x + 1.3, y - 1.9], [x + 3.5, y - 1.9]];
    sheet.push(Element::polygon(&triangle).with("stroke", INK).with("stroke-width", weight::THIN));
    sheet.avoid(&[from, to], false, 6.0);
    sheet.avoid(&triangle, true, 6.0);
    let words = words(answers, level);
    let middle = x + 6.0 + lettering::width(&words, LETTERING) * 0.5;
    let label = Label::beside(to, LETTERING, &words);
    sheet.label(Label { path: level.path.clone(), preferred: vec![[middle, beside]], stays: true, ..label });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_levels_stand_a_line_apart_and_stay_where_they_have_room() {
        let line = LINE;
        let [low, close, far] = spread(&[30.0, 29.0, 10.0], [0.0, 40.0])[..] else {
            panic!("three marks, three places")
        };
        assert!((low - close - line).abs() < 1e-12 && (low + close - 59.0).abs() < 1e-12);
        assert!((far - 10.0).abs() < 1e-12);
    }

    #[test]
    fn words_of_levels_stay_on_the_sheet_and_a_line_apart() {
        let line = LINE;
        let near =
            |found: Vec<f64>, told: [f64; 3]| found.iter().zip(told).all(|(one, other)| (one - other).abs() < 1e-12);
        assert!(near(spread(&[6.0, 5.0, 4.0], [3.0, 40.0]), [3.0 + 2.0 * line, 3.0 + line, 3.0]));
        assert!(near(spread(&[39.0, 39.0, 10.0], [3.0, 40.0]), [40.0, 40.0 - line, 10.0]));
        assert!(near(spread(&[6.0, 5.0, 4.0], [3.0, 5.0]), [3.0 + 2.0 * line, 3.0 + line, 3.0]));
    }
}
