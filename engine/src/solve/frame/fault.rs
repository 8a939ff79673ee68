//! Why a frame is not answered.

use std::fmt;

/// What is wrong with a frame or its loads. Nodes, members and links are counted from 0.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// There is no such node.
    NoNode {
        /// Its number.
        node: usize,
    },
    /// There is no such member.
    NoMember {
        /// Its number.
        member: usize,
    },
    /// A number is not finite, or is not above zero where it must be.
    Member {
        /// The member.
        member: usize,
        /// What it needs.
        needs: &'static str,
    },
    /// A link has a stiffness below zero, or axes that are not square to each other and of length 1.
    Link {
        /// The link.
        link: usize,
        /// What it needs.
        needs: &'static str,
    },
    /// A support that is not sound.
    Support {
        /// The node.
        node: usize,
        /// What it needs.
        needs: &'static str,
    },
    /// A load lies outside of its member or is not finite.
    Load {
        /// The member.
        member: usize,
    },
    /// A member free at both ends in this direction carries a load in it.
    Loose {
        /// The member.
        member: usize,
        /// The direction.
        direction: Direction,
    },
    /// The frame moves without resistance, most of all here.
    Mechanism {
        /// The node that moves most.
        node: usize,
        /// The direction in which it moves.
        direction: Direction,
    },
    /// Under these loads the frame has passed its critical load.
    Unstable,
    /// Nothing is pushed, or so little that no load factor within reach makes the frame buckle.
    NothingBuckles,
    /// An iteration did not come to rest.
    Restless,
    /// The equations do not fit into memory.
    TooLarge,
}

/// A direction of movement of a node or of the end of a member.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Direction {
    /// Along x.
    AlongX,
    /// Along y.
    AlongY,
    /// Along z.
    AlongZ,
    /// Turning about x.
    AboutX,
    /// Turning about y.
    AboutY,
    /// Turning about z.
    AboutZ,
}

impl Direction {
    /// All six, in the order in which movements and forces are listed.
    pub const ALL: [Direction; 6] = [
        Direction::AlongX,
        Direction::AlongY,
        Direction::AlongZ,
        Direction::AboutX,
        Direction::AboutY,
        Direction::AboutZ,
    ];

    /// In words.
    #[must_use]
    pub fn in_words(self) -> &'static str {
        match self {
            Direction::AlongX => "along x",
            Direction::AlongY => "along y",
            Direction::AlongZ => "along z",
            Direction::AboutX => "about x",
            Direction::AboutY => "about y",
            Direction::AboutZ => "about z",
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::NoNode { node } => write!(f, "there is no node {}", node + 1),
            Fault::NoMember { member } => write!(f, "there is no member {}", member + 1),
            Fault::Member { member, needs } => write!(f, "member {} needs {needs}", member + 1),
            Fault::Link { link, needs } => write!(f, "link {} needs {needs}", link + 1),
            Fault::Support { node, needs } => write!(f, "the support at node {} needs {needs}", node + 1),
            Fault::Load { member } => {
                write!(f, "a load on member {} must lie between its ends and be a plain number", member + 1)
            }
            Fault::Loose { member, direction } => write!(
                f,
                "member {} is released at both ends {} and nothing there carries its load",
                member + 1,
                direction.in_words()
            ),
            Fault::Mechanism { node, direction } => {
                write!(f, "the frame moves without resistance: node {} is free {}", node + 1, direction.in_words())
            }
            Fault::Unstable => write!(f, "the frame buckles below these loads"),
            Fault::NothingBuckles => write!(f, "these loads push on no member so that it would buckle"),
            Fault::Restless => write!(f, "the iteration did not come to rest"),
            Fault::TooLarge => write!(f, "the frame is too large for memory"),
        }
    }
}
