//! Rows of what the bolt of a crossing does to the wood: what splits its poles, and how near to an end and a side it stands.

use super::{Crossing, words};
use crate::house::Code;
use crate::quantities::line::bind;
use crate::reason::Answer;
use crate::roof::standing::{At, JointForces};
use crate::row::Rows;
use crate::timber::{distances, splitting};
use crate::units::{Angle, Force, Length, Ratio};

impl Crossing<'_, '_> {
    /// `noted` is when the force acts that stands in the row of what its bolt holds across it.
    pub(super) fn wood(&self, forces: &JointForces, noted: &At<Force>, rows: &mut Rows) {
        self.split(&forces.torn, noted, rows);
        let (d, tag) = (self.stood.hole(), self.stood.factors.code);
        let (end, side) = match tag {
            Code::En => {
                let right = Angle::rad(std::f64::consts::FRAC_PI_2);
                (distances::to_loaded_end(d).value, distances::to_loaded_edge(d, right).value)
            }
            Code::Asce => (distances::to_loaded_end_asd(d).value, distances::to_loaded_edge_asd(d).value),
        };
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
        let (factors, values) = (&self.stood.factors, &self.stood.held.wood.values);
        let cut = self.stood.ring.layout.rafters[self.place].notch * 0.5;
        let duration = self.duration(at);
        let strength = values.shear.value * (factors.wet("shear") * duration);
        let carried = self.poles().map(|(diameter, end)| {
            let side = splitting::square_within(diameter).value;
            let width = splitting::width_left(diameter, side, cut).value;
            match factors.code {
                Code::En => splitting::splits(width, side, side * 0.5).value,
                Code::Asce => splitting::shear_beside_bolt(strength, width, side, side * 0.5, end).value,
            }
        });
        let carried = carried[0].min(carried[1]);
        let lasting = if factors.code == Code::En { (duration, factors.partial) } else { (1.0, 1.0) };
        let share = splitting::split_used(at.value, carried, lasting.0, lasting.1);
        let dropped = ["carried", "duration", "partial"];
        let share = dropped.iter().fold(share, |share, name| share.without(name));
        let share = if (at.combination, at.feet) == (noted.combination, noted.feet) {
            share.from("across", self.row("across"))
        } else {
            self.stood.bound(share.without("across"), &self.governs(at), rows)
        };
        let share = bind(bind(share, rows, "roof.ring.pitch"), rows, "poles.damp");
        let share = if factors.code == Code::En { share } else { bind(share, rows, "poles.strength.shear") };
        let when = format!(", under {}", self.governs(at).words());
        self.put("split", &when, share, rows);
    }
}
