//! `[tests.panels.NAME]`: test panels of a coat of one face, each with what its judges scored.

use jiff::civil::Date;

use super::earth::Fill;
use super::reader::Table;
use super::skin::Face;
use super::source::Written;
use crate::units::{Kind, Length};

/// `[tests.panels.NAME]`
#[derive(Clone, Debug)]
pub struct Panels {
    /// Their name.
    pub name: Written<String>,
    /// The recipe of the coat that they were made for.
    pub of: Option<Written<String>>,
    /// The face that they stand for.
    pub face: Option<Written<Face>>,
    /// The day on which they were scored.
    pub day: Option<Written<Date>>,
    /// How the buckets were filled, where it is written.
    pub fill: Option<Written<Fill>>,
    /// The least part of a bucket that is measured.
    pub step: Option<Written<f64>>,
    /// How thick those are that write no thickness of their own.
    pub thickness: Option<Written<Length>>,
    /// `[tests.panels.NAME.each]`
    pub each: Vec<Panel>,
}

/// A panel.
#[derive(Clone, Debug)]
pub struct Panel {
    /// Its name.
    pub name: Written<String>,
    /// Buckets of each ingredient.
    pub buckets: Vec<(Written<String>, Written<f64>)>,
    /// How thick it is, where that is its own.
    pub thickness: Option<Written<Length>>,
    /// What each judge scored its crack, dusting and adhesion, by the judges' names.
    pub scores: [Vec<(Written<String>, Written<u64>)>; 3],
}

/// The panels under `[tests]`.
pub(super) fn panels(table: &mut Table<'_, '_>) -> Vec<Panels> {
    let named = table.named_tables_under("panels");
    named.into_iter().map(|(name, table)| one(name, table)).collect()
}

fn one(name: Written<String>, mut table: Table<'_, '_>) -> Panels {
    let read = Panels {
        name,
        of: table.needed_text("of", "plaster"),
        face: table.needed_choice("face", &[("inside", Face::Inside), ("outside", Face::Outside)]),
        day: table.date("day"),
        fill: table.choice("fill", &[("struck", Fill::Struck), ("heaped", Fill::Heaped)]),
        step: table.quantity("step", Kind::Number),
        thickness: table.quantity("thickness", Kind::Length),
        each: table.named_tables_under("each").into_iter().map(|(name, table)| panel(name, table)).collect(),
    };
    table.finish();
    read
}

fn panel(name: Written<String>, mut table: Table<'_, '_>) -> Panel {
    let read = Panel {
        name,
        buckets: table.by_name("buckets", Kind::Number),
        thickness: table.quantity("thickness", Kind::Length),
        scores: ["crack", "dusting", "adhesion"].map(|aspect| table.by_name(aspect, Kind::Count)),
    };
    table.finish();
    read
}
