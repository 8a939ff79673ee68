//! The site with nothing missing: boundary, fall, topsoil, trees, wells, lines, and what stands in the yard.

mod fits;
mod ground;
mod place;
mod plan;

pub use fits::fits;
pub(super) use ground::soil_from;
pub use ground::{SUBSOIL, Strip, TOPSOIL};
pub(super) use place::place;
pub use plan::{SiteKind, SitePlan, SiteThing, site_plan};

use kurbo::Point;

use super::House;
use crate::build::{LineKind, YardKind};
use crate::curve::Nearest;
use crate::known::Known;
use crate::units::{Angle, Area, Length, Slope};
use crate::yard;

/// A point in plan, x and y.
pub type PlanPoint = [Known<Length>; 2];

/// The site.
#[derive(Clone, Debug)]
pub struct Site {
    /// Corners of the boundary, in order; none when it is not written.
    pub boundary: Vec<PlanPoint>,
    /// How steep the ground is, and in which direction it falls, anticlockwise from the x axis.
    pub fall: Option<(Known<Slope>, Known<Angle>)>,
    /// The topsoil.
    pub strip: Strip,
    /// Where the drain comes to daylight, when it is written.
    pub outlet: Option<PlanPoint>,
    /// Trees.
    pub trees: Vec<Tree>,
    /// Wells: name and place.
    pub wells: Vec<(String, PlanPoint)>,
    /// Overhead lines.
    pub lines: Vec<Line>,
    /// Buried services: name and two ends.
    pub buried: Vec<(String, [PlanPoint; 2])>,
    /// What stands in the yard.
    pub yard: Vec<Yard>,
}

/// A tree.
#[derive(Clone, Debug)]
pub struct Tree {
    /// Its name.
    pub name: String,
    /// Where its trunk stands.
    pub at: PlanPoint,
    /// Diameter of its crown.
    pub crown: Known<Length>,
}

/// An overhead line.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its name.
    pub name: String,
    /// What it carries.
    pub kind: LineKind,
    /// Its ends.
    pub ends: [PlanPoint; 2],
    /// Height above the ground where it hangs lowest.
    pub height: Known<Length>,
}

/// Something in the yard. What its kind does not have is none.
#[derive(Clone, Debug)]
pub struct Yard {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: YardKind,
    /// Its middle; a way has none.
    pub at: Option<PlanPoint>,
    /// What is piled or stacked.
    pub of: Option<String>,
    /// How many.
    pub count: Option<Known<u64>>,
    /// Side of one.
    pub side: Option<Known<Length>>,
    /// Room to walk round each tarp.
    pub walk_round: Option<Known<Length>>,
    /// Width of a way, or of a stack.
    pub width: Option<Known<Length>>,
    /// Points that a way leads through.
    pub through: Vec<PlanPoint>,
}

impl Yard {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("site.yard.{}.{noun}", self.name)
    }
}

impl Site {
    /// Whether anything is written of what a site plan shows beside the house.
    #[must_use]
    pub fn is_written(&self) -> bool {
        !(self.boundary.is_empty()
            && self.fall.is_none()
            && self.outlet.is_none()
            && self.trees.is_empty()
            && self.wells.is_empty()
            && self.lines.is_empty()
            && self.buried.is_empty()
            && self.yard.is_empty())
    }

    /// The corners of the boundary in metres.
    #[must_use]
    pub fn corners(&self) -> Vec<Point> {
        self.boundary.iter().map(point).collect()
    }

    /// Everything of the yard that piles the same thing.
    #[must_use]
    pub fn piles_of(&self, good: &str) -> usize {
        self.yard.iter().filter(|thing| thing.of.as_deref() == Some(good)).count()
    }

    /// The side of the boundary that leaves a corner, by place, in metres.
    #[must_use]
    pub fn side(&self, corner: usize) -> [Point; 2] {
        [corner, (corner + 1) % self.boundary.len()].map(|place| point(&self.boundary[place]))
    }
}

/// A point in metres.
#[must_use]
pub fn point([x, y]: &PlanPoint) -> Point {
    Point::new(x.value.in_m(), y.value.in_m())
}

impl House {
    /// Where the outer face of the cob at its foot comes nearest to a straight side: how far, and the place on the wall's line.
    /// To a point when both ends are the same.
    #[must_use]
    pub fn nearest_to(&self, side: [Point; 2]) -> Option<(Length, Nearest)> {
        let found = self.wall.line.nearest_to(side)?;
        let along = self.wall.line.start(found.piece) + self.wall.line.pieces()[found.piece].nearest(found.on);
        let thickness = Length::m(self.wall.thicknesses.at(along));
        Some((yard::from_face(thickness, Length::m(found.apart)).value, found))
    }

    /// Width of what stands in the stripped ground: that of the stem wall or of its trench, whichever is wider.
    #[must_use]
    pub fn footing_width(&self) -> &Known<Length> {
        let trench = self.trench.as_ref().map(|trench| &trench.width);
        trench.filter(|width| width.value > self.wall.stem_width.value).unwrap_or(&self.wall.stem_width)
    }

    /// Whether topsoil is stripped from the ground at a distance from the wall's outer face at its foot.
    #[must_use]
    pub fn is_stripped(&self, from_face: Length) -> bool {
        let strip = &self.site.strip;
        let reach = 0.5 * self.footing_width().value + strip.margin.value;
        strip.topsoil.value > Length::ZERO && 0.5 * self.wall.thickness.value + from_face < reach
    }

    /// Where the drain comes to daylight in plan: as written, else straight out from the wall.
    #[must_use]
    pub fn drain_way(&self) -> Option<[Point; 2]> {
        let (trench, drain) = (self.trench.as_ref()?, self.drain.as_ref()?);
        let out = -trench.outlet.axis.turn_90();
        let from = trench.outlet.point + out * (0.5 * trench.width.value.in_m());
        let straight = from + out * drain.length.value.in_m();
        Some([from, self.site.outlet.as_ref().map_or(straight, point)])
    }
}

/// Side of a square of an area.
fn square(area: Area) -> f64 {
    area.in_m2().max(0.0).sqrt()
}
