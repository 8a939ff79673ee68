//! What a soil is called by its sand, silt and clay.

use crate::earth::tables::{Side, TextureClass, texture_classes};

/// Shares of a soil without its stones, in percent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fractions {
    /// From 0.05 to 2 mm.
    pub sand: f64,
    /// From 0.002 to 0.05 mm.
    pub silt: f64,
    /// Finer.
    pub clay: f64,
}

/// The class of a soil; none for shares that no class of the table has.
#[must_use]
pub fn texture_class(soil: Fractions) -> Option<&'static TextureClass> {
    // Percents that were added and taken off again keep their class at its edge.
    let near = 1e-9;
    texture_classes().iter().find(|class| {
        class.bounds.iter().all(|bound| {
            let [sand, silt, clay] = bound.factors;
            let past = sand * soil.sand + silt * soil.silt + clay * soil.clay - bound.limit;
            match bound.side {
                Side::Below => past < -near,
                Side::AtMost => past <= near,
                Side::Above => past > near,
                Side::AtLeast => past >= -near,
            }
        })
    })
}

/// Every class that a soil may be of when its clay and its sand are known to within so much, in percent, the most likely
/// first.
#[must_use]
pub fn classes_within(soil: Fractions, clay_error: f64, sand_error: f64) -> Vec<&'static str> {
    const STEPS: i32 = 10;
    let mut found: Vec<(&'static str, usize)> = Vec::new();
    for (i, j) in (-STEPS..=STEPS).flat_map(|i| (-STEPS..=STEPS).map(move |j| (i, j))) {
        let share = |step: i32| f64::from(step) / f64::from(STEPS);
        let (clay, sand) = (soil.clay + share(i) * clay_error, soil.sand + share(j) * sand_error);
        let silt = 100.0 - clay - sand;
        if clay < 0.0 || sand < 0.0 || silt < 0.0 {
            continue;
        }
        let Some(class) = texture_class(Fractions { sand, silt, clay }) else { continue };
        match found.iter_mut().find(|(name, _)| *name == class.name) {
            Some((_, count)) => *count += 1,
            None => found.push((&class.name, 1)),
        }
    }
    found.sort_by_key(|&(_, count)| std::cmp::Reverse(count));
    found.into_iter().map(|(name, _)| name).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_whole_percent_of_the_triangle_has_a_class_and_all_twelve_are_there() {
        let mut names = Vec::new();
        for (clay, silt) in (0..=100).flat_map(|clay| (0..=100 - clay).map(move |silt| (clay, silt))) {
            let (clay, silt) = (f64::from(clay), f64::from(silt));
            let soil = Fractions { sand: 100.0 - clay - silt, silt, clay };
            names.push(texture_class(soil).unwrap_or_else(|| panic!("{soil:?}")).name.clone());
        }
        names.sort();
        names.dedup();
        assert_eq!(names.len(), 12, "{names:?}");
    }

    #[test]
    fn a_soil_well_inside_keeps_its_class_and_one_near_an_edge_may_be_of_several() {
        let soil = |sand: f64, clay: f64| Fractions { sand, silt: 100.0 - sand - clay, clay };
        assert_eq!(classes_within(soil(40.0, 18.0), 2.0, 2.0), ["loam"]);
        let edge = classes_within(soil(44.0, 27.0), 3.0, 3.0);
        assert!(edge.len() >= 3 && edge.contains(&"clay loam") && edge.contains(&"loam"), "{edge:?}");
    }
}
