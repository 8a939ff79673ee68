//! The patch of the wall that a thing takes, and whether two patches meet.

use super::niche::COB_BEHIND;
use super::service::{self, Service, Way};
use super::site::Site;
use super::{BuiltIn, Mosaic, Surface, What};
use crate::build::{OpeningKind, Written};
use crate::curve::{Cut, Form, Shape, Side};
use crate::house::Opening;
use crate::units::Length;

/// The least cob from one bottle brick to the next: our judgement.
const BETWEEN_BOTTLES: Length = Length::mm(30.0);

/// Levels at which two patches whose boxes overlap are compared.
const LEVELS: u32 = 64;
/// The same for two that have upright sides.
const UPRIGHT: u32 = 5;

/// A patch of the wall.
#[derive(Clone, Debug)]
pub(super) struct Patch {
    name: String,
    /// Its number among several of one name, from 1.
    number: Option<usize>,
    kind: &'static str,
    takes: Takes,
    extent: Extent,
    levels: [f64; 2],
}

/// How far into the wall a patch reaches.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Takes {
    /// Through both faces.
    Through,
    /// So far behind one face, in metres; 0 for what only stands before it.
    Face(Side, f64),
    /// So much of its middle, in metres.
    Middle(f64),
}

/// How long a patch is at each level.
#[derive(Clone, Copy, Debug)]
enum Extent {
    Cut(Cut),
    Stretch([f64; 2]),
}

impl Patch {
    /// An opening and its lintel.
    pub(super) fn of_opening(opening: &Opening) -> Vec<Patch> {
        let kind = if opening.kind == OpeningKind::Door { "door" } else { "window" };
        let lintel = opening.lintel.iter().map(|lintel| ("lintel", lintel.cut));
        let cuts = [(kind, opening.cut)].into_iter().chain(lintel);
        cuts.map(|(kind, cut)| Patch::cut(&opening.name, kind, Takes::Through, cut)).collect()
    }

    pub(super) fn of_deadman(name: &str, place: usize, cut: Cut, width: f64) -> Patch {
        Patch::cut(name, "deadman", Takes::Middle(width), cut).numbered(place)
    }

    fn of_service(name: &str, service: &Service) -> Vec<Patch> {
        let kind = service::said(service.kind);
        match &service.way {
            Way::Through(passing) => vec![Patch::cut(name, kind, Takes::Through, passing.cut)],
            Way::Upright(upright) => {
                let takes = Takes::Middle(service.diameter.value.in_m());
                vec![Patch::cut(name, kind, takes, upright.cut(service.diameter.value))]
            }
            Way::Roof { .. } => Vec::new(),
        }
    }

    fn cut(name: &str, kind: &'static str, takes: Takes, cut: Cut) -> Patch {
        let levels = [cut.form.bottom(), cut.form.top()];
        Patch { name: name.to_owned(), number: None, kind, takes, extent: Extent::Cut(cut), levels }
    }

    fn numbered(self, place: usize) -> Patch {
        Patch { number: Some(place + 1), ..self }
    }

    /// The patches of a thing: one for each bottle brick, none for a relief.
    pub(super) fn of(thing: &BuiltIn) -> Vec<Patch> {
        let name = &thing.name;
        match &thing.what {
            What::Niche(niche) => {
                vec![Patch::cut(name, "niche", Takes::Face(niche.side, niche.depth.value.in_m()), niche.cut)]
            }
            What::Shelf(shelf) => {
                vec![Patch::cut(name, "shelf", Takes::Face(shelf.side, shelf.bedded.value.in_m()), shelf.cut)]
            }
            What::Buttress(buttress) => {
                vec![Patch::cut(name, "buttress", Takes::Face(buttress.side, 0.0), buttress.cut)]
            }
            What::Vent(vent) => vec![Patch::cut(name, "vent", Takes::Through, vent.cut)],
            What::Bench(bench) => vec![Patch {
                name: name.clone(),
                number: None,
                kind: "bench",
                takes: Takes::Face(bench.side, 0.0),
                extent: Extent::Stretch(bench.stretch),
                levels: [bench.foot.value.in_m(), bench.top().in_m()],
            }],
            What::Bottles(bottles) => {
                let bottle = |cut: &Cut| Patch::cut(name, "bottle brick", Takes::Through, *cut);
                let numbered = bottles.cuts.iter().enumerate();
                numbered.map(|(place, cut)| bottle(cut).numbered(place)).collect()
            }
            What::Mosaic(Mosaic { side, surface: Surface::Rectangle(rectangle), .. }) => {
                vec![Patch::cut(name, "mosaic", Takes::Face(*side, 0.0), rectangle.cut)]
            }
            What::Mosaic(_) | What::Relief(_) | What::Oven(_) => Vec::new(),
            What::Service(service) => Patch::of_service(name, service),
        }
    }

    /// What messages call it.
    pub(super) fn said(&self) -> String {
        match self.number {
            Some(number) => format!("{} {number} of `{}`", self.kind, self.name),
            None if self.kind == "lintel" => format!("the lintel of `{}`", self.name),
            None => format!("the {} `{}`", self.kind, self.name),
        }
    }

    /// From where to where along the line it takes a face at a level, in metres.
    pub(super) fn at(&self, shape: &Shape<'_>, side: Side, level: f64) -> Option<[f64; 2]> {
        match self.extent {
            Extent::Cut(cut) => cut.stretch(shape, side, level),
            Extent::Stretch(stretch) => Some(stretch),
        }
    }

    /// Itself with a round form so much larger all round, in metres.
    fn wider(&self, by: f64) -> Patch {
        match self.extent {
            Extent::Cut(cut @ Cut { form: Form::Round { radius, middle }, .. }) => {
                let form = Form::Round { radius: radius + by, middle };
                Patch::cut(&self.name, self.kind, self.takes, Cut { form, ..cut })
            }
            _ => self.clone(),
        }
    }
}

/// Whether two stretches of a closed line, of the length given, overlap; in metres.
pub(super) fn overlap(a: [f64; 2], b: [f64; 2], whole: f64) -> bool {
    [-whole, 0.0, whole].into_iter().any(|turn| a[0] < b[1] + turn && b[0] + turn < a[1])
}

/// The faces on which two patches must keep apart; none where they do not reach each other across the wall.
fn faces(shape: &Shape<'_>, a: &Patch, b: &Patch) -> Vec<Side> {
    let both = vec![Side::Inner, Side::Outer];
    let level = a.levels[1].min(b.levels[1]);
    let along = match a.extent {
        Extent::Cut(cut) => shape.line.along_line(cut.station),
        Extent::Stretch([from, to]) => from.midpoint(to),
    };
    let middle = shape.offset(Side::Outer, along, level) - shape.offset(Side::Inner, along, level);
    match (a.takes, b.takes) {
        (Takes::Face(side, into), Takes::Face(other, deep)) if side != other => {
            let is_cut = into > 0.0 && deep > 0.0;
            if is_cut && middle - into - deep < COB_BEHIND.in_m() { both } else { Vec::new() }
        }
        (Takes::Face(side, _), Takes::Face(..) | Takes::Through) | (Takes::Through, Takes::Face(side, _)) => vec![side],
        (Takes::Face(_, into), Takes::Middle(width)) | (Takes::Middle(width), Takes::Face(_, into)) => {
            if into > 0.5 * (middle - width) { both } else { Vec::new() }
        }
        _ => both,
    }
}

/// Whether two patches take the same part of the wall.
pub(super) fn meets(shape: &Shape<'_>, a: &Patch, b: &Patch) -> bool {
    let is_bottle = |patch: &Patch| patch.kind == "bottle brick";
    if is_bottle(a) && is_bottle(b) {
        let gap = 0.5 * BETWEEN_BOTTLES.in_m();
        return meet(shape, &a.wider(gap), &b.wider(gap));
    }
    meet(shape, a, b)
}

fn meet(shape: &Shape<'_>, a: &Patch, b: &Patch) -> bool {
    let (low, high) = (a.levels[0].max(b.levels[0]), a.levels[1].min(b.levels[1]));
    if low >= high {
        return false;
    }
    let whole = shape.line.length();
    let meet_at = |side: Side, level: f64| match (a.at(shape, side, level), b.at(shape, side, level)) {
        (Some(a), Some(b)) => overlap(a, b, whole),
        _ => false,
    };
    let far = |patch: &Patch| match patch.extent {
        Extent::Cut(cut) => [shape.line.along_line(cut.station), 2.0 * cut.form.half()],
        Extent::Stretch([from, to]) => [0.5 * (from + to), 0.5 * (to - from)],
    };
    // Twice the half width along the line is more than a cut takes of a face that bends no tighter than its own middle.
    let ([at, reach], [other, wide]) = (far(a), far(b));
    if !overlap([at - reach, at + reach], [other - wide, other + wide], whole) {
        return false;
    }
    // Between upright sides a face that leans is met along a straight line, or one hardly bent: its ends and middle say all.
    let is_upright = [a, b].iter().all(|patch| match patch.extent {
        Extent::Cut(cut) => cut.form.circle().is_none(),
        Extent::Stretch(_) => true,
    });
    let count = if is_upright { UPRIGHT } else { LEVELS };
    let levels = (0..count).map(|step| low + (high - low) * (f64::from(step) + 0.5) / f64::from(count));
    let faces = faces(shape, a, b);
    levels.into_iter().any(|level| faces.iter().any(|side| meet_at(*side, level)))
}

/// Notes the first thing that a new one meets; its patches join the others.
pub(super) fn keep_apart(
    site: &Site<'_>,
    at: Option<&Written<Length>>,
    name: &Written<String>,
    new: Vec<Patch>,
    patches: &mut Vec<Patch>,
) {
    let mut is_told = false;
    for patch in new {
        let other = patches.iter().find(|other| meets(&site.shape, &patch, other));
        if let Some(other) = other.filter(|_| !is_told) {
            is_told = true;
            let (message, hint) = told(site, &patch, other);
            site.refuse(at, name, message, hint);
        }
        patches.push(patch);
    }
}

/// What is said of two patches that meet, and what would be right.
fn told(site: &Site<'_>, new: &Patch, other: &Patch) -> (String, String) {
    let between = |least: Length, where_: &str| {
        let least = site.shown(least);
        let message = format!("{} and {}{where_} have less than {least} of cob between them", new.said(), other.said());
        (message, format!("leave {least} or more between them"))
    };
    match (new.takes, other.takes, new.kind, other.kind) {
        (_, _, "bottle brick", "bottle brick") => between(BETWEEN_BOTTLES, ""),
        (Takes::Face(side, _), Takes::Face(behind, _), ..) if side != behind => {
            between(COB_BEHIND, " on the other side of the wall")
        }
        (_, _, kind, _) => {
            let verb = if ["bench", "buttress"].contains(&kind) { "would stand in front of" } else { "overlaps" };
            (format!("{} {verb} {}", new.said(), other.said()), "move one of them, or make it smaller".to_owned())
        }
    }
}
