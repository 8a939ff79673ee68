//! The doors of the way round the house: each part's link, with its name, its mark and how it stands in words.

use crate::drawing::area::Area;
use crate::fonts::Face;
use crate::lettering;
use crate::paper::{INK, LIME, SLATE, weight};
use crate::svg::{Element, Run};

/// Height of a name, in sizes of the words under it.
const NAME: f64 = 1.6;
/// From baseline to baseline, in sizes of the words.
const LINE: f64 = 1.28;
/// Side of a mark and from it to what stands beside it, in sizes of the words.
const MARK: f64 = 0.97;
const GAP: f64 = 0.5;

/// How a leaf stands: its name, the words for it, and the state of a check whose mark it carries (empty for none).
pub type Standing<'a> = (&'a str, &'a str, &'a str);

/// A name with its mark and words, measured but not placed.
pub(super) struct Name<'a> {
    standing: Standing<'a>,
    title: String,
    lines: Vec<String>,
    width: f64,
    /// Height of the words, in millimetres of the em.
    size: f64,
}

impl<'a> Name<'a> {
    /// The name of a leaf, its words of a size broken into lines so wide at most, in millimetres.
    pub(super) fn of(standing: Standing<'a>, widest: f64, size: f64) -> Name<'a> {
        let (leaf, words, _) = standing;
        let mut signs = leaf.chars();
        let title = signs.next().into_iter().flat_map(char::to_uppercase).chain(signs).collect::<String>();
        let lines = broken(words, widest, size);
        let widths = lines.iter().map(|line| lettering::width(line, size));
        let head = lettering::width_in(Face::DisplayStrong, &title, NAME * size) + (GAP + MARK) * size;
        Name { standing, width: widths.fold(head, f64::max), title, lines, size }
    }

    pub(super) fn size(&self) -> [f64; 2] {
        [self.width, (NAME * 0.95 + self.lines.len() as f64 * LINE) * self.size]
    }

    /// The name with its upper left corner at a place.
    pub(super) fn drawn(&self, [left, top]: [f64; 2]) -> Element {
        let (size, name) = (self.size, NAME * self.size);
        let base = top + name * 0.74;
        let title = Element::text([left, base], name, &self.title);
        let title = title.with("font-family", Face::DisplayStrong.family()).with("font-weight", 600.0);
        let beside = left + lettering::width_in(Face::DisplayStrong, &self.title, name) + GAP * size;
        let mut drawn = vec![title.with("fill", INK)];
        for (place, line) in self.lines.iter().enumerate() {
            let level = base + LINE * size * (place as f64 + 1.0) + 0.3;
            drawn.push(Element::text([left, level], size, line).with("fill", INK));
        }
        let halo = Element::group(drawn).with("stroke", LIME).with("stroke-width", 1.1).with("paint-order", "stroke");
        let words = halo.with("stroke-linejoin", "round");
        let side = MARK * size;
        Element::group(vec![words, mark(self.standing.2, [beside, base - side * 0.92], side)])
    }

    /// Its box with its upper left corner at a place.
    pub(super) fn area(&self, [left, top]: [f64; 2]) -> Area {
        let [width, height] = self.size();
        Area { left, top, right: left + width, bottom: top + height }
    }
}

/// The door to a leaf: what is drawn of it, then its name; all of an area can be touched.
pub(super) fn door(standing: Standing<'_>, drawn: Vec<Element>, touched: &[Area]) -> Element {
    let (leaf, words, state) = standing;
    let said: Vec<&str> = [leaf, state, words].into_iter().filter(|part| !part.is_empty()).collect();
    let link = Element::named("a").with("href", format!("#{leaf}")).with("data-leaf", leaf.to_owned());
    let link = link.child(Element::named("title").words(&said.join(": ")));
    let touched = touched.iter().map(|area| {
        let whole = Element::rectangle([area.left, area.top], area.width(), area.height());
        whole.with("fill", "none").with("pointer-events", "all")
    });
    touched.chain(drawn).fold(link, Element::child)
}

/// A thin line from a name to what it speaks of, with a dot at its end.
pub(super) fn leader(points: &[[f64; 2]]) -> Vec<Element> {
    let line = Element::polyline(points).with("stroke", SLATE).with("stroke-width", weight::THIN);
    let dot = points.last().map(|end| Element::circle(*end, 0.55).with("fill", INK));
    [line].into_iter().chain(dot).collect()
}

/// Words broken into lines no wider than so many millimetres, but for single words.
fn broken(words: &str, widest: f64, size: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in with_units(words) {
        match lines.last_mut() {
            Some(line) if lettering::width(&format!("{line} {word}"), size) <= widest => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines
}

/// Words, each number together with the unit behind it.
fn with_units(words: &str) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        match found.last_mut() {
            Some(number) if word.chars().count() <= 3 && number.ends_with(|sign: char| sign.is_ascii_digit()) => {
                number.push(' ');
                number.push_str(word);
            }
            _ => found.push(word.to_owned()),
        }
    }
    found
}

/// The mark of a state so wide in millimetres, as the book prints it: full disc, half disc, cross, ring with a question mark, bare question mark.
fn mark(state: &str, [left, top]: [f64; 2], side: f64) -> Element {
    let half = side * 0.5;
    let centre = [left + half, top + half];
    let ring = || {
        let ring = Element::circle(centre, half - weight::SEEN * 0.5).with("fill", LIME).with("stroke", INK);
        ring.with("stroke-width", weight::SEEN)
    };
    Element::group(match state {
        "holds" => vec![Element::circle(centre, half).with("fill", INK)],
        "tight" => {
            let turns = (0..=12).map(|step| std::f64::consts::PI * (0.5 + f64::from(step) / 12.0));
            let points: Vec<[f64; 2]> =
                turns.map(|turn| [centre[0] + half * turn.cos(), centre[1] + half * turn.sin()]).collect();
            vec![ring(), Element::polygon(&points).with("fill", INK)]
        }
        "fails" => {
            let (near, far) = (0.12 * side, 0.88 * side);
            let stroke =
                |from: [f64; 2], to: [f64; 2]| vec![[left + from[0], top + from[1]], [left + to[0], top + to[1]]];
            let lines = [stroke([near, near], [far, far]), stroke([near, far], [far, near])];
            let runs = lines.each_ref().map(|line| Run::Open(line));
            vec![
                Element::path(&runs)
                    .with("stroke", INK)
                    .with("stroke-width", 0.22 * side)
                    .with("stroke-linecap", "round"),
            ]
        }
        "on trust" => [ring()].into_iter().chain(question(centre, 0.62 * side)).collect(),
        "not known" => question(centre, 0.94 * side),
        _ => Vec::new(),
    })
}

/// A question mark of strokes about a centre, so high in millimetres.
fn question([x, y]: [f64; 2], side: f64) -> Vec<Element> {
    let at = |across: f64, down: f64| [x + (across - 0.5) * side, y + (down - 0.5) * side];
    let hook = [
        (0.30, 0.30),
        (0.32, 0.16),
        (0.42, 0.06),
        (0.54, 0.05),
        (0.66, 0.11),
        (0.72, 0.24),
        (0.70, 0.37),
        (0.60, 0.48),
        (0.52, 0.57),
        (0.50, 0.70),
    ];
    let points = hook.map(|(across, down)| at(across, down));
    let stroke = Element::polyline(&points).with("stroke", INK).with("stroke-width", side * 0.15);
    let stroke = stroke.with("stroke-linecap", "round").with("stroke-linejoin", "round");
    vec![stroke, Element::circle(at(0.5, 0.94), side * 0.1).with("fill", INK)]
}
