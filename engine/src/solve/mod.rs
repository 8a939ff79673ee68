//! Numerics that know nothing of the trade.

pub mod assignment;
pub mod chance;
pub mod climb;
pub mod crossing;
pub mod draws;
pub mod frame;
pub mod least_squares;
pub mod ordinal;
pub mod polygon;
pub mod quadrature;
pub mod sign;
pub mod space;
pub mod sparse;
pub mod twist;
pub mod whole;
