//! Whether a frame moves without resistance, and where.

use crate::solve::sparse::{Factor, NoFactor, Plan};

use super::equations::Equations;
use super::factorised::no_factor;
use super::fault::{Direction, Fault};
use super::model::Frame;

/// A pivot below this share of its diagonal term is looked into.
const SUSPECT: f64 = 1e-10;
/// A movement resisted by less than this share of the stiffness of its own nodes held one by one is free: no more than
/// rounding is left.
const FREE: f64 = 1e-14;

/// The factor of the stiffness, or where the frame moves.
pub(super) fn factor(frame: &Frame, equations: &Equations, plan: &Plan, values: &[f64]) -> Result<Factor, Fault> {
    let diagonal = plan.columns().diagonal(values);
    if let Some(unknown) = diagonal.iter().position(|own| !(own.is_finite() && *own > 0.0)) {
        return Err(mechanism(frame, equations, |at| f64::from(u8::from(at == unknown))));
    }
    let factor = plan.factor(values);
    if let Ok(factor) = factor {
        let pivots = plan.pivots(&factor);
        if pivots.iter().zip(&diagonal).all(|(pivot, own)| *pivot > SUSPECT * own) {
            return Ok(factor);
        }
        return match softest(plan, values, &diagonal)? {
            (resisted, movement) if resisted < FREE => Err(mechanism(frame, equations, |at| movement[at])),
            _ => Ok(factor),
        };
    }
    if factor.is_err_and(|fault| fault == NoFactor::TooLarge) {
        return Err(Fault::TooLarge);
    }
    let (_, movement) = softest(plan, values, &diagonal)?;
    Err(mechanism(frame, equations, |at| movement[at]))
}

/// The movement that is resisted least, found by inverse iteration on the stiffness made stiffer by a trace of its own
/// diagonal; how much it is resisted, xᵀKx / xᵀDx with the diagonal D.
fn softest(plan: &Plan, values: &[f64], diagonal: &[f64]) -> Result<(f64, Vec<f64>), Fault> {
    let mut stiffer = values.to_vec();
    for (unknown, own) in diagonal.iter().enumerate() {
        stiffer[plan.columns().starts[unknown + 1] - 1] += 1e-11 * own;
    }
    let factor = plan.factor(&stiffer).map_err(no_factor)?;
    let spread = |at: usize| 1.0 + 0.5 * (at as f64 * 2.399_963_229_728_653).sin();
    let mut movement: Vec<f64> = diagonal.iter().enumerate().map(|(at, own)| spread(at) / own.sqrt()).collect();
    for _ in 0..4 {
        for (own, stiffness) in movement.iter_mut().zip(diagonal) {
            *own *= stiffness;
        }
        plan.solve(&factor, &mut movement).map_err(no_factor)?;
        let size = norm(&movement, diagonal).sqrt();
        movement.iter_mut().for_each(|own| *own /= size);
    }
    let resisted = plan.columns().times(values, &movement).iter().zip(&movement).map(|(a, b)| a * b).sum::<f64>();
    Ok((resisted.abs() / norm(&movement, diagonal), movement))
}

fn norm(movement: &[f64], diagonal: &[f64]) -> f64 {
    movement.iter().zip(diagonal).map(|(own, stiffness)| own * own * stiffness).sum()
}

/// Names the node and direction that move most. A turn counts by the way that it carries a point half a typical member off,
/// so that a node that is carried away comes before one about which a member turns.
fn mechanism(frame: &Frame, equations: &Equations, movement: impl Fn(usize) -> f64) -> Fault {
    let mut most = (0.0, Fault::TooLarge);
    let reach = reach(frame);
    for (node, unknowns) in equations.unknowns.iter().enumerate() {
        for (k, &unknown) in unknowns.iter().enumerate().filter(|term| *term.1 < equations.count) {
            let moved = movement(unknown).abs() * if k < 3 { 1.0 } else { reach };
            if moved > most.0 {
                most = (moved, Fault::Mechanism { node, direction: Direction::ALL[k] });
            }
        }
    }
    most.1
}

/// Half the length of a typical member.
fn reach(frame: &Frame) -> f64 {
    let length = |pair: [usize; 2]| {
        let [a, b] = frame.points(pair);
        (0..3).map(|k| (a[k] - b[k]).powi(2)).sum::<f64>().sqrt()
    };
    let all: f64 = frame.members.iter().map(|member| length(member.nodes)).sum();
    0.5 * all / frame.members.len().max(1) as f64
}
