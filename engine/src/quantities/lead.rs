//! Rows of what a mix takes beforehand: each step, all of them, and the day by which the first is begun.

use jiff::civil::Date;

use crate::earth;
use crate::house::{House, Recipe};
use crate::row::Rows;
use crate::units::Days;

pub(super) fn walk(house: &House, recipe: &Recipe, is_cob: bool, rows: &mut Rows) {
    let Some((first, _)) = recipe.lead.first() else { return };
    let name = recipe.name.replace('-', " ");
    let paths = recipe.lead.iter().map(|(step, days)| {
        rows.known(format!("time to {step} for {name}"), days);
        days.path.clone()
    });
    let paths: Vec<String> = paths.collect();
    let steps = rows.parts::<Days>(paths);
    let all = earth::lead_time(steps.iter().map(|(.., days)| *days).sum()).of_parts(steps);
    let all = rows.add(recipe.path("lead-time"), format!("time to make {name} ready beforehand"), all);
    if let Some(start) = &recipe.start {
        rows.known(format!("day on which the work with {name} starts"), start);
    }
    let of_the_course = || house.dates.iter().map(|(_, day)| day).find(|day| is_cob && day.path == "dates.start");
    let words = format!("day by which one begins to {first} for {name}");
    let Some(start) = recipe.start.as_ref().or_else(of_the_course) else {
        return rows.not_known(recipe.path("begin"), format!("{words} (write the day on which its work starts)"));
    };
    let begin = earth::begin_by(start.value, all).from("start", start.path.as_str());
    rows.add::<Date>(recipe.path("begin"), words, begin.from("lead", recipe.path("lead-time")));
}
