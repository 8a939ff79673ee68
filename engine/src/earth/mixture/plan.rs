//! Which mixes to make before they are tried: few, told from each other, some twice, in an order drawn by lot.

use jiff::ToSpan;
use jiff::civil::Date;

use super::design::{shares, spread_out};
use super::fit::distinct;
use super::terms::{Kind, Order, Terms};
use crate::earth::tables::number;
use crate::reason::formula;
use crate::solve::draws::Chance;
use crate::solve::whole::rounded_up;
use crate::units::{Days, Mass, Pressure, Ratio, Volume};

/// Mixes to make, in the order in which they are made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Planned {
    /// How bent a surface through them can be.
    pub order: Order,
    /// Steps of each ingredient, of each mix.
    pub runs: Vec<Vec<u32>>,
    /// How many of them are distinct.
    pub distinct: usize,
}

/// The mixes to make among those that can be measured: those that tell the terms best, then those that lie farthest from all others,
/// then the outermost and the innermost once more; tried ones are counted in. None where too few can be measured.
///
/// Source: the best mixes as [`spread_out`] has them; mixes for the lack of fit and repeats, NIST/SEMATECH e-Handbook of Statistical
/// Methods, 5.5.4, from memory; how many is this project's judgement.
#[must_use]
pub fn planned(counts: &[Vec<u32>], asked: Option<Order>, tried: &[Vec<f64>], start: u64) -> Option<Planned> {
    let near = number("mixes-alike-ratio");
    let alike = |mix: &[f64], other: &Vec<f64>| mix.iter().zip(other).all(|(one, other)| (one - other).abs() < near);
    let mut kept = candidates(counts);
    kept.retain(|counts| !tried.iter().any(|other| alike(&shares(counts), other)));
    let mixes: Vec<Vec<f64>> = kept.iter().map(|counts| shares(counts)).collect();
    let ingredients = mixes.first()?.len();
    let terms = |order: Order| Terms::of(Kind::Shares, order, ingredients);
    let [spare, repeats, most] =
        ["plan-spare-mixes", "plan-repeats", "plan-most"].map(|name| rounded_up(number(name)) as usize);
    let fits = |order: &Order| {
        let count = terms(*order).count();
        count < mixes.len() && (asked.is_some() || count + spare + repeats <= most)
    };
    let order = match asked {
        Some(order) => Some(order).filter(fits),
        None => [Order::Quadratic, Order::Linear].into_iter().find(fits),
    }?;
    let (terms, there) = (terms(order), distinct(Kind::Shares, tried));
    let wanted = (terms.count() + spare).min(mixes.len());
    let lacking = wanted.saturating_sub(there).max(usize::from(!tried.is_empty()));
    let mut chosen = spread_out(&mixes, &terms, terms.count().min(lacking), 0, tried);
    while chosen.len() < lacking {
        let Some(farthest) = farthest(&mixes, &chosen, tried) else { break };
        chosen.push(farthest);
    }
    let count = chosen.len();
    let again = repeated(&mixes, &chosen, repeats.saturating_sub(tried.len() - there));
    chosen.extend(again);
    Chance(start).shuffle(&mut chosen);
    Some(Planned { order, runs: chosen.into_iter().map(|place| kept[place].clone()).collect(), distinct: count })
}

/// No more mixes than about these are looked through.
const CANDIDATES: usize = 300;

/// The mixes that are looked through: all, or where they are many every so many and those of which all ingredients but one lie at
/// their least or most.
fn candidates(counts: &[Vec<u32>]) -> Vec<Vec<u32>> {
    let every = counts.len().div_ceil(CANDIDATES).max(1);
    let parts = counts.first().map_or(0, Vec::len);
    let ends: Vec<[u32; 2]> = (0..parts)
        .map(|part| {
            let own = counts.iter().map(|counts| counts[part]);
            own.fold([u32::MAX, 0], |[low, high], count| [low.min(count), high.max(count)])
        })
        .collect();
    let is_corner =
        |counts: &[u32]| counts.iter().zip(&ends).filter(|(count, ends)| ends.contains(count)).count() + 1 >= parts;
    let own = counts.iter().enumerate().filter(|(place, counts)| place % every == 0 || is_corner(counts));
    own.map(|(_, counts)| counts.clone()).collect()
}

fn apart(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| (a - b).powi(2)).sum()
}

/// The mix whose nearest neighbour among those chosen and tried lies farthest.
fn farthest(mixes: &[Vec<f64>], chosen: &[usize], tried: &[Vec<f64>]) -> Option<usize> {
    let nearest = |mix: &[f64]| {
        let there = chosen.iter().map(|place| &mixes[*place]).chain(tried);
        there.map(|other| apart(mix, other)).fold(f64::INFINITY, f64::min)
    };
    let free = (0..mixes.len()).filter(|place| !chosen.contains(place)).map(|place| (place, nearest(&mixes[place])));
    free.max_by(|one, other| one.1.total_cmp(&other.1).then(other.0.cmp(&one.0))).map(|(place, _)| place)
}

/// The outermost, the innermost, the next of each, of the chosen mixes, so many.
fn repeated(mixes: &[Vec<f64>], chosen: &[usize], count: usize) -> Vec<usize> {
    let parts = mixes.first().map_or(0, Vec::len);
    let middle: Vec<f64> =
        (0..parts).map(|part| mixes.iter().map(|mix| mix[part]).sum::<f64>() / mixes.len() as f64).collect();
    let mut sorted = chosen.to_vec();
    sorted.sort_by(|one, other| {
        apart(&mixes[*one], &middle).total_cmp(&apart(&mixes[*other], &middle)).then(one.cmp(other))
    });
    let own = (0..count.min(sorted.len()))
        .map(|turn| sorted[if turn % 2 == 0 { sorted.len() - 1 - turn / 2 } else { turn / 2 }]);
    own.collect()
}

formula! {
    /// Distinct mixes to make: one for each term of the surface that is to be drawn through them, and some that can contradict it.
    ///
    /// ```text
    /// d = p + 2        p: terms; fewer where the limits leave fewer
    /// ```
    /// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 5.5.4, from memory; how many are to spare is this project's judgement.
    pub fn mixes_to_make(steps: u64; distinct: usize) -> u64 {
        distinct as u64
    }
}

formula! {
    /// Mixes to make in all: some of them twice, filled and trodden anew, so that what differs between two of one mix is known. Their
    /// order is drawn by lot from a fixed start: what changes from day to day then falls on none of them alone.
    ///
    /// ```text
    /// n = d + 2        d: distinct mixes; fewer where some were tried
    /// ```
    /// Source: R. A. Fisher, The Design of Experiments (1935), from memory; how many are repeated is this project's judgement.
    pub fn mixes_in_all(distinct: u64; runs: usize) -> u64 {
        runs as u64
    }
}

formula! {
    /// The one mix to make next: the one that narrows most what governs the choice.
    ///
    /// ```text
    /// n = 1
    /// ```
    /// Source: counted.
    pub fn one_mix(mixes: u64; runs: usize) -> u64 {
        runs as u64
    }
}

formula! {
    /// Buckets of an ingredient in a mix that is to be made.
    ///
    /// ```text
    /// n = k s        k: steps, s: the least part of a bucket that is measured
    /// ```
    /// Source: counted out.
    pub fn to_fill(step: f64; steps: u32) -> f64 {
        step * f64::from(steps)
    }
}

formula! {
    /// How bricks of a mix scatter, as a share of their mean, by those that were crushed.
    ///
    /// ```text
    /// v = s / m        s: deviation, m: mean
    /// ```
    /// Source: the definition of the coefficient of variation.
    pub fn scatter_share(deviation: Pressure, mean: Pressure) -> Ratio {
        Ratio::fraction(deviation / mean)
    }
}

formula! {
    /// Dry bricks of each mix, so that of one which bears on average what is wanted it can be relied on that it bears more than what is
    /// of no use: 95 of 100 do, in three of four such samples.
    ///
    /// ```text
    /// w − k(n) v w ≥ b        the least such n; w: wanted, v: scatter, b: of no use below, k: tolerance factor of n bricks
    /// ```
    /// Source: one-sided tolerance limit of a normal sample, as EN 1990 takes a characteristic strength, from memory.
    pub fn bricks_of_each(wanted: Pressure, below: Pressure, scatter: Ratio; count: usize) -> u64 {
        count as u64
    }
}

formula! {
    /// Pieces to make of all mixes together.
    ///
    /// ```text
    /// N = n e        n: mixes, e: of each
    /// ```
    /// Source: counted.
    pub fn pieces(mixes: u64, of_each: u64) -> u64 {
        mixes * of_each
    }
}

formula! {
    /// Pieces to make of all mixes together, where the number of each is this project's judgement: two damp bricks, so that a line through
    /// them and the dry ones says what moisture takes; one bar and one panel, since mixes are repeated.
    ///
    /// ```text
    /// N = n e        n: mixes, e: of each
    /// ```
    /// Source: counted.
    pub fn pieces_by_habit(mixes: u64; of_each: f64) -> u64 {
        mixes * rounded_up(of_each)
    }
}

formula! {
    /// Volume of the bricks, the bar and the panel of one mix, as moulded.
    ///
    /// ```text
    /// V = (n + d) V₁ + V₂ + V₃        n, d: dry and damp bricks, V₁: a brick of 4 × 4 × 8 in, V₂: a bar of 24 × 3½ × 3½ in, V₃: a panel
    /// ```
    /// Source: sizes of the cob appendix, AU106.6.1 and AU103.4.1, quoted; a panel of half a metre each way and 10 mm, common practice.
    pub fn moulded(bricks: u64; damp: f64, bars: f64, panels: f64) -> Volume {
        let [brick, bar, panel] = ["plan-brick-m3", "plan-bar-m3", "plan-panel-m3"].map(number);
        Volume::m3((bricks as f64 + damp) * brick + bars * bar + panels * panel)
    }
}

formula! {
    /// Volume of a trial mix as it is placed.
    ///
    /// ```text
    /// V = N s B y        N: steps, s: part of a bucket, B: a bucket, y: yield
    /// ```
    /// Source: the definition of the yield.
    pub fn trial_placed(steps: u64, step: f64, bucket: Volume, placed_yield: Ratio) -> Volume {
        bucket * (steps as f64 * step * placed_yield.in_fraction())
    }
}

formula! {
    /// Buckets of an ingredient to set aside before the first mix, all from one pile, turned and covered.
    ///
    /// ```text
    /// n = s Σ k        k: steps in each mix, s: the least part of a bucket that is measured
    /// ```
    /// Source: counted out.
    pub fn set_aside(mixes: u64, step: f64; steps: u32) -> f64 {
        step * f64::from(steps)
    }
}

formula! {
    /// The same as a volume, loose as it is shovelled.
    ///
    /// ```text
    /// V = n B        B: a bucket as it is filled
    /// ```
    /// Source: counted out.
    pub fn aside_volume(buckets: f64, bucket: Volume) -> Volume {
        bucket * buckets
    }
}

formula! {
    /// The same as it weighs, as damp as its pile.
    ///
    /// ```text
    /// M = n m        m: mass of a full bucket
    /// ```
    /// Source: counted out.
    pub fn aside_mass(buckets: f64, full_bucket: Mass) -> Mass {
        full_bucket * buckets
    }
}

formula! {
    /// Days on which mixes are made.
    ///
    /// ```text
    /// d = ⌈n / k⌉        n: mixes, k: mixes in a day
    /// ```
    /// Source: counted.
    pub fn making_days(mixes: u64, in_a_day: u64) -> u64 {
        mixes.div_ceil(in_a_day.max(1))
    }
}

formula! {
    /// The last day on which a mix may be made, so that it is dry when it is wanted. The days are a guess beforehand: weigh until two
    /// weighings a day apart agree.
    ///
    /// ```text
    /// last = wanted − ⌈t⌉        t: days to dry
    /// ```
    /// Source: counted back in the calendar.
    pub fn last_making_day(wanted: Date, drying: Days) -> Date {
        wanted.saturating_sub((rounded_up(drying.in_days()) as i64).days())
    }
}

formula! {
    /// The day on which the first mix is made.
    ///
    /// ```text
    /// first = last − (d − 1)        d: days on which mixes are made
    /// ```
    /// Source: counted back in the calendar.
    pub fn first_making_day(last: Date, making_days: u64) -> Date {
        last.saturating_sub((making_days.saturating_sub(1).min(100_000) as i64).days())
    }
}

#[cfg(test)]
mod tests {
    use super::super::design::{Limits, lattice, measurable};
    use super::super::fit::highest_order;
    use super::*;

    fn steps(low: &[u32], high: &[u32], whole: u32) -> Vec<Vec<u32>> {
        measurable(&Limits { low: low.to_vec(), high: high.to_vec(), whole }).unwrap()
    }

    /// Source: Scheffé's {3, 2} lattice with its middle is the simplex centroid of three (NIST/SEMATECH e-Handbook, 5.5.4.3, from memory).
    #[test]
    fn three_ingredients_without_limits_are_planned_as_lattice_and_middle() {
        let plan = planned(&steps(&[0; 3], &[12; 3], 12), None, &[], 1).unwrap();
        let mixes: Vec<Vec<f64>> = plan.runs.iter().map(|run| shares(run)).collect();
        assert!(lattice(3, 2).iter().all(|mix| mixes.contains(mix)), "{mixes:?}");
        assert!(mixes.contains(&vec![1.0 / 3.0; 3]), "{mixes:?}");
        assert_eq!((plan.order, plan.distinct, plan.runs.len()), (Order::Quadratic, 8, 10));
    }

    #[test]
    fn a_plan_tells_its_order_and_whether_it_misses_and_has_six_to_twelve_mixes() {
        for (low, high, whole) in [
            (vec![8, 7], vec![15, 14], 22),
            (vec![1, 2, 1], vec![4, 6, 4], 10),
            (vec![1, 1, 1, 1], vec![6, 6, 6, 6], 12),
            (vec![0; 5], vec![9; 5], 18),
        ] {
            let counts = steps(&low, &high, whole);
            let plan = planned(&counts, None, &[], 1).unwrap();
            let mixes: Vec<Vec<f64>> = plan.runs.iter().map(|run| shares(run)).collect();
            assert!((6..=12).contains(&mixes.len()), "{}", mixes.len());
            assert!(plan.runs.iter().all(|run| counts.contains(run)));
            let terms = Terms::of(Kind::Shares, plan.order, low.len()).count();
            assert!(highest_order(Kind::Shares, &mixes) >= Some(plan.order));
            assert_eq!(distinct(Kind::Shares, &mixes), plan.distinct);
            assert!(plan.distinct > terms && mixes.len() > plan.distinct, "spare mixes and repeats");
        }
    }

    #[test]
    fn the_order_is_that_of_its_start_and_what_was_tried_is_not_planned_again() {
        let counts = steps(&[8, 7], &[15, 14], 22);
        let plan = |start: u64| planned(&counts, None, &[], start).unwrap().runs;
        let sorted = |mut runs: Vec<Vec<u32>>| {
            runs.sort();
            runs
        };
        assert_eq!(plan(3), plan(3));
        assert_ne!(plan(3), plan(4));
        assert_eq!(sorted(plan(3)), sorted(plan(4)));
        let tried: Vec<Vec<f64>> = vec![shares(&[8, 14]), shares(&[8, 14]), shares(&[15, 7])];
        let left = planned(&counts, None, &tried, 3).unwrap();
        assert_eq!((left.distinct, left.runs.len()), (3, 4));
        assert!(left.runs.iter().all(|run| run[0] > 8 && run[0] < 15), "{:?}", left.runs);
    }

    #[test]
    fn limits_that_leave_two_mixes_carry_no_plan_of_two() {
        assert_eq!(planned(&steps(&[4, 6], &[5, 7], 11), None, &[], 1), None);
    }

    #[test]
    fn days_are_counted_back_from_the_day_on_which_it_is_wanted() {
        let day = |year, month, day| Date::new(year, month, day).unwrap();
        let last = last_making_day(day(2027, 3, 20), Days::days(27.5)).value;
        assert_eq!(last, day(2027, 2, 20));
        assert_eq!(making_days(7, 4).value, 2);
        assert_eq!(first_making_day(last, 2).value, day(2027, 2, 19));
    }
}
