//! Rows of what the bolt of a crossing does to the wood: what splits its poles, and how near to an end and a side it stands.

use super::{Crossing, words};
use crate::house::Code;
use crate::quantities::line::bind;
use crate::quantities::roof::hold::Stood;
use crate::reason::Answer;
use crate::roof::standing::{At, JointForces};
use crate::row::Rows;
use crate::timber::{distances, splitting};
use crate::units::{Angle, Force, Length, Ratio};

/// How far a bolt so thick wants the end of a piece that it loads, and its side.
pub(in super::super) fn wants(code: Code, d: Length) -> [Length; 2] {
    let right = Angle::rad(std::f64::consts::FRAC_PI_2);
    match code {
        Code::En => [distances::to_loaded_end(d).value, distances::to_loaded_edge(d, right).value],
        Code::Asce => [distances::to_loaded_end_asd(d).value, distances::to_loaded_edge_asd(d).value],
    }
}

/// Share used of what keeps two round pieces from splitting at their bolt: by how thick each is, how deep cut, how near an end.
pub(in super::super) fn torn(
    stood: &Stood<'_>,
    (across, duration): (Force, f64),
    woods: [(Length, Length, Length); 2],
    rows: &Rows,
) -> Answer<Ratio> {
    let (factors, values) = (&stood.factors, &stood.held.wood.values);
    let strength = values.shear.value * (factors.wet("shear") * duration);
    let carried = woods.map(|(diameter, cut, end)| {
        let side = splitting::square_within(diameter).value;
        let width = splitting::width_left(diameter, side, cut).value;
        match factors.code {
            Code::En => splitting::splits(width, side, side * 0.5).value,
            Code::Asce => splitting::shear_beside_bolt(strength, width, side, side * 0.5, end, diameter).value,
        }
    });
    let lasting = if factors.code == Code::En { (duration, factors.partial) } else { (1.0, 1.0) };
    let share = splitting::split_used(across, carried[0].min(carried[1]), lasting.0, lasting.1);
    let share = ["carried", "duration", "partial"].iter().fold(share, |share, name| share.without(name));
    let share = bind(share, rows, "poles.damp");
    if factors.code == Code::En { share } else { bind(share, rows, "poles.strength.shear") }
}

impl Crossing<'_, '_> {
    /// `noted` is when the force acts that stands in the row of what its bolt holds across it.
    pub(super) fn wood(&self, forces: &JointForces, noted: &At<Force>, rows: &mut Rows) {
        self.split(&forces.torn, noted, rows);
        let [end, side] = wants(self.stood.factors.code, self.stood.hole());
        let beyond = self.stood.ring.layout.rafters[self.place].beyond;
        let wanted = bind(bind(self.wanted(end, beyond, rows), rows, "roof.tip"), rows, "roof.ring.pitch");
        self.put("bolt-end", "", wanted, rows);
        let thinner =
            self.poles().map(|(diameter, _)| diameter).into_iter().fold(Length::m(f64::INFINITY), Length::min);
        let wanted = bind(self.wanted(side, thinner * 0.5, rows), rows, "roof.ring.pitch");
        self.put("bolt-side", "", wanted, rows);
    }

    fn put(&self, noun: &str, when: &str, share: Answer<Ratio>, rows: &mut Rows) {
        let title = format!("{}: {}{when}", self.on, words(noun));
        rows.add(self.row(&self.stood.factors.noun(noun)), title, share);
    }

    fn wanted(&self, wants: Length, has: Length, rows: &Rows) -> Answer<Ratio> {
        let wanted = splitting::wood_wanted(wants, has).without("wants").without("has");
        bind(wanted, rows, "roof.bolt.diameter")
    }

    /// The pole that rests and the one below it where they cross: how thick, and how near the next end of it is.
    fn poles(&self) -> [(Length, Length); 2] {
        let ring = self.stood.ring;
        let below = ring.layout.below(self.place);
        let (set, under) = (&ring.solved.sets[self.place], &ring.solved.sets[below]);
        let beyond = |place: usize| ring.layout.rafters[place].beyond;
        let far = (under.rest - under.carry + beyond(below)).min(under.carry);
        [(set.rest_diameter, beyond(self.place)), (under.carry_diameter, far)]
    }

    /// All that its bolt holds across it, taken across the grain of both poles.
    fn split(&self, at: &At<Force>, noted: &At<Force>, rows: &mut Rows) {
        let cut = self.stood.ring.layout.rafters[self.place].notch * 0.5;
        let woods = self.poles().map(|(diameter, end)| (diameter, cut, end));
        let share = torn(self.stood, (at.value, self.duration(at)), woods, rows);
        let share = if (at.combination, at.feet) == (noted.combination, noted.feet) {
            share.from("across", self.row("across"))
        } else {
            self.stood.bound(share.without("across"), &self.governs(at), rows)
        };
        let share = bind(share, rows, "roof.ring.pitch");
        let when = format!(", under {}", self.governs(at).words());
        self.put("split", &when, share, rows);
    }
}
