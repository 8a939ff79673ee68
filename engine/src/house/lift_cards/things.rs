//! Every thing that goes into a wall, with the range of its height and what to do with it in a lift.

use super::{ItemKind, Thing};
use crate::build::{OpeningKind, ServiceKind};
use crate::curve::{Cut, Station};
use crate::house::built_in::{Anchors, Bottles, BuiltIn, Service, Upright, Way, What};
use crate::house::{House, Opening};

const DOOR: [&str; 3] = [
    "set buck or frame plumb on the stem wall, brace it both ways, keys on its sides",
    "keep it braced and plumb; keys into the cob on both sides",
    "its head is in this lift: leave the gap over it open",
];
const WINDOW: [&str; 3] = [
    "level its bed, set buck or frame plumb on it, brace it, keys on its sides",
    "keep it braced and plumb; keys into the cob on both sides",
    "its head is in this lift: leave the gap over it open",
];

/// Everything that goes into the wall of a house.
pub(super) fn things(house: &House) -> Vec<Thing<'_>> {
    let mut things: Vec<Thing<'_>> = house.openings.iter().flat_map(of_opening).collect();
    things.extend(house.anchors.iter().map(|anchors| of_anchors(house, anchors)));
    things.extend(house.built_in.iter().flat_map(|thing| of_built_in(house, thing)));
    if house.bond_beam.is_some() {
        let highest = house.wall.lifts.last().map_or(house.wall.height.value, |lift| lift.top.value);
        let lowest = house.wall.least_top([0.0, house.wall.line.length()]);
        let task =
            "how the beam is held down is not computed: an engineer says what goes into this lift, before it closes";
        things.push(Thing {
            range: [lowest.in_m(), highest.in_m()],
            rows: listed(
                "wall",
                &[("underside, wet", "wet-height"), ("width", "bond-beam.width"), ("height", "bond-beam.height")],
            ),
            ..Thing::new(ItemKind::BondBeam, "wall.bond-beam".into(), "hold-down of the bond beam", [task; 3])
        });
    }
    things
}

impl<'a> Thing<'a> {
    fn new(kind: ItemKind, path: String, name: &'a str, tasks: [&'static str; 3]) -> Thing<'a> {
        let is_buried = !matches!(kind, ItemKind::Opening | ItemKind::Sill | ItemKind::Niche | ItemKind::Vent);
        let (run, rows, stations, cuts) = (None, Vec::new(), Vec::new(), Vec::new());
        Thing { kind, path, name, range: [0.0; 2], tasks, run, rows, is_buried, stations, cuts }
    }

    /// As high as a cut, where it is.
    fn of_cut(self, run: usize, cut: Cut) -> Thing<'a> {
        let range = [cut.form.bottom().max(0.0), cut.form.top()];
        Thing { range, run: Some(run), stations: vec![cut.station], cuts: vec![cut], ..self }
    }

    fn at(self, run: usize, station: Station, range: [f64; 2]) -> Thing<'a> {
        Thing { range, run: Some(run), stations: vec![station], ..self }
    }

    fn with(self, nouns: &[(&'static str, &str)]) -> Thing<'a> {
        let rows = listed(&self.path, nouns);
        Thing { rows, ..self }
    }
}

fn listed(stem: &str, nouns: &[(&'static str, &str)]) -> Vec<(&'static str, String)> {
    nouns.iter().map(|(word, noun)| (*word, format!("{stem}.{noun}"))).collect()
}

fn of_opening(opening: &Opening) -> Vec<Thing<'_>> {
    let (name, run) = (opening.name.as_str(), opening.run);
    let stem = format!("openings.{name}");
    let bottom = if opening.kind == OpeningKind::Door { "threshold" } else { "sill" };
    let tasks = if opening.kind == OpeningKind::Door { DOOR } else { WINDOW };
    let nouns =
        [("along", "along"), (bottom, bottom), ("width", "width"), ("height", "height"), ("gap over it", "gap")];
    let own = Thing::new(ItemKind::Opening, stem.clone(), name, tasks).of_cut(run, opening.cut).with(&nouns);
    let mut things = vec![own];
    if opening.sill_board.is_some() {
        let level = opening.bottom.value.in_m();
        let task = "bed its board on the finished bed, falling outwards, and cover it";
        let board = Thing::new(ItemKind::Sill, format!("{stem}.sill-board"), name, [task; 3]);
        things.push(
            board.at(run, opening.station, [level; 2]).with(&[("thickness", "thickness"), ("projects", "projects")]),
        );
    }
    if let Some(lintel) = &opening.lintel {
        let tasks = [
            "lay it on cob with a dry crust, both bearings full length, level",
            "keep its back and ends free of stones; pack cob round it",
            "cob over it and the gap stays open below",
        ];
        let own = Thing::new(ItemKind::Lintel, format!("{stem}.lintel"), name, tasks).of_cut(run, lintel.cut);
        things.push(own.with(&[("bearing", "bearing"), ("height", "height"), ("length", "length")]));
    }
    things
}

fn of_anchors<'a>(house: &'a House, anchors: &'a Anchors) -> Thing<'a> {
    let tasks = [
        "lay the deadmen on the bed before the first loaf; straps up plumb, free ends tied",
        "keep the straps plumb and free; do not bury their ends",
        "straps stand out of the top, each at its place: measure again",
    ];
    let line = &house.wall.line;
    let tops = anchors.spots.iter().map(|spot| house.wall.top.at(line, line.along_line(spot.station)));
    let top = tops.fold(anchors.foot.in_m() + anchors.height.value.in_m(), f64::max);
    let nouns = [("first at", "along"), ("how many", "count"), ("apart", "spacing"), ("length", "length")];
    Thing {
        range: [anchors.foot.in_m(), top],
        run: Some(anchors.spot.run),
        stations: anchors.spots.iter().map(|spot| spot.station).collect(),
        ..Thing::new(ItemKind::Anchor, format!("wall.anchors.{}", anchors.name), &anchors.name, tasks).with(&nouns)
    }
}

fn of_built_in<'a>(house: &'a House, thing: &'a BuiltIn) -> Vec<Thing<'a>> {
    let (stem, name) = (thing.stem(), thing.name.as_str());
    let new = |kind, tasks| Thing::new(kind, stem.clone(), name, tasks);
    let line = &house.wall.line;
    let one = match &thing.what {
        What::Niche(niche) => {
            let tasks = [
                "begin its floor, falling a little to the room; cut it or build round its form",
                "keep its sides and its back upright",
                "close its head over a form; no joint in the arch",
            ];
            let nouns = [("along", "along"), ("floor", "sill"), ("width", "width"), ("depth", "depth")];
            new(ItemKind::Niche, tasks).of_cut(niche.spot.run, niche.cut).with(&nouns)
        }
        What::Shelf(shelf) => {
            let task = "bed the back edge of the board level, cob under it and over it";
            let nouns = [("along", "along"), ("top at", "level"), ("length", "length"), ("let in", "bedded")];
            new(ItemKind::Shelf, [task; 3]).of_cut(shelf.spot.run, shelf.cut).with(&nouns)
        }
        What::Bench(bench) if bench.top().in_m() > 0.0 => {
            let task = "leave ties standing out of the face for the bench, one to a loaf";
            let along = 0.5 * (bench.stretch[0] + bench.stretch[1]);
            let along = if line.is_closed() { along.rem_euclid(line.length()) } else { along };
            let range = [bench.foot.value.in_m().max(0.0), bench.top().in_m()];
            let nouns = [("from", "from"), ("to", "to"), ("seat above its foot", "seat")];
            new(ItemKind::BenchTies, [task; 3]).at(bench.run, line.at(along), range).with(&nouns)
        }
        What::Bench(_) | What::Mosaic(_) | What::Oven(_) => return Vec::new(),
        What::Buttress(buttress) => {
            let task = "raise it with the wall in one body; where it comes later, leave ties";
            let nouns = [("along", "along"), ("length", "length"), ("top", "top")];
            let range = [0.0, buttress.top.value.in_m()];
            new(ItemKind::ButtressTies, [task; 3]).at(buttress.spot.run, buttress.cut.station, range).with(&nouns)
        }
        What::Bottles(bottles) => return of_bottles(thing, bottles),
        What::Vent(vent) => {
            let task = "build it in round a form or a pipe, falling outwards; mesh on both ends";
            let nouns = [("along", "along"), ("level", "level"), ("diameter", "diameter")];
            new(ItemKind::Vent, [task; 3]).of_cut(vent.spot.run, vent.cut).with(&nouns)
        }
        What::Relief(_) => {
            let task = "where it will be modelled on this lift, leave ties: its place is not written";
            let top = house.wall.lifts.last().map_or(house.wall.height.value, |lift| lift.top.value);
            let range = [0.0, top.in_m()];
            Thing { range, ..new(ItemKind::ReliefTies, [task; 3]).with(&[("area", "area")]) }
        }
        What::Service(service) => return of_service(thing, service),
    };
    vec![one]
}

/// Bottle bricks of one level together.
fn of_bottles<'a>(thing: &'a BuiltIn, bottles: &'a Bottles) -> Vec<Thing<'a>> {
    let task = "lay them level from face to face, ends clean, cob kneaded round them";
    let mut things: Vec<Thing<'a>> = Vec::new();
    for (place, cut) in bottles.cuts.iter().enumerate() {
        let (spot, level) = &bottles.places[if bottles.row.is_some() { 0 } else { place }];
        let range = [cut.form.bottom().max(0.0), cut.form.top()];
        if let Some(same) = things.iter_mut().find(|same| same.range == range && same.run == Some(spot.run)) {
            same.stations.push(cut.station);
            same.cuts.push(*cut);
            if bottles.row.is_none() {
                same.rows.push(("along", spot.along.path.clone()));
            }
            continue;
        }
        let own = Thing::new(ItemKind::Bottles, thing.stem(), &thing.name, [task; 3]).of_cut(spot.run, *cut);
        let mut rows = vec![("level", level.path.clone()), ("along", spot.along.path.clone())];
        if bottles.row.is_some() {
            rows.extend(listed(&thing.stem(), &[("how many", "count"), ("apart", "spacing")]));
        }
        things.push(Thing { rows, ..own });
    }
    things
}

fn of_service<'a>(thing: &'a BuiltIn, service: &'a Service) -> Vec<Thing<'a>> {
    let (stem, name) = (thing.stem(), thing.name.as_str());
    match &service.way {
        Way::Through(passing) if !passing.is_in_the_stem() => {
            let (kind, task) = if service.kind == ServiceKind::Flue {
                let task = "build in the ring of the flue as its listing says; nothing that burns near it";
                (ItemKind::FlueRing, task)
            } else {
                (ItemKind::Sleeve, "build in the sleeve, its ends stopped with a rag, falling outwards")
            };
            let nouns = [("along", "along"), ("level", "level"), ("sleeve", "sleeve"), ("length", "sleeve-length")];
            vec![Thing::new(kind, stem, name, [task; 3]).of_cut(passing.spot.run, passing.cut).with(&nouns)]
        }
        Way::Upright(upright) => of_conduit(stem, name, upright),
        Way::Through(_) | Way::Roof { .. } => Vec::new(),
    }
}

fn of_conduit<'a>(stem: String, name: &'a str, upright: &'a Upright) -> Vec<Thing<'a>> {
    let tasks = [
        "set it plumb, its ends stopped, a draw wire in it; slack over each box",
        "keep it plumb and stopped; pack cob round it by hand",
        "it ends in this lift: stop its end, leave the slack open above it",
    ];
    let (run, station) = (upright.spot.run, upright.spot.station);
    let mut things = Vec::new();
    let to = upright.to.value.in_m();
    if to > 0.0 {
        let nouns = [("along", "along"), ("from", "level"), ("to", "to-level"), ("slack", "slack")];
        let range = [upright.level.value.in_m().max(0.0), to];
        things.push(Thing::new(ItemKind::Conduit, stem.clone(), name, tasks).at(run, station, range).with(&nouns));
    }
    for level in upright.boxes.iter().filter(|level| level.value.in_m() >= 0.0) {
        let task = "build in the box level, its front as deep as the plaster will be thick before it";
        let range = [level.value.in_m(); 2];
        let own = Thing::new(ItemKind::ConduitBox, level.path.clone(), name, [task; 3]).at(run, station, range);
        things.push(Thing { rows: vec![("level", level.path.clone())], ..own });
    }
    things
}
