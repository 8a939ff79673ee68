//! Rows of the wood of a bond beam's planks, and what it bears.

use super::super::factors::{Factors, Lasts};
use crate::house::{self, Held};
use crate::known::Known;
use crate::quantities::line::bind;
use crate::reason::Answer;
use crate::roof::standing;
use crate::row::Rows;
use crate::units::Pressure;

/// The wood of the planks with the factors of its code, and that for the time of each combination.
pub(in super::super) struct Planks<'a> {
    pub wood: &'a house::Planks,
    pub factors: Factors,
    pub durations: Vec<f64>,
}

impl<'a> Planks<'a> {
    /// Those of a roof; nothing where no beam of planks lies under it.
    pub fn of(held: &'a Held, strength: &Lasts) -> Option<Planks<'a>> {
        let wood = held.planks.as_ref()?;
        let factors = Factors::of_wood(held.code, wood.damp.value, false);
        let durations = strength.acting.iter().map(|acting| factors.duration(acting)).collect();
        Some(Planks { wood, factors, durations })
    }

    /// Notes what they are of.
    pub fn noted(held: &Held, rows: &mut Rows) {
        let Some(wood) = &held.planks else { return };
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
