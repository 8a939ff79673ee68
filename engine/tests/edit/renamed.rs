//! A thing that has another name is the same thing in every place that means it.

use std::collections::BTreeSet;

use engine::answers::{Inputs, answers};
use engine::check::State;
use engine::edit::{Edit, written};
use engine::units::{Kind, Quantity};

use super::builds::{BUILDS, TANSY_BANK};
use super::{paths, refused, remove, rename};

/// Quantities with their kind, and checks with their state.
type Figures = (Vec<(Kind, Quantity)>, Vec<(String, State)>);

/// Every quantity with its kind, and every check with its state, whatever they are called.
fn figures(text: &str) -> Figures {
    let found = answers(&Inputs { build: text.as_bytes(), system: None });
    let found = found.unwrap_or_else(|problems| panic!("{}", problems.all()[0]));
    let order = |quantity: Quantity| quantity.si().unwrap_or_default();
    let mut quantities: Vec<(Kind, Quantity)> =
        found.rows.iter().map(|row| (row.quantity.kind(), row.quantity)).collect();
    quantities.sort_by(|(kind, a), (other, b)| kind.cmp(other).then(order(*a).total_cmp(&order(*b))));
    let mut checks: Vec<_> = found.checks.iter().map(|check| (check.rule.id.clone(), check.state)).collect();
    checks.sort();
    (quantities, checks)
}

/// The house of a text is that of another but for the names of its things.
fn assert_same_house(text: &str, other: &str, what: &str) {
    let ((quantities, checks), (others, other_checks)) = (figures(text), figures(other));
    assert_eq!(quantities.len(), others.len(), "{what}");
    for ((kind, one), (_, other)) in quantities.iter().zip(&others) {
        // What is summed in the order of the names differs by the rounding of binary fractions.
        let is_same = match (one.si(), other.si()) {
            (Some(one), Some(other)) => (one - other).abs() <= 1e-12 * one.abs().max(1.0),
            _ => one == other,
        };
        assert!(is_same, "{what}: {kind:?} {one:?} became {other:?}");
    }
    assert_eq!(checks, other_checks, "{what}");
}

#[test]
fn a_thing_renamed_is_named_anew_wherever_it_is_meant_and_the_house_is_the_same() {
    const NAMED: [&str; 16] = [
        "openings",
        "built-in",
        "services",
        "wall.line",
        "wall.lifts",
        "wall.anchors",
        "floor.layers",
        "floor.oil",
        "skin.inside",
        "skin.outside",
        "roof.layers",
        "earth.recipes",
        "earth.ingredients",
        "site.trees",
        "site.wells",
        "site.vehicles",
    ];
    let mut renamed = BTreeSet::new();
    for (_, text) in BUILDS {
        let (_, tables) = paths(text);
        for path in tables {
            let Some((parent, name)) = path.rsplit_once('.') else { continue };
            if !(NAMED.contains(&parent) || parent == "site.yard") || name.parse::<usize>().is_ok() {
                continue;
            }
            let new = rename(text, &path, "other-name");
            assert_same_house(text, &new, &path);
            let back = rename(&new, &format!("{parent}.other-name"), name);
            // The recipe of the wall is named from now on.
            let back = if name == "cob" { remove(&back, "wall.recipe") } else { back };
            assert!(back == text, "{path}");
            renamed.insert(parent.to_owned());
        }
    }
    assert!(NAMED.iter().all(|parent| renamed.contains(*parent)), "{renamed:?}");
}

#[test]
fn an_ingredient_renamed_keeps_its_supplier_in_every_part_that_takes_it() {
    let text = TANSY_BANK.replace("name = \"base\"\nof = \"floor-mix\"", "name = \"base\"\nof = \"sand\"");
    let text = text.replace("of = \"roof-soil\"", "of = \"soil\"");
    let text = remove(&text, "prices.roof-soil");
    for name in ["sand", "soil"] {
        let new = rename(&text, &format!("earth.ingredients.{name}"), "other-name");
        let tests = text.matches(&format!("of = \"{name}\"")).count() - 2;
        assert_eq!(new.matches("of = \"other-name\"").count(), 2 + tests, "the heap, the layer and the tests");
        assert_same_house(&text, &new, name);
    }
    // The trench takes gravel where nothing else is written.
    let text = remove(TANSY_BANK, "prices.gravel").replace("fine-sand", "gravel");
    let new = rename(&text, "earth.ingredients.gravel", "shingle");
    assert_eq!(written(&new, "water.trench.of").unwrap(), "shingle");
    assert_same_house(&text, &new, "gravel");
}

#[test]
fn a_layer_of_a_recipe_that_is_called_as_an_ingredient_keeps_its_recipe() {
    let text =
        TANSY_BANK.replace("[earth.recipes.floor-mix]", "[earth.recipes.sand]").replace("\"floor-mix\"", "\"sand\"");
    let of_base = |text: &str| written(text, "floor.layers.base.of").unwrap();
    let new = rename(&text, "earth.ingredients.sand", "grit");
    assert_eq!([of_base(&new), written(&new, "site.yard.sand-heap.of").unwrap()], ["sand", "grit"]);
    let new = rename(&text, "earth.recipes.sand", "base-mix");
    assert_eq!([of_base(&new), written(&new, "site.yard.sand-heap.of").unwrap()], ["base-mix", "sand"]);
}

#[test]
fn a_name_that_is_taken_or_is_none_and_one_of_the_program_are_refused() {
    let text = TANSY_BANK;
    for (path, to, said) in [
        ("openings.door", "east-light", "the name \"east-light\" is taken"),
        ("openings.door", "The Door", "is no name"),
        ("earth.ingredients.sand", "gravel", "the name \"gravel\" is taken"),
        ("earth.ingredients.sand", "membrane", "the name \"membrane\" is taken"),
        ("earth.ingredients.sand", "slip", "the name \"slip\" is taken"),
        ("earth.ingredients.sand", "tile", "the name \"tile\" is taken"),
        ("earth.recipes.slip", "gravel", "the name \"gravel\" is taken"),
        ("earth.recipes.slip", "sand", "the name \"sand\" is taken"),
        ("wall.bond-beam", "beam", "the program's own"),
        ("prices.tile", "shards", "none of its own"),
        ("openings.hatch", "door-two", "nothing is written there"),
    ] {
        let refused = refused(text, Edit::Rename { path: path.into(), to: to.into() });
        assert!(refused.contains(said), "{refused}");
    }
}
