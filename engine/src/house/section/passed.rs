//! Where the upright cut passes through the wall, the room and the ground outside: distances along it, in pairs.

use kurbo::Point;

use super::{Cut, cut};
use crate::curve::Side;
use crate::house::House;
use crate::solve::polygon;

/// Chord error of a face that is not even, in metres.
const CHORD: f64 = 1e-4;
/// The ground that is drawn to either side of the house, in metres.
const BESIDE: f64 = 0.7;
/// How often a stretch of levels is halved to find where the number of pieces changes.
const HALVINGS: u32 = 32;
/// How often it may change between one step and the next.
const CHANGES: u32 = 4;

/// Where the cut enters and leaves the house: seen to the left of the way.
pub(crate) fn cut_line(house: &House) -> [Point; 2] {
    let cut = cut(house);
    let half = (house.wall.thickness.value * 0.5).in_m();
    let places = covered(house, half, &cut).concat();
    let (first, last) = (places.first().copied().unwrap_or(-1.0), places.last().copied().unwrap_or(1.0));
    [cut.origin + cut.along * first, cut.origin + cut.along * last]
}

/// Stretches of the cut under the house within its outer face, or under an open wall.
fn covered(house: &House, half: f64, cut: &Cut) -> Vec<[f64; 2]> {
    let line = &house.wall.line;
    if line.is_closed() {
        paired(line.crossings(half, cut.origin, cut.along))
    } else {
        through(house, -half, half, cut)
    }
}

/// Stretches of the cut in the room, between the faces of the stem.
pub(super) fn rooms(house: &House, cut: &Cut) -> Vec<[f64; 2]> {
    let half = (house.wall.stem_width.value * 0.5).in_m();
    paired(house.wall.line.crossings(-half, cut.origin, cut.along))
}

/// Stretches of the cut over the ground outside, as far as it is drawn.
pub(super) fn outside(house: &House, cut: &Cut) -> Vec<[f64; 2]> {
    let half = (house.wall.stem_width.value * 0.5).in_m();
    let mut ends = covered(house, half, cut).concat();
    if ends.is_empty() {
        ends = vec![0.0, 0.0];
    }
    ends.insert(0, ends[0] - BESIDE);
    ends.push(ends[ends.len() - 1] + BESIDE);
    paired(ends)
}

fn paired(mut places: Vec<f64>) -> Vec<[f64; 2]> {
    places.sort_by(f64::total_cmp);
    places.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect()
}

/// Pairs of distances between which the cut passes through the cob at a level.
pub(super) fn through_cob(house: &House, level: f64, cut: &Cut) -> Vec<[f64; 2]> {
    let shape = house.wall.shape();
    if house.wall.thicknesses.is_even() {
        return through(house, shape.offset(Side::Inner, 0.0, level), shape.offset(Side::Outer, 0.0, level), cut);
    }
    let face = |side: Side| shape.polyline(side, [0.0, house.wall.line.length()], level, CHORD);
    let (mut outer, mut inner) = (face(Side::Outer), face(Side::Inner));
    let rings = if house.wall.line.is_closed() {
        // A face round a closed line ends where it begins.
        outer.pop();
        inner.pop();
        vec![outer, inner]
    } else {
        outer.extend(inner.into_iter().rev());
        vec![outer]
    };
    paired(rings.iter().flat_map(|ring| polygon::crossings(ring, cut.origin, cut.along)).collect())
}

/// Pairs of distances between which the cut passes through a body that stands between two offsets of the line.
pub(crate) fn through(house: &House, inner: f64, outer: f64, cut: &Cut) -> Vec<[f64; 2]> {
    house.wall.line.passages(inner, outer, cut.origin, cut.along)
}

/// Level of the wall's top where the cut passes through it.
pub(crate) fn top_at(house: &House, [left, right]: [f64; 2], cut: &Cut) -> f64 {
    let line = &house.wall.line;
    let nearest = line.nearest(cut.origin + cut.along * left.midpoint(right));
    house.wall.top.at(line, line.along_line(nearest))
}

/// The middle of each top of the wall that the cut passes through, from left to right.
pub(crate) fn tops(house: &House, cut: &Cut) -> Vec<Point> {
    let tops = through_cob(house, 0.0, cut).into_iter().filter_map(|span| {
        let level = top_at(house, span, cut);
        let middles = through_cob(house, level, cut).into_iter().map(|[left, right]| left.midpoint(right));
        let above = middles.filter(|middle| (span[0]..=span[1]).contains(middle));
        above.min_by(f64::total_cmp).map(|middle| Point::new(middle, level))
    });
    tops.collect()
}

/// Stretches of levels from 0 to a top in which as many pieces are cut from one end to the other: a leaning face that the cut
/// grazes leaves it on the way up.
pub(super) fn alike(count: impl Fn(f64) -> usize, top: f64, steps: u32) -> Vec<[f64; 2]> {
    let mut ends = vec![0.0];
    for step in 0..steps {
        let [mut low, high] = [step, step + 1].map(|step| top * f64::from(step) / f64::from(steps));
        for _ in 0..CHANGES {
            let below = count(low);
            if below == count(high) {
                break;
            }
            let (mut from, mut to) = (low, high);
            for _ in 0..HALVINGS {
                let middle = from.midpoint(to);
                if count(middle) == below { from = middle } else { to = middle }
            }
            ends.extend([from, to]);
            low = to;
        }
    }
    ends.push(top);
    ends.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect()
}
