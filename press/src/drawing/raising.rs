//! Raising a ring of measured poles: the prop in elevation with the first pole on it, and a small plan for each stage.

use engine::answers::Answers;
use engine::house::RingPlan;
use engine::house::part::{Material, Meaning, Outline, Part};
use engine::house::ring_plan::{CutForSecond, Prop};
use kurbo::{Point, Rect, Vec2};

use super::labels::Label;
use super::poles::{Poles, outline};
use super::roof_plan::bounds;
use super::sheet::{LETTERING, Margins, Sheet};
use super::{Scaled, dimension, hatch, material};
use crate::paper::{INK, LIME, Paper, SLATE, STRAW, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// How much of the wall is shown below its top, in metres.
const STUB: f64 = 0.7;
/// Half the width of the prop, and half that of the board on it, in metres; drawn, not designed.
const PROP: [f64; 2] = [0.06, 0.17];
/// Thickness of the boards under and on the prop, in metres; drawn, not designed.
const BOARD: f64 = 0.04;
/// Small plans side by side.
const COLUMNS: usize = 4;
/// Between small plans, in metres of the house.
const APART: [f64; 2] = [0.5, 1.3];

/// The elevation of the prop at the largest true scale that fits half a page; none where no pole is measured.
#[must_use]
pub fn raising(answers: &Answers, paper: Paper) -> Option<Scaled> {
    let ring = answers.ring_plan.as_ref()?;
    let (prop, first) = (&ring.prop, ring.order.first()?);
    let [width, height] = paper.drawing_mm();
    let height = if matches!(paper, Paper::Screen { .. }) { height } else { 0.55 * height };
    let points = prop.axes.iter().flatten();
    let left = prop.axes[0][0].x.min(prop.wall[0]);
    let (right, high) =
        points.fold((prop.top.x, prop.top.y), |(right, high), point| (right.max(point.x), high.max(point.y)));
    let low = (prop.seat.y - prop.beam - STUB).min(prop.floor);
    let margins = Margins { left: 14.0, top: 14.0, right: 26.0, bottom: 10.0 };
    let row = (Rect::new(left, low, right, high), margins);
    let mut sheet = Sheet::new("The prop", &[row], paper.room([width, height]), answers.system);
    material::define(&mut sheet);
    for part in wall(prop) {
        material::draw(&mut sheet, &part);
    }
    let pole = &ring.places[*first];
    let [up, down] = prop.axes.map(|axis| outline(axis, pole.diameters).map(|corner| sheet.at(corner)));
    let later = Element::polygon(&down).with("fill", "none").with("stroke", INK).with("stroke-dasharray", "2 1.2");
    sheet.push(later.with("stroke-width", weight::HIDDEN).data_path(&pole.stem));
    let drawn = Element::polygon(&up).with("fill", hatch::mixed(STRAW, LIME, 0.28)).with("stroke", INK);
    sheet.push(drawn.with("stroke-width", weight::SEEN).data_path(&pole.stem));
    for corners in [&up, &down] {
        sheet.avoid(corners, true, 2.0);
    }
    floor(&mut sheet, prop, right);
    stand(&mut sheet, prop);
    for (one, clear) in prop.dimensions.iter().zip([9.0, 7.0]) {
        dimension::draw(&mut sheet, answers, one, clear);
    }
    let middle = prop.axes[0][0].midpoint(prop.axes[0][1]);
    let words = format!("{} {} on the prop", first + 1, spoken(&pole.tag));
    let [x, y] = sheet.at(middle);
    let preferred = vec![[x - 16.0, y - 9.0]];
    sheet.label(Label { path: pole.stem.clone(), preferred, ..Label::beside([x, y], LETTERING, &words) });
    let level = dimension::number(answers, "roof.raising.prop-top").unwrap_or_default();
    let words = format!("top of the prop\n{level} above the foot of the cob");
    let top = sheet.at(prop.top);
    let label = Label::beside(top, LETTERING, &words);
    sheet.label(Label { path: "roof.raising.prop-top".to_owned(), ..label });
    Some(sheet.finished())
}

/// The top of the wall and the timber on it, cut through.
fn wall(prop: &Prop) -> Vec<Part> {
    let [left, right] = prop.wall;
    let top = prop.seat.y - prop.beam;
    let between = |low: f64, high: f64| {
        let corners = [(left, low), (right, low), (right, high), (left, high)];
        vec![Outline::area(corners.map(|(x, y)| Point::new(x, y)).to_vec(), Meaning::Cut)]
    };
    let mut parts = vec![Part::new("wall", "top of the wall", Material::Cob, between(top - STUB, top))];
    if prop.beam > 0.0 {
        parts.push(Part::new("wall.bond-beam", "bond beam", Material::Timber, between(top, prop.seat.y)));
    }
    parts
}

fn floor(sheet: &mut Sheet, prop: &Prop, right: f64) {
    let ends = [prop.wall[1], right].map(|x| sheet.at(Point::new(x, prop.floor)));
    let line = Element::line(ends[0], ends[1]).with("stroke", INK).with("stroke-width", weight::CUT);
    sheet.push(line.data_path("ground.floor"));
    sheet.avoid(&ends, false, 2.0);
    let at = [ends[0][0] + 14.0, ends[0][1] - 2.6];
    let label = Label::beside(at, LETTERING, "finished floor");
    sheet.label(Label { path: "ground.floor".to_owned(), preferred: vec![at], ..label });
}

/// The prop on a board, with a board on it.
fn stand(sheet: &mut Sheet, prop: &Prop) {
    let Point { x, y: top } = prop.top;
    let boxes = [
        ([x - PROP[1], x + PROP[1]], [prop.floor, prop.floor + BOARD]),
        ([x - PROP[0], x + PROP[0]], [prop.floor + BOARD, top - BOARD]),
        ([x - PROP[1], x + PROP[1]], [top - BOARD, top]),
    ];
    for ([left, right], [low, high]) in boxes {
        let corners = [(left, low), (right, low), (right, high), (left, high)].map(|(x, y)| sheet.at(Point::new(x, y)));
        let drawn =
            Element::polygon(&corners).with("fill", LIME).with("stroke", INK).with("stroke-width", weight::SEEN);
        sheet.push(drawn.data_path("roof.raising.prop-top"));
        sheet.avoid(&corners, true, 2.0);
    }
}

/// A small plan for each stage: the poles that are set, the last slipped in, the prop out; none where no pole is measured.
#[must_use]
pub fn raising_stages(answers: &Answers, paper: Paper) -> Option<Scaled> {
    let ring = answers.ring_plan.as_ref()?;
    let count = ring.order.len() + 1;
    let box_ = bounds(ring);
    let step = [box_.width() + APART[0], box_.height() + APART[1]];
    let rows = count.div_ceil(COLUMNS);
    let extent = Rect::new(0.0, 0.0, step[0] * COLUMNS as f64 - APART[0], step[1] * rows as f64);
    let margins = Margins { left: 2.0, top: 2.0, right: 2.0, bottom: 2.0 };
    let title = "The poles, stage by stage";
    let mut sheet = Sheet::unscaled(title, (extent, margins), paper.drawing_mm(), answers.system);
    for stage in 1..=count {
        let (column, row) = ((stage - 1) % COLUMNS, (stage - 1) / COLUMNS);
        let corner = Point::new(step[0] * column as f64, step[1] * (rows - row) as f64 - box_.height());
        self::stage(&mut sheet, ring, stage, (corner - Point::new(box_.x0, box_.y0), box_));
    }
    Some(sheet.finished())
}

/// One small plan, moved on the sheet, and its words.
fn stage(sheet: &mut Sheet, ring: &RingPlan, stage: usize, (shift, box_): (Vec2, Rect)) {
    for outline in ring.parts.first().iter().flat_map(|part| &part.outlines) {
        let points: Vec<[f64; 2]> = outline.points.iter().map(|&point| sheet.at(point + shift)).collect();
        let drawn = Element::polygon(&points).with("fill", "none").with("stroke", SLATE);
        sheet.push(drawn.with("stroke-width", weight::THIN).data_path("wall"));
    }
    let count = ring.order.len();
    let set = stage.min(count);
    let newest = (stage <= count).then(|| ring.order.get(set - 1)).flatten();
    let fill = |place: usize| {
        let share = if newest == Some(&place) { 0.85 } else { 0.12 };
        hatch::mixed(STRAW, LIME, share)
    };
    Poles { ring, shift, fill: &fill }.draw(sheet, &ring.order[..set]);
    if stage <= count {
        let at = sheet.at(ring.prop.at + shift);
        let disc = Element::circle(at, 1.3).with("fill", INK).with("stroke", LIME).with("stroke-width", weight::SEEN);
        sheet.push(disc.data_path("roof.raising.prop-top"));
    }
    let words = match newest {
        Some(&place) if stage == 1 => format!("{stage}: {} {} on the prop", place + 1, spoken(&ring.places[place].tag)),
        Some(&place) if stage == count => {
            format!("{stage}: {} {} slips in", place + 1, spoken(&ring.places[place].tag))
        }
        Some(&place) => format!("{stage}: {} {}", place + 1, spoken(&ring.places[place].tag)),
        None => {
            let cut = ring.second.and_then(CutForSecond::in_words);
            let before = cut.map_or_else(String::new, |done| format!(",\nall {done} before"));
            format!("{stage}: the prop out{before}")
        }
    };
    let [x, y] = sheet.at(Point::new(box_.center().x, box_.y0) + shift);
    let at = [x, y + 2.6];
    let path = newest.map_or_else(|| "roof.raising.sinks".to_owned(), |&place| ring.places[place].stem.clone());
    sheet.label(Label { path, preferred: vec![at], ..Label::beside(at, LETTERING, &words) });
}
