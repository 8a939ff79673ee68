//! Rows of the timber in and over the openings: frames, sill boards, lintels.

use super::line::bind;
use super::need::Need;
use super::openings::shaped;
use crate::build::OpeningKind;
use crate::house::{House, Opening};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::Length;
use crate::wall;

pub(super) fn walk(house: &House, rows: &mut Rows) -> Vec<Need> {
    let mut needs = Vec::new();
    for opening in &house.openings {
        needs.extend(frame(opening, rows));
        needs.extend(sill_board(house, opening, rows));
        needs.extend(lintel(house, opening, rows));
    }
    needs
}

fn frame(opening: &Opening, rows: &mut Rows) -> Option<Need> {
    let frame = opening.frame.as_ref()?;
    let name = &opening.name;
    let (width, height) = (opening.width.value, opening.height.value);
    let has_foot = opening.kind == OpeningKind::Window;
    let sized = |answer: Answer<_>, rows: &Rows| {
        let answer = answer.from("width", opening.width.path.as_str()).from("height", opening.height.path.as_str());
        bind(answer, rows, &opening.path("rise"))
    };
    let length = sized(wall::frame_length(width, height, opening.cut.form, has_foot), rows);
    rows.add(opening.path("frame.length"), format!("length of the frame's members, {name}"), length);
    let volume =
        wall::frame_volume(width, height, frame.width.value, frame.depth.value, opening.cut.form, frame.inside)
            .from("width", opening.width.path.as_str())
            .from("height", opening.height.path.as_str())
            .from("frame width", frame.width.path.as_str())
            .from("frame depth", frame.depth.path.as_str());
    let volume = bind(volume, rows, &opening.path("rise"));
    rows.add(opening.path("frame.volume"), format!("wood of the frame of {name}"), volume);
    Some(Need::of(&frame.of, [opening.path("frame.volume")]))
}

fn sill_board(house: &House, opening: &Opening, rows: &mut Rows) -> Option<Need> {
    let board = opening.sill_board.as_ref()?;
    let name = &opening.name;
    rows.known(format!("thickness of the sill board of {name}"), &board.thickness);
    rows.known(format!("how far the sill board of {name} stands out"), &board.projects);
    let depth = match &opening.frame {
        Some(frame) => wall::sill_board_depth(board.projects.value, frame.set_back.value)
            .from("behind", frame.set_back.path.as_str()),
        None => {
            let [inner, outer] = opening.faces(&house.wall);
            let answer = wall::sill_board_depth(board.projects.value, Length::m(outer - inner)).without("behind");
            let answer = answer.with("bottom", opening.bottom.value, opening.bottom.path.as_str()).with(
                "height",
                opening.height.value,
                opening.height.path.as_str(),
            );
            let answer = bind(bind(answer, rows, "wall.batter.inside"), rows, "wall.batter.outside");
            if house.wall.thicknesses.is_even() {
                bind(answer, rows, "wall.thickness")
            } else {
                shaped(answer, house, opening, &opening.cut, rows)
            }
        }
    };
    let depth = depth.from("projects", board.projects.path.as_str());
    let depth = rows.add(opening.path("sill-board.depth"), format!("depth of the sill board of {name}"), depth);
    let volume = wall::sill_board_volume(opening.width.value, depth, board.thickness.value)
        .from("width", opening.width.path.as_str())
        .from("depth", opening.path("sill-board.depth"))
        .from("thickness", board.thickness.path.as_str());
    rows.add(opening.path("sill-board.volume"), format!("wood of the sill board of {name}"), volume);
    Some(Need::of(&board.of, [opening.path("sill-board.volume")]))
}

fn lintel(house: &House, opening: &Opening, rows: &mut Rows) -> Option<Need> {
    let lintel = opening.lintel.as_ref()?;
    let (name, wall) = (&opening.name, &house.wall);
    let length = wall::lintel_length(opening.width.value, lintel.bearing.value)
        .from("width", opening.width.path.as_str())
        .from("bearing", lintel.bearing.path.as_str());
    let length = rows.add(opening.path("lintel.length"), format!("length of the lintel of {name}"), length);
    let (thickness, inside, outside) = (wall.thickness.value, wall.batter_inside.value, wall.batter_outside.value);
    let volume =
        wall::lintel_volume(length, lintel.height.value, thickness, inside, outside, &wall.shape(), &lintel.cut)
            .from("length", opening.path("lintel.length"))
            .from("height", lintel.height.path.as_str())
            .from("thickness", "wall.thickness")
            .from("batter inside", "wall.batter.inside")
            .from("batter outside", "wall.batter.outside")
            .with("bottom", opening.bottom.value, opening.bottom.path.as_str())
            .with("height of the opening", opening.height.value, opening.height.path.as_str());
    let volume = shaped(volume, house, opening, &lintel.cut, rows);
    rows.add(opening.path("lintel.volume"), format!("cob that the lintel of {name} takes out"), volume);
    Some(Need::of(&lintel.of, [opening.path("lintel.volume")]))
}
