//! Rows of each part of the bond beam: what bends, pulls, shears and twists it, and what its scarfs must carry.

use super::super::members;
use super::{BESIDE, Laid, path};
use crate::house::Code;
use crate::quantities::line::bind;
use crate::reason::Answer;
use crate::roof::beam::{Used, Worst};
use crate::row::Rows;
use crate::timber::beam as timber;
use crate::units::{Force, Pressure, Ratio};

/// A share below this is rounding, as of twist half way between equal anchors.
const NONE: f64 = 1e-9;

/// A part of the beam.
pub(super) struct Part<'a> {
    pub laid: &'a Laid<'a>,
    pub place: usize,
    pub name: &'a str,
    pub on: String,
}

impl Part<'_> {
    pub(super) fn row(&self, noun: &str) -> String {
        path(&format!("{}.{noun}", self.name))
    }

    pub(super) fn title(&self, words: &str, used: &Used) -> String {
        format!("{}: {words}, under {}", self.on, self.laid.on.words((used.group, used.combination)))
    }

    pub(super) fn duration(&self, used: &Used) -> f64 {
        self.laid.planks.durations[used.combination]
    }

    /// A share of its strength, where it is known.
    pub(super) fn share(&self, noun: &str, title: String, share: Answer<Ratio>, rows: &mut Rows) {
        match &self.laid.unknown {
            Some(why) => rows.not_known(self.row(noun), format!("{title} ({why})")),
            None => drop(rows.add(self.row(noun), title, share)),
        }
    }

    /// Drops the factors of the tables and adds the strength and the place of damp.
    pub(super) fn by_wood(&self, share: Answer<Ratio>, noun: &str, rows: &Rows) -> Answer<Ratio> {
        let share = ["strength", "duration", "partial"].iter().fold(share, |share, name| share.without(name));
        self.laid.planks.bound(share, noun, rows)
    }

    pub(super) fn strength(&self, noun: &str) -> Pressure {
        self.laid.planks.strength(noun)
    }

    pub(super) fn bent(&self, used: &Used) -> Answer<Ratio> {
        let (left, forces, partial) = (&self.laid.left, &used.forces, self.laid.planks.factors.partial);
        let (duration, strength) = (self.duration(used), self.strength("bending"));
        timber::bent_both_ways(forces.upright, forces.plan, left.upright, left.plan, strength, duration, partial)
    }

    pub(super) fn bending(&self, worst: &Worst, rows: &mut Rows) {
        let used = &worst.bending;
        let upright = self.laid.upright(timber::beam_upright(used.forces.upright), used, rows);
        rows.add(self.row("moment-upright"), self.title("moment up and down", used), upright);
        let share = self
            .bent(used)
            .from("upright", self.row("moment-upright"))
            .from("upright modulus", path("upright.modulus"));
        let share = if self.laid.on.thrusts() {
            let plan = self.laid.in_plan_at_the_worst(timber::beam_plan(used.forces.plan), used, rows);
            rows.add(self.row("moment-plan"), self.title("moment in plan at the same place", used), plan);
            share.from("plan", self.row("moment-plan")).from("plan modulus", path("plan.modulus"))
        } else {
            share.without("plan").without("plan modulus")
        };
        let share = self.by_wood(share, "bending", rows);
        let noun = self.laid.on.factors.noun("bending");
        self.share(&noun, self.title(members::words("bending"), used), share, rows);
    }

    pub(super) fn ring(&self, worst: &Worst, rows: &mut Rows) {
        let (used, factors) = (&worst.ring, &self.laid.planks.factors);
        let force = self.laid.in_plan_at_the_worst(timber::ring_force(used.forces.pull), used, rows);
        let force = rows.add(self.row("ring-force"), self.title("ring force, push below zero", used), force);
        let along = along(used);
        let bent = self.bent(used).value;
        let (area, strength) = (self.laid.left.area, self.strength(along));
        let share = timber::ring_used(force, area, strength, bent, self.duration(used), factors.partial)
            .from("force", self.row("ring-force"))
            .from("area", path("area"))
            .without("bending used");
        let share = self.by_ring_and_bending(share, along, rows);
        let share = self.laid.upright(share, used, rows);
        self.share(&factors.noun("ring"), self.title("strength used by ring force and bending", used), share, rows);
    }

    /// Adds what bears of the beam in bending, beside what `by_wood` adds.
    fn by_ring_and_bending(&self, share: Answer<Ratio>, along: &str, rows: &Rows) -> Answer<Ratio> {
        let moments = ["upright.modulus", "plan.modulus"].map(path);
        let share = moments.iter().fold(share, |share, path| bind(share, rows, path));
        bind(self.by_wood(share, along, rows), rows, &self.laid.planks.wood.values.bending.path)
    }

    pub(super) fn shear(&self, worst: &Worst, rows: &mut Rows) {
        let (used, factors) = (&worst.shear, &self.laid.planks.factors);
        let force = self.laid.upright(timber::beam_shear(used.forces.shear), used, rows);
        let force = rows.add(self.row("shear-force"), self.title("force across it", used), force);
        let (area, strength) = (self.laid.left.area, self.strength("shear"));
        let share =
            timber::planks_sheared(force, area, factors.uncracked, strength, self.duration(used), factors.partial)
                .from("shear", self.row("shear-force"))
                .from("area", path("area"))
                .without("uncracked");
        let share = self.by_wood(share, "shear", rows);
        self.share(&factors.noun("shear"), self.title(members::words("shear"), used), share, rows);
    }

    pub(super) fn twist(&self, worst: &Worst, rows: &mut Rows) {
        let (used, factors) = (&worst.twist, &self.laid.planks.factors);
        let words = "shear strength used by twist";
        if !used.is_lifted || used.share < NONE {
            // Poles do not lift it, and what lies between them may.
            if self.laid.has_secondary() && factors.code == Code::En {
                rows.not_known(self.row("twist"), format!("{}: {words} ({BESIDE})", self.on));
            }
            return;
        }
        let twist = self.laid.on.bound_all(timber::beam_twist(used.forces.twist), (used.group, used.combination), rows);
        let twist = self.laid.anchored(twist, rows);
        let twist = rows.add(self.row("twist-moment"), self.title("twist between anchors", used), twist);
        let (modulus, strength) = (self.laid.left.twist, self.strength("shear"));
        let share = timber::twist_used(twist, modulus, self.laid.shape, strength, self.duration(used), factors.partial)
            .from("twist", self.row("twist-moment"))
            .from("modulus", path("twist.modulus"))
            .without("shape");
        let sizes = ["wall.bond-beam.width", "wall.bond-beam.height", "wall.bond-beam.layers"];
        let share = sizes.iter().fold(share, |share, path| bind(share, rows, path));
        let share = self.by_wood(share, "shear", rows);
        self.share(&factors.noun("twist"), self.title(words, used), share, rows);
    }
}

/// Which strength the ring force uses.
pub(super) fn along(used: &Used) -> &'static str {
    if used.forces.pull > Force::ZERO { "tension" } else { "compression" }
}
