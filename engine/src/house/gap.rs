//! The gap between the top of the wall and the roof, and what fills it.

use super::earth::recipe_named;
use super::place::{shown, within};
use super::{Earth, Roof, Wall};
use crate::build::{Build, Source};
use crate::known::{Known, Origin};
use crate::units::{Length, System};

/// What fills the gap under the roof.
#[derive(Clone, Debug)]
pub struct Gap {
    /// Its recipe.
    pub of: Option<String>,
    /// The soft joint left under the deck.
    pub joint: Known<Length>,
}

pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    (wall, roof): (&Wall, Option<&Roof>),
    earth: Option<&Earth>,
    system: System,
) -> Option<Gap> {
    let written = build.wall.gap.as_ref()?;
    let at = |message: &str, hint: &str| source.fault(written.span.clone(), "wall.gap", message, hint);
    if !(wall.thicknesses.is_even() && wall.top.heights.is_even()) {
        at(
            "the gap is computed under a wall that is everywhere as thick and whose top is level or follows one slope, and this one is not",
            "leave [wall.gap] out and measure the gap when the poles lie",
        );
        return None;
    }
    let Some(roof) = roof else {
        if build.roof.is_none() {
            at("a gap lies under a roof, and none is written", "write [roof], or leave [wall.gap] out");
        }
        return None;
    };
    let joint = match &written.joint {
        Some(_) => {
            let what = "a joint under the deck";
            within(source, written.joint.as_ref(), Length::ZERO..Length::mm(200.0), what, system)?
        }
        None => {
            let why = "a drying wall settles and boards sag: the filling must not carry the roof";
            Known::assumed(Length::mm(20.0), "wall.gap.joint", Origin::Judgement, why)
        }
    };
    if let Some(at) = written.joint.as_ref().filter(|at| at.value >= roof.diameter.value) {
        let message = format!(
            "a joint of {} leaves nothing to fill beside poles of {}",
            shown(at.value, system),
            shown(roof.diameter.value, system)
        );
        source.fault(at.span.clone(), &at.path, message, "write a joint well below the diameter of the poles");
        return None;
    }
    let of = match &written.of {
        Some(of) => Some(recipe_named(source, of, earth)?),
        None => wall.cob.clone(),
    };
    Some(Gap { of, joint })
}
