//! The deck on straight rafters: its figures, its courses, what its boards are cut from.

use engine::answers::Answers;
use engine::house::boarding_plan::{BoardingPlan, CoursePlan};
use serde_json::{Value, json};

use super::deck::{layers, length, sticks, water};
use super::rows::figures;

/// The rows of the chapter, and what they are called here.
const FIGURES: [(&str, &str); 22] = [
    ("area", "Deck on the slope"),
    ("deck.courses", "Courses of boards"),
    ("deck.unsupported", "Courses on fewer than two rafters"),
    ("deck.boards", "Boards"),
    ("deck.in-line", "Joints beside one of the course below"),
    ("deck.boards-length", "Boards as cut"),
    ("deck.bought-length", "Boards to buy"),
    ("deck.fewest", "Lengths that no list goes below"),
    ("deck.waste", "Bought and not on the deck"),
    ("deck.past-rafters", "A board runs on past its last rafter, at most"),
    ("deck.pull", "Wind pulls on a board at a rafter"),
    ("deck.fasteners-at-rafter", "Fasteners of a board at a rafter"),
    ("deck.held-places", "Boards on rafters, joints twice"),
    ("deck.fasteners", "Fasteners in all"),
    ("deck.edge-length", "Edge boards all round"),
    ("deck.standing-water", "Deepest water behind the edge board"),
    ("deck.upstand.edge", "Upstand at the edge"),
    ("deck.spare-upstand", "Left of it, one downspout blocked"),
    ("deck.peg-count", "Depth pegs of each layer"),
    ("deck.hoisted", "Hoisted in buckets, soaked"),
    ("saturated-mass", "All layers, saturated"),
    ("dead-load", "They load each area of slope with"),
];

const COURSES: [&str; 3] = ["course", "boards, in their order", "meet over"];

/// The chapter; null where no boards are laid on straight rafters.
pub(super) fn chapter(answers: &Answers) -> Value {
    let Some(plan) = &answers.boarding else { return Value::Null };
    json!({
        "figures": figures(answers, "roof.", &FIGURES),
        "courses": {"header": COURSES, "rows": courses(answers, plan)},
        "sticks": sticks(answers, &plan.sticks, |&(course, piece)| {
            ([course, piece], plan.courses[course - 1].pieces[piece - 1])
        }),
        "water": water(answers, &plan.downspouts),
        "layers": layers(answers),
    })
}

/// Courses in their order; those that are laid alike stand in one line.
fn courses(answers: &Answers, plan: &BoardingPlan) -> Vec<[String; 3]> {
    let numbered = plan.courses.iter().filter(|course| !course.pieces.is_empty());
    let told: Vec<[String; 2]> = numbered.map(|course| [pieces(answers, course), joints(course)]).collect();
    let mut lines: Vec<(usize, usize, &[String; 2])> = Vec::new();
    for (number, course) in told.iter().enumerate() {
        match lines.last_mut() {
            Some((_, to, last)) if *last == course => *to = number + 1,
            _ => lines.push((number + 1, number + 1, course)),
        }
    }
    let line = |(from, to, [pieces, joints]): (usize, usize, &[String; 2])| {
        let number = if from == to { from.to_string() } else { format!("{from} to {to}") };
        [number, pieces.clone(), joints.clone()]
    };
    lines.into_iter().map(line).collect()
}

fn pieces(answers: &Answers, course: &CoursePlan) -> String {
    course.pieces.iter().map(|&piece| length(answers, piece)).collect::<Vec<_>>().join(", ")
}

fn joints(course: &CoursePlan) -> String {
    match course.joints.len() {
        0 => "–".to_owned(),
        _ => course.joints.iter().map(usize::to_string).collect::<Vec<_>>().join(", "),
    }
}
