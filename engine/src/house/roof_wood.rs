//! The code that a roof is held by, the wood of its poles with nothing missing, and the bolts of its crossings.

use super::place::{nearest, shown, within};
use crate::build::{self, Build, Source, Written};
use crate::known::{Known, Origin};
use crate::timber::tables::{self, SawnClass, StrengthClass};
use crate::units::{Density, Length, Pressure, System};

/// A code by which timber is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Code {
    /// EN 1990, 1991 and 1995.
    En,
    /// ASCE 7 and allowable stresses.
    Asce,
}

impl Code {
    /// The rulebook that goes by it.
    #[must_use]
    pub fn rulebook(self) -> &'static str {
        match self {
            Code::En => "eurocode-timber",
            Code::Asce => "asd-timber",
        }
    }
}

/// The wood of the poles.
#[derive(Clone, Debug)]
pub struct Wood {
    /// Its values.
    pub values: Values,
    /// Whether it is laid green and dries under its load.
    pub is_green: bool,
    /// The place of damp: 1, 2 or 3.
    pub damp: Known<u64>,
}

/// Characteristic or reference values.
#[derive(Clone, Debug)]
pub struct Values {
    /// Bending.
    pub bending: Known<Pressure>,
    /// Tension along the grain.
    pub tension: Known<Pressure>,
    /// Compression along the grain.
    pub compression: Known<Pressure>,
    /// Compression across the grain.
    pub across: Known<Pressure>,
    /// Shear.
    pub shear: Known<Pressure>,
    /// Modulus of elasticity, mean.
    pub stiffness: Known<Pressure>,
    /// The same for buckling.
    pub low_stiffness: Known<Pressure>,
    /// Shear modulus.
    pub shear_stiffness: Known<Pressure>,
    /// Densities, low and mean; a code of allowable stresses has none.
    pub densities: Option<[Known<Density>; 2]>,
    /// Specific gravity, oven dry, of a code of allowable stresses.
    pub gravity: Option<Known<f64>>,
}

/// A bolt through a crossing.
#[derive(Clone, Debug)]
pub struct Bolt {
    /// Its diameter.
    pub diameter: Known<Length>,
    /// Side of its washers.
    pub washer: Known<Length>,
}

/// The code of a build; nothing where two are named, `Some(None)` where none is.
pub(super) fn code(source: &Source<'_>, build: &Build) -> Option<Option<Code>> {
    let Some(books) = &build.site.rulebooks else { return Some(None) };
    let named = |code: &Code| books.value.iter().any(|book| book.value == code.rulebook());
    let codes: Vec<Code> = [Code::En, Code::Asce].into_iter().filter(named).collect();
    if codes.len() > 1 {
        let message = "one roof cannot be held by two codes of timber";
        source.fault(books.span.clone(), &books.path, message, "name \"eurocode-timber\" or \"asd-timber\"");
        return None;
    }
    Some(codes.first().copied())
}

pub(super) fn bolt(source: &Source<'_>, written: &build::RoofBolt, system: System) -> Option<Bolt> {
    let diameter = within(source, written.diameter.as_ref(), bolts(), "the diameter of a bolt", system);
    let washer = within(source, written.washer.as_ref(), washers(), "the side of a washer", system);
    let bolt = Bolt {
        diameter: diameter.unwrap_or_else(|| {
            let why = "one bolt through each crossing, thick enough to be found by its nut";
            Known::assumed(Length::mm(16.0), "roof.bolt.diameter", Origin::Judgement, why)
        }),
        washer: washer.unwrap_or_else(|| {
            let why = "a square plate under head and nut";
            Known::assumed(Length::mm(60.0), "roof.bolt.washer", Origin::Judgement, why)
        }),
    };
    let blamed = written.washer.as_ref().or(written.diameter.as_ref());
    covers(source, (blamed, "[roof.bolt]"), (bolt.washer.value, bolt.diameter.value), system).then_some(bolt)
}

/// Refuses a washer that does not cover the hole of its bolt; `blamed` is what is written of the two, and the table of the washer.
pub(super) fn covers(
    source: &Source<'_>,
    (blamed, table): (Option<&Written<Length>>, &str),
    (washer, diameter): (Length, Length),
    system: System,
) -> bool {
    let Some(blamed) = blamed.filter(|_| washer <= diameter) else { return true };
    let [washer, diameter] = [washer, diameter].map(|size| shown(size, system));
    let message = format!("a washer of {washer} lets its bolt of {diameter} through");
    let hint = format!("write a larger `washer` in {table}, or a thinner bolt");
    source.fault(blamed.span.clone(), &blamed.path, message, hint);
    false
}

/// Sides of washers.
pub(super) fn washers() -> std::ops::Range<Length> {
    Length::mm(15.0)..Length::mm(200.0)
}

/// Diameters of bolts.
pub(super) fn bolts() -> std::ops::Range<Length> {
    Length::mm(6.0)..Length::mm(30.000_001)
}

/// Where the values of a pole come from.
struct From<'t, T> {
    class: &'t T,
    origin: Origin,
    why: &'static str,
}

pub(super) fn wood(source: &Source<'_>, written: &build::Wood, code: Code, system: System) -> Option<Wood> {
    damp_is_a_place(source, written.damp.as_ref())?;
    let damp = super::place::known(written.damp.as_ref()).unwrap_or_else(|| {
        Known::assumed(2, "poles.damp", Origin::Judgement, "under a roof, above a room that is heated now and then")
    });
    let values = graded(source, written, "poles", code)?;
    let values = own(source, &written.strength, values, code, system)?;
    Some(Wood { values, is_green: written.green.as_ref().is_some_and(|green| green.value), damp })
}

/// Refuses a place of damp that there is not.
pub(super) fn damp_is_a_place(source: &Source<'_>, damp: Option<&Written<u64>>) -> Option<()> {
    let Some(damp) = damp.filter(|damp| !(1..=3).contains(&damp.value)) else { return Some(()) };
    let hint = "write 1 for a dry and heated room, 2 under a roof, 3 where it gets wet";
    source.fault(damp.span.clone(), &damp.path, format!("{} is no place of damp", damp.value), hint);
    None
}

/// Refuses a class or grade that the table of no code has.
pub(super) fn is_a_class(source: &Source<'_>, class: &Written<String>) -> bool {
    let of_europe = tables::strength_classes().iter().map(|class| class.name.as_str());
    let of_america = tables::sawn_classes().iter().map(|class| class.name.as_str());
    let names = of_europe.chain(of_america);
    let is_one = names.clone().any(|name| name == class.value);
    if !is_one {
        let hint = nearest(names, &class.value);
        source.fault(class.span.clone(), &class.path, format!("there is no class \"{}\"", class.value), hint);
    }
    is_one
}

/// The values of the class that is written, of the kind of tree, or of the least class, under a stem of keys.
pub(super) fn graded(source: &Source<'_>, written: &build::Wood, stem: &str, code: Code) -> Option<Values> {
    let path = |noun: &str| format!("{stem}.strength.{noun}");
    Some(match code {
        Code::En => {
            let classes = tables::strength_classes();
            by_class(&class(source, written, classes, |class| &class.name, |tree| &tree.class, "C14")?, path)
        }
        Code::Asce => {
            let classes = tables::sawn_classes();
            by_grade(&class(source, written, classes, |class| &class.name, |tree| &tree.sawn_class, "DF-L No.3")?, path)
        }
    })
}

/// The class that is written, that of the kind of tree, or the least that poles are taken for.
fn class<'t, T>(
    source: &Source<'_>,
    written: &build::Wood,
    classes: &'t [T],
    name: impl Fn(&T) -> &String,
    of_tree: impl Fn(&tables::Species) -> &Option<String>,
    least: &str,
) -> Option<From<'t, T>> {
    let named = |wanted: &str| classes.iter().find(|class| name(class) == wanted);
    if let Some(graded) = &written.class {
        let Some(class) = named(&graded.value) else {
            let hint = nearest(classes.iter().map(|class| name(class).as_str()), &graded.value);
            source.fault(graded.span.clone(), &graded.path, format!("there is no class \"{}\"", graded.value), hint);
            return None;
        };
        return Some(From {
            class,
            origin: Origin::Memory,
            why: "of the class that is written, as its table is quoted",
        });
    }
    let why = "no pole was graded: the least class that poles of softwood were taken for";
    let Some(tree) = &written.tree else {
        return Some(From { class: named(least)?, origin: Origin::Judgement, why });
    };
    let Some(species) = tables::species().iter().find(|species| species.name == tree.value) else {
        let hint = nearest(tables::species().iter().map(|species| species.name.as_str()), &tree.value);
        source.fault(tree.span.clone(), &tree.path, format!("no kind of tree is called \"{}\"", tree.value), hint);
        return None;
    };
    let Some(class) = of_tree(species).as_deref().and_then(named) else {
        let message = format!("no class is safe for poles of {} that nobody graded", species.name.replace('-', " "));
        source.fault(
            tree.span.clone(),
            &tree.path,
            message,
            "have them graded and write class = \"C24\", or what they are",
        );
        return None;
    };
    Some(From {
        class,
        origin: Origin::Judgement,
        why: "a class that straight sound poles of this tree may be taken for",
    })
}

fn by_class(from: &From<'_, StrengthClass>, path: impl Fn(&str) -> String) -> Values {
    let known = |noun: &str, value: Pressure| Known::assumed(value, path(noun), from.origin, from.why);
    let density = |noun: &str, value: Density| Known::assumed(value, path(noun), from.origin, from.why);
    let class = from.class;
    Values {
        bending: known("bending", class.bending),
        tension: known("tension", class.tension),
        compression: known("compression", class.compression),
        across: known("across", class.across),
        shear: known("shear", class.shear),
        stiffness: known("stiffness", class.stiffness),
        low_stiffness: known("low-stiffness", class.low_stiffness),
        shear_stiffness: known("shear-stiffness", class.shear_stiffness),
        densities: Some([density("low-density", class.low_density), density("mean-density", class.mean_density)]),
        gravity: None,
    }
}

fn by_grade(from: &From<'_, SawnClass>, path: impl Fn(&str) -> String) -> Values {
    let known = |noun: &str, value| Known::assumed(value, path(noun), from.origin, from.why);
    let class = from.class;
    let share = tables::factor("g-share-sawn").map_or(f64::NAN, |fact| fact.number);
    Values {
        bending: known("bending", class.bending),
        tension: known("tension", class.tension),
        compression: known("compression", class.compression),
        across: known("across", class.across),
        shear: known("shear", class.shear),
        stiffness: known("stiffness", class.stiffness),
        low_stiffness: known("low-stiffness", class.low_stiffness),
        shear_stiffness: known("shear-stiffness", class.stiffness * share),
        densities: None,
        gravity: Some(Known::assumed(class.gravity, path("gravity"), from.origin, from.why)),
    }
}

/// The same with what the builder wrote instead.
pub(super) fn own(
    source: &Source<'_>,
    written: &build::Strength,
    mut values: Values,
    code: Code,
    system: System,
) -> Option<Values> {
    for (key, stress) in &written.stresses {
        let (stresses, what) = if key.ends_with("stiffness") {
            (Pressure::kpa(100.0)..Pressure::mpa(60_000.0), "a stiffness of wood")
        } else {
            (Pressure::kpa(100.0)..Pressure::mpa(150.0), "a strength of wood")
        };
        let known = within(source, Some(stress), stresses, what, system)?;
        let own = match *key {
            "bending" => &mut values.bending,
            "tension" => &mut values.tension,
            "compression" => &mut values.compression,
            "across" => &mut values.across,
            "shear" => &mut values.shear,
            "stiffness" => &mut values.stiffness,
            "low-stiffness" => &mut values.low_stiffness,
            _ => &mut values.shear_stiffness,
        };
        *own = known;
    }
    for (key, density) in &written.densities {
        if code == Code::Asce {
            let message = "allowable stresses know no density of the wood";
            source.fault(density.span.clone(), &density.path, message, "leave it out: `density` is what it weighs");
            return None;
        }
        let densities = Density::kg_m3(150.0)..Density::kg_m3(1300.0);
        let known = within(source, Some(density), densities, "the density of wood", system)?;
        if let Some([low, mean]) = &mut values.densities {
            *(if *key == "low-density" { low } else { mean }) = known;
        }
    }
    if let Some(gravity) = &written.gravity {
        if code == Code::En {
            let message = "the European code asks for a density, not for a specific gravity";
            source.fault(gravity.span.clone(), &gravity.path, message, "write `low-density`");
            return None;
        }
        values.gravity = Some(within(source, Some(gravity), 0.2..1.2, "the specific gravity of wood", system)?);
    }
    Some(values)
}
