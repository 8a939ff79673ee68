//! Links: two nodes joined by springs at a point of contact, which may lie beside both.

use super::fault::Fault;
use super::small::{Six, Square, Three, Twelve, cross, direction, dot, into_global, into_local, minus, three};

/// A link between two nodes. The nodes reach the contact by stiff arms; there, only the directions with a stiffness pass
/// forces, so that what the link does to its two nodes is in balance, moments with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Link {
    /// The nodes it joins.
    pub nodes: [usize; 2],
    /// Where they touch.
    pub contact: Three,
    /// Three directions square to each other, each of length 1.
    pub axes: [Three; 3],
    /// Stiffness along and about these axes; 0 passes no force. There is no rigid one: write one well above that of the
    /// members (a thousand times loses three digits of sixteen).
    pub stiffness: Six,
}

impl Link {
    /// A link whose first axis points from the first node to the second, the common normal of two axes that pass each other,
    /// and whose second axis lies across `beside`; the contact is a share of the way. Nothing when these give no direction.
    #[must_use]
    pub fn along_normal(
        nodes: [usize; 2],
        points: [Three; 2],
        share: f64,
        beside: Three,
        stiffness: Six,
    ) -> Option<Link> {
        let span = minus(points[1], points[0]);
        let normal = direction(span)?;
        let second = direction(cross(normal, beside))?;
        let contact = super::member::point_between(points[0], points[1], share);
        Some(Link { nodes, contact, axes: [normal, second, cross(normal, second)], stiffness })
    }

    pub(super) fn check(&self, index: usize) -> Result<(), Fault> {
        let fault = |needs| Err(Fault::Link { link: index, needs });
        if !self.stiffness.iter().all(|own| own.is_finite() && *own >= 0.0) {
            return fault("stiffnesses of zero or more");
        }
        let square = |a: usize, b: usize| (dot(self.axes[a], self.axes[b]) - f64::from(u8::from(a == b))).abs() < 1e-9;
        if !(0..3).all(|a| (0..3).all(|b| square(a, b))) || !self.contact.iter().all(|at| at.is_finite()) {
            return fault("a contact and three axes square to each other, each of length 1");
        }
        Ok(())
    }

    /// What opens in the link under movements of its nodes, along and about its axes.
    fn opening(&self, points: [Three; 2], movements: &Twelve) -> Six {
        let mut opening = [0.0; 6];
        for (point, (own, sign)) in points.iter().zip(movements.chunks_exact(6).zip([-1.0, 1.0])) {
            let (moved, turned) = (three(&own[..3]), three(&own[3..]));
            let swept = cross(turned, minus(self.contact, *point));
            let at_contact = into_local(&self.axes, std::array::from_fn(|k| moved[k] + swept[k]));
            let turns = into_local(&self.axes, turned);
            for k in 0..3 {
                opening[k] += sign * at_contact[k];
                opening[k + 3] += sign * turns[k];
            }
        }
        opening
    }

    /// The forces in the link, along and about its axes: on the first node at the contact; pull is positive.
    pub(super) fn forces(&self, points: [Three; 2], movements: &Twelve) -> Six {
        let opening = self.opening(points, movements);
        std::array::from_fn(|k| self.stiffness[k] * opening[k])
    }

    /// What the nodes must exert on the link's ends for these forces, in global axes.
    pub(super) fn ends(&self, points: [Three; 2], forces: &Six) -> Twelve {
        let mut ends = [0.0; 12];
        let (push, turn) = (into_global(&self.axes, three(&forces[..3])), into_global(&self.axes, three(&forces[3..])));
        for (point, (own, sign)) in points.iter().zip(ends.chunks_exact_mut(6).zip([-1.0, 1.0])) {
            let lever = cross(minus(self.contact, *point), push);
            for k in 0..3 {
                own[k] = sign * push[k];
                own[k + 3] = sign * (turn[k] + lever[k]);
            }
        }
        ends
    }

    pub(super) fn global(&self, points: [Three; 2]) -> Square {
        let mut all = [[0.0; 12]; 12];
        for (k, row) in all.iter_mut().enumerate() {
            let unit = std::array::from_fn(|at| f64::from(u8::from(at == k)));
            *row = self.ends(points, &self.forces(points, &unit));
        }
        all
    }
}
