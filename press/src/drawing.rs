//! The drawings of a house, one file each, and what they share.

mod all;
pub mod area;
mod batches;
mod bending;
mod boarding_plan;
mod bond_beam;
mod bricks;
mod buckets;
mod damp_bricks;
mod deck_plan;
mod dimension;
mod elevation;
mod exploded;
mod faces;
mod first_shape;
mod floor_bays;
mod frame;
mod grading;
mod hand;
mod hatch;
pub mod labels;
mod lettered;
pub mod lettering_box;
mod lift;
mod material;
mod mixes;
mod panels;
mod plan;
mod plaster_lots;
mod plasticity;
mod pole_card;
mod poles;
mod rafter_plan;
mod raising;
mod roof_plan;
mod section;
mod setting_out;
mod sheet;
mod site;
mod story_pole;
mod strips;
mod texture;
mod trade;
mod way;
mod words;

pub use all::{Drawing, all};
pub use batches::batches;
pub use bending::bending;
pub use boarding_plan::boarding_plan;
pub use bond_beam::bond_beam;
pub use bricks::bricks;
pub use buckets::{buckets, number as bucket_number, recipes};
pub use damp_bricks::damp_bricks;
pub use deck_plan::deck_plan;
pub use elevation::elevation;
pub use exploded::{cover, exploded};
pub use first_shape::{first_shape, first_shape_held};
pub use floor_bays::floor_bays;
pub use frame::Frame;
pub use grading::grading;
pub use lift::{band as lift_band, bed as lift_bed};
pub use mixes::mixes;
pub use panels::panels;
pub use plan::{plan, plan_held};
pub use plaster_lots::plaster_lots;
pub use plasticity::plasticity;
pub use pole_card::pole_card;
pub use rafter_plan::rafter_plan;
pub use raising::{raising, raising_stages};
pub use roof_plan::roof_plan;
pub use section::{detail, section, section_held, trench_section, unrolled, unrolled_held};
pub use setting_out::setting_out;
pub use site::site;
pub use story_pole::story_pole;
pub use texture::texture;
pub use trade::trade;
pub use way::{Standing, TARGET as TARGET_MM, way, way_upright};
pub use words::{Words, words};

use crate::svg::Svg;
use area::Area;

/// A drawing at a true scale.
#[derive(Clone, Debug)]
pub struct Scaled {
    /// The drawing, in millimetres of paper.
    pub svg: Svg,
    /// The scale in words, such as "1:50" or "1/4 in = 1 ft"; empty on a screen.
    pub scale: String,
    /// Labels that found no room: number and words.
    pub key: Vec<(usize, String)>,
    /// The boxes of the labels and of the numbers of the key, in millimetres of the sheet: no two overlap.
    pub boxes: Vec<Area>,
    /// Where labels may stand: the sheet without the strip of its scale bar.
    pub room: Area,
    /// From metres of the house to millimetres of the sheet and back; holds the picture still while it is changed.
    pub frame: Frame,
}
