//! Fits splay, frame, sill board and lintel into an opening, and refuses those that do not go in.

use super::Wall;
use super::opening::{FittedFrame, Lintel, Opening, SillBoard, Splay};
use super::openings::least_top;
use super::place::{known, shown, within};
use crate::build::{self, OpeningForm, OpeningKind, Source, Written};
use crate::curve::{Cut, Depth, Form, Side};
use crate::known::{Known, Origin};
use crate::units::{Length, Slope, System};

/// How far a lintel lies on cob inside of a splay at the least, in metres: our judgement.
const LEAST_BEARING: f64 = 0.05;

/// Most braces or anchors that are no slip of the pen.
const MOST: u64 = 12;

/// Puts into an opening what the builder wrote for it; `None` when something does not go in.
pub(super) fn fit(
    source: &Source<'_>,
    written: &build::Opening,
    opening: &mut Opening,
    wall: &Wall,
    system: System,
) -> Option<()> {
    let [inner, outer] = opening.faces(wall);
    let deep = outer - inner;
    if let Some(frame) = &written.frame {
        opening.frame = Some(self::frame(source, frame, opening, deep, system)?);
    }
    if let Some(splay) = &written.splay {
        let splay = self::splay(source, splay, opening, deep, system)?;
        let crease = outer - splay.from.value.in_m();
        let run_apart = [splay.left.value.in_ratio(), splay.right.value.in_ratio()];
        opening.cut.depth = Depth::Through { crease, splay: run_apart };
        opening.splay = Some(splay);
    }
    if let Some(board) = &written.sill_board {
        opening.sill_board = Some(sill_board(source, board, opening, system)?);
    }
    if let Some(lintel) = &written.lintel {
        opening.lintel = Some(self::lintel(source, (written, lintel), opening, wall, system)?);
    }
    Some(())
}

/// What is bought for a thing, by the name that the builder wrote or the trade's own.
fn bought(written: &Option<Written<String>>, own: &str) -> String {
    written.as_ref().map_or_else(|| own.to_owned(), |of| of.value.clone())
}

fn fault<T>(source: &Source<'_>, at: &Written<T>, message: String, hint: impl Into<String>) {
    source.fault(at.span.clone(), &at.path, message, hint);
}

fn frame(
    source: &Source<'_>,
    written: &build::FittedFrame,
    opening: &Opening,
    deep: f64,
    system: System,
) -> Option<FittedFrame> {
    let sizes = Length::mm(10.0)..Length::mm(400.0);
    let width = within(source, written.width.as_ref(), sizes.clone(), "a width for a frame", system);
    let depth = within(source, written.depth.as_ref(), sizes, "a depth for a frame", system);
    let (width, depth) = (width?, depth?);
    let set_backs = Length::ZERO..Length::m(2.0);
    let set_back = match &written.set_back {
        Some(_) => within(source, written.set_back.as_ref(), set_backs, "how far a frame is set back", system)?,
        None => {
            let why = "set back from the weather by 100 mm";
            Known::assumed(Length::mm(100.0), opening.path("frame.set-back"), Origin::Memory, why)
        }
    };
    if set_back.value + depth.value >= Length::m(deep) {
        let message = format!(
            "the frame reaches {} behind the outer face, the wall is {} thick there",
            shown(set_back.value + depth.value, system),
            shown(Length::m(deep), system)
        );
        let at = written.depth.as_ref()?;
        fault(source, at, message, "make the frame less deep, or set it back less");
        return None;
    }
    // A door has no member under foot.
    let foot = if opening.kind == OpeningKind::Window { width.value.in_m() } else { 0.0 };
    let Some(inside) = opening.cut.form.inset(width.value.in_m(), foot) else {
        let message = format!("a frame of {} leaves nothing of the opening", shown(width.value, system));
        fault(source, written.width.as_ref()?, message, "make the frame narrower, or the opening larger");
        return None;
    };
    let of = bought(&written.of, "frame-timber");
    let number = |written: &Option<Written<u64>>, key: &str, usual: u64, origin, why| {
        known(written.as_ref())
            .unwrap_or_else(|| Known::assumed(usual, opening.path(&format!("frame.{key}")), origin, why))
    };
    let why = "two diagonals and a spreader half-way up keep a frame square in wet cob";
    let braces = number(&written.braces, "braces", 3, Origin::CommonPractice, why);
    let why = "two deadmen or anchors hold each jamb";
    let anchors = number(&written.anchors, "anchors", 2, Origin::Judgement, why);
    for (written, what) in [(&written.braces, "braces in a frame"), (&written.anchors, "anchors of a jamb")] {
        if let Some(at) = written.as_ref().filter(|at| at.value > MOST) {
            let hint = format!("write a number from 0 to {MOST}");
            fault(source, at, format!("{} is not a number of {what}", at.value), hint);
            return None;
        }
    }
    Some(FittedFrame { width, depth, set_back, braces, anchors, inside, of })
}

fn splay(source: &Source<'_>, written: &build::Splay, opening: &Opening, deep: f64, system: System) -> Option<Splay> {
    let one = |written: &Option<Written<Slope>>, key: &str| match written {
        Some(_) => within(source, written.as_ref(), Slope::ZERO..Slope::ratio(2.0), "a splay of a jamb", system),
        None => {
            let path = opening.path(&format!("splay.{key}"));
            Some(Known::assumed(Slope::ZERO, path, Origin::Judgement, "the jamb is square to the wall"))
        }
    };
    let (left, right) = (one(&written.left, "left"), one(&written.right, "right"));
    let behind_frame = opening.frame.as_ref().map(|frame| frame.set_back.value + frame.depth.value);
    let from = match (&written.from, behind_frame, &opening.frame) {
        (Some(_), ..) => {
            let depths = Length::ZERO..Length::m(3.0);
            within(source, written.from.as_ref(), depths, "a depth at which a splay begins", system)?
        }
        (None, Some(behind), Some(frame)) => {
            let why = "the splay begins behind the frame";
            Known::assumed(behind, opening.path("splay.from"), Origin::CommonPractice, why)
                .following(frame.set_back.path.as_str())
                .following(frame.depth.path.as_str())
        }
        _ => {
            let why = "the splay begins at the outer face";
            Known::assumed(Length::ZERO, opening.path("splay.from"), Origin::Judgement, why)
        }
    };
    if let Some(at) = written.from.as_ref().filter(|at| at.value >= Length::m(deep)) {
        let message = format!("the wall is {} thick there: nothing is left to splay", shown(Length::m(deep), system));
        fault(source, at, message, "let the splay begin nearer to the outer face");
        return None;
    }
    if let (Some(at), Some(behind)) = (written.from.as_ref(), behind_frame)
        && at.value < behind
    {
        let message = format!(
            "the splay begins {} behind the outer face, in front of the frame's inner side at {}",
            shown(at.value, system),
            shown(behind, system)
        );
        fault(source, at, message, "let the splay begin behind the frame, or leave `from` out");
        return None;
    }
    Some(Splay { left: left?, right: right?, from })
}

fn sill_board(source: &Source<'_>, written: &build::SillBoard, opening: &Opening, system: System) -> Option<SillBoard> {
    let thicknesses = Length::mm(5.0)..Length::mm(200.0);
    let thickness = within(source, written.thickness.as_ref(), thicknesses, "the thickness of a sill board", system)?;
    let projects = match &written.projects {
        Some(_) => {
            let what = "how far a sill board stands out";
            within(source, written.projects.as_ref(), Length::ZERO..Length::mm(400.0), what, system)?
        }
        None => {
            let why = "a sill board drips clear of the plaster";
            Known::assumed(Length::mm(60.0), opening.path("sill-board.projects"), Origin::CommonPractice, why)
        }
    };
    if let (OpeningForm::Round, Some(at)) = (opening.form, &written.thickness) {
        fault(source, at, "a round opening has no level sill for a board".into(), "leave `sill-board` out");
        return None;
    }
    if thickness.value >= opening.height.value {
        let message = format!("a sill board of {} fills the opening", shown(thickness.value, system));
        fault(source, written.thickness.as_ref()?, message, "make the board thinner");
        return None;
    }
    let of = bought(&written.of, "sill-board");
    Some(SillBoard { thickness, projects, of })
}

fn lintel(
    source: &Source<'_>,
    (opening_written, written): (&build::Opening, &build::Lintel),
    opening: &Opening,
    wall: &Wall,
    system: System,
) -> Option<Lintel> {
    let height =
        within(source, written.height.as_ref(), Length::mm(20.0)..Length::m(1.0), "the height of a lintel", system)?;
    if let (true, Some(at)) = (opening.form != OpeningForm::Rectangle, &opening_written.form) {
        let message = "an arch carries itself: a lintel has a level head under it".to_owned();
        fault(source, at, message, "leave `lintel` out, or leave `form` out for a rectangle");
        return None;
    }
    let bearing = match &written.bearing {
        Some(_) => {
            let what = "how far a lintel lies on the cob";
            within(source, written.bearing.as_ref(), Length::mm(50.0)..Length::m(2.0), what, system)?
        }
        None => {
            let why = "a lintel lies on the cob by 300 mm at either end";
            Known::assumed(Length::mm(300.0), opening.path("lintel.bearing"), Origin::CommonPractice, why)
        }
    };
    let (half, bottom) = (opening.width.value * 0.5 + bearing.value, opening.head());
    let form = Form::Rectangle { half: half.in_m(), bottom: bottom.in_m(), top: (bottom + height.value).in_m() };
    let cut = Cut::straight(opening.station, form);
    let at = written.height.as_ref()?;
    let top = least_top(wall, &cut);
    if Length::m(form.top()) >= top {
        let message = format!(
            "the lintel would end at {}, the wall's top over it is at {}",
            shown(Length::m(form.top()), system),
            shown(top, system)
        );
        fault(source, at, message, "make the lintel or the opening lower, or the wall higher");
        return None;
    }
    let shape = wall.shape();
    let levels = [form.bottom(), form.top()];
    let faces = [Side::Inner, Side::Outer];
    if levels.iter().any(|&level| faces.iter().any(|&side| cut.stretch(&shape, side, level).is_none())) {
        let message = "the wall turns away under this lintel: its end would never meet the face".to_owned();
        fault(source, at, message, "write a shorter `bearing`, or put the opening where the wall is straighter");
        return None;
    }
    let inside = opening.cut.jambs(opening.cut.form.top()).into_iter().filter_map(|jamb| {
        let [inner, _] = opening.cut.jamb_depths(&shape, jamb, opening.cut.form.top())?;
        Some(jamb.at(inner).abs())
    });
    let widest = inside.fold(0.0, f64::max);
    if widest + LEAST_BEARING >= form.half() {
        let message = format!(
            "the splayed opening reaches {} from its middle at the inner face, the lintel only {}",
            shown(Length::m(widest), system),
            shown(Length::m(form.half()), system)
        );
        let hint = format!(
            "write a `bearing` of at least {}",
            shown(Length::m(widest + 0.1 - opening.cut.form.half()), system)
        );
        fault(source, written.bearing.as_ref().unwrap_or(at), message, hint);
        return None;
    }
    let of = bought(&written.of, "lintel");
    Some(Lintel { height, bearing, of, cut })
}
