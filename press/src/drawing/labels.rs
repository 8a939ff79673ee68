//! Places the labels of a drawing so that no two ever overlap and none leaves the sheet.
//!
//! Every label tries its preferred places first, then rings of places round its anchor. Labels in crowded spots choose
//! first; a label without room may push one other aside; a few sweeps then let each move to a better place. What still
//! has no room goes to a numbered key. The outcome depends on the input alone.

use std::cell::Cell;
use std::sync::LazyLock;

use super::area::{Area, cross};
use super::lettering_box::{LetteringBox, Turn};
use super::strips::Strips;
use crate::paper::{INK, LIME, SLATE, weight};
use crate::svg::Element;

/// Something of the drawing that labels would rather not cover; weight 1 is a usual line, 5 is "only in need".
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Obstacle {
    /// A box, such as a window in plan or the title.
    Area(Area, f64),
    /// A straight line between two points in sheet millimetres.
    Segment([f64; 2], [f64; 2], f64),
}

/// A label waiting for its place; all points in sheet millimetres, y downwards.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The point that the label speaks of.
    pub anchor: [f64; 2],
    /// The words; a line break starts a new line.
    pub text: String,
    /// The height of the em in millimetres.
    pub size_mm: f64,
    /// Which way the words run.
    pub turn: Turn,
    /// Centres of the label's box to be tried first, best first; they never get a leader.
    pub preferred: Vec<[f64; 2]>,
    /// The row or part that the label shows, for `data-path`; may be empty.
    pub path: String,
    /// Whether it chooses before others and takes a preferred place or none, as words do that would say something else elsewhere.
    pub stays: bool,
}

impl Label {
    /// A level label beside a point, without preferred places.
    #[must_use]
    pub fn beside(anchor: [f64; 2], size_mm: f64, text: &str) -> Label {
        let (text, turn) = (text.to_owned(), Turn::Level);
        Label { anchor, text, size_mm, turn, preferred: Vec::new(), path: String::new(), stays: false }
    }
}

/// Where a label came to stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The label's box, a little wider than its words; no two boxes overlap.
    pub area: Area,
    /// From the anchor to the box, when the label stands far from what it speaks of.
    pub leader: Option<[[f64; 2]; 2]>,
    /// What is written there: the label's own words, or its number in the key.
    pub text: String,
}

/// A label that found no room: its number in the key, and the number's own place by the anchor.
#[derive(Clone, Debug, PartialEq)]
pub struct KeyEntry {
    /// 1, 2, 3 in the order of the labels given.
    pub number: usize,
    /// Which of the labels given.
    pub label: usize,
    /// Where the number stands on the drawing; `None` when not even the number finds room.
    pub mark: Option<Placed>,
}

/// All labels, each either placed or in the key.
#[derive(Clone, Debug, PartialEq)]
pub struct Placement {
    /// In the order of the labels given; `None` for those in the key.
    pub places: Vec<Option<Placed>>,
    /// The labels without room, in the order given; the caller prints this list beside the drawing.
    pub key: Vec<KeyEntry>,
}

impl Placement {
    /// The labels, key numbers and leaders as one group to be drawn over everything else.
    #[must_use]
    pub fn drawn(&self, labels: &[Label]) -> Element {
        let own = labels.iter().zip(&self.places);
        let own = own.filter_map(|(label, placed)| Some((label, placed.as_ref()?)));
        let marks = self.key.iter();
        let marks = marks.filter_map(|entry| Some((labels.get(entry.label)?, entry.mark.as_ref()?)));
        Element::group(own.chain(marks).map(|(label, placed)| placed.drawn(label)).collect())
    }
}

impl Placed {
    fn drawn(&self, label: &Label) -> Element {
        let mut parts = Vec::new();
        if let Some([from, to]) = self.leader {
            parts.push(Element::line(from, to).with("stroke", SLATE).with("stroke-width", weight::THIN));
        }
        parts.extend(LetteringBox::of(&self.text, label.size_mm, label.turn).drawn(self.area));
        let halo = Element::group(parts).with("stroke", LIME).with("stroke-width", HALO).with("paint-order", "stroke");
        let group = halo.with("stroke-linejoin", "round").with("fill", INK);
        match label.path.as_str() {
            "" => group,
            path => group.data_path(path),
        }
    }
}

/// Width of the paper left bare round words that stand across lines, both sides together, in millimetres.
const HALO: f64 = 0.9;

/// Gaps of the rings round an anchor, in text sizes.
const RINGS: [f64; 12] = [0.4, 0.9, 1.6, 2.6, 4.0, 6.0, 8.5, 11.5, 15.0, 19.0, 24.0, 30.0];
const DIRECTIONS: usize = 16;
/// A gap of more than this many text sizes gets a leader.
const LEADER_FROM: f64 = 1.0;
const SWEEPS: usize = 3;
/// What needing a leader costs, in text sizes of distance.
const FOR_LEADER: f64 = 1.0;
/// What covering another label's anchor costs, in text sizes of distance.
const ON_ANCHOR: f64 = 2.0;
/// What a leader through a label costs, in text sizes of distance; through another leader, a quarter.
const LEADER_THROUGH_LABEL: f64 = 40.0;

/// Gives every label a place inside `sheet`, or a number in the key.
#[must_use]
pub fn place(sheet: Area, obstacles: &[Obstacle], labels: &[Label]) -> Placement {
    let mut table = Table {
        obstacles: Strips::of(sheet, obstacles),
        labels,
        options: labels.iter().map(|label| options(sheet, label, RINGS.len())).collect(),
        chosen: vec![None; labels.len()],
    };
    let mut order = crowded_first(labels);
    // Of those that stay, those with the fewest places first.
    let places = |label: &Label| if label.stays { label.preferred.len() } else { usize::MAX };
    order.sort_by_key(|index| places(&labels[*index]));
    for index in order {
        table.chosen[index] = table.best(index);
        if table.chosen[index].is_none() {
            table.push_aside(index);
        }
    }
    for _ in 0..SWEEPS {
        for index in 0..labels.len() {
            if let Some(option) = table.best(index) {
                table.chosen[index] = Some(option);
            }
        }
    }
    let written = |(label, option): (&Label, &Option<Place>)| Some(option.as_ref()?.placed(&label.text));
    let places = labels.iter().zip(&table.chosen).map(written).collect();
    let key = key(sheet, &mut table);
    Placement { places, key }
}

/// Numbers the labels left over and finds room for the numbers.
fn key(sheet: Area, table: &mut Table) -> Vec<KeyEntry> {
    let left_over: Vec<usize> = (0..table.labels.len()).filter(|index| table.chosen[*index].is_none()).collect();
    let mut key = Vec::new();
    for (count, label) in left_over.into_iter().enumerate() {
        let number = count + 1;
        let mark = Label { text: number.to_string(), preferred: Vec::new(), ..table.labels[label].clone() };
        table.options[label] = options(sheet, &mark, RINGS.len() / 2);
        table.chosen[label] = table.best(label);
        let mark = table.chosen[label].as_ref();
        let mark = mark.map(|option| option.placed(&number.to_string()));
        key.push(KeyEntry { number, label, mark });
    }
    key
}

/// One possible place of a label; costs are in text sizes of distance.
#[derive(Clone, Debug)]
struct Place {
    area: Area,
    leader: Option<[[f64; 2]; 2]>,
    /// For its distance and rank alone.
    cost: f64,
    /// For what it covers: worked out when first asked for, since most far places never are.
    covering: Cell<Option<f64>>,
}

impl Place {
    fn placed(&self, text: &str) -> Placed {
        Placed { area: self.area, leader: self.leader, text: text.to_owned() }
    }

    /// What two places cost each other; `None` when they cannot both be taken.
    fn beside(&self, other: &Place) -> Option<f64> {
        if self.area.overlaps(other.area) {
            return None;
        }
        let through = |leader: Option<[[f64; 2]; 2]>, area: Area| {
            leader.is_some_and(|[from, to]| area.crossed_by(from, to).is_some())
        };
        let mut cost = 0.0;
        if through(self.leader, other.area) || through(other.leader, self.area) {
            cost += LEADER_THROUGH_LABEL;
        }
        if let (Some(own), Some(theirs)) = (self.leader, other.leader)
            && cross(own, theirs)
        {
            cost += LEADER_THROUGH_LABEL / 4.0;
        }
        Some(cost)
    }
}

/// The possible places of every label, cheapest by distance first, and the ones taken so far.
struct Table<'a> {
    obstacles: Strips<'a>,
    labels: &'a [Label],
    options: Vec<Vec<Place>>,
    chosen: Vec<Option<Place>>,
}

impl Table<'_> {
    /// The cheapest place for one label beside all the places taken by others.
    fn best(&self, label: usize) -> Option<Place> {
        let mut best: Option<(f64, &Place)> = None;
        for option in &self.options[label] {
            if best.is_some_and(|(least, _)| option.cost >= least) {
                break;
            }
            // What it covers is known from an earlier sweep more often than not, and costs less to ask than all the others.
            let known = option.cost + option.covering.get().unwrap_or(0.0);
            if best.is_some_and(|(least, _)| known >= least) {
                continue;
            }
            if let Some(friction) = self.friction(label, option) {
                let cost = option.cost + friction + self.covering(label, option);
                if best.is_none_or(|(least, _)| cost < least) {
                    best = Some((cost, option));
                }
            }
        }
        best.map(|(_, option)| option.clone())
    }

    /// What a place costs beside all the places taken by others; `None` when one of them blocks it.
    fn friction(&self, label: usize, option: &Place) -> Option<f64> {
        let mut cost = 0.0;
        for (other, taken) in self.chosen.iter().enumerate() {
            if let (Some(taken), true) = (taken, other != label) {
                cost += option.beside(taken)?;
            }
        }
        Some(cost)
    }

    /// What a place costs by the lines, boxes and other labels' anchors it covers.
    fn covering(&self, label: usize, option: &Place) -> f64 {
        if let Some(known) = option.covering.get() {
            return known;
        }
        let (area, label) = (option.area, &self.labels[label]);
        let mut cost = 0.0;
        for obstacle in self.obstacles.beside(area) {
            cost += match *obstacle {
                Obstacle::Area(other, weight) => match area.covered_by(other) {
                    0.0 => 0.0,
                    share => weight * (1.0 + 4.0 * share),
                },
                Obstacle::Segment(from, to, weight) => match area.crossed_by(from, to) {
                    None => 0.0,
                    Some(length) => weight * (1.0 + length / label.size_mm),
                },
            };
        }
        for other in self.labels {
            if other.anchor != label.anchor && area.distance(other.anchor) == 0.0 {
                cost += ON_ANCHOR;
            }
        }
        option.covering.set(Some(cost));
        cost
    }

    /// Takes a place that one other label blocks, if that label can go elsewhere; otherwise leaves all as it was.
    fn push_aside(&mut self, label: usize) {
        for option in self.options[label].clone() {
            let mut blockers = (0..self.chosen.len()).filter(|other| {
                let taken = self.chosen[*other].as_ref();
                taken.is_some_and(|taken| taken.area.overlaps(option.area))
            });
            let (Some(blocker), None) = (blockers.next(), blockers.next()) else {
                continue;
            };
            let before = self.chosen[blocker].take();
            self.chosen[label] = Some(option);
            self.chosen[blocker] = self.best(blocker);
            if self.chosen[blocker].is_some() {
                return;
            }
            self.chosen[blocker] = before;
            self.chosen[label] = None;
        }
    }
}

/// Labels with the most neighbours choose first; of equals, the longer.
fn crowded_first(labels: &[Label]) -> Vec<usize> {
    let neighbours = |label: &Label| {
        let near = |other: &&Label| {
            let [x, y] = [other.anchor[0] - label.anchor[0], other.anchor[1] - label.anchor[1]];
            x.hypot(y) < 10.0 * label.size_mm
        };
        labels.iter().filter(near).count()
    };
    let counts: Vec<usize> = labels.iter().map(neighbours).collect();
    let mut order: Vec<usize> = (0..labels.len()).collect();
    let rank = |index: &usize| (counts[*index], labels[*index].text.chars().count());
    order.sort_by_key(|index| std::cmp::Reverse(rank(index)));
    order
}

/// Every place for a label that lies inside the sheet, cheapest by distance first.
fn options(sheet: Area, label: &Label, rings: usize) -> Vec<Place> {
    let size = label.size_mm;
    let [width, height] = LetteringBox::of(&label.text, size, label.turn).padded();
    let mut found = Vec::new();
    let mut consider = |centre: [f64; 2], cost: f64, reach: f64| {
        let area = Area::about(centre, width, height);
        let has_room = sheet.contains(area);
        if has_room {
            let led = area.distance(label.anchor) > reach;
            let leader = led.then(|| [label.anchor, area.nearest(label.anchor)]);
            found.push(Place {
                area,
                leader,
                cost: cost + if led { FOR_LEADER } else { 0.0 },
                covering: Cell::new(None),
            });
        }
        has_room
    };
    let (mut rank, mut has_room) = (0.0, false);
    for centre in &label.preferred {
        has_room |= consider(*centre, rank, f64::INFINITY);
        rank += 0.2;
    }
    let rings = if label.stays && has_room { 0 } else { rings };
    for gap in &RINGS[..rings] {
        for step in 0..DIRECTIONS {
            let [along, down] = DIRECTED[step];
            // The box stands beside the anchor: its side or corner, not its centre, keeps the gap.
            let beside = |share: f64, half: f64| (share * 2.0).clamp(-1.0, 1.0) * half;
            let centre = [
                label.anchor[0] + along * gap * size + beside(along, width / 2.0),
                label.anchor[1] + down * gap * size + beside(down, height / 2.0),
            ];
            consider(centre, rank + gap + 0.001 * step as f64, LEADER_FROM * size);
        }
    }
    found.sort_by(|first, second| first.cost.total_cmp(&second.cost));
    found
}

/// Directions from right, then upper right and on round, so that ties favour the right: along the sheet, and down.
static DIRECTED: LazyLock<[[f64; 2]; DIRECTIONS]> = LazyLock::new(|| {
    std::array::from_fn(|step| {
        let (down, along) = (-std::f64::consts::TAU * step as f64 / DIRECTIONS as f64).sin_cos();
        [along, down]
    })
});

#[cfg(test)]
mod tests;
