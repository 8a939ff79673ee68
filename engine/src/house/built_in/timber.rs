//! Places the deadmen in the wall.

use super::Spot;
use super::patch::{Patch, meets};
use super::site::Site;
use super::through::{Row, in_a_row, row};
use crate::build::{self, Written};
use crate::curve::{Cut, Form, Side};
use crate::house::Lift;
use crate::house::place::{known, nearest};
use crate::known::{Known, Origin};
use crate::units::{Force, Length};

/// The least cob on each side of a deadman: our judgement.
const COVER: Length = Length::mm(50.0);

/// Timbers laid in the wall, to which the roof is tied down.
#[derive(Clone, Debug)]
pub struct Anchors {
    /// Their name.
    pub name: String,
    /// Where the first lies.
    pub spot: Spot,
    /// The lift at whose foot they lie.
    pub lift: String,
    /// Level of that foot.
    pub foot: Length,
    /// Length along the wall.
    pub length: Known<Length>,
    /// Width across it.
    pub width: Known<Length>,
    /// Height.
    pub height: Known<Length>,
    /// How many.
    pub count: Known<u64>,
    /// From the middle of one to the next, when there are several.
    pub spacing: Option<Known<Length>>,
    /// What is bought.
    pub of: String,
    /// Where each lies, its middle over the middle of the wall.
    pub spots: Vec<Spot>,
    /// How far outside of the wall line the middle of each lies.
    pub offset: Length,
    /// The pull that each of them holds, and how that is known; none where it is not written.
    pub holds: Option<(Known<Force>, String)>,
}

impl Anchors {
    /// Their key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("wall.anchors.{}.{noun}", self.name)
    }
}

pub(super) fn anchors(site: &Site<'_>, written: &build::Anchors, patches: &mut Vec<Patch>) -> Option<Anchors> {
    let size = |written: &Option<Written<Length>>, what: &str| site.size(written.as_ref(), what);
    let length = size(&written.length, "the length of a deadman");
    let width = size(&written.width, "the width of a deadman");
    let height = size(&written.height, "the height of a deadman");
    let name = written.name.value.clone();
    let spot = site.spot(&written.spot);
    let (lift, below) = lift(site, written.lift.as_ref())?;
    let (spot, length, width, height) = (spot?, length?, width?, height?);
    let row = match &written.count {
        Some(count) if count.value != 1 => Some(row(site, &written.name, &written.count, &written.spacing)?),
        _ => None,
    };
    let spots = match &row {
        Some(row) => in_a_row(site, &spot, row, &written.name, written.spacing.as_ref())?,
        None => vec![spot.clone()],
    };
    let (count, spacing) = match row {
        Some(Row { count, spacing }) => (count, Some(spacing)),
        None => (known(written.count.as_ref()).unwrap_or_else(|| one(&name)), None),
    };
    let foot = below.map_or(Length::ZERO, |below| below.top.value);
    let rise = lift.top.value - foot;
    if height.value > rise {
        let message = format!(
            "the deadman would be {} high, the lift `{}` is {}",
            site.shown(height.value),
            lift.name,
            site.shown(rise)
        );
        site.refuse(written.height.as_ref(), &written.name, message, "use a lower timber, or lay it in a higher lift");
        return None;
    }
    let of = written.of.as_ref().map_or_else(|| "deadman".to_owned(), |of| of.value.clone());
    let along = site.shape.line.along_line(spot.station);
    let faces = [Side::Inner, Side::Outer].map(|side| site.shape.offset(side, along, foot.in_m()));
    let offset = Length::m(0.5 * (faces[0] + faces[1]));
    let lift = lift.name.clone();
    let holds = holds(site, written)?;
    let anchors = Anchors { name, spot, lift, foot, length, width, height, count, spacing, of, spots, offset, holds };
    let highest = foot + anchors.height.value;
    let tops = anchors.spots.iter().map(|spot| site.wall.least_top(reach(site, &anchors, spot)));
    if let Some(top) = tops.reduce(Length::min).filter(|top| *top <= highest) {
        let message =
            format!("the deadman would end at {}, the wall's top is at {}", site.shown(highest), site.shown(top));
        let hint = "lay it in a lower lift, or where the wall is higher";
        site.refuse(written.height.as_ref(), &written.name, message, hint);
        return None;
    }
    let lies = anchors.spots.iter().all(|spot| is_covered(site, written, &anchors, spot));
    (lies && meets_nothing(site, written, &anchors, patches)).then_some(anchors)
}

/// What each of them holds and how that is known; nothing where either is written without the other.
fn holds(site: &Site<'_>, written: &build::Anchors) -> Option<Option<(Known<Force>, String)>> {
    let hint = "write `holds-by` beside it, such as \"two of them pulled on site, strap and all\"";
    match (&written.holds, &written.holds_by) {
        (None, None) => Some(None),
        (_, Some(by)) if by.value.trim().is_empty() => {
            site.source.fault(by.span.clone(), &by.path, "this says nothing of how it is known what they hold", hint);
            None
        }
        (Some(_), Some(by)) => {
            let range = Force::n(50.0)..Force::kn(200.0);
            let pull = site.within(written.holds.as_ref(), range, "the pull that an anchor in cob holds")?;
            Some(Some((pull, by.value.clone())))
        }
        (Some(holds), None) => {
            let message = "nothing says how it is known what these anchors hold";
            site.source.fault(holds.span.clone(), &holds.path, message, hint);
            None
        }
        (None, Some(by)) => {
            let hint = "write `holds` beside it, such as holds = \"4 kN\", or leave it out";
            site.source.fault(by.span.clone(), &by.path, "nothing says what these anchors hold", hint);
            None
        }
    }
}

/// From where to where along the line a deadman lies, in metres.
fn reach(site: &Site<'_>, anchors: &Anchors, spot: &Spot) -> [f64; 2] {
    let (along, half) = (site.shape.line.along_line(spot.station), 0.5 * anchors.length.value.in_m());
    [along - half, along + half]
}

fn one(name: &str) -> Known<u64> {
    Known::assumed(1, format!("wall.anchors.{name}.count"), Origin::Judgement, "no count is written")
}

fn lift<'a>(site: &'a Site<'_>, written: Option<&Written<String>>) -> Option<(&'a Lift, Option<&'a Lift>)> {
    let written = written?;
    let found = site.wall.lift(&written.value);
    if found.is_none() {
        let hint = nearest(site.wall.lifts.iter().map(|lift| lift.name.as_str()), &written.value);
        let message = format!("there is no lift \"{}\"", written.value);
        site.source.fault(written.span.clone(), &written.path, message, hint);
    }
    found
}

/// What a deadman at a place would cut: a rectangle of its length and height.
fn cut(anchors: &Anchors, spot: &Spot) -> Cut {
    let bottom = anchors.foot.in_m();
    let form =
        Form::Rectangle { half: 0.5 * anchors.length.value.in_m(), bottom, top: bottom + anchors.height.value.in_m() };
    Cut::straight(spot.station, form)
}

/// Refuses a deadman that is too wide for the wall, or whose ends stand out of it on a curve.
fn is_covered(site: &Site<'_>, written: &build::Anchors, anchors: &Anchors, spot: &Spot) -> bool {
    let top = (anchors.foot + anchors.height.value).in_m();
    let along = site.shape.line.along_line(spot.station);
    let [inner, outer] = [Side::Inner, Side::Outer].map(|side| site.shape.offset(side, along, top));
    let half = 0.5 * anchors.width.value.in_m();
    let middle = anchors.offset.in_m();
    let cover = (outer - middle - half).min(middle - half - inner);
    if cover < COVER.in_m() {
        let message = format!(
            "the wall is {} thick there: a deadman {} wide would leave {} of cob beside it",
            site.shown_m(outer - inner),
            site.shown(anchors.width.value),
            site.shown_m(cover)
        );
        let hint = format!("leave {} or more on each side", site.shown(COVER));
        site.refuse(written.width.as_ref(), &written.name, message, hint);
        return false;
    }
    let cut = cut(anchors, spot);
    let faces = [Side::Inner, Side::Outer].map(|side| super::cover::reach(&site.shape, &cut, side));
    let ends = match faces {
        [Some([_, inner]), Some([outer, _])] => (outer - middle - half).min(middle - half - inner),
        _ => f64::NEG_INFINITY,
    };
    if ends < COVER.in_m() {
        let message = if ends.is_finite() && ends > 0.0 {
            format!(
                "the wall bends so much that the ends of a deadman would have {} of cob beside them",
                site.shown_m(ends)
            )
        } else {
            "the wall bends so much that the ends of a deadman would stand out of it".to_owned()
        };
        let hint = format!("use a shorter timber: leave {} or more on each side", site.shown(COVER));
        site.refuse(written.length.as_ref(), &written.name, message, hint);
        return false;
    }
    true
}

/// Refuses deadmen that meet each other, an opening or what is cut into the wall.
fn meets_nothing(site: &Site<'_>, written: &build::Anchors, anchors: &Anchors, patches: &mut Vec<Patch>) -> bool {
    for (place, spot) in anchors.spots.iter().enumerate() {
        let patch = Patch::of_deadman(&anchors.name, place, cut(anchors, spot), anchors.width.value.in_m());
        if let Some(other) = patches.iter().find(|other| meets(&site.shape, &patch, other)) {
            let message = format!("{} meets {}", patch.said(), other.said());
            let hint = "move one of them, or lay the deadmen in another lift";
            site.refuse(written.spot.along.as_ref(), &written.name, message, hint);
            return false;
        }
        patches.push(patch);
    }
    true
}
