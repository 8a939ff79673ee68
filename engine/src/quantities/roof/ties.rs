//! Rows of the ties of rafters: what lifts an end, of what its tie holds.

use super::factors::Factors;
use crate::house::Held;
use crate::row::Rows;
use crate::timber::beam as timber;
use crate::units::Force;

/// What each tie must hold.
const LIFTS: &str = "roof.crossings.*.held-down";

pub(super) fn walk(held: &Held, rows: &mut Rows) {
    let noun = Factors::of(held).noun("tie");
    let lifted: Vec<(String, Option<Force>)> =
        rows.matching(LIFTS).map(|row| (row.path.clone(), rows.value::<Force>(&row.path))).collect();
    if lifted.is_empty() {
        return;
    }
    let holds = held.tie.as_ref().map(|tie| {
        rows.known(format!("pull that a tie of a rafter holds: {}", tie.by), &tie.holds);
        &tie.holds
    });
    for (path, lifts) in lifted {
        let Some((stem, lifts)) = path.rsplit_once('.').map(|(stem, _)| stem).zip(lifts) else { continue };
        let key = stem.rsplit_once('.').map_or(stem, |(_, key)| key).replace('-', " ");
        let row = format!("{stem}.{noun}");
        match holds {
            Some(holds) => {
                let share = timber::held_used(lifts, holds.value).from("pull", path.as_str());
                let share = share.from("holds", holds.path.as_str());
                rows.add(row, format!("{key} of a rafter: share used of what its tie holds"), share);
            }
            None => rows.not_known(row, format!("{key} of a rafter: share used of what its tie holds")),
        }
    }
}
