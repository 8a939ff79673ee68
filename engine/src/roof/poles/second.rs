//! A second ring: in each bay one more rafter, its butt on the plate between two poles, its head on the one that the other rests on.

use super::contact::{Contact, contact, overlap};
use super::lie::Lie;
use super::plan::Course;
use super::{Layout, Pole, Rafter, Rests, Ring, laid};
use crate::solve::space::{Vector, cross, dot, size};
use crate::units::{Angle, Length};

/// Where the head of a rafter of the second ring is to lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Head {
    /// As far along its pole: share of the way in plan from the plate to where the other pole of the bay crosses it.
    Share(f64),
    /// Where a rafter cut to this length reaches.
    Cut(Length),
}

/// The rafters of a second ring, alike in each bay.
#[derive(Clone, Debug, PartialEq)]
pub struct Second {
    /// Diameter, the same all along.
    pub diameter: Length,
    /// How deep one is let into the plate.
    pub seat: Length,
    /// How deep it and its pole are let into each other where it rests.
    pub let_in: Length,
    /// How far it reaches beyond that place.
    pub beyond: Length,
    /// Where its head lies.
    pub head: Head,
    /// The top of the plate in each bay where one lies.
    pub supports: Vec<[Length; 3]>,
    /// From its butt to there.
    pub overhangs: Vec<Length>,
}

/// A rafter of the second ring in its bay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leaning {
    /// Its axis in metres: at the eave, over the plate, where it rests, at its end.
    pub axis: [Vector; 4],
    /// The pole that it rests on.
    pub on: usize,
    /// The axis of that where it carries it, in metres.
    pub under: Vector,
    /// From the butt of that pole to where it carries it.
    pub along: Length,
    /// That place as a share of the way in plan from the plate to where the other pole of the bay crosses.
    pub share: f64,
    /// Angle between the two axes.
    pub angle: Angle,
    /// Its pitch.
    pub pitch: Angle,
    /// How far the common normal of the two axes leans from plumb.
    pub lean: Angle,
    /// How far its top stands above that of its pole where the two cross in plan: what the deck has to pass over.
    pub above: Length,
    /// From the eave to over the plate, from there to where it rests, and all that is cut, along it.
    pub lengths: [Length; 3],
}

/// Why a rafter of the second ring cannot lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Misfit {
    /// It reaches its pole nowhere.
    Short {
        /// The bay, by the pole that rests on the other.
        bay: usize,
        /// The least length that would.
        least: Length,
    },
    /// It would reach into where the other pole of the bay crosses.
    Long {
        /// The bay.
        bay: usize,
        /// The greatest length at which all of them lie clear.
        most: Length,
    },
    /// Its head would lie beyond the tip of its pole.
    BeyondTip {
        /// The bay.
        bay: usize,
        /// By how much.
        by: Length,
    },
    /// It would slope down to the eye.
    Falls(usize),
    /// It lies in another pole.
    Clash {
        /// The bay.
        bay: usize,
        /// That pole.
        pole: usize,
        /// How deep.
        overlap: Length,
    },
    /// It lies in the one of another bay.
    Meets {
        /// The bay.
        bay: usize,
        /// The other bay.
        other: usize,
        /// How deep.
        overlap: Length,
    },
    /// The poles make no ring.
    NoRing,
}

/// Shares of its pole between which the head of a rafter that is cut to a length is looked for.
const REACH: [f64; 2] = [0.05, 0.95];
/// By how much of its pole at a time less far a ring is looked for that lies clear.
const LESS: f64 = 0.01;
const STEPS: u32 = 12;
/// Steps that bring a pitch, or a head, to where it is wanted; far more than are needed.
const TURNS: u32 = 60;
/// No more than this many metres off.
const CLOSE: f64 = 1e-11;
/// Poles that lie less than this many metres in each other only touch.
const TOUCHING: f64 = 1e-9;

impl Second {
    /// The rafters, bay by bay; a bay goes by the pole that rests on the other.
    ///
    /// # Errors
    /// Rafters too short or too long, beyond a tip, in another pole.
    pub fn laid(&self, layout: &Layout, ring: &Ring) -> Result<Vec<Leaning>, Misfit> {
        let layout = &layout.cut(ring);
        let lies = laid(layout, &ring.sets).map_err(|_| Misfit::NoRing)?;
        let placed = |bay: usize| match self.in_bay(layout, &lies, bay) {
            Err(Misfit::Long { bay, most }) => {
                Err(Misfit::Long { bay, most: self.clear(layout, ring).unwrap_or(most) })
            }
            placed => placed,
        };
        let all: Vec<Laid> = (0..lies.len()).map(placed).collect::<Result<_, _>>()?;
        for (bay, one) in all.iter().enumerate() {
            for (pole, lie) in lies.iter().enumerate().filter(|(pole, _)| *pole != one.leaning.on) {
                let overlap = overlap(&one.lie, lie);
                if overlap > TOUCHING {
                    return Err(Misfit::Clash { bay, pole, overlap: Length::m(overlap) });
                }
            }
            for (other, also) in all.iter().enumerate().skip(bay + 1) {
                let overlap = overlap(&one.lie, &also.lie);
                if overlap > TOUCHING {
                    return Err(Misfit::Meets { bay, other, overlap: Length::m(overlap) });
                }
            }
        }
        Ok(all.into_iter().map(|one| one.leaning).collect())
    }

    /// The greatest length at which all lie clear, to a hundredth of the way.
    fn clear(&self, layout: &Layout, ring: &Ring) -> Option<Length> {
        let share = |step: u32| REACH[1] - LESS * f64::from(step);
        let laid = |share: f64| Second { head: Head::Share(share), ..self.clone() }.laid(layout, ring).ok();
        let all = (0..).map(share).take_while(|share| *share > REACH[0]).find_map(laid)?;
        all.iter().map(|one| one.lengths[2]).reduce(Length::min)
    }

    /// The butts of the two poles of each bay, in metres.
    #[must_use]
    pub fn eaves(&self, layout: &Layout, ring: &Ring) -> Vec<[Vector; 2]> {
        let lies = laid(layout, &ring.sets).unwrap_or_default();
        let butt = |pole: usize| lies[pole].at(lies[pole].ends[0]);
        (0..lies.len()).map(|bay| [butt(bay), butt(layout.below(bay))]).collect()
    }

    fn in_bay(&self, layout: &Layout, lies: &[Lie], bay: usize) -> Result<Laid, Misfit> {
        let on = layout.below(bay);
        let at = |share: f64| self.at(&lies[on], bay, share);
        let share = match self.head {
            Head::Share(share) => share,
            Head::Cut(length) => self.share_of(length, bay, at)?,
        };
        let (lie, met) = at(share).ok_or(Misfit::Falls(bay))?;
        let lower = &lies[on];
        if met.lower > lower.ends[1] {
            return Err(Misfit::BeyondTip { bay, by: Length::m(met.lower - lower.ends[1]) });
        }
        Ok(Laid { leaning: self.leaning(layout, lower, (lie, met), (bay, on)), lie })
    }

    /// The share at which a rafter so long rests on its pole: the farthest, where there are several.
    fn share_of(&self, length: Length, bay: usize, at: impl Fn(f64) -> Option<(Lie, Contact)>) -> Result<f64, Misfit> {
        let over = |share: f64| at(share).map(|(_, met)| self.cut(bay, &met) - length.in_m());
        let share = |step: u32| REACH[1] + (REACH[0] - REACH[1]) * f64::from(step) / f64::from(STEPS);
        let mut last = over(REACH[1]).ok_or(Misfit::Falls(bay))?;
        if last < 0.0 {
            return Err(Misfit::Long { bay, most: length + Length::m(last) });
        }
        let mut least = last;
        for step in 1..=STEPS {
            let now = over(share(step)).ok_or(Misfit::Falls(bay))?;
            if now <= 0.0 {
                return between([share(step - 1), share(step)], [last, now], over).ok_or(Misfit::Falls(bay));
            }
            (last, least) = (now, least.min(now));
        }
        Err(Misfit::Short { bay, least: length + Length::m(least) })
    }

    fn cut(&self, bay: usize, met: &Contact) -> f64 {
        (self.overhangs[bay] + self.beyond).in_m() + met.upper
    }

    /// Where a rafter lies that rests on a pole at a share of the way, and how it meets it: pitched so that they touch.
    fn at(&self, lower: &Lie, bay: usize, share: f64) -> Option<(Lie, Contact)> {
        let under = lower.at(share * lower.first);
        let support = self.supports[bay].map(Length::in_m);
        let [x, y] = [under[0] - support[0], under[1] - support[1]];
        let far = x.hypot(y);
        let course = Course { direction: [x / far, y / far], first: far, second: far };
        let touching = 0.5 * (self.diameter.in_m() + lower.diameter(share * lower.first));
        let start = ((under[2] + touching - support[2]) / far).atan();
        let rafter = self.rafter(bay, under, far);
        let lie = |pitch: f64| Lie::new(&rafter, &course, pitch);
        let open = |pitch: f64| {
            let met = contact(&lie(pitch), lower)?;
            Some(met.apart - met.touching + self.let_in.in_m())
        };
        let pitch = root([start, start + 0.02], open)?;
        let mut lie = lie(pitch);
        let met = contact(&lie, lower)?;
        lie.ends[1] = met.upper + self.beyond.in_m();
        (pitch > 0.0 && met.upper > 0.0).then_some((lie, met))
    }

    fn rafter(&self, bay: usize, under: Vector, far: f64) -> Rafter {
        let overhang = self.overhangs[bay];
        // Where it ends is known when it is pitched.
        let length = overhang + Length::m(far);
        let pole = Pole { length, butt: self.diameter, tip: self.diameter, bow: Length::ZERO, bow_turn: Angle::ZERO };
        Rafter {
            pole,
            support: self.supports[bay],
            rests: Rests::Top(self.seat),
            toward: [Length::m(under[0]), Length::m(under[1])],
            overhang,
            notch: self.let_in,
            bedding: Length::ZERO,
            beyond: self.beyond,
        }
    }

    fn leaning(&self, layout: &Layout, lower: &Lie, (lie, met): (Lie, Contact), (bay, on): (usize, usize)) -> Leaning {
        let tail = self.overhangs[bay].in_m();
        let end = met.upper + self.beyond.in_m();
        let (own, others) = (lie.way(met.upper), lower.way(met.lower));
        let steep = |[x, y, rise]: Vector| rise.atan2(x.hypot(y));
        let [across, aside, up] = cross(own, others);
        let lean = across.hypot(aside).atan2(up.abs());
        // From the axis up to the top, plumb.
        let top = |lie: &Lie, along: f64| 0.5 * lie.diameter(along) / steep(lie.way(along)).cos();
        Leaning {
            axis: [-tail, 0.0, met.upper, end].map(|along| lie.at(along)),
            on,
            under: lower.at(met.lower),
            along: layout.rafters[on].overhang + Length::m(met.lower),
            share: met.lower / lower.first,
            angle: Angle::rad(size(cross(own, others)).atan2(dot(own, others))),
            pitch: Angle::rad(steep(own)),
            lean: Angle::rad(lean),
            above: Length::m(met.apart / lean.cos() + top(&lie, met.upper) - top(lower, met.lower)),
            lengths: [tail, met.upper, tail + end].map(Length::m),
        }
    }
}

/// A rafter, and the line of its axis as far as it is cut.
struct Laid {
    leaning: Leaning,
    lie: Lie,
}

/// Where a function is nothing, from two places near there.
fn root([mut before, mut now]: [f64; 2], of: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    let mut was = of(before)?;
    for _ in 0..TURNS {
        let is = of(now)?;
        if is.abs() < CLOSE {
            return Some(now);
        }
        let next = now - is * (now - before) / (is - was);
        (before, now, was) = (now, next, is);
    }
    None
}

/// The same between two places on either side of it.
fn between(
    [mut one, mut other]: [f64; 2],
    [mut first, mut last]: [f64; 2],
    of: impl Fn(f64) -> Option<f64>,
) -> Option<f64> {
    for _ in 0..TURNS {
        let next = one - first * (other - one) / (last - first);
        let is = of(next)?;
        if is.abs() < CLOSE {
            return Some(next);
        }
        if is * last < 0.0 {
            (one, first) = (other, last);
        } else {
            // An end that stays counts half, or the other creeps.
            first *= 0.5;
        }
        (other, last) = (next, is);
    }
    None
}
