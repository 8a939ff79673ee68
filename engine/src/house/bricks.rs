//! Test bricks with nothing missing: what each bore, how large and how damp it was; what cannot be is refused.

use std::sync::Arc;

use jiff::civil::Date;

use super::earth::{Earth, percent, recipe_named};
use super::lever::{Lever, lever};
use super::one_system::{Place, is_of_one_system, place_of};
use super::place::{known, within};
use crate::build::{self, BrickTest, Build, Source, Written};
use crate::earth::strength;
use crate::earth::tables::{number, sample_shapes};
use crate::known::{Known, Origin};
use crate::units::{Days, Force, Length, Mass, Ratio, System};

/// Bricks of one mix, tested alike.
#[derive(Clone, Debug)]
pub struct Bricks {
    /// Their name.
    pub name: String,
    /// The recipe that they are of.
    pub of: String,
    /// How they were tested.
    pub test: BrickTest,
    /// The day of the test.
    pub day: Option<Known<Date>>,
    /// How old they were.
    pub age: Option<Known<Days>>,
    /// Whether they are offered as proof of the wall's cob.
    pub is_proof: bool,
    /// Each of them, in the order of their names.
    pub each: Vec<Brick>,
}

/// What bore on a brick.
#[derive(Clone, Debug)]
pub enum Load {
    /// A force, as a press says it.
    Press(Known<Force>),
    /// What hung on a lever at home.
    Hung(Known<Mass>, Arc<Lever>),
}

/// One brick.
#[derive(Clone, Debug)]
pub struct Brick {
    /// Its name.
    pub name: String,
    /// What it bore.
    pub load: Load,
    /// How it was tested.
    pub trial: Trial,
    /// Its width.
    pub width: Known<Length>,
    /// Its height as it stood or lay.
    pub height: Known<Length>,
    /// Its moisture of dry mass.
    pub moisture: Option<Moisture>,
    /// Whether it was tested damp.
    pub is_damp: bool,
}

/// How a brick was tested, with what only that takes.
#[derive(Clone, Debug)]
pub enum Trial {
    /// Crushed.
    Crushed {
        /// The other side of its face.
        length: Known<Length>,
        /// What its strength is multiplied by, to be that of the code's sample; none where it is as tall as that or taller.
        shape: Option<Known<f64>>,
    },
    /// Broken.
    Broken {
        /// From roller to roller.
        span: Known<Length>,
        /// Its length, where it is written.
        length: Option<Known<Length>>,
    },
}

/// How one knows how damp a brick was.
#[derive(Clone, Debug)]
pub enum Moisture {
    /// It was weighed when it was tested, and dried.
    Weighed([Known<Mass>; 2]),
    /// It is written.
    Written(Known<Ratio>),
}

impl Bricks {
    /// Their key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.bricks.{}.{noun}", self.name)
    }

    /// The key of one of them.
    #[must_use]
    pub fn path_of(&self, brick: &Brick, noun: &str) -> String {
        self.path(&format!("each.{}.{noun}", brick.name))
    }
}

/// The test bricks of a build file; `cob` is the recipe of the wall.
pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    earth: Option<&Earth>,
    cob: Option<&str>,
    system: System,
) -> Vec<Bricks> {
    let mut all: Vec<Bricks> = Vec::new();
    for written in &build.bricks {
        let of_one_system = are_of_one_system(source, written);
        let Some(bricks) = bricks(source, written, earth, system) else { continue };
        let offered = written.proof.as_ref().filter(|proof| proof.value);
        let is_fine = offered.is_none_or(|proof| is_proof_alone(source, &bricks, proof, cob, &all));
        if is_fine && of_one_system {
            all.push(bricks);
        }
    }
    all
}

fn bricks(source: &Source<'_>, written: &build::Bricks, earth: Option<&Earth>, system: System) -> Option<Bricks> {
    let name = &written.name;
    let of = written.of.as_ref().and_then(|of| recipe_named(source, of, earth));
    let ages = Days::days(1.0)..Days::days(10_000.0);
    let age = within(source, written.age.as_ref(), ages, "the age of a test brick", system);
    let span = side(source, &written.span, "the way from roller to roller under a test brick", system);
    let shared = sides(source, &written.size, system);
    if written.each.is_empty() && !source.is_faulty(&name.path) {
        let hint = "write each of them under its name, such as each = { a = { load = \"7.5 kN\" } }";
        source.fault(name.span.clone(), &name.path, "no brick is written", hint);
    }
    let test = written.test.as_ref()?.value;
    are_measured(source, written, test);
    let lever = written.lever.as_ref().and_then(|own| lever(source, own, &format!("{}.lever", name.path), system));
    let over = (&shared, span.as_ref(), lever.map(Arc::new));
    let each = written.each.iter().filter_map(|one| brick(source, one, test, &over, system)).collect();
    if source.is_faulty(&name.path) {
        return None;
    }
    let is_proof = written.proof.as_ref().is_some_and(|proof| proof.value);
    Some(Bricks { name: name.value.clone(), of: of?, test, day: known(written.day.as_ref()), age, is_proof, each })
}

fn side(source: &Source<'_>, written: &Option<Written<Length>>, what: &str, system: System) -> Option<Known<Length>> {
    within(source, written.as_ref(), Length::mm(20.0)..Length::m(1.0), what, system)
}

/// Length, width and height, as far as they are written.
fn sides(source: &Source<'_>, size: &build::BrickSize, system: System) -> [Option<Known<Length>>; 3] {
    size.sides().map(|(noun, written)| side(source, written, &format!("the {noun} of a test brick"), system))
}

/// Refuses bricks of which a side that their strength takes is written neither for all nor for one of them.
fn are_measured(source: &Source<'_>, written: &build::Bricks, test: BrickTest) {
    for (place, (noun, shared)) in written.size.sides().into_iter().enumerate() {
        let is_needed = noun != "length" || test == BrickTest::Crushed;
        let bare = written.each.iter().find(|brick| brick.size.sides()[place].1.is_none());
        if let Some(bare) = bare.filter(|_| is_needed && shared.is_none()) {
            let message = format!("nothing says the {noun} of brick \"{}\"", bare.name.value);
            let hint = format!("write {noun} = \"100 mm\" for all of these bricks, or for each its own");
            source.fault(bare.name.span.clone(), &format!("{}.{noun}", bare.name.path), message, hint);
        }
    }
}

/// What bricks share: their sides, the way from roller to roller, the lever.
type Shared<'a> = (&'a [Option<Known<Length>>; 3], Option<&'a Known<Length>>, Option<Arc<Lever>>);

fn brick(
    source: &Source<'_>,
    written: &build::Brick,
    test: BrickTest,
    (shared, span, lever): &Shared<'_>,
    system: System,
) -> Option<Brick> {
    let name = &written.name;
    let what = "the load of a test brick";
    let load = within(source, written.load.as_ref(), Force::n(10.0)..Force::kn(5000.0), what, system).map(Load::Press);
    let masses = Mass::kg(0.1)..Mass::kg(2000.0);
    let hung = within(source, written.hung.as_ref(), masses, "what hung on the lever", system);
    let hung = hung.zip(lever.clone()).map(|(hung, lever)| Load::Hung(hung, lever));
    let mut own = sides(source, &written.size, system);
    for (own, shared) in own.iter_mut().zip(shared.iter()) {
        *own = own.take().or_else(|| shared.clone());
    }
    let [length, width, height] = own;
    let is_damp = written.damp.as_ref().is_some_and(|damp| damp.value);
    let moisture = moisture(source, written, system);
    if is_damp && moisture.is_none() && !source.is_faulty(&name.path) {
        let hint = "weigh it, dry it, weigh it again: write mass = { wet = \"4.1 kg\", dry = \"3.8 kg\" }";
        let message = format!("brick \"{}\" is damp, and nothing says how damp", name.value);
        source.fault(name.span.clone(), &name.path, message, hint);
    }
    if source.is_faulty(&name.path) {
        return None;
    }
    let (width, height) = (width?, height?);
    let trial = match test {
        BrickTest::Broken => over_rollers(source, name, (*span)?, length),
        BrickTest::Crushed => upright(source, written, length?, (&width, &height), system),
    };
    Some(Brick { name: name.value.clone(), load: load.or(hung)?, trial: trial?, width, height, moisture, is_damp })
}

fn moisture(source: &Source<'_>, written: &build::Brick, system: System) -> Option<Moisture> {
    let what = "the moisture of a test brick, of dry mass";
    let own = within(source, written.moisture.as_ref(), percent(0.0, 40.0), what, system);
    let Some([wet, dry]) = &written.mass else { return own.map(Moisture::Written) };
    if let Some(own) = &written.moisture {
        let hint = "leave `moisture` out: it follows from the masses";
        source.fault(own.span.clone(), &own.path, "the moisture of this brick is said twice", hint);
    }
    let mass = |written: &Option<Written<Mass>>| {
        let range = Mass::g(50.0)..Mass::kg(500.0);
        within(source, written.as_ref(), range, "the mass of a test brick", system)
    };
    let (found_wet, found_dry) = (mass(wet)?, mass(dry)?);
    let at = wet.as_ref()?;
    if found_wet.value < found_dry.value {
        let hint =
            "`wet` is what it weighed when it was tested, `dry` what it weighed when it lost no more in the oven";
        source.fault(at.span.clone(), &at.path, "this brick was lighter wet than dry", hint);
    } else if (found_wet.value - found_dry.value) / found_dry.value > 0.4 {
        let hint = "no brick that stands holds more than 40 % of its dry mass in water: weigh it again";
        source.fault(at.span.clone(), &at.path, "this brick weighed far more wet than dry", hint);
    }
    Some(Moisture::Weighed([found_wet, found_dry]))
}

/// A brick over rollers; one that does not reach over both is refused.
fn over_rollers(
    source: &Source<'_>,
    name: &Written<String>,
    span: &Known<Length>,
    length: Option<Known<Length>>,
) -> Option<Trial> {
    if length.as_ref().is_some_and(|length| length.value <= span.value) {
        let message = format!("brick \"{}\" is not longer than the way from roller to roller", name.value);
        source.fault(name.span.clone(), &name.path, message, "write the span between the middles of the rollers");
        return None;
    }
    Some(Trial::Broken { span: span.clone(), length })
}

/// A brick that is crushed; one for whose shape no factor is known or written is refused.
fn upright(
    source: &Source<'_>,
    written: &build::Brick,
    length: Known<Length>,
    (width, height): (&Known<Length>, &Known<Length>),
    system: System,
) -> Option<Trial> {
    let name = &written.name;
    if written.shape.is_some() {
        let what = "what the strength of a brick is multiplied by for its shape";
        let shape = Some(within(source, written.shape.as_ref(), 0.2..1.2, what, system)?);
        return Some(Trial::Crushed { length, shape });
    }
    let slenderness = height.value / length.value.min(width.value);
    let code = strength::shape_factor(number("cob-sample-shape"));
    let (Some(own), Some(code)) = (strength::shape_factor(slenderness), code) else {
        let ends = [sample_shapes().first(), sample_shapes().last()];
        let [squat, tall] = ends.map(|shape| shape.map_or(f64::NAN, |shape| shape.slenderness));
        let message = format!("brick \"{}\" is {slenderness:.2} times as tall as it is wide", name.value);
        let hint = format!(
            "cut it to between {squat} and {tall} times, or write the `shape` of your laboratory: no factor is known here"
        );
        source.fault(name.span.clone(), &name.path, message, hint);
        return None;
    };
    let shape = (own < code).then(|| {
        let why = "plates hold a squat brick together; factors of compressed earth blocks, from memory, that cob may not follow";
        Known::assumed(own / code, format!("{}.shape", name.path), Origin::Judgement, why)
            .following(format!("{}.slenderness", name.path))
    });
    Some(Trial::Crushed { length, shape })
}

/// Whether what is offered as proof is of the wall's cob, and alone.
fn is_proof_alone(
    source: &Source<'_>,
    bricks: &Bricks,
    offered: &Written<bool>,
    cob: Option<&str>,
    others: &[Bricks],
) -> bool {
    let fault = |message: String, hint: String| {
        source.fault(offered.span.clone(), &offered.path, message, hint);
        false
    };
    if cob != Some(bricks.of.as_str()) && !source.is_faulty("wall.recipe") {
        let message = format!("bricks of \"{}\" are no proof of the wall's cob", bricks.of);
        return fault(message, "leave `proof` out, or test bricks of the recipe of the wall".into());
    }
    if let Some(other) = others.iter().find(|other| other.is_proof && other.test == bricks.test) {
        let message = format!("\"{}\" is offered as proof already", other.name);
        return fault(message, "one lot of bricks is proof: write the bricks of one mix in one table".into());
    }
    true
}

/// Refuses lengths, masses or loads of one lot of which some are written in US units and some in metric ones.
fn are_of_one_system(source: &Source<'_>, written: &build::Bricks) -> bool {
    let sizes = |size: &build::BrickSize| size.sides().map(|(_, side)| place_of(side));
    let lever = written.lever.iter();
    let arms = lever.clone().flat_map(|lever| [&lever.arm, &lever.brick, &lever.middle, &lever.pin]).map(place_of);
    let lengths = sizes(&written.size).into_iter().chain([place_of(&written.span)]).chain(arms);
    let lengths: Vec<Place> =
        lengths.chain(written.each.iter().flat_map(|brick| sizes(&brick.size))).flatten().collect();
    let masses: Vec<Place> = written
        .each
        .iter()
        .flat_map(|brick| brick.mass.iter().flatten().chain([&brick.hung]))
        .chain(lever.map(|lever| &lever.beam))
        .filter_map(place_of)
        .collect();
    let loads: Vec<Place> = written.each.iter().filter_map(|brick| place_of(&brick.load)).collect();
    let hint = "write all of them as they stand on the page, and a page in other units as bricks of another name";
    let groups = [("lengths", lengths), ("masses", masses), ("loads", loads)];
    let alike =
        groups.map(|(what, places)| is_of_one_system(source, &format!("the {what} of these bricks"), &places, hint));
    alike.iter().all(|alike| *alike)
}
