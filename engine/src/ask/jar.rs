//! Questions of soil in water: when to mark a jar, what its layers say, and what a hydrometer reads.

use serde_json::json;

use super::given::Given;
use super::{Question, Reply};
use crate::earth::soil::{self, Layer};
use crate::earth::tables::{self, fact, number};
use crate::units::{Days, Density, Kind, Length, Mass, Ratio, Temperature, Volume};

pub(super) const SETTLING: Question = Question {
    name: "settling",
    about: "When to mark a jar of soil and water, how long a grain sinks, and what the layers say of sand, silt and clay",
    example: r#"{"height_m": 0.1, "water_k": 293.15, "dispersed": true, "jars": [
  {"sand_top_m": 0.052, "silt_top_m": 0.078, "clay_top_m": 0.112}, {"sand_top_m": 0.05, "silt_top_m": 0.077, "clay_top_m": 0.11}]}"#,
    answer: settling,
};

pub(super) const HYDROMETER: Question = Question {
    name: "hydrometer",
    about: "Grain sizes and what is finer, from the readings of a hydrometer 152H by ASTM D422 as a program has it; `blank` is \
            read in clear water with the same salt at 20 °C",
    example: r#"{"water_k": 296.15, "dry_kg": 0.05, "volume_m3": 0.001, "blank": 2,
  "readings": [{"minutes": 0.66, "reading": 39}, {"minutes": 5, "reading": 29}, {"minutes": 60, "reading": 20}]}"#,
    answer: hydrometer,
};

/// Density of the grains as given, else that of quartz, put into the reply with its source.
fn grain_density(given: &mut Given<'_>, reply: &mut Reply) -> Option<Density> {
    let own = given.maybe::<Density>("grain_kg_m3", Kind::Density);
    own.or_else(|| {
        let quartz = fact("grain-kg-m3")?;
        Some(reply.read_off(
            "grain",
            "Density of the grains, as quartz",
            Density::kg_m3(quartz.number),
            &quartz.citation,
        ))
    })
}

fn settling(given: &mut Given<'_>, reply: &mut Reply) {
    let height = given.number::<Length>("height_m", Kind::Length);
    let warmth = given.number::<Temperature>("water_k", Kind::Temperature);
    let grain = given.maybe::<Length>("grain_m", Kind::Length);
    let dispersed = given.wanted("dispersed");
    let density = grain_density(given, reply);
    let jars = given.list("jars", jar);
    let (Some(height), Some(warmth), Some(density)) = (height, warmth, density) else { return };
    if height <= Length::ZERO || grain.is_some_and(|grain| grain <= Length::ZERO) {
        given.problem("`height_m` and `grain_m` must be above zero".into());
        return;
    }
    let Some(water) = tables::water(warmth) else {
        return given.problem("the table of water has 10 to 30 °C: bring the jar to the warmth of a room".into());
    };
    if density <= water.density {
        return given.problem("grains of this `grain_kg_m3` float".into());
    }
    reply.read_off("viscosity_pa_s", "Viscosity of the water", water.viscosity, &water.citation);
    let gravity = reply.fact("gravity", "Standard gravity, m/s²", fact("gravity-m-s2"));
    let time = |reply: &mut Reply, name: &str, grain: Length| {
        let fall = soil::fall_time(height, grain, water.viscosity, density, water.density, gravity);
        let time: Days = reply.put(name, fall);
        reply.answer.insert(format!("{name}_s"), json!(time.in_minutes() * 60.0));
        reply.answer.insert(format!("{name}_h"), json!(time.in_hours()));
    };
    if let Some(grain) = grain {
        time(reply, "time", grain);
    }
    time(reply, "sand_down", Length::m(number("silt-m")));
    time(reply, "silt_down", Length::m(number("clay-m")));
    if !jars.is_empty() {
        layers(reply, &jars, dispersed);
    }
}

/// Heights of the three layers of a jar.
fn jar(given: &mut Given<'_>) -> Option<[Length; 3]> {
    let tops = [
        given.number::<Length>("sand_top_m", Kind::Length),
        given.number::<Length>("silt_top_m", Kind::Length),
        given.number::<Length>("clay_top_m", Kind::Length),
    ];
    let [Some(sand), Some(silt), Some(clay)] = tops else { return None };
    if sand < Length::ZERO || silt < sand || clay < silt || clay <= Length::ZERO {
        given.problem(
            "a mark lies below an earlier one: what has settled does not rise again; read the jar anew".into(),
        );
        return None;
    }
    Some([sand, silt - sand, clay - silt])
}

/// The least and the greatest share of each layer over all jars, with what may hide in the silt.
fn layers(reply: &mut Reply, jars: &[[Length; 3]], dispersed: bool) {
    let names = ["sand", "silt", "clay"];
    let density = names.map(|name| {
        ["low", "high"].map(|side| {
            let name = format!("jar-{name}-{side}-kg-m3");
            let title = format!("Dry mass in a settled volume, {}", name.replace('-', " "));
            Density::kg_m3(reply.fact(&name.replace('-', "_"), &title, fact(&name)))
        })
    });
    let mut bands = [[f64::INFINITY, f64::NEG_INFINITY]; 3];
    for jar in jars {
        let layers: Vec<Layer> = (0..3).map(|at| Layer { height: jar[at], density: density[at] }).collect();
        for (at, band) in bands.iter_mut().enumerate() {
            let [low, high] = soil::layer_band(&layers, at).map(|share| share.value.in_fraction());
            *band = [band[0].min(low), band[1].max(high)];
        }
    }
    if !dispersed {
        let hidden =
            reply.fact("undispersed", "Share of the silt that may be clay in crumbs", fact("jar-undispersed-ratio"));
        bands[2][1] = (bands[2][1] + hidden * bands[1][1]).min(1.0);
        bands[1][0] *= 1.0 - hidden;
    }
    for (name, [low, high]) in names.iter().zip(bands) {
        reply.answer.insert(format!("{name}_low_ratio"), json!(low));
        reply.answer.insert(format!("{name}_high_ratio"), json!(high));
    }
    let classes = soil::classes_between(bands.map(|band| band.map(|share| 100.0 * share)));
    reply.answer.insert("classes".into(), json!(classes));
    let mut next = vec!["A jar shows volumes and alone never sets the mix: make a bar and a brick of it"];
    if jars.len() < 2 {
        next.push("Shake a second jar of the same soil: one jar cannot say how far it may be off");
    }
    if !dispersed {
        next.push("Shake it with a spoon of salt or washing soda: clay in crumbs settles as silt");
    }
    reply.answer.insert("next".into(), json!(next));
}

struct Reading {
    time: Days,
    reading: f64,
}

fn reading(given: &mut Given<'_>) -> Option<Reading> {
    let minutes = given.number::<f64>("minutes", Kind::Number);
    let reading = given.number::<f64>("reading", Kind::Number);
    let (minutes, reading) = (minutes?, reading?);
    if minutes <= 0.0 {
        given.problem("`minutes` must be above zero".into());
        return None;
    }
    Some(Reading { time: Days::minutes(minutes), reading })
}

fn hydrometer(given: &mut Given<'_>, reply: &mut Reply) {
    let warmth = given.number::<Temperature>("water_k", Kind::Temperature);
    let dry = given.maybe::<Mass>("dry_kg", Kind::Mass);
    let volume = given.maybe::<Volume>("volume_m3", Kind::Volume);
    let blank = given.maybe::<f64>("blank", Kind::Number);
    let density = grain_density(given, reply);
    let readings = given.list("readings", reading);
    let (Some(warmth), Some(density)) = (warmth, density) else { return };
    let Some(water) = tables::hydrometer_water(warmth) else {
        return given.problem("the standard's table has 15 to 30 °C".into());
    };
    if density <= water.density {
        return given.problem("grains of this `grain_kg_m3` float".into());
    }
    reply.read_off("viscosity_pa_s", "Viscosity of the water as the standard has it", water.viscosity, &water.citation);
    let constant = reply.put("constant", soil::constant(water.viscosity, density, water.density));
    let correction =
        reply.read_off("correction", "Correction for the warmth of the water", water.correction, &water.citation);
    if readings.is_empty() {
        return;
    }
    let (Some(dry), Some(volume)) = (dry, volume) else {
        return given.problem("`dry_kg` and `volume_m3` say how much soil is in how much water".into());
    };
    let Some(blank) = blank else {
        return given
            .problem("`blank` is missing: read the hydrometer in clear water with the same salt, at 20 °C".into());
    };
    if dry <= Mass::ZERO || volume.in_m3() <= 0.0 {
        return given.problem("`dry_kg` and `volume_m3` must be above zero".into());
    }
    if let Some(pair) =
        readings.windows(2).find(|pair| pair[1].time <= pair[0].time || pair[1].reading > pair[0].reading)
    {
        return given.problem(format!(
            "the reading at {} min does not follow the one at {}: time goes on and readings fall, as grains sink",
            pair[1].time.in_minutes(),
            pair[0].time.in_minutes()
        ));
    }
    let in_litre = Mass::kg(dry.in_kg() / volume.in_litres());
    for (place, one) in readings.iter().enumerate() {
        let name = |what: &str| format!("reading_{}_{what}", place + 1);
        let corrected = reply.put(&name("corrected"), soil::corrected(one.reading, blank, correction));
        let finer = soil::passing(corrected, density, in_litre);
        if finer.value < Ratio::ZERO || finer.value > Ratio::fraction(1.0) {
            return given.problem(format!(
                "reading {} says that a share outside of 0 to 1 is afloat: check `dry_kg`",
                place + 1
            ));
        }
        let depth = reply.put(&name("depth"), soil::depth_of_reading(corrected));
        reply.put(&name("grain"), soil::grain(constant, depth, one.time));
        reply.put(&name("passing"), finer);
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    fn problems(name: &str, request: &Value) -> String {
        ask(name, request).unwrap()["problems"].to_string()
    }

    #[test]
    fn a_jar_that_cannot_be_is_told_and_one_jar_is_not_enough() {
        let jar = |tops: [f64; 3]| json!({"sand_top_m": tops[0], "silt_top_m": tops[1], "clay_top_m": tops[2]});
        let request = |jars: Vec<Value>| json!({"height_m": 0.1, "water_k": 293.15, "jars": jars});
        let told = problems("settling", &request(vec![jar([0.05, 0.04, 0.11])]));
        assert!(told.contains("jars 1: a mark lies below an earlier one"), "{told}");
        let one = ask("settling", &request(vec![jar([0.05, 0.08, 0.11])])).unwrap();
        assert_eq!(one["answer"]["next"].as_array().unwrap().len(), 3);
        let band = |reply: &Value| {
            let side = |key: &str| reply["answer"][key].as_f64().unwrap();
            side("clay_high_ratio") - side("clay_low_ratio")
        };
        let mut salted = request(vec![jar([0.05, 0.08, 0.11])]);
        salted["dispersed"] = json!(true);
        assert!(band(&ask("settling", &salted).unwrap()) < band(&one), "crumbs of clay in the silt widen the band");
        assert!(problems("settling", &json!({"height_m": 0.1, "water_k": 275.0})).contains("10 to 30 °C"));
    }

    #[test]
    fn a_hydrometer_reading_that_rises_and_a_missing_blank_are_told() {
        let mut request = json!({"water_k": 296.15, "dry_kg": 0.05, "volume_m3": 0.001, "blank": 2,
            "readings": [{"minutes": 1, "reading": 30}, {"minutes": 5, "reading": 31}]});
        assert!(problems("hydrometer", &request).contains("the reading at 5 min does not follow"));
        request.as_object_mut().unwrap().remove("blank");
        assert!(problems("hydrometer", &request).contains("`blank` is missing: read the hydrometer in clear water"));
    }
}
