//! Tested soils as pictures: where each jar and each grading lies in the texture triangle, with its band, and each grading as a curve.

use crate::build::SEPARATES;
use crate::earth::soil::{Shares, fuller, outline};
use crate::earth::tables::number;
use crate::house::{Found, Grading, House, Jar, Sieved};
use crate::row::Rows;
use crate::units::{Length, Ratio};

/// Places of a line of densest packing.
const PLACES: u32 = 48;

/// A test of a soil in the texture triangle.
#[derive(Clone, Debug)]
pub struct SoilPoint {
    /// What it is called.
    pub words: String,
    /// The rows of its least sand, silt and clay.
    pub paths: [String; 3],
    /// Whether grains were weighed, and not layers measured.
    pub is_grading: bool,
    /// Sand, silt and clay, in percent.
    pub middle: Shares,
    /// What its bands cover.
    pub outline: Vec<Shares>,
}

/// A grading as a curve.
#[derive(Clone, Debug)]
pub struct GradingPicture {
    /// Its name.
    pub name: String,
    /// The ingredient.
    pub of: String,
    /// Its places, the finest first.
    pub places: Vec<CurvePlace>,
    /// By size in millimetres, what passes where grains pack densest: round ones, and angular ones.
    pub densest: Vec<[f64; 3]>,
    /// The least and the greatest clay of the whole soil.
    pub clay: Option<[f64; 2]>,
    /// Jars of the same soil: name, and clay, silt with it, and sand with both, of the whole soil.
    pub jars: Vec<(String, [f64; 3])>,
}

/// A place of the curve.
#[derive(Clone, Debug)]
pub struct CurvePlace {
    /// Size in millimetres.
    pub mm: f64,
    /// Share that is finer.
    pub finer: f64,
    /// Its row.
    pub path: String,
    /// Whether a hydrometer was read.
    pub is_read: bool,
}

/// The jars and gradings that say sand, silt and clay.
pub(super) fn points(house: &House, rows: &Rows) -> Vec<SoilPoint> {
    let jars = house.jars.iter().filter_map(|jar| {
        let path = |noun: &str| jar.path(noun);
        point(format!("jar {}", jar.name), false, &path, "", rows)
    });
    let gradings = house.gradings.iter().filter_map(|grading| {
        let stem = if matches!(grading.found, Found::Shares(_)) { "shares." } else { "" };
        let path = |noun: &str| grading.path(noun);
        point(format!("grading {}", grading.name), true, &path, stem, rows)
    });
    jars.chain(gradings).collect()
}

fn point(
    words: String,
    is_grading: bool,
    path: &impl Fn(&str) -> String,
    stem: &str,
    rows: &Rows,
) -> Option<SoilPoint> {
    let share = |noun: String| rows.value::<Ratio>(&path(&noun)).map(Ratio::in_percent);
    let mut bands = [[0.0; 2]; 3];
    let mut middle = [0.0; 3];
    for ((separate, band), middle) in SEPARATES.iter().zip(&mut bands).zip(&mut middle) {
        *band = [share(format!("{separate}-low"))?, share(format!("{separate}-high"))?];
        let own = if is_grading { format!("{stem}{separate}") } else { format!("{separate}-middle") };
        *middle = share(own)?;
    }
    // Middles of three bands need not add up.
    let all: f64 = middle.iter().sum();
    let middle = middle.map(|share| 100.0 * share / all);
    let words = words.replace('-', " ");
    let paths = SEPARATES.map(|separate| path(&format!("{separate}-low")));
    Some(SoilPoint { words, paths, is_grading, middle, outline: outline(bands) })
}

/// The gradings that have a curve.
pub(super) fn gradings(house: &House, rows: &Rows) -> Vec<GradingPicture> {
    let curves = house.gradings.iter().filter_map(|grading| match &grading.found {
        Found::Sieves(sieved) => Some(curve(house, (grading, sieved), rows)),
        Found::Shares(_) => None,
    });
    curves.collect()
}

fn curve(house: &House, (grading, sieved): (&Grading, &Sieved), rows: &Rows) -> GradingPicture {
    let places: Vec<CurvePlace> = sieved
        .points(&grading.stem())
        .into_iter()
        .map(|point| CurvePlace {
            mm: point.size.0.in_mm(),
            finer: point.passing.0.in_fraction(),
            is_read: point.name.starts_with("reading "),
            path: point.passing.1,
        })
        .collect();
    let share = |noun: &str| rows.value::<Ratio>(&grading.path(noun)).map(Ratio::in_fraction);
    let all = share("finer.sand");
    let clay = all.zip(share("clay-low").zip(share("clay-high"))).map(|(all, (low, high))| [all * low, all * high]);
    let jars = house.jars.iter().filter(|jar| jar.of == grading.of);
    GradingPicture {
        name: grading.name.clone(),
        of: grading.of.clone(),
        densest: densest(places.first().map_or(0.001, |place| place.mm), sieved.largest.value),
        places,
        clay,
        jars: jars.filter_map(|jar| Some((jar.name.clone(), steps(jar, all?, rows)?))).collect(),
    }
}

fn densest(finest_mm: f64, largest: Length) -> Vec<[f64; 3]> {
    let powers = ["fuller-power", "fuller-power-angular"].map(number);
    let sizes = (0..=PLACES).map(|place| {
        let part = f64::from(place) / f64::from(PLACES);
        finest_mm * (largest.in_mm() / finest_mm).powf(part)
    });
    let passes = |mm: f64| powers.map(|power| fuller(Length::mm(mm), largest, power).value.in_fraction());
    sizes
        .map(|mm| {
            let [round, angular] = passes(mm);
            [mm, round, angular]
        })
        .collect()
}

/// What a jar says is finer than silt, than sand and than stones, of a soil of which so much is finer than stones.
fn steps(jar: &Jar, all: f64, rows: &Rows) -> Option<[f64; 3]> {
    let [sand, silt, clay] =
        SEPARATES.map(|separate| rows.value::<Ratio>(&jar.path(&format!("{separate}-middle"))).map(Ratio::in_fraction));
    let (sand, silt, clay) = (sand?, silt?, clay?);
    let sum = sand + silt + clay;
    Some([all * clay / sum, all * (clay + silt) / sum, all])
}
