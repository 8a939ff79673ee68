//! The roof of the way round the house as it is drawn: poles, the layers on them, plants.

use engine::house::part::Material;
use engine::pictures::{LayerCut, RoofCut};
use kurbo::{Point, Vec2};

use super::View;
use super::roof::on;
use crate::drawing::hand::{Hand, areas, contains, corners, strokes, ticks, wash};
use crate::drawing::hatch::mixed;
use crate::paper::{CLAY, INK, LIME, MOSS, SLATE, STRAW, weight};
use crate::svg::Element;

/// Poles, layers and plants.
pub(super) fn drawn(roof: &RoofCut, view: &View) -> Vec<Element> {
    let mut hand = Hand::from(17);
    let mut drawn = poles(roof, view, &mut hand);
    let half = 0.5 * roof.diameter.in_m();
    for open in &roof.open {
        let posts = [-half, half].map(|side| open.map(|end| view.at(end + Vec2::new(side, 0.0))));
        let broken = ticks(&posts).with("stroke", INK).with("stroke-width", weight::HIDDEN);
        drawn.push(broken.with("stroke-dasharray", "1.6 1.2"));
    }
    let last = roof.layers.last().map(|layer| layer.path.as_str());
    for layer in &roof.layers {
        drawn.extend(self::layer(layer, last == Some(&layer.path), view, &mut hand));
    }
    drawn
}

/// The underside of the roof beyond the cut, between the poles.
pub(super) fn ceiling(roof: &RoofCut, view: &View) -> Vec<Element> {
    let mut hand = Hand::from(19);
    let lowest = roof.layers.iter().filter(|layer| layer.path == roof.layers[0].path);
    let outline: Vec<[f64; 2]> = lowest.flat_map(|layer| view.all(&layer.under)).collect();
    if outline.is_empty() {
        return Vec::new();
    }
    let [[left, high], [right, low]] = corners(&outline);
    let mut lines = Vec::new();
    let middle = [left.midpoint(right), high];
    let count = ((right - left) / 3.2).min(60.0) as u32;
    for board in 1..count {
        let foot = [left + (right - left) * f64::from(board) / f64::from(count), low];
        let share = hand.between(0.2, 0.55);
        let at = |share: f64| [0, 1].map(|axis| foot[axis] + (middle[axis] - foot[axis]) * share);
        let stroke = [at(share), at(share + 0.3)];
        if stroke.iter().all(|at| contains(&outline, *at)) {
            lines.push(hand.line(&stroke, 0.1));
        }
    }
    vec![
        wash(&outline, &mixed(STRAW, LIME, 0.16)),
        strokes(&lines).with("stroke", mixed(INK, STRAW, 0.3)).with("stroke-width", 0.12),
    ]
}

/// Every pole beyond the cut, the farther ones paler, and the poles that are cut.
fn poles(roof: &RoofCut, view: &View, hand: &mut Hand) -> Vec<Element> {
    let mut drawn = Vec::new();
    let count = roof.beyond.len().max(1) as f64;
    for (place, axis) in roof.beyond.iter().enumerate() {
        let [from, to] = axis.map(|end| view.at(end));
        let way = Vec2::new(to[0] - from[0], to[1] - from[1]);
        if way.hypot() < 0.5 {
            continue;
        }
        let across = way.normalize().turn_90() * view.long(roof.diameter.in_m()) * 0.5;
        let edge = |share: f64, end: [f64; 2]| [end[0] + across.x * share, end[1] + across.y * share];
        let outline = hand.outline(&[edge(1.0, from), edge(1.0, to), edge(-1.0, to), edge(-1.0, from)], 0.2);
        let near = (place as f64 + 1.0) / count;
        drawn.push(areas(&[outline], &mixed(STRAW, LIME, 0.22 + 0.3 * near), weight::HIDDEN + 0.1 * near));
        let grain = [0.35, -0.3].map(|off| hand.line(&[edge(off, from), edge(off, to)], 0.2));
        drawn.push(strokes(&grain).with("stroke", mixed(INK, STRAW, 0.35)).with("stroke-width", 0.13));
    }
    for outline in &roof.cut {
        let outline = view.all(outline);
        let [[left, top], [right, bottom]] = corners(&outline);
        let middle = [left.midpoint(right), top.midpoint(bottom)];
        let ring = |share: f64| -> Vec<[f64; 2]> {
            outline.iter().map(|at| [0, 1].map(|axis| middle[axis] + (at[axis] - middle[axis]) * share)).collect()
        };
        drawn.push(areas(&[hand.outline(&outline, 0.08)], &mixed(STRAW, LIME, 0.5), weight::SEEN));
        drawn.push(areas(&[ring(0.6), ring(0.25)], "none", 0.12));
    }
    drawn
}

/// A piece of a layer that is cut.
fn layer(layer: &LayerCut, is_last: bool, view: &View, hand: &mut Hand) -> Vec<Element> {
    let upper = view.all(&layer.over);
    if layer.material == Material::Sheet {
        return vec![strokes(&[upper]).with("stroke", INK).with("stroke-width", 0.6)];
    }
    let over = hand.line(&upper, if is_last { 0.5 } else { 0.12 });
    let mut outline = view.all(&layer.under);
    outline.extend(over.iter().rev());
    let (fill, marks) = match layer.material {
        Material::Timber => (mixed(STRAW, LIME, 0.55), None),
        Material::Insulation => (mixed(STRAW, LIME, 0.2), Some(hatched(layer, view))),
        Material::Gravel => {
            let large = (view.long(thickness(layer)) * 0.3).clamp(0.25, 0.8);
            (mixed(SLATE, LIME, 0.16), Some(areas(&hand.stones(&outline, [large * 0.6, large]), LIME, 0.12)))
        }
        _ => {
            let crumbs = ticks(&hand.flecks(&outline, 60.0, 0.9)).with("stroke", mixed(INK, CLAY, 0.5));
            (mixed(MOSS, LIME, 0.45), Some(crumbs.with("stroke-width", weight::THIN)))
        }
    };
    let mut drawn = vec![wash(&outline, &fill)];
    drawn.extend(marks);
    let round = strokes(&[outline.iter().chain(outline.first()).copied().collect()]).with("stroke", INK);
    drawn.push(round.with("stroke-width", if is_last { weight::SEEN } else { weight::THIN }));
    if layer.material == Material::Soil {
        drawn.push(hand.grass(&over, 3.4, 1.9).with("stroke", MOSS).with("stroke-width", weight::SEEN));
    }
    drawn
}

fn ends(layer: &LayerCut) -> [f64; 2] {
    [layer.under.first(), layer.under.last()].map(|end| end.map_or(0.0, |end| end.x))
}

/// How thick a piece is in its middle, plumb, in metres.
fn thickness(layer: &LayerCut) -> f64 {
    let [left, right] = ends(layer);
    let [under, over] = [&layer.under, &layer.over].map(|line| on(line, left.midpoint(right)).y);
    over - under
}

/// Strokes aslant from the underside to the top: what keeps warm.
fn hatched(layer: &LayerCut, view: &View) -> Element {
    let [left, right] = ends(layer);
    let count = (view.long(right - left) / 1.5).ceil().max(1.0) as u32;
    let stroke = |step: u32| {
        let at = |line: &[Point], off: f64| {
            view.at(on(line, left + (right - left) * ((f64::from(step) + off) / f64::from(count)).min(1.0)))
        };
        [at(&layer.under, 0.0), at(&layer.over, 0.7)]
    };
    let lines: Vec<[[f64; 2]; 2]> = (0..count).map(stroke).collect();
    ticks(&lines).with("stroke", mixed(SLATE, LIME, 0.7)).with("stroke-width", 0.15)
}
