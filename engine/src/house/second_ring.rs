//! A second ring of rafters on the poles of a ring: where each lies, and why it cannot.

use super::place::{shown, within};
use super::{Ring, Wall, roof_wood};
use crate::build::{self, Source, Written};
use crate::known::{Known, Origin};
use crate::roof::poles::{Head, Leaning, Misfit, Second};
use crate::roof::standing::{self, Resting};
use crate::solve::space::Vector;
use crate::units::{Length, Ratio, System};
use crate::wall;

/// The rafters of a second ring, one in each bay.
#[derive(Clone, Debug)]
pub struct SecondRing {
    /// Where each lies on the plate: share of the way along it from the pole that rests on the other of its bay.
    pub across: Known<Ratio>,
    /// Where its head lies.
    pub head: Placed,
    /// How deep it is cut where it rests.
    pub notch: Known<Length>,
    /// How deep its pole is cut there.
    pub housing: Known<Length>,
    /// A bolt through both, where the builder has one.
    pub bolt: Option<Known<Length>>,
    /// Bay by bay.
    pub rafters: Vec<Leaning>,
    /// The top of the plate in each bay where one lies: an input of `examples/roofs.rs`, which measures where its rafter rests anew.
    pub supports: Vec<[Length; 3]>,
    /// The butts of the two poles of each bay.
    pub eaves: Vec<[Vector; 2]>,
}

/// What places the heads.
#[derive(Clone, Debug)]
pub enum Placed {
    /// A share of the way from the plate to where the other pole of the bay crosses.
    At(Known<Ratio>),
    /// The length that each is cut to.
    Length(Known<Length>),
}

impl SecondRing {
    /// As the frame takes it, each so thick and with so many kilograms on each metre.
    pub(super) fn on_frame(&self, ring: &Ring, diameter: Length, mass: f64) -> standing::SecondRing {
        standing::SecondRing {
            across: self.across.value.in_fraction(),
            rafters: self.rafters.iter().enumerate().map(|(bay, one)| Resting::of(one, &ring.layout, bay)).collect(),
            beyond: beyond(diameter).in_m(),
            mass,
            cut: [diameter, self.housing.value].map(Length::in_m),
            hole: self.bolt.as_ref().map_or(0.0, |bolt| bolt.value.in_m()),
        }
    }
}

/// How far one so thick reaches beyond where it rests: as far as it is thick, by our choice.
pub(crate) fn beyond(diameter: Length) -> Length {
    diameter
}

/// The second ring; none where a fault was told.
pub(super) fn place(
    source: &Source<'_>,
    written: &build::Secondary,
    (ring, wall): (&Ring, &Wall),
    diameter: &Known<Length>,
    system: System,
) -> Option<SecondRing> {
    let (head, across) = (head(source, written, system), across(source, written, system));
    let cut = |given: Option<&Written<Length>>, of: Length, what: &str, path: &str| match given {
        Some(_) => within(source, given, Length::ZERO..of * 0.5, what, system),
        None => Some(Known::assumed(Length::ZERO, path, Origin::Judgement, "nothing is cut")),
    };
    let poles = ring.layout.rafters.iter().map(|rafter| rafter.pole.butt.min(rafter.pole.tip));
    let thinnest = poles.fold(diameter.value, Length::min);
    let rafter = "how deep a rafter is cut where it rests";
    let notch = cut(written.notch.as_ref(), diameter.value, rafter, "roof.secondary.notch");
    let pole = "how deep a pole is cut for the rafter on it";
    let housing = cut(written.housing.as_ref(), thinnest, pole, "roof.secondary.housing");
    let bolt = written.bolt.as_ref();
    // No more than a quarter of a round piece is bored away: our judgement.
    let bolts = roof_wood::bolts();
    let bolts = bolts.start..bolts.end.min(thinnest * 0.25);
    let what = "the diameter of a bolt through such a rafter and its pole";
    let bolt = bolt.map(|_| within(source, bolt, bolts, what, system));
    let bolt = bolt.map_or(Some(None), |bolt| bolt.map(Some));
    let (head, across, notch, housing, bolt) = (head?, across?, notch?, housing?, bolt?);
    let supports = supports(ring, wall, across.value.in_fraction());
    let mean = |bay: usize| {
        let [own, next] = [bay, ring.layout.below(bay)].map(|pole| ring.layout.rafters[pole].overhang);
        own + (next - own) * across.value.in_fraction()
    };
    let second = Second {
        diameter: diameter.value,
        seat: ring.seat.value,
        let_in: notch.value + housing.value,
        beyond: beyond(diameter.value),
        head: match &head {
            Placed::At(share) => Head::Share(share.value.in_fraction()),
            Placed::Length(length) => Head::Cut(length.value),
        },
        overhangs: (0..supports.len()).map(mean).collect(),
        supports,
    };
    match second.laid(&ring.layout, &ring.solved) {
        Ok(rafters) => {
            let eaves = second.eaves(&ring.layout, &ring.solved);
            Some(SecondRing { across, head, notch, housing, bolt, rafters, supports: second.supports, eaves })
        }
        Err(misfit) => {
            let at = written.length.as_ref().map(|own| (own.span.clone(), own.path.as_str()));
            let at = at.or_else(|| written.at.as_ref().map(|own| (own.span.clone(), own.path.as_str())));
            let (span, path) = at.unwrap_or((written.at_table.clone(), "roof.secondary"));
            let (message, hint) = said(misfit, (ring, written.length.is_some()), system);
            source.fault(span, path, message, hint);
            None
        }
    }
}

fn across(source: &Source<'_>, written: &build::Secondary, system: System) -> Option<Known<Ratio>> {
    if written.across.is_none() {
        let why = "half-way between two poles";
        return Some(Known::assumed(Ratio::percent(50.0), "roof.secondary.across", Origin::Judgement, why));
    }
    let range = Ratio::percent(20.0)..Ratio::percent(80.0);
    within(source, written.across.as_ref(), range, "where a rafter lies between two poles on the plate", system)
}

fn head(source: &Source<'_>, written: &build::Secondary, system: System) -> Option<Placed> {
    match (&written.at, &written.length) {
        (Some(_), Some(length)) => {
            let message = "the heads are placed by `at` and by `length`";
            source.fault(length.span.clone(), &length.path, message, "write one of the two: the other follows");
            None
        }
        (None, Some(_)) => {
            let range = Length::m(0.5)..Length::m(12.0);
            let what = "the length of a rafter";
            within(source, written.length.as_ref(), range, what, system).map(Placed::Length)
        }
        (Some(_), None) => {
            let range = Ratio::percent(10.0)..Ratio::percent(95.0);
            let what = "where a rafter rests on the way from the plate to the crossing";
            within(source, written.at.as_ref(), range, what, system).map(Placed::At)
        }
        (None, None) => {
            let why = "half the roof beyond it, and clear of where the next pole crosses";
            Some(Placed::At(Known::assumed(Ratio::percent(60.0), "roof.secondary.at", Origin::Judgement, why)))
        }
    }
}

/// The top of the plate in each bay at a share of the way along it.
fn supports(ring: &Ring, wall: &Wall, across: f64) -> Vec<[Length; 3]> {
    let (line, rafters) = (&wall.line, &ring.layout.rafters);
    let offset = wall::plate_offset(wall.batter_inside.value, wall.batter_outside.value, wall.means()[1]).value;
    let along = |place: usize| {
        let [x, y, _] = rafters[place].support.map(Length::in_m);
        line.along_line(line.nearest(kurbo::Point::new(x, y)))
    };
    // How far what was measured at a pole, and the beam, lie above the wall as it is drawn.
    let above = |place: usize| rafters[place].support[2].in_m() - wall.top.at(line, along(place));
    let in_bay = |bay: usize| {
        let below = ring.layout.below(bay);
        let whole = line.length();
        let way = (along(below) - along(bay) + 0.5 * whole).rem_euclid(whole) - 0.5 * whole;
        let at = (along(bay) + across * way).rem_euclid(whole);
        let spot = line.at(at).beside(offset.in_m());
        let height = wall.top.at(line, at) + above(bay) + across * (above(below) - above(bay));
        [spot.x, spot.y, height].map(Length::m)
    };
    (0..rafters.len()).map(in_bay).collect()
}

/// What is wrong, and what would be right.
fn said(misfit: Misfit, (ring, by_length): (&Ring, bool), system: System) -> (String, String) {
    let between = |bay: usize| {
        let next = ring.layout.below(bay);
        format!("the rafter between places {} and {}", bay + 1, next + 1)
    };
    let shown = |length: Length| shown(length, system);
    match misfit {
        Misfit::Short { bay, least } => (
            format!("{} reaches its pole nowhere", between(bay)),
            format!("write a `length` of {} or more", shown(least)),
        ),
        Misfit::Long { bay, most } => (
            format!("{} would lie in the pole that crosses its own next, or reach beyond it", between(bay)),
            format!("write a `length` of {} at most", shown(most)),
        ),
        Misfit::BeyondTip { bay, by } => (
            format!("{} would rest {} beyond the tip of its pole", between(bay), shown(by)),
            if by_length {
                "write a smaller `length`".to_owned()
            } else {
                "write a smaller `at`: 60 % is half-way and a little".to_owned()
            },
        ),
        Misfit::Falls(bay) => (
            format!("{} would not rise from the plate to its pole", between(bay)),
            format!(
                "write {}, or a smaller `notch` or `housing`",
                if by_length { "a larger `length`" } else { "a larger `at`" }
            ),
        ),
        Misfit::Clash { bay, pole, overlap } => (
            format!("{} lies {} deep in the pole of place {}", between(bay), shown(overlap), pole + 1),
            "write a smaller `at`, a shorter `length`, or another `across`".to_owned(),
        ),
        Misfit::Meets { bay, other, overlap } => (
            format!("{} lies {} deep in the one of the bay after place {}", between(bay), shown(overlap), other + 1),
            "write a smaller `at`, a shorter `length`, or thinner rafters".to_owned(),
        ),
        Misfit::NoRing => ("the poles make no ring".to_owned(), "measure the poles again".to_owned()),
    }
}
