//! `[site.set-out]` and `[rules.tolerances.NAME]`: baseline, benchmark, steps, and what near enough means.

use super::reader::Table;
use super::source::Written;
use crate::units::{Kind, Length};

/// A point in plan as written.
pub type Place = Written<[Written<Length>; 2]>;

/// `[site.set-out]`
#[derive(Clone, Debug, Default)]
pub struct SetOut {
    /// Peg A.
    pub from: Option<Place>,
    /// Peg B.
    pub to: Option<Place>,
    /// Clear ground between the baseline and the trench.
    pub clear: Option<Written<Length>>,
    /// How far the baseline goes beyond the trench at either end.
    pub beyond: Option<Written<Length>>,
    /// Steps along chords and curves.
    pub spacing: Option<Written<Length>>,
    /// The longest radius that is swung by a string.
    pub string: Option<Written<Length>>,
    /// Level of the benchmark.
    pub benchmark: Option<Written<Length>>,
    /// The highest step that is built before a door.
    pub rise: Option<Written<Length>>,
}

/// `[rules.tolerances.NAME]`
#[derive(Clone, Debug)]
pub struct Tolerance {
    /// Its name.
    pub name: Written<String>,
    /// How far off is near enough, not read yet: its kind hangs on its name.
    pub within: Option<Written<String>>,
}

pub(super) fn set_out(mut table: Table<'_, '_>) -> SetOut {
    // A baseline has both pegs or neither: of one alone, `point` says that the other is missing.
    let [from, to] = if table.has("from") || table.has("to") {
        ["from", "to"].map(|key| table.point(key))
    } else {
        table.asked.extend(["from", "to"]);
        [None, None]
    };
    let read = SetOut {
        from,
        to,
        clear: table.quantity("clear", Kind::Length),
        beyond: table.quantity("beyond", Kind::Length),
        spacing: table.quantity("spacing", Kind::Length),
        string: table.quantity("string", Kind::Length),
        benchmark: table.quantity("benchmark", Kind::Length),
        rise: table.quantity("rise", Kind::Length),
    };
    table.finish();
    read
}

/// The tolerances under `[rules]`, and what else stands there and nothing reads yet.
pub(super) fn rules(mut table: Table<'_, '_>) -> (Vec<Tolerance>, Vec<Written<String>>) {
    let named = table.named_tables_under("tolerances").into_iter();
    let tolerances = named.map(|(name, mut table)| {
        let within = table.needed_text("within", "8 mm");
        table.finish();
        Tolerance { name, within }
    });
    (tolerances.collect(), table.rest())
}
