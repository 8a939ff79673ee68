//! What the roof carries and whether its poles hold: loads, shares of strength pole by pole and crossing by crossing, feet, soil.

use engine::answers::Answers;
use serde_json::{Value, json};

use super::rows::{figures, lines, said, table};
use crate::spoken::{capital, spoken};

const LOADS: [(&str, &str); 13] = [
    ("site.loads.snow", "Snow on the ground"),
    ("site.loads.wind", "Speed of the wind"),
    ("roof.loads.gust", "Pressure of a gust"),
    ("roof.loads.fixed", "Layers but the soil, in plan"),
    ("roof.soil.soaked", "Soil when soaked"),
    ("roof.soil.deepest", "Depth of soil counted with"),
    ("roof.loads.soil", "Soil, soaked and too deep, in plan"),
    ("site.loads.imposed", "People for repair"),
    ("site.loads.placing", "Crew and heaps while layers are placed"),
    ("roof.loads.snow", "Snow on the roof"),
    ("roof.loads.wind-down", "Wind that presses"),
    ("roof.loads.wind-up", "Wind between the walls, lifting below zero"),
    ("roof.loads.wind-up-eaves", "Wind on the eaves, lifting below zero"),
];

const MEMBERS: [(&str, &str); 11] = [
    ("bending", "bent"),
    ("asd-bending", "bent"),
    ("shear", "sheared"),
    ("asd-shear", "sheared"),
    ("compression", "pushed, bent"),
    ("asd-compression", "pushed, bent"),
    ("tension", "pulled, bent"),
    ("asd-tension", "pulled, bent"),
    ("sag", "sag of span"),
    ("asd-sag", "sag of span"),
    ("sinks", "sinks"),
];

const CROSSINGS: [(&str, &str); 14] = [
    ("push", "push"),
    ("up", "carried"),
    ("bearing", "seat"),
    ("asd-bearing", "seat"),
    ("notch", "notch"),
    ("asd-notch", "notch"),
    ("split", "split"),
    ("asd-split", "split"),
    ("bolt-end", "beyond it"),
    ("asd-bolt-end", "beyond it"),
    ("bolt-side", "beside it"),
    ("asd-bolt-side", "beside it"),
    ("bolt", "bolt"),
    ("friction", "friction without it"),
];

const FEET: [(&str, &str); 4] =
    [("up", "carried"), ("thrust", "thrust"), ("across", "across"), ("held-down", "held down")];

const BEAM: [(&str, &str); 5] = [
    ("ring-force", "ring force"),
    ("moment-upright", "moment, up and down"),
    ("moment-plan", "moment in plan"),
    ("shear-force", "force across"),
    ("twist-moment", "twist"),
];

const OF_BEAM: [(&str, &str); 8] = [
    ("bending", "bent"),
    ("asd-bending", "bent"),
    ("ring", "pulled or pushed, bent"),
    ("asd-ring", "pulled or pushed, bent"),
    ("shear", "sheared"),
    ("asd-shear", "sheared"),
    ("twist", "twisted"),
    ("asd-twist", "twisted"),
];

const HELD: [(&str, &str); 2] = [("held-force", "ring force"), ("held-moment", "moment in plan")];

const ALONE: [(&str, &str); 2] = [
    ("held", "Strength of the beam that this would use, where it is the most"),
    ("held-tipping", "How far off its middle a load would fall, of half its width, where it is the farthest"),
];

const SCARFS: [(&str, &str); 6] = [
    ("half-piece", "half a piece"),
    ("scarf-force", "along the beam"),
    ("scarf-across", "across it"),
    ("scarf-lift", "planks gape by"),
    ("scarf", "bolts used"),
    ("asd-scarf", "bolts used"),
];

const BOLTS: [(&str, &str); 7] = [
    ("wall.bond-beam.bolt", "Bolts through a scarf, diameter"),
    ("wall.bond-beam.washer", "Side of their washers"),
    ("roof.scarf.across", "Across it a bolt carries, before factors of time and material"),
    ("roof.scarf.washers", "Along it by its washers, before those factors"),
    ("roof.scarf.steel", "Along it by its steel"),
    ("roof.scarf.room.along", "Of a scarf's length its bolts want"),
    ("roof.scarf.room.across", "Of the beam's width they want"),
];

const SLIDES: [(&str, &str); 5] = [
    ("friction", "Friction of a foot on the beam"),
    ("under-beam", "Friction of the beam on the wall"),
    ("slips", "Friction under the beam used when a foot is about to slip"),
    ("asd-slips", "Friction under the beam used when a foot is about to slip"),
    ("pushes", "Most that a foot pushes the beam, and the beam the top of the wall"),
];

const ON_EARTH: [(&str, &str); 3] = [
    ("eased", "pressure once the earth has given"),
    ("earth", "of what bricks bore"),
    ("asd-earth", "of what bricks bore"),
];

const UNDER: [(&str, &str); 9] = [
    ("area", "area it bears on"),
    ("bearing", "beam pressed"),
    ("asd-bearing", "beam pressed"),
    ("off-middle", "off the middle"),
    ("pressure", "on stiff earth"),
    ("farthest", "farthest off"),
    ("tipping", "farthest off, of half"),
    ("asd-tipping", "farthest off, of half"),
    ("held-farthest", "if it were held"),
];

const ANCHORS: [(&str, &str); 3] =
    [("pull", "must hold down"), ("used", "of what it holds"), ("asd-used", "of what it holds")];

const EARTH: [(&str, &str); 11] = [
    ("roof.beam.planks", "Planks that count in strength"),
    ("roof.beam.area", "Area of the planks that count"),
    ("roof.beam.upright.modulus", "Their section modulus, up and down"),
    ("roof.beam.plan.modulus", "The same in plan"),
    ("roof.beam.twist.modulus", "Torque over its greatest stress"),
    ("wall.bond-beam.soft-earth", "Soft earth, modulus of elasticity"),
    ("roof.beam.soft-bed", "What it gives, each metre of beam"),
    ("roof.beam.soft-length", "Length over which it carries to either side"),
    ("wall.bond-beam.stiff-earth", "Stiff earth, modulus of elasticity"),
    ("roof.beam.stiff-bed", "What that gives, each metre of beam"),
    ("roof.beam.stiff-length", "Length over which that carries"),
];

/// Where the pole of each place lies; what the crew sets out and cuts stands in the chapter on the roof and on the cards.
const PLACES: [(&str, &str); 7] = [
    ("seat-x", "seat, x"),
    ("seat-y", "seat, y"),
    ("seat-level", "level of the plate"),
    ("tail-in-plan", "tail in plan"),
    ("pitch", "pitch"),
    ("rest-level", "level where it rests"),
    ("tip-level", "level of its tip"),
];

const LENGTHS: [(&str, &str); 7] = [
    ("tail", "seat"),
    ("carry", "carries"),
    ("rest", "rests"),
    ("cut-length", "length"),
    ("wood", "wood"),
    ("mass", "mass"),
    ("balance", "balance"),
];

const FORCES: [(&str, &str); 6] = [
    ("moment", "moment"),
    ("modulus", "section modulus"),
    ("shear-force", "force across"),
    ("push", "push along"),
    ("pull", "pull along"),
    ("sags", "sag"),
];

const SEATS: [(&str, &str); 5] = [
    ("angle", "angle"),
    ("seat", "area it bears on"),
    ("borne", "bears"),
    ("across", "across the bolt"),
    ("held-down", "tie holds"),
];

const SOIL: [(&str, &str); 5] = [
    ("friction", "Friction of wet soil on its sheet"),
    ("battens.spacing", "From batten to batten"),
    ("battens.holds", "A metre of batten holds"),
    ("board", "Edge board over the sheet"),
    ("bucket.full", "A bucket of it, soaked"),
];

const SLIDE: [(&str, &str); 3] = [
    ("without-battens", "Safety against sliding without battens"),
    ("safety", "Safety against sliding"),
    ("edge-push", "Push on the edge board without friction"),
];

const REGULAR: [(&str, &str); 5] = [
    ("load", "Even load that is looked at"),
    ("strength", "What the poles bear in bending then"),
    ("own", "Weight of a pole on each metre"),
    ("moment", "Moment at the first crossing, poles alike"),
    ("used", "Of their bending strength, poles alike"),
];

/// The chapter; null where the house has no roof, or nothing is known of what lies on it.
pub(super) fn chapter(answers: &Answers) -> Value {
    let loads = figures(answers, "", &LOADS);
    if loads.is_empty() {
        return Value::Null;
    }
    let advice = answers.rows.matching("roof.advice.*").map(|row| (capital(&row.title), said(answers, &row.path)));
    json!({
        "loads": loads,
        "members": by_place(answers, "roof.members.", &MEMBERS),
        "crossings": by_place(answers, "roof.crossings.", &CROSSINGS),
        "feet": by_place(answers, "roof.feet.", &FEET),
        "beam": table(answers, "roof.beam.", &BEAM),
        "of_beam": table(answers, "roof.beam.", &OF_BEAM),
        "held": table(answers, "roof.beam.", &HELD),
        "alone": figures(answers, "roof.beam.", &ALONE),
        "scarfs": table(answers, "roof.beam.", &SCARFS),
        "bolts": figures(answers, "", &BOLTS),
        "slides": figures(answers, "roof.feet.", &SLIDES),
        "on_earth": by_place(answers, "roof.beam.seats.", &ON_EARTH),
        "under": by_place(answers, "roof.beam.seats.", &UNDER),
        "anchors": table(answers, "roof.beam.anchors.", &ANCHORS),
        "earth": figures(answers, "", &EARTH),
        "places": by_place(answers, "roof.places.", &PLACES),
        "lengths": by_place(answers, "roof.places.", &LENGTHS),
        "forces": by_place(answers, "roof.members.", &FORCES),
        "seats": by_place(answers, "roof.crossings.", &SEATS),
        "soil": figures(answers, "roof.soil.", &SOIL).into_iter().chain(figures(answers, "roof.slide.", &SLIDE)).collect::<Vec<_>>(),
        "regular": figures(answers, "roof.trade.", &REGULAR),
        "eyes": table(answers, "roof.trade.", &[("least-eye", "smallest eye"), ("largest-eye", "largest, no packing")]),
        "advice": advice.collect::<Vec<_>>(),
        "has_rafters": answers.rows.find("roof.members.rafter.moment").is_some(),
    })
}

/// One line for each place of the ring with its pole; by their own names where the poles are no ring.
fn by_place(answers: &Answers, stem: &str, nouns: &[(&str, &str)]) -> Value {
    let Some(ring) = &answers.ring_plan else { return table(answers, stem, nouns) };
    let names = ring.places.iter().enumerate();
    let names =
        names.map(|(place, pole)| (format!("{} {}", place + 1, spoken(&pole.tag)), format!("{stem}{}.", place + 1)));
    lines(answers, "place", names, nouns)
}
