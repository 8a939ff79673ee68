//! What is built into and onto the wall, with nothing missing: every niche, shelf, bench, buttress, bottle brick, vent, relief.

mod bench;
mod buttress;
mod cover;
mod niche;
mod patch;
mod site;
mod through;
mod timber;

pub use bench::Bench;
pub use buttress::Buttress;
pub use niche::{Niche, Shelf};
pub use through::{Bottles, Row, Vent, VentSize};
pub use timber::{Anchors, BondBeam};

use super::{Earth, Lift, Opening, Wall};
use crate::build::{self, Build, BuiltInKind, Source};
use crate::curve::{Cut, Side, Station};
use crate::known::Known;
use crate::units::{Area, Length, System};
use patch::Patch;
use site::Site;

/// What was assumed and is not a quantity.
type Assumed = Vec<(&'static str, &'static str, &'static str)>;

/// A thing that is built into or onto the wall.
#[derive(Clone, Debug)]
pub struct BuiltIn {
    /// Its name.
    pub name: String,
    /// What it is, and where.
    pub what: What,
}

/// What is built into or onto the wall.
#[derive(Clone, Debug)]
pub enum What {
    /// A hollow in one face.
    Niche(Niche),
    /// A board let into one face.
    Shelf(Shelf),
    /// A seat of cob along one face.
    Bench(Bench),
    /// A leaning pier of cob against one face.
    Buttress(Buttress),
    /// Bricks of glass through the wall.
    Bottles(Bottles),
    /// A hole for air through the wall.
    Vent(Vent),
    /// Cob modelled on one face.
    Relief(Relief),
}

/// A place on the wall.
#[derive(Clone, Debug)]
pub struct Spot {
    /// The run it is in, by place in the list of points.
    pub run: usize,
    /// Distance along that run.
    pub along: Known<Length>,
    /// The place on the line.
    pub station: Station,
}

/// Cob modelled on one face.
#[derive(Clone, Debug)]
pub struct Relief {
    /// The face.
    pub side: Side,
    /// Its area on the face.
    pub area: Known<Area>,
    /// Its mean thickness.
    pub thickness: Known<Length>,
    /// Its recipe.
    pub of: Option<String>,
}

impl BuiltIn {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("built-in.{}.{noun}", self.name)
    }

    /// Every cut that it makes into the cob.
    #[must_use]
    pub fn cuts(&self) -> &[Cut] {
        match &self.what {
            What::Niche(niche) => std::slice::from_ref(&niche.cut),
            What::Shelf(shelf) => std::slice::from_ref(&shelf.cut),
            What::Bottles(bottles) => &bottles.cuts,
            What::Vent(vent) => std::slice::from_ref(&vent.cut),
            What::Bench(_) | What::Buttress(_) | What::Relief(_) => &[],
        }
    }

    /// The recipe of its cob, when it is made of cob.
    #[must_use]
    pub fn recipe(&self) -> Option<&str> {
        match &self.what {
            What::Bench(bench) => bench.of.as_deref(),
            What::Buttress(buttress) => buttress.of.as_deref(),
            What::Relief(relief) => relief.of.as_deref(),
            What::Niche(_) | What::Shelf(_) | What::Bottles(_) | What::Vent(_) => None,
        }
    }

    /// What is bought for it.
    #[must_use]
    pub fn good(&self) -> Option<&str> {
        match &self.what {
            What::Shelf(shelf) => Some(&shelf.of),
            What::Bottles(bottles) => Some(&bottles.of),
            _ => None,
        }
    }
}

impl Wall {
    /// The lift of a name, and the one below it.
    #[must_use]
    pub fn lift(&self, name: &str) -> Option<(&Lift, Option<&Lift>)> {
        let at = self.lifts.iter().position(|lift| lift.name == name)?;
        Some((&self.lifts[at], at.checked_sub(1).map(|below| &self.lifts[below])))
    }
}

/// All that is built into or onto the wall.
#[derive(Clone, Debug, Default)]
pub(super) struct Placed {
    pub(super) built_in: Vec<BuiltIn>,
    pub(super) bond_beam: Option<BondBeam>,
    pub(super) anchors: Vec<Anchors>,
}

/// The levels that things stand on: the ground outside, the finished floor.
pub(super) type Levels<'a> = (&'a Known<Length>, &'a Known<Length>);

/// Places what is built into and onto the wall; faults go to the source.
pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    (wall, openings, levels): (&Wall, &[Opening], Levels<'_>),
    earth: Option<&Earth>,
    assumed: &mut Assumed,
    system: System,
) -> Placed {
    let site = Site { source, wall, shape: wall.shape(), stem: wall.stem_shape(), openings, levels, earth, system };
    say_what_is_assumed(build, wall, assumed);
    let mut patches: Vec<Patch> = openings.iter().flat_map(Patch::of_opening).collect();
    let mut placed: Vec<BuiltIn> = Vec::new();
    for written in &build.built_in {
        own_name(&site, build, written);
        let what = written.kind.as_ref().and_then(|kind| match kind.value {
            BuiltInKind::Niche => niche::niche(&site, written).map(What::Niche),
            BuiltInKind::Shelf => niche::shelf(&site, written).map(What::Shelf),
            BuiltInKind::Bench => bench::place(&site, written, &placed).map(What::Bench),
            BuiltInKind::Buttress => buttress::place(&site, written).map(What::Buttress),
            BuiltInKind::Bottles => through::bottles(&site, written).map(What::Bottles),
            BuiltInKind::Vent => through::vent(&site, written).map(What::Vent),
            BuiltInKind::Relief => relief(&site, written).map(What::Relief),
        });
        let Some(what) = what else { continue };
        let thing = BuiltIn { name: written.name.value.clone(), what };
        patch::keep_apart(&site, written, Patch::of(&thing), &mut patches);
        placed.push(thing);
    }
    let bond_beam = build.wall.bond_beam.as_ref().and_then(|written| timber::bond_beam(&site, written));
    let written = build.wall.anchors.iter();
    let anchors = written.filter_map(|written| timber::anchors(&site, written, &mut patches)).collect();
    Placed { built_in: placed, bond_beam, anchors }
}

fn say_what_is_assumed(build: &Build, wall: &Wall, assumed: &mut Assumed) {
    let any = |kinds: &[BuiltInKind], is_bare: fn(&build::Keys) -> bool| {
        let is = |written: &&build::BuiltIn| written.kind.as_ref().is_some_and(|kind| kinds.contains(&kind.value));
        build.built_in.iter().filter(is).any(|written| is_bare(&written.keys))
    };
    let inside = [BuiltInKind::Niche, BuiltInKind::Shelf, BuiltInKind::Bench, BuiltInKind::Relief];
    if any(&inside, |keys| keys.side.is_none()) {
        assumed.push(("built-in.*.side", "inside", "most niches, shelves, benches and reliefs are the room's"));
    }
    if any(&[BuiltInKind::Buttress], |keys| keys.side.is_none()) {
        assumed.push(("built-in.*.side of a buttress", "outside", "a buttress leans against the wall from outside"));
    }
    let of_cob = [BuiltInKind::Bench, BuiltInKind::Buttress, BuiltInKind::Relief];
    if wall.cob.is_some() && any(&of_cob, |keys| keys.of.is_none()) {
        assumed.push(("built-in.*.of", "the wall's recipe", "what is built onto the wall is made of its cob"));
    }
}

/// Rows of a lift name what is taken out of it: no two things may share a name.
fn own_name(site: &Site<'_>, build: &Build, written: &build::BuiltIn) {
    let name = &written.name;
    if let Some(taken) = build.openings.iter().find(|opening| opening.name.value == name.value) {
        let message = format!("the name \"{}\" is taken by an opening (line {})", name.value, taken.name.line);
        site.refuse::<String>(None, name, message, "give each its own name");
    }
}

fn relief(site: &Site<'_>, written: &build::BuiltIn) -> Option<Relief> {
    let keys = &written.keys;
    let area = site.within(keys.area.as_ref(), Area::m2(0.001)..Area::m2(100.0), "the area of a relief");
    let what = "the mean thickness of a relief";
    let thickness = site.within(keys.thickness.as_ref(), Length::mm(1.0)..Length::mm(500.0), what);
    let of = site.recipe(keys.of.as_ref())?;
    Some(Relief { side: site::side(keys.side.as_ref(), Side::Inner), area: area?, thickness: thickness?, of })
}
