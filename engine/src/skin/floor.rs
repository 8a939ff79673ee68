//! A floor in bays, and its oil by coat.

use crate::reason::formula;
use crate::solve::whole::{rounded_down, rounded_up};
use crate::units::{Area, Length, Ratio, Volume};

formula! {
    /// Bays into which the floor is parted: even strips, none wider than a straightedge is drawn.
    ///
    /// They lie square to the way in through the door; where the room reaches past the door, along that way.
    ///
    /// ```text
    /// n = b / b bay, rounded up        b: the room across the bays
    /// ```
    /// Source: even strips.
    pub fn bay_count(width: Length; extent: Length) -> u64 {
        rounded_up(extent / width).max(1)
    }
}

formula! {
    /// Width of each bay.
    ///
    /// ```text
    /// b bay = b / n        b: the room across the bays, n: bays
    /// ```
    /// Source: even strips.
    pub fn bay_width(count: u64; extent: Length) -> Length {
        extent / count as f64
    }
}

formula! {
    /// Area of a bay inside the stem wall.
    ///
    /// ```text
    /// A = ∮ y dx along the parts of the outline that lie in the bay        x: across the bays
    /// ```
    /// Source: Green's theorem; exact for straight runs and arcs. The bay's own straight sides add nothing, as dx is 0 there.
    pub fn bay_area(count: u64; area: Area) -> Area {
        area
    }
}

formula! {
    /// Mean length of the longest bay: the way along which its layer shrinks.
    ///
    /// ```text
    /// l = A / b bay
    /// ```
    /// Source: the area of a strip.
    pub fn bay_length(area: Area, width: Length) -> Length {
        area / width
    }
}

formula! {
    /// The crack that opens if all that a layer shrinks by along the longest bay comes out in one place: none is wider.
    ///
    /// ```text
    /// w = e l        e: shrinkage of a bar of the mix, l: length of the bay
    /// ```
    /// Source: the definition of linear shrinkage; a layer that clings to what lies below it shrinks less in length than a bar that lies free.
    pub fn crack_in_one(length: Length, shrinkage: Ratio) -> Length {
        length * shrinkage.in_fraction()
    }
}

formula! {
    /// The most cracks that open across the longest bay.
    ///
    /// ```text
    /// n = l / (k t), rounded down        k t: from crack to crack where they lie closest, t: thickness of the layer
    /// ```
    /// Source: Bai, Pollard and Gao, Nature 403 (2000) 753-756, from memory: no new crack opens between two that lie nearer than about
    /// the thickness of a bonded layer.
    pub fn cracks(length: Length, thickness: Length, spacing: f64) -> u64 {
        rounded_down(length / (thickness * spacing)).max(1)
    }
}

formula! {
    /// How wide each crack is if the shrinkage spreads over as many as can open: where it does not, some are wider.
    ///
    /// Straw and a keyed base hold cracks finer than this or keep them from opening, which is not counted.
    ///
    /// ```text
    /// w = e k t        e: shrinkage of a bar, k t: from crack to crack where they lie closest
    /// ```
    /// Source: the definition of linear shrinkage over one spacing; Bai, Pollard and Gao, Nature 403 (2000) 753-756, from memory.
    pub fn crack_spread(shrinkage: Ratio, thickness: Length, spacing: f64) -> Length {
        thickness * (spacing * shrinkage.in_fraction())
    }
}

formula! {
    /// What a coat of oil takes, thinner and all.
    ///
    /// ```text
    /// V = A V can / A can        A can: the area that V can covers
    /// ```
    /// Source: the definition of coverage.
    pub fn oil_coat(area: Area, covers: Area, takes: Volume) -> Volume {
        takes * (area / covers)
    }
}

formula! {
    /// Oil in a coat.
    ///
    /// ```text
    /// V′ = V (1 − t)        t: thinner, as a share of the coat
    /// ```
    /// Source: the definition of the share; oil and thinner are taken to fill what they fill apart.
    pub fn oil_alone(coat: Volume, thinner: Ratio) -> Volume {
        coat * (1.0 - thinner.in_fraction())
    }
}

formula! {
    /// Thinner in a coat.
    ///
    /// ```text
    /// V′ = V t        t: thinner, as a share of the coat
    /// ```
    /// Source: the definition of the share.
    pub fn thinner(coat: Volume, share: Ratio) -> Volume {
        coat * share.in_fraction()
    }
}
