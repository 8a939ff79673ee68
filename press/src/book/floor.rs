//! Floor: layers, bays in their order, a card for each layer and one for the oil.

use engine::answers::Answers;
use engine::house::FloorLayer;
use serde_json::{Value, json};

use super::job::capital;

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
        "oil": oil(answers),
        "oil-steps": OIL,
    })
}

fn said(answers: &Answers, path: &str) -> Option<String> {
    answers.rows.find(path).map(|row| row.shown(answers.system))
}

fn cell(answers: &Answers, path: &str) -> String {
    said(answers, path).unwrap_or_else(|| "–".to_owned())
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
    let rows = answers.surfaces.layers.iter().map(|layer| {
        let own = |noun: &str| cell(answers, &format!("{}.{noun}", layer.stem));
        [capital(&layer.name.replace('-', " ")), own("thickness"), own("volume"), own("loose-volume")]
    });
    json!({ "header": ["from the ground up", "thickness", "in place", "loose"], "rows": rows.collect::<Vec<_>>() })
}

fn bays(answers: &Answers) -> Value {
    let marks = answers.surfaces.bays.iter().flat_map(|plan| &plan.bays);
    let rows = marks.enumerate().map(|(place, bay)| {
        let own = |noun: &str| cell(answers, &format!("{}.{noun}", bay.stem));
        [format!("bay {}", place + 1), own("area"), own("volume"), own("batches")]
    });
    json!({ "header": ["in this order", "area", "to lay", "batches"], "rows": rows.collect::<Vec<_>>() })
}

fn bays_words(answers: &Answers) -> String {
    let Some(plan) = &answers.surfaces.bays else { return String::new() };
    format!(
        "Each bay is {} wide. Areas are of the whole room inside the stem wall: a bench or an oven that stands on the floor takes its own \
         off. The last bay is finished from outside through the {}.",
        cell(answers, "floor.bays.even-width"),
        plan.door.replace('-', " ")
    )
}

fn card(answers: &Answers, layer: &FloorLayer, place: usize) -> Value {
    let own = |noun: &str| said(answers, &format!("{}.{noun}", layer.stem));
    let count = answers.surfaces.layers.len();
    let (is_last, title) = (place + 1 == count, capital(&layer.name.replace('-', " ")));
    let mut figures: Vec<Vec<String>> = Vec::new();
    let mut figure = |words: &str, value: Option<String>, beside: &str| {
        figures.extend(value.map(|value| vec![words.to_owned(), value, beside.to_owned()]));
    };
    figure("Thickness in place", own("thickness"), "");
    figure("Over", said(answers, "floor.area"), "inside the stem wall");
    figure("In place", own("volume"), "");
    figure("Loose, as it comes", own("loose-volume"), "");
    let number = format!("{} of {count}, from the ground up", place + 1);
    let (steps, right) = if is_last {
        (finish(answers), FINISH_RIGHT)
    } else if layer.recipe.is_some() {
        (BASE.map(str::to_owned).to_vec(), BASE_RIGHT)
    } else {
        (LOOSE.map(str::to_owned).to_vec(), LOOSE_RIGHT)
    };
    json!({ "title": format!("{title}: layer {number}"), "figures": figures, "steps": steps, "right": right })
}

/// A layer that is poured and beaten, or laid: common practice, no source.
const LOOSE: [&str; 4] = [
    "Strike the level of the finished floor round the stem wall, check that it closes on itself, and measure down from it to the top of \
     this layer: a line of chalk all round, and pegs in the middle.",
    "Take off topsoil and roots, beat the ground. Lay drains, sleeves and cables now: nobody opens the floor again.",
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
const OIL: [&str; 6] = [
    "Wait until the floor is dry. After two weeks floors have been seen still damp: it is pale all over, and a pane of glass laid on it \
     overnight shows no dew. Oil on a damp floor peels.",
    "Sweep with a damp cloth. Warm the oil in a water bath outdoors, never over a flame; mix each coat as the table says.",
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
            name.replace('-', " "),
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
