//! The question of a bolt that pulls a timber across its grain: what splits it, by two codes.

use super::given::Given;
use super::{Question, Reply};
use crate::timber::splitting;
use crate::units::{Kind, Length, Pressure};

pub(super) const SPLIT: Question = Question {
    name: "split",
    about: "A bolt that pulls a timber across its grain: the force that splits it; of a round pole, by the square within it",
    example: r#"{"width_m": 0.1, "depth_m": 0.2, "to_edge_m": 0.15, "shear_pa": 1.2e6, "to_end_m": 0.5}"#,
    answer: split,
};

fn split(given: &mut Given<'_>, reply: &mut Reply) {
    let [width, depth, edge, whole] = match given.maybe::<Length>("pole_diameter_m", Kind::Length) {
        Some(diameter) => {
            let seat = given.maybe::<Length>("seat_depth_m", Kind::Length).unwrap_or(Length::ZERO);
            let side = reply.put("depth", splitting::square_within(diameter));
            let width = reply.put("width", splitting::width_left(diameter, side, seat));
            [width, side, side * 0.5, diameter]
        }
        None => {
            let mut length = |key| given.number::<Length>(key, Kind::Length);
            let all = [length("width_m"), length("depth_m"), length("to_edge_m")];
            let [Some(width), Some(depth), Some(edge)] = all else { return };
            [width, depth, edge, depth]
        }
    };
    if width <= Length::ZERO || edge <= Length::ZERO || edge >= depth {
        given.problem(
            "a width above zero, and a bolt between the edges: `to_edge_m` above zero and below `depth_m`".into(),
        );
        return;
    }
    reply.put("splits", splitting::splits(width, depth, edge));
    let shear = given.maybe::<Pressure>("shear_pa", Kind::Pressure);
    let end = given.maybe::<Length>("to_end_m", Kind::Length);
    if let (Some(shear), Some(end)) = (shear, end) {
        reply.put("asd_carried", splitting::shear_beside_bolt(shear, width, depth, edge, end, whole));
    }
}
