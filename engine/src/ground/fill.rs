//! What goes into the trench and its drain: rubble, the fabric round it, and the spoil that comes out.

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Area, Length, Volume};

formula! {
    /// Rubble under the stem wall, packed: the trench from its bottom up to the foot of the stem.
    ///
    /// ```text
    /// V = V trench − w L h        h: depth of the foot of the stem below the ground outside
    /// ```
    /// Source: Pappus's theorem; the middle of the trench lies on the line.
    pub fn rubble(trench: Volume, width: Length, line_length: Length, stem_height: Length, ground_outside: Length) -> Volume {
        trench - width * line_length * (ground_outside + stem_height)
    }
}

formula! {
    /// Gravel round the pipe of the drain, packed, up to the soil that covers it.
    ///
    /// ```text
    /// V = w l (d − c)² / (2 d)        d: depth at the trench's outlet, c: soil over the gravel
    /// ```
    /// Source: a wedge cut off level with its upper side; the ground runs evenly to where the drain comes out.
    pub fn drain_gravel(width: Length, length: Length, depth: Length, cover: Length) -> Volume {
        let gravel = (depth - cover).max(Length::ZERO);
        width * length * gravel * (gravel / depth * 0.5)
    }
}

formula! {
    /// Way round the rubble that the fabric takes: bottom, two sides, and folded over the top.
    ///
    /// ```text
    /// g = 2 w + 2 V / (w l)        V / (w l): mean height of the rubble
    /// ```
    /// Source: the outline of a rectangle.
    pub fn girth(width: Length, length: Length, rubble: Volume) -> Length {
        width * 2.0 + rubble / (width * length) * 2.0
    }
}

formula! {
    /// Pieces of fabric end to end, each lapped over the one before.
    ///
    /// ```text
    /// n = (l − lap) / (p − lap), rounded up        p: length of a piece as it comes
    /// ```
    /// Source: each piece but the first gains its length less a lap.
    pub fn pieces(length: Length, piece: Length, lap: Length) -> u64 {
        rounded_up((length - lap) / (piece - lap)).max(1)
    }
}

formula! {
    /// Fabric, with its laps: along the closing edge and where pieces meet.
    ///
    /// ```text
    /// S = (g + lap) (l + (n − 1) lap)
    /// ```
    /// Source: a sheet as long as the trench and its laps, as wide as the way round the rubble and one lap.
    pub fn fabric(girth: Length, length: Length, lap: Length, pieces: u64) -> Area {
        (girth + lap) * (length + lap * (pieces as f64 - 1.0))
    }
}

formula! {
    /// What was dug and is carted away or heaped: trench and drain, less the soil put back over the drain.
    ///
    /// ```text
    /// V = V trench + V drain − V back / f        f: packed volume for each volume in the ground
    /// ```
    /// Source: mass is kept; volumes as they lie in the ground.
    pub fn spoil_left(trench: Volume, drain: Volume, put_back: Volume, packed_factor: f64) -> Volume {
        trench + drain - put_back / packed_factor
    }
}

formula! {
    /// Soil put back over the gravel of the drain.
    ///
    /// ```text
    /// V = V drain − V gravel
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn put_back(drain: Volume, gravel: Volume) -> Volume {
        drain - gravel
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drain_without_cover_is_all_gravel() {
        let (width, length, depth) = (Length::mm(500.0), Length::m(8.0), Length::mm(900.0));
        let whole = crate::ground::drain_volume(width, length, depth).value;
        let gravel = drain_gravel(width, length, depth, Length::ZERO).value;
        assert!((whole - gravel).abs() < Volume::litres(1e-6));
        assert_eq!(drain_gravel(width, length, depth, Length::m(1.0)).value, Volume::ZERO);
    }

    #[test]
    fn pieces_of_fabric_cover_the_length_and_not_one_more() {
        let lap = Length::mm(300.0);
        assert_eq!(pieces(Length::m(10.0), Length::m(10.0), lap).value, 1);
        assert_eq!(pieces(Length::m(10.001), Length::m(10.0), lap).value, 2);
        assert_eq!(pieces(Length::m(19.7), Length::m(10.0), lap).value, 2);
    }
}
