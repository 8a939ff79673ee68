//! `[poles.pile.TAG]`: the poles that lie there, each measured; `[poles.typical]`: what those are like that nobody measured yet.

use super::reader::Table;
use super::source::Written;
use crate::units::{Kind, Length};

/// One pole of the pile.
#[derive(Clone, Debug)]
pub struct Pole {
    /// Its tag.
    pub tag: Written<String>,
    /// Diameters of its thick end, measured one or two ways.
    pub butt: Vec<Written<Length>>,
    /// Diameters of its thin end.
    pub tip: Vec<Written<Length>>,
    /// What of it can be used.
    pub length: Option<Written<Length>>,
    /// How far its middle stands off a string from end to end, and how far square to that.
    pub bow: Vec<Written<Length>>,
}

pub(super) fn pile(poles: &mut Table<'_, '_>) -> Vec<Pole> {
    poles.named_tables_under("pile").into_iter().map(|(tag, table)| pole(tag, table)).collect()
}

/// A pole as those are that still lack.
pub(super) fn typical(poles: &mut Table<'_, '_>) -> Option<Pole> {
    let table = poles.table("typical")?;
    let tag = Written {
        value: "typical".to_owned(),
        path: "poles.typical".to_owned(),
        span: table.span.clone(),
        line: table.source.line(&table.span),
    };
    Some(pole(tag, table))
}

fn pole(tag: Written<String>, mut table: Table<'_, '_>) -> Pole {
    let mut ends = |key: &'static str, example: &str| {
        if !table.has(key) {
            table.missing(key, example);
        }
        table.lengths(key)
    };
    let (butt, tip) = (ends("butt", r#"["224 mm", "218 mm"]"#), ends("tip", r#"["176 mm", "180 mm"]"#));
    let length = table.needed_like("length", Kind::Length, "5.4 m");
    let read = Pole { tag, butt, tip, length, bow: table.lengths("bow") };
    table.finish();
    read
}
