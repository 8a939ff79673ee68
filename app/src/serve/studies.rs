//! The lanes of a sitting: begun and stopped from the page, begun anew when the design changes under them, shown with what they found.

use std::sync::Arc;

use engine::edit::Edit;
use engine::studies::{ChoiceStudy, Studies, TrialStudy};
use engine::units::System;
use press::studies::{About, CHOICE, TRIAL, Told};

use super::events::Events;
use super::standing::Standing;
use super::wire::{self, Event, Found, Offer};
use crate::lanes::{Heard, Lane, Laned, Shelf, Stands};

/// A lane for each kind of study.
#[derive(Clone, Debug, Default)]
pub struct Lanes {
    choice: Lane<ChoiceStudy>,
    trial: Lane<TrialStudy>,
}

impl Lanes {
    /// Begins a study of a house by its name; whether there is one of that name.
    pub fn start(&self, name: &str, standing: &Standing, shelf: Option<&Shelf>, events: &Events) -> bool {
        let Studies { choice, trial } = &standing.answers.studies;
        match (name, choice, trial) {
            (ChoiceStudy::NAME, Some(study), _) => begin(&self.choice, study, shelf, events),
            (TrialStudy::NAME, _, Some(study)) => begin(&self.trial, study, shelf, events),
            _ => return false,
        }
        true
    }

    /// Gives a study up. That it does not run is told in any case: a page may show one that ended long ago.
    pub fn stop(&self, name: &str, events: &Events) {
        match name {
            ChoiceStudy::NAME => self.choice.stop(),
            TrialStudy::NAME => self.trial.stop(),
            _ => return,
        };
        events.tell(Event::Studied { name: name.to_owned() });
    }

    /// Begins anew what runs with inputs that are no longer those of the house.
    pub fn follow(&self, standing: &Standing, shelf: Option<&Shelf>, events: &Events) {
        let Studies { choice, trial } = &standing.answers.studies;
        follow(&self.choice, choice.as_ref(), shelf, events);
        follow(&self.trial, trial.as_ref(), shelf, events);
    }

    /// Forgets everything: another build is open.
    pub fn forget(&self) {
        self.choice.forget();
        self.trial.forget();
    }

    /// The studies of a house as a leaf shows them.
    #[must_use]
    pub fn shown(&self, leaf: &str, standing: &Standing, shelf: Option<&Shelf>) -> Vec<wire::Study> {
        if leaf != "roof" {
            return Vec::new();
        }
        let (Studies { choice, trial }, system) = (&standing.answers.studies, standing.answers.system);
        let choice = choice.as_ref().map(|study| {
            one(&self.choice, study, shelf, CHOICE, |study, found| {
                let told = press::studies::choice(study, found.as_ref(), system);
                let accepted = found.as_ref().map(|found| study.accepted(found));
                (told, accepted)
            })
        });
        let trial = trial.as_ref().map(|study| {
            one(&self.trial, study, shelf, TRIAL, |study, found| (trial_told(study, found, system), None))
        });
        choice.into_iter().chain(trial).collect()
    }
}

fn trial_told(study: &TrialStudy, found: &<TrialStudy as engine::study::Study>::Found, system: System) -> Told {
    press::studies::trial(study, found, system)
}

fn begin<S: Laned + Clone>(lane: &Lane<S>, study: &S, shelf: Option<&Shelf>, events: &Events) {
    let events = events.clone();
    lane.start(Arc::new(study.clone()), shelf.cloned(), move |heard| {
        let name = S::NAME.to_owned();
        events.tell(match heard {
            Heard::Share(share) => Event::Study { name, share },
            Heard::Ended => Event::Studied { name },
        });
    });
}

fn follow<S: Laned + Clone>(lane: &Lane<S>, study: Option<&S>, shelf: Option<&Shelf>, events: &Events) {
    match study {
        Some(study) if lane.is_overtaken_by(study) => begin(lane, study, shelf, events),
        None if lane.stop() => events.tell(Event::Studied { name: S::NAME.to_owned() }),
        _ => {}
    }
}

fn one<S: Laned + Clone>(
    lane: &Lane<S>,
    study: &S,
    shelf: Option<&Shelf>,
    about: About,
    told: impl Fn(&S, &S::Found) -> (Told, Option<Edit>),
) -> wire::Study {
    let Stands { share, last, stopped } = lane.stands(study, shelf);
    let found = last.map(|(last, is_of_this)| {
        let (told, accepted) = told(&last.study, &last.found);
        found(told, accepted, is_of_this)
    });
    wire::Study {
        name: S::NAME.to_owned(),
        title: about.title.to_owned(),
        about: about.words.to_owned(),
        share,
        stopped,
        found,
    }
}

fn found(told: Told, accepted: Option<Edit>, is_of_this: bool) -> Found {
    let offer = match accepted {
        Some(Edit::Set { path, to }) if is_of_this && !told.offer.is_empty() => {
            Some(Offer { words: told.offer, path, to })
        }
        _ => None,
    };
    let table =
        |table: press::studies::Table| wire::Table { title: table.title, header: table.header, rows: table.rows };
    Found {
        before: !is_of_this,
        words: told.words,
        tables: told.tables.into_iter().map(table).collect(),
        notes: told.notes,
        caution: told.caution,
        offer,
    }
}
