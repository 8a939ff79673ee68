//! What the builder may write: the build file as written, nothing filled in yet.

mod batches;
mod begin;
mod bond_beam;
mod bricks;
mod broken;
mod built_in;
mod deck;
mod earth;
mod gauge;
mod ground;
mod hydrometer;
mod jars;
mod line;
mod mixes;
mod openings;
mod oven;
mod panels;
mod people;
mod pile;
mod prices;
mod reader;
mod roof;
mod roof_loads;
mod samples;
mod services;
mod set_out;
mod shelter;
mod site;
mod skin;
mod small_tests;
mod soil;
mod source;
mod tables;
mod written;

pub use batches::{Batch, Batches};
pub use begin::begin;
pub use bond_beam::{BondBeam, Gap, Planks};
pub use bricks::{Brick, BrickSize, BrickTest, Bricks, Lever};
pub use built_in::{Anchors, BuiltIn, BuiltInKind, Keys, Mosaic, NicheForm, Spot};
pub use deck::{Deck, DeckBedding, DeckCover, DeckHeld};
pub use earth::{Bucket, Earth, Fill, Ingredient, IngredientKind, Layer, Recipe, SoilFrom, Straw};
pub use gauge::Gauge;
pub use ground::{Drain, Fabric, Ground, Trench, Water};
pub use hydrometer::{Hydrometer, HydrometerReading};
pub use jars::{Jar, SEPARATES};
pub use line::{Arc, Curve, Point};
pub use mixes::{Mixes, Plan, SurfaceOrder, Tried, Wanted, Wish};
pub use openings::{FittedFrame, Hand, Hanging, Lintel, Opening, OpeningForm, OpeningKind, SillBoard, Splay, Swing};
pub use oven::{Oven, OvenBase, OvenFloor, OvenFooting};
pub use panels::{Panel, Panels};
pub use people::{Crew, Dates};
pub use pile::Pole;
pub use prices::{Price, SoldBy, Vehicle};
pub use roof::{Poles, RingKeys, Roof, RoofKind, RoofLayer, Secondary, SecondaryKind, Weights};
pub use roof_loads::{
    Battens, Bucket as SoakedBucket, RoofBolt, RoofFeet, RoofSoil, RoofTie, SiteLoads, Strength, Wood,
};
pub use samples::{Bar, Erosion, Wash, Washed};
pub use services::{Passage, Service, ServiceKind};
pub use set_out::{Place, SetOut, Tolerance};
pub use shelter::{Cover, Platform, Sheet, Weather};
pub use site::{Buried, Fall, Line, LineKind, PlanPoint, Site, Tree, Well, Yard, YardKind};
pub use skin::{Bays, Face, Floor, Oil, Skin, Slip};
pub use small_tests::{DroppedBall, Feel, Pair, SmallTests};
pub use soil::{Grading, Limits, Sanding};
pub use source::{Source, Written};
pub use written::{Build, BuildTable, Lift, Path, Stem, TopSlope, Wall};

use toml::de::DeTable;

use crate::problem::Problems;

/// The largest build file that is read, in bytes.
pub const LARGEST: usize = 1024 * 1024;

/// The text of a build file.
///
/// # Errors
/// The one fault of a file that is too large or is not UTF-8: it is not read further.
pub fn text(bytes: &[u8]) -> Result<&str, Problems> {
    let mut problems = Problems::default();
    if bytes.len() > LARGEST {
        problems.note(
            "",
            0..0,
            "",
            "the file is larger than 1 MiB, the most that a build file may be",
            "check that this is a build file",
        );
        return Err(problems);
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let good = std::str::from_utf8(&bytes[..error.valid_up_to()]).unwrap_or("");
        problems.note(
            good,
            good.len()..good.len(),
            "",
            "the file is not UTF-8 text from here on",
            "save it as UTF-8 in your editor",
        );
        problems
    })
}

/// Reads a build file; faults go to the source, what could be read is returned.
#[must_use]
pub fn read<'i>(source: &Source<'i>, text: &'i str) -> Build {
    let (table, errors) = DeTable::parse_recoverable(text);
    broken::note(source, text, errors.iter().map(|error| (error.span().unwrap_or(0..0), error.message())).collect());
    written::read(reader::Table::root(source, &table))
}
