//! A straight member between two nodes: its axes, its stiffness from exact flexibility, its releases.
//!
//! Bernoulli's beam: plane sections stay plane and square to the axis; shear does not deform it. The centre line is straight
//! also where a stretch is weakened.

use super::fault::Fault;
use super::release::{Buckled, Released, release};
use super::section::Section;
use super::small::{Square, Three, cross, diagonal, direction, dot, minus, scaled, turned_square};

/// A member as it is described.
#[derive(Clone, Debug, PartialEq)]
pub struct Member {
    /// The nodes it joins; its local x axis points from the first to the second.
    pub nodes: [usize; 2],
    /// A direction that lies, with the member, in the plane of its local x and y axes before it is rolled.
    pub reference: Three,
    /// Angle by which the local y and z axes are turned about the local x axis, in radians.
    pub roll: f64,
    /// Modulus of elasticity.
    pub young: f64,
    /// Shear modulus, for torsion.
    pub shear: f64,
    /// Its stretches, from the first node on.
    pub stretches: Vec<Stretch>,
    /// Which of the six directions of each end, in local axes, pass no force to the node.
    pub released: [[bool; 6]; 2],
}

/// A stretch of a member.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Share of the member's length at which it ends; the last ends at 1.
    pub until: f64,
    /// Its cross section.
    pub section: Section,
}

impl Member {
    /// A member with one section from end to end and both ends held fast.
    #[must_use]
    pub fn new(nodes: [usize; 2], reference: Three, [young, shear]: [f64; 2], section: Section) -> Member {
        let stretches = vec![Stretch { until: 1.0, section }];
        Member { nodes, reference, roll: 0.0, young, shear, stretches, released: [[false; 6]; 2] }
    }

    /// The same member with another section between two shares of its length: a notch, or a splice.
    #[must_use]
    pub fn with_stretch(mut self, from: f64, to: f64, section: Section) -> Member {
        let mut all = Vec::new();
        for (start, old) in self.spans() {
            let share = |at: f64| (at - start) / (old.until - start);
            if start < from {
                let until = old.until.min(from);
                all.push(Stretch { until, section: old.section.part(0.0, share(until)) });
            }
            if old.until > from && start <= from {
                all.push(Stretch { until: to, section });
            }
            if old.until > to {
                let begins = start.max(to);
                all.push(Stretch { until: old.until, section: old.section.part(share(begins), 1.0) });
            }
        }
        self.stretches = all;
        self
    }

    /// Each stretch with the share of the length at which it starts.
    pub(super) fn spans(&self) -> Vec<(f64, Stretch)> {
        let mut start = 0.0;
        let mut all = Vec::with_capacity(self.stretches.len());
        for stretch in &self.stretches {
            all.push((start, *stretch));
            start = stretch.until;
        }
        all
    }

    fn faults(&self) -> Option<&'static str> {
        let ends = self.stretches.last().map(|stretch| stretch.until);
        if ends != Some(1.0)
            || self
                .spans()
                .iter()
                .any(|(start, stretch)| stretch.until.partial_cmp(start) != Some(std::cmp::Ordering::Greater))
        {
            return Some("stretches one after the other, the last ending at 1");
        }
        if !self.stretches.iter().all(|stretch| stretch.section.is_sound()) {
            return Some("section sizes above zero");
        }
        let sound = |size: f64| size.is_finite() && size > 0.0;
        if !sound(self.young) || !sound(self.shear) {
            return Some("moduli above zero");
        }
        (!self.roll.is_finite()).then_some("a finite roll")
    }

    /// The local axes and the length between two points.
    fn axes(&self, from: Three, to: Three) -> Result<([Three; 3], f64), &'static str> {
        let span = minus(to, from);
        let along = direction(span).ok_or("two ends apart from each other")?;
        let normal = cross(along, self.reference);
        let size = dot(self.reference, self.reference).sqrt();
        if dot(normal, normal).sqrt().partial_cmp(&(1e-6 * size)) != Some(std::cmp::Ordering::Greater) {
            return Err("a reference direction that is not along it");
        }
        let z = direction(normal).ok_or("a reference direction")?;
        let y = cross(z, along);
        let (sine, cosine) = self.roll.sin_cos();
        let mix = |a: f64, b: f64| -> Three { std::array::from_fn(|k| a * y[k] + b * z[k]) };
        Ok(([along, mix(cosine, sine), mix(-sine, cosine)], dot(span, span).sqrt()))
    }
}

/// A member with all that follows from it alone.
#[derive(Clone, Debug)]
pub(super) struct Bar {
    pub nodes: [usize; 2],
    pub length: f64,
    pub axes: [Three; 3],
    pub basic: Basic,
    /// Stiffness in local axes, releases taken out.
    pub local: Square,
    /// What was taken out by releases; nothing when there are none.
    pub released: Vec<Released>,
}

/// Stiffness against lengthening, twist and the turning of both ends from the chord.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Basic {
    pub stretch: f64,
    pub twist: f64,
    pub about_y: [f64; 3],
    pub about_z: [f64; 3],
}

impl Bar {
    pub fn of(index: usize, member: &Member, points: [Three; 2]) -> Result<Bar, Fault> {
        let needs = |needs| Fault::Member { member: index, needs };
        if let Some(fault) = member.faults() {
            return Err(needs(fault));
        }
        let (axes, length) = member.axes(points[0], points[1]).map_err(needs)?;
        let basic = Basic::of(member, length);
        let mut local = basic.square(length);
        let alone = diagonal(&local);
        let released = release(&mut local, member.released, &alone).map_err(|Buckled| needs("a stiffness"))?;
        Ok(Bar { nodes: member.nodes, length, axes, basic, local, released })
    }

    pub fn global(&self) -> Square {
        turned_square(&self.axes, &self.local)
    }
}

impl Basic {
    /// The inverse of the flexibility that the stretches have together.
    fn of(member: &Member, length: f64) -> Basic {
        let (mut stretch, mut twist, mut about_y, mut about_z) = (0.0, 0.0, [0.0; 3], [0.0; 3]);
        let mut start = 0.0;
        for piece in &member.stretches {
            let (share, flexibility) = (piece.until - start, piece.section.flexibility());
            stretch += share * flexibility.stretch;
            twist += share * flexibility.twist;
            add(&mut about_y, flexibility.about_y, start, piece.until);
            add(&mut about_z, flexibility.about_z, start, piece.until);
            start = piece.until;
        }
        Basic {
            stretch: member.young / (length * stretch),
            twist: member.shear / (length * twist),
            about_y: inverse(about_y, member.young / length),
            about_z: inverse(about_z, member.young / length),
        }
    }

    /// The stiffness of all twelve end movements.
    pub fn square(&self, length: f64) -> Square {
        let mut all = [[0.0; 12]; 12];
        for (direction, stiffness) in [(0, self.stretch), (3, self.twist)] {
            all[direction][direction] = stiffness;
            all[direction + 6][direction + 6] = stiffness;
            all[direction][direction + 6] = -stiffness;
            all[direction + 6][direction] = -stiffness;
        }
        let tilt = 1.0 / length;
        bend(&mut all, self.about_z, [1, 5, 7, 11], tilt);
        bend(&mut all, self.about_y, [2, 4, 8, 10], -tilt);
        all
    }
}

/// Adds the flexibility of a stretch from share `from` to `to` for moments that change evenly along the whole member.
fn add(all: &mut [f64; 3], own: [f64; 3], from: f64, to: f64) {
    let share = to - from;
    let (near, far) = ([1.0 - from, 1.0 - to], [from, to]);
    let product = |a: [f64; 2], b: [f64; 2]| {
        share * (a[0] * b[0] * own[0] + (a[0] * b[1] + a[1] * b[0]) * own[1] + a[1] * b[1] * own[2])
    };
    all[0] += product(near, near);
    all[1] += product(near, far);
    all[2] += product(far, far);
}

/// The end moments for unit turns, from the flexibility of moments −Mᵢ(1−s) + Mⱼ s.
fn inverse(flexibility: [f64; 3], scale: f64) -> [f64; 3] {
    let [near, both, far] = flexibility;
    let by = scale / (near * far - both * both);
    [far * by, both * by, near * by]
}

/// Adds bending in one plane: `at` are the movements across and turns of both ends, and the turn from the chord of each end
/// is its own turn and `tilt` times the difference of the movements.
fn bend(all: &mut Square, [first, both, last]: [f64; 3], at: [usize; 4], tilt: f64) {
    let turns = [[tilt, 1.0, -tilt, 0.0], [tilt, 0.0, -tilt, 1.0]];
    for (a, &row) in at.iter().enumerate() {
        for (b, &column) in at.iter().enumerate() {
            all[row][column] += turns[0][a] * (first * turns[0][b] + both * turns[1][b])
                + turns[1][a] * (both * turns[0][b] + last * turns[1][b]);
        }
    }
}

/// The chord's own points, for loads and links that are placed along it.
pub(super) fn point_between(from: Three, to: Three, share: f64) -> Three {
    let span = scaled(minus(to, from), share);
    [from[0] + span[0], from[1] + span[1], from[2] + span[2]]
}
