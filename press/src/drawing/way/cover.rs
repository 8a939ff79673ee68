//! The roof of the way round the house as it is drawn: poles, the layers on them, plants.

use kurbo::{Point, Vec2};

use super::View;
use super::roof::{Look, Roof};
use crate::drawing::hand::{Hand, areas, contains, corners, strokes, ticks, wash};
use crate::drawing::hatch::mixed;
use crate::paper::{CLAY, INK, LIME, MOSS, SLATE, STRAW, weight};
use crate::svg::Element;

/// Poles, layers and plants.
pub(super) fn drawn(roof: &Roof, view: &View) -> Vec<Element> {
    let mut hand = Hand::from(17);
    let mut drawn = poles(roof, view, &mut hand);
    for [low, high] in &roof.gaps {
        let posts =
            [-0.5, 0.5].map(|side| [*low, *high].map(|end| view.at(end + Vec2::new(side * roof.diameter, 0.0))));
        let broken = ticks(&posts).with("stroke", INK).with("stroke-width", weight::HIDDEN);
        drawn.push(broken.with("stroke-dasharray", "1.6 1.2"));
    }
    for line in &roof.lines {
        drawn.extend(layers(roof, line, view, &mut hand));
    }
    if roof.has_eye {
        drawn.extend(kerb(roof, view, &mut hand));
    }
    drawn
}

/// The underside of the roof beyond the cut, between the poles.
pub(super) fn ceiling(roof: &Roof, view: &View) -> Vec<Element> {
    let mut hand = Hand::from(19);
    if roof.layers.is_empty() {
        return Vec::new();
    }
    let mut outline: Vec<[f64; 2]> = roof.lines.iter().take(1).flatten().map(|at| view.at(*at)).collect();
    outline.extend(roof.lines.iter().skip(1).flat_map(|line| line.iter().rev()).map(|at| view.at(*at)));
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

/// The boards round the eye, which hold the layers back: cut on both sides, seen between.
fn kerb(roof: &Roof, view: &View, hand: &mut Hand) -> Vec<Element> {
    let up = roof.thickness() * roof.lines.first().map_or(1.0, |line| steep(line)) + 0.05;
    let ends: Vec<Point> = roof.lines.iter().filter_map(|line| line.last()).copied().collect();
    let mut drawn = Vec::new();
    if let [left, right] = ends[..] {
        let [from, to] = [left, right].map(|end| view.at(end + Vec2::new(0.0, up)));
        let far = [from, to, [to[0], to[1] + view.long(0.09)], [from[0], from[1] + view.long(0.09)]];
        drawn.push(areas(&[hand.outline(&far, 0.1)], &mixed(STRAW, LIME, 0.25), weight::THIN));
    }
    for end in ends {
        let corners = [(-0.03, -0.02), (0.03, -0.02), (0.03, up), (-0.03, up)];
        let corners = corners.map(|(across, up)| view.at(end + Vec2::new(across, up)));
        drawn.push(areas(&[hand.outline(&corners, 0.08)], &mixed(STRAW, LIME, 0.5), weight::SEEN));
    }
    drawn
}

/// Every pole as a tapering stem, the farther ones paler.
fn poles(roof: &Roof, view: &View, hand: &mut Hand) -> Vec<Element> {
    let mut drawn = Vec::new();
    let count = roof.poles.len().max(1) as f64;
    for (place, [butt, tip]) in roof.poles.iter().enumerate() {
        let [from, to] = [view.at(*butt), view.at(*tip)];
        let way = Vec2::new(to[0] - from[0], to[1] - from[1]);
        if way.hypot() < 0.5 {
            continue;
        }
        let across = way.normalize().turn_90() * view.long(roof.diameter) * 0.5;
        let edge =
            |sign: f64, taper: f64, end: [f64; 2]| [end[0] + across.x * sign * taper, end[1] + across.y * sign * taper];
        let corners = [edge(1.0, 1.0, from), edge(1.0, 0.82, to), edge(-1.0, 0.82, to), edge(-1.0, 1.0, from)];
        let outline = hand.outline(&corners, 0.2);
        let near = (place as f64 + 1.0) / count;
        drawn.push(areas(&[outline], &mixed(STRAW, LIME, 0.22 + 0.3 * near), weight::HIDDEN + 0.1 * near));
        let grain = [0.35, -0.3].map(|off| hand.line(&[edge(off, 1.0, from), edge(off, 0.8, to)], 0.2));
        drawn.push(strokes(&grain).with("stroke", mixed(INK, STRAW, 0.35)).with("stroke-width", 0.13));
    }
    for end in &roof.ends {
        let radius = view.long(roof.diameter) * 0.5;
        let at = view.at(*end);
        drawn.push(areas(&[hand.stone(at, [radius, radius])], &mixed(STRAW, LIME, 0.5), weight::SEEN));
        let ring = |share: f64| {
            Element::circle(at, radius * share).with("fill", "none").with("stroke", INK).with("stroke-width", 0.12)
        };
        drawn.extend([ring(0.6), ring(0.25)]);
    }
    drawn
}

/// How much higher than thick a layer stands over one side.
fn steep(line: &[Point]) -> f64 {
    let (Some(first), Some(last)) = (line.first(), line.last()) else { return 1.0 };
    let way = *last - *first;
    (way.hypot() / way.x.abs().max(1e-9)).min(1.5)
}

/// The layers over one side, from the poles up.
fn layers(roof: &Roof, line: &[Point], view: &View, hand: &mut Hand) -> Vec<Element> {
    let steep = steep(line);
    let raised =
        |up: f64| -> Vec<[f64; 2]> { line.iter().map(|at| view.at(*at + Vec2::new(0.0, up * steep))).collect() };
    let mut drawn = Vec::new();
    let mut up = 0.0;
    let last = roof.layers.len().saturating_sub(1);
    for (place, (look, thickness)) in roof.layers.iter().enumerate() {
        let lower = raised(up);
        up += thickness;
        let upper = raised(up);
        if *look == Look::Sheet {
            drawn.push(strokes(&[upper]).with("stroke", INK).with("stroke-width", 0.6));
            continue;
        }
        let waver = if place == last { 0.5 } else { 0.12 };
        let mut outline = lower;
        let over = hand.line(&upper, waver);
        outline.extend(over.iter().rev());
        let (fill, marks) = match look {
            Look::Boards => (mixed(STRAW, LIME, 0.55), None),
            Look::Light => (mixed(STRAW, LIME, 0.2), Some(hatched(line, view, steep, [up - thickness, up]))),
            Look::Loose => {
                let large = (view.long(*thickness) * 0.3).clamp(0.25, 0.8);
                (mixed(SLATE, LIME, 0.16), Some(areas(&hand.stones(&outline, [large * 0.6, large]), LIME, 0.12)))
            }
            _ => {
                let crumbs = ticks(&hand.flecks(&outline, 60.0, 0.9));
                (
                    mixed(MOSS, LIME, 0.45),
                    Some(crumbs.with("stroke", mixed(INK, CLAY, 0.5)).with("stroke-width", weight::THIN)),
                )
            }
        };
        drawn.push(wash(&outline, &fill));
        drawn.extend(marks);
        let heavy = place == last;
        drawn.push(
            strokes(&[outline.iter().chain(outline.first()).copied().collect()])
                .with("stroke", INK)
                .with("stroke-width", if heavy { weight::SEEN } else { weight::THIN }),
        );
        if *look == Look::Living {
            drawn.push(hand.grass(&over, 3.4, 1.9).with("stroke", MOSS).with("stroke-width", weight::SEEN));
        }
    }
    drawn
}

/// Strokes aslant between two heights over the poles: what keeps warm.
fn hatched(line: &[Point], view: &View, steep: f64, [low, high]: [f64; 2]) -> Element {
    let mut lines = Vec::new();
    for pair in line.windows(2) {
        let count = ((pair[1].x - pair[0].x).abs() * view.long(1.0) / 1.5).ceil().max(1.0) as u32;
        for step in 0..count {
            let at = |off: f64, up: f64| {
                view.at(pair[0].lerp(pair[1], ((f64::from(step) + off) / f64::from(count)).min(1.0))
                    + Vec2::new(0.0, up * steep))
            };
            lines.push([at(0.0, low), at(0.7, high)]);
        }
    }
    ticks(&lines).with("stroke", mixed(SLATE, LIME, 0.7)).with("stroke-width", 0.15)
}
