//! What niches, shelves, bottle bricks and vents take out of a wall; timber on and in it.

use crate::curve::{Cut, Form, Shape, Side};
use crate::reason::formula;
use crate::units::{Area, Length, Slope, Volume};

formula! {
    /// Volume of cob that a niche, or the bedded edge of a shelf, takes out of the wall.
    ///
    /// Its back is flat, upright and square to its axis, so deep behind the face at its middle; its sides run straight in.
    ///
    /// ```text
    /// V = ∫ a(z) dz
    /// a(z): plan area between face, sides and back at height z
    /// a rectangle or a circle in a straight wall:  V = A d        A: area of its form
    /// ```
    /// Source: volume by parallel sections; plan sections exact for straight runs and arcs, the height by Gauss-Legendre.
    pub fn niche_removed(width: Length, depth: Length; cut: &Cut, shape: &Shape<'_>, from: Length, to: Length) -> Volume {
        Volume::m3(cut.volume(shape, from.in_m(), to.in_m()))
    }
}

formula! {
    /// Area of a face that a niche, or the bedded edge of a shelf, takes out.
    ///
    /// ```text
    /// S = √(1 + b²) ∫ l(z) dz        l(z): length of the face between the sides at height z, b: batter
    /// ```
    /// Source: area of a leaning strip along a curve, integrated over the height.
    pub fn niche_face(width: Length, batter: Slope; cut: &Cut, shape: &Shape<'_>, side: Side) -> Area {
        Area::m2(cut.face(shape, side, cut.form.bottom(), cut.form.top()))
    }
}

formula! {
    /// Area inside a niche that is plastered: its back, its sides or its arch, its level bottom and top.
    ///
    /// ```text
    /// S = A + ∫ d dl + a(bottom) + a(top)
    /// A: area of its form, d: depth round its outline l, a: plan area of a level bottom or top
    /// ```
    /// Source: the sum of the sides of a prism cut by the face of the wall.
    pub fn niche_inside(width: Length, depth: Length; cut: &Cut, shape: &Shape<'_>) -> Area {
        let [bottom, top] = [cut.form.bottom(), cut.form.top()];
        let level = match cut.form {
            Form::Rectangle { .. } | Form::Shouldered { .. } => cut.area(shape, bottom) + cut.area(shape, top),
            Form::Arched { .. } => cut.area(shape, bottom),
            Form::Round { .. } => 0.0,
        };
        Area::m2(cut.form.area() + cut.sides(shape, bottom, top) + level)
    }
}

formula! {
    /// Area of the board of a shelf, its bedded edge with it.
    ///
    /// ```text
    /// A = l (d + b)        d: how far it stands out, b: how deep it is let in
    /// ```
    /// Source: area of a rectangle.
    pub fn board_area(length: Length, depth: Length, bedded: Length) -> Area {
        length * (depth + bedded)
    }
}

formula! {
    /// Volume of the board of a shelf, its bedded edge with it.
    ///
    /// ```text
    /// V = A t
    /// ```
    /// Source: volume of a board.
    pub fn board_volume(area: Area, thickness: Length) -> Volume {
        area * thickness
    }
}

formula! {
    /// Volume of cob that bottle bricks or a vent take out of the wall.
    ///
    /// Each is level and goes straight through, square to the wall at its middle, as long as the wall is thick there.
    ///
    /// ```text
    /// V = Σ ∫ a(z) dz        a(z): plan area of the wall between its sides at height z
    /// in a straight wall:  V = A (t − (b₁ + b₂) z)        A: area of its form, z: its middle
    /// ```
    /// Source: volume by parallel sections; plan sections exact for straight runs and arcs, the height by Gauss-Legendre.
    pub fn through_removed(
        thickness: Length, batter_inside: Slope, batter_outside: Slope;
        cuts: &[Cut], shape: &Shape<'_>, from: Length, to: Length
    ) -> Volume {
        Volume::m3(cuts.iter().map(|cut| cut.volume(shape, from.in_m(), to.in_m())).sum())
    }
}

formula! {
    /// Area of a face that bottle bricks or a vent take out.
    ///
    /// ```text
    /// S = √(1 + b²) Σ ∫ l(z) dz        l(z): length of the face between the sides at height z, b: batter
    /// ```
    /// Source: area of a leaning strip along a curve, integrated over the height.
    pub fn through_face(batter: Slope; cuts: &[Cut], shape: &Shape<'_>, side: Side) -> Area {
        Area::m2(cuts.iter().map(|cut| cut.face(shape, side, cut.form.bottom(), cut.form.top())).sum())
    }
}

formula! {
    /// Clear area of a round vent.
    ///
    /// ```text
    /// A = π d² / 4
    /// ```
    /// Source: area of a circle.
    pub fn clear_circle(diameter: Length) -> Area {
        diameter * diameter * std::f64::consts::FRAC_PI_4
    }
}

formula! {
    /// Clear area of a rectangular vent.
    ///
    /// ```text
    /// A = w h
    /// ```
    /// Source: area of a rectangle.
    pub fn clear_rectangle(width: Length, height: Length) -> Area {
        width * height
    }
}

formula! {
    /// How many bottle bricks are written, one by one.
    ///
    /// ```text
    /// n = number of places
    /// ```
    /// Source: counted in the build file; the inputs are the levels of their middles.
    pub fn places(; count: u64) -> u64 {
        count
    }
}

formula! {
    /// Volume of the bond beam as it lies on the wall; where that slopes its length is in plan and its height upright, as its body is.
    ///
    /// ```text
    /// V = l w h
    /// ```
    /// Source: Pappus's theorem; the middle of the timber lies on the line that is measured.
    pub fn bond_beam_volume(length: Length, width: Length, height: Length) -> Volume {
        length * width * height
    }
}

formula! {
    /// Volume of cob that deadmen take out of the lift in which they lie, which is the volume of the timber too.
    ///
    /// The strap that goes up from each is a few millimetres thick and is not taken out.
    ///
    /// ```text
    /// V = n l w h
    /// ```
    /// Source: each is a straight timber wholly within the wall.
    pub fn deadmen(length: Length, width: Length, height: Length, count: u64) -> Volume {
        length * width * height * count as f64
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use kurbo::Point;

    use super::*;
    use crate::curve::{Along, Depth, PlanLine, Vertex, Way};
    use crate::wall::{Buttress, buttress_sides, buttress_stone, buttress_volume};

    fn square() -> PlanLine {
        let corners = [(0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)];
        let vertex = |(x, y)| Vertex { at: Point::new(x, y), round: 0.5, way: Way::Straight };
        PlanLine::closed(&corners.map(vertex)).unwrap()
    }

    #[test]
    fn a_niche_in_a_straight_wall_is_its_form_times_its_depth_lean_or_no_lean() {
        let line = square();
        let thickness = Along::even(0.5);
        let shape = Shape { line: &line, thickness: &thickness, lean: [0.05, 0.02] };
        let station = line.station(0, 3.0).unwrap();
        let length = Length::m;
        for (side, face) in [(Side::Inner, 0.05 * 1.2 - 0.25), (Side::Outer, 0.25 - 0.02 * 1.2)] {
            let bottom = if side == Side::Inner { face + 0.2 } else { face - 0.2 };
            let depth = Depth::Into { side, bottom };
            let round = Cut { station, form: Form::Round { radius: 0.15, middle: 1.2 }, depth };
            let rectangle = Cut { station, form: Form::Rectangle { half: 0.2, bottom: 1.0, top: 1.4 }, depth };
            for (cut, area, girth) in [(round, PI * 0.0225, PI * 0.3), (rectangle, 0.16, 1.6)] {
                let volume = niche_removed(length(0.4), length(0.2), &cut, &shape, length(0.0), length(2.0));
                assert!((volume.value.in_m3() - area * 0.2).abs() < 1e-14, "{:?}: {:?}", cut.form, volume.value);
                let inside = niche_inside(length(0.4), length(0.2), &cut, &shape).value.in_m2();
                assert!((inside - area - girth * 0.2).abs() < 1e-14, "{:?}: {inside}", cut.form);
            }
        }
    }

    #[test]
    fn a_buttress_against_a_straight_wall_is_a_trapezium_on_a_block() {
        let line = square();
        let (thickness, width) = (Along::even(0.5), Along::even(0.6));
        let shape = Shape { line: &line, thickness: &thickness, lean: [0.05, 0.02] };
        let stem = Shape { line: &line, thickness: &width, lean: [0.0; 2] };
        let form = Form::Rectangle { half: 0.25, bottom: 0.0, top: 1.5 };
        let station = line.station(1, 2.0).unwrap();
        let cut = Cut { station, form, depth: Depth::Into { side: Side::Outer, bottom: 0.75 } };
        let front = [0.25 + 0.5, 0.25 - 0.02 * 1.5 + 0.1];
        let buttress = Buttress { shape, stem, side: Side::Outer, cut, front, foot: -0.4 };
        let [length, depth, above, top] = [0.5, 0.5, 0.1, 1.5].map(Length::m);
        let volume = buttress_volume(length, depth, above, top, &buttress).value.in_m3();
        assert!((volume - 0.5 * 1.5 * 0.3).abs() < 1e-14, "{volume}");
        let sides = buttress_sides(depth, above, top, &buttress).value.in_m2();
        assert!((sides - 1.5 * 0.6).abs() < 1e-14, "{sides}");
        let stone = buttress_stone(length, depth, Length::m(0.6), Length::m(-0.4), &buttress).value.in_m3();
        assert!((stone - 0.5 * 0.45 * 0.4).abs() < 1e-14, "{stone}");
    }
}
