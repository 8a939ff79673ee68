//! Rows of services: their sleeves through wall or stem, conduits upright in the wall, flues through the roof.

use super::super::need::Need;
use super::super::uneven::{bind_line, bind_local, bind_once, is_even};
use super::said;
use super::through::Through;
use crate::house::built_in::{BOX, Passing, Service, Upright, Way};
use crate::house::{BuiltIn, House};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Length, Slope};
use crate::wall;

pub(super) fn service(house: &House, thing: &BuiltIn, service: &Service, rows: &mut Rows) -> Vec<Need> {
    let name = said(thing);
    rows.known(format!("diameter of {name}"), &service.diameter);
    match &service.way {
        Way::Through(passing) => vec![self::passing(house, thing, passing, rows)],
        Way::Upright(upright) => self::upright(thing, service, upright, rows),
        Way::Roof { at: [x, y], clearance } => {
            rows.known(format!("{name} through the roof, x"), x);
            rows.known(format!("{name} through the roof, y"), y);
            if let Some(clearance) = clearance {
                rows.known(format!("clearance of {name} from what burns, by its listing"), clearance);
            }
            Vec::new()
        }
    }
}

fn passing(house: &House, thing: &BuiltIn, passing: &Passing, rows: &mut Rows) -> Need {
    let name = said(thing);
    rows.known(format!("middle of {name} along its run"), &passing.spot.along);
    rows.known(format!("level of the middle of {name}"), &passing.level);
    if let Some(play) = &passing.play {
        rows.known(format!("room for {name} in its sleeve"), play);
    }
    rows.known(format!("diameter of the sleeve of {name}"), &passing.sleeve);
    if let Some(clearance) = &passing.clearance {
        rows.known(format!("clearance of {name} from what burns, by its listing"), clearance);
    }
    let sleeve = thing.path("sleeve");
    let length = length(house, passing, rows);
    let length = rows.add(thing.path("sleeve-length"), format!("length of the sleeve of {name}"), length);
    if let Some(slope) = &passing.slope {
        let slope = rows.known(format!("fall of {name}"), slope);
        let fall = wall::fall_through(slope, length).from("slope", thing.path("slope"));
        let fall = fall.from("length", thing.path("sleeve-length"));
        rows.add(thing.path("fall-through"), format!("how far {name} falls through the wall"), fall);
    }
    if passing.is_in_the_stem() {
        let taken = wall::cylinder(passing.sleeve.value, length).from("diameter", sleeve.as_str());
        let taken = taken.from("length", thing.path("sleeve-length"));
        rows.add(thing.path("stem-taken"), format!("room that {name} takes up in the stem wall"), taken);
    } else {
        let shape = house.wall.shape();
        Through::of_passing(house, &shape, passing).rows(thing, rows);
    }
    let count = wall::pieces(1).with("sleeve", passing.sleeve.value, sleeve);
    rows.add(thing.path("count"), format!("sleeves of {name}"), count);
    Need::of(&passing.of, [thing.path("count")])
}

/// How long a sleeve is, bound to what makes the wall as thick as it is there.
fn length(house: &House, passing: &Passing, rows: &Rows) -> Answer<Length> {
    let wall = &house.wall;
    if passing.is_in_the_stem() {
        return wall::sleeve_in_stem(wall.stem_width.value).from("stem width", "wall.stem.width");
    }
    let along = wall.line.along_line(passing.spot.station);
    let thickness = Length::m(wall.thicknesses.at(along));
    let (inside, outside) = (&wall.batter_inside, &wall.batter_outside);
    let length = wall::thickness_at(thickness, inside.value, outside.value, passing.level.value)
        .from("thickness", "wall.thickness")
        .from("batter inside", inside.path.as_str())
        .from("batter outside", outside.path.as_str());
    let length = if inside.value + outside.value == Slope::ZERO {
        length.without("level")
    } else {
        length.from("level", passing.level.path.as_str())
    };
    if wall.thicknesses.is_even() {
        return length;
    }
    let at = [along; 2];
    let local = bind_local(length, house, at, rows);
    if is_even(house, at) { local } else { bind_line(bind_once(local, rows, &passing.spot.along.path), house, rows) }
}

fn upright(thing: &BuiltIn, service: &Service, upright: &Upright, rows: &mut Rows) -> Vec<Need> {
    let name = said(thing);
    rows.known(format!("middle of {name} along its run"), &upright.spot.along);
    rows.known(format!("level at which {name} begins"), &upright.level);
    rows.known(format!("level at which {name} ends"), &upright.to);
    for (place, level) in upright.boxes.iter().enumerate() {
        rows.known(format!("level of box {} of {name}", place + 1), level);
    }
    let ends = (upright.to.value, upright.level.value);
    let (to, level) = (thing.path("to-level"), thing.path("level"));
    let length = wall::conduit_length(ends.0, ends.1).from("to level", to.as_str()).from("level", level.as_str());
    rows.add(thing.path("length"), format!("length of {name}"), length);
    if ends.0 > Length::ZERO {
        let in_cob = wall::conduit_in_cob(ends.0, ends.1).from("to level", to);
        let in_cob = if ends.1 < Length::ZERO { in_cob.without("level") } else { in_cob.from("level", level) };
        let in_cob = rows.add(thing.path("cob-length"), format!("length of {name} in the cob"), in_cob);
        let taken = wall::cylinder(service.diameter.value, in_cob).from("diameter", thing.path("diameter"));
        let taken = taken.from("length", thing.path("cob-length"));
        rows.add(thing.path("cob-taken"), format!("room that {name} takes up in the cob"), taken);
    }
    let mut needs = vec![Need::of(&upright.of, [thing.path("length")])];
    if !upright.boxes.is_empty() {
        let mut count = wall::pieces(upright.boxes.len() as u64);
        for (place, level) in upright.boxes.iter().enumerate() {
            count = count.with(format!("level of number {}", place + 1), level.value, level.path.as_str());
        }
        rows.add(thing.path("box-count"), format!("boxes of {name}"), count);
        needs.push(Need::of(BOX, [thing.path("box-count")]));
    }
    needs
}
