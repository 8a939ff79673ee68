//! Rows of the deadmen.

use super::super::need::Need;
use crate::house::Anchors;
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::Volume;
use crate::wall;

pub(super) fn anchors(anchors: &Anchors, rows: &mut Rows) -> Need {
    let name = anchors.name.replace('-', " ");
    rows.known(format!("middle of the first deadman of {name} along its run"), &anchors.spot.along);
    rows.known(format!("length of a deadman of {name}"), &anchors.length);
    rows.known(format!("width of a deadman of {name}"), &anchors.width);
    rows.known(format!("height of a deadman of {name}"), &anchors.height);
    rows.known(format!("deadmen of {name}"), &anchors.count);
    if let Some(spacing) = &anchors.spacing {
        rows.known(format!("from one deadman of {name} to the next"), spacing);
    }
    if let Some((holds, by)) = &anchors.holds {
        rows.known(format!("pull that each anchor of {name} holds: {by}"), holds);
    }
    rows.add(anchors.path("removed-volume"), format!("cob that the deadmen of {name} take out"), deadmen(anchors));
    Need::of(&anchors.of, [anchors.path("count"), anchors.path("removed-volume")])
}

/// What deadmen take out of the lift in which they lie.
pub(super) fn deadmen(anchors: &Anchors) -> Answer<Volume> {
    let (length, width, height) = (&anchors.length, &anchors.width, &anchors.height);
    wall::deadmen(length.value, width.value, height.value, anchors.count.value)
        .from("length", length.path.as_str())
        .from("width", width.path.as_str())
        .from("height", height.path.as_str())
        .from("count", anchors.count.path.as_str())
}
