//! Numerics that know nothing of the trade.

pub mod crossing;
pub mod quadrature;
pub mod whole;
