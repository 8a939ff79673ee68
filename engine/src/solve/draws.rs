//! Seeded draws: the same seed gives the same numbers.

/// A row of numbers that look drawn by lot.
///
/// Source: splitmix64, G. L. Steele, D. Lea and C. H. Flood, OOPSLA 2014 (from memory; any even draw would do).
pub struct Chance(pub u64);

impl Chance {
    /// The next number, any of 64 bits.
    pub fn number(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A whole number from 0, below a bound.
    pub fn below(&mut self, bound: usize) -> usize {
        (self.number() % bound as u64) as usize
    }

    /// Two whole numbers from 0, below a bound far below 2³², from one draw.
    pub fn pair(&mut self, bound: usize) -> [usize; 2] {
        let number = self.number();
        [number & 0xffff_ffff, number >> 32].map(|half| ((half * bound as u64) >> 32) as usize)
    }

    /// A list in an order drawn by lot.
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            let other = self.below(last + 1);
            list.swap(last, other);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Chance;

    #[test]
    fn draws_below_a_bound_are_even_and_the_same_for_the_same_seed() {
        let mut chance = Chance(7);
        let mut counts = [0_u32; 5];
        for _ in 0..50_000 {
            counts[chance.below(5)] += 1;
        }
        assert!(counts.iter().all(|&count| count.abs_diff(10_000) < 400), "{counts:?}");
        let mut counts = [0_u32; 7];
        (0..35_000).for_each(|_| chance.pair(7).into_iter().for_each(|own| counts[own] += 1));
        assert!(counts.iter().all(|&count| count.abs_diff(10_000) < 400), "{counts:?}");
        assert_eq!(Chance(3).number(), Chance(3).number());
        assert_ne!(Chance(3).number(), Chance(4).number());
    }

    #[test]
    fn a_shuffled_list_keeps_what_is_in_it() {
        let mut list: Vec<usize> = (0..20).collect();
        Chance(1).shuffle(&mut list);
        assert_ne!(list, (0..20).collect::<Vec<_>>());
        list.sort_unstable();
        assert_eq!(list, (0..20).collect::<Vec<_>>());
    }
}
