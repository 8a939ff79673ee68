//! The table of the site: its words, its boundary and fall, trees, wells, lines, and what stands in the yard.

use super::prices::{self, Vehicle};
use super::reader::Table;
use super::roof_loads::{self, SiteLoads};
use super::set_out::{self, SetOut};
use super::source::Written;
use super::written::Path;
use crate::units::{Angle, Kind, Length, Slope, System};

/// A point in plan: x and y.
pub type PlanPoint = [Written<Length>; 2];

/// `[site]`
#[derive(Clone, Debug, Default)]
pub struct Site {
    /// Units for screen and paper.
    pub units: Option<Written<System>>,
    /// Where it is.
    pub place: Option<Written<String>>,
    /// What the house is for.
    pub use_: Option<Written<String>>,
    /// Which way through the law.
    pub path: Option<Written<Path>>,
    /// Names of rulebooks.
    pub rulebooks: Option<Written<Vec<Written<String>>>>,
    /// Direction of north in the plan, anticlockwise from the x axis.
    pub north: Option<Written<Angle>>,
    /// `[site.loads]`
    pub loads: SiteLoads,
    /// Height of heaps in the yard.
    pub heap: Option<Written<Length>>,
    /// `[site.vehicles.NAME]`
    pub vehicles: Vec<Vehicle>,
    /// `[site.set-out]`
    pub set_out: SetOut,
    /// Corners of the boundary.
    pub boundary: Option<Written<Vec<PlanPoint>>>,
    /// `[site.fall]`
    pub fall: Option<Fall>,
    /// Thickness of the topsoil that is stripped.
    pub topsoil: Option<Written<Length>>,
    /// How far beyond the stem wall it is stripped.
    pub strip_margin: Option<Written<Length>>,
    /// Thickness of topsoil put back round the house.
    pub spread: Option<Written<Length>>,
    /// What the topsoil stands in for on the roof.
    pub topsoil_as: Option<Written<String>>,
    /// Where the drain comes to daylight.
    pub outlet: Option<Written<PlanPoint>>,
    /// `[site.trees.NAME]`
    pub trees: Vec<Tree>,
    /// `[site.wells.NAME]`
    pub wells: Vec<Well>,
    /// `[site.lines.NAME]`
    pub lines: Vec<Line>,
    /// `[site.buried.NAME]`
    pub buried: Vec<Buried>,
    /// `[site.yard.NAME]`
    pub yard: Vec<Yard>,
}

/// `fall = { slope, down }`
#[derive(Clone, Debug)]
pub struct Fall {
    /// How steep the ground is.
    pub slope: Option<Written<Slope>>,
    /// Direction in which it falls, anticlockwise from the x axis.
    pub down: Option<Written<Angle>>,
}

/// `[site.trees.NAME]`
#[derive(Clone, Debug)]
pub struct Tree {
    /// Its name.
    pub name: Written<String>,
    /// Where its trunk stands.
    pub at: Option<Written<PlanPoint>>,
    /// Diameter of its crown.
    pub crown: Option<Written<Length>>,
}

/// `[site.wells.NAME]`
#[derive(Clone, Debug)]
pub struct Well {
    /// Its name.
    pub name: Written<String>,
    /// Where it is.
    pub at: Option<Written<PlanPoint>>,
}

/// What an overhead line carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineKind {
    /// Electric power.
    Power,
    /// Speech and data.
    Telephone,
}

/// `[site.lines.NAME]`
#[derive(Clone, Debug)]
pub struct Line {
    /// Its name.
    pub name: Written<String>,
    /// What it carries.
    pub kind: Option<Written<LineKind>>,
    /// One end.
    pub from: Option<Written<PlanPoint>>,
    /// The other end.
    pub to: Option<Written<PlanPoint>>,
    /// Height above the ground where it hangs lowest.
    pub height: Option<Written<Length>>,
}

/// `[site.buried.NAME]`
#[derive(Clone, Debug)]
pub struct Buried {
    /// Its name.
    pub name: Written<String>,
    /// One end.
    pub from: Option<Written<PlanPoint>>,
    /// The other end.
    pub to: Option<Written<PlanPoint>>,
}

/// What stands in the yard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum YardKind {
    /// A heap of something.
    Pile,
    /// Stacked bales.
    Bales,
    /// Tarps to tread on.
    Tarps,
    /// Where trucks drive.
    TruckWay,
    /// A tank or a tap.
    Water,
    /// Where tools and buckets are washed.
    WashOut,
    /// Toilets.
    Toilets,
    /// First aid.
    FirstAid,
    /// Where all meet when something has happened.
    Muster,
    /// A store of tools.
    Store,
}

impl YardKind {
    /// Each with the word of the build file.
    pub const WORDS: [(&'static str, YardKind); 10] = [
        ("pile", YardKind::Pile),
        ("bales", YardKind::Bales),
        ("tarps", YardKind::Tarps),
        ("truck-way", YardKind::TruckWay),
        ("water", YardKind::Water),
        ("wash-out", YardKind::WashOut),
        ("toilets", YardKind::Toilets),
        ("first-aid", YardKind::FirstAid),
        ("muster", YardKind::Muster),
        ("store", YardKind::Store),
    ];

    /// What one reads of it.
    #[must_use]
    pub fn word(self) -> String {
        Self::WORDS.iter().find(|(_, kind)| *kind == self).map_or_else(String::new, |(word, _)| word.replace('-', " "))
    }
}

/// `[site.yard.NAME]`
#[derive(Clone, Debug)]
pub struct Yard {
    /// Its name.
    pub name: Written<String>,
    /// What it is.
    pub kind: Option<Written<YardKind>>,
    /// Its middle.
    pub at: Option<Written<PlanPoint>>,
    /// What is piled.
    pub of: Option<Written<String>>,
    /// How many.
    pub count: Option<Written<u64>>,
    /// Side of one.
    pub side: Option<Written<Length>>,
    /// Room to walk round each.
    pub walk_round: Option<Written<Length>>,
    /// Width of a way, or of a stack.
    pub width: Option<Written<Length>>,
    /// Points that a way leads through.
    pub through: Option<Written<Vec<PlanPoint>>>,
}

pub(super) fn site(mut table: Table<'_, '_>) -> Site {
    let read = Site {
        units: table.choice("units", &[("metric", System::Metric), ("us", System::Us)]),
        place: table.text("place"),
        use_: table.text("use"),
        path: table.choice(
            "path",
            &[("exempt", Path::Exempt), ("prescriptive", Path::Prescriptive), ("engineered", Path::Engineered)],
        ),
        rulebooks: table.texts("rulebooks"),
        north: table.quantity("north", Kind::Angle),
        loads: table.table("loads").map(roof_loads::site).unwrap_or_default(),
        heap: table.quantity("heap", Kind::Length),
        vehicles: table.table("vehicles").map_or_else(Vec::new, prices::vehicles),
        set_out: table.table("set-out").map(set_out::set_out).unwrap_or_default(),
        boundary: table.points("boundary"),
        fall: table.table("fall").map(fall),
        topsoil: table.quantity("topsoil", Kind::Length),
        strip_margin: table.quantity("strip-margin", Kind::Length),
        spread: table.quantity("spread", Kind::Length),
        topsoil_as: table.text("topsoil-as"),
        outlet: table.maybe_point("outlet"),
        trees: named(&mut table, "trees", |name, table| Tree {
            name,
            at: table.point("at"),
            crown: table.needed_like("crown", Kind::Length, "6 m"),
        }),
        wells: named(&mut table, "wells", |name, table| Well { name, at: table.point("at") }),
        lines: named(&mut table, "lines", |name, table| Line {
            name,
            kind: table.needed_choice("kind", &[("power", LineKind::Power), ("telephone", LineKind::Telephone)]),
            from: table.point("from"),
            to: table.point("to"),
            height: table.needed_like("height", Kind::Length, "6 m"),
        }),
        buried: named(&mut table, "buried", |name, table| Buried {
            name,
            from: table.point("from"),
            to: table.point("to"),
        }),
        yard: named(&mut table, "yard", yard),
    };
    table.finish();
    read
}

/// Every named table of a group.
fn named<'s, 'i, T>(
    table: &mut Table<'s, 'i>,
    key: &'static str,
    read: impl Fn(Written<String>, &mut Table<'s, 'i>) -> T,
) -> Vec<T> {
    let tables = table.named_tables_under(key).into_iter();
    tables
        .map(|(name, mut table)| {
            let one = read(name, &mut table);
            table.finish();
            one
        })
        .collect()
}

fn fall(mut table: Table<'_, '_>) -> Fall {
    let read = Fall {
        slope: table.needed_like("slope", Kind::Slope, "1:25"),
        down: table.needed_like("down", Kind::Angle, "200 deg"),
    };
    table.finish();
    read
}

fn yard(name: Written<String>, table: &mut Table<'_, '_>) -> Yard {
    let kind = table.needed_choice("kind", &YardKind::WORDS);
    let word = kind.as_ref().map(|kind| kind.value);
    let is_any = |kinds: &[YardKind]| word.is_none_or(|kind| kinds.contains(&kind));
    let is_way = word == Some(YardKind::TruckWay);
    let piled = [YardKind::Pile, YardKind::Bales];
    let counted = [YardKind::Tarps, YardKind::Toilets];
    let is_sized = !is_way && word.is_none_or(|kind| !piled.contains(&kind));
    Yard {
        name,
        at: if is_way { None } else { table.point("at") },
        of: match word {
            Some(YardKind::Pile) => table.needed_text("of", "sand"),
            _ if is_any(&piled) => table.text("of"),
            _ => None,
        },
        count: match word {
            Some(YardKind::Tarps) => table.needed_count("count", 4),
            _ if is_any(&counted) => table.count("count"),
            _ => None,
        },
        side: if is_sized { table.quantity("side", Kind::Length) } else { None },
        walk_round: if is_any(&[YardKind::Tarps]) { table.quantity("walk-round", Kind::Length) } else { None },
        width: if is_any(&[YardKind::Pile, YardKind::Bales, YardKind::TruckWay]) {
            table.quantity("width", Kind::Length)
        } else {
            None
        },
        through: match word {
            Some(YardKind::TruckWay) => table.needed_points("through"),
            None => table.points("through"),
            _ => None,
        },
        kind,
    }
}
