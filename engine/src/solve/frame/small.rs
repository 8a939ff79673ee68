//! Vectors of three, and matrices of a member's twelve end movements.

/// A vector in space.
pub type Three = [f64; 3];
/// Movements or forces in the order along x, y, z, about x, y, z.
pub type Six = [f64; 6];
/// Those of both ends of a member.
pub(super) type Twelve = [f64; 12];
/// A matrix on them.
pub(super) type Square = [Twelve; 12];

pub(super) fn minus(a: Three, b: Three) -> Three {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(super) fn dot(a: Three, b: Three) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(super) fn cross(a: Three, b: Three) -> Three {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub(super) fn scaled(a: Three, by: f64) -> Three {
    a.map(|part| part * by)
}

/// The direction of a vector; nothing when it has no length.
pub(super) fn direction(a: Three) -> Option<Three> {
    let length = dot(a, a).sqrt();
    (length.is_finite() && length > 0.0).then(|| scaled(a, 1.0 / length))
}

/// The components of a vector along axes.
pub(super) fn into_local(axes: &[Three; 3], vector: Three) -> Three {
    [dot(axes[0], vector), dot(axes[1], vector), dot(axes[2], vector)]
}

/// The vector with these components along axes.
pub(super) fn into_global(axes: &[Three; 3], parts: Three) -> Three {
    std::array::from_fn(|k| axes[0][k] * parts[0] + axes[1][k] * parts[1] + axes[2][k] * parts[2])
}

pub(super) fn three(list: &[f64]) -> Three {
    [list[0], list[1], list[2]]
}

/// Each triple of a list of movements turned by `turn`.
pub(super) fn turned<const N: usize>(list: [f64; N], turn: impl Fn(Three) -> Three) -> [f64; N] {
    let mut all = list;
    for (own, from) in all.chunks_exact_mut(3).zip(list.chunks_exact(3)) {
        own.copy_from_slice(&turn(three(from)));
    }
    all
}

pub(super) fn diagonal(matrix: &Square) -> Twelve {
    std::array::from_fn(|k| matrix[k][k])
}

pub(super) fn times(matrix: &Square, vector: &Twelve) -> Twelve {
    let mut product = [0.0; 12];
    for (own, row) in product.iter_mut().zip(matrix) {
        *own = row.iter().zip(vector).map(|(a, b)| a * b).sum();
    }
    product
}

/// Tᵀ K T for a symmetric K, where T turns each triple of movements into the axes.
pub(super) fn turned_square(axes: &[Three; 3], local: &Square) -> Square {
    let mut global = [[0.0; 12]; 12];
    for row in (0..12).step_by(3) {
        for column in (row..12).step_by(3) {
            let mut half = [[0.0; 3]; 3];
            for (own, line) in half.iter_mut().zip(&local[row..row + 3]) {
                for (k, axis) in axes.iter().enumerate() {
                    for (part, along) in own.iter_mut().zip(axis) {
                        *part += line[column + k] * along;
                    }
                }
            }
            for a in 0..3 {
                for b in 0..3 {
                    let term = axes[0][a] * half[0][b] + axes[1][a] * half[1][b] + axes[2][a] * half[2][b];
                    global[row + a][column + b] = term;
                    global[column + b][row + a] = term;
                }
            }
        }
    }
    global
}
