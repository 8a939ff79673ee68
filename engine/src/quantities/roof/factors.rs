//! The factors of the code by which a roof is held, read from its tables, and what its wood bears while a combination lasts.

use super::super::line::bind;
use crate::house::{Code, Held};
use crate::loads::acting::{Acting, Loads, Stage};
use crate::reason::Answer;
use crate::roof::standing::{Bears, Combination};
use crate::row::Rows;
use crate::timber::tables::factor;
use crate::timber::{asd, eurocode, section, used};
use crate::units::{Force, Length, Pressure, Ratio};

/// The factors of a code in a place of damp.
#[derive(Clone)]
pub(super) struct Factors {
    pub code: Code,
    damp: u64,
    /// Of the material.
    pub partial: f64,
    /// Share of the width in shear that cracks leave.
    pub uncracked: f64,
    creep: [f64; 2],
}

/// A combination of the code as a frame takes it, with the factor of the wood for the time that it lasts.
pub(super) struct Lasts {
    pub acting: Vec<Acting>,
    pub combinations: Vec<Combination>,
    pub durations: Vec<f64>,
}

impl Lasts {
    fn append(&mut self, mut more: Lasts) {
        self.acting.append(&mut more.acting);
        self.combinations.append(&mut more.combinations);
        self.durations.append(&mut more.durations);
    }

    /// The same, each combination made another.
    pub fn with(&self, of: impl Fn(&Combination) -> Combination) -> Lasts {
        Lasts {
            acting: self.acting.clone(),
            combinations: self.combinations.iter().map(of).collect(),
            durations: self.durations.clone(),
        }
    }
}

/// A combination for a stick that carries its own weight and what presses on it then, in newtons.
pub(super) fn pressed_by(own: &Combination, press: f64) -> Combination {
    Combination { areas: [Pressure::ZERO; 4], extras: vec![press], ..own.clone() }
}

/// Drops the factors of the tables from a share of a pole, and adds its strength and the place of damp.
pub(super) fn by_wood(share: Answer<Ratio>, noun: &str, rows: &Rows) -> Answer<Ratio> {
    let share = share.without("strength").without("duration").without("partial");
    bind(bind(share, rows, &format!("poles.strength.{noun}")), rows, "poles.damp")
}

fn number(name: &str) -> f64 {
    factor(name).map_or(f64::NAN, |fact| fact.number)
}

impl Factors {
    pub fn of(held: &Held) -> Factors {
        Factors::of_wood(held.code, held.wood.damp.value, held.wood.is_green)
    }

    pub fn of_wood(code: Code, damp: u64, is_green: bool) -> Factors {
        let (partial, uncracked, creep) = match code {
            Code::En => {
                let green = if is_green { number("kdef-green-more") } else { 0.0 };
                (number("gamma-m"), number("kcr"), [number(&format!("kdef-{damp}")) + green, number("psi2-roof")])
            }
            Code::Asce => {
                let wet = is_green || damp > 2;
                let creep = number(if wet { "kcr-creep-wet" } else { "kcr-creep-dry" }) - 1.0;
                (1.0, 1.0, [creep, 0.0])
            }
        };
        Factors { code, damp, partial, uncracked, creep }
    }

    /// The noun of a row whose rule is that of the code.
    pub fn noun(&self, noun: &str) -> String {
        match self.code {
            Code::En => noun.to_owned(),
            Code::Asce => format!("asd-{noun}"),
        }
    }

    pub fn duration(&self, acting: &Acting) -> f64 {
        match self.code {
            Code::En => number(&format!("kmod-{}-{}", self.damp, acting.combination.duration)),
            Code::Asce => number(&format!("cd-{}", acting.combination.duration)),
        }
    }

    /// What a wet place leaves of a value; the European code has it in the factor for duration.
    pub fn wet(&self, noun: &str) -> f64 {
        let known = matches!(self.code, Code::Asce) && self.damp > 2;
        if known { number(&format!("cm-{noun}")) } else { 1.0 }
    }

    /// Everything that a roof must stand in strength; no blocked outlet where no water is laid among the extra loads.
    pub fn strength(&self, loads: &Loads, extras: usize) -> Lasts {
        let method = if matches!(self.code, Code::En) { "EN 6.10" } else { "ASD" };
        let mut acting = loads.at_any_time(method);
        acting.retain(|own| extras > 0 || own.stage != Stage::Blocked);
        self.lasts(acting, extras)
    }

    /// The same, and after all of it what a roof must stand as a body that may be lifted off: there a code may count less of what stays.
    pub fn lifting(&self, loads: &Loads, extras: usize) -> Lasts {
        let mut lasts = self.strength(loads, extras);
        if matches!(self.code, Code::En) {
            lasts.append(self.lasts(loads.in_use("EN EQU"), extras));
        }
        lasts
    }

    /// The same for its sag in the end.
    pub fn sag(&self, loads: &Loads, extras: usize) -> Lasts {
        let method = if matches!(self.code, Code::En) { "EN sag" } else { "ASD sag" };
        self.lasts(loads.crept(self.creep[0], self.creep[1]).in_use(method), extras)
    }

    fn lasts(&self, acting: Vec<Acting>, extras: usize) -> Lasts {
        let frame = |own: &Acting| Combination {
            name: String::new(),
            weight: own.weight,
            areas: own.areas,
            extras: vec![own.pond; extras],
        };
        Lasts {
            combinations: acting.iter().map(frame).collect(),
            durations: acting.iter().map(|own| self.duration(own)).collect(),
            acting,
        }
    }

    /// Share of its strength in compression that a pole keeps over a length, and the stress at which it buckles where the code
    /// wants that.
    pub fn column(&self, held: &Held, length: Length, diameter: Length, duration: f64) -> (Ratio, Option<Pressure>) {
        let values = &held.wood.values;
        match self.code {
            Code::En => {
                let slender = eurocode::round_slenderness(length, diameter).value;
                let (strength, stiffness) = (values.compression.value, values.low_stiffness.value);
                (eurocode::column_factor(slender, strength, stiffness, number("beta-c")).value, None)
            }
            Code::Asce => {
                let side = asd::equal_square(diameter).value;
                let stiffness = values.low_stiffness.value * self.wet("e");
                let buckling = asd::buckling_stress(stiffness, length, side).value;
                let strength = values.compression.value * (duration * self.wet("compression"));
                (asd::column_stability(buckling, strength, number("c-round")).value, Some(buckling))
            }
        }
    }

    /// Share of its shear strength that a round piece so thick, cut and bored uses at the notch where it rests, from whose corner
    /// what carries it lies so far; the strength before the factor of time.
    pub fn notched(
        &self,
        force: Force,
        (diameter, cut, hole): (Length, Length, Length),
        reach: Length,
        shear: Pressure,
        duration: f64,
    ) -> Answer<Ratio> {
        let (area, left) = (section::net_area(diameter, cut, hole).value, diameter - cut);
        let share = match self.code {
            Code::En => {
                let kept = eurocode::notch_factor(diameter, left, reach, 0.0, number("kn")).value;
                let sheared = used::shear_used(force, area, self.uncracked, shear, duration, self.partial).value;
                used::notch_used(sheared, kept)
            }
            Code::Asce => {
                let carried = asd::notched_shear_of_round(shear * duration, area, diameter, left).value;
                used::notch_used(Ratio::fraction(force / carried), Ratio::fraction(1.0))
            }
        };
        share.without("shear used").without("kept")
    }

    /// What the wood of a pole bears in each combination.
    pub fn bears(&self, held: &Held, durations: &[f64], length: Length, diameter: Length) -> Vec<Bears> {
        let values = &held.wood.values;
        let mut known: Option<(f64, Bears)> = None;
        let mut all = Vec::with_capacity(durations.len());
        for &duration in durations {
            let bears = match known {
                Some((same, bears)) if same == duration => bears,
                _ => {
                    let by = duration / self.partial;
                    let (kept, buckling) = self.column(held, length, diameter, duration);
                    let compression = values.compression.value * (by * self.wet("compression") * kept.in_fraction());
                    Bears {
                        bending: values.bending.value * (by * self.wet("bending")),
                        shear: values.shear.value * (by * self.wet("shear") * self.uncracked),
                        tension: values.tension.value * (by * self.wet("tension")),
                        compression,
                        buckling,
                    }
                }
            };
            known = Some((duration, bears));
            all.push(bears);
        }
        all
    }
}
