//! A frame as it is described.

use super::fault::Fault;
use super::link::Link;
use super::member::{Bar, Member};
use super::small::Three;

/// What holds a node in one direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Support {
    /// Nothing but the members.
    Free,
    /// It does not move, or as far as a load case says.
    Fast,
    /// A spring of this stiffness to the ground.
    Spring(f64),
}

/// A node.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Node {
    /// Where it is.
    pub at: Three,
    /// What holds it along x, y, z and about x, y, z.
    pub support: [Support; 6],
}

impl Node {
    /// A node that only members hold.
    #[must_use]
    pub fn free(at: Three) -> Node {
        Node { at, support: [Support::Free; 6] }
    }

    /// A node that is held fast in the directions marked.
    #[must_use]
    pub fn held(at: Three, fast: [bool; 6]) -> Node {
        Node { at, support: fast.map(|fast| if fast { Support::Fast } else { Support::Free }) }
    }
}

/// Nodes, members and links.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Frame {
    /// The nodes.
    pub nodes: Vec<Node>,
    /// The members.
    pub members: Vec<Member>,
    /// The links.
    pub links: Vec<Link>,
}

impl Frame {
    pub(super) fn check(&self) -> Result<(), Fault> {
        for (node, own) in self.nodes.iter().enumerate() {
            let sound = own.support.iter().all(|support| match support {
                Support::Spring(stiffness) => stiffness.is_finite() && *stiffness >= 0.0,
                Support::Free | Support::Fast => true,
            });
            if !sound || !own.at.iter().all(|at| at.is_finite()) {
                return Err(Fault::Support { node, needs: "a place, and springs of zero or more" });
            }
        }
        let pairs = self.pairs();
        if let Some(&node) = pairs.iter().flatten().find(|node| **node >= self.nodes.len()) {
            return Err(Fault::NoNode { node });
        }
        for (link, own) in self.links.iter().enumerate() {
            own.check(link)?;
            if own.nodes[0] == own.nodes[1] {
                return Err(Fault::Link { link, needs: "two nodes" });
            }
        }
        Ok(())
    }

    /// The pairs of nodes joined, by members first, then by links.
    pub(super) fn pairs(&self) -> Vec<[usize; 2]> {
        self.members.iter().map(|member| member.nodes).chain(self.links.iter().map(|link| link.nodes)).collect()
    }

    pub(super) fn points(&self, pair: [usize; 2]) -> [Three; 2] {
        pair.map(|node| self.nodes[node].at)
    }

    pub(super) fn bars(&self) -> Result<Vec<Bar>, Fault> {
        let bar = |(index, member): (usize, &Member)| Bar::of(index, member, self.points(member.nodes));
        self.members.iter().enumerate().map(bar).collect()
    }
}
