//! The greatest and least of everything over all combinations and both kinds of feet, each with what governs it.

use super::answers::{Found, Places};
use super::{Answers, Combination, Fault, Feet};
use crate::units::{Force, Length, Moment};

/// A greatest or least value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Most<T> {
    /// The value.
    pub value: T,
    /// Where along the pole, from its butt.
    pub at: Length,
    /// The number of the combination that governs, from zero.
    pub combination: usize,
    /// The feet with which it governs.
    pub feet: Feet,
}

/// What is greatest at one place of a pole, whatever governs each: none need come together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Here {
    /// Resultant moment of both ways.
    pub moment: Most<Moment>,
    /// Resultant force across.
    pub shear: Most<Force>,
    /// Pull along the pole; zero where it is never pulled.
    pub pull: Most<Force>,
    /// Push along the pole; zero where it is never pushed.
    pub push: Most<Force>,
}

/// The extremes of one pole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stands {
    /// Anywhere along it.
    pub anywhere: Here,
    /// Greatest moment in its upright plane, whichever face is pressed.
    pub upright: Most<Moment>,
    /// Greatest moment sideways.
    pub sideways: Most<Moment>,
    /// At its support.
    pub support: Here,
    /// Where it carries: its first crossing.
    pub carry: Here,
    /// Where it rests.
    pub rest: Here,
    /// How far the middle of its span sinks, at once: creep comes on top.
    pub sag_middle: Most<Length>,
    /// How far its tip sinks, at once.
    pub sag_tip: Most<Length>,
}

/// The extremes of a crossing: that where a pole rests on the one below.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// Greatest push along the common normal.
    pub push: Most<Force>,
    /// Least push; below zero, what the tie must pull.
    pub least: Most<Force>,
    /// Greatest force across the normal, which friction or the tie must hold.
    pub shear: Most<Force>,
    /// Greatest force across over the push at the same time: the friction that would do without a tie. Infinite where the
    /// push is gone.
    pub friction: Most<f64>,
}

/// The extremes of a foot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foot {
    /// Greatest force up.
    pub up: Most<Force>,
    /// Least force up; below zero the roof must be held down here.
    pub least: Most<Force>,
    /// Greatest thrust outward along the pole, on feet that are held; below zero it pulls inward.
    pub outward: Most<Force>,
    /// Greatest force in plan on feet that are held.
    pub held: Most<Force>,
    /// The same on feet that slide, where they were solved: what holds them across.
    pub sliding: Option<Most<Force>>,
}

/// The extremes of a ring.
#[derive(Clone, Debug, PartialEq)]
pub struct Envelope {
    /// Of each pole.
    pub poles: Vec<Stands>,
    /// Of each crossing, by the pole that rests there.
    pub crossings: Vec<Crossing>,
    /// Of each foot.
    pub feet: Vec<Foot>,
}

impl Answers {
    /// Superposes the basic answers for each combination and keeps the extremes.
    ///
    /// # Errors
    /// No combination at all.
    pub fn envelope(&self, combinations: &[Combination]) -> Result<Envelope, Fault> {
        let mut all = Vec::with_capacity(combinations.len() * self.of.len());
        for &(feet, ref found) in &self.of {
            for (combination, own) in combinations.iter().enumerate() {
                all.push(Under { found: Found::together(found, &self.factors(own)), combination, feet });
            }
        }
        if all.is_empty() {
            return Err(Fault::NoCombination);
        }
        let places = 0..self.places.len();
        Ok(Envelope {
            poles: places.clone().map(|pole| stands(&all, &self.places[pole], pole)).collect(),
            crossings: places.clone().map(|pole| crossing(&all, &self.places[pole], pole)).collect(),
            feet: places.map(|pole| foot(&all, &self.places[pole], pole)).collect(),
        })
    }
}

/// What is found under one combination.
pub(super) struct Under {
    pub found: Found,
    pub combination: usize,
    pub feet: Feet,
}

/// The greatest of `values`, each with its place, over all that was found; nothing where there are none.
fn greatest<'u, I: Iterator<Item = (f64, f64)>>(
    all: &'u [Under],
    values: impl Fn(&'u Under) -> I,
) -> Option<Most<f64>> {
    let mut most: Option<Most<f64>> = None;
    for under in all {
        for (at, value) in values(under) {
            if most.is_none_or(|most| value > most.value) {
                let (at, combination, feet) = (Length::m(at), under.combination, under.feet);
                most = Some(Most { value, at, combination, feet });
            }
        }
    }
    most
}

impl Most<f64> {
    pub(super) fn of<T>(self, unit: impl Fn(f64) -> T) -> Most<T> {
        Most { value: unit(self.value), at: self.at, combination: self.combination, feet: self.feet }
    }
}

/// The greatest of one value at one place.
pub(super) fn at_place(all: &[Under], at: f64, value: impl Fn(&Found) -> f64) -> Most<f64> {
    let none = Most { value: 0.0, at: Length::m(at), combination: 0, feet: Feet::Held };
    greatest(all, |under| std::iter::once((at, value(&under.found)))).unwrap_or(none)
}

pub(super) fn least(all: &[Under], at: f64, value: impl Fn(&Found) -> f64) -> Most<f64> {
    at_place(all, at, |found| -value(found)).of(|value| -value)
}

pub(super) fn here(all: &[Under], places: &Places, pole: usize, within: impl Fn(f64) -> bool) -> Here {
    let of = |value: &dyn Fn(&[f64; 6]) -> f64| {
        let most = greatest(all, |under| {
            let sections = places.along.iter().zip(&under.found.sections[pole]).filter(|(along, _)| within(**along));
            sections.map(|(along, force)| (*along, value(force))).collect::<Vec<_>>().into_iter()
        });
        most.unwrap_or(Most { value: 0.0, at: Length::ZERO, combination: 0, feet: Feet::Held })
    };
    Here {
        moment: of(&|force| force[4].hypot(force[5])).of(Moment::n_m),
        shear: of(&|force| force[1].hypot(force[2])).of(Force::n),
        pull: of(&|force| force[0].max(0.0)).of(Force::n),
        push: of(&|force| (-force[0]).max(0.0)).of(Force::n),
    }
}

fn stands(all: &[Under], places: &Places, pole: usize) -> Stands {
    let [support, middle, carry, rest, tip] = places.marks;
    let near = |mark: f64| here(all, places, pole, move |along| (along - mark).abs() < 1e-9);
    let one_way = |part: usize| {
        let none = Most { value: 0.0, at: Length::ZERO, combination: 0, feet: Feet::Held };
        let sections = |under: &'_ Under| -> Vec<(f64, f64)> {
            places
                .along
                .iter()
                .zip(&under.found.sections[pole])
                .map(|(along, force)| (*along, force[part].abs()))
                .collect()
        };
        greatest(all, |under| sections(under).into_iter()).unwrap_or(none).of(Moment::n_m)
    };
    Stands {
        anywhere: here(all, places, pole, |_| true),
        upright: one_way(5),
        sideways: one_way(4),
        support: near(support),
        carry: near(carry),
        rest: near(rest),
        sag_middle: at_place(all, middle, |found| found.sags[pole][0]).of(Length::m),
        sag_tip: at_place(all, tip, |found| found.sags[pole][1]).of(Length::m),
    }
}

fn crossing(all: &[Under], places: &Places, pole: usize) -> Crossing {
    let at = places.marks[3];
    let across = |found: &Found| found.crossings[pole][1].hypot(found.crossings[pole][2]);
    let needed = |found: &Found| {
        let push = found.crossings[pole][0];
        if push > 0.0 { across(found) / push } else { f64::INFINITY }
    };
    Crossing {
        push: at_place(all, at, |found| found.crossings[pole][0]).of(Force::n),
        least: least(all, at, |found| found.crossings[pole][0]).of(Force::n),
        shear: at_place(all, at, across).of(Force::n),
        friction: at_place(all, at, needed),
    }
}

fn foot(all: &[Under], places: &Places, pole: usize) -> Foot {
    let at = places.marks[0];
    let thrust = |wanted: Feet| {
        greatest(all, |under| {
            let [inward, across, _] = under.found.feet[pole];
            std::iter::once((at, inward.hypot(across))).filter(move |_| under.feet == wanted)
        })
    };
    let outward = greatest(all, |under| {
        std::iter::once((at, under.found.feet[pole][0])).filter(move |_| under.feet == Feet::Held)
    });
    let none = Most { value: 0.0, at: Length::m(at), combination: 0, feet: Feet::Held };
    Foot {
        up: at_place(all, at, |found| found.feet[pole][2]).of(Force::n),
        least: least(all, at, |found| found.feet[pole][2]).of(Force::n),
        outward: outward.unwrap_or(none).of(Force::n),
        held: thrust(Feet::Held).unwrap_or(none).of(Force::n),
        sliding: thrust(Feet::Sliding).map(|most| most.of(Force::n)),
    }
}
