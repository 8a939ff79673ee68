//! Strength of test bricks against their moisture, and the line by which it falls, no farther than was tested.

use engine::answers::Answers;
use engine::pictures::{BrickLot, Fall};
use engine::units::{Pressure, Ratio};

use super::Scaled;
use super::area::Area;
use super::bricks::{Axis, LETTERS, WIDEST, mark, step, unit, written};
use super::labels::{Label, Obstacle};
use super::lettered::Lettered;
use crate::bricks::title;
use crate::lettering;
use crate::paper::{INK, Paper, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// Left, right, above and below the room of the picture, in millimetres.
const ROUND: [f64; 4] = [13.0, 4.0, 6.0, 9.0];
/// Height of the room for its width.
const TALL: f64 = 0.5;

/// How the strength of a lot falls with moisture; none where no line is known.
#[must_use]
pub fn damp_bricks(answers: &Answers, lot: &BrickLot, paper: Paper) -> Option<Scaled> {
    let fall = lot.fall.as_ref()?;
    let width = paper.drawing_mm()[0].min(WIDEST);
    let tall = TALL * (width - ROUND[0] - ROUND[1]);
    let size = [width, ROUND[2] + tall + ROUND[3]];
    let room = Area { left: ROUND[0], top: ROUND[2], right: width - ROUND[1], bottom: ROUND[2] + tall };
    let known = lot.bricks.iter().filter_map(|brick| Some((brick, brick.moisture?)));
    let strengths = known.clone().map(|(brick, _)| brick.strength).chain(fall.middle.iter().map(|(_, at)| *at));
    let drawn = Drawn {
        room,
        up: Axis::of(answers.system, strengths, [room.bottom, room.top]),
        most: known.clone().map(|(_, moisture)| moisture).fold(Ratio::ZERO, Ratio::max) * 1.06,
    };
    let mut sheet = Lettered::new(size, LETTERS, &format!("{}: strength against moisture", title(lot)));
    drawn.axes(&mut sheet, unit(answers.system));
    let mut obstacles = drawn.line(&mut sheet, &fall.middle, ("", weight::SEEN), &lot.path("fall"));
    obstacles.extend(drawn.line(&mut sheet, &fall.low, ("2 1.2", weight::SEEN), &lot.path("damp-strength-low")));
    let mut labels = drawn.names(fall, lot);
    for (brick, moisture) in known {
        let (at, path) = (drawn.at(moisture, brick.strength), lot.path_of(brick, "strength"));
        mark(&mut sheet, at, brick, &path);
        obstacles.push(Obstacle::Area(Area::about(at, 3.0, 3.0), 5.0));
        labels.push(Label { path, ..Label::beside(at, LETTERS, &spoken(&brick.name)) });
    }
    Some(sheet.placed(room, &obstacles, &labels))
}

struct Drawn {
    room: Area,
    up: Axis,
    most: Ratio,
}

impl Drawn {
    fn at(&self, moisture: Ratio, strength: Pressure) -> [f64; 2] {
        [self.room.left + moisture / self.most * self.room.width(), self.up.at(strength)]
    }

    fn axes(&self, sheet: &mut Lettered, unit: &str) {
        let Area { left, top, right, bottom } = self.room;
        let frame = Element::polyline(&[[left, top], [left, bottom], [right, bottom]]).with("fill", "none");
        sheet.push(frame.with("stroke", INK).with("stroke-width", weight::THIN));
        for (words, y) in self.up.numbers() {
            let tick = Element::line([left - 1.0, y], [left, y]).with("stroke", INK);
            sheet.push(tick.with("stroke-width", weight::THIN));
            sheet.words([left - 1.6 - lettering::width(&words, LETTERS), y + 0.9], &words, "");
        }
        sheet.words([left + 1.0, top - 2.0], &format!("strength, {unit}"), "");
        let percent = 100.0 * self.most.in_fraction();
        let by = step(percent, self.room.width());
        let count = (percent / by).floor() as u32;
        for place in 0..=count {
            let number = f64::from(place) * by;
            let x = left + number / percent * self.room.width();
            let tick = Element::line([x, bottom], [x, bottom + 1.0]).with("stroke", INK);
            sheet.push(tick.with("stroke-width", weight::THIN));
            let words = written(number, by);
            sheet.words([x - 0.5 * lettering::width(&words, LETTERS), bottom + 4.2], &words, "");
        }
        let words = "moisture, % of dry mass";
        sheet.words([right - lettering::width(words, LETTERS), bottom + 8.0], words, "");
    }

    /// A line of the fall, and what of it labels keep off.
    fn line(
        &self,
        sheet: &mut Lettered,
        points: &[(Ratio, Pressure)],
        (dashes, wide): (&'static str, f64),
        path: &str,
    ) -> Vec<Obstacle> {
        let points: Vec<[f64; 2]> = points.iter().map(|(moisture, strength)| self.at(*moisture, *strength)).collect();
        let line = Element::polyline(&points).with("fill", "none").with("stroke", INK).with("stroke-width", wide);
        let line = line.data_path(path);
        sheet.push(if dashes.is_empty() { line } else { line.with("stroke-dasharray", dashes) });
        points.windows(2).map(|pair| Obstacle::Segment(pair[0], pair[1], 2.0)).collect()
    }

    /// What the two lines are called, each beside its middle.
    fn names(&self, fall: &Fall, lot: &BrickLot) -> Vec<Label> {
        let lines = [
            (&fall.middle, "line through the bricks", "fall"),
            (&fall.low, "19 of 20 more exceed this", "damp-strength-low"),
        ];
        let named = lines.into_iter().filter_map(|(points, words, noun)| {
            let (moisture, strength) = points.get(points.len() / 2)?;
            let anchor = self.at(*moisture, *strength);
            Some(Label { path: lot.path(noun), ..Label::beside(anchor, LETTERS, words) })
        });
        named.collect()
    }
}
