//! Adds a thing near a place of a drawing: put where it fits, then dragged there.

use engine::answers::Answers;
use engine::edit::Edit;
use engine::house::handles::{Handle, On, Way};
use engine::units::System;
use kurbo::{Line, ParamCurveNearest, Point};

use super::change::written;
use super::standing::{Standing, computed, problem, refused};
use super::wire::Problem;

/// How far along a run a new thing is tried, in centimetres.
const ALONG: [u32; 6] = [60, 100, 150, 200, 300, 400];

/// The lintel of a new opening, as a first build has it; without one where there is no room for it anywhere.
const LINTEL: &str = "\nlintel = { height = \"150 mm\" }";

/// Where a new point of the wall is tried beside a run: share of its straight way, and how far to its left in such lengths.
const BESIDE: [(f64, f64); 6] = [(0.5, 0.0), (0.5, -0.1), (0.5, -0.2), (0.5, -0.4), (0.3, -0.1), (0.7, -0.1)];

/// The text with one more thing.
///
/// # Errors
/// There is no such thing, or no room for it.
pub fn added(base: &str, system: Option<System>, what: &str, on: On, at: Point) -> Result<String, Vec<Problem>> {
    let standing = Standing::of(base, system)?;
    let answers = &standing.answers;
    match what {
        "point" if on == On::Plan => point(base, system, answers, at),
        "lift" if on != On::Plan => lift(base, answers, at),
        "opening" | "door" | "bench" | "niche" | "bottles" => on_the_wall(base, system, answers, what, on, at),
        "point" | "lift" => Err(vec![refused(
            "",
            format!("a {what} is not added here"),
            "a point is added in the plan, a lift on the wall",
        )]),
        _ => Err(vec![refused(
            "",
            format!("there is nothing called {what} to add"),
            "add an opening, door, lift, point, bench, niche or bottles",
        )]),
    }
}

/// The first name of its kind that is free: `window`, `window-2`.
fn free(answers: &Answers, table: &str, word: &str) -> String {
    let stem = format!("{table}.");
    let is_free = |name: &String| {
        !answers
            .rows
            .iter()
            .any(|row| row.path.strip_prefix(&stem).is_some_and(|rest| rest.split('.').next() == Some(name.as_str())))
    };
    let mut names = std::iter::once(word.to_owned()).chain((2..1000).map(|number| format!("{word}-{number}")));
    names.find(is_free).unwrap_or_else(|| word.to_owned())
}

/// The runs of the wall: name and where it begins in the plan.
fn runs(answers: &Answers) -> Vec<(String, Point)> {
    let named = answers
        .plan
        .places
        .iter()
        .filter_map(|place| Some((place.path.strip_prefix("wall.line.")?.split('.').next()?.to_owned(), place.at)));
    named.collect()
}

/// The run whose straight way is nearest to a place in the plan.
fn nearest(runs: &[(String, Point)], at: Point) -> Option<usize> {
    let way = |index: usize| Line::new(runs[index].1, runs[(index + 1) % runs.len()].1).nearest(at, 1e-6).distance_sq;
    (0..runs.len()).min_by(|one, other| way(*one).total_cmp(&way(*other)))
}

/// A point at the place asked for, or where it does not fit there, on or beside the straight way of the nearest run that takes it.
fn point(base: &str, system: Option<System>, answers: &Answers, at: Point) -> Result<String, Vec<Problem>> {
    let runs = runs(answers);
    let first =
        nearest(&runs, at).ok_or_else(|| vec![refused("wall.line", "the wall has no points", "write two at least")])?;
    let path = format!("wall.line.{}", free(answers, "wall.line", "point"));
    let with = |run: usize, at: Point| {
        let body = format!("at = [{}, {}]", millimetres(at.x), millimetres(at.y));
        written(base, &[Edit::Add { path: path.clone(), body }, Edit::Move { path: path.clone(), to: run + 1 }])
    };
    let asked = with(first, at)?;
    let Err(problems) = computed(&asked, system) else { return Ok(asked) };
    let count = runs.len();
    for run in (0..count).map(|step| (first + step) % count) {
        let (from, to) = (runs[run].1, runs[(run + 1) % count].1);
        for (share, aside) in BESIDE {
            let place = from.lerp(to, share) + aside * (to - from).turn_90();
            let text = with(run, place)?;
            if computed(&text, system).is_ok() {
                return Ok(text);
            }
        }
    }
    Err(problems)
}

fn lift(base: &str, answers: &Answers, at: Point) -> Result<String, Vec<Problem>> {
    let tops = answers.rows.matching("wall.lifts.*.top").filter_map(|row| row.quantity.si());
    let below = tops.filter(|top| *top < at.y).count();
    let path = format!("wall.lifts.{}", free(answers, "wall.lifts", "lift"));
    let add = Edit::Add { path: path.clone(), body: format!("top = {}", millimetres(at.y)) };
    written(base, &[add, Edit::Move { path, to: below }])
}

fn on_the_wall(
    base: &str,
    system: Option<System>,
    answers: &Answers,
    what: &str,
    on: On,
    at: Point,
) -> Result<String, Vec<Problem>> {
    let (table, word) = match what {
        "opening" => ("openings", "window"),
        "door" => ("openings", "door"),
        other => ("built-in", other),
    };
    let path = format!("{table}.{}", free(answers, table, word));
    let mut runs = runs(answers);
    if on == On::Plan
        && let Some(first) = nearest(&runs, at)
    {
        runs.rotate_left(first);
    }
    // Of all places that refuse it, the one nearest to the finger says why.
    let mut first = Vec::new();
    let tried = if table == "openings" { &[LINTEL, ""][..] } else { &[""] };
    for lintel in tried {
        for (run, along) in runs.iter().flat_map(|(run, _)| ALONG.map(|along| (run, along))) {
            let body = format!("{}{lintel}", body(what, run, along));
            let text = written(base, &[Edit::Add { path: path.clone(), body }])?;
            match computed(&text, system) {
                Ok(house) => {
                    let handles = Standing::of(&text, system)?.answers.handles;
                    let stem = format!("{path}.");
                    let is_its = |handle: &&Handle| handle.on == on && handle.id.starts_with(&stem);
                    // What moves the whole thing, not what makes it larger.
                    let whole = |handle: &&Handle| match handle.way {
                        Way::Free => 0,
                        Way::Along => 1,
                        _ => 2,
                    };
                    let Some(handle) = handles.iter().filter(is_its).min_by_key(whole) else { return Ok(text) };
                    let moved = house.dragged_text(&text, &handle.id, on, at).map_err(|fault| vec![problem(&fault)])?;
                    // Where it does not fit at the place asked for, it stays where it fits.
                    return Ok(if computed(&moved, system).is_ok() { moved } else { text });
                }
                Err(problems) => first = if first.is_empty() { problems } else { first },
            }
        }
    }
    Err(first)
}

/// A common one of its kind, our choice of sizes; all of them can be dragged.
fn body(what: &str, run: &str, along: u32) -> String {
    let (from, to) = (along.saturating_sub(50), along + 50);
    match what {
        "opening" => format!(
            "kind = \"window\"\nrun = \"{run}\"\nalong = \"{along} cm\"\nwidth = \"60 cm\"\nheight = \"60 cm\"\nsill = \"90 cm\""
        ),
        "door" => {
            format!("kind = \"door\"\nrun = \"{run}\"\nalong = \"{along} cm\"\nwidth = \"90 cm\"\nheight = \"2 m\"")
        }
        "bench" => format!(
            "kind = \"bench\"\nrun = \"{run}\"\nfrom = \"{from} cm\"\nto = \"{to} cm\"\ndepth = \"420 mm\"\nseat = \"430 mm\""
        ),
        "niche" => format!(
            "kind = \"niche\"\nrun = \"{run}\"\nalong = \"{along} cm\"\nform = \"rectangle\"\nsill = \"1.2 m\"\nwidth = \"300 mm\"\nheight = \"250 mm\"\ndepth = \"150 mm\""
        ),
        _ => format!(
            "kind = \"bottles\"\ndiameter = \"80 mm\"\nat = [{{ run = \"{run}\", along = \"{along} cm\", level = \"1.3 m\" }}]"
        ),
    }
}

fn millimetres(metres: f64) -> String {
    format!("\"{} mm\"", (metres * 100.0).round() * 10.0)
}
