//! What paper shows of a ring of measured poles beside its rows: where they lie, what covers what, prop and order of raising.

use kurbo::{Point, Vec2};

use super::part::{Dimension, Material, Meaning, Measured, Outline, Part};
use super::{Borne, Frame, House, Ring, Secondary};
use crate::known::Known;
use crate::roof::poles::{self, Set};
use crate::units::{Density, Length, Mass};
use crate::wall;

/// Chord error of drawn curves, in metres.
const CHORD: f64 = 0.002;

/// The ring of a roof as drawings show it; lengths in metres, levels from the foot of the cob.
#[derive(Clone, Debug, PartialEq)]
pub struct RingPlan {
    /// The poles in the order of their places.
    pub places: Vec<PlacedPole>,
    /// The places in the order in which poles are raised.
    pub order: Vec<usize>,
    /// The top of the wall and the eave.
    pub parts: Vec<Part>,
    /// The line of the plate.
    pub plate: Vec<Point>,
    /// The corners of the eye.
    pub eye: Vec<Point>,
    /// What is measured in plan.
    pub dimensions: Vec<Dimension>,
    /// The prop, and the first pole on it.
    pub prop: Prop,
    /// Rows of what teams lift: how many people, and the path.
    pub teams: Vec<(u64, String)>,
    /// Secondary rafters and trimmers.
    pub secondary: Vec<Round>,
    /// How its poles are cut where those are a second ring, which lifts boards off them.
    pub second: Option<CutForSecond>,
}

/// How poles are cut for a second ring that stands on them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CutForSecond {
    /// Whether each has a housing.
    pub is_housed: bool,
    /// Whether each has the hole of a bolt.
    pub is_bored: bool,
}

impl CutForSecond {
    /// What is done to poles, in words; nothing where they stay whole.
    #[must_use]
    pub fn in_words(self) -> Option<&'static str> {
        match (self.is_housed, self.is_bored) {
            (true, true) => Some("housed and bored"),
            (true, false) => Some("housed"),
            (false, true) => Some("bored"),
            (false, false) => None,
        }
    }
}

/// A round piece between two poles, in plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Round {
    /// Its axis.
    pub axis: [Point; 2],
    /// Its diameter.
    pub diameter: f64,
    /// The row that says how thick it is.
    pub path: String,
}

/// A pole in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedPole {
    /// The stem of its rows, without a dot at its end.
    pub stem: String,
    /// The tag of its pole.
    pub tag: String,
    /// Whether somebody measured it; a typical one is not cut by its marks.
    pub is_measured: bool,
    /// Whether its thin end lies on the wall.
    pub is_turned: bool,
    /// The place that carries it, and the one that it carries.
    pub neighbours: Neighbours,
    /// Places whose poles lie over it where they cross in plan.
    pub covered_by: Vec<usize>,
    /// Its axis from its butt to where it is cut.
    pub axis: [[f64; 3]; 2],
    /// Its diameters there.
    pub diameters: [f64; 2],
    /// Where it lies on the plate, carries and rests, in plan.
    pub at: Stations<Point>,
    /// The same along it from its butt.
    pub along: Stations<f64>,
    /// Where it is cut, and how long it was, from its butt.
    pub lengths: [f64; 2],
    /// Its diameter at the end that is cut off.
    pub end: f64,
    /// How far it bows upwards in its middle.
    pub bow: f64,
    /// How deep it is cut at its seat, and its share of the notches where it carries and where it rests.
    pub cuts: Stations<f64>,
    /// How many people lift its tip while its butt stays down; none where it takes a tripod, a ramp or a rope.
    pub people: Option<u64>,
}

/// The places beside one, from zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Neighbours {
    /// It rests on this one.
    pub rests_on: usize,
    /// It carries this one.
    pub carries: usize,
}

/// What is said of the three places at which a pole touches others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stations<T> {
    /// Where it lies on the plate.
    pub seat: T,
    /// Where it carries its neighbour.
    pub carry: T,
    /// Where it rests on the other.
    pub rest: T,
}

/// The prop seen square to the first pole: x from the seat of that pole towards the eye, y the level.
#[derive(Clone, Debug, PartialEq)]
pub struct Prop {
    /// Where it stands, in plan.
    pub at: Point,
    /// The top of the prop.
    pub top: Point,
    /// Level of the finished floor.
    pub floor: f64,
    /// Where the first pole lies on the plate.
    pub seat: Point,
    /// Height of the timber on the wall.
    pub beam: f64,
    /// The faces of the wall's top.
    pub wall: [f64; 2],
    /// The axis of the first pole on the prop, and when the prop is gone, from its butt to where it is cut.
    pub axes: [[Point; 2]; 2],
    /// What is measured.
    pub dimensions: Vec<Dimension>,
}

/// The ring of the roof; none where no pole is measured.
#[must_use]
pub fn ring_plan(house: &House) -> Option<RingPlan> {
    let roof = house.roof.as_ref()?;
    let Frame::Reciprocal { ring: Some(ring), eye, .. } = &roof.frame else { return None };
    let wall = &house.wall;
    let [thickness, height] = wall.means();
    let plate = wall::plate_offset(wall.batter_inside.value, wall.batter_outside.value, height).value;
    let out = wall::eave_offset(thickness, wall.batter_outside.value, height, roof.overhang.value).value;
    let half = 0.5 * wall.least_top_thickness();
    let edges = [plate - half, plate + half].map(Length::in_m);
    let top = wall.line.band(edges[0], edges[1], CHORD);
    let eave = wall.line.outline(out.in_m(), CHORD);
    let area = |points: Vec<Point>, meaning| Outline::area(points, meaning);
    let parts = vec![
        Part::new(
            "wall",
            "top of the wall",
            Material::Cob,
            top.iter().cloned().map(|top| area(top, Meaning::Seen)).collect(),
        ),
        Part::new("roof.overhang", "eave", Material::Timber, vec![area(eave, Meaning::Hidden)]),
    ];
    let count = ring.solved.sets.len();
    let centre = wall.line.centre();
    let corner = |place: usize| {
        let turn = ring.turned.value.in_rad() + std::f64::consts::TAU * place as f64 / count as f64;
        centre + Vec2::from_angle(turn) * eye.value.in_m()
    };
    let corners: Vec<Point> = (0..count).map(corner).collect();
    let on = corners.first().copied().unwrap_or(centre);
    let density = roof.density.value;
    let mut places: Vec<PlacedPole> = (0..count).map(|place| placed(ring, place, density)).collect();
    let covers: Vec<Vec<usize>> = (0..count).map(|place| covering(&places, place)).collect();
    for (pole, covers) in places.iter_mut().zip(covers) {
        pole.covered_by = covers;
    }
    Some(RingPlan {
        prop: prop(house, ring, &top),
        places,
        order: ring.propped.order.clone(),
        parts,
        plate: wall.line.outline(plate.in_m(), CHORD),
        eye: corners,
        dimensions: vec![Dimension { path: eye.path.clone(), measured: Measured::Radius { centre, on } }],
        teams: poles::teams()
            .iter()
            .map(|team| (team.people, format!("roof.raising.lift-of-{}", team.people)))
            .collect(),
        secondary: roof.secondary.as_ref().map(secondary).unwrap_or_default(),
        second: roof
            .second_ring()
            .map(|own| CutForSecond { is_housed: own.housing.value > Length::ZERO, is_bored: own.bolt.is_some() }),
    })
}

fn secondary(own: &Secondary) -> Vec<Round> {
    let flat = |[x, y, _]: [f64; 3]| Point::new(x, y);
    let round = |axis: [Point; 2], known: &Known<Length>| Round {
        axis,
        diameter: known.value.in_m(),
        path: known.path.clone(),
    };
    let rafters = own.trimmed().iter().flat_map(|bay| &bay.rafters).map(|&[eave, _, end]| [eave, end]);
    let on_poles = own.on_poles().iter().map(|one| [one.axis[0], one.axis[3]]);
    let mut all: Vec<Round> = rafters.chain(on_poles).map(|axis| round(axis.map(flat), &own.diameter)).collect();
    if let Borne::Trimmed { trimmer, bays, .. } = &own.borne {
        all.extend(bays.iter().map(|bay| round(bay.trimmer.map(flat), trimmer)));
    }
    all
}

fn placed(ring: &Ring, place: usize, density: Density) -> PlacedPole {
    let (set, rafter) = (&ring.solved.sets[place], &ring.layout.rafters[place]);
    let (above, below) = (ring.layout.above(place), ring.layout.below(place));
    let cut = set.rest + rafter.beyond;
    let (butt, end) = (rafter.pole.butt, rafter.pole.diameter(cut));
    let share = |place: usize| 0.5 * ring.layout.rafters[place].notch.in_m();
    let flat = |[x, y, _]: [Length; 3]| Point::new(x.in_m(), y.in_m());
    PlacedPole {
        stem: format!("roof.places.{}", place + 1),
        tag: ring.pole(place).tag.clone(),
        is_measured: ring.pole(place).is_measured,
        is_turned: ring.choice.places[place].is_turned,
        neighbours: Neighbours { rests_on: below, carries: above },
        covered_by: Vec::new(),
        axis: axis(ring, place, set),
        diameters: [butt.in_m(), end.in_m()],
        at: Stations { seat: flat(rafter.support), carry: flat(set.carry_at), rest: flat(set.rest_at) },
        along: Stations { seat: rafter.overhang.in_m(), carry: set.carry.in_m(), rest: set.rest.in_m() },
        lengths: [cut.in_m(), rafter.pole.length.in_m()],
        end: rafter.pole.tip.in_m(),
        bow: rafter.pole.bow.in_m(),
        cuts: Stations { seat: ring.seat.value.in_m(), carry: share(above), rest: share(place) },
        people: people([butt, end], cut, (density, ring.alone.value)),
    }
}

/// How many people lift one end of a pole while the other stays down: between its diameters, of a density, each lifting so much alone.
pub(super) fn people([down, up]: [Length; 2], length: Length, (density, alone): (Density, Mass)) -> Option<u64> {
    let mass = poles::tapered_volume(down, up, length).value * density;
    let balance = poles::balance_point(down, up, length).value;
    poles::lifted_by(poles::mass_at_end(mass, balance, length).value, alone, &poles::teams())
}

/// The string of a pole at the pitch of a set, from its butt to where it is cut.
pub(crate) fn axis(ring: &Ring, place: usize, set: &Set) -> [[f64; 3]; 2] {
    let rafter = &ring.layout.rafters[place];
    let [x, y, level] = set.support.map(Length::in_m);
    let toward = Vec2::new(rafter.toward[0].in_m() - x, rafter.toward[1].in_m() - y).normalize();
    let cut = ring.solved.sets[place].rest + rafter.beyond;
    let (rise, run) = set.pitch.in_rad().sin_cos();
    [-rafter.overhang.in_m(), (cut - rafter.overhang).in_m()].map(|along| {
        let out = toward * (run * along);
        [x + out.x, y + out.y, level + rise * along]
    })
}

/// The places whose poles lie over one where their axes cross in plan, each reaching on by its own thickness.
fn covering(places: &[PlacedPole], place: usize) -> Vec<usize> {
    let own = &places[place];
    let over = |other: &usize| {
        let other = &places[*other];
        let [mine, theirs] = [own, other].map(|pole| pole.axis.map(|[x, y, _]| Point::new(x, y)));
        let [along, beside] = [mine, theirs].map(|[from, to]| to - from);
        let between = theirs[0] - mine[0];
        let turn = along.cross(beside);
        let shares = [between.cross(beside) / turn, between.cross(along) / turn];
        let reaches = |share: f64, length: f64, wide: f64| share * length > -wide && (share - 1.0) * length < wide;
        let level = |pole: &PlacedPole, share: f64| pole.axis[0][2] + share * (pole.axis[1][2] - pole.axis[0][2]);
        reaches(shares[0], along.hypot(), own.diameters[0])
            && reaches(shares[1], beside.hypot(), other.diameters[0])
            && level(other, shares[1]) > level(own, shares[0])
    };
    (0..places.len()).filter(|other| *other != place).filter(over).collect()
}

fn prop(house: &House, ring: &Ring, top_of_wall: &[Vec<Point>]) -> Prop {
    let first = ring.propped.order.first().map_or(0, |&first| first);
    let (up, down) = (&ring.propped.sets[first], &ring.solved.sets[first]);
    let rafter = &ring.layout.rafters[first];
    let [x, y, plate] = rafter.support.map(Length::in_m);
    let seat = Point::new(x, y);
    let way = (Point::new(rafter.toward[0].in_m(), rafter.toward[1].in_m()) - seat).normalize();
    let seen =
        |set: &Set| axis(ring, first, set).map(|[x, y, level]| Point::new((Point::new(x, y) - seat).dot(way), level));
    let out = up.plan_lengths[1].in_m();
    let (top, floor) = (Point::new(out, ring.propped.top.in_m()), house.floor_level.value.in_m());
    let met = |side: f64| {
        let sides = top_of_wall.iter().flat_map(|outline| outline.iter().zip(outline.iter().cycle().skip(1)));
        let met = sides.filter_map(|(&one, &other)| {
            let side_way = other - one;
            let turn = way.cross(side_way);
            let (along, share) = ((one - seat).cross(side_way) / turn, (one - seat).cross(way) / turn);
            ((0.0..=1.0).contains(&share) && along * side > 0.0).then_some(along)
        });
        met.fold(side * f64::INFINITY, |near, along| if along.abs() < near.abs() { along } else { near })
    };
    let half = 0.5 * house.wall.thickness.value.in_m();
    let wall = [-1.0, 1.0].map(|side| Some(met(side)).filter(|along| along.is_finite()).unwrap_or(side * half));
    let upright =
        |path: &str, from: f64, away: f64| Dimension::between(path, [Point::new(out, from), top], Vec2::new(away, 0.0));
    Prop {
        at: ring.prop(),
        top,
        floor,
        seat: Point::new(0.0, plate),
        beam: house.bond_beam.as_ref().map_or(0.0, |beam| beam.height.value.in_m()),
        wall,
        axes: [seen(up), seen(down)],
        dimensions: vec![
            upright("roof.raising.prop-above-floor", floor, 1.0),
            upright("roof.raising.prop-above-plate", plate, -1.0),
        ],
    }
}
