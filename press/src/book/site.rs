//! Site and yard: distances, what stands in the yard, the earth balance by stage, covers, platforms.

use engine::answers::Answers;
use engine::house::site::SiteKind;
use engine::row::Row;
use serde_json::{Value, json};

use super::rows::{cell, figures, said};
use crate::spoken::{capital, marked, spoken};

/// What of a thing on the site is printed beside its name: noun of its row.
const DISTANCES: [&str; 3] = ["to-wall", "to-eave", "clear"];
/// Rows of the cover, and what they are called on the page.
const COVER: [(&str, &str); 9] = [
    ("wall.top-length", "Top of the wall to cover"),
    ("wall.cover.width", "Width, with a lap over each face"),
    ("wall.cover.lap", "Lap over each face"),
    ("wall.cover.area", "Sheet, before overlaps"),
    ("wall.cover.sheets", "Whole sheets"),
    ("wall.cover.batten-count", "Battens on the top, under the sheet"),
    ("weather.gust", "Gust"),
    ("wall.cover.uplift", "The gust lifts with"),
    ("wall.cover.ballast", "Ballast, or what ties to pegs hold"),
];
const PLATFORM: [(&str, &str); 10] = [
    ("wall.platform.above", "One stands on a platform above"),
    ("wall.platform.width", "Width of the platform"),
    ("wall.platform.gap", "Gap to the face of the wall"),
    ("wall.platform.spacing", "From one trestle to the next"),
    ("wall.platform.board.length", "Board, length"),
    ("wall.platform.board.width", "Board, width"),
    ("wall.platform.inside", "Length all along, inside"),
    ("wall.platform.outside", "Length all along, outside"),
    ("wall.platform.trestles", "Trestles, inside and outside"),
    ("wall.platform.boards", "Boards, inside and outside"),
];
const ENDS: [(&str, &str); 11] = [
    ("balance.topsoil.surplus", "Topsoil left over"),
    ("balance.topsoil.short", "Topsoil short"),
    ("balance.subsoil.in-mass", "Subsoil in, dry"),
    ("balance.subsoil.out-mass", "Subsoil out, dry"),
    ("balance.subsoil.surplus", "Subsoil left over"),
    ("balance.subsoil.short", "Subsoil short"),
    ("balance.subsoil.surplus-mass", "The same, dry"),
    ("balance.subsoil.short-mass", "The same, dry"),
    ("balance.pit", "Pit to dig, below its topsoil"),
    ("balance.topsoil.heap", "Topsoil heap, loose"),
    ("balance.subsoil.heap", "Subsoil heap, loose"),
];

pub(super) fn chapter(answers: &Answers) -> Value {
    let (bags, bag) = (said(answers, "wall.cover.bags"), said(answers, "wall.cover.bag"));
    json!({
        "unknown": answers.site.unknown.join(", "),
        "land": said(answers, "site.area").unwrap_or_default(),
        "distances": distances(answers),
        "water": apart(answers),
        "yard": yard(answers),
        "balance": balance(answers),
        "ends": figures(answers, "", &ENDS),
        "cover": figures(answers, "", &COVER),
        "bags": bags.zip(bag).map_or_else(String::new, |(bags, bag)| format!("{bags} bags of {bag}")),
        "above": cell(answers, "wall.platform.above"),
        "platform": platform(answers),
        "platforms": figures(answers, "", &PLATFORM),
    })
}

/// How far everything on the site is from the house.
fn distances(answers: &Answers) -> Vec<Vec<String>> {
    let stems = answers.rows.iter().filter_map(|row| row.path.strip_suffix(".to-wall"));
    stems
        .map(|stem| {
            let noun = spoken(stem.rsplit('.').next().unwrap_or(stem));
            let words = match stem.split('.').nth(1) {
                Some("boundary") => format!("Boundary, side {noun}"),
                Some("trees") => format!("Tree: {noun}"),
                Some("wells") => format!("Well: {noun}"),
                Some("lines") => format!("Overhead line: {noun}"),
                _ => format!("Buried: {noun}"),
            };
            let cells = DISTANCES.iter().map(|noun| cell(answers, &format!("{stem}.{noun}")));
            std::iter::once(words).chain(cells).collect()
        })
        .collect()
}

/// How far wells and footing are from where water comes out.
fn apart(answers: &Answers) -> Vec<[String; 2]> {
    let is_water = |row: &&Row| {
        let from_well = row.path.starts_with("site.wells.") && row.path.contains(".to-");
        row.path == "site.outlet.from-footing"
            || from_well && !row.path.ends_with("-wall") && !row.path.ends_with("-eave")
    };
    answers.rows.iter().filter(is_water).map(|row| [capital(&row.title), marked(answers, row)]).collect()
}

fn yard(answers: &Answers) -> Vec<Vec<String>> {
    let things = answers.site.things.iter();
    let mut lines: Vec<Vec<String>> = things
        .filter_map(|thing| {
            let SiteKind::Yard(kind) = thing.kind else { return None };
            let cells = ["count", "ground"].map(|noun| cell(answers, &format!("{}.{noun}", thing.path)));
            Some([capital(&thing.name), kind.word()].into_iter().chain(cells).collect())
        })
        .collect();
    if let Some(all) = answers.rows.find("site.yard-area") {
        lines.push(vec!["All".to_owned(), String::new(), String::new(), marked(answers, all)]);
    }
    lines
}

/// One line a stage: what comes in, goes out and is left of topsoil and of subsoil.
fn balance(answers: &Answers) -> Vec<Vec<String>> {
    let mut stages: Vec<&str> = Vec::new();
    for row in answers.rows.iter() {
        let stage = row.path.strip_prefix("balance.").and_then(|rest| rest.split_once('.')).map(|(_, stage)| stage);
        let stage = stage.and_then(|stage| stage.rsplit_once('.')).map(|(stage, _)| stage);
        if let Some(stage) = stage.filter(|stage| !stages.contains(stage)) {
            stages.push(stage);
        }
    }
    let cells = |stage: &str| {
        let columns =
            ["topsoil", "subsoil"].into_iter().flat_map(|heap| ["in", "out", "left"].map(|noun| (heap, noun)));
        columns.map(|(heap, noun)| cell(answers, &format!("balance.{heap}.{stage}.{noun}"))).collect::<Vec<_>>()
    };
    let mut lines: Vec<Vec<String>> =
        stages.iter().map(|stage| std::iter::once(words(stage)).chain(cells(stage)).collect()).collect();
    let totals = ["topsoil", "subsoil"].into_iter().flat_map(|heap| {
        ["in", "out"].map(|noun| cell(answers, &format!("balance.{heap}.{noun}"))).into_iter().chain([String::new()])
    });
    lines.push(std::iter::once("All".to_owned()).chain(totals).collect());
    lines
}

/// A stage as a builder says it.
fn words(stage: &str) -> String {
    match stage.split('.').collect::<Vec<_>>()[..] {
        ["strip"] => "Topsoil stripped".to_owned(),
        ["trench"] => "Trench dug".to_owned(),
        ["drain"] => "Drain dug".to_owned(),
        ["floor"] => "Under the floor".to_owned(),
        ["backfill"] => "Back over the drain".to_owned(),
        ["round"] => "Spread round the house".to_owned(),
        ["mixes", recipe, soil] => format!("{} into {}", capital(&spoken(soil)), spoken(recipe)),
        ["footings", thing] => format!("Under the footing of {}", spoken(thing)),
        ["roof", layer] => format!("On the roof: {}", spoken(layer)),
        _ => capital(&spoken(stage)),
    }
}

fn platform(answers: &Answers) -> Vec<[String; 3]> {
    let lifts = answers.rows.iter().filter_map(|row| {
        let lift = row.path.strip_prefix("wall.lifts.")?.strip_suffix(".above-ground")?;
        let stand = said(answers, &format!("wall.lifts.{lift}.platform"));
        Some([capital(&spoken(lift)), marked(answers, row), stand.unwrap_or_else(|| "from the ground".to_owned())])
    });
    lifts.collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use super::*;
    use engine::answers::{Inputs, answers};

    #[test]
    fn every_stage_of_the_earth_balance_is_said_in_words() {
        for build in [
            include_str!("../../../builds/tansy-bank/tansy-bank.loam.toml"),
            include_str!("../../../builds/burdock-rise/burdock-rise.loam.toml"),
        ] {
            let answers = answers(&Inputs { build: build.as_bytes(), system: None }).unwrap();
            let stages = balance(&answers);
            assert!(stages.len() > 5);
            assert!(stages.iter().all(|stage| !stage[0].contains('.')), "{stages:?}");
        }
    }
}
