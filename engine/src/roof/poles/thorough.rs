//! The thorough search for the best choice of poles, as a study.

use std::ops::Range;

use serde_json::{Value, json};

use super::choice::Table;
use super::search::{Best, FEW, SEARCHES, cheaper, counted_out, searched};
use super::{Candidate, Choice, Position, Wish};
use crate::solve::assignment::Shortage;
use crate::study::{Digest, Study, Told, whole};

/// Grows when the same inputs lead to another choice.
const METHOD: u32 = 1;

/// A kept choice that costs otherwise by more than this many mm was damaged.
const SAME_MM: f64 = 1e-9;

/// Which pole goes where, over every position, pole and way round: counted out where the pile is small, else searched from many
/// starts.
#[derive(Clone, Debug, PartialEq)]
pub struct WhichPole {
    /// The positions.
    pub positions: Vec<Position>,
    /// The pile.
    pub pile: Vec<Candidate>,
    /// What makes one choice better than another.
    pub wish: Wish,
    /// Another seed starts elsewhere.
    pub seed: u64,
}

/// A good choice, the same for the same seed; the best one where the pile is small enough to count out.
///
/// # Errors
/// The positions that the pile cannot fill together, and the only poles that would do for any of them.
pub fn choose(positions: &[Position], pile: &[Candidate], wish: &Wish, seed: u64) -> Result<Choice, Shortage> {
    let search = WhichPole { positions: positions.to_vec(), pile: pile.to_vec(), wish: *wish, seed };
    let (start, bound_mm) = search.table().start()?;
    let found = whole(&search).flatten();
    // A start that nothing betters is a choice as well.
    Ok(found.unwrap_or_else(|| search.table().chosen((positions, pile), &start, bound_mm, false)))
}

impl WhichPole {
    fn table(&self) -> Table {
        Table::new(&self.positions, &self.pile, &self.wish)
    }

    fn is_few(&self) -> bool {
        self.pile.len() <= FEW
    }

    fn chosen(&self, ways: &[usize]) -> Option<Choice> {
        let table = self.table();
        let (_, bound_mm) = table.start().ok()?;
        Some(table.chosen((&self.positions, &self.pile), ways, bound_mm, self.is_few()))
    }

    /// Whether a pole, and not one twice, is named for each position.
    fn fits(&self, ways: &[usize]) -> bool {
        let once = |(at, way): (usize, &usize)| ways.iter().skip(at + 1).all(|other| other / 2 != way / 2);
        ways.len() == self.positions.len()
            && ways.iter().all(|way| way / 2 < self.pile.len())
            && ways.iter().enumerate().all(once)
    }
}

impl Study for WhichPole {
    type Part = Option<Best>;
    type Found = Option<Choice>;

    fn pieces(&self) -> usize {
        if self.is_few() { 2 * self.pile.len() } else { SEARCHES }
    }

    fn part(&self, range: Range<usize>, told: &mut Told<'_>) -> Option<Option<Best>> {
        let table = self.table();
        let Ok((start, _)) = table.start() else { return Some(None) };
        if self.is_few() {
            counted_out(&table, range, told)
        } else {
            searched(&table, &start, (range, self.seed), told)
        }
    }

    fn join(&self, parts: Vec<Option<Best>>) -> Option<Choice> {
        let best = parts.into_iter().fold(None, cheaper)?;
        self.chosen(&best.ways)
    }

    fn digest(&self) -> Digest {
        Digest::of(METHOD, self)
    }

    fn kept(found: &Option<Choice>) -> Value {
        let ways = |choice: &Choice| -> Vec<usize> {
            choice.places.iter().map(|placed| 2 * placed.pole + usize::from(placed.is_turned)).collect()
        };
        json!({ "ways": found.as_ref().map(ways), "cost_mm": found.as_ref().map(|choice| choice.cost_mm) })
    }

    fn read(&self, kept: &Value) -> Option<Option<Choice>> {
        let ways = match kept.get("ways")? {
            Value::Null => return Some(None),
            ways => ways.as_array()?.iter().map(|way| way.as_u64().and_then(|way| usize::try_from(way).ok())),
        };
        let ways = ways.collect::<Option<Vec<usize>>>().filter(|ways| self.fits(ways))?;
        let choice = self.chosen(&ways)?;
        let is_whole = (kept.get("cost_mm")?.as_f64()? - choice.cost_mm).abs() <= SAME_MM;
        (choice.cost_mm.is_finite() && is_whole).then_some(Some(choice))
    }
}
