//! Vectors in space, three plain numbers each.

/// A point or a way in space.
pub type Vector = [f64; 3];

/// One vector and so many times another.
#[must_use]
pub fn moved(from: Vector, way: Vector, times: f64) -> Vector {
    std::array::from_fn(|axis| from[axis] + times * way[axis])
}

/// The way from a point to another.
#[must_use]
pub fn way(from: Vector, to: Vector) -> Vector {
    moved(to, from, -1.0)
}

/// The scalar product.
#[must_use]
pub fn dot(one: Vector, other: Vector) -> f64 {
    one[0] * other[0] + one[1] * other[1] + one[2] * other[2]
}

/// The vector product.
#[must_use]
pub fn cross(one: Vector, other: Vector) -> Vector {
    std::array::from_fn(|axis| {
        let (next, last) = ((axis + 1) % 3, (axis + 2) % 3);
        one[next] * other[last] - one[last] * other[next]
    })
}

/// How long it is.
#[must_use]
pub fn size(vector: Vector) -> f64 {
    dot(vector, vector).sqrt()
}

/// The shares of two straight pieces, 0 to 1 from first end to last, at which they come nearest to each other.
///
/// Source: the closest points of two segments by clamping the feet of the common perpendicular, elementary geometry.
#[must_use]
pub fn nearest_shares(one: [Vector; 2], other: [Vector; 2]) -> (f64, f64) {
    let (along, beside, between) = (way(one[0], one[1]), way(other[0], other[1]), way(other[0], one[0]));
    let (a, b, e) = (dot(along, along), dot(along, beside), dot(beside, beside));
    let (c, f) = (dot(along, between), dot(beside, between));
    let askew = a * e - b * b;
    let first = if askew > f64::EPSILON * a * e { ((b * f - c * e) / askew).clamp(0.0, 1.0) } else { 0.0 };
    let second = (b * first + f) / e;
    if (0.0..=1.0).contains(&second) {
        return (first, second);
    }
    let second = second.clamp(0.0, 1.0);
    (((b * second - c) / a).clamp(0.0, 1.0), second)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_vector_product_is_square_to_both_and_as_large_as_their_parallelogram() {
        let (one, other) = ([1.0, 2.0, -0.5], [0.3, -1.0, 2.0]);
        let square = cross(one, other);
        assert!(dot(square, one).abs() < 1e-15 && dot(square, other).abs() < 1e-15);
        let area = (dot(one, one) * dot(other, other) - dot(one, other).powi(2)).sqrt();
        assert!((size(square) - area).abs() < 1e-14);
        assert_eq!(cross([1.0, 0.0, 0.0], [0.0, 1.0, 0.0]), [0.0, 0.0, 1.0]);
    }

    #[test]
    fn two_straight_pieces_come_nearest_at_their_perpendicular_or_at_an_end() {
        let level = [[0.0, 0.0, 0.0], [4.0, 0.0, 0.0]];
        assert_eq!(nearest_shares(level, [[1.0, -1.0, 1.0], [1.0, 3.0, 1.0]]), (0.25, 0.25));
        assert_eq!(nearest_shares(level, [[6.0, 2.0, 1.0], [6.0, 4.0, 1.0]]), (1.0, 0.0));
        assert_eq!(nearest_shares(level, [[-1.0, -3.0, 0.0], [-1.0, -1.0, 0.0]]), (0.0, 1.0));
        let (one, other) = nearest_shares(level, [[1.0, 1.0, 0.0], [9.0, 1.0, 0.0]]);
        assert!(
            (4.0 * one - (1.0 + 8.0 * other)).abs() <= 1.0 + 1e-12,
            "parallel: anywhere beside each other or nearest"
        );
    }

    #[test]
    fn no_other_pair_of_places_is_nearer() {
        let (one, other) = ([[0.0, 0.0, 0.0], [3.0, 1.0, 0.5]], [[2.0, -1.0, 1.0], [1.0, 2.0, -0.3]]);
        let apart = |first: f64, second: f64| {
            let [on_one, on_other] =
                [(one, first), (other, second)].map(|(line, at)| moved(line[0], way(line[0], line[1]), at));
            size(way(on_one, on_other))
        };
        let (first, second) = nearest_shares(one, other);
        for step in 0..=20 {
            for also in 0..=20 {
                assert!(apart(f64::from(step) / 20.0, f64::from(also) / 20.0) >= apart(first, second) - 1e-12);
            }
        }
    }
}
