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
    /// `lever`: the beam under which they were crushed at home.
    pub lever: Option<Lever>,
    /// `[tests.bricks.NAME.each]`
    pub each: Vec<Brick>,
}

/// A beam on a pin, the brick under it near the pin, water hung far out.
#[derive(Clone, Debug)]
pub struct Lever {
    /// From the pin to what hangs.
    pub arm: Option<Written<Length>>,
    /// From the pin to the brick.
    pub brick: Option<Written<Length>>,
    /// The beam's mass.
    pub beam: Option<Written<Mass>>,
    /// From the pin to the beam's middle.
    pub middle: Option<Written<Length>>,
    /// The pin's diameter.
    pub pin: Option<Written<Length>>,
    /// Friction of the pin.
    pub friction: Option<Written<f64>>,
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
    /// What hung on the lever when it gave way.
    pub hung: Option<Written<Mass>>,
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
    let named = table.named_tables_under("bricks");
    (named.into_iter().map(|(name, table)| bricks(name, table)).collect(), table.rest())
}

fn bricks(name: Written<String>, mut table: Table<'_, '_>) -> Bricks {
    let of = table.needed_text("of", "cob");
    let test = table.needed_choice("test", &[("crushed", BrickTest::Crushed), ("broken", BrickTest::Broken)]);
    let is_broken = test.as_ref().is_some_and(|test| test.value == BrickTest::Broken);
    let span = if is_broken { table.needed_like("span", Kind::Length, "250 mm") } else { None };
    let lever = if is_broken { None } else { table.table("lever").map(lever) };
    let way = if is_broken {
        Way::Broken
    } else if lever.is_some() {
        Way::UnderALever
    } else {
        Way::Crushed
    };
    let read = Bricks {
        name,
        of,
        test,
        day: table.date("day"),
        age: table.quantity("age", Kind::Days),
        proof: table.yes_or_no("proof"),
        size: size(&mut table),
        span,
        lever,
        each: table.named_tables_under("each").into_iter().map(|(name, table)| brick(name, table, way)).collect(),
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

/// What bore on a brick.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    Crushed,
    UnderALever,
    Broken,
}

fn lever(mut table: Table<'_, '_>) -> Lever {
    let read = Lever {
        arm: table.needed_like("arm", Kind::Length, "2.4 m"),
        brick: table.needed_like("brick", Kind::Length, "300 mm"),
        beam: table.needed_like("beam", Kind::Mass, "9 kg"),
        middle: table.needed_like("middle", Kind::Length, "1.3 m"),
        pin: table.needed_like("pin", Kind::Length, "20 mm"),
        friction: table.quantity("friction", Kind::Number),
    };
    table.finish();
    read
}

fn brick(name: Written<String>, mut table: Table<'_, '_>, way: Way) -> Brick {
    let is_hung = way == Way::UnderALever;
    let read = Brick {
        name,
        load: if is_hung { None } else { table.needed_like("load", Kind::Force, "7.5 kN") },
        hung: if is_hung { table.needed_like("hung", Kind::Mass, "45 kg") } else { None },
        size: size(&mut table),
        shape: if way == Way::Broken { None } else { table.quantity("shape", Kind::Number) },
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
