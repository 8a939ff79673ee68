//! Laws of the choice of poles: against every choice counted out, and what a pile that is too small is told.

use std::ops::ControlFlow;

use super::laws::{pole, regular};
use super::*;
use crate::study::{Study, whole};
use crate::units::Length;

const WISH: Wish = Wish {
    waste: 0.1,
    notch: 1.0,
    bow: 1.0,
    wanted_notch: Length::mm(20.0),
    least_diameter: Length::mm(90.0),
    most_across: Length::mm(60.0),
};

/// Poles that differ by a drawn share, always the same.
fn pile(count: usize, mut state: u64) -> Vec<Candidate> {
    let mut draw = |from: f64, to: f64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        from + (to - from) * ((state >> 40) as f64 / (1_u64 << 24) as f64)
    };
    let mut one = || {
        let butt = draw(150.0, 230.0);
        let tip = butt - draw(20.0, 60.0);
        let length = Length::m(draw(3.4, 5.0));
        Candidate { pole: Pole { length, ..pole(butt, tip) }, across: Length::mm(draw(0.0, 50.0)) }
    };
    (0..count).map(|_| one()).collect()
}

fn places(count: usize) -> Vec<Position> {
    let layout = regular(2.6, 0.9, &vec![pole(170.0, 140.0); count]);
    positions(&layout, &ring(&layout).unwrap())
}

fn cost(positions: &[Position], pile: &[Candidate], ways: &[(usize, bool)]) -> f64 {
    let laid = |(at, turned): (usize, bool)| if turned { pile[at].pole.turned() } else { pile[at].pole };
    let mut sum = 0.0;
    for (place, &way) in ways.iter().enumerate() {
        let position = &positions[place];
        if unfit(position, &pile[way.0], way.1, &WISH).is_some() {
            return f64::INFINITY;
        }
        let below = ways[position.below];
        let notch = (laid(way).diameter(position.rest) + laid(below).diameter(positions[position.below].carry)) * 0.5
            - position.axis_distance;
        sum += WISH.waste * (pile[way.0].pole.length - position.length).in_mm()
            + WISH.notch * (notch - WISH.wanted_notch).abs().in_mm()
            + WISH.bow * pile[way.0].across.in_mm();
    }
    sum
}

fn least(positions: &[Position], pile: &[Candidate], ways: &mut Vec<(usize, bool)>) -> f64 {
    if ways.len() == positions.len() {
        return cost(positions, pile, ways);
    }
    let mut best = f64::INFINITY;
    for at in 0..pile.len() {
        if ways.iter().all(|(taken, _)| *taken != at) {
            for turned in [false, true] {
                ways.push((at, turned));
                best = best.min(least(positions, pile, ways));
                ways.pop();
            }
        }
    }
    best
}

#[test]
fn a_small_pile_gets_the_best_of_all_choices() {
    for (count, stock, seed) in [(3, 5, 1), (4, 5, 2), (5, 5, 3), (5, 6, 4)] {
        let (positions, pile) = (places(count), pile(stock, seed));
        let expected = least(&positions, &pile, &mut Vec::new());
        let found = choose(&positions, &pile, &WISH, 1).unwrap();
        assert!(found.is_proved);
        assert!((found.cost_mm - expected).abs() < 1e-9, "{} is not {expected}", found.cost_mm);
        let ways: Vec<(usize, bool)> = found.places.iter().map(|placed| (placed.pole, placed.is_turned)).collect();
        assert!((cost(&positions, &pile, &ways) - found.cost_mm).abs() < 1e-9);
    }
}

/// Every arrangement of as many poles as places, each place resting on the next, as far as it may still cost less than a figure.
struct Every<'t> {
    table: &'t choice::Table,
    /// What each pole costs at least by itself, wherever it lies: all of them lie somewhere.
    own: Vec<f64>,
    /// What the notches of the places from each one on cost at least, whoever lies there.
    notches: Vec<f64>,
    than: f64,
}

impl Every<'_> {
    fn new(table: &choice::Table, than: f64) -> Every<'_> {
        let (count, ways) = (table.own.len(), 0..table.own[0].len());
        let least = |values: &mut dyn Iterator<Item = f64>| values.fold(f64::INFINITY, f64::min);
        let own = |pole: usize| least(&mut table.own.iter().flat_map(|own| [own[2 * pole], own[2 * pole + 1]]));
        let notch = |place: usize| {
            least(&mut ways.clone().flat_map(|way| ways.clone().map(move |below| table.between(place, way, below))))
        };
        let mut notches = vec![0.0; count + 1];
        (0..count).rev().for_each(|place| notches[place] = notches[place + 1] + notch(place));
        Every { table, own: (0..count).map(own).collect(), notches, than }
    }

    fn is_any_cheaper(&self, ways: &mut Vec<usize>, so_far: f64) -> bool {
        let (place, count) = (ways.len(), self.table.own.len());
        (0..2 * count).any(|way| {
            if ways.iter().any(|taken| taken / 2 == way / 2) {
                return false;
            }
            ways.push(way);
            let notch = |at: usize| self.table.between(at, ways[at], ways[(at + 1) % count]);
            let before = if place == 0 { 0.0 } else { notch(place - 1) };
            let closing = if place + 1 == count { notch(place) } else { 0.0 };
            let cost = so_far + self.table.own[place][way] + before + closing;
            let is_left = |pole: &usize| ways.iter().all(|taken| taken / 2 != *pole);
            let own: f64 = (0..count).filter(is_left).map(|pole| self.own[pole]).sum();
            let notches = if place + 1 == count { 0.0 } else { self.notches[place] };
            let found = cost + own + notches < self.than && (place + 1 == count || self.is_any_cheaper(ways, cost));
            ways.pop();
            found
        })
    }
}

#[test]
fn of_nine_poles_no_arrangement_at_all_is_cheaper_than_what_the_study_finds() {
    let mut held = 0;
    for seed in [2, 3] {
        let (positions, pile) = (places(9), pile(9, seed));
        assert!(positions.iter().enumerate().all(|(place, position)| position.below == (place + 1) % 9));
        let Ok(found) = choose(&positions, &pile, &WISH, 1) else { continue };
        let table = choice::Table::new(&positions, &pile, &WISH);
        let is_any_cheaper = |than: f64| Every::new(&table, than).is_any_cheaper(&mut Vec::new(), 0.0);
        assert!(found.is_proved && !is_any_cheaper(found.cost_mm - 1e-9));
        assert!(is_any_cheaper(found.cost_mm + 1e-9), "the found one itself is met");
        held += 1;
    }
    assert!(held > 0);
}

#[test]
fn the_search_finds_the_best_for_nine_poles_and_the_bound_is_never_above_it() {
    let go_on = &mut |_| ControlFlow::Continue(());
    for seed in 1..=12 {
        let (positions, pile) = (places(9), pile(9 + usize::from(seed % 2 == 0), seed));
        let table = choice::Table::new(&positions, &pile, &WISH);
        let Ok((start, bound)) = table.bound() else { continue };
        let best = search::counted_out(&table, 0..2 * pile.len(), go_on).unwrap().unwrap().cost;
        let found = search::searched(&table, &start, (0..search::SEARCHES, seed), go_on).unwrap().unwrap().cost;
        assert!(bound <= best + 1e-9, "{bound} {best}");
        assert!(found >= best - 1e-9 && found <= best * 1.001 + 1e-9, "pile {seed}: {found} {best}");
    }
}

fn thorough(places_of: usize, stock: usize, seed: u64) -> WhichPole {
    WhichPole { positions: places(places_of), pile: pile(stock, seed), wish: WISH, seed: 1 }
}

#[test]
fn parts_of_any_size_join_to_the_same_choice_to_the_last_digit() {
    for study in [thorough(9, 10, 4), thorough(13, 18, 7)] {
        let at_once = whole(&study).unwrap();
        assert!(at_once.is_some());
        for size in [1, 3, 7] {
            let starts = (0..study.pieces()).step_by(size);
            let ranges = starts.map(|start| start..(start + size).min(study.pieces()));
            let parts = ranges.map(|range| study.part(range, &mut |_| ControlFlow::Continue(())).unwrap()).collect();
            assert_eq!(study.join(parts), at_once);
        }
    }
}

#[test]
fn a_search_stops_where_it_is_told_and_counts_its_steps_upwards() {
    for study in [thorough(9, 10, 4), thorough(13, 18, 7)] {
        let (mut last, mut looks) = (0, 0);
        let stopped = study.part(0..study.pieces(), &mut |progress| {
            assert!(last <= progress.done && progress.done < progress.of);
            (last, looks) = (progress.done, looks + 1);
            if looks == 40 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        assert!(stopped.is_none() && looks == 40);
    }
}

#[test]
fn what_is_kept_reads_back_and_what_is_of_another_pile_does_not() {
    let study = thorough(9, 10, 4);
    let found = whole(&study).unwrap();
    let kept = WhichPole::kept(&found);
    assert_eq!(study.read(&kept), Some(found));
    assert_eq!(thorough(8, 10, 4).read(&kept), None);
    assert_eq!(study.read(&serde_json::json!({ "ways": [0, 1, 2, 4, 6, 8, 10, 12, 14] })), None, "one pole twice");
    assert_ne!(study.digest(), thorough(9, 10, 5).digest());
}

#[test]
fn a_kept_choice_that_was_damaged_does_not_read_back_as_the_best() {
    let study = thorough(9, 10, 4);
    let kept = WhichPole::kept(&whole(&study).unwrap());
    let with =
        |ways: Vec<u64>, cost: &serde_json::Value| study.read(&serde_json::json!({"ways": ways, "cost_mm": cost}));
    let ways: Vec<u64> = kept["ways"].as_array().unwrap().iter().map(|way| way.as_u64().unwrap()).collect();
    assert!(with(ways.clone(), &kept["cost_mm"]).is_some());
    let mut exchanged = ways.clone();
    exchanged.swap(2, 3);
    assert_eq!(with(exchanged, &kept["cost_mm"]), None, "another choice costs otherwise");
    let mut turned = ways.clone();
    turned[4] ^= 1;
    assert_eq!(with(turned, &kept["cost_mm"]), None, "so does a pole turned end for end");
    assert_eq!(with(ways.clone(), &serde_json::Value::Null), None, "a cost that is missing");
    let mut strict = study.clone();
    strict.wish.least_diameter = Length::m(1.0);
    let unfit = serde_json::json!({"ways": ways, "cost_mm": 1e300});
    assert_eq!(strict.read(&unfit), None, "poles that do not serve");
}

#[test]
fn the_same_seed_gives_the_same_choice_and_no_pole_is_used_twice() {
    let (positions, pile) = (places(13), pile(20, 7));
    let one = choose(&positions, &pile, &WISH, 3).unwrap();
    assert_eq!(one, choose(&positions, &pile, &WISH, 3).unwrap());
    assert!(!one.is_proved && one.bound_mm > 0.0 && one.bound_mm <= one.cost_mm);
    let mut used: Vec<usize> = one.places.iter().map(|placed| placed.pole).collect();
    used.sort_unstable();
    used.dedup();
    assert_eq!(used.len(), 13);
    assert!(one.places.iter().all(|placed| placed.waste >= Length::ZERO));
}

#[test]
fn a_pole_that_does_not_serve_says_by_how_much() {
    let position = places(9)[0];
    let candidate = |length: Length, butt: f64, across: f64| Candidate {
        pole: Pole { length, ..pole(butt, butt) },
        across: Length::mm(across),
    };
    let told = |candidate: Candidate| unfit(&position, &candidate, false, &WISH);
    assert_eq!(told(candidate(position.length, 90.0, 60.0)), None);
    assert_eq!(
        told(candidate(position.length * 0.5, 90.0, 0.0)),
        Some(Unfit::Short(position.length - position.length * 0.5))
    );
    assert!(
        matches!(told(candidate(position.length, 80.0, 0.0)), Some(Unfit::Thin(by)) if (by.in_mm() - 10.0).abs() < 1e-9)
    );
    assert!(
        matches!(told(candidate(position.length, 90.0, -70.0)), Some(Unfit::Bowed(by)) if (by.in_mm() - 10.0).abs() < 1e-9)
    );
}

#[test]
fn too_few_poles_name_the_positions_that_stay_empty() {
    let mut positions = places(5);
    let mut pile = pile(5, 3);
    pile.iter_mut().for_each(|candidate| candidate.pole.length = Length::m(4.0));
    positions[1].length = Length::m(4.5);
    positions[3].length = Length::m(4.5);
    pile[2].pole.length = Length::m(4.6);
    let short = choose(&positions, &pile, &WISH, 1).unwrap_err();
    assert_eq!((short.rows, short.columns), (vec![1, 3], vec![2]));
    assert!(choose(&positions, &pile[..4], &WISH, 1).is_err());
}
