//! Doors and windows, placed, with what is fitted into them.

use super::Wall;
use crate::build::{Hand, OpeningForm, OpeningKind, Swing};
use crate::curve::{Cut, Form, Side, Station};
use crate::known::Known;
use crate::units::{Length, Slope};

/// A door or a window.
#[derive(Clone, Debug)]
pub struct Opening {
    /// Its name.
    pub name: String,
    /// Door or window.
    pub kind: OpeningKind,
    /// Its form.
    pub form: OpeningForm,
    /// The run it is in, by place in the list of points.
    pub run: usize,
    /// Distance of its middle along that run.
    pub along: Known<Length>,
    /// Width, at its greatest, outside of a splay.
    pub width: Known<Length>,
    /// Height.
    pub height: Known<Length>,
    /// Level of the sill or the threshold.
    pub bottom: Known<Length>,
    /// Rise of its arch.
    pub rise: Option<Known<Length>>,
    /// How its jambs run apart towards the inside.
    pub splay: Option<Splay>,
    /// Its frame.
    pub frame: Option<FittedFrame>,
    /// The board on its sill.
    pub sill_board: Option<SillBoard>,
    /// Its lintel.
    pub lintel: Option<Lintel>,
    /// How it hangs.
    pub hanging: Hanging,
    /// Its middle on the line.
    pub station: Station,
    /// What it cuts out of the wall.
    pub cut: Cut,
}

/// How a door or a window hangs in its frame.
#[derive(Clone, Debug, Default)]
pub struct Hanging {
    /// Which way it opens, where that is written.
    pub swing: Option<Swing>,
    /// The side of its hinges seen from outside, where that is written.
    pub hand: Option<Hand>,
    /// How far a door's threshold stands out of the outer face.
    pub drip: Option<Known<Length>>,
    /// Width of the members of a window's sash; of a window in a frame alone.
    pub sash: Option<Known<Length>>,
    /// What a window's sash leaves for glass.
    pub glass: Option<Form>,
}

/// How the jambs run apart towards the inside, left and right as seen from outside.
#[derive(Clone, Debug)]
pub struct Splay {
    /// Of the left jamb.
    pub left: Known<Slope>,
    /// Of the right jamb.
    pub right: Known<Slope>,
    /// Behind the outer face at the opening's middle, half-way up, where it begins.
    pub from: Known<Length>,
}

/// A frame of timber in an opening.
#[derive(Clone, Debug)]
pub struct FittedFrame {
    /// Width of its members, seen from outside.
    pub width: Known<Length>,
    /// Depth of its members, through the wall.
    pub depth: Known<Length>,
    /// Behind the outer face at the opening's middle, half-way up.
    pub set_back: Known<Length>,
    /// Braces that keep it square while cob is laid round it.
    pub braces: Known<u64>,
    /// What ties each jamb to the cob.
    pub anchors: Known<u64>,
    /// What it leaves of the opening.
    pub inside: Form,
    /// What is bought for it.
    pub of: String,
}

/// A board on the sill of a window, from the frame, or the inner face, outwards.
#[derive(Clone, Debug)]
pub struct SillBoard {
    /// Its thickness.
    pub thickness: Known<Length>,
    /// How far it stands out of the outer face.
    pub projects: Known<Length>,
    /// What is bought for it.
    pub of: String,
}

/// A lintel over an opening, as deep as the wall is thick.
#[derive(Clone, Debug)]
pub struct Lintel {
    /// Its height.
    pub height: Known<Length>,
    /// How far it lies on the cob at either end.
    pub bearing: Known<Length>,
    /// What is bought for it.
    pub of: String,
    /// What it takes out of the cob.
    pub cut: Cut,
}

impl FittedFrame {
    /// What ties a frame to the cob, as it is bought.
    pub const ANCHOR: &'static str = "frame-anchor";
}

impl Opening {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("openings.{}.{noun}", self.name)
    }

    /// Level of its head or crown.
    #[must_use]
    pub fn head(&self) -> Length {
        self.bottom.value + self.height.value
    }

    /// From where to where the line lies within its width, splay left out, as [`Cut::stretch`].
    #[must_use]
    pub fn on_line(&self, wall: &Wall) -> Option<[f64; 2]> {
        Cut::straight(self.station, self.cut.form).on_line(&wall.line, self.cut.form.widest_above(0.0))
    }

    /// y of the inner and the outer face at its middle, half-way up its cob, in metres: what set-backs are measured from.
    #[must_use]
    pub fn faces(&self, wall: &Wall) -> [f64; 2] {
        let level = self.cut.form.bottom().max(0.0).midpoint(self.cut.form.top());
        let along = wall.line.along_line(self.station);
        [Side::Inner, Side::Outer].map(|side| wall.shape().offset(side, along, level))
    }

    /// What it and its lintel take out of the cob: what is added to the path and the title of each, and its cut.
    #[must_use]
    pub fn cuts(&self) -> Vec<(&'static str, &'static str, &Cut)> {
        let lintel = self.lintel.iter().map(|lintel| ("-lintel", "the lintel of ", &lintel.cut));
        [("", "", &self.cut)].into_iter().chain(lintel).collect()
    }

    /// What it takes out of the cob together with its lintel, as one cut.
    #[must_use]
    pub fn whole_cut(&self) -> Cut {
        let (Some(lintel), Form::Rectangle { half, bottom, top: head }) = (&self.lintel, self.cut.form) else {
            return self.cut;
        };
        let (wide, top) = (lintel.cut.form.half(), lintel.cut.form.top());
        Cut { form: Form::Shouldered { half, bottom, head, wide, top }, ..self.cut }
    }
}
