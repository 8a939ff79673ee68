//! The choice of a ring in one picture: a panel for each count of poles, the eye across, the pitch upwards, what works hatched.

use engine::answers::Answers;
use engine::pictures::{Choice, Panel, SoilStays};
use engine::units::{Length, System};
use kurbo::{Point, Rect};

use super::lettered::Lettered;
use super::{Scaled, hatch};
use crate::lettering;
use crate::paper::{INK, LIME, Paper, SLATE, STRAW, weight};
use crate::svg::Element;

/// Letters of the axes and of what stands in a panel, in millimetres.
const LETTERS: f64 = 2.6;
/// Left, right, above and below the room of a panel, in millimetres.
const ROUND: [f64; 4] = [9.0, 3.0, 8.0, 8.0];
/// Panels beside each other, on a wide sheet and on a narrow one.
const COLUMNS: [usize; 2] = [3, 2];
/// A sheet narrower than this has fewer of them, in millimetres.
const NARROW: f64 = 130.0;
/// Eyes of the picture, in metres.
const EYES: [f64; 2] = [0.2, 2.0];
/// Pitches of the picture, in degrees, and those that are written.
const PITCHES: [f64; 2] = [5.0, 37.0];
const WRITTEN: [f64; 3] = [10.0, 20.0, 30.0];

/// Which rings of equal poles work; none where the roof is another or its loads are not known.
#[must_use]
pub fn trade(answers: &Answers, choice: Option<&Choice>, paper: Paper) -> Option<Scaled> {
    let choice = choice?;
    let [width, _] = paper.drawing_mm();
    let columns = COLUMNS[usize::from(width < NARROW)].min(choice.panels.len()).max(1);
    let side = width / columns as f64;
    let tall = 0.82 * side + ROUND[2];
    let rows = choice.panels.len().div_ceil(columns);
    let size = [width, tall * rows as f64 + 2.0];
    let mut sheet = Lettered::new(size, LETTERS, "Which rings of equal poles work");
    for (place, panel) in choice.panels.iter().enumerate() {
        let (column, row) = ((place % columns) as f64, (place / columns) as f64);
        let room = Rect::new(
            column * side + ROUND[0],
            row * tall + ROUND[2],
            (column + 1.0) * side - ROUND[1],
            (row + 1.0) * tall - ROUND[3],
        );
        let drawn = Drawn { room, system: answers.system };
        drawn.axes(&mut sheet, panel.count, panel.count == choice.count);
        drawn.panel(&mut sheet, panel);
        if let SoilStays::UpTo(steepest) = choice.soil {
            let line = EYES.map(|eye| Point::new(eye, steepest));
            drawn.line(&mut sheet, &line, ("0.4 1", weight::SEEN), "roof.slide.safety");
        }
        if panel.count == choice.count {
            drawn.here(&mut sheet, choice.here);
        }
    }
    Some(sheet.scaled())
}

struct Drawn {
    room: Rect,
    system: System,
}

impl Drawn {
    fn at(&self, point: Point) -> [f64; 2] {
        let across = (point.x - EYES[0]) / (EYES[1] - EYES[0]);
        let up = (point.y - PITCHES[0]) / (PITCHES[1] - PITCHES[0]);
        [self.room.x0 + across * self.room.width(), self.room.y1 - up * self.room.height()]
    }

    fn axes(&self, sheet: &mut Lettered, count: u64, is_own: bool) {
        let Rect { x0, y0, x1, y1 } = self.room;
        let frame = Element::polyline(&[[x0, y0], [x0, y1], [x1, y1]]).with("fill", "none").with("stroke", INK);
        sheet.push(frame.with("stroke-width", weight::THIN));
        for pitch in WRITTEN {
            let [x, y] = self.at(Point::new(EYES[0], pitch));
            sheet.push(Element::line([x - 1.0, y], [x, y]).with("stroke", INK).with("stroke-width", weight::THIN));
            let words = format!("{pitch}°");
            sheet.words([x - 1.6 - lettering::width(&words, LETTERS), y + 0.9], &words, "");
        }
        for (eye, words) in written_eyes(self.system) {
            let [x, y] = self.at(Point::new(eye.in_m(), PITCHES[0]));
            sheet.push(Element::line([x, y], [x, y + 1.0]).with("stroke", INK).with("stroke-width", weight::THIN));
            sheet.words([x - 0.5 * lettering::width(&words, LETTERS), y + 4.0], &words, "");
        }
        let words = if is_own { format!("{count} poles: this ring") } else { format!("{count} poles") };
        sheet.words([x0, y0 - 2.0], &words, "");
    }

    fn panel(&self, sheet: &mut Lettered, panel: &Panel) {
        let outline = self.within(&panel.works, true);
        if outline.len() > 2 {
            let works = Element::polygon(&outline).with("fill", hatch::mixed(STRAW, LIME, 0.35)).with("stroke", "none");
            sheet.push(works);
        }
        self.line(sheet, &panel.touching, ("", weight::SEEN), "poles.diameter");
        self.line(sheet, &panel.deepest, ("1.6 1", weight::SEEN), "poles.diameter");
        self.line(sheet, &panel.bends, ("", weight::CUT), "roof.trade.strength");
    }

    /// A line as far as it lies within the panel.
    fn line(&self, sheet: &mut Lettered, points: &[Point], (dashes, wide): (&'static str, f64), path: &str) {
        let within = self.within(points, false);
        if within.len() < 2 {
            return;
        }
        let line = Element::polyline(&within).with("fill", "none").with("stroke", INK).with("stroke-width", wide);
        let line = line.data_path(path);
        sheet.push(if dashes.is_empty() { line } else { line.with("stroke-dasharray", dashes) });
    }

    /// The points on the sheet, cut off where the eye is larger than the panel shows; an outline stays closed.
    fn within(&self, points: &[Point], closed: bool) -> Vec<[f64; 2]> {
        let most = EYES[1];
        let mut kept = Vec::new();
        for (place, point) in points.iter().enumerate() {
            let before = match place {
                0 if closed => points.last(),
                0 => None,
                _ => points.get(place - 1),
            };
            if let Some(before) = before.filter(|before| (before.x > most) != (point.x > most)) {
                kept.push(self.at(before.lerp(*point, (most - before.x) / (point.x - before.x))));
            }
            if point.x <= most {
                kept.push(self.at(*point));
            }
        }
        kept
    }

    fn here(&self, sheet: &mut Lettered, here: Point) {
        let is_within = (EYES[0]..=EYES[1]).contains(&here.x) && (PITCHES[0]..=PITCHES[1]).contains(&here.y);
        if !is_within {
            return;
        }
        let at = self.at(here);
        let disc = Element::circle(at, 1.5).with("fill", LIME).with("stroke", INK);
        sheet.push(disc.with("stroke-width", weight::CUT).data_path("roof.trade.used"));
        sheet.push(Element::circle(at, 0.5).with("fill", SLATE));
    }
}

/// The eyes that are written under a panel.
fn written_eyes(system: System) -> Vec<(Length, String)> {
    match system {
        System::Metric => [0.5, 1.0, 1.5].map(|eye| (Length::m(eye), format!("{eye:.1} m"))).to_vec(),
        System::Us => [2.0, 4.0, 6.0].map(|eye| (Length::ft(eye), format!("{eye} ft"))).to_vec(),
    }
}
