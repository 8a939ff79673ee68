//! Rows of what bears of the bond beam, and over which length it hands a load on to the earth.

use super::planks::Planks;
use super::{number, path};
use crate::house::BondBeam;
use crate::quantities::line::bind;
use crate::reason::Answer;
use crate::roof::beam::{self as ring, Left};
use crate::row::Rows;
use crate::timber::{beam as timber, section};
use crate::units::{Area, Length, SecondMoment, SectionModulus};

/// What bears of the beam; of one layer alone as if its scarfs held, for finding where it is used most.
pub(super) fn left(beam: &BondBeam, rows: &mut Rows) -> Left {
    let (width, height, layers) = (beam.width.value, beam.height.value, beam.layers.value);
    let planks = timber::whole_planks(layers).from("layers", beam.layers.path.as_str());
    let planks = rows.add(
        path("planks"),
        "planks of the bond beam that count in strength, every second one cut by a scarf",
        planks,
    );
    let planks = planks.max(1);
    let sized = |answer: Answer<SectionModulus>| {
        let answer = answer.from("width", beam.width.path.as_str()).from("height", beam.height.path.as_str());
        answer.from("layers", beam.layers.path.as_str()).from("planks", path("planks"))
    };
    let area = timber::planks_area(width, height, layers, planks)
        .from("width", beam.width.path.as_str())
        .from("height", beam.height.path.as_str())
        .from("layers", beam.layers.path.as_str())
        .from("planks", path("planks"));
    let area: Area = rows.add(path("area"), "area of those planks", area);
    let upright = sized(timber::planks_upright(width, height, layers, planks));
    let plan = sized(timber::planks_plan(width, height, layers, planks));
    let twist = sized(timber::planks_twist(width, height, layers, planks));
    Left {
        area,
        upright: rows.add(path("upright.modulus"), "section modulus of those planks, up and down", upright),
        plan: rows.add(path("plan.modulus"), "section modulus of those planks, in plan", plan),
        twist: rows.add(path("twist.modulus"), "torque over its greatest stress, of those planks", twist),
    }
}

/// Over which length the beam hands a load on to soft earth and to stiff earth; as if only the planks that count lay there.
pub(super) fn elastic(beam: &BondBeam, wood: &Planks<'_>, plank: Length, rows: &mut Rows) -> [Length; 2] {
    let planks = timber::whole_planks(beam.layers.value).value.max(1) as f64;
    let second: SecondMoment = section::rectangle_second_moment(beam.width.value, plank).value * planks;
    let (young, stiffness) = (wood.ring().young, wood.wood.values.stiffness.path.as_str());
    [("soft", &beam.earth[0]), ("stiff", &beam.earth[1])].map(|(noun, earth)| {
        let own = earth.path.as_str();
        let title = format!("modulus of elasticity of the earth under the bond beam, where it is {noun}");
        let earth = rows.known(title, earth);
        let bed = ring::bed_stiffness(earth, beam.width.value, young, second, number("earth-poisson"));
        let bed = bed
            .from("earth", own)
            .from("width", beam.width.path.as_str())
            .from("stiffness", stiffness)
            .without("second moment")
            .without("poisson");
        let bed =
            [beam.height.path.as_str(), beam.layers.path.as_str()].iter().fold(bed, |bed, path| bind(bed, rows, path));
        let title = format!("how stiff {noun} earth bears each metre of the bond beam");
        let bed = rows.add(path(&format!("{noun}-bed")), title, bed);
        let length = ring::elastic_length(bed, young, second)
            .from("bed", path(&format!("{noun}-bed")))
            .from("stiffness", stiffness)
            .without("second moment");
        let length = [beam.width.path.as_str(), beam.height.path.as_str(), beam.layers.path.as_str()]
            .iter()
            .fold(length, |length, path| bind(length, rows, path));
        let title = format!("length to either side over which the bond beam hands a load on to {noun} earth");
        rows.add(path(&format!("{noun}-length")), title, length)
    })
}
