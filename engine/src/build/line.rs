//! The points of the wall line, and how the run that leaves each goes to the next.

use std::ops::Range;

use super::reader::Table;
use super::source::Written;
use crate::units::{Kind, Length};

/// One entry of `[[wall.line]]`
#[derive(Clone, Debug)]
pub struct Point {
    /// Its name.
    pub name: Written<String>,
    /// Where it is: x and y.
    pub at: Option<Written<[Written<Length>; 2]>>,
    /// The arc to the next point, when it asks for one.
    pub arc: Option<Arc>,
    /// The cubic curve to the next point, when it asks for one.
    pub curve: Option<Curve>,
    /// Radius of the rounded corner.
    pub round: Option<Written<Length>>,
    /// Thickness of the wall here, where it changes along the line.
    pub thickness: Option<Written<Length>>,
    /// Height of the wall here, where it changes along the line.
    pub height: Option<Written<Length>>,
}

/// `arc` of a point
#[derive(Clone, Debug)]
pub struct Arc {
    /// Where it is written.
    pub span: Range<usize>,
    /// A point that the run to the next point passes through, on a circle.
    pub through: Option<Written<[Written<Length>; 2]>>,
}

/// `curve` of a point; tangents point in the direction of travel.
#[derive(Clone, Debug)]
pub struct Curve {
    /// Where it is written.
    pub span: Range<usize>,
    /// Tangent at this point: the curve's second control point less this one.
    pub leave: Option<Written<[Written<Length>; 2]>>,
    /// Tangent at the next point: that point less the curve's third control point.
    pub arrive: Option<Written<[Written<Length>; 2]>>,
}

pub(super) fn point(name: Written<String>, mut table: Table<'_, '_>) -> Point {
    let at = table.point("at");
    let round = table.quantity("round", Kind::Length);
    let arc = table.table("arc").map(|mut arc| {
        let read = Arc { span: arc.span.clone(), through: arc.point("through") };
        arc.finish();
        read
    });
    let curve = table.table("curve").map(|mut curve| {
        let read = Curve { span: curve.span.clone(), leave: curve.point("leave"), arrive: curve.point("arrive") };
        curve.finish();
        read
    });
    let (thickness, height) = (table.quantity("thickness", Kind::Length), table.quantity("height", Kind::Length));
    table.finish();
    Point { name, at, arc, curve, round, thickness, height }
}
