//! What a drawing needs of a placed part: its outlines in plan and in section, and the dimensions that a builder wants.

use kurbo::{Point, Vec2};

use crate::units::Length;

/// What a part is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Material {
    /// Cob.
    Cob,
    /// Stone, laid or as rubble.
    Stone,
    /// Gravel, or rubble in a drawing that tells it from laid stone.
    Gravel,
    /// Earth of the floor.
    Earth,
    /// Plaster.
    Plaster,
    /// Timber.
    Timber,
    /// Glass.
    Glass,
    /// What keeps warm.
    Insulation,
    /// A sheet that keeps water out, or a fabric that lets it through.
    Sheet,
    /// Soil with plants.
    Soil,
    /// The finished floor.
    Floor,
    /// The ground as it was found.
    Ground,
    /// Nothing: an opening.
    Opening,
}

/// What a line of a drawing means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// Cut through: heavy, filled.
    Cut,
    /// Seen beyond the cut: fine.
    Seen,
    /// Hidden, above or below: dashed.
    Hidden,
}

/// A line or an area, in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Its points.
    pub points: Vec<Point>,
    /// Whether the last point joins the first.
    pub closed: bool,
    /// What it means.
    pub meaning: Meaning,
}

impl Outline {
    /// An area round points in metres.
    #[must_use]
    pub fn area(points: Vec<Point>, meaning: Meaning) -> Outline {
        Outline { points, closed: true, meaning }
    }

    /// A line through points in metres.
    #[must_use]
    pub fn line(points: Vec<Point>, meaning: Meaning) -> Outline {
        Outline { points, closed: false, meaning }
    }
}

/// A placed part of the house.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its key.
    pub path: String,
    /// Its name.
    pub name: String,
    /// What it is made of.
    pub material: Material,
    /// Its outlines; closed outlines of one part that lie in each other leave holes.
    pub outlines: Vec<Outline>,
}

impl Part {
    /// The part of a key.
    #[must_use]
    pub fn new(path: &str, name: &str, material: Material, outlines: Vec<Outline>) -> Part {
        Part { path: path.into(), name: name.into(), material, outlines }
    }
}

/// How a dimension is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measured {
    /// Between two points, the dimension line moved away from them in a direction.
    Between {
        /// First point.
        from: Point,
        /// Second point.
        to: Point,
        /// Unit direction in which the dimension line moves clear of the part.
        away: Vec2,
    },
    /// A radius from a centre to a curve.
    Radius {
        /// Centre.
        centre: Point,
        /// Point on the curve.
        on: Point,
    },
}

/// A dimension: where it is taken, and the row that says how much it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// The row's path.
    pub path: String,
    /// Where it is taken.
    pub measured: Measured,
}

impl Dimension {
    /// What a row says of the distance between two points in metres, its line moved away from them in a unit direction.
    #[must_use]
    pub fn between(path: &str, [from, to]: [Point; 2], away: Vec2) -> Dimension {
        Dimension { path: path.into(), measured: Measured::Between { from, to, away } }
    }
}

/// A named place in the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// The key of what stands there.
    pub path: String,
    /// What it is called.
    pub name: String,
    /// Where.
    pub at: Point,
}

impl Place {
    /// A name at a point in metres.
    #[must_use]
    pub fn new(path: &str, name: &str, at: Point) -> Place {
        Place { path: path.into(), name: name.into(), at }
    }
}

/// The plan, cut through wall and windows.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Height of the cut above the foot of the cob.
    pub cut_at: Length,
    /// The parts.
    pub parts: Vec<Part>,
    /// Dimensions in the order of their worth: the first find room first.
    pub dimensions: Vec<Dimension>,
    /// Names of openings and of points of the line.
    pub places: Vec<Place>,
    /// Unit direction of north.
    pub north: Vec2,
    /// Where the cross-section is cut: two points, seen to the left of the way from the first to the second.
    pub section: [Point; 2],
}

/// A level on a section and the row that says how high it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// The row's path; the part's where the level is zero by definition.
    pub path: String,
    /// What lies at that level.
    pub name: String,
    /// The level, from the foot of the cob.
    pub at: Length,
}

impl Level {
    /// The level of what is named.
    #[must_use]
    pub fn new(path: &str, name: &str, at: Length) -> Level {
        Level { path: path.into(), name: name.into(), at }
    }

    /// Levels from low to high.
    #[must_use]
    pub fn in_order(mut levels: Vec<Level>) -> Vec<Level> {
        levels.sort_by(|a, b| a.at.in_m().total_cmp(&b.at.in_m()));
        levels
    }
}

/// A section or an elevation: x runs along it, y is up, from the foot of the cob.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The parts.
    pub parts: Vec<Part>,
    /// Levels, from low to high.
    pub levels: Vec<Level>,
    /// Dimensions.
    pub dimensions: Vec<Dimension>,
    /// Names of what is cut.
    pub places: Vec<Place>,
}
