//! The tables of what is built into and onto the wall: `[built-in.NAME]` and anchors.

use super::oven::{self, Oven};
use super::reader::Table;
use super::skin::Face;
use super::source::Written;
use crate::units::{Area, Density, Force, Kind, Length, Ratio};

/// What is built into or onto the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BuiltInKind {
    /// A hollow in one face.
    Niche,
    /// A board let into one face.
    Shelf,
    /// A seat of cob along one face.
    Bench,
    /// A leaning pier of cob against one face.
    Buttress,
    /// Bricks of glass through the wall.
    Bottles,
    /// A hole for air through the wall.
    Vent,
    /// Cob modelled on one face.
    Relief,
    /// Tiles on one face.
    Mosaic,
    /// An oven on its own footing.
    Oven,
}

impl BuiltInKind {
    /// Each with the word of the build file.
    pub const WORDS: [(&'static str, BuiltInKind); 9] = [
        ("niche", BuiltInKind::Niche),
        ("shelf", BuiltInKind::Shelf),
        ("bench", BuiltInKind::Bench),
        ("buttress", BuiltInKind::Buttress),
        ("bottles", BuiltInKind::Bottles),
        ("vent", BuiltInKind::Vent),
        ("relief", BuiltInKind::Relief),
        ("mosaic", BuiltInKind::Mosaic),
        ("oven", BuiltInKind::Oven),
    ];

    /// The word of the build file.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, kind)| *kind == self).map_or("", |(word, _)| word)
    }
}

/// The form of a niche seen from its face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NicheForm {
    /// Level bottom and top, upright sides.
    Rectangle,
    /// A circle.
    Round,
    /// A rectangle under a round arch.
    Arched,
}

/// A place on the wall.
#[derive(Clone, Debug, Default)]
pub struct Spot {
    /// The run it is in.
    pub run: Option<Written<String>>,
    /// Distance along that run.
    pub along: Option<Written<Length>>,
    /// Level of its middle, or of its top.
    pub level: Option<Written<Length>>,
}

/// `[built-in.NAME]`
#[derive(Clone, Debug)]
pub struct BuiltIn {
    /// Its name.
    pub name: Written<String>,
    /// What it is.
    pub kind: Option<Written<BuiltInKind>>,
    /// Its other keys; each kind reads its own.
    pub keys: Keys,
}

/// The keys of a built-in thing.
#[derive(Clone, Debug, Default)]
pub struct Keys {
    /// Where it is.
    pub spot: Spot,
    /// The face it is in or on.
    pub side: Option<Written<Face>>,
    /// Form of a niche.
    pub form: Option<Written<NicheForm>>,
    /// Level of a niche's bottom.
    pub sill: Option<Written<Length>>,
    /// Width; of a round niche, the diameter.
    pub width: Option<Written<Length>>,
    /// Height.
    pub height: Option<Written<Length>>,
    /// Rise of a niche's arch.
    pub rise: Option<Written<Length>>,
    /// Depth square to the face.
    pub depth: Option<Written<Length>>,
    /// Depth of a buttress at its top.
    pub depth_at_top: Option<Written<Length>>,
    /// Length along the wall.
    pub length: Option<Written<Length>>,
    /// Thickness of a board, or mean thickness of a relief.
    pub thickness: Option<Written<Length>>,
    /// How deep a board's back edge is let into the wall.
    pub bedded: Option<Written<Length>>,
    /// Where a bench begins on its run.
    pub from: Option<Written<Length>>,
    /// Where it ends, on its own run or on `to-run`.
    pub to: Option<Written<Length>>,
    /// The run it ends on.
    pub to_run: Option<Written<String>>,
    /// Height of its seat.
    pub seat: Option<Written<Length>>,
    /// Level of a buttress's top.
    pub top: Option<Written<Length>>,
    /// Diameter of a bottle brick or a vent.
    pub diameter: Option<Written<Length>>,
    /// How many bottle bricks stand in the row.
    pub count: Option<Written<u64>>,
    /// From the middle of one to the next.
    pub spacing: Option<Written<Length>>,
    /// Bottle bricks one by one.
    pub at: Vec<Spot>,
    /// Area of a relief.
    pub area: Option<Written<Area>>,
    /// What it is made of: a recipe, or a thing that is bought.
    pub of: Option<Written<String>>,
    /// Bottles that may break, as a share of those that are needed.
    pub spare: Option<Written<Ratio>>,
    /// What a mosaic is laid with.
    pub mosaic: Mosaic,
    /// The keys of an oven.
    pub oven: Oven,
}

/// What a mosaic is laid with.
#[derive(Clone, Debug, Default)]
pub struct Mosaic {
    /// Thickness of its tiles.
    pub tile: Option<Written<Length>>,
    /// Thickness of the bed under them.
    pub bedding: Option<Written<Length>>,
    /// Share of the area that is joints.
    pub joints: Option<Written<Ratio>>,
    /// A recipe or a thing that is bought, under the tiles.
    pub bedding_of: Option<Written<String>>,
    /// The same between them.
    pub grout_of: Option<Written<String>>,
    /// Density of tiles, bed and grout together.
    pub density: Option<Written<Density>>,
}

/// `[wall.anchors.NAME]`
#[derive(Clone, Debug)]
pub struct Anchors {
    /// Its name.
    pub name: Written<String>,
    /// Where the first deadman lies.
    pub spot: Spot,
    /// The lift at whose foot they lie.
    pub lift: Option<Written<String>>,
    /// Length of the timber, along the wall.
    pub length: Option<Written<Length>>,
    /// Width of the timber, across the wall.
    pub width: Option<Written<Length>>,
    /// Height of the timber.
    pub height: Option<Written<Length>>,
    /// How many.
    pub count: Option<Written<u64>>,
    /// From the middle of one to the next.
    pub spacing: Option<Written<Length>>,
    /// What is bought.
    pub of: Option<Written<String>>,
    /// The pull that each of them holds.
    pub holds: Option<Written<Force>>,
    /// How that is known.
    pub holds_by: Option<Written<String>>,
}

/// Every key of every kind, for a table whose kind cannot be read: none is blamed.
const ALL: [&str; 43] = [
    "run",
    "along",
    "level",
    "side",
    "form",
    "sill",
    "width",
    "height",
    "rise",
    "depth",
    "depth-at-top",
    "length",
    "thickness",
    "bedded",
    "from",
    "to",
    "to-run",
    "seat",
    "top",
    "diameter",
    "count",
    "spacing",
    "at",
    "area",
    "of",
    "spare",
    "tile",
    "bedding",
    "joints",
    "bedding-of",
    "grout-of",
    "density",
    "faces",
    "dome-height",
    "door-width",
    "door-height",
    "thermal",
    "insulation",
    "insulation-of",
    "insulation-density",
    "base",
    "floor",
    "footing",
];

pub(super) fn built_in(name: Written<String>, mut table: Table<'_, '_>) -> BuiltIn {
    let kind = table.needed_choice("kind", &BuiltInKind::WORDS);
    let mut keys = Keys::default();
    match kind.as_ref().map(|kind| kind.value) {
        Some(BuiltInKind::Niche) => niche(&mut table, &mut keys),
        Some(BuiltInKind::Shelf) => shelf(&mut table, &mut keys),
        Some(BuiltInKind::Bench) => bench(&mut table, &mut keys),
        Some(BuiltInKind::Buttress) => buttress(&mut table, &mut keys),
        Some(BuiltInKind::Bottles) => bottles(&mut table, &mut keys),
        Some(BuiltInKind::Vent) => vent(&mut table, &mut keys),
        Some(BuiltInKind::Relief) => relief(&mut table, &mut keys),
        Some(BuiltInKind::Mosaic) => mosaic(&mut table, &mut keys),
        Some(BuiltInKind::Oven) => keys.oven = oven::oven(&mut table),
        None => ALL.into_iter().for_each(|key| {
            table.unread(key);
        }),
    }
    table.finish();
    BuiltIn { name, kind, keys }
}

fn on_the_wall(table: &mut Table<'_, '_>) -> Spot {
    Spot { run: table.needed_text("run", "south"), along: table.needed("along", Kind::Length), level: None }
}

pub(super) fn spot(table: &mut Table<'_, '_>) -> Spot {
    let on_the_wall = on_the_wall(table);
    Spot { level: table.needed("level", Kind::Length), ..on_the_wall }
}

pub(super) fn side(table: &mut Table<'_, '_>) -> Option<Written<Face>> {
    table.choice("side", &[("inside", Face::Inside), ("outside", Face::Outside)])
}

fn niche(table: &mut Table<'_, '_>, keys: &mut Keys) {
    keys.spot = on_the_wall(table);
    keys.side = side(table);
    let forms = [("rectangle", NicheForm::Rectangle), ("round", NicheForm::Round), ("arched", NicheForm::Arched)];
    keys.form = table.needed_choice("form", &forms);
    keys.sill = table.needed("sill", Kind::Length);
    keys.width = table.needed("width", Kind::Length);
    match keys.form.as_ref().map(|form| form.value) {
        Some(NicheForm::Round) => {}
        Some(NicheForm::Rectangle) => keys.height = table.needed("height", Kind::Length),
        Some(NicheForm::Arched) => {
            keys.height = table.needed("height", Kind::Length);
            keys.rise = table.quantity("rise", Kind::Length);
        }
        None => ["height", "rise"].into_iter().for_each(|key| {
            table.unread(key);
        }),
    }
    keys.depth = table.needed("depth", Kind::Length);
}

fn shelf(table: &mut Table<'_, '_>, keys: &mut Keys) {
    keys.spot = spot(table);
    keys.side = side(table);
    keys.length = table.needed("length", Kind::Length);
    keys.depth = table.needed("depth", Kind::Length);
    keys.thickness = table.needed_like("thickness", Kind::Length, "30 mm");
    keys.bedded = table.quantity("bedded", Kind::Length);
    keys.of = table.text("of");
}

fn bench(table: &mut Table<'_, '_>, keys: &mut Keys) {
    keys.spot.run = table.needed_text("run", "south");
    keys.from = table.needed("from", Kind::Length);
    keys.to = table.needed("to", Kind::Length);
    keys.to_run = table.text("to-run");
    keys.side = side(table);
    keys.depth = table.needed("depth", Kind::Length);
    keys.seat = table.quantity("seat", Kind::Length);
    keys.of = table.text("of");
}

fn buttress(table: &mut Table<'_, '_>, keys: &mut Keys) {
    keys.spot = on_the_wall(table);
    keys.side = side(table);
    keys.length = table.needed("length", Kind::Length);
    keys.depth = table.needed("depth", Kind::Length);
    keys.depth_at_top = table.quantity("depth-at-top", Kind::Length);
    keys.top = table.needed("top", Kind::Length);
    keys.of = table.text("of");
}

fn bottles(table: &mut Table<'_, '_>, keys: &mut Keys) {
    keys.at = table.numbered_tables("at").into_iter().map(one_bottle).collect();
    if !table.has("at") {
        keys.spot = spot(table);
        keys.count = table.needed_count("count", 3);
        keys.spacing = table.needed_like("spacing", Kind::Length, "200 mm");
    }
    keys.diameter = table.quantity("diameter", Kind::Length);
    keys.spare = table.quantity("spare", Kind::Ratio);
    keys.of = table.text("of");
}

fn one_bottle(mut table: Table<'_, '_>) -> Spot {
    let read = spot(&mut table);
    table.finish();
    read
}

fn vent(table: &mut Table<'_, '_>, keys: &mut Keys) {
    keys.spot = spot(table);
    keys.diameter = table.quantity("diameter", Kind::Length);
    if !table.has("diameter") {
        keys.width = table.needed("width", Kind::Length);
        keys.height = table.needed("height", Kind::Length);
    }
}

fn relief(table: &mut Table<'_, '_>, keys: &mut Keys) {
    keys.side = side(table);
    keys.area = table.needed("area", Kind::Area);
    keys.thickness = table.needed_like("thickness", Kind::Length, "40 mm");
    keys.of = table.text("of");
}

/// One of `[wall.anchors.NAME]`
pub(super) fn anchors(name: Written<String>, mut table: Table<'_, '_>) -> Anchors {
    let count = table.count("count");
    let is_row = count.as_ref().is_some_and(|count| count.value > 1);
    let read = Anchors {
        name,
        spot: on_the_wall(&mut table),
        lift: table.needed_text("lift", "last"),
        length: table.needed("length", Kind::Length),
        width: table.needed("width", Kind::Length),
        height: table.needed("height", Kind::Length),
        count,
        spacing: if is_row { table.needed("spacing", Kind::Length) } else { None },
        of: table.text("of"),
        holds: table.quantity("holds", Kind::Force),
        holds_by: table.text("holds-by"),
    };
    table.finish();
    read
}

fn mosaic(table: &mut Table<'_, '_>, keys: &mut Keys) {
    keys.side = side(table);
    keys.area = table.quantity("area", Kind::Area);
    if !table.has("area") {
        keys.spot = spot(table);
        keys.width = table.needed("width", Kind::Length);
        keys.height = table.needed("height", Kind::Length);
    }
    keys.of = table.text("of");
    keys.mosaic = Mosaic {
        tile: table.quantity("tile", Kind::Length),
        bedding: table.quantity("bedding", Kind::Length),
        joints: table.quantity("joints", Kind::Ratio),
        bedding_of: table.text("bedding-of"),
        grout_of: table.text("grout-of"),
        density: table.quantity("density", Kind::Density),
    };
}
