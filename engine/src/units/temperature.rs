//! A temperature, which is a point on a scale and not an amount: two of them have a difference, never a sum.

use super::{Kind, Misread, TemperatureDifference};
use std::ops::{Add, Sub};

/// A temperature; kelvins inside.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Temperature(pub(super) f64);

/// What the Celsius scale counts from, in kelvins. Source: NIST Special Publication 811 (2008), Appendix B.9.
const ICE_POINT: f64 = 273.15;

impl Temperature {
    /// From kelvins above absolute zero.
    #[must_use]
    pub const fn kelvin(value: f64) -> Self {
        Self(value)
    }

    /// From degrees Celsius.
    #[must_use]
    pub const fn celsius(value: f64) -> Self {
        Self(value + ICE_POINT)
    }

    /// From degrees Fahrenheit: `°C = (°F - 32) / 1.8`.
    #[must_use]
    pub const fn fahrenheit(value: f64) -> Self {
        Self::celsius((value - 32.0) * 5.0 / 9.0)
    }

    /// Kelvins above absolute zero.
    #[must_use]
    pub const fn in_kelvin(self) -> f64 {
        self.0
    }

    /// Degrees Celsius.
    #[must_use]
    pub const fn in_celsius(self) -> f64 {
        self.0 - ICE_POINT
    }

    /// Degrees Fahrenheit.
    #[must_use]
    pub const fn in_fahrenheit(self) -> f64 {
        self.in_celsius() * 9.0 / 5.0 + 32.0
    }

    /// Reads a temperature such as "20 °C", "68 F" or "293 K".
    ///
    /// # Errors
    /// [`Misread`] when the text is no temperature, or lies below absolute zero.
    pub fn parse(text: &str) -> Result<Self, Misread> {
        Self::try_from(super::parse(text, Kind::Temperature)?)
    }
}

impl Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference(self.0 - other.0)
    }
}

impl Add<TemperatureDifference> for Temperature {
    type Output = Self;
    fn add(self, step: TemperatureDifference) -> Self {
        Self(self.0 + step.0)
    }
}

impl Sub<TemperatureDifference> for Temperature {
    type Output = Self;
    fn sub(self, step: TemperatureDifference) -> Self {
        Self(self.0 - step.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fahrenheit_and_celsius_agree_at_freezing_at_boiling_and_at_minus_forty() {
        for (fahrenheit, celsius) in [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0), (68.0, 20.0)] {
            assert!((Temperature::fahrenheit(fahrenheit).in_celsius() - celsius).abs() < 1e-12);
            assert!((Temperature::celsius(celsius).in_fahrenheit() - fahrenheit).abs() < 1e-12);
        }
        assert_eq!(Temperature::celsius(0.0).in_kelvin(), 273.15);
    }

    #[test]
    fn a_step_of_ten_kelvins_is_eighteen_fahrenheit_degrees_and_not_fifty() {
        let step = Temperature::celsius(20.0) - Temperature::celsius(10.0);
        assert!((step.in_fahrenheit_degrees() - 18.0).abs() < 1e-12);
        assert_eq!(Temperature::kelvin(280.0) + TemperatureDifference::kelvin(10.0), Temperature::kelvin(290.0));
        assert_eq!(Temperature::kelvin(280.0) - TemperatureDifference::kelvin(10.0), Temperature::kelvin(270.0));
    }
}
