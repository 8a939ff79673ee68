//! Questions of bricks: what crushed or broken samples say of a mix, and what a lever at home puts on one.

use serde_json::json;

use super::given::Given;
use super::{Question, Reply, not_known};
use crate::earth::strength::{self, DampFault, DampLine, Sample};
use crate::earth::tables::{fact, number};
use crate::units::{Force, Kind, Length, Mass, Pressure, Ratio};

pub(super) const STRENGTH: Question = Question {
    name: "strength",
    about: "Strength of a mix from crushed or broken bricks: mean, scatter, what can be relied on, which brick looks strange, \
            how many it takes, and how it falls with moisture",
    example: r#"{"test": "crushed", "wanted_pa": 413685.4, "at_moisture_ratio": 0.06, "bricks": [
  {"load_n": 7900, "width_m": 0.1016, "depth_m": 0.1016, "height_m": 0.2032, "moisture_ratio": 0.02},
  {"load_n": 8600, "width_m": 0.1016, "depth_m": 0.1016, "height_m": 0.2032, "moisture_ratio": 0.02},
  {"load_n": 7400, "width_m": 0.1016, "depth_m": 0.1016, "height_m": 0.2032, "moisture_ratio": 0.025},
  {"load_n": 8100, "width_m": 0.1016, "depth_m": 0.1016, "height_m": 0.2032, "moisture_ratio": 0.02},
  {"load_n": 7700, "width_m": 0.1016, "depth_m": 0.1016, "height_m": 0.2032, "moisture_ratio": 0.02},
  {"load_n": 3900, "width_m": 0.1016, "depth_m": 0.1016, "height_m": 0.2032, "moisture_ratio": 0.08, "damp": true},
  {"load_n": 3100, "width_m": 0.1016, "depth_m": 0.1016, "height_m": 0.2032, "moisture_ratio": 0.1, "damp": true}]}"#,
    answer: strengths,
};

pub(super) const LEVER: Question = Question {
    name: "lever",
    about: "A brick crushed at home under a beam: the force and how far friction and a crooked seat blur it, what flies when \
            it breaks",
    example: r#"{"hung_kg": 40, "hung_arm_m": 2.4, "beam_kg": 9, "beam_arm_m": 1.3, "brick_arm_m": 0.3, "friction": 0.3,
  "pin_radius_m": 0.01, "width_m": 0.1, "depth_m": 0.1, "beside_middle_m": 0.005, "drop_m": 0.1}"#,
    answer: lever,
};

/// One brick as it was tested.
struct Brick {
    strength: Pressure,
    moisture: Option<Ratio>,
    is_damp: bool,
}

fn strengths(given: &mut Given<'_>, reply: &mut Reply) {
    let test = given.maybe_word("test", &["crushed", "broken"]).unwrap_or("crushed");
    let wanted = given.maybe::<Pressure>("wanted_pa", Kind::Pressure);
    let moisture = given.maybe::<Ratio>("at_moisture_ratio", Kind::Ratio);
    let adobes = given.maybe::<f64>("adobes", Kind::Number);
    let mut place = 0;
    let bricks = given.list("bricks", |one| {
        place += 1;
        brick(one, reply, test == "crushed", place)
    });
    if let Some(adobes) = adobes.filter(|adobes| *adobes > 0.0) {
        reply.put("adobe_samples", strength::samples_of_lots(adobes, number("adobe-lot"), number("adobe-samples")));
    }
    if !given.is_fine() {
        return;
    }
    let dry: Vec<Pressure> = bricks.iter().filter(|brick| !brick.is_damp).map(|brick| brick.strength).collect();
    let Some(sample) = Sample::of(&dry) else {
        if adobes.is_none() {
            given.problem(
                "`bricks` has no dry brick: what a wall is held to is its strength dry, damp ones say the fall".into(),
            );
        }
        return;
    };
    reply.answer.insert("bricks_count".into(), json!(sample.count));
    reply.answer.insert("mean_pa".into(), json!(sample.mean.in_pa()));
    reply.answer.insert("least_pa".into(), json!(sample.least.in_pa()));
    let mut next: Vec<String> = Vec::new();
    relied_on(reply, &sample, wanted, &mut next);
    if let Some(at) = strength::strange(&dry) {
        let place =
            bricks.iter().enumerate().filter(|(_, brick)| !brick.is_damp).nth(at).map_or(0, |(place, _)| place + 1);
        reply.answer.insert("strange_brick".into(), json!(place));
        next.push(format!(
            "Brick {place} lies strangely far from the others: look at its pieces. It is counted all the same"
        ));
    }
    held(reply, test, &sample, &mut next);
    fall(reply, &bricks, moisture, &mut next);
    reply.answer.insert("next".into(), json!(next));
}

fn brick(given: &mut Given<'_>, reply: &mut Reply, is_crushed: bool, place: usize) -> Option<Brick> {
    let load = given.number::<Force>("load_n", Kind::Force);
    let width = given.number::<Length>("width_m", Kind::Length);
    let depth = if is_crushed { given.number::<Length>("depth_m", Kind::Length) } else { Some(Length::m(1.0)) };
    let height = given.number::<Length>("height_m", Kind::Length);
    let span = if is_crushed { Some(Length::m(1.0)) } else { given.number::<Length>("span_m", Kind::Length) };
    let moisture = given.maybe::<Ratio>("moisture_ratio", Kind::Ratio);
    let is_damp = given.wanted("damp");
    let (load, width, depth, height, span) = (load?, width?, depth?, height?, span?);
    if [width, depth, height, span].iter().any(|side| *side <= Length::ZERO) || load <= Force::ZERO {
        given.problem("load and sides must be above zero".into());
        return None;
    }
    if moisture.is_some_and(|moisture| moisture < Ratio::ZERO) || (is_damp && moisture.is_none()) {
        given.problem("a damp brick needs its moisture: weigh it, dry it, weigh it again".into());
        return None;
    }
    let name = |what: &str| format!("brick_{place}_{what}");
    if !is_crushed {
        let strength = reply.put(&name("raw"), strength::broken(load, span, width, height));
        return Some(Brick { strength, moisture, is_damp });
    }
    let raw = reply.put(&name("raw"), strength::crushed(load, width, depth));
    let own = strength::shape_factor(height / width.min(depth));
    let (Some(own), Some(code)) = (own, strength::shape_factor(number("cob-sample-shape"))) else {
        given.problem(
            "no factor is known for a brick so squat or so tall: cut it to between 0.4 and 5 times its width".into(),
        );
        return None;
    };
    let strength = reply.put(&name("as_code_sample"), strength::as_code_sample(raw, own, code));
    Some(Brick { strength, moisture, is_damp })
}

/// The lower bound, and how many bricks it takes to what is wanted.
fn relied_on(reply: &mut Reply, sample: &Sample, wanted: Option<Pressure>, next: &mut Vec<String>) {
    let (Some(deviation), Some(factor)) = (sample.deviation, strength::lower_factor(sample.count)) else {
        next.push("One brick has no scatter: crush more of the same mix".into());
        return;
    };
    reply.answer.insert("deviation_pa".into(), json!(deviation.in_pa()));
    reply.answer.insert("tolerance_factor".into(), json!(factor));
    let bound = reply.put("lower_bound", strength::lower_bound(sample.mean, deviation, factor));
    let Some(wanted) = wanted.filter(|wanted| bound < *wanted) else { return };
    match strength::bricks_wanted(sample.mean, deviation, wanted) {
        Some(count) => {
            reply.answer.insert("bricks_wanted_count".into(), json!(count));
            let more = count - sample.count;
            next.push(format!("{more} more bricks that scatter as these do would reach what is wanted"));
        }
        None => next
            .push("More bricks of this mix will not reach what is wanted: change the mix or make it more alike".into()),
    }
}

/// The rules: the least brick against the cob appendix once there are as many as it asks for, the mean against the adobe code.
fn held(reply: &mut Reply, test: &str, sample: &Sample, next: &mut Vec<String>) {
    let (path, title) = match test {
        "crushed" => ("tests.cob.compression", "compressive strength"),
        _ => ("tests.cob.rupture", "modulus of rupture"),
    };
    let asked = reply.fact("samples_asked", "Samples that AU106.6.1 asks for", fact("cob-samples"));
    if (sample.count as f64) < asked {
        let (found, missing) = (sample.count, asked - sample.count as f64);
        next.push(format!("{found} dry bricks are no proof: the cob appendix asks for {asked}; make {missing} more"));
        reply.checks.extend(not_known("cob-appendix", path));
        reply.checks.extend(not_known("new-mexico", &format!("{path}-mean")));
        return;
    }
    reply.check("cob-appendix", path, &format!("{title}, the least of {} samples", sample.count), sample.least);
    reply.check(
        "new-mexico",
        &format!("{path}-mean"),
        &format!("{title}, mean of {} samples", sample.count),
        sample.mean,
    );
}

/// How strength falls with moisture.
fn fall(reply: &mut Reply, bricks: &[Brick], moisture: Option<Ratio>, next: &mut Vec<String>) {
    let known: Vec<(Ratio, Pressure)> =
        bricks.iter().filter_map(|brick| Some((brick.moisture?, brick.strength))).collect();
    let line = match DampLine::through(&known) {
        Ok(line) if bricks.iter().any(|brick| brick.is_damp) => line,
        Ok(_) | Err(DampFault::Few(_) | DampFault::Same) => {
            return next.push("Strength when damp: not known. Crush two damp bricks, one damper than the other; weigh them and a dry one wet and dry".into());
        }
    };
    reply.answer.insert("fall_with_moisture".into(), json!(line.fall));
    reply.answer.insert("tested_low_ratio".into(), json!(line.tested[0].in_fraction()));
    reply.answer.insert("tested_high_ratio".into(), json!(line.tested[1].in_fraction()));
    let Some(moisture) = moisture else { return };
    let Some([middle, low]) = line.at(moisture) else {
        return next.push(format!(
            "Strength at {:.1} %: not known. Bricks were tested from {:.1} to {:.1} %; crush two at that moisture",
            moisture.in_percent(),
            line.tested[0].in_percent(),
            line.tested[1].in_percent()
        ));
    };
    reply.put("damp_strength", strength::damp_strength(moisture, middle));
    reply.put("damp_strength_low", strength::damp_strength(moisture, low));
}

fn lever(given: &mut Given<'_>, reply: &mut Reply) {
    let hung = given.number::<Mass>("hung_kg", Kind::Mass);
    let beam = given.number::<Mass>("beam_kg", Kind::Mass);
    let mut length = |key| given.number::<Length>(key, Kind::Length);
    let (hung_arm, beam_arm, brick_arm) = (length("hung_arm_m"), length("beam_arm_m"), length("brick_arm_m"));
    let (pin, width, depth) = (length("pin_radius_m"), length("width_m"), length("depth_m"));
    let (beside, drop) = (length("beside_middle_m"), length("drop_m"));
    let friction = given.number::<f64>("friction", Kind::Number);
    let (Some(hung), Some(beam), Some(friction)) = (hung, beam, friction) else { return };
    let (Some(hung_arm), Some(beam_arm), Some(brick_arm), Some(pin)) = (hung_arm, beam_arm, brick_arm, pin) else {
        return;
    };
    let (Some(width), Some(depth), Some(beside), Some(drop)) = (width, depth, beside, drop) else { return };
    let sizes = [hung_arm, beam_arm, brick_arm, width, depth];
    if sizes.iter().any(|size| *size <= Length::ZERO) || hung <= Mass::ZERO || beam < Mass::ZERO || friction < 0.0 {
        return given.problem("masses, arms and sides must be above zero, `friction` not below it".into());
    }
    if beside.abs() * 2.0 >= depth || drop < Length::ZERO || pin < Length::ZERO {
        return given
            .problem("the load must stand on the brick: `beside_middle_m` is less than half of `depth_m`".into());
    }
    let gravity = number("gravity-m-s2");
    let force = reply.put("force", strength::lever_force(hung, hung_arm, beam, beam_arm, brick_arm, gravity));
    let pin_force = strength::pin_force(force, hung, beam, gravity).value;
    let blur = reply.put("friction", strength::pin_friction(friction, pin * 2.0, brick_arm, pin_force));
    reply.put("strength", strength::crushed(force, width, depth));
    reply.put("strength_low", strength::crushed(strength::certain_force(force, blur).value, width, depth));
    reply.put("strength_high", strength::at_the_edge(force + blur, width, depth, beside));
    reply.put("stored_energy", strength::stored(force, drop));
    let cautions = [
        "A home test stays on trust: it never outranks a laboratory",
        "Hang a bucket and run water into it from a distance; nobody near when it breaks",
        "A block under the beam leaves it no more way than the brick needs",
    ];
    reply.answer.insert("cautions".into(), json!(cautions));
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    fn bricks(loads: &[f64]) -> Value {
        let all: Vec<Value> =
            loads.iter().map(|load| json!({"load_n": load, "width_m": 0.1, "depth_m": 0.1, "height_m": 0.2})).collect();
        json!({"bricks": all})
    }

    fn state(reply: &Value, rule: &str) -> String {
        let checks = reply["checks"].as_array().unwrap();
        checks.iter().find(|check| check["rule"] == rule).unwrap()["state"].as_str().unwrap().to_owned()
    }

    #[test]
    fn three_bricks_are_no_proof_and_two_more_change_the_verdict() {
        let three = ask("strength", &bricks(&[7000., 7400., 6900.])).unwrap();
        assert_eq!(state(&three, "compression"), "not known");
        let next = three["answer"]["next"].to_string();
        assert!(next.contains("3 dry bricks are no proof: the cob appendix asks for 5; make 2 more"), "{next}");
        let five = ask("strength", &bricks(&[7000., 7400., 6900., 7100., 7300.])).unwrap();
        assert_eq!(state(&five, "compression"), "on trust");
        let weak = ask("strength", &bricks(&[7000., 7400., 6900., 7100., 3900.])).unwrap();
        assert_eq!(state(&weak, "compression"), "fails");
        assert_eq!(weak["answer"]["strange_brick"], 5);
        assert_eq!(weak["answer"]["bricks_count"], 5, "a strange brick is shown, not dropped");
    }

    #[test]
    fn tall_bricks_below_the_limit_are_not_raised_above_it() {
        let tall = json!({"load_n": 3206.0, "width_m": 0.1, "depth_m": 0.1, "height_m": 0.5});
        let reply = ask("strength", &json!({"bricks": vec![tall; 5]})).unwrap();
        assert_eq!(reply["answer"]["least_pa"].as_f64().unwrap().round(), 320_600.0, "46.5 psi as it broke");
        assert_eq!(state(&reply, "compression"), "fails");
    }

    #[test]
    fn strength_when_damp_is_not_known_without_damp_bricks_or_outside_of_them() {
        let dry = ask("strength", &bricks(&[7000., 7400., 6900., 7100., 7300.])).unwrap();
        assert!(dry["answer"]["next"].to_string().contains("not known. Crush two damp bricks"));
        let mut request: Value = serde_json::from_str(super::STRENGTH.example).unwrap();
        request["at_moisture_ratio"] = json!(0.15);
        let reply = ask("strength", &request).unwrap();
        assert!(reply["answer"].get("damp_strength_pa").is_none());
        assert!(reply["answer"]["next"].to_string().contains("Strength at 15.0 %: not known"));
    }

    #[test]
    fn a_home_lever_gives_a_band_with_the_plain_strength_inside() {
        let request: Value = serde_json::from_str(super::LEVER.example).unwrap();
        let reply = ask("lever", &request).unwrap();
        let side = |key: &str| reply["answer"][key].as_f64().unwrap();
        assert!(side("strength_low_pa") < side("strength_pa") && side("strength_pa") < side("strength_high_pa"));
    }
}
