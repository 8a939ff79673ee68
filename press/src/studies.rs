//! What long computations found, in the words and tables that page, book and command line share.

use engine::answers::Answers;
use engine::roof::poles::Choice;
use engine::roof::standing::{Answered, Feet, Raised, TrialFound, Tried, Without};
use engine::studies::{ChoiceStudy, Findings, TrialStudy};
use engine::units::{Fineness, Length, Quantity, System};

use crate::spoken::spoken;

/// What a study is called and what it does, before anything is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct About {
    /// Its title.
    pub title: &'static str,
    /// What it does, one sentence or two.
    pub words: &'static str,
}

/// Which pole where.
pub const CHOICE: About = About {
    title: "Which pole where, searched through",
    words: "Tries every pole in every place and both ways round, each with its neighbours, and says how far the best is from what no \
            choice can better. What lies stays until you take it.",
};

/// Raising, loss, buckling.
pub const TRIAL: About = About {
    title: "Raising the ring, and losing a pole",
    words: "Puts the poles up one by one on the prop, lets the prop down, takes each pole away in turn, and looks how near the ring is to \
            buckling.",
};

/// A table in words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    /// What it lists.
    pub title: String,
    /// Over its columns.
    pub header: Vec<String>,
    /// Its lines.
    pub rows: Vec<Vec<String>>,
}

/// What a study found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Told {
    /// What it comes to, the weightiest first.
    pub words: Vec<String>,
    /// Its tables.
    pub tables: Vec<Table>,
    /// What was taken and left out, and how it was done.
    pub notes: Vec<String>,
    /// What people must know before they lean on it; empty where nothing.
    pub caution: String,
    /// What is to be laid otherwise, place by place; empty where nothing is better.
    pub offer: Vec<String>,
}

fn shown(quantity: impl Into<Quantity>, system: System) -> String {
    quantity.into().shown(system, Fineness::Figure)
}

fn table(title: &str, header: &[&str], rows: Vec<Vec<String>>) -> Table {
    Table { title: title.to_owned(), header: header.iter().map(|word| (*word).to_owned()).collect(), rows }
}

fn end(is_turned: bool) -> &'static str {
    if is_turned { "thin" } else { "thick" }
}

/// Every study of a house with what was found of it, as far as it was computed.
#[must_use]
pub fn all(answers: &Answers, findings: &Findings) -> Vec<(About, Option<Told>)> {
    let (studies, system) = (&answers.studies, answers.system);
    let trial =
        studies.trial.as_ref().map(|study| (TRIAL, findings.trial.as_ref().map(|found| trial(study, found, system))));
    let choice = studies
        .choice
        .as_ref()
        .map(|study| (CHOICE, findings.choice.as_ref().map(|found| choice(study, found.as_ref(), system))));
    trial.into_iter().chain(choice).collect()
}

/// What the search for a choice found.
#[must_use]
pub fn choice(study: &ChoiceStudy, found: Option<&Choice>, system: System) -> Told {
    let Some(found) = found else {
        return Told {
            words: vec!["The pile does not fill the ring, however it is laid.".to_owned()],
            ..Told::default()
        };
    };
    let millimetres = |mm: f64| Quantity::from(Length::mm(mm)).shown(system, Fineness::SetOut);
    let changes = study.changes(found);
    // What is kept is what lies: then the gap is its own, not that of a choice that is worse.
    let (kept, cost_mm) = if changes.is_empty() { ("what lies", study.cost_mm) } else { ("this one", found.cost_mm) };
    let proof = if found.is_proved {
        "Every choice was counted out: none is better.".to_owned()
    } else {
        format!(
            "No choice can cost less than {}; {kept} costs {} more than that at most: a better one may be left within this gap.",
            millimetres(found.bound_mm.min(cost_mm)),
            millimetres((cost_mm - found.bound_mm).max(0.0))
        )
    };
    let against = if changes.is_empty() {
        format!("What lies costs {}, and nothing better was found.", millimetres(study.cost_mm))
    } else {
        format!(
            "What lies costs {}; laid otherwise it would cost {}.",
            millimetres(study.cost_mm),
            millimetres(found.cost_mm)
        )
    };
    let offer = changes.iter().map(|change| {
        format!("Lay {} at place {}, {} end to the wall.", spoken(&change.tag), change.place + 1, end(change.is_turned))
    });
    let tag = |pole: usize| study.tags.get(pole).map_or_else(String::new, |tag| spoken(tag));
    let rows = found.places.iter().enumerate().map(|(place, placed)| {
        let lies = study
            .lies
            .get(place)
            .map_or_else(String::new, |laid| format!("{}, {}", tag(laid.pole), end(laid.is_turned)));
        vec![
            (place + 1).to_string(),
            lies,
            format!("{}, {}", tag(placed.pole), end(placed.is_turned)),
            millimetres(placed.waste.in_mm()),
            millimetres(placed.notch.in_mm()),
        ]
    });
    let header = ["place", "lies now, end at the wall", "found", "cut off", "notch where it rests"];
    Told {
        words: vec![against, proof],
        tables: vec![table("Which pole where", &header, rows.collect())],
        notes: vec![
            "Cost counts a millimetre cut off, of a notch other than wanted, and of bow to the side as [poles.weights] says. Only before \
             a pole is up: what lies on wall and prop stays where it is."
                .to_owned(),
        ],
        caution: String::new(),
        offer: offer.collect(),
    }
}

/// What the trial of the ring found.
#[must_use]
pub fn trial(study: &TrialStudy, found: &TrialFound, system: System) -> Told {
    let of = |place: usize| named(study, place);
    let mut told = Told {
        words: vec![loss_in_words(found), prop_in_words(found, system), buckling_in_words(found)],
        ..Told::default()
    };
    let stages = found.answers.iter().filter_map(|answer| match answer {
        Answered::Stage(stage) => Some(stage),
        _ => None,
    });
    let order = engine::roof::poles::order(&study.study.layout, study.study.first);
    let stage = |(at, stage): (usize, &Tried<Raised>)| {
        let place = order.get(at).copied().unwrap_or(at);
        let [tied, untied] = match stage {
            Ok(stage) => [
                on_prop(stage, system),
                stage.loose.map_or("stands".to_owned(), |pole| format!("{} is loose", of(pole))),
            ],
            Err(why) => [not_known(why), "–".to_owned()],
        };
        vec![(at + 1).to_string(), of(place), tied, untied]
    };
    let header = ["stage", "pole that goes up", "load on the prop, its head tied", "the same, its head not tied"];
    told.tables.push(table("Stages on the prop", &header, stages.enumerate().map(stage).collect()));
    told.tables.push(table(
        "Without one pole",
        &["pole lost", "feet that slide", "feet that the wall holds"],
        losses(study, found, system),
    ));
    told.tables.push(table(
        "On its bent poles",
        &["load", "feet", "bends more by", "sinks more by", "buckles at"],
        bent(study, found),
    ));
    told.notes = study.taken.clone();
    told.notes.push(
        "How: poles as tapering members that touch at their crossings, by direct stiffness; what moves without resistance is found by the \
         factorisation, buckling by exact stability functions. A flat ring that snaps through as a whole is not looked for."
            .to_owned(),
    );
    told.caution = "Whether boards, straps or a cable round the eye carry what is left when a pole is lost is not known: an engineer decides. \
                    A strap or cable round the eye and a tie at each foot are the usual means. The load on the prop is that of the cut poles \
                    at rest: ropes, a pole let fall, people and wind come on top, and an engineer sizes the prop."
        .to_owned();
    told
}

fn named(study: &TrialStudy, place: usize) -> String {
    format!("{} {}", place + 1, study.tags.get(place).map_or_else(String::new, |tag| spoken(tag)))
}

fn not_known(why: &str) -> String {
    format!("not known: {why}")
}

fn on_prop(stage: &Raised, system: System) -> String {
    match (stage.loose_when_tied, stage.on_prop) {
        (None, Some(load)) => shown(load, system),
        _ => "falls: nothing holds it".to_owned(),
    }
}

fn loss_in_words(found: &TrialFound) -> String {
    match found.comes_down() {
        None => "Whether the ring stands without one of its poles is not known.".to_owned(),
        Some([all, down]) if all == down => {
            "Whichever pole is lost, the ring comes down: without it the poles are a mechanism, and only the thrust of the wall against \
             their feet could hold them."
                .to_owned()
        }
        Some([all, down]) => {
            format!("Without any of {down} of its {all} poles the ring comes down: the others are then a mechanism.")
        }
    }
}

fn prop_in_words(found: &TrialFound, system: System) -> String {
    let most = found.most_on_prop().map_or_else(
        || "What the prop carries at most is not known: not every stage has its load.".to_owned(),
        |load| format!("The prop carries {} at most.", shown(load, system)),
    );
    let down = found.freed().map_or_else(
        || "That the closed ring carries itself when it is let down is not shown: leave the prop in.".to_owned(),
        |down| {
            let down = Quantity::from(down).shown(system, Fineness::SetOut);
            format!("Let down, it is free once the poles touch all round and have given way by up to {down} besides what the crossings bed.")
        },
    );
    format!("{most} {down}")
}

fn buckling_in_words(found: &TrialFound) -> String {
    match found.lowest_factor() {
        Ok(Some(factor)) => {
            format!("The ring would buckle at {} times the loads named below, and no less.", rounded(factor))
        }
        Ok(None) => "No pole is pushed along: nothing buckles.".to_owned(),
        Err(why) => format!("How near the ring is to buckling is not known: {why}."),
    }
}

/// A factor to two digits.
fn rounded(factor: f64) -> String {
    if factor < 10.0 { format!("{factor:.1}") } else { format!("{factor:.0}") }
}

fn losses(study: &TrialStudy, found: &TrialFound, system: System) -> Vec<Vec<String>> {
    let said = |lost: &Tried<Without>| match lost {
        Ok(Without::ComesDown(pole)) => format!("comes down, {} first", named(study, *pole)),
        Ok(Without::Stands { push, sag, .. }) => format!(
            "stands by the wall's thrust alone, crossings pushed by {}, sinks {}",
            shown(*push, system),
            Quantity::from(*sag).shown(system, Fineness::SetOut)
        ),
        Err(why) => not_known(why),
    };
    let mut rows: Vec<Vec<String>> = Vec::new();
    for answer in &found.answers {
        if let Answered::Loss(place, feet, lost) = answer {
            let name = named(study, *place);
            if rows.last().is_none_or(|row| row[0] != name) {
                rows.push(vec![name, "–".to_owned(), "–".to_owned()]);
            }
            if let Some(row) = rows.last_mut() {
                row[if *feet == Feet::Sliding { 1 } else { 2 }] = said(lost);
            }
        }
    }
    rows
}

fn bent(study: &TrialStudy, found: &TrialFound) -> Vec<Vec<String>> {
    let more = |factor: f64| format!("{:.1} %", 100.0 * (factor - 1.0));
    let rows = found.answers.iter().filter_map(|answer| {
        let Answered::Bent(at, feet, bent) = answer else { return None };
        let load = study.study.combinations.get(*at).map_or_else(String::new, |load| load.name.clone());
        let feet = if *feet == Feet::Sliding { "sliding" } else { "held" }.to_owned();
        let [moment, sag, factor] = match bent {
            Ok(bent) => {
                let factor = bent.buckling.map_or("–".to_owned(), |factor| format!("{} times", rounded(factor)));
                [more(bent.moment), more(bent.sag), factor]
            }
            Err(why) => [not_known(why), "–".to_owned(), "–".to_owned()],
        };
        Some(vec![load, feet, moment, sag, factor])
    });
    rows.collect()
}
