//! Shims between the rafters' tops and the deck: their height on either side of each rafter, station by station.
//!
//! A shim bears on the top of the pole over half the bearing width on its side of the top line, where the pole is planed or the
//! shim scribed to it. Heights are plumb. Its inner height stands over the top line, its outer one at the edge of the bearing.

use std::collections::BTreeMap;

use super::bay::Bay;
use super::frame::{Frame, TopLine};
use super::plane::Plane;
use super::space::{Place, in_plan, minus};
use crate::reason::formula;
use crate::units::{Angle, Length, Volume};

/// What the underside of the deck follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Deck {
    /// The twisted surface between the top lines.
    Ruled,
    /// In each bay the flat plane nearest to its two top lines.
    FlatBays,
    /// One flat plane for the whole roof, nearest to all top lines.
    OnePlane,
}

/// How shims are asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bedding {
    /// What the deck follows.
    pub deck: Deck,
    /// From station to station, along the top from over the outer support.
    pub spacing: Length,
    /// Width of a rafter's top that carries shims, both sides together.
    pub bearing: Length,
    /// The least height of any shim.
    pub least: Length,
}

/// The shim on one side of a rafter at a station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shim {
    /// Its height over the top line.
    pub inner: Length,
    /// Its height at the edge of the bearing.
    pub outer: Length,
    /// The angle of its top from the level, square to the rafter: above zero where it rises away from the rafter.
    pub cut: Angle,
}

impl Shim {
    /// Its height at the higher side: what it is cut from.
    #[must_use]
    pub fn height(&self) -> Length {
        self.inner.max(self.outer)
    }
}

/// A station on a rafter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Along the top from over the outer support, above zero inwards.
    pub along: Length,
    /// Left and right, seen from the foot; none where no bay lies.
    pub sides: [Option<Shim>; 2],
}

/// All shims of a deck.
#[derive(Clone, Debug, PartialEq)]
pub struct ShimTable {
    /// The stations of each rafter, from the eave to the eye.
    pub rafters: Vec<Vec<Station>>,
    /// How far the deck of each bay was raised so that no shim is lower than the least.
    pub raised: Vec<Length>,
}

/// The shim table of a frame.
#[must_use]
pub fn shims(frame: &Frame, bedding: &Bedding) -> ShimTable {
    let bays = frame.bays();
    let beds = beds(&bays, bedding.deck);
    let mut rafters: Vec<Vec<Station>> = Vec::new();
    let mut lowest = vec![Length::m(f64::INFINITY); bays.len()];
    for (number, top) in frame.rafters().iter().enumerate() {
        let sides = frame.sides(number);
        let at = |along: Length| {
            let share = (along - top.along(top.eave)) / top.length();
            let shim = |side: usize| {
                let bay = sides[side]?;
                let second = usize::from(bays[bay].rafters[0] != number);
                Some(beds[bay].shim(top, share, second, side == 0, bedding.bearing))
            };
            Station { along, sides: [shim(0), shim(1)] }
        };
        let stations: Vec<Station> = places(top, bedding.spacing).into_iter().map(at).collect();
        for station in &stations {
            for (bay, shim) in sides.iter().zip(&station.sides) {
                if let (Some(bay), Some(shim)) = (*bay, shim) {
                    lowest[bay] = lowest[bay].min(shim.inner.min(shim.outer));
                }
            }
        }
        rafters.push(stations);
    }
    if bedding.deck == Deck::OnePlane {
        let lowest_of_all = lowest.iter().copied().fold(Length::m(f64::INFINITY), Length::min);
        lowest.fill(lowest_of_all);
    }
    let raised: Vec<Length> = lowest.into_iter().map(|lowest| bedding.least - lowest).collect();
    for (number, stations) in rafters.iter_mut().enumerate() {
        let sides = frame.sides(number);
        for (side, shim) in stations.iter_mut().flat_map(|station| station.sides.iter_mut().enumerate()) {
            if let (Some(bay), Some(shim)) = (sides[side], shim) {
                shim.inner = shim.inner + raised[bay];
                shim.outer = shim.outer + raised[bay];
            }
        }
    }
    ShimTable { rafters, raised }
}

impl ShimTable {
    /// Every shim, rafter by rafter.
    pub fn all(&self) -> impl Iterator<Item = &Shim> {
        self.rafters.iter().flatten().flat_map(|station| station.sides.iter().flatten())
    }

    /// The highest of all.
    #[must_use]
    pub fn largest(&self) -> Length {
        self.all().map(|shim| shim.height()).fold(Length::ZERO, Length::max)
    }

    /// The lowest edge of all.
    #[must_use]
    pub fn least(&self) -> Length {
        self.all().map(|shim| shim.inner.min(shim.outer)).fold(Length::m(f64::INFINITY), Length::min)
    }

    /// How many shims are cut from each class of height: class k holds what is above k − 1 and not above k steps.
    #[must_use]
    pub fn classes(&self, step: Length) -> BTreeMap<u64, u64> {
        let mut classes = BTreeMap::new();
        for shim in self.all() {
            *classes.entry(crate::solve::whole::rounded_up(shim.height() / step)).or_default() += 1;
        }
        classes
    }
}

formula! {
    /// Wood of all shims, laid without gaps along every rafter.
    ///
    /// ```text
    /// V = Σ b/2 (h + h′)/2 Δx        h, h′: inner and outer height; b: width of the bearing; Δx: in plan from station to station
    /// ```
    /// Source: trapezium rule, exact for a flat deck; a rafter's top line is straight.
    pub fn shim_volume(bearing: Length; frame: &Frame, table: &ShimTable) -> Volume {
        let mut volume = Volume::ZERO;
        for (top, stations) in frame.rafters().iter().zip(&table.rafters) {
            let rise = minus(top.eye, top.eave);
            let level = rise[0].hypot(rise[1]) / top.length().in_m();
            for pair in stations.windows(2) {
                let apart = (pair[1].along - pair[0].along) * level;
                for side in 0..2 {
                    if let (Some(one), Some(next)) = (pair[0].sides[side], pair[1].sides[side]) {
                        let heights = one.inner + one.outer + next.inner + next.outer;
                        volume = volume + apart * (bearing * 0.5) * (heights * 0.25);
                    }
                }
            }
        }
        volume
    }
}

/// Whole spacings from over the outer support, and both cuts.
fn places(top: &TopLine, spacing: Length) -> Vec<Length> {
    let [from, to] = [top.along(top.eave), top.along(top.eye)];
    let near = Length::mm(1.0);
    let first = ((from + near) / spacing).ceil() as i64;
    let last = ((to - near) / spacing).floor() as i64;
    let between = (first..=last).map(|number| spacing * number as f64);
    [from].into_iter().chain(between).chain([to]).collect()
}

/// The underside of a bay's deck before it is raised.
enum Bed<'b> {
    Ruled(&'b Bay<'b>),
    Flat(Plane),
}

fn beds<'b>(bays: &'b [Bay<'b>], deck: Deck) -> Vec<Bed<'b>> {
    let lines = |bay: &Bay<'_>| bay.patch.corners;
    match deck {
        Deck::Ruled => bays.iter().map(Bed::Ruled).collect(),
        Deck::FlatBays => bays.iter().map(|bay| Bed::Flat(Plane::nearest(&lines(bay)))).collect(),
        Deck::OnePlane => {
            let plane = Plane::nearest(&bays.iter().flat_map(lines).collect::<Vec<[Place; 2]>>());
            bays.iter().map(|_| Bed::Flat(plane)).collect()
        }
    }
}

impl Bed<'_> {
    fn shim(&self, top: &TopLine, share: f64, second: usize, left: bool, bearing: Length) -> Shim {
        let place = top.at(share);
        let (inner, [x, y]) = match self {
            Bed::Ruled(bay) => (0.0, bay.patch.slopes(share, second as f64)),
            Bed::Flat(plane) => (plane.height(in_plan(place)) - place[2], plane.slopes()),
        };
        let way = (in_plan(top.eye) - in_plan(top.eave)).normalize();
        let away = if left { kurbo::Vec2::new(-way.y, way.x) } else { kurbo::Vec2::new(way.y, -way.x) };
        let slope = x * away.x + y * away.y;
        let inner = Length::m(inner);
        Shim { inner, outer: inner + bearing * (0.5 * slope), cut: Angle::rad(slope.atan()) }
    }
}
