//! The plan of mixes to make: what they are, when they are wanted, how many bricks of each; what cannot be is refused.

use jiff::civil::Date;

use super::earth::percent;
use super::mix_choice::{Limited, MixFound, ROUNDING, limited};
use super::mixes::{MOST_STEPS, Tried};
use super::place::{known, within};
use crate::build::{self, Source, Written};
use crate::earth::mixture::{Order, Planned, measurable, planned};
use crate::earth::tables::number;
use crate::known::{Known, Origin};
use crate::units::{Days, Ratio, System};

/// A plan of mixes to make.
#[derive(Clone, Debug)]
pub struct MixPlan {
    /// The day on which they are to be tested.
    pub wanted_by: Option<Known<Date>>,
    /// Buckets of a trial mix; none where it is a batch of the recipe.
    pub batch: Option<Known<f64>>,
    /// From which number their order is drawn by lot.
    pub start: Known<u64>,
    /// Dry bricks of each, where they are written.
    pub bricks: Option<Known<u64>>,
    /// How bricks of a mix scatter, where it is written.
    pub scatter: Option<Known<Ratio>>,
    /// Days until they are dry.
    pub dry: Known<Days>,
    /// Mixes that are made in a day.
    pub in_a_day: Known<u64>,
    /// Steps of a bucket in a trial mix.
    pub whole: u32,
    /// The mixes.
    pub planned: Planned,
    /// Whether it is the one mix that tells most next.
    pub is_next: bool,
}

/// Fewer steps make no mix of two ingredients.
const FEWEST_STEPS: f64 = 2.0;
/// Buckets are written to so many parts of one.
const PARTS: f64 = 1000.0;

/// The plan of a series of mixes: where nothing is tried yet, and where one is asked for.
pub(super) fn plan(
    source: &Source<'_>,
    written: &build::Mixes,
    (parts, tried, found): (&[Limited], &[Tried], &MixFound),
    (step, asked): (f64, Option<Order>),
    system: System,
) -> Option<MixPlan> {
    let path = format!("{}.plan", written.name.path);
    let bare = build::Plan::default();
    let keys = match &written.plan {
        Some(keys) => keys,
        None if tried.is_empty() => &bare,
        None => return None,
    };
    let count =
        |written: &Option<Written<u64>>, most: u64, what: &str| within(source, written.as_ref(), 1..most, what, system);
    let batch = within(source, keys.batch.as_ref(), 0.5..500.0, "a number of buckets in a trial mix", system);
    let start = count(&keys.start, 1_000_000, "a number from which an order is drawn by lot");
    let bricks = count(&keys.bricks, 60, "a number of dry bricks of a mix");
    let what = "what bricks of one mix scatter by, of their mean";
    let scatter = within(source, keys.scatter.as_ref(), percent(1.0, 60.0), what, system);
    let what = "the days until a test brick is dry";
    let dry = within(source, keys.dry.as_ref(), Days::days(1.0)..Days::days(730.0), what, system);
    let in_a_day = count(&keys.in_a_day, 50, "a number of mixes that are made in a day");
    if source.is_faulty(&path) {
        return None;
    }
    if let (Some(own), Some(at)) = (&batch, &keys.batch)
        && let Some((message, hint)) = no_steps(own.value, step)
    {
        source.fault(at.span.clone(), &at.path, message, hint);
        return None;
    }
    let whole = batch.as_ref().map_or(found.whole, |batch| (batch.value / step).round() as u32);
    let start = start.unwrap_or_else(|| {
        let why = "any number will do, as long as it is chosen before the mixes are";
        Known::assumed(1, format!("{path}.start"), Origin::Judgement, why)
    });
    let (planned, is_next) = match &found.choice {
        Ok(choice) if batch.is_none() => {
            let next = found.counts.get(choice.next.0)?.clone();
            let order = found.surfaces.get(choice.governing).map_or(Order::Linear, |surface| surface.order);
            (Planned { order, runs: vec![next], distinct: 1 }, true)
        }
        _ => (from_limits(source, written, (parts, tried), [whole, found.whole], (step, asked), start.value)?, false),
    };
    Some(MixPlan {
        wanted_by: known(keys.wanted_by.as_ref()),
        batch,
        start,
        bricks,
        scatter,
        dry: dry.unwrap_or_else(|| {
            let why = "four weeks under a roof in moving air; weigh until two weighings a day apart agree";
            Known::assumed(Days::days(number("plan-dry-days")), format!("{path}.dry"), Origin::CommonPractice, why)
        }),
        in_a_day: in_a_day.unwrap_or_else(|| {
            let why = "two people who weigh and write down all that they fill";
            Known::assumed(number("plan-in-a-day") as u64, format!("{path}.in-a-day"), Origin::CommonPractice, why)
        }),
        whole,
        planned,
        is_next,
    })
}

/// Why so many buckets are no trial mix, and what to write: they are no whole number of steps, or too few of them, or too many.
fn no_steps(buckets: f64, step: f64) -> Option<(String, String)> {
    let (steps, whole) = (buckets / step, (buckets / step).round());
    if (steps - whole).abs() > ROUNDING {
        let near = (whole.max(FEWEST_STEPS) * step * PARTS).round() / PARTS;
        let message = format!("{buckets} buckets are no whole number of steps of {step} bucket");
        return Some((message, format!("write {near} buckets, or a `step` that divides them")));
    }
    (!(FEWEST_STEPS..=MOST_STEPS).contains(&whole)).then(|| {
        let hint = format!("from {FEWEST_STEPS} to {MOST_STEPS} steps are looked through");
        (format!("a trial mix is {whole} steps of {step} bucket"), hint)
    })
}

/// The mixes to make by the limits alone; refused where they leave too few.
fn from_limits(
    source: &Source<'_>,
    written: &build::Mixes,
    (parts, tried): (&[Limited], &[Tried]),
    [whole, of_the_recipe]: [u32; 2],
    (step, asked): (f64, Option<Order>),
    start: u64,
) -> Option<Planned> {
    let name = &written.name;
    let scale = f64::from(whole) / f64::from(of_the_recipe);
    let tried: Vec<Vec<f64>> = tried.iter().map(Tried::shares).collect();
    let counts = measurable(&limited(parts, whole, step / scale));
    let planned = counts.as_ref().map(|counts| planned(counts, asked, &tried, start));
    let message = match planned {
        Ok(Some(planned)) => return Some(planned),
        Ok(None) => "the limits leave too few mixes of whole steps to plan any that could contradict each other",
        Err(why) => why.in_words(),
    };
    let hint =
        format!("a trial mix is {} buckets: widen the limits, or measure in smaller steps", f64::from(whole) * step);
    source.fault(name.span.clone(), &format!("{}.limits", name.path), message, hint);
    None
}
