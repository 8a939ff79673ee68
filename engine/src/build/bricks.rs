//! `[tests.bricks.NAME]`: test bricks of one mix, each as it was crushed or broken.

use jiff::civil::Date;

use super::reader::Table;
use super::source::Written;
use crate::units::{Days, Force, Kind, Length, Mass, Ratio};

/// `[tests.bricks.NAME]`
#[derive(Clone, Debug)]
pub struct Bricks {
    /// Its name.
    pub name: Written<String>,
    /// The recipe that they are of.
    pub of: Option<Written<String>>,
    /// How they were tested.
    pub test: Option<Written<BrickTest>>,
    /// The day of the test.
    pub day: Option<Written<Date>>,
    /// How old they were.
    pub age: Option<Written<Days>>,
    /// Whether they are offered as proof of the wall's cob.
    pub proof: Option<Written<bool>>,
    /// The size of those that write none of their own.
    pub size: BrickSize,
    /// From roller to roller, of those that are broken.
    pub span: Option<Written<Length>>,
    /// `[tests.bricks.NAME.each]`
    pub each: Vec<Brick>,
}

/// How bricks are tested.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BrickTest {
    /// Pressed from above until they give way.
    Crushed,
    /// Laid over two rollers and loaded at the middle.
    Broken,
}

/// The size of a brick, as it stands or lies when it is tested.
#[derive(Clone, Debug, Default)]
pub struct BrickSize {
    /// The longer side of its face.
    pub length: Option<Written<Length>>,
    /// The other side.
    pub width: Option<Written<Length>>,
    /// Its height.
    pub height: Option<Written<Length>>,
}

impl BrickSize {
    /// Its sides, each with its key.
    #[must_use]
    pub fn sides(&self) -> [(&'static str, &Option<Written<Length>>); 3] {
        [("length", &self.length), ("width", &self.width), ("height", &self.height)]
    }
}

/// One brick.
#[derive(Clone, Debug)]
pub struct Brick {
    /// Its name.
    pub name: Written<String>,
    /// What it bore.
    pub load: Option<Written<Force>>,
    /// Its size, where it is its own.
    pub size: BrickSize,
    /// What a laboratory multiplies its strength by, so that it is that of the code's sample.
    pub shape: Option<Written<f64>>,
    /// Its mass when it was tested, and dried.
    pub mass: Option<[Option<Written<Mass>>; 2]>,
    /// Its moisture of dry mass, where it was not weighed.
    pub moisture: Option<Written<Ratio>>,
    /// Whether it was tested damp.
    pub damp: Option<Written<bool>>,
}

/// The bricks under `[tests]`, and what else stands there and nothing reads yet.
pub(super) fn tests(mut table: Table<'_, '_>) -> (Vec<Bricks>, Vec<Written<String>>) {
    let named = table.table("bricks").map(|mut named| named.named_tables()).unwrap_or_default();
    (named.into_iter().map(|(name, table)| bricks(name, table)).collect(), table.rest())
}

fn bricks(name: Written<String>, mut table: Table<'_, '_>) -> Bricks {
    let of = table.needed_text("of", "cob");
    let test = table.needed_choice("test", &[("crushed", BrickTest::Crushed), ("broken", BrickTest::Broken)]);
    let is_broken = test.as_ref().is_some_and(|test| test.value == BrickTest::Broken);
    let span = if is_broken { table.needed_like("span", Kind::Length, "250 mm") } else { None };
    let read = Bricks {
        name,
        of,
        test,
        day: table.date("day"),
        age: table.quantity("age", Kind::Days),
        proof: table.yes_or_no("proof"),
        size: size(&mut table),
        span,
        each: table
            .table("each")
            .map(|mut each| {
                each.named_tables().into_iter().map(|(name, table)| brick(name, table, is_broken)).collect()
            })
            .unwrap_or_default(),
    };
    table.finish();
    read
}

fn size(table: &mut Table<'_, '_>) -> BrickSize {
    BrickSize {
        length: table.quantity("length", Kind::Length),
        width: table.quantity("width", Kind::Length),
        height: table.quantity("height", Kind::Length),
    }
}

fn brick(name: Written<String>, mut table: Table<'_, '_>, is_broken: bool) -> Brick {
    let read = Brick {
        name,
        load: table.needed_like("load", Kind::Force, "7.5 kN"),
        size: size(&mut table),
        shape: if is_broken { None } else { table.quantity("shape", Kind::Number) },
        mass: table.table("mass").map(|mut mass| {
            let read = ["wet", "dry"].map(|key| mass.needed_like(key, Kind::Mass, "3.9 kg"));
            mass.finish();
            read
        }),
        moisture: table.quantity("moisture", Kind::Ratio),
        damp: table.yes_or_no("damp"),
    };
    table.finish();
    read
}
