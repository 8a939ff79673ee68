//! What every built-in thing is placed against: the wall, its openings, levels and recipes, and where faults go.

use std::ops::Range;

use super::super::earth::recipe_named;
use super::super::openings::{least_top, on_the_wall};
use super::super::place;
use super::{Levels, Spot};
use crate::build::{self, Face, Source, Written};
use crate::curve::{Cut, Depth, Form, Shape, Side, Station};
use crate::house::{Earth, Opening, Wall};
use crate::known::Known;
use crate::units::{Length, Quantity, System};

/// The wall as built-in things find it.
pub(super) struct Site<'a> {
    pub(super) source: &'a Source<'a>,
    pub(super) wall: &'a Wall,
    pub(super) shape: Shape<'a>,
    pub(super) stem: Shape<'a>,
    pub(super) openings: &'a [Opening],
    pub(super) levels: Levels<'a>,
    pub(super) earth: Option<&'a Earth>,
    pub(super) system: System,
}

/// The face that is written, or the usual one.
pub(super) fn side(written: Option<&Written<Face>>, usual: Side) -> Side {
    match written.map(|face| face.value) {
        Some(Face::Inside) => Side::Inner,
        Some(Face::Outside) => Side::Outer,
        None => usual,
    }
}

impl Site<'_> {
    /// Notes a fault where a key is written, or at the name of the thing.
    pub(super) fn refuse<T>(
        &self,
        at: Option<&Written<T>>,
        name: &Written<String>,
        message: impl Into<String>,
        hint: impl Into<String>,
    ) {
        let (span, path) = at.map_or((&name.span, &name.path), |at| (&at.span, &at.path));
        self.source.fault(span.clone(), path, message, hint);
    }

    pub(super) fn within<T: Copy + PartialOrd + Into<Quantity>>(
        &self,
        written: Option<&Written<T>>,
        range: Range<T>,
        what: &str,
    ) -> Option<Known<T>> {
        place::within(self.source, written, range, what, self.system)
    }

    /// A size, from 5 mm to 12 m.
    pub(super) fn size(&self, written: Option<&Written<Length>>, what: &str) -> Option<Known<Length>> {
        self.within(written, Length::mm(5.0)..Length::m(12.0), what)
    }

    pub(super) fn shown(&self, length: Length) -> String {
        place::shown(length, self.system)
    }

    /// The same, from metres.
    pub(super) fn shown_m(&self, metres: f64) -> String {
        self.shown(Length::m(metres))
    }

    pub(super) fn spot(&self, written: &build::Spot) -> Option<Spot> {
        let (run, station) =
            on_the_wall(self.source, written.run.as_ref(), written.along.as_ref(), self.wall, self.system)?;
        Some(Spot { run, along: place::known(written.along.as_ref())?, station })
    }

    /// The recipe that is written, else the wall's; none within when the build has no recipe for its wall.
    pub(super) fn recipe(&self, written: Option<&Written<String>>) -> Option<Option<String>> {
        match written {
            Some(written) => recipe_named(self.source, written, self.earth).map(Some),
            None => Some(self.wall.cob.clone()),
        }
    }

    /// Whether a thing lies between the foot of the cob and the top of the wall; the keys of its bottom and top are told.
    pub(super) fn is_in_the_cob(
        &self,
        cut: &Cut,
        [bottom, top]: [Option<&Written<Length>>; 2],
        name: &Written<String>,
    ) -> bool {
        let [low, high] = [cut.form.bottom(), cut.form.top()];
        let height = least_top(self.wall, cut).in_m();
        if low < 0.0 {
            let message = format!("its bottom would be {} below the foot of the cob", self.shown_m(-low));
            self.refuse(bottom, name, message, "raise it: only cob above the stem wall can be cut");
        }
        if high >= height {
            let message =
                format!("its top would be at {}, the wall's top is at {}", self.shown_m(high), self.shown_m(height));
            self.refuse(top, name, message, "put it lower, or make the wall higher");
        }
        low >= 0.0 && high < height
    }

    /// A cut into a face, so deep behind the face at its middle.
    pub(super) fn cut_into(&self, station: Station, side: Side, form: Form, depth: Length) -> Cut {
        let middle = 0.5 * (form.bottom() + form.top());
        let face = self.shape.offset(side, self.shape.line.along_line(station), middle);
        let bottom = match side {
            Side::Inner => face + depth.in_m(),
            Side::Outer => face - depth.in_m(),
        };
        Cut { station, form, depth: Depth::Into { side, bottom } }
    }
}
