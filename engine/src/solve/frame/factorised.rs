//! A frame factorised once, and answered for as many load cases as are asked.

use crate::solve::sparse::{Factor, NoFactor, Plan};

use super::answer::{self, Answer};
use super::equations::Equations;
use super::fault::Fault;
use super::held::held_forces;
use super::load::{Burden, LoadCase};
use super::mechanism;
use super::member::Bar;
use super::model::{Frame, Support};
use super::release::release_forces;
use super::second_order::Pressed;
use super::small::{Six, Square, Twelve, into_global, times, turned};

/// A frame with the factor of its stiffness.
#[derive(Debug)]
pub struct Factorised<'f> {
    pub(super) frame: &'f Frame,
    pub(super) bars: Vec<Bar>,
    pub(super) equations: Equations,
    pub(super) plan: Plan,
    pub(super) factor: Factor,
}

/// One load case, placed on members.
pub(super) struct Placed {
    pub burdens: Vec<Option<Box<Loaded>>>,
    pub settled: Vec<Six>,
}

/// A member's loads and the end forces that they make while both ends are held, with and without its releases.
pub(super) struct Loaded {
    pub burden: Burden,
    pub held: Twelve,
    pub ends: Twelve,
}

impl Frame {
    /// Lays out and factorises the stiffness.
    ///
    /// # Errors
    /// When the frame is not sound, or moves without resistance.
    pub fn factorise(&self) -> Result<Factorised<'_>, Fault> {
        self.check()?;
        let bars = self.bars()?;
        let free: Vec<[bool; 6]> =
            self.nodes.iter().map(|node| node.support.map(|support| support != Support::Fast)).collect();
        let (equations, columns) = Equations::of(&free, &self.pairs()).map_err(no_factor)?;
        let plan = Plan::of(columns).map_err(no_factor)?;
        let values = stiffness(self, &bars, &equations, &plan, |bar, _| bar.global());
        let factor = mechanism::factor(self, &equations, &plan, &values)?;
        Ok(Factorised { frame: self, bars, equations, plan, factor })
    }
}

pub(super) fn no_factor(_: NoFactor) -> Fault {
    Fault::TooLarge
}

/// The stiffness of the whole frame, with `member` for the stiffness of each of its members in global axes.
pub(super) fn stiffness(
    frame: &Frame,
    bars: &[Bar],
    equations: &Equations,
    plan: &Plan,
    member: impl Fn(&Bar, usize) -> Square,
) -> Vec<f64> {
    let columns = plan.columns();
    let mut values = vec![0.0; columns.rows.len()];
    for (index, bar) in bars.iter().enumerate() {
        equations.add(index, bar.nodes, &member(bar, index), columns, &mut values);
    }
    for (index, link) in frame.links.iter().enumerate() {
        let stiffness = link.global(frame.points(link.nodes));
        equations.add(bars.len() + index, link.nodes, &stiffness, columns, &mut values);
    }
    for (node, unknowns) in frame.nodes.iter().zip(&equations.unknowns) {
        for (support, &unknown) in node.support.iter().zip(unknowns) {
            if let Support::Spring(stiffness) = support {
                values[columns.starts[unknown + 1] - 1] += stiffness;
            }
        }
    }
    values
}

impl Factorised<'_> {
    /// Answers load cases.
    ///
    /// # Errors
    /// When a load is not sound.
    pub fn solve(&self, cases: &[LoadCase]) -> Result<Vec<Answer>, Fault> {
        let placed: Vec<Placed> = cases.iter().map(|case| self.place(case)).collect::<Result<_, _>>()?;
        let count = self.equations.count;
        let mut sides = vec![0.0; count * cases.len()];
        for ((case, placed), side) in cases.iter().zip(&placed).zip(sides.chunks_exact_mut(count.max(1))) {
            self.load_side(case, placed, None, side);
        }
        let loads = sides.clone();
        self.plan.solve(&self.factor, &mut sides).map_err(no_factor)?;
        let mut answers = Vec::with_capacity(cases.len());
        for (index, (case, placed)) in cases.iter().zip(&placed).enumerate() {
            let own = index * count..(index + 1) * count;
            let movements = self.movements(&sides[own.clone()], &placed.settled);
            let mut ends: Vec<Twelve> =
                self.bars.iter().map(|bar| times(&bar.local, &self.bar_movements(bar, &movements))).collect();
            for (ends, loaded) in ends.iter_mut().zip(&placed.burdens) {
                let Some(loaded) = loaded else { continue };
                ends.iter_mut().zip(loaded.ends).for_each(|(sum, held)| *sum += held);
            }
            let work = sides[own.clone()].iter().zip(&loads[own]).map(|(moved, load)| moved * load).sum();
            answers.push(answer::answer(self, case, movements, work, &ends));
        }
        Ok(answers)
    }

    pub(super) fn place(&self, case: &LoadCase) -> Result<Placed, Fault> {
        let mut burdens: Vec<Option<Box<Loaded>>> = self.bars.iter().map(|_| None).collect();
        for (member, load) in &case.members {
            let (Some(bar), Some(description)) = (self.bars.get(*member), self.frame.members.get(*member)) else {
                return Err(Fault::NoMember { member: *member });
            };
            let empty = || Box::new(Loaded { burden: Burden::default(), held: [0.0; 12], ends: [0.0; 12] });
            burdens[*member].get_or_insert_with(empty).burden.add(*member, load, description, bar)?;
        }
        for (index, (bar, member)) in self.bars.iter().zip(&self.frame.members).enumerate() {
            let Some(loaded) = &mut burdens[index] else { continue };
            loaded.held = held_forces(member, bar, &loaded.burden);
            loaded.ends = loaded.held;
            release_forces(&mut loaded.ends, &bar.released)
                .map_err(|at| Fault::Loose { member: index, direction: super::Direction::ALL[at % 6] })?;
        }
        let settled = self.settled(case)?;
        if let Some(&(node, _)) = case.nodes.iter().find(|(node, _)| *node >= self.frame.nodes.len()) {
            return Err(Fault::NoNode { node });
        }
        Ok(Placed { burdens, settled })
    }

    /// How far the supports move that hold fast.
    fn settled(&self, case: &LoadCase) -> Result<Vec<Six>, Fault> {
        let mut settled = vec![[0.0; 6]; self.frame.nodes.len()];
        for &(node, direction, far) in &case.settled {
            let own = settled.get_mut(node).ok_or(Fault::NoNode { node })?;
            let fast = self.frame.nodes[node].support.get(direction) == Some(&Support::Fast);
            if !fast || !far.is_finite() {
                return Err(Fault::Support { node, needs: "to be held fast where a load case moves it" });
            }
            own[direction] = far;
        }
        Ok(settled)
    }

    /// Fills in a right-hand side, with members as they are under the forces along them or, without, as they are alone.
    pub(super) fn load_side(&self, case: &LoadCase, placed: &Placed, pressed: Option<&[Pressed]>, side: &mut [f64]) {
        for (node, force) in &case.nodes {
            self.equations.add_ends(
                [*node, *node],
                &std::array::from_fn(|k| if k < 6 { force[k] } else { 0.0 }),
                1.0,
                side,
            );
        }
        for (index, (bar, loaded)) in self.bars.iter().zip(&placed.burdens).enumerate() {
            let Some(loaded) = loaded else { continue };
            let local = pressed.map_or(loaded.ends, |pressed| pressed[index].ends);
            let ends = turned(local, |part| into_global(&bar.axes, part));
            self.equations.add_ends(bar.nodes, &ends, -1.0, side);
        }
        if case.settled.is_empty() {
            return;
        }
        for (index, bar) in self.bars.iter().enumerate() {
            let local = pressed.map_or(&bar.local, |pressed| &pressed[index].local);
            let ends = times(local, &self.bar_movements(bar, &placed.settled));
            let ends = turned(ends, |part| into_global(&bar.axes, part));
            self.equations.add_ends(bar.nodes, &ends, -1.0, side);
        }
        for link in &self.frame.links {
            let points = self.frame.points(link.nodes);
            let ends = link.ends(points, &link.forces(points, &both(link.nodes, &placed.settled)));
            self.equations.add_ends(link.nodes, &ends, -1.0, side);
        }
    }

    /// The movements of all nodes.
    pub(super) fn movements(&self, unknowns: &[f64], settled: &[Six]) -> Vec<Six> {
        let at = |own: &[usize; 6], settled: &Six| {
            std::array::from_fn(|k| unknowns.get(own[k]).copied().unwrap_or(settled[k]))
        };
        self.equations.unknowns.iter().zip(settled).map(|(own, settled)| at(own, settled)).collect()
    }

    /// The movements of the nodes of a bar in its local axes.
    pub(super) fn bar_movements(&self, bar: &Bar, movements: &[Six]) -> Twelve {
        turned(both(bar.nodes, movements), |part| super::small::into_local(&bar.axes, part))
    }
}

/// The movements of two nodes, one after the other.
pub(super) fn both(nodes: [usize; 2], movements: &[Six]) -> Twelve {
    std::array::from_fn(|k| movements[nodes[k / 6]][k % 6])
}
