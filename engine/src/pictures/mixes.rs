//! Tried mixes as pictures: where each lies among its ingredients, and how much of all wishes is met between them.

use crate::earth::mixture::{Kind as Varied, groups, shares};
use crate::house::{House, Mixes, Tried};

/// Points of a curve between the leanest and the fattest mix that was tried.
const POINTS: u32 = 48;
/// Steps of the net on which lines of equal worth are found.
const NET: u32 = 40;
/// Lines of equal worth are drawn at every so many hundredths.
const LEVEL: u32 = 5;

/// Mixes that were tried for a recipe.
#[derive(Clone, Debug)]
pub struct MixPicture {
    /// Their name.
    pub name: String,
    /// Its ingredients.
    pub ingredients: Vec<String>,
    /// What is wanted.
    pub wishes: Vec<String>,
    /// The mixes, repeats of one together.
    pub tried: Vec<TriedMix>,
    /// Recipes of whole steps within the limits and between those tried.
    pub recipes: Vec<StepRecipe>,
    /// The place of the chosen one among them.
    pub best: usize,
    /// Of three ingredients, lines along which all wishes are met alike.
    pub contours: Vec<Contour>,
    /// Of two ingredients, how much is met by the share of the first: all wishes together, then each.
    pub curves: Vec<Vec<[f64; 2]>>,
}

/// A mix that was tried, once or again.
#[derive(Clone, Debug)]
pub struct TriedMix {
    /// The names under which it is written.
    pub names: Vec<String>,
    /// Shares of its ingredients.
    pub shares: Vec<f64>,
}

/// A recipe of whole steps.
#[derive(Clone, Debug)]
pub struct StepRecipe {
    /// Buckets of each ingredient.
    pub buckets: Vec<f64>,
    /// Shares of its ingredients.
    pub shares: Vec<f64>,
    /// How much of all wishes it meets.
    pub meets: f64,
    /// Whether it is nearly as good as the chosen one.
    pub is_nearly: bool,
}

/// A line along which all wishes are met alike.
#[derive(Clone, Debug)]
pub struct Contour {
    /// How much is met.
    pub meets: f64,
    /// Its pieces, each from one mix to another.
    pub lines: Vec<[[f64; 3]; 2]>,
}

/// The tried mixes of a house that choose a recipe of two or three ingredients.
pub(super) fn mixes(house: &House) -> Vec<MixPicture> {
    house.mixes.iter().filter(|mixes| mixes.parts.len() <= 3).filter_map(picture).collect()
}

fn picture(mixes: &Mixes) -> Option<MixPicture> {
    let choice = mixes.found.choice.as_ref().ok()?;
    let best = choice.best.first()?.place;
    let recipes = mixes.found.counts.iter().enumerate().filter_map(|(place, counts)| {
        let own = shares(counts);
        Some(StepRecipe {
            buckets: counts.iter().map(|count| f64::from(*count) * mixes.step.value).collect(),
            meets: mixes.found.meets(&mixes.wishes, &own)?,
            is_nearly: choice.best.iter().any(|near| near.place == place),
            shares: own,
        })
    });
    let tried = together(&mixes.tried);
    Some(MixPicture {
        name: mixes.name.clone(),
        ingredients: mixes.parts.iter().map(|(name, _)| name.clone()).collect(),
        wishes: mixes.wishes.iter().map(|wish| wish.name.clone()).collect(),
        recipes: recipes.collect(),
        best,
        contours: if mixes.parts.len() == 3 { contours(mixes, &tried) } else { Vec::new() },
        curves: if mixes.parts.len() == 2 { curves(mixes, &tried) } else { Vec::new() },
        tried,
    })
}

fn together(tried: &[Tried]) -> Vec<TriedMix> {
    let mut all: Vec<TriedMix> = Vec::new();
    let mixes: Vec<Vec<f64>> = tried.iter().map(Tried::shares).collect();
    for ((own, group), shares) in tried.iter().zip(groups(Varied::Shares, &mixes)).zip(&mixes) {
        match all.get_mut(group) {
            Some(other) => other.names.push(own.name.clone()),
            None => all.push(TriedMix { names: vec![own.name.clone()], shares: shares.clone() }),
        }
    }
    all
}

/// The least and the greatest share of an ingredient that was tried.
fn reach(tried: &[TriedMix], part: usize) -> [f64; 2] {
    let shares = tried.iter().map(|own| own.shares[part]);
    [f64::min, f64::max].map(|side| shares.clone().reduce(side).unwrap_or(f64::NAN))
}

fn curves(mixes: &Mixes, tried: &[TriedMix]) -> Vec<Vec<[f64; 2]>> {
    let [low, high] = reach(tried, 0);
    let shares: Vec<f64> = (0..=POINTS).map(|step| low + (high - low) * f64::from(step) / f64::from(POINTS)).collect();
    let along = |worth: &dyn Fn(&[f64]) -> Option<f64>| -> Vec<[f64; 2]> {
        shares.iter().filter_map(|share| Some([*share, worth(&[*share, 1.0 - share])?])).collect()
    };
    let mut curves = vec![along(&|mix| mixes.found.meets(&mixes.wishes, mix))];
    for (wish, surface) in mixes.wishes.iter().zip(&mixes.found.surfaces) {
        curves.push(along(&|mix| Some(wish.goal().met(surface.fit.as_ref().ok()?.value(mix)))));
    }
    curves
}

/// Lines of equal worth over a net of small triangles, where every share lies between those tried.
fn contours(mixes: &Mixes, tried: &[TriedMix]) -> Vec<Contour> {
    let sides = [0, 1, 2].map(|part| reach(tried, part));
    let net = f64::from(NET);
    let worth = |one: u32, other: u32| -> Option<([f64; 3], f64)> {
        let third = NET.checked_sub(one + other)?;
        let mix = [one, other, third].map(|steps| f64::from(steps) / net);
        let is_tried = mix.iter().zip(&sides).all(|(share, [low, high])| (low - 1e-9..=high + 1e-9).contains(share));
        is_tried.then_some(())?;
        Some((mix, mixes.found.meets(&mixes.wishes, &mix)?))
    };
    let width = NET as usize + 2;
    let all: Vec<Option<([f64; 3], f64)>> = (0..width as u32)
        .flat_map(|one| (0..width as u32).map(move |other| (one, other)))
        .map(|(a, b)| worth(a, b))
        .collect();
    let at = |one: usize, other: usize| all[one * width + other];
    let mut triangles = Vec::new();
    for one in 0..NET as usize {
        for other in 0..NET as usize {
            for corners in [
                [at(one, other), at(one + 1, other), at(one, other + 1)],
                [at(one + 1, other + 1), at(one + 1, other), at(one, other + 1)],
            ] {
                if let [Some(a), Some(b), Some(c)] = corners {
                    triangles.push([a, b, c]);
                }
            }
        }
    }
    let levels = (1..100 / LEVEL).map(|level| f64::from(level * LEVEL) / 100.0);
    let lines = levels
        .map(|meets| Contour { meets, lines: triangles.iter().filter_map(|corners| across(corners, meets)).collect() });
    lines.filter(|contour| !contour.lines.is_empty()).collect()
}

/// Where a level crosses a triangle of mixes and their worth.
fn across(corners: &[([f64; 3], f64); 3], level: f64) -> Option<[[f64; 3]; 2]> {
    let mut ends = [(0, 1), (1, 2), (2, 0)].into_iter().filter_map(|(one, other)| {
        let ((a, from), (b, to)) = (corners[one], corners[other]);
        if (from < level) == (to < level) {
            return None;
        }
        let share = (level - from) / (to - from);
        Some([0, 1, 2].map(|part| a[part] + share * (b[part] - a[part])))
    });
    Some([ends.next()?, ends.next()?])
}
