//! `[openings.NAME]`: doors and windows, and what is fitted into them.

use super::reader::Table;
use super::source::Written;
use crate::units::{Kind, Length, Slope};

/// What an opening is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpeningKind {
    /// It starts at its threshold and interrupts the stem.
    Door,
    /// It stands on a sill of cob.
    Window,
}

/// How an opening looks from outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpeningForm {
    /// Level head and upright jambs.
    Rectangle,
    /// A circle.
    Round,
    /// Upright jambs under an arch.
    Arched,
}

/// `[openings.NAME]`
#[derive(Clone, Debug)]
pub struct Opening {
    /// Its name.
    pub name: Written<String>,
    /// Door or window.
    pub kind: Option<Written<OpeningKind>>,
    /// Its form; a rectangle where nothing is written.
    pub form: Option<Written<OpeningForm>>,
    /// The run it is in.
    pub run: Option<Written<String>>,
    /// Distance of its middle along the run.
    pub along: Option<Written<Length>>,
    /// Width between the jambs.
    pub width: Option<Written<Length>>,
    /// Height from threshold or sill to the head or crown.
    pub height: Option<Written<Length>>,
    /// Rise of an arch above its springing.
    pub rise: Option<Written<Length>>,
    /// Level of a window's sill above the foot of the cob.
    pub sill: Option<Written<Length>>,
    /// Level of a door's threshold.
    pub threshold: Option<Written<Length>>,
    /// `splay`
    pub splay: Option<Splay>,
    /// `frame`
    pub frame: Option<FittedFrame>,
    /// `sill-board`
    pub sill_board: Option<SillBoard>,
    /// `lintel`
    pub lintel: Option<Lintel>,
    /// How it hangs.
    pub hanging: Hanging,
}

/// How a door or a window hangs in its frame.
#[derive(Clone, Debug, Default)]
pub struct Hanging {
    /// Which way it opens.
    pub swing: Option<Written<Swing>>,
    /// The side of its hinges, seen from outside.
    pub hand: Option<Written<Hand>>,
    /// How far a door's threshold stands out of the outer face.
    pub drip: Option<Written<Length>>,
    /// Width of the members of a window's sash round the glass.
    pub sash: Option<Written<Length>>,
}

/// Which way a door or a window opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Swing {
    /// Into the room.
    In,
    /// Out of the house.
    Out,
    /// It does not open.
    Fixed,
}

/// The side of the hinges, seen from outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hand {
    /// Left.
    Left,
    /// Right.
    Right,
}

/// How the jambs run apart towards the inside, left and right as seen from outside.
#[derive(Clone, Debug)]
pub struct Splay {
    /// Of the left jamb.
    pub left: Option<Written<Slope>>,
    /// Of the right jamb.
    pub right: Option<Written<Slope>>,
    /// Behind the outer face, where it begins.
    pub from: Option<Written<Length>>,
}

/// A frame of timber set into the opening.
#[derive(Clone, Debug)]
pub struct FittedFrame {
    /// Width of its members, seen from outside.
    pub width: Option<Written<Length>>,
    /// Depth of its members, through the wall.
    pub depth: Option<Written<Length>>,
    /// Behind the outer face.
    pub set_back: Option<Written<Length>>,
    /// Braces that keep it square while cob is laid round it.
    pub braces: Option<Written<u64>>,
    /// What ties each jamb to the cob.
    pub anchors: Option<Written<u64>>,
    /// What is bought for it.
    pub of: Option<Written<String>>,
}

/// A board on the sill of a window.
#[derive(Clone, Debug)]
pub struct SillBoard {
    /// Its thickness.
    pub thickness: Option<Written<Length>>,
    /// How far it stands out of the outer face.
    pub projects: Option<Written<Length>>,
    /// What is bought for it.
    pub of: Option<Written<String>>,
}

/// A lintel over the opening, as deep as the wall is thick.
#[derive(Clone, Debug)]
pub struct Lintel {
    /// Its height.
    pub height: Option<Written<Length>>,
    /// How far it lies on the cob at either end.
    pub bearing: Option<Written<Length>>,
    /// What is bought for it.
    pub of: Option<Written<String>>,
}

pub(super) fn opening(name: Written<String>, mut table: Table<'_, '_>) -> Opening {
    let kind = table.needed_choice("kind", &[("door", OpeningKind::Door), ("window", OpeningKind::Window)]);
    let kind_read = kind.as_ref().map(|kind| kind.value);
    let forms = [("rectangle", OpeningForm::Rectangle), ("round", OpeningForm::Round), ("arched", OpeningForm::Arched)];
    let form = table.choice("form", &forms);
    let form_read = form.as_ref().map_or(OpeningForm::Rectangle, |form| form.value);
    let read = Opening {
        name,
        run: table.needed_text("run", "south"),
        along: table.needed("along", Kind::Length),
        width: table.needed("width", Kind::Length),
        // A circle is as high as it is wide.
        height: if form_read == OpeningForm::Round { None } else { table.needed("height", Kind::Length) },
        rise: if form_read == OpeningForm::Arched { table.quantity("rise", Kind::Length) } else { None },
        sill: match kind_read {
            Some(OpeningKind::Window) => table.needed("sill", Kind::Length),
            Some(OpeningKind::Door) => None,
            None => table.quantity("sill", Kind::Length),
        },
        threshold: match kind_read {
            Some(OpeningKind::Window) => None,
            Some(OpeningKind::Door) | None => table.quantity("threshold", Kind::Length),
        },
        splay: table.table("splay").map(splay),
        frame: table.table("frame").map(frame),
        sill_board: match kind_read {
            Some(OpeningKind::Door) => None,
            _ => table.table("sill-board").map(sill_board),
        },
        lintel: table.table("lintel").map(lintel),
        hanging: hanging(&mut table, kind_read),
        kind,
        form,
    };
    table.finish();
    read
}

fn hanging(table: &mut Table<'_, '_>, kind: Option<OpeningKind>) -> Hanging {
    let (is_door, is_window) = (kind != Some(OpeningKind::Window), kind != Some(OpeningKind::Door));
    let swings: &[(&str, Swing)] = if kind == Some(OpeningKind::Door) {
        &[("in", Swing::In), ("out", Swing::Out)]
    } else {
        &[("in", Swing::In), ("out", Swing::Out), ("fixed", Swing::Fixed)]
    };
    Hanging {
        swing: table.choice("swing", swings),
        hand: table.choice("hand", &[("left", Hand::Left), ("right", Hand::Right)]),
        drip: if is_door { table.quantity("drip", Kind::Length) } else { None },
        sash: if is_window { table.quantity("sash", Kind::Length) } else { None },
    }
}

fn splay(mut table: Table<'_, '_>) -> Splay {
    let read = Splay {
        left: table.quantity("left", Kind::Slope),
        right: table.quantity("right", Kind::Slope),
        from: table.quantity("from", Kind::Length),
    };
    table.finish();
    read
}

fn frame(mut table: Table<'_, '_>) -> FittedFrame {
    let read = FittedFrame {
        width: table.needed("width", Kind::Length),
        depth: table.needed("depth", Kind::Length),
        set_back: table.quantity("set-back", Kind::Length),
        braces: table.count("braces"),
        anchors: table.count("anchors"),
        of: table.text("of"),
    };
    table.finish();
    read
}

fn sill_board(mut table: Table<'_, '_>) -> SillBoard {
    let read = SillBoard {
        thickness: table.needed("thickness", Kind::Length),
        projects: table.quantity("projects", Kind::Length),
        of: table.text("of"),
    };
    table.finish();
    read
}

fn lintel(mut table: Table<'_, '_>) -> Lintel {
    let read = Lintel {
        height: table.needed("height", Kind::Length),
        bearing: table.quantity("bearing", Kind::Length),
        of: table.text("of"),
    };
    table.finish();
    read
}
