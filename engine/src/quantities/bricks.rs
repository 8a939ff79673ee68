//! Rows of test bricks: what each bore, what the bricks of a lot say together, and what they do not say.

use crate::build::BrickTest;
use crate::check::Rule;
use crate::earth;
use crate::earth::strength::{self, DampLine, Sample};
use crate::earth::tables::{fact, number};
use crate::facts::Fact;
use crate::house::{Brick, Bricks, House, Load, Moisture, Trial};
use crate::known::Known;
use crate::reason::Answer;
use crate::row::Rows;
use crate::rulebook::rules_of;
use crate::units::{Force, Length, Pressure, Quantity, Ratio};

pub(super) fn walk(house: &House, rows: &mut Rows) {
    for bricks in &house.bricks {
        let lot = Lot::tested(bricks, rows);
        lot.together(rows);
        lot.damp(rows);
    }
    for test in [BrickTest::Crushed, BrickTest::Broken] {
        proof(house, test, rows);
    }
}

/// Bricks of one mix with what each bore.
struct Lot<'a> {
    bricks: &'a Bricks,
    tested: Vec<Tested<'a>>,
}

/// A brick, its strength and how damp it was.
struct Tested<'a> {
    brick: &'a Brick,
    strength: Pressure,
    moisture: Option<Ratio>,
}

impl<'a> Lot<'a> {
    /// What each brick bore.
    fn tested(bricks: &'a Bricks, rows: &mut Rows) -> Lot<'a> {
        let lot = bricks.name.replace('-', " ");
        if let Some(day) = &bricks.day {
            rows.known(format!("day on which the bricks {lot} were tested"), day);
        }
        if let Some(age) = &bricks.age {
            rows.known(format!("age of the bricks {lot}"), age);
        }
        let tested = bricks.each.iter().map(|brick| tested(bricks, brick, rows)).collect();
        Lot { bricks, tested }
    }

    fn title(&self, words: &str) -> String {
        format!("{words} the bricks {}", self.bricks.name.replace('-', " "))
    }

    fn strength_path(&self, one: &Tested<'_>) -> String {
        self.bricks.path_of(one.brick, "strength")
    }

    fn dry(&self) -> Vec<&Tested<'a>> {
        self.tested.iter().filter(|one| !one.brick.is_damp).collect()
    }

    /// Adds the strength of every brick of a list.
    fn of_all<T>(&self, answer: Answer<T>, bricks: &[&Tested<'_>]) -> Answer<T> {
        bricks.iter().fold(answer, |answer, one| {
            answer.with(format!("strength of {}", one.brick.name), one.strength, self.strength_path(one))
        })
    }

    /// Mean, scatter, what can be relied on, and which brick is strange.
    fn together(&self, rows: &mut Rows) {
        let path = |noun: &str| self.bricks.path(noun);
        let dry = self.dry();
        let strengths: Vec<Pressure> = dry.iter().map(|one| one.strength).collect();
        let Some(sample) = Sample::of(&strengths) else {
            return rows.not_known(path("mean"), self.title("mean strength, of which none is dry, of"));
        };
        let count = self.of_all(strength::dry_bricks(sample.count), &dry);
        let count = rows.add(path("dry"), self.title("dry ones among"), count);
        if self.bricks.test == BrickTest::Crushed {
            let more = strength::still_to_make(count, number(COB_SAMPLES)).from("bricks", path("dry"));
            rows.add(path("still-to-make"), self.title("what the cob appendix asks for beyond"), more);
        }
        let mean = self.of_all(strength::mean_strength(sample.mean), &dry);
        let mean = rows.add(path("mean"), self.title("mean strength of"), mean);
        if let Some(least) = dry.iter().min_by(|one, other| one.strength.in_pa().total_cmp(&other.strength.in_pa())) {
            let name = &least.brick.name;
            let answer = self.of_all(strength::least_strength(sample.least), &[*least]);
            rows.add(path("least"), self.title(&format!("strength of brick {name}, the least of")), answer);
        }
        let (Some(deviation), Some(factor)) = (sample.deviation, strength::lower_factor(sample.count)) else {
            return rows.not_known(path("lower-bound"), self.title("scatter, which one brick alone does not show, of"));
        };
        let deviation = self.of_all(strength::scatter(deviation), &dry);
        let deviation = rows.add(path("deviation"), self.title("scatter of the strength of"), deviation);
        let factor = strength::reliance(count, factor).from("bricks", path("dry"));
        let factor =
            rows.add(path("factor"), self.title("deviations below the mean that can be relied on, of"), factor);
        let bound = strength::lower_bound(mean, deviation, factor)
            .from("mean", path("mean"))
            .from("deviation", path("deviation"))
            .from("factor", path("factor"));
        rows.add(path("lower-bound"), self.title("strength that 95 of 100 exceed, three times of four, by"), bound);
        if let Some(place) = strength::strange(&strengths) {
            let name = &dry[place].brick.name;
            let answer = self.of_all(strength::strange_brick(place), &dry);
            let words = format!("brick {name}, counted among the dry ones, lies strangely far from the others of");
            rows.add(path("strange"), self.title(&words), answer);
        }
    }

    /// How strength falls with moisture.
    fn damp(&self, rows: &mut Rows) {
        let path = |noun: &str| self.bricks.path(noun);
        let known: Vec<(&Tested<'_>, Ratio)> =
            self.tested.iter().filter_map(|one| Some((one, one.moisture?))).collect();
        let points: Vec<(Ratio, Pressure)> = known.iter().map(|(one, moisture)| (*moisture, one.strength)).collect();
        let is_damp = self.tested.iter().any(|one| one.brick.is_damp);
        let line = DampLine::through(&points).ok().filter(|_| is_damp);
        let dampest = known.iter().max_by(|one, other| one.1.in_fraction().total_cmp(&other.1.in_fraction()));
        let driest = known.iter().min_by(|one, other| one.1.in_fraction().total_cmp(&other.1.in_fraction()));
        let (Some(line), Some(driest), Some(dampest)) = (line, driest, dampest) else {
            let words =
                "strength when damp (crush two damp bricks, one damper than the other, and weigh them wet and dry) of";
            return rows.not_known(path("damp-strength"), self.title(words));
        };
        let moisture_path = |one: &Tested<'_>| self.bricks.path_of(one.brick, "moisture");
        for (noun, (one, moisture)) in [("driest", driest), ("dampest", dampest)] {
            let answer = strength::tested_moisture(*moisture).from("moisture", moisture_path(one));
            rows.add(path(noun), self.title(&format!("moisture of the {noun} of")), answer);
        }
        let bricks: Vec<&Tested<'_>> = known.iter().map(|(one, _)| *one).collect();
        let fitted = |answer: Answer<Pressure>| self.with_moistures(self.of_all(answer, &bricks), &known);
        let fall = strength::fall_with_moisture(line.fall);
        let fall = self.with_moistures(self.of_all(fall, &bricks), &known);
        rows.add(path("fall"), self.title("what the logarithm of the strength loses for a moisture of one, by"), fall);
        let Some([middle, low]) = line.at(dampest.1) else { return };
        let answer = strength::damp_strength(dampest.1, middle).from("moisture", path("dampest"));
        rows.add(path("damp-strength"), self.title("strength at the moisture of the dampest of"), fitted(answer));
        let answer = strength::damp_strength_low(dampest.1, low).from("moisture", path("dampest"));
        let words = "strength, as damp as the dampest, that 19 of 20 more exceed, by";
        rows.add(path("damp-strength-low"), self.title(words), fitted(answer));
    }

    fn with_moistures<T>(&self, answer: Answer<T>, known: &[(&Tested<'_>, Ratio)]) -> Answer<T> {
        known.iter().fold(answer, |answer, (one, moisture)| {
            let path = self.bricks.path_of(one.brick, "moisture");
            answer.with(format!("moisture of {}", one.brick.name), *moisture, path)
        })
    }
}

/// Notes a value that bricks may share, once.
fn once<T: Copy + Into<Quantity>>(known: &Known<T>, words: &str, bricks: &Bricks, brick: &Brick, rows: &mut Rows) {
    if rows.find(&known.path).is_some() {
        return;
    }
    let lot = bricks.name.replace('-', " ");
    let is_own = known.path.starts_with(&bricks.path_of(brick, ""));
    let whose = if is_own { format!("of brick {} of {lot}", brick.name) } else { format!("of the bricks {lot}") };
    rows.known(format!("{words} {whose}"), known);
}

fn tested<'a>(bricks: &Bricks, brick: &'a Brick, rows: &mut Rows) -> Tested<'a> {
    let lot = bricks.name.replace('-', " ");
    let path = |noun: &str| bricks.path_of(brick, noun);
    let title = |words: &str| format!("{words} of brick {} of {lot}", brick.name);
    let load = load(bricks, brick, rows);
    match &brick.trial {
        Trial::Crushed { length, .. } => once(length, "length", bricks, brick, rows),
        Trial::Broken { span, length } => {
            once(span, "way from roller to roller", bricks, brick, rows);
            if let Some(length) = length {
                once(length, "length", bricks, brick, rows);
            }
        }
    }
    once(&brick.width, "width", bricks, brick, rows);
    once(&brick.height, "height", bricks, brick, rows);
    let moisture = brick.moisture.as_ref().map(|moisture| match moisture {
        Moisture::Written(known) => rows.known(title("moisture, of dry mass,"), known),
        Moisture::Weighed([wet, dry]) => {
            once(wet, "mass when it was tested", bricks, brick, rows);
            once(dry, "mass when it was dried", bricks, brick, rows);
            let answer = earth::moisture(wet.value, dry.value)
                .from("wet mass", wet.path.as_str())
                .from("dry mass", dry.path.as_str());
            rows.add(path("moisture"), title("moisture, of dry mass,"), answer)
        }
    });
    let strength = match &brick.trial {
        Trial::Crushed { length, shape } => as_code_sample(bricks, brick, load, (length, shape.as_ref()), rows),
        Trial::Broken { span, .. } => {
            let answer = strength::broken(load, span.value, brick.width.value, brick.height.value)
                .from("load", path("load"))
                .from("span", span.path.as_str())
                .from("width", brick.width.path.as_str())
                .from("height", brick.height.path.as_str());
            rows.add(path("strength"), title("modulus of rupture"), answer)
        }
    };
    Tested { brick, strength, moisture }
}

/// What bore on a brick: what a press said, or of a lever what its pin leaves.
fn load(bricks: &Bricks, brick: &Brick, rows: &mut Rows) -> Force {
    let (hung, lever) = match &brick.load {
        Load::Press(load) => {
            once(load, "load that broke it,", bricks, brick, rows);
            return load.value;
        }
        Load::Hung(hung, lever) => (hung, lever),
    };
    let lengths = [
        (&lever.arm, "way from the pin to what hangs,"),
        (&lever.brick, "way from the pin to the brick,"),
        (&lever.middle, "way from the pin to the beam's middle,"),
        (&lever.pin, "diameter of the lever's pin,"),
    ];
    lengths.into_iter().for_each(|(length, words)| once(length, words, bricks, brick, rows));
    once(&lever.beam, "mass of the lever's beam,", bricks, brick, rows);
    once(&lever.friction, "friction of the lever's pin,", bricks, brick, rows);
    once(hung, "what hung on the lever,", bricks, brick, rows);
    let path = |noun: &str| bricks.path_of(brick, noun);
    let title = |words: &str| format!("{words} of brick {} of {}", brick.name, bricks.name.replace('-', " "));
    let gravity = number("gravity-m-s2");
    let arms = (lever.arm.value, lever.middle.value, lever.brick.value);
    let force = strength::lever_force(hung.value, arms.0, lever.beam.value, arms.1, arms.2, gravity)
        .from("hung", hung.path.as_str())
        .from("hung arm", lever.arm.path.as_str())
        .from("beam", lever.beam.path.as_str())
        .from("beam arm", lever.middle.path.as_str())
        .from("brick arm", lever.brick.path.as_str())
        .without("gravity");
    let force = rows.add(path("force"), title("force of the lever, its pin without friction,"), force);
    let held = strength::pin_force(force, hung.value, lever.beam.value, gravity)
        .from("force", path("force"))
        .from("hung", hung.path.as_str())
        .from("beam", lever.beam.path.as_str())
        .without("gravity");
    let held = rows.add(path("pin-force"), title("what the pin holds down, at the lever"), held);
    let friction = strength::pin_friction(lever.friction.value, lever.pin.value, lever.brick.value, held)
        .from("friction", lever.friction.path.as_str())
        .from("pin", lever.pin.path.as_str())
        .from("brick arm", lever.brick.path.as_str())
        .from("pin force", path("pin-force"));
    let friction =
        rows.add(path("pin-friction"), title("what friction of the pin may add or take, at the lever"), friction);
    let certain =
        strength::certain_force(force, friction).from("force", path("force")).from("friction", path("pin-friction"));
    rows.add(path("load"), title("load that broke it, friction of the pin taken off,"), certain)
}

/// What a crushed brick bore, size and shape allowed for.
fn as_code_sample(
    bricks: &Bricks,
    brick: &Brick,
    load: Force,
    (length, shape): (&Known<Length>, Option<&Known<f64>>),
    rows: &mut Rows,
) -> Pressure {
    let lot = bricks.name.replace('-', " ");
    let path = |noun: &str| bricks.path_of(brick, noun);
    let title = |words: &str| format!("{words} of brick {} of {lot}", brick.name);
    let raw = strength::crushed(load, brick.width.value, length.value)
        .from("load", path("load"))
        .from("width", brick.width.path.as_str())
        .from("depth", length.path.as_str());
    let raw = rows.add(path("stress"), title("stress that broke it,"), raw);
    let lesser = if length.value < brick.width.value { length } else { &brick.width };
    let slender = strength::slenderness(brick.height.value, lesser.value)
        .from("height", brick.height.path.as_str())
        .from("lesser side", lesser.path.as_str());
    rows.add(path("slenderness"), title("height over lesser side"), slender);
    let answer = match shape {
        Some(shape) => {
            let shape = rows.known(title("what shape takes from the strength, as a factor,"), shape);
            strength::of_code_shape(raw, shape).from("shape", path("shape"))
        }
        None => strength::of_code_shape(raw, 1.0).without("shape"),
    };
    rows.add(
        path("strength"),
        title("strength, as a sample of the code's shape,"),
        answer.from("strength", path("stress")),
    )
}

/// The fact of how many samples of cob are to be crushed.
pub(super) const COB_SAMPLES: &str = "cob-samples";

/// How many samples of a test are asked for, where a rulebook of the house is of the work that asks and holds what they show.
pub(super) fn asked(house: &House, of: &str, measures: &str) -> Option<&'static Fact> {
    let fact = fact(of)?;
    let is_of_the_work = |rule: &Rule| rule.citation.work == fact.citation.work;
    held_by(house, measures).any(is_of_the_work).then_some(fact)
}

/// The rules of the house that hold what a row measures.
fn held_by<'a>(house: &'a House, measures: &'a str) -> impl Iterator<Item = &'static Rule> {
    let holds_it = move |rule: &&Rule| rule.limit.as_ref().is_some_and(|limit| limit.measures == measures);
    rules_of(&house.rulebooks).filter(holds_it)
}

/// A place in a work without what is said of it.
fn clause(place: &str) -> &str {
    place.split([':', ',']).next().unwrap_or(place)
}

/// That nobody here knows how many bricks a rule of the house wants, in words; nothing where none of them holds the row.
fn open_count(house: &House, measures: &str) -> String {
    let open = |rule: &Rule| format!(" (how many {} wants is not known)", clause(&rule.citation.place));
    held_by(house, measures).next().map_or_else(String::new, open)
}

/// What a code is shown of the wall's cob, from the lot that is offered as proof.
fn proof(house: &House, test: BrickTest, rows: &mut Rows) {
    let (stem, words_of, of_the_least) = match test {
        BrickTest::Crushed => ("tests.cob.compression", "compressive strength of the cob", Some(COB_SAMPLES)),
        BrickTest::Broken => ("tests.cob.rupture", "modulus of rupture of the cob", None),
    };
    let of_the_wall = |bricks: &&Bricks| bricks.test == test && Some(&bricks.of) == house.wall.cob.as_ref();
    let mut lots = house.bricks.iter().filter(of_the_wall);
    let takes = [(stem.to_owned(), "least", of_the_least), (format!("{stem}-mean"), "mean", Some("adobe-samples"))];
    if let Some(bricks) = lots.clone().find(|bricks| bricks.is_proof) {
        let (lot, dry) = (bricks.name.replace('-', " "), bricks.each.iter().filter(|brick| !brick.is_damp).count());
        for (path, noun, fact) in takes {
            let open = if fact.is_none() { open_count(house, &path) } else { String::new() };
            let title = format!("{words_of}, {noun} of the bricks {lot}{open}");
            let asked = fact.and_then(|fact| asked(house, fact, &path));
            if let Some(asked) = asked.filter(|asked| asked.number > dry as f64) {
                let (place, wanted) = (clause(&asked.citation.place), asked.number);
                let more = wanted - dry as f64;
                rows.not_known(path, format!("{title} ({dry} dry; {place} asks for {wanted}: make {more} more)"));
                continue;
            }
            let row = bricks.path(noun);
            match rows.value::<Pressure>(&row) {
                Some(value) => {
                    rows.add(path, title, strength::as_proof(value).from("of the lot", row));
                }
                None => rows.not_known(path, format!("{title}, of which none is dry")),
            }
        }
    } else if lots.next().is_some() {
        for (path, ..) in takes {
            rows.not_known(path, format!("{words_of}, of which no bricks are offered as proof"));
        }
    }
}
