//! Floor: layers, bays in their order, a card for each layer and one for the oil.

use engine::answers::Answers;
use engine::house::FloorLayer;
use serde_json::{Value, json};

use super::rows::{cell, lines, said};
use crate::spoken::{capital, spoken};

/// The chapter.
pub(super) fn chapter(answers: &Answers) -> Value {
    let layers = &answers.surfaces.layers;
    let cards = layers.iter().enumerate().map(|(place, layer)| card(answers, layer, place));
    json!({
        "words": words(answers),
        "layers": table(answers),
        "cards": cards.collect::<Vec<_>>(),
        "bays": bays(answers),
        "bays-words": bays_words(answers),
        "cracks": cracks(answers),
        "cracks-open": open(answers),
        "oil": oil(answers),
        "oil-steps": OIL,
    })
}

fn words(answers: &Answers) -> String {
    match said(answers, "floor.depth").zip(said(answers, "room.foot-above-floor")) {
        Some((depth, foot)) => {
            format!("All layers together are {depth} deep; the finished floor lies {foot} below the foot of the cob.")
        }
        None => String::new(),
    }
}

fn table(answers: &Answers) -> Value {
    let layers = answers.surfaces.layers.iter();
    let names = layers.map(|layer| (capital(&spoken(&layer.name)), format!("{}.", layer.stem)));
    let nouns = [("thickness", "thickness"), ("volume", "in place"), ("loose-volume", "loose")];
    lines(answers, "from the ground up", names, &nouns)
}

fn bays(answers: &Answers) -> Value {
    let marks = answers.surfaces.bays.iter().flat_map(|plan| &plan.bays).enumerate();
    let names = marks.map(|(place, bay)| (format!("bay {}", place + 1), format!("{}.", bay.stem)));
    lines(answers, "in this order", names, &[("area", "area"), ("volume", "to lay"), ("batches", "batches")])
}

fn bays_words(answers: &Answers) -> String {
    let Some(plan) = &answers.surfaces.bays else { return String::new() };
    format!(
        "Each bay is {} wide. Areas are of the whole room inside the stem wall: a bench or an oven that stands on the floor takes its own \
         off. The last bay is finished from outside through the {}.",
        cell(answers, "floor.bays.even-width"),
        spoken(&plan.door)
    )
}

/// One line a layer of a mix of which a bar was dried.
fn cracks(answers: &Answers) -> Value {
    let layers = &answers.surfaces.layers;
    let stem = |place: usize| match place + 1 == layers.len() {
        true => "floor.bays.".to_owned(),
        false => format!("{}.", layers[place].stem),
    };
    let names = layers.iter().enumerate().map(|(place, layer)| (spoken(&layer.name), stem(place)));
    let known = names.filter(|(_, stem)| answers.rows.find(&format!("{stem}crack-spread")).is_some());
    let nouns = [
        ("crack-in-one", "all in one crack"),
        ("cracks", "most cracks"),
        ("crack-spread", "each, spread as finely as can be"),
    ];
    lines(answers, "along the longest bay", known, &nouns)
}

/// What is not known of cracks, in sentences.
fn open(answers: &Answers) -> Vec<String> {
    let unknown = ["floor.bays.crack-spread", "floor.layers.*.crack-spread"].map(|path| answers.rows.unknown(path));
    unknown.into_iter().flatten().map(|(_, title)| format!("Not known: {title}.")).collect()
}

fn card(answers: &Answers, layer: &FloorLayer, place: usize) -> Value {
    let own = |noun: &str| said(answers, &format!("{}.{noun}", layer.stem));
    let count = answers.surfaces.layers.len();
    let (is_last, title) = (place + 1 == count, capital(&spoken(&layer.name)));
    let mut figures: Vec<Vec<String>> = Vec::new();
    let mut figure = |words: &str, value: Option<String>, beside: &str| {
        figures.extend(value.map(|value| vec![words.to_owned(), value, beside.to_owned()]));
    };
    figure("Thickness in place", own("thickness"), "");
    figure("Over", said(answers, "floor.area"), "inside the stem wall");
    figure("In place", own("volume"), "");
    figure("Loose, as it comes", own("loose-volume"), "");
    let number = format!("{} of {count}, from the ground up", place + 1);
    let (laid, right) = match layer.recipe {
        Some(_) if is_last => (finish(answers), FINISH_RIGHT),
        Some(_) => (BASE.map(str::to_owned).to_vec(), BASE_RIGHT),
        None => (LOOSE.map(str::to_owned).to_vec(), LOOSE_RIGHT),
    };
    let ground = (place == 0).then(|| GROUND.to_owned());
    let steps: Vec<String> = ground.into_iter().chain(laid).collect();
    json!({ "title": format!("{title}: layer {number}"), "figures": figures, "steps": steps, "right": right })
}

/// Before the first layer: common practice, no source.
const GROUND: &str =
    "Take off topsoil and roots, beat the ground. Lay drains, sleeves and cables now: nobody opens the floor again.";

/// A layer that is poured and beaten, or laid: common practice, no source.
const LOOSE: [&str; 3] = [
    "Strike the level of the finished floor round the stem wall, check that it closes on itself, and measure down from it to the top of \
     this layer: a line of chalk all round, and pegs in the middle.",
    "Spread from the far side to the door in layers no thicker than a hand is long, and beat each with a rammer or a plate, three passes, \
     the second across the first. What is cut or laid, not poured, is bedded without rocking and laid close.",
    "Draw a straightedge over lines and pegs; fill hollows before they are covered.",
];
const LOOSE_RIGHT: &str = "Right is: a heel turned hard on it leaves no print, a straightedge rocks by no more than a finger is thick, and the \
                           chalk line shows all round. Walk on it freely; no fire on it.";

/// A layer that is mixed and beaten below the top one: common practice, no source.
const BASE: [&str; 4] = [
    "Check the chalk line again and set two straight laths on it, a straightedge apart, from the far side to the door.",
    "Damp what lies below. Mix earth-damp: a ball from chest height breaks into a few pieces. Spread a little too high.",
    "Beat it down to the laths, three passes, the second across the first; draw the straightedge, take the laths out and fill their beds.",
    "Scratch the top while it is damp, so that the next layer holds. Boards for every path and wheel until it is dry.",
];
const BASE_RIGHT: &str = "Right is: a thumb makes no dent next day, a knock sounds full, and a straightedge rocks by no more than a finger is thick. \
                          Keep it open to the air for weeks: the top layer goes on when it has turned pale right through, and cracks have been filled. \
                          No heap, prop or oven on it while it is dark.";

fn finish(answers: &Answers) -> Vec<String> {
    let mut steps = vec![
        "All other work indoors is done, plaster too. Brush, damp the base until it is dark, and strike the level of the finished floor at \
         the threshold and round the wall once more."
            .to_owned(),
    ];
    if let Some(plan) = &answers.surfaces.bays {
        let from = if plan.from_both_ends {
            "from both ends to the bay before the door"
        } else {
            "from the far side to the door"
        };
        steps.push(format!(
            "Bays of {}, in the order of the plan, {from}. Two laths or pipes to draw on; kneel on boards, on the bay that comes next.",
            cell(answers, "floor.bays.even-width")
        ));
    }
    steps.extend([
        "Mix the batches of two bays ahead and box them, so that colours run into each other. Work the edge of the last bay while it is \
         wet: where a day ends, end at a full bay, cut its edge square."
            .to_owned(),
        "Screed, float with wood, and when a finger leaves a print but stays clean, burnish from boards with a steel trowel, once.".to_owned(),
        "The last person goes out by the way out and closes the bay at the door from outside. Bar the door, write the day on it: nobody \
         in, no boards down, no animals, until a heel leaves no mark; air moving, no sun on it."
            .to_owned(),
    ]);
    steps
}

const FINISH_RIGHT: &str = "Right is: it is even in colour, no joint catches a fingernail, a straightedge rocks by no more than a coin, and water spilt \
                            runs nowhere by itself but the door. Fill fine cracks with the same mix, sieved, before the oil.";

/// How a floor is oiled: common practice, no source.
const OIL: [&str; 7] = [
    "Wait until the floor is dry. After two weeks floors have been seen still damp: it is pale all over, and a pane of glass laid on it \
     overnight shows no dew. Oil on a damp floor peels.",
    "Sweep with a damp cloth. Warm the oil alone, in a water bath outdoors, never over a flame.",
    "Thinner is never warmed. Where the table has it, let the oil cool until a bare hand can hold the pot, carry it away from stove and \
     flame, and stir the thinner in there.",
    "Flood it on with a brush from the far side to the door, keep it wet for half an hour where it drinks, and wipe up all that stands \
     before it turns sticky.",
    "The next coat goes on when the last no longer marks a palm: a day, or several. Each holds less thinner than the one before.",
    "Stop when it drinks no more, whatever the table says; more than that stays sticky. Try all coats on a test panel first.",
    "Socks for a week, shoes after two, furniture on felt after four; spilt water is wiped up.",
];

fn oil(answers: &Answers) -> Value {
    let rows = answers.surfaces.oil.iter().map(|(stem, name)| {
        let own = |noun: &str| cell(answers, &format!("{stem}.{noun}"));
        [
            spoken(name),
            format!("{} by {}", own("covers"), own("takes")),
            own("thinner"),
            own("volume"),
            own("oil-volume"),
            own("thinner-volume"),
        ]
    });
    let header = ["coat", "covers", "thinner", "takes in all", "oil", "thinner"];
    json!({ "header": header, "rows": rows.collect::<Vec<_>>() })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use super::*;
    use engine::answers::{Inputs, answers};

    const QUINCE_HUT: &str = include_str!("../../../builds/quince-hut/quince-hut.loam.toml");
    const TANSY_BANK: &str = include_str!("../../../builds/tansy-bank/tansy-bank.loam.toml");

    fn chapter_of(build: &str) -> Value {
        chapter(&answers(&Inputs { build: build.as_bytes(), system: None }).unwrap())
    }

    fn ground_is_broken(card: &Value) -> bool {
        card["steps"].as_array().unwrap().iter().any(|step| step == GROUND)
    }

    #[test]
    fn gravel_is_never_burnished_though_it_is_the_last_layer() {
        let topped = TANSY_BANK
            .replace("of = \"fine-plaster\"\nthickness = \"20 mm\"", "of = \"gravel\"\nthickness = \"20 mm\"");
        assert_ne!(topped, TANSY_BANK);
        for build in [QUINCE_HUT, &topped] {
            let floor = chapter_of(build);
            let last = floor["cards"].as_array().unwrap().last().unwrap();
            assert_eq!(last["right"], LOOSE_RIGHT);
            assert_eq!((floor["bays"]["rows"].as_array().unwrap().len(), &floor["bays-words"]), (0, &json!("")));
        }
        let mixed = chapter_of(TANSY_BANK);
        assert_eq!(mixed["cards"].as_array().unwrap().last().unwrap()["right"], FINISH_RIGHT);
        assert!(!mixed["bays"]["rows"].as_array().unwrap().is_empty() && mixed["bays-words"] != "");
    }

    #[test]
    fn topsoil_is_taken_off_below_the_first_layer_alone() {
        for build in [QUINCE_HUT, TANSY_BANK] {
            let cards = chapter_of(build)["cards"].as_array().unwrap().clone();
            let broken: Vec<usize> = (0..cards.len()).filter(|place| ground_is_broken(&cards[*place])).collect();
            assert_eq!(broken, [0]);
        }
    }
}
