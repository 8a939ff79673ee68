//! Sand that is to be added to a soil for a share of clay: which soil, which sand, how much clay; what nothing can reach is refused.

use super::earth::{Earth, percent};
use super::gradings::Grading;
use super::jars::{Jar, ingredient_named};
use super::place::{shown, within};
use crate::build::{self, Build, Source};
use crate::earth::tables::number;
use crate::known::{Known, Origin};
use crate::units::{Ratio, System};

/// Sand to add to a soil.
#[derive(Clone, Debug)]
pub struct Sanding {
    /// Its name.
    pub name: String,
    /// The ingredient that has the clay.
    pub soil: String,
    /// The ingredient that is added.
    pub sand: String,
    /// Clay wanted in the dry mass of both.
    pub clay: Known<Ratio>,
    /// Clay in the sand, and how far that may be off; none where tests of the sand say both.
    pub sand_clay: Option<[Known<Ratio>; 2]>,
}

impl Sanding {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.sand-to-add.{}.{noun}", self.name)
    }
}

/// What is to be added by a build file, in which these jars and gradings are.
pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    earth: Option<&Earth>,
    tests: (&[Jar], &[Grading]),
    system: System,
) -> Vec<Sanding> {
    build.sandings.iter().filter_map(|written| sanding(source, written, earth, tests, system)).collect()
}

fn sanding(
    source: &Source<'_>,
    written: &build::Sanding,
    earth: Option<&Earth>,
    (jars, gradings): (&[Jar], &[Grading]),
    system: System,
) -> Option<Sanding> {
    let named = |named: &Option<build::Written<String>>| {
        named.as_ref().and_then(|named| ingredient_named(source, named, earth))
    };
    let (soil, sand) = (named(&written.soil), named(&written.sand));
    let clay = within(source, written.clay.as_ref(), percent(1.0, 90.0), "the clay wanted in a mix", system);
    let (soil, sand, clay) = (soil?, sand?, clay?);
    let is_tested = |name: &str| {
        gradings.iter().any(|grading| grading.of == name && grading.says_clay())
            || jars.iter().any(|jar| jar.of == name && jar.is_read())
    };
    let at = written.soil.as_ref()?;
    // A test that was refused was told where it stands.
    let is_told = ["tests.jars", "tests.gradings"].iter().any(|tests| source.is_faulty(tests));
    if !is_told && !is_tested(&soil) {
        let message = format!("no test says how much clay is in \"{soil}\"");
        let hint = "shake a jar of it and write its layers in [tests.jars.NAME], or a grading in [tests.gradings.NAME]";
        source.fault(at.span.clone(), &at.path, message, hint);
        return None;
    }
    let own = written.sand_clay.each_ref().map(|own| {
        within(source, own.as_ref(), percent(0.0, 30.0), "the clay in sand, or how far it may be off", system)
    });
    let is_own = own.iter().any(Option::is_some);
    let sand_clay = (is_own || !is_tested(&sand)).then(|| {
        let mut nouns = ["sand-clay", "sand-error"].into_iter();
        own.map(|own| {
            let noun = nouns.next().unwrap_or_default();
            own.unwrap_or_else(|| {
                let path = format!("{}.{noun}", written.name.path);
                let why = "no test says how much clay is in the sand: shake a jar of it";
                Known::assumed(Ratio::fraction(number("sand-clay-ratio")), path, Origin::Judgement, why)
            })
        })
    });
    let at = written.clay.as_ref()?;
    if let Some([in_sand, _]) = sand_clay.as_ref().filter(|own| own[0].value >= clay.value) {
        let (found, wanted) = (shown(in_sand.value, system), shown(clay.value, system));
        let message = format!("the sand has {found} of clay itself, and {wanted} are wanted");
        source.fault(
            at.span.clone(),
            &at.path,
            message,
            "sand makes a mix leaner: take a cleaner sand, or want more clay",
        );
        return None;
    }
    Some(Sanding { name: written.name.value.clone(), soil, sand, clay, sand_clay })
}
