//! Poles of a ring that are up: what their measured levels make of those that are left.

use super::Ring;
use super::place::within;
use super::ring::bands;
use super::ring_faults;
use crate::build::{self, Source, Written};
use crate::known::Known;
use crate::roof::poles::{self, Band, Fault, Figures, Measured, Propped};
use crate::units::{Length, System};

/// The levels that are written; `None` where one is told of that cannot be.
pub(super) fn levels(
    source: &Source<'_>,
    keys: &build::RingKeys,
    count: u64,
    system: System,
) -> Option<Vec<Known<Length>>> {
    let range = || Length::mm(300.0)..Length::m(15.0);
    let what = "the level of a pole, above the foot of the cob,";
    let hint = "write them in the order of raising, each at its mark where it rests";
    at_most_one_each(source, &keys.raised, count, ("roof.raised", "levels of poles", hint))?;
    keys.raised.iter().map(|one| within(source, Some(one), range(), what, system)).collect()
}

/// Refuses more measures than there are poles.
pub(super) fn at_most_one_each(
    source: &Source<'_>,
    written: &[Written<Length>],
    count: u64,
    (path, what, hint): (&str, &str, &'static str),
) -> Option<()> {
    let many = written.len();
    match written.first() {
        Some(first) if many as u64 > count => {
            let message = format!("{many} {what} are measured, and there are {count} poles");
            source.fault(first.span.clone(), path, message, hint);
            None
        }
        _ => Some(()),
    }
}

/// The ring with its first poles where they were measured; `None` where a pole cannot lie so.
pub(super) fn solved_again(
    source: &Source<'_>,
    keys: &build::RingKeys,
    ring: Ring,
    raised: Vec<Known<Length>>,
) -> Option<Ring> {
    if raised.is_empty() {
        return Some(ring);
    }
    let measured: Vec<Measured> = ring
        .propped
        .order
        .iter()
        .zip(&raised)
        .map(|(&place, level)| Measured { place, along: ring.solved.sets[place].rest, height: level.value })
        .collect();
    match again(&ring, &measured) {
        Ok(again) => {
            let Again { layout, solved, propped, settled, bands } = again;
            Some(Ring { layout, solved, propped, settled, bands, raised, ..ring })
        }
        Err(fault) => {
            let at = match fault {
                Fault::HeightOutOfReach(place) => measured.iter().position(|one| one.place == place),
                _ => None,
            };
            let at = &keys.raised[at.unwrap_or(measured.len() - 1)];
            let hint =
                "measure again, from the foot of the cob to the middle of the pole at its mark, with the prop in";
            let (message, hint) = ring_faults::refused(fault, hint);
            source.fault(at.span.clone(), &at.path, message, hint);
            None
        }
    }
}

/// What of a ring its poles that are up change.
struct Again {
    layout: poles::Layout,
    solved: poles::Ring,
    propped: Propped,
    settled: poles::Ring,
    bands: Figures<Band>,
}

fn again(ring: &Ring, measured: &[Measured]) -> Result<Again, Fault> {
    let layout = poles::as_raised(&ring.layout, &ring.solved, measured)?;
    let solved = poles::ring(&layout)?;
    if let Some(fault) = solved.faults.first() {
        return Err(*fault);
    }
    let propped = poles::propped_as_raised(&ring.layout, &ring.solved, measured)?;
    let settled = poles::bedded(&layout, &solved, ring.bedding.value)?;
    let bands = bands(&layout, ring.measured_to.value)?;
    Ok(Again { layout, solved, propped, settled, bands })
}
