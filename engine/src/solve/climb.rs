//! The greatest value of a function inside a box, climbed from many places.

/// Places to begin from on each side of the box.
const STARTS: usize = 3;
/// No more places than this to begin from.
const MOST_STARTS: usize = 243;
/// Steps end when they are this small a share of the box.
const SMALLEST: f64 = 1e-7;

/// The best place found and its value. From each node of an even grid the way up is felt along every axis, and the step
/// halved where there is none: it needs no slope, so corners do no harm. A place on a flat stays where it began, so that a hill
/// between the nodes, with nothing but flat around it, is missed.
///
/// Source: compass search, T. G. Kolda, R. M. Lewis and V. Torczon, SIAM Review 45 (2003) 385-482, from memory.
pub fn summit(low: &[f64], high: &[f64], height: impl Fn(&[f64]) -> f64) -> (Vec<f64>, f64) {
    let count = low.len();
    let starts = starts(count);
    let mut best = (low.to_vec(), f64::NEG_INFINITY);
    for start in 0..starts {
        let digit = |axis: usize| (start / STARTS.pow(axis as u32)) % STARTS;
        let share = |axis: usize| (digit(axis) as f64 + 0.5) / STARTS as f64;
        let place: Vec<f64> = (0..count).map(|axis| low[axis] + (high[axis] - low[axis]) * share(axis)).collect();
        let found = climbed(low, high, place, &height);
        if found.1 > best.1 {
            best = found;
        }
    }
    best
}

/// How many places are climbed from, in a box of so many sides.
pub fn starts(count: usize) -> usize {
    STARTS.pow(count as u32).min(MOST_STARTS)
}

fn climbed(low: &[f64], high: &[f64], mut place: Vec<f64>, height: impl Fn(&[f64]) -> f64) -> (Vec<f64>, f64) {
    let mut value = height(&place);
    let mut step = 0.25;
    while step > SMALLEST {
        let mut is_higher = false;
        for axis in 0..place.len() {
            let here = place[axis];
            for way in [1.0, -1.0] {
                let there = (here + way * step * (high[axis] - low[axis])).clamp(low[axis], high[axis]);
                place[axis] = there;
                let found = height(&place);
                if found > value {
                    (value, is_higher) = (found, true);
                    break;
                }
                place[axis] = here;
            }
        }
        if !is_higher {
            step *= 0.5;
        }
    }
    (place, value)
}

#[cfg(test)]
mod tests {
    use super::summit;

    #[test]
    fn the_higher_of_two_hills_is_found_and_a_hill_outside_is_climbed_to_the_edge() {
        let hill = |x: f64, y: f64, at: [f64; 2]| (-(x - at[0]).powi(2) - (y - at[1]).powi(2)).exp();
        let hills = |p: &[f64]| hill(p[0], p[1], [-1.0, -1.0]) + 1.5 * hill(p[0], p[1], [2.0, 1.5]);
        let (place, _) = summit(&[-3.0, -3.0], &[3.0, 3.0], hills);
        assert!((place[0] - 2.0).abs() < 1e-3 && (place[1] - 1.5).abs() < 1e-3, "{place:?}");
        let (place, value) = summit(&[0.0], &[1.0], |p| p[0]);
        assert_eq!((place[0], value), (1.0, 1.0));
    }
}
