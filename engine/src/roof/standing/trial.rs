//! Raising, loss and nearness to buckling of a ring of poles, as a study.

use std::ops::{ControlFlow, Range};

use serde_json::Value;

use super::super::poles::{Layout, Set, order, propped, ring};
use super::kept;
use super::{Combination, Fault, Feet, Joints, Loading, Lost, Lowered, Model, Raised, SecondOrder, Without, Wood};
use crate::study::{Digest, Progress, Study, Told};
use crate::units::{Force, Length};

/// Grows when the same inputs lead to other answers.
const METHOD: u32 = 2;

/// A ring that is tried: at every stage on its prop, let down, without each of its poles, and on its bent poles.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// The poles where they lie; they are cut before they are raised.
    pub layout: Layout,
    /// The pole that goes on the prop.
    pub first: usize,
    /// What the prop stands higher for the last pole to slip in.
    pub clearance: Length,
    /// Its wood.
    pub wood: Wood,
    /// Its joints.
    pub joints: Joints,
    /// What may lie on it.
    pub loading: Loading,
    /// What acts together: the loss of a pole is tried under the first, second order and buckling under each.
    pub combinations: Vec<Combination>,
}

/// The answer to one question; the sentence that says why there is none.
pub type Tried<T> = Result<T, String>;

/// One question answered.
#[derive(Clone, Debug, PartialEq)]
pub enum Answered {
    /// A stage of raising.
    Stage(Tried<Raised>),
    /// The prop let down, on feet of one kind.
    Lowered(Feet, Tried<Lowered>),
    /// A pole lost, on feet of one kind.
    Loss(usize, Feet, Tried<Without>),
    /// On its bent poles: the combination, and the feet.
    Bent(usize, Feet, Tried<SecondOrder>),
}

/// Every answer, in the order of the questions.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TrialFound {
    /// The answers.
    pub answers: Vec<Answered>,
}

impl TrialFound {
    /// The most that the prop carries at any stage; `None` where at one of them it falls, or its load is not known.
    #[must_use]
    pub fn most_on_prop(&self) -> Option<Force> {
        let loads = self.answers.iter().filter_map(|answer| match answer {
            Answered::Stage(stage) => Some(stage.as_ref().ok().and_then(|stage| stage.on_prop)),
            _ => None,
        });
        loads.collect::<Option<Vec<Force>>>()?.into_iter().reduce(Force::max)
    }

    /// How far the pole over the prop goes down until it is free, at most; `None` where it is never free, or not known.
    #[must_use]
    pub fn freed(&self) -> Option<Length> {
        let free = self.answers.iter().filter_map(|answer| match answer {
            Answered::Lowered(_, Ok(Lowered::Free(down))) => Some(Some(*down)),
            Answered::Lowered(..) => Some(None),
            _ => None,
        });
        free.collect::<Option<Vec<Length>>>()?.into_iter().reduce(Length::max)
    }

    /// How many poles were taken away on feet that slide, and without how many of them the ring comes down; `None` where that is
    /// not known of each.
    #[must_use]
    pub fn comes_down(&self) -> Option<[usize; 2]> {
        let losses = self.answers.iter().filter_map(|answer| match answer {
            Answered::Loss(_, Feet::Sliding, lost) => Some(lost.as_ref().ok()),
            _ => None,
        });
        let losses: Vec<&Without> = losses.collect::<Option<_>>()?;
        let down = losses.iter().filter(|lost| matches!(lost, Without::ComesDown(_))).count();
        (!losses.is_empty()).then_some([losses.len(), down])
    }

    /// The least factor on its loads at which the ring buckles; nothing inside where no pole is pushed, the sentence that says why
    /// where it is not known.
    pub fn lowest_factor(&self) -> Tried<Option<f64>> {
        let bent = self.answers.iter().filter_map(|answer| match answer {
            Answered::Bent(_, _, bent) => Some(bent.clone().map(|bent| bent.buckling)),
            _ => None,
        });
        let factors = bent.collect::<Tried<Vec<Option<f64>>>>()?;
        Ok(factors.into_iter().flatten().reduce(f64::min))
    }
}

/// A question, before it is answered.
enum Asked {
    Stage(usize),
    Lowered(Feet),
    Loss(usize, Feet),
    Bent(usize, Feet),
}

impl Trial {
    fn asked(&self) -> Vec<Asked> {
        let count = self.layout.rafters.len();
        let on_both = |of: usize| (0..of).flat_map(|at| Feet::BOTH.map(|feet| (at, feet)));
        let stages = (1..=count).map(Asked::Stage);
        let lowered = Feet::BOTH.map(Asked::Lowered);
        let losses = if self.combinations.is_empty() { 0 } else { count };
        let losses = on_both(losses).map(|(pole, feet)| Asked::Loss(pole, feet));
        let bent = on_both(self.combinations.len()).map(|(combination, feet)| Asked::Bent(combination, feet));
        stages.chain(lowered).chain(losses).chain(bent).collect()
    }

    /// The cut poles as they stand, and as they lie on the prop.
    fn models(&self) -> Result<[Model; 2], Fault> {
        let layout = self.layout.cut(&ring(&self.layout)?);
        let closed = ring(&layout)?;
        let propped = propped(&layout, &closed, self.first, self.clearance)?;
        let of = |sets: &[Set]| Model::of(&layout, sets, &self.wood, &self.joints);
        Ok([of(&closed.sets)?, of(&propped.sets)?])
    }

    fn answered(&self, asked: &Asked, models: &Tried<[Model; 2]>) -> Answered {
        let combination = |at: usize| self.combinations.get(at).ok_or(Fault::NoCombination);
        match *asked {
            Asked::Stage(poles) => {
                let order = order(&self.layout, self.first);
                Answered::Stage(tried(models, |[_, on_prop]| on_prop.stage(&order, poles)))
            }
            Asked::Lowered(feet) => {
                Answered::Lowered(feet, tried(models, |[stands, _]| stands.lowered(self.first, feet)))
            }
            Asked::Loss(pole, feet) => {
                let lost =
                    |[stands, _]: &[Model; 2]| stands.without(Lost::Pole(pole), feet, &self.loading, combination(0)?);
                Answered::Loss(pole, feet, tried(models, lost))
            }
            Asked::Bent(at, feet) => {
                let bent = |[stands, _]: &[Model; 2]| stands.second_order(&self.loading, combination(at)?, feet);
                Answered::Bent(at, feet, tried(models, bent))
            }
        }
    }
}

fn tried<T>(models: &Tried<[Model; 2]>, ask: impl FnOnce(&[Model; 2]) -> Result<T, Fault>) -> Tried<T> {
    ask(models.as_ref().map_err(String::clone)?).map_err(|fault| fault.to_string())
}

impl Study for Trial {
    type Part = Vec<Answered>;
    type Found = TrialFound;

    fn pieces(&self) -> usize {
        self.asked().len()
    }

    fn part(&self, range: Range<usize>, told: &mut Told<'_>) -> Option<Vec<Answered>> {
        let models = self.models().map_err(|fault| fault.to_string());
        let of = range.len();
        let mut answers = Vec::with_capacity(of);
        for (done, asked) in self.asked().iter().skip(range.start).take(of).enumerate() {
            if told(Progress { done, of }) == ControlFlow::Break(()) {
                return None;
            }
            answers.push(self.answered(asked, &models));
        }
        Some(answers)
    }

    fn join(&self, parts: Vec<Vec<Answered>>) -> TrialFound {
        TrialFound { answers: parts.into_iter().flatten().collect() }
    }

    fn digest(&self) -> Digest {
        Digest::of(METHOD, self)
    }

    fn kept(found: &TrialFound) -> Value {
        found.answers.iter().map(kept::written).collect()
    }

    fn read(&self, kept: &Value) -> Option<TrialFound> {
        let answers = kept.as_array()?.iter().map(kept::read).collect::<Option<Vec<Answered>>>()?;
        (answers.len() == self.pieces()).then_some(TrialFound { answers })
    }
}
