//! Rows of the lifts: how high, when begun, how much cob, all cuts taken out.

use super::line::{bind, turned};
use super::openings::shaped;
use super::uneven::{self, bind_once};
use crate::curve::{Body, Cut};
use crate::house::{House, Lift, Opening, Recipe};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Area, Density, Length, Mass, Ratio, Volume};
use crate::{earth, wall};

pub(super) fn walk(house: &House, body: &Body<'_>, rows: &mut Rows) {
    let cuts = cuts(house);
    let [trim, returned] = &house.wall.trim;
    if house.cob().is_some() {
        rows.known("cob that is trimmed off, of the finished wall", trim);
        rows.known("trimmings that go back to the tarp", returned);
    }
    let mut below: Option<&Lift> = None;
    for lift in &house.wall.lifts {
        if below_the_top(house, lift) {
            rows.known(format!("level of the top of {}", lift.name), &lift.top);
        }
        rows.known(format!("start of {}, days after the first lift", lift.name), &lift.start);
        height(lift, below, rows);
        let volume = volume(house, body, lift, below, &cuts, rows);
        bed(house, body, lift, below, &cuts, rows);
        if let Some((_, cob)) = house.cob() {
            trodden(cob, lift, volume, [trim.value, returned.value], rows);
            standing(house, lift, rows);
        }
        below = Some(lift);
    }
}

fn height(lift: &Lift, below: Option<&Lift>, rows: &mut Rows) {
    let foot = below.map_or(Length::ZERO, |below| below.top.value);
    let height = wall::lift_height(lift.top.value, foot).from("top", lift.top.path.as_str());
    let height = match below {
        Some(below) => height.from("foot", below.top.path.as_str()),
        None => height.without("foot"),
    };
    rows.add(lift.path("height"), format!("height of {}", lift.name), height);
}

/// Mass and batches of a lift.
fn trodden(cob: &Recipe, lift: &Lift, volume: Volume, [trim, returned]: [Ratio; 2], rows: &mut Rows) {
    let name = &lift.name;
    let (wet, each) = (rows.value::<Density>(&cob.path("wet-density")), rows.value(&cob.path("placed-volume")));
    let (Some(wet), Some(each)) = (wet, each) else { return };
    let mass = earth::mass(volume, wet).from("volume", lift.path("volume")).from("density", cob.path("wet-density"));
    rows.add(lift.path("mass"), format!("mass of {name}, wet as placed"), mass);
    let mixed = earth::cob_to_mix(volume, trim, returned)
        .from("volume", lift.path("volume"))
        .from("trim", "wall.trim")
        .from("returned", "wall.returned");
    let mixed = rows.add(lift.path("to-mix"), format!("cob to mix for {name}"), mixed);
    let off = earth::trimmings(volume, trim).from("volume", lift.path("volume")).from("trim", "wall.trim");
    rows.add(lift.path("trimmings"), format!("cob that is sawn off {name}"), off);
    let batches =
        earth::batches(mixed, each).from("volume", lift.path("to-mix")).from("batch", cob.path("placed-volume"));
    let batches = rows.add(lift.path("batches"), format!("batches for {name}"), batches);
    if let Some(loaves) = rows.value::<u64>(&cob.path("loaves")) {
        let loaves = earth::loaves_in_all(batches, loaves)
            .from("batches", lift.path("batches"))
            .from("loaves", cob.path("loaves"));
        rows.add(lift.path("loaves"), format!("loaves for {name}"), loaves);
    }
}

/// What stands on the day a lift is begun, that lift with it.
fn standing(house: &House, lift: &Lift, rows: &mut Rows) {
    let stands = house.on(lift.start.value);
    let masses: Vec<(String, String, Mass)> = rows.parts(stands.lifts.iter().map(|lift| lift.path("mass")));
    let sum = earth::standing(masses.iter().map(|(.., mass)| *mass).sum()).of_parts(masses);
    rows.add(lift.path("standing"), format!("mass of the wall when {} is laid, wet as placed", lift.name), sum);
}

/// Whether a lift ends at a level of its own, not with the wall.
fn below_the_top(house: &House, lift: &Lift) -> bool {
    house.wall.beds().any(|bed| bed.name == lift.name)
}

/// What is taken out of the cob: the opening, what its row's path and title are made of, the cut.
struct Taken<'a> {
    opening: &'a Opening,
    suffix: &'static str,
    of: &'static str,
    cut: &'a Cut,
}

fn cuts(house: &House) -> Vec<Taken<'_>> {
    house
        .openings
        .iter()
        .flat_map(|opening| opening.cuts().into_iter().map(move |(suffix, of, cut)| Taken { opening, suffix, of, cut }))
        .collect()
}

/// Area of the top of a lift, openings taken out.
fn bed(house: &House, body: &Body<'_>, lift: &Lift, below: Option<&Lift>, cuts: &[Taken<'_>], rows: &mut Rows) {
    let wall = &house.wall;
    let (thickness, inside, outside) = (wall.thickness.value, wall.batter_inside.value, wall.batter_outside.value);
    let (length, top) = (Length::m(wall.line.length()), lift.top.value);
    let gross = if wall.is_even() {
        let gross = wall::bed_gross(length, thickness, inside, outside, top, wall.line.turning());
        turned(bound(gross).from("top", lift.top.path.as_str()), house, rows)
    } else {
        let foot = below.map_or(Length::ZERO, |below| below.top.value);
        let below = below.filter(|below| rows.value::<Length>("wall.lowest").is_some_and(|top| top < below.top.value));
        levels(wall::bed_gross_uneven(body, foot, top), house, lift, below, rows)
    };
    let gross = rows.add(lift.path("bed-gross-area"), format!("top of {} before openings", lift.name), gross);
    let mut taken = Vec::new();
    for Taken { opening, suffix, of, cut } in cuts {
        if cut.form.bottom() > top.in_m() || cut.form.top() <= top.in_m() {
            continue;
        }
        let answer = bound(wall::bed_removed(opening.width.value, thickness, inside, outside, top, &body.shape, cut))
            .from("width", opening.path("width"))
            .from("top", lift.top.path.as_str());
        let path = lift.path(&format!("bed-less-{}{suffix}", opening.name));
        let title = format!("top of {} that {of}{} takes out", lift.name, opening.name);
        let mut answer = shaped(answer, house, opening, cut, rows);
        if top.in_m() > cut.form.spring() {
            for path in [opening.path("rise"), opening.path("height"), opening.bottom.path.clone()] {
                answer = bind_once(answer, rows, &path);
            }
        }
        taken.push((title.clone(), path.clone(), rows.add(path, title, answer)));
    }
    let sum: Area = taken.iter().map(|(.., area)| *area).sum();
    let net = wall::net_area(gross, sum).from("gross", lift.path("bed-gross-area")).of_parts(taken);
    rows.add(lift.path("bed-area"), format!("top of {}, openings taken out", lift.name), net);
}

/// Binds all that makes a lift of a wall that is not even.
fn levels<T>(answer: Answer<T>, house: &House, lift: &Lift, below: Option<&Lift>, rows: &Rows) -> Answer<T> {
    // Where the top is nowhere lower than the lift, it is thickness alone that changes.
    let is_whole = rows.value::<Length>("wall.lowest").is_none_or(|lowest| lift.top.value <= lowest);
    let answer = if is_whole && below_the_top(house, lift) {
        uneven::bind_section(answer, house, rows)
    } else {
        let bed = below.map_or(Length::ZERO, |below| below.top.value);
        uneven::bind_body_above(answer, house, bed, rows)
    };
    let answer = if below_the_top(house, lift) { bind(answer, rows, &lift.top.path) } else { answer };
    match below {
        Some(below) => bind(answer, rows, &below.top.path),
        None => answer,
    }
}

fn bound<T>(answer: Answer<T>) -> Answer<T> {
    answer
        .from("line length", "wall.length")
        .from("thickness", "wall.thickness")
        .from("batter inside", "wall.batter.inside")
        .from("batter outside", "wall.batter.outside")
}

fn volume(
    house: &House,
    body: &Body<'_>,
    lift: &Lift,
    below: Option<&Lift>,
    cuts: &[Taken<'_>],
    rows: &mut Rows,
) -> Volume {
    let wall = &house.wall;
    let (thickness, inside, outside) = (wall.thickness.value, wall.batter_inside.value, wall.batter_outside.value);
    let foot = below.map_or(Length::ZERO, |below| below.top.value);
    let length = Length::m(wall.line.length());
    let gross = if wall.is_even() {
        let turning = wall.line.turning();
        let gross = bound(wall::lift_gross(length, thickness, inside, outside, foot, lift.top.value, turning));
        let gross = turned(gross, house, rows).from("top", lift.top.path.as_str());
        match below {
            Some(below) => gross.from("foot", below.top.path.as_str()),
            None => gross.without("foot"),
        }
    } else {
        levels(wall::lift_gross_uneven(body, foot, lift.top.value), house, lift, below, rows)
    };
    let gross = rows.add(lift.path("gross-volume"), format!("cob in {} before openings", lift.name), gross);
    let mut taken = Vec::new();
    for cut in cuts {
        if let Some(answer) = removed(house, body, lift, below, cut, rows) {
            let path = lift.path(&format!("less-{}{}", cut.opening.name, cut.suffix));
            let title = format!("cob that {}{} takes out of {}", cut.of, cut.opening.name, lift.name);
            taken.push((title.clone(), path.clone(), rows.add(path, title, answer)));
        }
    }
    taken.extend(super::built_in::taken(house, lift, below, rows));
    let sum = taken.iter().map(|(_, _, volume)| *volume).sum();
    let net = wall::net_volume(gross, sum).from("gross", lift.path("gross-volume")).of_parts(taken);
    rows.add(lift.path("volume"), format!("cob in {}, all cuts taken out", lift.name), net)
}

/// What an opening or its lintel takes out of a lift, bound to whatever ends it below and above.
fn removed(
    house: &House,
    body: &Body<'_>,
    lift: &Lift,
    below: Option<&Lift>,
    Taken { opening, suffix, cut, .. }: &Taken<'_>,
    rows: &Rows,
) -> Option<Answer<Volume>> {
    let wall = &house.wall;
    let foot = below.map_or(Length::ZERO, |below| below.top.value);
    let [bottom, head] = [cut.form.bottom(), cut.form.top()].map(Length::m);
    let from = bottom.max(foot);
    let to = head.min(lift.top.value);
    if to.in_m() - from.in_m() <= 1e-12 {
        return None;
    }
    let (thickness, inside, outside) = (wall.thickness.value, wall.batter_inside.value, wall.batter_outside.value);
    let answer = wall::lift_removed(opening.width.value, thickness, inside, outside, &body.shape, cut, from, to);
    let mut answer = bound(answer).from("width", opening.path("width"));
    let starts = bottom > foot;
    let ends = head < lift.top.value;
    let is_curved = to.in_m() > cut.form.spring();
    match below {
        Some(below) if !starts => answer = answer.with("foot of the lift", foot, below.top.path.as_str()),
        _ => {}
    }
    let is_lintel = !suffix.is_empty();
    if starts || ends || is_curved {
        answer = answer.with("bottom", opening.bottom.value, opening.bottom.path.as_str());
    }
    if ends || is_curved || is_lintel && starts {
        answer = answer.with("height", opening.height.value, opening.path("height"));
    }
    if is_curved {
        answer = bind(answer, rows, &opening.path("rise"));
    }
    if is_lintel {
        answer = bind(answer, rows, &opening.path("lintel.bearing"));
        if ends {
            answer = bind(answer, rows, &opening.path("lintel.height"));
        }
    }
    if !ends {
        answer = bind(answer, rows, &lift.top.path);
    }
    Some(shaped(answer, house, opening, cut, rows))
}
