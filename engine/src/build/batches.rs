//! `[tests.batches.NAME]`: the log of batches of one mix, before and as the work begins.

use jiff::civil::Date;

use super::earth::Fill;
use super::reader::Table;
use super::source::Written;
use crate::units::{Days, Kind, Mass, Ratio, Volume};

/// `[tests.batches.NAME]`
#[derive(Clone, Debug)]
pub struct Batches {
    /// Its name.
    pub name: Written<String>,
    /// The recipe that they are of.
    pub of: Option<Written<String>>,
    /// The day of the first.
    pub day: Option<Written<Date>>,
    /// How the buckets were filled, where it is written.
    pub fill: Option<Written<Fill>>,
    /// `[tests.batches.NAME.each]`
    pub each: Vec<Batch>,
}

/// One batch.
#[derive(Clone, Debug)]
pub struct Batch {
    /// Its name.
    pub name: Written<String>,
    /// Buckets of all ingredients together, where they were not those of the recipe.
    pub buckets: Option<Written<f64>>,
    /// What it filled as it was placed.
    pub placed: Option<Written<Volume>>,
    /// The lift that it was laid in, where its share of that lift says what it filled.
    pub lift: Option<Written<String>>,
    /// Its share of that lift.
    pub share: Option<Written<Ratio>>,
    /// A handful of it, weighed wet and dried.
    pub handful: Option<[Option<Written<Mass>>; 2]>,
    /// People at the tarp.
    pub people: Option<Written<u64>>,
    /// From the first bucket to the last loaf.
    pub time: Option<Written<Days>>,
}

/// The logs of batches under `[tests]`.
pub(super) fn batches(table: &mut Table<'_, '_>) -> Vec<Batches> {
    let named = table.named_tables_under("batches");
    named.into_iter().map(|(name, table)| one(name, table)).collect()
}

fn one(name: Written<String>, mut table: Table<'_, '_>) -> Batches {
    let each = table.named_tables_under("each");
    let read = Batches {
        name,
        of: table.needed_text("of", "cob"),
        day: table.date("day"),
        fill: table.choice("fill", &[("struck", Fill::Struck), ("heaped", Fill::Heaped)]),
        each: each.into_iter().map(|(name, table)| batch(name, table)).collect(),
    };
    table.finish();
    read
}

fn batch(name: Written<String>, mut table: Table<'_, '_>) -> Batch {
    let read = Batch {
        name,
        buckets: table.quantity("buckets", Kind::Number),
        placed: table.quantity("placed", Kind::Volume),
        lift: table.text("lift"),
        share: table.quantity("share", Kind::Ratio),
        handful: table.table("handful").map(handful),
        people: table.count("people"),
        time: table.quantity("time", Kind::Days),
    };
    table.finish();
    read
}

fn handful(mut table: Table<'_, '_>) -> [Option<Written<Mass>>; 2] {
    let read = [table.needed_like("wet", Kind::Mass, "410 g"), table.needed_like("dry", Kind::Mass, "350 g")];
    table.finish();
    read
}
