//! How a measured pole is bent along its length by everything that may lie on the roof: the greatest moments both ways.

use super::hold::stand;
use super::loads;
use super::members::tag;
use crate::house::{Frame, House};
use crate::roof::standing::Feet;
use crate::row::Rows;

/// The moments along a pole of the ring.
#[derive(Clone, Debug)]
pub struct Along {
    /// Its place round the ring, from 1 on.
    pub place: usize,
    /// Its tag.
    pub tag: String,
    /// Where it lies on the wall, carries, rests and ends, in metres from its butt.
    pub marks: [f64; 4],
    /// Metres from the butt, and the least and the greatest moment upright there, in kilonewton metres; above zero the top is pulled.
    pub moments: Vec<[f64; 3]>,
}

/// The pole whose bending strength is used most; none where the ring or its loads are not known.
pub(crate) fn along(house: &House, rows: &Rows) -> Option<Along> {
    let roof = house.roof.as_ref()?;
    let held = roof.held.as_ref()?;
    let Frame::Reciprocal { ring: Some(ring), .. } = &roof.frame else { return None };
    let used = |place: usize| {
        let share = |noun: &str| rows.find(&format!("roof.members.{}.{noun}", place + 1))?.quantity.si();
        share("bending").or_else(|| share("asd-bending"))
    };
    let places = (0..ring.layout.rafters.len()).filter_map(|place| Some((place, used(place)?)));
    let (place, _) = places.max_by(|(_, one), (_, other)| one.total_cmp(other))?;
    // rows that are there already are noted once more in a copy, which is dropped
    let mut noted = rows.clone();
    let loaded = loads::walk(house, roof, held, "roof.ring.pitch", &mut noted)?;
    let stood = stand(held, ring, &loaded, &mut noted).ok()?;
    let mut moments: Vec<[f64; 3]> = Vec::new();
    for (feet, combination) in
        Feet::BOTH.iter().flat_map(|feet| stood.strength.combinations.iter().map(move |one| (*feet, one)))
    {
        let sections = stood.answers.sections(place, feet, combination).ok()?;
        if moments.is_empty() {
            moments = sections.iter().map(|own| [own.along.in_m(), 0.0, 0.0]).collect();
        }
        for ([_, least, most], section) in moments.iter_mut().zip(&sections) {
            let moment = section.upright.in_n_m() / 1000.0;
            *least = least.min(moment);
            *most = most.max(moment);
        }
    }
    let (set, rafter) = (&ring.solved.sets[place], &ring.layout.rafters[place]);
    let end = moments.last()?[0];
    let marks = [rafter.overhang.in_m(), set.carry.in_m(), set.rest.in_m(), end];
    Some(Along { place: place + 1, tag: tag(ring, place), marks, moments })
}
