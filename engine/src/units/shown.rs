//! Shows a quantity in metric or US units with no more digits than are honest.

use super::{
    Angle, Area, Days, Density, Effort, Force, LineLoad, Mass, Moment, Pressure, Quantity, Ratio, SecondMoment,
    SectionModulus, Slope, Speed, SurfaceMass, Temperature, TemperatureDifference, Volume, shown_length, when,
};

/// The units to show in. Reading understands both always.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum System {
    /// Metres, kilograms, °C.
    Metric,
    /// Feet and inches, pounds, °F.
    Us,
}

/// How finely to show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fineness {
    /// Where hands build: lengths to 5 mm or 1/8 in, temperatures to a degree.
    Hand,
    /// A mark on round timber: lengths to 5 mm or 1/4 in.
    Mark,
    /// Where hands set out: lengths to 1 mm or 1/16 in, four digits elsewhere.
    SetOut,
    /// As to set out, but lengths under 2 mm, such as a grain, to two digits.
    Row,
    /// A strength among others, which keeps their unit however small it is.
    Strength,
    /// An answer: three or four digits.
    Figure,
}

impl Quantity {
    /// The quantity as text with its unit, such as "450 mm" or "17 3/4 in"; what is shown is read back by
    /// [`parse`](super::parse) within the rounding, but for dates, which are read in one order only.
    ///
    /// A number that is not finite is "not known".
    #[must_use]
    pub fn shown(&self, system: System, fineness: Fineness) -> String {
        if self.si().is_some_and(|value| !value.is_finite()) {
            return "not known".into();
        }
        let scale = Scale { digits: if matches!(fineness, Fineness::SetOut | Fineness::Row) { 4 } else { 3 } };
        let metric = system == System::Metric;
        match *self {
            Quantity::Length(length) => shown_length::shown(length.in_m(), system, fineness),
            Quantity::Area(area) => scale.area(area, metric),
            Quantity::Volume(volume) => scale.volume(volume, metric),
            Quantity::Mass(mass) => scale.mass(mass, metric),
            Quantity::Density(density) => scale.density(density, metric),
            Quantity::SurfaceMass(mass) => scale.surface_mass(mass, metric),
            Quantity::Effort(effort) => scale.effort(effort, metric),
            Quantity::Pressure(pressure) if !metric && fineness == Fineness::Strength => {
                scale.first(&[(pressure.in_psi(), 0.0, "psi")])
            }
            Quantity::Pressure(pressure) => scale.pressure(pressure, metric),
            Quantity::Force(force) => scale.force(force, metric),
            Quantity::LineLoad(load) => scale.line_load(load, metric),
            Quantity::Moment(moment) => scale.moment(moment, metric),
            Quantity::SectionModulus(modulus) => scale.section_modulus(modulus, metric),
            Quantity::SecondMoment(moment) => scale.second_moment(moment, metric),
            Quantity::Speed(speed) => scale.speed(speed, metric),
            Quantity::Temperature(temperature) => shown_temperature(temperature, metric, fineness),
            Quantity::TemperatureDifference(step) => scale.step(step, metric),
            Quantity::Angle(angle) => shown_angle(angle),
            Quantity::Slope(slope) => scale.slope(slope, metric),
            Quantity::Ratio(ratio) => shown_ratio(ratio),
            Quantity::Days(span) => scale.days(span),
            Quantity::Number(number) => significant(number, scale.digits).1,
            Quantity::Count(count) => count.to_string(),
            Quantity::Date(date) => when::shown(date, system),
            Quantity::Money(money) => money.shown(system),
        }
    }
}

/// Shows with a given number of significant digits.
#[derive(Clone, Copy)]
struct Scale {
    digits: usize,
}

impl Scale {
    /// The first unit in which the rounded number stays below the limit of that unit; the last has none.
    fn first(self, units: &[(f64, f64, &str)]) -> String {
        let mut text = String::new();
        for &(value, limit, unit) in units {
            let (rounded, number) = significant(value, self.digits);
            text = format!("{number} {unit}");
            if rounded.abs() < limit {
                break;
            }
        }
        text
    }

    fn area(self, area: Area, metric: bool) -> String {
        let unit = if metric { (area.in_m2(), 0.0, "m²") } else { (area.in_sq_ft(), 0.0, "sq ft") };
        self.first(&[unit])
    }

    fn volume(self, volume: Volume, metric: bool) -> String {
        if metric {
            self.first(&[(volume.in_litres(), 100.0, "L"), (volume.in_m3(), 0.0, "m³")])
        } else {
            // A bucket and what is poured from it are said in gallons.
            let gallons = (volume.in_us_gal(), 15.0, "US gal");
            self.first(&[gallons, (volume.in_cu_ft(), 27.0, "cu ft"), (volume.in_cu_yd(), 0.0, "cu yd")])
        }
    }

    fn mass(self, mass: Mass, metric: bool) -> String {
        self.first(&if metric {
            [(mass.in_kg(), 1_000.0, "kg"), (mass.in_t(), 0.0, "t")]
        } else {
            [(mass.in_lb(), 2_000.0, "lb"), (mass.in_short_tons(), 0.0, "short tons")]
        })
    }

    fn density(self, density: Density, metric: bool) -> String {
        let unit = if metric { (density.in_kg_m3(), 0.0, "kg/m³") } else { (density.in_lb_ft3(), 0.0, "lb/cu ft") };
        self.first(&[unit])
    }

    fn surface_mass(self, mass: SurfaceMass, metric: bool) -> String {
        let unit = if metric { (mass.in_kg_m2(), 0.0, "kg/m²") } else { (mass.in_lb_ft2(), 0.0, "lb/sq ft") };
        self.first(&[unit])
    }

    fn effort(self, effort: Effort, metric: bool) -> String {
        let unit = if metric { (effort.in_h_m3(), 0.0, "h/m³") } else { (effort.in_h_yd3(), 0.0, "h/cu yd") };
        self.first(&[unit])
    }

    fn pressure(self, pressure: Pressure, metric: bool) -> String {
        if metric {
            let (pa, kpa, mpa) = (pressure.in_pa(), pressure.in_kpa(), pressure.in_mpa());
            self.first(&[(pa, 100.0, "Pa"), (kpa, 1_000.0, "kPa"), (mpa, 0.0, "MPa")])
        } else {
            self.first(&[(pressure.in_psf(), 1_440.0, "psf"), (pressure.in_psi(), 0.0, "psi")])
        }
    }

    fn force(self, force: Force, metric: bool) -> String {
        if metric {
            self.first(&[(force.in_n(), 100.0, "N"), (force.in_kn(), 0.0, "kN")])
        } else {
            self.first(&[(force.in_lbf(), 0.0, "lbf")])
        }
    }

    fn line_load(self, load: LineLoad, metric: bool) -> String {
        if metric {
            self.first(&[(load.in_n_m(), 100.0, "N/m"), (load.in_kn_m(), 0.0, "kN/m")])
        } else {
            self.first(&[(load.in_plf(), 0.0, "plf")])
        }
    }

    fn moment(self, moment: Moment, metric: bool) -> String {
        if metric {
            self.first(&[(moment.in_n_m(), 100.0, "N m"), (moment.in_kn_m(), 0.0, "kN m")])
        } else {
            self.first(&[(moment.in_lbf_ft(), 0.0, "lbf ft")])
        }
    }

    fn section_modulus(self, modulus: SectionModulus, metric: bool) -> String {
        let unit = if metric { (modulus.in_cm3(), 0.0, "cm³") } else { (modulus.in_in3(), 0.0, "cu in") };
        self.first(&[unit])
    }

    fn second_moment(self, moment: SecondMoment, metric: bool) -> String {
        let unit = if metric { (moment.in_mm4(), 0.0, "mm4") } else { (moment.in_in4(), 0.0, "in4") };
        self.first(&[unit])
    }

    fn speed(self, speed: Speed, metric: bool) -> String {
        let unit = if metric { (speed.in_m_s(), 0.0, "m/s") } else { (speed.in_mph(), 0.0, "mph") };
        self.first(&[unit])
    }

    fn step(self, step: TemperatureDifference, metric: bool) -> String {
        let (value, unit) = if metric { (step.in_kelvin(), "K") } else { (step.in_fahrenheit_degrees(), "F°") };
        format!("{} {unit}", without_zeros(&significant(value, self.digits).1))
    }

    fn days(self, span: Days) -> String {
        let (minutes, in_minutes) = significant(span.in_minutes(), self.digits);
        if minutes != 0.0 && minutes.abs() < 120.0 {
            return format!("{} min", without_zeros(&in_minutes));
        }
        let (hours, in_hours) = significant(span.in_hours(), self.digits);
        let (days, in_days) = significant(span.in_days(), self.digits);
        let short = hours != 0.0 && hours.abs() < 24.0;
        let (rounded, text, unit) = if short { (hours, in_hours, "hour") } else { (days, in_days, "day") };
        format!("{} {unit}{}", without_zeros(&text), if rounded == 1.0 { "" } else { "s" })
    }

    /// Gentle slopes as 1:n; steep ones in degrees, in the US as inches in twelve.
    fn slope(self, slope: Slope, metric: bool) -> String {
        let size = slope.in_ratio().abs();
        let sign = if slope.in_ratio() < 0.0 { "-" } else { "" };
        if size < 1e-6 {
            "0 %".into()
        } else if size <= 0.1251 {
            format!("{sign}1:{}", without_zeros(&significant(1.0 / size, self.digits).1))
        } else if metric {
            fixed(slope.in_degrees(), 1, "°")
        } else {
            format!("{} in 12", without_zeros(&significant(slope.rise_in_twelve(), self.digits).1))
        }
    }
}

fn shown_temperature(temperature: Temperature, metric: bool, fineness: Fineness) -> String {
    let (value, unit) = if metric { (temperature.in_celsius(), " °C") } else { (temperature.in_fahrenheit(), " °F") };
    fixed(value, usize::from(fineness != Fineness::Hand), unit)
}

fn shown_angle(angle: Angle) -> String {
    fixed(angle.in_deg(), 1, "°")
}

fn shown_ratio(ratio: Ratio) -> String {
    let percent = ratio.in_percent();
    match percent.abs() {
        size if size < 1.0 => format!("{} %", significant(percent, 2).1),
        size if size < 99.95 => fixed(percent, 1, " %"),
        _ => format!("{} %", significant(percent, 3).1),
    }
}

/// Rounds to so many decimals, without a minus before a zero.
fn fixed(value: f64, decimals: usize, unit: &str) -> String {
    let text = format!("{value:.decimals$}");
    let zero = !text.contains(|sign: char| matches!(sign, '1'..='9'));
    format!("{}{unit}", if zero { text.trim_start_matches('-') } else { &text })
}

/// Rounds to so many significant digits: the rounded number, and its text without power of ten.
///
/// By the formatter and not by logarithm, so that every machine gives the same digits.
pub(super) fn significant(value: f64, digits: usize) -> (f64, String) {
    let scientific = format!("{value:.*e}", digits.saturating_sub(1));
    let rounded = scientific.parse::<f64>().unwrap_or(value);
    let power = scientific.split_once('e').and_then(|(_, power)| power.parse::<i32>().ok()).unwrap_or(0);
    // What is smaller than a hundred-millionth of its unit is what rounding left of zero.
    if rounded.abs() < 1e-8 {
        return (0.0, "0".into());
    }
    let decimals = usize::try_from(i32::try_from(digits).unwrap_or(3) - 1 - power).unwrap_or(0);
    (rounded, format!("{rounded:.decimals$}"))
}

/// "40" for "40.0", "33.3" as it is.
pub(super) fn without_zeros(text: &str) -> &str {
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { text }
}

#[cfg(test)]
mod tests;
