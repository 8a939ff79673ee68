//! Loads on a roof: what is placed on it, snow, wind, earthquake, how codes combine them and how they lie.

pub mod acting;
pub mod combined;
pub mod earthquake;
pub mod snow;
pub mod tables;
pub mod wind;
