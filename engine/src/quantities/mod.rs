//! Walks round the house and asks the rooms how long, how large, how much. No formula of its own.

mod balance;
mod batches;
mod bricks;
mod built_in;
mod called;
mod earth;
mod floor;
mod gap;
mod gauge;
mod gradings;
mod ground;
mod hydrometer;
mod jars;
mod joinery;
mod layers;
mod lead;
mod lifts;
mod limits;
mod line;
mod mix_plan;
mod mixes;
mod need;
mod openings;
mod panels;
mod plaster;
mod roof;
mod samples;
mod sanding;
mod schedule;
mod set_out;
mod settlement;
mod shelter;
mod site;
mod small_tests;
mod stone;
mod story_pole;
mod tested_soil;
mod uneven;
mod wall;
mod water;
mod yard;

pub use need::Need;
pub use roof::along::Along;
pub(crate) use roof::{along, trade};
pub use yard::yard;

use crate::house::{self, House};
use crate::row::Rows;
use crate::units::Volume;
use earth::Use;

/// Every quantity of the house, each with its reason, and what the house takes from outside.
#[must_use]
pub fn quantities(house: &House) -> (Rows, Vec<Need>) {
    let mut rows = Rows::default();
    let body = uneven::body(house);
    line::walk(house, &body, &mut rows);
    wall::known(house, &mut rows);
    uneven::walk(house, &body, &mut rows);
    wall::top(house, &mut rows);
    openings::walk(house, &mut rows);
    let mut needs = joinery::walk(house, &mut rows);
    needs.extend(schedule::walk(house, &mut rows));
    needs.extend(built_in::walk(house, &mut rows));
    wall::walk(house, &body, &mut rows);
    earth::recipes(house, &mut rows);
    bricks::walk(house, &mut rows);
    jars::walk(house, &mut rows);
    limits::walk(house, &mut rows);
    mixes::walk(house, &mut rows);
    mix_plan::walk(house, &mut rows);
    gradings::walk(house, &mut rows);
    tested_soil::walk(house, &mut rows);
    small_tests::feel(house, &mut rows);
    sanding::walk(house, &mut rows);
    lifts::walk(house, &body, &mut rows);
    batches::walk(house, &mut rows);
    gauge::walk(house, &mut rows);
    settlement::walk(house, &mut rows);
    schedule::days(house, &mut rows);
    water::walk(house, &mut rows);
    needs.extend(ground::walk(house, &mut rows));
    needs.extend(stone::walk(house, &mut rows));
    needs.extend(built_in::stone(house, &mut rows));
    let mut uses: Vec<Use> = cob(house, &mut rows).into_iter().collect();
    uses.extend(built_in::uses(house));
    needs.extend(layers::floor(house, &mut rows, &mut uses));
    needs.extend(layers::skin(house, &mut rows, &mut uses));
    panels::walk(house, &mut rows);
    built_in::bottles(house, &mut rows);
    needs.extend(roof::walk(house, &mut rows));
    uses.extend(gap::walk(house, &mut rows));
    needs.extend(earth::uses(house, &uses, &mut rows));
    set_out::walk(house, &mut rows);
    story_pole::walk(house, &mut rows);
    balance::walk(house, &mut rows);
    needs.extend(shelter::walk(house, &mut rows));
    roof::held(house, &mut rows);
    site::walk(house, &mut rows);
    people_and_days(house, &mut rows);
    plaster::walk(house, &body, &mut rows);
    needs.extend(floor::walk(house, &mut rows));
    (rows, needs)
}

/// What the wall is trodden of.
fn cob(house: &House, rows: &mut Rows) -> Option<Use> {
    let (_, cob) = house.cob()?;
    let [trim, returned] = &house.wall.trim;
    let volume = rows.value::<Volume>("wall.volume")?;
    let off = crate::earth::trimmings(volume, trim.value).from("volume", "wall.volume").from("trim", "wall.trim");
    rows.add("wall.trimmings", "cob that is sawn off the faces", off);
    let mixed = crate::earth::cob_to_mix(volume, trim.value, returned.value)
        .from("volume", "wall.volume")
        .from("trim", "wall.trim")
        .from("returned", "wall.returned");
    rows.add("wall.to-mix", "cob to mix for the wall", mixed);
    let pace = rows.known("cob that one person places in a day", &house.placing);
    let days = crate::earth::raising(volume, trim.value, pace)
        .from("volume", "wall.volume")
        .from("trim", "wall.trim")
        .from("pace", "crew.placing");
    rows.add("crew.raising", "person-days to place the cob of the wall", days);
    Some(Use { recipe: cob.name.clone(), volume: "wall.to-mix".into() })
}

fn people_and_days(house: &House, rows: &mut Rows) {
    rows.known("direction of north in the plan, from the x axis", &house.north);
    for elevation in house::elevations(house) {
        let bearing = crate::wall::bearing(house.north.value, elevation.direction).from("north", "site.north");
        rows.add(elevation.path(), format!("bearing from which the {} elevation is seen", elevation.name), bearing);
    }
    for (title, count) in &house.crew {
        rows.known(*title, count);
    }
    for (title, date) in &house.dates {
        rows.known(*title, date);
    }
}
