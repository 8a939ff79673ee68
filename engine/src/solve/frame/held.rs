//! End forces of a member whose ends are held fast, from its exact flexibility.

use crate::solve::quadrature::places;

use super::load::Burden;
use super::member::{Bar, Member};
use super::section::Constants;
use super::small::Twelve;

/// The forces with which both held ends act on a loaded member, local axes.
///
/// The member is first cut free so that statics alone holds it: lengthwise and against twist at its first end, across as a
/// beam on two supports. The turns, the lengthening and the twist that this leaves are then undone by its stiffness.
pub(super) fn held_forces(member: &Member, bar: &Bar, burden: &Burden) -> Twelve {
    let length = bar.length;
    let whole = burden.whole(length);
    let mut ends = [0.0; 12];
    ends[0] = -whole[0];
    ends[3] = -whole[3];
    ends[1] = whole[5] / length;
    ends[2] = -whole[4] / length;
    ends[7] = -whole[1] - ends[1];
    ends[8] = -whole[2] - ends[2];
    let bent = bending(member, bar, burden, &ends);
    let [pull, turn] = [bar.basic.stretch * bent.longer, bar.basic.twist * bent.twisted];
    for (at, force) in [(0, pull), (6, -pull), (3, turn), (9, -turn)] {
        ends[at] += force;
    }
    for (stiffness, turns, [across, about], sense) in
        [(bar.basic.about_z, bent.about_z, [1, 5], 1.0), (bar.basic.about_y, bent.about_y, [2, 4], -1.0)]
    {
        let first = -(stiffness[0] * turns[0] + stiffness[1] * turns[1]);
        let last = -(stiffness[1] * turns[0] + stiffness[2] * turns[1]);
        ends[about] += first;
        ends[about + 6] += last;
        ends[across] += sense * (first + last) / length;
        ends[across + 6] -= sense * (first + last) / length;
    }
    ends
}

/// How the ends of the cut member move: lengthening, twist, and the turns of both ends from the chord.
#[derive(Default)]
struct Bent {
    longer: f64,
    twisted: f64,
    about_y: [f64; 2],
    about_z: [f64; 2],
}

fn bending(member: &Member, bar: &Bar, burden: &Burden, ends: &Twelve) -> Bent {
    let mut bent = Bent::default();
    for (x, weight) in cuts(member, bar.length, burden).into_iter().flat_map(|[from, to]| places(from, to)) {
        let s = x / bar.length;
        let (inside, section) = (inside(ends, burden, x), section_at(member, s));
        bent.longer += weight * inside[0] / (member.young * section.area);
        bent.twisted += weight * inside[3] / (member.shear * section.twist);
        let about_y = weight * inside[4] / (member.young * section.about_y);
        let about_z = weight * inside[5] / (member.young * section.about_z);
        for (turns, curvature) in [(&mut bent.about_y, about_y), (&mut bent.about_z, about_z)] {
            turns[0] -= curvature * (1.0 - s);
            turns[1] += curvature * s;
        }
    }
    bent
}

/// Stretches of the member within which the eight-point rule is exact to rounding: nothing jumps in them.
pub(super) fn cuts(member: &Member, length: f64, burden: &Burden) -> Vec<[f64; 2]> {
    let mut bounds = vec![0.0];
    for (start, stretch) in member.spans() {
        let parts = stretch.section.parts();
        let share = |part: usize| start + (stretch.until - start) * part as f64 / parts as f64;
        bounds.extend((1..=parts).map(|part| length * share(part)));
    }
    bounds.extend(burden.breaks());
    bounds.sort_by(f64::total_cmp);
    bounds.windows(2).map(|pair| [pair[0], pair[1]]).filter(|[from, to]| to - from > 1e-12 * length).collect()
}

/// The section at a share of the member's length.
pub(super) fn section_at(member: &Member, share: f64) -> Constants {
    let mut start = 0.0;
    for stretch in &member.stretches {
        if share <= stretch.until {
            return stretch.section.at((share - start) / (stretch.until - start));
        }
        start = stretch.until;
    }
    member.stretches[member.stretches.len() - 1].section.at(1.0)
}

/// Internal forces N, Vy, Vz, T, My, Mz just before `x`: what the part beyond exerts on the part before, in local axes.
pub(super) fn inside(ends: &Twelve, burden: &Burden, x: f64) -> [f64; 6] {
    let loads = burden.before(x);
    let mut sum: [f64; 6] = std::array::from_fn(|k| -(ends[k] + loads[k]));
    sum[4] -= x * ends[2];
    sum[5] += x * ends[1];
    sum
}
