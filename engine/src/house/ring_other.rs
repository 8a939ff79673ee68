//! The same house under another ring: poles of one size as the pile is on the whole, more or fewer, thicker, round another eye.

use super::ring::{Ring, Wanted, laid_typically};
use super::{House, Roof};
use crate::known::Known;
use crate::roof;
use crate::roof::poles::{self, Layout, Pole};
use crate::units::{Angle, Length};

/// Another ring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Other {
    /// How many poles.
    pub count: u64,
    /// Radius of the circle through the crossings.
    pub eye: Length,
    /// How much thicker than those of the pile.
    pub thicker: Length,
}

/// The poles of another ring where they would lie at the pitch of the one that is there, their notches to suit; none where they do
/// not close or their notches would go past the middle of a pole.
#[must_use]
pub fn other_ring(house: &House, roof: &Roof, ring: &Ring, other: &Other) -> Option<(Layout, poles::Ring)> {
    let super::Frame::Reciprocal { count, eye, notch, tip, .. } = &roof.frame else { return None };
    let pitch = poles::mean_pitch(&ring.solved).value;
    let pole = typical(ring, other.thicker);
    let sets = &ring.solved.sets;
    let crossed = sets.iter().fold(Length::ZERO, |sum, set| sum + set.rest_diameter) / sets.len() as f64;
    let cut = roof::notch_for_pitch(other.count, other.eye, crossed + other.thicker, pitch).value.max(Length::ZERO);
    if cut * 0.5 >= (crossed + other.thicker) * 0.45 {
        return None;
    }
    let known = |length: Length, like: &Known<Length>| Known { value: length, ..like.clone() };
    let wanted = Wanted {
        count: &Known { value: other.count, ..count.clone() },
        eye: &known(other.eye, eye),
        notch: &known(cut, notch),
        tip,
        overhang: &roof.overhang,
        beam: house.bond_beam.as_ref().map_or(Length::ZERO, |beam| beam.height.value),
    };
    let layout = laid_typically(ring, &house.wall, &wanted, pole).ok()?;
    let solved = poles::ring(&layout).ok()?;
    solved.faults.is_empty().then_some((layout, solved))
}

/// A pole as those that lie are on the whole, straight, and as long as the longest.
fn typical(ring: &Ring, thicker: Length) -> Pole {
    let all: Vec<&Pole> = ring.layout.rafters.iter().map(|rafter| &rafter.pole).collect();
    let mean = |of: &dyn Fn(&Pole) -> Length| {
        all.iter().map(|pole| of(pole)).fold(Length::ZERO, |sum, own| sum + own) / all.len() as f64
    };
    Pole {
        length: all.iter().map(|pole| pole.length).fold(Length::ZERO, Length::max),
        butt: mean(&|pole| pole.butt) + thicker,
        tip: mean(&|pole| pole.tip) + thicker,
        bow: Length::ZERO,
        bow_turn: Angle::rad(0.0),
    }
}
