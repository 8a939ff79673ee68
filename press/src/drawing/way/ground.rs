//! The ground of the way round the house: topsoil and what lies below it, the trench with its stones, the floor.

use super::View;
use super::cut::Cut;
use crate::drawing::area::Area;
use crate::drawing::hand::{Hand, areas, contains, strokes, ticks, wash};
use crate::drawing::hatch::{earth, mixed};
use crate::paper::{CLAY, INK, LIME, MOSS, SLATE, weight};
use crate::svg::Element;

/// The earth between two sides and down to a level, all in millimetres; `calm` is kept free for words.
pub(super) fn drawn(cut: &Cut, view: &View, [left, right]: [f64; 2], bottom: f64, calm: Area) -> Vec<Element> {
    let mut hand = Hand::from(11);
    let surface = surface(cut, view, [left, right]);
    let mut outline = hand.line(&surface, 0.25);
    let wide = right - left;
    let deep: Vec<[f64; 2]> = (0..=12)
        .map(|step| {
            let share = f64::from(step) / 12.0;
            let sag = 1.0 - (2.0 * share - 1.0).powi(4);
            [right - wide * share, bottom - 4.0 - 7.0 * (1.0 - sag) + hand.between(-2.0, 2.0)]
        })
        .collect();
    outline.extend(hand.line(&deep, 0.8));
    let mut drawn = vec![wash(&outline, &earth(0.17))];
    drawn.extend(topsoil(cut, view, [left, right], &mut hand));
    drawn.extend(strewn(&outline, calm, &mut hand));
    drawn.extend(floor(cut, view, &mut hand));
    drawn.extend(trenches(cut, view, &mut hand));
    let line = strokes(&[hand.line(&surface, 0.25)]).with("stroke", INK).with("stroke-width", weight::CUT);
    drawn.push(line);
    drawn
}

/// The surface of the ground from side to side; under a roof it steps up to the floor.
pub(super) fn surface(cut: &Cut, view: &View, [left, right]: [f64; 2]) -> Vec<[f64; 2]> {
    let level = view.level(cut.ground);
    let mut points = vec![[left, level]];
    if let (Some(floor), Some(first), Some(last)) = (cut.floor, cut.stems.first(), cut.stems.last()) {
        let [from, to] = [first.x0, last.x1].map(|x| view.across(x));
        let up = view.level(floor);
        if from > left {
            points.push([from, level]);
        } else {
            points.clear();
        }
        points.extend([[from.max(left), up], [to.min(right), up]]);
        if to < right {
            points.push([to, level]);
        } else {
            return points;
        }
    }
    points.push([right, level]);
    points
}

/// The darker earth that plants live in, on both sides of the house, with roots.
fn topsoil(cut: &Cut, view: &View, [left, right]: [f64; 2], hand: &mut Hand) -> Vec<Element> {
    let feet = cut.trenches.iter().chain(&cut.stems);
    let (first, last) =
        feet.fold((f64::INFINITY, f64::NEG_INFINITY), |(first, last), part| (first.min(part.x0), last.max(part.x1)));
    let deep = view.long(cut.topsoil).max(2.0);
    let level = view.level(cut.ground);
    let mut drawn = Vec::new();
    for [from, to] in [[left, view.across(first)], [view.across(last), right]] {
        if to - from < 2.0 {
            continue;
        }
        let mut band = vec![[from, level], [to, level]];
        let lower = hand.line(&[[to, level + deep], [from, level + deep]], deep * 0.3);
        band.extend(lower);
        drawn.push(wash(&band, &mixed(MOSS, LIME, 0.3)));
        let mut roots = Vec::new();
        let mut at = from + hand.between(1.0, 4.0);
        while at < to - 1.0 {
            let (deep, lean) = (deep * hand.between(0.35, 1.1), hand.between(-1.2, 1.2));
            roots.push(vec![[at, level], [at + lean * 0.3, level + deep * 0.5], [at + lean, level + deep]]);
            at += hand.between(1.6, 4.2);
        }
        drawn.push(strokes(&roots).with("stroke", mixed(INK, LIME, 0.6)).with("stroke-width", 0.15));
    }
    drawn
}

/// Grains and stones of the earth, fewer with depth and none among words.
fn strewn(outline: &[[f64; 2]], calm: Area, hand: &mut Hand) -> Vec<Element> {
    let is_free = |at: &[f64; 2]| calm.distance(*at) > 1.5;
    let dashes: Vec<[[f64; 2]; 2]> = hand
        .flecks(outline, 3.4, 1.5)
        .into_iter()
        .filter(|[from, to]| is_free(from) && is_free(to))
        .map(|[from, to]| [from, [to[0], from[1].midpoint(to[1])]])
        .collect();
    let grains = hand.flecks(outline, 2.2, 0.1);
    let grains: Vec<Vec<[f64; 2]>> = grains
        .into_iter()
        .map(|[at, _]| at)
        .filter(|at| is_free(at) && [-1.4, 1.0].iter().all(|down| contains(outline, [at[0], at[1] + down])))
        .map(|at| {
            let half = [hand.between(0.3, 0.95), hand.between(0.25, 0.6)];
            hand.stone(at, half)
        })
        .collect();
    let stroke = mixed(CLAY, LIME, 0.6);
    vec![
        ticks(&dashes).with("stroke", stroke).with("stroke-width", weight::THIN),
        areas(&grains, &mixed(SLATE, LIME, 0.16), 0.15),
    ]
}

/// The layers of the floor from the earth up.
fn floor(cut: &Cut, view: &View, hand: &mut Hand) -> Vec<Element> {
    let (Some(floor), [first, .., last]) = (cut.floor, cut.stems.as_slice()) else { return Vec::new() };
    let [left, right] = [first.x1, last.x0].map(|x| view.across(x));
    let mut level = floor - cut.floor_layers.iter().sum::<f64>();
    let mut drawn = Vec::new();
    for (place, thickness) in cut.floor_layers.iter().enumerate() {
        let [low, high] = [view.level(level), view.level(level + thickness)];
        let band = [[left, high], [right, high], [right, low], [left, low]];
        level += thickness;
        if place == 0 && cut.floor_layers.len() > 1 {
            drawn.push(wash(&band, &mixed(SLATE, LIME, 0.1)));
            let most = ((low - high) * 0.28).clamp(0.35, 1.0);
            drawn.push(areas(&hand.stones(&band, [most * 0.5, most]), LIME, 0.15));
        } else {
            drawn.push(wash(&band, &earth(0.34)));
            drawn.push(ticks(&hand.flecks(&band, 26.0, 0.8)).with("stroke", CLAY).with("stroke-width", weight::THIN));
        }
        let line = strokes(&[hand.line(&band[2..], 0.15)]);
        drawn.push(line.with("stroke", SLATE).with("stroke-width", weight::THIN));
    }
    let line = hand.line(&[[left, view.level(floor)], [right, view.level(floor)]], 0.12);
    drawn.push(strokes(&[line]).with("stroke", INK).with("stroke-width", weight::CUT));
    drawn
}

/// The trenches: stones in a lining.
fn trenches(cut: &Cut, view: &View, hand: &mut Hand) -> Vec<Element> {
    let mut drawn = Vec::new();
    for trench in &cut.trenches {
        let [left, right] = [trench.x0, trench.x1].map(|x| view.across(x));
        let [top, bottom] = [trench.y1, trench.y0].map(|y| view.level(y));
        let corners = [[left, top], [right, top], [right - 0.5, bottom], [left + 0.5, bottom]];
        let outline = hand.outline(&corners, 0.25);
        drawn.push(wash(&outline, &mixed(SLATE, LIME, 0.22)));
        let large = ((right - left) * 0.11).clamp(0.7, 2.4);
        drawn.push(areas(&hand.stones(&outline, [large * 0.38, large]), &mixed(SLATE, LIME, 0.07), 0.2));
        let lining = strokes(&[outline]).with("stroke", MOSS).with("stroke-width", weight::SEEN);
        drawn.push(lining.with("stroke-dasharray", "1.6 0.8"));
    }
    drawn
}

/// Grass on the ground beside the house and out to both sides.
pub(super) fn grass(cut: &Cut, view: &View, [left, right]: [f64; 2], bare: &[[f64; 2]]) -> Element {
    let mut hand = Hand::from(23);
    let level = view.level(cut.ground);
    let mut walls: Vec<[f64; 2]> = cut.stems.iter().map(|stem| [stem.x0, stem.x1].map(|x| view.across(x))).collect();
    if let (Some(_), Some(first), Some(last)) = (cut.floor, walls.first(), walls.last()) {
        walls = vec![[first[0], last[1]]];
    }
    walls.extend(bare);
    walls.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut from = left;
    let mut tufts = Vec::new();
    for [start, end] in walls.into_iter().chain([[right, right]]) {
        if start - from > 1.0 {
            let blades = hand.grass(&[[from + 0.6, level], [start - 0.6, level]], 3.0, 2.6);
            tufts.push(blades.with("stroke", MOSS).with("stroke-width", weight::HIDDEN));
        }
        from = from.max(end);
    }
    Element::group(tufts)
}
