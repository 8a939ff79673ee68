//! The terms of a fit: products of shares of a mixture, or of amounts that are free of each other.

/// Whether what is varied adds up to a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Shares of one mixture: they add up to one, and no constant stands beside them.
    Shares,
    /// Amounts free of each other, such as water and days.
    Free,
}

/// How bent the surface may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Order {
    /// A plane.
    Linear,
    /// Blends of two.
    Quadratic,
    /// Blends of three too, of shares alone.
    SpecialCubic,
}

impl Order {
    /// Every order, the plainest first.
    pub const ALL: [Order; 3] = [Order::Linear, Order::Quadratic, Order::SpecialCubic];

    /// Its name.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Order::Linear => "linear",
            Order::Quadratic => "quadratic",
            Order::SpecialCubic => "special-cubic",
        }
    }
}

/// The terms of a fit, each the factors that are multiplied.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Terms(Vec<Vec<usize>>);

impl Terms {
    /// The terms of an order for so many factors.
    ///
    /// Source: H. Scheffé, Journal of the Royal Statistical Society B 20 (1958) 344-360, from memory, for shares.
    #[must_use]
    pub fn of(kind: Kind, order: Order, count: usize) -> Terms {
        let mut terms: Vec<Vec<usize>> = Vec::new();
        if kind == Kind::Free {
            terms.push(Vec::new());
        }
        terms.extend((0..count).map(|one| vec![one]));
        if order >= Order::Quadratic {
            terms.extend((0..count).flat_map(|one| (one + 1..count).map(move |other| vec![one, other])));
            if kind == Kind::Free {
                terms.extend((0..count).map(|one| vec![one, one]));
            }
        }
        if order == Order::SpecialCubic && kind == Kind::Shares {
            for one in 0..count {
                terms.extend((one + 1..count).flat_map(|b| (b + 1..count).map(move |c| vec![one, b, c])));
            }
        }
        Terms(terms)
    }

    /// How many.
    #[must_use]
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// The value of each term at a mix.
    #[must_use]
    pub fn row(&self, mix: &[f64]) -> Vec<f64> {
        self.0.iter().map(|term| term.iter().map(|&factor| mix[factor]).product()).collect()
    }

    /// What each is called, by the numbers of its factors: "1", "1x2"; "0" is the constant.
    #[must_use]
    pub fn names(&self) -> Vec<String> {
        let name = |term: &Vec<usize>| match term.as_slice() {
            [] => "0".to_owned(),
            factors => factors.iter().map(|factor| (factor + 1).to_string()).collect::<Vec<_>>().join("x"),
        };
        self.0.iter().map(name).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mixture_of_three_has_three_six_or_seven_terms_and_free_amounts_have_a_constant_and_squares() {
        let count = |kind, order| Terms::of(kind, order, 3).count();
        assert_eq!(Order::ALL.map(|order| count(Kind::Shares, order)), [3, 6, 7]);
        assert_eq!([count(Kind::Free, Order::Linear), count(Kind::Free, Order::Quadratic)], [4, 10]);
        assert_eq!(
            Terms::of(Kind::Shares, Order::SpecialCubic, 3).names(),
            ["1", "2", "3", "1x2", "1x3", "2x3", "1x2x3"]
        );
    }
}
