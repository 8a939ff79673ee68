//! `[tests.mixes.NAME]`: mixes that were tried for a recipe, what was found of each, and what is wanted of them.

use jiff::civil::Date;

use super::earth::Fill;
use super::reader::Table;
use super::source::Written;
use crate::units::{Days, Kind, Quantity, Ratio};

/// `[tests.mixes.NAME]`
#[derive(Clone, Debug)]
pub struct Mixes {
    /// Their name.
    pub name: Written<String>,
    /// The recipe that they were tried for.
    pub of: Option<Written<String>>,
    /// The day on which they were measured.
    pub day: Option<Written<Date>>,
    /// How the buckets were filled, where it is written.
    pub fill: Option<Written<Fill>>,
    /// The least part of a bucket that is measured.
    pub step: Option<Written<f64>>,
    /// How bent the surface through them is to be.
    pub order: Option<Written<SurfaceOrder>>,
    /// `limits`: buckets of each ingredient in a batch.
    pub limits: Vec<Bounds>,
    /// `[tests.mixes.NAME.wishes]`
    pub wishes: Vec<Wish>,
    /// `[tests.mixes.NAME.tried]`
    pub tried: Vec<Tried>,
    /// `[tests.mixes.NAME.plan]`
    pub plan: Option<Plan>,
}

/// How the mixes are planned.
#[derive(Clone, Debug, Default)]
pub struct Plan {
    /// The day on which they are to be tested.
    pub wanted_by: Option<Written<Date>>,
    /// Buckets of a trial mix.
    pub batch: Option<Written<f64>>,
    /// From which number their order is drawn by lot.
    pub start: Option<Written<u64>>,
    /// Dry bricks of each.
    pub bricks: Option<Written<u64>>,
    /// How bricks of a mix scatter, as a share of their mean.
    pub scatter: Option<Written<Ratio>>,
    /// Days until they are dry.
    pub dry: Option<Written<Days>>,
    /// Mixes that are made in a day.
    pub in_a_day: Option<Written<u64>>,
}

/// How bent a surface is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SurfaceOrder {
    /// A plane.
    Linear,
    /// With blends of two.
    Quadratic,
    /// With blends of three.
    SpecialCubic,
}

/// The fewest and the most buckets of an ingredient.
#[derive(Clone, Debug)]
pub struct Bounds {
    /// The ingredient.
    pub name: Written<String>,
    /// The fewest.
    pub low: Option<Written<f64>>,
    /// The most.
    pub high: Option<Written<f64>>,
}

/// Which side of a value is good.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// The value or less.
    AtMost,
    /// The value or more.
    AtLeast,
    /// Neither more nor less.
    Near,
}

/// What is wanted of a mix.
#[derive(Clone, Debug)]
pub struct Wish {
    /// What is measured.
    pub name: Written<String>,
    /// Which side is good.
    pub want: Option<Written<Wanted>>,
    /// Where it is good.
    pub value: Option<Written<Quantity>>,
    /// Below which it is useless.
    pub below: Option<Written<Quantity>>,
    /// Above which it is useless.
    pub above: Option<Written<Quantity>>,
}

/// A mix that was tried.
#[derive(Clone, Debug)]
pub struct Tried {
    /// Its name.
    pub name: Written<String>,
    /// Buckets of each ingredient.
    pub buckets: Vec<(Written<String>, Written<f64>)>,
    /// What was found of it, by the names of the wishes.
    pub found: Vec<(Written<String>, Written<Quantity>)>,
}

/// What can be measured of a mix, in the order in which a text is tried.
const KINDS: [Kind; 7] = [Kind::Number, Kind::Ratio, Kind::Pressure, Kind::Length, Kind::Force, Kind::Mass, Kind::Days];

/// The mixes under `[tests]`.
pub(super) fn mixes(table: &mut Table<'_, '_>) -> Vec<Mixes> {
    let named = table.named_tables_under("mixes");
    named.into_iter().map(|(name, table)| one(name, table)).collect()
}

fn one(name: Written<String>, mut table: Table<'_, '_>) -> Mixes {
    let orders = [
        ("linear", SurfaceOrder::Linear),
        ("quadratic", SurfaceOrder::Quadratic),
        ("special-cubic", SurfaceOrder::SpecialCubic),
    ];
    let [limits, wishes, tried] = ["limits", "wishes", "tried"].map(|key| table.named_tables_under(key));
    let read = Mixes {
        name,
        of: table.needed_text("of", "cob"),
        day: table.date("day"),
        fill: table.choice("fill", &[("struck", Fill::Struck), ("heaped", Fill::Heaped)]),
        step: table.quantity("step", Kind::Number),
        order: table.choice("order", &orders),
        limits: limits.into_iter().map(|(name, table)| bounds(name, table)).collect(),
        wishes: wishes.into_iter().map(|(name, table)| wish(name, table)).collect(),
        tried: tried.into_iter().map(|(name, table)| tried_mix(name, table)).collect(),
        plan: table.table("plan").map(plan),
    };
    table.finish();
    read
}

fn plan(mut table: Table<'_, '_>) -> Plan {
    let read = Plan {
        wanted_by: table.date("wanted-by"),
        batch: table.quantity("batch", Kind::Number),
        start: table.count("start"),
        bricks: table.count("bricks"),
        scatter: table.quantity("scatter", Kind::Ratio),
        dry: table.quantity("dry", Kind::Days),
        in_a_day: table.count("in-a-day"),
    };
    table.finish();
    read
}

fn bounds(name: Written<String>, mut table: Table<'_, '_>) -> Bounds {
    let read = Bounds {
        name,
        low: table.needed_like("low", Kind::Number, "3"),
        high: table.needed_like("high", Kind::Number, "8"),
    };
    table.finish();
    read
}

fn wish(name: Written<String>, mut table: Table<'_, '_>) -> Wish {
    let wants = [("at-most", Wanted::AtMost), ("at-least", Wanted::AtLeast), ("near", Wanted::Near)];
    let want = table.needed_choice("want", &wants);
    let side = want.as_ref().map(|want| want.value);
    let read = Wish {
        name,
        want,
        value: table.needed_of_any("value", &KINDS, "1.2 %"),
        below: if side == Some(Wanted::AtMost) { None } else { table.needed_of_any("below", &KINDS, "600 kPa") },
        above: if side == Some(Wanted::AtLeast) { None } else { table.needed_of_any("above", &KINDS, "3 %") },
    };
    table.finish();
    read
}

fn tried_mix(name: Written<String>, mut table: Table<'_, '_>) -> Tried {
    let buckets = table.by_name("buckets", Kind::Number);
    let read = Tried { name, buckets, found: table.by_name_of_any("found", &KINDS) };
    table.finish();
    read
}
