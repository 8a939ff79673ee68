//! Skin: lots to blend, what has to begin before, a card for each coat of each face.

use engine::answers::Answers;
use engine::house::Coat;
use serde_json::{Value, json};

use super::rows::{cell, lines, said};
use crate::spoken::{capital, spoken};

/// What has to begin before a coat: the step of a recipe that it is, if any, its words, how long, and when it is ready: common practice,
/// no source.
const LEAD: [(&str, [&str; 3]); 8] = [
    ("", ["Make and dry the test panels", "4 to 6 weeks", "they neither crack nor dust, and the crew agrees on one"]),
    (
        "sieve",
        ["Sieve the soil, coarse for the body, fine for the finish", "2 to 3 weeks", "nothing on the sieve is soil"],
    ),
    ("soak", ["Soak the sieved clay under water", "3 to 7 days", "no lump is left between two fingers"]),
    (
        "chop",
        [
            "Chop straw, for the finish through a fine sieve",
            "1 week",
            "no stalk is longer than the coat is thick, thrice",
        ],
    ),
    (
        "ferment",
        [
            "Let clay and straw stand wet under a sheet",
            "1 to 3 weeks",
            "it smells of a stable and draws from the trowel",
        ],
    ),
    (
        SLAKE,
        [
            "Slake lime, where a recipe has it: lime into much water, never water on lime; goggles, gloves, a metal tub with a lid",
            "3 months, or buy putty",
            "it is cold, smooth and stiff under its water",
        ],
    ),
    (
        "",
        [
            "Blend all bins of a face into one lot, and again before use",
            "1 day, and the morning",
            "three handfuls dry alike",
        ],
    ),
    ("", ["Damp the wall", "the evening, and just before", "it is dark and cool, and no water stands on it"]),
];
/// How lime is slaked is told whatever the recipes say: it burns.
const SLAKE: &str = "slake";

/// The chapter.
pub(super) fn chapter(answers: &Answers) -> Value {
    let coats = &answers.surfaces.coats;
    json!({
        "lots": lots(answers),
        "lots-words": lots_words(answers),
        "lead": lead(answers),
        "cards": coats.iter().map(|coat| card(answers, coat)).collect::<Vec<_>>(),
    })
}

/// What has to begin before: as the recipes of the coats say, and as is common where one of them says nothing.
fn lead(answers: &Answers) -> Vec<[String; 3]> {
    let mut recipes: Vec<&str> = answers.surfaces.coats.iter().filter_map(|coat| coat.recipe.as_deref()).collect();
    recipes.sort_unstable();
    recipes.dedup();
    let stem = |recipe: &str| format!("earth.recipes.{recipe}.lead");
    let is_bare = recipes.iter().any(|recipe| answers.rows.find(&format!("{}-time", stem(recipe))).is_none());
    let rows = LEAD.into_iter().filter_map(|(step, [words, usual, ready])| {
        let own = recipes.iter().filter_map(|recipe| {
            Some(format!("{} for {}", said(answers, &format!("{}.{step}", stem(recipe)))?, spoken(recipe)))
        });
        let mut times: Vec<String> = own.collect();
        if is_bare || recipes.is_empty() || step.is_empty() || (step == SLAKE && times.is_empty()) {
            times.push(if times.is_empty() { usual.to_owned() } else { format!("else {usual}") });
        }
        (!times.is_empty()).then(|| [words.to_owned(), times.join(", "), ready.to_owned()])
    });
    rows.collect()
}

fn titled(coat: &Coat) -> String {
    format!("{} coat, {}", capital(&spoken(&coat.name)), coat.side)
}

fn lots(answers: &Answers) -> Value {
    let names = answers.surfaces.coats.iter().map(|coat| (titled(coat), format!("{}.", coat.stem)));
    let nouns = [("volume", "on the wall"), ("lot", "lot"), ("bins", "bins"), ("whole-batches", "batches")];
    lines(answers, "", names, &nouns)
}

fn lots_words(answers: &Answers) -> String {
    let said = |path: &str| said(answers, path).unwrap_or_default();
    format!(
        "A lot is what stays on the wall and {} of it that falls or stays on boards. A bin holds {}. Box the bins of a lot: \
         turn them all out on one sheet, or pour a part of each into the next and round again, three times.",
        said("skin.loss"),
        said("skin.bin")
    )
}

fn card(answers: &Answers, coat: &Coat) -> Value {
    let own = |noun: &str| said(answers, &format!("{}.{noun}", coat.stem));
    let lot = own("lot").zip(own("bins")).map(|(lot, bins)| (lot, bins, own("whole-batches").unwrap_or_default()));
    let mut figures: Vec<Vec<String>> = Vec::new();
    let recipe = spoken(coat.recipe.as_deref().unwrap_or("bought"));
    let mut figure = |words: &str, value: Option<String>, beside: String| {
        figures.extend(value.map(|value| vec![words.to_owned(), value, beside]));
    };
    figure("Thickness", own("thickness"), String::new());
    if let Some((lot, bins, batches)) = lot {
        let beside = format!("{bins} bins, {batches} batches of {recipe}, all blended before the first trowel");
        figure("One lot", Some(lot), beside);
    }
    let area = said(answers, &format!("skin.{}-area", coat.side));
    let bands = said(answers, &format!("skin.{}-bands", coat.side)).unwrap_or_default();
    let bands = match bands.as_str() {
        "1" => "in one band, from the ground".to_owned(),
        bands => format!("in {bands} bands, all but the lowest from a platform"),
    };
    figure("Whole face", area, bands);
    let people = said(answers, "skin.people").unwrap_or_default();
    let open = said(answers, "skin.open-time").unwrap_or_default();
    figure(
        "Closed with a wet edge",
        said(answers, "skin.wet-area"),
        format!("at most, by {people} people with trowels in {open}"),
    );
    json!({
        "title": titled(coat),
        "figures": figures,
        "stretches": stretches(answers, coat),
        "steps": steps(answers, coat),
        "accept": ACCEPT,
    })
}

fn stretches(answers: &Answers, coat: &Coat) -> Value {
    let rows = answers.surfaces.stretches.iter().map(|stretch| {
        let own = |noun: &str| cell(answers, &format!("skin.{}-stretches.{}.{noun}", coat.side, stretch.name));
        let cells = [own("area"), own("people"), own(&format!("lot.{}", coat.name))];
        std::iter::once(stretch.words.clone()).chain(cells).collect::<Vec<_>>()
    });
    json!({ "header": ["stretch", "area", "trowels needed", "of the lot"], "rows": rows.collect::<Vec<_>>() })
}

/// How a coat is judged: common practice, no source.
const ACCEPT: &str = "Accepted when: a knuckle drawn over it rings the same everywhere (a dull, hollow place is cut out to its edge, damped \
                      and filled); a straightedge laid any way rocks by no more than a coin; no joint shows in slanting light; nothing comes off \
                      on a dry hand.";

/// What to do, in order: common practice, no source.
fn steps(answers: &Answers, coat: &Coat) -> Vec<String> {
    let own = |noun: &str| said(answers, &format!("{}.{noun}", coat.stem)).unwrap_or_default();
    let reach = said(answers, "skin.reach").unwrap_or_default();
    let open = said(answers, "skin.open-time").unwrap_or_default();
    let is_first =
        answers.surfaces.coats.iter().find(|one| one.side == coat.side).is_some_and(|one| one.stem == coat.stem);
    let mut steps = vec![if is_first {
        "Brush off dust and loose straw, damp the cob the evening before and again now, and brush on slip no farther ahead than is \
         covered in ten minutes."
            .to_owned()
    } else {
        "The coat below is hard to the thumb and dry in its cracks. Damp it until it is dark, with no water standing on it.".to_owned()
    }];
    steps.push(format!(
        "Count trowels: as many as the stretch needs, side by side, each an arm from the next, and one person who does nothing but feed \
         hawks. Too few: choose a shorter stretch, shade the wall, or wait. {open} is for shade and still air; try it on the panel."
    ));
    steps.push(format!(
        "From the top down. Above {reach} from a platform: the upper band first, the lower one into its wet edge. Begin and end at stop \
         lines only; where one must stop in between, cut the edge square and damp it later."
    ));
    let gauge = if is_first {
        "prick it with a marked nail every arm's length"
    } else {
        "lean on the trowel, so that it bites"
    };
    steps.push(format!(
        "Press it on, {} thick, and spread upwards; {gauge}. Never feed the lot with water: a stiff bin is worked with the hoe.",
        own("thickness")
    ));
    steps.push(if coat.is_last {
        "Touch decides when to burnish: too early it drags and sinks, too late it scratches. When a finger leaves a print but stays \
         clean, press once more with a clean flexible trowel, always towards the wet edge, and round reveals with a damp thumb."
            .to_owned()
    } else {
        "Key it: when it stands a finger without sticking, scratch waves across it a few millimetres deep, or leave it from the wooden \
         float; never smooth."
            .to_owned()
    });
    steps.push(if coat.side == "outside" {
        "Shade it against sun and wind for three days, and hang sheets before rain or work above it.".to_owned()
    } else {
        "Doors and windows ajar, no fire; slow drying cracks least. Cover it before anyone carries timber through."
            .to_owned()
    });
    steps
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use engine::answers::{Inputs, answers};

    use super::*;

    const TANSY: &str = include_str!("../../../builds/tansy-bank/tansy-bank.loam.toml");

    fn times(build: &str) -> Vec<[String; 2]> {
        let answers = answers(&Inputs { build: build.as_bytes(), system: None }).unwrap();
        lead(&answers).into_iter().map(|[words, time, _]| [words, time]).collect()
    }

    #[test]
    fn what_recipes_say_takes_the_place_of_what_is_common_but_lime_is_told_always() {
        let own = times(TANSY);
        let time = |of: &[[String; 2]], begins: &str| {
            of.iter().find(|[words, _]| words.starts_with(begins)).map(|[_, time]| time.clone()).unwrap()
        };
        assert_eq!(time(&own, "Soak"), "3 days for body plaster, 4 days for fine plaster");
        assert_eq!(time(&own, "Let clay"), "14 days for body plaster");
        assert_eq!(time(&own, "Slake"), "3 months, or buy putty");
        assert_eq!(time(&own, "Damp"), "the evening, and just before");
        let bare = TANSY.replace("lead = { sieve = \"1 day\", soak = \"4 days\" }", "");
        assert_eq!(time(&times(&bare), "Soak"), "3 days for body plaster, else 3 to 7 days");
        assert_eq!(time(&times(&bare), "Sieve"), "2 to 3 weeks");
        let none = TANSY.replace(", chop = \"1 day\"", "");
        assert!(times(&none).iter().all(|[words, _]| !words.starts_with("Chop")));
    }
}
