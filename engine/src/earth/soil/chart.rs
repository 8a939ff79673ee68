//! The texture triangle: where two of its classes meet, which clay each has, and what a band of shares covers of it. All of it follows from
//! the bounds of the table.

use std::sync::LazyLock;

use super::texture::{Fractions, texture_class};
use crate::earth::tables::{Side, TextureClass, texture_classes};

/// Sand, silt and clay, in percent.
pub type Shares = [f64; 3];

/// The whole triangle.
const WHOLE: [Shares; 3] = [[100.0, 0.0, 0.0], [0.0, 100.0, 0.0], [0.0, 0.0, 100.0]];
/// How near two places are to be one, in percent.
const NEAR: f64 = 1e-6;
/// How far beside a line it is asked which class lies there, in percent.
const BESIDE: f64 = 0.01;

/// What lies within the bounds of one line of the table.
struct Region {
    class: &'static TextureClass,
    corners: Vec<Shares>,
}

/// A line between two classes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Boundary {
    /// Both classes.
    pub between: [&'static str; 2],
    /// Its ends.
    pub ends: [Shares; 2],
}

/// Where a class is named in the triangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClassPlace {
    /// Its name.
    pub name: &'static str,
    /// The middle of its largest part.
    pub middle: Shares,
}

static REGIONS: LazyLock<Vec<Region>> = LazyLock::new(|| {
    let within = texture_classes().iter().map(|class| {
        let corners = class.bounds.iter().fold(WHOLE.to_vec(), |corners, bound| {
            let is_above = matches!(bound.side, Side::Above | Side::AtLeast);
            cut(&corners, bound.factors, bound.limit, is_above)
        });
        Region { class, corners }
    });
    within.filter(|region| region.corners.len() > 2).collect()
});

static BOUNDARIES: LazyLock<Vec<Boundary>> = LazyLock::new(between_regions);

/// The lines between the classes.
#[must_use]
pub fn boundaries() -> &'static [Boundary] {
    &BOUNDARIES
}

/// Where each class is named.
#[must_use]
pub fn class_places() -> Vec<ClassPlace> {
    let mut places: Vec<(ClassPlace, f64)> = Vec::new();
    for Region { class, corners } in REGIONS.iter() {
        let (middle, area) = middle(corners);
        let own = ClassPlace { name: &class.name, middle };
        match places.iter_mut().find(|(place, _)| place.name == class.name) {
            Some((place, largest)) if area > *largest => (*place, *largest) = (own, area),
            Some(_) => {}
            None => places.push((own, area)),
        }
    }
    places.into_iter().map(|(place, _)| place).collect()
}

/// The least and the greatest clay of some classes together, in percent; none where the table has none of them.
#[must_use]
pub fn clay_of_classes(names: &[String]) -> Option<[f64; 2]> {
    let own = REGIONS.iter().filter(|region| names.contains(&region.class.name));
    let clay = own.flat_map(|region| region.corners.iter().map(|[.., clay]| *clay));
    let [low, high] = [f64::min, f64::max].map(|side| clay.clone().reduce(side));
    Some([low?, high?])
}

/// What bands of sand, silt and clay, in percent, leave of the triangle, corner by corner; nothing where they leave none.
#[must_use]
pub fn outline(bands: [[f64; 2]; 3]) -> Vec<Shares> {
    let mut corners = WHOLE.to_vec();
    for (place, [low, high]) in bands.into_iter().enumerate() {
        let mut factors = [0.0; 3];
        factors[place] = 1.0;
        corners = cut(&corners, factors, low, true);
        corners = cut(&corners, factors, high, false);
    }
    corners
}

fn sum(factors: [f64; 3], at: &Shares) -> f64 {
    factors.iter().zip(at).map(|(factor, share)| factor * share).sum()
}

fn along(from: &Shares, to: &Shares, share: f64) -> Shares {
    [0, 1, 2].map(|place| from[place] + share * (to[place] - from[place]))
}

/// What of a polygon lies on one side of a line.
fn cut(corners: &[Shares], factors: [f64; 3], limit: f64, is_above: bool) -> Vec<Shares> {
    let past = |at: &Shares| if is_above { sum(factors, at) - limit } else { limit - sum(factors, at) };
    let mut left: Vec<Shares> = Vec::new();
    for (place, from) in corners.iter().enumerate() {
        let to = &corners[(place + 1) % corners.len()];
        let [own, next] = [past(from), past(to)];
        if own >= 0.0 {
            left.push(*from);
        }
        if (own > 0.0 && next < 0.0) || (own < 0.0 && next > 0.0) {
            left.push(along(from, to, own / (own - next)));
        }
    }
    left.dedup_by(|one, other| is_same(one, other));
    if left.len() > 1 && is_same(&left[0], &left[left.len() - 1]) {
        left.pop();
    }
    left
}

fn is_same(one: &Shares, other: &Shares) -> bool {
    one.iter().zip(other).all(|(one, other)| (one - other).abs() < NEAR)
}

/// The middle of a polygon and its area, of that of the whole triangle.
fn middle(corners: &[Shares]) -> (Shares, f64) {
    let (mut middle, mut all) = ([0.0; 3], 0.0);
    for pair in corners.windows(2).skip(1) {
        let [a, b, c] = [corners[0], pair[0], pair[1]];
        let area = 0.5 * ((b[0] - a[0]) * (c[2] - a[2]) - (c[0] - a[0]) * (b[2] - a[2])).abs();
        all += area;
        middle = [0, 1, 2].map(|place| middle[place] + area * (a[place] + b[place] + c[place]) / 3.0);
    }
    (middle.map(|share| share / all), all)
}

/// How far along a line a place lies; none where it does not lie on it.
fn place_on(from: &Shares, to: &Shares, at: &Shares) -> Option<f64> {
    let [way, own] = [to, at].map(|end| [0, 1, 2].map(|place| end[place] - from[place]));
    let share = sum(way, &own) / sum(way, &way);
    ((0.0..=1.0).contains(&share) && is_same(&along(from, to, share), at)).then_some(share)
}

/// Each side of a region, cut where a corner of another lies on it, is a boundary where another class lies beyond it; the class that
/// stands first in the table has it.
fn between_regions() -> Vec<Boundary> {
    let place_of = |name: &str| texture_classes().iter().position(|class| class.name == name);
    let mut found = Vec::new();
    for Region { class, corners } in REGIONS.iter() {
        let (inside, _) = middle(corners);
        for (place, from) in corners.iter().enumerate() {
            let to = &corners[(place + 1) % corners.len()];
            let mut cuts: Vec<f64> =
                REGIONS.iter().flat_map(|other| &other.corners).filter_map(|at| place_on(from, to, at)).collect();
            cuts.sort_by(f64::total_cmp);
            cuts.dedup_by(|one, other| (*one - *other).abs() < NEAR);
            for pair in cuts.windows(2) {
                let at = along(from, to, 0.5 * (pair[0] + pair[1]));
                let way = sum(at, &at).sqrt().max(1.0);
                let [sand, silt, clay] = along(&inside, &at, 1.0 + BESIDE / way);
                if sand.min(silt).min(clay) < 0.0 {
                    continue;
                }
                let Some(beyond) = texture_class(Fractions { sand, silt, clay }) else { continue };
                if place_of(&class.name) < place_of(&beyond.name) {
                    let ends = [pair[0], pair[1]].map(|share| along(from, to, share));
                    found.push(Boundary { between: [&class.name, &beyond.name], ends });
                }
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn class(at: Shares) -> Option<&'static str> {
        let [sand, silt, clay] = at;
        texture_class(Fractions { sand, silt, clay }).map(|class| class.name.as_str())
    }

    #[test]
    fn classes_change_across_a_boundary_and_nowhere_else() {
        let crossed = |from: Shares, to: Shares| {
            let turn = |a: Shares, b: Shares, c: Shares| (b[0] - a[0]) * (c[2] - a[2]) - (c[0] - a[0]) * (b[2] - a[2]);
            boundaries().iter().any(|Boundary { ends: [a, b], .. }| {
                turn(*a, *b, from) * turn(*a, *b, to) <= 0.0 && turn(from, to, *a) * turn(from, to, *b) <= 0.0
            })
        };
        // Off the net of whole percents, where no bound of the table lies on a place.
        let at = |clay: u32, silt: u32| {
            let (clay, silt) = (f64::from(clay) + 0.31, f64::from(silt) + 0.17);
            [100.0 - clay - silt, silt, clay]
        };
        let mut changes = 0;
        for (clay, silt) in (0..97).flat_map(|clay| (0..97 - clay).map(move |silt| (clay, silt))) {
            for (from, to) in [(at(clay, silt), at(clay + 1, silt)), (at(clay, silt), at(clay, silt + 1))] {
                let is_other = class(from) != class(to);
                changes += usize::from(is_other);
                assert!(!is_other || crossed(from, to), "{from:?} to {to:?} is not crossed by a boundary");
            }
        }
        assert!(changes > 100, "{changes}");
        for Boundary { between, ends: [a, b] } in boundaries() {
            assert_ne!(between[0], between[1]);
            assert!((sum([1.0; 3], a) - 100.0).abs() < NEAR && (sum([1.0; 3], b) - 100.0).abs() < NEAR);
        }
    }

    #[test]
    fn every_class_is_named_within_itself_and_all_of_them_fill_the_triangle() {
        let places = class_places();
        assert_eq!(places.len(), 12);
        for ClassPlace { name, middle } in places {
            assert_eq!(class(middle), Some(name));
        }
        let all: f64 = REGIONS.iter().map(|region| middle(&region.corners).1).sum();
        assert!((all / middle(&WHOLE).1 - 1.0).abs() < 1e-9, "{all}");
    }

    #[test]
    fn a_band_covers_what_lies_within_all_three_of_its_shares() {
        let corners = outline([[30.0, 50.0], [20.0, 40.0], [25.0, 35.0]]);
        assert_eq!(corners.len(), 6);
        assert!(corners.iter().all(|[sand, silt, clay]| {
            (29.99..50.01).contains(sand) && (19.99..40.01).contains(silt) && (24.99..35.01).contains(clay)
        }));
        assert!(outline([[60.0, 70.0], [50.0, 60.0], [0.0, 10.0]]).is_empty());
        let names = ["clay loam", "silty clay loam", "sandy clay loam"].map(str::to_owned);
        let [low, high] = clay_of_classes(&names).unwrap();
        assert!((low - 20.0).abs() < 1e-9 && (high - 40.0).abs() < 1e-9);
    }
}
