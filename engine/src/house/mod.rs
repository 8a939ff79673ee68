//! The house: every value known, every part placed.

mod bought;
pub mod built_in;
mod earth;
mod fittings;
mod goods;
mod hollow;
mod layers;
mod levels;
mod lifts;
mod line;
mod opening;
mod openings;
pub mod part;
mod parts;
mod place;
mod profile;
mod roof;
mod section;
mod stuff;
mod trench_section;
mod unrolled;

pub use bought::{STONES, STRAW, WATER};
pub use built_in::{Anchors, BondBeam, BuiltIn};
pub use earth::{Amount, Earth, Ingredient, Recipe};
pub use goods::{Good, Vehicle};
pub use layers::{Layer, Of, Skin};
pub use opening::{FittedFrame, Lintel, Opening, SillBoard, Splay};
pub use openings::offsets;
pub use parts::parts;
pub use place::place;
pub use roof::{Frame, Layer as RoofLayer, Roof, Weight};
pub use section::section;
pub use stuff::Stuff;
pub use trench_section::{trench_rows, trench_section};
pub use unrolled::{unrolled, unrolled_rows};

use jiff::civil::Date;

use crate::build::Path;
use crate::curve::{Along, PlanLine, Shape, Station, Top};
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
    /// What is built into and onto the wall, in the order of the file.
    pub built_in: Vec<BuiltIn>,
    /// The timber on the top of the wall.
    pub bond_beam: Option<BondBeam>,
    /// The deadmen in the wall.
    pub anchors: Vec<Anchors>,
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
    /// The cubic curve to the next point.
    pub curve: Option<Curve>,
    /// Radius of its rounded corner.
    pub round: Known<Length>,
    /// Thickness and height of the wall here, where the builder wrote one.
    pub own: [Option<Known<Length>>; 2],
}

/// Tangents of a cubic curve in the direction of travel.
#[derive(Clone, Debug)]
pub struct Curve {
    /// At the point that it leaves: x and y.
    pub leave: [Known<Length>; 2],
    /// At the next point: x and y.
    pub arrive: [Known<Length>; 2],
}

/// The wall and its stem.
#[derive(Clone, Debug)]
pub struct Wall {
    /// The named points.
    pub points: Vec<Point>,
    /// The line through them.
    pub line: PlanLine,
    /// Thickness at the base, where no point of the line says otherwise.
    pub thickness: Known<Length>,
    /// Thickness at the base along the line, in metres.
    pub thicknesses: Along,
    /// Height above the base, where neither a point of the line nor a slope says otherwise.
    pub height: Known<Length>,
    /// The slope that its top follows.
    pub slope: Option<TopSlope>,
    /// Level of its top along the line.
    pub top: Top,
    /// Lean of the inner face.
    pub batter_inside: Known<Slope>,
    /// Lean of the outer face.
    pub batter_outside: Known<Slope>,
    /// Height of the stem wall.
    pub stem_height: Known<Length>,
    /// Width of the stem wall.
    pub stem_width: Known<Length>,
    /// The same along the line, in metres.
    pub stem_widths: Along,
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

    /// The two faces of the cob along the line.
    #[must_use]
    pub fn shape(&self) -> Shape<'_> {
        let lean = [self.batter_inside.value.in_ratio(), self.batter_outside.value.in_ratio()];
        Shape { line: &self.line, thickness: &self.thicknesses, lean }
    }

    /// The two faces of the stem wall along the line.
    #[must_use]
    pub fn stem_shape(&self) -> Shape<'_> {
        Shape { line: &self.line, thickness: &self.stem_widths, lean: [0.0; 2] }
    }

    /// The lifts that another one follows.
    pub fn beds(&self) -> impl Iterator<Item = &Lift> {
        self.lifts.split_last().map_or(&self.lifts[..], |(_, beds)| beds).iter()
    }

    /// The level of its top, the highest where it is not level.
    #[must_use]
    pub fn top_level(&self) -> part::Level {
        match self.lifts.last() {
            Some(last) if !self.top.is_level() => {
                part::Level::new(&last.top.path, "highest top of the wall", last.top.value)
            }
            _ => part::Level::new("wall.height", "top of the wall", self.height.value),
        }
    }

    /// Whether its thickness and its height are the same everywhere.
    #[must_use]
    pub fn is_even(&self) -> bool {
        self.thicknesses.is_even() && self.top.is_level()
    }
}

/// The even slope that the top of a wall follows.
#[derive(Clone, Debug)]
pub struct TopSlope {
    /// How steep it is.
    pub slope: Known<Slope>,
    /// The direction in which it rises, anticlockwise from the x axis.
    pub rises: Known<Angle>,
    /// The named point at which it has the height of the wall, by place in the list.
    pub from: usize,
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
        let (whole, to_outlet) = (Length::m(line.length()), self.to_outlet(line, along));
        if line.is_closed() {
            return ground::depth_at(self.depth.value, self.fall.value, whole, to_outlet).value;
        }
        ground::depth_at_of_open(self.depth.value, self.fall.value, self.longest_way(line), to_outlet).value
    }

    /// The way along the line to the outlet, from a distance along it, in metres: the shorter one round a closed line.
    #[must_use]
    pub fn to_outlet(&self, line: &PlanLine, along: f64) -> Length {
        let apart = (line.along_line(self.outlet) - along).abs();
        Length::m(if line.is_closed() { apart.min(line.length() - apart) } else { apart })
    }

    /// The longest way along the line to the outlet: half-way round a closed line, from the farther end of an open one.
    #[must_use]
    pub fn longest_way(&self, line: &PlanLine) -> Length {
        if line.is_closed() {
            return Length::m(0.5 * line.length());
        }
        self.to_outlet(line, 0.0).max(self.to_outlet(line, line.length()))
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
