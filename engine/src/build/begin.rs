//! The text of a first build: a wall line of a shape and size, with all that a small house needs to be reckoned.

use kurbo::{Point, Vec2};

use crate::curve::{PlanLine, Vertex, Way};
use crate::edit::{Step, like, quoted};
use crate::problem::Problem;
use crate::units::{Length, Slope};
use crate::wall;

/// The words of a first build, with a mark in the place of each size.
const TEXT: &str = include_str!("begin.loam.toml");
/// Room inside that a first build may have, in metres: our judgement.
const LEAST: f64 = 1.8;
const MOST: f64 = 9.0;
/// How wide the room may be that poles of a first build lie across, in metres: our judgement.
const ACROSS: f64 = 4.5;
/// How often the shape is drawn anew until it is as long and as wide as asked.
const ROUNDS: u32 = 8;
/// How far off the shape may be from what was asked, before its points go to the marks of a tape, in metres.
const NEAR: f64 = 0.0005;

/// What stands for each mark: its name, in metric units, in US units.
const SIZES: [(&str, &str, &str); 32] = [
    ("units", "metric", "us"),
    ("ground", "-450 mm", "-18 in"),
    ("floor", "-150 mm", "-6 in"),
    ("depth", "750 mm", "30 in"),
    ("drain", "8 m", "26 ft"),
    ("thickness", "450 mm", "18 in"),
    ("height", "2.1 m", "7 ft"),
    ("batter", "1:25", "1:25"),
    ("stem", "600 mm", "24 in"),
    ("door-width", "900 mm", "36 in"),
    ("door-height", "1.95 m", "6 ft 6 in"),
    ("window-width", "600 mm", "24 in"),
    ("window-height", "700 mm", "28 in"),
    ("sill", "800 mm", "32 in"),
    ("lintel", "150 mm", "6 in"),
    ("brim", "15 L", "4 US gal"),
    ("soil", "1200 kg/m3", "75 pcf"),
    ("sand", "1600 kg/m3", "100 pcf"),
    ("gravel", "150 mm", "6 in"),
    ("base", "80 mm", "3 in"),
    ("inside", "12 mm", "1/2 in"),
    ("outside", "15 mm", "5/8 in"),
    ("overhang", "450 mm", "18 in"),
    ("spacing", "600 mm", "24 in"),
    ("boards", "25 mm", "1 in"),
    ("board-weight", "600 kg/m3", "38 pcf"),
    ("membrane", "1.5 kg/m2", "0.3 lb/sq ft"),
    ("cover", "100 mm", "4 in"),
    ("cover-weight", "1800 kg/m3", "112 pcf"),
    ("poles", "160 mm", "6 1/2 in"),
    ("lift", "420 mm", "17 in"),
    ("along", "1 m", "1 ft 1 in"),
];

const WIDER: &str = "write a width of 4.5 m (14 ft 9 in) at most: it is our judgement, nothing here checks a pole; an engineer \
                     sizes those of a wider room";

/// A point of the line with its name.
type Named = (&'static str, Vertex);

/// A shape to begin with: its points and the runs of door and window.
struct Shape {
    points: Vec<Named>,
    /// The run of the door, and the share of it at which the door stands.
    door: (usize, f64),
    window: usize,
}

/// The text of a first build: a `ring`, a `bean`, a `rounded` rectangle or a `free` line, so long and so wide inside; without a
/// width as wide as long. `system` is `metric` or `us`; a bare number is metres or feet.
///
/// # Errors
/// A sentence for each size that is none, else one when the shape or the system is not known, when a size does not read or is no small house's, when the poles would
/// lie too far across, and when faces or eave would fold in so narrow a shape.
pub fn begin(shape: &str, length: &str, width: &str, name: &str, system: &str) -> Result<String, Vec<Problem>> {
    let is_us = match system {
        "metric" => false,
        "us" => true,
        _ => {
            let message = format!("\"{system}\" is no system of units");
            return Err(vec![refused("system", message, "write \"metric\" or \"us\"")]);
        }
    };
    let (long, wide) = match (inner("length", length, is_us), inner("width", width, is_us)) {
        (Ok(long), _) if width.trim().is_empty() => (long, long),
        (Ok(long), Ok(wide)) => (long, wide),
        (Err(long), _) if width.trim().is_empty() => return Err(vec![long]),
        (long, wide) => return Err(long.err().into_iter().chain(wide.err()).collect()),
    };
    if wide > ACROSS {
        let typed = if width.trim().is_empty() { length } else { width };
        let message = format!("the poles of a first build do not lie across {}", typed.trim());
        return Err(vec![refused("width", message, WIDER)]);
    }
    let size = |mark: &str| {
        let found = SIZES.iter().find(|(name, ..)| *name == mark);
        found.map_or("", |(_, metric, us)| if is_us { us } else { metric })
    };
    let length_of = |mark: &str| Length::parse(size(mark)).unwrap_or(Length::ZERO);
    let thickness = length_of("thickness");
    let batter = Slope::parse(size("batter")).unwrap_or(Slope::ZERO);
    let eave = wall::eave_offset(thickness, batter, length_of("height"), length_of("overhang")).value;
    let tape = Step::Drag.length(size("along"));
    let (shape, line) =
        fitted(shape, [long, wide], [thickness, eave, tape].map(Length::in_m)).map_err(|fault| vec![fault])?;
    let written = |metres: f64| quoted(&like(Length::m(metres), size("along"), Step::Drag));
    let along = |(run, share): (usize, f64)| written(share * line.runs()[run].whole.length());
    let mut text = TEXT.to_owned();
    let name = if name.trim().is_empty() { "My house" } else { name.trim() };
    let mut put = |mark: &str, value: &str| text = text.replace(&format!("@{mark}@"), value);
    put("line", &points(&shape.points, &written));
    put("lifts", &lifts(size("lift")));
    for (word, run) in [("door", shape.door), ("window", (shape.window, 0.5))] {
        put(&format!("{word}-run"), shape.points[run.0].0);
        put(&format!("{word}-along"), &along(run));
    }
    for (mark, ..) in SIZES {
        put(mark, &quoted(size(mark)));
    }
    // What the builder typed comes last, so that no mark is looked for in it.
    put("name", &quoted(name));
    Ok(text)
}

fn refused(path: &str, message: String, hint: &str) -> Problem {
    Problem { line: 1, column: 1, span: 0..0, path: path.into(), message, hint: hint.into() }
}

fn inner(path: &str, typed: &str, is_us: bool) -> Result<f64, Problem> {
    let is_bare = typed.trim().parse::<f64>().is_ok_and(f64::is_finite);
    let unit = if is_us { "ft" } else { "m" };
    let whole = if is_bare { format!("{} {unit}", typed.trim()) } else { typed.to_owned() };
    let length = Length::parse(&whole).map_err(|misread| refused(path, misread.message, &misread.hint))?.in_m();
    if (LEAST..=MOST).contains(&length) {
        return Ok(length);
    }
    let message = format!("a room of {} is not one to begin with", typed.trim());
    Err(refused(path, message, "write a size inside from 1.8 m to 9 m (6 ft to 29 ft)"))
}

/// The shape drawn so that its line is as long and as wide as the room and the wall together, its points where a tape has
/// marks. Neither the faces of a wall so thick nor an eave so far from its middle fold or cross.
fn fitted(word: &str, inner: [f64; 2], [thickness, eave, tape]: [f64; 3]) -> Result<(Shape, PlanLine), Problem> {
    let is_round = (inner[0] - inner[1]).abs() < 0.005;
    let wanted = inner.map(|inner| inner + thickness);
    let mut scale = [0.5 * wanted[0], 0.5 * wanted[1]];
    let no_room = || refused("length", "this shape has no room in so small a house".into(), "make it longer or wider");
    for _ in 0..ROUNDS {
        let shape = match word {
            "ring" if is_round => ring(scale[0]),
            "ring" => smooth([(0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)], scale),
            "free" => smooth([(0.08, -1.0), (1.0, 0.12), (-0.14, 1.0), (-1.0, -0.06)], scale),
            "rounded" => rounded(scale, thickness),
            "bean" => bean(scale),
            _ => {
                let message = format!("\"{word}\" is no shape to begin with");
                return Err(refused("shape", message, "write \"ring\", \"bean\", \"rounded\" or \"free\""));
            }
        };
        let (drawn, _) = shape.line().ok_or_else(no_room)?.extent(0.0);
        let off = [wanted[0] - drawn.width(), wanted[1] - drawn.height()];
        if off.iter().all(|off| off.abs() < NEAR) || word == "ring" && is_round {
            let shape = shape.on(tape);
            let line = shape.line().ok_or_else(no_room)?;
            let is_whole = |right: f64| line.first_fold(right).is_none() && line.first_crossing(right).is_none();
            let stands = [-0.5 * thickness, 0.5 * thickness, eave].into_iter().all(is_whole);
            return if stands { Ok((shape, line)) } else { Err(no_room()) };
        }
        scale = [scale[0] * wanted[0] / drawn.width(), scale[1] * wanted[1] / drawn.height()];
    }
    Err(no_room())
}

impl Shape {
    fn line(&self) -> Option<PlanLine> {
        let vertices: Vec<Vertex> = self.points.iter().map(|(_, vertex)| *vertex).collect();
        PlanLine::closed(&vertices).ok()
    }

    /// The same with every point, tangent and radius at the nearest mark of a tape, in metres.
    fn on(self, tape: f64) -> Shape {
        let mark = |metres: f64| (metres / tape).round() * tape;
        let vector = |of: Vec2| Vec2::new(mark(of.x), mark(of.y));
        let point = |of: Point| vector(of.to_vec2()).to_point();
        let moved = |(name, vertex): Named| {
            let way = match vertex.way {
                Way::Straight => Way::Straight,
                Way::Through(through) => Way::Through(point(through)),
                Way::Curve { leave, arrive } => Way::Curve { leave: vector(leave), arrive: vector(arrive) },
            };
            (name, Vertex { at: point(vertex.at), round: mark(vertex.round), way })
        };
        Shape { points: self.points.into_iter().map(moved).collect(), ..self }
    }
}

fn ring(radius: f64) -> Shape {
    let half = |x: f64| Vertex { at: Point::new(x, 0.0), round: 1.0, way: Way::Through(Point::new(0.0, x)) };
    Shape { points: vec![("east", half(radius)), ("west", half(-radius))], door: (1, 0.5), window: 0 }
}

/// A line through a lowest, an eastmost, a highest and a westmost point that runs level or upright there.
fn smooth(points: [(f64, f64); 4], [a, b]: [f64; 2]) -> Shape {
    let at = points.map(|(x, y)| Point::new(a * x, b * y));
    let names = ["south", "east", "north", "west"];
    let vertices = (0..4).map(|place| {
        let (from, to) = (at[place], at[(place + 1) % 4]);
        (names[place], Vertex { at: from, round: 1.0, way: quarter(from, to, place % 2 == 0) })
    });
    Shape { points: vertices.collect(), door: (0, 0.5), window: 2 }
}

fn rounded([a, b]: [f64; 2], thickness: f64) -> Shape {
    let round = (0.6 * a.min(b)).clamp(thickness, 2.0 * thickness);
    let corner = |x: f64, y: f64| Vertex { at: Point::new(x * a, y * b), round, way: Way::Straight };
    let points = [
        ("south-west", corner(-1.0, -1.0)),
        ("south-east", corner(1.0, -1.0)),
        ("north-east", corner(1.0, 1.0)),
        ("north-west", corner(-1.0, 1.0)),
    ];
    Shape { points: points.to_vec(), door: (0, 0.5), window: 2 }
}

/// Two bulges with a hollow between them, no tighter than an eave follows.
fn bean([a, b]: [f64; 2]) -> Shape {
    let reach = 0.25 * a;
    let hollow = b - (0.35 * b).min(1.2 * reach * reach);
    let all = [
        ("back", Point::new(0.0, -b)),
        ("east-end", Point::new(a, 0.1 * b)),
        ("east-bulge", Point::new(0.5 * a, b)),
        ("hollow", Point::new(0.0, hollow)),
        ("west-bulge", Point::new(-0.5 * a, b)),
        ("west-end", Point::new(-a, 0.1 * b)),
    ];
    let level = Vec2::new(-reach, 0.0);
    let points = (0..all.len()).map(|place| {
        let (name, from) = all[place];
        let to = all[(place + 1) % all.len()].1;
        let way = match place {
            2 | 3 => Way::Curve { leave: level, arrive: level },
            _ => quarter(from, to, place == 0 || place == 4),
        };
        (name, Vertex { at: from, round: 1.0, way })
    });
    Shape { points: points.collect(), door: (5, 0.5), window: 0 }
}

/// A quarter turn between a place where the line runs level and one where it runs upright.
fn quarter(from: Point, to: Point, begins_level: bool) -> Way {
    // Tangents of 4 (√2 − 1) / 3 of the way follow a quarter of a circle: the middle of the curve lies on it.
    let share = 4.0 / 3.0 * (2.0_f64.sqrt() - 1.0);
    let (level, upright) = (Vec2::new(to.x - from.x, 0.0) * share, Vec2::new(0.0, to.y - from.y) * share);
    let (leave, arrive) = if begins_level { (level, upright) } else { (upright, level) };
    Way::Curve { leave, arrive }
}

fn points(points: &[Named], written: &dyn Fn(f64) -> String) -> String {
    let pair = |x: f64, y: f64| format!("[{}, {}]", written(x), written(y));
    let entry = |(name, vertex): &Named| {
        let way = match vertex.way {
            Way::Straight => format!("round = {}\n", written(vertex.round)),
            Way::Through(point) => format!("arc = {{ through = {} }}\n", pair(point.x, point.y)),
            Way::Curve { leave, arrive } => {
                format!("curve = {{ leave = {}, arrive = {} }}\n", pair(leave.x, leave.y), pair(arrive.x, arrive.y))
            }
        };
        format!("[[wall.line]]\nname = \"{name}\"\nat = {}\n{way}\n", pair(vertex.at.x, vertex.at.y))
    };
    points.iter().map(entry).collect()
}

/// Five lifts of one height, begun three days apart.
fn lifts(height: &str) -> String {
    let one = Length::parse(height).unwrap_or(Length::mm(420.0));
    let names = ["first", "second", "third", "fourth", "last"];
    let entry = |(place, name): (usize, &&str)| {
        let top = quoted(&like(one * (place + 1) as f64, height, Step::Drag));
        let top = if *name == "last" { String::new() } else { format!("top = {top}\n") };
        format!("[[wall.lifts]]\nname = \"{name}\"\n{top}start = \"{} days\"\n\n", 3 * place)
    };
    names.iter().enumerate().map(entry).collect()
}
