//! The macro that makes a quantity: a newtype over one SI number, made and read by unit.

/// Makes a quantity type.
///
/// Each unit is given as `make / read = numerator, denominator`: one unit is numerator / denominator in SI. Two whole
/// numbers instead of one decimal, because `value * n / d` rounds once where a decimal factor is itself rounded first:
/// `Length::mm(457.2)` and `Length::inches(18.0)` then differ by no more than the last binary digit.
macro_rules! quantity {
    (
        $(#[$about:meta])*
        $name:ident {
            $( $(#[$unit_about:meta])* $make:ident / $read:ident = $numerator:expr, $denominator:expr; )+
        }
    ) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(pub(super) f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);

            $(
                $(#[$unit_about])*
                #[must_use]
                pub const fn $make(value: f64) -> Self {
                    Self(value * $numerator / $denominator)
                }

                #[doc = concat!("The same quantity as a plain number, in the unit of [`Self::", stringify!($make), "`].")]
                #[must_use]
                pub const fn $read(self) -> f64 {
                    self.0 * $denominator / $numerator
                }
            )+

            /// The size without the sign.
            #[must_use]
            pub const fn abs(self) -> Self {
                Self(self.0.abs())
            }

            /// The smaller of two.
            #[must_use]
            pub const fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            /// The larger of two.
            #[must_use]
            pub const fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }

            /// Reads it from text with its unit, as people write it.
            ///
            /// # Errors
            /// [`Misread`](super::Misread) when the text is no such quantity; its hint says how to write it.
            pub fn parse(text: &str) -> Result<Self, super::Misread> {
                Self::try_from(super::parse(text, super::Kind::$name)?)
            }
        }

        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl std::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, times: f64) -> Self {
                Self(self.0 * times)
            }
        }

        impl std::ops::Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, one: $name) -> $name {
                $name(self * one.0)
            }
        }

        impl std::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, parts: f64) -> Self {
                Self(self.0 / parts)
            }
        }

        impl std::ops::Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                Self(parts.fold(0.0, |total, part| total + part.0))
            }
        }
    };
}

pub(super) use quantity;
