//! End releases: movements of a member's ends that its nodes do not share, taken out of its stiffness.

use super::small::{Square, Twelve};

/// One movement that was taken out: its row when its turn came, and the stiffness that was left against it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Released {
    pub at: usize,
    row: Twelve,
    pivot: f64,
}

/// How much of the stiffness must be left for a movement to be held by the member itself.
const LEFT: f64 = 1e-11;

/// A member with released ends that pushes itself away: it has buckled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Buckled;

/// Takes the released movements out, one after the other; `alone` is the diagonal of the stiffness without any force along the
/// member.
pub(super) fn release(
    stiffness: &mut Square,
    released: [[bool; 6]; 2],
    alone: &Twelve,
) -> Result<Vec<Released>, Buckled> {
    let mut all = Vec::new();
    for at in (0..12).filter(|&at| released[at / 6][at % 6]) {
        let row = stiffness[at];
        if row[at] < -LEFT * alone[at] {
            return Err(Buckled);
        }
        let pivot = if row[at] > LEFT * alone[at] { row[at] } else { 0.0 };
        if pivot > 0.0 {
            for (line, part) in stiffness.iter_mut().zip(row) {
                for (term, own) in line.iter_mut().zip(row) {
                    *term -= part * own / pivot;
                }
            }
        }
        stiffness[at] = [0.0; 12];
        for line in stiffness.iter_mut() {
            line[at] = 0.0;
        }
        all.push(Released { at, row, pivot });
    }
    Ok(all)
}

/// Takes the released movements out of the end forces of a member that is held at both ends; the first movement that
/// nothing holds against its load is the error.
pub(super) fn release_forces(forces: &mut Twelve, released: &[Released]) -> Result<(), usize> {
    let size = forces.iter().fold(0.0, |most: f64, force| most.max(force.abs()));
    for own in released {
        let force = forces[own.at];
        if own.pivot > 0.0 {
            for (sum, part) in forces.iter_mut().zip(own.row) {
                *sum -= part / own.pivot * force;
            }
        } else if force.abs() > LEFT * size {
            return Err(own.at);
        }
        forces[own.at] = 0.0;
    }
    Ok(())
}

/// Puts the movements of the member's own ends in place of those of the nodes, where they are released. `held` are the end
/// forces of the member held at both ends.
pub(super) fn released_movements(movements: &mut Twelve, held: &Twelve, released: &[Released]) {
    let mut forces = *held;
    let mut left = Vec::with_capacity(released.len());
    for own in released {
        let force = forces[own.at];
        left.push(force);
        if own.pivot > 0.0 {
            for (sum, part) in forces.iter_mut().zip(own.row) {
                *sum -= part / own.pivot * force;
            }
        }
    }
    for (own, force) in released.iter().zip(left).rev() {
        let others: f64 = (0..12).filter(|&k| k != own.at).map(|k| own.row[k] * movements[k]).sum();
        if own.pivot > 0.0 {
            movements[own.at] = -(force + others) / own.pivot;
        }
    }
}
