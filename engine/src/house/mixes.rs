//! Tried mixes of a recipe with nothing missing: buckets of each, what was found, what is wanted; what cannot be is refused.

use jiff::civil::Date;

use super::earth::{Earth, Recipe, recipe_named};
use super::mix_choice::found;
pub use super::mix_choice::{MixFound, MixSurface, Unchosen};
use super::mix_plan;
pub use super::mix_plan::MixPlan;
use super::place::{known, nearest, within};
use crate::build::{self, Build, Fill, Source, SurfaceOrder, Wanted, Written};
use crate::earth::mixture::{Goal, Order, Want};
use crate::known::{Known, Origin};
use crate::units::{Kind, Quantity, System};

/// Mixes that were tried for a recipe.
#[derive(Clone, Debug)]
pub struct Mixes {
    /// Their name.
    pub name: String,
    /// The recipe that they were tried for.
    pub of: String,
    /// The day on which they were measured.
    pub day: Option<Known<Date>>,
    /// The least part of a bucket that is measured.
    pub step: Known<f64>,
    /// Ingredients of the recipe, and the fewest and the most buckets of each in a batch.
    pub parts: Vec<(String, [Known<f64>; 2])>,
    /// What is wanted.
    pub wishes: Vec<Wish>,
    /// Each of them, in the order of their names.
    pub tried: Vec<Tried>,
    /// What they say together.
    pub found: MixFound,
    /// Which to make next: all of them where none is tried.
    pub plan: Option<MixPlan>,
}

/// What is wanted of a mix.
#[derive(Clone, Debug)]
pub struct Wish {
    /// What is measured.
    pub name: String,
    /// Which side is good.
    pub want: Wanted,
    /// Where it is good.
    pub value: Known<Quantity>,
    /// Below which, and above which it is useless.
    pub useless: [Option<Known<Quantity>>; 2],
}

/// A mix that was tried.
#[derive(Clone, Debug)]
pub struct Tried {
    /// Its name.
    pub name: String,
    /// Buckets of each ingredient of the recipe; none of one that was left out.
    pub buckets: Vec<Option<Known<f64>>>,
    /// What was found of each wish; none where it was not measured.
    pub found: Vec<Option<Known<Quantity>>>,
}

impl Mixes {
    /// Their key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.mixes.{}.{noun}", self.name)
    }
}

impl Wish {
    /// The kind of what is measured.
    #[must_use]
    pub fn kind(&self) -> Kind {
        self.value.value.kind()
    }

    /// The wish as a goal, in plain numbers.
    #[must_use]
    pub fn goal(&self) -> Goal {
        let si = |quantity: Quantity| quantity.si().unwrap_or(f64::NAN);
        let target = si(self.value.value);
        let [low, high] = self.useless.each_ref().map(|side| side.as_ref().map_or(target, |side| si(side.value)));
        let want = match self.want {
            Wanted::AtMost => Want::Least,
            Wanted::AtLeast => Want::Most,
            Wanted::Near => Want::Target,
        };
        Goal { want, low, target, high, power: 1.0, counts: 1.0 }
    }
}

impl Tried {
    /// Buckets of all ingredients together.
    #[must_use]
    pub fn all(&self) -> f64 {
        all_of(&self.buckets)
    }

    /// Share of each ingredient in its buckets.
    #[must_use]
    pub fn shares(&self) -> Vec<f64> {
        shares_of(&self.buckets)
    }
}

/// Buckets of all ingredients together.
pub(super) fn all_of(buckets: &[Option<Known<f64>>]) -> f64 {
    buckets.iter().flatten().map(|own| own.value).sum()
}

/// Share of each ingredient in buckets.
pub(super) fn shares_of(buckets: &[Option<Known<f64>>]) -> Vec<f64> {
    let all = all_of(buckets);
    buckets.iter().map(|own| own.as_ref().map_or(0.0, |own| own.value / all)).collect()
}

/// Buckets of each ingredient of a recipe; one that the recipe has not is refused.
pub(super) fn buckets_of(
    source: &Source<'_>,
    written: &[(Written<String>, Written<f64>)],
    ingredients: &[&str],
    (what, system): (&str, System),
) -> Vec<Option<Known<f64>>> {
    let mut buckets = vec![None; ingredients.len()];
    for (ingredient, count) in written {
        if is_of_the_recipe(source, ingredient, ingredients)
            && let Some(at) = ingredients.iter().position(|own| *own == ingredient.value)
        {
            buckets[at] = within(source, Some(count), 0.0..500.0, what, system);
        }
    }
    buckets
}

/// The tried mixes of a build file.
pub(super) fn place(source: &Source<'_>, build: &Build, earth: Option<&Earth>, system: System) -> Vec<Mixes> {
    let mut placed: Vec<Mixes> = Vec::new();
    for written in &build.mixes {
        let Some(own) = mixes(source, build, written, earth, system) else { continue };
        if let Some(before) = placed.iter().find(|other| other.of == own.of) {
            is_said_twice(source, &written.name, &before.name, "mixes of one recipe");
        }
        placed.push(own);
    }
    placed
}

/// Refuses the later one of two tables that would choose two mixes for one thing.
pub(super) fn is_said_twice(source: &Source<'_>, name: &Written<String>, before: &str, what: &str) {
    if source.is_faulty(&name.path) {
        return;
    }
    let message = format!("\"{before}\" and \"{}\" are {what}, and each would choose a mix of its own", name.value);
    source.fault(
        name.span.clone(),
        &name.path,
        message,
        "write all of them in one table, each under a name of its own",
    );
}

fn mixes(
    source: &Source<'_>,
    build: &Build,
    written: &build::Mixes,
    earth: Option<&Earth>,
    system: System,
) -> Option<Mixes> {
    let name = &written.name;
    let of = recipe_named(source, written.of.as_ref()?, earth)?;
    let earth = earth?;
    let recipe = earth.recipe(&of)?;
    are_filled_alike(source, build, written.fill.as_ref(), "these mixes were tried");
    let fault = |message: String, hint: &str| source.fault(name.span.clone(), &name.path, message, hint);
    if !(2..=5).contains(&recipe.parts.len()) {
        let count = recipe.parts.len();
        let message = format!("mixes are tried of two to five ingredients, and the recipe \"{of}\" has {count}");
        fault(message, "write every ingredient that is varied into the recipe, with buckets of its own");
        return None;
    }
    let ingredients: Vec<&str> = recipe.parts.iter().map(|(at, _)| earth.ingredients[*at].name.as_str()).collect();
    let step = least_part(source, name, written.step.as_ref(), system);
    let parts = limits(source, written, &ingredients, system);
    let wishes: Vec<Wish> = written.wishes.iter().filter_map(|own| wish(source, own)).collect();
    if written.wishes.is_empty() {
        let hint = "write wishes = { shrinkage = { want = \"at-most\", value = \"1 %\", above = \"3 %\" } }";
        fault("nothing says what is wanted of these mixes".into(), hint);
    }
    let tried: Vec<Tried> =
        written.tried.iter().filter_map(|own| tried(source, own, (&of, &ingredients), &wishes, system)).collect();
    if source.is_faulty(&name.path) {
        return None;
    }
    let whole = batch(source, name, (earth, recipe), step.value)?;
    let order = written.order.as_ref().map(|order| match order.value {
        SurfaceOrder::Linear => Order::Linear,
        SurfaceOrder::Quadratic => Order::Quadratic,
        SurfaceOrder::SpecialCubic => Order::SpecialCubic,
    });
    let found = match found((&parts, &wishes, &tried), (whole, step.value), order) {
        Ok(found) => found,
        Err(why) => {
            let at = format!("{}.limits", name.path);
            let hint = format!("a batch of \"{of}\" is {} buckets: widen the limits", f64::from(whole) * step.value);
            source.fault(name.span.clone(), &at, why.in_words(), hint);
            return None;
        }
    };
    if let Some(asked) = &written.order
        && let Some(why) = found.surfaces.iter().find_map(|surface| surface.fit.as_ref().err())
    {
        source.fault(
            asked.span.clone(),
            &asked.path,
            why.in_words(),
            "leave `order` out: the mixes say what they carry",
        );
        return None;
    }
    let plan = mix_plan::plan(source, written, (&parts, &tried, &found), (step.value, order), system);
    Some(Mixes {
        name: name.value.clone(),
        of,
        day: known(written.day.as_ref()),
        step,
        parts,
        wishes,
        tried,
        found,
        plan,
    })
}

/// The least part of a bucket that is measured.
pub(super) fn least_part(
    source: &Source<'_>,
    name: &Written<String>,
    written: Option<&Written<f64>>,
    system: System,
) -> Known<f64> {
    within(source, written, 0.05..10.0, "a part of a bucket that is measured", system).unwrap_or_else(|| {
        let why = "half a bucket is the least that learners measure alike";
        Known::assumed(0.5, format!("{}.step", name.path), Origin::CommonPractice, why)
    })
}

/// Refuses buckets that are not filled as those of the earth are.
pub(super) fn are_filled_alike(source: &Source<'_>, build: &Build, own: Option<&Written<build::Fill>>, tried: &str) {
    let earth = build.earth.bucket.as_ref().and_then(|bucket| bucket.fill.as_ref());
    if let (Some(own), Some(earth)) = (own, earth)
        && own.value != earth.value
    {
        let word = |fill| if fill == Fill::Struck { "struck" } else { "heaped" };
        let [own_word, earth_word] = [own.value, earth.value].map(word);
        let message = format!("{tried} in {own_word} buckets, and the earth is measured in {earth_word} ones");
        let hint = "a heap is no whole bucket: try one mix again as the batches will be measured, or measure all alike";
        source.fault(own.span.clone(), &own.path, message, hint);
    }
}

/// The fewest and the most buckets of each ingredient.
fn limits(
    source: &Source<'_>,
    written: &build::Mixes,
    ingredients: &[&str],
    system: System,
) -> Vec<(String, [Known<f64>; 2])> {
    let name = &written.name;
    for bounds in &written.limits {
        is_of_the_recipe(source, &bounds.name, ingredients);
    }
    let limits = ingredients.iter().filter_map(|ingredient| {
        let Some(bounds) = written.limits.iter().find(|bounds| bounds.name.value == *ingredient) else {
            if !source.is_faulty(&format!("{}.limits", name.path)) {
                let message = format!("nothing says how few and how many buckets of {ingredient} a batch may have");
                let hint = format!("write limits = {{ {ingredient} = {{ low = 2, high = 8 }} }}, and so of each other");
                source.fault(name.span.clone(), &format!("{}.limits", name.path), message, hint);
            }
            return None;
        };
        let side = |side: &Option<Written<f64>>| {
            within(source, side.as_ref(), 0.0..500.0, "a number of buckets in a batch", system)
        };
        let (low, high) = (side(&bounds.low)?, side(&bounds.high)?);
        if low.value > high.value {
            let at = bounds.low.as_ref()?;
            let message =
                format!("at least {} buckets of {ingredient} are more than the most, {}", low.value, high.value);
            source.fault(at.span.clone(), &at.path, message, "`low` is the fewest, `high` the most");
            return None;
        }
        Some(((*ingredient).to_owned(), [low, high]))
    });
    limits.collect()
}

/// Whether a name is that of an ingredient; it is refused otherwise.
fn is_of_the_recipe(source: &Source<'_>, written: &Written<String>, ingredients: &[&str]) -> bool {
    let is_there = ingredients.contains(&written.value.as_str());
    if !is_there {
        let message = format!("the recipe has no ingredient \"{}\"", written.value);
        let hint = nearest(ingredients.iter().copied(), &written.value);
        source.fault(written.span.clone(), &written.path, message, hint);
    }
    is_there
}

fn wish(source: &Source<'_>, written: &build::Wish) -> Option<Wish> {
    let want = written.want.as_ref()?.value;
    let value = written.value.as_ref()?;
    for (side, is_below) in [(&written.below, true), (&written.above, false)] {
        let Some(side) = side else { continue };
        let fault = |message: String, hint: &str| source.fault(side.span.clone(), &side.path, message, hint);
        if side.value.kind() != value.value.kind() {
            let (found, wanted) = (side.value.kind().name(), value.value.kind().name());
            fault(format!("this is {found}, and what is wanted is {wanted}"), "write both in the same kind of unit");
        } else if is_below == (side.value.si() >= value.value.si()) {
            let (word, other) = if is_below { ("below", "under") } else { ("above", "over") };
            let message = format!("`{word}` does not lie {other} the value that is wanted");
            fault(message, "between the two a mix gets better: leave room there");
        }
    }
    let useless = [known(written.below.as_ref()), known(written.above.as_ref())];
    let sides = usize::from(want != Wanted::AtMost) + usize::from(want != Wanted::AtLeast);
    let is_whole = useless.iter().flatten().count() == sides;
    is_whole.then_some(Wish { name: written.name.value.clone(), want, value: known(Some(value))?, useless })
}

fn tried(
    source: &Source<'_>,
    written: &build::Tried,
    (of, ingredients): (&str, &[&str]),
    wishes: &[Wish],
    system: System,
) -> Option<Tried> {
    let name = &written.name;
    let buckets = buckets_of(source, &written.buckets, ingredients, ("a number of buckets in a mix", system));
    let mut found = vec![None; wishes.len()];
    for (what, value) in &written.found {
        let Some(at) = wishes.iter().position(|wish| wish.name == what.value) else {
            // A wish that was refused was told where it stands.
            if !source.is_faulty(&name.path.replace(&format!("tried.{}", name.value), "wishes")) {
                let message = format!("nothing says what is wanted of \"{}\"", what.value);
                let hint = nearest(wishes.iter().map(|wish| wish.name.as_str()), &what.value);
                source.fault(what.span.clone(), &what.path, message, hint);
            }
            continue;
        };
        if value.value.kind() != wishes[at].kind() {
            let (own, wanted) = (value.value.kind().name(), wishes[at].kind().name());
            let message = format!("this is {own}, and what is wanted of \"{}\" is {wanted}", what.value);
            source.fault(value.span.clone(), &value.path, message, "write what was measured as the wish is written");
            continue;
        }
        found[at] = known(Some(value));
    }
    let read = Tried { name: name.value.clone(), buckets, found };
    if read.all() <= 0.0 && !source.is_faulty(&name.path) {
        let message = format!("nothing says what mix \"{}\" was made of", name.value);
        let hint = format!("write buckets = {{ {} = 2 }} and so of each ingredient of \"{of}\"", ingredients[0]);
        source.fault(name.span.clone(), &name.path, message, hint);
    }
    Some(read)
}

/// Steps of a bucket in a batch of the recipe.
pub(super) fn batch(
    source: &Source<'_>,
    name: &Written<String>,
    (earth, recipe): (&Earth, &Recipe),
    step: f64,
) -> Option<u32> {
    let all: f64 = earth.buckets(recipe).iter().sum();
    let steps = (all / step).round();
    if !(2.0..=MOST_STEPS).contains(&steps) {
        let message = format!("a batch of \"{}\" is {steps} steps of {step} bucket", recipe.name);
        let hint = format!("from 2 to {MOST_STEPS} steps are looked through: write another `step`");
        source.fault(name.span.clone(), &format!("{}.step", name.path), message, hint);
        return None;
    }
    Some(steps as u32)
}

/// Nobody measures a batch in more steps.
pub(super) const MOST_STEPS: f64 = 60.0;
