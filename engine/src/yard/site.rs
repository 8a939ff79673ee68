//! Distances on the site and the ground that things of the yard cover.

use crate::reason::formula;
use crate::units::{Area, Length};

formula! {
    /// Length of a side of the boundary.
    ///
    /// ```text
    /// l = √((x₂ − x₁)² + (y₂ − y₁)²)
    /// ```
    /// Source: Pythagoras; the definition of distance in plan coordinates.
    pub fn side(; length: Length) -> Length {
        length
    }
}

formula! {
    /// Area of the land within the boundary.
    ///
    /// ```text
    /// S = ½ |Σ (xᵢ yᵢ₊₁ − xᵢ₊₁ yᵢ)|
    /// ```
    /// Source: the area of a polygon from its corners, elementary geometry.
    pub fn land(; area: Area) -> Area {
        area
    }
}

formula! {
    /// Distance between two places, level.
    ///
    /// ```text
    /// d = √((x₂ − x₁)² + (y₂ − y₁)²)
    /// ```
    /// Source: Pythagoras; the definition of distance in plan coordinates.
    pub fn apart(; distance: Length) -> Length {
        distance
    }
}

formula! {
    /// Distance from the outer face of the cob at its foot, level, where it is least.
    ///
    /// ```text
    /// d = d′ − t / 2        d′: least distance from the wall line; not below 0
    /// ```
    /// Source: parallel lines; the nearest point of a line, elementary geometry.
    pub fn from_face(thickness: Length; from_line: Length) -> Length {
        (from_line - thickness * 0.5).max(Length::ZERO)
    }
}

formula! {
    /// Distance from the eave, level, where it is least; below zero, how far the eave reaches beyond.
    ///
    /// ```text
    /// d′ = d + t / 2 − n        d: from the outer face of the wall, n: offset of the eave from the wall line
    /// ```
    /// Source: parallel lines.
    pub fn from_eave(from_wall: Length, thickness: Length, eave_offset: Length) -> Length {
        from_wall + thickness * 0.5 - eave_offset
    }
}

formula! {
    /// From the edge of a tree's crown to the eave; below zero, how far the crown reaches over the roof.
    ///
    /// ```text
    /// d′ = d − D / 2        d: from trunk to eave, D: diameter of the crown
    /// ```
    /// Source: a round crown about its trunk.
    pub fn crown_clear(from_eave: Length, crown: Length) -> Length {
        from_eave - crown * 0.5
    }
}

formula! {
    /// From an overhead line to the tip of the longest pole when it is raised at the wall towards the line; the height of the
    /// line is not counted on.
    ///
    /// ```text
    /// d′ = d − l        d: from line to wall, level, l: length of the pole
    /// ```
    /// Source: a pole reaches no farther than its length.
    pub fn pole_clear(from_wall: Length, pole: Length) -> Length {
        from_wall - pole
    }
}

formula! {
    /// Ground under one of several equal piles of a thing.
    ///
    /// ```text
    /// S = S all / n
    /// ```
    /// Source: equal parts.
    pub fn pile(all: Area; piles: f64) -> Area {
        all / piles
    }
}

formula! {
    /// Ground under tarps with room to walk round each.
    ///
    /// ```text
    /// S = n (a + 2 b)²        a: side of a tarp, b: room to walk round
    /// ```
    /// Source: equal squares.
    pub fn tarps(count: u64, side: Length, walk_round: Length) -> Area {
        let cell = side + walk_round * 2.0;
        cell * cell * count as f64
    }
}

formula! {
    /// Ground under equal square things side by side.
    ///
    /// ```text
    /// S = n a²
    /// ```
    /// Source: equal squares.
    pub fn squares(count: u64, side: Length) -> Area {
        side * side * count as f64
    }
}

formula! {
    /// Ground that a way takes.
    ///
    /// ```text
    /// S = w Σ l        l: from each of its points to the next
    /// ```
    /// Source: a strip of even width; bends are left out.
    pub fn way(width: Length; length: Length) -> Area {
        width * length
    }
}

formula! {
    /// Ground that the yard takes in all.
    ///
    /// ```text
    /// S = Σ Sᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn yard(; sum: Area) -> Area {
        sum
    }
}

formula! {
    /// People for each toilet.
    ///
    /// ```text
    /// n = people / toilets
    /// ```
    /// Source: the definition of the rate.
    pub fn persons_each(; persons_each: f64) -> f64 {
        persons_each
    }
}
