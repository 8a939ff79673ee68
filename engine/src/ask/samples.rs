//! Questions of samples that are not crushed: bars that shrink, sand that bulks, faces that wash, plaster by its class.

use serde_json::json;

use super::given::Given;
use super::{Question, Reply};
use crate::earth::tables::erosion_steps;
use crate::earth::{self, strength};
use crate::reason::{Reason, Words};
use crate::units::{Kind, Length, Mass, Pressure, Ratio, Speed};

pub(super) const SHRINKAGE: Question = Question {
    name: "shrinkage",
    about: "What bars of a mix shrink by on drying, against the limit of the cob appendix",
    example: r#"{"bars": [{"form_m": 0.6096, "gap_m": 0.0203}, {"form_m": 0.6096, "gap_m": 0.0185}]}"#,
    answer: shrinkage,
};

pub(super) const BULKING: Question = Question {
    name: "bulking",
    about: "How much looser damp sand lies than flooded sand, from straight jars, and how far that may be off",
    example: r#"{"reading_m": 0.001, "jars": [{"damp_m": 0.182, "flooded_m": 0.14}, {"damp_m": 0.175, "flooded_m": 0.137}]}"#,
    answer: bulking,
};

pub(super) const EROSION: Question = Question {
    name: "erosion",
    about: "What spray and drips wash out of a sample, by the indices of NZS 4298, and what a cube drinks",
    example: r#"{"drip_pit_m": 0.007, "spray_m_s": 9.72222222222222e-6, "dry_kg": 3.1, "wet_kg": 3.19}"#,
    answer: erosion,
};

pub(super) const PLASTER: Question = Question {
    name: "plaster-class",
    about: "Whether a clay plaster is of strength class S II of DIN 18947",
    example: r#"{"compression_pa": 1.6e6, "adhesion_pa": 0.12e6, "abrasion_kg": 0.0006, "rupture_pa": 0.8e6}"#,
    answer: plaster,
};

fn shrinkage(given: &mut Given<'_>, reply: &mut Reply) {
    let mut place = 0;
    let bars = given.list("bars", |one| {
        place += 1;
        let (form, gap) = (one.number::<Length>("form_m", Kind::Length), one.number::<Length>("gap_m", Kind::Length));
        let (form, gap) = (form?, gap?);
        if form <= Length::ZERO || gap < Length::ZERO || gap >= form {
            one.problem("a gap is not below zero and less than the form".into());
            return None;
        }
        Some((form, reply.put(&format!("bar_{place}"), strength::shrinkage(gap, form))))
    });
    if !given.is_fine() {
        return;
    }
    let Some(greatest) = bars.iter().map(|(_, own)| *own).reduce(Ratio::max) else {
        return given.problem("`bars` has no bar: fill a form, let it dry, measure the gaps".into());
    };
    let mean = bars.iter().map(|(_, own)| *own).sum::<Ratio>() / bars.len() as f64;
    reply.answer.insert("mean_ratio".into(), json!(mean.in_fraction()));
    reply.answer.insert("greatest_ratio".into(), json!(greatest.in_fraction()));
    if bars.iter().any(|(form, _)| strength::is_of_code_form(*form)) {
        reply.check("cob-appendix", "tests.cob.shrinkage", "shrinkage, the greatest of the bars", greatest);
    } else {
        reply.checks.extend(super::not_known("cob-appendix", "tests.cob.shrinkage"));
    }
    if bars.len() < 2 {
        let next = "One bar cannot say how far another of the same mix would be off: make a second";
        reply.answer.insert("next".into(), json!(next));
    }
}

fn bulking(given: &mut Given<'_>, reply: &mut Reply) {
    let reading = given.maybe::<Length>("reading_m", Kind::Length).unwrap_or(Length::ZERO);
    let mut place = 0;
    let jars = given.list("jars", |one| {
        place += 1;
        let damp = one.number::<Length>("damp_m", Kind::Length);
        let flooded = one.number::<Length>("flooded_m", Kind::Length);
        let (damp, flooded) = (damp?, flooded?);
        if flooded <= reading || damp < flooded {
            one.problem("flooded sand does not stand higher than damp sand: read the jar anew".into());
            return None;
        }
        let own = reply.put(&format!("jar_{place}"), strength::bulking(damp, flooded));
        Some([own, (damp - reading).max(flooded) / (flooded + reading), (damp + reading) / (flooded - reading)])
    });
    if !given.is_fine() {
        return;
    }
    if jars.is_empty() || reading < Length::ZERO {
        return given.problem("`jars` has no jar, or `reading_m` is below zero".into());
    }
    let mean = jars.iter().map(|jar| jar[0]).sum::<f64>() / jars.len() as f64;
    reply.answer.insert("bulking".into(), json!(mean));
    reply.answer.insert("low".into(), json!(jars.iter().map(|jar| jar[1]).fold(f64::INFINITY, f64::min).max(1.0)));
    reply.answer.insert("high".into(), json!(jars.iter().map(|jar| jar[2]).fold(1.0, f64::max)));
    if jars.len() < 2 {
        let next = "One jar stands for one corner of the pile: take a second from its middle";
        reply.answer.insert("next".into(), json!(next));
    }
}

fn erosion(given: &mut Given<'_>, reply: &mut Reply) {
    let pit = given.maybe::<Length>("drip_pit_m", Kind::Length);
    let spray = given.maybe::<Speed>("spray_m_s", Kind::Speed);
    let (dry, wet) = (given.maybe::<Mass>("dry_kg", Kind::Mass), given.maybe::<Mass>("wet_kg", Kind::Mass));
    let found = [("drip", pit.map(Length::in_mm)), ("spray", spray.map(|rate| rate.in_m_s() * 3.6e6))];
    for (test, washed) in found {
        let Some(washed) = washed else { continue };
        let Some(index) = strength::erosion_index(test, washed) else {
            return given.problem(format!("what the {test} test washes out is not below zero"));
        };
        reply.answer.insert(format!("{test}_index"), json!(index));
        let source = erosion_steps().iter().find(|step| step.test == test).map(|step| step.citation.to_string());
        let title = format!("Index of the {test} test, by how much it washes out.");
        let words = Words { title, source: source.unwrap_or_default(), ..Words::default() };
        reply.reasons.push(Reason::in_words(words, Vec::new()));
        reply.check("nzs-4298", &format!("tests.cob.{test}-index"), &format!("index of the {test} test"), index as u64);
    }
    if let (Some(dry), Some(wet)) = (dry, wet) {
        if dry <= Mass::ZERO || wet < dry {
            return given.problem("`dry_kg` is above zero, `wet_kg` not below it".into());
        }
        reply.put("absorbed", earth::moisture(wet, dry));
    }
    if reply.is_empty() {
        given.problem("give `drip_pit_m`, `spray_m_s`, or `dry_kg` and `wet_kg`".into());
    }
}

fn plaster(given: &mut Given<'_>, reply: &mut Reply) {
    let tests = [
        (
            "compression",
            "compressive strength of the plaster",
            given.maybe::<Pressure>("compression_pa", Kind::Pressure),
        ),
        ("rupture", "bending strength of the plaster", given.maybe::<Pressure>("rupture_pa", Kind::Pressure)),
        ("adhesion", "adhesion of the plaster", given.maybe::<Pressure>("adhesion_pa", Kind::Pressure)),
    ];
    let abrasion = given.maybe::<Mass>("abrasion_kg", Kind::Mass);
    for (name, title, found) in tests {
        let path = format!("tests.plaster.{name}");
        match found {
            Some(found) => reply.check("clay-plaster", &path, title, found),
            None => reply.checks.extend(super::not_known("clay-plaster", &path)),
        }
    }
    match abrasion {
        Some(found) => {
            reply.check("clay-plaster", "tests.plaster.abrasion", "what a brush wears off the plaster", found)
        }
        None => reply.checks.extend(super::not_known("clay-plaster", "tests.plaster.abrasion")),
    }
    let states: Vec<&str> = reply.checks.iter().map(|check| check.state.word()).collect();
    let class = match states.as_slice() {
        states if states.contains(&"fails") => "not S II",
        states if states.contains(&"not known") => "not known",
        _ => "S II",
    };
    reply.answer.insert("class".into(), json!(class));
    let title = "Strength class of a clay plaster: the better one where every limit of it is kept.".to_owned();
    let source = "DIN 18947, as a maker's declaration quotes it".to_owned();
    reply.reasons.push(Reason::in_words(Words { title, source, ..Words::default() }, Vec::new()));
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::ask::ask;

    #[test]
    fn a_plaster_that_was_not_tested_has_no_class_and_a_weak_one_fails() {
        let class = |request| ask("plaster-class", &request).unwrap()["answer"]["class"].clone();
        assert_eq!(class(json!({"compression_pa": 1.6e6})), "not known");
        assert_eq!(class(json!({"compression_pa": 1.4e6})), "not S II");
    }

    #[test]
    fn sand_that_stands_higher_flooded_is_told() {
        let told =
            ask("bulking", &json!({"jars": [{"damp_m": 0.1, "flooded_m": 0.12}]})).unwrap()["problems"].to_string();
        assert!(told.contains("jars 1: flooded sand does not stand higher"), "{told}");
    }
}
