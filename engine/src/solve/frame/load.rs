//! Loads on a member, turned into its local axes, and their resultants.

use super::fault::Fault;
use super::member::{Bar, Member};
use super::small::{Six, Three, into_local, scaled, turned};

/// The loads that act at one time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoadCase {
    /// Forces and moments on nodes, in global axes.
    pub nodes: Vec<(usize, Six)>,
    /// Loads on members.
    pub members: Vec<(usize, MemberLoad)>,
    /// Movements of supports that hold fast: node, direction from 0 to 5, how far.
    pub settled: Vec<(usize, usize, f64)>,
}

/// In which directions the components of a load count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// Along the global axes.
    Global,
    /// Along the global axes, each component on each unit of the member's length as it is seen along that axis: a load along an
    /// upright z axis on each unit of length in plan.
    Projected,
    /// Along the member's own axes.
    Local,
}

/// A load on a member; distances count from its first end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MemberLoad {
    /// A force and a moment at one place.
    Point {
        /// How far from the first end.
        at: f64,
        /// Force and moment.
        force: Six,
        /// Their axes; projected means global.
        sense: Sense,
    },
    /// A force on each unit of length that changes evenly over a stretch.
    Line {
        /// Where it starts and ends; nothing for the whole member.
        span: Option<[f64; 2]>,
        /// What it is where it starts.
        first: Three,
        /// What it is where it ends.
        last: Three,
        /// Their axes.
        sense: Sense,
    },
    /// A force on each unit of the member's volume, in global axes: its weight.
    Body {
        /// The force on each unit of volume.
        on_volume: Three,
    },
}

/// A force on each unit of length q = c₀ + c₁ u + c₂ u², u from `from` on, in local axes.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Spread {
    from: f64,
    to: f64,
    powers: [Three; 3],
}

/// All loads of one member in its local axes.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Burden {
    points: Vec<(f64, Six)>,
    spreads: Vec<Spread>,
}

impl Burden {
    pub fn add(&mut self, index: usize, load: &MemberLoad, member: &Member, bar: &Bar) -> Result<(), Fault> {
        let fault = Fault::Load { member: index };
        let inside = |at: f64| (-1e-12 * bar.length..=bar.length * (1.0 + 1e-12)).contains(&at);
        match *load {
            MemberLoad::Point { at, force, sense } => {
                if !inside(at) || !force.iter().all(|part| part.is_finite()) {
                    return Err(fault);
                }
                let local = if sense == Sense::Local { force } else { turned(force, |v| into_local(&bar.axes, v)) };
                self.points.push((at.clamp(0.0, bar.length), local));
            }
            MemberLoad::Line { span, first, last, sense } => {
                let [from, to] = span.unwrap_or([0.0, bar.length]);
                let sound = first.iter().chain(&last).all(|part| part.is_finite());
                if !inside(from) || !inside(to) || from >= to || !sound {
                    return Err(fault);
                }
                let [first, last] = [first, last].map(|load| local(load, sense, bar));
                let slope = std::array::from_fn(|k| (last[k] - first[k]) / (to - from));
                let powers = [first, slope, [0.0; 3]];
                self.spreads.push(Spread { from: from.max(0.0), to: to.min(bar.length), powers });
            }
            MemberLoad::Body { on_volume } => {
                if !on_volume.iter().all(|part| part.is_finite()) {
                    return Err(fault);
                }
                let force = into_local(&bar.axes, on_volume);
                for (start, stretch) in member.spans() {
                    let [from, to] = [start, stretch.until].map(|share| share * bar.length);
                    let [even, first, second] = stretch.section.area_powers();
                    let long = to - from;
                    let powers = [even, first / long, second / (long * long)].map(|area| scaled(force, area));
                    self.spreads.push(Spread { from, to, powers });
                }
            }
        }
        Ok(())
    }

    /// Places at which a load starts, ends or acts.
    pub fn breaks(&self) -> impl Iterator<Item = f64> + '_ {
        self.points.iter().map(|point| point.0).chain(self.spreads.iter().flat_map(|spread| [spread.from, spread.to]))
    }

    /// Force and moment about the place at `x` of all that acts before it.
    pub fn before(&self, x: f64) -> Six {
        let mut sum = [0.0; 6];
        for (at, force) in self.points.iter().filter(|point| point.0 < x) {
            lever(&mut sum, three_of(force), scaled(three_of(force), x - at));
            for k in 3..6 {
                sum[k] += force[k];
            }
        }
        for spread in self.spreads.iter().filter(|spread| spread.from < x) {
            let u = spread.to.min(x) - spread.from;
            let [even, slope, bend] = spread.powers;
            let force: Three = std::array::from_fn(|k| u * (even[k] + u * (slope[k] / 2.0 + u * bend[k] / 3.0)));
            let arm = x - spread.from;
            let turn: Three = std::array::from_fn(|k| {
                arm * force[k] - u * u * (even[k] / 2.0 + u * (slope[k] / 3.0 + u * bend[k] / 4.0))
            });
            lever(&mut sum, force, turn);
        }
        sum
    }

    /// Force and moment of everything, about the second end.
    pub fn whole(&self, length: f64) -> Six {
        let mut sum = self.before(length);
        for (_, force) in self.points.iter().filter(|point| point.0 >= length) {
            for k in 0..6 {
                sum[k] += force[k];
            }
        }
        sum
    }
}

fn three_of(force: &Six) -> Three {
    [force[0], force[1], force[2]]
}

/// Adds a force whose sum of force times distance before the place is `turn`.
fn lever(sum: &mut Six, force: Three, turn: Three) {
    for k in 0..3 {
        sum[k] += force[k];
    }
    sum[4] += turn[2];
    sum[5] -= turn[1];
}

fn local(load: Three, sense: Sense, bar: &Bar) -> Three {
    match sense {
        Sense::Local => load,
        Sense::Global => into_local(&bar.axes, load),
        Sense::Projected => {
            let seen = |k: usize| (1.0 - bar.axes[0][k].powi(2)).max(0.0).sqrt();
            into_local(&bar.axes, std::array::from_fn(|k| load[k] * seen(k)))
        }
    }
}
