//! Rows of the heads of a second ring: what each presses on its pole, how it bears there, how its notch is sheared, what its bolt
//! holds.

mod bored;

use super::super::line::bind;
use super::factors::{Factors, by_wood};
use super::hold::Stood;
use super::{crossings, loads, members, second};
use crate::house::second_ring::{self, SecondRing};
use crate::house::{Code, Held};
use crate::known::Known;
use crate::reason::Answer;
use crate::roof;
use crate::roof::standing;
use crate::row::Rows;
use crate::timber::{section, used};
use crate::units::{Angle, Area, Force, Length};

fn path(bay: usize, noun: &str) -> String {
    format!("roof.crossings.second-{}.{noun}", bay + 1)
}

/// The head of the rafter of a bay.
struct Head<'a, 'b> {
    stood: &'a Stood<'b>,
    own: &'a SecondRing,
    /// Of its rafter.
    diameter: Length,
    bay: usize,
    on: String,
    /// What it presses under each combination.
    presses: Vec<Force>,
}

/// What a head presses, and under which combination.
type Under = (Force, usize);

pub(super) fn walk(
    stood: &Stood<'_>,
    (diameter, own, on_frame): (Length, &SecondRing, &standing::SecondRing),
    rows: &mut Rows,
) {
    let shares: Vec<Vec<f64>> = stood.strength.combinations.iter().map(|one| stood.answers.shares(one)).collect();
    let all = stood.model.presses(on_frame, Angle::ZERO);
    for (bay, basic) in all.iter().enumerate() {
        let press = |shares: &Vec<f64>| basic.iter().zip(shares).map(|(force, share)| *force * *share).sum();
        let presses = shares.iter().map(press).collect();
        let head = Head { stood, own, diameter, bay, on: words(own, stood, bay), presses };
        head.bearing(rows);
        head.notch(rows);
        head.held(rows);
    }
    unheld(own, &stood.factors, rows);
}

/// Says that nothing is written that holds the heads.
fn unheld(own: &SecondRing, factors: &Factors, rows: &mut Rows) {
    if own.bolt.is_none() {
        let title = "what holds the heads of the second ring: write a bolt through each, or an engineer decides";
        rows.not_known(format!("roof.crossings.second.{}", factors.noun("bolt")), title);
    }
}

/// What cannot be said of them since snow or wind is not known.
pub(super) fn not_known(own: &SecondRing, held: &Held, rows: &mut Rows) {
    let factors = Factors::of(held);
    let notch = (own.notch.value > Length::ZERO).then_some("notch");
    let bolt = own.bolt.is_some().then_some(["bolt", "split", "bolt-end", "bolt-side"]);
    for bay in 0..own.rafters.len() {
        for noun in ["bearing"].into_iter().chain(notch).chain(bolt.into_iter().flatten()) {
            let title = format!("second ring, bay {}: {}", bay + 1, crossings::words(noun));
            rows.not_known(path(bay, &factors.noun(noun)), title);
        }
    }
    unheld(own, &factors, rows);
}

fn words(own: &SecondRing, stood: &Stood<'_>, bay: usize) -> String {
    let next = stood.ring.layout.below(bay) + 1;
    let tag = members::tag(stood.ring, own.rafters[bay].on);
    format!("rafter between places {} and {next}, on {tag}", bay + 1)
}

impl Head<'_, '_> {
    fn row(&self, noun: &str) -> String {
        path(self.bay, noun)
    }

    fn lean(&self) -> (Angle, String) {
        (self.own.rafters[self.bay].lean, second::place(self.bay, "lean"))
    }

    /// That of which a figure is greatest; what stands behind the edge board lies on the poles alone.
    fn most(&self, of: impl Fn(&Under) -> f64) -> Option<Under> {
        let dry = |(_, at): &Under| self.stood.strength.combinations[*at].extras.iter().all(|pond| *pond == 0.0);
        let all = self.presses.iter().enumerate().map(|(at, press)| (*press, at)).filter(dry);
        all.max_by(|one, other| of(one).total_cmp(&of(other)))
    }

    fn duration(&self, at: usize) -> f64 {
        if self.stood.factors.code == Code::En { self.stood.strength.durations[at] } else { 1.0 }
    }

    fn governs(&self, at: usize) -> String {
        self.stood.strength.acting[at].name()
    }

    fn pressed(&self, noun: &str, (press, at): Under, rows: &mut Rows) {
        let press =
            loads::bound(second::placed(roof::second_press(press), rows), &self.stood.strength.acting[at], rows);
        let title = format!("{}: what it presses on it, plumb, under {}", self.on, self.governs(at));
        rows.add(self.row(noun), title, press);
    }

    fn bearing(&self, rows: &mut Rows) {
        let factors = &self.stood.factors;
        let Some(most) = self.most(|(press, at)| press.in_n() / self.duration(*at)) else { return };
        self.pressed("press", most, rows);
        let (lean, leans) = self.lean();
        let push = roof::second_push(most.0, lean).from("press", self.row("press")).from("lean", leans);
        let title = format!("{}: what presses the two together, under {}", self.on, self.governs(most.1));
        let push = rows.add(self.row("push"), title, push);
        let seat = self.seat(rows);
        let title = format!("{}: {} under {}", self.on, crossings::words("bearing"), self.governs(most.1));
        if seat <= Area::ZERO {
            rows.not_known(self.row(&factors.noun("bearing")), title);
            return;
        }
        let strength = self.stood.held.wood.values.across.value * factors.wet("across");
        let (beside, duration) = (crossings::number("kc90-none"), self.duration(most.1));
        let share = used::seat_used(push, seat, strength, beside, duration, factors.partial)
            .from("force", self.row("push"))
            .from("area", self.row("seat"))
            .without("beside");
        rows.add(self.row(&factors.noun("bearing")), title, by_wood(share, "across", rows));
    }

    /// Half of what the two are let into each other lies inside either: on a scribed seat no less than two flats so deep bears.
    fn seat(&self, rows: &mut Rows) -> Area {
        let (one, ring) = (&self.own.rafters[self.bay], self.stood.ring);
        let depth = (self.own.notch.value + self.own.housing.value + ring.bedding.value) * 0.5;
        let diameter = self.diameter;
        let pole = ring.layout.rafters[one.on].pole;
        let [own, other] = [diameter, pole.diameter(one.along)].map(|thick| section::seat_width(thick, depth).value);
        let wood =
            [[one.lengths[0] + one.lengths[1], second_ring::beyond(diameter)], [one.along, pole.length - one.along]];
        let [helps, helps_other] = crossings::beside(self.stood.held, wood, [own, other], one.angle);
        let seat = used::crossing_area(own, other, one.angle, helps, helps_other)
            .from("angle", second::place(self.bay, "angle"));
        let names = ["own width", "other width", "own helps", "other helps"];
        let seat = names.iter().fold(seat, |seat, name| seat.without(name));
        let seat = bind(second::placed(seat, rows), rows, "roof.bedding");
        let title = format!("{}: area on which it bears at the least, each scribed to the other all round", self.on);
        rows.add(self.row("seat"), title, seat)
    }

    /// The force that uses most of the wood for its time.
    fn lasting(&self, of: impl Fn(Force) -> Force) -> Option<Under> {
        self.most(|&(press, at)| of(press).in_n() / self.stood.strength.durations[at])
    }

    /// Adds what a force on it follows from, that has no row.
    fn forced<T>(&self, answer: Answer<T>, at: usize, rows: &Rows) -> Answer<T> {
        let answer = bind(second::placed(answer, rows), rows, &second::place(self.bay, "lean"));
        loads::bound(answer, &self.stood.strength.acting[at], rows)
    }

    /// How its own notch is sheared where it rests, by all that presses the two together.
    fn notch(&self, rows: &mut Rows) {
        let (cut, diameter) = (self.own.notch.value, self.diameter);
        let (lean, _) = self.lean();
        let pushed = |press: Force| roof::second_push(press, lean).value;
        let Some((press, at)) = self.lasting(pushed).filter(|_| cut > Length::ZERO) else { return };
        let factors = &self.stood.factors;
        let (push, duration) = (pushed(press), self.stood.strength.durations[at]);
        let strength = self.stood.held.wood.values.shear.value * factors.wet("shear");
        let flat = section::seat_width(self.pole_diameter(), cut).value;
        let reach = flat * (0.5 / self.own.rafters[self.bay].angle.in_rad().sin());
        let share = factors.notched(push, (diameter, cut, self.hole()), reach, strength, duration);
        let share = by_wood(second::housed(self.forced(share, at, rows), rows), "shear", rows);
        let title = format!("{}: {} under {}", self.on, crossings::words("notch"), self.governs(at));
        rows.add(self.row(&factors.noun("notch")), title, share);
    }

    fn hole(&self) -> Length {
        self.own.bolt.as_ref().map_or(Length::ZERO, |bolt| bolt.value)
    }

    /// Of the pole where it carries it.
    fn pole_diameter(&self) -> Length {
        let one = &self.own.rafters[self.bay];
        self.stood.ring.layout.rafters[one.on].pole.diameter(one.along)
    }

    /// What lifts it off its pole at most; none where nothing does.
    fn lifted(&self, rows: &mut Rows) -> Option<Force> {
        let (lean, leans) = self.lean();
        let lifts = |press: Force| roof::second_lift(press, lean).value;
        let most = self.most(|(press, _)| lifts(*press).in_n()).filter(|(press, _)| lifts(*press) > Force::ZERO)?;
        self.pressed("lift-press", most, rows);
        let lift = roof::second_lift(most.0, lean).from("press", self.row("lift-press")).from("lean", leans);
        let title = format!("{}: what lifts it off, under {}", self.on, self.governs(most.1));
        Some(rows.add(self.row("lift"), title, lift))
    }

    /// What its bolt would have to hold across it, where the code's way to hold it is not worked out.
    fn across(&self, rows: &mut Rows) {
        let (lean, leans) = self.lean();
        let Some(most) = self.most(|(press, _)| roof::second_across(*press, lean).value.in_n()) else { return };
        self.pressed("bolt-press", most, rows);
        let across = roof::second_across(most.0, lean).from("press", self.row("bolt-press")).from("lean", leans);
        let title = format!("{}: what its bolt holds across it under {}", self.on, self.governs(most.1));
        rows.add(self.row("across"), title, across);
    }

    /// What holds it: its bolt; without one, the friction that would do.
    fn held(&self, rows: &mut Rows) {
        match &self.own.bolt {
            Some(bolt) => {
                self.bolted(bolt, rows);
                self.bored(bolt, rows);
            }
            None if self.lifted(rows).is_some() => {
                let title = format!("{}: no friction holds it without a bolt, since it is lifted off", self.on);
                rows.not_known(self.row("friction"), title);
            }
            None => {
                let (lean, leans) = self.lean();
                let friction = roof::second_friction(lean).from("lean", leans);
                let title = format!("{}: friction that would do without a bolt", self.on);
                rows.add(self.row("friction"), title, friction);
            }
        }
    }

    /// What its bolt uses.
    fn bolted(&self, bolt: &Known<Length>, rows: &mut Rows) {
        let (lean, leans) = self.lean();
        let (held, factors) = (self.stood.held, &self.stood.factors);
        let woods = [self.diameter - self.own.notch.value, self.pole_diameter() - self.own.housing.value];
        let bolts = (bolt.value, held.bolt.washer.value);
        let Some([roped, bare, pull, steel]) = crossings::carried(&held.wood.values, factors.partial, bolts, woods)
        else {
            self.across(rows);
            self.lifted(rows);
            let title = format!("{}: {}", self.on, crossings::words("bolt"));
            rows.not_known(self.row(&factors.noun("bolt")), title);
            return;
        };
        let partial = factors.partial;
        let parts = |press: Force| {
            let lift = roof::second_lift(press, lean).value.max(Force::ZERO);
            (roof::second_across(press, lean).value, lift, if lift > Force::ZERO { bare } else { roped })
        };
        let share = |&(press, at): &Under| {
            let (across, lift, whole) = parts(press);
            used::bolt_used(across, lift, whole, pull, steel / partial, self.duration(at), partial)
        };
        let Some(most) = self.most(|under| share(under).value.in_fraction()) else { return };
        self.pressed("bolt-press", most, rows);
        let (press, governs) = (self.row("bolt-press"), self.governs(most.1));
        let across = roof::second_across(most.0, lean).from("press", press.as_str()).from("lean", leans);
        rows.add(self.row("across"), format!("{}: what its bolt holds across it under {governs}", self.on), across);
        let mut share = share(&most).from("across", self.row("across"));
        for name in ["carried across", "carried along", "steel"] {
            share = share.without(name);
        }
        self.lifted(rows);
        let share = bind(share.without("along"), rows, &press);
        let more = ["roof.secondary.bolt", "roof.bolt.washer", "poles.strength.low-density"];
        let share = more.iter().fold(share, |share, path| bind(share, rows, path));
        let title = format!("{}: {} under {governs}", self.on, crossings::words("bolt"));
        rows.add(self.row(&factors.noun("bolt")), title, by_wood(share, "across", rows));
    }
}
