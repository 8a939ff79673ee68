//! From the text of a build file to every answer: rows, checks, drawings' parts.

use crate::build;
use crate::check::Check;
use crate::house::part::{Plan, Section};
use crate::house::{self, About, House};
use crate::money::{Order, money};
use crate::problem::Problems;
use crate::quantities::quantities;
use crate::row::Rows;
use crate::solids::{Solids, solids};
use crate::structure::structure;
use crate::units::{Length, System};

/// All that the engine is told.
#[derive(Clone, Copy, Debug)]
pub struct Inputs<'a> {
    /// The bytes of the build file.
    pub build: &'a [u8],
    /// Units to show, when the reader wants others than the build file says.
    pub system: Option<System>,
}

/// All that the engine answers.
#[derive(Clone, Debug)]
pub struct Answers {
    /// Words about the house.
    pub about: About,
    /// Units for screen and paper.
    pub system: System,
    /// Every value, given, assumed and computed, each with its reason.
    pub rows: Rows,
    /// Every check, the most urgent first.
    pub checks: Vec<Check>,
    /// What was assumed and is not a quantity: key, value, why.
    pub assumed: Vec<(&'static str, &'static str, &'static str)>,
    /// Tables of the build file that nothing reads yet: key and line.
    pub unread: Vec<(String, usize)>,
    /// Names of the recipes that the house is made of, the wall's first.
    pub recipes: Vec<String>,
    /// What to order, line by line.
    pub orders: Vec<Order>,
    /// The plan.
    pub plan: Plan,
    /// The cross-section.
    pub section: Section,
    /// The wall unrolled, seen from outside.
    pub unrolled: Section,
    /// The wall unrolled in two rows, for a sheet too narrow for the whole.
    pub unrolled_rows: [Section; 2],
    /// The long section of the trench and its drain.
    pub trench_section: Option<Section>,
    /// The long section in rows: under the wall, along the drain; none without a trench.
    pub trench_rows: Vec<Section>,
}

/// Everything that a build file says, computed at once.
///
/// # Errors
/// Every fault of the file, with its place and what would be right.
pub fn answers(inputs: &Inputs<'_>) -> Result<Answers, Problems> {
    let (house, unread) = placed(inputs)?;
    Ok(answers_of(house, inputs.system, unread))
}

/// The house of a build file, and tables that nothing reads yet: key and line.
fn placed(inputs: &Inputs<'_>) -> Result<(House, Vec<(String, usize)>), Problems> {
    let text = build::text(inputs.build)?;
    let source = build::Source::new(text);
    let written = build::read(&source, text);
    // What is left of a file with broken lines is not what the builder meant: nothing is said of the house.
    let house = if source.is_broken() { None } else { house::place(&source, &written) };
    let Some(house) = house else { return Err(source.into_problems()) };
    Ok((house, written.unread.into_iter().map(|table| (table.value, table.line)).collect()))
}

/// The body of every part of the house, no chord farther than `chord` from its curve.
///
/// # Errors
/// Every fault of the file, with its place and what would be right.
pub fn bodies(inputs: &Inputs<'_>, chord: Length) -> Result<Solids, Problems> {
    let (house, _) = placed(inputs)?;
    let (rows, _) = quantities(&house);
    Ok(solids(&house, &rows, chord))
}

fn answers_of(house: House, system: Option<System>, unread: Vec<(String, usize)>) -> Answers {
    let (mut rows, needs) = quantities(&house);
    let orders = money(&house, &needs, &mut rows);
    let checks = structure(&house, &rows);
    let plan = house::parts(&house);
    let section = house::section(&house);
    let recipes = house.recipes_used().into_iter().map(str::to_owned).collect();
    let (unrolled, unrolled_rows) = (house::unrolled(&house), house::unrolled_rows(&house));
    let (trench_section, trench_rows) = (house::trench_section(&house), house::trench_rows(&house));
    Answers {
        system: system.unwrap_or(house.system),
        about: house.about,
        assumed: house.assumed,
        rows,
        checks,
        recipes,
        orders,
        unread,
        plan,
        section,
        unrolled,
        unrolled_rows,
        trench_section,
        trench_rows,
    }
}
