//! Rows of each foot of a ring on the wall: what presses on it, what lifts it, what thrusts it out.

use super::hold::Stood;
use super::members;
use crate::row::Rows;
use crate::timber::used;

fn path(place: usize, noun: &str) -> String {
    format!("roof.feet.{}.{noun}", place + 1)
}

pub(super) fn walk(stood: &Stood<'_>, rows: &mut Rows) {
    for place in 0..stood.ring.layout.rafters.len() {
        let Ok(forces) = stood.answers.foot(place, &stood.lifting.combinations) else { continue };
        let on = format!("foot of place {}, {}", place + 1, members::tag(stood.ring, place));
        let mut put = |noun: &str, words: &str, at: &crate::roof::standing::At<crate::units::Force>| {
            let governs = stood.governs(at.combination, at.feet);
            let title = format!("{on}: {words}, under {}", governs.words());
            let force = stood.bound(used::foot_force(at.value), &governs, rows);
            rows.add(path(place, noun), title, force);
        };
        put("up", "what it presses on the wall", &forces.up);
        if let Some(lifts) = &forces.held_down {
            put("held-down", "what lifts it, and its anchor must hold", lifts);
        }
        put("thrust", "thrust out along the pole", &forces.thrust);
        put("across", "push in plan across the pole", &forces.across);
    }
}
