//! The search for a good choice of poles, and the count of all choices where they are few.

use super::choice::Table;
use crate::solve::draws::Chance;

/// So many times a choice that cannot be bettered is shaken, a few poles each time; fewer times where one takes long.
const SHAKES: usize = 400;
const FEWEST_SHAKES: usize = 20;
const WORK: usize = 1_400_000;
const SHAKEN: usize = 3;
/// Less than this many mm is no betterment.
const NOTHING: f64 = 1e-9;
/// A pile of so many poles is counted out.
const FEW: usize = 10;

/// A choice that no swap, no other pole, no turning end for end and no stretch of the ring laid in reverse betters; shaken
/// and bettered again, and the best of all kept. The same seed gives the same choice.
pub(super) fn searched(table: &Table, start: Vec<usize>, seed: u64) -> Vec<usize> {
    let mut best = bettered(table, start);
    let mut cost = table.cost(&best);
    let mut chance = Chance(seed);
    let size = best.len() * best.len() * table.own.first().map_or(0, Vec::len) / 2;
    for _ in 0..(WORK / size.max(1)).clamp(FEWEST_SHAKES, SHAKES) {
        let mut tried = best.clone();
        for _ in 0..SHAKEN {
            let (one, other) = (chance.below(tried.len()), chance.below(tried.len()));
            tried.swap(one, other);
        }
        tried = bettered(table, tried);
        let found = table.cost(&tried);
        if found < cost - NOTHING {
            (best, cost) = (tried, found);
        }
    }
    best
}

/// A choice that no swap, no other pole, no turning end for end and no stretch laid in reverse betters.
pub(super) fn bettered(table: &Table, start: Vec<usize>) -> Vec<usize> {
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
            return ways;
        }
    }
}

/// The best choice of all, where the pile is small: the cheapest way to fill the ring from its first position on, for each
/// set of poles used and each way of the last one laid. `None` where the pile is too large.
///
/// Source: M. Held and R. M. Karp, J. SIAM 10 (1962) 196-210 (from memory; a test counts out every choice).
pub(super) fn counted_out(table: &Table) -> Option<Vec<usize>> {
    let poles = table.own.first()?.len() / 2;
    if poles > FEW {
        return None;
    }
    let mut order = vec![0];
    while order.len() < table.own.len() {
        order.push(table.below[order[order.len() - 1]]);
    }
    let mut best: Option<(f64, Vec<usize>)> = None;
    for first in (0..2 * poles).filter(|&way| table.own[0][way].is_finite()) {
        let found = from_first(table, &order, poles, first);
        if let Some(found) = found
            && best.as_ref().is_none_or(|(cost, _)| found.0 < *cost)
        {
            best = Some(found);
        }
    }
    best.map(|(_, ways)| ways)
}

/// The cheapest ring with a given way in its first position.
fn from_first(table: &Table, order: &[usize], poles: usize, first: usize) -> Option<(f64, Vec<usize>)> {
    let ways = 2 * poles;
    let at = |used: usize, way: usize| used * ways + way;
    let mut costs = vec![f64::INFINITY; ways << poles];
    let mut before = vec![first; ways << poles];
    costs[at(1 << (first / 2), first)] = table.own[0][first];
    for used in 1..1_usize << poles {
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
    let (cost, mut used, mut way) = ends.map(whole).min_by(|one, other| one.0.total_cmp(&other.0))?;
    if cost.is_infinite() {
        return None;
    }
    let mut found = vec![first; order.len()];
    for &place in order.iter().rev() {
        found[place] = way;
        let earlier = before[at(used, way)];
        used &= !(1 << (way / 2));
        way = earlier;
    }
    Some((cost, found))
}
