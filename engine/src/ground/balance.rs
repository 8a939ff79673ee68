//! The earth balance: what is stripped, dug, put back and mixed, all as it lay in the ground.

use crate::reason::formula;
use crate::units::{Area, Density, Length, Mass, Volume};
use std::f64::consts::PI;

formula! {
    /// Area from which topsoil is stripped: the house and a margin round it.
    ///
    /// ```text
    /// S = A + L n + π n²        n = w / 2 + m        w: the wider of stem and trench, m: margin
    /// ```
    /// Source: Steiner's formula for the area within a parallel line.
    pub fn strip_area(enclosed_area: Area, line_length: Length, width: Length, margin: Length) -> Area {
        let reach = width * 0.5 + margin;
        enclosed_area + line_length * reach + reach * reach * PI
    }
}

formula! {
    /// Area from which topsoil is stripped along an open wall: a band with square ends.
    ///
    /// ```text
    /// S = (w + 2 m) (L + 2 m)        w: the wider of stem and trench, m: margin
    /// ```
    /// Source: Pappus's theorem; the middle of the band lies on the line, which runs on straight by the margin at either end.
    pub fn strip_area_of_open(line_length: Length, width: Length, margin: Length) -> Area {
        (width + margin * 2.0) * (line_length + margin * 2.0)
    }
}

formula! {
    /// Area round the house on which topsoil is put back.
    ///
    /// ```text
    /// S = m (L + π (w + m))        w: the wider of stem and trench, m: margin
    /// ```
    /// Source: Steiner's formula, the house taken out of the strip.
    pub fn ring_area(line_length: Length, width: Length, margin: Length) -> Area {
        margin * (line_length + (width + margin) * PI)
    }
}

formula! {
    /// Area beside an open wall on which topsoil is put back.
    ///
    /// ```text
    /// S = 2 m (L + w + 2 m)        w: the wider of stem and trench, m: margin
    /// ```
    /// Source: the strip without the wall.
    pub fn ring_area_of_open(line_length: Length, width: Length, margin: Length) -> Area {
        margin * 2.0 * (line_length + width + margin * 2.0)
    }
}

formula! {
    /// Topsoil that is stripped, as it lies in the ground.
    ///
    /// ```text
    /// V = S t
    /// ```
    /// Source: a layer of even thickness.
    pub fn stripped(strip_area: Area, topsoil: Length) -> Volume {
        strip_area * topsoil
    }
}

formula! {
    /// What the trench gives below the topsoil, which was stripped before it.
    ///
    /// ```text
    /// V = V trench − w L t
    /// ```
    /// Source: Pappus's theorem; the middle of the trench lies on the line.
    pub fn trench_below_topsoil(trench: Volume, width: Length, line_length: Length, topsoil: Length) -> Volume {
        trench - width * line_length * topsoil
    }
}

formula! {
    /// Topsoil in the trench of the drain.
    ///
    /// What of it lies within the strip round the house is counted twice; that is little.
    ///
    /// ```text
    /// V = w l t (1 − t / (2 d))        d: depth at the trench's outlet; t at most d
    /// ```
    /// Source: the top layer of a wedge; the ground runs evenly to where the drain comes out.
    pub fn drain_topsoil(width: Length, length: Length, depth: Length, topsoil: Length) -> Volume {
        let layer = topsoil.min(depth);
        width * length * layer * (1.0 - layer / depth * 0.5)
    }
}

formula! {
    /// What the drain gives below its topsoil.
    ///
    /// ```text
    /// V = V drain − V topsoil
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn drain_below_topsoil(drain: Volume, topsoil: Volume) -> Volume {
        drain - topsoil
    }
}

formula! {
    /// Topsoil that goes back on top of the drain: its own, as far as there is room for it.
    ///
    /// ```text
    /// V = min(V topsoil, V back / f)        f: packed volume for each volume in the ground
    /// ```
    /// Source: mass is kept.
    pub fn topsoil_back(topsoil: Volume, put_back: Volume, packed_factor: f64) -> Volume {
        topsoil.min(put_back / packed_factor)
    }
}

formula! {
    /// Subsoil that goes back over the gravel of the drain, below its topsoil.
    ///
    /// ```text
    /// V = V back / f − V topsoil        f: packed volume for each volume in the ground
    /// ```
    /// Source: mass is kept.
    pub fn subsoil_back(put_back: Volume, packed_factor: f64, topsoil: Volume) -> Volume {
        put_back / packed_factor - topsoil
    }
}

formula! {
    /// Dug out for the floor, below the stripped ground.
    ///
    /// ```text
    /// V = S (z − t − (z′ − d))        z: ground outside, t: topsoil, z′: finished floor, d: depth of its layers
    /// ```
    /// Source: a layer of even thickness.
    pub fn floor_dug(floor_area: Area, ground: Length, topsoil: Length, floor: Length, depth: Length) -> Volume {
        floor_area * (ground - topsoil - (floor - depth))
    }
}

formula! {
    /// Earth rammed under the floor, from the stripped ground up to its lowest layer, as it lay in the ground.
    ///
    /// ```text
    /// V = S ((z′ − d) − (z − t)) / f        z: ground outside, t: topsoil, z′: finished floor, d: depth of its layers
    /// ```
    /// Source: a layer of even thickness; mass is kept.
    pub fn floor_filled(floor_area: Area, ground: Length, topsoil: Length, floor: Length, depth: Length, packed_factor: f64) -> Volume {
        floor_area * (floor - depth - (ground - topsoil)) / packed_factor
    }
}

formula! {
    /// Dug out for the footing of an oven, below the layers of the floor or below the stripped ground, whichever is lower; with
    /// it the earth that was rammed under the floor, as it lay in the ground.
    ///
    /// ```text
    /// V = ¼ π w² (a + b / f)        f: packed volume for each volume in the ground
    /// a = min(z − t, z′ − d) − (z′ − e)        b = z′ − d − max(z − t, z′ − e)        neither below zero
    /// w, e: width and depth of the footing, z: ground outside, t: topsoil, z′: finished floor, d: depth of its layers
    /// ```
    /// Source: volume of a cylinder; mass is kept.
    pub fn footing_dug(
        width: Length, footing_depth: Length, ground: Length, topsoil: Length, floor: Length, depth: Length, packed_factor: f64
    ) -> Volume {
        let (bottom, under_floor, stripped) = (floor - footing_depth, floor - depth, ground - topsoil);
        let natural = (stripped.min(under_floor) - bottom).max(Length::ZERO);
        let rammed = (under_floor - stripped.max(bottom)).max(Length::ZERO);
        width * width * (natural + rammed / packed_factor) * (0.25 * PI)
    }
}

formula! {
    /// Dug out for the footing of an oven below the stripped ground, where no floor is laid.
    ///
    /// ```text
    /// V = ¼ π w² (z − t − (z′ − e))        not below zero
    /// w, e: width and depth of the footing, z: ground outside, t: topsoil, z′: finished floor
    /// ```
    /// Source: volume of a cylinder.
    pub fn footing_dug_without_a_floor(
        width: Length, footing_depth: Length, ground: Length, topsoil: Length, floor: Length
    ) -> Volume {
        width * width * (ground - topsoil - (floor - footing_depth)).max(Length::ZERO) * (0.25 * PI)
    }
}

formula! {
    /// Earth of a loose volume, as it lay in the ground.
    ///
    /// ```text
    /// V = V loose / f        f: loose volume for each volume in the ground
    /// ```
    /// Source: the definition of the factor.
    pub fn from_loose(loose: Volume, loose_factor: f64) -> Volume {
        loose / loose_factor
    }
}

formula! {
    /// Topsoil put back round the house, as it lay in the ground.
    ///
    /// ```text
    /// V = S t / f        f: packed volume for each volume in the ground
    /// ```
    /// Source: a layer of even thickness; mass is kept.
    pub fn spread_round(ring_area: Area, spread: Length, packed_factor: f64) -> Volume {
        ring_area * spread / packed_factor
    }
}

formula! {
    /// What lies on the heap after a stage; below zero, what is missing until a later one.
    ///
    /// ```text
    /// V = V before + V in − V out
    /// ```
    /// Source: earth is neither made nor lost.
    pub fn heap_left(before: Volume, came_in: Volume, went_out: Volume) -> Volume {
        before + came_in - went_out
    }
}

formula! {
    /// All that came to a heap or went from it.
    ///
    /// ```text
    /// V = Σ Vᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn stages(; sum: Volume) -> Volume {
        sum
    }
}

formula! {
    /// What is left over at the end: more than is used.
    ///
    /// ```text
    /// V = V left
    /// ```
    /// Source: what lies on the heap after the last stage.
    pub fn surplus(left: Volume) -> Volume {
        left
    }
}

formula! {
    /// What is short at the end: more is used than there is.
    ///
    /// ```text
    /// V = −V left
    /// ```
    /// Source: what lies on the heap after the last stage.
    pub fn short(left: Volume) -> Volume {
        -left
    }
}

formula! {
    /// Dry mass of earth, as it lay in the ground.
    ///
    /// ```text
    /// m = V f ρ        f: loose volume for each volume in the ground, ρ: dry mass in a loose cubic metre
    /// ```
    /// Source: the definition of factor and density.
    pub fn dry_mass(in_the_ground: Volume, loose_factor: f64, loose_density: Density) -> Mass {
        in_the_ground * loose_factor * loose_density
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strip_and_house_part_into_house_and_ring() {
        let (length, width, margin) = (Length::m(12.0), Length::mm(500.0), Length::m(1.0));
        let enclosed = Area::m2(11.0);
        let house = strip_area(enclosed, length, width, Length::ZERO).value;
        let ring = ring_area(length, width, margin).value;
        assert!((strip_area(enclosed, length, width, margin).value - house - ring).abs() < Area::m2(1e-12));
        let band = width * length;
        let beside = ring_area_of_open(length, width, margin).value;
        assert!((strip_area_of_open(length, width, margin).value - band - beside).abs() < Area::m2(1e-12));
    }

    #[test]
    fn a_drain_that_is_all_topsoil_is_the_whole_wedge() {
        let (width, length, depth) = (Length::mm(500.0), Length::m(8.0), Length::mm(900.0));
        let whole = crate::ground::drain_volume(width, length, depth).value;
        assert!((drain_topsoil(width, length, depth, depth).value - whole).abs() < Volume::litres(1e-9));
        assert!((drain_topsoil(width, length, depth, Length::m(2.0)).value - whole).abs() < Volume::litres(1e-9));
    }
}
