//! The form of an opening or a niche seen along its axis: how wide it is at each level.

use std::f64::consts::FRAC_PI_2;

use crate::solve::quadrature::integral;

/// A form symmetric about its axis; levels and widths in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// Level sill, level head, upright jambs.
    Rectangle {
        /// Half its width.
        half: f64,
        /// Level of the sill.
        bottom: f64,
        /// Level of the head.
        top: f64,
    },
    /// A circle.
    Round {
        /// Its radius.
        radius: f64,
        /// Level of its middle.
        middle: f64,
    },
    /// Level sill, upright jambs, a round arch over them that rises by half the width or less.
    Arched {
        /// Half its width.
        half: f64,
        /// Level of the sill.
        bottom: f64,
        /// Level at which the arch begins.
        spring: f64,
        /// Level of the crown.
        top: f64,
    },
    /// Level sill, upright jambs, and over them a lintel that lies on the wall at either side: the jambs alone are splayed.
    Shouldered {
        /// Half the width between the jambs.
        half: f64,
        /// Level of the sill.
        bottom: f64,
        /// Level of the head, on which the lintel lies.
        head: f64,
        /// Half the length of the lintel.
        wide: f64,
        /// Level of the top of the lintel.
        top: f64,
    },
}

/// The circle of a form's curved part: radius and level of its middle, in metres.
type Circle = [f64; 2];

impl Form {
    /// Level of its lowest point, in metres.
    #[must_use]
    pub fn bottom(&self) -> f64 {
        match *self {
            Form::Rectangle { bottom, .. } | Form::Arched { bottom, .. } | Form::Shouldered { bottom, .. } => bottom,
            Form::Round { radius, middle } => middle - radius,
        }
    }

    /// Level of its highest point, in metres.
    #[must_use]
    pub fn top(&self) -> f64 {
        match *self {
            Form::Rectangle { top, .. } | Form::Arched { top, .. } | Form::Shouldered { top, .. } => top,
            Form::Round { radius, middle } => middle + radius,
        }
    }

    /// Half its greatest width between jambs, in metres.
    #[must_use]
    pub fn half(&self) -> f64 {
        match *self {
            Form::Rectangle { half, .. } | Form::Arched { half, .. } | Form::Shouldered { half, .. } => half,
            Form::Round { radius, .. } => radius,
        }
    }

    /// The circle that its curved part belongs to.
    #[must_use]
    pub fn circle(&self) -> Option<Circle> {
        match *self {
            Form::Rectangle { .. } | Form::Shouldered { .. } => None,
            Form::Round { radius, middle } => Some([radius, middle]),
            Form::Arched { half, spring, top, .. } => {
                let rise = top - spring;
                let radius = (half * half + rise * rise) / (2.0 * rise);
                Some([radius, top - radius])
            }
        }
    }

    /// Level above which it is curved, in metres; its top where it never is.
    #[must_use]
    pub fn spring(&self) -> f64 {
        match *self {
            Form::Rectangle { top, .. } | Form::Shouldered { top, .. } => top,
            Form::Round { radius, middle } => middle - radius,
            Form::Arched { spring, .. } => spring,
        }
    }

    /// The lowest level, not below one given, at which it is as wide as it is anywhere above that.
    #[must_use]
    pub fn widest_above(&self, level: f64) -> f64 {
        match *self {
            Form::Round { middle, .. } => middle.max(level),
            Form::Rectangle { bottom, .. } | Form::Arched { bottom, .. } => bottom.max(level),
            Form::Shouldered { top, .. } => top.max(level),
        }
    }

    /// Length of its outline without the sill, in metres.
    #[must_use]
    pub fn girth(&self) -> f64 {
        let jambs = 2.0 * (self.spring() - self.bottom());
        match self.circle() {
            None => jambs + 2.0 * self.half(),
            Some(circle) => {
                let [from, to] = [self.spring(), self.top()].map(|level| angle(level, circle));
                jambs + 2.0 * circle[0] * (to - from)
            }
        }
    }

    /// The opening and the lintel of which it is made, where it has one.
    #[must_use]
    pub fn parts(&self) -> Option<[Form; 2]> {
        let Form::Shouldered { half, bottom, head, wide, top } = *self else { return None };
        Some([Form::Rectangle { half, bottom, top: head }, Form::Rectangle { half: wide, bottom: head, top }])
    }

    /// The form whose sides lie inside of it by so many metres, and its sill by so many; `None` where nothing is left.
    #[must_use]
    pub fn inset(&self, by: f64, foot: f64) -> Option<Form> {
        match *self {
            Form::Shouldered { half, bottom, head, .. } => Form::Rectangle { half, bottom, top: head }.inset(by, foot),
            Form::Rectangle { half, bottom, top } => (half > by && top - bottom > by + foot)
                .then_some(Form::Rectangle { half: half - by, bottom: bottom + foot, top: top - by }),
            Form::Round { radius, middle } => (radius > by).then_some(Form::Round { radius: radius - by, middle }),
            Form::Arched { half, bottom, top, .. } => {
                let [radius, middle] = self.circle()?;
                let (within, half) = (radius - by, half - by);
                let spring = middle + (within * within - half * half).max(0.0).sqrt();
                (half > 0.0 && within >= half && spring > bottom + foot && top - by > spring).then_some(Form::Arched {
                    half,
                    bottom: bottom + foot,
                    spring,
                    top: top - by,
                })
            }
        }
    }

    /// The same form, its every side moved inwards by so many metres; `None` where nothing is left.
    #[must_use]
    pub fn less(&self, by: f64) -> Option<Form> {
        match *self {
            Form::Shouldered { half, bottom, head, wide, top } => {
                (half > by && top - head > 2.0 * by).then_some(Form::Shouldered {
                    half: half - by,
                    bottom: bottom + by,
                    head: head + by,
                    wide: wide - by,
                    top: top - by,
                })
            }
            _ => self.inset(by, by),
        }
    }

    /// What of it lies below a level, in metres; itself where it is round.
    #[must_use]
    pub fn below(&self, level: f64) -> Form {
        match *self {
            Form::Rectangle { half, bottom, .. } | Form::Arched { half, bottom, .. } if level <= self.spring() => {
                Form::Rectangle { half, bottom, top: level }
            }
            whole => whole,
        }
    }

    /// Levels from one given, or its lowest, to its highest between which it is drawn straight, the curved part in so many
    /// steps of even angle; in metres.
    #[must_use]
    pub fn levels(&self, from: f64, steps: u32) -> Vec<f64> {
        let low = from.max(self.bottom());
        if let Form::Shouldered { head, top, .. } = *self {
            return vec![low, head, head, top];
        }
        let Some([radius, middle]) = self.circle() else { return vec![low, self.top()] };
        let [first, last] = [low.max(self.spring()), self.top()].map(|level| angle(level, [radius, middle]));
        let curved = (0..=steps).map(|step| first + (last - first) * f64::from(step) / f64::from(steps));
        let upright = (low < self.spring()).then_some(low);
        upright.into_iter().chain(curved.map(|angle| middle + radius * angle.sin())).collect()
    }

    /// Half its width at a level, in metres; 0 above and below it.
    #[must_use]
    pub fn half_at(&self, level: f64) -> f64 {
        if level < self.bottom() || level > self.top() {
            return 0.0;
        }
        match self.circle() {
            Some([radius, middle]) if level > self.spring() => {
                (radius * radius - (level - middle) * (level - middle)).max(0.0).sqrt()
            }
            _ => match *self {
                Form::Shouldered { head, wide, .. } if level > head => wide,
                _ => self.half(),
            },
        }
    }

    /// Its area, in m².
    ///
    /// ```text
    /// rectangle w h,  circle π r²,  arch: w h₀ + R² asin(½ w / R) − ½ w (R − r)
    /// R = (¼ w² + r²) / 2r        h₀: sill to spring, r: rise of the arch
    /// ```
    /// Source: area of a circle and of its segment, elementary geometry.
    #[must_use]
    pub fn area(&self) -> f64 {
        if let Some(parts) = self.parts() {
            return parts.iter().map(Form::area).sum();
        }
        let upright = 2.0 * self.half() * (self.spring() - self.bottom());
        match self.circle() {
            None => upright,
            Some([radius, middle]) => {
                let [from, to] = [self.spring(), self.top()].map(|level| angle(level, [radius, middle]));
                let primitive = |angle: f64| radius * radius * (angle + angle.sin() * angle.cos());
                upright + primitive(to) - primitive(from)
            }
        }
    }

    /// The integral over levels, in metres, of a quantity that depends on level and half width, between two levels.
    ///
    /// Where the form is curved it runs over the angle, so that a crown costs no accuracy.
    pub fn over_levels(&self, from: f64, to: f64, of: impl FnMut(f64) -> f64) -> f64 {
        let mut of = of;
        self.summed(from, to, &mut of)
    }

    fn summed(&self, from: f64, to: f64, of: &mut dyn FnMut(f64) -> f64) -> f64 {
        let [low, high] = [from.max(self.bottom()), to.min(self.top())];
        let step = if let Form::Shouldered { head, .. } = *self { head.clamp(low, high.max(low)) } else { low };
        let spring = self.spring();
        if low < step {
            let [below, above] = [integral(low, step, &mut *of), self.summed(step, to, of)];
            return below + above;
        }
        let upright = if low < high.min(spring) { integral(low, high.min(spring), &mut *of) } else { 0.0 };
        let curved = match self.circle() {
            Some([radius, middle]) if low.max(spring) < high => {
                let [from, to] = [low.max(spring), high].map(|level| angle(level, [radius, middle]));
                over_angles([from, to], |angle| of(middle + radius * angle.sin()) * radius * angle.cos())
            }
            _ => 0.0,
        };
        upright + curved
    }
}

/// The integral over part of a circle, by halves: a whole half turn is too much for one rule.
pub(super) fn over_angles([from, to]: [f64; 2], mut of: impl FnMut(f64) -> f64) -> f64 {
    let middle = from.midpoint(to);
    integral(from, middle, &mut of) + integral(middle, to, &mut of)
}

/// Angle above the horizontal at which a circle has a level, in radians.
pub(super) fn angle(level: f64, [radius, middle]: Circle) -> f64 {
    let sine = (level - middle) / radius;
    // Near the crown an angle is far less exact than its sine: a rounding there would leave out 1e-8 of the arch.
    if 1.0 - sine.abs() < 1e-14 { FRAC_PI_2.copysign(sine) } else { sine.clamp(-1.0, 1.0).asin() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn areas_are_the_closed_forms_and_the_integrals_of_the_widths() {
        let rectangle = Form::Rectangle { half: 0.5, bottom: 0.2, top: 1.0 };
        let round = Form::Round { radius: 0.3, middle: 1.0 };
        let half_circle = Form::Arched { half: 0.4, bottom: 0.0, spring: 1.5, top: 1.9 };
        let flat = Form::Arched { half: 0.4, bottom: 0.0, spring: 1.5, top: 1.6 };
        assert!((rectangle.area() - 0.8).abs() < 1e-15);
        assert!((round.area() - PI * 0.09).abs() < 1e-15);
        assert!((half_circle.area() - (0.8 * 1.5 + 0.5 * PI * 0.16)).abs() < 1e-15);
        let shouldered = Form::Shouldered { half: 0.5, bottom: 0.2, head: 1.0, wide: 0.8, top: 1.2 };
        assert!((shouldered.area() - 0.8 - 0.32).abs() < 1e-15);
        for form in [rectangle, round, half_circle, flat, shouldered] {
            let split = form.bottom() * 0.3 + form.top() * 0.7;
            let sum: f64 = [[-9.0, split], [split, 9.0]]
                .map(|[from, to]| form.over_levels(from, to, |level| 2.0 * form.half_at(level)))
                .iter()
                .sum();
            assert!((sum - form.area()).abs() < 1e-12, "{form:?}: {sum}");
        }
    }
}
