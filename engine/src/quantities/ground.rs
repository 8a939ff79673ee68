//! Rows of what fills trench and drain, of the fabric round it, and of the spoil that comes out.

use super::need::Need;
use crate::house::{Drain, House, Trench};
use crate::row::Rows;
use crate::units::{Length, Volume};
use crate::{earth, ground};

pub(super) fn walk(house: &House, rows: &mut Rows) -> Vec<Need> {
    let Some(trench) = &house.trench else { return Vec::new() };
    let mut needs = filling(house, trench, rows);
    needs.extend(fabric(house, trench, rows));
    spoil(house, rows);
    needs
}

fn volume(rows: &Rows, path: &str) -> Volume {
    rows.value(path).unwrap_or(Volume::ZERO)
}

fn loose(rows: &mut Rows, stem: &str, title: &str, trench: &Trench, packed: Volume) {
    let loose = earth::loose_for_packed(packed, trench.loose.value)
        .from("packed volume", stem)
        .from("loose factor", "water.trench.loose");
    rows.add(format!("{stem}-loose"), format!("{title}, loose"), loose);
}

fn filling(house: &House, trench: &Trench, rows: &mut Rows) -> Vec<Need> {
    let length = Length::m(house.wall.line.length());
    let of = trench.of.replace('-', " ");
    rows.known(format!("loose {of} for each packed volume of the trench"), &trench.loose);
    let whole = volume(rows, "water.trench.volume");
    let packed = ground::rubble(whole, trench.width.value, length, house.wall.stem_height.value, house.ground.value)
        .from("trench", "water.trench.volume")
        .from("width", "water.trench.width")
        .from("line length", "wall.length")
        .from("stem height", "wall.stem.height")
        .from("ground outside", "ground.outside");
    let title = format!("{of} in the trench under the stem, packed");
    let packed = rows.add("water.trench.filling", title, packed);
    loose(rows, "water.trench.filling", &format!("{of} for the trench"), trench, packed);
    let mut needs = vec![Need::of(&trench.of, ["water.trench.filling-loose".to_owned()])];
    if let Some(drain) = &house.drain {
        rows.known("soil over the gravel of the drain", &drain.cover);
        let packed = drain_filling(trench, drain, rows);
        loose(rows, "water.drain.filling", &format!("{of} for the drain"), trench, packed);
        needs.push(Need::of(&trench.of, ["water.drain.filling-loose".to_owned()]));
    }
    needs
}

fn drain_filling(trench: &Trench, drain: &Drain, rows: &mut Rows) -> Volume {
    let low = rows.value("water.trench.low-depth").unwrap_or(trench.depth.value);
    let packed = ground::drain_gravel(trench.width.value, drain.length.value, low, drain.cover.value)
        .from("width", "water.trench.width")
        .from("length", "water.drain.length")
        .from("depth", "water.trench.low-depth")
        .from("cover", "water.drain.cover");
    rows.add("water.drain.filling", format!("{} in the drain, packed", trench.of.replace('-', " ")), packed)
}

fn fabric(house: &House, trench: &Trench, rows: &mut Rows) -> Vec<Need> {
    let fabric = &trench.fabric;
    rows.known("lap of the fabric", &fabric.lap);
    rows.known("length of a piece of fabric", &fabric.piece);
    let mut needs = Vec::new();
    let drain = house.drain.as_ref().map(|drain| ("water.drain", "drain", drain.length.value, "water.drain.length"));
    let line = Length::m(house.wall.line.length());
    for (stem, name, length, length_path) in
        [Some(("water.trench", "trench", line, "wall.length")), drain].into_iter().flatten()
    {
        let filling = volume(rows, &format!("{stem}.filling"));
        let girth = ground::girth(trench.width.value, length, filling)
            .from("width", "water.trench.width")
            .from("length", length_path)
            .from("rubble", format!("{stem}.filling"));
        let girth =
            rows.add(format!("{stem}.girth"), format!("way of the fabric round the filling of the {name}"), girth);
        let pieces = ground::pieces(length, fabric.piece.value, fabric.lap.value)
            .from("length", length_path)
            .from("piece", "water.fabric.piece")
            .from("lap", "water.fabric.lap");
        let pieces = rows.add(format!("{stem}.fabric-pieces"), format!("pieces of fabric along the {name}"), pieces);
        let area = ground::fabric(girth, length, fabric.lap.value, pieces)
            .from("girth", format!("{stem}.girth"))
            .from("length", length_path)
            .from("lap", "water.fabric.lap")
            .from("pieces", format!("{stem}.fabric-pieces"));
        let path = format!("{stem}.fabric");
        rows.add(path.as_str(), format!("fabric round the filling of the {name}, with laps"), area);
        needs.push(Need::of(&fabric.of, [path]));
    }
    needs
}

fn spoil(house: &House, rows: &mut Rows) {
    let [loose, packed] = &house.spoil;
    rows.known("loose volume of dug earth for each volume in the ground", loose);
    rows.known("packed volume of dug earth for each volume in the ground", packed);
    let (trench, drain) = (volume(rows, "water.trench.volume"), volume(rows, "water.drain.volume"));
    let left = if house.drain.is_some() {
        let gravel = volume(rows, "water.drain.filling");
        let back =
            ground::put_back(drain, gravel).from("drain", "water.drain.volume").from("gravel", "water.drain.filling");
        let back = rows.add("water.drain.backfill", "soil put back over the drain, packed", back);
        ground::spoil_left(trench, drain, back, packed.value)
            .from("trench", "water.trench.volume")
            .from("drain", "water.drain.volume")
            .from("put back", "water.drain.backfill")
            .from("packed factor", "ground.packed")
    } else {
        ground::spoil_left(trench, Volume::ZERO, Volume::ZERO, packed.value)
            .from("trench", "water.trench.volume")
            .without("drain")
            .without("put back")
            .without("packed factor")
    };
    let left = rows.add("water.spoil", "spoil that is left, as it lay in the ground", left);
    let heap =
        earth::loose(left, loose.value).from("in the ground", "water.spoil").from("loose factor", "ground.loose");
    rows.add("water.spoil-loose", "spoil that is left, loose: what is barrowed and carted", heap);
    let fill =
        earth::packed(left, packed.value).from("in the ground", "water.spoil").from("packed factor", "ground.packed");
    rows.add("water.spoil-packed", "spoil that is left, packed as fill elsewhere", fill);
}
