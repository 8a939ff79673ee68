//! Every drawing of a house by name, each with its chapter of the book and its words.

use engine::answers::Answers;
use engine::pictures::Pictures;
use engine::units::System;

use super::{
    Scaled, bond_beam, detail, elevation, exploded, floor_bays, lift_band, lift_bed, plan, plaster_lots, section,
    setting_out, site, story_pole, trench_section, unrolled,
};
use crate::paper::Paper;
use crate::spoken;

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

/// Every drawing of a house, in the order of the book; those of surfaces and bodies on a thread of their own.
#[must_use]
pub fn all(answers: &Answers, pictures: &Pictures, paper: Paper) -> Vec<Drawing> {
    std::thread::scope(|scope| {
        let rest = scope.spawn(|| of_surfaces_and_bodies(answers, pictures, paper));
        let mut drawings = of_ground_and_walls(answers, paper);
        drawings.extend(rest.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
        drawings
    })
}

fn of_ground_and_walls(answers: &Answers, paper: Paper) -> Vec<Drawing> {
    let rounding = match answers.system {
        System::Metric => "Sizes are drawn to 5 mm; radii, places and levels to 1 mm.",
        System::Us => "Sizes are drawn to 1/8 in; radii, places and levels to 1/16 in.",
    };
    let distances = if answers.site.unknown.contains(&"boundary") {
        "Nothing is written of the land."
    } else {
        "Distances are from the wall's outer face to the nearest place of each side; dashes show the eave."
    };
    let mut drawings = vec![
        drawing("site", "site", "Site plan", distances, site(answers, paper)),
        drawing(
            "setting-out",
            "setting-out",
            "Pegs, and the baseline from A to B",
            "The table has the numbers. Thin lines are offsets, dashed ones check tapes, dash and dot radii.",
            setting_out(answers, paper),
        ),
        drawing(
            "story-pole",
            "setting-out",
            "The story pole",
            "Heights from the benchmark on the left, from the foot of the pole on the right.",
            story_pole(answers, paper),
        ),
        drawing(
            "plan",
            "plan",
            "Plan",
            &format!("Measure from the middle of the wall at the foot of the cob. {rounding}"),
            plan(answers, paper),
        ),
        drawing(
            "section",
            "sections",
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
        drawings.push(drawing("trench", "sections", title, other_way, trench));
    }
    drawings.push(drawing(
        "unrolled",
        "unrolled",
        "The wall unrolled along its middle, seen from outside",
        "Lifts from the foot up; levels are heights above the foot of the cob.",
        unrolled(answers, paper),
    ));
    if let Some(beam) = bond_beam(answers, paper) {
        let layered = answers.rows.find("wall.bond-beam.layers").and_then(|row| row.quantity.si());
        let note = if layered.is_some_and(|layers| layers > 1.0) {
            "Each mark: pieces in one layer, and the length they are cut to, scarf with it. Dashes: joints of every second layer."
        } else {
            "Each mark: pieces, and the length they are cut to, scarf with it."
        };
        drawings.push(drawing("bond-beam", "walls", "The bond beam in plan", note, beam));
    }
    for card in &answers.lift_cards {
        let name = spoken::lift(&card.name);
        let bed = format!("Plan of the bed of {name}");
        let note = "Dashed: below this bed.";
        drawings.push(drawing(&format!("lift-{}", card.name), "lifts", &bed, note, lift_bed(answers, card)));
        let band = format!("Band of {name}, unrolled, seen from outside");
        let scaled = lift_band(answers, card, paper);
        drawings.push(drawing(&format!("lift-{}-band", card.name), "lifts", &band, "", scaled));
    }
    drawings
}

fn of_surfaces_and_bodies(answers: &Answers, pictures: &Pictures, paper: Paper) -> Vec<Drawing> {
    let mut drawings = Vec::new();
    for face in &answers.surfaces.faces {
        let seen = if face.side == "inside" { "inside, seen from the room" } else { "outside, seen from outside" };
        let title = format!("The face {seen}, unrolled: stop lines, and what each stretch takes of the lots");
        let note = "Dashed: stop lines. So many people with trowels close the stretch with a wet edge.";
        let name = format!("plaster-lots-{}", face.side);
        drawings.push(drawing(&name, "skin", &title, note, plaster_lots(answers, face, paper)));
    }
    if let Some(bays) = floor_bays(answers, paper) {
        let from_both_ends = answers.surfaces.bays.as_ref().is_some_and(|bays| bays.from_both_ends);
        let note = if from_both_ends {
            "Lay them in the order of their numbers, from both ends to the bay before the door."
        } else {
            "Lay them in the order of their numbers, from the far side to the door."
        };
        drawings.push(drawing("floor-bays", "floor", "Bays of the floor and the way out", note, bays));
    }
    drawings.extend(pictures.elevations.iter().map(|side| {
        let name = format!("elevation-{}", side.name);
        let bearing = answers.rows.find(&side.bearing).map_or_else(String::new, |row| row.shown(answers.system));
        let title = format!("Elevation from the {}, seen from a bearing of {bearing}", side.name);
        let note = "Walls without plaster and roof; levels are heights above the foot of the cob.";
        drawing(&name, "elevations", &title, note, elevation(answers, side, paper))
    }));
    let roof = if pictures.exploded.has_roof { " Poles and layers of the roof are a first cut." } else { "" };
    let note = format!("What is built first lies lowest.{roof}");
    let picture = exploded(answers, &pictures.exploded, paper);
    drawings.push(drawing("exploded", "exploded", "The house pulled apart", &note, picture));
    drawings.extend(
        answers
            .details
            .iter()
            .map(|one| drawing(one.name, "details", &one.title, &one.note, detail(answers, one, paper))),
    );
    drawings
}

fn drawing(name: &str, chapter: &'static str, title: &str, note: &str, scaled: Scaled) -> Drawing {
    Drawing { name: name.to_owned(), chapter, title: title.to_owned(), note: note.to_owned(), scaled }
}
