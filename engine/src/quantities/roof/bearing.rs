//! How a pole and the planks that it lies on bear on each other at a seat, each across its own grain.

use super::super::line::bind;
use super::beam::Planks;
use super::factors::Factors;
use crate::house::{Code, Held};
use crate::reason::Answer;
use crate::row::Rows;
use crate::timber::tables::factor;
use crate::timber::{eurocode, used};
use crate::units::{Area, Force, Length, Pressure, Ratio};

/// A pole on planks of a width; its factors for the time of each combination.
pub(super) struct Bearing<'a> {
    pub held: &'a Held,
    pub factors: &'a Factors,
    pub durations: &'a [f64],
    pub planks: &'a Planks<'a>,
    pub width: Length,
}

/// One of the two that bear on each other at a seat.
pub(super) struct Bears<'a> {
    is_pole: bool,
    pub area: Answer<Area>,
    strength: Pressure,
    durations: &'a [f64],
}

/// What presses on a seat.
pub(super) struct Press<T> {
    pub force: Force,
    pub combination: usize,
    pub by: T,
}

fn of_code(name: &str) -> f64 {
    factor(name).map_or(f64::NAN, |fact| fact.number)
}

impl<'a> Bearing<'a> {
    /// That of the two which uses more of its strength, under what uses most of it: `most` finds that, given the factor of its
    /// wood for the time of each combination, none where the code knows none. The pole lies so wide and goes on so far outwards.
    pub fn more_used<T>(
        &self,
        [flat, beyond]: [Length; 2],
        most: impl Fn(&[f64]) -> Option<Press<T>>,
    ) -> Option<(Answer<Ratio>, Press<T>, Bears<'a>)> {
        let both = self.both(flat, beyond).into_iter().filter_map(|bears| {
            let lasting = if self.factors.code == Code::En { bears.durations } else { &[] };
            let press = most(lasting)?;
            let duration = lasting.get(press.combination).copied().unwrap_or(1.0);
            let (area, beside, partial) = (bears.area.value, of_code("kc90-none"), self.factors.partial);
            Some((used::seat_used(press.force, area, bears.strength, beside, duration, partial), press, bears))
        });
        both.max_by(|(one, ..), (other, ..)| one.value.in_fraction().total_cmp(&other.value.in_fraction()))
    }

    /// Each with what helps beside it along its own grain: along the beam for the planks, across it for the pole, outwards no more
    /// than lies there to its end.
    fn both(&self, flat: Length, beyond: Length) -> [Bears<'a>; 2] {
        let (width, factors) = (self.width, self.factors);
        let most = if factors.code == Code::En { Length::m(of_code("contact-more-m")) } else { Length::ZERO };
        let outwards = (beyond - width * 0.5).max(Length::ZERO).min(most);
        let along_pole = eurocode::seat_area(width + most.min(width) + outwards, flat);
        let along_beam = eurocode::seat_area(flat + most.min(flat) * 2.0, width);
        let [along_pole, along_beam] = [along_pole, along_beam].map(|area| area.without("length").without("width"));
        let of_pole = self.held.wood.values.across.value * factors.wet("across");
        let pole = Bears { is_pole: true, area: along_pole, strength: of_pole, durations: self.durations };
        let (strength, durations) = (self.planks.strength("across"), &self.planks.durations);
        [pole, Bears { is_pole: false, area: along_beam, strength, durations }]
    }

    /// Drops what a share of one of the two is given, and adds its strength and its place of damp.
    pub fn bound(&self, share: Answer<Ratio>, bears: &Bears<'_>, rows: &Rows) -> Answer<Ratio> {
        let dropped = ["force", "strength", "beside", "duration", "partial"];
        let share = dropped.iter().fold(share, |share, name| share.without(name));
        if bears.is_pole {
            bind(bind(share, rows, &self.held.wood.values.across.path), rows, "poles.damp")
        } else {
            self.planks.bound(share, "across", rows)
        }
    }
}

impl Bears<'_> {
    /// Which of the two, and what is said after its area.
    pub fn words(&self) -> [&'static str; 2] {
        if self.is_pole {
            ["the pole on the bond beam", ", along the grain of the pole"]
        } else {
            ["the bond beam", ""]
        }
    }
}
