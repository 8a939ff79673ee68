//! The builds that come with the program: what holds for every house is tried on each of them.

pub const TANSY_BANK: &str = include_str!("../../../builds/tansy-bank/tansy-bank.loam.toml");
pub const BURDOCK_RISE: &str = include_str!("../../../builds/burdock-rise/burdock-rise.loam.toml");
pub const QUINCE_HUT: &str = include_str!("../../../builds/quince-hut/quince-hut.loam.toml");
pub const PLAIN_RING: &str = include_str!("../../../builds/plain-ring/plain-ring.loam.toml");
pub const SECOND_RING: &str = include_str!("../../../builds/second-ring/second-ring.loam.toml");
pub const SPIRAL_WALL: &str = include_str!("../../../builds/spiral-wall/spiral-wall.loam.toml");

/// Each with its name.
pub const BUILDS: [(&str, &str); 5] = [
    ("tansy-bank", TANSY_BANK),
    ("burdock-rise", BURDOCK_RISE),
    ("quince-hut", QUINCE_HUT),
    ("plain-ring", PLAIN_RING),
    ("spiral-wall", SPIRAL_WALL),
];
