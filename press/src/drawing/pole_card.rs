//! A pole as it lies on its card, butt left: true along, thicker across, with every mark from the butt, its side and its band.

use engine::answers::Answers;
use engine::house::ring_plan::PlacedPole;
use engine::units::Fineness;
use kurbo::{Point, Rect};

use super::dimension::marked;
use super::labels::Label;
use super::sheet::{LETTERING, Margins, Sheet};
use super::{Scaled, hatch};
use crate::lettering;
use crate::paper::{INK, LIME, Paper, SLATE, STRAW, weight};
use crate::svg::Element;

/// What the edges of a card take from the width of the page, in millimetres.
const CARD_EDGES: f64 = 13.0;
/// Height for the drawing on a card, in millimetres.
const HEIGHT: f64 = 72.0;
/// Millimetres of paper for a metre across the pole.
const ACROSS: f64 = 62.0;
/// From the string of the pole to the words above and below, in millimetres.
const WORDS: f64 = 13.5;
/// Half the length that a notch takes along the drawing, in millimetres.
const NOTCH: f64 = 2.2;
/// The least depth at which a cut is still seen, in millimetres.
const SEEN: f64 = 0.7;
/// How much of what is cut off is drawn, in metres.
const OFFCUT: f64 = 0.45;
/// Share of straw in the tint of a pole.
const TINT: f64 = 0.28;
/// Pieces in which a bowed side is drawn.
const PIECES: u32 = 24;

/// A pole drawn along and across.
struct Lying<'a> {
    pole: &'a PlacedPole,
    /// Level of its string on paper, in millimetres.
    level: f64,
}

impl Lying<'_> {
    /// The middle of the pole on paper at a distance from its butt.
    fn middle(&self, sheet: &Sheet, along: f64) -> [f64; 2] {
        let whole = self.pole.lengths[1];
        let bow = 4.0 * self.pole.bow * along * (whole - along) / (whole * whole);
        [sheet.at(Point::new(along, 0.0))[0], self.level - bow * ACROSS]
    }

    /// Its top (1) or its underside (-1) there.
    fn side(&self, sheet: &Sheet, along: f64, side: f64) -> [f64; 2] {
        let [butt, end] = [self.pole.diameters[0], self.pole.end];
        let half = 0.5 * (butt + (end - butt) * along / self.pole.lengths[1]);
        let [x, y] = self.middle(sheet, along);
        [x, y - side * half * ACROSS]
    }

    /// A side between two distances from the butt.
    fn edge(&self, sheet: &Sheet, [from, to]: [f64; 2], side: f64) -> Vec<[f64; 2]> {
        let at = |step: u32| from + (to - from) * f64::from(step) / f64::from(PIECES);
        (0..=PIECES).map(|step| self.side(sheet, at(step), side)).collect()
    }
}

/// A mark on a pole: where, on which side, how deep it is cut, and its words.
struct Mark {
    along: f64,
    side: f64,
    deep: f64,
    path: String,
    words: String,
    /// How far its words stand to the right of it, as a share of their own width.
    right: f64,
}

/// The drawing of a pole's card.
#[must_use]
pub fn pole_card(answers: &Answers, pole: &PlacedPole, paper: Paper) -> Scaled {
    let [width, height] = paper.drawing_mm();
    let [width, height] = match paper {
        Paper::Screen { .. } => [width, height],
        Paper::A4 | Paper::Letter => [width - CARD_EDGES, HEIGHT],
    };
    let [cut, whole] = pole.lengths;
    let shown = whole.min(cut + OFFCUT);
    let margins = Margins { left: 19.0, top: 28.5, right: 20.0, bottom: 28.5 };
    let row = (Rect::new(0.0, 0.0, shown, 0.0), margins);
    let mut sheet = Sheet::new("A pole with its marks", &[row], paper.room([width, height]), answers.system);
    let lying = Lying { pole, level: sheet.at(Point::ZERO)[1] };
    body(&mut sheet, &lying, [0.0, cut]);
    rest_of_it(&mut sheet, &lying, [cut, shown], shown < whole);
    for mark in marks(answers, pole) {
        draw(&mut sheet, &lying, &mark);
    }
    ends(&mut sheet, answers, &lying, shown);
    sheet.finished()
}

/// What stays of the pole.
fn body(sheet: &mut Sheet, lying: &Lying<'_>, ends: [f64; 2]) {
    let under = lying.edge(sheet, ends, -1.0).into_iter().rev();
    let round: Vec<[f64; 2]> = lying.edge(sheet, ends, 1.0).into_iter().chain(under).collect();
    let drawn = Element::polygon(&round).with("fill", hatch::mixed(STRAW, LIME, TINT)).with("stroke", INK);
    sheet.push(drawn.with("stroke-width", weight::SEEN).data_path(&lying.pole.stem));
    sheet.avoid(&round, true, 2.0);
    let middle: Vec<[f64; 2]> =
        [0.02, 0.98].map(|share| lying.middle(sheet, ends[0] + (ends[1] - ends[0]) * share)).to_vec();
    let string =
        Element::polyline(&middle).with("fill", "none").with("stroke", SLATE).with("stroke-dasharray", "5 1 1 1");
    sheet.push(string.with("stroke-width", weight::THIN));
}

/// What is cut off, dashed, as far as it is drawn, and the cut.
fn rest_of_it(sheet: &mut Sheet, lying: &Lying<'_>, ends: [f64; 2], is_broken_off: bool) {
    let [top, under] = [1.0, -1.0].map(|side| lying.edge(sheet, ends, side));
    for side in [&top, &under] {
        let dashed = Element::polyline(side).with("fill", "none").with("stroke", INK).with("stroke-dasharray", "2 1.2");
        sheet.push(dashed.with("stroke-width", weight::HIDDEN));
        sheet.avoid(side, false, 2.0);
    }
    let [[x, high], [_, low]] = [1.0, -1.0].map(|side| lying.side(sheet, ends[1], side));
    let third = (low - high) / 3.0;
    let broken = [
        [x, high - 1.5],
        [x, high + third],
        [x - 1.4, high + 1.3 * third],
        [x + 1.4, high + 1.7 * third],
        [x, low - third],
        [x, low + 1.5],
    ];
    let end = if is_broken_off { broken.to_vec() } else { vec![[x, high], [x, low]] };
    let end = Element::polyline(&end).with("fill", "none").with("stroke", INK).with("stroke-width", weight::THIN);
    sheet.push(end.data_path(&lying.pole.stem));
    sheet.avoid(&[[x, high], [x, low]], false, 2.0);
    let [[x, top], [_, foot]] = [1.0, -1.0].map(|side| lying.side(sheet, ends[0], side));
    let saw: Vec<[f64; 2]> = (0_u8..=12)
        .map(|step| {
            let share = f64::from(step) / 12.0;
            [x + if step % 2 == 0 { -0.6 } else { 0.6 }, top - 2.5 + (foot - top + 5.0) * share]
        })
        .collect();
    let path = format!("{}.cut-length", lying.pole.stem);
    let saw = Element::polyline(&saw).with("fill", "none").with("stroke", INK).with("stroke-width", weight::CUT);
    sheet.push(saw.with("stroke-linejoin", "round").data_path(&path));
}

fn marks(answers: &Answers, pole: &PlacedPole) -> Vec<Mark> {
    let of = |noun: &str| format!("{}.{noun}", pole.stem);
    let mark = |noun: &str| marked(answers, &of(noun)).unwrap_or_default();
    let fine = |path: &str| {
        let row = answers.rows.find(path);
        row.map_or_else(String::new, |row| row.quantity.shown(answers.system, Fineness::SetOut))
    };
    let notch = |depth: f64, noun: &str| {
        if depth > 0.0 { format!("notch {} deep", fine(&of(noun))) } else { "no notch".to_owned() }
    };
    let carry = format!(
        "carries {}, on top\n{} ± {}\n{}",
        pole.neighbours.carries + 1,
        mark("carry"),
        mark("carry-band"),
        notch(pole.cuts.carry, "carry-notch")
    );
    let rest = format!(
        "rests on {}, underside\n{} ± {}\n{}",
        pole.neighbours.rests_on + 1,
        mark("rest"),
        mark("rest-band"),
        notch(pole.cuts.rest, "rest-notch")
    );
    let seat = format!("seat, underside\n{}\n{} deep", mark("tail"), fine("roof.seat"));
    let cut = format!("cut here\n{}", mark("cut-length"));
    vec![
        Mark { along: pole.along.seat, side: -1.0, deep: pole.cuts.seat, path: of("tail"), words: seat, right: -0.3 },
        Mark { along: pole.along.carry, side: 1.0, deep: pole.cuts.carry, path: of("carry"), words: carry, right: 0.0 },
        Mark { along: pole.along.rest, side: -1.0, deep: pole.cuts.rest, path: of("rest"), words: rest, right: -0.36 },
        Mark { along: pole.lengths[0], side: -1.0, deep: 0.0, path: of("cut-length"), words: cut, right: 0.5 },
    ]
}

/// The cut, a line from it to its words, and these.
fn draw(sheet: &mut Sheet, lying: &Lying<'_>, mark: &Mark) {
    let [x, y] = lying.side(sheet, mark.along, mark.side);
    if mark.deep > 0.0 {
        let deep = (mark.deep * ACROSS).max(SEEN) * mark.side;
        let cut = [[x - NOTCH, y], [x - NOTCH, y + deep], [x + NOTCH, y + deep], [x + NOTCH, y]];
        // What is cut away is white, and drawn over the edge of the pole.
        let open = Element::polygon(&cut).with("fill", LIME).with("stroke", "none");
        sheet.push(open.data_path(&mark.path));
        let line = Element::polyline(&cut).with("fill", "none").with("stroke", INK).with("stroke-width", weight::CUT);
        sheet.push(line.data_path(&mark.path));
    }
    let lines = mark.words.lines().count() as f64;
    let far = lying.level - mark.side * WORDS;
    let near = [x, y - mark.side * 0.8];
    let lead = Element::line(near, [x, far]).with("stroke", INK).with("stroke-width", weight::THIN);
    sheet.push(lead.data_path(&mark.path));
    sheet.avoid(&[near, [x, far]], false, 3.0);
    let wide = mark.words.lines().map(|line| lettering::width(line, LETTERING)).fold(0.0, f64::max);
    let reach = LETTERING * 0.66 * lines + 0.6;
    let at = [x + mark.right * wide, far - mark.side * reach];
    let label = Label::beside([x, far], LETTERING, &mark.words);
    sheet.label(Label { preferred: vec![at], path: mark.path.clone(), ..label });
}

/// Diameters, bow, and which end goes where.
fn ends(sheet: &mut Sheet, answers: &Answers, lying: &Lying<'_>, shown: f64) {
    let pole = lying.pole;
    let of = |noun: &str| format!("{}.{noun}", pole.stem);
    let across = |noun: &str| {
        let row = answers.rows.find(&of(noun));
        row.map_or_else(String::new, |row| row.quantity.shown(answers.system, Fineness::SetOut))
    };
    let [butt, tip] = if pole.is_turned { ["thin end", "thick end"] } else { ["thick end", "thin end"] };
    for (along, side, noun, words) in [(0.0, -1.0, "butt", butt), (shown, 1.0, "tip", tip)] {
        let [x, y] = lying.middle(sheet, along);
        let goal = if side < 0.0 { "to the wall" } else { "to the eye" };
        let words = format!("{words}\n∅ {}\n{goal}", across(noun));
        let wide = words.lines().map(|line| lettering::width(line, LETTERING)).fold(0.0, f64::max);
        let at = [x + side * (wide * 0.5 + 2.2), y];
        sheet.label(Label { preferred: vec![at], path: of(noun), ..Label::beside([x, y], LETTERING, &words) });
    }
    let middle = 0.7 * pole.along.seat + 0.3 * pole.along.carry;
    let [x, top] = lying.side(sheet, middle, 1.0);
    let words = if pole.bow > 0.0 { format!("bow {} up", across("bow")) } else { "straight".to_owned() };
    let at = [x, top - 7.0];
    let head = [x, at[1] + 2.0];
    for to in [[x, top - 1.0], [x - 1.0, head[1] + 1.4], [x + 1.0, head[1] + 1.4]] {
        sheet.push(Element::line(head, to).with("stroke", INK).with("stroke-width", weight::THIN));
        sheet.avoid(&[head, to], false, 3.0);
    }
    let at = [x, at[1] - 0.6];
    sheet.label(Label { preferred: vec![at], path: of("bow"), ..Label::beside([x, top], LETTERING, &words) });
}
