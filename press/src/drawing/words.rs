//! What is said of a drawing: its title, and what else has to be said below it. Page, book and exports say the same.

use engine::answers::Answers;
use engine::pictures::{Pictures, SoilStays};
use engine::units::System;

use crate::spoken::spoken;
use crate::{batches, bricks, mixes, panels};

/// The words of a drawing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Words {
    /// What it is, without its scale.
    pub title: String,
    /// What else has to be said below it.
    pub note: String,
}

/// The words of a drawing of the whole house by its name, without drawing it; none for a card, a detail or a name that is no
/// drawing's. Pictures are asked for where a drawing is said by what it shows of them, and not else.
#[must_use]
pub fn words<'a>(name: &str, answers: &Answers, pictures: impl FnOnce() -> Option<&'a Pictures>) -> Option<Words> {
    let (title, note) = match name {
        "site" => ("Site plan".to_owned(), distances(answers).to_owned()),
        "plan" => {
            let note = format!("Measure from the middle of the wall at the foot of the cob. {}", rounding(answers));
            ("Plan".to_owned(), note)
        }
        "section" => {
            let note = format!("Levels are heights above the foot of the cob. {}", rounding(answers));
            ("Cross-section A".to_owned(), note)
        }
        "trench" => {
            let title = "Trench from its high end to the outlet, then the drain to daylight";
            (title.to_owned(), other_way(answers).to_owned())
        }
        "unrolled" => (
            "The wall unrolled along its middle, seen from outside".to_owned(),
            "Lifts from the foot up; levels are heights above the foot of the cob.".to_owned(),
        ),
        "floor-bays" => ("Bays of the floor and the way out".to_owned(), order_of_bays(answers).to_owned()),
        "roof-plan" => (
            "Plan of the poles".to_owned(),
            "A pole whose lines are broken lies under the other. Squares: seats; dash and dot: line of the plate; dashes: eave; \
             dots: eye. Lengths are those to cut to."
                .to_owned(),
        ),
        "trade" => {
            let title = "Which rings of these poles work, were all alike and the plan a circle";
            (title.to_owned(), lines_of_the_choice(pictures()?.choice.as_ref()?.soil))
        }
        "bending" => {
            let bent = pictures()?.bent.as_ref()?;
            let title = format!("Bending and sag along {}, place {}, which is used most", spoken(&bent.tag), bent.place);
            let note = "The greatest moments both ways of all loads and both kinds of feet; upwards: the top is pulled. \
                        The sag is many times too deep; its curve between wall and rest is drawn as a parabola.";
            (title, note.to_owned())
        }
        "deck-plan" => (
            "Plan of the deck".to_owned(),
            "Thin: between courses of boards, counted from the eave. Heavy: top lines of the poles, across them the stations of \
             the shim table. Dots: downspouts, with the roof in plan that runs to each."
                .to_owned(),
        ),
        "boarding-plan" => (
            "Plan of the boards".to_owned(),
            "Thin: between courses, counted from the low eave. Heavy: where two boards meet over a rafter. Broken: rafters, with \
             their numbers at the low ends. Dots: downspouts, with the roof in plan that runs to each."
                .to_owned(),
        ),
        "rafter-plan" => (
            "Plan of the rafters".to_owned(),
            "Black squares: seats; dot and dash: the line of the plate; dashes: eave and openings. Low ends have the numbers.".to_owned(),
        ),
        "raising" => (
            "The prop, seen square to its first pole".to_owned(),
            "The whole pole is drawn on the prop; dashes: as it lies when the prop is gone. The prop itself is not designed here."
                .to_owned(),
        ),
        "raising-stages" => (
            "The poles, stage by stage".to_owned(),
            "Dark: the pole of the stage; disc: the prop.".to_owned(),
        ),
        "exploded" => {
            let is_first_cut = pictures()?.exploded.has_roof && answers.deck.is_none() && answers.boarding.is_none();
            let roof = if is_first_cut { " Poles and layers of the roof are a first cut." } else { "" };
            ("The house pulled apart".to_owned(), format!("What is built first lies lowest.{roof}"))
        }
        other if other.starts_with("pole-") => {
            let tag = other.strip_prefix("pole-")?;
            let ring = answers.ring_plan.as_ref()?;
            let place = ring.places.iter().position(|pole| pole.tag == tag)?;
            let title = format!("Place {}: {}", place + 1, spoken(tag));
            (title, "True along, thicker across. Marks are measured from the end that goes to the wall.".to_owned())
        }
        "texture" => {
            let note = "Discs: gradings, which weigh; rings and broken outlines: jars, which show volumes. Hatched: where the soil may lie. \
                        Clay is read on the left, sand below, silt on the right, along the short lines.";
            ("Sand, silt and clay by the tests of the soil".to_owned(), note.to_owned())
        }
        "plasticity" => {
            let note = "Of the part under 0.425 mm. CL: lean clay; CH: fat clay; ML, MH: silt; CL-ML: between. Hatched: where it may lie.";
            ("How much water the fine part takes".to_owned(), note.to_owned())
        }
        other if other.starts_with("grading-") => {
            let grading = pictures()?.gradings.iter().find(|own| other.strip_prefix("grading-") == Some(&own.name))?;
            let note = "Discs: sieves; rings: hydrometer. Shaded: the mix that packs densest, from round grains to angular ones. \
                        Broken: what jars of the same soil say. Upright at 0.002 mm: how far its clay may be off.";
            (super::grading::title(grading), note.to_owned())
        }
        other if other.starts_with("mixes-") => of_mixes(other.strip_prefix("mixes-")?, answers),
        other if other.starts_with("panels-") => {
            let title = format!("{}: cracks as they were scored", panels::title(other.strip_prefix("panels-")?));
            (title, "A mark for each judge; the bucket: the mix that is chosen by all scores.".to_owned())
        }
        other if other.starts_with("batches-") => {
            let title = batches::title(other.strip_prefix("batches-")?);
            let note = "Band: within three deviations of the first ten, by the steps from one to the next; crossed: outside, so stop and find what \
                        changed.";
            (format!("{title}: yield and moisture, one after the other"), note.to_owned())
        }
        other if other.starts_with("bricks-") || other.starts_with("damp-bricks-") => of_bricks(other, answers)?,
        other => match (other.strip_prefix("plaster-lots-"), other.strip_prefix("elevation-")) {
            (Some(side), _) => {
                let seen = if side == "inside" { "inside, seen from the room" } else { "outside, seen from outside" };
                let title = format!("The face {seen}, unrolled: stop lines, and what each stretch takes of the lots");
                let note = "Dashed: stop lines. So many people with trowels close the stretch with a wet edge.";
                (title, note.to_owned())
            }
            (_, Some(side)) => {
                let elevation = pictures()?.elevations.iter().find(|one| one.name == side)?;
                let row = answers.rows.find(&elevation.bearing);
                let bearing = row.map_or_else(String::new, |row| row.shown(answers.system));
                let title = format!("Elevation from the {side}, seen from a bearing of {bearing}");
                let note = "Walls without plaster and roof; levels are heights above the foot of the cob.";
                (title, note.to_owned())
            }
            _ => return None,
        },
    };
    Some(Words { title, note })
}

fn of_bricks(name: &str, answers: &Answers) -> Option<(String, String)> {
    let lot = |name: &str| answers.bricks.iter().find(|lot| lot.name == name).map(bricks::title);
    let marks = "Discs: dry; rings: damp";
    if let Some(name) = name.strip_prefix("damp-bricks-") {
        let note = format!("{marks}. The line says nothing of a brick that is drier or damper than these.");
        return Some((format!("{}: strength against moisture", lot(name)?), note));
    }
    let note =
        format!("{marks}; crossed: strange, and counted all the same. Mean and lower bound are of the dry ones.");
    Some((format!("{}: what each bore", lot(name.strip_prefix("bricks-")?)?), note))
}

fn of_mixes(name: &str, answers: &Answers) -> (String, String) {
    let count = answers.rows.matching(&format!("tests.mixes.{name}.limits.*.low")).count();
    let marks = "Discs: mixes that were tried, ringed where they were repeated; rings: recipes of whole steps between them, the \
                 larger ones nearly as good as the chosen one.";
    let note = if count == 3 {
        format!(
            "{marks} Lines: all wishes are met alike, the more the heavier. Beyond the tried mixes nothing is told."
        )
    } else {
        format!("{marks} Heavy: all wishes together; broken: each by itself. Beyond the tried mixes nothing is told.")
    };
    (format!("{}: how much of what is wanted is met", mixes::title(name)), note)
}

fn lines_of_the_choice(soil: SoilStays) -> String {
    let slides = match soil {
        SoilStays::AtEvery => "",
        SoilStays::UpTo(_) => "; above the dots the soil slides",
        SoilStays::AtNone => "; at every pitch here the soil slides, and nothing is shaded",
        SoilStays::NotKnown => "; from which pitch on the soil slides is not known, and nothing is shaded",
    };
    format!(
        "Across: radius of the eye; upwards: pitch. Shaded: works. Right of the thin line poles lie apart; left of the dashes \
         notches are too deep; left of the thick line they bend too much{slides}. Disc: this ring. Headroom is least at the wall \
         and is not changed by the choice. A first look: pole by pole decides, and an engineer."
    )
}

fn rounding(answers: &Answers) -> &'static str {
    match answers.system {
        System::Metric => "Sizes are drawn to 5 mm; radii, places and levels to 1 mm.",
        System::Us => "Sizes are drawn to 1/8 in; radii, places and levels to 1/16 in.",
    }
}

fn distances(answers: &Answers) -> &'static str {
    if answers.site.unknown.contains(&"boundary") {
        "Nothing is written of the land."
    } else {
        "Distances are from the wall's outer face to the nearest place of each side; dashes show the eave."
    }
}

fn other_way(answers: &Answers) -> &'static str {
    if answers.rows.find("water.trench.longest-way").is_none() {
        "The other way round is the same."
    } else {
        "The other way is shorter."
    }
}

fn order_of_bays(answers: &Answers) -> &'static str {
    if answers.surfaces.bays.as_ref().is_some_and(|bays| bays.from_both_ends) {
        "Lay them in the order of their numbers, from both ends to the bay before the door."
    } else {
        "Lay them in the order of their numbers, from the far side to the door."
    }
}
