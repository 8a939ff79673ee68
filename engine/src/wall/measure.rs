//! What the trade and its rules measure on a wall.

use crate::reason::formula;
use crate::units::{Length, Ratio, Slope};

formula! {
    /// Thickness of the wall at a third of its height.
    ///
    /// The faces lean back or stand upright, so the top two thirds of the wall are nowhere thicker.
    ///
    /// ```text
    /// t′ = t − (b₁ + b₂) H / 3
    /// ```
    /// Source: the definition of a batter.
    pub fn thickness_at_third(
        thickness: Length, batter_inside: Slope, batter_outside: Slope, height: Length
    ) -> Length {
        thickness - height * batter_inside / 3.0 - height * batter_outside / 3.0
    }
}

formula! {
    /// How many times its thickness at the base the wall is high.
    ///
    /// ```text
    /// H / t
    /// ```
    /// Source: the definition of the ratio as the trade uses it.
    pub fn slenderness(height: Length, thickness: Length) -> f64 {
        height / thickness
    }
}

formula! {
    /// Height of the foot of the cob above the ground outside.
    ///
    /// ```text
    /// h = 0 − z        z: level of the ground, from the foot of the cob
    /// ```
    /// Source: the definition of a level.
    pub fn height_above_ground(ground_outside: Length) -> Length {
        -ground_outside
    }
}

formula! {
    /// Height of the foot of the cob above the finished floor.
    ///
    /// ```text
    /// h = 0 − z        z: level of the floor, from the foot of the cob
    /// ```
    /// Source: the definition of a level.
    pub fn foot_above_floor(floor: Length) -> Length {
        -floor
    }
}

formula! {
    /// Clear height from the finished floor to the top of the wall.
    ///
    /// ```text
    /// h = H − z        z: level of the floor, from the foot of the cob
    /// ```
    /// Source: the definition of a level.
    pub fn room_height(wall_height: Length, floor: Length) -> Length {
        wall_height - floor
    }
}

formula! {
    /// Height to which a face is plastered, from where people stand.
    ///
    /// ```text
    /// h = H − z        z: level of the floor inside, of the ground outside
    /// ```
    /// Source: the definition of a level.
    pub fn plastered_height(top: Length, ground: Length) -> Length {
        top - ground
    }
}

formula! {
    /// How far outside the centre line at the foot of the wall the middle of its top lies.
    ///
    /// ```text
    /// n = (b₁ − b₂) H / 2        b₁, b₂: batters inside and outside
    /// ```
    /// Source: the definition of a batter.
    pub fn plate_offset(batter_inside: Slope, batter_outside: Slope, height: Length) -> Length {
        (height * batter_inside - height * batter_outside) * 0.5
    }
}

formula! {
    /// Length of the middle of the wall's top, all along.
    ///
    /// ```text
    /// l = L + θ (b₁ − b₂) H / 2        θ: angle by which the line turns, 2π when it goes round
    /// ```
    /// Source: length of a parallel curve, differential geometry of plane curves.
    pub fn top_length(
        line_length: Length, batter_inside: Slope, batter_outside: Slope, height: Length; turning: f64
    ) -> Length {
        line_length + turning * plate_offset(batter_inside, batter_outside, height).value
    }
}

formula! {
    /// From one line round the house to another, square to both.
    ///
    /// ```text
    /// d = n₂ − n₁
    /// ```
    /// Source: the definition of an offset.
    pub fn between_offsets(outer: Length, inner: Length) -> Length {
        outer - inner
    }
}

formula! {
    /// How far outside the centre line at the foot of the wall the eave lies.
    ///
    /// ```text
    /// n = t / 2 − b H + o        b: batter outside, o: overhang, from the outer face of the top
    /// ```
    /// Source: the definition of a batter.
    pub fn eave_offset(thickness: Length, batter_outside: Slope, height: Length, overhang: Length) -> Length {
        thickness * 0.5 - height * batter_outside + overhang
    }
}

formula! {
    /// Height of a lift, from the top of the one below to its own.
    ///
    /// ```text
    /// h = z₂ − z₁
    /// ```
    /// Source: the definition of a level.
    pub fn lift_height(top: Length, foot: Length) -> Length {
        top - foot
    }
}

formula! {
    /// Thickness of the cob at a level, its top or that of a sleeve through it among them; plaster comes on top of it.
    ///
    /// ```text
    /// t′ = t − (b₁ + b₂) z        z: level above the foot of the cob
    /// ```
    /// Source: the definition of a batter.
    pub fn thickness_at(thickness: Length, batter_inside: Slope, batter_outside: Slope, level: Length) -> Length {
        thickness - level * batter_inside - level * batter_outside
    }
}

formula! {
    /// How far the top end of a spirit level stands off plumb when its edge lies on a leaning face.
    ///
    /// Tape a block so thick to the top end: with the level plumb on block and foot, the face leans as drawn.
    ///
    /// ```text
    /// d = b l        l: length of the level
    /// ```
    /// Source: the definition of a batter.
    pub fn batter_gauge(batter: Slope, level_length: Length) -> Length {
        level_length * batter
    }
}

formula! {
    /// Widths of all openings together as a share of the length of the wall.
    ///
    /// ```text
    /// Σ w / L
    /// ```
    /// Source: the definition of the share.
    pub fn openings_share(line_length: Length; widths: Length) -> Ratio {
        Ratio::fraction(widths / line_length)
    }
}

formula! {
    /// Distance from a corner of the wall to the nearer jamb of an opening.
    ///
    /// It is measured from the named point along the unrounded runs, as a tape lies, to the jamb on the centre line. A corner
    /// is where the runs turn by 30° or more (our judgement); the end of an open wall counts as one. A splay is not counted.
    ///
    /// ```text
    /// d = distance of the middle − half the opening, on the side of the nearest corner
    /// ```
    /// Source: the definition of the distance.
    pub fn corner_distance(; distance: Length) -> Length {
        distance
    }
}

formula! {
    /// Length of the pier from one opening to the next, or to the end of an open wall, along the centre line, walking with
    /// the room on the left.
    ///
    /// Splays are not counted: the pier is narrower inside.
    ///
    /// ```text
    /// l = distance along the line between the two nearer jambs
    /// ```
    /// Source: the definition of the distance.
    pub fn pier(; length: Length) -> Length {
        length
    }
}

formula! {
    /// Size of the house over the outer faces of the cob at its foot.
    ///
    /// ```text
    /// l = largest coordinate − smallest coordinate of the outer face
    /// ```
    /// Source: the definition of the extent; the inputs are those of the two places that reach farthest.
    pub fn overall(thickness: Length; extent: Length) -> Length {
        extent
    }
}
