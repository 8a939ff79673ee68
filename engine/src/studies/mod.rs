//! The long computations of a house: what each needs, taken from the house and its rows, and what the builder may do with what it
//! finds.

mod taken;

use std::ops::Range;

use serde_json::Value;

use crate::edit::Edit;
use crate::house::{Frame, House, Ring, Roof};
use crate::roof::poles::{Choice, Laid, Placed, WhichPole};
use crate::roof::standing::{Trial, TrialFound};
use crate::row::Rows;
use crate::study::{Digest, Study, Told, whole};

/// The studies of a house; none of a kind where the house has nothing to study.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Studies {
    /// Which pole where.
    pub choice: Option<ChoiceStudy>,
    /// Raising, loss and buckling of the ring.
    pub trial: Option<TrialStudy>,
}

/// Which pole where: the search, and what lies now.
#[derive(Clone, Debug, PartialEq)]
pub struct ChoiceStudy {
    /// The search.
    pub study: WhichPole,
    /// The tags of the pile.
    pub tags: Vec<String>,
    /// What lies in each place now, and what that costs in mm.
    pub lies: Vec<Laid>,
    /// What that costs, in mm.
    pub cost_mm: f64,
}

/// The trial of the ring, and what of it is not in the build.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialStudy {
    /// The trial.
    pub study: Trial,
    /// The tag of the pole in each place.
    pub tags: Vec<String>,
    /// What is taken where the build does not say it, and what is left out, in sentences.
    pub taken: Vec<String>,
}

/// What was found of each study, where it was computed for this house.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Findings {
    /// Which pole where; `None` inside where the pile does not fill the ring.
    pub choice: Option<Option<Choice>>,
    /// Raising, loss and buckling of the ring.
    pub trial: Option<TrialFound>,
}

/// A place that another pole, or another end of it, would take.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The place, from zero.
    pub place: usize,
    /// The tag of the pole that is to lie there.
    pub tag: String,
    /// Whether its thin end goes to the wall.
    pub is_turned: bool,
}

/// The studies of a house.
pub(crate) fn studies(house: &House, rows: &Rows) -> Studies {
    let Some(roof) = &house.roof else { return Studies::default() };
    let Frame::Reciprocal { ring: Some(ring), .. } = &roof.frame else { return Studies::default() };
    Studies { choice: Some(choice(ring)), trial: trial(roof, ring, rows) }
}

fn choice(ring: &Ring) -> ChoiceStudy {
    let lies = ring.choice.places.iter().map(|placed| Laid { pole: placed.pole, is_turned: placed.is_turned });
    ChoiceStudy {
        study: WhichPole {
            positions: ring.positions.clone(),
            pile: ring.pile.iter().map(|pole| pole.candidate()).collect(),
            wish: ring.wish,
            seed: 1,
        },
        tags: ring.pile.iter().map(|pole| pole.tag.clone()).collect(),
        lies: lies.collect(),
        cost_mm: ring.choice.cost_mm,
    }
}

fn trial(roof: &Roof, ring: &Ring, rows: &Rows) -> Option<TrialStudy> {
    let taken = taken::taken(roof, rows)?;
    Some(TrialStudy {
        study: Trial {
            layout: ring.layout.clone(),
            first: ring.propped.order.first().copied().unwrap_or(0),
            clearance: ring.clearance.value,
            wood: taken.wood,
            joints: taken.joints,
            loading: taken.loading,
            combinations: taken.combinations,
        },
        tags: (0..ring.choice.places.len()).map(|place| ring.pole(place).tag.clone()).collect(),
        taken: taken.words,
    })
}

/// Less than this many mm is not worth another lay.
const NOTHING_MM: f64 = 0.05;

impl ChoiceStudy {
    /// The places that another choice would change, where it is better than what lies now.
    #[must_use]
    pub fn changes(&self, found: &Choice) -> Vec<Change> {
        if found.cost_mm > self.cost_mm - NOTHING_MM {
            return Vec::new();
        }
        let other = |(place, placed): (usize, &Placed)| {
            let is_same = self.lies.get(place) == Some(&Laid { pole: placed.pole, is_turned: placed.is_turned });
            let tag = self.tags.get(placed.pole)?.clone();
            (!is_same).then_some(Change { place, tag, is_turned: placed.is_turned })
        };
        found.places.iter().enumerate().filter_map(other).collect()
    }

    /// The one change of the build file that takes a choice.
    #[must_use]
    pub fn accepted(&self, found: &Choice) -> Edit {
        let tag = |pole: usize| self.tags.get(pole).map_or("", String::as_str);
        let one = |placed: &Placed| {
            let turned = if placed.is_turned { " turned" } else { "" };
            format!("\"{}{turned}\"", tag(placed.pole))
        };
        let all: Vec<String> = found.places.iter().map(one).collect();
        Edit::Set { path: "poles.laid".to_owned(), to: format!("[{}]", all.join(", ")) }
    }
}

impl Study for ChoiceStudy {
    type Part = <WhichPole as Study>::Part;
    type Found = Option<Choice>;

    fn pieces(&self) -> usize {
        self.study.pieces()
    }

    fn part(&self, range: Range<usize>, told: &mut Told<'_>) -> Option<Self::Part> {
        self.study.part(range, told)
    }

    fn join(&self, parts: Vec<Self::Part>) -> Option<Choice> {
        self.study.join(parts)
    }

    fn digest(&self) -> Digest {
        self.study.digest()
    }

    fn kept(found: &Option<Choice>) -> Value {
        WhichPole::kept(found)
    }

    fn read(&self, kept: &Value) -> Option<Option<Choice>> {
        self.study.read(kept)
    }
}

impl Study for TrialStudy {
    type Part = <Trial as Study>::Part;
    type Found = TrialFound;

    fn pieces(&self) -> usize {
        self.study.pieces()
    }

    fn part(&self, range: Range<usize>, told: &mut Told<'_>) -> Option<Self::Part> {
        self.study.part(range, told)
    }

    fn join(&self, parts: Vec<Self::Part>) -> TrialFound {
        self.study.join(parts)
    }

    fn digest(&self) -> Digest {
        self.study.digest()
    }

    fn kept(found: &TrialFound) -> Value {
        Trial::kept(found)
    }

    fn read(&self, kept: &Value) -> Option<TrialFound> {
        self.study.read(kept)
    }
}

impl Studies {
    /// Finds everything at once: what a test or a short house can wait for.
    #[must_use]
    pub fn found(&self) -> Findings {
        Findings { choice: self.choice.as_ref().and_then(whole), trial: self.trial.as_ref().and_then(whole) }
    }
}
