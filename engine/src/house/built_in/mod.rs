//! What is built into and onto the wall, with nothing missing: niches, shelves, benches and all the rest.

mod apart;
mod beam;
mod beam_parts;
mod bench;
mod buttress;
mod cover;
pub(super) mod drawn;
mod mosaic;
mod niche;
mod oven;
mod patch;
mod service;
mod site;
mod through;
mod timber;

pub(super) use apart::ovens_are_clear;
pub use beam::BondBeam;
pub use beam_parts::{BeamPart, Lie, Stretch};
pub use bench::Bench;
pub use buttress::Buttress;
pub use mosaic::{LaidWith, Mosaic, Rectangle, Surface};
pub use niche::{Niche, Shelf};
pub use oven::Oven;
pub use service::{BOX, Passing, Service, Upright, Way};
pub use through::{Bottles, Row, Vent, VentSize};
pub use timber::Anchors;

use super::{Earth, Lift, Opening, Wall};
use crate::build::{self, Build, BuiltInKind, Source, Written};
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
    /// A pipe, a conduit, a flue or a vent.
    Service(Service),
    /// Tiles on one face.
    Mosaic(Mosaic),
    /// An oven on its own footing.
    Oven(Box<Oven>),
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
        format!("{}.{noun}", self.stem())
    }

    /// Its table in the build file.
    #[must_use]
    pub fn stem(&self) -> String {
        let table = if matches!(self.what, What::Service(_)) { "services" } else { "built-in" };
        format!("{table}.{}", self.name)
    }

    /// The run that it is measured along, by place in the list of points, where it has a place; of several the first.
    #[must_use]
    pub fn run(&self) -> Option<usize> {
        match &self.what {
            What::Niche(niche) => Some(niche.spot.run),
            What::Shelf(shelf) => Some(shelf.spot.run),
            What::Bench(bench) => Some(bench.run),
            What::Buttress(buttress) => Some(buttress.spot.run),
            What::Bottles(bottles) => bottles.places.first().map(|(spot, _)| spot.run),
            What::Vent(vent) => Some(vent.spot.run),
            What::Mosaic(Mosaic { surface: Surface::Rectangle(rectangle), .. }) => Some(rectangle.spot.run),
            What::Service(service) => service.run(),
            What::Relief(_) | What::Mosaic(_) | What::Oven(_) => None,
        }
    }

    /// Every cut that it makes into the cob.
    #[must_use]
    pub fn cuts(&self) -> &[Cut] {
        match &self.what {
            What::Niche(niche) => std::slice::from_ref(&niche.cut),
            What::Shelf(shelf) => std::slice::from_ref(&shelf.cut),
            What::Bottles(bottles) => &bottles.cuts,
            What::Vent(vent) => std::slice::from_ref(&vent.cut),
            What::Service(service) => service.cob_cut().map_or(&[], std::slice::from_ref),
            What::Bench(_) | What::Buttress(_) | What::Relief(_) | What::Mosaic(_) | What::Oven(_) => &[],
        }
    }

    /// The recipes that it is made of, each with the noun of the row that says how much.
    #[must_use]
    pub fn recipes(&self) -> Vec<(&str, &'static str)> {
        fn cob(of: &Option<String>) -> Vec<(&str, &'static str)> {
            of.as_deref().map(|of| (of, "volume")).into_iter().collect()
        }
        match &self.what {
            What::Bench(bench) => cob(&bench.of),
            What::Buttress(buttress) => cob(&buttress.of),
            What::Relief(relief) => cob(&relief.of),
            What::Oven(oven) => {
                let layers = oven.of.iter().zip(["thermal-volume", "insulation-volume"]);
                layers.filter_map(|(of, noun)| Some((of.as_deref()?, noun))).collect()
            }
            What::Mosaic(mosaic) => {
                let laid = mosaic.laid_with.iter().zip(["bedding-volume", "grout-volume"]);
                laid.filter_map(|(of, noun)| Some((of.recipe()?, noun))).collect()
            }
            What::Niche(_) | What::Shelf(_) | What::Bottles(_) | What::Vent(_) | What::Service(_) => Vec::new(),
        }
    }

    /// What is bought for it.
    #[must_use]
    pub fn goods(&self) -> Vec<&str> {
        match &self.what {
            What::Shelf(shelf) => vec![&shelf.of],
            What::Bottles(bottles) => vec![&bottles.of],
            What::Service(service) => service.goods(),
            What::Mosaic(mosaic) => {
                let laid = mosaic.laid_with.iter().filter_map(LaidWith::good);
                std::iter::once(mosaic.of.as_str()).chain(laid).collect()
            }
            What::Oven(oven) => vec![&oven.brick_of, &oven.footing_of],
            _ => Vec::new(),
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
        own_name(&site, build, &written.name);
        let what = written.kind.as_ref().and_then(|kind| match kind.value {
            BuiltInKind::Niche => niche::niche(&site, written).map(What::Niche),
            BuiltInKind::Shelf => niche::shelf(&site, written).map(What::Shelf),
            BuiltInKind::Bench => bench::place(&site, written, &placed).map(What::Bench),
            BuiltInKind::Buttress => buttress::place(&site, written).map(What::Buttress),
            BuiltInKind::Bottles => through::bottles(&site, written).map(What::Bottles),
            BuiltInKind::Vent => through::vent(&site, written).map(What::Vent),
            BuiltInKind::Relief => relief(&site, written).map(What::Relief),
            BuiltInKind::Mosaic => mosaic::place(&site, written).map(What::Mosaic),
            BuiltInKind::Oven => oven::place(&site, written).map(|oven| What::Oven(Box::new(oven))),
        });
        let Some(what) = what else { continue };
        let thing = BuiltIn { name: written.name.value.clone(), what };
        let at = written.keys.spot.along.as_ref().or(written.keys.from.as_ref());
        patch::keep_apart(&site, at, &written.name, Patch::of(&thing), &mut patches);
        placed.push(thing);
    }
    let bond_beam = build.wall.bond_beam.as_ref().and_then(|written| beam::place(&site, written));
    let written = build.wall.anchors.iter();
    let anchors = written.filter_map(|written| timber::anchors(&site, written, &mut patches)).collect();
    for written in &build.services {
        own_name(&site, build, &written.name);
        if let Some(other) = build.built_in.iter().find(|other| other.name.value == written.name.value) {
            taken(&site, &written.name, "by what is built in", other.name.line);
        }
        let Some(service) = service::place(&site, build, written) else { continue };
        let thing = BuiltIn { name: written.name.value.clone(), what: What::Service(service) };
        patch::keep_apart(&site, written.spot.along.as_ref(), &written.name, Patch::of(&thing), &mut patches);
        placed.push(thing);
    }
    Placed { built_in: placed, bond_beam, anchors }
}

fn say_what_is_assumed(build: &Build, wall: &Wall, assumed: &mut Assumed) {
    let any = |kinds: &[BuiltInKind], is_bare: fn(&build::Keys) -> bool| {
        let is = |written: &&build::BuiltIn| written.kind.as_ref().is_some_and(|kind| kinds.contains(&kind.value));
        build.built_in.iter().filter(is).any(|written| is_bare(&written.keys))
    };
    use BuiltInKind::{Bench, Buttress, Mosaic, Niche, Oven, Relief, Shelf};
    let inside = [Niche, Shelf, Bench, Relief, Mosaic];
    if any(&inside, |keys| keys.side.is_none()) {
        assumed.push((
            "built-in.*.side",
            "inside",
            "most niches, shelves, benches, reliefs and mosaics are the room's",
        ));
    }
    if any(&[Buttress], |keys| keys.side.is_none()) {
        assumed.push(("built-in.*.side of a buttress", "outside", "a buttress leans against the wall from outside"));
    }
    let of_cob = wall.cob.is_some();
    if of_cob && any(&[Bench, Buttress, Relief], |keys| keys.of.is_none())
        || any(&[Oven], |keys| keys.oven.of.is_none())
    {
        assumed.push(("built-in.*.of", "the wall's recipe", "what is built onto the wall is made of its cob"));
    }
}

/// Rows of a lift name what is taken out of it: no two things may share a name.
fn own_name(site: &Site<'_>, build: &Build, name: &Written<String>) {
    if let Some(opening) = build.openings.iter().find(|opening| opening.name.value == name.value) {
        taken(site, name, "by an opening", opening.name.line);
    }
}

fn taken(site: &Site<'_>, name: &Written<String>, by: &str, line: usize) {
    let message = format!("the name \"{}\" is taken {by} (line {line})", name.value);
    site.refuse::<String>(None, name, message, "give each its own name");
}

fn relief(site: &Site<'_>, written: &build::BuiltIn) -> Option<Relief> {
    let keys = &written.keys;
    let area = site.within(keys.area.as_ref(), Area::m2(0.001)..Area::m2(100.0), "the area of a relief");
    let what = "the mean thickness of a relief";
    let thickness = site.within(keys.thickness.as_ref(), Length::mm(1.0)..Length::mm(500.0), what);
    let of = site.recipe(keys.of.as_ref())?;
    Some(Relief { side: site::side(keys.side.as_ref(), Side::Inner), area: area?, thickness: thickness?, of })
}
