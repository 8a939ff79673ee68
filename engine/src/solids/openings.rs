//! Bodies of the timber in and over openings: frames, sill boards, lintels.

use super::{Making, Named};
use crate::build::OpeningKind;
use crate::house::Opening;
use crate::solid::{self, Cuboid, plug};

pub(super) fn make(made: &mut Making<'_>) {
    for opening in &made.house.openings {
        frame(made, opening);
        sill_board(made, opening);
        lintel(made, opening);
    }
}

fn frame(made: &mut Making<'_>, opening: &Opening) {
    let Some(frame) = &opening.frame else { return };
    let width = frame.width.value.in_m();
    let foot = if opening.kind == OpeningKind::Window { width } else { 0.0 };
    let outer = opening.faces(&made.house.wall)[1] - frame.set_back.value.in_m();
    let depths = [outer - frame.depth.value.in_m(), outer];
    let mesh = solid::frame(opening.station, opening.cut.form, [width, foot], depths, made.chord);
    let named = Named::new(format!("frame of {}", opening.name), "timber");
    made.keep(opening.path("frame"), named, &opening.path("frame.volume"), mesh);
}

fn sill_board(made: &mut Making<'_>, opening: &Opening) {
    let Some(board) = &opening.sill_board else { return };
    let Some(depth) = made.rows.value::<crate::units::Length>(&opening.path("sill-board.depth")) else { return };
    let outer = opening.faces(&made.house.wall)[1] + board.projects.value.in_m();
    let right = -opening.station.axis.turn_90();
    let half = [0.5 * opening.width.value.in_m(), 0.5 * depth.in_m()];
    let foot = opening.bottom.value.in_m();
    let body = Cuboid {
        middle: opening.station.point + right * (outer - half[1]),
        axis: opening.station.axis,
        half,
        levels: [foot, foot + board.thickness.value.in_m()],
    };
    let named = Named::new(format!("sill board of {}", opening.name), "timber");
    made.keep(opening.path("sill-board"), named, &opening.path("sill-board.volume"), Ok(body.mesh()));
}

fn lintel(made: &mut Making<'_>, opening: &Opening) {
    let Some(lintel) = &opening.lintel else { return };
    let mesh = plug(&made.house.wall.shape(), &lintel.cut, made.chord);
    let (lift, day) = made.lift_at(lintel.cut.form.bottom());
    let named = Named { lift, day, ..Named::new(format!("lintel of {}", opening.name), "timber") };
    made.keep(opening.path("lintel"), named, &opening.path("lintel.volume"), mesh);
}
