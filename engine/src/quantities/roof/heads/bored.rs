//! Rows of what the bolt of a head does to the wood: what splits it, and how near to an end and a side it stands.

use super::super::super::line::bind;
use super::super::{crossings, second};
use super::Head;
use crate::house::Code;
use crate::known::Known;
use crate::reason::Answer;
use crate::roof;
use crate::row::Rows;
use crate::timber::{distances, splitting};
use crate::units::{Angle, Force, Length, Ratio};

impl Head<'_, '_> {
    /// Where the bolt stands in its rafter and in its pole.
    pub(super) fn bored(&self, bolt: &Known<Length>, rows: &mut Rows) {
        self.split(rows);
        let d = bolt.value;
        let (end, side) = match self.stood.factors.code {
            Code::En => {
                let right = Angle::rad(std::f64::consts::FRAC_PI_2);
                (distances::to_loaded_end(d).value, distances::to_loaded_edge(d, right).value)
            }
            Code::Asce => (distances::to_loaded_end_asd(d).value, distances::to_loaded_edge_asd(d).value),
        };
        let wanted = self.wanted(end, self.beyond(), rows);
        self.stands("bolt-end", "", bind(wanted, rows, "roof.secondary.diameter"), rows);
        let (own, pole) = (self.own.diameter, self.pole_diameter());
        let wanted = self.wanted(side, own.min(pole) * 0.5, rows);
        let wanted =
            if pole < own { second::placed(wanted, rows) } else { bind(wanted, rows, "roof.secondary.diameter") };
        self.stands("bolt-side", "", wanted, rows);
    }

    /// How far its rafter reaches beyond it.
    fn beyond(&self) -> Length {
        let [tail, span, whole] = self.own.rafters[self.bay].lengths;
        whole - tail - span
    }

    fn stands(&self, noun: &str, when: &str, share: Answer<Ratio>, rows: &mut Rows) {
        let title = format!("{}: {}{when}", self.on, crossings::words(noun));
        rows.add(self.row(&self.stood.factors.noun(noun)), title, share);
    }

    fn wanted(&self, wants: Length, has: Length, rows: &Rows) -> Answer<Ratio> {
        let wanted = splitting::wood_wanted(wants, has).without("wants").without("has");
        bind(wanted, rows, "roof.secondary.bolt")
    }

    /// All that its bolt holds across it, taken across the grain of both.
    fn split(&self, rows: &mut Rows) {
        let (lean, _) = self.lean();
        let across = |press: Force| roof::second_across(press, lean).value;
        let Some((press, at)) = self.lasting(across) else { return };
        let (factors, values) = (&self.stood.factors, &self.stood.held.wood.values);
        let duration = self.stood.strength.durations[at];
        let strength = values.shear.value * (factors.wet("shear") * duration);
        let one = &self.own.rafters[self.bay];
        let near = one.along.min(self.stood.ring.layout.rafters[one.on].pole.length - one.along);
        let woods = [
            (self.own.diameter, self.own.notch.value, self.beyond()),
            (self.pole_diameter(), self.own.housing.value, near),
        ];
        let carried = woods.map(|(diameter, cut, end)| {
            let side = splitting::square_within(diameter).value;
            let width = splitting::width_left(diameter, side, cut).value;
            match factors.code {
                Code::En => splitting::splits(width, side, side * 0.5).value,
                Code::Asce => splitting::shear_beside_bolt(strength, width, side, side * 0.5, end).value,
            }
        });
        let lasting = if factors.code == Code::En { (duration, factors.partial) } else { (1.0, 1.0) };
        let share = splitting::split_used(across(press), carried[0].min(carried[1]), lasting.0, lasting.1);
        let dropped = ["across", "carried", "duration", "partial"];
        let share = dropped.iter().fold(share, |share, name| share.without(name));
        let share = bind(self.forced(share, at, rows), rows, "poles.damp");
        let share = if factors.code == Code::En { share } else { bind(share, rows, "poles.strength.shear") };
        let when = format!(", under {}", self.governs(at));
        self.stands("split", &when, share, rows);
    }
}
