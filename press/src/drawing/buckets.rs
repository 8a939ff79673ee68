//! A recipe drawn as buckets: as many of each ingredient as go on the tarp, straw by the armful, water by the bucket.

use engine::answers::Answers;

use crate::lettering;
use crate::paper::{CLAY, INK, LIME, Paper, SLATE, STRAW, weight};
use crate::spoken::spoken;
use crate::svg::{Element, Svg};

/// Height of lettering, in millimetres of the em.
const LETTERING: f64 = 4.2;
/// Width and height of a bucket, in millimetres.
const BUCKET: [f64; 2] = [8.5, 8.0];
/// From one bucket to the next and from one line to the next, in millimetres.
const STEP: [f64; 2] = [10.5, 12.5];
/// Space for the words at the left, in millimetres.
const WORDS: f64 = 46.0;

/// What a bucket holds, by how it is marked: the marks differ in black and white.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Filling {
    Lines,
    Dots,
    Rings,
    Waves,
    Straw,
}

/// One line of the drawing.
struct Line {
    words: String,
    path: String,
    count: f64,
    filling: Filling,
}

/// The buckets of a recipe on a sheet of a width in millimetres; none when there is no such recipe.
#[must_use]
pub fn buckets(answers: &Answers, recipe: &str, width_mm: f64) -> Option<Svg> {
    let lines = lines(answers, recipe);
    if lines.is_empty() {
        return None;
    }
    let heaped = answers.rows.find("earth.bucket.filled").is_some();
    let across = ((width_mm - WORDS) / STEP[0]).floor().max(1.0);
    let rows = |line: &Line| (line.count.ceil().max(1.0) / across).ceil();
    let height: f64 = lines.iter().map(rows).sum::<f64>() * STEP[1] + 4.0;
    let title = format!("A batch of {} in buckets", spoken(recipe));
    let mut svg = Svg::sheet(width_mm, height, &title);
    let mut top = 4.0;
    for line in &lines {
        words(&mut svg, line, top);
        let count = line.count.ceil().max(1.0) as u32;
        for place in 0..count {
            let share = (line.count - f64::from(place)).clamp(0.0, 1.0);
            let (column, row) = (f64::from(place) % across, (f64::from(place) / across).floor());
            let corner = [WORDS + column * STEP[0], top + row * STEP[1]];
            if line.filling == Filling::Straw {
                sheaf(&mut svg, corner, share);
            } else {
                bucket(&mut svg, corner, share, line.filling, heaped && line.filling != Filling::Waves);
            }
        }
        top += rows(line) * STEP[1];
    }
    Some(svg)
}

/// The buckets of every recipe that the house is made of, as wide as the medium: name and drawing, the wall's recipe first.
#[must_use]
pub fn recipes(answers: &Answers, medium: Paper) -> Vec<(String, Svg)> {
    let [width, _] = medium.drawing_mm();
    let drawn = answers.recipes.iter().filter_map(|name| Some((name.clone(), buckets(answers, name, width)?)));
    drawn.collect()
}

fn lines(answers: &Answers, recipe: &str) -> Vec<Line> {
    let stem = format!("earth.recipes.{recipe}.buckets.");
    let marks = [Filling::Lines, Filling::Dots, Filling::Rings];
    let ingredients = answers.rows.iter().filter_map(|row| Some((row.path.strip_prefix(&stem)?, row)));
    let mut lines: Vec<Line> = ingredients
        .enumerate()
        .filter_map(|(place, (name, row))| {
            let count = row.quantity.si()?;
            let words = format!("{} {}", number(count), spoken(name));
            Some(Line { words, path: row.path.clone(), count: as_said(count), filling: marks[place.min(2)] })
        })
        .collect();
    for (noun, word, filling) in
        [("armfuls", "armfuls of straw", Filling::Straw), ("water-buckets", "water", Filling::Waves)]
    {
        let found = answers.rows.find(&format!("earth.recipes.{recipe}.{noun}"));
        if let Some((row, count)) = found.and_then(|row| Some((row, row.quantity.si()?))) {
            let words = format!("{} {word}", number(count));
            lines.push(Line { words, path: row.path.clone(), count: as_said(count), filling });
        }
    }
    lines
}

/// What is drawn of a count: the quarters that are said of it; less than the first of them as it is.
fn as_said(count: f64) -> f64 {
    let quarters = (count * 4.0).round();
    if quarters < 1.0 { count } else { quarters / 4.0 }
}

/// A number of buckets as people say it: to the nearest quarter.
#[must_use]
pub fn number(count: f64) -> String {
    let quarters = (count * 4.0).round() as u64;
    let (whole, part) = (quarters / 4, ["", "¼", "½", "¾"][(quarters % 4) as usize]);
    match (whole, part) {
        (0, "") => "a little".to_owned(),
        (0, part) => part.to_owned(),
        (whole, "") => whole.to_string(),
        (whole, part) => format!("{whole} {part}"),
    }
}

fn words(svg: &mut Svg, line: &Line, top: f64) {
    let size = LETTERING.min(LETTERING * (WORDS - 4.0) / lettering::width(&line.words, LETTERING));
    svg.push(Element::text([0.0, top + BUCKET[1] * 0.6], size, &line.words).with("fill", INK).data_path(&line.path));
}

/// A bucket filled to a share of its height.
fn bucket(svg: &mut Svg, [left, top]: [f64; 2], share: f64, filling: Filling, heaped: bool) {
    let [width, height] = BUCKET;
    let inset = |at: f64| 1.6 * (at / height);
    let level = height * (1.0 - share);
    let side = |at: f64| [left + inset(at), left + width - inset(at)];
    let [a, b] = side(level);
    let [c, d] = side(height);
    let inside = [[a, top + level], [b, top + level], [d, top + height], [c, top + height]];
    let fill = match filling {
        Filling::Lines => CLAY,
        Filling::Dots | Filling::Rings | Filling::Straw => STRAW,
        Filling::Waves => SLATE,
    };
    svg.push(Element::polygon(&inside).with("fill", fill).with("fill-opacity", 0.22));
    if heaped && share >= 1.0 {
        let heap = [[left, top], [left + width * 0.3, top - 2.6], [left + width * 0.7, top - 2.6], [left + width, top]];
        svg.push(
            Element::polygon(&heap)
                .with("fill", fill)
                .with("fill-opacity", 0.22)
                .with("stroke", INK)
                .with("stroke-width", weight::SEEN),
        );
    }
    marks(svg, [left, top], level, filling);
    let [c, d] = side(height);
    let outline = [[left, top], [c, top + height], [d, top + height], [left + width, top], [left, top]];
    svg.push(Element::polyline(&outline).with("fill", "none").with("stroke", INK).with("stroke-width", weight::SEEN));
    if share < 1.0 {
        let line = Element::line([a, top + level], [b, top + level]);
        svg.push(line.with("stroke", INK).with("stroke-width", weight::THIN));
    }
}

fn marks(svg: &mut Svg, [left, top]: [f64; 2], level: f64, filling: Filling) {
    let [width, height] = BUCKET;
    let mut at = level + 1.8;
    let mut odd = false;
    while at < height - 0.8 {
        let (from, to) = (left + 1.9, left + width - 1.9);
        let y = top + at;
        match filling {
            Filling::Lines => {
                svg.push(Element::line([from, y], [to, y]).with("stroke", CLAY).with("stroke-width", weight::THIN));
            }
            Filling::Dots | Filling::Rings => {
                let radius = if filling == Filling::Dots { 0.3 } else { 0.6 };
                for place in 0..3_u32 {
                    let x = from + if odd { 0.7 } else { 0.0 } + 1.9 * f64::from(place);
                    let dot = Element::circle([x, y], radius).with("stroke", INK).with("stroke-width", weight::THIN);
                    svg.push(dot.with("fill", if filling == Filling::Dots { INK } else { LIME }));
                }
            }
            Filling::Waves | Filling::Straw => {
                let wave: Vec<[f64; 2]> = (0..=8_u32)
                    .map(|step| {
                        [from + (to - from) * f64::from(step) / 8.0, y + if step % 2 == 0 { 0.4 } else { -0.4 }]
                    })
                    .collect();
                svg.push(
                    Element::polyline(&wave)
                        .with("fill", "none")
                        .with("stroke", SLATE)
                        .with("stroke-width", weight::THIN),
                );
            }
        }
        at += 2.3;
        odd = !odd;
    }
}

/// An armful of straw, tied in the middle; a part of one has fewer stalks.
fn sheaf(svg: &mut Svg, [left, top]: [f64; 2], share: f64) {
    let stalks = (7.0 * share).round().max(1.0) as u32;
    let middle = left + BUCKET[0] * 0.5;
    for stalk in 0..stalks {
        let lean = (f64::from(stalk) - 0.5 * f64::from(stalks - 1)) * 1.0;
        let line = Element::line([middle + lean, top], [middle - lean * 0.8, top + BUCKET[1]]);
        svg.push(line.with("stroke", INK).with("stroke-width", weight::SEEN));
    }
    let tie = Element::line([middle - 1.6, top + BUCKET[1] * 0.55], [middle + 1.6, top + BUCKET[1] * 0.55]);
    svg.push(tie.with("stroke", STRAW).with("stroke-width", 1.2));
}

#[cfg(test)]
mod tests {
    use super::{as_said, number};

    #[test]
    fn buckets_are_said_to_the_nearest_quarter() {
        let said = [0.05, 0.3, 1.0, 2.5, 3.13, 2.9].map(number);
        assert_eq!(said, ["a little", "¼", "1", "2 ½", "3 ¼", "3"]);
    }

    #[test]
    fn buckets_are_drawn_as_they_are_said() {
        assert_eq!([2.05, 2.9, 0.3, 0.05].map(as_said), [2.0, 3.0, 0.25, 0.05]);
    }
}
