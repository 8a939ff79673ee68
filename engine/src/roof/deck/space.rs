//! Places and directions in space, in metres: x and y as in the plan, z up.

use kurbo::Point;

/// A place or a direction.
pub type Place = [f64; 3];

pub(super) fn plus(a: Place, b: Place, times: f64) -> Place {
    [a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]]
}

pub(super) fn minus(a: Place, b: Place) -> Place {
    plus(a, b, -1.0)
}

pub(super) fn between(a: Place, b: Place, share: f64) -> Place {
    plus(a, minus(b, a), share)
}

pub(super) fn dot(a: Place, b: Place) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(super) fn cross(a: Place, b: Place) -> Place {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub(super) fn length(a: Place) -> f64 {
    dot(a, a).sqrt()
}

pub(super) fn unit(a: Place) -> Place {
    let size = length(a);
    a.map(|part| part / size)
}

pub(super) fn in_plan(a: Place) -> Point {
    Point::new(a[0], a[1])
}
