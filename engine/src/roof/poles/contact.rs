//! Where two poles come nearest to each other.

use super::lie::Lie;
use crate::solve::space::{cross, dot, moved, nearest_shares, size, way};

/// The feet of the common perpendicular of two axes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Contact {
    /// On the upper pole, from its support.
    pub upper: f64,
    /// On the lower pole, from its support.
    pub lower: f64,
    /// How far the upper axis lies above the lower one; below zero where it passes beneath.
    pub apart: f64,
    /// How far the axes lie apart when the surfaces just touch.
    pub touching: f64,
}

/// A step below this many metres is none.
const STILL: f64 = 1e-13;
const MOST_STEPS: usize = 30;

/// Where a pole comes nearest to the one it rests on. `None` for axes that run alongside.
pub(super) fn contact(upper: &Lie, lower: &Lie) -> Option<Contact> {
    let (mut on_upper, mut on_lower) = (upper.second(), lower.first);
    for _ in 0..MOST_STEPS {
        let between = way(lower.at(on_lower), upper.at(on_upper));
        let (along, beside) = (upper.way(on_upper), lower.way(on_lower));
        let (near, far) = (dot(between, along), dot(between, beside));
        let askew = dot(along, beside);
        let own = dot(along, along) + dot(between, upper.turn());
        let others = dot(beside, beside) - dot(between, lower.turn());
        let square = own * others - askew * askew;
        let steps = [(far * askew - near * others) / square, (far * own - near * askew) / square];
        if !steps.iter().all(|step| step.is_finite()) {
            return None;
        }
        (on_upper, on_lower) = (on_upper + steps[0], on_lower + steps[1]);
        if steps[0].abs().max(steps[1].abs()) < STILL || (upper.is_straight() && lower.is_straight()) {
            break;
        }
    }
    let normal = cross(upper.way(on_upper), lower.way(on_lower));
    let apart = dot(way(lower.at(on_lower), upper.at(on_upper)), normal) / size(normal) * normal[2].signum();
    let touching = 0.5 * (upper.diameter(on_upper) + lower.diameter(on_lower));
    apart.is_finite().then_some(Contact { upper: on_upper, lower: on_lower, apart, touching })
}

/// How deep two poles lie in each other, from butt to tip; not above zero where they keep clear. A bowed axis counts as
/// this many straight pieces.
const PIECES: u32 = 8;

pub(super) fn overlap(one: &Lie, other: &Lie) -> f64 {
    let (mine, theirs) = (pieces(one), pieces(other));
    let mut deepest = f64::NEG_INFINITY;
    for &[from, to] in &mine {
        for &[start, end] in &theirs {
            let (lines, far) = ([one.at(from), one.at(to)], [other.at(start), other.at(end)]);
            let (share, also) = nearest_shares(lines, far);
            let between =
                way(moved(lines[0], way(lines[0], lines[1]), share), moved(far[0], way(far[0], far[1]), also));
            let radii = 0.5 * (one.diameter(from + share * (to - from)) + other.diameter(start + also * (end - start)));
            deepest = deepest.max(radii - size(between));
        }
    }
    deepest
}

fn pieces(lie: &Lie) -> Vec<[f64; 2]> {
    let count = if lie.is_straight() { 1 } else { PIECES };
    let [from, to] = lie.ends;
    let place = |number: u32| from + (to - from) * f64::from(number) / f64::from(count);
    (0..count).map(|number| [place(number), place(number + 1)]).collect()
}
