//! From the text of a build file to every answer: rows, checks, drawings' parts.

use crate::build::{self, Build, Source};
use crate::check::Check;
use crate::edit::Edit;
use crate::house::boarding_plan::BoardingPlan;
use crate::house::handles::{self, Handle, On};
use crate::house::lift_cards::{LiftCard, ServicePlace};
use crate::house::part::{Plan, Section};
use crate::house::{
    self, About, Bar, BeamPlan, Carded, DeckTables, Detail, Erosion, Furnishing, House, Hung, Mark, Pegs, RafterPlan,
    RingPlan, SitePlan, Surfaces,
};
use crate::money::{Order, money};
use crate::pictures::{self, BrickLot, Pictures, RoofCut};
use crate::problem::{Problem, Problems};
use crate::quantities::{quantities, yard};
use crate::row::Rows;
use crate::solids::{Solid, Solids, solids};
use crate::structure::{bricks_wanted, structure};
use crate::studies::{Studies, studies};
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
    /// Test bricks, lot by lot.
    pub bricks: Vec<BrickLot>,
    /// Bars of mixes that were measured wet and dry.
    pub bars: Vec<Bar>,
    /// Samples that were washed.
    pub erosion: Vec<Erosion>,
    /// What to order, line by line.
    pub orders: Vec<Order>,
    /// What goes into each lift, from the foot up.
    pub lift_cards: Vec<LiftCard>,
    /// Where every service goes in.
    pub services: Vec<ServicePlace>,
    /// The plan.
    pub plan: Plan,
    /// The site plan.
    pub site: SitePlan,
    /// The cross-section.
    pub section: Section,
    /// The roof in the cross-section; none without a roof.
    pub roof_cut: Option<RoofCut>,
    /// The measured poles of a reciprocal roof where they lie; none without a measured pile.
    pub ring_plan: Option<RingPlan>,
    /// Straight rafters where they lie; none where the roof does not fall one way.
    pub rafter_plan: Option<RafterPlan>,
    /// Drawings of single places, larger than those of the whole.
    pub details: Vec<Detail>,
    /// The wall unrolled, seen from outside.
    pub unrolled: Section,
    /// The wall unrolled in two rows, for a sheet too narrow for the whole.
    pub unrolled_rows: [Section; 2],
    /// The bond beam in plan, cut into its pieces.
    pub beam_plan: Option<BeamPlan>,
    /// Doors and windows in words.
    pub schedule: Vec<Hung>,
    /// Names of mosaics, bottle bricks and ovens.
    pub carded: Carded,
    /// What paper shows of skin and floor beside their rows.
    pub surfaces: Surfaces,
    /// The long section of the trench and its drain.
    pub trench_section: Option<Section>,
    /// The long section in rows: under the wall, along the drain; none without a trench.
    pub trench_rows: Vec<Section>,
    /// The pegs of the setting-out.
    pub pegs: Pegs,
    /// Who and what finds room within the wall.
    pub furnishing: Furnishing,
    /// The marks of the story pole, from low to high.
    pub story_pole: Vec<Mark>,
    /// The shim table of the deck, its boards and what each is cut from; none without a ring of measured poles.
    pub deck: Option<DeckTables>,
    /// The boards on straight rafters, course by course; none where nobody asks for them.
    pub boarding: Option<BoardingPlan>,
    /// What can be taken hold of in plan, unrolled wall and section.
    pub handles: Vec<Handle>,
    /// The long computations that this house asks for.
    pub studies: Studies,
}

impl Answers {
    /// What the house takes that no row counts and no order lists.
    pub fn uncounted(&self) -> impl Iterator<Item = &'static str> {
        self.assumed.iter().filter(|(_, value, _)| *value == house::OPEN).map(|(.., why)| *why)
    }
}

/// A house with its rows, ready to be asked for answers, bodies and pictures.
#[derive(Debug)]
pub struct Computed {
    house: House,
    rows: Rows,
    orders: Vec<Order>,
    unread: Vec<(String, usize)>,
    system: System,
}

/// Reads a build file, places its house and computes every row.
///
/// # Errors
/// Every fault of the file, with its place and what would be right.
pub fn compute(inputs: &Inputs<'_>) -> Result<Computed, Problems> {
    let text = build::text(inputs.build)?;
    let (source, written, house) = placed(text);
    let Some(house) = house else { return Err(source.into_problems()) };
    let (mut rows, needs) = quantities(&house);
    let orders = money(&house, &needs, &mut rows);
    yard(&house, &mut rows);
    bricks_wanted(&house, &mut rows);
    // What piles cover is known only now.
    house::site::fits(&source, &written, &house, &rows);
    if !source.is_clean() {
        return Err(source.into_problems());
    }
    let unread = written.unread.into_iter().map(|table| (table.value, table.line)).collect();
    let system = inputs.system.unwrap_or(house.system);
    Ok(Computed { house, rows, orders, unread, system })
}

/// Everything that a build file says, computed at once.
///
/// # Errors
/// Every fault of the file, with its place and what would be right.
pub fn answers(inputs: &Inputs<'_>) -> Result<Answers, Problems> {
    Ok(compute(inputs)?.into_answers())
}

/// A build file with its faults, and the house where it has none.
fn placed(text: &str) -> (Source<'_>, Build, Option<House>) {
    let source = Source::new(text);
    let written = build::read(&source, text);
    // What is left of a file with broken lines is not what the builder meant: nothing is said of the house.
    let house = if source.is_broken() { None } else { house::place(&source, &written) };
    (source, written, house)
}

impl Computed {
    /// The name of the house.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.house.about.name
    }

    /// The body of every part of the house, no chord farther than `chord` from its curve.
    #[must_use]
    pub fn bodies(&self, chord: Length) -> Solids {
        solids(&self.house, &self.rows, chord)
    }

    /// The bodies of the roof as a first cut, for looking at.
    #[must_use]
    pub fn roof_bodies(&self) -> Vec<Solid> {
        pictures::roof_bodies(&self.house, &self.rows)
    }

    /// Pictures of the whole house, which take longer than the answers.
    #[must_use]
    pub fn pictures(&self) -> Pictures {
        pictures::pictures(&self.house, &self.rows)
    }

    /// Rows, checks and the parts of drawings.
    #[must_use]
    pub fn into_answers(self) -> Answers {
        let Computed { house, rows, orders, unread, system } = self;
        let checks = structure(&house, &rows);
        let studies = studies(&house, &rows);
        let lift_cards = house::lift_cards(&house);
        let services = house::service_places(&house, &lift_cards);
        let (plan, site) = (house::parts(&house), house::site_plan(&house, &rows));
        let (section, details) = (house::section(&house), house::details(&house));
        let roof_cut = pictures::roof_cut(&house, &rows);
        let (ring_plan, rafter_plan) = (house::ring_plan(&house), house::rafter_plan(&house));
        let bricks = pictures::brick_lots(&house, &rows);
        let recipes = house.recipes_used().into_iter().map(str::to_owned).collect();
        let (unrolled, unrolled_rows) = (house::unrolled(&house), house::unrolled_rows(&house));
        let surfaces = house::surfaces(&house, &unrolled);
        let (trench_section, trench_rows) = (house::trench_section(&house), house::trench_rows(&house));
        let (pegs, story_pole) = (house::pegs(&house), house::story_pole(&house));
        let furnishing = house::furnishing(&house);
        let handles = handles::handles(&house);
        let (beam_plan, schedule, carded) = (house::beam_plan(&house), house::schedule(&house), house::carded(&house));
        let boarding = house::boarding_plan::boarding_plan(&house);
        let deck = house.roof.as_ref().and_then(house::deck_tables);
        Answers {
            system,
            about: house.about,
            assumed: house.assumed,
            rows,
            checks,
            recipes,
            bricks,
            bars: house.bars,
            erosion: house.erosion,
            orders,
            unread,
            lift_cards,
            services,
            plan,
            site,
            section,
            roof_cut,
            ring_plan,
            rafter_plan,
            details,
            unrolled,
            unrolled_rows,
            beam_plan,
            schedule,
            carded,
            surfaces,
            trench_section,
            trench_rows,
            pegs,
            furnishing,
            story_pole,
            deck,
            boarding,
            handles,
            studies,
        }
    }

    /// What a drag writes into the text that the house was read from: a handle of a drawing taken to a place in it, in metres.
    /// Lengths are rounded to 10 mm or 1/2 in and keep the unit in which they are written; nothing is written for what
    /// stays as it was. Whether the house still stands then is known when the edited text is read.
    ///
    /// # Errors
    /// When the drawing has no such handle, or the place is none.
    pub fn dragged(&self, text: &str, id: &str, on: On, to: kurbo::Point) -> Result<Vec<Edit>, Problem> {
        handles::dragged(&self.house, text, (id, on), to)
    }

    /// The text after such a drag.
    ///
    /// # Errors
    /// When the drawing has no such handle, or the place is none.
    pub fn dragged_text(&self, text: &str, id: &str, on: On, to: kurbo::Point) -> Result<String, Problem> {
        handles::dragged_text(&self.house, text, (id, on), to)
    }

    /// The same by arrow keys: steps to the right and up, each 10 mm or 1/2 in.
    ///
    /// # Errors
    /// When the drawing has no such handle.
    pub fn nudged(&self, text: &str, id: &str, on: On, steps: [i32; 2]) -> Result<Vec<Edit>, Problem> {
        handles::nudged(&self.house, text, (id, on), steps)
    }
}
