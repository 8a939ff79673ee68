//! The wall unrolled: an elevation from outside, laid flat along the centre line of the wall.
//!
//! The line is walked with the room on the left, so who stands outside and faces the wall sees the walk go to the right.

use kurbo::{Point, Vec2};

use super::built_in::drawn::{Flat, on_wall};
use super::hollow::hollow;
use super::part::{Dimension, Level, Material, Meaning, Outline, Part, Place, Section};
use super::{House, Opening};
use crate::units::Length;

/// Cob left between an opening and the place at which the wall is cut into two rows, in metres: our judgement.
const CLEAR: f64 = 0.2;
/// Steps in which the curved part of an opening is drawn.
const CURVE_STEPS: u32 = 32;
/// Steps in which a top that is not level is drawn.
const TOP_STEPS: u32 = 96;

/// The wall unrolled, seen from outside: x is the distance along the centre line from the first named point to the right,
/// y the height above the foot of the cob, both in metres; an open wall runs from end to end. Below the ground the stem wall
/// is hidden.
///
/// An opening is as wide as the centre line between its jambs; where the wall bends that is a little more than its width,
/// which is measured straight across. What lies across the first point is drawn at both ends.
#[must_use]
pub fn unrolled(house: &House) -> Section {
    Unrolled::of(house).stretch([0.0, house.wall.line.length()])
}

/// A stretch of it, between two distances from the first named point.
pub(super) fn between(house: &House, stretch: [f64; 2]) -> Section {
    Unrolled::of(house).stretch(stretch)
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
pub(super) struct Unrolled<'a> {
    house: &'a House,
    /// Each opening and where it begins and ends, once for each end of the drawing that it may reach.
    openings: Vec<(&'a Opening, [f64; 2])>,
    /// Distances of the named points.
    points: Vec<f64>,
    /// Distance of the first named point along the line.
    first: f64,
}

impl<'a> Unrolled<'a> {
    pub(super) fn of(house: &'a House) -> Unrolled<'a> {
        let line = &house.wall.line;
        let whole = line.length();
        let at = |index: usize| line.along_line(line.named_point(index));
        let mut openings = Vec::new();
        for opening in &house.openings {
            let Some([start, end]) = opening.on_line(&house.wall) else { continue };
            let (from, length) = (line.from_first_point(start), end - start);
            for turn in if line.is_closed() { vec![0.0, whole] } else { vec![0.0] } {
                openings.push((opening, [from - turn, from - turn + length]));
            }
        }
        let points = (0..house.wall.points.len()).map(|index| line.from_first_point(at(index))).collect();
        Unrolled { house, openings, points, first: at(0) }
    }

    /// Where to part the wall: as near to a distance as leaves openings whole.
    pub(super) fn parting(&self, wanted: f64) -> f64 {
        let sides = self.openings.iter().flat_map(|(_, [start, end])| [start - CLEAR, end + CLEAR]);
        let is_clear = |at: &f64| self.openings.iter().all(|(_, [start, end])| *at <= *start || *end <= *at);
        let inside = 0.5 * wanted..1.5 * wanted;
        let near = |a: &f64, b: &f64| (a - wanted).abs().total_cmp(&(b - wanted).abs());
        if self.openings.iter().all(|(_, [start, end])| wanted <= start - CLEAR || end + CLEAR <= wanted) {
            return wanted;
        }
        sides.filter(|at| inside.contains(at) && is_clear(at)).min_by(near).unwrap_or(wanted)
    }

    /// The outlines of the openings that reach into a stretch.
    pub(super) fn holes(&self, stretch: [f64; 2]) -> Vec<Vec<Point>> {
        self.inside(stretch).iter().map(Shown::outline).collect()
    }

    /// The openings that reach into a stretch, each with what of it lies there.
    fn inside(&self, stretch: [f64; 2]) -> Vec<Shown<'a>> {
        let shown = self.openings.iter().map(|&(opening, [start, end])| Shown { opening, start, end, stretch });
        shown.filter(|shown| shown.at(shown.opening.cut.form.widest_above(f64::NEG_INFINITY)).is_some()).collect()
    }

    fn stretch(&self, [from, to]: [f64; 2]) -> Section {
        let house = self.house;
        let openings = self.inside([from, to]);
        let holes: Vec<Vec<Point>> = openings.iter().map(Shown::outline).collect();
        let foot = -house.wall.stem_height.value.in_m();
        let ground = house.ground.value.in_m();
        let body = |outline: &[Point], meaning: Meaning| -> Vec<Outline> {
            hollow(outline, &holes).into_iter().map(|points| Outline::area(points, meaning)).collect()
        };
        let band = |low: f64, high: f64, meaning: Meaning| -> Vec<Outline> {
            let corners = [(from, low), (to, low), (to, high), (from, high)].map(|(x, y)| Point::new(x, y));
            if high > low { body(&corners, meaning) } else { Vec::new() }
        };
        let surface = ground.clamp(foot, 0.0);
        let mut stem = band(foot, surface, Meaning::Hidden);
        stem.extend(band(surface, 0.0, Meaning::Cut));
        let mut cob = vec![Point::new(from, 0.0), Point::new(to, 0.0)];
        cob.extend(self.top([from, to]).into_iter().rev());
        let mut parts: Vec<Part> = house.openings.iter().filter_map(|opening| seen(opening, &openings)).collect();
        parts.push(Part::new("wall.stem", "stem wall", Material::Stone, stem));
        parts.push(Part::new("wall", "cob wall", Material::Cob, body(&cob, Meaning::Cut)));
        parts.extend(self.lift_lines([from, to], &openings));
        let (built_in, names) = self.built_in([from, to]);
        parts.extend(built_in);
        parts.extend(self.bond_beam([from, to]));
        let line = level_line([from, to], ground, Meaning::Cut);
        parts.push(Part::new("ground.outside", "ground outside", Material::Ground, vec![line]));
        let mut places = self.points([from, to], ground.min(foot));
        places.extend(
            openings
                .iter()
                .map(|shown| (shown, shown.opening))
                .map(|(shown, own)| Place::new(&format!("openings.{}", own.name), &own.name, shown.middle())),
        );
        places.extend(self.lift_names([from, to], &openings));
        places.extend(names);
        Section { parts, levels: levels(house), dimensions: self.dimensions([from, to]), places }
    }

    pub(super) fn points(&self, [from, to]: [f64; 2], level: f64) -> Vec<Place> {
        let line = &self.house.wall.line;
        let mut places = Vec::new();
        for (point, at) in self.house.wall.points.iter().zip(&self.points) {
            let again = line.is_closed().then(|| at + line.length());
            for at in [*at].into_iter().chain(again).filter(|at| (from - 1e-9..=to + 1e-9).contains(at)) {
                let path = format!("wall.line.{}", point.name);
                places.push(Place::new(&path, &point.name, Point::new(at, level)));
            }
        }
        places
    }

    /// Widths and piers along the top of the wall; sills to the left of windows, heights to the right of openings. What the
    /// stretch does not show whole has no dimension.
    fn dimensions(&self, [from, to]: [f64; 2]) -> Vec<Dimension> {
        let [(_, top), _] = self.highest([from, to]);
        let (up, right) = (Vec2::new(0.0, 1.0), Vec2::new(1.0, 0.0));
        let mut shown: Vec<(&Opening, [f64; 2])> =
            self.openings.iter().copied().filter(|(_, [start, end])| *end > from && *start < to).collect();
        shown.sort_by(|a, b| a.1[0].total_cmp(&b.1[0]));
        let is_whole = |[start, end]: [f64; 2]| start >= from - 1e-9 && end <= to + 1e-9;
        let is_open = !self.house.wall.line.is_closed();
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
            let (is_first, is_last) = (index == 0, index + 1 == shown.len());
            let whole = self.house.wall.line.length();
            if is_first && is_open && is_whole([0.0, start]) {
                between(&opening.path("pier-before"), [(0.0, top), (start, top)], up);
            }
            if is_last && is_open && is_whole([end, whole]) {
                between(&opening.path("pier"), [(end, top), (whole, top)], up);
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

/// An opening where the wall is laid flat, and the stretch of wall that is shown.
#[derive(Clone, Copy)]
struct Shown<'a> {
    opening: &'a Opening,
    start: f64,
    end: f64,
    stretch: [f64; 2],
}

impl Shown<'_> {
    /// From where to where it reaches at a level, within the stretch.
    fn at(&self, level: f64) -> Option<[f64; 2]> {
        let form = self.opening.cut.form;
        let half = 0.5 * (self.end - self.start) * form.half_at(level) / form.half();
        let middle = self.start.midpoint(self.end);
        let [left, right] = [(middle - half).max(self.stretch[0]), (middle + half).min(self.stretch[1])];
        (right - left > 1e-9).then_some([left, right])
    }

    fn outline(&self) -> Vec<Point> {
        let levels = self.opening.cut.form.levels(f64::NEG_INFINITY, CURVE_STEPS);
        let ends = levels.iter().filter_map(|&level| Some((self.at(level)?, level)));
        let ends: Vec<([f64; 2], f64)> = ends.collect();
        let right = ends.iter().map(|([_, right], level)| Point::new(*right, *level));
        let left = ends.iter().rev().map(|([left, _], level)| Point::new(*left, *level));
        let mut points: Vec<Point> = right.chain(left).collect();
        points.rotate_right(1);
        points
    }

    fn middle(&self) -> Point {
        let [left, right] = [self.start.max(self.stretch[0]), self.end.min(self.stretch[1])];
        let form = self.opening.cut.form;
        Point::new(left.midpoint(right), form.bottom().midpoint(form.top()))
    }
}

fn level_line([from, to]: [f64; 2], level: f64, meaning: Meaning) -> Outline {
    Outline::line(vec![Point::new(from, level), Point::new(to, level)], meaning)
}

/// An opening, an outline for each end of the drawing that it reaches.
fn seen(opening: &Opening, inside: &[Shown<'_>]) -> Option<Part> {
    let own = inside.iter().filter(|shown| shown.opening.name == opening.name);
    let outlines: Vec<Outline> = own.map(|shown| Outline::area(shown.outline(), Meaning::Seen)).collect();
    let path = format!("openings.{}", opening.name);
    (!outlines.is_empty()).then(|| Part::new(&path, &opening.name, Material::Opening, outlines))
}

impl Unrolled<'_> {
    /// The top of the wall over a stretch, from left to right.
    pub(super) fn top(&self, [from, to]: [f64; 2]) -> Vec<Point> {
        let wall = &self.house.wall;
        let at = |x: f64| Point::new(x, wall.top.at(&wall.line, self.first + x));
        if wall.top.is_level() {
            return vec![at(from), at(to)];
        }
        // At the same places of the wall in every stretch, so that rows are the parts of the whole.
        let step = wall.line.length() / f64::from(TOP_STEPS);
        let steps = (0..=TOP_STEPS).map(|count| step * f64::from(count)).filter(|at| from < *at && *at < to);
        let mut places: Vec<f64> = steps.chain([from, to]).collect();
        let bends = self.points.iter().flat_map(|&at| [at - wall.line.length(), at, at + wall.line.length()]);
        places.extend(bends.filter(|at| from < *at && *at < to));
        places.sort_by(f64::total_cmp);
        places.into_iter().map(at).collect()
    }

    /// The highest and the lowest place of the top over a stretch.
    fn highest(&self, stretch: [f64; 2]) -> [(f64, f64); 2] {
        let top = self.top(stretch);
        let by = |a: &&Point, b: &&Point| a.y.total_cmp(&b.y);
        [top.iter().max_by(by), top.iter().min_by(by)].map(|place| place.map_or((0.0, 0.0), |at| (at.x, at.y)))
    }

    /// What of a stretch is cob at a level, from left to right.
    fn solid(&self, [from, to]: [f64; 2], level: f64, openings: &[Shown<'_>]) -> Vec<[f64; 2]> {
        let under = |place: &Point| place.y < level - 1e-9;
        let mut cut: Vec<[f64; 2]> = openings.iter().filter_map(|shown| shown.at(level)).collect();
        for pair in self.top([from, to]).windows(2).filter(|pair| pair.iter().any(under)) {
            let crossing = |a: Point, b: Point| a.x + (b.x - a.x) * (level - a.y) / (b.y - a.y);
            cut.push(match [under(&pair[0]), under(&pair[1])] {
                [true, true] => [pair[0].x, pair[1].x],
                [true, false] => [pair[0].x, crossing(pair[0], pair[1])],
                _ => [crossing(pair[0], pair[1]), pair[1].x],
            });
        }
        cut.sort_by(|a, b| a[0].total_cmp(&b[0]));
        let starts = [from].into_iter().chain(cut.iter().map(|hole| hole[1]));
        let ends = cut.iter().map(|hole| hole[0]).chain([to]);
        starts.zip(ends).map(|(start, end)| [start, end]).filter(|[start, end]| end - start > 1e-9).collect()
    }

    /// What is built in and reaches into a stretch, each thing named once.
    fn built_in(&self, [from, to]: [f64; 2]) -> (Vec<Part>, Vec<Place>) {
        let line = &self.house.wall.line;
        let whole = line.length();
        let (mut parts, mut places): (Vec<Part>, Vec<Place>) = (Vec::new(), Vec::new());
        for Flat { path, name, material, along, outline, meaning } in on_wall(self.house) {
            let first = line.from_first_point(along);
            for middle in if line.is_closed() { vec![first - whole, first, first + whole] } else { vec![first] } {
                let at = |[x, y]: &[f64; 2]| Point::new((middle + x).clamp(from, to), *y);
                let points: Vec<Point> = outline.iter().map(at).collect();
                let (left, right) = points.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(left, right), point| {
                    (left.min(point.x), right.max(point.x))
                });
                if right - left < 1e-6 {
                    continue;
                }
                if !name.ends_with("lintel") && places.iter().all(|place| place.path != path) {
                    let levels = outline.iter().map(|point| point[1]);
                    let [low, high] = levels.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], level| {
                        [low.min(level), high.max(level)]
                    });
                    places.push(Place::new(&path, &name, Point::new(left.midpoint(right), low.midpoint(high))));
                }
                parts.push(Part::new(&path, &name, material, vec![Outline::area(points, meaning)]));
            }
        }
        (parts, places)
    }

    /// The timber on the top of the wall.
    fn bond_beam(&self, stretch: [f64; 2]) -> Option<Part> {
        let height = self.house.bond_beam.as_ref()?.height.value.in_m();
        let mut points = self.top(stretch);
        points.extend(self.top(stretch).into_iter().rev().map(|point| Point::new(point.x, point.y + height)));
        let outline = Outline::area(points, Meaning::Seen);
        Some(Part::new("wall.bond-beam", "bond beam", Material::Timber, vec![outline]))
    }

    /// The bed between one lift and the next.
    fn lift_lines(&self, stretch: [f64; 2], openings: &[Shown<'_>]) -> Vec<Part> {
        let beds = self.house.wall.beds();
        let lines = beds.map(|lift| {
            let level = lift.top.value.in_m();
            let spans = self.solid(stretch, level, openings);
            let lines = spans.into_iter().map(|span| level_line(span, level, Meaning::Seen));
            Part::new(&format!("wall.lifts.{}", lift.name), &lift.name, Material::Cob, lines.collect())
        });
        lines.collect()
    }

    /// The name of each lift in its own band, near the left end.
    fn lift_names(&self, stretch: [f64; 2], openings: &[Shown<'_>]) -> Vec<Place> {
        let mut below = Length::ZERO;
        let mut places = Vec::new();
        for lift in &self.house.wall.lifts {
            let level = ((below + lift.top.value) * 0.5).in_m();
            let spans = self.solid(stretch, level, openings);
            if let Some([start, end]) = spans.into_iter().find(|[start, end]| end - start > 0.5) {
                let at = Point::new((start + 0.6).min(start.midpoint(end)), level);
                places.push(Place::new(&format!("wall.lifts.{}", lift.name), &lift.name, at));
            }
            below = lift.top.value;
        }
        places
    }
}

fn levels(house: &House) -> Vec<Level> {
    let wall = &house.wall;
    let mut levels = vec![
        Level::new("ground.outside", "ground outside", house.ground.value),
        Level::new("wall", "foot of the cob", Length::ZERO),
        wall.top_level(),
    ];
    levels.extend(
        wall.beds().map(|lift| Level::new(&lift.path("top"), &format!("top of {}", lift.name), lift.top.value)),
    );
    Level::in_order(levels)
}
