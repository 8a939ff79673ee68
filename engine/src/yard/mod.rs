//! The yard: what a supplier is asked for, how it comes, where it lies, what it costs.

mod cover;
mod platform;
mod site;

pub use cover::{bags, ballast, battens, cover_area, cover_sheets, cover_width, gust_pressure, uplift};
pub use platform::{above_ground, boards, length_inside, length_outside, platform_height, trestles};
pub use site::{
    apart, crown_clear, from_eave, from_face, land, persons_each, pile, pole_clear, side, squares, tarps, way, yard,
};

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Area, Currency, Length, Mass, Money, Quantity, Ratio, Volume};

formula! {
    /// All that the build takes of one thing.
    ///
    /// ```text
    /// q = Σ qᵢ
    /// ```
    /// Source: the sum of its parts; each part stands in one order.
    pub fn needed(; sum: Quantity) -> Quantity {
        sum
    }
}

formula! {
    /// Supplier's units to order.
    ///
    /// ```text
    /// n = q (1 + l) / u, rounded up        l: loss, u: what one unit holds
    /// ```
    /// Source: a supplier sells whole units.
    pub fn units(amount: Quantity, loss: Ratio; holds: f64) -> u64 {
        let amount = amount.si().unwrap_or(0.0);
        rounded_up(amount * (1.0 + loss.in_fraction()) / holds)
    }
}

formula! {
    /// Mass of what is delivered.
    ///
    /// ```text
    /// m = n m unit
    /// ```
    /// Source: equal units.
    pub fn delivered_mass(units: u64; each: Mass) -> Mass {
        each * units as f64
    }
}

formula! {
    /// Loose volume of what is delivered.
    ///
    /// ```text
    /// V = n V unit
    /// ```
    /// Source: equal units.
    pub fn delivered_volume(units: u64; each: Volume) -> Volume {
        each * units as f64
    }
}

formula! {
    /// Loads of a vehicle, by whichever is full first: what it may carry or what it can hold.
    ///
    /// ```text
    /// n = max(m / m vehicle, V / V vehicle), rounded up
    /// ```
    /// Source: a vehicle is limited by mass and by room.
    pub fn loads(; share_of_one: f64) -> u64 {
        rounded_up(share_of_one).max(1)
    }
}

formula! {
    /// Ground that a ridge-shaped heap covers.
    ///
    /// ```text
    /// S = 2 V / h        h: height of the ridge
    /// ```
    /// Source: a prism of triangular section; its ends are left out.
    pub fn heap_area(volume: Volume, height: Length) -> Area {
        volume * 2.0 / height
    }
}

formula! {
    /// Ground that stacked units cover.
    ///
    /// ```text
    /// S = n S unit
    /// ```
    /// Source: equal units.
    pub fn stack_area(units: u64, each: Area) -> Area {
        each * units as f64
    }
}

formula! {
    /// Price of an order.
    ///
    /// ```text
    /// c = n c unit
    /// ```
    /// Source: equal units, in whole minor units of the currency.
    pub fn cost(units: u64, price: Money; cost: Money) -> Money {
        cost
    }
}

formula! {
    /// Price of all orders that have a price.
    ///
    /// ```text
    /// c = Σ cᵢ
    /// ```
    /// Source: the sum of its parts, in whole minor units of the currency.
    pub fn total(; sum: Money) -> Money {
        sum
    }
}

formula! {
    /// Price for each unit of floor area.
    ///
    /// ```text
    /// c / S, to the nearest minor unit of the currency
    /// ```
    /// Source: the definition of the rate.
    pub fn rate(total: Money, floor: Area; unit: Area) -> Money {
        per(total, floor / unit)
    }
}

/// An amount divided by a number, to the nearest minor unit.
fn per(total: Money, number: f64) -> Money {
    Money { minor: (total.minor as f64 / number).round() as i64, ..total }
}

/// Nothing, in a currency.
#[must_use]
pub fn nothing(currency: Currency) -> Money {
    Money { minor: 0, currency }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests {
    use super::*;
    use crate::units::Density;

    #[test]
    fn a_unit_more_is_ordered_only_when_something_is_missing() {
        let loss = Ratio::percent(10.0);
        assert_eq!(units(Mass::t(10.0).into(), loss, 1000.0).value, 11);
        assert_eq!(units(Mass::t(10.001).into(), loss, 1000.0).value, 12);
        assert_eq!(units(Mass::t(0.1 * 30.0).into(), Ratio::percent(0.0), 1000.0).value, 3);
        assert_eq!(units(Quantity::Count(9), Ratio::percent(0.0), 1.0).value, 9);
    }

    #[test]
    fn a_heap_of_one_cubic_metre_a_metre_high_covers_two_square_metres() {
        assert_eq!(heap_area(Mass::t(1.5) / Density::kg_m3(1500.0), Length::m(1.0)).value, Area::m2(2.0));
    }

    #[test]
    fn a_rate_is_rounded_to_the_minor_unit() {
        let total = Money { minor: 100_000, currency: Currency::parse("EUR").unwrap() };
        assert_eq!(rate(total, Area::m2(15.0), Area::m2(1.0)).value.minor, 6667);
    }
}
