//! Things on the wall as handles see them: one list of openings, of what is built in and of what ties the roof down.

use super::{Hold, Rise, Spot};
use crate::build::OpeningKind;
use crate::curve::{Cut, Side};
use crate::house::built_in::{self, Surface, What};
use crate::house::{BuiltIn, House};
use crate::known::Known;
use crate::units::Length;

/// A thing that stands at a distance along a run.
pub(super) struct Thing {
    pub(super) title: String,
    /// The key of its distance along the run.
    pub(super) path: String,
    pub(super) run: usize,
    /// Distance along the line, in metres.
    pub(super) along: f64,
    /// To the right of the line, in metres.
    pub(super) offset: f64,
    /// Level of its middle, in metres.
    pub(super) level: f64,
    /// What rises with it.
    pub(super) rises: Option<(String, f64)>,
    /// What can be taken out by it.
    pub(super) removes: String,
}

impl Thing {
    pub(super) fn hold(&self, with_level: bool) -> Hold {
        let rises = self.rises.iter().filter(|_| with_level);
        let rises = rises.map(|(path, more)| Rise { path: path.clone(), sign: 1.0, more: *more }).collect();
        let table = self.path.rsplit_once('.').map_or("", |(table, _)| table);
        let run = format!("{table}.run");
        Hold::Spot(Spot { along: self.path.clone(), run, on: self.run, other: None, rises })
    }
}

/// Everything that stands at one distance along a run.
pub(super) fn things(house: &House) -> Vec<Thing> {
    let line = &house.wall.line;
    let mut all = Vec::new();
    for opening in &house.openings {
        let level = (opening.bottom.value + opening.head()) * 0.5;
        let is_window = opening.kind == OpeningKind::Window;
        all.push(Thing {
            title: format!("middle of {}", opening.name),
            path: opening.along.path.clone(),
            run: opening.run,
            along: line.along_line(opening.station),
            offset: 0.0,
            level: level.in_m(),
            rises: is_window.then(|| (opening.bottom.path.clone(), (opening.bottom.value - level).in_m())),
            removes: format!("openings.{}", opening.name),
        });
    }
    house.built_in.iter().for_each(|thing| all.extend(of_built_in(house, thing)));
    for anchors in &house.anchors {
        let level = (anchors.foot + anchors.height.value * 0.5).in_m();
        let title = format!("first deadman of {}", anchors.name);
        let placed = at(house, title, &anchors.spot, (level, anchors.offset.in_m()), None);
        all.push(Thing { removes: format!("wall.anchors.{}", anchors.name), ..placed });
    }
    all
}

fn at(
    house: &House,
    title: String,
    spot: &built_in::Spot,
    (level, offset): (f64, f64),
    rises: Option<&Known<Length>>,
) -> Thing {
    let (path, along) = (spot.along.path.clone(), house.wall.line.along_line(spot.station));
    let rises = rises.map(|known| (known.path.clone(), known.value.in_m() - level));
    Thing { title, path, run: spot.run, along, offset, level, rises, removes: String::new() }
}

fn of_built_in(house: &House, thing: &BuiltIn) -> Vec<Thing> {
    let name = &thing.name;
    let shape = house.wall.shape();
    let line = &house.wall.line;
    let face = |side: Side, cut: &Cut| shape.offset(side, line.along_line(cut.station), middle(cut).max(0.0));
    let titled = |what: &str| format!("{what} {name}");
    let mut placed = match &thing.what {
        What::Niche(niche) => {
            let where_ = (middle(&niche.cut), face(niche.side, &niche.cut));
            vec![at(house, titled("niche"), &niche.spot, where_, Some(&niche.sill))]
        }
        What::Shelf(shelf) => {
            let where_ = (shelf.level.value.in_m(), face(shelf.side, &shelf.cut));
            vec![at(house, titled("shelf"), &shelf.spot, where_, Some(&shelf.level))]
        }
        What::Vent(vent) => {
            vec![at(house, titled("vent"), &vent.spot, (vent.level.value.in_m(), 0.0), Some(&vent.level))]
        }
        What::Mosaic(mosaic) => match &mosaic.surface {
            Surface::Rectangle(patch) => {
                let where_ = (patch.level.value.in_m(), face(mosaic.side, &patch.cut));
                vec![at(house, titled("mosaic"), &patch.spot, where_, Some(&patch.level))]
            }
            Surface::Area(_) => Vec::new(),
        },
        What::Buttress(pier) => {
            let where_ = (0.5 * pier.top.value.in_m(), face(pier.side, &pier.cut));
            vec![at(house, titled("buttress"), &pier.spot, where_, None)]
        }
        What::Service(service) => match &service.way {
            built_in::Way::Through(passing) => {
                vec![at(house, name.clone(), &passing.spot, (passing.level.value.in_m(), 0.0), Some(&passing.level))]
            }
            built_in::Way::Upright(upright) => {
                let level = (upright.level.value + upright.to.value).in_m() * 0.5;
                vec![at(house, name.clone(), &upright.spot, (level, 0.0), None)]
            }
            built_in::Way::Roof { .. } => Vec::new(),
        },
        What::Bottles(bottles) => bottles
            .places
            .iter()
            .map(|(spot, level)| at(house, titled("bottle brick of"), spot, (level.value.in_m(), 0.0), Some(level)))
            .collect(),
        What::Bench(_) | What::Relief(_) | What::Oven(_) => Vec::new(),
    };
    let single = placed.len() == 1;
    for one in &mut placed {
        let own = one.path.rsplit_once('.').map_or("", |(table, _)| table);
        one.removes = if single { thing.stem() } else { own.to_owned() };
    }
    placed
}

fn middle(cut: &Cut) -> f64 {
    cut.form.bottom().midpoint(cut.form.top())
}
