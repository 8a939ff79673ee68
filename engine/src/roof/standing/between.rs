//! Secondary rafters between the poles of a ring: each lies on the plate and on a trimmer from pole to pole, at one share of the
//! way across its bay all along, and so in the deck's ruled surface.

use super::super::STANDARD_GRAVITY_M_S2;
use super::super::poles::{self, Layout, Lie, Ring};
use super::bays::{Bay, strip};
use super::cases::ZONES;
use super::{Fault, SecondRing};
use crate::solve::space::{Vector, moved, size, way};

/// Secondary rafters of one kind in all bays.
#[derive(Clone, Debug, PartialEq)]
pub enum Secondaries {
    /// Each on a trimmer between two poles.
    Trimmed(Between),
    /// Each on a pole.
    OnPoles(SecondRing),
}

impl Secondaries {
    /// What they press on the poles of a bay.
    pub(super) fn presses(&self, layout: &Layout, lies: &[Lie], pole: usize, bay: &Bay) -> Vec<Pressing> {
        match self {
            Secondaries::Trimmed(own) => own.presses(bay, &own.trimmed_on(layout, lies, pole)),
            Secondaries::OnPoles(own) => vec![own.presses(layout, lies, pole, bay)],
        }
    }

    /// Where they press on them, as a share of the way from the plate to the crossing.
    pub(super) fn share(&self, pole: usize) -> f64 {
        match self {
            Secondaries::Trimmed(own) => own.at,
            Secondaries::OnPoles(own) => own.share(pole),
        }
    }
}

/// Secondary rafters on trimmers, the same in each bay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// How many in a bay.
    pub count: u32,
    /// Where their trimmers lie: share of the way from the plate to where the two poles of the bay cross in plan, 0 to 1.
    pub at: f64,
    /// Kilograms on each metre of a secondary rafter, and of a trimmer.
    pub masses: [f64; 2],
}

/// The secondary rafters of one bay, in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Trimmed {
    /// The axis of each at the eave, over the plate, on its trimmer.
    pub rafters: Vec<[Vector; 3]>,
    /// The ends of the trimmer, on the axes of the bay's two poles.
    pub trimmer: [Vector; 2],
    /// The butts of those poles.
    pub eave: [Vector; 2],
}

/// What a secondary rafter presses on its trimmer, or on its pole: in newtons for each pascal on each zone, and in newtons by its weight
/// and its share of the trimmer's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Pressing {
    /// Where it does, as a share of the way across its bay.
    pub across: f64,
    pub zones: [f64; ZONES],
    pub weight: f64,
}

impl Between {
    /// Where the secondary rafters of each bay lie; that of a pole is the bay between it and the one that it rests on.
    ///
    /// # Errors
    /// Poles that make no ring.
    pub fn trimmed(&self, layout: &Layout, ring: &Ring) -> Result<Vec<Trimmed>, Fault> {
        let lies = poles::laid(layout, &ring.sets)?;
        Ok((0..lies.len()).map(|pole| self.trimmed_on(layout, &lies, pole)).collect())
    }

    pub(super) fn trimmed_on(&self, layout: &Layout, lies: &[Lie], pole: usize) -> Trimmed {
        let below = layout.below(pole);
        let sides = [(&lies[pole], lies[pole].second()), (&lies[below], lies[below].first)];
        let [eave, plate, trimmer] = [
            sides.map(|(lie, _)| lie.at(lie.ends[0])),
            sides.map(|(lie, _)| lie.at(0.0)),
            sides.map(|(lie, reach)| lie.at(self.at * reach)),
        ];
        let lying = |place: u32| {
            let across = self.across(place);
            [eave, plate, trimmer].map(|[one, other]| moved(one, way(one, other), across))
        };
        Trimmed { rafters: (0..self.count).map(lying).collect(), trimmer, eave }
    }

    /// Share of the way across a bay at which one of its secondary rafters lies.
    fn across(&self, place: u32) -> f64 {
        f64::from(place + 1) / f64::from(self.count + 1)
    }

    /// How far across a bay its own poles carry: half way to the first secondary rafter.
    pub(super) fn first(&self) -> f64 {
        0.5 * self.across(0)
    }

    /// What the secondary rafters of a bay press on their trimmer.
    ///
    /// ```text
    /// R l = ∫ q x dx        q: load on its strip, x: in plan from the plate towards the eye, below zero on the eaves, l: to the trimmer
    /// ```
    /// Source: moments about the plate; the strips of a bay change evenly along it.
    pub(super) fn presses(&self, bay: &Bay, trimmed: &Trimmed) -> Vec<Pressing> {
        let share_of_trimmer =
            self.masses[1] * size(way(trimmed.trimmer[0], trimmed.trimmer[1])) / f64::from(self.count);
        let pressing = |(place, &[eave, plate, end]): (u32, &[Vector; 3])| {
            let across = self.across(place);
            let wide = [across - self.first(), across + self.first()];
            let [over, out] = [bay.inside, bay.eaves].map(|sides| strip(sides, wide));
            let [tail, span] = [way(eave, plate), way(plate, end)];
            let outward = tail[0].hypot(tail[1]) / span[0].hypot(span[1]);
            let last = over[0] + self.at * (over[1] - over[0]);
            let pressed = [self.at * (over[0] + 2.0 * last) / 6.0, -outward * (2.0 * out[0] + out[1]) / 6.0];
            let mut zones = [0.0; ZONES];
            for (zones_of_part, pressed) in bay.zones.iter().zip(pressed) {
                // One in the middle of its bay belongs to both halves.
                let far = (across - 0.5).signum() * f64::from(u8::from((across - 0.5).abs() > 1e-9));
                zones[zones_of_part[0]] += 0.5 * (1.0 - far) * pressed;
                zones[zones_of_part[1]] += 0.5 * (1.0 + far) * pressed;
            }
            let [tail, span] = [size(tail), size(span)];
            let own = self.masses[0] * (span + tail) * 0.5 * (span - tail) / span;
            Pressing { across, zones, weight: (own + share_of_trimmer) * STANDARD_GRAVITY_M_S2 }
        };
        (0..self.count).zip(&trimmed.rafters).map(pressing).collect()
    }
}
