//! `[poles.pile.TAG]`: the poles that lie there, each measured.

use super::reader::Table;
use super::source::Written;
use crate::units::{Angle, Kind, Length};

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
    /// How far its middle stands off a string from end to end.
    pub bow: Option<Written<Length>>,
    /// Which way it bows, looking from the butt, clockwise from its mark.
    pub turned: Option<Written<Angle>>,
    /// Its strength class.
    pub class: Option<Written<String>>,
    /// Whether it is still green.
    pub green: Option<Written<bool>>,
}

pub(super) fn pile(poles: &mut Table<'_, '_>) -> Vec<Pole> {
    let Some(mut table) = poles.table("pile") else { return Vec::new() };
    table.named_tables().into_iter().map(|(tag, table)| pole(tag, table)).collect()
}

fn pole(tag: Written<String>, mut table: Table<'_, '_>) -> Pole {
    for key in ["butt", "tip"] {
        if !table.has(key) {
            table.missing(key, "[\"224 mm\", \"218 mm\"]");
        }
    }
    let read = Pole {
        tag,
        butt: table.lengths("butt"),
        tip: table.lengths("tip"),
        length: table.needed_like("length", Kind::Length, "5.4 m"),
        bow: table.quantity("bow", Kind::Length),
        turned: table.quantity("turned", Kind::Angle),
        class: table.text("class"),
        green: table.yes_or_no("green"),
    };
    table.finish();
    read
}
