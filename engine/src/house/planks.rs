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

/// Why planks of a class lie as damp as the poles.
const AS_DAMP: &str = "nobody wrote how damp the bond beam lies: as the poles";

/// Why planks of a class without a density weigh what the poles do.
const AS_HEAVY: &str = "nobody wrote what the planks of the bond beam weigh: as the poles";

/// Why planks of a class weigh what they do.
const OF_CLASS: &str = "nobody weighed the planks of the bond beam: the mean of the class that is written";

/// Under which keys of the build file it is written.
const STEM: &str = "wall.bond-beam";

/// Whether planks are of a class that some table has, lie in a place of damp and weigh what wood may, whatever holds their roof.
pub(super) fn are_wood(source: &Source<'_>, written: &build::Planks, system: System) -> bool {
    let is_damp = roof_wood::damp_is_a_place(source, written.damp.as_ref()).is_some();
    let densities = Density::kg_m3(200.0)..Density::kg_m3(1300.0);
    let density = within(source, written.density.as_ref(), densities, "the density of a plank", system);
    let is_of_a_class = written.class.as_ref().is_none_or(|class| roof_wood::is_a_class(source, class));
    is_damp && is_of_a_class && density.is_some() == written.density.is_some()
}

pub(super) fn place(
    source: &Source<'_>,
    written: &build::Planks,
    (poles, density): (&Wood, &Known<Density>),
    code: Code,
    system: System,
) -> Option<Planks> {
    let values = match &written.class {
        Some(class) => {
            let class = build::Wood { class: Some(class.clone()), ..build::Wood::default() };
            roof_wood::graded(source, &class, STEM, code)?
        }
        None => as_poles(&poles.values),
    };
    let values = roof_wood::own(source, &written.strength, values, code, system)?;
    let [as_damp, as_heavy] = if written.class.is_some() { [AS_DAMP, AS_HEAVY] } else { [AS_POLES; 2] };
    let density = known(written.density.as_ref()).unwrap_or_else(|| match (&written.class, &values.densities) {
        (Some(_), Some([_, mean])) => Known::assumed(mean.value, format!("{STEM}.density"), mean.origin, OF_CLASS),
        _ => followed(density, "density", as_heavy),
    });
    let damp = known(written.damp.as_ref()).unwrap_or_else(|| followed(&poles.damp, "damp", as_damp));
    Some(Planks { values, damp, density })
}

/// What is taken from the poles, at a key of the beam.
fn followed<T: Copy>(of_poles: &Known<T>, noun: &str, why: &'static str) -> Known<T> {
    let path = format!("{STEM}.{noun}");
    Known::assumed(of_poles.value, path, Origin::Judgement, why).following(of_poles.path.as_str())
}

fn as_poles(values: &Values) -> Values {
    let of = |of_poles, noun: &str| followed(of_poles, &format!("strength.{noun}"), AS_POLES);
    let of_density = |of_poles, noun: &str| followed(of_poles, &format!("strength.{noun}"), AS_POLES);
    Values {
        bending: of(&values.bending, "bending"),
        tension: of(&values.tension, "tension"),
        compression: of(&values.compression, "compression"),
        across: of(&values.across, "across"),
        shear: of(&values.shear, "shear"),
        stiffness: of(&values.stiffness, "stiffness"),
        low_stiffness: of(&values.low_stiffness, "low-stiffness"),
        shear_stiffness: of(&values.shear_stiffness, "shear-stiffness"),
        densities: values
            .densities
            .as_ref()
            .map(|[low, mean]| [of_density(low, "low-density"), of_density(mean, "mean-density")]),
        gravity: values.gravity.as_ref().map(|gravity| followed(gravity, "strength.gravity", AS_POLES)),
    }
}
