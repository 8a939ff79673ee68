//! The tables of what is bought: how it is sold, what it costs, what brings it.

use super::reader::Table;
use super::source::Written;
use crate::units::{Area, Density, Kind, Length, Mass, Money, Quantity, Ratio, Volume};

/// What a supplier sells by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SoldBy {
    /// 1000 kg.
    Tonne,
    /// 2000 lb.
    ShortTon,
    /// A loose cubic metre.
    CubicMetre,
    /// A loose cubic yard.
    CubicYard,
    /// A square metre.
    SquareMetre,
    /// A square foot.
    SquareFoot,
    /// A metre of length.
    Metre,
    /// A foot of length.
    Foot,
    /// A bale of a mass.
    Bale,
    /// A sheet of an area.
    Sheet,
    /// A roll of an area.
    Roll,
    /// A piece.
    Piece,
    /// The bucket of the recipes, as it is filled.
    Bucket,
    /// A litre, of what is liquid.
    Litre,
    /// A US gallon, of what is liquid.
    UsGallon,
}

impl SoldBy {
    /// Each with the word of the build file.
    pub const WORDS: [(&'static str, SoldBy); 15] = [
        ("tonne", SoldBy::Tonne),
        ("short ton", SoldBy::ShortTon),
        ("m3", SoldBy::CubicMetre),
        ("cu yd", SoldBy::CubicYard),
        ("m2", SoldBy::SquareMetre),
        ("sq ft", SoldBy::SquareFoot),
        ("m", SoldBy::Metre),
        ("ft", SoldBy::Foot),
        ("bale", SoldBy::Bale),
        ("sheet", SoldBy::Sheet),
        ("roll", SoldBy::Roll),
        ("piece", SoldBy::Piece),
        ("bucket", SoldBy::Bucket),
        ("litre", SoldBy::Litre),
        ("US gal", SoldBy::UsGallon),
    ];

    /// What it measures.
    #[must_use]
    pub fn kind(self) -> Kind {
        match self {
            SoldBy::Tonne | SoldBy::ShortTon | SoldBy::Bale => Kind::Mass,
            SoldBy::CubicMetre | SoldBy::CubicYard | SoldBy::Bucket | SoldBy::Litre | SoldBy::UsGallon => Kind::Volume,
            SoldBy::SquareMetre | SoldBy::SquareFoot | SoldBy::Sheet | SoldBy::Roll => Kind::Area,
            SoldBy::Metre | SoldBy::Foot => Kind::Length,
            SoldBy::Piece => Kind::Count,
        }
    }

    /// Whether it measures what is liquid and comes in cans: it lies in no heap.
    #[must_use]
    pub fn is_liquid(self) -> bool {
        matches!(self, SoldBy::Litre | SoldBy::UsGallon)
    }

    /// What one of it holds, where its name says so.
    #[must_use]
    pub fn holds(self) -> Option<Quantity> {
        match self {
            SoldBy::Tonne => Some(Mass::t(1.0).into()),
            SoldBy::ShortTon => Some(Mass::short_tons(1.0).into()),
            SoldBy::CubicMetre => Some(Volume::m3(1.0).into()),
            SoldBy::CubicYard => Some(Volume::cu_yd(1.0).into()),
            SoldBy::Litre => Some(Volume::litres(1.0).into()),
            SoldBy::UsGallon => Some(Volume::us_gal(1.0).into()),
            SoldBy::SquareMetre => Some(Area::m2(1.0).into()),
            SoldBy::SquareFoot => Some(Area::sq_ft(1.0).into()),
            SoldBy::Metre => Some(Length::m(1.0).into()),
            SoldBy::Foot => Some(Length::ft(1.0).into()),
            SoldBy::Piece => Some(1_u64.into()),
            SoldBy::Bale | SoldBy::Sheet | SoldBy::Roll | SoldBy::Bucket => None,
        }
    }

    /// What one of it may hold, where the file must say so: an example.
    #[must_use]
    pub fn holds_example(self) -> Option<&'static str> {
        match self {
            SoldBy::Bale => Some("18 kg"),
            SoldBy::Sheet | SoldBy::Roll => Some("50 m2"),
            _ => None,
        }
    }

    /// The word for one.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            SoldBy::CubicMetre => "m³",
            SoldBy::SquareMetre => "m²",
            other => Self::WORDS.iter().find(|(_, sold)| *sold == other).map_or("", |(word, _)| word),
        }
    }

    /// The word for many.
    #[must_use]
    pub fn plural(self) -> String {
        let is_symbol = self != SoldBy::Litre
            && matches!(self.holds(), Some(Quantity::Volume(_) | Quantity::Area(_) | Quantity::Length(_)));
        format!("{}{}", self.word(), if is_symbol { "" } else { "s" })
    }
}

/// `[prices.NAME]`
#[derive(Clone, Debug)]
pub struct Price {
    /// Its name: what the build calls the thing.
    pub name: Written<String>,
    /// What the supplier calls it.
    pub about: Option<Written<String>>,
    /// What it is sold by.
    pub sold_by: Option<Written<SoldBy>>,
    /// What one bale, sheet or roll holds.
    pub holds: Option<Written<Quantity>>,
    /// Price of one.
    pub price: Option<Written<Money>>,
    /// What is lost on the way into the house, as a share of what is built in.
    pub loss: Option<Written<Ratio>>,
    /// Mass of a loose cubic metre as it is delivered.
    pub density: Option<Written<Density>>,
    /// The vehicle that brings it.
    pub by: Option<Written<String>>,
    /// Ground that one stacked unit covers.
    pub covers: Option<Written<Area>>,
    /// Units to order of a thing that the build does not count.
    pub count: Option<Written<u64>>,
}

/// `[site.vehicles.NAME]`
#[derive(Clone, Debug)]
pub struct Vehicle {
    /// Its name.
    pub name: Written<String>,
    /// Mass that it may carry.
    pub carries: Option<Written<Mass>>,
    /// Volume that it can hold.
    pub holds: Option<Written<Volume>>,
}

pub(super) fn prices(mut table: Table<'_, '_>) -> Vec<Price> {
    table.named_tables().into_iter().map(|(name, table)| price(name, table)).collect()
}

fn price(name: Written<String>, mut table: Table<'_, '_>) -> Price {
    let sold_by = table.needed_choice("sold-by", &SoldBy::WORDS);
    let holds = match sold_by.as_ref().map(|sold| (sold.value.kind(), sold.value.holds_example())) {
        Some((kind, Some(example))) => table.needed_like("holds", kind, example),
        Some(_) => None,
        None => {
            table.unread("holds");
            None
        }
    };
    let read = Price {
        name,
        about: table.text("about"),
        holds,
        price: table.quantity("price", Kind::Money),
        loss: table.quantity("loss", Kind::Ratio),
        density: table.quantity("density", Kind::Density),
        by: table.text("by"),
        covers: table.quantity("covers", Kind::Area),
        count: table.count("count"),
        sold_by,
    };
    table.finish();
    read
}

pub(super) fn vehicles(mut table: Table<'_, '_>) -> Vec<Vehicle> {
    let named = table.named_tables().into_iter();
    named
        .map(|(name, mut table)| {
            let read = Vehicle {
                name,
                carries: table.quantity("carries", Kind::Mass),
                holds: table.quantity("holds", Kind::Volume),
            };
            table.finish();
            read
        })
        .collect()
}
