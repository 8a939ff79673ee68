//! Walks round the house and asks the rooms how long, how large, how much. No formula of its own.

mod lifts;
mod line;
mod openings;
mod wall;
mod water;

use crate::house::House;
use crate::row::Rows;

/// Every quantity of the house, each with its reason.
#[must_use]
pub fn quantities(house: &House) -> Rows {
    let mut rows = Rows::default();
    line::walk(house, &mut rows);
    wall::known(house, &mut rows);
    openings::walk(house, &mut rows);
    wall::walk(house, &mut rows);
    lifts::walk(house, &mut rows);
    water::walk(house, &mut rows);
    people_and_days(house, &mut rows);
    rows
}

fn people_and_days(house: &House, rows: &mut Rows) {
    rows.known("direction of north in the plan, from the x axis", &house.north);
    for (title, count) in &house.crew {
        rows.known(*title, count);
    }
    for (title, date) in &house.dates {
        rows.known(*title, date);
    }
}
