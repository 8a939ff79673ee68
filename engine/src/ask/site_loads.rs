//! Questions of a place: its snow, its wind, its earthquakes, by two codes.

use super::given::Given;
use super::{Question, Reply};
use crate::loads::tables::fact;
use crate::loads::{earthquake, snow, wind};
use crate::units::{Angle, Density, Force, Kind, Length, Pressure, Speed};

pub(super) const SNOW: Question = Question {
    name: "snow",
    about: "Snow on a rough roof from the snow on the ground, by two codes",
    example: r#"{"code": "en", "ground_pa": 1500, "pitch_rad": 0.4363323129985824}"#,
    answer: snow,
};

pub(super) const WIND: Question = Question {
    name: "wind",
    about: "Pressure of a gust at a height and what it does to roof and eaves; by ASCE 7 the speed is that of its map, for strength",
    example: r#"{"code": "en", "speed_m_s": 26, "height_m": 8, "terrain": "3"}"#,
    answer: wind,
};

pub(super) const EARTHQUAKE: Question = Question {
    name: "earthquake",
    about: "How hard the ground shakes a building and what push that is at its foot, by ASCE 7",
    example: r#"{"short": 1.277, "short_factor": 1.2, "second": 0.458, "second_factor": 1.5, "height_m": 5.7912}"#,
    answer: earthquake,
};

/// The two codes.
pub(super) const CODES: [&str; 2] = ["en", "asce"];

/// Snow on each area in plan; `None` where the request does not say enough.
pub(super) fn snow_on_roof(reply: &mut Reply, code: &str, ground: Pressure, pitch: Angle) -> Pressure {
    let flat = |reply: &mut Reply, name: &str, title: &str| reply.fact(&name.replace('-', "_"), title, fact(name));
    if code == "en" {
        let shape = flat(reply, "mu1-flat", "Shape of a flat roof");
        let full = Angle::deg(flat(reply, "mu1-full-deg", "Pitch from which less lies, degrees"));
        let none = Angle::deg(flat(reply, "mu1-none-deg", "Pitch from which none lies, degrees"));
        let exposure = flat(reply, "ce-en", "Factor of exposure");
        let thermal = flat(reply, "ct-en", "Factor of heat from below");
        let shape = reply.put("shape", snow::shape(pitch, shape, full, none));
        return reply.put("snow", snow::roof_snow(ground, shape, exposure, thermal));
    }
    let share = flat(reply, "snow-flat-asce", "Share of the ground's snow on a flat roof");
    let exposure = flat(reply, "ce-asce", "Factor of exposure");
    let thermal = flat(reply, "ct-asce", "Factor of heat from below");
    let importance = flat(reply, "is-asce", "Factor of importance");
    let level = reply.put("flat_snow", snow::flat_roof_snow(ground, share, exposure, thermal, importance));
    let full = Angle::deg(flat(reply, "cs-full-deg", "Pitch from which less lies, degrees"));
    let none = Angle::deg(flat(reply, "cs-none-deg", "Pitch from which none lies, degrees"));
    let factor = reply.put("slope_factor", snow::slope_factor(pitch, full, none));
    reply.put("snow", snow::sloped_roof_snow(level, factor))
}

fn snow(given: &mut Given<'_>, reply: &mut Reply) {
    let code = given.maybe_word("code", &CODES);
    let ground = given.number::<Pressure>("ground_pa", Kind::Pressure);
    let pitch = given.number::<Angle>("pitch_rad", Kind::Angle);
    let reach = given.maybe::<Length>("eave_to_ridge_m", Kind::Length);
    let (Some(code), Some(ground), Some(pitch)) = (code, ground, pitch) else {
        given.problem("write `code` as \"en\" or \"asce\", with `ground_pa` and `pitch_rad`".into());
        return;
    };
    if ground < Pressure::ZERO || pitch < Angle::ZERO || pitch >= Angle::deg(90.0) {
        given.problem("`ground_pa` must not be below zero, `pitch_rad` from 0 to below upright".into());
        return;
    }
    snow_on_roof(reply, code, ground, pitch);
    if code == "en" {
        return;
    }
    let most = Pressure::psf(reply.fact("snow_least_psf", "Most of the least snow", fact("snow-least-asce-psf")));
    let importance = fact("is-asce").map_or(f64::NAN, |fact| fact.number);
    reply.put("least_snow", snow::least_snow(ground, importance, most));
    if let Some(reach) = reach {
        let rain = Pressure::psf(reply.fact("rain_psf", "Rain on snow", fact("rain-on-snow-asce-psf")));
        let little = fact("rain-on-snow-ground-psf");
        let little = Pressure::psf(reply.fact("rain_ground_psf", "Most snow on the ground with rain on it", little));
        let width = Length::ft(reply.fact("rain_ft", "Width for each degree of slope", fact("rain-on-snow-ft")));
        reply.put("rain_on_snow", snow::rain_on_snow(ground, pitch, reach, rain, little, width));
    }
}

/// Where the wind blows: how it is asked by each code.
pub(super) struct Site {
    pub(super) speed: Speed,
    pub(super) height: Length,
    /// Number of the terrain or letter of the exposure.
    pub(super) ground: &'static str,
}

pub(super) fn site(given: &mut Given<'_>, code: &str) -> Option<Site> {
    let speed = given.number::<Speed>("speed_m_s", Kind::Speed);
    let height = given.number::<Length>("height_m", Kind::Length);
    let ground = if code == "en" {
        given.maybe_word("terrain", &["0", "1", "2", "3", "4"])
    } else {
        given.maybe_word("exposure", &["b", "c", "d"])
    };
    let Some(ground) = ground else {
        given
            .problem("write `terrain` \"0\" to \"4\" for \"en\", `exposure` \"b\", \"c\" or \"d\" for \"asce\"".into());
        return None;
    };
    let (speed, height) = (speed?, height?);
    if speed < Speed::ZERO || height <= Length::ZERO {
        given.problem("`speed_m_s` must not be below zero, `height_m` above it".into());
        return None;
    }
    Some(Site { speed, height, ground })
}

/// Pressure of a gust at the height of the site.
pub(super) fn gust(reply: &mut Reply, code: &str, site: &Site) -> Pressure {
    if code == "en" {
        let length = |reply: &mut Reply, name: &str, key: &str, title: &str| {
            Length::m(reply.fact(name, title, fact(&format!("{key}-{}", site.ground))))
        };
        let rough = length(reply, "roughness", "z0", "Roughness length of the terrain, m");
        let least = length(reply, "least_height", "zmin", "Height below which the wind is as at it, m");
        let open = Length::m(reply.fact("roughness_of_open", "Roughness length of terrain II, m", fact("z0-2")));
        let air = Density::kg_m3(reply.fact("air", "Density of air, kg/m3", fact("air-kg-m3")));
        let terrain = reply.put("terrain_factor", wind::terrain_factor(rough, open));
        let factor = reply.put("roughness_factor", wind::roughness_factor(terrain, site.height, rough, least));
        let gusts = reply.put("turbulence", wind::turbulence(site.height, rough, least));
        let basic = reply.put("basic_pressure", wind::basic_pressure(site.speed, air));
        return reply.put("gust_pressure", wind::gust_pressure(basic, factor, gusts));
    }
    let exponent = fact(&format!("alpha-{}", site.ground));
    let exponent = reply.fact("exponent", "Exponent of the exposure", exponent);
    let gradient = fact(&format!("zg-{}-ft", site.ground));
    let gradient = Length::ft(reply.fact("gradient_ft", "Height of the undisturbed wind, ft", gradient));
    let factor = reply.put("velocity_factor", wind::velocity_factor(site.height, gradient, exponent));
    velocity_pressure(reply, site.speed, factor)
}

fn velocity_pressure(reply: &mut Reply, speed: Speed, factor: f64) -> Pressure {
    let topography = reply.fact("topography", "Factor of hills, none", fact("kzt-asce"));
    let direction = reply.fact("direction", "Factor of direction", fact("kd-asce"));
    reply.put("gust_pressure", wind::velocity_pressure(speed, factor, topography, direction))
}

/// Wind on the roof: down, up between the walls, up on the eaves; the last two below zero.
pub(super) fn on_roof(reply: &mut Reply, code: &str, gust: Pressure) -> [Pressure; 3] {
    let of = |reply: &mut Reply, name: &str, title: &str| {
        reply.fact(&format!("{name}_coefficient"), title, fact(&format!("{name}-{code}").replace('_', "-")))
    };
    let down = of(reply, "roof_down", "Coefficient on the roof, down");
    let up = of(reply, "roof_up", "Coefficient on the roof, up");
    let soffit = of(reply, "soffit", "Coefficient under the eaves, up");
    let (factor, inside_down, inside_up) = if code == "en" {
        let inside = fact("inside-down-en");
        let inside_down = reply.fact("inside_down", "Coefficient inside, with wind down", inside);
        (1.0, inside_down, reply.fact("inside_up", "Coefficient inside, with wind up", fact("inside-up-en")))
    } else {
        let inside = reply.fact("inside", "Coefficient inside, either way", fact("inside-asce"));
        (reply.fact("gust_factor", "Gust factor", fact("gust-asce")), -inside, inside)
    };
    [
        reply.put("wind_down", wind::on_area(gust, factor, down, inside_down)),
        reply.put("wind_up", wind::on_area(gust, factor, up, inside_up)),
        reply.put("wind_up_eaves", wind::on_area(gust, factor, up, factor * soffit)),
    ]
}

fn wind(given: &mut Given<'_>, reply: &mut Reply) {
    let Some(code) = given.maybe_word("code", &CODES) else {
        given.problem("write `code` as \"en\" or \"asce\"".into());
        return;
    };
    if let Some(factor) = given.maybe::<f64>("velocity_factor", Kind::Number) {
        let Some(speed) = given.number::<Speed>("speed_m_s", Kind::Speed) else { return };
        let gust = velocity_pressure(reply, speed, factor);
        on_roof(reply, "asce", gust);
        return;
    }
    let Some(site) = site(given, code) else { return };
    let gust = gust(reply, code, &site);
    on_roof(reply, code, gust);
}

fn earthquake(given: &mut Given<'_>, reply: &mut Reply) {
    let mut number = |key| given.maybe::<f64>(key, Kind::Number);
    let (short, short_factor) = (number("short"), number("short_factor"));
    let (second, second_factor) = (number("second"), number("second_factor"));
    let (reduction, importance) = (number("reduction"), number("importance").unwrap_or(1.0));
    let designed = number("design_short");
    let height = given.maybe::<Length>("height_m", Kind::Length);
    let weight = given.maybe::<Force>("weight_n", Kind::Force);
    let sizes = [short, short_factor, second, second_factor, reduction, Some(importance), height.map(Length::in_m)];
    if sizes.iter().flatten().any(|size| *size <= 0.0) {
        given.problem("every number must be above zero".into());
        return;
    }
    let short = short.zip(short_factor);
    let short = short.map(|(mapped, site)| reply.put("design_short", earthquake::design_acceleration(mapped, site)));
    let second = second.zip(second_factor);
    let second = second.map(|(mapped, site)| reply.put("design_second", earthquake::design_acceleration(mapped, site)));
    let period = height.map(|height| {
        let coefficient = reply.fact("ct", "Coefficient of the period", fact("period-ct"));
        let exponent = reply.fact("x", "Exponent of the period", fact("period-x"));
        reply.put("period_s", earthquake::period_s(height, coefficient, exponent))
    });
    let (Some(short), Some(reduction)) = (designed.or(short), reduction) else {
        if reply.is_empty() {
            given.problem("give `short` and `short_factor`, or `design_short` and `reduction`".into());
        }
        return;
    };
    // Without the shaking of one second a short building is pushed by that of the short period.
    let (second, period) = second.zip(period).unwrap_or((f64::INFINITY, 1.0));
    let share = earthquake::push_share(short, second, period, reduction, importance);
    let share = reply.put("push_share", share);
    if let Some(weight) = weight {
        reply.put("base_push", earthquake::base_push(share, weight));
    }
}
