//! The house: every value known, every part placed.

mod batches;
mod boarding;
pub mod boarding_plan;
mod bond_beam;
mod bought;
mod bricks;
pub mod built_in;
mod deck;
mod deck_plan;
mod deck_told;
mod details;
mod earth;
mod elevation;
mod fittings;
mod floor;
mod furnishing;
mod gap;
mod gauge;
mod goods;
mod gradings;
pub mod handles;
mod hanging;
mod hollow;
mod jars;
mod layers;
mod levels;
mod lever;
pub mod lift_cards;
mod lifts;
mod limits;
mod line;
mod mix_choice;
mod mix_plan;
mod mixes;
mod one_system;
mod opening;
mod openings;
mod panels;
pub mod part;
mod parts;
mod pegs;
mod pile;
mod place;
mod planks;
mod plaster;
mod profile;
pub mod rafter_plan;
mod rafters;
mod raised;
mod ring;
mod ring_faults;
mod ring_other;
pub mod ring_plan;
mod roof;
mod roof_layers;
mod roof_loads;
mod roof_opening;
mod roof_wood;
mod samples;
mod sanding;
mod schedule;
pub mod second_ring;
mod secondary;
mod section;
mod set_out;
mod shelter;
pub mod site;
mod story_pole;
mod stuff;
mod surfaces;
mod trench;
mod trench_section;
mod unrolled;

pub use batches::{Batch, Batches, Filled};
pub use boarding::Boarding;
pub use bond_beam::{BeamPlan, beam_plan};
pub use bought::{OIL, STONES, STRAW, THINNER, WATER};
pub use bricks::{Brick, Bricks, Load, Moisture, Trial};
pub use built_in::{Anchors, BondBeam, BuiltIn};
pub use deck::Deck;
pub use deck_plan::{BayPlan as DeckBay, DeckPlan};
pub use deck_told::{BoardLine, Cover as EyeCover, DeckTables, Held as BoardsHeld, ShimLine, deck_tables};
pub use details::{Detail, details};
pub use earth::{Amount, Earth, Feel, Ingredient, Pair, Recipe, SmallTests};
pub use elevation::{Elevation, elevations};
pub use floor::{Bays, Oil};
pub use furnishing::{Figure, Furnishing, Placed, furnishing};
pub use gap::Gap;
pub use gauge::Gauge;
pub use goods::{Good, Vehicle};
pub use gradings::{Found, Grading, GradingPoint, Hydrometer, HydrometerReading, Sieve as GradingSieve, Sieved};
pub use jars::{Jar, Settled};
pub use layers::{Layer, Of, Skin};
pub use lever::Lever;
pub use lift_cards::{lift_cards, service_places};
pub use limits::Limits;
pub use line::{Curve, Point};
pub use mixes::{MixFound, MixPlan, MixSurface, Mixes, Tried, Unchosen, Wish};
pub use opening::{FittedFrame, Hanging, Lintel, Opening, SillBoard, Splay};
pub use openings::offsets;
pub use panels::{Panel, Panels, PanelsFound};
pub use parts::parts;
pub use pegs::{CheckTape, Marks, Ordinates, Peg, Pegs, most_steps, pegs};
pub use pile::PilePole;
pub use place::{OPEN, place};
pub use planks::Planks;
pub use plaster::Plastering;
pub use rafter_plan::{RafterPlan, rafter_plan};
pub use rafters::{Rafter, RafterPile, Rafters};
pub use ring::Ring;
pub use ring_other::{Other, other_ring};
pub(crate) use ring_plan::axis as ring_axis;
pub use ring_plan::{RingPlan, ring_plan};
pub use roof::{Frame, Held, Roof};
pub use roof_layers::{Layer as RoofLayer, Weight};
pub use roof_loads::{Ground, RoofSoil, SiteLoads, Soaked};
pub use roof_opening::{Framed, RoofOpening, roof_openings};
pub use roof_wood::{Bolt, Code, Values, Wood};
pub use samples::{Bar, Erosion};
pub use sanding::Sanding;
pub use schedule::{Carded, Hung, carded, schedule};
pub use secondary::{Borne, Secondary};
pub use section::section;
pub(crate) use section::{cut as section_cut, tops as section_tops};
pub use set_out::{Near, SetOut, widest};
pub use shelter::{COVER_SHEET, Cover, PLATFORM_BOARD, Platform, SANDBAG, TRESTLE};
pub use site::{Site, SitePlan, site_plan};
pub use story_pole::{Mark, story_pole};
pub use stuff::Stuff;
pub use surfaces::{BayMark, BayPlan, Coat, Face as PlasteredFace, FloorLayer, Stretch, Surfaces, surfaces};
pub use trench::{Drain, Fabric, Trench};
pub use trench_section::{trench_rows, trench_section};
pub use unrolled::{unrolled, unrolled_rows};

use jiff::civil::Date;

use crate::build::Path;
use crate::curve::{Along, PlanLine, Shape, Top};
use crate::known::Known;
use crate::units::{Angle, Currency, Days, Density, Length, Ratio, Slope, System, Volume};
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
    /// What fills the gap under the roof.
    pub gap: Option<Gap>,
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
    /// Baseline, benchmark, and what near enough means.
    pub set_out: SetOut,
    /// Bucket, piles and recipes.
    pub earth: Option<Earth>,
    /// Test bricks, in the order of their names.
    pub bricks: Vec<Bricks>,
    /// Jars of soil in water, in the order of their names.
    pub jars: Vec<Jar>,
    /// Limits of soils, in the order of their names.
    pub limits: Vec<Limits>,
    /// Tried mixes, in the order of their names.
    pub mixes: Vec<Mixes>,
    /// Test panels of plaster, in the order of their names.
    pub panels: Vec<Panels>,
    /// Logs of batches, in the order of their names.
    pub batches: Vec<Batches>,
    /// Gradings, in the order of their names.
    pub gradings: Vec<Grading>,
    /// Bars of mixes, in the order of their names.
    pub bars: Vec<Bar>,
    /// What was washed, in the order of their names.
    pub erosion: Vec<Erosion>,
    /// Sand that is to be added, in the order of their names.
    pub sandings: Vec<Sanding>,
    /// The floor's layers, from the ground up.
    pub floor: Vec<Layer>,
    /// The bays in which its top layer is laid.
    pub bays: Option<Bays>,
    /// The coats of oil on it, in the order in which they are put on.
    pub oil: Vec<Oil>,
    /// Coats and slip.
    pub skin: Skin,
    /// The roof.
    pub roof: Option<Roof>,
    /// The site.
    pub site: Site,
    /// What its lifts are checked with.
    pub gauge: Gauge,
    /// The cover of the wall while it rises.
    pub cover: Cover,
    /// The platforms from which it is laid.
    pub platform: Platform,
    /// Height of heaps in the yard.
    pub heap: Known<Length>,
    /// What brings things.
    pub vehicles: Vec<Vehicle>,
    /// What is bought, as far as suppliers are known.
    pub goods: Vec<Good>,
    /// Numbers of people, as written: key, title, count.
    pub crew: Vec<(&'static str, Known<u64>)>,
    /// Cob that one person places in a day.
    pub placing: Known<Volume>,
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
