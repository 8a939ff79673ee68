//! Crack scores of test panels over the share of the first ingredient: a mark for each judge, the chosen mix as a bucket.

use engine::earth::panel::{ASPECTS, scale, worst};
use engine::pictures::PanelPicture;

use super::Scaled;
use super::area::Area;
use super::bricks::{LETTERS, WIDEST, step, written};
use super::labels::{Label, Obstacle};
use super::lettered::Lettered;
use crate::lettering;
use crate::panels::title;
use crate::paper::{CLAY, INK, LIME, Paper, SLATE, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// From score to score, in millimetres.
const STEP: f64 = 6.0;
/// Above and below the scores, in millimetres.
const ROUND: [f64; 2] = [10.0, 11.0];
/// Half a mark, in millimetres.
const MARK: f64 = 1.15;
/// From the mark of one judge to that of the next, in millimetres.
const BESIDE: f64 = 2.8;

/// The crack scores of a picture.
#[must_use]
pub fn panels(picture: &PanelPicture, paper: Paper) -> Scaled {
    let words: Vec<String> = (0..=worst()).map(said).collect();
    let left = 2.5 + words.iter().map(|words| lettering::width(words, LETTERS)).fold(0.0_f64, f64::max);
    let width = paper.drawing_mm()[0].min(WIDEST);
    let room = Area { left, top: ROUND[0], right: width - 6.0, bottom: ROUND[0] + STEP * (worst() as f64 + 1.0) };
    let sheet = Lettered::new([width, room.bottom + ROUND[1]], LETTERS, &title(&picture.name));
    let shares = || picture.panels.iter().map(|panel| panel.share);
    let ends = [shares().fold(1.0_f64, f64::min), shares().fold(0.0_f64, f64::max)];
    let pad = (0.08 * (ends[1] - ends[0])).max(0.01);
    let mut drawn =
        Drawn { picture, room, ends: [ends[0] - pad, ends[1] + pad], sheet, obstacles: Vec::new(), labels: Vec::new() };
    drawn.scores(&words);
    drawn.shares();
    drawn.judges();
    drawn.chosen();
    for place in 0..picture.panels.len() {
        drawn.panel(place);
    }
    let area = Area { top: 4.6, ..drawn.room };
    drawn.sheet.placed(area, &drawn.obstacles, &drawn.labels)
}

/// A score of a crack in few words.
fn said(score: usize) -> String {
    let step = scale().iter().find(|step| step.aspect == ASPECTS[0] && step.score == score);
    match step.and_then(|step| step.below) {
        Some(below) if below.in_mm() > 0.0 => format!("{score}: under {} mm", below.in_mm()),
        Some(_) => format!("{score}: none"),
        None => format!("{score}: wider"),
    }
}

struct Drawn<'a> {
    picture: &'a PanelPicture,
    room: Area,
    /// The shares at the left and at the right end.
    ends: [f64; 2],
    sheet: Lettered,
    obstacles: Vec<Obstacle>,
    labels: Vec<Label>,
}

impl Drawn<'_> {
    fn across(&self, share: f64) -> f64 {
        self.room.left + (share - self.ends[0]) / (self.ends[1] - self.ends[0]) * self.room.width()
    }

    /// The best score lies lowest.
    fn level(&self, score: f64) -> f64 {
        self.room.bottom - STEP * (score + 0.5)
    }

    fn line(&mut self, from: [f64; 2], to: [f64; 2], (stroke, wide): (&'static str, f64)) {
        self.sheet.push(Element::line(from, to).with("stroke", stroke).with("stroke-width", wide));
    }

    fn scores(&mut self, words: &[String]) {
        let Area { left, right, top, bottom } = self.room;
        self.line([left, top], [left, bottom], (INK, weight::THIN));
        self.line([left, bottom], [right, bottom], (INK, weight::THIN));
        for (score, words) in words.iter().enumerate() {
            let y = self.level(score as f64);
            self.line([left, y], [right, y], (SLATE, 0.08));
            self.sheet.words([left - 1.5 - lettering::width(words, LETTERS), y + 0.9], words, "");
        }
    }

    fn shares(&mut self) {
        let [low, high] = self.ends.map(|share| 100.0 * share);
        let by = step(high - low, self.room.width());
        let first = (low / by).ceil();
        let count = ((high / by).floor() - first).max(0.0) as u32;
        let bottom = self.room.bottom;
        for place in 0..=count {
            let number = (first + f64::from(place)) * by;
            let x = self.across(number / 100.0);
            self.line([x, bottom], [x, bottom + 1.0], (INK, weight::THIN));
            let words = written(number, by);
            self.sheet.words([x - 0.5 * lettering::width(&words, LETTERS), bottom + 4.2], &words, "");
        }
        let words = format!("{}, % of the buckets", spoken(&self.picture.ingredient));
        let left = self.room.right - lettering::width(&words, LETTERS);
        self.sheet.words([left, bottom + 8.5], &words, "");
    }

    /// Which mark is whose.
    fn judges(&mut self) {
        let mut x = self.room.left + 2.0;
        for (place, judge) in self.picture.judges.iter().enumerate() {
            self.mark([x + MARK, 2.6], place, "");
            let words = spoken(judge);
            self.sheet.words([x + 3.4, 3.5], &words, "");
            x += 7.0 + lettering::width(&words, LETTERS);
        }
    }

    /// Disc, ring, square and empty square in turn.
    fn mark(&mut self, [x, y]: [f64; 2], judge: usize, path: &str) {
        let shape = match judge % 4 {
            0 | 1 => Element::circle([x, y], MARK),
            _ => Element::rectangle([x - MARK, y - MARK], 2.0 * MARK, 2.0 * MARK),
        };
        let fill = if judge.is_multiple_of(2) { INK } else { LIME };
        let shape = shape.with("fill", fill).with("stroke", INK).with("stroke-width", weight::SEEN);
        self.sheet.push(if path.is_empty() { shape } else { shape.data_path(path) });
    }

    fn panel(&mut self, place: usize) {
        let panel = &self.picture.panels[place];
        let x = self.across(panel.share);
        let middle = 0.5 * (panel.cracks.len() as f64 - 1.0);
        for (judge, score) in panel.cracks.iter().enumerate() {
            let Some(score) = score else { continue };
            let at = [x + BESIDE * (judge as f64 - middle), self.level(*score as f64)];
            let path =
                format!("tests.panels.{}.each.{}.crack.{}", self.picture.name, panel.name, self.picture.judges[judge]);
            self.mark(at, judge, &path);
            self.obstacles.push(Obstacle::Area(Area::about(at, 2.8, 2.8), 5.0));
        }
        let words = format!("{}{}", spoken(&panel.name), if panel.is_rejected { ", rejected" } else { "" });
        let top = self.room.top - 1.6;
        self.labels.push(Label { preferred: vec![[x, top]], ..Label::beside([x, top], LETTERS, &words) });
    }

    /// The chosen mix: a broken line through all scores, and its buckets.
    fn chosen(&mut self) {
        let Some((share, buckets)) = &self.picture.chosen else { return };
        let (x, bottom) = (self.across(*share), self.room.bottom);
        let path = format!("tests.panels.{}.overall", self.picture.name);
        let line =
            Element::line([x, self.room.top], [x, bottom]).with("stroke", INK).with("stroke-width", weight::THIN);
        self.sheet.push(line.with("stroke-dasharray", "2 1.2").data_path(&path));
        let bucket =
            [[x - 1.9, bottom - 1.8], [x + 1.9, bottom - 1.8], [x + 1.3, bottom + 1.8], [x - 1.3, bottom + 1.8]];
        let bucket = Element::polygon(&bucket).with("fill", CLAY).with("stroke", INK);
        self.sheet.push(bucket.with("stroke-width", weight::SEEN).data_path(&path));
        let parts = buckets.iter().map(|(name, own)| format!("{} {}", (own * 100.0).round() / 100.0, spoken(name)));
        let words = format!("chosen: {}", parts.collect::<Vec<_>>().join(" : "));
        self.obstacles.push(Obstacle::Area(Area::about([x, bottom], 4.6, 4.4), 5.0));
        let wide = 0.5 * lettering::width(&words, LETTERS) + 3.0;
        let preferred =
            vec![[x + wide, self.level(worst() as f64 - 0.5)], [x - wide, self.level(worst() as f64 - 0.5)]];
        let label = Label::beside([x, self.level(worst() as f64 - 0.5)], LETTERS, &words);
        self.labels.push(Label { preferred, path, ..label });
    }
}
