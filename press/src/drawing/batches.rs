//! The strip of a log of batches: yield and moisture of each as dots, the band of the first ten behind them.

use engine::answers::Answers;
use engine::units::Ratio;

use super::Scaled;
use super::bricks::{LETTERS, WIDEST};
use super::hatch;
use super::lettered::Lettered;
use crate::batches::title;
use crate::lettering;
use crate::paper::{INK, LIME, Paper, SLATE, STRAW, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// Left, right, above and below a strip, in millimetres.
const ROUND: [f64; 4] = [15.0, 4.0, 6.5, 6.5];
/// Height of a strip, in millimetres.
const TALL: f64 = 26.0;
/// Radius of a dot, in millimetres.
const MARK: f64 = 1.1;
/// Numbers at the left stand no nearer to each other than this, in millimetres.
const APART: f64 = 3.6;
/// Share of the colour in the band.
const TINT: f64 = 0.35;

/// A log of batches; none where nothing but time was logged.
#[must_use]
pub fn batches(answers: &Answers, name: &str, paper: Paper) -> Option<Scaled> {
    let strips: Vec<Strip<'_>> =
        ["yield", "moisture"].into_iter().filter_map(|noun| Strip::of(answers, name, noun)).collect();
    if strips.is_empty() {
        return None;
    }
    let width = paper.drawing_mm()[0].min(WIDEST);
    let each = ROUND[2] + TALL + ROUND[3];
    let mut sheet = Lettered::new([width, each * strips.len() as f64], LETTERS, &title(name));
    for (place, strip) in strips.iter().enumerate() {
        let top = each * place as f64 + ROUND[2];
        strip.drawn(&mut sheet, [ROUND[0], width - ROUND[1]], [top, top + TALL]);
    }
    Some(sheet.scaled())
}

/// One quantity of a log.
struct Strip<'a> {
    answers: &'a Answers,
    path: String,
    words: &'static str,
    found: Vec<(String, String, f64)>,
    /// The middle, and how far from it later ones may lie.
    middle: f64,
    reach: Option<f64>,
}

impl Strip<'_> {
    fn of<'a>(answers: &'a Answers, name: &str, noun: &str) -> Option<Strip<'a>> {
        let stem = format!("tests.batches.{name}");
        let pattern = format!("{stem}.each.*.{noun}");
        let found: Vec<(String, String, f64)> = answers
            .rows
            .matching(&pattern)
            .filter_map(|row| Some((row.path.split('.').nth(4)?.to_owned(), row.path.clone(), row.quantity.si()?)))
            .collect();
        let value = |part: &str| answers.rows.find(&format!("{stem}.{noun}.{part}")).and_then(|row| row.quantity.si());
        let words = if noun == "yield" { "yield, placed for loose volume" } else { "moisture, of dry mass" };
        let (middle, reach) = (value("mean")?, value("reach"));
        Some(Strip { answers, path: format!("{stem}.{noun}"), words, found, middle, reach })
    }

    fn drawn(&self, sheet: &mut Lettered, [left, right]: [f64; 2], [top, bottom]: [f64; 2]) {
        let reach = self.reach.unwrap_or(0.0);
        let values = self.found.iter().map(|(.., value)| *value);
        let low = values.clone().fold(self.middle - reach, f64::min);
        let high = values.fold(self.middle + reach, f64::max);
        let room = (0.06 * (high - low)).max(1e-4);
        let up = |value: f64| bottom - (value - low + room) / (high - low + 2.0 * room) * (bottom - top);
        if self.reach.is_some() {
            let [upper, lower] = [self.middle + reach, self.middle - reach].map(up);
            let band = Element::rectangle([left, upper], right - left, lower - upper);
            let band = band.with("fill", hatch::mixed(STRAW, LIME, TINT)).data_path(&format!("{}.reach", self.path));
            sheet.push(band);
            for y in [upper, lower] {
                let line = Element::line([left, y], [right, y]).with("stroke", INK).with("stroke-width", weight::SEEN);
                sheet.push(line.with("stroke-dasharray", "2 1.2"));
            }
        }
        let mean = format!("{}.mean", self.path);
        let line = Element::line([left, up(self.middle)], [right, up(self.middle)]).with("stroke", INK);
        sheet.push(line.with("stroke-width", weight::SEEN).data_path(&mean));
        let frame = Element::polyline(&[[left, top], [left, bottom], [right, bottom]]).with("fill", "none");
        sheet.push(frame.with("stroke", INK).with("stroke-width", weight::THIN));
        self.numbers(sheet, left, &up);
        sheet.words([left + 1.0, top - 2.0], self.words, "");
        self.dots(sheet, [left, right], bottom, &up);
    }

    /// The middle and the ends of the band, as far as there is room for each.
    fn numbers(&self, sheet: &mut Lettered, left: f64, up: &dyn Fn(f64) -> f64) {
        let ends = self.reach.into_iter().flat_map(|reach| [self.middle + reach, self.middle - reach]);
        let mut taken: Vec<f64> = Vec::new();
        for value in std::iter::once(self.middle).chain(ends) {
            let y = up(value);
            if taken.iter().all(|other| (y - other).abs() >= APART) {
                let words = engine::row::shown(Ratio::fraction(value).into(), self.answers.system);
                sheet.words([left - 1.6 - lettering::width(&words, LETTERS), y + 0.9], &words, "");
                taken.push(y);
            }
        }
    }

    /// A disc for each batch, crossed where it lies outside; their names below, as many as have room.
    fn dots(&self, sheet: &mut Lettered, [left, right]: [f64; 2], bottom: f64, up: &dyn Fn(f64) -> f64) {
        let pace = (right - left) / self.found.len() as f64;
        let widest = self.found.iter().map(|(name, ..)| lettering::width(&spoken(name), LETTERS)).fold(0.0, f64::max);
        let every = ((widest + 1.5) / pace).ceil().max(1.0) as usize;
        let at = |place: usize, value: f64| [left + pace * (place as f64 + 0.5), up(value)];
        let points: Vec<[f64; 2]> =
            self.found.iter().enumerate().map(|(place, (.., value))| at(place, *value)).collect();
        let thread = Element::polyline(&points).with("fill", "none").with("stroke", SLATE);
        sheet.push(thread.with("stroke-width", weight::THIN));
        for (place, ((name, path, value), [x, y])) in self.found.iter().zip(&points).enumerate() {
            let disc = Element::circle([*x, *y], MARK).with("fill", INK).data_path(path);
            sheet.push(disc);
            if self.reach.is_some_and(|reach| (value - self.middle).abs() > reach) {
                let out = 1.9 * MARK;
                for side in [-out, out] {
                    let stroke = Element::line([x - out, y - side], [x + out, y + side]).with("stroke", INK);
                    sheet.push(stroke.with("stroke-width", weight::SEEN));
                }
            }
            if place % every == 0 {
                let words = spoken(name);
                sheet.words([x - 0.5 * lettering::width(&words, LETTERS), bottom + 4.2], &words, path);
            }
        }
    }
}
