//! Every drawing of a house by name, each with its chapter of the book and its words.

use engine::answers::Answers;
use engine::pictures::Pictures;

use super::words::{Words, words};
use super::{
    Scaled, batches, bending, boarding_plan, bond_beam, bricks, damp_bricks, deck_plan, detail, elevation, exploded,
    floor_bays, grading, lift_band, lift_bed, mixes, panels, plan, plaster_lots, plasticity, pole_card, rafter_plan,
    raising, raising_stages, roof_plan, section, setting_out, site, story_pole, texture, trade, trench_section,
    unrolled,
};
use crate::batches::logged;
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
    let whole = |name: &str, chapter, scaled| whole(name, chapter, words(name, answers, || None), scaled);
    let mut drawings = vec![
        whole("site", "site", site(answers, paper)),
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
        whole("plan", "plan", plan(answers, paper)),
        whole("section", "sections", section(answers, paper)),
    ];
    drawings.extend(trench_section(answers, paper).map(|trench| whole("trench", "sections", trench)));
    drawings.push(whole("unrolled", "unrolled", unrolled(answers, paper)));
    if let Some(beam) = bond_beam(answers, paper) {
        let layered = answers.rows.find("wall.bond-beam.layers").and_then(|row| row.quantity.si());
        let note = if layered.is_some_and(|layers| layers > 1.0) {
            "Each mark: pieces in one layer, and the length they are cut to, scarf with it. Dashes: joints of every second layer."
        } else {
            "Each mark: pieces, and the length they are cut to, scarf with it."
        };
        drawings.push(drawing("bond-beam", "walls", "The bond beam in plan", note, beam));
    }
    for lot in &answers.bricks {
        drawings.push(whole(&format!("bricks-{}", lot.name), "bricks", bricks(answers, lot, paper)));
        let damp = damp_bricks(answers, lot, paper);
        drawings.extend(damp.map(|damp| whole(&format!("damp-bricks-{}", lot.name), "bricks", damp)));
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
    let whole = |name: &str, chapter, scaled| whole(name, chapter, words(name, answers, || Some(pictures)), scaled);
    let faces = answers.surfaces.faces.iter();
    let mut drawings: Vec<Drawing> = faces
        .map(|face| whole(&format!("plaster-lots-{}", face.side), "skin", plaster_lots(answers, face, paper)))
        .collect();
    drawings.extend(texture(&pictures.soils, paper).map(|drawn| whole("texture", "soil", drawn)));
    let chart = plasticity(pictures.plasticity.as_ref(), paper);
    drawings.extend(chart.map(|drawn| whole("plasticity", "soil", drawn)));
    let gradings = pictures.gradings.iter();
    drawings.extend(gradings.map(|own| whole(&format!("grading-{}", own.name), "soil", grading(own, paper))));
    drawings.extend(pictures.mixes.iter().map(|own| whole(&format!("mixes-{}", own.name), "mixes", mixes(own, paper))));
    drawings
        .extend(pictures.panels.iter().map(|own| whole(&format!("panels-{}", own.name), "panels", panels(own, paper))));
    drawings.extend(logged(answers).iter().filter_map(|name| {
        let drawn = batches(answers, name, paper)?;
        Some(whole(&format!("batches-{name}"), "batches", drawn))
    }));
    drawings.extend(floor_bays(answers, paper).map(|bays| whole("floor-bays", "floor", bays)));
    let roof = [
        ("roof-plan", roof_plan(answers, paper)),
        ("rafter-plan", rafter_plan(answers, paper)),
        ("trade", trade(answers, pictures.choice.as_ref(), paper)),
        ("bending", bending(answers, pictures.bent.as_ref(), paper)),
        ("raising", raising(answers, paper)),
        ("raising-stages", raising_stages(answers, paper)),
    ];
    drawings.extend(roof.into_iter().filter_map(|(name, drawn)| Some(whole(name, "roof", drawn?))));
    drawings.extend(deck_plan(answers, paper).map(|deck| whole("deck-plan", "deck", deck)));
    drawings.extend(boarding_plan(answers, paper).map(|boards| whole("boarding-plan", "deck", boards)));
    let poles = answers.ring_plan.iter().flat_map(|ring| &ring.places).filter(|pole| pole.is_measured);
    drawings.extend(poles.map(|pole| {
        let name = format!("pole-{}", pole.tag);
        whole(&name, "poles", pole_card(answers, pole, paper))
    }));
    drawings.extend(
        pictures
            .elevations
            .iter()
            .map(|side| whole(&format!("elevation-{}", side.name), "elevations", elevation(answers, side, paper))),
    );
    drawings.push(whole("exploded", "exploded", exploded(answers, &pictures.exploded, paper)));
    drawings.extend(
        answers
            .details
            .iter()
            .map(|one| drawing(one.name, "details", &one.title, &one.note, detail(answers, one, paper))),
    );
    drawings
}

/// A drawing of the whole house, with its words.
fn whole(name: &str, chapter: &'static str, words: Option<Words>, scaled: Scaled) -> Drawing {
    let Words { title, note } = words.unwrap_or_default();
    drawing(name, chapter, &title, &note, scaled)
}

fn drawing(name: &str, chapter: &'static str, title: &str, note: &str, scaled: Scaled) -> Drawing {
    Drawing { name: name.to_owned(), chapter, title: title.to_owned(), note: note.to_owned(), scaled }
}
