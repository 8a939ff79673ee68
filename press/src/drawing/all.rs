//! Every drawing of a house by name, each with its chapter of the book and its words.

use engine::answers::Answers;
use engine::units::System;

use super::{Scaled, plan, section, trench_section, unrolled};
use crate::paper::Paper;

/// A drawing as the book prints it and `export` names it.
#[derive(Clone, Debug)]
pub struct Drawing {
    /// Its name: small letters and hyphens.
    pub name: String,
    /// The chapter of the book that it stands in.
    pub chapter: &'static str,
    /// What it is, without its scale.
    pub title: String,
    /// What else has to be said below it.
    pub note: String,
    /// The drawing.
    pub scaled: Scaled,
}

/// Every drawing of a house, in the order of the book.
#[must_use]
pub fn all(answers: &Answers, paper: Paper) -> Vec<Drawing> {
    let rounding = match answers.system {
        System::Metric => "Sizes are drawn to 5 mm; radii, places and levels to 1 mm.",
        System::Us => "Sizes are drawn to 1/8 in; radii, places and levels to 1/16 in.",
    };
    let mut drawings = vec![
        drawing(
            "plan",
            "drawings",
            "Plan",
            &format!("Measure from the middle of the wall at the foot of the cob. {rounding}"),
            plan(answers, paper),
        ),
        drawing(
            "section",
            "drawings",
            "Cross-section A",
            &format!("Levels are heights above the foot of the cob. {rounding}"),
            section(answers, paper),
        ),
    ];
    if let Some(trench) = trench_section(answers, paper) {
        let other_way = if answers.rows.find("water.trench.longest-way").is_none() {
            "The other way round is the same."
        } else {
            "The other way is shorter."
        };
        let title = "Trench from its high end to the outlet, then the drain to daylight";
        drawings.push(drawing("trench", "drawings", title, other_way, trench));
    }
    drawings.push(drawing(
        "unrolled",
        "drawings",
        "The wall unrolled along its middle, seen from outside",
        "Lifts from the foot up; levels are heights above the foot of the cob.",
        unrolled(answers, paper),
    ));
    drawings
}

fn drawing(name: &str, chapter: &'static str, title: &str, note: &str, scaled: Scaled) -> Drawing {
    Drawing { name: name.to_owned(), chapter, title: title.to_owned(), note: note.to_owned(), scaled }
}
