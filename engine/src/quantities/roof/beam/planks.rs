//! Rows of the wood of a bond beam's planks, and what it bears.

use super::super::factors::Factors;
use super::OnBeam;
use crate::house;
use crate::known::Known;
use crate::quantities::line::bind;
use crate::reason::Answer;
use crate::roof::standing;
use crate::row::Rows;
use crate::units::Pressure;

/// The wood of the planks with the factors of its code, and that for the time of each combination.
pub(super) struct Planks<'a> {
    pub wood: &'a house::Planks,
    pub factors: Factors,
    pub durations: Vec<f64>,
}

impl<'a> Planks<'a> {
    /// Notes what they are of; nothing where the roof is held by no code.
    pub fn of(on: &OnBeam<'a>, rows: &mut Rows) -> Option<Planks<'a>> {
        let wood = on.held.planks.as_ref()?;
        let values = &wood.values;
        for (title, known) in [
            ("strength of the planks of the bond beam in bending", &values.bending),
            ("strength of those planks in tension along the grain", &values.tension),
            ("strength of those planks in compression along the grain", &values.compression),
            ("strength of those planks in compression across the grain", &values.across),
            ("strength of those planks in shear", &values.shear),
            ("modulus of elasticity of those planks", &values.stiffness),
            ("shear modulus of those planks", &values.shear_stiffness),
        ] {
            rows.known(title, known);
        }
        if let Some([low, _]) = &values.densities {
            rows.known("density of the wood of those planks as their class has it, low", low);
        }
        if let Some(gravity) = &values.gravity {
            rows.known("specific gravity of the wood of those planks", gravity);
        }
        rows.known("place of damp of the bond beam: 1 dry, 2 under a roof, 3 wet or laid green", &wood.damp);
        rows.known("density of the planks of the bond beam", &wood.density);
        let factors = Factors::of_wood(on.held.code, wood.damp.value, false);
        let durations = on.strength.acting.iter().map(|acting| factors.duration(acting)).collect();
        Some(Planks { wood, factors, durations })
    }

    pub fn ring(&self) -> standing::Wood {
        let values = &self.wood.values;
        let young = values.stiffness.value * self.factors.wet("e");
        standing::Wood { young, shear: values.shear_stiffness.value, density: self.wood.density.value }
    }

    fn value(&self, noun: &str) -> &Known<Pressure> {
        let values = &self.wood.values;
        match noun {
            "bending" => &values.bending,
            "tension" => &values.tension,
            "compression" => &values.compression,
            "across" => &values.across,
            _ => &values.shear,
        }
    }

    /// What they bear before the factors of time and material.
    pub fn strength(&self, noun: &str) -> Pressure {
        self.value(noun).value * self.factors.wet(noun)
    }

    /// Adds a strength and the place of damp.
    pub fn bound<T>(&self, answer: Answer<T>, noun: &str, rows: &Rows) -> Answer<T> {
        bind(bind(answer, rows, &self.value(noun).path), rows, &self.wood.damp.path)
    }
}
