//! Numerics that know nothing of the trade.

pub mod assignment;
pub mod crossing;
pub mod frame;
pub mod polygon;
pub mod quadrature;
pub mod sign;
pub mod space;
pub mod sparse;
pub mod whole;
