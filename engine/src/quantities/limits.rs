//! Rows of the limits of a soil's fine part: how long it can be shaped, where it lies on the chart, what it is called.

use crate::earth::soil;
use crate::house::{House, Limits};
use crate::row::Rows;

pub(super) fn walk(house: &House, rows: &mut Rows) {
    for limits in &house.limits {
        one(limits, rows);
    }
}

fn one(limits: &Limits, rows: &mut Rows) {
    let path = |noun: &str| limits.path(noun);
    let (name, of) = (limits.name.replace('-', " "), limits.of.replace('-', " "));
    let title = |words: &str| format!("{words} of {of}, test {name}");
    if let Some(day) = &limits.day {
        rows.known(title("day on which the limits were tested,"), day);
    }
    let liquid = rows.known(title("liquid limit"), &limits.liquid);
    let plastic = rows.known(title("plastic limit"), &limits.plastic);
    match &limits.fine {
        Some(fine) => {
            rows.known(title("share under 0.425 mm, on which the limits are measured,"), fine);
        }
        None => rows.not_known(path("fine"), title("share under 0.425 mm (sieve the dry soil and weigh it)")),
    }
    let index = soil::plasticity_index(liquid, plastic)
        .from("liquid limit", path("liquid"))
        .from("plastic limit", path("plastic"));
    let index = rows.add(path("index"), title("plasticity index"), index);
    let error = rows.known(title("how far each limit may be off"), &limits.error);
    let off = soil::index_off(error).from("error", limits.error.path.as_str());
    rows.add(path("index-error"), title("what the plasticity index may be off"), off);
    let a_line = soil::a_line(liquid).from("liquid limit", path("liquid"));
    let a_line = rows.add(path("a-line"), title("plasticity index on the A-line, at the liquid limit"), a_line);
    let u_line = soil::u_line(liquid).from("liquid limit", path("liquid"));
    let u_line = rows.add(path("u-line"), title("plasticity index on the U-line, at the liquid limit"), u_line);
    if let Some(class) = soil::plasticity_class(liquid, index) {
        let over =
            soil::over_the_a_line(index, a_line).from("index", path("index")).from("on the line", path("a-line"));
        let words = format!("plasticity index over the A-line, so that the fine part is called {class},");
        rows.add(path("over-a-line"), title(&words), over);
    }
    let classes = soil::classes_of_limits(liquid, plastic, error);
    let words = format!("names ({}) that the fine part may have by what the limits may be off,", classes.join(", "));
    let count = soil::names_of_limits(liquid, plastic, error, classes.len());
    let count = count.from("liquid limit", path("liquid")).from("plastic limit", path("plastic"));
    rows.add(path("classes"), title(&words), count.from("error", limits.error.path.as_str()));
    let under = soil::under_the_u_line(u_line, index).from("on the line", path("u-line")).from("index", path("index"));
    rows.add(path("under-u-line"), title("plasticity index under the U-line, above which no soil lies,"), under);
}
