//! The tables of what shelters and serves the wall while it rises: its weather cover, the platforms, the gust of wind.

use super::reader::Table;
use super::source::Written;
use crate::units::{Density, Kind, Length, Mass, Speed, SurfaceMass};

/// `[wall.cover]`
#[derive(Clone, Debug, Default)]
pub struct Cover {
    /// How far the sheet hangs over each face.
    pub lap: Option<Written<Length>>,
    /// How far one sheet lies over the next.
    pub overlap: Option<Written<Length>>,
    /// Length and width of a sheet as it is bought.
    pub sheet: Option<Sheet>,
    /// Mass of the sheet on each area.
    pub weight: Option<Written<SurfaceMass>>,
    /// From one batten on the top to the next.
    pub battens: Option<Written<Length>>,
    /// Suction on a loose sheet for each pressure of the gust.
    pub lift: Option<Written<f64>>,
    /// What the ballast is multiplied by.
    pub safety: Option<Written<f64>>,
    /// Density of the air.
    pub air: Option<Written<Density>>,
    /// Mass of a filled bag.
    pub bag: Option<Written<Mass>>,
}

/// `sheet = { length, width }`, `board = { length, width }`
#[derive(Clone, Debug, Default)]
pub struct Sheet {
    /// Its length.
    pub length: Option<Written<Length>>,
    /// Its width.
    pub width: Option<Written<Length>>,
}

/// `[wall.platform]`
#[derive(Clone, Debug, Default)]
pub struct Platform {
    /// Height of work above which one stands on a platform.
    pub above: Option<Written<Length>>,
    /// From one trestle to the next.
    pub spacing: Option<Written<Length>>,
    /// Width of the platform.
    pub width: Option<Written<Length>>,
    /// Gap between the face and the platform.
    pub gap: Option<Written<Length>>,
    /// Length and width of a board.
    pub board: Sheet,
}

/// `[weather]`
#[derive(Clone, Debug, Default)]
pub struct Weather {
    /// The strongest gust that the cover must stand.
    pub gust: Option<Written<Speed>>,
}

pub(super) fn cover(mut table: Table<'_, '_>) -> Cover {
    let read = Cover {
        lap: table.quantity("lap", Kind::Length),
        overlap: table.quantity("overlap", Kind::Length),
        sheet: table.table("sheet").map(sheet),
        weight: table.quantity("weight", Kind::SurfaceMass),
        battens: table.quantity("battens", Kind::Length),
        lift: table.quantity("lift", Kind::Number),
        safety: table.quantity("safety", Kind::Number),
        air: table.quantity("air", Kind::Density),
        bag: table.quantity("bag", Kind::Mass),
    };
    table.finish();
    read
}

fn sheet(mut table: Table<'_, '_>) -> Sheet {
    let read = Sheet {
        length: table.needed_like("length", Kind::Length, "6 m"),
        width: table.needed_like("width", Kind::Length, "2 m"),
    };
    table.finish();
    read
}

fn board(mut table: Table<'_, '_>) -> Sheet {
    let read = Sheet { length: table.quantity("length", Kind::Length), width: table.quantity("width", Kind::Length) };
    table.finish();
    read
}

pub(super) fn platform(mut table: Table<'_, '_>) -> Platform {
    let read = Platform {
        above: table.quantity("above", Kind::Length),
        spacing: table.quantity("spacing", Kind::Length),
        width: table.quantity("width", Kind::Length),
        gap: table.quantity("gap", Kind::Length),
        board: table.table("board").map_or_else(Sheet::default, board),
    };
    table.finish();
    read
}

/// The gust; every other key of the table is handed back as one that nothing reads yet.
pub(super) fn weather(mut table: Table<'_, '_>) -> (Weather, Vec<Written<String>>) {
    let weather = Weather { gust: table.quantity("gust", Kind::Speed) };
    (weather, table.rest())
}
