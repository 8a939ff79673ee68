//! Places an oven in the room, clear of the wall, with room before its door.

use kurbo::{Point, Vec2};

use super::site::Site;
use crate::build::{self, Written};
use crate::curve::Side;
use crate::house::layers::loose;
use crate::known::{Known, Origin};
use crate::oven;
use crate::units::{Angle, Density, Length, Quantity, Ratio};

/// Room before the door for whoever tends the fire: our judgement.
const BEFORE_THE_DOOR: Length = Length::mm(600.0);

/// An oven on its own footing.
#[derive(Clone, Debug)]
pub struct Oven {
    /// Its middle in plan: x and y.
    pub at: [Known<Length>; 2],
    /// The direction in which its door faces.
    pub faces: Known<Angle>,
    /// Diameter of its floor within the dome.
    pub diameter: Known<Length>,
    /// Height of the dome within.
    pub dome_height: Known<Length>,
    /// Width and height of the doorway.
    pub door: [Known<Length>; 2],
    /// Thicknesses of the layers that keep the heat and hold it in.
    pub layers: [Known<Length>; 2],
    /// Their recipes.
    pub of: [Option<String>; 2],
    /// Their densities.
    pub densities: [Known<Density>; 2],
    /// Height, diameter and thickness of the ring of stone.
    pub base: [Known<Length>; 3],
    /// Density of ring and fill.
    pub base_density: Known<Density>,
    /// Length, width and thickness of a floor brick.
    pub brick: [Known<Length>; 3],
    /// What is lost in cutting bricks to the circle.
    pub waste: Known<Ratio>,
    /// Density of the bricks.
    pub brick_density: Known<Density>,
    /// What the bricks are bought as.
    pub brick_of: String,
    /// Depth and diameter of the footing.
    pub footing: [Known<Length>; 2],
    /// What fills the footing.
    pub footing_of: String,
    /// Loose volume of that for each volume in place.
    pub loose: Known<f64>,
    /// From its middle to the wall's line, and half the wall there.
    pub to_wall: [Length; 2],
}

impl Oven {
    /// Its middle, in metres.
    #[must_use]
    pub fn middle(&self) -> Point {
        Point::new(self.at[0].value.in_m(), self.at[1].value.in_m())
    }

    /// Diameter over the dome.
    #[must_use]
    pub fn over_dome(&self) -> Length {
        let [thermal, insulation] = self.layers.each_ref().map(|layer| layer.value);
        oven::over_layer(oven::over_layer(self.diameter.value, thermal).value, insulation).value
    }

    /// Diameter of the ground that it takes: over dome, base and footing, whichever is wider.
    #[must_use]
    pub fn ground(&self) -> Length {
        self.overall().max(self.footing[1].value)
    }

    /// Diameter over dome and base, whichever is wider.
    #[must_use]
    pub fn overall(&self) -> Length {
        self.over_dome().max(self.base[1].value)
    }
}

/// What a value that is not written is taken from.
struct Default<'a, T> {
    value: T,
    origin: Origin,
    why: &'static str,
    follows: Vec<&'a str>,
}

fn usual<T>(value: T, origin: Origin, why: &'static str) -> Default<'static, T> {
    Default { value, origin, why, follows: Vec::new() }
}

impl<'a, T> Default<'a, T> {
    fn following(mut self, path: &'a str) -> Default<'a, T> {
        self.follows.push(path);
        self
    }
}

/// Reads values of one oven, each within a range or by default.
struct Reading<'a> {
    site: &'a Site<'a>,
    name: &'a str,
}

impl Reading<'_> {
    fn value<T: Copy + PartialOrd + Into<Quantity>>(
        &self,
        written: &Option<Written<T>>,
        key: &str,
        (from, to): (T, T),
        what: &str,
        default: Default<'_, T>,
    ) -> Option<Known<T>> {
        if written.is_some() {
            return self.site.within(written.as_ref(), from..to, what);
        }
        let path = format!("built-in.{}.{key}", self.name);
        let known = Known::assumed(default.value, path, default.origin, default.why);
        Some(default.follows.into_iter().fold(known, Known::following))
    }

    fn density(
        &self,
        written: &Option<Written<Density>>,
        key: &str,
        usual: Default<'_, Density>,
    ) -> Option<Known<Density>> {
        let range = (Density::kg_m3(100.0), Density::kg_m3(3500.0));
        self.value(written, key, range, "a density for a part of an oven", usual)
    }
}

pub(super) fn place(site: &Site<'_>, written: &build::BuiltIn) -> Option<Oven> {
    let keys = &written.keys.oven;
    let name = &written.name.value;
    let read = Reading { site, name };
    let mm = |from: f64, to: f64| (Length::mm(from), Length::mm(to));
    let size = |written: &Option<Written<Length>>, range: (Length, Length), what: &str| {
        site.within(written.as_ref(), range.0..range.1, what)
    };
    let at = keys.at.as_ref()?;
    let places = (Length::m(-200.0), Length::m(200.0));
    let axis = |place: usize| size(&Some(at.value[place].clone()), places, "a place in the plan of a small house");
    let (x, y) = (axis(0), axis(1));
    let faces = crate::house::place::known(keys.faces.as_ref());
    let diameter = size(&keys.diameter, mm(300.0, 2500.0), "the diameter of an oven")?;
    let (d, d_path) = (diameter.value, diameter.path.as_str());
    let why = "a dome is about 60 % as high as its floor is wide";
    let default = usual(d * 0.6, Origin::CommonPractice, why).following(d_path);
    let dome_height =
        read.value(&keys.dome_height, "dome-height", mm(150.0, 2000.0), "the height of a dome", default)?;
    let why = "a doorway is about half as wide as the floor";
    let default = usual(d * 0.5, Origin::CommonPractice, why).following(d_path);
    let door_width =
        read.value(&keys.door_width, "door-width", mm(100.0, 1500.0), "the width of an oven's door", default);
    let why = "a doorway is 63 % as high as the dome: lower it smokes, higher it loses heat";
    let default = usual(dome_height.value * 0.63, Origin::CommonPractice, why).following(dome_height.path.as_str());
    let what = "the height of an oven's door";
    let door_height = read.value(&keys.door_height, "door-height", mm(100.0, 1500.0), what, default);
    let layer = mm(20.0, 600.0);
    let default = usual(Length::mm(100.0), Origin::CommonPractice, "dense earth to keep the heat for a baking");
    let thermal = read.value(&keys.thermal, "thermal", layer, "the thickness of a dome's layer", default)?;
    let default = usual(Length::mm(150.0), Origin::Judgement, "straw and clay to hold the heat in");
    let what = "the thickness of a dome's insulation";
    let insulation = read.value(&keys.insulation, "insulation", mm(0.0, 600.0), what, default)?;
    let of = site.recipe(keys.of.as_ref())?;
    let insulation_of = match &keys.insulation_of {
        Some(written) => site.recipe(Some(written))?,
        None if insulation.value > Length::ZERO && site.earth.is_some() => {
            let thick = site.shown(insulation.value);
            let message = format!("nothing says of what the {thick} of insulation round the dome are made");
            let hint = "write insulation-of with the name of its recipe, or insulation = \"0 mm\" for none";
            site.refuse(keys.insulation.as_ref(), &written.name, message, hint);
            return None;
        }
        None => None,
    };
    let default = usual(Density::kg_m3(1800.0), Origin::Memory, "dense earth with little straw, dry");
    let density = read.density(&keys.density, "density", default);
    let default = usual(Density::kg_m3(600.0), Origin::Memory, "straw and clay slip, dry");
    let insulation_density = read.density(&keys.insulation_density, "insulation-density", default);
    let default = usual(Length::mm(700.0), Origin::Judgement, "the oven's floor is at the height of a table");
    let height = read.value(&keys.base.height, "base.height", mm(100.0, 1500.0), "the height of a base", default)?;
    let over = oven::over_layer(oven::over_layer(d, thermal.value).value, insulation.value).value;
    let default = usual(over, Origin::Judgement, "as wide as the dome over its layers").following(d_path);
    let default = default.following(thermal.path.as_str()).following(insulation.path.as_str());
    let base =
        read.value(&keys.base.diameter, "base.diameter", mm(400.0, 4000.0), "the diameter of a base", default)?;
    let default = usual(Length::mm(250.0), Origin::CommonPractice, "stone laid in earth as a ring");
    let ring =
        read.value(&keys.base.ring, "base.ring", mm(80.0, 800.0), "the thickness of a ring of stone", default)?;
    let default = usual(Density::kg_m3(2000.0), Origin::Memory, "stone, and rubble packed with sand");
    let base_density = read.density(&keys.base.density, "base.density", default);
    let brick_size = |written, key, usual_mm, why| {
        let default = usual(Length::mm(usual_mm), Origin::Memory, why);
        read.value(written, key, mm(20.0, 600.0), "a size for a brick", default)
    };
    let brick = [
        brick_size(&keys.floor.length, "floor.length", 230.0, "a fire brick is about 230 mm long"),
        brick_size(&keys.floor.width, "floor.width", 115.0, "a fire brick is about 115 mm wide"),
        brick_size(&keys.floor.thickness, "floor.thickness", 64.0, "a fire brick laid flat is about 64 mm thick"),
    ];
    let default = usual(Ratio::percent(15.0), Origin::Judgement, "bricks are cut along the whole circle");
    let wastes = (Ratio::ZERO, Ratio::percent(60.0));
    let waste = read.value(&keys.floor.waste, "floor.waste", wastes, "a loss of bricks", default);
    let default = usual(Density::kg_m3(2100.0), Origin::Memory, "dense fire brick");
    let brick_density = read.density(&keys.floor.density, "floor.density", default)?;
    let default = usual(Length::mm(450.0), Origin::Judgement, "below topsoil; frost under a heated room is rare");
    let depth =
        read.value(&keys.footing.depth, "footing.depth", mm(100.0, 2000.0), "the depth of a footing", default)?;
    let default = usual(base.value + Length::mm(300.0), Origin::Judgement, "150 mm beyond the base all round");
    let default = default.following(base.path.as_str());
    let width =
        read.value(&keys.footing.width, "footing.width", mm(400.0, 5000.0), "the diameter of a footing", default)?;
    let stem = format!("built-in.{name}.footing");
    let loose = loose(site.source, keys.footing.loose.as_ref(), &stem, site.system);
    let bought = |written: &Option<Written<String>>, own: &str| {
        written.as_ref().map_or_else(|| own.to_owned(), |of| of.value.clone())
    };
    let [length, brick_width, thickness] = brick;
    let oven = Oven {
        at: [x?, y?],
        faces: faces?,
        dome_height,
        door: [door_width?, door_height?],
        layers: [thermal, insulation],
        of: [of, insulation_of],
        densities: [density?, insulation_density?],
        base: [height, base, ring],
        base_density: base_density?,
        brick: [length?, brick_width?, thickness?],
        waste: waste?,
        brick_density,
        brick_of: bought(&keys.floor.of, "oven-brick"),
        footing: [depth, width],
        footing_of: bought(&keys.footing.of, "gravel"),
        loose,
        to_wall: [Length::ZERO; 2],
        diameter,
    };
    is_whole(site, written, &oven)?;
    in_the_room(site, written, oven)
}

/// Refuses a doorway that the dome cannot span, a ring without room, a footing narrower than what stands on it.
fn is_whole(site: &Site<'_>, written: &build::BuiltIn, oven: &Oven) -> Option<()> {
    let keys = &written.keys.oven;
    let [door_width, door_height] = oven.door.each_ref().map(|size| size.value);
    if door_width >= oven.diameter.value || door_height >= oven.dome_height.value {
        let message = format!(
            "a door {} wide and {} high would cut the dome, {} wide and {} high, in two",
            site.shown(door_width),
            site.shown(door_height),
            site.shown(oven.diameter.value),
            site.shown(oven.dome_height.value)
        );
        let at = keys.door_height.as_ref().or(keys.door_width.as_ref()).or(keys.dome_height.as_ref());
        let hint = "write a door about half as wide as the floor and 63 % as high as the dome";
        site.refuse(at.or(keys.diameter.as_ref()), &written.name, message, hint);
        return None;
    }
    let [_, base, ring] = oven.base.each_ref().map(|size| size.value);
    if 2.0 * ring >= base {
        let message =
            format!("a ring {} thick leaves nothing within a base {} wide", site.shown(ring), site.shown(base));
        site.refuse(keys.base.ring.as_ref(), &written.name, message, "make the ring thinner, or the base wider");
        return None;
    }
    if oven.footing[1].value < base {
        let message = format!(
            "the footing would be {} wide, the base on it is {}",
            site.shown(oven.footing[1].value),
            site.shown(base)
        );
        site.refuse(
            keys.footing.width.as_ref(),
            &written.name,
            message,
            "make the footing at least as wide as the base",
        );
        return None;
    }
    Some(())
}

/// Refuses an oven that does not stand in the room, or whose door faces a wall.
fn in_the_room(site: &Site<'_>, written: &build::BuiltIn, mut oven: Oven) -> Option<Oven> {
    let keys = &written.keys.oven;
    let at = keys.at.as_ref()?;
    let line = &site.wall.line;
    if !line.is_closed() {
        let hint = "close the wall: ends = \"closed\", or leave the oven out";
        site.refuse(Some(at), &written.name, "an oven stands in a room, and this wall is open", hint);
        return None;
    }
    // Whether a point lies within the line, how far from it, and how far the inner face at the foot of the cob does.
    let within = |point: Point| {
        let station = line.nearest(point);
        let face = site.shape.offset(Side::Inner, line.along_line(station), 0.0);
        let away = point - station.point;
        // The inside of a line lies to the left of the way along it.
        (away.dot(station.axis.turn_90()) > 0.0, away.hypot(), -face)
    };
    let middle = oven.middle();
    let (is_inside, distance, half_wall) = within(middle);
    oven.to_wall = [distance, half_wall].map(Length::m);
    let reach = 0.5 * oven.overall().in_m();
    if !is_inside || distance - half_wall < reach {
        let message = if is_inside && distance > half_wall {
            format!(
                "the oven is {} wide, the room has {} from its middle to the wall",
                site.shown(oven.overall()),
                site.shown_m(distance - half_wall)
            )
        } else {
            "the middle of the oven is not in the room".to_owned()
        };
        let hint = "move it, or make dome, layers or base smaller";
        site.refuse(Some(at), &written.name, message, hint);
        return None;
    }
    let way = Vec2::from_angle(oven.faces.value.in_rad());
    let before = middle + way * (reach + BEFORE_THE_DOOR.in_m());
    let (is_inside, distance, half_wall) = within(before);
    if !is_inside || distance < half_wall {
        let message = format!("the oven's door faces a wall less than {} away", site.shown(BEFORE_THE_DOOR));
        site.refuse(keys.faces.as_ref(), &written.name, message, "turn the oven, or move it away from that wall");
        return None;
    }
    Some(oven)
}
