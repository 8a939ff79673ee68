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
    let about = |share: f64, error: f64| [share - error, share + error];
    let silt = about(100.0 - soil.sand - soil.clay, clay_error + sand_error);
    classes_between([about(soil.sand, sand_error), silt, about(soil.clay, clay_error)])
}

/// Every class that a soil may be of when the least and the greatest of its sand, silt and clay are known, in percent, the
/// most likely first: each band is walked with each other, and the third share is what they leave.
#[must_use]
pub fn classes_between(bands: [[f64; 2]; 3]) -> Vec<&'static str> {
    const STEPS: u32 = 20;
    let near = 1e-9;
    let mut found: Vec<(&'static str, usize)> = Vec::new();
    let walks = [[0, 2, 1], [1, 2, 0], [0, 1, 2]];
    for ([one, other, left], i, j) in
        walks.into_iter().flat_map(|walk| (0..=STEPS).flat_map(move |i| (0..=STEPS).map(move |j| (walk, i, j))))
    {
        let along = |band: usize, step: u32| {
            bands[band][0] + (bands[band][1] - bands[band][0]) * f64::from(step) / f64::from(STEPS)
        };
        let mut shares = [0.0; 3];
        shares[one] = along(one, i);
        shares[other] = along(other, j);
        shares[left] = 100.0 - shares[one] - shares[other];
        if shares[left] < bands[left][0] - near || shares[left] > bands[left][1] + near {
            continue;
        }
        let [sand, silt, clay] = shares;
        if shares.iter().any(|share| *share < -near) {
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

    #[test]
    fn bands_without_silt_or_wide_ones_leave_no_class_out() {
        assert_eq!(classes_between([[91.0, 96.0], [0.0, 0.0], [4.0, 9.0]]), ["sand"]);
        let bands = [[20.0, 70.0], [10.0, 60.0], [5.0, 50.0]];
        let found = classes_between(bands);
        for (clay, silt) in (5..=50).flat_map(|clay| (10..=60).map(move |silt| (f64::from(clay), f64::from(silt)))) {
            let sand = 100.0 - clay - silt;
            if (20.0..=70.0).contains(&sand) {
                let class = texture_class(Fractions { sand, silt, clay }).unwrap();
                assert!(found.contains(&class.name.as_str()), "{} is left out", class.name);
            }
        }
    }
}
