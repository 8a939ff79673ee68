//! Rows of the door and window schedule: clear sizes, glass, what holds a frame, and when it must be on site.

use super::line::bind;
use super::need::Need;
use crate::build::OpeningKind;
use crate::house::{FittedFrame, House, Opening};
use crate::row::Rows;
use crate::wall;

pub(super) fn walk(house: &House, rows: &mut Rows) -> Vec<Need> {
    house.openings.iter().filter_map(|opening| one(opening, rows)).collect()
}

fn one(opening: &Opening, rows: &mut Rows) -> Option<Need> {
    let name = &opening.name;
    if let Some(drip) = &opening.hanging.drip {
        rows.known(format!("how far the threshold of {name} stands out of the stem"), drip);
        let length = wall::threshold_length(opening.width.value).from("width", opening.width.path.as_str());
        rows.add(opening.path("threshold-length"), format!("length of the threshold of {name}"), length);
    }
    let frame = opening.frame.as_ref()?;
    let member = frame.width.value;
    let width = wall::clear_width(opening.width.value, member)
        .from("width", opening.width.path.as_str())
        .from("frame", frame.width.path.as_str());
    rows.add(opening.path("clear-width"), format!("clear width of {name} within its frame"), width);
    let members = if opening.kind == OpeningKind::Door { 1.0 } else { 2.0 };
    let height = wall::clear_height(opening.height.value, member, members)
        .from("height", opening.height.path.as_str())
        .from("frame", frame.width.path.as_str());
    rows.add(opening.path("clear-height"), format!("clear height of {name} within its frame"), height);
    if let (Some(sash), Some(glass)) = (&opening.hanging.sash, opening.hanging.glass) {
        let sash = rows.known(format!("width of the sash of {name}"), sash);
        let area = wall::glass_area(opening.width.value, opening.height.value, member, sash, glass)
            .from("width", opening.width.path.as_str())
            .from("height", opening.height.path.as_str())
            .from("frame", frame.width.path.as_str())
            .from("sash", opening.path("sash"));
        let area = bind(area, rows, &opening.path("rise"));
        rows.add(opening.path("glass-area"), format!("glass of {name}"), area);
    }
    rows.known(format!("braces in the frame of {name} while cob is laid"), &frame.braces);
    let each = rows.known(format!("anchors of each jamb of {name}"), &frame.anchors);
    let anchors = wall::frame_anchors(each).from("each", frame.anchors.path.as_str());
    rows.add(opening.path("frame.anchors-in-all"), format!("anchors of the frame of {name}"), anchors);
    Some(Need::of(FittedFrame::ANCHOR, [opening.path("frame.anchors-in-all")]))
}

/// When each frame must be on site; the rows of the lifts come first.
pub(super) fn days(house: &House, rows: &mut Rows) {
    for opening in house.openings.iter().filter(|opening| opening.frame.is_some()) {
        // What stands on the bed between two lifts is set before the upper one.
        let lift = house.wall.lifts.iter().find(|lift| opening.bottom.value < lift.top.value);
        if let Some(lift) = lift {
            let day = wall::on_site_by(lift.start.value).from("start", lift.start.path.as_str());
            rows.add(opening.path("on-site-by"), format!("frame of {} on site by", opening.name), day);
        }
    }
}
