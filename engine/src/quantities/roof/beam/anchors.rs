//! Rows of what each anchor of the roof must hold down.

use super::{BESIDE, Laid, path, unknown};
use crate::house::Anchors;
use crate::roof::beam::{Answers, Lifted};
use crate::row::Rows;
use crate::timber::beam as timber;

impl Laid<'_> {
    pub(super) fn anchors(&self, answers: &Answers, rows: &mut Rows) {
        let all = match answers.anchors() {
            Ok(all) => all,
            Err(fault) => return unknown::anchors(self.house, self.on.factors, &fault.to_string(), rows),
        };
        let spots =
            self.house.anchors.iter().flat_map(|anchors| (0..anchors.spots.len()).map(move |spot| (anchors, spot)));
        for ((anchors, spot), most) in spots.zip(all) {
            match most {
                Some(most) => self.pull(&most, (anchors, spot), rows),
                // Poles do not lift there, and what lies between them may.
                None if self.has_secondary() => self.unknown_beside((anchors, spot), rows),
                None => {}
            }
        }
        if self.house.anchors.is_empty() && self.has_secondary() {
            unknown::anchors(self.house, self.on.factors, BESIDE, rows);
        }
    }

    fn unknown_beside(&self, at: (&Anchors, usize), rows: &mut Rows) {
        let (stem, on) = named(at);
        let row = path(&format!("{stem}.{}", self.on.factors.noun("used")));
        rows.not_known(row, format!("{on}: {USED} ({BESIDE})"));
    }

    /// What an anchor must hold down, against what it holds.
    fn pull(&self, most: &Lifted, (anchors, spot): (&Anchors, usize), rows: &mut Rows) {
        let (stem, on) = named((anchors, spot));
        let row = |noun: &str| path(&format!("{stem}.{noun}"));
        let under = (most.group, most.combination);
        let alone = if self.has_secondary() { ", of the poles alone" } else { "" };
        let title = format!("{on}: what its strap must hold down{alone}, under {}", self.on.words(under));
        let pull = self.on.bound_all(timber::anchor_pull(most.pull), under, rows);
        let pull = rows.add(row("pull"), title, self.anchored(pull, rows));
        let (noun, title) = (self.on.factors.noun("used"), format!("{on}: {USED}"));
        match &anchors.holds {
            _ if self.has_secondary() => self.unknown_beside((anchors, spot), rows),
            Some((holds, _)) => {
                let share = timber::held_used(pull, holds.value).from("pull", row("pull"));
                rows.add(row(&noun), title, share.from("holds", holds.path.as_str()));
            }
            None => rows.not_known(row(&noun), title),
        }
    }
}

/// The stem of the rows of an anchor under those of the beam, and what it is called.
fn named((anchors, spot): (&Anchors, usize)) -> (String, String) {
    let name = anchors.name.replace('-', " ");
    (format!("anchors.{}-{}", anchors.name, spot + 1), format!("anchor {} of {name}", spot + 1))
}

const USED: &str = "share used of what it holds";
