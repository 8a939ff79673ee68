//! The whole is the sum of its parts, and every row says what it is.

use super::edit::{BUILDS, answered};

#[test]
fn the_whole_is_the_sum_of_its_parts() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        let value = |path: &str| answers.rows.find(path).unwrap().quantity.si().unwrap();
        let sum = |noun: &str| {
            let built_in = if noun == "volume" { "removed-volume" } else { noun };
            let taken = ["openings.*", "built-in.*", "services.*", "wall.anchors.*"].map(|stem| {
                let noun = if stem == "openings.*" { noun } else { built_in };
                format!("{stem}.{noun}")
            });
            let rows = taken.iter().flat_map(|pattern| answers.rows.matching(pattern));
            rows.map(|row| row.quantity.si().unwrap()).sum::<f64>()
        };
        for (net, gross, noun) in [
            ("wall.volume", "wall.gross-volume", "volume"),
            ("wall.outer-area", "wall.outer-gross-area", "outer-area"),
            ("wall.inner-area", "wall.inner-gross-area", "inner-area"),
            ("wall.stem.volume", "wall.stem.gross-volume", "stem-volume"),
        ] {
            let lintels = if noun == "volume" { sum("lintel.volume") } else { 0.0 };
            assert!((value(net) + sum(noun) + lintels - value(gross)).abs() < 1e-12, "{name}: {net}");
        }
        let lifts = answers.rows.matching("wall.lifts.*.volume").map(|row| row.quantity.si().unwrap());
        assert!((lifts.sum::<f64>() - value("wall.volume")).abs() < 1e-9, "{name}: the lifts are not the wall");
    }
}

#[test]
fn every_row_is_named_once_bound_and_explained() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        for row in answers.rows.iter() {
            let path = &row.path;
            assert!(std::ptr::eq(answers.rows.find(path).unwrap(), row), "{name}: {path} is there twice");
            let words = row.reason.words();
            assert!(!row.title.is_empty() && !words.title.is_empty(), "{name}: {path} has no words");
            if row.own.is_none() {
                assert!(!words.equation.is_empty() && !words.source.is_empty(), "{name}: {path} is not explained");
                assert!(!row.reason.inputs.is_empty(), "{name}: {path} comes from nothing");
            }
            for input in &row.reason.inputs {
                let found = answers.rows.find(&input.path);
                assert!(found.is_some(), "{name}: input \"{}\" of {path} is bound to \"{}\"", input.name(), input.path);
                assert_eq!(found.unwrap().quantity, input.quantity, "{name}: input \"{}\" of {path}", input.name());
            }
        }
    }
}
