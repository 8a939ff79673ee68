//! Rows of the feet of poles on the bond beam: where they may slide, what they push at most, and whether the friction beneath the beam
//! holds that; where nobody says what holds them, what would have to.

use super::seats::Pressed;
use super::{Laid, path};
use crate::roof::beam as ring;
use crate::row::Rows;
use crate::units::Ratio;

/// The row of the friction of a foot.
pub(super) const FRICTION: &str = "roof.feet.friction";

impl Laid<'_> {
    pub(super) fn feet(&self, pressed: &[(usize, Pressed)], rows: &mut Rows) {
        if !self.on.thrusts() {
            return;
        }
        let noun = format!("roof.feet.{}", self.on.factors.noun("slips"));
        let Some(feet) = &self.on.held.feet else {
            let share = |noun: &str| rows.value::<Ratio>(&path(noun)).map(|share| self.shown(share));
            let if_held = match (share("held"), share("held-tipping")) {
                (Some(held), Some(off)) => format!(
                    "; if they did not give, the ring alone would use {held} of its strength, and a load would fall {off} of half the \
                     beam's width off its middle"
                ),
                _ => String::new(),
            };
            let title = format!("what holds the feet of the poles against thrust (nobody wrote [roof.feet]{if_held})");
            return rows.not_known(noun, title);
        };
        let friction = rows.known("angle of friction of the feet of the poles on the bond beam", &feet.friction);
        let under = rows.known("angle of friction of the bond beam on the wall", &feet.under_beam);
        let share = ring::slip_share(friction, under)
            .from("friction", FRICTION)
            .from("under beam", feet.under_beam.path.as_str());
        rows.add(noun, "friction under the bond beam that is used when a foot on it is about to slip", share);
        let most =
            pressed.iter().max_by(|(_, one), (_, other)| one.thrust.abs().in_n().total_cmp(&other.thrust.abs().in_n()));
        let Some((place, at)) = most else { return };
        let push = ring::foot_push(friction, at.thrust, at.force);
        let push = if at.slips { push.from("friction", FRICTION) } else { push.without("friction") };
        let title = format!(
            "{}: most that a foot pushes the bond beam, and the beam the top of the wall, under {}",
            self.on.seats[*place].on,
            self.words(at)
        );
        rows.add("roof.feet.pushes", title, self.loaded(push, (*place, at), rows));
    }
}
