//! The floor's bays from the far side to the door, and its coats of oil, with nothing missing.

use kurbo::{Point, Vec2};

use super::place::{nearest, within};
use super::{Opening, Wall};
use crate::build::{self, Build, OpeningKind, Source};
use crate::curve::Piece;
use crate::known::{Known, Origin};
use crate::skin;
use crate::units::{Area, Length, Ratio, System, Volume};

/// Two places of an outline are level with each other when they differ by less, in metres.
const LEVEL: f64 = 1e-9;

/// The bays in which the top layer of the floor is laid: even strips of the room inside the stem wall.
#[derive(Clone, Debug)]
pub struct Bays {
    /// The widest that a bay may be.
    pub width: Known<Length>,
    /// How many thicknesses of a layer its cracks lie apart where they lie closest.
    pub crack_spacing: Known<f64>,
    /// The door by which the last person leaves, by place in the list of openings.
    pub door: usize,
    /// Whether the strips lie along the way in or across it.
    pub way: Way,
    /// Unit direction across the bays.
    pub across: Vec2,
    /// From the first side of the room to the other, across the bays.
    pub extent: Length,
    /// The pieces of the wall line that reach farthest to either side.
    pub farthest: [usize; 2],
    /// Where the door meets the room.
    pub threshold: Point,
    /// The bays in the order in which they are laid, the one at the door last.
    pub bays: Vec<Bay>,
}

/// How bays lie to the way in through the door.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Square to it: from the far side straight to the door.
    SquareToIt,
    /// Along it: the room reaches past the door, so work comes from both ends to the bay before it.
    AlongIt,
}

/// A bay.
#[derive(Clone, Debug)]
pub struct Bay {
    /// Its two sides, in metres across the bays.
    pub sides: [f64; 2],
    /// Its area, exact for straight runs and arcs.
    pub area: Area,
    /// The pieces of the wall line that bound it.
    pub pieces: Vec<usize>,
}

/// A coat of oil.
#[derive(Clone, Debug)]
pub struct Oil {
    /// Its name.
    pub name: String,
    /// The area that `takes` covers.
    pub covers: Known<Area>,
    /// What that area takes, oil and thinner together.
    pub takes: Known<Volume>,
    /// Thinner in it.
    pub thinner: Known<Ratio>,
}

impl Oil {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("floor.oil.{}.{noun}", self.name)
    }
}

/// The bays of the floor; none without layers, without a door or in an open wall.
pub(super) fn bays(
    source: &Source<'_>,
    build: &Build,
    wall: &Wall,
    openings: &[Opening],
    system: System,
) -> Option<Bays> {
    let written = build.floor.bays.as_ref();
    if build.floor.layers.is_empty() || !wall.line.is_closed() {
        if let Some(bays) = written {
            let hint = "write the layers of the floor, [[floor.layers]], or leave this out";
            source.fault(bays.span.clone(), "floor.bays", "there is no floor to lay in bays", hint);
        }
        return None;
    }
    let widths = Length::mm(300.0)..Length::m(3.0);
    let width = written.and_then(|bays| within(source, bays.width.as_ref(), widths, "the width of a bay", system));
    let width = width.unwrap_or_else(|| {
        let why = "as far as a kneeling person draws a straightedge and floats level";
        Known::assumed(Length::m(1.0), "floor.bays.width", Origin::Judgement, why)
    });
    let spacing = written.and_then(|bays| bays.crack_spacing.as_ref());
    let what = "how many thicknesses of a layer its cracks lie apart";
    let crack_spacing = within(source, spacing, 0.5..20.0, what, system).unwrap_or_else(|| {
        let why = "between cracks as near as a bonded layer is thick the drying pull is gone and no new one opens; measure those of a \
                   test bay";
        Known::assumed(1.0, "floor.bays.crack-spacing", Origin::Memory, why)
    });
    let doors = || openings.iter().enumerate().filter(|(_, opening)| opening.kind == OpeningKind::Door);
    let door = match written.and_then(|bays| bays.way_out.as_ref()) {
        None => doors().next()?,
        Some(name) => doors().find(|(_, door)| door.name == name.value).or_else(|| {
            let hint = nearest(doors().map(|(_, door)| door.name.as_str()), &name.value);
            source.fault(name.span.clone(), &name.path, format!("there is no door \"{}\"", name.value), hint);
            None
        })?,
    };
    Some(laid_out(wall, door, (width, crack_spacing)))
}

fn laid_out(
    wall: &Wall,
    (place, door): (usize, &Opening),
    (width, crack_spacing): (Known<Length>, Known<f64>),
) -> Bays {
    let half = 0.5 * wall.stem_width.value.in_m();
    let pieces: Vec<Piece> = wall.line.pieces().iter().map(|piece| piece.offset(-half)).collect();
    let outward = -door.station.axis.turn_90();
    let threshold = door.station.point - outward * half;
    let past = reach(&pieces, outward, door.station.piece).0[1] - threshold.to_vec2().dot(outward);
    let (way, across) =
        if past <= width.value.in_m() { (Way::SquareToIt, outward) } else { (Way::AlongIt, door.station.axis) };
    let ([from, to], farthest) = reach(&pieces, across, door.station.piece);
    let count = skin::bay_count(width.value, Length::m(to - from)).value;
    let mut bays = cut(&pieces, across, [from, to], count as usize);
    let at = threshold.to_vec2().dot(across);
    let away = |bay: &Bay| (bay.sides[0].midpoint(bay.sides[1]) - at).abs();
    bays.sort_by(|a, b| away(b).total_cmp(&away(a)));
    let extent = Length::m(to - from);
    Bays { width, crack_spacing, door: place, way, across, extent, farthest, threshold, bays }
}

/// How far an outline reaches along a direction, in metres, and the pieces that do; of several that reach as far the first of:
/// a given one, a straight one, an arc.
fn reach(pieces: &[Piece], along: Vec2, first: usize) -> ([f64; 2], [usize; 2]) {
    let at = |point: Point| point.to_vec2().dot(along);
    let straight = |index: &usize| pieces[*index].curvature() == 0.0;
    let others = (0..pieces.len()).filter(straight).chain((0..pieces.len()).filter(|index| !straight(index)));
    let (mut reach, mut by) = ([f64::INFINITY, f64::NEG_INFINITY], [first; 2]);
    for index in std::iter::once(first).chain(others) {
        for point in pieces[index].farthest(along) {
            if at(point) < reach[0] - LEVEL {
                (reach[0], by[0]) = (at(point), index);
            }
            if at(point) > reach[1] + LEVEL {
                (reach[1], by[1]) = (at(point), index);
            }
        }
    }
    (reach, by)
}

/// Even strips of an outline across a direction. By Green's theorem the area of a strip is the integral along the parts of the
/// outline that lie in it: its two straight sides add nothing, since they run across the direction of integration.
fn cut(pieces: &[Piece], across: Vec2, [from, to]: [f64; 2], count: usize) -> Vec<Bay> {
    let step = (to - from) / count as f64;
    let side = |place: usize| from + step * place as f64;
    let strip = |place: usize| Bay { sides: [side(place), side(place + 1)], area: Area::ZERO, pieces: Vec::new() };
    let mut bays: Vec<Bay> = (0..count).map(strip).collect();
    let origin = pieces.first().map_or(Point::ORIGIN, |piece| piece.start);
    for (index, piece) in pieces.iter().enumerate() {
        let mut ends = vec![0.0, piece.length()];
        for place in 1..count {
            let on = (across * side(place)).to_point();
            let along = across.turn_90();
            ends.extend(piece.crossings(on, along).into_iter().map(|at| piece.nearest(on + along * at)));
        }
        ends.sort_by(f64::total_cmp);
        for pair in ends.windows(2).filter(|pair| pair[1] - pair[0] > 0.0) {
            let middle = piece.at(pair[0].midpoint(pair[1])).to_vec2().dot(across);
            let place = (((middle - from) / step).floor().max(0.0) as usize).min(count - 1);
            let bay = &mut bays[place];
            bay.area = bay.area + Area::m2(piece.part(pair[0], pair[1]).area_under(origin, across));
            if !bay.pieces.contains(&index) {
                bay.pieces.push(index);
            }
        }
    }
    bays
}

/// The coats of oil on the floor.
pub(super) fn oil(source: &Source<'_>, build: &Build, system: System) -> Vec<Oil> {
    if let (true, Some(oil)) = (build.floor.layers.is_empty(), build.floor.oil.first()) {
        let path = format!("floor.oil.{}", oil.name.value);
        let hint = "write the layers of the floor, [[floor.layers]], or leave this out";
        source.fault(oil.name.span.clone(), &path, "there is no floor to oil", hint);
    }
    build.floor.oil.iter().filter_map(|written| coat(source, written, system)).collect()
}

fn coat(source: &Source<'_>, written: &build::Oil, system: System) -> Option<Oil> {
    let path = |noun: &str| format!("floor.oil.{}.{noun}", written.name.value);
    let areas = Area::m2(0.5)..Area::m2(400.0);
    let covers = within(source, written.covers.as_ref(), areas, "an area that oil covers", system);
    let volumes = Volume::litres(0.1)..Volume::litres(50.0);
    let takes = within(source, written.takes.as_ref(), volumes, "the oil that an area takes", system);
    let shares = Ratio::ZERO..Ratio::percent(90.000_001);
    let thinner = within(source, written.thinner.as_ref(), shares, "a share of thinner", system);
    Some(Oil {
        name: written.name.value.clone(),
        covers: covers?,
        takes: takes.unwrap_or_else(|| {
            let why = "the area is written for one litre";
            Known::assumed(Volume::litres(1.0), path("takes"), Origin::Judgement, why)
        }),
        thinner: thinner.unwrap_or_else(|| {
            let why = if written.thinner.is_none() { "no thinner is written" } else { "" };
            Known::assumed(Ratio::ZERO, path("thinner"), Origin::Judgement, why)
        }),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn round(radius: f64) -> Vec<Piece> {
        let at = |x: f64, y: f64| Point::new(x * radius, y * radius);
        let half = |from, through, to| Piece::arc_through(from, through, to).into_iter();
        half(at(1.0, 0.0), at(0.0, 1.0), at(-1.0, 0.0))
            .chain(half(at(-1.0, 0.0), at(0.0, -1.0), at(1.0, 0.0)))
            .collect()
    }

    #[test]
    fn strips_of_a_round_room_are_segments_of_a_circle() {
        let across = Vec2::new(0.6, 0.8);
        let pieces = round(2.0);
        let (extent, _) = reach(&pieces, across, 0);
        assert!((extent[0] + 2.0).abs() < 1e-12 && (extent[1] - 2.0).abs() < 1e-12);
        let bays = cut(&pieces, across, extent, 4);
        // Half the chord angle is 60 degrees where a chord lies at half the radius.
        let angle: f64 = 2.0 * std::f64::consts::FRAC_PI_3;
        let segment = 0.5 * 4.0 * (angle - angle.sin());
        let middle = std::f64::consts::TAU - segment;
        for (bay, area) in bays.iter().zip([segment, middle, middle, segment]) {
            assert!((bay.area.in_m2() - area).abs() < 1e-12, "{} is not {area}", bay.area.in_m2());
        }
    }

    #[test]
    fn a_hollow_room_is_cut_into_parts_that_are_the_whole() {
        let corners = [(0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (4.0, 4.0), (4.0, 1.0), (2.0, 1.0), (2.0, 4.0), (0.0, 4.0)];
        let corners = corners.map(|(x, y)| Point::new(x, y));
        let pieces: Vec<Piece> = (0..8).map(|at| Piece::straight(corners[at], corners[(at + 1) % 8])).collect();
        let upwards = cut(&pieces, Vec2::new(0.0, 1.0), [0.0, 4.0], 4);
        let areas: Vec<f64> = upwards.iter().map(|bay| bay.area.in_m2()).collect();
        assert_eq!(areas, [6.0, 4.0, 4.0, 4.0]);
        let skew = Vec2::new(0.8, 0.6);
        let (extent, _) = reach(&pieces, skew, 0);
        let sum: f64 = cut(&pieces, skew, extent, 7).iter().map(|bay| bay.area.in_m2()).sum();
        assert!((sum - 18.0).abs() < 1e-12, "{sum}");
    }
}
