//! What the rafters of a second ring take from the poles, and lay on those that carry their heads.
//!
//! A rafter lies from a place between its two poles on the plate to the one of them that carries it. The boards reach from pole to
//! rafter and from rafter to pole: up to half way to either they lie on it.

use super::super::STANDARD_GRAVITY_M_S2;
use super::super::poles::{Layout, Leaning, Lie};
use super::bays::{Band, Bay, band, bays, turning};
use super::between::Pressing;
use super::cases::ZONES;
use super::notch::half_length;
use super::{Model, Secondaries};
use crate::solve::space::{Vector, cross, moved, size, way};
use crate::units::{Angle, Force, Length};

/// A second ring, as the frame takes it.
#[derive(Clone, Debug, PartialEq)]
pub struct SecondRing {
    /// Where its rafters lie on the plate: share of the way from the pole that rests on the other, 0 to 1.
    pub across: f64,
    /// Bay by bay. A ring of other poles has them where this one has.
    pub rafters: Vec<Resting>,
    /// How far each reaches beyond that, in metres.
    pub beyond: f64,
    /// Kilograms on each metre of one.
    pub mass: f64,
    /// Diameter of one, and how deep its pole is cut where it rests, in metres.
    pub cut: [f64; 2],
    /// Diameter of the hole through both there, in metres; zero where none is bored.
    pub hole: f64,
}

/// A rafter of a second ring, beside the poles of its bay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resting {
    /// Where it rests on its pole: share of the way from the plate to where the other pole of the bay crosses.
    pub share: f64,
    /// Its axis over the plate, from the support of the pole that rests on the other of its bay: along the line to the support of
    /// that and to the left of it, as shares of that line, and above it in metres. A round plate lies outside of the line.
    pub foot: Vector,
    /// Its axis where it rests, from that of its pole: along it in plan, to the left of that, above it, in metres.
    pub head: Vector,
    /// From the eave to over the plate along it, in metres.
    pub tail: f64,
}

impl Resting {
    /// The same of one that lies in a bay of a ring.
    #[must_use]
    pub fn of(one: &Leaning, layout: &Layout, bay: usize) -> Resting {
        let [from, to] = chord(layout, bay);
        let line = way(from, to);
        let long = line[0].hypot(line[1]);
        let [along, left, up] = turned(way(from, one.axis[1]), line);
        let foot = [along / long, left / long, up - along / long * line[2]];
        let head = turned(way(one.under, one.axis[2]), course(layout, layout.below(bay)));
        Resting { share: one.share, foot, head, tail: one.lengths[0].in_m() }
    }
}

/// The supports of the two poles of a bay.
fn chord(layout: &Layout, bay: usize) -> [Vector; 2] {
    [bay, layout.below(bay)].map(|pole| layout.rafters[pole].support.map(Length::in_m))
}

/// The way of a pole in plan.
fn course(layout: &Layout, pole: usize) -> Vector {
    let rafter = &layout.rafters[pole];
    let [x, y] = [0, 1].map(|axis: usize| (rafter.toward[axis] - rafter.support[axis]).in_m());
    [x, y, 0.0]
}

/// A way as so much along a line in plan, to the left of it, and up.
fn turned([x, y, up]: Vector, [to_x, to_y, _]: Vector) -> Vector {
    let long = to_x.hypot(to_y);
    [(x * to_x + y * to_y) / long, (y * to_x - x * to_y) / long, up]
}

/// The way of which that is so.
fn back([along, left, up]: Vector, [to_x, to_y, _]: Vector) -> Vector {
    let long = to_x.hypot(to_y);
    [(along * to_x - left * to_y) / long, (along * to_y + left * to_x) / long, up]
}

/// Where the rafter of a second ring rests on a pole.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seat {
    /// From the butt of the pole, in metres.
    pub along: f64,
    /// How deep the pole is cut there, and half the length of the cut.
    pub depth: f64,
    pub half: f64,
    /// Diameter of the hole there.
    pub hole: f64,
}

/// What a pole loses where the rafter of a second ring rests on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lost {
    /// Diameter of the pole there.
    pub diameter: Length,
    /// How deep it is cut.
    pub depth: Length,
    /// Diameter of the hole.
    pub hole: Length,
}

impl Model {
    /// The same with the rafters of a second ring on its poles: each is bent, cut and bored where one rests.
    #[must_use]
    pub fn bearing(mut self, between: Option<&Secondaries>) -> Model {
        if let Some(Secondaries::OnPoles(own)) = between {
            let seat = |pole: usize| own.seat(&self.layout, &self.lies, self.layout.above(pole));
            self.seats = (0..self.lies.len()).map(seat).collect();
        }
        self
    }

    /// Where the rafter of a second ring rests on a pole, from its butt.
    #[must_use]
    pub fn bears_at(&self, place: usize) -> Option<Length> {
        self.seats.get(place).map(|seat| Length::m(seat.along))
    }

    /// What a pole loses there; none where it is left whole.
    #[must_use]
    pub fn lost_at_seat(&self, place: usize) -> Option<Lost> {
        let seat = self.seats.get(place).filter(|seat| seat.depth > 0.0 || seat.hole > 0.0)?;
        let [diameter, depth, hole] = [self.diameter(place, seat.along), seat.depth, seat.hole].map(Length::m);
        Some(Lost { diameter, depth, hole })
    }

    /// What the rafter of each bay presses on its pole under each basic load: its own weight, then a pascal on each zone.
    #[must_use]
    pub fn presses(&self, own: &SecondRing, first_half: Angle) -> Vec<Vec<Force>> {
        let bays = bays(&self.layout, &self.lies, first_half);
        let presses = |(number, bay): (usize, &Bay)| {
            let pressing = own.presses(&self.layout, &self.lies, number, bay);
            std::iter::once(pressing.weight).chain(pressing.zones).map(Force::n).collect()
        };
        bays.iter().enumerate().map(presses).collect()
    }
}

/// Parts of the way along a bay in which a rafter that nears its pole takes evenly more or less.
const PARTS: u32 = 4;

impl SecondRing {
    /// The rafter of a bay.
    fn resting(&self, bay: usize) -> Resting {
        let whole = Resting { share: 1.0, foot: [self.across, 0.0, 0.0], head: [0.0; 3], tail: 0.0 };
        self.rafters.get(bay % self.rafters.len().max(1)).copied().unwrap_or(whole)
    }

    /// Where it rests.
    pub(super) fn share(&self, bay: usize) -> f64 {
        self.resting(bay).share
    }

    /// How far across its bay a rafter lies at a share of the way.
    fn across(&self, bay: usize, along: f64) -> f64 {
        self.across + (1.0 - self.across) * along / self.share(bay)
    }

    fn parts(&self, bay: usize) -> impl Iterator<Item = [f64; 2]> {
        let share = self.share(bay);
        (0..PARTS).map(move |part| [part, part + 1].map(|end| share * f64::from(end) / f64::from(PARTS)))
    }

    /// What the two poles of a bay carry of it themselves.
    pub(super) fn bands(&self, number: usize, bay: &Bay) -> Vec<Band> {
        let mut all = Vec::new();
        let [one, other] = bay.inside;
        let halves = |along: f64| {
            let across = self.across(number, along);
            [0.5 * across, 0.5 * (1.0 - across)]
        };
        for (place, own, next) in [(0, one, other), (1, other, one)] {
            for part in self.parts(number) {
                all.extend(band(bay.zones[0][place], (own, next), part, part.map(|along| halves(along)[place])));
            }
            all.extend(band(bay.zones[0][place], (own, next), [self.share(number), 1.0], [0.5; 2]));
        }
        let [one, other] = bay.eaves;
        for (place, own, next) in [(0, one, other), (1, other, one)] {
            all.extend(band(bay.zones[1][place], (own, next), [0.0, 1.0], [halves(0.0)[place]; 2]));
        }
        all
    }

    /// What the rafter of a bay presses on its pole.
    ///
    /// ```text
    /// R l = ∫ q x dA        q: load on its strip, x: in plan along it from over the plate, below zero outside of it, l: to its head
    /// ```
    /// Source: moments about where it lies on the plate.
    pub(super) fn presses(&self, layout: &Layout, lies: &[Lie], number: usize, bay: &Bay) -> Pressing {
        let [_, plate, head] = self.axis(layout, lies, number);
        let [run, aside, _] = way(plate, head);
        let square = run * run + aside * aside;
        let lever = |[x, y]: [f64; 2]| ((x - plate[0]) * run + (y - plate[1]) * aside) / square;
        // The strip of one half of the bay, then of the other.
        let strips = |across: f64| [[0.5 * across, 0.5], [0.5, 0.5 * (1.0 + across)]];
        let mut zones = [0.0; ZONES];
        for half in 0..2 {
            let wide = |along: f64| strips(self.across(number, along))[half];
            zones[bay.zones[0][half]] += turning(bay.inside, [0.0, self.share(number)], wide, lever);
            zones[bay.zones[1][half]] += turning(bay.eaves, [0.0, 1.0], |_| strips(self.across)[half], lever);
        }
        let (tail, span) = (self.resting(number).tail, size(way(plate, head)));
        let reach = span + self.beyond;
        let weight = self.mass * STANDARD_GRAVITY_M_S2 * (reach * reach - tail * tail) / (2.0 * span);
        Pressing { across: 1.0, zones, weight }
    }

    /// Where the rafter of a bay rests on the pole that carries it.
    pub(super) fn seat(&self, layout: &Layout, lies: &[Lie], number: usize) -> Seat {
        let lower = &lies[layout.below(number)];
        let at = self.share(number) * lower.first;
        let [_, plate, head] = self.axis(layout, lies, number);
        let [own, others] = [way(plate, head), lower.way(at)];
        let sine = size(cross(own, others)) / (size(own) * size(others));
        let [diameter, depth] = self.cut;
        Seat { along: at - lower.ends[0], depth, half: half_length(depth, diameter, sine), hole: self.hole }
    }

    /// The axis of the rafter of a bay: at the eave, over the plate, where it rests.
    pub(super) fn axis(&self, layout: &Layout, lies: &[Lie], number: usize) -> [Vector; 3] {
        let (own, below) = (self.resting(number), layout.below(number));
        let [from, to] = chord(layout, number);
        let line = way(from, to);
        let long = line[0].hypot(line[1]);
        let [along, left, up] = own.foot;
        let plate = moved(from, back([along * long, left * long, up + along * line[2]], line), 1.0);
        let under = lies[below].at(own.share * lies[below].first);
        let head = moved(under, back(own.head, course(layout, below)), 1.0);
        let span = way(plate, head);
        [moved(plate, span, -own.tail / size(span)), plate, head]
    }
}
