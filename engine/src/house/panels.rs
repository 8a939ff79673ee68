//! Test panels with nothing missing: what each is made of, how thick, what judges scored, and the mix that they choose.

use jiff::civil::Date;

use super::earth::{Earth, Recipe, recipe_named};
use super::layers::{Layer, Of, Skin};
use super::mix_choice::ROUNDING;
use super::mixes::{all_of, are_filled_alike, batch, buckets_of, is_said_twice, least_part, shares_of};
use super::place::{known, within};
use crate::build::{self, Build, Face, Source, Written};
use crate::earth::mixture::{Kind, Limits, Unmeasurable, distinct, measurable, shares};
use crate::earth::panel::{self, ASPECTS, Chosen, Judged, Score, Unscored};
use crate::earth::tables::number;
use crate::known::Known;
use crate::units::{Length, System};

/// Test panels of the coats of one recipe on one face.
#[derive(Clone, Debug)]
pub struct Panels {
    /// Their name.
    pub name: String,
    /// The recipe of the coat.
    pub of: String,
    /// The face that they stand for.
    pub face: Face,
    /// The day on which they were scored.
    pub day: Option<Known<Date>>,
    /// The least part of a bucket that is measured.
    pub step: Known<f64>,
    /// Ingredients of the recipe.
    pub parts: Vec<String>,
    /// Who scored them.
    pub judges: Vec<String>,
    /// Each of them, in the order of their names.
    pub each: Vec<Panel>,
    /// The thickest coat of the recipe on that face.
    pub coat: Known<Length>,
    /// What they say together.
    pub found: PanelsFound,
}

/// A test panel.
#[derive(Clone, Debug)]
pub struct Panel {
    /// Its name.
    pub name: String,
    /// Buckets of each ingredient of the recipe; none of one that was left out.
    pub buckets: Vec<Option<Known<f64>>>,
    /// How thick it is.
    pub thickness: Known<Length>,
    /// What was scored for each aspect by each judge; none where a judge did not.
    pub scores: [Vec<Option<Known<u64>>>; 3],
}

/// What panels say together.
#[derive(Clone, Debug)]
pub struct PanelsFound {
    /// For each aspect its judges, by their places, and what their scores say; none where all scores are the same.
    pub judged: [(Vec<usize>, Option<Judged>); 3],
    /// Panels that a worst score rejects, by their places.
    pub rejected: Vec<usize>,
    /// Steps of a bucket in a batch.
    pub whole: u32,
    /// Mixes of whole steps between the panels, without those that were rejected.
    pub counts: Vec<Vec<u32>>,
    /// The aspect in which two judges scored the fewest distinct mixes, and how many.
    pub distinct: (usize, usize),
    /// How many the model needs so that one can contradict it.
    pub wanted: usize,
    /// Panels that were not rejected and that two judges did not score in every aspect, by their places.
    pub unscored: Vec<usize>,
    /// What is chosen among them.
    pub choice: Result<Chosen, Unscored>,
}

impl Panels {
    /// Their key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.panels.{}.{noun}", self.name)
    }

    /// All scores of an aspect: place of the panel, of the judge, and the score.
    pub fn scores(&self, aspect: usize) -> impl Iterator<Item = (usize, usize, &Known<u64>)> {
        scores(&self.each, aspect)
    }
}

impl Panel {
    /// Share of each ingredient in its buckets.
    #[must_use]
    pub fn shares(&self) -> Vec<f64> {
        shares_of(&self.buckets)
    }

    /// Whether two judges scored it in an aspect.
    fn is_scored_in(&self, aspect: usize) -> bool {
        self.scores[aspect].iter().flatten().count() >= number("fewest-judges") as usize
    }
}

fn scores(each: &[Panel], aspect: usize) -> impl Iterator<Item = (usize, usize, &Known<u64>)> {
    each.iter().enumerate().flat_map(move |(place, panel)| {
        let own = panel.scores[aspect].iter().enumerate();
        own.filter_map(move |(judge, score)| Some((place, judge, score.as_ref()?)))
    })
}

/// The test panels of a build file.
pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    (earth, skin): (Option<&Earth>, &Skin),
    system: System,
) -> Vec<Panels> {
    let mut placed: Vec<Panels> = Vec::new();
    for written in &build.panels {
        let Some(own) = panels(source, build, written, (earth, skin), system) else { continue };
        if let Some(before) = placed.iter().find(|other| other.of == own.of && other.face == own.face) {
            is_said_twice(source, &written.name, &before.name, "panels of one recipe on one face");
        }
        placed.push(own);
    }
    placed
}

fn panels(
    source: &Source<'_>,
    build: &Build,
    written: &build::Panels,
    (earth, skin): (Option<&Earth>, &Skin),
    system: System,
) -> Option<Panels> {
    let name = &written.name;
    // A key that is missing may be told as a slip of another one: these two are too few to be left to that.
    for (key, is_written) in [("of", written.of.is_some()), ("face", written.face.is_some())] {
        if !is_written && !source.is_faulty(&name.path) {
            let message =
                format!("nothing says of which recipe and for which face these panels are: `{key}` is missing");
            source.fault(name.span.clone(), &name.path, message, "write of = \"plaster\" and face = \"inside\"");
        }
    }
    let of = recipe_named(source, written.of.as_ref()?, earth)?;
    let earth = earth?;
    let recipe = earth.recipe(&of)?;
    let face = written.face.as_ref()?.value;
    are_filled_alike(source, build, written.fill.as_ref(), "these panels were tried");
    let fault = |message: String, hint: &str| source.fault(name.span.clone(), &name.path, message, hint);
    if !(2..=5).contains(&recipe.parts.len()) {
        let count = recipe.parts.len();
        let message = format!("panels are tried of two to five ingredients, and the recipe \"{of}\" has {count}");
        fault(message, "write every ingredient that is varied into the recipe, with buckets of its own");
    }
    if written.each.is_empty() && !source.is_faulty(&name.path) {
        let hint = "write each = { a = { buckets = { soil = 1, sand = 2 }, crack = { ann = 1, ben = 2 } } }";
        fault("no panel is written".into(), hint);
    }
    let coat = coat(source, written, (face, &of), skin);
    let parts: Vec<String> = recipe.parts.iter().map(|(at, _)| earth.ingredients[*at].name.clone()).collect();
    let step = least_part(source, name, written.step.as_ref(), system);
    let judges = judges(written);
    let shared = thickness(source, written.thickness.as_ref(), system);
    let each = written.each.iter().filter_map(|own| panel(source, own, (&parts, &judges), shared.as_ref(), system));
    let each: Vec<Panel> = each.collect();
    if source.is_faulty(&name.path) {
        return None;
    }
    let found = found(source, name, (earth, recipe), &step, &each)?;
    let day = known(written.day.as_ref());
    Some(Panels { name: name.value.clone(), of, face, day, step, parts, judges, each, coat: coat?, found })
}

/// The thickest coat of a recipe on a face; that there is none is refused.
fn coat(source: &Source<'_>, written: &build::Panels, (face, of): (Face, &str), skin: &Skin) -> Option<Known<Length>> {
    let (coats, word) = match face {
        Face::Inside => (&skin.inside, "inside"),
        Face::Outside => (&skin.outside, "outside"),
    };
    let is_of_it = |layer: &&Layer| matches!(&layer.of, Of::Recipe(recipe) if recipe == of);
    let thickest = coats.iter().filter(is_of_it).map(|layer| &layer.thickness);
    let thickest = thickest.reduce(|one, other| if other.value > one.value { other } else { one });
    if thickest.is_none() && !source.is_faulty("skin") {
        let at = written.of.as_ref()?;
        let message = format!("no coat of the face {word} is of \"{of}\"");
        let hint = format!("write the coat, [[skin.{word}]], or the recipe of one that is there");
        source.fault(at.span.clone(), &at.path, message, hint);
    }
    thickest.cloned()
}

/// Every judge, in the order in which they are met.
fn judges(written: &build::Panels) -> Vec<String> {
    let mut judges: Vec<String> = Vec::new();
    for (judge, _) in written.each.iter().flat_map(|panel| panel.scores.iter().flatten()) {
        if !judges.contains(&judge.value) {
            judges.push(judge.value.clone());
        }
    }
    judges
}

fn thickness(source: &Source<'_>, written: Option<&Written<Length>>, system: System) -> Option<Known<Length>> {
    within(source, written, Length::mm(0.5)..Length::mm(150.0), "the thickness of a panel", system)
}

fn panel(
    source: &Source<'_>,
    written: &build::Panel,
    (parts, judges): (&[String], &[String]),
    shared: Option<&Known<Length>>,
    system: System,
) -> Option<Panel> {
    let name = &written.name;
    let ingredients: Vec<&str> = parts.iter().map(String::as_str).collect();
    let buckets = buckets_of(source, &written.buckets, &ingredients, ("a number of buckets in a panel", system));
    let own = thickness(source, written.thickness.as_ref(), system).or_else(|| shared.cloned());
    let scores = [0, 1, 2].map(|aspect| {
        let of = |judge: &String| written.scores[aspect].iter().find(|(name, _)| name.value == *judge);
        judges.iter().map(|judge| score(source, &of(judge)?.1)).collect::<Vec<_>>()
    });
    let fault = |message: String, hint: &str| {
        if !source.is_faulty(&name.path) {
            source.fault(name.span.clone(), &name.path, message, hint);
        }
    };
    if own.is_none() {
        let hint = "write thickness = \"12 mm\" for all of these panels, or for each its own";
        fault(format!("nothing says how thick panel \"{}\" is", name.value), hint);
    }
    if scores.iter().flatten().all(Option::is_none) {
        let hint = "write crack = { ann = 1, ben = 2 }, and so of dusting and adhesion";
        fault(format!("nobody scored panel \"{}\"", name.value), hint);
    }
    if all_of(&buckets) <= 0.0 {
        let hint = format!("write buckets = {{ {} = 2 }} and so of each ingredient", parts.first()?);
        fault(format!("nothing says what panel \"{}\" was made of", name.value), &hint);
    }
    Some(Panel { name: name.value.clone(), buckets, thickness: own?, scores })
}

fn score(source: &Source<'_>, written: &Written<u64>) -> Option<Known<u64>> {
    let worst = panel::worst();
    if written.value > worst as u64 {
        let message = format!("{} is no score of a panel", written.value);
        let hint = format!("write a whole number from 0, the best, to {worst}, which rejects the panel");
        source.fault(written.span.clone(), &written.path, message, hint);
        return None;
    }
    known(Some(written))
}

/// What panels say together; more mixes than are looked through are refused.
fn found(
    source: &Source<'_>,
    name: &Written<String>,
    (earth, recipe): (&Earth, &Recipe),
    step: &Known<f64>,
    each: &[Panel],
) -> Option<PanelsFound> {
    let whole = batch(source, name, (earth, recipe), step.value)?;
    let mixes: Vec<Vec<f64>> = each.iter().map(Panel::shares).collect();
    let side = |of: fn(f64, f64) -> f64, steps: fn(f64) -> f64| -> Vec<u32> {
        let share = |part: usize| mixes.iter().map(|mix| mix[part]).reduce(of).unwrap_or(0.0);
        (0..recipe.parts.len()).map(|part| steps(share(part) * f64::from(whole)) as u32).collect()
    };
    let low = side(f64::min, |steps| (steps - ROUNDING).ceil());
    let high = side(f64::max, |steps| (steps + ROUNDING).floor());
    let mut counts = match measurable(&Limits { low, high, whole }) {
        Ok(counts) => counts,
        Err(many @ Unmeasurable::Many) => {
            source.fault(name.span.clone(), &format!("{}.step", name.path), many.in_words(), "write a larger `step`");
            return None;
        }
        Err(_) => Vec::new(),
    };
    let worst = panel::worst() as u64;
    let is_worst = |panel: &Panel| panel.scores.iter().flatten().flatten().any(|score| score.value >= worst);
    let rejected: Vec<usize> = (0..each.len()).filter(|place| is_worst(&each[*place])).collect();
    let spoilt: Vec<&[f64]> = rejected.iter().map(|place| mixes[*place].as_slice()).collect();
    counts.retain(|counts| !panel::is_rejected(&shares(counts), &spoilt));
    let judged = [0, 1, 2].map(|aspect| judged(each, &mixes, aspect));
    let choice = choice(each, &judged, &counts);
    let wanted = recipe.parts.len() + number("plan-spare-mixes") as usize;
    let distinct = fewest_distinct(each, &mixes);
    let unscored = unscored(each, &rejected);
    Some(PanelsFound { judged, rejected, whole, counts, distinct, wanted, unscored, choice })
}

/// The aspect in which two judges scored the fewest distinct mixes, and how many.
fn fewest_distinct(each: &[Panel], mixes: &[Vec<f64>]) -> (usize, usize) {
    let counted = (0..ASPECTS.len()).map(|aspect| {
        let scored = each.iter().zip(mixes).filter(|(panel, _)| panel.is_scored_in(aspect));
        (aspect, distinct(Kind::Shares, &scored.map(|(_, mix)| mix.clone()).collect::<Vec<_>>()))
    });
    counted.min_by_key(|(_, count)| *count).unwrap_or((0, 0))
}

/// Panels that too few judges scored in some aspect; of a rejected one nothing more is asked.
fn unscored(each: &[Panel], rejected: &[usize]) -> Vec<usize> {
    let lacks = |panel: &Panel| !(0..ASPECTS.len()).all(|aspect| panel.is_scored_in(aspect));
    (0..each.len()).filter(|place| !rejected.contains(place) && lacks(&each[*place])).collect()
}

/// The judges of an aspect, and what their scores say.
fn judged(each: &[Panel], mixes: &[Vec<f64>], aspect: usize) -> (Vec<usize>, Option<Judged>) {
    let mut judges: Vec<usize> = scores(each, aspect).map(|(_, judge, _)| judge).collect();
    judges.sort_unstable();
    judges.dedup();
    let scored = scores(each, aspect).filter_map(|(place, judge, score)| {
        let judge = judges.iter().position(|own| *own == judge)?;
        Some(Score { mix: mixes[place].clone(), panel: place, judge, score: score.value as usize })
    });
    let judged = panel::judged(&scored.collect::<Vec<_>>());
    (judges, judged)
}

fn choice(each: &[Panel], judged: &[(Vec<usize>, Option<Judged>); 3], counts: &[Vec<u32>]) -> Result<Chosen, Unscored> {
    let wanted = number("fewest-panels") as usize;
    if each.len() < wanted {
        return Err(Unscored::Few(each.len(), wanted));
    }
    if judged.iter().all(|(judges, _)| judges.len() < number("fewest-judges") as usize) {
        return Err(Unscored::OneJudge);
    }
    let good = panel::good() as u64;
    let is_any = |aspect: usize, wanted: bool| scores(each, aspect).any(|(.., score)| (score.value <= good) == wanted);
    if let Some(aspect) = (0..ASPECTS.len()).find(|aspect| is_any(*aspect, false) && !is_any(*aspect, true)) {
        return Err(Unscored::NoneGood(aspect));
    }
    // Where all scores are good nothing tells one mix from another.
    let told = |aspect: usize| judged[aspect].1.as_ref().filter(|_| is_any(aspect, false));
    let mixes: Vec<Vec<f64>> = counts.iter().map(|counts| shares(counts)).collect();
    panel::chosen(&[0, 1, 2].map(told), &mixes, panel::good())
}
