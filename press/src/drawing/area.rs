//! Upright boxes on the sheet: what overlaps, what is inside, how much of a line they cover.

use engine::polygon::bounds;
use kurbo::Point;

/// An upright box in sheet millimetres, y downwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Least x.
    pub left: f64,
    /// Least y.
    pub top: f64,
    /// Greatest x.
    pub right: f64,
    /// Greatest y.
    pub bottom: f64,
}

impl Area {
    /// The box of this width and height about a centre, all in millimetres.
    #[must_use]
    pub fn about(centre: [f64; 2], width: f64, height: f64) -> Area {
        Area {
            left: centre[0] - width / 2.0,
            top: centre[1] - height / 2.0,
            right: centre[0] + width / 2.0,
            bottom: centre[1] + height / 2.0,
        }
    }

    /// The smallest box round points, in millimetres.
    #[must_use]
    pub fn round(points: &[[f64; 2]]) -> Area {
        let round = bounds(points.iter().map(|&[x, y]| Point::new(x, y)));
        Area { left: round.x0, top: round.y0, right: round.x1, bottom: round.y1 }
    }

    /// Millimetres from left to right.
    #[must_use]
    pub fn width(self) -> f64 {
        self.right - self.left
    }

    /// Millimetres from top to bottom.
    #[must_use]
    pub fn height(self) -> f64 {
        self.bottom - self.top
    }

    /// The middle of the box.
    #[must_use]
    pub fn centre(self) -> [f64; 2] {
        [self.left.midpoint(self.right), self.top.midpoint(self.bottom)]
    }

    /// Whether two boxes share more than an edge.
    #[must_use]
    pub fn overlaps(self, other: Area) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    /// Whether the other box lies wholly inside, edges included.
    #[must_use]
    pub fn contains(self, other: Area) -> bool {
        self.left <= other.left && self.top <= other.top && self.right >= other.right && self.bottom >= other.bottom
    }

    /// The share (0 to 1) of this box that the other covers.
    #[must_use]
    pub fn covered_by(self, other: Area) -> f64 {
        let width = self.right.min(other.right) - self.left.max(other.left);
        let height = self.bottom.min(other.bottom) - self.top.max(other.top);
        let own = self.width() * self.height();
        if width <= 0.0 || height <= 0.0 || own <= 0.0 {
            return 0.0;
        }
        width * height / own
    }

    /// The point of the box nearest to `point`; the point itself when inside.
    #[must_use]
    pub fn nearest(self, point: [f64; 2]) -> [f64; 2] {
        [point[0].max(self.left).min(self.right), point[1].max(self.top).min(self.bottom)]
    }

    /// Millimetres from `point` to the nearest point of the box; 0 inside.
    #[must_use]
    pub fn distance(self, point: [f64; 2]) -> f64 {
        let [x, y] = self.nearest(point);
        length([x - point[0], y - point[1]])
    }

    /// How many millimetres of the straight line between two points run inside; `None` when it passes by.
    #[must_use]
    pub fn crossed_by(self, from: [f64; 2], to: [f64; 2]) -> Option<f64> {
        let beside = |axis: usize, least: f64, greatest: f64| {
            from[axis].max(to[axis]) <= least || from[axis].min(to[axis]) >= greatest
        };
        if beside(0, self.left, self.right) || beside(1, self.top, self.bottom) {
            return None;
        }
        let [enter, leave] = inside([from, to], [[self.left, self.right], [self.top, self.bottom]])?;
        Some((leave - enter) * length([to[0] - from[0], to[1] - from[1]]))
    }
}

/// At which shares of its way a straight line enters and leaves an upright box, given by its least and greatest x and y in
/// the line's own unit; `None` when it passes by.
pub(super) fn inside([from, to]: [[f64; 2]; 2], spans: [[f64; 2]; 2]) -> Option<[f64; 2]> {
    let (mut enter, mut leave): (f64, f64) = (0.0, 1.0);
    for (axis, [least, greatest]) in spans.into_iter().enumerate() {
        let step = to[axis] - from[axis];
        if step == 0.0 {
            if from[axis] <= least || from[axis] >= greatest {
                return None;
            }
            continue;
        }
        let (first, second) = ((least - from[axis]) / step, (greatest - from[axis]) / step);
        enter = enter.max(first.min(second));
        leave = leave.min(first.max(second));
    }
    (enter < leave).then_some([enter, leave])
}

/// Millimetres of a way; sheets are too small for the care that `hypot` takes.
fn length([x, y]: [f64; 2]) -> f64 {
    (x * x + y * y).sqrt()
}

/// Whether two straight lines cross between their ends; touching ends do not count.
#[must_use]
pub fn cross(first: [[f64; 2]; 2], second: [[f64; 2]; 2]) -> bool {
    let side = |line: [[f64; 2]; 2], point: [f64; 2]| {
        (line[1][0] - line[0][0]) * (point[1] - line[0][1]) - (line[1][1] - line[0][1]) * (point[0] - line[0][0])
    };
    side(first, second[0]) * side(first, second[1]) < 0.0 && side(second, first[0]) * side(second, first[1]) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOX: Area = Area { left: 0.0, top: 0.0, right: 4.0, bottom: 2.0 };

    #[test]
    fn boxes_that_share_an_edge_do_not_overlap() {
        assert!(!BOX.overlaps(Area::about([6.0, 1.0], 4.0, 2.0)));
        assert!(BOX.overlaps(Area::about([5.9, 1.0], 4.0, 2.0)));
    }

    #[test]
    fn a_line_is_measured_inside_the_box_only() {
        assert_eq!(BOX.crossed_by([-5.0, 1.0], [5.0, 1.0]), Some(4.0));
        assert_eq!(BOX.crossed_by([1.0, 0.5], [2.0, 0.5]), Some(1.0));
        assert_eq!(BOX.crossed_by([-5.0, 2.0], [5.0, 2.0]), None);
        assert_eq!(BOX.crossed_by([-5.0, 3.0], [5.0, 3.0]), None);
    }

    #[test]
    fn a_line_is_inside_between_the_shares_of_its_way() {
        let spans = [[0.0, 4.0], [0.0, 2.0]];
        assert_eq!(inside([[-4.0, 1.0], [12.0, 1.0]], spans), Some([0.25, 0.5]));
        assert_eq!(inside([[-4.0, 2.0], [12.0, 2.0]], spans), None);
    }

    #[test]
    fn the_box_round_points_is_no_larger_than_they_are() {
        assert_eq!(Area::round(&[[4.0, 1.0], [0.0, 0.0], [2.0, 2.0]]), BOX);
    }

    #[test]
    fn half_covered_is_one_half() {
        assert!((BOX.covered_by(Area::about([4.0, 1.0], 4.0, 2.0)) - 0.5).abs() < 1e-12);
    }

    #[test]
    fn lines_cross_only_between_their_ends() {
        assert!(cross([[0.0, 0.0], [2.0, 2.0]], [[0.0, 2.0], [2.0, 0.0]]));
        assert!(!cross([[0.0, 0.0], [2.0, 2.0]], [[2.0, 2.0], [4.0, 0.0]]));
    }
}
