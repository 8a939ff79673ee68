//! What can be taken hold of in a drawing, and what the build file says when it is moved.

mod drag;
mod in_plan;
mod in_section;
mod jamb;
mod on_line;
mod on_wall;
mod things;

pub use drag::{dragged, dragged_text, nudged};

use kurbo::{Point, Vec2};

use super::House;

/// The drawing that a handle is in, and whose coordinates it has, in metres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// The plan: x and y.
    Plan,
    /// The wall unrolled: distance along it from the first named point, and height above the foot of the cob.
    Unrolled,
    /// The cross-section: distance along the cut, and height above the foot of the cob.
    Section,
}

/// Which way a handle goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// A point of the wall line, anywhere.
    Point,
    /// What bends a run, anywhere.
    Curve,
    /// Along the wall, or square to it.
    Along,
    /// Up and down.
    Up,
    /// Along the wall and up.
    Free,
}

/// What can be taken hold of.
#[derive(Clone, Debug, PartialEq)]
pub struct Handle {
    /// Its name, once in a drawing; the key that it changes where it changes one.
    pub id: String,
    /// What it is, in words.
    pub title: String,
    /// The drawing.
    pub on: On,
    /// Where it is, in metres of the drawing.
    pub at: Point,
    /// Which way it goes.
    pub way: Way,
    /// The row to be shown while it moves.
    pub row: String,
    /// Path of what can be taken out by it; empty when nothing.
    pub removes: String,
}

/// A handle and what it holds.
struct Held {
    handle: Handle,
    hold: Hold,
    /// Direction in the drawing in which it goes; none where it goes anywhere.
    axis: Option<Vec2>,
}

/// What a handle writes when it is moved to a place.
enum Hold {
    /// Both parts of a pair at a key: the place less an origin, or the other way round.
    Pair { path: String, origin: Point, is_backwards: bool },
    /// Where a thing stands on its run, and levels with it.
    Spot(Spot),
    /// Levels, or what is left of one to another.
    Rise(Vec<Rise>),
    /// The foot of an opening whose head stays.
    Foot { bottom: String, height: String, head: f64 },
    /// A jamb of an opening whose other jamb stays.
    Jamb { opening: usize, is_right: bool },
    /// What lies half to either side of a place, square to a direction.
    Width { path: String, middle: Point, across: Vec2 },
}

/// A place on a run of the wall.
struct Spot {
    /// The key of the distance along the run.
    along: String,
    /// The key of the run.
    run: String,
    /// The run, by place in the list of points.
    on: usize,
    /// What keeps the run of its other end, when that is written nowhere: its key and the run.
    other: Option<(String, usize)>,
    /// What rises with it.
    rises: Vec<Rise>,
}

/// A key that holds a height of the drawing, times 1 or −1, and so much more, in metres.
struct Rise {
    path: String,
    sign: f64,
    more: f64,
}

impl Rise {
    fn level(path: &str) -> Rise {
        Rise { path: path.to_owned(), sign: 1.0, more: 0.0 }
    }
}

impl Held {
    /// A handle that is called after the key which it changes, goes along or up, and takes nothing out.
    fn new(id: &str, title: String, (on, at, way): (On, Point, Way), hold: Hold) -> Held {
        let axis = match way {
            Way::Point | Way::Curve | Way::Free => None,
            Way::Along => Some(Vec2::new(1.0, 0.0)),
            Way::Up => Some(Vec2::new(0.0, 1.0)),
        };
        let (row, removes) = (id.to_owned(), String::new());
        Held { handle: Handle { id: id.to_owned(), title, on, at, way, row, removes }, hold, axis }
    }

    fn row(mut self, path: &str) -> Held {
        path.clone_into(&mut self.handle.row);
        self
    }

    fn removes(mut self, path: &str) -> Held {
        path.clone_into(&mut self.handle.removes);
        self
    }

    fn axis(mut self, axis: Vec2) -> Held {
        self.axis = Some(axis);
        self
    }
}

/// Everything that can be taken hold of.
#[must_use]
pub fn handles(house: &House) -> Vec<Handle> {
    let drawings = [On::Plan, On::Unrolled, On::Section];
    drawings.into_iter().flat_map(|on| held(house, on)).map(|held| held.handle).collect()
}

fn held(house: &House, on: On) -> Vec<Held> {
    match on {
        On::Plan => in_plan::held(house),
        On::Unrolled => on_wall::held(house),
        On::Section => in_section::held(house),
    }
}
