//! The tables of timber: strength classes, factors and species, each value with its work and how we have it.

use std::sync::LazyLock;

use crate::facts::{Fact, facts, lines};
use crate::sources::{Citation, Standing};
use crate::units::{Density, Pressure, Ratio};

/// A strength class of EN 338: characteristic values, the twentieth lowest of a hundred pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct StrengthClass {
    /// Its name, such as "C24".
    pub name: String,
    /// Bending.
    pub bending: Pressure,
    /// Tension along the grain.
    pub tension: Pressure,
    /// Compression along the grain.
    pub compression: Pressure,
    /// Compression across the grain.
    pub across: Pressure,
    /// Shear.
    pub shear: Pressure,
    /// Modulus of elasticity along the grain, mean.
    pub stiffness: Pressure,
    /// The same, twentieth lowest of a hundred.
    pub low_stiffness: Pressure,
    /// Shear modulus, mean.
    pub shear_stiffness: Pressure,
    /// Density, twentieth lowest of a hundred.
    pub low_density: Density,
    /// Density, mean.
    pub mean_density: Density,
    /// Where it comes from.
    pub citation: Citation,
    /// In what the edition of 2016 differs.
    pub later_edition: String,
}

impl StrengthClass {
    /// Whether it is of a softwood: the factors of bearing and embedment are of softwood alone.
    #[must_use]
    pub fn is_softwood(&self) -> bool {
        self.name.starts_with('C')
    }
}

/// Reference design values of sawn lumber of one grade.
#[derive(Clone, Debug, PartialEq)]
pub struct SawnClass {
    /// Species group and grade, such as "DF-L No.2".
    pub name: String,
    /// Bending, Fb.
    pub bending: Pressure,
    /// Tension along the grain, Ft.
    pub tension: Pressure,
    /// Compression along the grain, Fc.
    pub compression: Pressure,
    /// Compression across the grain.
    pub across: Pressure,
    /// Shear, Fv.
    pub shear: Pressure,
    /// Modulus of elasticity, E.
    pub stiffness: Pressure,
    /// The same for stability, E min.
    pub low_stiffness: Pressure,
    /// Specific gravity, oven dry.
    pub gravity: f64,
    /// Where it comes from.
    pub citation: Citation,
}

/// A kind of tree.
#[derive(Clone, Debug, PartialEq)]
pub struct Species {
    /// Its name.
    pub name: String,
    /// Class of EN 338 that an ungraded pole may be taken for, on trust; none where no class is safe.
    pub class: Option<String>,
    /// The same among sawn grades.
    pub sawn_class: Option<String>,
    /// Why that class.
    pub class_why: String,
    /// Density as felled.
    pub green: Density,
    /// Density air-dry.
    pub dry: Density,
    /// How we have the densities.
    pub density_standing: Standing,
    /// Shrinkage along the radius, green to oven-dry.
    pub radial: Ratio,
    /// Shrinkage along the rings, green to oven-dry.
    pub tangential: Ratio,
    /// Where the shrinkage comes from.
    pub citation: Citation,
}

type Table<T> = LazyLock<Result<Vec<T>, String>>;

// Constant data, read from its text once.
static CLASSES: Table<StrengthClass> =
    LazyLock::new(|| classes("strength-classes.csv", include_str!("../../../data/timber/strength-classes.csv")));
static SAWN: Table<SawnClass> =
    LazyLock::new(|| sawn("nds-sawn.csv", include_str!("../../../data/timber/nds-sawn.csv")));
static SPECIES: Table<Species> =
    LazyLock::new(|| trees("species.csv", include_str!("../../../data/timber/species.csv")));
static FACTORS: Table<Fact> = LazyLock::new(|| facts("factors.csv", include_str!("../../../data/timber/factors.csv")));

/// The classes of EN 338 in the order of strength.
#[must_use]
pub fn strength_classes() -> &'static [StrengthClass] {
    CLASSES.as_deref().unwrap_or_default()
}

/// The grades of sawn lumber.
#[must_use]
pub fn sawn_classes() -> &'static [SawnClass] {
    SAWN.as_deref().unwrap_or_default()
}

/// The kinds of tree.
#[must_use]
pub fn species() -> &'static [Species] {
    SPECIES.as_deref().unwrap_or_default()
}

/// A factor of the table by its name; none where the table has no such name.
#[must_use]
pub fn factor(name: &str) -> Option<&'static Fact> {
    FACTORS.as_deref().unwrap_or_default().iter().find(|fact| fact.name == name)
}

fn classes(table: &str, text: &str) -> Result<Vec<StrengthClass>, String> {
    lines(table, text, |line| {
        let stress = |head| line.number(head).map(Pressure::mpa);
        let density = |head| line.number(head).map(Density::kg_m3);
        Ok(StrengthClass {
            name: line.text("class")?,
            bending: stress("bending_mpa")?,
            tension: stress("tension_mpa")?,
            compression: stress("compression_mpa")?,
            across: stress("across_mpa")?,
            shear: stress("shear_mpa")?,
            stiffness: stress("e_mean_mpa")?,
            low_stiffness: stress("e_low_mpa")?,
            shear_stiffness: stress("g_mean_mpa")?,
            low_density: density("density_low_kg_m3")?,
            mean_density: density("density_mean_kg_m3")?,
            citation: line.citation()?,
            later_edition: line.text("edition_of_2016")?,
        })
    })
}

fn sawn(table: &str, text: &str) -> Result<Vec<SawnClass>, String> {
    lines(table, text, |line| {
        let stress = |head| line.number(head).map(Pressure::psi);
        Ok(SawnClass {
            name: line.text("class")?,
            bending: stress("bending_psi")?,
            tension: stress("tension_psi")?,
            compression: stress("compression_psi")?,
            across: stress("across_psi")?,
            shear: stress("shear_psi")?,
            stiffness: stress("e_psi")?,
            low_stiffness: stress("e_min_psi")?,
            gravity: line.number("gravity")?,
            citation: line.citation()?,
        })
    })
}

fn trees(table: &str, text: &str) -> Result<Vec<Species>, String> {
    lines(table, text, |line| {
        let class = |head| line.text(head).map(|class| Some(class).filter(|class| !class.is_empty()));
        Ok(Species {
            name: line.text("species")?,
            class: class("class")?,
            sawn_class: class("sawn_class")?,
            class_why: line.text("class_why")?,
            green: Density::kg_m3(line.number("green_kg_m3")?),
            dry: Density::kg_m3(line.number("dry_kg_m3")?),
            density_standing: line.standing("density_how")?,
            radial: Ratio::fraction(line.number("radial_ratio")?),
            tangential: Ratio::fraction(line.number("tangential_ratio")?),
            citation: line.citation()?,
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_table_reads_and_no_name_stands_twice() {
        let classes = CLASSES.as_ref().unwrap().iter().map(|class| class.name.as_str());
        let sawn = SAWN.as_ref().unwrap().iter().map(|class| class.name.as_str());
        let trees = SPECIES.as_ref().unwrap().iter().map(|tree| tree.name.as_str());
        let factors = FACTORS.as_ref().unwrap().iter().map(|fact| fact.name.as_str());
        let mut names: Vec<&str> = classes.chain(sawn).chain(trees).chain(factors).collect();
        let count = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!((names.len(), count > 60), (count, true));
    }

    #[test]
    fn a_table_with_a_slip_names_itself_and_the_line() {
        let heads = include_str!("../../../data/timber/strength-classes.csv").lines().next().unwrap();
        let told = classes("strength-classes.csv", &format!("{heads}\nC14,14,8,16,2.0,strong,1,1,1,1,1,w,p,seen,\n"));
        assert_eq!(told.unwrap_err(), "strength-classes.csv, line 2: `shear_mpa` is \"strong\", not a number");
        let heads = include_str!("../../../data/timber/nds-sawn.csv").lines().next().unwrap();
        let told = sawn("nds-sawn.csv", &format!("{heads}\na,1,1,1,1,1,1,1,.5,w,p,sure,\n"));
        assert_eq!(told.unwrap_err(), "nds-sawn.csv, line 2: how we have it: \"sure\"");
        let told = trees("species.csv", "species,class,sawn_class\nfir,C16,\n");
        assert_eq!(told.unwrap_err(), "species.csv, line 2: there is no column `class_why`");
    }

    #[test]
    fn a_stronger_class_is_in_nothing_weaker_and_the_low_values_lie_below_the_mean() {
        for pair in strength_classes().windows(2).filter(|pair| pair[0].is_softwood() == pair[1].is_softwood()) {
            assert!(pair[0].bending < pair[1].bending && pair[0].shear <= pair[1].shear, "{}", pair[1].name);
            assert!(pair[0].compression < pair[1].compression && pair[0].stiffness < pair[1].stiffness);
            assert!(pair[0].across <= pair[1].across && pair[0].low_density < pair[1].low_density);
        }
        assert!(strength_classes().iter().all(|class| class.low_stiffness < class.stiffness));
        assert!(strength_classes().iter().all(|class| class.low_density < class.mean_density));
    }

    #[test]
    fn the_class_of_a_tree_is_in_its_table_and_a_tree_shrinks_more_along_its_rings() {
        for tree in species() {
            let known = tree.class.as_ref().is_none_or(|name| strength_classes().iter().any(|one| one.name == *name));
            let sawn = tree.sawn_class.as_ref().is_none_or(|name| sawn_classes().iter().any(|one| one.name == *name));
            assert!(known && sawn, "{}", tree.name);
            assert!(tree.radial < tree.tangential && tree.dry < tree.green, "{}", tree.name);
        }
    }

    #[test]
    fn the_factor_of_a_shorter_load_and_of_a_drier_place_is_never_smaller() {
        let kmod = |place: u8, load: &str| factor(&format!("kmod-{place}-{load}")).unwrap().number;
        let loads = ["permanent", "long", "medium", "short", "instantaneous"];
        for place in 1..=3 {
            assert!(loads.windows(2).all(|pair| kmod(place, pair[0]) < kmod(place, pair[1])));
            assert!(place == 1 || loads.iter().all(|load| kmod(place, load) <= kmod(place - 1, load)));
        }
        assert_eq!(factor("kmod-2-forever"), None);
    }
}
