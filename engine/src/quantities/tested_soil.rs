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

/// An ingredient with its tests.
struct Tested<'a> {
    house: &'a House,
    ingredient: &'a Ingredient,
}

impl Tested<'_> {
    fn path(&self, noun: &str) -> String {
        format!("tests.soils.{}.{noun}", self.ingredient.name)
    }

    fn title(&self, words: &str) -> String {
        format!("{words} {}", self.ingredient.name.replace('-', " "))
    }

    fn walk(&self, rows: &mut Rows) {
        self.jars(rows);
        self.texture(rows);
        self.clay(rows);
    }

    /// A share by each jar that is read: the name of the jar, its row and the share.
    fn by_jar(&self, noun: &str, rows: &Rows) -> Vec<(String, String, Ratio)> {
        let jars = self.house.jars.iter().filter(|jar| jar.of == self.ingredient.name);
        let found = jars.filter_map(|jar| {
            let path = jar.path(noun);
            let share = rows.value(&path)?;
            Some((format!("jar {}", jar.name), path, share))
        });
        found.collect()
    }

    /// The bands of all jars together, how many there are and how far they lie apart.
    fn jars(&self, rows: &mut Rows) {
        let by_jar = self.by_jar("clay-middle", rows);
        if by_jar.is_empty() {
            return;
        }
        let jars = soil::jars_read(by_jar.len()).of_parts(by_jar.clone());
        let words =
            "jars that are read (a jar shows volumes and alone never sets a mix: make a bar and a brick too) of";
        let jars = rows.add(self.path("jars"), self.title(words), jars);
        let more = soil::jars_to_shake(jars, number("jars-wanted")).from("jars", self.path("jars"));
        let more = more.without("wanted");
        let words = "jars still to shake (one alone cannot say how far it may be off) of";
        rows.add(self.path("jars-to-shake"), self.title(words), more);
        for separate in SEPARATES {
            let low = self.by_jar(&format!("{separate}-low"), rows);
            let high = self.by_jar(&format!("{separate}-high"), rows);
            let least = low.iter().min_by(|one, other| one.2.in_fraction().total_cmp(&other.2.in_fraction()));
            let most = high.iter().max_by(|one, other| one.2.in_fraction().total_cmp(&other.2.in_fraction()));
            let (Some(least), Some(most)) = (least, most) else { continue };
            let ends = [
                ("low", "least", soil::least_of_jars(least.2), least),
                ("high", "greatest", soil::greatest_of_jars(most.2), most),
            ];
            for (noun, word, answer, (_, path, _)) in ends {
                let title = self.title(&format!("{word} {separate} by dry mass, by its jars, in"));
                rows.add(self.path(&format!("{separate}-{noun}")), title, answer.from("of the jar", path.as_str()));
            }
        }
        for separate in SEPARATES.into_iter().filter(|_| by_jar.len() > 1) {
            let middle = self.by_jar(&format!("{separate}-middle"), rows);
            let order = |one: &&(String, String, Ratio), other: &&(String, String, Ratio)| {
                one.2.in_fraction().total_cmp(&other.2.in_fraction())
            };
            let (Some(least), Some(most)) = (middle.iter().min_by(order), middle.iter().max_by(order)) else {
                continue;
            };
            let spread =
                soil::spread_of_jars(most.2, least.2).from("greatest", most.1.as_str()).from("least", least.1.as_str());
            let title = self.title(&format!("how far its jars lie apart in {separate}, of"));
            rows.add(self.path(&format!("{separate}-spread")), title, spread);
        }
    }

    /// The classes of texture in which the band lies, named in the title.
    fn texture(&self, rows: &mut Rows) {
        let ends = SEPARATES.map(|separate| {
            ["low", "high"].map(|side| {
                let path = self.path(&format!("{separate}-{side}"));
                (format!("{separate} {side}"), rows.value::<Ratio>(&path), path)
            })
        });
        if ends.iter().flatten().any(|(_, share, _)| share.is_none()) {
            return;
        }
        let bands = ends.each_ref().map(|pair| pair.each_ref().map(|end| end.1.map_or(0.0, Ratio::in_percent)));
        let classes = soil::classes_between(bands);
        let bound = |answer: Answer<u64>| {
            let parts =
                ends.iter().flatten().filter_map(|(name, share, path)| Some((name.clone(), path.clone(), (*share)?)));
            answer.of_parts(parts.collect::<Vec<(String, String, Ratio)>>())
        };
        let words = format!("classes of texture ({}) that its jars allow, for", classes.join(", "));
        rows.add(self.path("classes"), self.title(&words), bound(soil::classes_of_band(classes.len())));
    }

    /// The clay that its tests say, and what is written over it.
    fn clay(&self, rows: &mut Rows) {
        let [low, high] = ["clay-low", "clay-high"].map(|noun| self.path(noun));
        let [Some(least), Some(most)] = [&low, &high].map(|path| rows.value::<Ratio>(path)) else { return };
        let middle = soil::middle_of_band(least, most).from("low", low.as_str()).from("high", high.as_str());
        let tested =
            rows.add(self.path("clay"), self.title("clay by dry mass, middle of what its jars allow, in"), middle);
        let error = soil::half_of_band(least, most).from("low", low).from("high", high);
        rows.add(self.path("clay-error"), self.title("how far the clay may be off, by its jars, in"), error);
        let Some(written) = &self.ingredient.clay else { return };
        let over = soil::over_tested(written.value, tested)
            .from("written", written.path.as_str())
            .from("tested", self.path("clay"));
        let words = "clay as written, with which everything is computed, over what the tests say, in";
        rows.add(self.path("clay-over-tested"), self.title(words), over);
    }
}
