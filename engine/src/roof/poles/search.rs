//! The search for a good choice of poles, and the count of all choices where they are few.

use std::ops::{ControlFlow, Range};

use super::choice::Table;
use crate::solve::draws::Chance;
use crate::study::{Progress, Told};

/// So many searches are made, each from a start of its own.
pub(super) const SEARCHES: usize = 24;
/// So many times each shakes a choice that cannot be bettered, a few poles each time; fewer times where one takes long.
const SHAKES: usize = 40;
const FEWEST_SHAKES: usize = 2;
const WORK: usize = 180_000;
const SHAKEN: usize = 3;
/// Less than this many mm is no betterment.
const NOTHING: f64 = 1e-9;
/// A pile of so many poles is counted out.
pub(super) const FEW: usize = 12;
/// Sets of poles between two looks at whether to go on.
const SETS: usize = 256;

/// A choice, way by way, and what it costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Best {
    pub(super) cost: f64,
    pub(super) ways: Vec<usize>,
}

/// The cheaper of two, the first where they cost the same.
pub(super) fn cheaper(one: Option<Best>, other: Option<Best>) -> Option<Best> {
    match (one, other) {
        (Some(one), Some(other)) => Some(if other.cost < one.cost { other } else { one }),
        (one, other) => one.or(other),
    }
}

/// The cheapest that a range of searches finds: choices that no swap, no other pole, no turning end for end and no stretch of the
/// ring laid in reverse betters, shaken and bettered again. What a search finds follows from its number and the seed alone.
pub(super) fn searched(
    table: &Table,
    start: &[usize],
    (range, seed): (Range<usize>, u64),
    told: &mut Told<'_>,
) -> Option<Option<Best>> {
    let size = start.len() * start.len() * table.own.first().map_or(0, Vec::len) / 2;
    let shakes = (WORK / size.max(1)).clamp(FEWEST_SHAKES, SHAKES);
    let of = range.len() * shakes;
    let mut best = None;
    for (place, search) in range.enumerate() {
        let mut chance = Chance(seed ^ (search as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15));
        let mut ways = start.to_vec();
        // The first begins where the bound is; the others far from it.
        for _ in 0..if search == 0 { 0 } else { 4 * ways.len() } {
            shaken(&mut ways, &mut chance);
        }
        let mut own = bettered(table, ways, &mut || told(Progress { done: place * shakes, of }))?;
        for shake in 0..shakes {
            let mut tried = own.ways.clone();
            for _ in 0..SHAKEN {
                shaken(&mut tried, &mut chance);
            }
            let found = bettered(table, tried, &mut || told(Progress { done: place * shakes + shake, of }))?;
            if found.cost < own.cost - NOTHING {
                own = found;
            }
        }
        best = cheaper(best, Some(own).filter(|own| own.cost.is_finite()));
    }
    Some(best)
}

fn shaken(ways: &mut [usize], chance: &mut Chance) {
    let (one, other) = (chance.below(ways.len()), chance.below(ways.len()));
    ways.swap(one, other);
}

/// A choice that no swap, no other pole, no turning end for end and no stretch laid in reverse betters; `None` when it was told to
/// stop.
pub(super) fn bettered(table: &Table, start: Vec<usize>, told: &mut impl FnMut() -> ControlFlow<()>) -> Option<Best> {
    let mut ways = start;
    let mut cost = table.cost(&ways);
    loop {
        let mut is_better = false;
        let mut accept = |tried: Vec<usize>, ways: &mut Vec<usize>| {
            let found = table.cost(&tried);
            if found < cost - NOTHING || (cost.is_infinite() && found.is_finite()) {
                (*ways, cost, is_better) = (tried, found, true);
            }
        };
        for place in 0..ways.len() {
            if told().is_break() {
                return None;
            }
            for way in 0..table.own[place].len() {
                let is_free = ways.iter().enumerate().all(|(at, taken)| at == place || taken / 2 != way / 2);
                if is_free && table.own[place][way].is_finite() {
                    let mut tried = ways.clone();
                    tried[place] = way;
                    accept(tried, &mut ways);
                }
            }
            for other in place + 1..ways.len() {
                for turns in 0..4 {
                    let mut tried = ways.clone();
                    tried.swap(place, other);
                    (tried[place], tried[other]) = (tried[place] ^ (turns & 1), tried[other] ^ (turns >> 1));
                    accept(tried, &mut ways);
                }
                let mut tried = ways.clone();
                tried[place..=other].reverse();
                accept(tried, &mut ways);
            }
        }
        if !is_better {
            return Some(Best { cost, ways });
        }
    }
}

/// The best choice of all with one of a range of ways in the first position: the cheapest way to fill the ring from there on, for
/// each set of poles used and each way of the last one laid.
///
/// Source: M. Held and R. M. Karp, J. SIAM 10 (1962) 196-210 (from memory; a test counts out every choice).
pub(super) fn counted_out(table: &Table, range: Range<usize>, told: &mut Told<'_>) -> Option<Option<Best>> {
    let poles = table.own.first().map_or(0, Vec::len) / 2;
    let mut order = vec![0];
    while order.len() < table.own.len() {
        order.push(table.below[order[order.len() - 1]]);
    }
    let (mut best, of) = (None, range.len() << poles);
    for (place, first) in range.enumerate() {
        if table.own[0][first].is_finite() {
            let mut within = |done: usize| told(Progress { done: (place << poles) + done, of });
            best = cheaper(best, from_first(table, &order, (poles, first), &mut within)?);
        }
    }
    Some(best)
}

/// The cheapest ring with a given way in its first position.
fn from_first(
    table: &Table,
    order: &[usize],
    (poles, first): (usize, usize),
    told: &mut impl FnMut(usize) -> ControlFlow<()>,
) -> Option<Option<Best>> {
    let ways = 2 * poles;
    let at = |used: usize, way: usize| used * ways + way;
    let mut costs = vec![f64::INFINITY; ways << poles];
    let mut before = vec![first; ways << poles];
    costs[at(1 << (first / 2), first)] = table.own[0][first];
    for used in 1..1_usize << poles {
        if used.is_multiple_of(SETS) && told(used).is_break() {
            return None;
        }
        let laid = used.count_ones() as usize;
        if laid >= order.len() {
            continue;
        }
        let (place, next) = (order[laid - 1], order[laid]);
        for way in 0..ways {
            if costs[at(used, way)].is_infinite() {
                continue;
            }
            for follows in (0..ways).filter(|follows| used & (1 << (follows / 2)) == 0) {
                let cost = costs[at(used, way)] + table.between(place, way, follows) + table.own[next][follows];
                let to = at(used | (1 << (follows / 2)), follows);
                if cost < costs[to] {
                    (costs[to], before[to]) = (cost, way);
                }
            }
        }
    }
    let last_place = order[order.len() - 1];
    let full = (0..1_usize << poles).filter(|used| used.count_ones() as usize == order.len());
    let ends = full.flat_map(|used| (0..ways).map(move |way| (used, way)));
    let whole = |(used, way): (usize, usize)| (costs[at(used, way)] + table.between(last_place, way, first), used, way);
    let Some((cost, mut used, mut way)) = ends.map(whole).min_by(|one, other| one.0.total_cmp(&other.0)) else {
        return Some(None);
    };
    if cost.is_infinite() {
        return Some(None);
    }
    let mut found = vec![first; order.len()];
    for &place in order.iter().rev() {
        found[place] = way;
        let earlier = before[at(used, way)];
        used &= !(1 << (way / 2));
        way = earlier;
    }
    Some(Some(Best { cost, ways: found }))
}
