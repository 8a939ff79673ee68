//! What is known of a frame under one load case.

use super::factorised::{Factorised, both};
use super::load::LoadCase;
use super::model::Support;
use super::small::{Six, Twelve, into_global, turned};

/// Movements and forces under one load case.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The movements of each node, global axes.
    pub movements: Vec<Six>,
    /// What the ground does to each node: where it is held fast, and by springs.
    pub reactions: Vec<Six>,
    /// What acts on each end of each member, in its local axes.
    pub ends: Vec<[Six; 2]>,
    /// The forces in each link, along and about its axes; pull is positive.
    pub links: Vec<Six>,
    /// The sum over all unknowns of load times movement. Loads on members count by what they do to held ends, so that what
    /// such a load makes within its own member is not in it.
    pub work: f64,
    /// The largest force that is left over at a free movement of a node, over the largest force that meets there.
    pub residual: f64,
    /// Whether the forces along the members act on the bent frame.
    pub second_order: bool,
}

pub(super) fn answer(
    whole: &Factorised<'_>,
    case: &LoadCase,
    movements: Vec<Six>,
    work: f64,
    ends: &[Twelve],
) -> Answer {
    let mut balance = Balance { sums: vec![[0.0; 6]; movements.len()], most: [0.0; 2] };
    let mut bars = Vec::with_capacity(whole.bars.len());
    for (bar, own) in whole.bars.iter().zip(ends) {
        balance.add(bar.nodes, &turned(*own, |part| into_global(&bar.axes, part)));
        bars.push([std::array::from_fn(|k| own[k]), std::array::from_fn(|k| own[k + 6])]);
    }
    let mut links = Vec::with_capacity(whole.frame.links.len());
    for link in &whole.frame.links {
        let points = whole.frame.points(link.nodes);
        let forces = link.forces(points, &both(link.nodes, &movements));
        balance.add(link.nodes, &link.ends(points, &forces));
        links.push(forces);
    }
    for (node, force) in &case.nodes {
        balance.add([*node; 2], &std::array::from_fn(|k| if k < 6 { -force[k] } else { 0.0 }));
    }
    let mut reactions = vec![[0.0; 6]; movements.len()];
    let mut left = [0.0_f64; 2];
    for (node, own) in whole.frame.nodes.iter().enumerate() {
        for (k, support) in own.support.iter().enumerate() {
            let missing = balance.sums[node][k];
            reactions[node][k] = match support {
                Support::Free => 0.0,
                Support::Fast => missing,
                Support::Spring(stiffness) => -stiffness * movements[node][k],
            };
            left[k / 3] = left[k / 3].max((missing - reactions[node][k]).abs());
        }
    }
    let share = |k: usize| if left[k] > 0.0 { left[k] / balance.most[k] } else { 0.0 };
    Answer { movements, reactions, ends: bars, links, work, residual: share(0).max(share(1)), second_order: false }
}

/// What must be done to each node to hold it, and the largest force and moment that meet anywhere.
struct Balance {
    sums: Vec<Six>,
    most: [f64; 2],
}

impl Balance {
    fn add(&mut self, nodes: [usize; 2], ends: &Twelve) {
        for (node, own) in nodes.into_iter().zip(ends.chunks_exact(6)) {
            for (k, force) in own.iter().enumerate() {
                self.sums[node][k] += force;
                self.most[k / 3] = self.most[k / 3].max(force.abs());
            }
        }
    }
}
