//! A leaning pier of cob against a face of the wall, on a foot of stone.

use crate::curve::{Cut, Shape, Side};
use crate::reason::formula;
use crate::solve::quadrature::integral;
use crate::units::{Area, Length, Slope, Volume};

/// A buttress as it stands, in metres. Its sides are upright and parallel, square to the wall at its middle.
#[derive(Clone, Copy, Debug)]
pub struct Buttress<'a> {
    /// The wall behind it.
    pub shape: Shape<'a>,
    /// The stem wall behind its foot.
    pub stem: Shape<'a>,
    /// The face that it stands against.
    pub side: Side,
    /// The rectangle of the face that it covers, from level 0 to its top.
    pub cut: Cut,
    /// How far outside of the line, at its middle, its front stands at level 0 and at its top; negative to the inside.
    pub front: [f64; 2],
    /// Level of the floor or ground that it stands on.
    pub foot: f64,
}

impl Buttress<'_> {
    /// How far outside of the line its front stands at a level, in metres.
    #[must_use]
    pub fn front_at(&self, level: f64) -> f64 {
        self.front[0] + (self.front[1] - self.front[0]) * level.max(0.0) / self.cut.form.top()
    }

    /// Plan area between the face of a body and its front at a level, in m²; `None` where its sides never meet the face.
    fn area_at(&self, behind: &Shape<'_>, level: f64) -> Option<f64> {
        let stretch = self.cut.stretch(behind, self.side, level.max(0.0))?;
        let under = behind.under(self.side, self.cut.station, stretch, level);
        let out = 2.0 * self.cut.form.half() * self.front_at(level) - under;
        Some(if self.side == Side::Inner { -out } else { out })
    }

    /// Depth of both sides at a level, in metres.
    fn sides_at(&self, level: f64) -> f64 {
        let depth = |jamb| {
            let [inner, outer] = self.cut.jamb_depths(&self.shape, jamb, level)?;
            Some((self.front_at(level) - if self.side == Side::Inner { inner } else { outer }).abs())
        };
        self.cut.jambs(level).into_iter().filter_map(depth).sum()
    }
}

formula! {
    /// Volume of the cob of a buttress.
    ///
    /// Its front leans evenly from its depth at the foot of the cob to its depth at its top, both measured square to the face
    /// at its middle.
    ///
    /// ```text
    /// V = ∫ a(z) dz        a(z): plan area between the face of the wall, its sides and its front
    /// against a straight wall:  V = l h (d + d′) / 2        d, d′: depth at the foot of the cob and at the top
    /// ```
    /// Source: volume by parallel sections; plan sections exact for straight runs and arcs, the height by Gauss-Legendre.
    pub fn buttress_volume(
        length: Length, depth: Length, depth_at_top: Length, top: Length; buttress: &Buttress<'_>
    ) -> Volume {
        let area = |level: f64| buttress.area_at(&buttress.shape, level).unwrap_or(0.0);
        Volume::m3(integral(0.0, top.in_m(), area))
    }
}

formula! {
    /// Volume of the stone under a buttress, from what it stands on up to the foot of the cob.
    ///
    /// Its front is upright, under the front of the cob.
    ///
    /// ```text
    /// V = a h        a: plan area between the face of the stem wall, its sides and its front
    /// ```
    /// Source: volume of a prism; the plan section is exact for straight runs and arcs.
    pub fn buttress_stone(length: Length, depth: Length, stem_width: Length, foot: Length; buttress: &Buttress<'_>) -> Volume {
        Area::m2(buttress.area_at(&buttress.stem, 0.0).unwrap_or(0.0)) * (-foot).max(Length::ZERO)
    }
}

formula! {
    /// Area of the leaning front of a buttress.
    ///
    /// ```text
    /// S = l √(h² + (d − d′ + b h)²)        b: batter of the face behind it
    /// ```
    /// Source: area of a leaning rectangle.
    pub fn buttress_front(
        length: Length, depth: Length, depth_at_top: Length, top: Length, batter: Slope; buttress: &Buttress<'_>
    ) -> Area {
        length * Length::m(top.in_m().hypot(buttress.front[1] - buttress.front[0]))
    }
}

formula! {
    /// Area of the two sides of a buttress.
    ///
    /// ```text
    /// S = ∫ (d₁(z) + d₂(z)) dz        d₁, d₂: from the face of the wall to the front along each side
    /// against a straight wall:  S = h (d + d′)
    /// ```
    /// Source: area of a trapezium; on a curve by Gauss-Legendre.
    pub fn buttress_sides(depth: Length, depth_at_top: Length, top: Length; buttress: &Buttress<'_>) -> Area {
        Area::m2(integral(0.0, top.in_m(), |level| buttress.sides_at(level)))
    }
}

formula! {
    /// Area of the level top of a buttress.
    ///
    /// ```text
    /// S = plan area between the face of the wall, its sides and its front at its top
    /// against a straight wall:  S = l d′
    /// ```
    /// Source: the plan section is exact for straight runs and arcs.
    pub fn buttress_top(length: Length, depth_at_top: Length; buttress: &Buttress<'_>) -> Area {
        Area::m2(buttress.area_at(&buttress.shape, buttress.cut.form.top()).unwrap_or(0.0))
    }
}

formula! {
    /// Area of the face of the wall that a buttress covers.
    ///
    /// ```text
    /// S = √(1 + b²) ∫ l(z) dz        l(z): length of the face between its sides at height z, b: batter
    /// ```
    /// Source: area of a leaning strip along a curve, integrated over the height.
    pub fn buttress_covers(length: Length, top: Length, batter: Slope; buttress: &Buttress<'_>) -> Area {
        Area::m2(buttress.cut.face(&buttress.shape, buttress.side, 0.0, top.in_m()))
    }
}
