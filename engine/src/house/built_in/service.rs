//! Places services: pipes, cables, smoke and air through the wall, its stem or the roof, and conduits upright in the wall.

use kurbo::Point;

use super::Spot;
use super::cover::cover;
use super::site::{Site, side};
use crate::build::{self, Build, Passage, ServiceKind};
use crate::curve::{Cut, Form, Side};
use crate::house::part::Meaning;
use crate::house::place::known;
use crate::known::{Known, Origin};
use crate::units::{Length, Slope};

/// What a service needs round it in its sleeve, both sides together: our judgement.
const PLAY: Length = Length::mm(20.0);

/// A service of the house.
#[derive(Clone, Debug)]
pub struct Service {
    /// What it carries.
    pub kind: ServiceKind,
    /// Its diameter outside.
    pub diameter: Known<Length>,
    /// Which way it goes.
    pub way: Way,
}

/// Which way a service goes.
#[derive(Clone, Debug)]
pub enum Way {
    /// Straight through the wall.
    Through(Box<Passing>),
    /// Upright in the wall.
    Upright(Upright),
    /// Through the roof.
    Roof {
        /// Where, in plan: x and y.
        at: [Known<Length>; 2],
        /// To what burns, by its listing, when it is written.
        clearance: Option<Known<Length>>,
    },
}

/// A service straight through the wall or its stem.
#[derive(Clone, Debug)]
pub struct Passing {
    /// Where its middle is.
    pub spot: Spot,
    /// Level of its middle.
    pub level: Known<Length>,
    /// Diameter of its sleeve.
    pub sleeve: Known<Length>,
    /// What was added to its own diameter for a sleeve that is not written.
    pub play: Option<Known<Length>>,
    /// What the sleeve cuts.
    pub cut: Cut,
    /// Fall of a drain.
    pub slope: Option<Known<Slope>>,
    /// From a flue to what burns, by its listing, when it is written.
    pub clearance: Option<Known<Length>>,
    /// What its sleeve is bought as.
    pub of: String,
}

impl Passing {
    /// Whether it goes through the stem wall, below the foot of the cob.
    #[must_use]
    pub fn is_in_the_stem(&self) -> bool {
        self.level.value < Length::ZERO
    }
}

/// A conduit upright in the middle of the wall, built in as the wall rises.
#[derive(Clone, Debug)]
pub struct Upright {
    /// Where it is.
    pub spot: Spot,
    /// Level at which it begins.
    pub level: Known<Length>,
    /// Level at which it ends.
    pub to: Known<Length>,
    /// Levels of its boxes.
    pub boxes: Vec<Known<Length>>,
    /// The face that the boxes are in.
    pub side: Side,
    /// What it is bought as.
    pub of: String,
}

impl Upright {
    /// What it would cut of the middle of the wall.
    #[must_use]
    pub fn cut(&self, diameter: Length) -> Cut {
        let [bottom, top] = [&self.level, &self.to].map(|level| level.value.in_m());
        Cut::straight(self.spot.station, Form::Rectangle { half: 0.5 * diameter.in_m(), bottom, top })
    }
}

/// What the boxes of a conduit are bought as.
pub const BOX: &str = "conduit-box";

impl Service {
    /// The cut that it makes into the cob.
    #[must_use]
    pub fn cob_cut(&self) -> Option<&Cut> {
        match &self.way {
            Way::Through(passing) if !passing.is_in_the_stem() => Some(&passing.cut),
            _ => None,
        }
    }

    /// What it takes of the wall as a drawing of the wall laid flat shows it: a sleeve seen, a conduit hidden in the wall.
    #[must_use]
    pub fn drawn_cut(&self) -> Option<(Cut, Meaning)> {
        match &self.way {
            Way::Through(passing) => Some((passing.cut, Meaning::Seen)),
            Way::Upright(upright) => Some((upright.cut(self.diameter.value), Meaning::Hidden)),
            Way::Roof { .. } => None,
        }
    }

    /// The run that it is measured along, where it is in the wall.
    #[must_use]
    pub fn run(&self) -> Option<usize> {
        match &self.way {
            Way::Through(passing) => Some(passing.spot.run),
            Way::Upright(upright) => Some(upright.spot.run),
            Way::Roof { .. } => None,
        }
    }

    /// What is bought for it.
    #[must_use]
    pub fn goods(&self) -> Vec<&str> {
        match &self.way {
            Way::Through(passing) => vec![&passing.of],
            Way::Upright(upright) if upright.boxes.is_empty() => vec![&upright.of],
            Way::Upright(upright) => vec![&upright.of, BOX],
            Way::Roof { .. } => Vec::new(),
        }
    }
}

/// What messages call a service.
pub(super) fn said(kind: ServiceKind) -> &'static str {
    match kind {
        ServiceKind::Water => "water pipe",
        ServiceKind::Drain => "drain",
        ServiceKind::Conduit => "conduit",
        ServiceKind::Flue => "flue",
        ServiceKind::Vent => "vent",
    }
}

pub(super) fn place(site: &Site<'_>, build: &Build, written: &build::Service) -> Option<Service> {
    let kind = written.kind.as_ref()?.value;
    let diameter = site.size(written.diameter.as_ref(), "the diameter of a service");
    let way = if written.through.as_ref().is_some_and(|through| through.value == Passage::Roof) {
        roof(site, build, written, diameter.as_ref()?)?
    } else if written.to_level.is_some() {
        Way::Upright(upright(site, written, diameter.as_ref()?)?)
    } else {
        Way::Through(Box::new(passing(site, written, kind, diameter.as_ref()?)?))
    };
    Some(Service { kind, diameter: diameter?, way })
}

fn path(written: &build::Service, noun: &str) -> String {
    format!("services.{}.{noun}", written.name.value)
}

fn clearance(site: &Site<'_>, written: &build::Service) -> Option<Known<Length>> {
    site.size(written.clearance.as_ref(), "what a flue must keep from what burns")
}

fn passing(site: &Site<'_>, written: &build::Service, kind: ServiceKind, diameter: &Known<Length>) -> Option<Passing> {
    let spot = site.spot(&written.spot)?;
    let level = known(written.spot.level.as_ref())?;
    if let (Some(_), Some(play)) = (&written.sleeve, &written.play) {
        let message = "the sleeve says already how wide it is";
        site.refuse(Some(play), &written.name, message, "leave `play` out; it goes without `sleeve`");
        return None;
    }
    let (sleeve, play) = match &written.sleeve {
        Some(_) => (site.size(written.sleeve.as_ref(), "the diameter of a sleeve")?, None),
        None if kind == ServiceKind::Flue => {
            // A sleeve that cannot be read was told where it stands.
            if !site.source.is_faulty(&path(written, "sleeve")) {
                let message = "nothing says how wide the sleeve of this flue is";
                site.refuse::<Length>(None, &written.name, message, "write sleeve = \"250 mm\", as its listing says");
            }
            return None;
        }
        None => {
            let play = play(site, written)?;
            let why = "the service and what it needs round it";
            let wide = Known::assumed(diameter.value + play.value, path(written, "sleeve"), Origin::Judgement, why);
            (wide.following(diameter.path.as_str()).following(play.path.as_str()), Some(play))
        }
    };
    if sleeve.value < diameter.value {
        let message = format!(
            "a sleeve of {} is too narrow for a service of {}",
            site.shown(sleeve.value),
            site.shown(diameter.value)
        );
        site.refuse(written.sleeve.as_ref(), &written.name, message, "write the diameter inside of the sleeve");
        return None;
    }
    let form = Form::Round { radius: 0.5 * sleeve.value.in_m(), middle: level.value.in_m() };
    let cut = Cut::straight(spot.station, form);
    if !lies_whole(site, written, &cut, level.value) {
        return None;
    }
    let slope = if kind == ServiceKind::Drain { Some(fall(site, written)?) } else { None };
    let of = written.of.as_ref().map_or_else(|| format!("{}-sleeve", kind.word()), |of| of.value.clone());
    Some(Passing { spot, level, sleeve, play, cut, slope, clearance: clearance(site, written), of })
}

/// How much wider than the service its sleeve is; none within where it was refused.
fn play(site: &Site<'_>, written: &build::Service) -> Option<Known<Length>> {
    if written.play.is_some() {
        return site.within(
            written.play.as_ref(),
            Length::ZERO..Length::mm(200.0),
            "the play of a service in a sleeve",
        );
    }
    let why = "10 mm all round to pass it and to pack it";
    Some(Known::assumed(PLAY, path(written, "play"), Origin::Judgement, why))
}

/// The fall of a drain; none within where it was refused.
fn fall(site: &Site<'_>, written: &build::Service) -> Option<Known<Slope>> {
    if written.slope.is_some() {
        return site.within(written.slope.as_ref(), Slope::ratio(0.0025)..Slope::ratio(1.0), "the fall of a drain");
    }
    let why = "1 in 40 carries away what it is given";
    Some(Known::assumed(Slope::ratio(0.025), path(written, "slope"), Origin::CommonPractice, why))
}

/// Whether a sleeve lies in the cob alone, or in the stem alone, and meets both faces.
fn lies_whole(site: &Site<'_>, written: &build::Service, cut: &Cut, level: Length) -> bool {
    let [low, high] = [cut.form.bottom(), cut.form.top()];
    let at = written.spot.level.as_ref();
    let foot = -site.wall.stem_height.value.in_m();
    if low < 0.0 && high > 0.0 {
        let message = format!(
            "the sleeve would lie across the foot of the cob, from {} to {}",
            site.shown_m(low),
            site.shown_m(high)
        );
        site.refuse(at, &written.name, message, "put it wholly into the stem wall, or wholly into the cob");
        return false;
    }
    if level < Length::ZERO && low < foot {
        let message = format!(
            "the sleeve would reach down to {}, the stem wall stands at {}",
            site.shown_m(low),
            site.shown_m(foot)
        );
        site.refuse(at, &written.name, message, "raise it; what passes below the stem wall is no sleeve in it");
        return false;
    }
    if level >= Length::ZERO && !site.is_in_the_cob(cut, [at, at], &written.name) {
        return false;
    }
    let shape = if level < Length::ZERO { &site.stem } else { &site.shape };
    let meets = cover(shape, cut).is_some();
    if !meets {
        let message = "the wall turns away from this sleeve: a side of it would never meet the face";
        site.refuse(at, &written.name, message, "make it narrower, or put it where the wall is straighter");
    }
    meets
}

fn upright(site: &Site<'_>, written: &build::Service, diameter: &Known<Length>) -> Option<Upright> {
    let spot = site.spot(&written.spot)?;
    let (level, to) = (known(written.spot.level.as_ref())?, known(written.to_level.as_ref())?);
    if to.value <= level.value {
        let message = format!("the conduit would rise from {} to {}", site.shown(level.value), site.shown(to.value));
        site.refuse(written.to_level.as_ref(), &written.name, message, "write a `to-level` above its `level`");
        return None;
    }
    let foot = -site.wall.stem_height.value;
    if level.value < foot {
        let message = format!(
            "the conduit would begin at {}, the stem wall stands at {}",
            site.shown(level.value),
            site.shown(foot)
        );
        site.refuse(written.spot.level.as_ref(), &written.name, message, "let it begin in the stem wall or above");
        return None;
    }
    let along = site.shape.line.along_line(spot.station);
    let half = 0.5 * diameter.value.in_m();
    let top = site.wall.least_top([along - half, along + half]);
    if to.value > top {
        let message =
            format!("the conduit would rise to {}, the wall's top is at {}", site.shown(to.value), site.shown(top));
        site.refuse(
            written.to_level.as_ref(),
            &written.name,
            message,
            "let it end in the wall, at its top at the most",
        );
        return None;
    }
    let mut boxes = Vec::new();
    for one in &written.boxes {
        if one.value < level.value || one.value > to.value {
            let message = format!("there is no conduit at {}, the level of this box", site.shown(one.value));
            let hint = format!("write levels from {} to {}", site.shown(level.value), site.shown(to.value));
            site.refuse(Some(one), &written.name, message, hint);
            return None;
        }
        boxes.extend(known(Some(one)));
    }
    let of = written.of.as_ref().map_or_else(|| "conduit".to_owned(), |of| of.value.clone());
    Some(Upright { spot, level, to, boxes, side: side(written.side.as_ref(), Side::Inner), of })
}

fn roof(site: &Site<'_>, build: &Build, written: &build::Service, diameter: &Known<Length>) -> Option<Way> {
    let at = written.at.as_ref()?;
    if build.roof.is_none() {
        let message = "there is no roof for the flue to go through";
        site.refuse(written.through.as_ref(), &written.name, message, "write [roof], or through = \"wall\"");
        return None;
    }
    let [x, y] = [&at.value[0], &at.value[1]];
    let point = Point::new(x.value.in_m(), y.value.in_m());
    let line = &site.wall.line;
    let station = line.nearest(point);
    let out = (point - station.point).dot(-station.axis.turn_90());
    let inner = site.shape.offset(Side::Inner, line.along_line(station), 0.0);
    if out + 0.5 * diameter.value.in_m() > inner {
        let message = "the flue would stand in the wall or outside of the room";
        site.refuse(Some(at), &written.name, message, "write its place in the plan, x and y, within the room");
        return None;
    }
    Some(Way::Roof { at: [known(Some(x))?, known(Some(y))?], clearance: clearance(site, written) })
}
