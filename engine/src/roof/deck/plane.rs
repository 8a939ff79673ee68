//! The flat plane nearest to straight lines in space, measured plumb.

use kurbo::Point;

use super::space::{Place, between};

/// A plane that is not upright: z = z₀ + a (x − x₀) + b (y − y₀).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    middle: Place,
    slopes: [f64; 2],
}

impl Plane {
    /// The plane with the least sum of squares of the plumb distances to all points of the lines, all lines counting alike.
    ///
    /// The mean of a square that changes evenly along a line is that at the ends and four times that in the middle, over six.
    #[must_use]
    pub fn nearest(lines: &[[Place; 2]]) -> Plane {
        let weighted: Vec<(Place, f64)> =
            lines.iter().flat_map(|&[from, to]| [(from, 1.0), (between(from, to, 0.5), 4.0), (to, 1.0)]).collect();
        let whole: f64 = weighted.iter().map(|one| one.1).sum();
        let middle =
            [0, 1, 2].map(|axis| weighted.iter().map(|(place, weight)| weight * place[axis]).sum::<f64>() / whole);
        let sum = |one: usize, other: usize| {
            weighted
                .iter()
                .map(|(at, weight)| weight * (at[one] - middle[one]) * (at[other] - middle[other]))
                .sum::<f64>()
        };
        let (xx, xy, yy, xz, yz) = (sum(0, 0), sum(0, 1), sum(1, 1), sum(0, 2), sum(1, 2));
        let size = xx * yy - xy * xy;
        Plane { middle, slopes: [(xz * yy - yz * xy) / size, (yz * xx - xz * xy) / size] }
    }

    /// Its level over a place in plan.
    #[must_use]
    pub fn height(&self, at: Point) -> f64 {
        let [a, b] = self.slopes;
        self.middle[2] + a * (at.x - self.middle[0]) + b * (at.y - self.middle[1])
    }

    /// How it rises towards x and y.
    #[must_use]
    pub fn slopes(&self) -> [f64; 2] {
        self.slopes
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_in_a_plane_give_that_plane() {
        let at = |x: f64, y: f64| [x, y, 1.0 + 0.3 * x - 0.2 * y];
        let plane = Plane::nearest(&[[at(0., 0.), at(3., 1.)], [at(0., 2.), at(4., 5.)]]);
        assert!((plane.height(Point::new(7.0, -2.0)) - at(7.0, -2.0)[2]).abs() < 1e-12);
        assert!((plane.slopes()[0] - 0.3).abs() < 1e-12 && (plane.slopes()[1] + 0.2).abs() < 1e-12);
    }

    #[test]
    fn a_twisted_square_leaves_its_plane_equally_up_and_down_at_the_corners() {
        let plane = Plane::nearest(&[[[0., 0., 0.], [1., 0., 0.]], [[0., 1., 0.], [1., 1., 1.]]]);
        let heights = [(0., 0.), (1., 0.), (0., 1.), (1., 1.)].map(|(x, y)| plane.height(Point::new(x, y)));
        for (found, expected) in heights.into_iter().zip([-0.25, 0.25, 0.25, 0.75]) {
            assert!((found - expected).abs() < 1e-12, "{found}");
        }
    }
}
