//! How much higher wet cob is built, so that it is as high as it is drawn when it has dried.

use crate::reason::formula;
use crate::units::{Length, Ratio};

formula! {
    /// Height to build wet, so that the drawn height is left when the cob has dried.
    ///
    /// The shrinkage is that of a bar that dried free. How much of it a wall takes in its height hangs on load, straw, pace and
    /// order too: what dried before the next lift came is not lost again. Measure as you go.
    ///
    /// ```text
    /// h′ = h / (1 − s)        h: drawn height, s: shrinkage of a bar, of its wet length
    /// ```
    /// Source: the definition of linear shrinkage.
    pub fn wet_built(height: Length, shrinkage: Ratio) -> Length {
        height / (1.0 - shrinkage.in_fraction())
    }
}

formula! {
    /// What wet cob sinks by until the drawn height is left.
    ///
    /// It is the most that drying takes, as if none had dried before all was built; what creeps under load later is not known
    /// and not in it. Measure as you go.
    ///
    /// ```text
    /// d = h′ − h = h s / (1 − s)        h: drawn height, s: shrinkage of a bar, of its wet length
    /// ```
    /// Source: the definition of linear shrinkage.
    pub fn settlement(height: Length, shrinkage: Ratio) -> Length {
        let share = shrinkage.in_fraction();
        height * (share / (1.0 - share))
    }
}

formula! {
    /// Gap to leave over a rigid frame: what the cob beside it sinks by.
    ///
    /// The frame keeps its height, the cob from the bed on which it stands to its head does not. Without a gap the wall
    /// hangs on the frame and cracks at its corners, or the frame bends.
    ///
    /// ```text
    /// d = h s / (1 − s)        h: cob beside the frame, from its bed to its head
    /// ```
    /// Source: the definition of linear shrinkage.
    pub fn gap_over_frame(height: Length, shrinkage: Ratio) -> Length {
        settlement(height, shrinkage).value
    }
}

formula! {
    /// Gap to leave over a rigid frame that stands below the foot of the cob: what the cob beside it sinks by.
    ///
    /// Stone does not sink; the cob from the stem wall to the head does.
    ///
    /// ```text
    /// d = (h + z) s / (1 − s)        z: level of the threshold, negative
    /// ```
    /// Source: the definition of linear shrinkage.
    pub fn gap_over_door(height: Length, threshold: Length, shrinkage: Ratio) -> Length {
        settlement(height + threshold, shrinkage).value
    }
}
