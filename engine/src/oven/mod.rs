//! An earthen oven: its dome in two layers, doorway, floor, base and footing, and how hard it presses on the ground.

use std::f64::consts::PI;

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Area, Density, Length, Mass, Pressure, Ratio, Volume};

formula! {
    /// Sand in the form over which the dome is built, damp and packed.
    ///
    /// ```text
    /// V = π d² h / 6        d: diameter of the floor, h: height of the dome within
    /// ```
    /// Source: volume of half an ellipsoid, elementary geometry.
    pub fn sand_form(diameter: Length, dome_height: Length) -> Volume {
        diameter * diameter * dome_height * (PI / 6.0)
    }
}

formula! {
    /// Area of the doorway, under an arch that is half an ellipse.
    ///
    /// ```text
    /// A = π w h / 4
    /// ```
    /// Source: area of half an ellipse, elementary geometry.
    pub fn doorway(width: Length, height: Length) -> Area {
        width * height * (PI / 4.0)
    }
}

formula! {
    /// A layer of the dome, as thick over its crown as at its foot, doorway taken out.
    ///
    /// The doorway is taken as straight and as long as the layer is thick; the bend of the dome makes it a little longer.
    ///
    /// ```text
    /// V = π ((d + 2t)² (h + t) − d² h) / 6 − A t        d, h: diameter and height under the layer, t: its thickness
    /// ```
    /// Source: the difference of two half ellipsoids, elementary geometry.
    pub fn dome_layer(diameter: Length, height: Length, thickness: Length, doorway: Area) -> Volume {
        let wide = diameter + 2.0 * thickness;
        (wide * wide * (height + thickness) - diameter * diameter * height) * (PI / 6.0) - doorway * thickness
    }
}

formula! {
    /// Diameter over a layer of the dome.
    ///
    /// ```text
    /// d′ = d + 2 t
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn over_layer(diameter: Length, thickness: Length) -> Length {
        diameter + 2.0 * thickness
    }
}

formula! {
    /// Height over a layer of the dome.
    ///
    /// ```text
    /// h′ = h + t
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn height_over_layer(height: Length, thickness: Length) -> Length {
        height + thickness
    }
}

formula! {
    /// Bricks of the oven's floor.
    ///
    /// The floor runs under the layer that keeps the heat, so that the dome stands on it.
    ///
    /// ```text
    /// n = π d² / (4 l w) (1 + a), rounded up        a: what is lost in cutting to the circle
    /// ```
    /// Source: area of a circle over that of a brick, joints left out.
    pub fn floor_bricks(diameter: Length, brick_length: Length, brick_width: Length, waste: Ratio) -> u64 {
        let area = diameter * diameter * (PI / 4.0);
        rounded_up(area / (brick_length * brick_width) * (1.0 + waste.in_fraction()))
    }
}

formula! {
    /// Volume of the brick floor.
    ///
    /// ```text
    /// V = π d² t / 4
    /// ```
    /// Source: volume of a cylinder.
    pub fn floor_volume(diameter: Length, thickness: Length) -> Volume {
        diameter * diameter * thickness * (PI / 4.0)
    }
}

formula! {
    /// Stone in the ring of the base, as it is laid.
    ///
    /// ```text
    /// V = π (d − t) t h        t: thickness of the ring
    /// ```
    /// Source: volume of a tube; its middle goes round a circle of diameter d − t.
    pub fn base_ring(diameter: Length, ring: Length, height: Length) -> Volume {
        (diameter - ring) * ring * height * PI
    }
}

formula! {
    /// Fill within the ring of the base, packed.
    ///
    /// ```text
    /// V = π (d − 2t)² h / 4        t: thickness of the ring
    /// ```
    /// Source: volume of a cylinder.
    pub fn base_fill(diameter: Length, ring: Length, height: Length) -> Volume {
        let within = diameter - 2.0 * ring;
        within * within * height * (PI / 4.0)
    }
}

formula! {
    /// Volume of the footing, below the finished floor.
    ///
    /// ```text
    /// V = π w² d / 4        w: its diameter
    /// ```
    /// Source: volume of a cylinder.
    pub fn footing(width: Length, depth: Length) -> Volume {
        width * width * depth * (PI / 4.0)
    }
}

formula! {
    /// Mass of a part of the oven.
    ///
    /// ```text
    /// m = V ρ
    /// ```
    /// Source: the definition of density.
    pub fn part_mass(volume: Volume, density: Density) -> Mass {
        volume * density
    }
}

formula! {
    /// Mass of ring and fill of the base.
    ///
    /// ```text
    /// m = (V₁ + V₂) ρ
    /// ```
    /// Source: the definition of density.
    pub fn base_mass(ring: Volume, fill: Volume, density: Density) -> Mass {
        (ring + fill) * density
    }
}

formula! {
    /// Mass of the oven on its footing, when it is dry; wet from the hand it is heavier.
    ///
    /// ```text
    /// m = Σ mᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn mass(; sum: Mass) -> Mass {
        sum
    }
}

formula! {
    /// Mean pressure of the oven on the ground under its footing; the footing's own weight replaces that of the soil dug out.
    ///
    /// ```text
    /// p = 4 m g / (π w²)        w: diameter of the footing
    /// ```
    /// Source: the definition of pressure; an even footing on even ground.
    pub fn ground_pressure(mass: Mass, width: Length; gravity_m_s2: f64) -> Pressure {
        let area = width * width * (PI / 4.0);
        Pressure::pa(mass.in_kg() * gravity_m_s2 / area.in_m2())
    }
}

formula! {
    /// Clear way from the oven to the inner face of the wall at its foot, where it is least.
    ///
    /// ```text
    /// c = a − ½ t − ½ d        a: from the oven's middle to the wall's line, t: thickness of the wall, d: diameter over all
    /// ```
    /// Source: the nearest point of the plan line; thickness as it is there.
    pub fn clear_of_wall(diameter: Length; distance: Length, half_wall: Length) -> Length {
        distance - half_wall - 0.5 * diameter
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn layers_of_a_round_dome_are_shells_of_a_half_sphere() {
        let [inside, thick] = [Length::m(1.0), Length::m(0.1)];
        let layer = dome_layer(inside, Length::m(0.5), thick, Area::ZERO).value.in_m3();
        let shell = 2.0 * PI / 3.0 * (0.6_f64.powi(3) - 0.5_f64.powi(3));
        assert!((layer - shell).abs() < 1e-15, "{layer} and {shell}");
        let door = doorway(Length::m(0.4), Length::m(0.3)).value;
        let less = dome_layer(inside, Length::m(0.5), thick, door).value.in_m3();
        assert!((shell - less - PI * 0.03 * 0.1).abs() < 1e-15);
    }

    #[test]
    fn ring_and_fill_make_the_whole_base() {
        let [diameter, ring, height] = [1.5, 0.3, 0.8].map(Length::m);
        let whole = PI / 4.0 * 1.5 * 1.5 * 0.8;
        let parts = base_ring(diameter, ring, height).value + base_fill(diameter, ring, height).value;
        assert!((parts.in_m3() - whole).abs() < 1e-14);
    }
}
