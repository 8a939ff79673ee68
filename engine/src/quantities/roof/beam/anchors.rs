//! Rows of what each anchor of the roof must hold down.

use super::{BESIDE, Laid, path, unknown};
use crate::house::Anchors;
use crate::roof::beam::{Answers, Lifted};
use crate::row::Rows;
use crate::timber::beam as timber;

impl Laid<'_, '_> {
    pub(super) fn anchors(&self, answers: &Answers, rows: &mut Rows) {
        let all = match answers.anchors() {
            Ok(all) => all,
            Err(fault) => return unknown::anchors(self.house, &self.stood.factors, &fault.to_string(), rows),
        };
        let spots =
            self.house.anchors.iter().flat_map(|anchors| (0..anchors.spots.len()).map(move |spot| (anchors, spot)));
        for ((anchors, spot), most) in spots.zip(all) {
            if let Some(most) = most {
                self.pull(&most, (anchors, spot), rows);
            }
        }
    }

    /// What an anchor must hold down, against what it holds.
    fn pull(&self, most: &Lifted, (anchors, spot): (&Anchors, usize), rows: &mut Rows) {
        let row = |noun: &str| path(&format!("anchors.{}-{}.{noun}", anchors.name, spot + 1));
        let on = format!("anchor {} of {}", spot + 1, anchors.name.replace('-', " "));
        let governs = self.governs(most.combination, most.group);
        let alone = if self.has_secondary() { ", of the poles alone" } else { "" };
        let title = format!("{on}: what its strap must hold down{alone}, under {}", governs.words());
        let pull = self.stood.bound(timber::anchor_pull(most.pull), &governs, rows);
        let pull = rows.add(row("pull"), title, self.anchored(pull, rows));
        let (noun, title) = (self.stood.factors.noun("used"), format!("{on}: share used of what it holds"));
        match &anchors.holds {
            _ if self.has_secondary() => rows.not_known(row(&noun), format!("{title} ({BESIDE})")),
            Some((holds, _)) => {
                let share = timber::anchor_used(pull, holds.value).from("pull", row("pull"));
                rows.add(row(&noun), title, share.from("holds", holds.path.as_str()));
            }
            None => rows.not_known(row(&noun), title),
        }
    }
}
