//! Rows of a soil by all its tests together: bands of sand, silt and clay, its texture, and what the build file says beside them.

use crate::build::SEPARATES;
use crate::earth::soil;
use crate::earth::tables::number;
use crate::house::{House, Ingredient};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::Ratio;

pub(super) fn walk(house: &House, rows: &mut Rows) {
    let ingredients = house.earth.iter().flat_map(|earth| &earth.ingredients);
    for ingredient in ingredients {
        Tested { house, ingredient }.walk(rows);
    }
}

/// The row of what the tests of an ingredient say.
pub(super) fn path_of(ingredient: &str, noun: &str) -> String {
    format!("tests.soils.{ingredient}.{noun}")
}

/// An ingredient with its tests.
struct Tested<'a> {
    house: &'a House,
    ingredient: &'a Ingredient,
}

/// A share by one test: what the test is called, its row, the share.
type Said = (String, String, Ratio);

impl Tested<'_> {
    fn path(&self, noun: &str) -> String {
        path_of(&self.ingredient.name, noun)
    }

    fn title(&self, words: &str) -> String {
        format!("{words} {}", self.ingredient.name.replace('-', " "))
    }

    fn walk(&self, rows: &mut Rows) {
        self.jars(rows);
        self.bands(rows);
        self.texture(rows);
        self.clay(rows);
    }

    /// A share by each jar that is read.
    fn by_jars(&self, noun: &str, rows: &Rows) -> Vec<Said> {
        let jars = self.house.jars.iter().filter(|jar| jar.of == self.ingredient.name);
        let found = jars.map(|jar| (format!("jar {}", jar.name), jar.path(noun)));
        found.filter_map(|(name, path)| rows.value(&path).map(|share| (name, path, share))).collect()
    }

    /// A share by each grading, or by each jar where there is none: a grading weighs what a jar shows by volume.
    fn by_tests(&self, noun: &str, rows: &Rows) -> Vec<Said> {
        let gradings = self.house.gradings.iter().filter(|grading| grading.of == self.ingredient.name);
        let found = gradings.map(|grading| (format!("grading {}", grading.name), grading.path(noun)));
        let found: Vec<Said> =
            found.filter_map(|(name, path)| rows.value(&path).map(|share| (name, path, share))).collect();
        if found.is_empty() { self.by_jars(noun, rows) } else { found }
    }

    /// What says the clay: gradings, or jars.
    fn sayers(&self, rows: &Rows) -> &'static str {
        let says = self.by_tests("clay-low", rows);
        if says.iter().any(|(name, ..)| name.starts_with("grading")) { "gradings" } else { "jars" }
    }

    /// How many jars there are and how far they lie apart.
    fn jars(&self, rows: &mut Rows) {
        let by_jar = self.by_jars("clay-middle", rows);
        if by_jar.is_empty() {
            return;
        }
        let count = by_jar.len();
        let jars = soil::jars_read(count).of_parts(by_jar);
        let words =
            "jars that are read (a jar shows volumes and alone never sets a mix: make a bar and a brick too) of";
        let jars = rows.add(self.path("jars"), self.title(words), jars);
        let more = soil::jars_to_shake(jars, number("jars-wanted")).from("jars", self.path("jars")).without("wanted");
        let words = "jars still to shake (one alone cannot say how far it may be off) of";
        rows.add(self.path("jars-to-shake"), self.title(words), more);
        for separate in SEPARATES.into_iter().filter(|_| count > 1) {
            let middles = self.by_jars(&format!("{separate}-middle"), rows);
            let Some([least, most]) = ends(&middles, &middles) else { continue };
            let spread = soil::spread_of_tests(most.2, least.2)
                .from("greatest", most.1.as_str())
                .from("least", least.1.as_str());
            let title = self.title(&format!("how far its jars lie apart in {separate}, of"));
            rows.add(self.path(&format!("{separate}-spread")), title, spread);
        }
    }

    /// The bands of sand, silt and clay that hold those of all tests.
    fn bands(&self, rows: &mut Rows) {
        for separate in SEPARATES {
            let [low, high] = ["low", "high"].map(|side| self.by_tests(&format!("{separate}-{side}"), rows));
            let Some([least, most]) = ends(&low, &high) else { continue };
            let by = self.sayers(rows);
            let found = [
                ("low", "least", soil::least_of_tests(least.2), least),
                ("high", "greatest", soil::greatest_of_tests(most.2), most),
            ];
            for (noun, word, answer, (_, path, _)) in found {
                let title = self.title(&format!("{word} {separate} by dry mass, by its {by}, in"));
                rows.add(self.path(&format!("{separate}-{noun}")), title, answer.from("of the test", path.as_str()));
            }
        }
    }

    /// The classes of texture in which the band lies, named in the title.
    fn texture(&self, rows: &mut Rows) {
        let mut bands = [[0.0; 2]; 3];
        let mut parts: Vec<Said> = Vec::new();
        for (separate, band) in SEPARATES.iter().zip(&mut bands) {
            for (side, end) in ["low", "high"].iter().zip(band) {
                let path = self.path(&format!("{separate}-{side}"));
                let Some(share) = rows.value::<Ratio>(&path) else { return };
                *end = share.in_percent();
                parts.push((format!("{separate} {side}"), path, share));
            }
        }
        let classes = soil::classes_between(bands);
        let answer = soil::classes_of_band(classes.len()).of_parts(parts);
        let words = format!("classes of texture ({}) that its {} allow, for", classes.join(", "), self.sayers(rows));
        rows.add(self.path("classes"), self.title(&words), answer);
    }

    /// The clay that its tests say, and what is written over it.
    fn clay(&self, rows: &mut Rows) {
        let [low, high] = ["clay-low", "clay-high"].map(|noun| self.path(noun));
        let [Some(least), Some(most)] = [&low, &high].map(|path| rows.value::<Ratio>(path)) else { return };
        let by = self.sayers(rows);
        let bound = |answer: Answer<Ratio>| answer.from("low", low.as_str()).from("high", high.as_str());
        let title = self.title(&format!("clay by dry mass, middle of what its {by} allow, in"));
        let tested = rows.add(self.path("clay"), title, bound(soil::middle_of_band(least, most)));
        let title = self.title(&format!("how far the clay may be off, by its {by}, in"));
        rows.add(self.path("clay-error"), title, bound(soil::half_of_band(least, most)));
        let Some(written) = &self.ingredient.clay else { return };
        let over = soil::over_tested(written.value, tested)
            .from("written", written.path.as_str())
            .from("tested", self.path("clay"));
        let words = format!("clay as written, with which everything is computed, over what its {by} say, in");
        rows.add(self.path("clay-over-tested"), self.title(&words), over);
    }
}

/// The least of some shares and the greatest of others.
fn ends<'a>(low: &'a [Said], high: &'a [Said]) -> Option<[&'a Said; 2]> {
    let order = |one: &&Said, other: &&Said| one.2.in_fraction().total_cmp(&other.2.in_fraction());
    Some([low.iter().min_by(order)?, high.iter().max_by(order)?])
}
