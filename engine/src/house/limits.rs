//! Limits of the fine part of a soil with nothing missing; a point that no soil has is refused.

use jiff::civil::Date;

use super::earth::{Earth, percent};
use super::jars::ingredient_named;
use super::place::{known, shown, within};
use crate::build::{self, Build, Source, Written};
use crate::earth::{soil, tables::number};
use crate::known::{Known, Origin};
use crate::units::{Ratio, System};

/// How much water makes the fine part of a soil flow or crumble.
#[derive(Clone, Debug)]
pub struct Limits {
    /// Its name.
    pub name: String,
    /// The ingredient that was tested.
    pub of: String,
    /// The day of the test.
    pub day: Option<Known<Date>>,
    /// Moisture at which it flows.
    pub liquid: Known<Ratio>,
    /// Moisture at which a thread of it crumbles.
    pub plastic: Known<Ratio>,
    /// Share of the dry soil that is under 0.425 mm, where it is written.
    pub fine: Option<Known<Ratio>>,
    /// How far each limit may be off.
    pub error: Known<Ratio>,
}

impl Limits {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.limits.{}.{noun}", self.name)
    }
}

/// The limits of a build file.
pub(super) fn place(source: &Source<'_>, build: &Build, earth: Option<&Earth>, system: System) -> Vec<Limits> {
    build.limits.iter().filter_map(|written| limits(source, written, earth, system)).collect()
}

fn limits(source: &Source<'_>, written: &build::Limits, earth: Option<&Earth>, system: System) -> Option<Limits> {
    let of = written.of.as_ref().and_then(|of| ingredient_named(source, of, earth));
    let share = |written: &Option<Written<Ratio>>, most: f64, what: &str| {
        within(source, written.as_ref(), percent(1.0, most), what, system)
    };
    let liquid = share(&written.liquid, 300.0, "the liquid limit of a soil");
    let plastic = share(&written.plastic, 150.0, "the plastic limit of a soil");
    let fine = share(&written.fine, 100.000_001, "the share of a soil under 0.425 mm");
    let what = "how far a limit of a soil may be off";
    let error = within(source, written.error.as_ref(), percent(0.0, 10.0), what, system).unwrap_or_else(|| {
        let why = "two tries of one hand lie a point or two apart; make each test twice";
        Known::assumed(
            Ratio::fraction(number("limits-error-ratio")),
            format!("{}.error", written.name.path),
            Origin::Judgement,
            why,
        )
    });
    let (liquid, plastic, at) = (liquid?, plastic?, written.plastic.as_ref()?);
    if plastic.value > liquid.value {
        let (plastic, liquid) = (shown(plastic.value, system), shown(liquid.value, system));
        let message = format!("the plastic limit, {plastic}, is above the liquid limit, {liquid}");
        let hint = "swap them, or leave the test out: a soil that flows before it can be rolled is not plastic";
        source.fault(at.span.clone(), &at.path, message, hint);
        return None;
    }
    let index = soil::plasticity_index(liquid.value, plastic.value).value;
    let most = soil::u_line(liquid.value).value;
    if index > most {
        let (index, most) = (shown(index, system), shown(most.max(Ratio::ZERO), system));
        let message =
            format!("a plasticity index of {index} lies above the U-line, which has {most} at this liquid limit");
        let hint = "no natural soil has been found there: make both tests again";
        source.fault(at.span.clone(), &at.path, message, hint);
        return None;
    }
    let (name, day) = (written.name.value.clone(), known(written.day.as_ref()));
    Some(Limits { name, of: of?, day, liquid, plastic, fine, error })
}
