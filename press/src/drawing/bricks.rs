//! What each test brick bore, one line a brick, with the mean, what can be relied on, and what a rule wants.

use engine::answers::Answers;
use engine::pictures::{BrickLot, TestedBrick};
use engine::row::shown;
use engine::units::{Pressure, Quantity, System};

use super::Scaled;
use super::lettered::Lettered;
use crate::bricks::{title, wanted};
use crate::lettering;
use crate::paper::{INK, LIME, Paper, SLATE, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// Letters, in millimetres.
pub(super) const LETTERS: f64 = 2.8;
/// From line to line of bricks, and of what is said over them, in millimetres.
const LINES: [f64; 2] = [5.4, 4.8];
/// Radius of a brick's mark, in millimetres.
const MARK: f64 = 1.15;
/// Names that take more of the width than this give way to numbers and a key.
const NAMES: f64 = 0.3;
/// No picture is wider, in millimetres.
pub(super) const WIDEST: f64 = 170.0;

/// A strength that is drawn as a line from the words above down through all bricks.
struct Line {
    at: Pressure,
    words: String,
    path: String,
    wide: f64,
    dashes: &'static str,
}

/// The strengths of a lot.
#[must_use]
pub fn bricks(answers: &Answers, lot: &BrickLot, paper: Paper) -> Scaled {
    let lines = lines(answers, lot);
    let said: Vec<String> = lot.bricks.iter().map(|brick| said(answers.system, brick)).collect();
    let width = paper.drawing_mm()[0].min(WIDEST);
    let widest = |words: &[String]| words.iter().map(|words| lettering::width(words, LETTERS)).fold(0.0_f64, f64::max);
    let mut names: Vec<String> = lot.bricks.iter().map(|brick| spoken(&brick.name)).collect();
    let mut key = Vec::new();
    if widest(&names) > NAMES * width {
        key = (1..).zip(std::mem::take(&mut names)).collect();
        names = (1..=lot.bricks.len()).map(|number| number.to_string()).collect();
    }
    let left = 3.0 + widest(&names);
    let right = 4.0 + widest(&said);
    let top = 2.0 + LINES[1] * lines.len() as f64;
    let bottom = top + LINES[0] * lot.bricks.len() as f64 + 1.0;
    let mut sheet = Lettered::new([width, bottom + 6.0], LETTERS, &title(lot));
    let axis = Axis::of(
        answers.system,
        lot.bricks.iter().map(|brick| brick.strength).chain(lines.iter().map(|line| line.at)),
        [left, width - right],
    );
    axis.across(&mut sheet, [top, bottom]);
    for (place, line) in lines.iter().enumerate() {
        let from = 2.0 + LINES[1] * (place as f64 + 0.5);
        line.drawn(&mut sheet, axis.at(line.at), [from, bottom], width);
    }
    for (place, (brick, said)) in lot.bricks.iter().zip(&said).enumerate() {
        let y = top + LINES[0] * (place as f64 + 0.5);
        let path = lot.path_of(brick, "strength");
        let x = axis.at(brick.strength);
        let thread = Element::line([left, y], [x, y]).with("stroke", SLATE).with("stroke-width", weight::THIN);
        sheet.push(thread);
        mark(&mut sheet, [x, y], brick, &path);
        sheet.words([1.0, y + 0.9], &names[place], &path);
        sheet.words([width - right + 2.0, y + 0.9], said, &path);
    }
    sheet.key = key;
    sheet.scaled()
}

/// What a brick bore and, where it is known of a damp one, how damp it was.
fn said(system: System, brick: &TestedBrick) -> String {
    let strength = shown(Quantity::from(brick.strength), system);
    match brick.moisture.filter(|_| brick.is_damp) {
        Some(moisture) => format!("{strength} at {}", shown(Quantity::from(moisture), system)),
        None => strength,
    }
}

/// A disc for a dry brick, a ring for a damp one, crossed where it is strange.
pub(super) fn mark(sheet: &mut Lettered, [x, y]: [f64; 2], brick: &TestedBrick, path: &str) {
    let fill = if brick.is_damp { LIME } else { INK };
    let disc = Element::circle([x, y], MARK).with("fill", fill).with("stroke", INK);
    sheet.push(disc.with("stroke-width", weight::SEEN).data_path(path));
    if brick.is_strange {
        let out = 1.8 * MARK;
        for side in [-out, out] {
            let stroke = Element::line([x - out, y - side], [x + out, y + side]).with("stroke", INK);
            sheet.push(stroke.with("stroke-width", weight::SEEN));
        }
    }
}

/// Mean, lower bound and what rules want, the least first: whose words stand higher is farther to the left, so that no line runs
/// through the words of another.
fn lines(answers: &Answers, lot: &BrickLot) -> Vec<Line> {
    let own = [("mean", "mean", weight::SEEN, "2 1.2"), ("lower-bound", "95 of 100 exceed", weight::SEEN, "")];
    let own = own.into_iter().filter_map(|(noun, words, wide, dashes)| {
        let row = answers.rows.find(&lot.path(noun))?;
        let at = answers.rows.value(&row.path)?;
        Some(Line { at, words: format!("{words} {}", row.shown(answers.system)), path: row.path.clone(), wide, dashes })
    });
    let wanted = wanted(answers, lot).into_iter().filter_map(|(noun, check)| {
        let limit = check.rule.limit.as_ref()?;
        let borrowed = if check.rule.borrowed.is_some() { "borrowed: " } else { "" };
        let words = format!("{borrowed}{} wanted of the {noun}", limit.in_words(answers.system));
        let path = check.path.clone().filter(|path| answers.rows.find(path).is_some()).unwrap_or_default();
        Some(Line { at: Pressure::pa(limit.bound.si()?), words, path, wide: weight::CUT, dashes: "" })
    });
    let mut lines: Vec<Line> = own.chain(wanted).collect();
    lines.sort_by(|one, other| one.at.in_pa().total_cmp(&other.at.in_pa()));
    lines
}

impl Line {
    fn drawn(&self, sheet: &mut Lettered, x: f64, [from, to]: [f64; 2], width: f64) {
        let stroke = Element::line([x, from], [x, to]).with("stroke", INK).with("stroke-width", self.wide);
        let stroke = if self.dashes.is_empty() { stroke } else { stroke.with("stroke-dasharray", self.dashes) };
        sheet.push(if self.path.is_empty() { stroke } else { stroke.data_path(&self.path) });
        let wide = lettering::width(&self.words, LETTERS);
        // Words for which there is no room on the right of their line stand on its left.
        let is_right = x + 1.2 + wide < width;
        let left = if is_right { x + 1.2 } else { (x - 1.2 - wide).max(0.5) };
        if !is_right {
            sheet.push(Element::rectangle([left - 0.3, from - 2.0], wide + 0.6, 3.6).with("fill", LIME));
        }
        sheet.words([left, from + 0.9], &self.words, &self.path);
    }
}

/// An axis of strengths from none upwards.
pub(super) struct Axis {
    system: System,
    most: Pressure,
    step: f64,
    ends: [f64; 2],
}

impl Axis {
    /// An axis on which all of these have their place, from one end to the other, in millimetres.
    pub(super) fn of(system: System, strengths: impl Iterator<Item = Pressure>, ends: [f64; 2]) -> Axis {
        let most = strengths.fold(Pressure::pa(1.0), Pressure::max) * 1.06;
        Axis { system, most, step: step(number(system, most), (ends[1] - ends[0]).abs()), ends }
    }

    pub(super) fn at(&self, strength: Pressure) -> f64 {
        let share = (strength.max(Pressure::ZERO) / self.most).min(1.0);
        self.ends[0] + share * (self.ends[1] - self.ends[0])
    }

    /// Numbers of the axis with their places.
    pub(super) fn numbers(&self) -> Vec<(String, f64)> {
        let most = number(self.system, self.most);
        let count = (most / self.step).floor() as u32;
        let numbers = (0..=count).map(|place| f64::from(place) * self.step);
        let place = |number: f64| self.ends[0] + number / most * (self.ends[1] - self.ends[0]);
        numbers.map(|number| (written(number, self.step), place(number))).collect()
    }

    /// The axis below the bricks, its unit at the right.
    fn across(&self, sheet: &mut Lettered, [top, bottom]: [f64; 2]) {
        let [left, right] = self.ends;
        let frame = Element::polyline(&[[left, top], [left, bottom], [right, bottom]]).with("fill", "none");
        sheet.push(frame.with("stroke", INK).with("stroke-width", weight::THIN));
        for (words, x) in self.numbers() {
            let tick = Element::line([x, bottom], [x, bottom + 1.0]).with("stroke", INK);
            sheet.push(tick.with("stroke-width", weight::THIN));
            sheet.words([x - 0.5 * lettering::width(&words, LETTERS), bottom + 4.2], &words, "");
        }
        sheet.words([right + 4.6, bottom + 4.2], unit(self.system), "");
    }
}

pub(super) fn unit(system: System) -> &'static str {
    match system {
        System::Metric => "kPa",
        System::Us => "psi",
    }
}

fn number(system: System, strength: Pressure) -> f64 {
    match system {
        System::Metric => strength.in_kpa(),
        System::Us => strength.in_psi(),
    }
}

/// A number of an axis with no more digits than its steps need.
pub(super) fn written(number: f64, step: f64) -> String {
    let digits = (-step.log10().floor()).max(0.0) as usize;
    format!("{number:.digits$}")
}

/// A step of 1, 2 or 5 and noughts, so that numbers on so many millimetres do not crowd.
pub(super) fn step(most: f64, mm: f64) -> f64 {
    let least = most * 14.0 / mm.max(14.0);
    let tens = 10_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|times| times * tens).find(|step| *step >= least).unwrap_or(10.0 * tens)
}

#[cfg(test)]
mod tests {
    use super::{step, written};

    #[test]
    fn numbers_of_an_axis_are_round_and_stand_apart() {
        assert_eq!([step(1000.0, 100.0), step(160.0, 60.0), step(0.12, 50.0)], [200.0, 50.0, 0.05]);
        assert_eq!([written(600.0, 200.0), written(3.0 * 0.05, 0.05)], ["600", "0.15"]);
    }
}
