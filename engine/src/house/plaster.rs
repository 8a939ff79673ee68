//! How plaster is put on, with nothing missing: what is lost, bins, the wet edge, people and their reach.

use super::place::{known, within};
use crate::build::{self, Source};
use crate::known::{Known, Origin};
use crate::units::{Area, Days, Length, Ratio, System, Volume};

/// How plaster is put on.
#[derive(Clone, Debug)]
pub struct Plastering {
    /// What falls or stays on boards, as a share of what stays on the wall.
    pub loss: Known<Ratio>,
    /// What a bin of ready plaster holds.
    pub bin: Known<Volume>,
    /// How long an edge stays wet enough to be worked into.
    pub open_time: Known<Days>,
    /// What one person covers in an hour.
    pub pace: Known<Area>,
    /// People with trowels on the wall.
    pub people: Known<u64>,
    /// How high a person plasters from the ground.
    pub reach: Known<Length>,
}

/// How plaster is put on; none where nothing is coated, and then nothing may be written of it.
pub(super) fn plastering(
    source: &Source<'_>,
    written: &build::Skin,
    is_coated: bool,
    system: System,
) -> Option<Plastering> {
    if !is_coated {
        let places = [
            written.loss.as_ref().map(|written| (&written.span, &written.path)),
            written.bin.as_ref().map(|written| (&written.span, &written.path)),
            written.open_time.as_ref().map(|written| (&written.span, &written.path)),
            written.pace.as_ref().map(|written| (&written.span, &written.path)),
            written.people.as_ref().map(|written| (&written.span, &written.path)),
            written.reach.as_ref().map(|written| (&written.span, &written.path)),
        ];
        if let Some((span, path)) = places.into_iter().flatten().next() {
            let hint = "write a coat, [[skin.inside]] or [[skin.outside]], or leave this out";
            source.fault(span.clone(), path, "no coat is written, so nothing is plastered", hint);
        }
        return None;
    }
    let losses = Ratio::ZERO..Ratio::percent(60.0);
    let bins = Volume::litres(10.0)..Volume::litres(1500.0);
    let spans = Days::minutes(5.0)..Days::hours(24.0);
    let areas = Area::m2(0.2)..Area::m2(30.0);
    let heights = Length::m(1.0)..Length::m(2.100_001);
    let people = written.people.as_ref().filter(|people| {
        let is_crew = (1..100).contains(&people.value);
        if !is_crew {
            let message = format!("{} people are no plastering crew", people.value);
            source.fault(people.span.clone(), &people.path, message, "write a number from 1 to 99");
        }
        is_crew
    });
    Some(Plastering {
        loss: within(source, written.loss.as_ref(), losses, "what is lost of plaster", system).unwrap_or_else(|| {
            let why = "what falls, and what stays on boards and in bins; weigh a day's droppings";
            Known::assumed(Ratio::percent(10.0), "skin.loss", Origin::Judgement, why)
        }),
        bin: within(source, written.bin.as_ref(), bins, "what a bin of plaster holds", system).unwrap_or_else(|| {
            let why = "a builder's tub or a dustbin, not filled to the brim";
            Known::assumed(Volume::litres(90.0), "skin.bin", Origin::Judgement, why)
        }),
        open_time: within(source, written.open_time.as_ref(), spans, "how long an edge stays wet", system)
            .unwrap_or_else(|| {
                let why = "a damped wall in shade without wind; sun or wind halve it: try it on a test panel";
                Known::assumed(Days::minutes(45.0), "skin.open-time", Origin::Judgement, why)
            }),
        pace: within(source, written.pace.as_ref(), areas, "what one person plasters in an hour", system)
            .unwrap_or_else(|| {
                let why = "a learner on a curved wall; time the first square metre";
                Known::assumed(Area::m2(2.5), "skin.pace", Origin::Judgement, why)
            }),
        people: known(people).unwrap_or_else(|| {
            let why = "as many as stand side by side on a small wall and one mixer feeds";
            Known::assumed(6, "skin.people", Origin::Judgement, why)
        }),
        reach: within(source, written.reach.as_ref(), heights, "a height reached from the ground", system)
            .unwrap_or_else(|| {
                let why = "a trowel is leaned on up to about the height of the head";
                Known::assumed(Length::m(1.8), "skin.reach", Origin::Judgement, why)
            }),
    })
}
