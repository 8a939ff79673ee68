//! Rows of an oven: its dome, doorway, floor, base and footing, what they weigh, and how hard they press on the ground.

use super::super::line::bind_piece;
use super::super::need::Need;
use super::super::uneven::{bind_once, bind_thickness};
use super::said;
use crate::earth;
use crate::house::built_in::Oven;
use crate::house::{BuiltIn, House, STONES};
use crate::oven;
use crate::roof::STANDARD_GRAVITY_M_S2;
use crate::row::Rows;
use crate::units::{Density, Length, Mass, Volume};

/// An oven and its name, as rows are asked for.
struct Rowed<'a> {
    house: &'a House,
    thing: &'a BuiltIn,
    oven: &'a Oven,
    name: String,
}

pub(super) fn oven(house: &House, thing: &BuiltIn, oven: &Oven, rows: &mut Rows) -> Vec<Need> {
    let rowed = Rowed { house, thing, oven, name: said(thing) };
    rowed.known(rows);
    let layers = rowed.dome(rows);
    let bricks = rowed.floor(rows);
    let [ring, fill] = rowed.base(rows);
    rowed.clear(rows);
    rowed.weight(layers, bricks, [ring, fill], rows);
    rowed.needs()
}

impl Rowed<'_> {
    fn path(&self, noun: &str) -> String {
        self.thing.path(noun)
    }

    fn known(&self, rows: &mut Rows) {
        let (oven, name) = (self.oven, &self.name);
        for (place, axis) in oven.at.iter().zip(["x", "y"]) {
            rows.known(format!("middle of {name}, {axis}"), place);
        }
        rows.known(format!("direction in which the door of {name} faces, from the x axis"), &oven.faces);
        rows.known(format!("diameter of the floor of {name}"), &oven.diameter);
        rows.known(format!("height of the dome of {name} within"), &oven.dome_height);
        let [width, height] = &oven.door;
        rows.known(format!("width of the doorway of {name}"), width);
        rows.known(format!("height of the doorway of {name}"), height);
        let [thermal, insulation] = &oven.layers;
        rows.known(format!("layer that keeps the heat of {name}"), thermal);
        rows.known(format!("layer that holds the heat in {name}"), insulation);
        let [thermal, insulation] = &oven.densities;
        rows.known(format!("density of the layer that keeps the heat of {name}, dry"), thermal);
        rows.known(format!("density of the layer that holds the heat in {name}, dry"), insulation);
        let [height, diameter, ring] = &oven.base;
        rows.known(format!("height of the base of {name} above the floor"), height);
        rows.known(format!("diameter of the base of {name}"), diameter);
        rows.known(format!("thickness of the ring of stone under {name}"), ring);
        rows.known(format!("density of ring and fill under {name}"), &oven.base_density);
        for (size, word) in oven.brick.iter().zip(["length", "width", "thickness"]) {
            rows.known(format!("{word} of a floor brick of {name}"), size);
        }
        rows.known(format!("bricks of {name} lost in cutting to the circle"), &oven.waste);
        rows.known(format!("density of the floor bricks of {name}"), &oven.brick_density);
        let [depth, width] = &oven.footing;
        rows.known(format!("depth of the footing of {name} below the floor"), depth);
        rows.known(format!("diameter of the footing of {name}"), width);
        rows.known(format!("loose volume for each volume in the footing of {name}"), &oven.loose);
    }

    /// Both layers of the dome.
    fn dome(&self, rows: &mut Rows) -> [Volume; 2] {
        let (oven, name) = (self.oven, &self.name);
        let (diameter, height) = (oven.diameter.value, oven.dome_height.value);
        let [diameter_path, height_path] = ["diameter", "dome-height"].map(|noun| self.path(noun));
        let sand = oven::sand_form(diameter, height)
            .from("diameter", diameter_path.as_str())
            .from("dome height", height_path.as_str());
        rows.add(self.path("sand-form"), format!("damp sand in the form of {name}, packed"), sand);
        let [width, door_height] = &oven.door;
        let door = oven::doorway(width.value, door_height.value)
            .from("width", width.path.as_str())
            .from("height", door_height.path.as_str());
        let door = rows.add(self.path("door-area"), format!("doorway of {name}"), door);
        let [thermal, insulation] = &oven.layers;
        let layer = |under: (Length, &str), up: (Length, &str), thickness: (Length, &str)| {
            oven::dome_layer(under.0, up.0, thickness.0, door)
                .from("diameter", under.1)
                .from("height", up.1)
                .from("thickness", thickness.1)
                .from("doorway", self.path("door-area"))
        };
        let one = layer((diameter, &diameter_path), (height, &height_path), (thermal.value, &thermal.path));
        let one = rows.add(self.path("thermal-volume"), format!("earth of {name} that keeps the heat"), one);
        let over = oven::over_layer(diameter, thermal.value)
            .from("diameter", diameter_path)
            .from("thickness", thermal.path.as_str());
        let over = rows.add(self.path("over-thermal"), format!("diameter over the inner layer of {name}"), over);
        let up = oven::height_over_layer(height, thermal.value)
            .from("height", height_path)
            .from("thickness", thermal.path.as_str());
        let up = rows.add(self.path("height-over-thermal"), format!("height over the inner layer of {name}"), up);
        let (over_path, up_path) = (self.path("over-thermal"), self.path("height-over-thermal"));
        let two = layer((over, &over_path), (up, &up_path), (insulation.value, &insulation.path));
        let two = rows.add(self.path("insulation-volume"), format!("straw and clay round {name}"), two);
        let dome = oven::over_layer(over, insulation.value)
            .from("diameter", over_path.as_str())
            .from("thickness", insulation.path.as_str());
        rows.add(self.path("over-dome"), format!("diameter over the dome of {name}"), dome);
        [one, two]
    }

    /// Bricks, and the volume of the floor.
    fn floor(&self, rows: &mut Rows) -> Volume {
        let (oven, name) = (self.oven, &self.name);
        let over = rows.value(&self.path("over-thermal")).unwrap_or(Length::ZERO);
        let [length, width, thickness] = &oven.brick;
        let bricks = oven::floor_bricks(over, length.value, width.value, oven.waste.value)
            .from("diameter", self.path("over-thermal"))
            .from("brick length", length.path.as_str())
            .from("brick width", width.path.as_str())
            .from("waste", oven.waste.path.as_str());
        rows.add(self.path("bricks"), format!("bricks in the floor of {name}"), bricks);
        let volume = oven::floor_volume(over, thickness.value)
            .from("diameter", self.path("over-thermal"))
            .from("thickness", thickness.path.as_str());
        rows.add(self.path("floor-volume"), format!("brick floor of {name}"), volume)
    }

    /// Ring, fill and footing; ring and fill are handed back.
    fn base(&self, rows: &mut Rows) -> [Volume; 2] {
        let (oven, name) = (self.oven, &self.name);
        let [height, diameter, ring] = &oven.base;
        let stone = oven::base_ring(diameter.value, ring.value, height.value)
            .from("diameter", diameter.path.as_str())
            .from("ring", ring.path.as_str())
            .from("height", height.path.as_str());
        let stone = rows.add(self.path("ring-volume"), format!("ring of stone under {name}, as it is laid"), stone);
        let on = &self.house.wall.stone;
        let solid = crate::wall::solid_stone(stone, on.solid.value)
            .from("stem", self.path("ring-volume"))
            .from("solid", "wall.stem.solid");
        let solid = rows.add(self.path("stone-solid-volume"), format!("solid stone in the ring under {name}"), solid);
        let mass = earth::mass(solid, on.density.value)
            .from("volume", self.path("stone-solid-volume"))
            .from("density", "wall.stem.density");
        rows.add(self.path("stone-mass"), format!("stone in the ring under {name}, by mass"), mass);
        let fill = oven::base_fill(diameter.value, ring.value, height.value)
            .from("diameter", diameter.path.as_str())
            .from("ring", ring.path.as_str())
            .from("height", height.path.as_str());
        let fill = rows.add(self.path("fill-volume"), format!("fill within the ring under {name}, packed"), fill);
        let loose = earth::loose_for_packed(fill, oven.loose.value)
            .from("packed volume", self.path("fill-volume"))
            .from("loose factor", oven.loose.path.as_str());
        let title = format!("fill within the ring under {name}, loose, of what fills the footing");
        rows.add(self.path("fill-loose-volume"), title, loose);
        let [depth, width] = &oven.footing;
        let footing = oven::footing(width.value, depth.value)
            .from("width", width.path.as_str())
            .from("depth", depth.path.as_str());
        let footing = rows.add(self.path("footing-volume"), format!("footing of {name}, packed"), footing);
        let loose = earth::loose_for_packed(footing, oven.loose.value)
            .from("packed volume", self.path("footing-volume"))
            .from("loose factor", oven.loose.path.as_str());
        rows.add(self.path("footing-loose-volume"), format!("filling of the footing of {name}, loose"), loose);
        [stone, fill]
    }

    fn clear(&self, rows: &mut Rows) {
        let (oven, house) = (self.oven, self.house);
        let base = &oven.base[1];
        let [distance, half_wall] = oven.to_wall;
        let over = self.path("over-dome");
        let widest = if oven.overall() > base.value { over.as_str() } else { base.path.as_str() };
        let mut clear = oven::clear_of_wall(oven.overall(), distance, half_wall)
            .from("diameter", widest)
            .with("x", oven.at[0].value, oven.at[0].path.as_str())
            .with("y", oven.at[1].value, oven.at[1].path.as_str());
        clear = bind_piece(clear, house, house.wall.line.nearest(oven.middle()).piece, rows);
        clear = if house.wall.thicknesses.is_even() {
            bind_once(clear, rows, "wall.thickness")
        } else {
            bind_thickness(clear, house, rows)
        };
        rows.add(self.path("clear-of-wall"), format!("clear way from {} to the wall", self.name), clear);
    }

    fn weight(&self, layers: [Volume; 2], floor: Volume, [ring, fill]: [Volume; 2], rows: &mut Rows) {
        let (oven, name) = (self.oven, &self.name);
        let [thermal, insulation] = &oven.densities;
        let part = |noun: &str, volume: Volume, density: Density, density_path: &str| {
            oven::part_mass(volume, density)
                .from("volume", self.path(&format!("{noun}-volume")))
                .from("density", density_path)
        };
        let mut masses: Vec<(String, String, Mass)> = Vec::new();
        for (noun, words, volume, density) in [
            ("thermal", "earth that keeps the heat", layers[0], thermal),
            ("insulation", "straw and clay round it", layers[1], insulation),
            ("floor", "brick floor", floor, &oven.brick_density),
        ] {
            let title = format!("{words}, {name}, by mass");
            let mass = part(noun, volume, density.value, &density.path);
            let path = self.path(&format!("{noun}-mass"));
            let mass = rows.add(path.as_str(), title.as_str(), mass);
            masses.push((title, path, mass));
        }
        let base = oven::base_mass(ring, fill, oven.base_density.value)
            .from("ring", self.path("ring-volume"))
            .from("fill", self.path("fill-volume"))
            .from("density", oven.base_density.path.as_str());
        let title = format!("ring and fill under {name}, by mass");
        let base = rows.add(self.path("base-mass"), title.as_str(), base);
        masses.push((title, self.path("base-mass"), base));
        let mass = oven::mass(masses.iter().map(|(.., mass)| *mass).sum()).of_parts(masses);
        let mass = rows.add(self.path("mass"), format!("mass of {name} on its footing, dry"), mass);
        let width = &oven.footing[1];
        let pressure = oven::ground_pressure(mass, width.value, STANDARD_GRAVITY_M_S2)
            .from("mass", self.path("mass"))
            .from("width", width.path.as_str());
        rows.add(self.path("ground-pressure"), format!("mean pressure under the footing of {name}"), pressure);
    }

    fn needs(&self) -> Vec<Need> {
        vec![
            Need::of(&self.oven.brick_of, [self.path("bricks")]),
            Need::of(STONES[0], [self.path("stone-mass")]),
            Need::of(&self.oven.footing_of, [self.path("footing-loose-volume")]),
            Need::of(&self.oven.footing_of, [self.path("fill-loose-volume")]),
        ]
    }
}
