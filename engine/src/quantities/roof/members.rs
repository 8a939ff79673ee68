//! Rows of each pole of a ring as a beam: where and under what it is used most in bending, shear, pull and push, and how it sags.

use super::super::line::bind;
use super::factors::by_wood;
use super::hold::Stood;
use super::second;
use crate::house::Ring;
use crate::reason::Answer;
use crate::roof::standing::{Lasting, Used};
use crate::row::Rows;
use crate::timber::{stress, used};
use crate::units::{Length, Ratio};

/// What a pole is held in, by the nouns of its rules.
pub(super) const NOUNS: [&str; 5] = ["bending", "shear", "compression", "tension", "sag"];

pub(super) fn words(noun: &str) -> &'static str {
    match noun {
        "bending" => "bending strength used",
        "shear" => "shear strength used",
        "compression" => "strength used where it is pushed and bent",
        "tension" => "strength used where it is pulled and bent",
        _ => "sag in the end, against its span",
    }
}

pub(super) fn path(place: usize, noun: &str) -> String {
    format!("roof.members.{}.{noun}", place + 1)
}

pub(super) fn tag(ring: &Ring, place: usize) -> String {
    ring.pole(place).tag.replace('-', " ")
}

pub(super) fn walk(stood: &Stood<'_>, rows: &mut Rows) {
    for place in 0..stood.ring.layout.rafters.len() {
        strength(stood, place, rows);
        sag(stood, place, rows);
    }
}

struct Member<'a, 'b> {
    stood: &'a Stood<'b>,
    place: usize,
    on: String,
}

fn strength(stood: &Stood<'_>, place: usize, rows: &mut Rows) {
    let set = &stood.ring.solved.sets[place];
    let rafter = &stood.ring.layout.rafters[place];
    let span = set.carry - rafter.overhang;
    let middle = rafter.pole.diameter(rafter.overhang + span * 0.5);
    let bears = stood.factors.bears(stood.held, &stood.strength.durations, span, middle);
    let under = Lasting { combinations: &stood.strength.combinations, bears: &bears };
    let Ok(worst) = stood.model.worst(&stood.answers, place, &stood.cuts(place), &under) else { return };
    let on = format!("place {}, {}", place + 1, tag(stood.ring, place));
    let member = Member { stood, place, on };
    if let Some(most) = &worst.bending {
        member.bending(most, rows);
    }
    if let Some(most) = &worst.shear {
        member.shear(most, rows);
    }
    if let Some(most) = &worst.compression {
        member.compression(most, (span, middle), rows);
    }
    if let Some(most) = &worst.tension {
        member.tension(most, rows);
    }
}

impl Member<'_, '_> {
    fn row(&self, noun: &str) -> String {
        path(self.place, noun)
    }

    /// Where along the pole, and under what.
    fn governs(&self, most: &Used) -> String {
        let (set, rafter) = (&self.stood.ring.solved.sets[self.place], &self.stood.ring.layout.rafters[self.place]);
        let near = |mark: Length| (most.section.along - mark).in_m().abs() < 1e-6;
        let at = if near(set.carry) {
            "at its first crossing".to_owned()
        } else if near(set.rest) {
            "where it rests".to_owned()
        } else if self.stood.model.bears_at(self.place).is_some_and(near) {
            "where it carries the second ring".to_owned()
        } else if near(rafter.overhang) {
            "over the wall".to_owned()
        } else {
            format!("{:.2} m from its butt", most.section.along.in_m())
        };
        format!("{at}, under {}", self.stood.governs(most.combination, most.feet).words())
    }

    fn forced<T>(&self, answer: Answer<T>, most: &Used, rows: &Rows) -> Answer<T> {
        self.stood.bound(answer, &self.stood.governs(most.combination, most.feet), rows)
    }

    /// Adds what makes the section at that place.
    fn cut<T>(&self, answer: Answer<T>, most: &Used, rows: &Rows) -> Answer<T> {
        let answer = bind(answer, rows, "roof.ring.pitch");
        match most.is_cut {
            true if self.stood.is_seat(self.place, most.section.along) => second::housed(answer, rows),
            true => bind(answer, rows, "roof.bolt.diameter"),
            false => answer,
        }
    }

    fn duration(&self, most: &Used) -> f64 {
        self.stood.strength.durations[most.combination]
    }

    fn bending(&self, most: &Used, rows: &mut Rows) {
        let (factors, values, on) = (&self.stood.factors, &self.stood.held.wood.values, &self.on);
        let governs = self.governs(most);
        let moment = self.forced(used::governing_moment(most.moment), most, rows);
        rows.add(self.row("moment"), format!("{on}: moment {governs}"), moment);
        let modulus = self.cut(used::governing_modulus(most.left.upright), most, rows);
        rows.add(self.row("modulus"), format!("{on}: section modulus there"), modulus);
        let strength = values.bending.value * factors.wet("bending");
        let share = used::bending_used(most.moment, most.left.upright, strength, self.duration(most), factors.partial)
            .from("moment", self.row("moment"))
            .from("modulus", self.row("modulus"));
        let share = by_wood(share, "bending", rows);
        rows.add(self.row(&factors.noun("bending")), format!("{on}: {} {governs}", words("bending")), share);
    }

    fn shear(&self, most: &Used, rows: &mut Rows) {
        let (factors, values, on) = (&self.stood.factors, &self.stood.held.wood.values, &self.on);
        let governs = self.governs(most);
        let [one, other] = most.section.shear;
        let across = self.forced(used::governing_shear(one, other).without("upright").without("sideways"), most, rows);
        let across = rows.add(self.row("shear-force"), format!("{on}: force across it {governs}"), across);
        let strength = values.shear.value * factors.wet("shear");
        let (duration, partial) = (self.duration(most), factors.partial);
        let share = used::shear_used(across, most.left.area, factors.uncracked, strength, duration, partial)
            .from("shear", self.row("shear-force"))
            .without("area")
            .without("uncracked");
        let share = self.cut(by_wood(share, "shear", rows), most, rows);
        rows.add(self.row(&factors.noun("shear")), format!("{on}: {} {governs}", words("shear")), share);
    }

    fn bent(&self, most: &Used) -> Ratio {
        let (factors, values) = (&self.stood.factors, &self.stood.held.wood.values);
        let strength = values.bending.value * factors.wet("bending");
        used::bending_used(most.moment, most.left.upright, strength, self.duration(most), factors.partial).value
    }

    fn tension(&self, most: &Used, rows: &mut Rows) {
        let (factors, values, on) = (&self.stood.factors, &self.stood.held.wood.values, &self.on);
        let governs = self.governs(most);
        let pull = self.forced(used::governing_pull(most.section.pull), most, rows);
        let pull = rows.add(self.row("pull"), format!("{on}: pull along it {governs}"), pull);
        let strength = values.tension.value * factors.wet("tension");
        let (duration, partial) = (self.duration(most), factors.partial);
        let share = used::pulled_and_bent(pull, most.left.area, strength, self.bent(most), duration, partial)
            .from("pull", self.row("pull"))
            .without("area")
            .without("bending used");
        let share = bind(by_wood(share, "tension", rows), rows, "poles.strength.bending");
        let share = self.cut(share, most, rows);
        rows.add(self.row(&factors.noun("tension")), format!("{on}: {} {governs}", words("tension")), share);
    }

    fn compression(&self, most: &Used, (span, middle): (Length, Length), rows: &mut Rows) {
        let (factors, values, on) = (&self.stood.factors, &self.stood.held.wood.values, &self.on);
        let governs = self.governs(most);
        let push = self.forced(used::governing_push(-most.section.pull), most, rows);
        let push = rows.add(self.row("push"), format!("{on}: push along it {governs}"), push);
        let (duration, partial) = (self.duration(most), factors.partial);
        let (kept, buckling) = factors.column(self.stood.held, span, middle, duration);
        let strength = values.compression.value * factors.wet("compression");
        let bent = self.bent(most);
        let share = match buckling {
            None => used::pushed_and_bent(push, most.left.area, kept, strength, bent, duration, partial),
            Some(buckling) => used::pushed_and_bent_further(
                push,
                most.left.area,
                strength * (duration * kept.in_fraction()),
                buckling,
                bent,
            ),
        };
        let share = ["area", "kept", "bending used", "buckling"].iter().fold(share, |share, name| share.without(name));
        let share = by_wood(share.from("push", self.row("push")), "compression", rows);
        let more = ["poles.strength.bending", "poles.strength.low-stiffness"];
        let share = more.iter().fold(share, |share, path| bind(share, rows, path));
        let share = self.cut(share, most, rows);
        rows.add(self.row(&factors.noun("compression")), format!("{on}: {} {governs}", words("compression")), share);
    }
}

fn sag(stood: &Stood<'_>, place: usize, rows: &mut Rows) {
    let Ok((sagged, sunk)) = stood.answers.sag(place, &stood.sag.combinations) else { return };
    let on = format!("place {}, {}", place + 1, tag(stood.ring, place));
    let (set, rafter) = (&stood.ring.solved.sets[place], &stood.ring.layout.rafters[place]);
    let lasting = |answer: Answer<Length>, at: usize, feet, rows: &Rows| {
        let governs = super::hold::Governs { acting: &stood.sag.acting[at], feet };
        (bind(stood.bound(answer, &governs, rows), rows, "poles.damp"), governs.words())
    };
    let (sinks, governs) = lasting(used::sunk_in_the_end(sunk.value), sunk.combination, sunk.feet, rows);
    rows.add(path(place, "sinks"), format!("{on}: sinks where it rests, in the end, under {governs}"), sinks);
    let (sags, governs) = lasting(used::sag_in_the_end(sagged.value), sagged.combination, sagged.feet, rows);
    let sags = rows.add(
        path(place, "sags"),
        format!("{on}: sag off the line from wall to rest, in the end, under {governs}"),
        sags,
    );
    let share = stress::sag_of_span(sags, set.rest - rafter.overhang).from("sag", path(place, "sags")).without("span");
    let share = bind(share, rows, "roof.ring.pitch");
    rows.add(path(place, &stood.factors.noun("sag")), format!("{on}: {}", words("sag")), share);
}
