//! Which pole goes where, and which end to the wall: least waste, notches nearest to what is wanted, least bow aside.

use std::ops::ControlFlow;

use super::search::bettered;
use super::{Layout, Pole, Ring};
use crate::solve::assignment::{Shortage, assignment};
use crate::units::Length;

/// A pole of the pile. Its greatest bow is set upright; `across` is what it bows square to that.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// The pole, its thick end as butt.
    pub pole: Pole,
    /// Its bow square to the greatest one.
    pub across: Length,
}

/// A place in the ring, as the pole that goes there must serve it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Position {
    /// The length that is needed, overhang and what reaches beyond with it.
    pub length: Length,
    /// From the butt to where it rests.
    pub rest: Length,
    /// From the butt to where it carries.
    pub carry: Length,
    /// How far its axis lies from that of the pole below it.
    pub axis_distance: Length,
    /// The position below it.
    pub below: usize,
}

/// What makes one choice better than another, in mm for each mm, and what no pole may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wish {
    /// For length that is cut off.
    pub waste: f64,
    /// For a notch deeper or less deep than wanted.
    pub notch: f64,
    /// For bow square to the upright one.
    pub bow: f64,
    /// The notch that is wanted at each crossing.
    pub wanted_notch: Length,
    /// The least diameter at a crossing.
    pub least_diameter: Length,
    /// The most bow across.
    pub most_across: Length,
}

/// Why a pole does not serve a position.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unfit {
    /// Too short by this.
    Short(Length),
    /// Too thin at a crossing by this.
    Thin(Length),
    /// Bowed too much across by this.
    Bowed(Length),
}

/// A pole that lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Laid {
    /// The pole, from zero, as in the pile.
    pub pole: usize,
    /// Whether its thin end is at the wall.
    pub is_turned: bool,
}

/// A pole in its position.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// The pole, from zero, as in the pile.
    pub pole: usize,
    /// Whether its thin end goes to the wall.
    pub is_turned: bool,
    /// Length that is cut off.
    pub waste: Length,
    /// The notch where it rests; below zero, the pad.
    pub notch: Length,
}

/// A pole for each position.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Position by position.
    pub places: Vec<Placed>,
    /// What it costs, in mm.
    pub cost_mm: f64,
    /// What no choice can cost less than, in mm.
    pub bound_mm: f64,
    /// Whether every choice was counted out, so that none is better.
    pub is_proved: bool,
}

/// The positions of a ring that is solved with poles as they should be.
#[must_use]
pub fn positions(layout: &Layout, ring: &Ring) -> Vec<Position> {
    let position = |place: usize| {
        let (set, rafter) = (&ring.sets[place], &layout.rafters[place]);
        Position {
            length: set.rest + rafter.beyond,
            rest: set.rest,
            carry: set.carry,
            axis_distance: set.axis_distance,
            below: layout.below(place),
        }
    };
    (0..ring.sets.len()).map(position).collect()
}

/// Why a pole does not serve a position with that end to the wall; nothing where it does.
#[must_use]
pub fn unfit(position: &Position, candidate: &Candidate, is_turned: bool, wish: &Wish) -> Option<Unfit> {
    let pole = laid(candidate, is_turned);
    let thin = pole.diameter(position.rest).min(pole.diameter(position.carry));
    if pole.length < position.length {
        Some(Unfit::Short(position.length - pole.length))
    } else if thin < wish.least_diameter {
        Some(Unfit::Thin(wish.least_diameter - thin))
    } else if candidate.across.abs() > wish.most_across {
        Some(Unfit::Bowed(candidate.across.abs() - wish.most_across))
    } else {
        None
    }
}

/// A choice for a house that is being changed, found at once: poles that are laid stay, the rest is bettered until no exchange
/// of two betters it.
///
/// # Errors
/// The positions that the pile cannot fill together, and the only poles that would do for any of them.
pub fn choose_at_once(
    positions: &[Position],
    pile: &[Candidate],
    wish: &Wish,
    laid: &[Laid],
) -> Result<Choice, Shortage> {
    let mut table = Table::new(positions, pile, wish);
    for (place, laid) in laid.iter().enumerate() {
        let way = 2 * laid.pole + usize::from(laid.is_turned);
        for (at, own) in table.own.iter_mut().enumerate() {
            for (other, cost) in own.iter_mut().enumerate() {
                if (at == place) != (other == way) && (at == place || other / 2 == laid.pole) {
                    *cost = f64::INFINITY;
                }
            }
        }
    }
    let (start, bound_mm) = table.start()?;
    let found = bettered(&table, start.clone(), &mut || ControlFlow::Continue(()));
    let ways = found.map_or(start, |found| found.ways);
    Ok(table.chosen((positions, pile), &ways, bound_mm, false))
}

fn placed(
    positions: &[Position],
    pile: &[Candidate],
    table: &Table,
    ways: &[usize],
    place: usize,
    way: usize,
) -> Placed {
    let pole = way / 2;
    let below = positions[place].below;
    let touching = 0.5 * (table.rest[place][way] + table.carry[below][ways[below]]);
    Placed {
        pole,
        is_turned: way % 2 == 1,
        waste: pile[pole].pole.length - positions[place].length,
        notch: Length::mm(touching) - positions[place].axis_distance,
    }
}

fn laid(candidate: &Candidate, is_turned: bool) -> Pole {
    if is_turned { candidate.pole.turned() } else { candidate.pole }
}

/// What each way to lay each pole costs in each position, in mm. A way is twice the pole, and one more where it is turned.
pub(super) struct Table {
    /// By itself; infinite where it does not serve.
    pub own: Vec<Vec<f64>>,
    /// Diameter where it rests and where it carries.
    rest: Vec<Vec<f64>>,
    carry: Vec<Vec<f64>>,
    /// For each position: the distance of the axes and the wanted notch, and the position below.
    distance: Vec<f64>,
    pub below: Vec<usize>,
    above: Vec<usize>,
    weight: f64,
}

impl Table {
    pub fn new(positions: &[Position], pile: &[Candidate], wish: &Wish) -> Table {
        let of = |figure: &dyn Fn(&Position, &Candidate, bool) -> f64| -> Vec<Vec<f64>> {
            let row = |position: &Position| {
                pile.iter()
                    .flat_map(|candidate| [false, true].map(|turned| figure(position, candidate, turned)))
                    .collect()
            };
            positions.iter().map(row).collect()
        };
        let own =
            |position: &Position, candidate: &Candidate, turned: bool| match unfit(position, candidate, turned, wish) {
                Some(_) => f64::INFINITY,
                None => {
                    wish.waste * (candidate.pole.length - position.length).in_mm()
                        + wish.bow * candidate.across.abs().in_mm()
                }
            };
        let mut above = vec![0; positions.len()];
        positions.iter().enumerate().for_each(|(place, position)| above[position.below] = place);
        Table {
            own: of(&own),
            rest: of(&|position, candidate, turned| laid(candidate, turned).diameter(position.rest).in_mm()),
            carry: of(&|position, candidate, turned| laid(candidate, turned).diameter(position.carry).in_mm()),
            distance: positions.iter().map(|position| (position.axis_distance + wish.wanted_notch).in_mm()).collect(),
            below: positions.iter().map(|position| position.below).collect(),
            above,
            weight: wish.notch,
        }
    }

    /// What the notch between a position and the one below it costs.
    pub fn between(&self, place: usize, way: usize, way_below: usize) -> f64 {
        let touching = 0.5 * (self.rest[place][way] + self.carry[self.below[place]][way_below]);
        self.weight * (touching - self.distance[place]).abs()
    }

    /// A choice to start from and what no choice costs less than.
    pub fn start(&self) -> Result<(Vec<usize>, f64), Shortage> {
        let single: Vec<Vec<f64>> =
            (0..self.own.len()).map(|place| self.of_poles(place, |at| self.own[place][at])).collect();
        assignment(&single)?;
        self.bound()
    }

    pub fn chosen(
        &self,
        (positions, pile): (&[Position], &[Candidate]),
        ways: &[usize],
        bound_mm: f64,
        is_proved: bool,
    ) -> Choice {
        let cost_mm = self.cost(ways);
        let one = |(place, &way): (usize, &usize)| placed(positions, pile, self, ways, place, way);
        let places = ways.iter().enumerate().map(one).collect();
        Choice { places, cost_mm, bound_mm: if is_proved { cost_mm } else { bound_mm.min(cost_mm) }, is_proved }
    }

    /// What a whole choice costs.
    pub fn cost(&self, ways: &[usize]) -> f64 {
        let one =
            |(place, &way): (usize, &usize)| self.own[place][way] + self.between(place, way, ways[self.below[place]]);
        ways.iter().enumerate().map(one).sum()
    }

    /// The cheaper way of each pole by some measure.
    fn of_poles(&self, place: usize, of: impl Fn(usize) -> f64) -> Vec<f64> {
        (0..self.own[place].len() / 2).map(|pole| of(2 * pole).min(of(2 * pole + 1))).collect()
    }

    /// A choice that would be the best if each pole had the best of all neighbours, and what it would then cost: no choice
    /// costs less. The notch at a crossing counts for the pole above by a share and for the pole below by the rest.
    pub fn bound(&self) -> Result<(Vec<usize>, f64), Shortage> {
        let mut best = (Vec::new(), f64::NEG_INFINITY);
        for share in [0.0, 0.5, 1.0] {
            let (ways, cost) = self.bound_with(share)?;
            if cost > best.1 {
                best = (ways, cost);
            }
        }
        Ok(best)
    }

    fn bound_with(&self, share: f64) -> Result<(Vec<usize>, f64), Shortage> {
        let least = |place: usize, way: usize| {
            if self.own[place][way].is_infinite() {
                return f64::INFINITY;
            }
            let (below, above) = (self.below[place], self.above[place]);
            let others = |at: usize| {
                (0..self.own[at].len()).filter(move |other| other / 2 != way / 2 && self.own[at][*other].is_finite())
            };
            let down = others(below).map(|other| self.between(place, way, other)).fold(f64::INFINITY, f64::min);
            let up = others(above).map(|other| self.between(above, other, way)).fold(f64::INFINITY, f64::min);
            // A pole without any neighbour serves nowhere; nothing times infinity is not a number.
            if down.is_infinite() || up.is_infinite() {
                return f64::INFINITY;
            }
            self.own[place][way] + share * down + (1.0 - share) * up
        };
        let all: Vec<Vec<f64>> = (0..self.own.len())
            .map(|place| (0..self.own[place].len()).map(|way| least(place, way)).collect())
            .collect();
        let costs: Vec<Vec<f64>> = (0..all.len()).map(|place| self.of_poles(place, |way| all[place][way])).collect();
        let poles = assignment(&costs)?;
        let cost = poles.iter().enumerate().map(|(place, &pole)| costs[place][pole]).sum();
        let way = |(place, &pole): (usize, &usize)| {
            if all[place][2 * pole] <= all[place][2 * pole + 1] { 2 * pole } else { 2 * pole + 1 }
        };
        Ok((poles.iter().enumerate().map(way).collect(), cost))
    }
}
