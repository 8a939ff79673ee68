//! What is written when a handle is moved, rounded as a builder would say it.

use kurbo::{Point, Vec2};

use super::on_line::{first, on_a_run};
use super::{Held, Hold, On, Rise, Spot, held, jamb};
use crate::edit::{self, Edit, Step, Tree, like, quoted};
use crate::house::House;
use crate::problem::Problem;
use crate::units::{Length, System};

/// What a handle writes when it is dragged to a place of its drawing, in metres.
///
/// # Errors
/// When the drawing has no such handle, when the place is none, or when the text is not TOML.
pub fn dragged(house: &House, text: &str, (id, on): (&str, On), to: Point) -> Result<Vec<Edit>, Problem> {
    Pen::new(house, text)?.dragged((id, on), to)
}

/// The text after a handle was dragged to a place of its drawing, in metres.
///
/// # Errors
/// As [`dragged`].
pub fn dragged_text(house: &House, text: &str, (id, on): (&str, On), to: Point) -> Result<String, Problem> {
    let pen = Pen::new(house, text)?;
    edit::drawn(&pen.tree, &pen.dragged((id, on), to)?)
}

/// What a handle writes when it is moved by steps to the right and up.
///
/// # Errors
/// When the drawing has no such handle, or when the text is not TOML.
pub fn nudged(house: &House, text: &str, (id, on): (&str, On), steps: [i32; 2]) -> Result<Vec<Edit>, Problem> {
    let held = found(house, (id, on))?;
    let pen = Pen::new(house, text)?;
    let step = pen.step(&held.hold);
    let [right, up] = steps.map(f64::from);
    let moved = match held.axis {
        None => Vec2::new(right, up) * step,
        Some(axis) => {
            // Keys that point across the way of a handle do not move it.
            let along = Vec2::new(right, up).dot(axis);
            let is_across = along.abs() < 0.3 * right.hypot(up);
            let count = if is_across { 0.0 } else { along.signum() * right.abs().max(up.abs()) };
            if let Hold::Spot(spot) = &held.hold
                && let Some(edits) = pen.along_by(spot, count)
            {
                return Ok(edits);
            }
            let half = if matches!(held.hold, Hold::Width { .. }) { 0.5 } else { 1.0 };
            axis * (count * step * half)
        }
    };
    Ok(if moved == Vec2::ZERO { Vec::new() } else { pen.write(&held, held.handle.at + moved) })
}

fn found(house: &House, (id, on): (&str, On)) -> Result<Held, Problem> {
    let found = held(house, on).into_iter().find(|held| held.handle.id == id);
    found.ok_or_else(|| refused(id, "the drawing has nothing of this name to take hold of", "look at the drawing anew"))
}

fn refused(path: &str, message: &str, hint: &str) -> Problem {
    Problem { line: 1, column: 1, span: 0..0, path: path.into(), message: message.into(), hint: hint.into() }
}

/// Writes lengths into a text as they are written there.
struct Pen<'a> {
    house: &'a House,
    tree: Tree<'a>,
}

impl<'a> Pen<'a> {
    fn new(house: &'a House, text: &'a str) -> Result<Pen<'a>, Problem> {
        Ok(Pen { house, tree: Tree::of(text)? })
    }

    fn dragged(&self, (id, on): (&str, On), to: Point) -> Result<Vec<Edit>, Problem> {
        let held = found(self.house, (id, on))?;
        if !to.is_finite() {
            return Err(refused(id, "this is no place in the drawing", "let go inside the drawing"));
        }
        Ok(self.write(&held, to))
    }

    /// What stands at a key, or an example in the units of the file.
    fn style(&self, path: &str) -> String {
        self.tree.written(path).unwrap_or_else(|| match self.house.system {
            System::Metric => "1 mm".to_owned(),
            System::Us => "1 in".to_owned(),
        })
    }

    fn text(&self, path: &str, metres: f64, step: Step) -> String {
        like(Length::m(metres), &self.style(path), step)
    }

    /// A length at a key; nothing where it says so already.
    fn length(&self, path: &str, metres: f64, step: Step) -> Option<Edit> {
        let to = self.text(path, metres, step);
        (self.tree.written(path).as_deref() != Some(&to)).then(|| Edit::Set { path: path.to_owned(), to: quoted(&to) })
    }

    fn word(&self, path: &str, to: &str) -> Option<Edit> {
        (self.tree.written(path).as_deref() != Some(to)).then(|| Edit::Set { path: path.to_owned(), to: quoted(to) })
    }

    fn write(&self, held: &Held, to: Point) -> Vec<Edit> {
        match &held.hold {
            Hold::Pair { path, origin, is_backwards } => {
                self.pair(path, if *is_backwards { *origin - to } else { to - *origin })
            }
            Hold::Spot(spot) => {
                let along = match held.handle.on {
                    On::Plan | On::Section => {
                        let line = &self.house.wall.line;
                        line.along_line(line.nearest(to))
                    }
                    On::Unrolled => first(&self.house.wall.line) + to.x,
                };
                let mut edits = self.spot(spot, along, Step::Drag);
                edits.extend(spot.rises.iter().filter_map(|rise| self.rise(rise, to.y)));
                edits
            }
            Hold::Rise(rises) => rises.iter().filter_map(|rise| self.rise(rise, to.y)).collect(),
            Hold::Foot { bottom, height, head } => {
                let foot = self.read(bottom, to.y, Step::Drag);
                let edits = [self.length(bottom, to.y, Step::Drag), self.length(height, head - foot, Step::Fine)];
                edits.into_iter().flatten().collect()
            }
            Hold::Jamb { opening, is_right } => self.jamb(*opening, *is_right, to.x),
            Hold::Width { path, middle, across } => {
                let width = 2.0 * (to - *middle).dot(*across).max(0.0);
                self.length(path, width, Step::Drag).into_iter().collect()
            }
        }
    }

    /// What a length is once it is written, in metres.
    fn read(&self, path: &str, metres: f64, step: Step) -> f64 {
        Length::parse(&self.text(path, metres, step)).map_or(metres, Length::in_m)
    }

    fn pair(&self, path: &str, to: Vec2) -> Vec<Edit> {
        let [x, y] = [("x", to.x), ("y", to.y)].map(|(axis, metres)| {
            let path = format!("{path}.{axis}");
            self.text(&path, metres, Step::Drag)
        });
        if self.tree.written(path).is_some_and(|written| written == format!("{x}, {y}")) {
            return Vec::new();
        }
        vec![Edit::Set { path: path.to_owned(), to: format!("[{}, {}]", quoted(&x), quoted(&y)) }]
    }

    fn rise(&self, rise: &Rise, level: f64) -> Option<Edit> {
        self.length(&rise.path, rise.sign * level + rise.more, Step::Drag)
    }

    fn spot(&self, spot: &Spot, along: f64, step: Step) -> Vec<Edit> {
        let line = &self.house.wall.line;
        let along = if line.is_closed() { along } else { along.clamp(0.0, line.length()) };
        let (run, along) = on_a_run(line, along);
        self.on_the_run(spot, run, along, step)
    }

    fn on_the_run(&self, spot: &Spot, run: usize, along: f64, step: Step) -> Vec<Edit> {
        let whole = self.house.wall.line.runs()[run].whole.length();
        let name = |run: usize| self.house.wall.points[run].name.as_str();
        // What is rounded up past the end of a run would be off the wall.
        let is_off = self.read(&spot.along, along, step) > whole;
        let along = if is_off { along - step.length(&self.style(&spot.along)).in_m() } else { along };
        let mut edits = Vec::new();
        if run != spot.on {
            let other = spot.other.as_ref().filter(|(path, _)| self.tree.written(path).is_none());
            edits.extend(other.and_then(|(path, run)| self.word(path, name(*run))));
            edits.extend(self.word(&spot.run, name(run)));
        }
        edits.extend(self.length(&spot.along, along.max(0.0), step));
        edits
    }

    /// Steps along the run on which a thing stands; none where they lead past its ends.
    fn along_by(&self, spot: &Spot, count: f64) -> Option<Vec<Edit>> {
        let now = Length::parse(&self.tree.written(&spot.along)?).ok()?.in_m();
        let along = now + count * Step::Drag.length(&self.style(&spot.along)).in_m();
        let whole = self.house.wall.line.runs()[spot.on].whole.length();
        if !(0.0..=whole).contains(&along) {
            return None;
        }
        Some(if count == 0.0 { Vec::new() } else { self.on_the_run(spot, spot.on, along, Step::Drag) })
    }

    /// Width and middle of an opening one jamb of which is moved, while the other stays.
    fn jamb(&self, opening: usize, is_right: bool, to: f64) -> Vec<Edit> {
        let (wall, opening) = (&self.house.wall, &self.house.openings[opening]);
        let Some(jambs) = opening.on_line(wall) else { return Vec::new() };
        let (line, whole) = (&wall.line, wall.line.length());
        let moving = usize::from(is_right);
        let moved = to - line.from_first_point(jambs[moving]);
        // Across the seam of the drawing the way is the short one.
        let moved = if line.is_closed() { (moved + 0.5 * whole).rem_euclid(whole) - 0.5 * whole } else { moved };
        let (stays, side) = (jambs[1 - moving], if is_right { 1.0 } else { -1.0 });
        let path = &opening.width.path;
        let least = Step::Drag.length(&self.style(path)).in_m();
        let span = jambs[1] - jambs[0] + side * moved;
        let width = if span > least { jamb::width(line, stays, side * span, least) } else { least };
        let width = self.read(path, width, Step::Drag);
        let spot = Spot {
            along: opening.along.path.clone(),
            run: opening.path("run"),
            on: opening.run,
            other: None,
            rises: Vec::new(),
        };
        let mut edits: Vec<Edit> = self.length(path, width, Step::Drag).into_iter().collect();
        if !edits.is_empty() {
            let middle = jamb::middle(line, stays, side * width).unwrap_or(stays + 0.5 * side * width);
            edits.extend(self.spot(&spot, middle, Step::Half));
        }
        edits
    }

    /// One step of the arrow keys for a handle, in metres.
    fn step(&self, hold: &Hold) -> f64 {
        let path = match hold {
            Hold::Pair { path, .. } => format!("{path}.x"),
            Hold::Spot(spot) => spot.along.clone(),
            Hold::Rise(rises) => rises.first().map_or_else(String::new, |rise| rise.path.clone()),
            Hold::Foot { bottom, .. } => bottom.clone(),
            Hold::Jamb { opening, .. } => self.house.openings[*opening].width.path.clone(),
            Hold::Width { path, .. } => path.clone(),
        };
        Step::Drag.length(&self.style(&path)).in_m()
    }
}
