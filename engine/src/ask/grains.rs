//! Questions of grains: texture, grading against the densest mix, plasticity, sand to add.

use serde_json::json;

use super::given::Given;
use super::{Question, Reply};
use crate::earth::soil::{self, Curve, CurveFault, Fractions, Sieve};
use crate::earth::tables::{fact, number};
use crate::reason::{Reason, Words};
use crate::units::{Kind, Length, Ratio};

pub(super) const TEXTURE: Question = Question {
    name: "texture",
    about: "What a soil is called by its sand, silt and clay, and what else it may be within the error of the test",
    example: r#"{"sand_ratio": 0.42, "silt_ratio": 0.4, "clay_ratio": 0.18, "clay_error_ratio": 0.04}"#,
    answer: texture,
};

pub(super) const GRADING: Question = Question {
    name: "grading",
    about: "A grading curve: sand, silt, clay and what is fine, its spread, and how far it lies from the densest mix",
    example: r#"{"largest_m": 0.008, "sieves": [{"size_m": 0.008, "passing_ratio": 1}, {"size_m": 0.002, "passing_ratio": 0.62},
  {"size_m": 0.000425, "passing_ratio": 0.41}, {"size_m": 0.00005, "passing_ratio": 0.24}, {"size_m": 0.000002, "passing_ratio": 0.11}]}"#,
    answer: grading,
};

pub(super) const PLASTICITY: Question = Question {
    name: "plasticity",
    about: "The plasticity chart: index, A-line, U-line, name, and how near to flowing the fine part of a wet mix is",
    example: r#"{"liquid_limit_ratio": 0.4, "plastic_limit_ratio": 0.2, "moisture_ratio": 0.2, "fine_ratio": 0.55}"#,
    answer: plasticity,
};

pub(super) const SAND_TO_ADD: Question = Question {
    name: "sand-to-add",
    about: "How much sand a soil wants for a share of clay in the mix, and how far that may be off",
    example: r#"{"soil_clay_ratio": 0.42, "soil_error_ratio": 0.06, "sand_clay_ratio": 0.02, "sand_error_ratio": 0.01,
  "wanted_clay_ratio": 0.18}"#,
    answer: sand_to_add,
};

fn texture(given: &mut Given<'_>, reply: &mut Reply) {
    let mut share = |key| given.number::<Ratio>(key, Kind::Ratio).map(Ratio::in_percent);
    let (sand, silt, clay) = (share("sand_ratio"), share("silt_ratio"), share("clay_ratio"));
    let mut error = |key| given.maybe::<Ratio>(key, Kind::Ratio).map_or(0.0, Ratio::in_percent);
    let (clay_error, sand_error) = (error("clay_error_ratio"), error("sand_error_ratio"));
    let (Some(sand), Some(silt), Some(clay)) = (sand, silt, clay) else { return };
    let sum = sand + silt + clay;
    if (sum - 100.0).abs() > 100.0 * number("shares-round-ratio")
        || [sand, silt, clay, clay_error, sand_error].iter().any(|share| *share < 0.0)
    {
        return given.problem(format!(
            "sand, silt and clay add up to {sum:.1} %, not to 100 %: leave the stones out and weigh again"
        ));
    }
    let soil = Fractions { sand, silt, clay };
    let Some(class) = soil::texture_class(soil) else {
        return given.problem("the table of textures has no class for this soil".into());
    };
    let words = Words {
        title: "What a soil is called by its sand, silt and clay.".into(),
        source: class.citation.to_string(),
        ..Words::default()
    };
    reply.answer.insert("class".into(), json!(class.name));
    reply.answer.insert("may_be".into(), json!(soil::classes_within(soil, clay_error, sand_error)));
    reply.reasons.push(Reason::in_words(words, Vec::new()));
}

fn sieve(given: &mut Given<'_>) -> Option<Sieve> {
    let size = given.number::<Length>("size_m", Kind::Length);
    let passing = given.number::<Ratio>("passing_ratio", Kind::Ratio);
    Some(Sieve { size: size?, passing: passing? })
}

fn fault(fault: CurveFault) -> String {
    let at = |size: Length| format!("{:.4} mm", size.in_mm());
    match fault {
        CurveFault::Few => "a curve needs two sieves or more".into(),
        CurveFault::Twice(size) => format!("two sieves are of {}", at(size)),
        CurveFault::Falls(size) => format!("less passes {} than a finer sieve: a reading is wrong", at(size)),
        CurveFault::Outside(size) => format!("what passes {} is a share from 0 to 1, and a sieve has a size", at(size)),
    }
}

fn grading(given: &mut Given<'_>, reply: &mut Reply) {
    let largest = given.maybe::<Length>("largest_m", Kind::Length);
    let power = given.maybe::<f64>("power", Kind::Number);
    let at = given.maybe::<Length>("at_m", Kind::Length);
    let sieves = given.list("sieves", sieve);
    if [largest, at].iter().flatten().any(|size| *size <= Length::ZERO) || power.is_some_and(|power| power <= 0.0) {
        return given.problem("`largest_m`, `at_m` and `power` must be above zero".into());
    }
    let power = power.unwrap_or_else(|| reply.fact("power", "Power of the densest mix", fact("fuller-power")));
    if let Some((largest, at)) = largest.zip(at) {
        reply.put("densest_passing", soil::fuller(at, largest, power));
    }
    if sieves.is_empty() {
        if largest.is_none() || at.is_none() {
            given.problem("give `sieves`, or `largest_m` and `at_m`".into());
        }
        return;
    }
    let curve = match Curve::through(&sieves) {
        Ok(curve) => curve,
        Err(found) => return given.problem(fault(found)),
    };
    let finer = |name: &str| curve.finer_than(Length::m(number(name))).map(Ratio::in_fraction);
    let (clay, silt, sand) = (finer("clay-m"), finer("silt-m"), finer("sand-m"));
    if let (Some(clay), Some(silt), Some(sand)) = (clay, silt, sand) {
        for (name, share) in [("clay", clay), ("silt", silt - clay), ("sand", sand - silt)] {
            if sand > 0.0 {
                reply.answer.insert(format!("{name}_ratio"), json!(share / sand));
            }
        }
        reply.answer.insert("stones_ratio".into(), json!(1.0 - sand));
    } else {
        let [finest, coarsest] = ["clay-m", "sand-m"].map(|name| Length::m(number(name)).in_mm());
        let next = format!(
            "Sand, silt and clay: not known. The curve must reach from {finest} to {coarsest} mm; a hydrometer reads what is finer than the sieves"
        );
        reply.answer.insert("next".into(), json!(next));
    }
    if let Some(fine) = curve.finer_than(Length::m(number("fine-m"))) {
        reply.answer.insert("fine_ratio".into(), json!(fine.in_fraction()));
    }
    let [d10, d30, d60] = [0.1, 0.3, 0.6].map(|share| curve.size_at(Ratio::fraction(share)));
    if let (Some(d10), Some(d60)) = (d10, d60) {
        reply.put("uniformity", soil::coefficient_of_uniformity(d60, d10));
        if let Some(d30) = d30 {
            reply.put("curvature", soil::coefficient_of_curvature(d30, d10, d60));
        }
    }
    let Some(largest) = largest else { return };
    let apart = curve.sieves().iter().map(|sieve| {
        let densest = soil::fuller(sieve.size, largest, power).value;
        (sieve.passing - densest).in_fraction()
    });
    let apart: Vec<f64> = apart.collect();
    reply.answer.insert("apart_from_densest_ratio".into(), json!(apart));
    reply.reasons.push(soil::fuller(largest, largest, power).reason);
}

fn plasticity(given: &mut Given<'_>, reply: &mut Reply) {
    let limit = given.number::<Ratio>("liquid_limit_ratio", Kind::Ratio);
    let plastic = given.maybe::<Ratio>("plastic_limit_ratio", Kind::Ratio);
    let moisture = given.maybe::<Ratio>("moisture_ratio", Kind::Ratio);
    let fine = given.maybe::<Ratio>("fine_ratio", Kind::Ratio);
    let Some(limit) = limit else { return };
    if [Some(limit), plastic, moisture, fine].iter().flatten().any(|share| *share <= Ratio::ZERO) {
        return given.problem("every share must be above zero".into());
    }
    reply.put("a_line", soil::a_line(limit));
    let upper = reply.put("u_line", soil::u_line(limit));
    let Some(plastic) = plastic else { return };
    if plastic > limit {
        return given.problem(
            "`plastic_limit_ratio` is above `liquid_limit_ratio`: the two are swapped, or the soil is not plastic"
                .into(),
        );
    }
    let index = reply.put("index", soil::plasticity_index(limit, plastic));
    let doubtful = index > upper;
    let word = if doubtful { "doubtful" } else { "believable" };
    reply.answer.insert("test".into(), json!(word));
    if doubtful {
        let why = "The point lies above the U-line, where no natural soil has been found: test again";
        reply.answer.insert("why".into(), json!(why));
    } else if let Some(class) = soil::plasticity_class(limit, index) {
        reply.answer.insert("class".into(), json!(class));
    }
    let Some(moisture) = moisture else { return };
    let Some(fine) = fine.filter(|fine| *fine <= Ratio::fraction(1.0)) else {
        let why = "How near to flowing: not known. Sieve the dry soil at 0.425 mm and write the share that passes as `fine_ratio`";
        reply.answer.insert("flow".into(), json!(why));
        return;
    };
    if index > Ratio::ZERO {
        let wet = reply.put("moisture_of_fines", soil::water_of_fines(moisture, fine));
        reply.put("liquidity", soil::liquidity(wet, plastic, index));
    }
}

fn sand_to_add(given: &mut Given<'_>, reply: &mut Reply) {
    let soil_clay = given.number::<Ratio>("soil_clay_ratio", Kind::Ratio);
    let soil_error = given.number::<Ratio>("soil_error_ratio", Kind::Ratio);
    let sand_clay = given.number::<Ratio>("sand_clay_ratio", Kind::Ratio);
    let sand_error = given.number::<Ratio>("sand_error_ratio", Kind::Ratio);
    let wanted = given.number::<Ratio>("wanted_clay_ratio", Kind::Ratio);
    let (Some(soil_clay), Some(sand_clay), Some(wanted)) = (soil_clay, sand_clay, wanted) else { return };
    let (Some(soil_error), Some(sand_error)) = (soil_error, sand_error) else { return };
    if soil_error < Ratio::ZERO
        || sand_error < Ratio::ZERO
        || sand_clay < Ratio::ZERO
        || soil_clay > Ratio::fraction(1.0)
    {
        return given.problem("shares lie from 0 to 1 and errors are not below zero".into());
    }
    if wanted <= sand_clay || wanted >= soil_clay {
        return given.problem(
            "the clay wanted must lie between that of the sand and that of the soil: sand alone cannot reach it".into(),
        );
    }
    let sand = reply.put("sand_to_soil", soil::sand_to_add(soil_clay, sand_clay, wanted));
    let error = reply.put("error", soil::sand_error(sand, soil_error, sand_error, wanted, sand_clay));
    reply.answer.insert("low".into(), json!((sand - error).max(0.0)));
    reply.answer.insert("high".into(), json!(sand + error));
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::ask::ask;

    #[test]
    fn shares_that_do_not_add_up_and_curves_that_fall_are_told() {
        let told = |name: &str, request| ask(name, &request).unwrap()["problems"].to_string();
        let request = json!({"sand_ratio": 0.3, "silt_ratio": 0.3, "clay_ratio": 0.3});
        assert!(told("texture", request).contains("add up to 90.0 %"));
        let sieve = |size: f64, passing: f64| json!({"size_m": size, "passing_ratio": passing});
        let request = json!({"sieves": [sieve(0.002, 0.5), sieve(0.0002, 0.6)]});
        assert!(told("grading", request).contains("less passes 2.0000 mm than a finer sieve"));
        let request = json!({"soil_clay_ratio": 0.15, "soil_error_ratio": 0, "sand_clay_ratio": 0, "sand_error_ratio": 0, "wanted_clay_ratio": 0.18});
        assert!(told("sand-to-add", request).contains("sand alone cannot reach it"));
    }

    #[test]
    fn sieves_alone_say_that_clay_and_silt_are_not_known() {
        let sieve = |size: f64, passing: f64| json!({"size_m": size, "passing_ratio": passing});
        let request = json!({"sieves": [sieve(0.004, 1.0), sieve(0.000063, 0.3)]});
        let answer = ask("grading", &request).unwrap()["answer"].clone();
        assert!(answer.get("clay_ratio").is_none());
        assert!(answer["next"].as_str().unwrap().contains("not known. The curve must reach from 0.002 to 2 mm"));
    }

    #[test]
    fn moisture_without_the_share_of_fines_says_what_to_measure() {
        let request = json!({"liquid_limit_ratio": 0.4, "plastic_limit_ratio": 0.2, "moisture_ratio": 0.2});
        let reply = ask("plasticity", &request).unwrap();
        assert!(reply["answer"]["flow"].as_str().unwrap().contains("0.425 mm"));
        assert!(reply["answer"].get("liquidity").is_none());
    }
}
