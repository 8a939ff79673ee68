//! Quantities with units: made, added, read from text and shown, so that a wrong unit does not compile or is refused.
//!
//! Every quantity is one SI number inside. Metric and US are ways to read and to show, never a second formula.
//!
//! ```
//! use engine::units::{Area, Fineness, Length, Pressure, Quantity, System};
//!
//! let thickness = Length::parse("17 5/8 in")?;
//! assert_eq!(Quantity::from(thickness).shown(System::Metric, Fineness::Hand), "450 mm");
//! let push = Pressure::psf(65.0) * Area::sq_ft(10.0);
//! assert!((push.in_lbf() - 650.0).abs() < 1e-9);
//! # Ok::<(), engine::units::Misread>(())
//! ```
//!
//! What means nothing does not compile:
//!
//! ```compile_fail
//! use engine::units::{Area, Force};
//! let nonsense = Force::kn(1.0) + Area::m2(1.0);
//! ```
//!
//! ```compile_fail
//! use engine::units::Temperature;
//! let nonsense = Temperature::celsius(10.0) + Temperature::celsius(10.0);
//! ```

mod any;
mod define;
mod money;
mod number;
mod product;
mod quantities;
mod read;
mod read_slope;
mod shown;
mod shown_length;
mod spelling;
mod temperature;
mod when;

pub use any::{Kind, Quantity};
pub use money::{Currency, Money, MoneyFault};
pub use quantities::{
    Angle, Area, Days, Density, Effort, Force, Length, LineLoad, Mass, Moment, Pressure, Ratio, SecondMoment,
    SectionModulus, Slope, Speed, SurfaceMass, TemperatureDifference, Volume,
};
pub use read::{Misread, parse};
pub use shown::{Fineness, System};
pub use spelling::{is_us, spellings, spellings_page};
pub use temperature::Temperature;
