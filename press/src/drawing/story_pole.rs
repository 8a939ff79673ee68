//! The story pole: one lath with every mark of height, from the benchmark on its left and from its own foot on its right.

use engine::answers::Answers;
use engine::house::Mark;
use engine::units::Length;
use kurbo::{Point, Rect};

use super::Scaled;
use super::labels::Label;
use super::section::{LINE, spread};
use super::sheet::{LETTERING, Margins, Sheet};
use crate::lettering;
use crate::paper::{INK, Paper, SLATE, STRAW, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// Width of the pole on paper, in millimetres.
const WIDTH: f64 = 7.0;

/// From the pole to its words, in millimetres.
const LEADER: f64 = 9.0;

/// Words beside the pole: at which level, what they say, the row they show.
struct Beside {
    level: Length,
    words: String,
    path: String,
}

/// The story pole at the largest true scale that fits the paper.
#[must_use]
pub fn story_pole(answers: &Answers, paper: Paper) -> Scaled {
    let (left, right) = (from_benchmark(answers), on_pole(answers));
    let widest = |list: &[Beside]| list.iter().map(|one| lettering::width(&one.words, LETTERING)).fold(24.0, f64::max);
    let mut margins = Margins {
        left: widest(&left) + LEADER + 3.0,
        top: 14.0,
        right: WIDTH + LEADER + 3.0 + widest(&right),
        bottom: 9.0,
    };
    let levels = || left.iter().chain(&right).map(|one| one.level.in_m());
    let (low, high) = (levels().fold(f64::INFINITY, f64::min), levels().fold(f64::NEG_INFINITY, f64::max));
    let on = |margins: Margins| {
        let row = (Rect::new(0.0, low, 0.0, high), margins);
        Sheet::new("Story pole", &[row], paper.room(paper.drawing_mm()), answers.system)
    };
    let mut sheet = on(margins);
    // A pole that is drawn short has room for its words above and below it.
    let [highest, lowest] = sheet.lines_between();
    let lacks = LINE * (left.len().max(right.len()) + 3) as f64 - (lowest - highest);
    if lacks > 0.0 {
        margins = Margins { top: margins.top + 0.5 * lacks, bottom: margins.bottom + 0.5 * lacks, ..margins };
        sheet = on(margins);
    }
    pole(&mut sheet, &answers.story_pole);
    column(&mut sheet, &left, -1.0, "from the benchmark");
    column(&mut sheet, &right, 1.0, "on the pole");
    sheet.finished()
}

fn from_benchmark(answers: &Answers) -> Vec<Beside> {
    let of = |mark: &Mark| {
        let row = answers.rows.find(&mark.path("from-benchmark"))?;
        let value: Length = row.quantity.try_into().ok()?;
        let sign = if value > Length::ZERO { "+" } else { "" };
        Some(Beside {
            level: mark.level,
            words: format!("{sign}{}", row.shown(answers.system)),
            path: row.path.clone(),
        })
    };
    let mut list: Vec<Beside> = answers.story_pole.iter().filter_map(of).collect();
    let path = "site.set-out.benchmark";
    if let Some(level) = answers.rows.value::<Length>(path) {
        list.push(Beside { level, words: "benchmark".to_owned(), path: path.to_owned() });
    }
    list.sort_by(|a, b| a.level.in_m().total_cmp(&b.level.in_m()));
    list
}

fn on_pole(answers: &Answers) -> Vec<Beside> {
    let of = |mark: &Mark| {
        let name = spoken(&mark.name);
        match answers.rows.find(&mark.path("on-pole")) {
            Some(row) => {
                let words = format!("{}   {name}", row.shown(answers.system));
                Beside { level: mark.level, words, path: row.path.clone() }
            }
            None => Beside { level: mark.level, words: format!("foot   {name}"), path: mark.path("from-benchmark") },
        }
    };
    answers.story_pole.iter().map(of).collect()
}

fn pole(sheet: &mut Sheet, marks: &[Mark]) {
    let (Some(first), Some(last)) = (marks.first(), marks.last()) else { return };
    let [foot, top] = [first, last].map(|mark| sheet.at(Point::new(0.0, mark.level.in_m())));
    let body = Element::rectangle([top[0], top[1] - 2.0], WIDTH, foot[1] - top[1] + 2.0);
    let body = body.with("fill", STRAW).with("fill-opacity", 0.25);
    sheet.push(body.with("stroke", INK).with("stroke-width", weight::SEEN).data_path("set-out.pole"));
    for mark in marks {
        let [x, y] = sheet.at(Point::new(0.0, mark.level.in_m()));
        let line = Element::line([x, y], [x + WIDTH, y]).with("stroke", INK).with("stroke-width", weight::SEEN);
        sheet.push(line.data_path(&format!("set-out.pole.{}", mark.key)));
    }
}

/// A column of words on one side of the pole, each with a thin line to its mark.
fn column(sheet: &mut Sheet, list: &[Beside], side: f64, title: &str) {
    let edge = if side < 0.0 { 0.0 } else { WIDTH };
    let marks: Vec<[f64; 2]> = list.iter().map(|one| sheet.at(Point::new(0.0, one.level.in_m()))).collect();
    let heights: Vec<f64> = marks.iter().map(|[_, y]| *y).collect();
    let mut highest = f64::INFINITY;
    let mut start = 0.0;
    for ((one, [x, y]), beside) in list.iter().zip(marks).zip(spread(&heights, sheet.lines_between())) {
        let (near, far) = ([x + edge, y], [x + edge + side * LEADER, beside]);
        let knee = [near[0] + side * 2.0, y];
        let line = Element::polyline(&[near, knee, far]).with("stroke", SLATE).with("stroke-width", weight::THIN);
        sheet.push(line.data_path(&one.path));
        let middle = far[0] + side * (lettering::width(&one.words, LETTERING) * 0.5 + 1.0);
        let label = Label::beside(far, LETTERING, &one.words);
        sheet.label(Label { preferred: vec![[middle, beside]], path: one.path.clone(), ..label });
        (highest, start) = (highest.min(beside), far[0]);
    }
    let middle = start + side * (lettering::width(title, LETTERING) * 0.5 + 1.0);
    let at = [middle, highest - LETTERING * 2.2];
    sheet.label(Label { preferred: vec![at], ..Label::beside(at, LETTERING, title) });
}
