//! What paper shows of skin and floor beside their rows: coats, stretches between stop lines, layers, bays, the unrolled faces.

use kurbo::{Point, Vec2};

use super::floor::Way;
use super::part::{Material, Meaning, Outline, Part, Place, Section};
use super::{House, Layer, Of, Wall, unrolled};
use crate::build::Face as Side;
use crate::solve::polygon;

/// Chord error of drawn curves, in metres.
const CHORD: f64 = 0.002;
/// Places to either side of its centre at which a bay is looked at for where it is widest.
const LOOKS: i32 = 12;
/// How far the way out is drawn beyond the wall, in metres.
const OUT: f64 = 0.7;

/// What paper shows of skin and floor.
#[derive(Clone, Debug, Default)]
pub struct Surfaces {
    /// The coats, those inside first, each side from the wall outwards.
    pub coats: Vec<Coat>,
    /// Stretches of the wall between stop lines.
    pub stretches: Vec<Stretch>,
    /// The layers of the floor, from the ground up.
    pub layers: Vec<FloorLayer>,
    /// Keys of the coats of oil with their names, in the order in which they are put on.
    pub oil: Vec<(String, String)>,
    /// The bays of the floor, when its top layer is mixed.
    pub bays: Option<BayPlan>,
    /// The faces that are coated, unrolled.
    pub faces: Vec<Face>,
}

/// A coat of one face.
#[derive(Clone, Debug)]
pub struct Coat {
    /// Its key, up to the noun.
    pub stem: String,
    /// Its name.
    pub name: String,
    /// `inside` or `outside`.
    pub side: &'static str,
    /// Its recipe; none when it is bought.
    pub recipe: Option<String>,
    /// Whether nothing covers it.
    pub is_last: bool,
}

/// The wall from one stop line to the next.
#[derive(Clone, Debug)]
pub struct Stretch {
    /// The named point at which it begins.
    pub name: String,
    /// What it is called: from where to where.
    pub words: String,
}

/// A layer of the floor.
#[derive(Clone, Debug)]
pub struct FloorLayer {
    /// Its key, up to the noun.
    pub stem: String,
    /// Its name.
    pub name: String,
    /// Its recipe; none when it is bought.
    pub recipe: Option<String>,
}

/// The bays in plan, in metres.
#[derive(Clone, Debug)]
pub struct BayPlan {
    /// The bays in the order in which they are laid.
    pub bays: Vec<BayMark>,
    /// The name of the door.
    pub door: String,
    /// From the last bay out through the door.
    pub way_out: [Point; 2],
    /// Whether work comes from both ends to the bay before the door.
    pub from_both_ends: bool,
}

/// A bay in plan.
#[derive(Clone, Debug)]
pub struct BayMark {
    /// Its key, up to the noun.
    pub stem: String,
    /// Its outline.
    pub outline: Outline,
    /// Its middle.
    pub middle: Point,
    /// The way of work in it; none in the last, which is left through the door.
    pub arrow: Option<[Point; 2]>,
}

/// A face unrolled, as seen from where one stands to plaster it. A place is a stretch: its key, its name, its middle at the
/// foot of the wall; stop lines are parts.
#[derive(Clone, Debug)]
pub struct Face {
    /// `inside` or `outside`.
    pub side: &'static str,
    /// In one row.
    pub whole: Section,
    /// In two rows, parted at the stop line nearest to the middle; the same as one where there is none between.
    pub rows: Vec<Section>,
}

impl Wall {
    /// Where each stretch between stop lines begins and ends along the line, in metres; the last one of a closed line may end
    /// past its length.
    #[must_use]
    pub fn stretches(&self) -> Vec<[f64; 2]> {
        let at = |index: usize| self.line.along_line(self.line.named_point(index));
        let count = self.points.len();
        let runs = 0..self.line.runs().len();
        if !self.line.is_closed() {
            return runs.map(|run| [at(run), at(run + 1)]).collect();
        }
        let ends = runs.map(|run| (at(run), at((run + 1) % count)));
        ends.map(|(from, to)| [from, from + (to - from).rem_euclid(self.line.length())]).collect()
    }
}

/// What paper shows of skin and floor.
#[must_use]
pub fn surfaces(house: &House, seen_from_outside: &Section) -> Surfaces {
    let sides = [(Side::Inside, "inside", &house.skin.inside), (Side::Outside, "outside", &house.skin.outside)];
    let coats = sides.iter().flat_map(|(_, side, layers)| {
        let last = layers.len();
        layers.iter().enumerate().map(move |(place, layer)| Coat {
            stem: layer.stem.clone(),
            name: layer.name.clone(),
            side,
            recipe: recipe(layer),
            is_last: place + 1 == last,
        })
    });
    let coats: Vec<Coat> = coats.collect();
    let faces = sides.iter().filter(|(.., layers)| !layers.is_empty());
    let faces = faces.map(|(face, side, _)| unrolled_face(house, *face, side, seen_from_outside)).collect();
    let layers = house.floor.iter().map(|layer| FloorLayer {
        stem: layer.stem.clone(),
        name: layer.name.clone(),
        recipe: recipe(layer),
    });
    Surfaces {
        stretches: if coats.is_empty() { Vec::new() } else { stretches(house) },
        coats,
        layers: layers.collect(),
        oil: house.oil.iter().map(|oil| (format!("floor.oil.{}", oil.name), oil.name.clone())).collect(),
        bays: bays(house),
        faces,
    }
}

fn recipe(layer: &Layer) -> Option<String> {
    match &layer.of {
        Of::Recipe(recipe) => Some(recipe.clone()),
        Of::Good(..) => None,
    }
}

fn stretches(house: &House) -> Vec<Stretch> {
    let points = &house.wall.points;
    let runs = 0..house.wall.line.runs().len();
    let said = |name: &str| name.replace('-', " ");
    runs.map(|run| Stretch {
        name: points[run].name.clone(),
        words: format!("{} to {}", said(&points[run].name), said(&points[(run + 1) % points.len()].name)),
    })
    .collect()
}

fn unrolled_face(house: &House, face: Side, side: &'static str, seen_from_outside: &Section) -> Face {
    let whole = house.wall.line.length();
    let starts: Vec<f64> = {
        let stretches = house.wall.stretches();
        let first = stretches.first().map_or(0.0, |stretch| stretch[0]);
        stretches.iter().map(|[from, _]| from - first).collect()
    };
    let middle = starts.iter().copied().filter(|at| *at > 1e-9);
    let middle = middle.min_by(|a, b| (a - 0.5 * whole).abs().total_cmp(&(b - 0.5 * whole).abs()));
    let show = |drawn: &Section, stretch: [f64; 2]| plastered(house, (face, side), &starts, drawn, stretch);
    let one = show(seen_from_outside, [0.0, whole]);
    let rows = match middle {
        Some(middle) => {
            let halves = [[0.0, middle], [middle, whole]];
            let mut rows: Vec<Section> =
                halves.iter().map(|half| show(&unrolled::between(house, *half), *half)).collect();
            if face == Side::Inside {
                rows.reverse();
            }
            rows
        }
        None => vec![one.clone()],
    };
    Face { side, whole: one, rows }
}

/// What of the unrolled wall shows where plaster stops; seen from inside the way along the line goes to the left.
fn plastered(
    house: &House,
    (face, side): (Side, &str),
    starts: &[f64],
    drawn: &Section,
    [from, to]: [f64; 2],
) -> Section {
    let whole = house.wall.line.length();
    let seen = |point: Point| if face == Side::Inside { Point::new(-point.x, point.y) } else { point };
    let kept = drawn.parts.iter().filter(|part| part.path == "wall" || part.path.starts_with("openings."));
    let mut parts: Vec<Part> = kept.cloned().collect();
    let top =
        |at: f64| house.wall.top.at(&house.wall.line, house.wall.line.along_line(house.wall.line.named_point(0)) + at);
    let ends = starts.iter().skip(1).copied().chain([whole]);
    let mut places = Vec::new();
    for ((start, end), point) in starts.iter().copied().zip(ends).zip(&house.wall.points) {
        if start < from - 1e-9 || end > to + 1e-9 {
            continue;
        }
        let path = format!("skin.{side}-stretches.{}", point.name);
        for at in [start, end] {
            let line = Outline::line(vec![Point::new(at, -0.25), Point::new(at, top(at) + 0.25)], Meaning::Hidden);
            parts.push(Part::new(&path, "stop line", Material::Ground, vec![line]));
        }
        places.push(Place::new(&path, &point.name, seen(Point::new(start.midpoint(end), 0.0))));
    }
    for outline in parts.iter_mut().flat_map(|part| &mut part.outlines) {
        outline.points.iter_mut().for_each(|point| *point = seen(*point));
    }
    places.sort_by(|a, b| a.at.x.total_cmp(&b.at.x));
    Section { parts, levels: Vec::new(), dimensions: Vec::new(), places }
}

/// What is poured or bought is laid in no order: only a top layer that is mixed has a plan of its bays.
fn bays(house: &House) -> Option<BayPlan> {
    let is_mixed = house.floor.last().is_some_and(|top| matches!(top.of, Of::Recipe(_)));
    let bays = house.bays.as_ref().filter(|_| is_mixed)?;
    let half = 0.5 * house.wall.stem_width.value.in_m();
    let room = house.wall.line.outline(-half, CHORD);
    let at = bays.threshold.to_vec2().dot(bays.across);
    let count = bays.bays.len();
    let marks = bays.bays.iter().enumerate().map(|(place, bay)| {
        let [low, high] = bay.sides;
        let outline = polygon::beyond(&polygon::beyond(&room, bays.across, low), -bays.across, -high);
        let middle = roomiest(&outline, bays.across);
        let towards = bays.across * if low.midpoint(high) < at { 1.0 } else { -1.0 };
        let step = towards * (0.3 * (high - low));
        BayMark {
            stem: format!("floor.bays.{}", place + 1),
            arrow: (place + 1 < count).then_some([middle - step, middle + step]),
            outline: Outline::area(outline, Meaning::Seen),
            middle,
        }
    });
    let bay_marks: Vec<BayMark> = marks.collect();
    let last = bay_marks.last()?.middle;
    let door = &house.openings[bays.door];
    let outward = -door.station.axis.turn_90();
    let inside = bays.threshold - outward * (bays.threshold - last).dot(outward).clamp(0.0, 0.35);
    Some(BayPlan {
        bays: bay_marks,
        door: door.name.clone(),
        way_out: [inside, bays.threshold + outward * (2.0 * half + OUT)],
        from_both_ends: bays.way == Way::AlongIt,
    })
}

/// The middle of an outline across a direction, where that is longest; of many such places one near the centre.
fn roomiest(points: &[Point], across: Vec2) -> Point {
    let (centre, along) = (centre(points), across.turn_90());
    let reach = points.iter().map(|point| (*point - centre).dot(along).abs()).fold(0.0, f64::max);
    let places = (-LOOKS..=LOOKS).map(|look| reach * f64::from(look) / f64::from(LOOKS + 1));
    let spans = places.filter_map(|place| {
        let on = centre + along * place;
        let mut cuts = polygon::crossings(points, on, across);
        cuts.sort_by(f64::total_cmp);
        let longest = cuts.chunks_exact(2).max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])))?;
        // A place farther off has to be worth it: our judgement.
        Some((longest[1] - longest[0] - 0.05 * place.abs(), on + across * longest[0].midpoint(longest[1])))
    });
    spans.max_by(|a, b| a.0.total_cmp(&b.0)).map_or(centre, |(_, middle)| middle)
}

/// The centre of an outline's area.
fn centre(points: &[Point]) -> Point {
    let Some(&origin) = points.first() else { return Point::ORIGIN };
    let (mut sum, mut area) = (Vec2::ZERO, 0.0);
    for (index, point) in points.iter().enumerate() {
        let (a, b) = (*point - origin, points[(index + 1) % points.len()] - origin);
        sum += (a + b) * (a.cross(b) / 3.0);
        area += a.cross(b);
    }
    if area.abs() < 1e-12 { origin } else { origin + sum / area }
}
