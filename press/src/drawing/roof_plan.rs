//! The plan of a ring of measured poles: tags, who lies over whom, plate, eave, eye, prop.

use engine::answers::Answers;
use engine::house::RingPlan;
use engine::house::ring_plan::{PlacedPole, Round};
use kurbo::{Point, Rect, Vec2};

use super::dimension::{marked, number};
use super::labels::Label;
use super::plan::north;
use super::poles::{Poles, outline};
use super::sheet::{LETTERING, Margins, SMALL, Sheet, extent};
use super::{Scaled, dimension, hatch, material};
use crate::lettering;
use crate::paper::{INK, LIME, Paper, SLATE, STRAW, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// Share of straw in the tint of a pole.
pub(super) const TINT: f64 = 0.28;
/// Radius of the mark of the prop, in millimetres.
const PROP: f64 = 2.0;
/// Half the side of the mark of a seat, in millimetres.
const SEAT: f64 = 0.9;
/// Radius of the disc with a place's number, in millimetres.
const DISC: f64 = 2.1;
/// From a butt to its words, in millimetres.
const BESIDE: f64 = 1.6;

/// The plan of the poles at the largest true scale that fits the paper; none where no pole is measured.
#[must_use]
pub fn roof_plan(answers: &Answers, paper: Paper) -> Option<Scaled> {
    let ring = answers.ring_plan.as_ref()?;
    let side = if is_small(paper) { 6.0 } else { 27.0 };
    let margins = Margins { left: side, top: 15.0, right: side, bottom: 12.0 };
    let title = "Plan of the poles";
    let mut sheet = Sheet::new(title, &[(bounds(ring), margins)], paper.room(paper.drawing_mm()), answers.system);
    material::define(&mut sheet);
    for part in &ring.parts {
        material::draw(&mut sheet, part);
    }
    line(&mut sheet, &ring.plate, "roof.plate-offset", "5 1 1 1");
    for piece in &ring.secondary {
        round(&mut sheet, piece);
    }
    let fill = |_: usize| hatch::mixed(STRAW, LIME, TINT);
    let poles = Poles { ring, shift: Vec2::ZERO, fill: &fill };
    let all: Vec<usize> = (0..ring.places.len()).collect();
    poles.draw(&mut sheet, &all);
    line(&mut sheet, &ring.eye, "roof.eye", "1.4 1");
    for (place, pole) in ring.places.iter().enumerate() {
        let along = way(&sheet, pole);
        seat(&mut sheet, pole.at.seat, along, &pole.stem);
        let middle = sheet.at(pole.at.seat.midpoint(pole.at.carry));
        disc(&mut sheet, middle, (place + 1, pole));
        // On a small screen the numbers lead to the table and the cards.
        if !sheet.is_small() {
            name(&mut sheet, answers, (place, pole));
        }
    }
    for one in &ring.dimensions {
        dimension::draw(&mut sheet, answers, one, 0.0);
    }
    prop(&mut sheet, answers, ring);
    north(&mut sheet, answers.plan.north);
    Some(sheet.finished())
}

pub(super) fn is_small(paper: Paper) -> bool {
    matches!(paper, Paper::Screen { width_mm, .. } if width_mm < SMALL)
}

/// The box round eave and poles, in metres.
pub(super) fn bounds(ring: &RingPlan) -> Rect {
    let ends = ring.places.iter().flat_map(|pole| pole.axis).map(|[x, y, _]| Point::new(x, y));
    ends.fold(extent(&ring.parts), |round, end| round.union_pt(end))
}

/// A closed dashed line.
pub(super) fn line(sheet: &mut Sheet, points: &[Point], path: &str, dashes: &'static str) {
    let points: Vec<[f64; 2]> = points.iter().map(|&point| sheet.at(point)).collect();
    let drawn = Element::polygon(&points).with("fill", "none").with("stroke", SLATE).with("stroke-dasharray", dashes);
    sheet.push(drawn.with("stroke-width", weight::HIDDEN).data_path(path));
}

/// A piece between two poles: thinner lines and no tint.
pub(super) fn round(sheet: &mut Sheet, piece: &Round) {
    let corners = outline(piece.axis, [piece.diameter; 2]).map(|corner| sheet.at(corner));
    let drawn = Element::polygon(&corners).with("fill", LIME).with("stroke", INK).with("stroke-width", weight::THIN);
    sheet.push(drawn.data_path(&piece.path));
}

/// A small black square where a pole rests, turned along it.
pub(super) fn seat(sheet: &mut Sheet, at: Point, way: Vec2, path: &str) {
    let [x, y] = sheet.at(at);
    let way = way * SEAT;
    let aside = way.turn_90();
    let corners = [way + aside, way - aside, -way - aside, aside - way].map(|off| [x + off.x, y + off.y]);
    sheet.push(Element::polygon(&corners).with("fill", INK).data_path(path));
    sheet.avoid(&corners, true, 4.0);
}

/// The direction of a pole on paper, from the wall to the eye.
fn way(sheet: &Sheet, pole: &PlacedPole) -> Vec2 {
    let [from, to] = pole.axis.map(|[x, y, _]| sheet.at(Point::new(x, y)));
    Vec2::new(to[0] - from[0], to[1] - from[1]).normalize()
}

/// Its number, its tag and its length beyond the butt of a pole.
fn name(sheet: &mut Sheet, answers: &Answers, (place, pole): (usize, &PlacedPole)) {
    let path = format!("{}.cut-length", pole.stem);
    let length = marked(answers, &path).unwrap_or_default();
    let words = format!("{} {}\n{length}", place + 1, spoken(&pole.tag));
    let [x, y, _] = pole.axis[0];
    let [x, y] = sheet.at(Point::new(x, y));
    let out = -way(sheet, pole);
    let wide = words.lines().map(|line| lettering::width(line, LETTERING)).fold(0.0, f64::max);
    let reach = BESIDE + out.x.abs() * wide * 0.5 + out.y.abs() * LETTERING * 1.3;
    let at = [x + out.x * reach, y + out.y * reach];
    sheet.label(Label { preferred: vec![at], path, ..Label::beside([x, y], LETTERING, &words) });
}

/// The number of a place on its pole.
fn disc(sheet: &mut Sheet, at: [f64; 2], (number, pole): (usize, &PlacedPole)) {
    let drawn = Element::circle(at, DISC).with("fill", LIME).with("stroke", INK).with("stroke-width", weight::THIN);
    sheet.push(drawn.data_path(&pole.stem));
    let words = number.to_string();
    let foot = [at[0] - lettering::width(&words, LETTERING) * 0.5, at[1] + lettering::capitals(LETTERING) * 0.5];
    sheet.push(Element::text(foot, LETTERING, &words).with("fill", INK));
    sheet.avoid(&around(at, DISC), true, 8.0);
}

/// Points round a disc.
fn around(at: [f64; 2], radius: f64) -> Vec<[f64; 2]> {
    let ring = (0..8).map(|step| Vec2::from_angle(f64::from(step) * std::f64::consts::FRAC_PI_4) * radius);
    ring.map(|off| [at[0] + off.x, at[1] + off.y]).collect()
}

fn prop(sheet: &mut Sheet, answers: &Answers, ring: &RingPlan) {
    let at = sheet.at(ring.prop.at);
    let path = "roof.raising.prop-above-floor";
    let disc = Element::circle(at, PROP).with("fill", LIME).with("stroke", INK).with("stroke-width", weight::CUT);
    sheet.push(disc.data_path(path));
    sheet.avoid(&around(at, PROP), true, 5.0);
    let words = format!("prop, top {}\nabove the floor", number(answers, path).unwrap_or_default());
    sheet.label(Label { path: path.to_owned(), ..Label::beside(at, LETTERING, &words) });
}
