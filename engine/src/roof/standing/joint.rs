//! What a crossing, a foot and a span must stand most, each with the combination and the feet that govern.

use super::super::poles::{self, Layout, Ring};
use super::answers::Found;
use super::{Answers, Combination, Fault, Feet};
use crate::solve::space::{cross, size};
use crate::units::{Angle, Force, Length};

/// A force or a length with what governs it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct At<T> {
    /// The value.
    pub value: T,
    /// The number of the combination, from zero.
    pub combination: usize,
    /// The feet.
    pub feet: Feet,
}

/// What a crossing must stand: that where a pole rests.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JointForces {
    /// The push along the common normal that uses most of the wood's strength, for the time that it lasts.
    pub push: At<Force>,
    /// Force across the bolt and pull along it where they use most of it together.
    pub bolt: At<[Force; 2]>,
    /// Greatest force across the common normal.
    pub across: At<Force>,
    /// Force across the common normal that uses most of the wood's strength, for the time that it lasts.
    pub torn: At<Force>,
    /// Greatest force that lifts the pole off; none where nothing does.
    pub lift: Option<At<Force>>,
    /// Greatest force across over the push at the same time; none where some combination lifts the pole off.
    pub friction: Option<At<f64>>,
}

/// What a foot must stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FootForces {
    /// Greatest force up from the wall.
    pub up: At<Force>,
    /// Greatest force by which the pole must be held down; none where nothing lifts it.
    pub held_down: Option<At<Force>>,
    /// Greatest thrust out along the pole, on feet that are held.
    pub thrust: At<Force>,
    /// Greatest force in plan across the pole.
    pub across: At<Force>,
}

/// The greatest sag of a pole between the wall and where it rests, off the straight line between the two, and how far it sinks
/// where it rests.
pub type Sags = (At<Length>, At<Length>);

/// The angle between two poles where one rests on the other, place by place.
///
/// # Errors
/// Poles that make no ring.
pub fn crossing_angles(layout: &Layout, ring: &Ring) -> Result<Vec<Angle>, Fault> {
    let lies = poles::laid(layout, &ring.sets)?;
    let way = |place: usize, mark: Length| {
        let way = lies[place].way(mark.in_m() + lies[place].ends[0]);
        let long = size(way);
        way.map(|part| part / long)
    };
    let angle = |place: usize| {
        let below = layout.below(place);
        let turned = cross(way(place, ring.sets[place].rest), way(below, ring.sets[below].carry));
        Angle::rad(size(turned).clamp(0.0, 1.0).asin())
    };
    Ok((0..lies.len()).map(angle).collect())
}

impl Answers {
    /// Forces of the crossing where a pole rests. `lasting` is the factor of the wood for the time of each combination; `bolt` is
    /// what the bolt carries before that factor: across it while nothing lifts the pole, across it while something does, along it;
    /// the last is what its steel carries along it, which no factor of the wood lessens.
    ///
    /// # Errors
    /// No such pole, no combination.
    pub fn joint(
        &self,
        pole: usize,
        combinations: &[Combination],
        lasting: &[f64],
        bolt: [Force; 4],
    ) -> Result<JointForces, Fault> {
        let force = |found: &Found| found.crossings.get(pole).copied().unwrap_or_default();
        let all = self.under(combinations, force);
        let across = |[_, one, other]: [f64; 3]| one.hypot(other);
        let factor = |at: &At<[f64; 3]>| lasting.get(at.combination).copied().unwrap_or(1.0);
        let push = self.pressed(pole, combinations, lasting)?;
        let lift = most(&all, |at| -at.value[0]).filter(|at| at.value[0] < 0.0);
        let used = |at: &At<[f64; 3]>| {
            let lifts = (-at.value[0]).max(0.0);
            let carried = if lifts > 0.0 { bolt[1] } else { bolt[0] };
            let along = (lifts / bolt[2].in_n() / factor(at)).max(lifts / bolt[3].in_n());
            across(at.value) / carried.in_n() / factor(at) + along
        };
        let tied = most(&all, used).ok_or(Fault::NoCombination)?;
        let slides = most(&all, |at| across(at.value)).ok_or(Fault::NoCombination)?;
        let torn = most(&all, |at| across(at.value) / factor(at)).ok_or(Fault::NoCombination)?;
        let lifted = all.iter().any(|at| at.value[0] <= 0.0);
        let rubs = most(&all, |at| across(at.value) / at.value[0]).filter(|_| !lifted);
        Ok(JointForces {
            push,
            bolt: tied.with(|value| [Force::n(across(value)), Force::n((-value[0]).max(0.0))]),
            across: slides.with(|value| Force::n(across(value))),
            torn: torn.with(|value| Force::n(across(value))),
            lift: lift.map(|at| at.with(|value| Force::n(-value[0]))),
            friction: rubs.map(|at| at.with(|value| across(value) / value[0])),
        })
    }

    /// The push of the crossing where a pole rests that uses most of the wood, `lasting` being its factor for the time of each
    /// combination, and 1 where it has none.
    ///
    /// # Errors
    /// No such pole, no combination.
    pub fn pressed(&self, pole: usize, combinations: &[Combination], lasting: &[f64]) -> Result<At<Force>, Fault> {
        let all = self.under(combinations, |found| found.crossings.get(pole).copied().unwrap_or_default());
        let factor = |at: &At<[f64; 3]>| lasting.get(at.combination).copied().unwrap_or(1.0);
        let push = most(&all, |at| at.value[0] / factor(at)).ok_or(Fault::NoCombination)?;
        Ok(push.with(|value| Force::n(value[0])))
    }

    /// Forces of the foot of a pole.
    ///
    /// # Errors
    /// No such pole, no combination.
    pub fn foot(&self, pole: usize, combinations: &[Combination]) -> Result<FootForces, Fault> {
        let all = self.under(combinations, |found| found.feet.get(pole).copied().unwrap_or_default());
        let held: Vec<At<[f64; 3]>> = all.iter().copied().filter(|at| at.feet == Feet::Held).collect();
        let up = most(&all, |at| at.value[2]).ok_or(Fault::NoCombination)?;
        let least = most(&all, |at| -at.value[2]).filter(|at| at.value[2] < 0.0);
        let thrust = most(&held, |at| at.value[0]).ok_or(Fault::NoCombination)?;
        let across = most(&all, |at| at.value[1].abs()).ok_or(Fault::NoCombination)?;
        Ok(FootForces {
            up: up.with(|value| Force::n(value[2])),
            held_down: least.map(|at| at.with(|value| Force::n(-value[2]))),
            thrust: thrust.with(|value| Force::n(value[0])),
            across: across.with(|value| Force::n(value[1].abs())),
        })
    }

    /// The greatest sag of a pole.
    ///
    /// # Errors
    /// No such pole, no combination.
    pub fn sag(&self, pole: usize, combinations: &[Combination]) -> Result<Sags, Fault> {
        let [support, middle, carry, rest, _] = self.places.get(pole).ok_or(Fault::Load(pole))?.marks;
        let share = |at: f64| (at - support) / (rest - support);
        let off = |found: &Found| {
            let [at_middle, _, at_carry, at_rest] = found.sags[pole];
            [at_middle - share(middle) * at_rest, at_carry - share(carry) * at_rest, at_rest]
        };
        let all = self.under(combinations, off);
        let sag = |at: &At<[f64; 3]>| at.value[0].max(at.value[1]);
        let sagged = most(&all, sag).ok_or(Fault::NoCombination)?;
        let sunk = most(&all, |at| at.value[2]).ok_or(Fault::NoCombination)?;
        Ok((sagged.with(|value| Length::m(value[0].max(value[1]))), sunk.with(|value| Length::m(value[2]))))
    }

    /// Three figures under every combination and on all feet.
    fn under(&self, combinations: &[Combination], of: impl Fn(&Found) -> [f64; 3]) -> Vec<At<[f64; 3]>> {
        let factors: Vec<Vec<f64>> = combinations.iter().map(|one| self.factors(one)).collect();
        let mut all = Vec::with_capacity(factors.len() * self.of.len());
        for &(feet, ref found) in &self.of {
            let basic: Vec<[f64; 3]> = found.iter().map(&of).collect();
            for (combination, factors) in factors.iter().enumerate() {
                let mut value = [0.0; 3];
                for (own, factor) in basic.iter().zip(factors) {
                    value.iter_mut().zip(own).for_each(|(sum, own)| *sum += factor * own);
                }
                all.push(At { value, combination, feet });
            }
        }
        all
    }
}

impl<T: Copy> At<T> {
    fn with<U>(self, of: impl Fn(T) -> U) -> At<U> {
        At { value: of(self.value), combination: self.combination, feet: self.feet }
    }
}

/// The first of those of which a figure is greatest.
fn most(all: &[At<[f64; 3]>], of: impl Fn(&At<[f64; 3]>) -> f64) -> Option<At<[f64; 3]>> {
    let mut found: Option<(f64, At<[f64; 3]>)> = None;
    for at in all {
        let own = of(at);
        if found.is_none_or(|(most, _)| own > most) {
            found = Some((own, *at));
        }
    }
    found.map(|(_, at)| at)
}
