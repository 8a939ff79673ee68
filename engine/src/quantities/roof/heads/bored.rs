//! Rows of what the bolt of a head does to the wood: what splits it, and how near to an end and a side it stands.

use super::super::super::line::bind;
use super::super::{crossings, second};
use super::Head;
use crate::house::second_ring;
use crate::known::Known;
use crate::reason::Answer;
use crate::roof;
use crate::row::Rows;
use crate::timber::splitting;
use crate::units::{Force, Length, Ratio};

impl Head<'_, '_> {
    /// Where the bolt stands in its rafter and in its pole.
    pub(super) fn bored(&self, bolt: &Known<Length>, rows: &mut Rows) {
        self.split(rows);
        let [end, side] = crossings::wants(self.stood.factors.code, bolt.value);
        let wanted = self.wanted(end, second_ring::beyond(self.diameter), rows);
        self.stands("bolt-end", "", bind(wanted, rows, "roof.secondary.diameter"), rows);
        let (own, pole) = (self.diameter, self.pole_diameter());
        let wanted = self.wanted(side, own.min(pole) * 0.5, rows);
        let wanted =
            if pole < own { second::placed(wanted, rows) } else { bind(wanted, rows, "roof.secondary.diameter") };
        self.stands("bolt-side", "", wanted, rows);
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
        let one = &self.own.rafters[self.bay];
        let near = one.along.min(self.stood.ring.layout.rafters[one.on].pole.length - one.along);
        let woods = [
            (self.diameter, self.own.notch.value, second_ring::beyond(self.diameter)),
            (self.pole_diameter(), self.own.housing.value, near),
        ];
        let lasting = (across(press), self.stood.strength.durations[at]);
        let share = crossings::torn(self.stood, lasting, woods, rows).without("across");
        let share = self.forced(share, at, rows);
        let when = format!(", under {}", self.governs(at));
        self.stands("split", &when, share, rows);
    }
}
