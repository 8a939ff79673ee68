//! Bodies of what is built into and onto the wall.

use super::{Making, Named};
use crate::curve::{Cut, Depth, Form, Side};
use crate::house::built_in::{Anchors, Bench, BuiltIn, Buttress, Shelf, Spot, What};
use crate::solid::{Cuboid, Fault, Mesh, Sweep, against, plug};

/// Offsets nearer to each other than this are one, in metres.
const SAME: f64 = 1e-6;

pub(super) fn make(made: &mut Making<'_>) {
    for thing in &made.house.built_in {
        let name = thing.name.replace('-', " ");
        match &thing.what {
            What::Shelf(shelf) => {
                let named = placed(made, shelf.cut.form.bottom(), format!("board of {name}"), "timber");
                made.keep(thing.stem(), named, &thing.path("board-volume"), Ok(board(shelf).mesh()));
            }
            What::Bench(bench) => {
                let mesh = self::bench(made, bench);
                made.keep(thing.stem(), Named::new(name, "cob"), &thing.path("volume"), mesh);
            }
            What::Buttress(buttress) => self::buttress(made, thing, buttress),
            What::Bottles(bottles) => {
                let mesh = joined(&bottles.cuts, |cut| plug(&made.house.wall.shape(), cut, made.chord));
                let level = bottles.cuts.first().map_or(0.0, |cut| cut.form.bottom());
                let named = placed(made, level, format!("bottle bricks of {name}"), "glass");
                made.keep(thing.stem(), named, &thing.path("removed-volume"), mesh);
            }
            What::Niche(_) | What::Vent(_) | What::Relief(_) | What::Mosaic(_) | What::Oven(_) | What::Service(_) => {}
        }
    }
    bond_beam(made);
    for anchors in &made.house.anchors {
        let mesh = joined(&deadmen(anchors), |deadman| Ok(deadman.mesh()));
        let named = placed(made, anchors.foot.in_m(), format!("deadmen {}", anchors.name.replace('-', " ")), "timber");
        let path = format!("wall.anchors.{}", anchors.name);
        made.keep(path, named, &anchors.path("removed-volume"), mesh);
    }
}

/// What is laid with the lift at a level, in metres.
fn placed(made: &Making<'_>, level: f64, name: String, material: &'static str) -> Named {
    let (lift, day) = made.lift_at(level);
    Named { lift, day, ..Named::new(name, material) }
}

/// One mesh of the bodies of many.
fn joined<T>(parts: &[T], body: impl Fn(&T) -> Result<Mesh, Fault>) -> Result<Mesh, Fault> {
    parts.iter().try_fold(Mesh::default(), |mesh, part| Ok(mesh.with(&body(part)?)))
}

/// The timbers of anchors, as they lie in their lift.
pub(super) fn deadmen(anchors: &Anchors) -> Vec<Cuboid> {
    let half = [0.5 * anchors.length.value.in_m(), 0.5 * anchors.width.value.in_m()];
    let foot = anchors.foot.in_m();
    let lies = |spot: &Spot| {
        let station = spot.station;
        let middle = station.beside(anchors.offset.in_m());
        Cuboid { middle, axis: station.axis, half, levels: [foot, foot + anchors.height.value.in_m()] }
    };
    anchors.spots.iter().map(lies).collect()
}

fn board(shelf: &Shelf) -> Cuboid {
    let (Depth::Into { bottom, .. } | Depth::Through { crease: bottom, .. }) = shelf.cut.depth;
    let whole = (shelf.depth.value + shelf.bedded.value).in_m();
    let out = if shelf.side == Side::Inner { -1.0 } else { 1.0 };
    let station = shelf.cut.station;
    let middle = station.beside(bottom + 0.5 * out * whole);
    let form = shelf.cut.form;
    Cuboid { middle, axis: station.axis, half: [form.half(), 0.5 * whole], levels: [form.bottom(), form.top()] }
}

fn bench(made: &Making<'_>, bench: &Bench) -> Result<Mesh, Fault> {
    let wall = &made.house.wall;
    let body = bench.body(wall);
    let [foot, seat] = body.levels;
    let profile = |along: f64| {
        let mut points = vec![[body.front, foot]];
        let back = |level: f64| wall.shape().offset(body.side, along, level);
        if foot < 0.0 {
            points.extend([[body.stem, foot], [body.stem, seat.min(0.0)]]);
        }
        if seat > 0.0 {
            let low = foot.max(0.0);
            if foot >= 0.0 || (back(low) - body.stem).abs() > SAME {
                points.push([back(low), low]);
            }
            points.push([back(seat), seat]);
        }
        points.push([body.front, seat]);
        points
    };
    Sweep { line: &wall.line, stretch: Some(bench.stretch), profile: &profile, knots: &[] }.mesh(made.chord)
}

fn buttress(made: &mut Making<'_>, thing: &BuiltIn, buttress: &Buttress) {
    let wall = &made.house.wall;
    let body = buttress.body(wall);
    let name = thing.name.replace('-', " ");
    let cob = against(&body.shape, &body.cut, body.side, body.front, made.chord);
    made.keep(thing.stem(), Named::new(name.clone(), "cob"), &thing.path("volume"), cob);
    if body.foot < 0.0 {
        let form = Form::Rectangle { half: body.cut.form.half(), bottom: body.foot, top: 0.0 };
        let cut = Cut { form, ..body.cut };
        let stone = against(&body.stem, &cut, body.side, [body.front[0]; 2], made.chord);
        let named = Named::new(format!("stone under {name}"), "stone");
        made.keep(format!("{}.stone", thing.stem()), named, &thing.path("stone-volume"), stone);
    }
}

fn bond_beam(made: &mut Making<'_>) {
    let wall = &made.house.wall;
    let Some(beam) = &made.house.bond_beam else { return };
    let (half, middle, height) = (0.5 * beam.width.value.in_m(), beam.offset.in_m(), beam.height.value.in_m());
    let profile = |along: f64| {
        let foot = wall.top.at(&wall.line, along);
        let corners = [(-half, 0.0), (half, 0.0), (half, height), (-half, height)];
        corners.map(|(out, up)| [middle + out, foot + up]).to_vec()
    };
    let knots: Vec<f64> = wall.top.heights.breaks().collect();
    let mesh = Sweep { line: &wall.line, stretch: None, profile: &profile, knots: &knots }.mesh(made.chord);
    made.keep("wall.bond-beam".into(), Named::new("bond beam", "timber"), "wall.bond-beam.volume", mesh);
}
