//! The tables of a build file, key by key.

use super::batches::{self, Batches};
use super::bond_beam::{self, BondBeam, Gap};
use super::bricks::{self, Bricks};
use super::built_in::{self, Anchors, BuiltIn};
use super::earth::{self, Earth};
use super::gauge::{self, Gauge};
use super::ground::{self, Ground, Water};
use super::jars::{self, Jar};
use super::line::{self, Point};
use super::mixes::{self, Mixes};
use super::openings::{self, Opening};
use super::panels::{self, Panels};
use super::people::{self, Crew, Dates};
use super::prices::{self, Price};
use super::reader::Table;
use super::roof::{self, Poles, Roof};
use super::samples::{self, Bar, Erosion};
use super::services::{self, Service};
use super::set_out::{self, Tolerance};
use super::shelter::{self, Cover, Platform, Weather};
use super::site::{self, Site};
use super::skin::{self, Floor, Skin};
use super::small_tests::{self, SmallTests};
use super::soil::{self, Grading, Limits, Sanding};
use super::source::Written;
use crate::curve::Ends;
use crate::units::{Angle, Currency, Days, Density, Kind, Length, Ratio, Slope};

/// A build file as written.
#[derive(Clone, Debug, Default)]
pub struct Build {
    /// `[build]`
    pub build: BuildTable,
    /// `[site]`
    pub site: Site,
    /// `[ground]`
    pub ground: Ground,
    /// `[water]`
    pub water: Water,
    /// `[wall]`
    pub wall: Wall,
    /// `[openings.NAME]`
    pub openings: Vec<Opening>,
    /// `[built-in.NAME]`
    pub built_in: Vec<BuiltIn>,
    /// `[services.NAME]`
    pub services: Vec<Service>,
    /// `[earth]`
    pub earth: Earth,
    /// `[skin]`
    pub skin: Skin,
    /// `[floor]`
    pub floor: Floor,
    /// `[roof]`
    pub roof: Option<Roof>,
    /// `[poles]`
    pub poles: Option<Poles>,
    /// `[prices.NAME]`
    pub prices: Vec<Price>,
    /// `[weather]`
    pub weather: Weather,
    /// `[crew]`
    pub crew: Crew,
    /// `[dates]`
    pub dates: Dates,
    /// `[tests.bricks.NAME]`
    pub bricks: Vec<Bricks>,
    /// `[tests.jars.NAME]`
    pub jars: Vec<Jar>,
    /// `[tests.limits.NAME]`
    pub limits: Vec<Limits>,
    /// `[tests.gradings.NAME]`
    pub gradings: Vec<Grading>,
    /// `[tests.sand-to-add.NAME]`
    pub sandings: Vec<Sanding>,
    /// `[tests.moisture.NAME]` and other small tests of piles.
    pub small_tests: SmallTests,
    /// `[tests.bars.NAME]`
    pub bars: Vec<Bar>,
    /// `[tests.erosion.NAME]`
    pub erosion: Vec<Erosion>,
    /// `[tests.mixes.NAME]`
    pub mixes: Vec<Mixes>,
    /// `[tests.panels.NAME]`
    pub panels: Vec<Panels>,
    /// `[tests.batches.NAME]`
    pub batches: Vec<Batches>,
    /// `[rules.tolerances.NAME]`
    pub tolerances: Vec<Tolerance>,
    /// Tables that the build file may hold but that nothing reads yet.
    pub unread: Vec<Written<String>>,
}

/// `[build]`
#[derive(Clone, Debug, Default)]
pub struct BuildTable {
    /// The name of the house.
    pub name: Option<Written<String>>,
    /// What it is, one sentence.
    pub about: Option<Written<String>>,
    /// The currency of every price.
    pub currency: Option<Written<Currency>>,
    /// Whether soil, people, prices and place are made up.
    pub invented: Option<Written<bool>>,
}

/// Which way the house takes through the law.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Path {
    /// Exempt from a permit, not from the code.
    Exempt,
    /// By the prescriptive rules of a code.
    Prescriptive,
    /// By an engineer's design.
    Engineered,
}

/// `[wall]`
#[derive(Clone, Debug, Default)]
pub struct Wall {
    /// `[[wall.line]]`
    pub line: Vec<Point>,
    /// Where the wall is written, for faults of the line as a whole.
    pub span: std::ops::Range<usize>,
    /// Whether it goes round or ends.
    pub ends: Option<Written<Ends>>,
    /// Thickness at the base.
    pub thickness: Option<Written<Length>>,
    /// Height above the base.
    pub height: Option<Written<Length>>,
    /// `[wall.top]`
    pub top: Option<TopSlope>,
    /// Lean of the inner face.
    pub batter_inside: Option<Written<Slope>>,
    /// Lean of the outer face.
    pub batter_outside: Option<Written<Slope>>,
    /// `[wall.stem]`
    pub stem: Stem,
    /// `[[wall.lifts]]`
    pub lifts: Vec<Lift>,
    /// `[wall.bond-beam]`
    pub bond_beam: Option<BondBeam>,
    /// `[wall.gap]`
    pub gap: Option<Gap>,
    /// `[wall.anchors.NAME]`
    pub anchors: Vec<Anchors>,
    /// `[wall.gauge]` and `[wall.bulge]`
    pub gauge: Gauge,
    /// `[wall.cover]`
    pub cover: Cover,
    /// `[wall.platform]`
    pub platform: Platform,
    /// The recipe of its cob.
    pub recipe: Option<Written<String>>,
    /// Cob that is sawn off, as a share of the finished wall.
    pub trim: Option<Written<Ratio>>,
    /// Share of the trimmings that goes back to the tarp.
    pub returned: Option<Written<Ratio>>,
}

/// `[wall.top]`: a top that follows an even slope.
#[derive(Clone, Debug)]
pub struct TopSlope {
    /// How steep it is.
    pub slope: Option<Written<Slope>>,
    /// The direction in which it rises, anticlockwise from the x axis.
    pub rises: Option<Written<Angle>>,
    /// The named point at which it has the height of the wall.
    pub from: Option<Written<String>>,
}

/// One entry of `[[wall.lifts]]`
#[derive(Clone, Debug)]
pub struct Lift {
    /// Its name.
    pub name: Written<String>,
    /// Level of its top; the last one may leave it out and ends at the top of the wall.
    pub top: Option<Written<Length>>,
    /// Days after the first lift on which it is begun.
    pub start: Option<Written<Days>>,
}

/// `[wall.stem]`
#[derive(Clone, Debug, Default)]
pub struct Stem {
    /// Height from the top of the rubble to the foot of the cob.
    pub height: Option<Written<Length>>,
    /// Width.
    pub width: Option<Written<Length>>,
    /// Solid share of the stone in the wall.
    pub solid: Option<Written<Ratio>>,
    /// Share of hearting in the stone.
    pub hearting: Option<Written<Ratio>>,
    /// From one through stone to the next.
    pub through: Option<Written<Length>>,
    /// Density of the stone itself.
    pub density: Option<Written<Density>>,
}

pub(super) fn read(mut file: Table<'_, '_>) -> Build {
    let mut build = Build::default();
    file.format();
    if let Some(table) = file.table("build") {
        build.build = build_table(table);
    } else {
        file.missing_table("build", "name = \"My house\"");
    }
    if let Some(table) = file.table("site") {
        build.site = site::site(table);
    }
    if let Some(table) = file.table("ground") {
        build.ground = ground::ground(table);
    }
    if let Some(table) = file.table("water") {
        build.water = ground::water(table);
    }
    if let Some(table) = file.table("wall") {
        build.wall = wall(table);
    } else {
        file.missing_table("wall", "thickness, height and the points of [[wall.line]]");
    }
    if let Some(mut table) = file.table("openings") {
        build.openings = table.named_tables().into_iter().map(|(name, table)| openings::opening(name, table)).collect();
    }
    if let Some(mut table) = file.table("built-in") {
        let named = table.named_tables().into_iter();
        build.built_in = named.map(|(name, table)| built_in::built_in(name, table)).collect();
    }
    if let Some(mut table) = file.table("services") {
        build.services = table.named_tables().into_iter().map(|(name, table)| services::service(name, table)).collect();
    }
    if let Some(table) = file.table("earth") {
        build.earth = earth::earth(table);
    }
    if let Some(table) = file.table("skin") {
        build.skin = skin::skin(table);
    }
    if let Some(table) = file.table("floor") {
        build.floor = skin::floor(table);
    }
    build.roof = file.table("roof").map(roof::roof);
    build.poles = file.table("poles").map(roof::poles);
    if let Some(table) = file.table("prices") {
        build.prices = prices::prices(table);
    }
    if let Some(table) = file.table("crew") {
        build.crew = people::crew(table);
    }
    if let Some(table) = file.table("dates") {
        build.dates = people::dates(table);
    }
    if let Some(mut table) = file.table("tests") {
        build.jars = jars::jars(&mut table);
        build.limits = soil::limits(&mut table);
        build.gradings = soil::gradings(&mut table);
        build.sandings = soil::sandings(&mut table);
        build.small_tests = small_tests::small_tests(&mut table);
        build.bars = samples::bars(&mut table);
        build.erosion = samples::erosion(&mut table);
        build.mixes = mixes::mixes(&mut table);
        build.panels = panels::panels(&mut table);
        build.batches = batches::batches(&mut table);
        let (bricks, unread) = bricks::tests(table);
        build.bricks = bricks;
        build.unread.extend(unread);
    }
    if let Some(table) = file.table("rules") {
        let (tolerances, unread) = set_out::rules(table);
        build.tolerances = tolerances;
        build.unread.extend(unread);
    }
    if let Some(table) = file.table("weather") {
        let (weather, unread) = shelter::weather(table);
        build.weather = weather;
        build.unread.extend(unread);
    }
    file.finish();
    build
}

fn build_table(mut table: Table<'_, '_>) -> BuildTable {
    let read = BuildTable {
        name: table.needed_text("name", "My house"),
        about: table.text("about"),
        currency: table.currency("currency"),
        invented: table.yes_or_no("invented"),
    };
    table.finish();
    read
}

fn wall(mut table: Table<'_, '_>) -> Wall {
    let span = table.span.clone();
    let thickness = table.needed("thickness", Kind::Length);
    let height = table.needed("height", Kind::Length);
    let ends = table.choice("ends", &[("closed", Ends::Closed), ("open", Ends::Open)]);
    let line = table.listed_tables("line").into_iter().map(|(name, table)| line::point(name, table)).collect();
    let mut wall = Wall { line, span, ends, thickness, height, ..Wall::default() };
    if let Some(mut batter) = table.table("batter") {
        wall.batter_inside = batter.quantity("inside", Kind::Slope);
        wall.batter_outside = batter.quantity("outside", Kind::Slope);
        batter.finish();
    }
    wall.top = table.table("top").map(|mut top| {
        let read = TopSlope {
            slope: top.needed("slope", Kind::Slope),
            rises: top.needed("rises", Kind::Angle),
            from: top.text("from"),
        };
        top.finish();
        read
    });
    if let Some(mut stem) = table.table("stem") {
        wall.stem.height = stem.quantity("height", Kind::Length);
        wall.stem.width = stem.quantity("width", Kind::Length);
        wall.stem.solid = stem.quantity("solid", Kind::Ratio);
        wall.stem.hearting = stem.quantity("hearting", Kind::Ratio);
        wall.stem.through = stem.quantity("through", Kind::Length);
        wall.stem.density = stem.quantity("density", Kind::Density);
        stem.finish();
    }
    wall.lifts = table.listed_tables("lifts").into_iter().map(|(name, table)| lift(name, table)).collect();
    wall.bond_beam = table.table("bond-beam").map(bond_beam::bond_beam);
    wall.gap = table.table("gap").map(bond_beam::gap);
    let anchors = table.named_tables_under("anchors").into_iter();
    wall.anchors = anchors.map(|(name, table)| built_in::anchors(name, table)).collect();
    wall.gauge = gauge::gauge(&mut table);
    wall.cover = table.table("cover").map_or_else(Cover::default, shelter::cover);
    wall.platform = table.table("platform").map_or_else(Platform::default, shelter::platform);
    wall.recipe = table.text("recipe");
    wall.trim = table.quantity("trim", Kind::Ratio);
    wall.returned = table.quantity("returned", Kind::Ratio);
    table.finish();
    wall
}

fn lift(name: Written<String>, mut table: Table<'_, '_>) -> Lift {
    let read = Lift { name, top: table.quantity("top", Kind::Length), start: table.quantity("start", Kind::Days) };
    table.finish();
    read
}
