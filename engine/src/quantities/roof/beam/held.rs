//! Rows of what the bond beam would carry if it alone, as a ring, held what poles thrust on feet that do not give.

use super::part::{Part, along};
use super::path;
use crate::quantities::line::bind;
use crate::roof::beam::Used;
use crate::row::Rows;
use crate::timber::beam as timber;

impl Part<'_> {
    pub(super) fn held(&self, used: &Used, rows: &mut Rows) {
        let force = self.laid.in_plan(timber::held_ring_force(used.forces.pull), used, rows);
        let title = self.title("ring force, push below zero, if the ring alone held its poles", used);
        rows.add(self.row("held-force"), title, force);
        let moment = self.laid.in_plan(timber::held_ring_moment(used.forces.plan), used, rows);
        let title = self.title("moment in plan there, if the ring alone held its poles", used);
        rows.add(self.row("held-moment"), title, moment);
    }

    /// The share of its strength that this would use: of the part where it is the most. No limit is held against it, since
    /// what holds the feet in truth is for an engineer.
    pub(super) fn held_alone(&self, used: &Used, rows: &mut Rows) {
        let along = along(used);
        let (area, strength, factors) = (self.laid.left.area, self.strength(along), &self.laid.planks.factors);
        let bent = self.bent(used).value;
        let share = timber::ring_used(used.forces.pull, area, strength, bent, self.duration(used), factors.partial)
            .from("force", self.row("held-force"))
            .from("area", path("area"))
            .without("bending used");
        let share = bind(bind(share, rows, &self.row("held-moment")), rows, &path("plan.modulus"));
        let share = bind(self.by_wood(share, along, rows), rows, &self.laid.planks.wood.values.bending.path);
        let title = "strength that ring force and bending in plan would use if the ring alone held its poles";
        rows.add(path("held"), self.title(title, used), share);
    }
}
