//! Boards cut out of stock lengths: which pieces out of which, and how far that is from the best that can be.

use crate::reason::formula;
use crate::units::{Length, Ratio};

/// One length of stock and the pieces cut out of it, by their place in the list of pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct Stick {
    /// Its length as bought.
    pub stock: Length,
    /// The pieces.
    pub pieces: Vec<usize>,
}

/// What is bought and how it is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Nesting {
    /// Every length of stock.
    pub sticks: Vec<Stick>,
    /// No cutting plan needs fewer of the longest stock.
    pub fewest: u64,
    /// Lengths of all pieces together.
    pub used: Length,
    /// Lengths of all stock together.
    pub bought: Length,
}

impl Nesting {
    /// How many more lengths this plan takes than the bound; the best plan may take as many.
    #[must_use]
    pub fn gap(&self) -> u64 {
        (self.sticks.len() as u64).saturating_sub(self.fewest)
    }
}

formula! {
    /// Lengths of all pieces together.
    ///
    /// ```text
    /// l = Σ lᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn pieces_length(; plan: &Nesting) -> Length {
        plan.used
    }
}

formula! {
    /// Lengths of all stock together, as bought.
    ///
    /// The longest piece is cut first, out of the first length with room for it; another plan may need less.
    ///
    /// ```text
    /// l = Σ lᵢ
    /// ```
    /// Source: the sum of its parts; first fit, longest first.
    pub fn bought_length(; plan: &Nesting) -> Length {
        plan.bought
    }
}

formula! {
    /// Offcuts and saw cuts, as a share of what is bought.
    ///
    /// ```text
    /// a = 1 − l / l₁        l: of all pieces, l₁: of all stock
    /// ```
    /// Source: the definition of the share.
    pub fn offcuts(pieces_length: Length, bought_length: Length) -> Ratio {
        Ratio::fraction(1.0 - pieces_length / bought_length)
    }
}

/// Room that rounding of binary fractions may take.
pub(super) const NEARLY: Length = Length::mm(1e-6);

/// Cuts pieces out of stock: the longest piece first, each out of the first length with room for it and its saw cut, every
/// length at last replaced by the shortest stock that holds its pieces.
///
/// # Errors
/// The place of a piece that is longer than all stock; the place past the last piece where there is no stock.
pub fn nest(pieces: &[Length], stock: &[Length], kerf: Length) -> Result<Nesting, usize> {
    let longest = stock.iter().copied().fold(Length::ZERO, Length::max);
    if longest <= Length::ZERO {
        return Err(pieces.len());
    }
    if let Some(long) = pieces.iter().position(|&piece| piece > longest + NEARLY) {
        return Err(long);
    }
    let mut order: Vec<usize> = (0..pieces.len()).collect();
    order.sort_by(|&a, &b| pieces[b].in_m().total_cmp(&pieces[a].in_m()));
    let mut sticks: Vec<(Length, Vec<usize>)> = Vec::new();
    for piece in order {
        let wanted = pieces[piece] + kerf;
        match sticks.iter_mut().find(|(filled, _)| *filled + wanted <= longest + kerf + NEARLY) {
            Some((filled, cut)) => {
                *filled = *filled + wanted;
                cut.push(piece);
            }
            None => sticks.push((wanted, vec![piece])),
        }
    }
    let shortest = |filled: Length| {
        let holds = stock.iter().copied().filter(|&stock| filled <= stock + kerf + NEARLY);
        holds.fold(longest, Length::min)
    };
    let sticks: Vec<Stick> =
        sticks.into_iter().map(|(filled, pieces)| Stick { stock: shortest(filled), pieces }).collect();
    Ok(Nesting {
        fewest: fewest(pieces, longest, kerf),
        used: pieces.iter().copied().sum(),
        bought: sticks.iter().map(|stick| stick.stock).sum(),
        sticks,
    })
}

/// A bound from below on the lengths of one stock.
///
/// For each threshold K not above half of the stock: pieces longer than the stock less K are alone with nothing of K or more;
/// pieces longer than half take one each; what pieces of K or more do not find room for beside these needs lengths of its own.
///
/// Source: Martello and Toth (1990), the bound L2 for bin packing, from memory. A saw cut is added to pieces and stock alike.
fn fewest(pieces: &[Length], stock: Length, kerf: Length) -> u64 {
    let room = (stock + kerf).in_m();
    let nearly = NEARLY.in_m();
    let sizes: Vec<f64> = pieces.iter().map(|piece| (*piece + kerf).in_m()).collect();
    let bound = |least: f64| {
        let (mut alone, mut halves, mut halves_sum, mut rest) = (0_u64, 0_u64, 0.0, 0.0);
        for &size in &sizes {
            if size > room - least + nearly {
                alone += 1;
            } else if size > 0.5 * room + nearly {
                halves += 1;
                halves_sum += size;
            } else if size >= least - nearly {
                rest += size;
            }
        }
        let beside = halves as f64 * room - halves_sum;
        alone + halves + crate::solve::whole::rounded_up((rest - beside - nearly) / room)
    };
    let half = sizes.iter().copied().filter(|&size| size <= 0.5 * room + nearly);
    half.chain([0.0]).map(bound).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn metres(lengths: &[f64]) -> Vec<Length> {
        lengths.iter().map(|&length| Length::m(length)).collect()
    }

    #[test]
    fn pieces_that_fill_their_stock_without_a_saw_cut_need_more_with_one() {
        let pieces = metres(&[2.0, 2.0, 1.0, 1.0]);
        let plan = |kerf| nest(&pieces, &metres(&[3.0]), Length::mm(kerf)).unwrap();
        assert_eq!((plan(0.0).sticks.len(), plan(0.0).fewest, plan(0.0).gap()), (2, 2, 0));
        assert_eq!(offcuts(plan(3.0).used, plan(3.0).bought).value, Ratio::fraction(1.0 - 6.0 / 9.0));
        assert_eq!((plan(3.0).sticks.len(), plan(3.0).fewest, plan(3.0).gap()), (3, 3, 0));
    }

    #[test]
    fn the_longest_first_is_not_always_the_best_and_the_gap_says_so() {
        // By hand: 4 4 2 and 4 3 3 fill two tens.
        let pieces = metres(&[4.0, 4.0, 4.0, 3.0, 3.0, 2.0]);
        let plan = nest(&pieces, &metres(&[10.0]), Length::ZERO).unwrap();
        assert_eq!((plan.sticks.len(), plan.fewest, plan.gap()), (2, 2, 0));
        // By hand: 5 5, 4 3 3 and 4 3 3 fill three tens; longest first cuts 5 5, 4 4, 3 3 3 and one 3 more.
        let pieces = metres(&[5.0, 5.0, 4.0, 4.0, 3.0, 3.0, 3.0, 3.0]);
        let plan = nest(&pieces, &metres(&[10.0]), Length::ZERO).unwrap();
        assert_eq!((plan.sticks.len(), plan.fewest, plan.gap()), (4, 3, 1));
    }

    #[test]
    fn no_stick_holds_more_than_its_stock_and_every_piece_is_cut_once() {
        let pieces: Vec<Length> = (0..60).map(|one| Length::mm(300.0 + f64::from(one * 7919 % 2100))).collect();
        let stock = metres(&[2.4, 3.0, 4.2]);
        let kerf = Length::mm(3.0);
        let plan = nest(&pieces, &stock, kerf).unwrap();
        let mut cut: Vec<usize> = plan.sticks.iter().flat_map(|stick| stick.pieces.clone()).collect();
        cut.sort_unstable();
        assert_eq!(cut, (0..60).collect::<Vec<_>>());
        for stick in &plan.sticks {
            let length: Length = stick.pieces.iter().map(|&piece| pieces[piece]).sum();
            assert!(length + kerf * (stick.pieces.len() - 1) as f64 <= stick.stock + NEARLY);
        }
        assert!(plan.fewest <= plan.sticks.len() as u64);
    }

    #[test]
    fn a_piece_longer_than_all_stock_is_named() {
        assert_eq!(nest(&metres(&[1.0, 5.0]), &metres(&[3.0, 4.0]), Length::ZERO), Err(1));
        assert_eq!(nest(&metres(&[1.0]), &[], Length::ZERO), Err(1));
    }

    #[test]
    fn three_pieces_just_over_half_need_three_lengths_though_they_would_melt_into_two() {
        let plan = nest(&metres(&[2.1, 2.1, 2.1]), &metres(&[4.0]), Length::ZERO).unwrap();
        assert_eq!((plan.sticks.len(), plan.fewest), (3, 3));
    }
}
