//! The roof of measured poles: positions, raising stage by stage, what to measure on the way, and a card for each pole.

mod second;

use engine::answers::Answers;
use engine::house::RingPlan;
use engine::house::ring_plan::PlacedPole;
use engine::units::Fineness;
use serde_json::{Value, json};

use super::rows::{cell, figures, said};
use crate::spoken::{capital, spoken};

/// Rows of secondary rafters, and what they are called here.
const SECONDARY: [(&str, &str); 21] = [
    ("count", "In each bay"),
    ("total", "On the roof"),
    ("diameter", "Diameter"),
    ("cut-length", "Longest, cut to"),
    ("tail", "Of that from the eave to over the plate"),
    ("pitch", "Pitch of the longest"),
    ("across", "On the plate, of the way from a pole to the next"),
    ("at", "Trimmers or heads lie at, of the way from the plate to the crossing"),
    ("share", "Heads at, of the way from the plate to the crossing, on the mean"),
    ("length", "Each cut to"),
    ("notch", "Cut into the rafter where it rests"),
    ("housing", "Cut into its pole there"),
    ("bolt", "Bolt through both there"),
    ("trimmer", "Diameter of a trimmer"),
    ("trimmer-length", "Longest trimmer, from axis to axis"),
    ("on-plate", "A secondary rafter presses on the plate at most"),
    ("on-plate-lifts", "Lifts off the plate at most"),
    ("on-trimmer", "Presses on its trimmer at most"),
    ("on-trimmer-lifts", "Lifts off its trimmer at most"),
    ("on-pole", "Presses on its pole at most"),
    ("on-pole-lifts", "Lifts off its pole at most"),
];

/// The chapter; null where no pole is measured.
pub(super) fn chapter(answers: &Answers) -> Value {
    let Some(ring) = &answers.ring_plan else { return Value::Null };
    json!({
        "words": words(answers, ring),
        "positions": positions(answers, ring),
        "prop": prop(answers),
        "stages": stages(answers, ring),
        "teams": teams(answers, ring),
        "steps": steps(answers, ring),
        "holds": holds(ring),
        "measured": measured(answers, ring),
        "sinks": sinks(answers),
        "secondary": figures(answers, "roof.secondary.", &SECONDARY),
        "second": second::rafters(answers, ring),
        "pressed": second::pressed(answers, ring),
        "heads": second::heads(answers, ring),
        "cut": second::cut_in_words(ring),
    })
}

/// The cards of the measured poles in the order of their places.
pub(super) fn cards(answers: &Answers) -> Value {
    let poles = answers.ring_plan.iter().flat_map(|ring| &ring.places).enumerate().filter(|(_, pole)| pole.is_measured);
    poles.map(|(place, pole)| card(answers, place, pole)).collect()
}

/// How many poles of a ring nobody measured.
pub(super) fn typical(ring: &RingPlan) -> usize {
    ring.places.iter().filter(|pole| !pole.is_measured).count()
}

fn words(answers: &Answers, ring: &RingPlan) -> String {
    let typical = typical(ring);
    let marks = if typical == 0 {
        "Marks come from every pole as it was measured and from the plate as it was levelled.".to_owned()
    } else {
        format!(
            "{typical} of them nobody measured: they are taken to be typical ones, and so are all figures here. Have no pole cut and no stick \
             bought by them before each pole is measured and written."
        )
    };
    format!(
        "{} poles in a ring, each on the next one and under the one before: {} steep on the mean, the eye {} in radius. {marks}",
        ring.places.len(),
        cell(answers, "roof.ring.pitch"),
        cell(answers, "roof.ring.eye"),
    )
}

/// What a row says to 5 mm or 1/4 in, with a star when it was assumed.
fn mark(answers: &Answers, path: &str) -> String {
    shown(answers, path, Fineness::Mark)
}

fn shown(answers: &Answers, path: &str, fineness: Fineness) -> String {
    answers.rows.find(path).map_or_else(
        || "–".to_owned(),
        |row| format!("{}{}", row.quantity.shown(answers.system, fineness), if row.is_assumed() { " *" } else { "" }),
    )
}

/// A mark with its band.
fn banded(answers: &Answers, stem: &str, noun: &str, band: &str) -> String {
    format!("{} ± {}", mark(answers, &format!("{stem}.{noun}")), mark(answers, &format!("{stem}.{band}")))
}

fn named(place: usize, pole: &PlacedPole) -> String {
    format!("{}\u{a0}{}", place + 1, spoken(&pole.tag).replace(' ', "\u{a0}"))
}

fn way(pole: &PlacedPole) -> &'static str {
    if pole.is_turned { "thin" } else { "thick" }
}

fn positions(answers: &Answers, ring: &RingPlan) -> Value {
    let rows = ring.places.iter().enumerate().map(|(place, pole)| {
        let of = |noun: &str| format!("{}.{noun}", pole.stem);
        vec![
            named(place, pole),
            way(pole).to_owned(),
            mark(answers, &of("cut-length")),
            mark(answers, &of("tail")),
            banded(answers, &pole.stem, "carry", "carry-band"),
            banded(answers, &pole.stem, "rest", "rest-band"),
            shown(answers, &of("notch"), Fineness::SetOut),
            cell(answers, &of("mass")),
        ]
    });
    let header = ["place", "end at the wall", "cut to", "seat at", "carries at", "rests at", "notch there", "mass"];
    json!({ "header": header, "rows": rows.collect::<Vec<_>>() })
}

fn prop(answers: &Answers) -> Vec<[String; 2]> {
    let rows = [
        ("roof.raising.prop-above-floor", "Top of the prop above the finished floor"),
        ("roof.raising.prop-above-plate", "Above the plate at the first pole"),
        ("roof.raising.prop-top", "Above the foot of the cob"),
        ("roof.clearance", "Of that, to slip the last pole in"),
        ("roof.raising.slack", "Open for the last pole, square to both"),
        ("roof.raising.sinks", "The eye sinks when the prop goes, by"),
    ];
    rows.iter().filter_map(|(path, words)| Some([(*words).to_owned(), said(answers, path)?])).collect()
}

fn stages(answers: &Answers, ring: &RingPlan) -> Value {
    let count = ring.order.len();
    let mut rows: Vec<Vec<String>> = ring
        .order
        .iter()
        .enumerate()
        .filter_map(|(stage, &place)| {
            let pole = ring.places.get(place)?;
            let of = |noun: &str| cell(answers, &format!("{}.{noun}", pole.stem));
            let below = pole.neighbours.rests_on + 1;
            let task = match stage {
                0 => "on plate and prop".to_owned(),
                _ if stage + 1 == count => format!("on {below}, slips in under {}", pole.neighbours.carries + 1),
                _ => format!("on plate and {below}"),
            };
            let people =
                pole.people.map_or_else(|| "tripod, ramp or rope".to_owned(), |people| format!("{people} people"));
            Some(vec![(stage + 1).to_string(), named(place, pole), task, of("mass"), of("lift"), people])
        })
        .collect();
    let down = said(answers, "roof.raising.sinks").map_or_else(String::new, |by| format!(", the eye sinks by {by}"));
    let dash = || "–".to_owned();
    if let Some(overhead) = second::overhead(ring) {
        let task = format!("{} for the second ring, nobody beneath", overhead.done);
        rows.push(vec![dash(), "all, prop in".to_owned(), task, dash(), dash(), dash()]);
    }
    rows.push(vec![(count + 1).to_string(), "prop".to_owned(), format!("out, slowly{down}"), dash(), dash(), dash()]);
    json!({ "header": ["stage", "pole", "where", "mass", "in the hands at one end", "by hand"], "rows": rows })
}

fn teams(answers: &Answers, ring: &RingPlan) -> String {
    let lifts = ring.teams.iter().map(|(people, path)| format!("{people} people lift {}", cell(answers, path)));
    format!(
        "{}: a team lifts less than the sum of its people, and more than four do not work together. Above that an end goes up by tripod, \
         ramp or rope, one end at a time, the other end down. In the hands at one end: while the other end lies on ground or plate and \
         the pole is nearly level.",
        capital(&lifts.collect::<Vec<_>>().join(", "))
    )
}

/// How the ring is raised: common practice, no source.
fn steps(answers: &Answers, ring: &RingPlan) -> Vec<String> {
    let name = |place: Option<&usize>| {
        place.and_then(|&place| Some(named(place, ring.places.get(place)?))).unwrap_or_default()
    };
    let (first, last) = (name(ring.order.first()), name(ring.order.last()));
    let mut steps = vec![
        "Wall hard, beam bolted and levelled; straps stand up. Ring the ground off as far out as a pole is long.".to_owned(),
        format!(
            "Prop plumb on a board, braced three ways, its top {} above the finished floor: take the height from the story pole. Wedges \
             in pairs under it, so that it comes down by a hammer and not by a blow.",
            cell(answers, "roof.raising.prop-above-floor")
        ),
        format!("{first} first, on plate and prop; strap its butt at once. Then each in the order of the table, strapped before the next."),
        "At each crossing: dry-fit, scribe, then cut. Measure its level at the mark, write it down, and ask for new marks for the poles that are left."
            .to_owned(),
        format!("{last} slips in under the first pole. Bolt every crossing, close the strap or cable round the eye."),
        "The prop comes out when the one who is named below says so: wedges loose by turns, a finger's breadth at a time, and wait each \
         time. What creaks stops the work."
            .to_owned(),
        "Green poles shrink and bolts go slack: retighten after 1, 3 and 12 months.".to_owned(),
    ];
    if let Some(overhead) = second::overhead(ring) {
        let cut = format!(
            "{} of the second ring now, while the prop stands, with nothing else on the roof and nobody beneath; who cuts stands outside of \
             the ring: {}.",
            overhead.doing, overhead.depth
        );
        let out = steps.iter().position(|step| step.starts_with("The prop comes out")).unwrap_or(steps.len());
        steps.insert(out, cut);
    }
    steps
}

fn holds(ring: &RingPlan) -> Vec<String> {
    let mut all = HOLDS.map(str::to_owned).to_vec();
    if let Some(second::Overhead { done, limit, .. }) = second::overhead(ring) {
        let cut = format!("!Second ring: poles {done} while the prop stands, nobody beneath, {limit}");
        let out = all.iter().position(|hold| hold.starts_with("!Prop out")).unwrap_or(all.len());
        all.insert(out, cut);
    }
    all
}

const HOLDS: [&str; 9] = [
    "!Before the first lift: an engineer has confirmed poles, notches, bolts, ties and prop",
    "Ropes, tripod, wedges, straps looked over by the one who uses them",
    "!Wall and beam are hard and level enough to carry: signed by the lead",
    "Each butt strapped before the next pole is lifted",
    "Nobody within the ring of poles or beneath one while it moves or before it is strapped",
    "!Last pole in, every crossing bolted, strap round the eye closed",
    "!Prop out: only when the engineer or the lead says so, everybody outside, one at the wedges from the side",
    "Eye level measured before, after, next day and after a week",
    "!Boards only when the eye has stopped sinking",
];

fn measured(answers: &Answers, ring: &RingPlan) -> Value {
    let rows = ring.order.iter().enumerate().filter_map(|(stage, &place)| {
        let pole = ring.places.get(place)?;
        let of = |noun: &str| format!("{}.{noun}", pole.stem);
        let (prop_in, prop_out) = (cell(answers, &of("planned-level")), mark(answers, &of("rest-level")));
        let up = said(answers, &format!("roof.raised.{}", stage + 1)).unwrap_or_default();
        Some(vec![named(place, pole), prop_in, up, prop_out, String::new(), String::new()])
    });
    let header = ["pole", "planned, prop in", "measured", "prop out, before it beds", "measured", "what was done"];
    json!({ "header": header, "rows": rows.collect::<Vec<_>>() })
}

fn sinks(answers: &Answers) -> String {
    format!(
        "Level of the middle of each pole at its mark where it rests: half its thickness below its top there, above the foot of the cob. \
         While the prop stands all lie higher. When the prop goes the eye sinks by {}, each crossing bedding by {}. More than \
         that, or a sinking that does not stop: prop again, everybody out, and call the engineer.",
        cell(answers, "roof.raising.sinks"),
        cell(answers, "roof.bedding")
    )
}

fn card(answers: &Answers, place: usize, pole: &PlacedPole) -> Value {
    let [at_wall, at_eye] = if pole.is_turned { ["Thin", "thick"] } else { ["Thick", "thin"] };
    let of = |noun: &str| cell(answers, &format!("{}.{noun}", pole.stem));
    json!({
        "title": format!("{}  {}", place + 1, spoken(&pole.tag)),
        "way": format!(
            "{at_wall} end to the wall, {at_eye} end to the eye; bow up. Rests on {}, carries {}.",
            pole.neighbours.rests_on + 1,
            pole.neighbours.carries + 1
        ),
        "lift": format!("{} as lifted, {} in the hands at its tip, balance {} from its butt.", of("mass"), of("lift"), of("balance")),
        "plan": format!("/pole-{}.svg", pole.tag),
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use super::*;
    use engine::answers::{Inputs, answers};

    const TANSY_BANK: &str = include_str!("../../../builds/tansy-bank/tansy-bank.loam.toml");
    const BURDOCK_RISE: &str = include_str!("../../../builds/burdock-rise/burdock-rise.loam.toml");

    fn answered(build: &str) -> Answers {
        answers(&Inputs { build: build.as_bytes(), system: None }).unwrap()
    }

    #[test]
    fn a_roof_without_measured_poles_has_no_chapter_and_no_cards() {
        let answers = answered(BURDOCK_RISE);
        assert_eq!((chapter(&answers), cards(&answers)), (Value::Null, json!([])));
    }

    #[test]
    fn every_place_is_printed_as_its_rows_say() {
        let answers = answered(TANSY_BANK);
        let ring = answers.ring_plan.as_ref().unwrap();
        let chapter = chapter(&answers);
        let positions = chapter["positions"]["rows"].as_array().unwrap();
        assert_eq!(positions.len(), ring.places.len());
        for (line, pole) in positions.iter().zip(&ring.places) {
            let mass = answers.rows.find(&format!("{}.mass", pole.stem)).unwrap();
            let cut = answers.rows.find(&format!("{}.cut-length", pole.stem)).unwrap();
            assert_eq!(line[7], crate::spoken::marked(&answers, mass));
            assert_eq!(line[2], cut.quantity.shown(answers.system, Fineness::Mark));
        }
        assert_eq!(cards(&answers).as_array().unwrap().len(), ring.places.len());
    }

    #[test]
    fn poles_that_nobody_measured_have_no_card_and_the_chapter_says_that_nothing_is_cut_by_it() {
        let (poles, prices) = TANSY_BANK.split_once("# Prices are invented").unwrap();
        let fewer = poles.split_once("[poles.pile.high-ring]").unwrap().0;
        let measured: String =
            fewer.lines().filter(|line| !line.starts_with("laid = ")).flat_map(|line| [line, "\n"]).collect();
        let typical = "[poles.typical]\nbutt = [\"230 mm\"]\ntip = [\"200 mm\"]\nlength = \"5.5 m\"\n\n";
        let answers = answered(&format!("{measured}{typical}# Prices are invented{prices}"));
        let typical = answers.ring_plan.as_ref().unwrap().places.iter().filter(|pole| !pole.is_measured).count();
        assert_eq!((typical, cards(&answers).as_array().unwrap().len()), (2, 7));
        let deck = crate::book::deck::chapter(&answers);
        assert!(deck["lies"].as_str().unwrap().starts_with("The deck is drawn on poles of which nobody measured 2:"));
        let words = chapter(&answers)["words"].as_str().unwrap().to_owned();
        assert!(words.contains("2 of them nobody measured"), "{words}");
    }

    #[test]
    fn what_three_do_not_lift_goes_up_by_tripod_and_nobody_is_named_for_it() {
        let answers = answered(TANSY_BANK);
        let chapter = chapter(&answers);
        let most: f64 = answers.rows.find("roof.raising.lift-of-3").unwrap().quantity.si().unwrap();
        let ring = answers.ring_plan.as_ref().unwrap();
        for (line, &place) in chapter["stages"]["rows"].as_array().unwrap().iter().zip(&ring.order) {
            let stem = &ring.places[place].stem;
            let hands = answers.rows.find(&format!("{stem}.lift")).unwrap().quantity.si().unwrap();
            assert_eq!(line[5] == "tripod, ramp or rope", hands > most, "{stem}: {hands} kg");
        }
        let light = answered(&TANSY_BANK.replace("density = \"650 kg/m3\"", "density = \"450 kg/m3\""));
        let people: Vec<Option<u64>> = light.ring_plan.unwrap().places.iter().map(|pole| pole.people).collect();
        assert!(people.contains(&Some(2)) && people.contains(&Some(3)), "{people:?}");
    }
}
