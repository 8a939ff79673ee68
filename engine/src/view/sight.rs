//! From where one looks: a direction, with what is right and up on the picture.

use super::dot;

/// A parallel projection.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sight {
    /// Unit direction that runs to the right on the picture.
    pub right: [f64; 3],
    /// Unit direction that runs up on the picture.
    pub up: [f64; 3],
    /// Unit direction towards the viewer.
    pub toward: [f64; 3],
}

impl Sight {
    /// Seen by who stands in a direction of the plan, in radians anticlockwise from the x axis, and so many radians above.
    #[must_use]
    pub fn from(direction: f64, above: f64) -> Sight {
        let ([sin, cos], [high, flat]) = ([direction.sin(), direction.cos()], [above.sin(), above.cos()]);
        Sight { right: [-sin, cos, 0.0], up: [-high * cos, -high * sin, flat], toward: [flat * cos, flat * sin, high] }
    }

    /// A point on the picture: metres to the right, up, and towards the viewer.
    #[must_use]
    pub fn at(&self, point: [f64; 3]) -> [f64; 3] {
        [dot(point, self.right), dot(point, self.up), dot(point, self.toward)]
    }
}
