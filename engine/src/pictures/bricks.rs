//! Test bricks as pictures: what each bore, how damp it was, and the line by which strength falls with moisture.

use crate::build::BrickTest;
use crate::earth::strength::{self, DampLine};
use crate::house::{self, House};
use crate::row::Rows;
use crate::units::{Pressure, Ratio};

/// Points along the line of the fall.
const STEPS: u32 = 24;

/// Bricks of one mix, tested alike.
#[derive(Clone, Debug)]
pub struct BrickLot {
    /// Their name.
    pub name: String,
    /// The recipe that they are of.
    pub of: String,
    /// How they were tested.
    pub test: BrickTest,
    /// Whether they are of the recipe of the wall.
    pub is_of_wall: bool,
    /// Whether they are offered as proof of it.
    pub is_proof: bool,
    /// Each of them, the dry ones first.
    pub bricks: Vec<TestedBrick>,
    /// How strength falls with moisture; none where no line is known.
    pub fall: Option<Fall>,
}

/// A brick that was tested.
#[derive(Clone, Debug)]
pub struct TestedBrick {
    /// Its name.
    pub name: String,
    /// What it bore.
    pub strength: Pressure,
    /// Its moisture of dry mass, where it is known.
    pub moisture: Option<Ratio>,
    /// Whether it was tested damp.
    pub is_damp: bool,
    /// Whether it lies strangely far from the other dry ones.
    pub is_strange: bool,
}

/// The fall of strength with moisture, from the driest brick to the dampest.
#[derive(Clone, Debug)]
pub struct Fall {
    /// The line through the bricks.
    pub middle: Vec<(Ratio, Pressure)>,
    /// What 19 of 20 more bricks would exceed.
    pub low: Vec<(Ratio, Pressure)>,
}

impl BrickLot {
    /// The row of what they say together.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.bricks.{}.{noun}", self.name)
    }

    /// The row of one of them.
    #[must_use]
    pub fn path_of(&self, brick: &TestedBrick, noun: &str) -> String {
        self.path(&format!("each.{}.{noun}", brick.name))
    }
}

/// The test bricks of a house with its rows.
#[must_use]
pub fn brick_lots(house: &House, rows: &Rows) -> Vec<BrickLot> {
    house.bricks.iter().map(|bricks| lot(house, bricks, rows)).collect()
}

fn lot(house: &House, bricks: &house::Bricks, rows: &Rows) -> BrickLot {
    let strange = rows.value::<u64>(&bricks.path("strange"));
    let (damp, dry): (Vec<_>, Vec<_>) = bricks.each.iter().partition(|brick| brick.is_damp);
    let counted = dry.into_iter().zip(1..).map(|(brick, place)| (brick, Some(place) == strange));
    let tested = counted.chain(damp.into_iter().map(|brick| (brick, false))).filter_map(|(brick, is_strange)| {
        Some(TestedBrick {
            name: brick.name.clone(),
            strength: rows.value(&bricks.path_of(brick, "strength"))?,
            moisture: rows.value(&bricks.path_of(brick, "moisture")),
            is_damp: brick.is_damp,
            is_strange,
        })
    });
    let tested: Vec<TestedBrick> = tested.collect();
    BrickLot {
        name: bricks.name.clone(),
        of: bricks.of.clone(),
        test: bricks.test,
        is_of_wall: house.wall.cob.as_ref() == Some(&bricks.of),
        is_proof: bricks.is_proof,
        fall: rows.find(&bricks.path("fall")).and_then(|_| fall(&tested)),
        bricks: tested,
    }
}

fn fall(bricks: &[TestedBrick]) -> Option<Fall> {
    let points: Vec<(Ratio, Pressure)> =
        bricks.iter().filter_map(|brick| Some((brick.moisture?, brick.strength))).collect();
    let line = DampLine::through(&points).ok()?;
    let [driest, dampest] = line.tested;
    let mut fall = Fall { middle: Vec::new(), low: Vec::new() };
    for step in 0..=STEPS {
        let moisture = (driest + (dampest - driest) * (f64::from(step) / f64::from(STEPS))).min(dampest);
        let [middle, low] = line.at(moisture)?;
        fall.middle.push((moisture, strength::damp_strength(moisture, middle).value));
        fall.low.push((moisture, strength::damp_strength_low(moisture, low).value));
    }
    Some(fall)
}
