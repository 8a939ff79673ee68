//! A pole as it is measured, and where a rafter is to lie.

use super::{Fault, Ring};
use crate::reason::formula;
use crate::units::{Angle, Length};

formula! {
    /// Diameter of a pole's end, as if it were round.
    ///
    /// ```text
    /// d = (d₁ + d₂) / 2        d₁, d₂: measured square to each other, or d alone
    /// ```
    /// Source: mean of two diameters, the usual way to measure round timber, from memory.
    pub fn mean_diameter(; measured: impl ExactSizeIterator<Item = Length>) -> Length {
        let count = measured.len() as f64;
        measured.fold(Length::ZERO, |sum, one| sum + one) / count
    }
}

/// A round pole, evenly tapered, with an even bow. Its butt is the end that goes to the wall, thick or thin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pole {
    /// From butt to tip along a string.
    pub length: Length,
    /// Diameter at the butt.
    pub butt: Length,
    /// Diameter at the tip.
    pub tip: Length,
    /// How far its axis leaves a string from butt to tip, at the middle.
    pub bow: Length,
    /// Which way the bow bulges: zero upright, positive to the left as one looks from the wall to the eye.
    pub bow_turn: Angle,
}

impl Pole {
    /// The same pole end for end, its bow kept where it bulges upright.
    #[must_use]
    pub fn turned(self) -> Pole {
        Pole { butt: self.tip, tip: self.butt, bow_turn: -self.bow_turn, ..self }
    }

    /// The same pole cut to a length from its butt, where that is shorter: thicker at its new tip, and less bowed, as a shorter
    /// string across an even bow.
    #[must_use]
    pub fn cut(self, length: Length) -> Pole {
        let left = (length / self.length).min(1.0);
        Pole { length: self.length * left, tip: self.diameter(length), bow: self.bow * (left * left), ..self }
    }

    /// Its diameter at a distance from its butt; beyond its tip, that at its tip.
    #[must_use]
    pub fn diameter(&self, along: Length) -> Length {
        self.butt + (self.tip - self.butt) * (along / self.length).min(1.0)
    }
}

/// What the support of a rafter is a point of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rests {
    /// The axis of the pole passes through the point.
    Axis,
    /// The point is the top of the plate; the pole lies on it, let in or crushed by this depth, square to its axis.
    Top(Length),
}

/// A pole and where it is to lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rafter {
    /// The pole.
    pub pole: Pole,
    /// Its outer support in space.
    pub support: [Length; 3],
    /// What the support is a point of.
    pub rests: Rests,
    /// A point in plan that its axis passes over beyond the support: its direction.
    pub toward: [Length; 2],
    /// From its butt to the support, along the pole.
    pub overhang: Length,
    /// Depth cut where it rests on its neighbour, in both poles together.
    pub notch: Length,
    /// What it sinks there besides: crushing and bedding; below zero, a pad.
    pub bedding: Length,
    /// How far it is to reach beyond where it rests.
    pub beyond: Length,
}

/// On which of its neighbours in the list each pole rests.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RestsOn {
    /// On the next one.
    Next,
    /// On the one before.
    Before,
}

/// Poles in a ring, in the order of their supports.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// The poles.
    pub rafters: Vec<Rafter>,
    /// Which neighbour carries which.
    pub rests_on: RestsOn,
}

impl Layout {
    /// The pole on which a pole rests.
    #[must_use]
    pub fn below(&self, place: usize) -> usize {
        let count = self.rafters.len();
        match self.rests_on {
            RestsOn::Next => (place + 1) % count,
            RestsOn::Before => (place + count - 1) % count,
        }
    }

    /// The pole that rests on a pole.
    #[must_use]
    pub fn above(&self, place: usize) -> usize {
        let count = self.rafters.len();
        match self.rests_on {
            RestsOn::Next => (place + count - 1) % count,
            RestsOn::Before => (place + 1) % count,
        }
    }

    /// The same poles, each cut where it ends: as far beyond its rest as it is to reach, and no nearer than half of its thickness.
    #[must_use]
    pub fn cut(&self, ring: &Ring) -> Layout {
        let mut layout = self.clone();
        for (rafter, set) in layout.rafters.iter_mut().zip(&ring.sets) {
            let beyond = rafter.beyond.max(rafter.pole.diameter(set.rest) * 0.5);
            rafter.pole = rafter.pole.cut(set.rest + beyond);
        }
        layout
    }

    /// Refuses sizes that no pole has.
    pub(super) fn sound(&self) -> Result<(), Fault> {
        if self.rafters.len() < 3 {
            return Err(Fault::TooFew(self.rafters.len()));
        }
        for (place, rafter) in self.rafters.iter().enumerate() {
            let pole = &rafter.pole;
            let is_pole = pole.length > Length::ZERO && pole.butt > Length::ZERO && pole.tip > Length::ZERO;
            let is_laid = rafter.overhang >= Length::ZERO && rafter.overhang < pole.length;
            if !(is_pole && is_laid && pole.bow.abs() < pole.length) {
                return Err(Fault::NoSize(place));
            }
        }
        Ok(())
    }
}
