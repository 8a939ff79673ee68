//! Orders: nothing twice, nothing missing, whole units, money to the last minor unit; batches whose parts make the whole.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/edit.rs"]
#[allow(dead_code, reason = "shared with the laws")]
mod edit;

use std::collections::BTreeMap;

use edit::{BUILDS, answered};
use engine::answers::Answers;
use engine::units::{Money, Quantity};

fn value(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("no {path}")).quantity.si().unwrap()
}

fn money(answers: &Answers, path: &str) -> Money {
    Money::try_from(answers.rows.find(path).unwrap_or_else(|| panic!("no {path}")).quantity).unwrap()
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(other.abs()).max(1e-6)
}

/// The rows that say what a part of the house takes from outside.
const TAKEN: [&str; 32] = [
    "earth.recipes.*.need.*",
    "floor.layers.*.loose-volume",
    "skin.inside.*.loose-volume",
    "skin.outside.*.loose-volume",
    "roof.layers.*.area",
    "roof.deck.bought-area",
    "water.*.filling-loose",
    "water.*.fabric",
    "wall.stem.face-mass",
    "wall.stem.hearting-mass",
    "openings.*.frame.volume",
    "openings.*.sill-board.volume",
    "openings.*.lintel.volume",
    "wall.bond-beam.timber",
    "wall.bond-beam.bolts-in-all",
    "wall.bond-beam.shims",
    "openings.*.frame.anchors-in-all",
    "built-in.*.tile-area",
    "built-in.*.bedding-volume",
    "built-in.*.grout-volume",
    "built-in.*.bricks",
    "built-in.*.footing-loose-volume",
    "built-in.*.fill-loose-volume",
    "wall.anchors.*.count",
    "built-in.*.count",
    "built-in.*.board-area",
    "built-in.*.stone-mass",
    "services.*.count",
    "services.*.length",
    "services.*.box-count",
    "floor.oil.*.oil-volume",
    "floor.oil.*.thinner-volume",
];

/// The rows that measure the same amount as another: by volume instead of mass or area.
fn twin(path: &str) -> String {
    if let Some(stem) = path.strip_suffix(".timber") {
        return format!("{stem}.pieces");
    }
    if let Some(stem) = path.strip_suffix(".area") {
        return format!("{stem}.loose-volume");
    }
    if let Some(stem) = path.strip_suffix(".need.water") {
        return format!("{stem}.water-in-all");
    }
    path.replace(".need.", ".loose.")
}

#[test]
fn all_that_is_taken_stands_in_one_order_and_nothing_else_does() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        let mut ordered: BTreeMap<&str, usize> = BTreeMap::new();
        for row in answers.rows.matching("order.*.needed") {
            for input in &row.reason.inputs {
                *ordered.entry(input.path.as_str()).or_default() += 1;
            }
        }
        assert!(ordered.values().all(|times| *times == 1), "{name}: {ordered:?}");
        let mut taken = 0;
        // Bed and grout may be made of a recipe, whose parts are ordered instead.
        let mixed = answers.rows.matching("earth.recipes.*.volume").flat_map(|row| &row.reason.inputs);
        let mixed: Vec<&str> = mixed.map(|input| input.path.as_str()).collect();
        let taken_rows = TAKEN.iter().flat_map(|pattern| answers.rows.matching(pattern));
        // Boards that are cut by a list are ordered as they are bought.
        let listed = answers.rows.find("roof.deck.bought-area").is_some();
        let is_ordered_so = |path: &str| !(mixed.contains(&path) || listed && path == "roof.layers.boards.area");
        for row in taken_rows.filter(|row| is_ordered_so(&row.path)) {
            let other = twin(&row.path);
            let (one, two) = (ordered.contains_key(row.path.as_str()), ordered.contains_key(other.as_str()));
            assert!(one != two || (one && other == row.path), "{name}: {} is ordered {one}, {other} {two}", row.path);
            taken += 1;
        }
        let poles = ordered.keys().filter(|path| path.ends_with("poles.count")).count();
        // Sheets, bags and trestles are ordered only where they have a price: most are borrowed.
        let is_borrowed = |path: &str| ["wall.cover.", "wall.platform."].iter().any(|stem| path.starts_with(stem));
        let borrowed = ordered.keys().filter(|path| is_borrowed(path)).count();
        assert_eq!(taken + poles + borrowed, ordered.len(), "{name}: {ordered:?}");
    }
}

#[test]
fn an_order_holds_what_is_needed_with_its_loss_and_not_a_unit_more() {
    let mut tried = 0;
    for (name, text) in BUILDS {
        let answers = answered(text);
        for order in &answers.orders {
            let Some(units) = answers.rows.find(&order.path("units")) else { continue };
            let units = units.quantity.si().unwrap();
            let bought = answers.rows.find(&order.path("bought")).or(answers.rows.find(&order.path("needed"))).unwrap();
            let holds = answers
                .rows
                .find(&format!("prices.{}.holds", order.name))
                .map(|row| row.quantity)
                .or(order.sold_by.unwrap().holds())
                .unwrap_or_else(|| Quantity::Number(bucket(&answers)));
            let wanted =
                bought.quantity.si().unwrap() * (1.0 + value(&answers, &format!("prices.{}.loss", order.name)));
            let holds = holds.si().unwrap();
            assert!(units * holds >= wanted * (1.0 - 1e-9), "{name}: {} is short", order.name);
            assert!((units - 1.0) * holds < wanted, "{name}: a unit of {} too much", order.name);
            tried += 1;
        }
    }
    assert!(tried > 20);
}

fn bucket(answers: &Answers) -> f64 {
    let filled = answers.rows.find("earth.bucket.filled").or(answers.rows.find("earth.bucket.brim"));
    filled.unwrap().quantity.si().unwrap()
}

#[test]
fn the_total_is_the_sum_of_the_orders_to_the_last_minor_unit() {
    for (name, text) in &BUILDS[..2] {
        let answers = answered(text);
        let mut sum = 0;
        for order in &answers.orders {
            let Some(price) = answers.rows.find(&format!("prices.{}.price", order.name)) else { continue };
            let units = answers.rows.find(&order.path("units"));
            let units = units.or(answers.rows.find(&format!("prices.{}.count", order.name))).unwrap();
            let price = Money::try_from(price.quantity).unwrap();
            let cost = money(&answers, &order.path("cost"));
            assert_eq!(cost.minor, price.minor * units.quantity.si().unwrap() as i64, "{name}: {}", order.name);
            sum += cost.minor;
        }
        assert!(sum > 0);
        assert_eq!(money(&answers, "order.total").minor, sum, "{name}");
        let rate = money(&answers, "order.total-per-m2").minor as f64 * value(&answers, "room.area");
        assert!((rate - sum as f64).abs() <= 0.5 * value(&answers, "room.area"), "{name}");
    }
}

#[test]
fn a_batch_is_made_of_its_parts_and_the_lifts_of_batches() {
    for (name, text) in &BUILDS[..2] {
        let answers = answered(text);
        for recipe in &answers.recipes {
            let at = |noun: &str| value(&answers, &format!("earth.recipes.{recipe}.{noun}"));
            let sum = |noun: &str| -> f64 {
                let pattern = format!("earth.recipes.{recipe}.{noun}.*");
                answers.rows.matching(&pattern).map(|row| row.quantity.si().unwrap()).sum()
            };
            assert!(near(sum("mass"), at("dry-mass")) && near(sum("share"), 1.0), "{name}: {recipe}");
            let wet = at("dry-mass") + at("pile-water") + at("water-mass") + at("straw-mass");
            assert!(near(wet, at("wet-mass")), "{name}: {recipe} loses water");
            // What is placed holds all that was bought for it, dry.
            let dry = at("volume") * at("density");
            assert!(near(sum("need") - at("need.water"), dry), "{name}: {recipe}: {} and {dry}", sum("need"));
        }
        let lifts = |noun: &str| -> f64 {
            answers.rows.matching(&format!("wall.lifts.*.{noun}")).map(|row| row.quantity.si().unwrap()).sum()
        };
        assert!(near(lifts("to-mix"), value(&answers, "wall.to-mix")), "{name}");
        // What is built onto the wall is made of the same cob.
        let of_cob = ["built-in.*.volume", "built-in.*.thermal-volume", "wall.gap.to-mix"];
        let built_in = of_cob.iter().flat_map(|pattern| answers.rows.matching(pattern));
        let built_in = built_in.map(|row| row.quantity.si().unwrap()).sum::<f64>();
        let all = lifts("batches") * value(&answers, "earth.recipes.cob.placed-volume") + built_in;
        assert!(built_in > 0.0 && near(all, value(&answers, "earth.recipes.cob.volume")), "{name}");
        // A top that rises ends the last lift where it is the highest.
        let high = if answers.rows.find("wall.highest").is_some() { "wall.highest" } else { "wall.height" };
        assert!(near(lifts("height"), value(&answers, high)), "{name}");
        let last = answers.rows.matching("wall.lifts.*.standing").last().unwrap();
        assert!(near(lifts("mass"), last.quantity.si().unwrap()), "{name}: the last lift does not stand on all others");
    }
}
