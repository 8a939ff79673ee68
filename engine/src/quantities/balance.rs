//! Rows of the earth balance: for topsoil and subsoil, stage by stage, what comes in, what goes out, what is left on the heap.

use crate::build::SoilFrom;
use crate::earth;
use crate::ground;
use crate::house::built_in::What;
use crate::house::site::{SUBSOIL, TOPSOIL};
use crate::house::{Earth, House, Ingredient, Weight};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Area, Length, Volume};

/// A heap of one kind of earth.
struct Heap {
    name: &'static str,
    left: Option<(String, Volume)>,
    came_in: Vec<String>,
    went_out: Vec<String>,
}

impl Heap {
    fn new(name: &'static str) -> Heap {
        Heap { name, left: None, came_in: Vec::new(), went_out: Vec::new() }
    }

    fn path(&self, stage: &str, noun: &str) -> String {
        format!("balance.{}.{stage}.{noun}", self.name)
    }

    /// Earth comes to the heap.
    fn take_in(&mut self, stage: &str, words: &str, answer: Answer<Volume>, rows: &mut Rows) -> Volume {
        let path = self.path(stage, "in");
        let volume = rows.add(path.as_str(), format!("{} from {words}, as it lay in the ground", self.name), answer);
        self.came_in.push(path.clone());
        self.close(stage, Some((path, volume)), None, rows);
        volume
    }

    /// Earth goes from the heap.
    fn give_out(&mut self, stage: &str, words: &str, answer: Answer<Volume>, rows: &mut Rows) -> Volume {
        let path = self.path(stage, "out");
        let volume = rows.add(path.as_str(), format!("{} {words}, as it lay in the ground", self.name), answer);
        self.went_out.push(path.clone());
        self.close(stage, None, Some((path, volume)), rows);
        volume
    }

    /// Earth that is dug or bought for a mix goes into it and never lies on the heap.
    fn pass(&mut self, stage: &str, [from, into]: [&str; 2], answer: &Answer<Volume>, rows: &mut Rows) {
        let (in_path, out_path) = (self.path(stage, "in"), self.path(stage, "out"));
        rows.add(in_path.as_str(), format!("{} {from}, as it lay in the ground", self.name), answer.clone());
        rows.add(out_path.as_str(), format!("{} {into}, as it lay in the ground", self.name), answer.clone());
        self.came_in.push(in_path);
        self.went_out.push(out_path);
    }

    fn close(&mut self, stage: &str, came: Option<(String, Volume)>, went: Option<(String, Volume)>, rows: &mut Rows) {
        let amount = |part: &Option<(String, Volume)>| part.as_ref().map_or(Volume::ZERO, |(_, volume)| *volume);
        let mut left = ground::heap_left(amount(&self.left), amount(&came), amount(&went));
        for (name, part) in [("before", &self.left), ("came in", &came), ("went out", &went)] {
            left = match part {
                Some((path, _)) => left.from(name, path.as_str()),
                None => left.without(name),
            };
        }
        let path = self.path(stage, "left");
        let title = format!("{} on the heap after {}", self.name, words_of(stage));
        let volume = rows.add(path.as_str(), title, left);
        self.left = Some((path, volume));
    }

    fn totals(self, rows: &mut Rows) -> Option<(String, Volume)> {
        for (noun, words, stages) in [("in", "that comes in", &self.came_in), ("out", "that goes out", &self.went_out)]
        {
            let parts: Vec<(String, String, Volume)> = rows.parts(stages.iter().cloned());
            let sum = ground::stages(parts.iter().map(|(.., volume)| *volume).sum()).of_parts(parts);
            let title = format!("all {} {words}, as it lay in the ground", self.name);
            rows.add(format!("balance.{}.{noun}", self.name), title, sum);
        }
        let (path, left) = self.left?;
        let (noun, words, answer) = if left < Volume::ZERO {
            ("short", "that is short at the end", ground::short(left))
        } else {
            ("surplus", "that is left over at the end", ground::surplus(left))
        };
        let title = format!("{} {words}, as it lay in the ground", self.name);
        let end = format!("balance.{}.{noun}", self.name);
        let volume = rows.add(end.as_str(), title, answer.from("left", path));
        Some((end, volume))
    }
}

/// A stage in words, from its key.
fn words_of(stage: &str) -> String {
    match stage {
        "strip" => "stripping".to_owned(),
        "round" => "spreading round the house".to_owned(),
        "backfill" => "filling over the drain".to_owned(),
        other => other
            .replace(['.', '-'], " ")
            .replacen("mixes ", "mixing ", 1)
            .replacen("footings ", "digging the footing of ", 1)
            .replacen("roof ", "covering the roof with ", 1),
    }
}

pub(super) fn walk(house: &House, rows: &mut Rows) {
    let (mut topsoil, mut subsoil) = (Heap::new(TOPSOIL), Heap::new(SUBSOIL));
    if house.trench.is_none() {
        let [loose, packed] = &house.spoil;
        rows.known("loose volume of dug earth for each volume in the ground", loose);
        rows.known("packed volume of dug earth for each volume in the ground", packed);
    }
    strip(house, &mut topsoil, rows);
    dug(house, &mut topsoil, &mut subsoil, rows);
    floor(house, &mut subsoil, rows);
    footings(house, &mut subsoil, rows);
    backfill(house, &mut topsoil, &mut subsoil, rows);
    mixes(house, &mut subsoil, rows);
    roof(house, &mut topsoil, rows);
    round(house, &mut topsoil, rows);
    for heap in [&topsoil, &subsoil] {
        heaped(house, heap, rows);
    }
    topsoil.totals(rows);
    let end = subsoil.totals(rows);
    masses(house, end, rows);
}

/// Loose volume of all that comes to a heap: the ground that it needs at most.
fn heaped(house: &House, heap: &Heap, rows: &mut Rows) {
    let dug = heap.came_in.iter().filter(|path| !path.contains(".mixes."));
    let parts: Vec<(String, String, Volume)> = rows.parts(dug.cloned());
    if parts.is_empty() {
        return;
    }
    let sum: Volume = parts.iter().map(|(.., volume)| *volume).sum();
    let all = earth::loose(sum, house.spoil[0].value).without("in the ground").from("loose factor", "ground.loose");
    let title = format!("heap of all {} that is stripped or dug, loose", heap.name);
    rows.add(format!("balance.{}.heap", heap.name), title, all.of_parts(parts));
}

fn strip(house: &House, topsoil: &mut Heap, rows: &mut Rows) {
    let strip = &house.site.strip;
    let thickness = rows.known("thickness of the topsoil that is stripped", &strip.topsoil);
    let margin = rows.known("margin beyond the stem wall that is stripped", &strip.margin);
    let (width, line) = (house.footing_width(), &house.wall.line);
    let length = Length::m(line.length());
    let bound = |answer: Answer<Area>| {
        answer.from("line length", "wall.length").from("width", width.path.as_str()).from("margin", "site.strip-margin")
    };
    let (area, ring) = if line.is_closed() {
        let area = ground::strip_area(Area::m2(line.area()), length, width.value, margin);
        let area = area.from("enclosed area", "wall.enclosed-area");
        (area, ground::ring_area(length, width.value, margin))
    } else {
        let area = ground::strip_area_of_open(length, width.value, margin);
        (area, ground::ring_area_of_open(length, width.value, margin))
    };
    let area = rows.add("site.strip-area", "area from which topsoil is stripped", bound(area));
    rows.add("site.ring-area", "area round the house on which topsoil is put back", bound(ring));
    let stripped =
        ground::stripped(area, thickness).from("strip area", "site.strip-area").from("topsoil", "site.topsoil");
    topsoil.take_in("strip", "house and margin", stripped, rows);
}

/// Trench and drain.
fn dug(house: &House, topsoil: &mut Heap, subsoil: &mut Heap, rows: &mut Rows) {
    let Some(trench) = &house.trench else { return };
    let (width, thickness) = (trench.width.value, house.site.strip.topsoil.value);
    let volume = |path: &str, rows: &Rows| rows.value::<Volume>(path).unwrap_or(Volume::ZERO);
    let length = Length::m(house.wall.line.length());
    let below = ground::trench_below_topsoil(volume("water.trench.volume", rows), width, length, thickness)
        .from("trench", "water.trench.volume")
        .from("width", "water.trench.width")
        .from("line length", "wall.length")
        .from("topsoil", "site.topsoil");
    subsoil.take_in("trench", "the trench", below, rows);
    let (Some(drain), Some(depth)) = (&house.drain, rows.value::<Length>("water.trench.low-depth")) else { return };
    let top = ground::drain_topsoil(width, drain.length.value, depth, thickness)
        .from("width", "water.trench.width")
        .from("length", "water.drain.length")
        .from("depth", "water.trench.low-depth")
        .from("topsoil", "site.topsoil");
    let top = topsoil.take_in("drain", "the drain", top, rows);
    let below = ground::drain_below_topsoil(volume("water.drain.volume", rows), top)
        .from("drain", "water.drain.volume")
        .from("topsoil", "balance.topsoil.drain.in");
    subsoil.take_in("drain", "the drain", below, rows);
}

/// Earth dug out for the floor, or rammed under it.
fn floor(house: &House, subsoil: &mut Heap, rows: &mut Rows) {
    let (Some(area), Some(depth)) = (rows.value("floor.area"), rows.value("floor.depth")) else { return };
    let (ground, topsoil) = (house.ground.value, house.site.strip.topsoil.value);
    let (floor, packed) = (house.floor_level.value, house.spoil[1].value);
    let bound = |answer: Answer<Volume>| {
        answer
            .from("floor area", "floor.area")
            .from("ground", "ground.outside")
            .from("topsoil", "site.topsoil")
            .from("floor", "ground.floor")
            .from("depth", "floor.depth")
            .from("packed factor", "ground.packed")
    };
    if floor - depth < ground - topsoil {
        subsoil.take_in(
            "floor",
            "under the floor",
            bound(ground::floor_dug(area, ground, topsoil, floor, depth)),
            rows,
        );
    } else {
        let filled = ground::floor_filled(area, ground, topsoil, floor, depth, packed);
        subsoil.give_out("floor", "rammed under the floor", bound(filled), rows);
    }
}

/// What the footings of ovens dig out under the floor.
fn footings(house: &House, subsoil: &mut Heap, rows: &mut Rows) {
    let (ground, topsoil, floor) = (house.ground.value, house.site.strip.topsoil.value, house.floor_level.value);
    for thing in &house.built_in {
        let What::Oven(oven) = &thing.what else { continue };
        let [depth, width] = &oven.footing;
        let dug = match rows.value("floor.depth") {
            Some(layers) => {
                let packed = house.spoil[1].value;
                ground::footing_dug(width.value, depth.value, ground, topsoil, floor, layers, packed)
            }
            None => ground::footing_dug_without_a_floor(width.value, depth.value, ground, topsoil, floor),
        };
        // A footing that stands in the layers of the floor digs nothing.
        if dug.value == Volume::ZERO {
            continue;
        }
        let dug = dug
            .from("width", width.path.as_str())
            .from("footing depth", depth.path.as_str())
            .from("ground", "ground.outside")
            .from("topsoil", "site.topsoil")
            .from("floor", "ground.floor")
            .from("depth", "floor.depth")
            .from("packed factor", "ground.packed");
        let words = format!("under the footing of {}", thing.name.replace('-', " "));
        subsoil.take_in(&format!("footings.{}", thing.name), &words, dug, rows);
    }
}

fn backfill(house: &House, topsoil: &mut Heap, subsoil: &mut Heap, rows: &mut Rows) {
    let own: Option<Volume> = rows.value("balance.topsoil.drain.in");
    let (Some(own), Some(back)) = (own, rows.value::<Volume>("water.drain.backfill")) else { return };
    let packed = house.spoil[1].value;
    let top = ground::topsoil_back(own, back, packed);
    let top = if top.value == own {
        top.from("topsoil", "balance.topsoil.drain.in").without("put back").without("packed factor")
    } else {
        top.without("topsoil").from("put back", "water.drain.backfill").from("packed factor", "ground.packed")
    };
    let top = topsoil.give_out("backfill", "back on top of the drain", top, rows);
    if top == own {
        let rest = ground::subsoil_back(back, packed, top)
            .from("put back", "water.drain.backfill")
            .from("packed factor", "ground.packed")
            .from("topsoil", "balance.topsoil.backfill.out");
        subsoil.give_out("backfill", "back over the drain", rest, rows);
    }
}

/// Soil of every mix: from the heap, or dug and bought for it.
fn mixes(house: &House, subsoil: &mut Heap, rows: &mut Rows) {
    let Some(earth) = &house.earth else { return };
    let mut pit = Vec::new();
    for (recipe, soil) in soils(house, earth) {
        let path = format!("earth.recipes.{recipe}.loose.{}", soil.name);
        let Some(loose) = rows.value::<Volume>(&path) else { continue };
        let answer = ground::from_loose(loose, house.spoil[0].value)
            .from("loose", path.as_str())
            .from("loose factor", "ground.loose");
        let stage = format!("mixes.{recipe}.{}", soil.name);
        let (name, into) = (soil.name.replace('-', " "), format!("into {}", recipe.replace('-', " ")));
        match soil.from {
            Some(SoilFrom::Trench) => {
                subsoil.give_out(&stage, &format!("as {name} {into}"), answer, rows);
            }
            Some(SoilFrom::Pit) => {
                pit.push(subsoil.path(&stage, "in"));
                subsoil.pass(
                    &stage,
                    [&format!("dug in the pit as {name} {into}"), &format!("as {name} {into}")],
                    &answer,
                    rows,
                );
            }
            _ => {
                subsoil.pass(
                    &stage,
                    [&format!("bought as {name} {into}"), &format!("as {name} {into}")],
                    &answer,
                    rows,
                );
            }
        }
    }
    if !pit.is_empty() {
        let parts: Vec<(String, String, Volume)> = rows.parts(pit);
        let sum = ground::stages(parts.iter().map(|(.., volume)| *volume).sum()).of_parts(parts);
        rows.add("balance.pit", "pit to dig below the topsoil, as it lies in the ground", sum);
    }
}

/// Every recipe that is used with each soil in it.
fn soils<'a>(house: &'a House, earth: &'a Earth) -> Vec<(&'a str, &'a Ingredient)> {
    let recipes = house.recipes_used().into_iter().filter_map(|name| earth.recipe(name));
    let parts =
        recipes.flat_map(|recipe| recipe.parts.iter().map(|(at, _)| (recipe.name.as_str(), &earth.ingredients[*at])));
    parts.filter(|(_, part)| part.from.is_some()).collect()
}

fn roof(house: &House, topsoil: &mut Heap, rows: &mut Rows) {
    let (Some(roof), Some(of)) = (&house.roof, &house.site.strip.topsoil_as) else { return };
    let poured = roof.layers.iter().filter(|layer| layer.of == *of && matches!(layer.weight, Weight::Thick(..)));
    for layer in poured {
        let path = layer.path("loose-volume");
        let Some(loose) = rows.value::<Volume>(&path) else { continue };
        let answer = ground::from_loose(loose, house.spoil[0].value)
            .from("loose", path.as_str())
            .from("loose factor", "ground.loose");
        topsoil.give_out(&format!("roof.{}", layer.name), &format!("on the roof, layer {}", layer.name), answer, rows);
    }
}

fn round(house: &House, topsoil: &mut Heap, rows: &mut Rows) {
    let spread = rows.known("thickness of topsoil put back round the house", &house.site.strip.spread);
    let ring = rows.value("site.ring-area").unwrap_or(Area::ZERO);
    let answer = ground::spread_round(ring, spread, house.spoil[1].value)
        .from("ring area", "site.ring-area")
        .from("spread", "site.spread")
        .from("packed factor", "ground.packed");
    topsoil.give_out("round", "put back round the house", answer, rows);
}

/// Dry masses, where the only soil of the mixes is dug on the site: then its density is that of the ground.
fn masses(house: &House, end: Option<(String, Volume)>, rows: &mut Rows) {
    let Some(earth) = &house.earth else { return };
    let used = soils(house, earth);
    let Some((_, soil)) = used.first().filter(|(_, first)| used.iter().all(|(_, soil)| soil.name == first.name)) else {
        return;
    };
    if soil.from == Some(SoilFrom::Bought) {
        return;
    }
    let totals = ["balance.subsoil.in", "balance.subsoil.out"];
    let totals = totals.into_iter().filter_map(|path| Some((path.to_owned(), rows.value::<Volume>(path)?)));
    for (path, volume) in totals.chain(end).collect::<Vec<_>>() {
        let title = rows.find(&path).map_or_else(String::new, |row| row.title.clone());
        let mass = ground::dry_mass(volume, house.spoil[0].value, soil.loose_density())
            .from("in the ground", path.as_str())
            .from("loose factor", "ground.loose")
            .from("loose density", soil.loose_density_path());
        let title = title.replace(", as it lay in the ground", ", dry mass");
        rows.add(format!("{path}-mass"), title, mass);
    }
}
