//! The wall unrolled: an elevation from outside, laid flat along the centre line of the wall.
//!
//! The line is walked with the room on the left, so who stands outside and faces the wall sees the walk go to the right.

use kurbo::{Point, Rect, Vec2};

use super::hollow::hollow;
use super::part::{Dimension, Level, Material, Meaning, Outline, Part, Place, Section};
use super::{House, Opening};
use crate::units::Length;

/// Cob left between an opening and the place at which the wall is cut into two rows, in metres: our judgement.
const CLEAR: f64 = 0.2;

/// The wall unrolled, seen from outside: x is the distance along the centre line from the first named point to the right,
/// y the height above the foot of the cob, both in metres. Below the ground the stem wall is hidden.
///
/// An opening is as wide as the centre line between its jambs; where the wall bends that is a little more than its width,
/// which is measured straight across. What lies across the first point is drawn at both ends.
#[must_use]
pub fn unrolled(house: &House) -> Section {
    Unrolled::of(house).stretch([0.0, house.wall.line.length()])
}

/// The same in two rows for a narrow sheet, parted near the middle and clear of openings; x runs on in the second row.
#[must_use]
pub fn unrolled_rows(house: &House) -> [Section; 2] {
    let wall = Unrolled::of(house);
    let whole = house.wall.line.length();
    let middle = wall.parting(0.5 * whole);
    [wall.stretch([0.0, middle]), wall.stretch([middle, whole])]
}

/// The wall with its openings and named points at their distances along the line, in metres.
struct Unrolled<'a> {
    house: &'a House,
    /// Each opening and where it begins and ends, once for each end of the drawing that it may reach.
    openings: Vec<(&'a Opening, [f64; 2])>,
    /// Distances of the named points.
    points: Vec<f64>,
}

impl<'a> Unrolled<'a> {
    fn of(house: &'a House) -> Unrolled<'a> {
        let line = &house.wall.line;
        let whole = line.length();
        let at = |index: usize| line.station(index, 0.0).map_or(0.0, |station| line.along_line(station));
        let first = at(0);
        let from_first = |along: f64| (along - first).rem_euclid(whole);
        let mut openings = Vec::new();
        for opening in &house.openings {
            let Some(strip) = opening.strip(&house.wall) else { continue };
            let [start, end] = strip.along_line(0.0);
            let (from, length) = (from_first(start), end - start);
            for turn in [0.0, whole] {
                openings.push((opening, [from - turn, from - turn + length]));
            }
        }
        let points = (0..house.wall.points.len()).map(|index| from_first(at(index))).collect();
        Unrolled { house, openings, points }
    }

    /// Where to part the wall: as near to a distance as leaves openings whole.
    fn parting(&self, wanted: f64) -> f64 {
        let sides = self.openings.iter().flat_map(|(_, [start, end])| [start - CLEAR, end + CLEAR]);
        let is_clear = |at: &f64| self.openings.iter().all(|(_, [start, end])| *at <= *start || *end <= *at);
        let inside = 0.5 * wanted..1.5 * wanted;
        let near = |a: &f64, b: &f64| (a - wanted).abs().total_cmp(&(b - wanted).abs());
        if self.openings.iter().all(|(_, [start, end])| wanted <= start - CLEAR || end + CLEAR <= wanted) {
            return wanted;
        }
        sides.filter(|at| inside.contains(at) && is_clear(at)).min_by(near).unwrap_or(wanted)
    }

    /// The openings that reach into a stretch, each with what of it lies there.
    fn inside(&self, [from, to]: [f64; 2]) -> Vec<(&'a Opening, Rect)> {
        let part = |(opening, [start, end]): &(&'a Opening, [f64; 2])| {
            let (left, right) = (start.max(from), end.min(to));
            let (bottom, head) = (opening.bottom.value.in_m(), opening.head().in_m());
            (right - left > 1e-9).then(|| (*opening, Rect::new(left, bottom, right, head)))
        };
        self.openings.iter().filter_map(part).collect()
    }

    fn stretch(&self, [from, to]: [f64; 2]) -> Section {
        let house = self.house;
        let openings = self.inside([from, to]);
        let holes: Vec<Rect> = openings.iter().map(|(_, hole)| *hole).collect();
        let (height, foot) = (house.wall.height.value.in_m(), -house.wall.stem_height.value.in_m());
        let ground = house.ground.value.in_m();
        let body = |low: f64, high: f64, meaning: Meaning| -> Vec<Outline> {
            let outlines = hollow(Rect::new(from, low, to, high.max(low)), &holes);
            outlines.into_iter().map(|points| Outline::area(points, meaning)).collect()
        };
        let surface = ground.clamp(foot, 0.0);
        let mut stem = body(foot, surface, Meaning::Hidden);
        stem.extend(body(surface, 0.0, Meaning::Cut));
        let mut parts: Vec<Part> = house.openings.iter().filter_map(|opening| seen(opening, &openings)).collect();
        parts.push(Part::new("wall.stem", "stem wall", Material::Stone, stem));
        parts.push(Part::new("wall", "cob wall", Material::Cob, body(0.0, height, Meaning::Cut)));
        parts.extend(lift_lines(house, [from, to], &holes));
        let line = level_line([from, to], ground, Meaning::Cut);
        parts.push(Part::new("ground.outside", "ground outside", Material::Ground, vec![line]));
        let mut places = self.points([from, to], ground.min(foot));
        places.extend(
            openings
                .iter()
                .map(|(opening, hole)| Place::new(&format!("openings.{}", opening.name), &opening.name, hole.center())),
        );
        places.extend(lift_names(house, [from, to], &holes));
        Section { parts, levels: levels(house), dimensions: self.dimensions([from, to]), places }
    }

    fn points(&self, [from, to]: [f64; 2], level: f64) -> Vec<Place> {
        let whole = self.house.wall.line.length();
        let mut places = Vec::new();
        for (point, at) in self.house.wall.points.iter().zip(&self.points) {
            for at in [*at, at + whole].into_iter().filter(|at| (from - 1e-9..=to + 1e-9).contains(at)) {
                let path = format!("wall.line.{}", point.name);
                places.push(Place::new(&path, &point.name, Point::new(at, level)));
            }
        }
        places
    }

    /// Widths and piers along the top of the wall; sills to the left of windows, heights to the right of openings. What the
    /// stretch does not show whole has no dimension.
    fn dimensions(&self, [from, to]: [f64; 2]) -> Vec<Dimension> {
        let top = self.house.wall.height.value.in_m();
        let (up, right) = (Vec2::new(0.0, 1.0), Vec2::new(1.0, 0.0));
        let mut shown: Vec<(&Opening, [f64; 2])> =
            self.openings.iter().copied().filter(|(_, [start, end])| *end > from && *start < to).collect();
        shown.sort_by(|a, b| a.1[0].total_cmp(&b.1[0]));
        let is_whole = |[start, end]: [f64; 2]| start >= from - 1e-9 && end <= to + 1e-9;
        let mut dimensions = Vec::new();
        let mut between = |path: &str, ends: [(f64, f64); 2], away: Vec2| {
            dimensions.push(Dimension::between(path, ends.map(|(x, y)| Point::new(x, y)), away));
        };
        for (index, (opening, [start, end])) in shown.iter().copied().enumerate() {
            let (bottom, head) = (opening.bottom.value.in_m(), opening.head().in_m());
            if is_whole([start, end]) {
                between(&opening.width.path, [(start, top), (end, top)], up);
                between(&opening.height.path, [(end, bottom), (end, head)], right);
                if bottom > 0.0 {
                    between(&opening.bottom.path, [(start, 0.0), (start, bottom)], -right);
                }
            }
            if let Some((_, [next, _])) = shown.get(index + 1).filter(|(_, [next, _])| end <= *next)
                && is_whole([end, *next])
            {
                between(&opening.path("pier"), [(end, top), (*next, top)], up);
            }
        }
        dimensions
    }
}

fn level_line([from, to]: [f64; 2], level: f64, meaning: Meaning) -> Outline {
    Outline::line(vec![Point::new(from, level), Point::new(to, level)], meaning)
}

/// An opening, an outline for each end of the drawing that it reaches.
fn seen(opening: &Opening, inside: &[(&Opening, Rect)]) -> Option<Part> {
    let own = inside.iter().filter(|(other, _)| other.name == opening.name);
    let outlines: Vec<Outline> = own
        .map(|(_, hole)| {
            let corners = [(hole.x0, hole.y0), (hole.x1, hole.y0), (hole.x1, hole.y1), (hole.x0, hole.y1)];
            Outline::area(corners.map(|(x, y)| Point::new(x, y)).to_vec(), Meaning::Seen)
        })
        .collect();
    let path = format!("openings.{}", opening.name);
    (!outlines.is_empty()).then(|| Part::new(&path, &opening.name, Material::Opening, outlines))
}

/// What of a stretch is cob at a level, from left to right.
fn solid([from, to]: [f64; 2], level: f64, holes: &[Rect]) -> Vec<[f64; 2]> {
    let mut cut: Vec<&Rect> = holes.iter().filter(|hole| hole.y0 < level && level < hole.y1).collect();
    cut.sort_by(|a, b| a.x0.total_cmp(&b.x0));
    let starts = [from].into_iter().chain(cut.iter().map(|hole| hole.x1));
    let ends = cut.iter().map(|hole| hole.x0).chain([to]);
    starts.zip(ends).map(|(start, end)| [start, end]).filter(|[start, end]| end - start > 1e-9).collect()
}

/// The bed between one lift and the next.
fn lift_lines(house: &House, stretch: [f64; 2], holes: &[Rect]) -> Vec<Part> {
    let height = house.wall.height.value;
    let lifts = house.wall.lifts.iter().filter(|lift| lift.top.value < height);
    let lines = lifts.map(|lift| {
        let level = lift.top.value.in_m();
        let lines = solid(stretch, level, holes).into_iter().map(|span| level_line(span, level, Meaning::Seen));
        Part::new(&format!("wall.lifts.{}", lift.name), &lift.name, Material::Cob, lines.collect())
    });
    lines.collect()
}

/// The name of each lift in its own band, near the left end.
fn lift_names(house: &House, stretch: [f64; 2], holes: &[Rect]) -> Vec<Place> {
    let mut below = Length::ZERO;
    let mut places = Vec::new();
    for lift in &house.wall.lifts {
        let level = ((below + lift.top.value) * 0.5).in_m();
        if let Some([start, end]) = solid(stretch, level, holes).into_iter().find(|[start, end]| end - start > 0.5) {
            let at = Point::new((start + 0.6).min(start.midpoint(end)), level);
            places.push(Place::new(&format!("wall.lifts.{}", lift.name), &lift.name, at));
        }
        below = lift.top.value;
    }
    places
}

fn levels(house: &House) -> Vec<Level> {
    let wall = &house.wall;
    let mut levels = vec![
        Level::new("ground.outside", "ground outside", house.ground.value),
        Level::new("wall", "foot of the cob", Length::ZERO),
        Level::new("wall.height", "top of the wall", wall.height.value),
    ];
    let beds = wall.lifts.iter().filter(|lift| lift.top.value < wall.height.value);
    levels.extend(beds.map(|lift| Level::new(&lift.path("top"), &format!("top of {}", lift.name), lift.top.value)));
    Level::in_order(levels)
}
