//! The tables of earth: facts, water, hydrometer, texture classes, shapes of samples, each with its work and how we have it.

use std::sync::LazyLock;

use crate::facts::{Fact, facts, lines};
use crate::sources::Citation;
use crate::units::{Density, Length, Temperature};

/// Water at one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Water {
    /// Its temperature.
    pub temperature: Temperature,
    /// Its viscosity, pascal seconds.
    pub viscosity: f64,
    /// Its density.
    pub density: Density,
    /// What is added to a hydrometer's reading; nothing in the table of plain water.
    pub correction: f64,
    /// Where it comes from.
    pub citation: Citation,
}

/// A class of texture, or a part of one: every bound must hold.
#[derive(Clone, Debug, PartialEq)]
pub struct TextureClass {
    /// Its name.
    pub name: String,
    /// Its bounds.
    pub bounds: Vec<Bound>,
    /// Where it comes from.
    pub citation: Citation,
}

/// A bound of a class: a sum of sand, silt and clay, in percent, against a limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Bound {
    /// Factors of sand, silt and clay.
    pub factors: [f64; 3],
    /// How the sum stands to the limit.
    pub side: Side,
    /// The limit, in percent.
    pub limit: f64,
}

/// How a sum stands to its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Below.
    Below,
    /// Not above.
    AtMost,
    /// Above.
    Above,
    /// Not below.
    AtLeast,
}

/// The strength of a sample against that of a slender one, at one height over its least width.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Height over least width.
    pub slenderness: f64,
    /// Slender strength over measured strength.
    pub factor: f64,
    /// Where it comes from.
    pub citation: Citation,
}

/// The index of a spray or drip test from so much washed out.
#[derive(Clone, Debug, PartialEq)]
pub struct ErosionStep {
    /// "spray" or "drip".
    pub test: String,
    /// From so much, in the unit that the line names.
    pub from: f64,
    /// Its index.
    pub index: f64,
    /// Where it comes from.
    pub citation: Citation,
}

/// The classes of texture that a ribbon of a length allows.
#[derive(Clone, Debug, PartialEq)]
pub struct Ribbon {
    /// From this length.
    pub from: Length,
    /// The classes.
    pub classes: Vec<String>,
    /// Where it comes from.
    pub citation: Citation,
}

static FACTS: LazyLock<Result<Vec<Fact>, String>> =
    LazyLock::new(|| facts("facts.csv", include_str!("../../../data/earth/facts.csv")));
static WATER: LazyLock<Result<Vec<Water>, String>> =
    LazyLock::new(|| plain_water("water.csv", include_str!("../../../data/earth/water.csv")));
static HYDROMETER: LazyLock<Result<Vec<Water>, String>> =
    LazyLock::new(|| standard_water("hydrometer-water.csv", include_str!("../../../data/earth/hydrometer-water.csv")));
static TEXTURE: LazyLock<Result<Vec<TextureClass>, String>> =
    LazyLock::new(|| classes("texture.csv", include_str!("../../../data/earth/texture.csv")));
static SHAPES: LazyLock<Result<Vec<Shape>, String>> =
    LazyLock::new(|| shapes("shapes.csv", include_str!("../../../data/earth/shapes.csv")));

static EROSION: LazyLock<Result<Vec<ErosionStep>, String>> =
    LazyLock::new(|| steps("erosion.csv", include_str!("../../../data/earth/erosion.csv")));

static RIBBONS: LazyLock<Result<Vec<Ribbon>, String>> =
    LazyLock::new(|| ribbons("ribbon.csv", include_str!("../../../data/earth/ribbon.csv")));

/// A fact of the table by its name; none where the table has no such name.
#[must_use]
pub fn fact(name: &str) -> Option<&'static Fact> {
    FACTS.as_deref().unwrap_or_default().iter().find(|fact| fact.name == name)
}

/// The number of a fact; not a number where the table has no such name, so that nothing is claimed.
#[must_use]
pub fn number(name: &str) -> f64 {
    fact(name).map_or(f64::NAN, |fact| fact.number)
}

/// The classes of texture in their order.
#[must_use]
pub fn texture_classes() -> &'static [TextureClass] {
    TEXTURE.as_deref().unwrap_or_default()
}

/// Water at a temperature; none outside of the table.
#[must_use]
pub fn water(temperature: Temperature) -> Option<Water> {
    between(WATER.as_deref().unwrap_or_default(), temperature)
}

/// Water as the hydrometer's standard takes it, with the correction of the reading; none outside of the table.
#[must_use]
pub fn hydrometer_water(temperature: Temperature) -> Option<Water> {
    between(HYDROMETER.as_deref().unwrap_or_default(), temperature)
}

/// Factors of shape, the squattest first.
#[must_use]
pub fn sample_shapes() -> &'static [Shape] {
    SHAPES.as_deref().unwrap_or_default()
}

/// Steps of the spray and drip tests, the mildest first of each.
#[must_use]
pub fn erosion_steps() -> &'static [ErosionStep] {
    EROSION.as_deref().unwrap_or_default()
}

/// What a ribbon of a length allows; none for what is no length.
#[must_use]
pub fn ribbon(length: Length) -> Option<&'static Ribbon> {
    RIBBONS.as_deref().unwrap_or_default().iter().rfind(|ribbon| ribbon.from <= length)
}

/// Between two lines of the table: viscosity by its logarithm, the rest evenly.
fn between(table: &[Water], temperature: Temperature) -> Option<Water> {
    let at = temperature.in_celsius();
    let pair = table.windows(2).find(|pair| {
        let [low, high] = [&pair[0], &pair[1]].map(|water| water.temperature.in_celsius());
        low - 1e-9 <= at && at <= high + 1e-9
    })?;
    let [low, high] = [&pair[0], &pair[1]];
    let share = (temperature - low.temperature) / (high.temperature - low.temperature);
    let even = |low: f64, high: f64| low + share * (high - low);
    Some(Water {
        temperature,
        viscosity: even(low.viscosity.ln(), high.viscosity.ln()).exp(),
        density: Density::kg_m3(even(low.density.in_kg_m3(), high.density.in_kg_m3())),
        correction: even(low.correction, high.correction),
        citation: low.citation.clone(),
    })
}

fn plain_water(table: &str, text: &str) -> Result<Vec<Water>, String> {
    lines(table, text, |line| {
        Ok(Water {
            temperature: Temperature::celsius(line.number("celsius")?),
            viscosity: line.number("viscosity_pa_s")?,
            density: Density::kg_m3(line.number("density_kg_m3")?),
            correction: 0.0,
            citation: line.citation()?,
        })
    })
}

fn standard_water(table: &str, text: &str) -> Result<Vec<Water>, String> {
    lines(table, text, |line| {
        Ok(Water {
            temperature: Temperature::celsius(line.number("celsius")?),
            viscosity: line.number("viscosity_poise")? * 0.1,
            density: Density::kg_m3(line.number("density_g_cm3")? * 1000.0),
            correction: line.number("correction")?,
            citation: line.citation()?,
        })
    })
}

fn shapes(table: &str, text: &str) -> Result<Vec<Shape>, String> {
    lines(table, text, |line| {
        Ok(Shape {
            slenderness: line.number("slenderness")?,
            factor: line.number("factor")?,
            citation: line.citation()?,
        })
    })
}

fn steps(table: &str, text: &str) -> Result<Vec<ErosionStep>, String> {
    lines(table, text, |line| {
        let (from, index) = (line.number("from")?, line.number("index")?);
        Ok(ErosionStep { test: line.text("test")?, from, index, citation: line.citation()? })
    })
}

fn ribbons(table: &str, text: &str) -> Result<Vec<Ribbon>, String> {
    lines(table, text, |line| {
        Ok(Ribbon {
            from: Length::m(line.number("from_m")?),
            classes: line.text("classes")?.split(';').map(str::to_owned).collect(),
            citation: line.citation()?,
        })
    })
}

fn classes(table: &str, text: &str) -> Result<Vec<TextureClass>, String> {
    lines(table, text, |line| {
        let bounds = line.text("where")?;
        let bounds: Option<Vec<Bound>> = bounds.split('&').map(|bound| read_bound(bound.trim())).collect();
        let bounds = bounds.ok_or_else(|| line.fault("`where` is no sum of sa, si and c against a limit"))?;
        Ok(TextureClass { name: line.text("class")?, bounds, citation: line.citation()? })
    })
}

/// Reads a bound such as "si+1.5c<15".
fn read_bound(text: &str) -> Option<Bound> {
    let sides = [("<=", Side::AtMost), (">=", Side::AtLeast), ("<", Side::Below), (">", Side::Above)];
    let (sign, side) = sides.into_iter().find(|(sign, _)| text.contains(sign))?;
    let (sum, limit) = text.split_once(sign)?;
    let mut factors = [0.0; 3];
    for term in sum.split('+') {
        let (index, factor) = [("sa", 0), ("si", 1), ("c", 2)]
            .into_iter()
            .find_map(|(name, index)| term.strip_suffix(name).map(|factor| (index, factor)))?;
        factors[index] += if factor.is_empty() { 1.0 } else { factor.parse().ok()? };
    }
    Some(Bound { factors, side, limit: limit.parse().ok()? })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_table_reads_and_no_two_facts_share_a_name() {
        assert!(texture_classes().len() >= 12 && sample_shapes().len() > 3 && erosion_steps().len() > 3);
        assert!(water(Temperature::celsius(12.0)).is_some() && hydrometer_water(Temperature::celsius(15.5)).is_some());
        let mut names: Vec<&str> = FACTS.as_ref().unwrap().iter().map(|fact| fact.name.as_str()).collect();
        let count = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!((names.len(), count > 20), (count, true));
        assert!(number("no-such-fact").is_nan());
        let named = |class: &String| texture_classes().iter().any(|own| own.name == *class);
        assert!(RIBBONS.as_ref().unwrap().iter().all(|ribbon| ribbon.classes.iter().all(named)));
        assert_eq!(ribbon(Length::mm(40.0)).unwrap().classes[1], "clay loam");
    }

    #[test]
    fn a_table_with_a_slip_names_itself_and_the_line() {
        let told = classes("texture.csv", "class,where,work,place,how\nsand,si+2x<15,w,p,seen\n").unwrap_err();
        assert_eq!(told, "texture.csv, line 2: `where` is no sum of sa, si and c against a limit");
        let told = shapes("shapes.csv", "slenderness,factor,work,place,how\n1,wide,w,p,seen\n").unwrap_err();
        assert_eq!(told, "shapes.csv, line 2: `factor` is \"wide\", not a number");
    }

    #[test]
    fn water_outside_of_the_table_is_not_known_and_warmer_water_is_thinner() {
        assert_eq!(water(Temperature::celsius(4.0)), None);
        assert_eq!(hydrometer_water(Temperature::celsius(31.0)), None);
        let at = |celsius: f64| water(Temperature::celsius(celsius)).unwrap();
        assert!(at(12.0).viscosity > at(13.0).viscosity && at(12.0).density > at(13.0).density);
        // Source: IAPWS, from memory: 1.2005e-3 Pa s at 13 °C; the line between the logarithms keeps within half a per cent.
        assert!((at(13.0).viscosity / 1.2005e-3 - 1.0).abs() < 5e-3, "{}", at(13.0).viscosity);
    }
}
