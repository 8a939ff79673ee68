//! The walls of the way round the house: stem of stones, cob with its straw, the room behind the cut, and the coats of plaster.

use kurbo::Point;

use super::View;
use super::cut::{Cut, bounds};
use crate::drawing::hand::{Hand, areas, corners, rounded, strokes, ticks, wash};
use crate::drawing::hatch::{earth, mixed};
use crate::paper::{CLAY, INK, LIME, SLATE, STRAW, weight};
use crate::svg::Element;

/// Plaster is drawn no thinner than this, in millimetres: to scale nobody would see it.
const THINNEST_COAT: f64 = 1.1;
/// Height of a course of stones, in metres.
const COURSE: f64 = 0.17;

/// Far wall, stem, cob and the timber on it.
pub(super) fn drawn(cut: &Cut, view: &View) -> Vec<Element> {
    let mut hand = Hand::from(5);
    let mut drawn = beyond(cut, view, &mut hand);
    for stem in &cut.stems {
        let [left, right] = [stem.x0, stem.x1].map(|x| view.across(x));
        let [top, bottom] = [stem.y1, stem.y0].map(|y| view.level(y));
        let outline = hand.outline(&[[left, top], [right, top], [right, bottom], [left, bottom]], 0.2);
        drawn.push(wash(&outline, &mixed(SLATE, LIME, 0.35)));
        drawn.push(areas(
            &courses([left, right], [top, bottom], view.long(COURSE), &mut hand),
            &mixed(SLATE, LIME, 0.12),
            0.3,
        ));
        drawn.push(strokes(&[outline]).with("stroke", INK).with("stroke-width", weight::CUT));
    }
    for (_, points) in &cut.cob {
        let outline = hand.outline(&simple(&view.all(points)), 0.3);
        drawn.push(wash(&outline, &earth(0.46)));
        let straws = hand.flecks(&outline, 34.0, 2.4);
        let (light, dark) = straws.split_at(straws.len() * 2 / 5);
        drawn.push(ticks(light).with("stroke", STRAW).with("stroke-width", 0.32));
        drawn.push(ticks(dark).with("stroke", mixed(CLAY, LIME, 0.8)).with("stroke-width", weight::THIN));
        drawn.push(strokes(&[outline]).with("stroke", INK).with("stroke-width", weight::CUT));
    }
    let beds: Vec<Vec<[f64; 2]>> = cut.beds.iter().map(|bed| hand.line(&view.all(bed), 0.5)).collect();
    drawn.push(strokes(&beds).with("stroke", mixed(INK, CLAY, 0.5)).with("stroke-width", weight::HIDDEN));
    drawn.extend(beams(cut, view, &mut hand));
    drawn
}

/// Stones in courses between two sides, from the top down.
fn courses([left, right]: [f64; 2], [top, bottom]: [f64; 2], course: f64, hand: &mut Hand) -> Vec<Vec<[f64; 2]>> {
    let count = ((bottom - top) / course).round().max(1.0);
    let high = (bottom - top) / count;
    let mut stones = Vec::new();
    for row in 0..count as u32 {
        let y = top + high * f64::from(row);
        let mut x = left;
        while right - x > 0.1 {
            let mut wide = high * hand.between(1.1, 2.3);
            if right - x - wide < high * 0.8 {
                wide = right - x;
            }
            let mut off = || hand.between(0.04, 0.16) * high;
            let (from, to, above, below) = (x + off(), x + wide - off(), y + off(), y + high - off());
            let middle = [from.midpoint(to), above.midpoint(below)];
            let stone = [
                [from, above + off() * 0.6],
                [middle[0], above],
                [to, above + off() * 0.5],
                [to + off() * 0.2, middle[1]],
                [to, below],
                [middle[0], below - off() * 0.4],
                [from, below],
                [from - off() * 0.2, middle[1]],
            ];
            stones.push(rounded(&stone));
            x += wide;
        }
    }
    stones
}

/// The room behind the cut: its far wall, windows in it, jambs of what is cut.
fn beyond(cut: &Cut, view: &View, hand: &mut Hand) -> Vec<Element> {
    let mut drawn = Vec::new();
    for points in &cut.seen {
        let outline = simple(&view.all(points));
        let middle = bounds(points).center().x;
        let is_jamb = cut.stems.iter().any(|stem| (stem.x0..stem.x1).contains(&middle));
        drawn.push(wash(&outline, &if is_jamb { earth(0.26) } else { mixed(STRAW, LIME, 0.09) }));
        let round = hand.outline(&outline, 0.15);
        drawn.push(shade(&outline, hand));
        drawn.push(strokes(&[round]).with("stroke", INK).with("stroke-width", weight::HIDDEN));
    }
    for points in &cut.openings {
        drawn.extend(window(&view.all(points), hand));
    }
    drawn
}

/// Upright strokes that thin out from both ends of the far wall: it bends away there.
fn shade(outline: &[[f64; 2]], hand: &mut Hand) -> Element {
    let [[left, top], [right, bottom]] = corners(outline);
    let reach = ((right - left) * 0.16).min(14.0);
    let mut lines = Vec::new();
    for (side, inward) in [(left, 1.0), (right, -1.0)] {
        let (mut off, mut step) = (0.7, 0.75);
        while off < reach {
            let fade = off / reach;
            let (from, to) =
                (top + (bottom - top) * hand.between(0.03, 0.2), bottom - (bottom - top) * hand.between(0.02, 0.25));
            let x = side + inward * off;
            let long = (to - from) * (1.0 - 0.45 * fade);
            lines.push(hand.line(&[[x, from], [x, from + long]], 0.15));
            off += step;
            step *= 1.2;
        }
    }
    strokes(&lines).with("stroke", mixed(SLATE, LIME, 0.45)).with("stroke-width", 0.13)
}

/// A window seen from inside: reveal, frame, bars and the sky behind.
fn window(outline: &[[f64; 2]], hand: &mut Hand) -> Vec<Element> {
    let [[left, top], [right, bottom]] = corners(outline);
    let middle = [left.midpoint(right), top.midpoint(bottom)];
    let inset = |by: f64| -> Vec<[f64; 2]> {
        let share = [by / ((right - left) * 0.5).max(1e-6), by / ((bottom - top) * 0.5).max(1e-6)];
        let towards = |at: &[f64; 2]| [0, 1].map(|axis| at[axis] + (middle[axis] - at[axis]) * share[axis].min(0.45));
        outline.iter().map(towards).collect()
    };
    let by = ((right - left).min(bottom - top) * 0.09).clamp(0.35, 1.4);
    let pane = inset(by);
    let [low, high] = corners(&pane);
    let bars = [
        hand.line(&[[middle[0], low[1]], [middle[0], high[1]]], 0.06),
        hand.line(&[[low[0], middle[1]], [high[0], middle[1]]], 0.06),
    ];
    let sill = [[left - 0.8, bottom], [right + 0.8, bottom], [right + 0.8, bottom + 0.8], [left - 0.8, bottom + 0.8]];
    vec![
        areas(&[outline.to_vec()], &mixed(STRAW, LIME, 0.5), weight::HIDDEN),
        areas(&[pane], &mixed(SLATE, LIME, 0.13), weight::THIN),
        strokes(&bars).with("stroke", INK).with("stroke-width", weight::HIDDEN),
        areas(&[sill.to_vec()], &mixed(STRAW, LIME, 0.5), weight::THIN),
    ]
}

/// The timber on the top of each wall, cut across.
fn beams(cut: &Cut, view: &View, hand: &mut Hand) -> Vec<Element> {
    let Some([wide, high]) = cut.beam else { return Vec::new() };
    let mut drawn = Vec::new();
    for (_, points) in &cut.cob {
        let top = bounds(points).y1;
        if top < cut.top() - 0.6 {
            continue;
        }
        let upper: Vec<f64> = points.iter().filter(|point| point.y > top - 0.1).map(|point| point.x).collect();
        let [least, most] = upper.iter().fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], x| [a.min(*x), b.max(*x)]);
        let middle = least.midpoint(most);
        let box_of = [(-0.5, 0.0), (0.5, 0.0), (0.5, 1.0), (-0.5, 1.0)];
        let corners = box_of.map(|(across, up)| view.at(Point::new(middle + across * wide, top + up * high)));
        let outline = hand.outline(&corners, 0.12);
        drawn.push(areas(&[outline], &mixed(STRAW, LIME, 0.5), weight::SEEN));
        let cross = [[corners[0], corners[2]], [corners[1], corners[3]]];
        drawn.push(ticks(&cross).with("stroke", INK).with("stroke-width", weight::THIN));
    }
    drawn
}

/// The coats of plaster on both faces of each wall; where the build has none, the bare faces as broken lines.
pub(super) fn skin(cut: &Cut, view: &View) -> Vec<Element> {
    let mut hand = Hand::from(41);
    let mut drawn = Vec::new();
    for (wall, points) in &cut.cob {
        let half = points.len() / 2;
        let sides = [(&points[..half], -1.0, wall % 2 == 0), (&points[half..], 1.0, wall % 2 == 1)];
        for (side, outward, is_outside) in sides {
            let coat = if is_outside || cut.floor.is_none() { cut.coats[1].max(cut.coats[0]) } else { cut.coats[0] };
            let face = view.all(side);
            if coat <= 0.0 {
                let line = strokes(&[hand.line(&face, 0.2)]).with("stroke", STRAW).with("stroke-width", weight::SEEN);
                drawn.push(line.with("stroke-dasharray", "2 1.4"));
                continue;
            }
            let thick = view.long(coat).max(THINNEST_COAT);
            let mut outline = face.clone();
            let outer: Vec<[f64; 2]> = face.iter().rev().map(|[x, y]| [x + outward * thick, *y]).collect();
            outline.extend(hand.line(&outer, 0.18));
            drawn.push(areas(std::slice::from_ref(&outline), &mixed(STRAW, LIME, 0.42), weight::HIDDEN));
            drawn.push(ticks(&hand.flecks(&outline, 90.0, 0.25)).with("stroke", CLAY).with("stroke-width", 0.2));
        }
    }
    drawn
}

/// The points of the outer face of the last wall near half its height, in metres: where words about its skin may point.
pub(super) fn outer_face(cut: &Cut) -> Option<Point> {
    let (_, points) = cut.cob.iter().max_by(|(_, a), (_, b)| bounds(a).center().x.total_cmp(&bounds(b).center().x))?;
    let half = points.len() / 2;
    points[half..].iter().min_by(|a, b| (a.y - 1.15).abs().total_cmp(&(b.y - 1.15).abs())).copied()
}

/// Without points on the way between two others that turn nowhere.
fn simple(points: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut kept: Vec<[f64; 2]> = Vec::new();
    for (place, at) in points.iter().enumerate() {
        let next = points[(place + 1) % points.len()];
        let turns = kept.last().is_none_or(|last| {
            let (a, b) = ([at[0] - last[0], at[1] - last[1]], [next[0] - at[0], next[1] - at[1]]);
            (a[0] * b[1] - a[1] * b[0]).abs() > 0.02 * a[0].hypot(a[1]) * b[0].hypot(b[1])
        });
        if turns {
            kept.push(*at);
        }
    }
    kept
}
