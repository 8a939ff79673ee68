//! The order of building in which the parts of a house are pulled apart.

/// Free height between a stage and the next, by how much of the lower one has to be seen, in metres.
const WIDE: f64 = 1.2;
pub(super) const NARROW: f64 = 0.5;

/// Parts that are built together, from below.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// Rubble in the trench.
    Rubble,
    /// The stem wall, and the stone under what is built in.
    Stem,
    /// Layers of the floor.
    Floor,
    /// The cob, and what stands in its openings.
    Wall,
    /// What is built in.
    BuiltIn,
    /// Lintels.
    Lintels,
    /// Deadmen.
    Deadmen,
    /// The bond beam.
    BondBeam,
    /// Poles of the roof.
    Poles,
    /// Layers of the roof.
    Roof,
}

impl Stage {
    /// The stage in which the part of a path is built.
    #[must_use]
    pub fn of(path: &str) -> Stage {
        match path {
            "wall.bond-beam" => Stage::BondBeam,
            "roof.poles" => Stage::Poles,
            _ if path.starts_with("water.") => Stage::Rubble,
            _ if path == "wall.stem" || (path.starts_with("built-in.") && path.ends_with(".stone")) => Stage::Stem,
            _ if path.starts_with("floor.") => Stage::Floor,
            _ if path.starts_with("built-in.") => Stage::BuiltIn,
            _ if path.starts_with("openings.") && path.ends_with(".lintel") => Stage::Lintels,
            _ if path.starts_with("wall.anchors.") => Stage::Deadmen,
            _ if path.starts_with("roof.") => Stage::Roof,
            _ => Stage::Wall,
        }
    }

    /// Its place in the order, from 0.
    #[must_use]
    pub fn rank(self) -> u32 {
        self as u32
    }

    /// Whether it lies on the walls and covers the room.
    #[must_use]
    pub fn is_over_the_room(self) -> bool {
        self >= Stage::BondBeam
    }

    /// Free height above it where the parts are pulled apart, in metres.
    #[must_use]
    pub fn free_above(self) -> f64 {
        match self {
            Stage::Rubble | Stage::Stem | Stage::Wall | Stage::Poles => WIDE,
            _ => NARROW,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_come_in_the_order_of_building() {
        let paths = [
            "water.trench",
            "built-in.bench.stone",
            "floor.layers.gravel",
            "wall.lifts.first",
            "built-in.bench",
            "openings.door.lintel",
            "wall.anchors.high",
            "wall.bond-beam",
            "roof.poles",
            "roof.layers.boards",
        ];
        let ranks: Vec<u32> = paths.iter().map(|path| Stage::of(path).rank()).collect();
        assert_eq!(ranks, (0..10).collect::<Vec<u32>>());
        for (path, stage) in [("wall.stem", Stage::Stem), ("wall", Stage::Wall), ("openings.door.frame", Stage::Wall)] {
            assert_eq!(Stage::of(path), stage, "{path}");
        }
        let over = paths.iter().filter(|path| Stage::of(path).is_over_the_room());
        assert_eq!(over.collect::<Vec<_>>(), [&"wall.bond-beam", &"roof.poles", &"roof.layers.boards"]);
    }
}
