//! Who and what finds room within a closed wall, before anything is built: people and things at true size.

use kurbo::{Point, Vec2};

use super::House;
use crate::build::OpeningKind;
use crate::solve::polygon::{bounds, contains};

/// Steps across the room between places that are tried.
const PLACES: u32 = 16;
/// Angles tried at a place, in half a turn.
const TURNS: u32 = 8;
/// Places along the wall at which a bench is tried.
const ALONG: u32 = 32;
/// Air between a thing and the wall, and between two things, in metres.
const FROM_WALL: f64 = 0.04;
const APART: f64 = 0.1;
/// How far the flattened line may lie from its curve, in metres.
const CHORD: f64 = 0.02;

/// What a room is judged by: usual measures, our judgement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// Someone standing.
    Standing,
    /// Someone lying, 1.75 m tall.
    Lying,
    /// A bench, 1.2 m long.
    Bench,
    /// A barrow, 1.45 m long.
    Barrow,
}

impl Figure {
    /// Half of its length and half of its width, in metres.
    fn half(self) -> [f64; 2] {
        match self {
            Figure::Standing => [0.3, 0.24],
            Figure::Lying => [0.9, 0.32],
            Figure::Bench => [0.6, 0.19],
            Figure::Barrow => [0.74, 0.33],
        }
    }
}

/// A figure where it finds room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// What it is.
    pub figure: Figure,
    /// Its middle, in metres of the plan.
    pub at: Point,
    /// Unit direction of its length.
    pub way: Vec2,
}

impl Placed {
    fn point(&self, [along, across]: [f64; 2]) -> Point {
        self.at + self.way * along + self.way.turn_90() * across
    }

    /// The corners of what it covers, in metres of the plan.
    #[must_use]
    pub fn corners(&self) -> [Point; 4] {
        let [long, wide] = self.figure.half();
        [[-long, -wide], [long, -wide], [long, wide], [-long, wide]].map(|place| self.point(place))
    }

    /// Points spread over what it covers, its corners first.
    fn samples(&self) -> impl Iterator<Item = Point> + '_ {
        let [long, wide] = self.figure.half();
        let along = [-1.0, 1.0, -0.5, 0.5, 0.0];
        along.into_iter().flat_map(move |a| [-1.0, 1.0, 0.0].map(move |b| self.point([a * long, b * wide])))
    }

    fn overlaps(&self, other: &Placed) -> bool {
        let over = |one: &Placed, other: &Placed| {
            let [long, wide] = one.figure.half().map(|half| half + APART);
            other.samples().any(|point| {
                let off = point - one.at;
                off.dot(one.way).abs() < long && off.dot(one.way.turn_90()).abs() < wide
            })
        };
        over(self, other) || over(other, self)
    }
}

/// Who and what finds room within the wall.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Furnishing {
    /// The figures that find room; those that find none are left out.
    pub placed: Vec<Placed>,
    /// The place farthest from the wall and from all of them; none under the open sky.
    pub free: Option<Point>,
}

/// The ground within the wall.
struct Room<'a> {
    house: &'a House,
    /// The line, flattened.
    line: Vec<Point>,
    /// Doors, and how far from their middle the ground stays free: as far as the leaf is wide, beyond the face of the wall.
    doors: Vec<(Point, f64)>,
}

/// Who and what finds room within the wall of a house: the bench along it, the others where there is most room.
#[must_use]
pub fn furnishing(house: &House) -> Furnishing {
    if !house.wall.line.is_closed() {
        return Furnishing::default();
    }
    let room = Room::of(house);
    let places = room.places();
    let mut placed: Vec<Placed> = room.bench().into_iter().collect();
    for figure in [Figure::Lying, Figure::Barrow, Figure::Standing] {
        placed.extend(room.freest(figure, &places, &placed));
    }
    let beside = |at: Point| {
        let points = placed.iter().flat_map(|one| one.samples().collect::<Vec<_>>());
        points.map(|point| point.distance(at)).fold(f64::INFINITY, f64::min)
    };
    let worth = places.iter().map(|(at, clear)| (*at, clear.min(beside(*at))));
    let free = worth.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(at, _)| at);
    Furnishing { placed, free }
}

impl Room<'_> {
    fn of(house: &House) -> Room<'_> {
        let line = &house.wall.line;
        let doors = house.openings.iter().filter(|opening| opening.kind == OpeningKind::Door).map(|door| {
            let half = half_wall(house, line.along_line(door.station));
            (door.station.point, half + door.width.value.in_m())
        });
        Room { house, doors: doors.collect(), line: line.outline(0.0, CHORD) }
    }

    /// From a point to the face of wall or stem at the foot, in metres; below zero in the wall or beyond it.
    fn clear(&self, point: Point) -> f64 {
        let line = &self.house.wall.line;
        let nearest = line.nearest(point);
        let off = nearest.point.distance(point);
        let inward = if contains(&self.line, point) { off } else { -off };
        inward - half_wall(self.house, line.along_line(nearest))
    }

    /// Places at which something is tried, with their distance to the wall.
    fn places(&self) -> Vec<(Point, f64)> {
        let extent = bounds(self.line.iter().copied());
        let grid = (1..PLACES).flat_map(|column| (1..PLACES).map(move |row| [column, row]));
        let at = |place: [u32; 2]| {
            let [across, up] = place.map(|place| f64::from(place) / f64::from(PLACES));
            Point::new(extent.x0 + extent.width() * across, extent.y0 + extent.height() * up)
        };
        grid.map(at).map(|at| (at, self.clear(at))).filter(|(_, clear)| *clear > 0.0).collect()
    }

    /// The bench against the wall, as far from the doors as may be.
    fn bench(&self) -> Option<Placed> {
        let wall = &self.house.wall;
        let mut tried: Vec<(f64, f64)> = (0..ALONG)
            .map(|place| {
                let along = wall.line.length() * f64::from(place) / f64::from(ALONG);
                (self.to_doors(wall.line.at(along).point), along)
            })
            .collect();
        tried.sort_by(|a, b| b.0.total_cmp(&a.0));
        tried.into_iter().find_map(|(_, along)| {
            let station = wall.line.at(along);
            let off = half_wall(self.house, along) + Figure::Bench.half()[1] + FROM_WALL;
            let at = station.beside(-off);
            let mut bench = Placed { figure: Figure::Bench, at, way: station.axis };
            // A straight bench stands off a hollow wall by as much as its ends need.
            let least = bench.samples().map(|point| self.clear(point)).fold(f64::INFINITY, f64::min);
            bench.at += station.axis.turn_90() * (2.0 * FROM_WALL - least).max(0.0);
            self.holds(&bench, self.clear(bench.at)).then_some(bench)
        })
    }

    /// A figure where there is most room.
    fn freest(&self, figure: Figure, places: &[(Point, f64)], others: &[Placed]) -> Option<Placed> {
        let apart = |at: Point| {
            let nearest = others.iter().map(|other| other.at.distance(at)).fold(f64::INFINITY, f64::min);
            0.5 * nearest.min(self.to_doors(at))
        };
        let wide = places.iter().filter(|(_, clear)| *clear > figure.half()[1]);
        let mut tried: Vec<(f64, Point, f64)> = wide.map(|(at, clear)| (clear.min(apart(*at)), *at, *clear)).collect();
        tried.sort_by(|a, b| b.0.total_cmp(&a.0));
        tried.into_iter().find_map(|(_, at, clear)| {
            let turned = (0..TURNS).map(|turn| {
                let angle = std::f64::consts::PI * f64::from(turn) / f64::from(TURNS);
                Placed { figure, at, way: Vec2::from_angle(angle) }
            });
            let mut holds = turned.filter(|one| !others.iter().any(|other| other.overlaps(one)));
            holds.find(|one| self.holds(one, clear))
        })
    }

    /// From the nearest door, in metres.
    fn to_doors(&self, at: Point) -> f64 {
        self.doors.iter().map(|(door, _)| door.distance(at)).fold(f64::INFINITY, f64::min)
    }

    /// Whether a figure, whose middle is so far from the wall, stands clear of wall and doors.
    fn holds(&self, placed: &Placed, clear: f64) -> bool {
        let [long, wide] = placed.figure.half();
        let is_clear =
            clear > long.hypot(wide) + FROM_WALL || placed.samples().all(|point| self.clear(point) > FROM_WALL);
        is_clear && placed.samples().all(|point| self.doors.iter().all(|(door, free)| door.distance(point) > *free))
    }
}

/// Half of what is wider at the foot, wall or stem, at a distance along the line, in metres.
fn half_wall(house: &House, along: f64) -> f64 {
    0.5 * house.wall.thicknesses.at(along).max(house.wall.stem_widths.at(along))
}
