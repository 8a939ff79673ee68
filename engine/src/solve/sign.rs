//! Where a function changes its sign.

/// The place between two others, once at most, at which a continuous function changes its sign, by halving: to the last
/// digit. `None` where both ends have one sign.
pub fn sign_change(of: impl Fn(f64) -> f64, mut from: f64, mut to: f64) -> Option<f64> {
    let is_below = of(from) < 0.0;
    if is_below == (of(to) < 0.0) {
        return None;
    }
    for _ in 0..60 {
        let middle = from.midpoint(to);
        if (of(middle) < 0.0) == is_below { from = middle } else { to = middle }
    }
    Some(from.midpoint(to))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_root_is_found_to_the_last_digit_and_none_where_there_is_none() {
        let root = sign_change(|x| x * x - 2.0, 1.0, 2.0);
        assert!(root.is_some_and(|root| (root - 2.0_f64.sqrt()).abs() < 1e-15));
        assert!(sign_change(|x| x * x + 1.0, -1.0, 2.0).is_none());
        assert!(sign_change(|x| -x, -1.0, 1.0).is_some_and(|root| root.abs() < 1e-15));
    }
}
