//! A grading as a curve over the size of its grains, with what packs densest and what jars of the same soil say.

use engine::earth::tables::number;
use engine::pictures::GradingPicture;
use engine::units::Length;

use super::area::Area;
use super::bricks::{LETTERS, WIDEST};
use super::labels::{Label, Obstacle};
use super::lettered::Lettered;
use super::{Scaled, hatch};
use crate::lettering;
use crate::paper::{INK, LIME, Paper, SLATE, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// Left, right, above and below the room of the curve, in millimetres.
const ROUND: [f64; 4] = [14.0, 6.0, 7.0, 10.0];
/// Height of the room for its width.
const FLAT: f64 = 0.46;
/// Radius of a sieve's mark, in millimetres.
const MARK: f64 = 1.0;

/// The curve of a grading.
#[must_use]
pub fn grading(picture: &GradingPicture, paper: Paper) -> Scaled {
    let [widest, highest] = paper.drawing_mm();
    let across = widest.min(WIDEST) - ROUND[0] - ROUND[1];
    let tall = (FLAT * across).min((highest - ROUND[2] - ROUND[3]).max(50.0));
    let size = [across + ROUND[0] + ROUND[1], ROUND[2] + tall + ROUND[3]];
    let room = Area { left: ROUND[0], top: ROUND[2], right: ROUND[0] + across, bottom: ROUND[2] + tall };
    let sheet = Lettered::new(size, LETTERS, &title(picture));
    let most = picture.places.last().map_or(2.0, |place| place.mm);
    let least = picture.places.first().map_or(0.001, |place| place.mm).min(0.001);
    let ends = [least, (1.25 * most).max(2.5)].map(f64::log10);
    let mut drawn = Drawn { picture, room, ends, sheet, obstacles: Vec::new(), labels: Vec::new() };
    drawn.axes();
    drawn.densest();
    drawn.jars();
    drawn.curve();
    drawn.sheet.placed(drawn.room, &drawn.obstacles, &drawn.labels)
}

/// What a grading is called.
pub(crate) fn title(picture: &GradingPicture) -> String {
    format!("Sizes of the grains of {}, grading {}", spoken(&picture.of), spoken(&picture.name))
}

/// Where clay ends, silt and sand, in millimetres.
fn separates() -> [f64; 3] {
    ["clay-m", "silt-m", "sand-m"].map(|name| Length::m(number(name)).in_mm())
}

struct Drawn<'a> {
    picture: &'a GradingPicture,
    room: Area,
    ends: [f64; 2],
    sheet: Lettered,
    obstacles: Vec<Obstacle>,
    labels: Vec<Label>,
}

impl Drawn<'_> {
    fn at(&self, mm: f64, finer: f64) -> [f64; 2] {
        let [low, high] = self.ends;
        let share = (mm.log10() - low) / (high - low);
        [self.room.left + share * self.room.width(), self.room.bottom - finer * self.room.height()]
    }

    fn stroke(&mut self, points: &[[f64; 2]], (wide, dashes): (f64, &'static str), path: &str) {
        let line = Element::polyline(points).with("fill", "none").with("stroke", INK).with("stroke-width", wide);
        let line = if path.is_empty() { line } else { line.data_path(path) };
        self.sheet.push(if dashes.is_empty() { line } else { line.with("stroke-dasharray", dashes) });
        self.obstacles.extend(points.windows(2).map(|pair| Obstacle::Segment(pair[0], pair[1], 2.0)));
    }

    fn faint(&mut self, from: [f64; 2], to: [f64; 2]) {
        self.sheet.push(Element::line(from, to).with("stroke", SLATE).with("stroke-width", 0.08));
    }

    fn axes(&mut self) {
        let Area { left, top, right, bottom } = self.room;
        for fifth in 0..=5 {
            let finer = 0.2 * f64::from(fifth);
            let [_, y] = self.at(1.0, finer);
            self.faint([left, y], [right, y]);
            let words = format!("{:.0} %", 100.0 * finer);
            self.sheet.words([left - 1.6 - lettering::width(&words, LETTERS), y + 0.9], &words, "");
        }
        let tens = self.ends.map(|end| end.floor() as i32);
        for ten in tens[0]..=tens[1] {
            for times in 1..10 {
                let mm = f64::from(times) * 10_f64.powi(ten);
                if !(self.ends[0] - 1e-9..=self.ends[1] + 1e-9).contains(&mm.log10()) {
                    continue;
                }
                let [x, _] = self.at(mm, 0.0);
                self.faint([x, bottom], [x, bottom + if times == 1 { 1.4 } else { 0.7 }]);
                if times == 1 {
                    let words = format!("{mm}");
                    self.sheet.words([x - 0.5 * lettering::width(&words, LETTERS), bottom + 4.4], &words, "");
                }
            }
        }
        let frame = [[left, top], [left, bottom], [right, bottom]];
        self.sheet.push(
            Element::polyline(&frame).with("fill", "none").with("stroke", INK).with("stroke-width", weight::THIN),
        );
        let words = "size of the grain, mm";
        self.sheet.words([right - lettering::width(words, LETTERS), bottom + 8.4], words, "");
        self.separates();
    }

    /// Where clay, silt and sand end, named over the room.
    fn separates(&mut self) {
        let Area { left, top, right, bottom } = self.room;
        let xs = separates().map(|mm| self.at(mm, 0.0)[0]);
        for x in xs {
            let line = Element::line([x, top], [x, bottom]).with("stroke", INK).with("stroke-width", weight::THIN);
            self.sheet.push(line.with("stroke-dasharray", "0.5 1"));
            self.obstacles.push(Obstacle::Segment([x, top], [x, bottom], 0.5));
        }
        let rooms = [(left, xs[0], "clay"), (xs[0], xs[1], "silt"), (xs[1], xs[2], "sand"), (xs[2], right, "stones")];
        for (from, to, words) in rooms {
            let wide = lettering::width(words, LETTERS);
            if to - from > wide {
                self.sheet.words([0.5 * (from + to - wide), top - 2.0], words, "");
            }
        }
    }

    /// The band of the densest packing, between round grains and angular ones.
    fn densest(&mut self) {
        let along = |side: usize| -> Vec<[f64; 2]> {
            self.picture.densest.iter().map(|place| self.at(place[0], place[side])).collect()
        };
        let (round, mut band) = (along(1), along(2));
        let Some(middle) = band.get(2 * band.len() / 3).copied() else { return };
        band.extend(round.iter().rev());
        let filled = Element::polygon(&band).with("fill", hatch::mixed(SLATE, LIME, 0.25)).with("stroke", SLATE);
        self.sheet.push(filled.with("stroke-width", 0.1));
        self.obstacles.extend(round.windows(2).map(|pair| Obstacle::Segment(pair[0], pair[1], 1.0)));
        self.labels.push(Label::beside(middle, LETTERS, "packs densest"));
    }

    fn jars(&mut self) {
        let least = 10_f64.powf(self.ends[0]);
        let picture = self.picture;
        for (place, (name, [clay, silt, sand])) in picture.jars.iter().enumerate() {
            let [a, b, c] = separates();
            let steps = [(least, *clay), (a, *clay), (a, *silt), (b, *silt), (b, *sand), (c, *sand)];
            let steps = steps.map(|(mm, finer)| self.at(mm, finer));
            let path = format!("tests.jars.{name}.clay-middle");
            self.stroke(&steps, (weight::THIN, ["2 1.2", "0.6 1"][place % 2]), &path);
            let [left, right] = [steps[2], steps[3]];
            let at = [left[0] + (0.25 + 0.3 * place as f64) * (right[0] - left[0]), left[1]];
            self.labels.push(Label { path, ..Label::beside(at, LETTERS, &format!("jar {}", spoken(name))) });
        }
    }

    /// The curve with its sieves, discs, and readings, rings; upright, how far its clay may be off.
    fn curve(&mut self) {
        let points: Vec<[f64; 2]> = self.picture.places.iter().map(|place| self.at(place.mm, place.finer)).collect();
        let stem = format!("tests.gradings.{}", self.picture.name);
        self.stroke(&points, (weight::CUT, ""), &format!("{stem}.largest"));
        if let Some([low, high]) = self.picture.clay {
            let ends = [low, high].map(|finer| self.at(separates()[0], finer));
            let path = format!("{stem}.clay-low");
            self.stroke(&ends, (weight::SEEN, ""), &path);
            for [x, y] in ends {
                self.stroke(&[[x - 1.2, y], [x + 1.2, y]], (weight::SEEN, ""), &path);
            }
        }
        for (place, at) in self.picture.places.iter().zip(&points) {
            let fill = if place.is_read { LIME } else { INK };
            let mark = Element::circle(*at, MARK).with("fill", fill).with("stroke", INK);
            self.sheet.push(mark.with("stroke-width", weight::SEEN).data_path(&place.path));
            self.obstacles.push(Obstacle::Area(Area::about(*at, 3.0, 3.0), 5.0));
        }
        // Under the curve, where its coarse part leaves room.
        if let Some([x, y]) = points.get(3 * points.len() / 4).copied() {
            let words = format!("grading {}", spoken(&self.picture.name));
            let preferred = vec![[x + 0.5 * lettering::width(&words, LETTERS) + 2.0, y + 4.0]];
            let path = format!("{stem}.largest");
            self.labels.push(Label { path, preferred, ..Label::beside([x, y], LETTERS, &words) });
        }
    }
}
