//! What the rafters of a second ring take from the poles, and lay on those that carry their heads.
//!
//! A rafter lies from a place between its two poles on the plate to the one of them that carries it. The boards reach from pole to
//! rafter and from rafter to pole: up to half way to either they lie on it.

use super::super::STANDARD_GRAVITY_M_S2;
use super::super::poles::{Layout, Lie};
use super::bays::{Band, Bay, band, strip};
use super::between::Pressing;
use super::cases::ZONES;
use crate::solve::space::{Vector, moved, size, way};

/// A second ring, as the frame takes it.
#[derive(Clone, Debug, PartialEq)]
pub struct SecondRing {
    /// Where its rafters lie on the plate: share of the way from the pole that rests on the other, 0 to 1.
    pub across: f64,
    /// Where each rests on its pole: share of the way from the plate to where the other pole of the bay crosses.
    pub shares: Vec<f64>,
    /// How far each reaches beyond that, in metres.
    pub beyond: f64,
    /// Kilograms on each metre of one.
    pub mass: f64,
}

/// Parts of the way along a bay in which a rafter that nears its pole takes evenly more or less.
const PARTS: u32 = 4;

impl SecondRing {
    /// Where the rafter of a bay rests. A ring of other poles has them where this one has.
    pub(super) fn share(&self, bay: usize) -> f64 {
        self.shares.get(bay % self.shares.len().max(1)).copied().unwrap_or(1.0)
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
    /// R l = ∫ q x dx        q: load on its strip, x: in plan from the plate towards its head, below zero on the eaves, l: to its head
    /// ```
    /// Source: moments about the plate; what is on a part of its way changes evenly there.
    pub(super) fn presses(&self, layout: &Layout, lies: &[Lie], number: usize, bay: &Bay) -> Pressing {
        let share = self.share(number);
        let [eave, plate, head] = self.axis(layout, lies, number);
        let [tail, span] = [way(eave, plate), way(plate, head)];
        let outward = tail[0].hypot(tail[1]) / span[0].hypot(span[1]);
        // The strip of one half of the bay, then of the other.
        let strips = |across: f64| [[0.5 * across, 0.5], [0.5, 0.5 * (1.0 + across)]];
        let mut zones = [0.0; ZONES];
        for half in 0..2 {
            let wide = |along: f64| {
                let [start, end] = strip(bay.inside, strips(self.across(number, along))[half]);
                start + along * (end - start)
            };
            for [from, to] in self.parts(number) {
                let (first, last) = (wide(from), wide(to));
                let lever = (first * (2.0 * from + to) + last * (from + 2.0 * to)) / 6.0;
                zones[bay.zones[0][half]] += (to - from) * lever / share;
            }
            let out = strip(bay.eaves, strips(self.across)[half]);
            zones[bay.zones[1][half]] -= outward * (2.0 * out[0] + out[1]) / 6.0;
        }
        let (tail, span) = (size(tail), size(span));
        let reach = span + self.beyond;
        let weight = self.mass * STANDARD_GRAVITY_M_S2 * (reach * reach - tail * tail) / (2.0 * span);
        Pressing { across: 1.0, zones, weight }
    }

    /// The axis of the rafter of a bay: at the eave, over the plate, on its pole.
    fn axis(&self, layout: &Layout, lies: &[Lie], number: usize) -> [Vector; 3] {
        let (one, other) = (&lies[number], &lies[layout.below(number)]);
        let on = |along: [f64; 2]| {
            let [from, to] = [one.at(along[0]), other.at(along[1])];
            moved(from, way(from, to), self.across)
        };
        [on([one.ends[0], other.ends[0]]), on([0.0; 2]), other.at(self.share(number) * other.first)]
    }
}
