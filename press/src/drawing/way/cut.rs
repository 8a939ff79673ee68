//! What the way round the house shows of its cross-section, in metres: x along the section, y up from the foot of the cob.

use engine::answers::Answers;
use engine::house::part::{Meaning, Outline};
use engine::pictures::RoofCut;
use engine::units::Length;
use kurbo::{Point, Rect};

use super::roof;

/// The parts of a cross-section by what they are.
pub(super) struct Cut {
    /// Level of the ground outside.
    pub(super) ground: f64,
    /// Level of the floor; none under the open sky.
    pub(super) floor: Option<f64>,
    /// Thicknesses of the floor's layers, from below.
    pub(super) floor_layers: Vec<f64>,
    pub(super) topsoil: f64,
    pub(super) stems: Vec<Rect>,
    pub(super) trenches: Vec<Rect>,
    /// The cob, each piece with the number of the wall that it belongs to, from the left.
    pub(super) cob: Vec<(usize, Vec<Point>)>,
    /// Beds between lifts.
    pub(super) beds: Vec<[Point; 2]>,
    /// The far wall of the room, and the jambs of openings that are cut.
    pub(super) seen: Vec<Vec<Point>>,
    /// Openings in the far wall.
    pub(super) openings: Vec<Vec<Point>>,
    /// Size of the timber on the wall.
    pub(super) beam: Option<[f64; 2]>,
    /// Thickness of the coats inside and outside, where the build has them.
    pub(super) coats: [f64; 2],
    pub(super) roof: Option<RoofCut>,
}

impl Cut {
    /// The cross-section of answers.
    pub(super) fn of(answers: &Answers) -> Cut {
        let metres = |path: &str| answers.rows.value::<Length>(path).map(Length::in_m);
        let sum = |pattern: &str| -> f64 {
            let rows = answers.rows.matching(pattern);
            rows.filter_map(|row| Length::try_from(row.quantity).ok()).map(Length::in_m).sum()
        };
        let outlines = |path: &str| -> Vec<Outline> {
            let parts = answers.section.parts.iter().filter(|part| part.path == path);
            parts.flat_map(|part| part.outlines.iter().cloned()).collect()
        };
        let boxes =
            |path: &str| -> Vec<Rect> { outlines(path).iter().map(|outline| bounds(&outline.points)).collect() };
        let shapes = |path: &str| outlines(path).into_iter().map(|outline| outline.points).collect();
        let stems = boxes("wall.stem");
        let mut cob: Vec<(usize, Vec<Point>)> = outlines("wall")
            .into_iter()
            .filter(|outline| outline.meaning == Meaning::Cut)
            .map(|outline| (wall(&stems, &outline.points), outline.points))
            .collect();
        cob.sort_by_key(|(wall, _)| *wall);
        let beds = answers.section.parts.iter().filter(|part| part.path.starts_with("wall.lifts."));
        let beds = beds
            .flat_map(|part| &part.outlines)
            .filter_map(|outline| Some([*outline.points.first()?, *outline.points.last()?]));
        let openings = answers.section.parts.iter().filter(|part| part.path.starts_with("openings."));
        let floor = outlines("ground.floor").first().and_then(|line| line.points.first()).map(|point| point.y);
        let floor_layers = answers.rows.matching("floor.layers.*.thickness");
        let beam =
            metres("wall.bond-beam.width").zip(metres("wall.bond-beam.height")).map(|(width, height)| [width, height]);
        Cut {
            ground: metres("ground.outside").unwrap_or(0.0),
            floor,
            floor_layers: floor_layers.filter_map(|row| Some(Length::try_from(row.quantity).ok()?.in_m())).collect(),
            topsoil: metres("site.topsoil").unwrap_or(0.0),
            trenches: boxes("water.trench"),
            beds: beds.collect(),
            seen: shapes("wall.inner-area"),
            openings: openings.flat_map(|part| &part.outlines).map(|outline| outline.points.clone()).collect(),
            beam,
            coats: [sum("skin.inside.*.thickness"), sum("skin.outside.*.thickness")],
            stems,
            cob,
            roof: answers.roof_cut.clone(),
        }
    }

    /// Without what lies wholly to the left of a place, so that less has to be drawn of a strip; stems keep their places.
    pub(super) fn from(mut self, left: f64) -> Cut {
        self.trenches.retain(|trench| trench.x1 > left);
        self.cob.retain(|(_, points)| bounds(points).x1 > left);
        self.beds.retain(|bed| bed[1].x > left);
        self.openings.retain(|points| bounds(points).x0 > left);
        self.roof = self.roof.map(|roof| roof::right_of(roof, left));
        self
    }

    /// Everything that is drawn of the house.
    pub(super) fn extent(&self) -> Rect {
        let corners = |rect: &Rect| [Point::new(rect.x0, rect.y0), Point::new(rect.x1, rect.y1)];
        let mut points: Vec<Point> = self.stems.iter().chain(&self.trenches).flat_map(corners).collect();
        points.extend(self.cob.iter().flat_map(|(_, points)| points));
        points.extend(self.roof.iter().flat_map(roof::points));
        points.push(Point::new(points.first().map_or(0.0, |point| point.x), self.ground - 0.3));
        bounds(&points)
    }

    /// The widest space between two walls that stand side by side, from face to face of their stems.
    pub(super) fn room(&self) -> Option<[f64; 2]> {
        let gaps = self.stems.windows(2).map(|pair| [pair[0].x1, pair[1].x0]);
        gaps.max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])))
    }

    /// How high a wall stands where it is cut.
    pub(super) fn top(&self) -> f64 {
        self.cob.iter().flat_map(|(_, points)| points).map(|point| point.y).fold(0.0, f64::max)
    }
}

/// The number of the stem under an outline.
fn wall(stems: &[Rect], points: &[Point]) -> usize {
    let middle = bounds(points).center().x;
    let near = |(_, a): &(usize, &Rect), (_, b): &(usize, &Rect)| {
        (a.center().x - middle).abs().total_cmp(&(b.center().x - middle).abs())
    };
    stems.iter().enumerate().min_by(near).map_or(0, |(place, _)| place)
}

/// The upright box round points.
pub(super) fn bounds(points: &[Point]) -> Rect {
    let none = Rect::new(f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    points.iter().fold(none, |all, point| {
        Rect::new(all.x0.min(point.x), all.y0.min(point.y), all.x1.max(point.x), all.y1.max(point.y))
    })
}
