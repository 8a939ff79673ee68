//! Places thickness and height of the wall where they change along the line, and refuses faces that meet.

use std::ops::Range;

use super::place::{known, nearest, shown, within};
use super::{Point, TopSlope, Wall};
use crate::build::{Build, Source, Written};
use crate::curve::{Along, Body, PlanLine, Top};
use crate::known::Known;
use crate::units::{Angle, Length, Slope, System};

/// Places at which a piece of the line is looked at.
const LOOKS: u32 = 16;

/// What a wall may measure, in metres, and what it is called.
type Span = (Range<f64>, &'static str);

/// Thickness and height of a wall: what may be written for the whole wall and for a point of its line.
pub(super) const THICKNESS: Span = (0.05..3.0, "a wall's thickness");
/// The same for its height.
pub(super) const HEIGHT: Span = (0.1..12.0, "a wall's height");

/// A value that is written for a point of the line.
pub(super) fn own(
    source: &Source<'_>,
    written: Option<&Written<Length>>,
    (range, what): Span,
    system: System,
) -> Option<Known<Length>> {
    within(source, written, Length::m(range.start)..Length::m(range.end), what, system)
}

/// The values at the named points, straight between them: `which` is the place in [`Point::own`].
pub(super) fn along(points: &[Point], line: &PlanLine, whole: Length, which: usize) -> Along {
    let mut knots: Vec<[f64; 2]> = points
        .iter()
        .enumerate()
        .map(|(index, point)| {
            let value = point.own[which].as_ref().map_or(whole, |own| own.value);
            [line.along_line(line.named_point(index)), value.in_m()]
        })
        .collect();
    knots.sort_by(|a, b| a[0].total_cmp(&b[0]));
    Along::between(&knots, line.is_closed().then(|| line.length()))
}

/// The slope that the top follows.
pub(super) fn slope(source: &Source<'_>, build: &Build, points: &[Point], system: System) -> Option<TopSlope> {
    let written = build.wall.top.as_ref()?;
    let slopes = Slope::ratio(0.001)..Slope::ratio(1.0);
    let slope = within(source, written.slope.as_ref(), slopes, "a slope for the top of a wall", system)?;
    let from = match &written.from {
        None => 0,
        Some(name) => match points.iter().position(|point| point.name == name.value) {
            Some(at) => at,
            None => {
                let message = format!("there is no point \"{}\" in the wall line", name.value);
                let hint = nearest(points.iter().map(|point| point.name.as_str()), &name.value);
                source.fault(name.span.clone(), &name.path, message, hint);
                return None;
            }
        },
    };
    let heights = points.iter().zip(&build.wall.line).filter(|(point, _)| point.own[1].is_some());
    if let Some(at) = heights.into_iter().find_map(|(_, written)| written.height.as_ref()) {
        let message = "the top follows a slope and has a height of its own here".to_owned();
        source.fault(at.span.clone(), &at.path, message, "leave out the height here, or [wall.top]");
    }
    Some(TopSlope { slope, rises: known::<Angle>(written.rises.as_ref())?, from })
}

/// The top of the wall.
pub(super) fn top(heights: Along, slope: Option<&TopSlope>, points: &[Point]) -> Top {
    let slope = slope.map(|slope| {
        let from = &points[slope.from];
        let rise = kurbo::Vec2::from_angle(slope.rises.value.in_rad()) * slope.slope.value.in_ratio();
        (rise, kurbo::Point::new(from.x.value.in_m(), from.y.value.in_m()))
    });
    Top { heights, slope }
}

/// The highest level of the top: the height of the wall, or a row of its own where that changes.
pub(super) fn highest(line: &PlanLine, top: &Top, height: &Known<Length>) -> Known<Length> {
    if top.is_level() {
        return height.clone();
    }
    let places = looks(line).chain(top.heights.breaks());
    let highest = places.map(|along| top.at(line, along)).fold(f64::NEG_INFINITY, f64::max);
    Known { value: Length::m(highest), path: "wall.highest".into(), ..height.clone() }
}

/// Places along the line at which a wall that is not even is looked at, in metres.
pub(super) fn looks(line: &PlanLine) -> impl Iterator<Item = f64> + '_ {
    let within = |piece: usize| {
        let (start, length) = (line.start(piece), line.pieces()[piece].length());
        (0..LOOKS).map(move |look| start + length * f64::from(look) / f64::from(LOOKS))
    };
    (0..line.pieces().len()).flat_map(within).chain([line.length()])
}

impl Wall {
    /// The lowest top between two distances along the line, in metres; on a curve by places close to each other.
    pub(super) fn least_top(&self, [from, to]: [f64; 2]) -> Length {
        let steps = f64::from(LOOKS);
        let looks = (0..=LOOKS).map(|look| from + (to - from) * f64::from(look) / steps);
        let turns = [-self.line.length(), 0.0, self.line.length()];
        let knots = self.top.heights.breaks().flat_map(|knot| turns.map(|turn| knot + turn));
        let places = looks.chain(knots.filter(|at| (from..to).contains(at)));
        Length::m(places.map(|at| self.top.at(&self.line, at)).fold(f64::INFINITY, f64::min))
    }

    /// The steepest rise of the top, up or down, along a line beside the wall's between two distances along it, in metres, where that line
    /// is so long; what bends is taken as steep as the top is at all.
    pub(super) fn steepest(&self, [from, to]: [f64; 2], (long, is_straight): (f64, bool)) -> f64 {
        let looks = (0..=LOOKS).map(|look| from + (to - from) * f64::from(look) / f64::from(LOOKS));
        let rise = |at: f64| {
            let own = self.top.heights.slope(at) * (to - from) / long;
            match self.top.slope {
                Some((rise, _)) if is_straight => (own + self.line.at(at).axis.dot(rise)).abs(),
                Some((rise, _)) => own.abs() + rise.hypot(),
                None => own.abs(),
            }
        };
        looks.map(rise).fold(0.0, f64::max)
    }

    /// Whether it is everywhere as thick between two distances along the line, in metres.
    pub(super) fn is_even_between(&self, [from, to]: [f64; 2]) -> bool {
        let turns = [-self.line.length(), 0.0, self.line.length()];
        let knots = self.thicknesses.breaks().flat_map(|knot| turns.map(|turn| knot + turn));
        let mut places = knots.filter(|at| (from..to).contains(at)).chain([to]);
        places.all(|at| (self.thicknesses.at(at) - self.thicknesses.at(from)).abs() < 1e-9)
    }

    /// Thickness of its top where that is least.
    #[must_use]
    pub fn least_top_thickness(&self) -> Length {
        let lean = self.batter_inside.value.in_ratio() + self.batter_outside.value.in_ratio();
        let body = Body::new(self.shape(), &self.top, &[]);
        let at = body.greatest(|thickness, height| lean * height - thickness);
        Length::m(self.thicknesses.at(at) - lean * self.top.at(&self.line, at))
    }

    /// Means along the line of its thickness at the foot and of its height.
    pub(super) fn means(&self) -> [Length; 2] {
        if self.is_even() {
            return [self.thickness.value, self.height.value];
        }
        Body::new(self.shape(), &self.top, &[]).means().map(Length::m)
    }
}

/// Whether the wall has a top above its foot, and faces that do not meet below it.
pub(super) fn stands(source: &Source<'_>, build: &Build, wall: &Wall, system: System) -> bool {
    let lean = wall.batter_inside.value.in_ratio() + wall.batter_outside.value.in_ratio();
    let at = |along: f64| [wall.thicknesses.at(along), wall.top.at(&wall.line, along)];
    let worst = looks(&wall.line).chain(wall.thicknesses.breaks()).chain(wall.top.heights.breaks());
    let worst = worst.map(at).min_by(|a, b| (a[0] - lean * a[1]).total_cmp(&(b[0] - lean * b[1])));
    let Some(([thickness, height], written)) = worst.zip(build.wall.height.as_ref()) else { return true };
    if thickness - lean * height <= 0.0 {
        let message = format!(
            "the two faces lean so far that they meet at {}, below the top of the wall",
            shown(Length::m(thickness / lean), system)
        );
        let hint = "make the wall lower or thicker, or its batters smaller";
        source.fault(written.span.clone(), &written.path, message, hint);
        return false;
    }
    let lowest = looks(&wall.line).map(|along| at(along)[1]).fold(f64::INFINITY, f64::min);
    if let (true, Some(slope)) = (lowest < 0.1, build.wall.top.as_ref().and_then(|top| top.slope.as_ref())) {
        let message = format!("the top would fall to {} above the foot of the cob", shown(Length::m(lowest), system));
        source.fault(slope.span.clone(), &slope.path, message, "make the slope less steep, or the wall higher");
        return false;
    }
    true
}
