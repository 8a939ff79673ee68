//! The line of a wall from its rows, to hold handles and first builds against it.

use engine::answers::Answers;
use engine::curve::{PlanLine, Vertex, Way as Run};
use engine::edit::written;
use kurbo::Point;

/// The middle of the wall, as its rows say it, and whether it ends, as the text does.
pub fn line(text: &str, answers: &Answers) -> PlanLine {
    let row = |path: String| answers.rows.find(&path).and_then(|row| row.quantity.si());
    let names = answers.rows.iter().filter_map(|row| row.path.strip_prefix("wall.line.")?.strip_suffix(".x"));
    let vertices: Vec<Vertex> = names
        .map(|name| {
            let own = |noun: &str| row(format!("wall.line.{name}.{noun}"));
            let pair = |x: &str, y: &str| Some(Point::new(own(x)?, own(y)?));
            let curve = pair("leave-x", "leave-y").zip(pair("arrive-x", "arrive-y"));
            let way = match (pair("through-x", "through-y"), curve) {
                (Some(through), _) => Run::Through(through),
                (None, Some((leave, arrive))) => Run::Curve { leave: leave.to_vec2(), arrive: arrive.to_vec2() },
                (None, None) => Run::Straight,
            };
            Vertex { at: pair("x", "y").unwrap(), round: own("round").unwrap_or(0.4), way }
        })
        .collect();
    let is_open = written(text, "wall.ends").is_some_and(|ends| ends == "open");
    if is_open { PlanLine::open(&vertices) } else { PlanLine::closed(&vertices) }.unwrap()
}
