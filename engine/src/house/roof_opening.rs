//! Openings in a roof of straight rafters for flues: where each lies, and which rafters it cuts.

use kurbo::Point;

use super::built_in::{Way, What};
use super::{BuiltIn, Frame, House};
use crate::known::Known;
use crate::roof;
use crate::units::Length;

/// The opening for a flue, or what is known of it.
#[derive(Clone, Debug)]
pub struct RoofOpening<'a> {
    /// The flue.
    pub thing: &'a BuiltIn,
    /// Its diameter.
    pub diameter: &'a Known<Length>,
    /// Where it goes through, in plan.
    pub at: &'a [Known<Length>; 2],
    /// How far across from the first rafter and how far up from the origin that is.
    pub reach: [Length; 2],
    /// What its listing wants about it, and the opening that this makes; none where it is not written.
    pub framed: Option<Framed<'a>>,
}

/// An opening of a known size.
#[derive(Clone, Debug)]
pub struct Framed<'a> {
    /// To what burns.
    pub clearance: &'a Known<Length>,
    /// Its side.
    pub side: Length,
    /// The rafters that it cuts, in order.
    pub cut: Vec<usize>,
    /// The rafters that carry its trimmers; none where nothing is cut, or where none lies beside that is whole and carries no others.
    pub beside: Option<[usize; 2]>,
}

/// The openings of a roof that falls one way, in the order of its flues.
#[must_use]
pub fn roof_openings(house: &House) -> Vec<RoofOpening<'_>> {
    let Some(roof) = &house.roof else { return Vec::new() };
    let Frame::OneWay { rafters, .. } = &roof.frame else { return Vec::new() };
    let through = house.built_in.iter().filter_map(|thing| {
        let What::Service(service) = &thing.what else { return None };
        let Way::Roof { at, clearance } = &service.way else { return None };
        let reach = rafters.reach(Point::new(at[0].value.in_m(), at[1].value.in_m()));
        let framed = clearance.as_ref().map(|clearance| {
            let side = roof::flue_opening(service.diameter.value, clearance.value).value;
            let is_cut = |place: &usize| {
                let wide = rafters.width(*place, roof.diameter.value);
                (rafters.across(*place) - reach[0]).abs() < (side + wide) * 0.5
            };
            let cut: Vec<usize> = (0..rafters.places.len()).filter(is_cut).collect();
            let beside = cut.first().zip(cut.last()).and_then(|(first, last)| {
                let last = last + 1;
                (*first > 0 && last < rafters.places.len()).then(|| [first - 1, last])
            });
            Framed { clearance, side, cut, beside }
        });
        Some(RoofOpening { thing, diameter: &service.diameter, at, reach, framed })
    });
    alone(through.collect())
}

/// Takes the trimmers from those whose rafters beside another opening cuts or loads: each is computed for itself.
fn alone(mut openings: Vec<RoofOpening<'_>>) -> Vec<RoofOpening<'_>> {
    let places: Vec<[Vec<usize>; 2]> = openings
        .iter()
        .map(|opening| {
            let framed = opening.framed.as_ref();
            let beside = framed.and_then(|framed| framed.beside).map_or_else(Vec::new, |two| two.to_vec());
            [framed.map_or_else(Vec::new, |framed| framed.cut.clone()), beside]
        })
        .collect();
    for (at, opening) in openings.iter_mut().enumerate() {
        let others = places.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, places)| places);
        let is_taken =
            |place: &usize| others.clone().any(|[cut, beside]| cut.contains(place) || beside.contains(place));
        if let Some(framed) = &mut opening.framed
            && framed.beside.iter().flatten().chain(&framed.cut).any(is_taken)
        {
            framed.beside = None;
        }
    }
    openings
}
