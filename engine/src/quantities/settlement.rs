//! Rows of what wet cob sinks by: lifts, top, gaps over frames, conduits.

use crate::earth;
use crate::house::built_in::{Way, What};
use crate::house::{House, Opening, Recipe};
use crate::row::Rows;
use crate::units::{Length, Ratio};

pub(super) fn walk(house: &House, rows: &mut Rows) {
    let Some((_, cob)) = house.cob() else { return };
    let shrinkage = cob.path("shrinkage");
    let share = cob.shrinkage.value;
    let mut below: Option<&str> = None;
    for lift in &house.wall.lifts {
        let name = &lift.name;
        let top = lift.top.path.as_str();
        let wet = earth::wet_built(lift.top.value, share).from("height", top).from("shrinkage", shrinkage.as_str());
        rows.add(lift.path("wet-top"), format!("level to which {name} is built wet"), wet);
        let sinks = earth::settlement(lift.top.value, share).from("height", top).from("shrinkage", shrinkage.as_str());
        rows.add(lift.path("settlement"), format!("how far the top of {name} sinks"), sinks);
        // The first lift stands on stone: what it sinks by is what its top does.
        if below.is_some()
            && let Some(height) = rows.value::<Length>(&lift.path("height"))
        {
            let own = earth::settlement(height, share).from("height", lift.path("height"));
            let own = own.from("shrinkage", shrinkage.as_str());
            rows.add(lift.path("step"), format!("what {name} alone sinks by"), own);
        }
        below = Some(name);
    }
    for opening in house.openings.iter().filter(|opening| opening.frame.is_some()) {
        gap(opening, cob, rows);
    }
    for thing in &house.built_in {
        let What::Service(service) = &thing.what else { continue };
        if let (Way::Upright(_), Some(length)) = (&service.way, rows.value::<Length>(&thing.path("cob-length"))) {
            let slack = earth::settlement(length, share).from("height", thing.path("cob-length"));
            let slack = slack.from("shrinkage", shrinkage.as_str());
            let title = format!("what the cob beside {} sinks by", thing.name.replace('-', " "));
            rows.add(thing.path("slack"), title, slack);
        }
    }
    top(house, (share, &shrinkage), rows);
}

fn gap(opening: &Opening, cob: &Recipe, rows: &mut Rows) {
    let (share, shrinkage) = (cob.shrinkage.value, cob.path("shrinkage"));
    let gap = if opening.bottom.value < Length::ZERO {
        earth::gap_over_door(opening.height.value, opening.bottom.value, share)
            .from("threshold", opening.bottom.path.as_str())
    } else {
        earth::gap_over_frame(opening.height.value, share)
    };
    let gap = gap.from("height", opening.height.path.as_str()).from("shrinkage", shrinkage);
    rows.add(opening.path("gap"), format!("gap over the frame of {}", opening.name.replace('-', " ")), gap);
}

/// What the wall's own settlement is called, with what it asks of the joint at a roof.
const TOP_SINKS: &str = "how far the top of the wall sinks, where it is highest: a soft joint under a roof is at least so high; creep is not known";

/// The whole height: what rests on the top sinks with it.
fn top(house: &House, (share, shrinkage): (Ratio, &str), rows: &mut Rows) {
    let path = if house.wall.top.is_level() { "wall.height" } else { "wall.highest" };
    let Some(height) = rows.value::<Length>(path) else { return };
    let wet = earth::wet_built(height, share).from("height", path).from("shrinkage", shrinkage);
    rows.add(
        "wall.wet-height",
        "height to which the wall is built wet, where it is highest, and at which a bond beam is laid on it",
        wet,
    );
    let sinks = earth::settlement(height, share).from("height", path).from("shrinkage", shrinkage);
    rows.add("wall.settlement", TOP_SINKS, sinks);
}
