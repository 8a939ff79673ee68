//! The axis of a pole in space at a given pitch, in metres from its support.

use super::plan::Course;
use super::{Rafter, Rests};
use crate::solve::space::{Vector, moved};

/// A pole at a pitch. Its axis is a parabola through its support that passes plumb over its second crossing.
#[derive(Clone, Copy, Debug)]
pub(in crate::roof) struct Lie {
    support: Vector,
    along: Vector,
    aside: Vector,
    bend: f64,
    reach: f64,
    thick: f64,
    taper: f64,
    /// From the support to where its line in plan meets that of the pole it carries.
    pub first: f64,
    /// From the support to its butt, and to its tip.
    pub ends: [f64; 2],
}

impl Lie {
    pub(super) fn new(rafter: &Rafter, course: &Course, pitch: f64) -> Lie {
        let (rise, level) = pitch.sin_cos();
        let [x, y] = course.direction;
        let (across, upright) = rafter.pole.bow_turn.in_rad().sin_cos();
        let (length, overhang) = (rafter.pole.length.in_m(), rafter.overhang.in_m());
        let taper = (rafter.pole.tip - rafter.pole.butt).in_m() / length;
        let thick = rafter.pole.butt.in_m() + taper * overhang;
        let mut support = rafter.support.map(crate::units::Length::in_m);
        if let Rests::Top(seat) = rafter.rests {
            support[2] += (0.5 * thick - seat.in_m()) / level;
        }
        Lie {
            support,
            along: [level * x, level * y, rise],
            aside: [-upright * rise * x - across * y, -upright * rise * y + across * x, upright * level],
            bend: 4.0 * rafter.pole.bow.in_m() / (length * length),
            reach: course.second / level,
            thick,
            taper,
            first: course.first / level,
            ends: [-overhang, length - overhang],
        }
    }

    /// A point of the axis.
    pub fn at(&self, along: f64) -> Vector {
        moved(moved(self.support, self.along, along), self.aside, self.bend * along * (self.reach - along))
    }

    /// The way of the axis there.
    pub fn way(&self, along: f64) -> Vector {
        moved(self.along, self.aside, self.bend * (self.reach - 2.0 * along))
    }

    /// How the way turns, the same everywhere.
    pub fn turn(&self) -> Vector {
        self.aside.map(|part| -2.0 * self.bend * part)
    }

    /// Its diameter there; beyond its tip, where a pole is too short, that at its tip.
    pub fn diameter(&self, along: f64) -> f64 {
        self.thick + self.taper * along.min(self.ends[1])
    }

    /// From the support to its second crossing in plan.
    pub fn second(&self) -> f64 {
        self.reach
    }

    /// Height of the underside at a place, plumb below the axis.
    pub fn underside(&self, along: f64) -> f64 {
        let [x, y, rise] = self.way(along);
        self.at(along)[2] - 0.5 * self.diameter(along) * 1.0_f64.hypot(rise / x.hypot(y))
    }

    /// Whether its axis is straight.
    pub fn is_straight(&self) -> bool {
        self.bend == 0.0
    }
}
