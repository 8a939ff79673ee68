//! A lever under which bricks are crushed at home, with nothing missing; one that cannot be is refused.

use super::place::{shown, within};
use crate::build::{self, Source, Written};
use crate::earth::tables::number;
use crate::known::{Known, Origin};
use crate::units::{Length, Mass, System};

/// A beam on a pin, the brick under it near the pin, water hung far out.
#[derive(Clone, Debug)]
pub struct Lever {
    /// From the pin to what hangs.
    pub arm: Known<Length>,
    /// From the pin to the brick.
    pub brick: Known<Length>,
    /// The beam's mass.
    pub beam: Known<Mass>,
    /// From the pin to the beam's middle.
    pub middle: Known<Length>,
    /// The pin's diameter.
    pub pin: Known<Length>,
    /// Friction of the pin: on trust whatever is written, so that no lever outranks a laboratory.
    pub friction: Known<f64>,
}

/// A lever; one that gains nothing, or whose brick lies on the pin, is refused.
pub(super) fn lever(source: &Source<'_>, written: &build::Lever, path: &str, system: System) -> Option<Lever> {
    let arm = |own: &Option<Written<Length>>, what: &str| {
        within(source, own.as_ref(), Length::mm(50.0)..Length::m(10.0), what, system)
    };
    let from_pin = arm(&written.brick, "the way from a lever's pin to the brick");
    let pins = Length::mm(3.0)..Length::mm(100.0);
    let pin = within(source, written.pin.as_ref(), pins, "the diameter of a lever's pin", system);
    let beams = Mass::kg(0.5)..Mass::kg(500.0);
    let beam = within(source, written.beam.as_ref(), beams, "the mass of a lever's beam", system);
    let middle = arm(&written.middle, "the way from a lever's pin to its beam's middle");
    let long = arm(&written.arm, "the way from a lever's pin to what hangs on it");
    let own = within(source, written.friction.as_ref(), 0.0..1.0, "the friction of a lever's pin", system);
    let (friction, origin, why) = match own {
        Some(own) => (own.value, Origin::Word, "whatever its pin, a home lever stays on trust"),
        None => (number("lever-friction"), Origin::Judgement, "a greased bolt in a hole, as rough as it may be"),
    };
    let friction = Known::assumed(friction, format!("{path}.friction"), origin, why);
    let lever = Lever { arm: long?, brick: from_pin?, beam: beam?, middle: middle?, pin: pin?, friction };
    let at = written.brick.as_ref()?;
    if lever.brick.value <= lever.pin.value {
        let message = format!("the brick lies {} from the pin, on the pin itself", shown(lever.brick.value, system));
        source.fault(
            at.span.clone(),
            &at.path,
            message,
            "measure from the middle of the pin to the middle of the brick",
        );
        return None;
    }
    if lever.brick.value >= lever.arm.value {
        let message = format!(
            "the brick lies {} from the pin, and what hangs only {}",
            shown(lever.brick.value, system),
            shown(lever.arm.value, system)
        );
        source.fault(at.span.clone(), &at.path, message, "the brick lies near the pin, what hangs far out");
        return None;
    }
    Some(lever)
}
