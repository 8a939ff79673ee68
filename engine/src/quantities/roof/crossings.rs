//! Rows of each crossing of a ring, by the pole that rests there: how it bears, its notch, its bolt, the friction that would do without.

mod splits;

pub(super) use splits::{torn, wants};

use super::super::line::bind;
use super::factors::by_wood;
use super::hold::{Governs, Stood};
use super::members;
use crate::house::{Code, Held, Ring, Values};
use crate::roof::standing::{At, JointForces};
use crate::row::Rows;
use crate::timber::tables::factor;
use crate::timber::{bolt, crossing, eurocode, section, used};
use crate::units::{Angle, Area, Density, Force, Length, LineLoad, Pressure};

/// What a crossing is held in, by the nouns of its rules.
pub(super) const NOUNS: [&str; 5] = ["bearing", "notch", "split", "bolt-end", "bolt-side"];

pub(super) fn words(noun: &str) -> &'static str {
    match noun {
        "bearing" => "bearing strength used",
        "notch" => "shear strength used at the notch",
        "split" => "strength used that keeps it from splitting at its bolt",
        "bolt-end" => "share wanted of the wood between its bolt and the end of the piece that rests",
        "bolt-side" => "share wanted of the wood between its bolt and the side of the thinner pole",
        _ => "strength of its bolt used",
    }
}

pub(super) fn path(place: usize, noun: &str) -> String {
    format!("roof.crossings.{}.{noun}", place + 1)
}

pub(super) fn number(name: &str) -> f64 {
    factor(name).map_or(f64::NAN, |fact| fact.number)
}

/// How stiff the crossings are, push and tie, by the smallest seat among them; their angles and seats are noted.
pub(super) fn stiffness(held: &Held, ring: &Ring, angles: &[Angle], rows: &mut Rows) -> [LineLoad; 2] {
    let mut least: Option<(usize, Area)> = None;
    for (place, &angle) in angles.iter().enumerate() {
        let on = format!("crossing {}, where {} rests", place + 1, members::tag(ring, place));
        let turned = bind(used::crossing_angle(angle), rows, "roof.ring.pitch");
        rows.add(path(place, "angle"), format!("{on}: angle between the two poles"), turned);
        let below = &ring.solved.sets[ring.layout.below(place)];
        let depth = Stood::depth(ring, place);
        let flat = |diameter: Length| section::seat_width(diameter, depth).value;
        let [own, other] = [ring.solved.sets[place].rest_diameter, below.carry_diameter].map(flat);
        let [helps, helps_other] = helps(held, ring, place, [own, other], angle);
        let seat = used::crossing_area(own, other, angle, helps, helps_other).from("angle", path(place, "angle"));
        let seat =
            ["own width", "other width", "own helps", "other helps"].iter().fold(seat, |seat, name| seat.without(name));
        let seat = ["roof.bedding", "roof.ring.pitch"].iter().fold(seat, |seat, path| bind(seat, rows, path));
        let seat = rows.add(path(place, "seat"), format!("{on}: area on which it bears"), seat);
        if least.is_none_or(|(_, least)| seat < least) {
            least = Some((place, seat));
        }
    }
    let (place, area) = least.unwrap_or((0, Area::ZERO));
    let (values, set) = (&held.wood.values, &ring.solved.sets[place]);
    let below = &ring.solved.sets[ring.layout.below(place)];
    let across = number("e-across-share");
    let (one, other) = (set.rest_diameter, below.carry_diameter);
    let push = used::pressed_stiffness(values.stiffness.value, across, area, one, other)
        .from("stiffness", "poles.strength.stiffness")
        .from("area", path(place, "seat"));
    let push = ["across share", "first", "second"].iter().fold(push, |push, name| push.without(name));
    let push = bind(push, rows, "roof.ring.pitch");
    let push = rows.add("roof.joints.push", "how stiff a crossing is pressed together, at the smallest seat", push);
    let (density, from) = match &values.densities {
        Some([_, mean]) => (mean.value, mean.path.clone()),
        None => (rows.value("poles.density").unwrap_or(Density::ZERO), "poles.density".to_owned()),
    };
    let divisor = crossing::slip_divisor().unwrap_or(f64::NAN);
    let tie = crossing::bolt_slip(density, held.bolt.diameter.value, divisor)
        .from("density", from)
        .from("bolt", "roof.bolt.diameter");
    [push, rows.add("roof.joints.tie", "how stiff a bolt holds a crossing together", tie)]
}

/// Length along the grain beside the seat that helps on each of the two poles: on the one that rests and on that below it.
fn helps(held: &Held, ring: &Ring, place: usize, flats: [Length; 2], angle: Angle) -> [Length; 2] {
    let below = ring.layout.below(place);
    let (set, under) = (&ring.solved.sets[place], &ring.solved.sets[below]);
    let wood = [
        [set.rest - set.carry, ring.layout.rafters[place].pole.length - set.rest],
        [under.carry, under.rest - under.carry],
    ];
    beside(held, wood, flats, angle)
}

/// The same where so much wood lies along each before the middle of the seat and after it.
pub(super) fn beside(held: &Held, wood: [[Length; 2]; 2], flats: [Length; 2], angle: Angle) -> [Length; 2] {
    let added = if held.code == Code::En { Length::m(number("contact-more-m")) } else { Length::ZERO };
    let turned = angle.in_rad().sin();
    [0, 1].map(|pole| {
        let seat = flats[1 - pole] / turned;
        let [before, after] = wood[pole].map(|wood| (wood - seat * 0.5).max(Length::ZERO));
        eurocode::bearing_length(seat, added, before, after).value - seat
    })
}

/// What a bolt through two poles so thick carries before factors of time: across it with the rope of its washers, across it
/// without, along it by its washers and by its steel, the last with the factor of the wood, which it has not, taken out; none where
/// the code's way is not worked out.
pub(super) fn carried(
    values: &Values,
    partial: f64,
    (d, side): (Length, Length),
    [thick, other]: [Length; 2],
) -> Option<[Force; 4]> {
    let [low, _] = values.densities.as_ref()?;
    let right = Angle::rad(std::f64::consts::FRAC_PI_2);
    let along = bolt::embedment(d, low.value).value;
    let wood = bolt::embedment_at_angle(along, d, right, number("embedment-softwood")).value;
    let strength = Pressure::pa(number("bolt-tension-pa"));
    let yields = bolt::yield_moment(d, strength).value;
    let [thread, share, factor] = ["bolt-thread-share", "bolt-tension-share", "gamma-m2"].map(number);
    let breaks = |factor: f64| bolt::tension(d, strength, thread, share, factor).value;
    let washer = bolt::washer_area(side, d).value;
    let pull = bolt::washer_pull(values.across.value, washer).value;
    let [once, twice] = [number("johansen-once"), number("johansen-twice")];
    let across = |pull: Force| {
        let roped = |force: Force, factor: f64| bolt::with_rope(force, factor, pull, number("rope-share-bolt")).value;
        let ways = [
            bolt::crushed(wood, thick, d).value,
            bolt::crushed(wood, other, d).value,
            roped(bolt::tilted(wood, wood, thick, other, d).value, 1.0),
            roped(bolt::bent_once(wood, wood, thick, d, yields).value, once),
            roped(bolt::bent_once(wood, wood, other, d, yields).value, once),
            roped(bolt::bent_twice(wood, wood, d, yields).value, twice),
        ];
        bolt::least(&ways).map(|(_, force)| force)
    };
    let steel = breaks(factor) * partial;
    Some([across(pull.min(breaks(1.0)))?, across(Force::ZERO)?, pull, steel])
}

struct Crossing<'a, 'b> {
    stood: &'a Stood<'b>,
    place: usize,
    on: String,
}

pub(super) fn walk(stood: &Stood<'_>, rows: &mut Rows) {
    for place in 0..stood.ring.layout.rafters.len() {
        let on = format!("crossing {}, where {} rests", place + 1, members::tag(stood.ring, place));
        let crossing = Crossing { stood, place, on };
        let carried = crossing.carried();
        let bolt = carried.unwrap_or([Force::n(f64::INFINITY); 4]);
        let strength = &stood.strength;
        let Ok(forces) = stood.answers.joint(place, &strength.combinations, &strength.durations, bolt) else {
            continue;
        };
        let push = crossing.pushed("push", &forces.push, rows);
        match stood.factors.code {
            Code::En => crossing.bearing(("push", push), &forces.push, rows),
            // Allowable stress across the grain knows no duration: the greatest push of all counts.
            Code::Asce => {
                let Ok(most) = stood.answers.pressed(place, &strength.combinations, &[]) else { continue };
                let push = crossing.pushed("borne", &most, rows);
                crossing.bearing(("borne", push), &most, rows);
            }
        }
        crossing.notch(&forces, rows);
        match carried {
            Some(carried) => {
                crossing.bolt(&forces, carried, rows);
                let At { value: [across, _], combination, feet } = forces.bolt;
                crossing.wood(&forces, &At { value: across, combination, feet }, rows);
            }
            None => {
                crossing.across(&forces.across, rows);
                crossing.wood(&forces, &forces.across, rows);
                if let Some(lift) = &forces.lift {
                    crossing.lift(lift, rows);
                }
            }
        }
        crossing.friction(&forces, rows);
    }
}

impl Crossing<'_, '_> {
    fn row(&self, noun: &str) -> String {
        path(self.place, noun)
    }

    fn governs<T>(&self, at: &At<T>) -> Governs<'_> {
        self.stood.governs(at.combination, at.feet)
    }

    fn duration<T>(&self, at: &At<T>) -> f64 {
        self.stood.strength.durations[at.combination]
    }

    fn pushed(&self, noun: &str, at: &At<Force>, rows: &mut Rows) -> Force {
        let governs = self.governs(at).words();
        let words = if noun == "push" { "push" } else { "greatest push" };
        let push = self.stood.bound(used::crossing_push(at.value), &self.governs(at), rows);
        rows.add(self.row(noun), format!("{}: {words} under {governs}", self.on), push)
    }

    fn bearing(&self, (noun, push): (&str, Force), at: &At<Force>, rows: &mut Rows) {
        let (factors, values) = (&self.stood.factors, &self.stood.held.wood.values);
        let governs = self.governs(at).words();
        let area: Area = rows.value(&self.row("seat")).unwrap_or(Area::ZERO);
        let title = format!("{}: {} under {governs}", self.on, words("bearing"));
        if area <= Area::ZERO {
            rows.not_known(self.row(&factors.noun("bearing")), title);
            return;
        }
        let strength = values.across.value * factors.wet("across");
        let beside = number("kc90-none");
        let duration = if factors.code == Code::En { self.duration(at) } else { 1.0 };
        let share = used::seat_used(push, area, strength, beside, duration, factors.partial)
            .from("force", self.row(noun))
            .from("area", self.row("seat"))
            .without("beside");
        let share = by_wood(share, "across", rows);
        rows.add(self.row(&factors.noun("bearing")), title, share);
    }

    fn notch(&self, forces: &JointForces, rows: &mut Rows) {
        let (factors, values, at) = (&self.stood.factors, &self.stood.held.wood.values, &forces.push);
        let (diameter, cut) = (
            self.stood.ring.solved.sets[self.place].rest_diameter,
            self.stood.ring.layout.rafters[self.place].notch * 0.5,
        );
        let (strength, reach) =
            (values.shear.value * factors.wet("shear"), self.stood.model.notch_reach(self.place, true));
        let round = (diameter, cut, self.stood.hole());
        let share = factors.notched(at.value, round, reach, strength, self.duration(at));
        let share = bind(bind(share, rows, &self.row("push")), rows, "roof.bolt.diameter");
        let share = by_wood(bind(share, rows, "roof.ring.pitch"), "shear", rows);
        let title = format!("{}: {} under {}", self.on, words("notch"), self.governs(at).words());
        rows.add(self.row(&factors.noun("notch")), title, share);
    }

    fn carried(&self) -> Option<[Force; 4]> {
        let (bolt, ring) = (&self.stood.held.bolt, self.stood.ring);
        let half = ring.layout.rafters[self.place].notch * 0.5;
        let below = &ring.solved.sets[ring.layout.below(self.place)];
        let woods = [ring.solved.sets[self.place].rest_diameter, below.carry_diameter].map(|thick| thick - half);
        carried(
            &self.stood.held.wood.values,
            self.stood.factors.partial,
            (bolt.diameter.value, bolt.washer.value),
            woods,
        )
    }

    /// Notes what the bolt holds across it.
    fn across(&self, at: &At<Force>, rows: &mut Rows) -> Force {
        let governs = self.governs(at);
        let held = self.stood.bound(used::held_across(at.value), &governs, rows);
        let title = format!("{}: what its bolt holds across it under {}", self.on, governs.words());
        rows.add(self.row("across"), title, held)
    }

    fn lift(&self, at: &At<Force>, rows: &mut Rows) {
        let governs = self.governs(at);
        let title = format!("{}: what lifts the pole off, under {}", self.on, governs.words());
        let lifts = self.stood.bound(used::lifted_off(at.value), &governs, rows);
        rows.add(self.row("lift"), title, lifts);
    }

    fn bolt(&self, forces: &JointForces, carried: [Force; 4], rows: &mut Rows) {
        let (factors, at) = (&self.stood.factors, &forces.bolt);
        let governs = self.governs(at).words();
        let [across, along] = at.value;
        let by = |value: Force| At { value, combination: at.combination, feet: at.feet };
        let across = self.across(&by(across), rows);
        let (duration, partial) = (self.duration(at), factors.partial);
        let whole = if along > Force::ZERO { carried[1] } else { carried[0] };
        let share = used::bolt_used(across, along, whole, carried[2], carried[3] / partial, duration, partial)
            .from("across", self.row("across"))
            .without("carried across")
            .without("carried along")
            .without("steel")
            .without("duration")
            .without("partial");
        let share = if along > Force::ZERO {
            self.lift(&by(along), rows);
            share.from("along", self.row("lift"))
        } else {
            share.without("along")
        };
        let roped = carried[0] < carried[1] * (1.0 + number("rope-share-bolt") - 1e-9);
        let share = if roped || along > Force::ZERO {
            bind(bind(share, rows, "roof.bolt.washer"), rows, "poles.strength.across")
        } else {
            share
        };
        let more = ["roof.bolt.diameter", "poles.strength.low-density", "poles.damp"];
        let share = more.iter().fold(share, |share, path| bind(share, rows, path));
        let title = format!("{}: {} under {governs}", self.on, words("bolt"));
        rows.add(self.row(&factors.noun("bolt")), title, share);
    }

    fn friction(&self, forces: &JointForces, rows: &mut Rows) {
        match &forces.friction {
            Some(at) => {
                let governs = self.governs(at);
                let title = format!("{}: friction that would do without its bolt, under {}", self.on, governs.words());
                let needed = self.stood.bound(used::friction_needed(at.value), &governs, rows);
                rows.add(self.row("friction"), title, needed);
            }
            None => {
                let title = format!("{}: no friction does without its bolt, since it is lifted off", self.on);
                rows.not_known(self.row("friction"), title);
            }
        }
    }
}
