//! The house: every value known, every part placed.

mod bought;
mod earth;
mod goods;
mod hollow;
mod layers;
mod levels;
mod lifts;
mod line;
mod openings;
pub mod part;
mod parts;
mod place;
mod roof;
mod section;
mod trench_section;
mod unrolled;

pub use bought::{STONES, STRAW, WATER};
pub use earth::{Amount, Earth, Ingredient, Recipe};
pub use goods::{Good, Vehicle};
pub use layers::{Layer, Of, Skin};
pub use openings::offsets;
pub use parts::parts;
pub use place::place;
pub use roof::{Frame, Layer as RoofLayer, Roof, Weight};
pub use section::section;
pub use trench_section::{trench_rows, trench_section};
pub use unrolled::{unrolled, unrolled_rows};

use jiff::civil::Date;

use crate::build::{OpeningKind, Path};
use crate::curve::{PlanLine, Station, Strip};
use crate::ground;
use crate::known::Known;
use crate::units::{Angle, Currency, Days, Density, Length, Ratio, Slope, System};
use crate::wall::Faces;

/// A house with nothing missing.
#[derive(Clone, Debug)]
pub struct House {
    /// Its name and what is said of it.
    pub about: About,
    /// Units for screen and paper.
    pub system: System,
    /// Names of the rulebooks it is held against.
    pub rulebooks: Vec<String>,
    /// What was assumed and is not a quantity: key, value, why.
    pub assumed: Vec<(&'static str, &'static str, &'static str)>,
    /// Direction of north in the plan, anticlockwise from the x axis.
    pub north: Known<Angle>,
    /// The wall and its stem.
    pub wall: Wall,
    /// The openings, in the order of the file.
    pub openings: Vec<Opening>,
    /// Level of the ground outside.
    pub ground: Known<Length>,
    /// Level of the finished floor.
    pub floor_level: Known<Length>,
    /// Loose and packed volume for each volume in the ground.
    pub spoil: [Known<f64>; 2],
    /// The rubble trench.
    pub trench: Option<Trench>,
    /// The drain from the trench to daylight.
    pub drain: Option<Drain>,
    /// Bucket, piles and recipes.
    pub earth: Option<Earth>,
    /// The floor's layers, from the ground up.
    pub floor: Vec<Layer>,
    /// Coats and slip.
    pub skin: Skin,
    /// The roof.
    pub roof: Option<Roof>,
    /// Height of heaps in the yard.
    pub heap: Known<Length>,
    /// What brings things.
    pub vehicles: Vec<Vehicle>,
    /// What is bought, as far as suppliers are known.
    pub goods: Vec<Good>,
    /// Numbers of people, as written: key, title, count.
    pub crew: Vec<(&'static str, Known<u64>)>,
    /// Days, as written: title, day.
    pub dates: Vec<(&'static str, Known<Date>)>,
}

/// Words about the house.
#[derive(Clone, Debug, Default)]
pub struct About {
    /// Its name.
    pub name: String,
    /// What it is.
    pub about: String,
    /// Currency of prices.
    pub currency: Option<Currency>,
    /// Whether soil, people, prices and place are made up.
    pub invented: bool,
    /// Where it is.
    pub place: String,
    /// What it is for.
    pub use_: String,
    /// Which way it takes through the law.
    pub path: Option<Path>,
}

/// A named point of the wall line.
#[derive(Clone, Debug)]
pub struct Point {
    /// Its name.
    pub name: String,
    /// x.
    pub x: Known<Length>,
    /// y.
    pub y: Known<Length>,
    /// The point that the run to the next point passes through.
    pub through: Option<[Known<Length>; 2]>,
    /// Radius of its rounded corner.
    pub round: Known<Length>,
}

/// The wall and its stem.
#[derive(Clone, Debug)]
pub struct Wall {
    /// The named points.
    pub points: Vec<Point>,
    /// The line through them.
    pub line: PlanLine,
    /// Thickness at the base.
    pub thickness: Known<Length>,
    /// Height above the base.
    pub height: Known<Length>,
    /// Lean of the inner face.
    pub batter_inside: Known<Slope>,
    /// Lean of the outer face.
    pub batter_outside: Known<Slope>,
    /// Height of the stem wall.
    pub stem_height: Known<Length>,
    /// Width of the stem wall.
    pub stem_width: Known<Length>,
    /// The stone in the stem wall.
    pub stone: Stone,
    /// The recipe of the cob.
    pub cob: Option<String>,
    /// Cob that is sawn off, as a share of the finished wall, and what of it goes back to the tarp.
    pub trim: [Known<Ratio>; 2],
    /// The lifts, from the foot to the top.
    pub lifts: Vec<Lift>,
}

/// The stone in the stem wall.
#[derive(Clone, Debug)]
pub struct Stone {
    /// Solid share of the wall.
    pub solid: Known<Ratio>,
    /// Share of hearting in the stone.
    pub hearting: Known<Ratio>,
    /// From one through stone to the next.
    pub through: Known<Length>,
    /// Density of the stone itself.
    pub density: Known<Density>,
}

/// A rise of cob placed at one time, all round the wall.
#[derive(Clone, Debug)]
pub struct Lift {
    /// Its name.
    pub name: String,
    /// Level of its top; the last one's is the height of the wall.
    pub top: Known<Length>,
    /// Days after the start of the first lift on which it is begun.
    pub start: Known<Days>,
}

impl Lift {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("wall.lifts.{}.{noun}", self.name)
    }
}

/// What stands on a day.
#[derive(Clone, Debug)]
pub struct Standing<'a> {
    /// The lifts begun by then, from the foot up.
    pub lifts: &'a [Lift],
    /// Level to which the wall has risen when they are laid.
    pub top: Length,
}

impl House {
    /// What stands on a day, counted from the start of the first lift: all lifts begun by then, each as if laid in a day.
    #[must_use]
    pub fn on(&self, day: Days) -> Standing<'_> {
        let begun = self.wall.lifts.iter().take_while(|lift| lift.start.value <= day).count();
        let lifts = &self.wall.lifts[..begun];
        Standing { lifts, top: lifts.last().map_or(Length::ZERO, |lift| lift.top.value) }
    }
}

impl Wall {
    /// Where the faces stand.
    #[must_use]
    pub fn faces(&self) -> Faces {
        Faces {
            thickness: self.thickness.value,
            batter_inside: self.batter_inside.value,
            batter_outside: self.batter_outside.value,
        }
    }
}

/// A door or a window.
#[derive(Clone, Debug)]
pub struct Opening {
    /// Its name.
    pub name: String,
    /// Door or window.
    pub kind: OpeningKind,
    /// The run it is in, by place in the list of points.
    pub run: usize,
    /// Distance of its middle along that run.
    pub along: Known<Length>,
    /// Width.
    pub width: Known<Length>,
    /// Height.
    pub height: Known<Length>,
    /// Level of the sill or the threshold.
    pub bottom: Known<Length>,
    /// Its middle on the line.
    pub station: Station,
}

impl Opening {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("openings.{}.{noun}", self.name)
    }

    /// Level of its head.
    #[must_use]
    pub fn head(&self) -> Length {
        self.bottom.value + self.height.value
    }

    /// The strip that it cuts across the wall; placing it proved that there is one.
    #[must_use]
    pub fn strip<'a>(&self, wall: &'a Wall) -> Option<Strip<'a>> {
        Strip::across(&wall.line, self.station, self.width.value.in_m(), openings::offsets(wall))
    }
}

/// The rubble trench under the wall.
#[derive(Clone, Debug)]
pub struct Trench {
    /// Width.
    pub width: Known<Length>,
    /// Depth below the ground outside where it is least.
    pub depth: Known<Length>,
    /// Fall of its bottom.
    pub fall: Known<Slope>,
    /// Run under which it drains.
    pub run: usize,
    /// Distance along that run.
    pub along: Known<Length>,
    /// The outlet on the line.
    pub outlet: Station,
    /// What fills it.
    pub of: String,
    /// Loose volume of the filling for each packed volume.
    pub loose: Known<f64>,
    /// The fabric round it.
    pub fabric: Fabric,
}

/// The fabric round the rubble of trench and drain.
#[derive(Clone, Debug)]
pub struct Fabric {
    /// How far one piece lies over the next.
    pub lap: Known<Length>,
    /// Length of a piece as it comes.
    pub piece: Known<Length>,
    /// What is bought.
    pub of: String,
}

impl Trench {
    /// Depth below the ground outside at a distance along the line, in metres.
    #[must_use]
    pub fn depth_at(&self, line: &PlanLine, along: f64) -> Length {
        let whole = line.length();
        ground::depth_at(self.depth.value, self.fall.value, Length::m(whole), self.to_outlet(line, along)).value
    }

    /// The shorter way along the line to the outlet, from a distance along it, in metres.
    #[must_use]
    pub fn to_outlet(&self, line: &PlanLine, along: f64) -> Length {
        let apart = (line.along_line(self.outlet) - along).abs();
        Length::m(apart.min(line.length() - apart))
    }
}

/// The drain to daylight.
#[derive(Clone, Debug)]
pub struct Drain {
    /// Its length.
    pub length: Known<Length>,
    /// Level of the ground where it comes out, when it was measured.
    pub daylight: Option<Known<Length>>,
    /// Soil put back over its gravel.
    pub cover: Known<Length>,
}
