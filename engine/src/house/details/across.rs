//! The wall cut square to its line at one place: x across it with the outside on the left, y up.

use kurbo::{Point, Vec2};

use crate::curve::Side;
use crate::house::layers::{Layer, Of};
use crate::house::part::{Material, Meaning, Outline, Part, Place};
use crate::house::{House, Wall};

/// Half the width and half the height of the bend in a break line, in metres.
const BEND: [f64; 2] = [0.03, 0.025];

/// Where what is drawn ends, in metres of level.
#[derive(Clone, Copy)]
pub(super) enum Edge {
    /// Where it ends in truth.
    Whole(f64),
    /// At a break line: it goes on.
    Broken(f64),
}

impl Edge {
    pub(super) fn level(self) -> f64 {
        match self {
            Edge::Whole(level) | Edge::Broken(level) => level,
        }
    }
}

/// The house cut at a distance along the wall's line, in metres.
pub(super) struct Across<'a> {
    pub(super) house: &'a House,
    pub(super) along: f64,
}

impl Across<'_> {
    /// x of a face of the cob at a level.
    pub(super) fn face(&self, side: Side, level: f64) -> f64 {
        -self.house.wall.shape().offset(side, self.along, level)
    }

    /// Half the width of the stem wall here.
    pub(super) fn half_stem(&self) -> f64 {
        0.5 * self.house.wall.stem_widths.at(self.along)
    }

    /// The cob between two ends.
    pub(super) fn cob(&self, low: Edge, high: Edge) -> Outline {
        let row = |edge: Edge| {
            let level = edge.level();
            let [left, right] = [Side::Outer, Side::Inner].map(|side| Point::new(self.face(side, level), level));
            match edge {
                Edge::Whole(_) => vec![left, right],
                Edge::Broken(_) => broken(left, right),
            }
        };
        let points = row(low).into_iter().chain(row(high).into_iter().rev());
        Outline::area(points.collect(), Meaning::Cut)
    }

    /// The coats of a face between levels, together, and a place on each for its name.
    pub(super) fn coats(&self, side: Side, bands: &[[f64; 2]]) -> Option<(Part, Vec<Place>)> {
        let (coats, lean, way, key, name) = match side {
            Side::Outer => (&self.house.skin.outside, self.lean()[1], -1.0, "skin.outside", "plaster outside"),
            Side::Inner => (&self.house.skin.inside, self.lean()[0], 1.0, "skin.inside", "plaster inside"),
        };
        let aside = |thickness: f64| way * thickness * (1.0 + lean * lean).sqrt();
        let whole: f64 = coats.iter().map(|coat| coat.thickness.value.in_m()).sum();
        let named = bands.last().copied().filter(|_| !coats.is_empty())?;
        let outline = |&[low, high]: &[f64; 2]| {
            let at = |level: f64, out: f64| Point::new(self.face(side, level) + out, level);
            let out = aside(whole);
            Outline::area(vec![at(low, 0.0), at(low, out), at(high, out), at(high, 0.0)], Meaning::Cut)
        };
        let mut under = 0.0;
        let places = coats.iter().enumerate().map(|(index, coat)| {
            let thickness = coat.thickness.value.in_m();
            let middle = under + 0.5 * thickness;
            under += thickness;
            let share = (index + 1) as f64 / (coats.len() + 1) as f64;
            let level = named[0] + share * (named[1] - named[0]);
            Place::new(&coat.thickness.path, &coat.name, Point::new(self.face(side, level) + aside(middle), level))
        });
        let places = places.collect();
        Some((Part::new(key, name, Material::Plaster, bands.iter().map(outline).collect()), places))
    }

    fn lean(&self) -> [f64; 2] {
        let Wall { batter_inside, batter_outside, .. } = &self.house.wall;
        [batter_inside.value.in_ratio(), batter_outside.value.in_ratio()]
    }

    /// The ground outside from a place to the stem wall.
    pub(super) fn ground(&self, from: f64) -> Part {
        let level = self.house.ground.value.in_m();
        let ends = [from, -self.half_stem()].map(|x| Point::new(x, level));
        let line = Outline::line(ends.to_vec(), Meaning::Cut);
        Part::new("ground.outside", "ground outside", Material::Ground, vec![line])
    }

    /// The layers of the floor from the ground up, from the stem wall to a place, and a place on each for its name.
    pub(super) fn floor(&self, to: f64) -> (Vec<Part>, Vec<Place>) {
        let house = self.house;
        if !house.wall.line.is_closed() {
            return (Vec::new(), Vec::new());
        }
        let (from, top) = (self.half_stem(), house.floor_level.value.in_m());
        if house.floor.is_empty() {
            let line = Outline::line([from, to].map(|x| Point::new(x, top)).to_vec(), Meaning::Cut);
            return (vec![Part::new("ground.floor", "finished floor", Material::Floor, vec![line])], Vec::new());
        }
        let mut bottom = self.under_floor();
        let earth = Outline::line([from, to].map(|x| Point::new(x, bottom)).to_vec(), Meaning::Cut);
        let mut parts = vec![Part::new("floor.layers", "ground under the floor", Material::Ground, vec![earth])];
        let mut places = Vec::new();
        for layer in &house.floor {
            let level = bottom + layer.thickness.value.in_m();
            let body = rectangle([from, to], [bottom, level], Meaning::Cut);
            parts.push(Part::new(&layer.stem, &layer.name, material(layer), vec![body]));
            let middle = Point::new(from.midpoint(to), bottom.midpoint(level));
            places.push(Place::new(&layer.thickness.path, &layer.name, middle));
            bottom = level;
        }
        (parts, places)
    }

    /// Level of the ground under the layers of the floor.
    pub(super) fn under_floor(&self) -> f64 {
        let layers = self.house.floor.iter().map(|layer| layer.thickness.value.in_m());
        self.house.floor_level.value.in_m() - layers.sum::<f64>()
    }
}

/// What a layer of the floor is drawn as: boards and sheets are bought by the size that they have in place.
fn material(layer: &Layer) -> Material {
    match &layer.of {
        Of::Recipe(_) => Material::Earth,
        Of::Good(_, loose) if loose.value <= 1.0 => Material::Insulation,
        Of::Good(..) => Material::Gravel,
    }
}

/// A level line from point to point with a bend in its middle.
fn broken(from: Point, to: Point) -> Vec<Point> {
    let middle = from.midpoint(to);
    let bend = [(-1.0, 0.0), (-0.3, 1.0), (0.3, -1.0), (1.0, 0.0)];
    let bend = bend.map(|(x, y)| middle + Vec2::new(x * BEND[0], y * BEND[1]));
    [from].into_iter().chain(bend).chain([to]).collect()
}

/// An upright rectangle.
pub(super) fn rectangle([left, right]: [f64; 2], [bottom, top]: [f64; 2], meaning: Meaning) -> Outline {
    let points = [(left, bottom), (right, bottom), (right, top), (left, top)].map(|(x, y)| Point::new(x, y));
    Outline::area(points.to_vec(), meaning)
}
