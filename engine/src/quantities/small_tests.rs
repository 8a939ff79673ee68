//! Rows of small tests of piles: moisture, how sand bulks, what a bucket of it weighs, how it feels; and what is written beside them.

use super::tested_soil::path_of;
use crate::earth::tables::{self, number};
use crate::earth::{moisture, soil, strength};
use crate::house::{Earth, Feel, House, Ingredient, Pair};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Quantity, Ratio};

/// Rows of the bulking and the moisture of a pile, as they are written or as its tests say.
pub(super) fn pile(earth: &Earth, ingredient: &Ingredient, rows: &mut Rows) {
    let name = &ingredient.name;
    let Pile { bulking, moisture } = Pile::tested(earth, ingredient, rows);
    let [is_bulking_tested, is_moisture_tested] = ingredient.is_tested;
    if let Some(written) = &ingredient.bulking {
        let words = format!("bulking of damp {name}, loose over settled volume");
        if is_bulking_tested {
            rows.add(written.path.as_str(), words, soil::mean_bulking(written.value).of_parts(standing(bulking)));
        } else {
            rows.known(words, written);
            for test in bulking {
                let over = soil::bulking_over_tested(written.value, test.found.2);
                test.beside("bulking as written over what a jar says, in", over, &written.path, name, rows);
            }
        }
    }
    let written = &ingredient.moisture;
    let words = format!("moisture of the pile of {name}, of dry mass");
    if is_moisture_tested {
        rows.add(written.path.as_str(), words, soil::mean_moisture(written.value).of_parts(standing(moisture)));
    } else {
        rows.known(words, written);
        for test in moisture {
            let over = soil::over_tested(written.value, test.found.2);
            test.beside("moisture as written over what was weighed, in", over, &written.path, name, rows);
        }
    }
}

/// What tests say of a pile.
struct Pile<'a> {
    bulking: Vec<Test<'a, f64>>,
    moisture: Vec<Test<'a, Ratio>>,
}

/// What one test says: its words, its row and its value.
struct Test<'a, V> {
    stem: &'a str,
    stands: bool,
    found: (String, String, V),
}

/// What stands of all tests: what those of the newest day say.
fn standing<V>(tests: Vec<Test<'_, V>>) -> Vec<(String, String, V)> {
    tests.into_iter().filter(|test| test.stands).map(|test| test.found).collect()
}

impl<V> Test<'_, V> {
    /// A row of what is written beside what the test says.
    fn beside<T: Copy + Into<Quantity>>(
        &self,
        words: &str,
        over: Answer<T>,
        written: &str,
        ingredient: &str,
        rows: &mut Rows,
    ) {
        let over = over.from("written", written).from("tested", self.found.1.as_str());
        rows.add(format!("{}.over-tested", self.stem), title(words, ingredient, self.stem), over);
    }
}

impl<'a> Pile<'a> {
    fn tested(earth: &'a Earth, ingredient: &Ingredient, rows: &mut Rows) -> Pile<'a> {
        let name = &ingredient.name;
        let tests = &earth.small_tests;
        let bulking = tests.bulking.iter().filter(|pair| pair.of == *name).map(|pair| {
            let [damp, flooded] = measured(pair, ["height of damp", "height, flooded, of"], rows);
            let answer =
                strength::bulking(pair.found[0].value, pair.found[1].value).from("damp", damp).from("flooded", flooded);
            let stands = pair.stands(&tests.bulking);
            Test {
                stem: &pair.stem,
                stands,
                found: found(pair, "bulking", &told("bulking by a jar", stands), answer, rows),
            }
        });
        let bulking = bulking.collect();
        let moisture = tests.moisture.iter().filter(|pair| pair.of == *name).map(|pair| {
            let [wet, dry] = measured(pair, ["wet mass of a sample of", "dry mass of the sample of"], rows);
            let answer = moisture(pair.found[0].value, pair.found[1].value).from("wet mass", wet).from("dry mass", dry);
            let stands = pair.stands(&tests.moisture);
            let words = told("moisture, of dry mass, by weighing a sample", stands);
            Test { stem: &pair.stem, stands, found: found(pair, "moisture", &words, answer, rows) }
        });
        Pile { bulking, moisture: moisture.collect() }
    }
}

/// What a test says, in words: one that is not of the newest day is told and no more.
fn told(words: &str, stands: bool) -> String {
    if stands { format!("{words} of") } else { format!("{words} (not of the newest day: only told) of") }
}

fn title(words: &str, of: &str, stem: &str) -> String {
    let name = stem.rsplit('.').next().unwrap_or_default();
    format!("{words} {}, test {}", of.replace('-', " "), name.replace('-', " "))
}

/// Rows of both measurements of a pair; their paths.
fn measured<T: Copy + Into<Quantity>>(pair: &Pair<T>, words: [&str; 2], rows: &mut Rows) -> [String; 2] {
    if let Some(day) = &pair.day {
        rows.known(title("day of the test of", &pair.of, &pair.stem), day);
    }
    let mut places = pair.found.iter().zip(words);
    [0, 1].map(|_| {
        let Some((found, words)) = places.next() else { return String::new() };
        rows.known(title(words, &pair.of, &pair.stem), found);
        found.path.clone()
    })
}

fn found<T, V: Copy + Into<Quantity>>(
    pair: &Pair<T>,
    noun: &str,
    words: &str,
    answer: Answer<V>,
    rows: &mut Rows,
) -> (String, String, V) {
    let path = format!("{}.{noun}", pair.stem);
    let value = rows.add(path.as_str(), title(words, &pair.of, &pair.stem), answer);
    (title("test", &pair.of, &pair.stem), path, value)
}

/// Rows of weighed buckets, of which the loose density of each pile is known by then.
pub(super) fn weighings(earth: &Earth, rows: &mut Rows) {
    for pair in &earth.small_tests.weighings {
        let Some(ingredient) = earth.ingredients.iter().find(|ingredient| ingredient.name == pair.of) else { continue };
        let [full, empty] = measured(pair, ["mass of a full bucket of", "mass of the empty bucket of"], rows);
        let loose =
            soil::loose_by_bucket(pair.found[0].value, pair.found[1].value, earth.bucket(), ingredient.moisture.value)
                .from("full", full)
                .from("empty", empty)
                .from("bucket", earth.bucket_path())
                .from("moisture", ingredient.path("moisture"));
        let words = "dry mass in a loose cubic metre, by a weighed bucket, of";
        let (_, path, weighed) = found(pair, "loose-density", words, loose, rows);
        let over = soil::density_over_weighed(ingredient.loose_density(), weighed)
            .from("computed", ingredient.loose_density_path())
            .from("weighed", path);
        let words = "loose density that is computed with, over that of a weighed bucket, of";
        rows.add(format!("{}.over-weighed", pair.stem), title(words, &pair.of, &pair.stem), over);
    }
}

/// Rows of how soils feel, where what their other tests say is known by then.
pub(super) fn feel(house: &House, rows: &mut Rows) {
    for feel in house.earth.iter().flat_map(|earth| &earth.small_tests.feel) {
        Felt { feel }.walk(rows);
    }
}

struct Felt<'a> {
    feel: &'a Feel,
}

impl Felt<'_> {
    fn path(&self, noun: &str) -> String {
        format!("{}.{noun}", self.feel.stem)
    }

    fn title(&self, words: &str) -> String {
        title(words, &self.feel.of, &self.feel.stem)
    }

    fn walk(&self, rows: &mut Rows) {
        if let Some(day) = &self.feel.day {
            rows.known(self.title("day of the test by feel of"), day);
        }
        self.ribbon(rows);
        self.ball(rows);
    }

    /// The classes and the clay that a ribbon allows, and whether other tests say as much.
    fn ribbon(&self, rows: &mut Rows) {
        let Some(known) = &self.feel.ribbon else {
            let words = "classes of texture by feel (press a ribbon between thumb and finger and measure it) of";
            return rows.not_known(self.path("classes"), self.title(words));
        };
        let ribbon = rows.known(self.title("ribbon of"), known);
        let Some(allowed) = tables::ribbon(ribbon) else { return };
        let count = soil::classes_of_ribbon(ribbon, allowed.classes.len()).from("ribbon", known.path.as_str());
        let words = format!("classes of texture ({}) that a ribbon allows, for", allowed.classes.join(", "));
        let count = rows.add(self.path("classes"), self.title(&words), count);
        let Some(clay) = soil::clay_of_classes(&allowed.classes) else { return };
        let mut ends = clay.into_iter().map(Ratio::percent).zip([("low", "least"), ("high", "greatest")]);
        let [low, high] = [0, 1].map(|_| {
            let (clay, (side, word)) = ends.next().unwrap_or((Ratio::ZERO, ("", "")));
            let answer = soil::clay_of_feel(count, clay).from("classes", self.path("classes"));
            rows.add(self.path(&format!("clay-{side}")), self.title(&format!("{word} clay by feel, in")), answer)
        });
        let of_tests = path_of(&self.feel.of, "clay");
        let Some(tested) = rows.value::<Ratio>(&of_tests) else { return };
        let is_low = tested - low < high - tested;
        let (nearer, side) = if is_low { (low, "clay-low") } else { (high, "clay-high") };
        let within =
            soil::clay_within_feel(tested, nearer, is_low).from("tested", of_tests).from("nearer", self.path(side));
        let words = "how far the clay that other tests say lies within what the feel allows (below zero, one of both is wrong), in";
        rows.add(self.path("clay-within"), self.title(words), within);
    }

    /// How flat a dropped ball is, and what that says.
    fn ball(&self, rows: &mut Rows) {
        let Some(([ball, high], pieces)) = &self.feel.drop else { return };
        let thick = rows.known(self.title("ball that was dropped, of"), ball);
        let left = rows.known(self.title("height of the ball after its fall, of"), high);
        let count = rows.known(self.title("pieces into which the ball fell, of"), pieces);
        let flat = soil::flattened(thick, left).from("ball", ball.path.as_str()).from("high", high.path.as_str());
        let said = if count as f64 >= number("drop-pieces") {
            "it shatters: too dry, or too lean"
        } else if flat.value.in_fraction() >= number("drop-flat-ratio") {
            "it splats: too wet, or too fat"
        } else {
            "near right: it stays a ball"
        };
        rows.add(self.path("flattened"), self.title(&format!("how flat a dropped ball is ({said}), of")), flat);
    }
}
