//! What a roof does to its bond beam: its seats, its loads one by one, and the rows that they follow from.

use super::super::factors::{Factors, Lasts};
use super::super::hold::{Stood, feet_words};
use super::super::loads;
use super::super::members;
use super::OUT;
use crate::house::{Held, Ring};
use crate::quantities::line::bind;
use crate::quantities::uneven::bind_once;
use crate::reason::Answer;
use crate::roof::beam::Presses;
use crate::roof::poles::Rafter;
use crate::roof::standing::Feet;
use crate::row::Rows;
use crate::timber::section;
use crate::units::Length;

/// A roof as the beam under it feels it.
pub(in super::super) struct OnBeam<'a> {
    pub held: &'a Held,
    pub factors: &'a Factors,
    pub strength: &'a Lasts,
    /// The same and, after it, what lifts the roof as a body.
    pub lifting: &'a Lasts,
    pub groups: Vec<Group>,
    /// For each combination of `lifting` how many of each load.
    pub shares: Vec<Vec<f64>>,
    pub seats: Vec<Seat>,
    /// How wide each pole lies on it.
    pub flats: Vec<Length>,
}

/// Loads that never act together with those of another group.
pub(in super::super) struct Group {
    pub feet: Feet,
    /// For each load what every pole does to its seat.
    pub loads: Vec<Presses>,
    /// Rows that each force follows from, beside the loads.
    pub frame: Vec<String>,
    /// What is said of it after a combination.
    pub words: &'static str,
}

/// Where a pole lies on the beam.
pub(in super::super) struct Seat {
    /// Its key in paths.
    pub name: String,
    pub at: [Length; 2],
    /// How far the pole goes on outwards from the middle of the beam, at least.
    pub beyond: Length,
    pub on: String,
    /// Rows that its area follows from, beside the width of the beam.
    pub shape: Vec<String>,
    /// Rows that what comes on it alone follows from.
    pub frame: Vec<String>,
}

impl<'a> OnBeam<'a> {
    /// A ring of poles, each on one foot.
    pub fn ring(stood: &'a Stood<'_>, rows: &Rows) -> OnBeam<'a> {
        let group = |(feet, loads)| Group { feet, loads, frame: Stood::frame(), words: feet_words(feet) };
        let groups = stood.model.on_wall(&stood.answers).into_iter().map(group).collect();
        let shares = stood.lifting.combinations.iter().map(|one| stood.answers.shares(one)).collect();
        // As far from its butt as the eave stands out from the plate; a pole that slants lies on it a little farther in, where it is
        // less than a hundredth thinner.
        let [eave, plate] = OUT.map(|path| rows.value::<Length>(path).unwrap_or(Length::ZERO));
        let beyond = eave - plate;
        let rafters = &stood.ring.layout.rafters;
        let seat = |(place, rafter): (usize, &Rafter)| Seat {
            name: (place + 1).to_string(),
            at: [rafter.support[0], rafter.support[1]],
            beyond,
            on: format!("seat of place {}, {}", place + 1, members::tag(stood.ring, place)),
            shape: shape(["butt", "tip", "pole"].map(|noun| Ring::path(place, noun))),
            frame: Vec::new(),
        };
        let flat = |rafter: &Rafter| section::seat_width(rafter.pole.diameter(beyond), stood.ring.seat.value).value;
        OnBeam {
            held: stood.held,
            factors: &stood.factors,
            strength: &stood.strength,
            lifting: &stood.lifting,
            groups,
            shares,
            seats: rafters.iter().enumerate().map(seat).collect(),
            flats: rafters.iter().map(flat).collect(),
        }
    }

    /// Whether anything thrusts in plan: feet that may be held do, rafters on level seats do not.
    pub fn thrusts(&self) -> bool {
        self.groups.iter().any(|group| group.feet == Feet::Held)
    }

    /// Adds what a force on a seat or in the beam follows from.
    pub fn bound<T>(&self, answer: Answer<T>, (group, combination): (usize, usize), rows: &Rows) -> Answer<T> {
        let frame = &self.groups[group].frame;
        let answer = frame.iter().fold(answer, |answer, path| bind(answer, rows, path));
        loads::bound(answer, &self.lifting.acting[combination], rows)
    }

    /// The same of a force that all seats have a part in.
    pub fn bound_all<T>(&self, answer: Answer<T>, under: (usize, usize), rows: &Rows) -> Answer<T> {
        let all = self.seats.iter().flat_map(|seat| &seat.frame);
        all.fold(self.bound(answer, under, rows), |answer, path| bind_once(answer, rows, path))
    }

    /// A combination and the group in words.
    pub fn words(&self, (group, combination): (usize, usize)) -> String {
        format!("{}{}", self.lifting.acting[combination].name(), self.groups[group].words)
    }
}

fn shape(poles: [String; 3]) -> Vec<String> {
    std::iter::once("roof.seat".to_owned()).chain(poles).chain(OUT.map(str::to_owned)).collect()
}
