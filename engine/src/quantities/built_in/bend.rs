//! Which runs and corners bend what is built into the wall, bound to their rows.

use super::super::line::{bind_piece, path};
pub(super) use super::super::uneven::bind_once as once;
use super::super::uneven::{bind_local, is_even, is_of_one_row};
use crate::curve::{Cut, Shape, Side};
use crate::house::House;
use crate::known::Known;
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Length, Quantity, Slope};

/// What bends a thing: the pieces of the line that it touches, and the rows that say where it is on them.
pub(super) struct Bend<'a> {
    house: &'a House,
    pieces: Vec<usize>,
    /// From where to where along the line it lies, in metres.
    stretch: [f64; 2],
    place: Vec<&'a str>,
}

impl<'a> Bend<'a> {
    /// What bends a cut where it meets the faces given, of one or more bodies.
    pub(super) fn of_cut(
        house: &'a House,
        shapes: &[&Shape<'_>],
        cut: &Cut,
        sides: &[Side],
        place: Vec<&'a str>,
    ) -> Bend<'a> {
        let (bottom, top) = (cut.form.bottom(), cut.form.top());
        let mut pieces = vec![cut.station.piece];
        for shape in shapes {
            for level in (0..=8).map(|step| bottom + (top - bottom) * f64::from(step) / 8.0) {
                for stretch in sides.iter().filter_map(|side| cut.stretch(shape, *side, level)) {
                    pieces.extend(touched(shape, stretch));
                }
            }
        }
        Bend::new(house, pieces, cut.reach(&house.wall.shape()), place)
    }

    /// What bends a stretch of the line.
    pub(super) fn of_stretch(house: &'a House, shape: &Shape<'_>, stretch: [f64; 2], place: Vec<&'a str>) -> Bend<'a> {
        Bend::new(house, touched(shape, stretch), stretch, place)
    }

    fn new(house: &'a House, mut pieces: Vec<usize>, stretch: [f64; 2], place: Vec<&'a str>) -> Bend<'a> {
        pieces.sort_unstable();
        pieces.dedup();
        Bend { house, pieces, stretch, place }
    }

    /// Whether the wall is straight there.
    pub(super) fn is_straight(&self) -> bool {
        matches!(self.pieces[..], [piece] if self.house.wall.line.pieces()[piece].curvature() == 0.0)
    }

    /// A face that is straight, but moves away from the line as the wall grows thicker, is a little larger for it, wherever on
    /// the run it is taken.
    pub(super) fn bind_face<T>(&self, answer: Answer<T>, rows: &Rows) -> Answer<T> {
        let may_be_aslant = self.is_straight() && !is_of_one_row(self.house, self.stretch);
        if may_be_aslant { bind_local(answer, self.house, self.stretch, rows) } else { answer }
    }

    /// In one straight run the place of a thing does not change what it takes; in one arc its radius does; across a joint
    /// its place and both runs do.
    pub(super) fn bind<T>(&self, mut answer: Answer<T>, rows: &Rows) -> Answer<T> {
        let (line, points) = (&self.house.wall.line, &self.house.wall.points);
        if !self.house.wall.thicknesses.is_even() {
            answer = bind_local(answer, self.house, self.stretch, rows);
        }
        let is_even = is_even(self.house, self.stretch);
        let is_of_curve = |piece: usize| !line.is_corner(piece) && points[line.owner(piece)].curve.is_some();
        if let [piece] = self.pieces[..]
            && is_even
            && !is_of_curve(piece)
        {
            let noun = if line.is_corner(piece) { "round" } else { "radius" };
            return once(answer, rows, &path(&points[line.owner(piece)], noun));
        }
        for place in &self.place {
            answer = once(answer, rows, place);
        }
        self.pieces.iter().fold(answer, |answer, &piece| bind_piece(answer, self.house, piece, rows))
    }
}

/// Pieces of the line, by number, along a stretch of it.
fn touched(shape: &Shape<'_>, stretch: [f64; 2]) -> Vec<usize> {
    let mut pieces = Vec::new();
    shape.over_pieces(stretch, |piece, _, _| {
        pieces.push(piece);
        0.0
    });
    pieces
}

/// Adds known values as inputs.
pub(super) fn with<T, K: Copy + Into<Quantity>>(answer: Answer<T>, name: &'static str, known: &Known<K>) -> Answer<T> {
    answer.with(name, known.value, known.path.as_str())
}

/// The batter of a face.
pub(super) fn batter(house: &House, side: Side) -> &Known<Slope> {
    match side {
        Side::Inner => &house.wall.batter_inside,
        Side::Outer => &house.wall.batter_outside,
    }
}

/// Adds the thickness of the wall as an input.
pub(super) fn with_thickness<T>(answer: Answer<T>, house: &House) -> Answer<T> {
    with(answer, "thickness of the wall", &house.wall.thickness)
}

/// Adds a level as an input where a face leans: on an upright one it does not matter.
pub(super) fn with_level<T>(
    answer: Answer<T>,
    house: &House,
    side: Side,
    name: &'static str,
    level: &Known<Length>,
) -> Answer<T> {
    if batter(house, side).value == Slope::ZERO { answer } else { with(answer, name, level) }
}
