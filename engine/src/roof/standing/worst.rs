//! What uses most of each pole: every section under every combination and on both kinds of feet, added up one section at a time.

use super::answers::Found;
use super::{Answers, Combination, Fault, Feet, Model, Section};
use crate::solve::frame::Six;
use crate::units::{Area, Force, Length, Moment, Pressure, SectionModulus};

/// What a section has to bear with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Left {
    /// Its area.
    pub area: Area,
    /// Its section modulus in the upright plane of the pole.
    pub upright: SectionModulus,
    /// The same sideways.
    pub sideways: SectionModulus,
}

/// What the wood bears by design while a combination lasts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bears {
    /// Bending.
    pub bending: Pressure,
    /// Shear, with cracks taken off.
    pub shear: Pressure,
    /// Tension along the grain.
    pub tension: Pressure,
    /// Compression along the grain, with buckling taken off.
    pub compression: Pressure,
    /// Where the shares of compression and bending do not add up but the push bends the pole further: the stress at which it buckles.
    pub buckling: Option<Pressure>,
}

/// A share that is used, and the section that it is of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Used {
    /// The share of the strength.
    pub share: f64,
    /// The forces there.
    pub section: Section,
    /// What is left of the pole there.
    pub left: Left,
    /// Whether the pole is cut there.
    pub is_cut: bool,
    /// Diameter of the pole there.
    pub diameter: Length,
    /// Moment over the upright modulus that stresses the section as both moments do.
    pub moment: Moment,
    /// The number of the combination, from zero.
    pub combination: usize,
    /// The feet.
    pub feet: Feet,
}

/// The greatest shares of a pole; none where it is never pulled or never pushed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Worst {
    /// Bending.
    pub bending: Option<Used>,
    /// Shear.
    pub shear: Option<Used>,
    /// Push along the pole with bending.
    pub compression: Option<Used>,
    /// Pull along the pole with bending.
    pub tension: Option<Used>,
}

/// A stress along the grain below this many pascals is rounding.
const NO_STRESS: f64 = 1e-3;

/// Combinations with what the wood of a pole bears in each.
pub struct Lasting<'a> {
    /// The combinations.
    pub combinations: &'a [Combination],
    /// What the wood bears in each of them.
    pub bears: &'a [Bears],
}

/// A place along a pole.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    pub along: f64,
    pub diameter: f64,
    /// None where the pole is whole.
    pub cut: Option<Left>,
}

impl Model {
    /// The greatest shares used of a pole. `cuts` is what is left of it where it carries, where it rests, and where the rafter of a
    /// second ring rests on it if it is cut or bored for that, as far as each cut reaches along it.
    ///
    /// # Errors
    /// No such pole.
    pub fn worst(&self, answers: &Answers, pole: usize, cuts: &[Left], under: &Lasting<'_>) -> Result<Worst, Fault> {
        let places = answers.places.get(pole).ok_or(Fault::Load(pole))?;
        let reach = |rests: bool| self.notch_reach(pole, rests).in_m();
        let joints = [(places.marks[2], reach(false)), (places.marks[3], reach(true))];
        let seat = self.seats.get(pole).map(|seat| (seat.along, seat.half));
        let place = |&along: &f64| {
            let at =
                joints.iter().chain(&seat).zip(cuts).find(|((mark, reach), _)| (along - mark).abs() <= reach + 1e-9);
            Place { along, diameter: self.diameter(pole, along), cut: at.map(|(_, left)| *left) }
        };
        let places: Vec<Place> = places.along.iter().map(place).collect();
        let factors: Vec<Vec<f64>> = under.combinations.iter().map(|one| answers.factors(one)).collect();
        let mut worst = Worst::default();
        for (feet, found) in &answers.of {
            worst.search((*feet, found), pole, &places, (&factors, under.bears));
        }
        Ok(worst)
    }
}

impl Worst {
    pub(super) fn search(
        &mut self,
        (feet, found): (Feet, &[Found]),
        pole: usize,
        places: &[Place],
        (factors, bears): (&[Vec<f64>], &[Bears]),
    ) {
        for (number, place) in places.iter().enumerate() {
            let left = place.cut.unwrap_or_else(|| whole(place.diameter));
            let basic: Vec<&Six> = found.iter().map(|found| &found.sections[pole][number]).collect();
            for (combination, (factors, bears)) in factors.iter().zip(bears).enumerate() {
                let mut force = [0.0; 6];
                for (basic, factor) in basic.iter().zip(factors) {
                    force.iter_mut().zip(*basic).for_each(|(sum, own)| *sum += factor * own);
                }
                self.weigh(&Under { force, left, place, combination, feet }, bears);
            }
        }
    }

    /// Keeps what uses more than all before.
    ///
    /// ```text
    /// uₘ = M / (W fₘ),  u_v = 4 V / (3 A f_v),  u_t = N / (A f_t) + uₘ
    /// u_c = N / (A f_c) + uₘ,  or (N / (A f_c))² + uₘ / (1 − N / (A F_E))
    /// ```
    fn weigh(&mut self, under: &Under<'_>, bears: &Bears) {
        let moment = under.moment();
        let area = under.left.area.in_m2();
        let bent = moment / under.left.upright.in_m3() / bears.bending.in_pa();
        let [pull, shear] = [under.force[0], square_sum(under.force[1], under.force[2])];
        keep(&mut self.bending, bent, under);
        keep(&mut self.shear, 4.0 * shear / (3.0 * area * bears.shear.in_pa()), under);
        let stress = pull.abs() / area;
        if stress < NO_STRESS {
            return;
        }
        if pull > 0.0 {
            keep(&mut self.tension, stress / bears.tension.in_pa() + bent, under);
        } else {
            let pressed = stress / bears.compression.in_pa();
            let share = match bears.buckling {
                None => pressed + bent,
                Some(buckling) => pressed * pressed + bent / (1.0 - stress / buckling.in_pa()).max(0.0),
            };
            keep(&mut self.compression, share, under);
        }
    }
}

struct Under<'p> {
    force: Six,
    left: Left,
    place: &'p Place,
    combination: usize,
    feet: Feet,
}

impl Under<'_> {
    /// The moment that stresses the section as both moments do: a whole pole bends as easily every way, the edges of a cut one are
    /// taken to be stressed by both at once.
    ///
    /// ```text
    /// M = √(M₁² + M₂²) of a whole pole,  M₁ + M₂ W₁ / W₂ of a cut one
    /// ```
    fn moment(&self) -> f64 {
        let [sideways, upright] = [self.force[4].abs(), self.force[5].abs()];
        match self.place.cut {
            None => square_sum(sideways, upright),
            Some(left) => upright + sideways * (left.upright / left.sideways),
        }
    }
}

fn keep(most: &mut Option<Used>, share: f64, under: &Under<'_>) {
    if most.is_some_and(|most| most.share >= share) {
        return;
    }
    let force = under.force;
    *most = Some(Used {
        share,
        section: Section {
            along: Length::m(under.place.along),
            pull: Force::n(force[0]),
            shear: [Force::n(force[1]), Force::n(force[2])],
            twist: Moment::n_m(force[3]),
            upright: Moment::n_m(force[5]),
            sideways: Moment::n_m(force[4]),
        },
        left: under.left,
        is_cut: under.place.cut.is_some(),
        diameter: Length::m(under.place.diameter),
        moment: Moment::n_m(under.moment()),
        combination: under.combination,
        feet: under.feet,
    });
}

fn square_sum(one: f64, other: f64) -> f64 {
    (one * one + other * other).sqrt()
}

/// A whole round section.
///
/// ```text
/// A = π d² / 4,  W = π d³ / 32
/// ```
fn whole(diameter: f64) -> Left {
    let modulus = SectionModulus::m3(std::f64::consts::PI / 32.0 * diameter.powi(3));
    let area = Area::m2(std::f64::consts::FRAC_PI_4 * diameter * diameter);
    Left { area, upright: modulus, sideways: modulus }
}
