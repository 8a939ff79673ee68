//! The question about a ring of real poles: its marks, bands, raising and forces.

use serde_json::json;

use super::given::Given;
use super::poles_given::layout;
use super::{Question, Reply};
use crate::roof::poles::{self, Errors, Layout, Load, Measured, Ring, Team, bands, effects, ring};
use crate::units::{Angle, Density, Force, Kind, Length, Mass, Ratio};

pub(super) const RECIPROCAL_POLES: Question = Question {
    name: "reciprocal-poles",
    about: "Marks, heights, bands, prop and raising of a reciprocal roof of unequal, tapered, bowed poles on any plate",
    example: r#"{"plan_radius_m": 2.2, "eye_radius_m": 0.45, "length_m": 2.6, "butt_m": 0.14, "tip_m": 0.14,
  "rafters": [{}, {}, {"butt_m": 0.2, "tip_m": 0.2}, {}, {}],
  "error_diameter_m": 0.005, "error_plate_m": 0.005, "error_eye_m": 0.005, "mark_step_m": 0.005,
  "first": 1, "clearance_m": 0.06, "shrinkage_ratio": 0.03, "bed_deeper_m": 0.002, "density_kg_m3": 600}"#,
    answer: reciprocal_poles,
};

fn reciprocal_poles(given: &mut Given<'_>, reply: &mut Reply) {
    let layout = layout(given);
    let wanted = given.maybe::<Angle>("wanted_pitch_rad", Kind::Angle);
    let error = |given: &mut Given<'_>, key| given.maybe::<Length>(key, Kind::Length).unwrap_or(Length::ZERO);
    let errors = Errors {
        diameter: error(given, "error_diameter_m"),
        plate: error(given, "error_plate_m"),
        eye: error(given, "error_eye_m"),
    };
    let step = given.maybe::<Length>("mark_step_m", Kind::Length);
    let raising = raising(given);
    let load = given.maybe::<f64>("line_load_n_m", Kind::Number).map(Force::n);
    let point = given.maybe::<f64>("point_load_n", Kind::Number).map(Force::n);
    let sums = [errors.diameter, errors.plate, errors.eye];
    if sums.iter().any(|error| *error < Length::ZERO) || step.is_some_and(|step| step <= Length::ZERO) {
        given.problem("errors must not be below zero, and `mark_step_m` must be above zero".into());
        return;
    }
    let Some(layout) = layout else { return };
    let found = match ring(&layout) {
        Ok(found) => found,
        Err(fault) => return given.problem(fault.to_string()),
    };
    if let Some(first) = raising.first.filter(|first| *first > layout.rafters.len()) {
        return given.problem(format!("`first` is {first}, and there are {} poles", layout.rafters.len()));
    }
    put_ring(reply, &layout, &found, step);
    let told = put_bands(reply, &layout, &found, &errors)
        .and_then(|()| put_raising(reply, &layout, &found, &raising))
        .and_then(|()| wanted.map_or(Ok(()), |wanted| put_notches(reply, &layout, wanted)));
    if let Err(fault) = told {
        given.problem(fault.to_string());
    }
    if let Some(load) = load {
        put_forces(reply, &layout, &found, load, point.unwrap_or(Force::ZERO));
    }
}

fn plain(reply: &mut Reply, name: &str, length: Length) {
    reply.answer.insert(format!("{name}_m"), json!(length.in_m()));
}

fn put_ring(reply: &mut Reply, layout: &Layout, found: &Ring, step: Option<Length>) {
    reply.put("eye_radius", poles::eye_size(found));
    reply.put("eye_height", poles::eye_level(found));
    for (place, set) in found.sets.iter().enumerate() {
        let name = format!("pole_{}", place + 1);
        let below = &found.sets[layout.below(place)];
        let pitch = reply.put(&format!("{name}_pitch"), poles::pole_pitch(set));
        reply.answer.insert(format!("{name}_pitch_deg"), json!(pitch.in_deg()));
        let rest = reply.put(&format!("{name}_rest_mark"), poles::rest_mark(set));
        let carry = reply.put(&format!("{name}_carry_mark"), poles::carry_mark(set));
        reply.put(&format!("{name}_rest_height"), poles::rest_height(set));
        reply.put(&format!("{name}_tip_height"), poles::tip_height(set));
        reply.put(&format!("{name}_underside"), poles::underside_height(set));
        plain(reply, &format!("{name}_carry_height"), set.first_crossing_height);
        plain(reply, &format!("{name}_crossing_offset"), set.crossing[2] - below.first_crossing_height);
        plain(reply, &format!("{name}_axis_distance"), set.axis_distance);
        plain(reply, &format!("{name}_rest_diameter"), set.rest_diameter);
        plain(reply, &format!("{name}_carry_diameter"), set.carry_diameter);
        plain(reply, &format!("{name}_wanted_length"), set.rest + layout.rafters[place].beyond);
        if let Some(step) = step {
            plain(reply, &format!("{name}_rest_mark_rounded"), poles::rounded(rest, step));
            plain(reply, &format!("{name}_carry_mark_rounded"), poles::rounded(carry, step));
        }
        for (at, point) in [("rest", set.rest_at), ("carry", set.carry_at), ("support", set.support)] {
            for (axis, length) in ["x", "y", "z"].into_iter().zip(point) {
                plain(reply, &format!("{name}_{at}_{axis}"), length);
            }
        }
    }
    let faults: Vec<String> = found.faults.iter().map(ToString::to_string).collect();
    reply.answer.insert("faults".into(), json!(faults));
}

fn put_bands(reply: &mut Reply, layout: &Layout, found: &Ring, errors: &Errors) -> Result<(), poles::Fault> {
    if [errors.diameter, errors.plate, errors.eye].iter().all(|error| *error == Length::ZERO) {
        return Ok(());
    }
    let bands = bands(&effects(layout, found, errors)?);
    let mut put = |name: &str, band: &poles::Band| {
        reply.put(&format!("{name}_likely_error"), poles::likely_error(band));
        reply.put(&format!("{name}_worst_error"), poles::worst_error(band));
    };
    put("eye_radius", &bands.eye);
    for place in 0..bands.rest.len() {
        put(&format!("pole_{}_rest_mark", place + 1), &bands.rest[place]);
        put(&format!("pole_{}_carry_mark", place + 1), &bands.carry[place]);
        put(&format!("pole_{}_tip_height", place + 1), &bands.tip[place]);
    }
    Ok(())
}

fn put_notches(reply: &mut Reply, layout: &Layout, wanted: Angle) -> Result<(), poles::Fault> {
    for (place, notch) in poles::notches_for_pitch(layout, wanted)?.into_iter().enumerate() {
        plain(reply, &format!("pole_{}_notch_for_wanted_pitch", place + 1), notch);
    }
    Ok(())
}

fn put_forces(reply: &mut Reply, layout: &Layout, found: &Ring, on_each_metre: Force, on_first: Force) {
    let loads: Vec<Load> = found
        .sets
        .iter()
        .enumerate()
        .map(|(place, set)| {
            let [first, second] = set.plan_lengths;
            let spread = on_each_metre * second.in_m();
            let point = if place == 0 { on_first } else { Force::ZERO };
            let force = spread + point;
            let moment = spread.in_n() * 0.5 * second.in_m() + point.in_n() * first.in_m();
            Load { force, at: if force == Force::ZERO { Length::ZERO } else { Length::m(moment / force.in_n()) } }
        })
        .collect();
    for (place, passed) in poles::passed(layout, found, &loads).into_iter().enumerate() {
        reply.answer.insert(format!("pole_{}_crossing_force_n", place + 1), json!(passed.crossing.in_n()));
        reply.answer.insert(format!("pole_{}_support_force_n", place + 1), json!(passed.support.in_n()));
    }
}

/// What a request says of the raising.
struct Raising {
    first: Option<usize>,
    clearance: Length,
    bed_deeper: Option<Length>,
    shrinkage: Option<Ratio>,
    /// Total shrinkage, fibre saturation, moisture to come.
    drying: Option<[Ratio; 3]>,
    density: Option<Density>,
    each_alone: Option<Mass>,
    teams: Vec<Team>,
    measured: Vec<Measured>,
}

fn raising(given: &mut Given<'_>) -> Raising {
    let first = given.maybe::<f64>("first", Kind::Number);
    if first.is_some_and(|first| first < 1.0 || first.fract() != 0.0) {
        given.problem("`first` is a pole, counted from 1".into());
    }
    let shrinkage = given.maybe::<Ratio>("shrinkage_ratio", Kind::Ratio);
    let drying = ["shrinkage_total_ratio", "fibre_saturation_ratio", "moisture_ratio"];
    let drying = drying.map(|key| given.maybe::<Ratio>(key, Kind::Ratio));
    let density = given.maybe::<Density>("density_kg_m3", Kind::Density);
    let each_alone = given.maybe::<Mass>("each_alone_kg", Kind::Mass);
    let is_share = |share: Ratio| (0.0..1.0).contains(&share.in_fraction());
    let drying = match drying {
        [Some(total), Some(saturation), Some(moisture)] if saturation > Ratio::ZERO && is_share(total) => {
            Some([total, saturation, moisture])
        }
        [None, None, None] => None,
        _ => {
            given.problem(
                "write `shrinkage_total_ratio` below 1, `fibre_saturation_ratio` above zero and `moisture_ratio` together".into(),
            );
            None
        }
    };
    if shrinkage.is_some_and(|share| !is_share(share)) || density.is_some_and(|density| density <= Density::ZERO) {
        given.problem("`shrinkage_ratio` lies from 0 to below 1, `density_kg_m3` is above zero".into());
    }
    Raising {
        first: first.map(|first| first as usize),
        clearance: given.maybe("clearance_m", Kind::Length).unwrap_or(Length::ZERO),
        bed_deeper: given.maybe("bed_deeper_m", Kind::Length),
        shrinkage: shrinkage.filter(|share| is_share(*share)),
        drying,
        density,
        each_alone,
        teams: given.list("teams", |given| {
            let (people, share) = (given.count("people", 1), given.number("share_ratio", Kind::Ratio));
            Some(Team { people: people?, share: share? })
        }),
        measured: given.list("measured", |given| {
            let (pole, along) = (given.count("pole", 1), given.number("along_m", Kind::Length));
            let height = given.number("height_m", Kind::Length);
            Some(Measured { place: pole? as usize - 1, along: along?, height: height? })
        }),
    }
}

fn put_raising(reply: &mut Reply, layout: &Layout, found: &Ring, raising: &Raising) -> Result<(), poles::Fault> {
    if let Some(first) = raising.first {
        let propped = poles::propped(layout, found, first - 1, raising.clearance)?;
        reply.put("prop_top", poles::prop_top(&propped));
        reply.put("slack", poles::slack(&propped));
        let order: Vec<usize> = propped.order.iter().map(|place| place + 1).collect();
        reply.answer.insert("order".into(), json!(order));
    }
    if let Some(bedding) = raising.bed_deeper {
        let settled = poles::bedded(layout, found, bedding)?;
        plain(reply, "eye_sinks_by_bedding", found.eye_height - settled.eye_height);
        for (place, set) in found.sets.iter().enumerate() {
            let [first, second] = set.plan_lengths;
            reply
                .put(&format!("pole_{}_sinks_first_order", place + 1), poles::sinking(bedding, second, second - first));
        }
    }
    let told = raising.drying.map(|[total, saturation, moisture]| {
        reply.put("shrinkage", poles::drying_shrinkage(total, saturation, moisture))
    });
    if let Some(shrinkage) = raising.shrinkage.or(told) {
        let dry = poles::dried(layout, found, shrinkage)?;
        plain(reply, "eye_sinks_by_drying", found.eye_height - dry.eye_height);
    }
    if !raising.measured.is_empty() {
        put_measured(reply, layout, found, &raising.measured)?;
    }
    if let Some(density) = raising.density {
        put_lifts(reply, layout, density, raising);
    }
    Ok(())
}

fn put_measured(reply: &mut Reply, layout: &Layout, found: &Ring, measured: &[Measured]) -> Result<(), poles::Fault> {
    let up = poles::raised(layout, found, measured)?;
    let settled = ring(&poles::as_raised(layout, found, measured)?)?;
    for (place, (up, settled)) in up.iter().zip(&settled.sets).enumerate() {
        let name = format!("pole_{}", place + 1);
        plain(reply, &format!("{name}_raised_slack"), up.slack);
        plain(reply, &format!("{name}_raised_rest_mark"), up.rest);
        plain(reply, &format!("{name}_raised_underside"), up.underside);
        plain(reply, &format!("{name}_again_rest_mark"), settled.rest);
        plain(reply, &format!("{name}_again_carry_mark"), settled.carry);
        plain(reply, &format!("{name}_again_tip_height"), settled.tip_height);
    }
    plain(reply, "eye_height_again", settled.eye_height);
    Ok(())
}

fn put_lifts(reply: &mut Reply, layout: &Layout, density: Density, raising: &Raising) {
    for (place, rafter) in layout.rafters.iter().enumerate() {
        let (name, pole) = (format!("pole_{}", place + 1), &rafter.pole);
        let volume = reply.put(&format!("{name}_volume"), poles::tapered_volume(pole.butt, pole.tip, pole.length));
        let mass = reply.put(&format!("{name}_mass"), crate::roof::pole_mass(volume, density));
        let balance = reply.put(&format!("{name}_balance"), poles::balance_point(pole.butt, pole.tip, pole.length));
        let at_tip = reply.put(&format!("{name}_at_tip"), poles::mass_at_end(mass, balance, pole.length));
        reply.put(&format!("{name}_at_butt"), poles::mass_at_end(mass, pole.length - balance, pole.length));
        if let Some(each) = raising.each_alone {
            let lifts = poles::lifted_by(at_tip, each, &raising.teams);
            let by = lifts.map_or_else(|| json!("tripod, ramp or rope"), |people| json!(people));
            reply.answer.insert(format!("{name}_tip_lifted_by"), by);
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;
    use crate::ask::poles_given::eight::{told, with};

    #[test]
    fn a_wrong_ring_is_told_in_one_sentence() {
        for (changes, said) in [
            (json!({"count": 2}), "3 or more"),
            (json!({"count": 900}), "at most 60"),
            (json!({"eye_radius_m": 3.5}), "a smaller `eye_radius_m`"),
            (json!({"eye_radius_m": 0.1}), "do not close round this eye"),
            (json!({"rests_on": "left"}), "write \"next\" or \"before\""),
            (json!({"rests_on": 3}), "write a text"),
            (json!({"tip_m": 0}), "must be above zero"),
            (json!({"notch_m": 0.2}), "deeper than the poles are thick"),
            (json!({"mark_step_m": 0}), "`mark_step_m` must be above zero"),
            (json!({"first": 9}), "there are 8 poles"),
            (json!({"first": 1.5}), "counted from 1"),
            (json!({"shrinkage_ratio": 1}), "below 1"),
            (json!({"shrinkage_total_ratio": 0.06}), "together"),
            (json!({"measured": [{"pole": 3, "along_m": 3.6, "height_m": 4}]}), "pole 3 cannot have that height"),
            (json!({"rafters": [{}, {}, {}]}), "`count` is not the number"),
        ] {
            let told = told("reciprocal-poles", &with(&changes));
            assert!(told.len() == 1 && told[0].contains(said), "{changes}: {told:?}");
        }
    }

    #[test]
    fn poles_by_themselves_on_a_plate_or_on_lines_of_their_own_make_the_same_ring() {
        let whole = ask("reciprocal-poles", &with(&json!({}))).unwrap();
        let figure = |reply: &Value, key: &str| reply["answer"][key].as_f64().unwrap();
        let corner = |at: f64, radius: f64| {
            let angle = std::f64::consts::TAU * at / 8.0;
            json!({"x_m": radius * angle.cos(), "y_m": radius * angle.sin()})
        };
        let rafters: Vec<Value> = (1..=8)
            .map(|pole| {
                let toward = corner(f64::from(pole), 0.6);
                let key = |axis: &str| figure(&whole, &format!("pole_{pole}_support_{axis}_m"));
                json!({"x_m": key("x"), "y_m": key("y"), "toward_x_m": toward["x_m"], "toward_y_m": toward["y_m"]})
            })
            .collect();
        let sizes = json!({"length_m": 3.6, "butt_m": 0.16, "tip_m": 0.12});
        let mut alone = sizes.clone();
        alone["rafters"] = json!(rafters);
        let mut round = sizes;
        round["count"] = json!(8);
        round["eye"] = json!((0..8).map(|at| corner(f64::from(at), 0.6)).collect::<Vec<_>>());
        round["plate"] = json!((0..400).map(|at| corner(f64::from(at) / 50.0, 3.0)).collect::<Vec<_>>());
        for (request, within) in [(alone, 1e-9), (round, 2e-3)] {
            let reply = ask("reciprocal-poles", &request).unwrap();
            let off = figure(&reply, "pole_4_rest_mark_m") - figure(&whole, "pole_4_rest_mark_m");
            assert!(off.abs() < within, "{off}");
        }
    }

    #[test]
    fn what_is_up_changes_what_comes() {
        let planned =
            ask("reciprocal-poles", &with(&json!({}))).unwrap()["answer"]["pole_1_tip_height_m"].as_f64().unwrap();
        let higher = json!({"measured": [{"pole": 1, "along_m": 3.6, "height_m": planned + 0.05}]});
        let answer = ask("reciprocal-poles", &with(&higher)).unwrap()["answer"].clone();
        assert!(
            answer["pole_1_raised_slack_m"].as_f64().unwrap() > 0.005,
            "slack for the last pole, on which pole 1 rests"
        );
        assert!(answer["pole_8_raised_slack_m"].as_f64().unwrap().abs() < 1e-9, "the next pole lies on pole 1");
        assert_ne!(answer["pole_8_raised_rest_mark_m"], answer["pole_8_rest_mark_m"]);
    }

    #[test]
    fn a_heavy_pole_takes_gear_and_a_short_one_is_told() {
        let teams = json!([{"people": 1, "share_ratio": 1}, {"people": 2, "share_ratio": 0.667}]);
        let lift = |each: f64| {
            let request = with(&json!({"density_kg_m3": 700, "each_alone_kg": each, "teams": teams}));
            ask("reciprocal-poles", &request).unwrap()["answer"]["pole_1_tip_lifted_by"].clone()
        };
        assert_eq!((lift(30.0), lift(10.0)), (json!(1), json!("tripod, ramp or rope")));
        let short = ask("reciprocal-poles", &with(&json!({"length_m": 3.2}))).unwrap();
        assert!(short["answer"]["faults"][0].as_str().unwrap().starts_with("pole 1 is 3.20 m long and needs 3."));
    }
}
