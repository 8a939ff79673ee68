//! Setting out: pegs, ordinates, check tapes, story pole, thresholds, and what near enough means.

use engine::answers::Answers;
use engine::curve::Side;
use serde_json::{Value, json};

use super::rows::{cell, said};
use crate::spoken::{capital, marked, spoken};

pub(super) fn chapter(answers: &Answers) -> Value {
    json!({
        "baseline": baseline(answers),
        "pegs": pegs(answers),
        "strings": strings(answers),
        "ordinates": ordinates(answers),
        "checks": checks(answers),
        "pole": pole(answers),
        "lowest": answers.story_pole.first().map_or_else(String::new, |mark| spoken(&mark.name)),
        "benchmark": cell(answers, "site.set-out.benchmark"),
        "benchmark_why": why(answers, "site.set-out.benchmark"),
        "spacing": cell(answers, "site.set-out.spacing"),
        "string": cell(answers, "site.set-out.string"),
        "thresholds": thresholds(answers),
        "tolerances": tolerances(answers),
        "near": {
            "pegs": cell(answers, "rules.tolerances.pegs.within"),
            "diagonals": cell(answers, "rules.tolerances.diagonals.within"),
            "loop": cell(answers, "rules.tolerances.level-loop.within"),
        },
    })
}

/// Why a value stands in for one that was not written; nothing where it was.
fn why(answers: &Answers, path: &str) -> String {
    let row = answers.rows.find(path).filter(|row| row.is_assumed());
    let title = row.map(|row| row.reason.words().title).unwrap_or_default();
    title.trim_start_matches("Assumed: ").trim_end_matches('.').to_owned()
}

fn baseline(answers: &Answers) -> Vec<[String; 2]> {
    let mut rows: Vec<[String; 2]> = [("A", "from"), ("B", "to")]
        .into_iter()
        .map(|(peg, key)| {
            let [x, y] = ["x", "y"].map(|axis| cell(answers, &format!("site.set-out.{key}.{axis}")));
            [format!("Peg {peg} in the plan"), format!("x {x}, y {y}")]
        })
        .collect();
    rows.push(["From A to B".to_owned(), cell(answers, "set-out.baseline")]);
    rows
}

fn pegs(answers: &Answers) -> Vec<Vec<String>> {
    let row = |peg: &engine::house::Peg| {
        let numbers =
            ["along", "offset", "from-a", "from-b"].map(|noun| cell(answers, &format!("{}.{noun}", peg.path)));
        [peg.number.to_string(), spoken(&peg.name)].into_iter().chain(numbers).collect()
    };
    answers.pegs.pegs.iter().map(row).collect()
}

fn strings(answers: &Answers) -> Vec<[String; 2]> {
    let of = |name: &&str| answers.rows.find(&format!("set-out.strings.{name}"));
    let rows = answers.pegs.strings.iter().filter_map(of);
    rows.map(|row| [capital(&row.title), marked(answers, row)]).collect()
}

fn number(answers: &Answers, place: usize) -> String {
    answers.pegs.pegs.get(place).map_or_else(String::new, |peg| peg.number.to_string())
}

fn ordinates(answers: &Answers) -> Vec<Value> {
    let arc = |arc: &engine::house::Ordinates| {
        let at = |step: usize| match step {
            0 => "middle".to_owned(),
            step => cell(answers, &format!("set-out.steps.{step}")),
        };
        let stem = format!("set-out.ordinates.{}", arc.name);
        let rows = (0..=arc.steps).map(|step| [at(step), cell(answers, &format!("{stem}.{step}"))]);
        json!({
            "name": spoken(&arc.name),
            "from": number(answers, arc.pegs[0]),
            "to": number(answers, arc.pegs[1]),
            "chord": cell(answers, &format!("{stem}.chord")),
            "radius": cell(answers, &format!("wall.line.{}.radius", arc.name)),
            "side": if arc.side == Side::Outer { "outside" } else { "the room" },
            "rows": rows.collect::<Vec<_>>(),
        })
    };
    answers.pegs.ordinates.iter().map(arc).collect()
}

fn checks(answers: &Answers) -> Vec<[String; 4]> {
    let row = |check: &engine::house::CheckTape| {
        let [from, to] = check.ends.map(|end| number(answers, end));
        [from, to, cell(answers, &check.path), String::new()]
    };
    answers.pegs.checks.iter().map(row).collect()
}

/// From the top down, as the pole stands.
fn pole(answers: &Answers) -> Vec<[String; 3]> {
    let row = |mark: &engine::house::Mark| {
        let on_pole = said(answers, &mark.path("on-pole"));
        [
            capital(&spoken(&mark.name)),
            on_pole.unwrap_or_else(|| "foot".to_owned()),
            cell(answers, &mark.path("from-benchmark")),
        ]
    };
    answers.story_pole.iter().rev().map(row).collect()
}

fn thresholds(answers: &Answers) -> Vec<Vec<String>> {
    let doors = answers.rows.matching("set-out.thresholds.*.inside");
    doors
        .map(|row| {
            let stem = row.path.trim_end_matches(".inside");
            let door = stem.trim_start_matches("set-out.thresholds.");
            let nouns = ["inside", "outside", "steps", "each-step"].map(|noun| format!("{stem}.{noun}"));
            let paths = nouns.into_iter().chain([format!("openings.{door}.drip"), format!("{stem}.depth")]);
            std::iter::once(spoken(door)).chain(paths.map(|path| cell(answers, &path))).collect()
        })
        .collect()
}

fn tolerances(answers: &Answers) -> Vec<[String; 5]> {
    let row = |one: &engine::tolerance::Tolerance| {
        let row = answers.rows.find(&format!("rules.tolerances.{}.within", one.name))?;
        Some([
            capital(&one.step),
            capital(&one.measures),
            marked(answers, row),
            one.why.clone(),
            row.origin.in_words().to_owned(),
        ])
    };
    engine::tolerance::tolerances().iter().filter_map(row).collect()
}
