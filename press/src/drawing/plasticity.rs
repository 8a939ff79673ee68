//! The plasticity chart: each soil's limits with what they may be off, hatched, between the lines that part clays from silts.

use engine::pictures::{PlasticSoil, PlasticityPicture};

use super::area::Area;
use super::bricks::LETTERS;
use super::labels::{Label, Obstacle};
use super::lettered::Lettered;
use super::texture::hatched;
use super::{Scaled, hatch};
use crate::lettering;
use crate::paper::{INK, LIME, Paper, SLATE, weight};
use crate::svg::Element;

/// Left, right, above and below the room of the chart, in millimetres.
const ROUND: [f64; 4] = [13.0, 8.0, 7.0, 10.0];
/// No chart is wider, in millimetres.
const WIDE: f64 = 84.0;
/// From line to line of a hatch, in millimetres.
const HATCH: f64 = 1.1;
/// Radius of a soil's mark, in millimetres.
const MARK: f64 = 1.0;
/// Steps of both scales, in percent.
const STEP: f64 = 10.0;

/// The chart; none where no limits are tested.
#[must_use]
pub fn plasticity(picture: Option<&PlasticityPicture>, paper: Paper) -> Option<Scaled> {
    let picture = picture?;
    let top = (picture.lines.u[1][1] / STEP).ceil() * STEP;
    let [widest, highest] = paper.drawing_mm();
    let across = (widest - ROUND[0] - ROUND[1]).min(WIDE);
    let across = across.min((highest - ROUND[2] - ROUND[3]).max(50.0) * picture.most / top);
    let tall = across * top / picture.most;
    let size = [across + ROUND[0] + ROUND[1], ROUND[2] + tall + ROUND[3]];
    let room = Area { left: ROUND[0], top: ROUND[2], right: ROUND[0] + across, bottom: ROUND[2] + tall };
    let sheet = Lettered::new(size, LETTERS, "How much water the fine part takes");
    let mut drawn = Drawn { picture, top, room, sheet, obstacles: Vec::new(), labels: Vec::new() };
    drawn.scales();
    drawn.lines();
    for soil in &picture.soils {
        drawn.soil(soil);
    }
    let Drawn { room, sheet, obstacles, labels, .. } = drawn;
    Some(sheet.placed(room, &obstacles, &labels))
}

struct Drawn<'a> {
    picture: &'a PlasticityPicture,
    top: f64,
    room: Area,
    sheet: Lettered,
    obstacles: Vec<Obstacle>,
    labels: Vec<Label>,
}

impl Drawn<'_> {
    fn at(&self, [limit, index]: [f64; 2]) -> [f64; 2] {
        let Area { left, bottom, .. } = self.room;
        let [right, up] = [limit / self.picture.most, index / self.top];
        [left + right * self.room.width(), bottom - up * self.room.height()]
    }

    fn stroke(&mut self, ends: [[f64; 2]; 2], wide: f64, dashes: &'static str) {
        let line = Element::line(ends[0], ends[1]).with("stroke", INK).with("stroke-width", wide);
        self.sheet.push(if dashes.is_empty() { line } else { line.with("stroke-dasharray", dashes) });
        self.obstacles.push(Obstacle::Segment(ends[0], ends[1], 2.0));
    }

    fn scales(&mut self) {
        let Area { left, top, right, bottom } = self.room;
        let faint =
            |from: [f64; 2], to: [f64; 2]| Element::line(from, to).with("stroke", SLATE).with("stroke-width", 0.08);
        for step in 0..=(self.top / STEP).round() as u32 {
            let share = STEP * f64::from(step);
            let [_, y] = self.at([0.0, share]);
            self.sheet.push(faint([left, y], [right, y]));
            let words = format!("{share:.0}");
            self.sheet.words([left - 1.6 - lettering::width(&words, LETTERS), y + 0.9], &words, "");
        }
        for step in 1..=(self.picture.most / STEP).round() as u32 {
            let share = STEP * f64::from(step);
            let [x, _] = self.at([share, 0.0]);
            self.sheet.push(faint([x, bottom], [x, bottom + 1.2]));
            let words = format!("{share:.0}");
            self.sheet.words([x - 0.5 * lettering::width(&words, LETTERS), bottom + 4.4], &words, "");
        }
        let frame = [[left, top], [left, bottom], [right, bottom]];
        self.sheet.push(
            Element::polyline(&frame).with("fill", "none").with("stroke", INK).with("stroke-width", weight::THIN),
        );
        let words = "liquid limit, % of dry mass";
        self.sheet.words([right - lettering::width(words, LETTERS), bottom + 8.4], words, "");
        self.sheet.words([left - 9.0, top - 3.0], "plasticity index, %", "");
    }

    /// The lines with their names, the band between clay and silt, and the names of what lies between.
    fn lines(&mut self) {
        let lines = &self.picture.lines;
        let band = lines.band.map(|corner| self.at(corner));
        let filled = Element::polygon(&band).with("fill", hatch::mixed(SLATE, LIME, 0.25)).with("stroke", INK);
        self.sheet.push(filled.with("stroke-width", weight::THIN));
        let [a, u] = [lines.a, lines.u].map(|ends| ends.map(|end| self.at(end)));
        let parting = [[lines.high, 0.0], [lines.high, self.top]].map(|end| self.at(end));
        self.stroke(a, weight::SEEN, "");
        self.stroke(u, weight::SEEN, "2 1.2");
        self.stroke(parting, weight::THIN, "0.5 1");
        for (end, words) in [(a[1], "A-line"), (u[1], "U-line: no soil above")] {
            let wide = lettering::width(words, LETTERS);
            let preferred = vec![[end[0] - 0.5 * wide - 6.0, end[1] + 1.0], [end[0] - 0.5 * wide - 16.0, end[1] + 3.0]];
            self.labels.push(Label { preferred, ..Label::beside(end, LETTERS, words) });
        }
        for (name, at) in self.picture.lines.names {
            let at = self.at(at);
            let preferred = if name == "CL-ML" { vec![[at[0] - 14.0, at[1]]] } else { vec![at] };
            self.labels.push(Label { preferred, ..Label::beside(at, LETTERS, name) });
        }
    }

    /// A disc at the limits; hatched, where they may lie.
    fn soil(&mut self, soil: &PlasticSoil) {
        let corners: Vec<[f64; 2]> = soil.outline.iter().map(|corner| self.at(*corner)).collect();
        let lines =
            hatched(&corners, [0.8, 0.6], HATCH).into_iter().map(|[from, to]| Element::line(from, to)).collect();
        let group = Element::group(lines).with("stroke", SLATE).with("stroke-width", 0.12);
        self.sheet.push(group.data_path(&soil.paths[2]));
        let rim =
            Element::polygon(&corners).with("fill", "none").with("stroke", INK).with("stroke-width", weight::THIN);
        self.sheet.push(rim.data_path(&soil.paths[2]));
        let ends = corners.iter().zip(corners.iter().cycle().skip(1));
        self.obstacles.extend(ends.map(|(from, to)| Obstacle::Segment(*from, *to, 3.0)));
        let at = self.at(soil.at);
        let mark = Element::circle(at, MARK).with("fill", INK).with("stroke", INK).with("stroke-width", weight::SEEN);
        self.sheet.push(mark.data_path(&soil.paths[1]));
        self.obstacles.push(Obstacle::Area(Area::about(at, 3.2, 3.2), 5.0));
        let round = Area::round(&corners);
        let away = 0.5 * lettering::width(&soil.words, LETTERS) + 1.5;
        let preferred = vec![[round.right + away, at[1] + 3.0], [round.left - away, at[1]]];
        let path = soil.paths[0].clone();
        self.labels.push(Label { path, preferred, ..Label::beside(at, LETTERS, &soil.words) });
    }
}
