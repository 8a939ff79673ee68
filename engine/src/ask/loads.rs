//! Questions of loads on a roof: what a code's combinations make of them, and all of it from the values of a place.

use super::given::Given;
use super::site_loads::{CODES, gust, on_roof, site, snow_on_roof};
use super::{Question, Reply};
use crate::loads::combined::{combined, in_plan};
use crate::loads::tables::{Combination, combinations, fact};
use crate::units::{Angle, Kind, Pressure};

pub(super) const COMBINATIONS: Question = Question {
    name: "combinations",
    about: "What the load combinations of a code make of given loads, on each area in plan",
    example: r#"{"method": "LRFD", "permanent_pa": 1800, "imposed_pa": 960, "snow_pa": 1200, "wind_up_pa": -1100}"#,
    answer: combinations_of,
};

pub(super) const LOADS: Question = Question {
    name: "loads",
    about: "Loads on a roof from the values of its place, and all combinations of them, on each area in plan",
    example: r#"{"code": "en", "permanent_pa": 2600, "pitch_rad": 0.3141592653589793, "ground_snow_pa": 1000,
  "speed_m_s": 25, "height_m": 4, "terrain": "2"}"#,
    answer: loads,
};

const METHODS: [&str; 5] = ["EN 6.10", "EN 6.10ab", "EN sag", "LRFD", "ASD"];

/// Loads on each area in plan; wind up is below zero.
struct Loads {
    permanent: Pressure,
    imposed: Pressure,
    snow: Pressure,
    wind_down: Pressure,
    wind_up: Pressure,
}

/// "1_2d_1_6s" for "1.2D + 1.6S".
fn key(words: &str) -> String {
    let letters = words.chars().map(|letter| if letter.is_alphanumeric() { letter.to_ascii_lowercase() } else { ' ' });
    letters.collect::<String>().split_whitespace().collect::<Vec<_>>().join("_")
}

fn put_combination(reply: &mut Reply, end: &str, one: &Combination, loads: &Loads) -> Pressure {
    let (wind, factor) =
        if one.wind_up > 0.0 { (loads.wind_up, one.wind_up) } else { (loads.wind_down, one.wind_down) };
    let (permanent, imposed, snow) = (one.permanent, one.imposed, one.snow);
    let load = combined(loads.permanent, permanent, loads.imposed, imposed, loads.snow, snow, wind, factor);
    let name = format!("{}{end}", key(&format!("{} {}", one.method, one.name)));
    let mut load = load;
    load.reason.inputs.retain(|input| input.quantity.si() != Some(0.0));
    reply.put(&name, load)
}

/// Puts every combination of a set; the largest and the smallest as well.
fn put_set(reply: &mut Reply, method: &str, loads: &Loads, eaves_up: Option<Pressure>) {
    let (mut largest, mut smallest) = (None::<Pressure>, None::<Pressure>);
    for one in combinations().iter().filter(|one| one.method == method) {
        let mut seen = vec![put_combination(reply, "", one, loads)];
        if let Some(wind_up) = eaves_up.filter(|_| one.wind_up > 0.0) {
            seen.push(put_combination(reply, "_eaves", one, &Loads { wind_up, ..*loads }));
        }
        for load in seen {
            largest = Some(largest.map_or(load, |so_far| so_far.max(load)));
            smallest = Some(smallest.map_or(load, |so_far| so_far.min(load)));
        }
    }
    for (name, load) in [("largest", largest), ("smallest", smallest)] {
        if let Some(load) = load {
            reply.answer.insert(format!("{}_{name}_pa", key(method)), load.in_pa().into());
        }
    }
}

fn combinations_of(given: &mut Given<'_>, reply: &mut Reply) {
    let method = given.maybe_word("method", &METHODS);
    let permanent = given.number::<Pressure>("permanent_pa", Kind::Pressure);
    let mut load = |key| given.maybe::<Pressure>(key, Kind::Pressure).unwrap_or(Pressure::ZERO);
    let (imposed, snow) = (load("imposed_pa"), load("snow_pa"));
    let (wind_down, wind_up) = (load("wind_down_pa"), load("wind_up_pa"));
    let (Some(method), Some(permanent)) = (method, permanent) else {
        given.problem(format!("`method` must be one of: {}", METHODS.join(", ")));
        return;
    };
    if [permanent, imposed, snow, wind_down].iter().any(|load| *load < Pressure::ZERO) || wind_up > Pressure::ZERO {
        given.problem("loads that press must not be below zero, `wind_up_pa` not above it".into());
        return;
    }
    put_set(reply, method, &Loads { permanent, imposed, snow, wind_down, wind_up }, None);
}

fn loads(given: &mut Given<'_>, reply: &mut Reply) {
    let code = given.maybe_word("code", &CODES);
    let permanent = given.number::<Pressure>("permanent_pa", Kind::Pressure);
    let pitch = given.number::<Angle>("pitch_rad", Kind::Angle);
    let ground_snow = given.number::<Pressure>("ground_snow_pa", Kind::Pressure);
    let Some(code) = code else {
        given.problem("write `code` as \"en\" or \"asce\"".into());
        return;
    };
    let site = site(given, code);
    let (Some(permanent), Some(pitch), Some(ground_snow), Some(site)) = (permanent, pitch, ground_snow, site) else {
        return;
    };
    let upright = pitch < Angle::ZERO || pitch >= Angle::deg(90.0);
    if permanent < Pressure::ZERO || ground_snow < Pressure::ZERO || upright {
        given.problem("loads must not be below zero, `pitch_rad` from 0 to below upright".into());
        return;
    }
    let permanent = reply.put("permanent", in_plan(permanent, pitch));
    let (imposed, placing) = on_foot(reply, code);
    let snow = snow_on_roof(reply, code, ground_snow, pitch);
    let gust = gust(reply, code, &site);
    let [wind_down, wind_up, eaves_up] = on_roof(reply, code, gust);
    let all = Loads { permanent, imposed, snow, wind_down, wind_up };
    let methods: &[&str] = if code == "en" { &METHODS[..3] } else { &METHODS[3..] };
    for method in methods {
        put_set(reply, method, &all, Some(eaves_up));
        let while_placing = combinations().iter().find(|one| one.method == *method && one.imposed > 1.0 - 1e-12);
        if let Some(one) = while_placing {
            put_combination(
                reply,
                "_placing",
                &Combination { wind_down: 0.0, ..one.clone() },
                &Loads { imposed: placing, ..all },
            );
        }
    }
}

/// Load of the roof in use, and while soil is carried up and spread.
fn on_foot(reply: &mut Reply, code: &str) -> (Pressure, Pressure) {
    let mut read = |name: &str, title: &str, key: &str, of: fn(f64) -> Pressure| {
        fact(key).map_or(Pressure::pa(f64::NAN), |fact| reply.read_off(name, title, of(fact.number), &fact.citation))
    };
    if code == "en" {
        let imposed =
            read("imposed", "Load of a roof that is not walked on but for repair", "roof-live-en-pa", Pressure::pa);
        return (imposed, read("placing", "Crew and heaps while placing", "placing-en-pa", Pressure::pa));
    }
    let imposed =
        read("imposed", "Load of a roof that is not walked on but for repair", "roof-live-asce-psf", Pressure::psf);
    (imposed, read("placing", "Crew and heaps while placing", "placing-asce-psf", Pressure::psf))
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    fn loads(changes: &Value) -> Value {
        let mut loads = json!({"code": "en", "permanent_pa": 2600, "pitch_rad": 0.3, "ground_snow_pa": 1000,
            "speed_m_s": 25, "height_m": 4, "terrain": "2"});
        for (key, value) in changes.as_object().unwrap() {
            loads[key] = value.clone();
        }
        ask("loads", &loads).unwrap()
    }

    #[test]
    fn every_combination_has_its_reason_and_the_eaves_lift_more_than_the_roof() {
        let reply = loads(&json!({}));
        let answer = reply["answer"].as_object().unwrap();
        assert!(answer.values().all(|value| !value.is_null()));
        assert!(reply["reasons"].as_array().unwrap().len() > 30);
        let load = |key: &str| answer[key].as_f64().unwrap();
        assert!(load("en_6_10_least_g_wind_up_eaves_pa") < load("en_6_10_least_g_wind_up_pa"));
        assert!(load("en_6_10_g_imposed_placing_pa") > load("en_6_10_g_imposed_pa"));
        let permanent = 2600.0 / 0.3_f64.cos();
        assert!((load("en_6_10_g_snow_pa") - (1.35 * permanent + 1.5 * 800.0)).abs() < 1e-9);
    }

    #[test]
    fn the_other_code_answers_from_its_own_values() {
        let reply = loads(&json!({"code": "asce", "terrain": null}));
        assert!(reply["problems"][0].as_str().unwrap().contains("`exposure`"));
        let asce = json!({"code": "asce", "permanent_pa": 2600, "pitch_rad": 0.3, "ground_snow_pa": 1000,
            "speed_m_s": 45, "height_m": 4, "exposure": "c"});
        let answer = ask("loads", &asce).unwrap()["answer"].clone();
        assert!(answer["asd_d_s_pa"].as_f64().unwrap() < answer["lrfd_1_2d_1_6s_pa"].as_f64().unwrap());
        assert!(answer.as_object().unwrap().values().all(|value| !value.is_null()));
    }

    #[test]
    fn a_wrong_site_is_told_in_one_sentence() {
        for (changes, said) in [
            (json!({"code": "din"}), "write one of: en, asce"),
            (json!({"terrain": "6"}), "write one of: 0, 1"),
            (json!({"pitch_rad": 1.6}), "below upright"),
            (json!({"ground_snow_pa": -1}), "must not be below zero"),
            (json!({"height_m": 0}), "`height_m` above it"),
        ] {
            let told = loads(&changes)["problems"].clone();
            assert!(told[0].as_str().unwrap().contains(said), "{changes}: {told}");
        }
    }
}
