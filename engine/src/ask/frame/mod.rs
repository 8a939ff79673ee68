//! The question about a frame in space: nodes, members and links in; movements, reactions and forces out.

mod read;

use serde_json::json;

use super::given::Given;
use super::{Question, Reply};
use crate::reason::{Reason, Words};
use crate::solve::frame::{Answer, Factorised, Fault, Frame};
use read::Asked;

pub(super) const FRAME: Question = Question {
    name: "frame",
    about: "Movements, reactions and member forces of a frame in space, of even or tapering round members",
    example: r#"{"nodes": [{"at_m": [0, 0, 0], "fast": "x y z rx ry rz"}, {"at_m": [3, 0, 0], "force_n": [0, 0, -1000]}],
  "members": [{"from": 1, "to": 2, "young_pa": 1e10, "shear_pa": 6e8, "diameters_m": [0.16, 0.12], "stations_m": [1.5]}]}"#,
    answer: frame,
};

fn frame(given: &mut Given<'_>, reply: &mut Reply) {
    let asked = read::asked(given);
    let (second_order, buckling) = (given.wanted("second_order"), given.wanted("buckling"));
    let Some(asked) = asked else { return };
    if let Err(fault) = tell(&asked, second_order, buckling, reply) {
        given.problem(format!("this frame has no answer: {fault}"));
    }
}

fn tell(asked: &Asked, second_order: bool, buckling: bool, reply: &mut Reply) -> Result<(), Fault> {
    let whole = asked.frame.factorise()?;
    let answer = match second_order {
        true => Some(whole.second_order(&asked.case)?),
        false => whole.solve(std::slice::from_ref(&asked.case))?.pop(),
    };
    let Some(answer) = answer else { return Ok(()) };
    nodes(&asked.frame, &answer, reply);
    members(asked, &whole, &answer, reply)?;
    if buckling {
        reply.answer.insert("buckling_factor".into(), json!(whole.buckling(&asked.case)?.factor));
    }
    let words = Words {
        title: "Every member bends by its own flexibility, exact for even and for evenly tapering round sections; all meet at the \
                nodes, where forces are in balance."
            .into(),
        equation: "K u = P,  K = Σ Tᵀ k T,  k = F⁻¹,  F = ∫ m mᵀ / (E I) dx".into(),
        source: STIFFNESS_METHOD.into(),
        ..Words::default()
    };
    reply.reasons.push(Reason::in_words(words, Vec::new()));
    Ok(())
}

/// The source of every answer of a frame in space.
pub(super) const STIFFNESS_METHOD: &str = "Direct stiffness method with Bernoulli's beam, as in any text on matrix analysis of structures; \
     flexibility of the tapering member integrated for this project";

const AXES: [&str; 3] = ["x", "y", "z"];

/// Six numbers under keys with a letter before the axis and the unit after it.
fn six(reply: &mut Reply, start: &str, [along, about]: [&str; 2], [unit, turned]: [&str; 2], values: &[f64; 6]) {
    for (k, axis) in AXES.iter().enumerate() {
        reply.answer.insert(format!("{start}_{along}{axis}_{unit}"), json!(values[k]));
        reply.answer.insert(format!("{start}_{about}{axis}_{turned}"), json!(values[k + 3]));
    }
}

fn nodes(frame: &Frame, answer: &Answer, reply: &mut Reply) {
    use crate::solve::frame::Support::Free;
    for (index, (node, moved)) in frame.nodes.iter().zip(&answer.movements).enumerate() {
        let start = format!("node_{}", index + 1);
        six(reply, &start, ["u", "r"], ["m", "rad"], moved);
        if node.support.iter().any(|support| *support != Free) {
            six(reply, &format!("{start}_reaction"), ["f", "m"], ["n", "n_m"], &answer.reactions[index]);
        }
    }
    for (index, forces) in answer.links.iter().enumerate() {
        six(reply, &format!("link_{}", index + 1), ["f", "m"], ["n", "n_m"], forces);
    }
    reply.answer.insert("residual".into(), json!(answer.residual));
    reply.answer.insert("work_n_m".into(), json!(answer.work));
}

fn members(asked: &Asked, whole: &Factorised<'_>, answer: &Answer, reply: &mut Reply) -> Result<(), Fault> {
    for (index, ends) in answer.ends.iter().enumerate() {
        for (own, name) in ends.iter().zip(["from", "to"]) {
            six(reply, &format!("member_{}_{name}", index + 1), ["f", "m"], ["n", "n_m"], own);
        }
        let places = whole.along(&asked.case, answer, index, &asked.stations[index])?;
        for (station, place) in places.iter().enumerate() {
            let start = format!("member_{}_station_{}", index + 1, station + 1);
            six(reply, &start, ["f", "m"], ["n", "n_m"], &place.forces);
            six(reply, &start, ["u", "r"], ["m", "rad"], &place.movements);
        }
    }
    Ok(())
}
