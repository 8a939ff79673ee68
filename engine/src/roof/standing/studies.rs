//! How near a ring is to giving way: on its bent poles, without one of its parts, and while it is raised.

use super::super::poles::{Layout, Propped};
use super::answers::factors;
use super::build::Parts;
use super::cases::together;
use super::{Combination, Fault, Feet, Joints, Loading, Model, Wood};
use crate::solve::frame::{Answer, Fault as FrameFault};
use crate::units::{Force, Length, Moment};

/// What the forces along the poles do on the bent ring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SecondOrder {
    /// Greatest moment over that without it.
    pub moment: f64,
    /// Greatest sag over that without it.
    pub sag: f64,
    /// How many times the loads the ring would buckle; nothing where no pole is pushed.
    pub buckling: Option<f64>,
}

/// A part that is lost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lost {
    /// A pole.
    Pole(usize),
    /// The crossing where a pole rests.
    Crossing(usize),
}

/// A ring without one of its parts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Without {
    /// Nothing resists: it comes down, and this pole moves most.
    ComesDown(usize),
    /// It stands.
    Stands {
        /// Greatest moment in any pole.
        moment: Moment,
        /// Greatest push at any crossing.
        push: Force,
        /// Greatest sag of any pole.
        sag: Length,
    },
}

/// A stage of raising.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Raised {
    /// How many poles are up.
    pub poles: usize,
    /// The pole that is loose while the prop only carries; nothing where the poles stand.
    pub loose: Option<usize>,
    /// The pole that is loose also where the head of the prop is tied so that it holds its pole sideways.
    pub loose_when_tied: Option<usize>,
    /// Load of the poles' weight on the prop, its head tied; nothing where that is loose.
    pub on_prop: Option<Force>,
}

/// A ring whose prop is let down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lowered {
    /// It does not carry itself: this pole moves most.
    Loose(usize),
    /// The prop is free when the pole over it has gone down by so much, once the poles touch all round.
    Free(Length),
}

impl Model {
    /// Amplification and buckling under one combination.
    ///
    /// # Errors
    /// A mechanism, a load beside its pole, loads above those at which the ring buckles.
    pub fn second_order(&self, loading: &Loading, combination: &Combination, feet: Feet) -> Result<SecondOrder, Fault> {
        let built = self.build(&self.whole(feet))?;
        let whole = built.factorise()?;
        let case = together(&self.cases(&built, loading)?, &factors(combination, loading.extras.len()));
        let first = whole.solve(std::slice::from_ref(&case)).map_err(Fault::Frame)?;
        let bent = whole.second_order(&case).map_err(Fault::Frame)?;
        let buckling = match whole.buckling(&case) {
            Ok(found) => Some(found.factor),
            Err(FrameFault::NothingBuckles) => None,
            Err(fault) => return Err(Fault::Frame(fault)),
        };
        let ratio = |of: fn(&Answer) -> f64| of(&bent) / first.iter().map(of).fold(0.0, f64::max);
        Ok(SecondOrder { moment: ratio(greatest_moment), sag: ratio(greatest_sag), buckling })
    }

    /// The ring without a part under one combination; what lay on a lost pole is lost with it. On feet that are held a tied ring may
    /// stand by its thrust, as an arch does: only feet that slide show what it does by itself.
    ///
    /// # Errors
    /// No such part, or a load beside its pole.
    pub fn without(
        &self,
        lost: Lost,
        feet: Feet,
        loading: &Loading,
        combination: &Combination,
    ) -> Result<Without, Fault> {
        let mut parts = self.whole(feet);
        match lost {
            Lost::Pole(pole) => *parts.stands.get_mut(pole).ok_or(Fault::Load(pole))? = false,
            Lost::Crossing(pole) => *parts.joined.get_mut(pole).ok_or(Fault::Load(pole))? = false,
        }
        let built = self.build(&parts)?;
        let whole = match built.factorise() {
            Ok(whole) => whole,
            Err(Fault::Mechanism { pole, .. }) => return Ok(Without::ComesDown(pole)),
            Err(fault) => return Err(fault),
        };
        let case = together(&self.cases(&built, loading)?, &factors(combination, loading.extras.len()));
        let found = whole.solve(&[case]).map_err(Fault::Frame)?;
        let most = |of: fn(&Answer) -> f64| found.iter().map(of).fold(0.0, f64::max);
        let crossings = built.rows.iter().flatten().filter_map(|row| row.rests);
        let push =
            crossings.flat_map(|link| found.iter().map(move |answer| -answer.links[link][0])).fold(0.0, f64::max);
        Ok(Without::Stands {
            moment: Moment::n_m(most(greatest_moment)),
            push: Force::n(push),
            sag: Length::m(most(greatest_sag)),
        })
    }

    /// The pole that is loose, or the load on the prop.
    fn on_prop(&self, parts: &Parts) -> Result<(Option<usize>, Option<Force>), Fault> {
        let built = self.build(parts)?;
        let whole = match built.factorise() {
            Ok(whole) => whole,
            Err(Fault::Mechanism { pole, .. }) => return Ok((Some(pole), None)),
            Err(fault) => return Err(fault),
        };
        let found = whole.solve(&[self.weight(&built)]).map_err(Fault::Frame)?;
        let node = parts.prop.and_then(|(place, _)| built.rows[place].as_ref()).map(|row| row.node + row.at[3]);
        let force = node.and_then(|node| found.first().map(|answer| answer.reactions[node][2]));
        Ok((None, force.map(Force::n)))
    }
}

/// Every stage of raising a ring on its prop, its feet held: the first pole on the prop, each later one on that before it, the
/// last with nothing yet resting on it.
///
/// # Errors
/// A pole that does not reach, a size that nothing has.
pub fn raising(layout: &Layout, propped: &Propped, wood: &Wood, joints: &Joints) -> Result<Vec<Raised>, Fault> {
    let model = Model::of(layout, &propped.sets, wood, joints)?;
    (1..=propped.order.len()).map(|poles| model.stage(&propped.order, poles)).collect()
}

impl Model {
    /// The stage of raising at which so many poles are up, in their order, its feet held. The model is that of the poles as they lie
    /// on the prop.
    ///
    /// # Errors
    /// Equations without an answer.
    pub fn stage(&self, order: &[usize], poles: usize) -> Result<Raised, Fault> {
        let count = self.lies.len();
        let mut parts = Parts { stands: vec![false; count], joined: vec![false; count], feet: Feet::Held, prop: None };
        for (up, &place) in order.iter().take(poles).enumerate() {
            parts.stands[place] = true;
            parts.joined[place] = up > 0;
        }
        let first = order.first().copied().unwrap_or(0);
        parts.prop = Some((first, false));
        let (loose, _) = self.on_prop(&parts)?;
        parts.prop = Some((first, true));
        let (loose_when_tied, on_prop) = self.on_prop(&parts)?;
        Ok(Raised { poles, loose, loose_when_tied, on_prop })
    }

    /// What happens when the prop is let down under the closed ring, by the weight of the poles alone.
    ///
    /// # Errors
    /// No such pole, or equations without an answer.
    pub fn lowered(&self, first: usize, feet: Feet) -> Result<Lowered, Fault> {
        let built = self.build(&self.whole(feet))?;
        let whole = match built.factorise() {
            Ok(whole) => whole,
            Err(Fault::Mechanism { pole, .. }) => return Ok(Lowered::Loose(pole)),
            Err(fault) => return Err(fault),
        };
        let row = built.rows.get(first).and_then(Option::as_ref).ok_or(Fault::Load(first))?;
        let found = whole.solve(&[self.weight(&built)]).map_err(Fault::Frame)?;
        let down = found.iter().map(|answer| -answer.movements[row.node + row.at[3]][2]).fold(0.0, f64::max);
        Ok(Lowered::Free(Length::m(down)))
    }
}

fn greatest_moment(answer: &Answer) -> f64 {
    answer.ends.iter().flatten().map(|end| end[4].hypot(end[5])).fold(0.0, f64::max)
}

fn greatest_sag(answer: &Answer) -> f64 {
    answer.movements.iter().map(|moved| -moved[2]).fold(0.0, f64::max)
}
