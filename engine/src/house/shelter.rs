//! The weather cover and the platforms with nothing missing.

use super::place::within;
use crate::build::{Build, Source, Written};
use crate::known::{Known, Origin};
use crate::units::{Density, Length, Mass, Speed, SurfaceMass, System};

/// What sheets of the cover are called when they are bought.
pub const COVER_SHEET: &str = "cover-sheet";
/// What holds them down is called when it is bought.
pub const SANDBAG: &str = "sandbag";
/// What platforms stand on is called when it is bought.
pub const TRESTLE: &str = "trestle";
/// What one stands on is called when it is bought.
pub const PLATFORM_BOARD: &str = "platform-board";

/// The cover of a wall that rises.
#[derive(Clone, Debug)]
pub struct Cover {
    /// How far the sheet hangs over each face.
    pub lap: Known<Length>,
    /// How far one sheet lies over the next.
    pub overlap: Known<Length>,
    /// Length and width of a sheet as it is bought.
    pub sheet: Option<[Known<Length>; 2]>,
    /// Mass of the sheet on each area.
    pub weight: Known<SurfaceMass>,
    /// From one batten on the top to the next.
    pub battens: Known<Length>,
    /// Suction on a loose sheet for each pressure of the gust.
    pub lift: Known<f64>,
    /// What the ballast is multiplied by.
    pub safety: Known<f64>,
    /// Density of the air.
    pub air: Known<Density>,
    /// Mass of a filled bag.
    pub bag: Known<Mass>,
    /// The strongest gust that it must stand, when it is written.
    pub gust: Option<Known<Speed>>,
}

/// The platforms from which a wall is laid.
#[derive(Clone, Debug)]
pub struct Platform {
    /// Height of work above which one stands on a platform.
    pub above: Known<Length>,
    /// From one trestle to the next.
    pub spacing: Known<Length>,
    /// Width of the platform.
    pub width: Known<Length>,
    /// Gap between the face and the platform.
    pub gap: Known<Length>,
    /// Length and width of a board.
    pub board: [Known<Length>; 2],
}

fn lengths(from: f64, to: f64) -> std::ops::Range<Length> {
    Length::m(from)..Length::m(to)
}

/// The cover of a build file.
pub(super) fn cover(source: &Source<'_>, build: &Build, system: System) -> Cover {
    let written = &build.wall.cover;
    let length = |value: &Option<Written<Length>>, from: f64, to: f64, what: &str| {
        within(source, value.as_ref(), lengths(from, to), what, system)
    };
    // Less than the pressure of the gust, or less ballast than it lifts, would let the sheet go.
    let number = |value: &Option<Written<f64>>, what: &str| within(source, value.as_ref(), 1.0..5.0, what, system);
    let overlap = length(&written.overlap, 0.0, 2.0, "how far sheets lie over each other").unwrap_or_else(|| {
        let why = "rain driven along the wall does not find the joint";
        Known::assumed(Length::mm(300.0), "wall.cover.overlap", Origin::Judgement, why)
    });
    let masses = SurfaceMass::kg_m2(0.01)..SurfaceMass::kg_m2(20.0);
    let speeds = Speed::m_s(1.0)..Speed::m_s(90.0);
    let air = Density::kg_m3(0.5)..Density::kg_m3(1.5);
    Cover {
        lap: length(&written.lap, 0.05, 3.0, "how far a sheet hangs over a face").unwrap_or_else(|| {
            let why = "water drips clear of the lift below";
            Known::assumed(Length::mm(500.0), "wall.cover.lap", Origin::Judgement, why)
        }),
        sheet: written.sheet.as_ref().and_then(|sheet| {
            let what = "a size of a sheet";
            let (long, wide) = (length(&sheet.length, 0.5, 100.0, what), length(&sheet.width, 0.3, 30.0, what));
            let both = [long?, wide?];
            for (side, at) in both.iter().zip([&sheet.length, &sheet.width]) {
                if let Some(at) = at.as_ref().filter(|_| side.value <= overlap.value) {
                    let hint = "write larger sheets, or a smaller wall.cover.overlap";
                    source.fault(at.span.clone(), &at.path, "the sheet is no larger than its overlap", hint);
                }
            }
            Some(both)
        }),
        overlap,
        weight: within(source, written.weight.as_ref(), masses, "the mass of a sheet on an area", system)
            .unwrap_or_else(|| {
                let why = "a woven tarpaulin of 200 g/m²";
                Known::assumed(SurfaceMass::kg_m2(0.2), "wall.cover.weight", Origin::Memory, why)
            }),
        battens: length(&written.battens, 0.2, 5.0, "a spacing of battens").unwrap_or_else(|| {
            let why = "the sheet does not sag into a pool between them";
            Known::assumed(Length::m(1.0), "wall.cover.battens", Origin::Judgement, why)
        }),
        lift: number(&written.lift, "a coefficient of suction on a loose sheet").unwrap_or_else(|| {
            let why = "a loose sheet is lifted by the whole pressure of the gust";
            Known::assumed(1.0, "wall.cover.lift", Origin::Judgement, why)
        }),
        safety: number(&written.safety, "a factor of safety").unwrap_or_else(|| {
            let why = "a gust comes stronger than forecast, and bags are lighter than they look";
            Known::assumed(1.5, "wall.cover.safety", Origin::Judgement, why)
        }),
        air: within(source, written.air.as_ref(), air, "the density of air", system).unwrap_or_else(|| {
            let why = "cool air near sea level; high up it is less";
            Known::assumed(Density::kg_m3(1.226), "wall.cover.air", Origin::Memory, why)
        }),
        bag: within(source, written.bag.as_ref(), Mass::kg(1.0)..Mass::kg(60.0), "the mass of a filled bag", system)
            .unwrap_or_else(|| {
                let why = "a bag that one person carries";
                Known::assumed(Mass::kg(20.0), "wall.cover.bag", Origin::Judgement, why)
            }),
        gust: within(source, build.weather.gust.as_ref(), speeds, "the speed of a gust", system),
    }
}

/// The platforms of a build file.
pub(super) fn platform(source: &Source<'_>, build: &Build, system: System) -> Platform {
    let written = &build.wall.platform;
    let length = |value: &Option<Written<Length>>, from: f64, to: f64, what: &str| {
        within(source, value.as_ref(), lengths(from, to), what, system)
    };
    let board = |value: &Option<Written<Length>>, [from, to]: [f64; 2], noun: &str, usual: f64, why: &'static str| {
        length(value, from, to, "a size of a platform's board").unwrap_or_else(|| {
            Known::assumed(Length::m(usual), format!("wall.platform.board.{noun}"), Origin::CommonPractice, why)
        })
    };
    Platform {
        above: length(&written.above, 0.5, 1.500_001, "a height at which one still works from the ground")
            .unwrap_or_else(|| {
                let why = "above 1.2 to 1.5 m nobody lays and treads a lift from the ground";
                Known::assumed(Length::m(1.4), "wall.platform.above", Origin::CommonPractice, why)
            }),
        spacing: length(&written.spacing, 0.3, 4.0, "a spacing of trestles").unwrap_or_else(|| {
            let why = "boards that two people and their cob do not bend";
            Known::assumed(Length::m(1.5), "wall.platform.spacing", Origin::Judgement, why)
        }),
        width: length(&written.width, 0.2, 3.0, "the width of a platform").unwrap_or_else(|| {
            let why = "18 in, the least width of a scaffold's platform in OSHA 1926.451";
            Known::assumed(Length::inches(18.0), "wall.platform.width", Origin::Memory, why)
        }),
        gap: length(&written.gap, 0.0, 1.0, "a gap between face and platform").unwrap_or_else(|| {
            let why = "room to see and trim the face; nothing leans on green cob";
            Known::assumed(Length::mm(150.0), "wall.platform.gap", Origin::Judgement, why)
        }),
        board: [
            board(&written.board.length, [0.8, 8.0], "length", 3.0, "a scaffold board of 3 m"),
            board(&written.board.width, [0.05, 1.5], "width", 0.225, "a scaffold board of 225 mm"),
        ],
    }
}
