//! What a trial of the ring takes for wood, joints and loads: poles of the weakest class, a usual bolt, their own weight and the
//! layers as they lie soaked.

use crate::house::Roof;
use crate::roof::load_in_plan;
use crate::roof::standing::{Combination, Joints, Loading, Passing, Wood};
use crate::row::Rows;
use crate::timber::{crossing, tables};
use crate::units::{Angle, Pressure};

pub(super) struct Taken {
    pub wood: Wood,
    pub joints: Joints,
    pub loading: Loading,
    pub combinations: Vec<Combination>,
    /// What is taken and what is left out, in sentences.
    pub words: Vec<String>,
}

/// `None` where a table of timber lacks what is needed.
pub(super) fn taken(roof: &Roof, rows: &Rows) -> Option<Taken> {
    let class = tables::strength_classes().first()?;
    let bolt = crossing::usual_bolt()?;
    let [push, tie] = crossing::crossing(class.stiffness, class.mean_density, roof.diameter.value, bolt)?;
    let wood = Wood { young: class.stiffness, shear: class.shear_stiffness, density: roof.density.value };
    let combinations = combinations(rows);
    let mut words = vec![
        format!(
            "On trust: every pole as stiff as class {} ({}), every crossing bolted by {:.0} mm and let in by halves.",
            class.name,
            class.citation.work,
            bolt.in_mm()
        ),
        "Left out: snow, wind, people and what they bring up.".to_owned(),
    ];
    if roof.secondary.is_some() {
        words.push("Left out: secondary rafters; the poles take the layers between them alone.".to_owned());
    }
    if combinations.len() < 2 {
        words.push("The roof has no layers yet: the poles carry themselves alone.".to_owned());
    }
    Some(Taken {
        wood,
        joints: Joints { passing: Passing::Touching { push, tie }, upper_share: 0.5 },
        loading: Loading { first_half: Angle::ZERO, extras: Vec::new(), between: None },
        combinations,
        words,
    })
}

/// The heaviest first.
fn combinations(rows: &Rows) -> Vec<Combination> {
    let under = |name: &str, load: Pressure| Combination {
        name: name.to_owned(),
        weight: 1.0,
        areas: [load; 4],
        extras: Vec::new(),
    };
    let load = rows.value::<Pressure>("roof.dead-load").zip(rows.value::<Angle>("roof.ring.pitch"));
    let layers = load.map(|(load, pitch)| under("poles and soaked layers", load_in_plan(load, pitch).value));
    layers.into_iter().chain([under("poles alone", Pressure::ZERO)]).collect()
}
