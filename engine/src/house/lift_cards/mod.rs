//! What goes into each lift: every opening, frame, timber, sleeve and thing that is built in, by the range of its height.

mod band;
mod things;

use kurbo::Point;

use super::built_in::{Way, What};
use super::part::{Meaning, Outline, Part, Section};
use super::{House, Lift};
use crate::build::ServiceKind;
use crate::curve::{Cut, Depth, Side, Station};
use crate::units::Length;

/// What goes into one lift.
#[derive(Clone, Debug, PartialEq)]
pub struct LiftCard {
    /// The lift's name.
    pub name: String,
    /// Levels of its foot and its top.
    pub levels: [Length; 2],
    /// Its key in the build file.
    pub path: String,
    /// What goes in, numbered by its place from 1.
    pub items: Vec<Item>,
    /// The plan of its bed: the wall cut at its top.
    pub bed: Vec<Part>,
    /// Its band of the unrolled wall, in two rows.
    pub bands: [Section; 2],
    /// The lift that is laid on it.
    pub next: Option<String>,
    /// Whether it is laid on the stem wall.
    pub is_first: bool,
}

/// One thing of a lift.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is.
    pub kind: ItemKind,
    /// Its table in the build file.
    pub path: String,
    /// Its name.
    pub name: String,
    /// What of its height lies in the lift.
    pub share: Share,
    /// What to do with it in this lift.
    pub task: &'static str,
    /// The run it is in; empty where it is everywhere.
    pub run: String,
    /// Its figures: word and path of the row.
    pub rows: Vec<(&'static str, String)>,
    /// Whether the lift buries it, so that it is photographed first.
    pub is_buried: bool,
    /// Where it is in plan, in metres.
    pub marks: Vec<Point>,
    /// Where it is on the unrolled wall: distance from the first named point, and level; in metres.
    pub on_band: Vec<Point>,
    /// Its outline in plan.
    pub outlines: Vec<Outline>,
}

/// Kinds of what goes into a lift.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ItemKind {
    /// A door or a window, with its buck or its frame.
    Opening,
    /// The board on a sill.
    Sill,
    /// A lintel.
    Lintel,
    /// Deadmen, and their straps in the lifts above.
    Anchor,
    /// The bond beam and what holds it down.
    BondBeam,
    /// A hollow in one face.
    Niche,
    /// A board let into one face.
    Shelf,
    /// Ties of a bench.
    BenchTies,
    /// Ties of a buttress.
    ButtressTies,
    /// Bottle bricks.
    Bottles,
    /// A vent that is left open.
    Vent,
    /// Ties of a relief.
    ReliefTies,
    /// A sleeve of a service.
    Sleeve,
    /// The ring of a flue.
    FlueRing,
    /// A conduit upright in the wall.
    Conduit,
    /// A box of a conduit.
    ConduitBox,
}

/// What of a thing's height lies in a lift.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Share {
    /// All of it.
    Whole,
    /// It begins there and goes on.
    Begins,
    /// It goes through.
    Passes,
    /// It ends there.
    Ends,
}

/// A thing with the range of its height, in metres above the foot of the cob.
struct Thing<'a> {
    kind: ItemKind,
    path: String,
    name: &'a str,
    range: [f64; 2],
    /// What to do where it begins, goes through and ends.
    tasks: [&'static str; 3],
    run: Option<usize>,
    rows: Vec<(&'static str, String)>,
    is_buried: bool,
    stations: Vec<Station>,
    cuts: Vec<Cut>,
}

/// What goes into each lift, from the foot up.
#[must_use]
pub fn lift_cards(house: &House) -> Vec<LiftCard> {
    let things = things::things(house);
    let (lifts, unrolled) = (&house.wall.lifts, super::unrolled::Unrolled::of(house));
    let mut foot = Length::ZERO;
    let mut cards = Vec::new();
    for (place, lift) in lifts.iter().enumerate() {
        let (next, levels) = (lifts.get(place + 1), [foot, lift.top.value]);
        let items = things.iter().filter_map(|thing| thing.item(house, levels, next.is_none())).collect();
        cards.push(LiftCard {
            name: lift.name.clone(),
            levels,
            path: format!("wall.lifts.{}", lift.name),
            items,
            bed: super::parts::bed(house, levels),
            bands: band::bands(house, &unrolled, lift, place.checked_sub(1).map(|below| &lifts[below])),
            next: next.map(|next: &Lift| next.name.clone()),
            is_first: place == 0,
        });
        foot = lift.top.value;
    }
    cards
}

impl Thing<'_> {
    /// Which part of it lies in a lift; none where it does not reach into it. What begins on a bed belongs to the lift laid
    /// on that bed.
    fn share(&self, [foot, top]: [f64; 2], is_last: bool) -> Option<Share> {
        let [low, high] = self.range;
        let begins = foot <= low && (low < top || is_last && low <= top);
        let ends = foot < high && (high <= top || is_last);
        match (begins, ends) {
            (true, true) => Some(Share::Whole),
            (true, false) if high > low => Some(Share::Begins),
            (true, false) => Some(Share::Whole),
            (false, true) if low < foot => Some(Share::Ends),
            _ if low < foot && high > top => Some(Share::Passes),
            _ => None,
        }
    }

    fn item(&self, house: &House, levels: [Length; 2], is_last: bool) -> Option<Item> {
        let ends = levels.map(Length::in_m);
        let share = self.share(ends, is_last)?;
        let task = match share {
            Share::Whole | Share::Begins => self.tasks[0],
            Share::Passes => self.tasks[1],
            Share::Ends => self.tasks[2],
        };
        let [low, high] = [self.range[0].max(ends[0]), self.range[1].min(ends[1])];
        let level = low.midpoint(high.max(low));
        let line = &house.wall.line;
        let marks = self.stations.iter().map(|station| middle(house, *station, level)).collect();
        let on_band =
            self.stations.iter().map(|station| Point::new(line.from_first_point(line.along_line(*station)), level));
        let crosses = |cut: &&Cut| cut.form.bottom() < ends[1] && ends[0] < cut.form.top();
        let outlines = self.cuts.iter().filter(crosses).filter_map(|cut| outline(house, cut, ends[1])).collect();
        Some(Item {
            kind: self.kind,
            path: self.path.clone(),
            name: self.name.to_owned(),
            share,
            task,
            run: self.run.map_or_else(String::new, |run| house.wall.points[run].name.clone()),
            rows: self.rows.clone(),
            is_buried: self.is_buried,
            marks,
            on_band: on_band.collect(),
            outlines,
        })
    }
}

/// A point over the middle of the wall at a level.
fn middle(house: &House, station: Station, level: f64) -> Point {
    let shape = house.wall.shape();
    let along = shape.line.along_line(station);
    let [inner, outer] = [Side::Inner, Side::Outer].map(|side| shape.point(side, along, level));
    inner.midpoint(outer)
}

/// What a cut takes of the plan: at the top of the lift, or at its own widest level below it.
fn outline(house: &House, cut: &Cut, top: f64) -> Option<Outline> {
    let shape = house.wall.shape();
    let form = cut.form;
    let level = if form.top() > top { top } else { form.widest_above(0.0).min(form.top()) };
    let meaning = if form.top() > top { Meaning::Seen } else { Meaning::Hidden };
    let half = form.half_at(level);
    let face = |side: Side| -> Option<[Point; 2]> {
        let stretch = cut.stretch(&shape, side, level)?;
        Some(stretch.map(|along| shape.point(side, along, level)))
    };
    let points = match cut.depth {
        Depth::Through { .. } => {
            let ([a, b], [c, d]) = (face(Side::Inner)?, face(Side::Outer)?);
            vec![a, b, d, c]
        }
        Depth::Into { side, bottom } => {
            let ([a, b], station) = (face(side)?, cut.station);
            let back = |x: f64| station.beside(bottom) + station.axis * x;
            vec![a, b, back(half), back(-half)]
        }
    };
    Some(Outline::area(points, meaning))
}

/// Where a service goes in.
#[derive(Clone, Debug, PartialEq)]
pub struct ServicePlace {
    /// Its name.
    pub name: String,
    /// Its table in the build file.
    pub path: String,
    /// What it carries.
    pub kind: &'static str,
    /// The run that it is in; empty for the roof.
    pub run: String,
    /// Names of the lifts that it goes into.
    pub lifts: Vec<String>,
    /// Whether it goes into the stem wall, before the first lift.
    pub is_in_the_stem: bool,
    /// Whether it goes through the roof.
    pub is_through_the_roof: bool,
    /// Whether it is a flue whose clearance is not written.
    pub lacks_clearance: bool,
}

/// Where every service goes in.
#[must_use]
pub fn service_places(house: &House, cards: &[LiftCard]) -> Vec<ServicePlace> {
    let services = house.built_in.iter().filter_map(|thing| match &thing.what {
        What::Service(service) => Some((thing, service)),
        _ => None,
    });
    let placed = services.map(|(thing, service)| {
        let stem = thing.stem();
        let (run, is_in_the_stem) = match &service.way {
            Way::Through(passing) => (Some(passing.spot.run), passing.is_in_the_stem()),
            Way::Upright(upright) => (Some(upright.spot.run), upright.level.value < Length::ZERO),
            Way::Roof { .. } => (None, false),
        };
        let clearance = match &service.way {
            Way::Through(passing) => passing.clearance.is_some(),
            Way::Roof { clearance, .. } => clearance.is_some(),
            Way::Upright(_) => false,
        };
        let holds = |card: &&LiftCard| card.items.iter().any(|item| item.path == stem);
        ServicePlace {
            name: thing.name.clone(),
            kind: service.kind.word(),
            run: run.map_or_else(String::new, |run| house.wall.points[run].name.clone()),
            lifts: cards.iter().filter(holds).map(|card| card.name.clone()).collect(),
            is_in_the_stem,
            is_through_the_roof: run.is_none(),
            lacks_clearance: service.kind == ServiceKind::Flue && !clearance,
            path: stem,
        }
    });
    placed.collect()
}
