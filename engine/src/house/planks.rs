//! The wood of the planks of a bond beam: what is written of them, else that of the poles.

use super::place::{known, within};
use super::roof_wood::{self, Code, Values, Wood};
use crate::build::{self, Source};
use crate::known::{Known, Origin};
use crate::units::{Density, System};

/// The wood of the planks of a bond beam.
#[derive(Clone, Debug)]
pub struct Planks {
    /// Its values.
    pub values: Values,
    /// The place of damp: 1, 2 or 3.
    pub damp: Known<u64>,
    /// What they weigh.
    pub density: Known<Density>,
}

/// Why planks are taken to be as the poles.
const AS_POLES: &str = "nobody wrote of what wood the planks of the bond beam are: as the poles";

/// Under which keys of the build file it is written.
const STEM: &str = "wall.bond-beam";

pub(super) fn place(
    source: &Source<'_>,
    written: &build::Planks,
    (poles, density): (&Wood, &Known<Density>),
    code: Code,
    system: System,
) -> Option<Planks> {
    roof_wood::damp_is_a_place(source, written.damp.as_ref())?;
    let values = match &written.class {
        Some(class) => {
            let class = build::Wood { class: Some(class.clone()), ..build::Wood::default() };
            roof_wood::graded(source, &class, STEM, code)?
        }
        None => as_poles(&poles.values),
    };
    let values = roof_wood::own(source, &written.strength, values, code, system)?;
    let densities = Density::kg_m3(200.0)..Density::kg_m3(1300.0);
    let own = within(source, written.density.as_ref(), densities, "the density of a plank", system);
    if written.density.is_some() && own.is_none() {
        return None;
    }
    Some(Planks {
        values,
        damp: known(written.damp.as_ref()).unwrap_or_else(|| followed(&poles.damp, "damp")),
        density: own.unwrap_or_else(|| followed(density, "density")),
    })
}

/// What is taken from the poles, at a key of the beam.
fn followed<T: Copy>(of_poles: &Known<T>, noun: &str) -> Known<T> {
    let path = format!("{STEM}.{noun}");
    Known::assumed(of_poles.value, path, Origin::Judgement, AS_POLES).following(of_poles.path.as_str())
}

fn as_poles(values: &Values) -> Values {
    let of = |of_poles, noun: &str| followed(of_poles, &format!("strength.{noun}"));
    Values {
        bending: of(&values.bending, "bending"),
        tension: of(&values.tension, "tension"),
        compression: of(&values.compression, "compression"),
        across: of(&values.across, "across"),
        shear: of(&values.shear, "shear"),
        stiffness: of(&values.stiffness, "stiffness"),
        low_stiffness: of(&values.low_stiffness, "low-stiffness"),
        shear_stiffness: of(&values.shear_stiffness, "shear-stiffness"),
        densities: None,
    }
}
