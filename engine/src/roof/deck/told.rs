//! What is told of a deck one by one: shims, boards, lengths of stock, tails, the eave and its water.

use super::drainage::Catchment;
use super::eave::EdgePoint;
use super::nesting::Nesting;
use super::shims::{ShimTable, Station};
use crate::reason::formula;
use crate::units::{Area, Length};

formula! {
    /// The highest shim on a rafter, on either side: what its blocks are cut from.
    ///
    /// ```text
    /// h = largest of h + Δ        h: height of the deck over the top line or at the edge of the bearing, Δ: what its bay is raised by
    /// ```
    /// Source: elementary geometry of the surface between two straight top lines; every station of the rafter.
    pub fn largest_shim(; stations: &[Station]) -> Length {
        let shims = stations.iter().flat_map(|station| station.sides.iter().flatten());
        shims.map(|shim| shim.height()).fold(Length::ZERO, Length::max)
    }
}

formula! {
    /// Shims of the deck, left and right of each rafter.
    ///
    /// ```text
    /// n = Σ 2 nᵢ        nᵢ: stations on a rafter, both cuts among them
    /// ```
    /// Source: the sum of its parts.
    pub fn shim_count(; table: &ShimTable) -> u64 {
        table.all().count() as u64
    }
}

formula! {
    /// Pieces of board.
    ///
    /// ```text
    /// n = Σ nᵢ        nᵢ: courses of a bay, its way up over the width of a board, rounded up
    /// ```
    /// Source: the sum of its parts.
    pub fn board_count(; pieces: u64) -> u64 {
        pieces
    }
}

formula! {
    /// Lengths of one stock that the cutting list takes.
    ///
    /// Every length is the shortest stock that holds the pieces cut from it.
    ///
    /// ```text
    /// n = Σ 1
    /// ```
    /// Source: the sum of its parts; first fit, longest first.
    pub fn lengths_of(stock: Length; plan: &Nesting) -> u64 {
        plan.sticks.iter().filter(|stick| stick.stock == stock).count() as u64
    }
}

formula! {
    /// Lengths of the longest stock that no cutting plan goes below.
    ///
    /// ```text
    /// n = bound L2 of Martello and Toth
    /// ```
    /// Source: Martello and Toth (1990), the bound L2 for bin packing, from memory.
    pub fn fewest_lengths(; plan: &Nesting) -> u64 {
        plan.fewest
    }
}

formula! {
    /// Boards as they are bought, by the area that they would cover side by side.
    ///
    /// ```text
    /// A = b l        b: cover of a board, l: of all stock
    /// ```
    /// Source: area of a rectangle.
    pub fn bought_area(cover: Length, bought_length: Length) -> Area {
        cover * bought_length
    }
}

formula! {
    /// Along the top of a rafter from over its support out to where it is cut at the eave.
    ///
    /// ```text
    /// l = distance along the top line
    /// ```
    /// Source: elementary geometry; the eave is met in plan.
    pub fn eave_cut(; tail: Length) -> Length {
        tail
    }
}

formula! {
    /// The lowest place of the eave: a quarter of a bay by its number.
    ///
    /// ```text
    /// n = place of the least z        among the tails and three places between each two, counted from the first tail
    /// ```
    /// Source: searched for.
    pub fn lowest_place(; points: &[EdgePoint]) -> u64 {
        let level = |place: &usize| points[*place].place[2];
        let lowest = (0..points.len()).min_by(|a, b| level(a).total_cmp(&level(b)));
        lowest.map_or(0, |place| place as u64 + 1)
    }
}

formula! {
    /// Level of the deck at the lowest place of the eave, from the foot of the cob.
    ///
    /// ```text
    /// z = least z        among the tails and three places between each two
    /// ```
    /// Source: elementary geometry of the surface between two straight top lines.
    pub fn lowest_level(; points: &[EdgePoint]) -> Length {
        Length::m(points.iter().map(|point| point.place[2]).fold(f64::INFINITY, f64::min))
    }
}

formula! {
    /// Downspouts of a roof.
    ///
    /// ```text
    /// n = Σ 1
    /// ```
    /// Source: the sum of its parts.
    pub fn outlet_count(; downspouts: u64) -> u64 {
        downspouts
    }
}

formula! {
    /// Roof in plan whose water runs to a downspout.
    ///
    /// ```text
    /// A = Σ Aᵢ        Aᵢ: what comes down to each place of the eave that drains to it, by the way whose highest place is lower
    /// ```
    /// Source: water runs downhill; the deck between two places in plan.
    pub fn catchment(; catchment: &Catchment) -> Area {
        catchment.area
    }
}

formula! {
    /// How deep water stands over a downspout that is blocked before all of its share has found another way.
    ///
    /// ```text
    /// h = lowest way over the edge to the next downspout − level of this one
    /// ```
    /// Source: water runs downhill.
    pub fn depth_if_blocked(; depth: Length) -> Length {
        depth
    }
}

formula! {
    /// How deep water stands behind the edge board though every downspout is open.
    ///
    /// ```text
    /// h = largest of (lowest way to a downspout − level of the place); 0 where all runs off
    /// ```
    /// Source: water runs downhill.
    pub fn standing_water(; depth: Length) -> Length {
        depth
    }
}

formula! {
    /// What is left of the sheet's upstand over the deepest water, one downspout blocked; below zero, water runs over it and under it.
    ///
    /// ```text
    /// h = u − d        u: upstand at the edge, d: deepest of the water over a blocked downspout and the water that stands
    /// ```
    /// Source: the definition of a level.
    pub fn spare_upstand(upstand: Length, deepest: Length) -> Length {
        upstand - deepest
    }
}
