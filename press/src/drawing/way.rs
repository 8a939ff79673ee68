//! The way round the house: its own cross-section with the yard beside it, every part a door to its leaf.

mod cover;
mod cut;
mod doors;
mod ground;
mod names;
mod roof;
mod upright;
mod walls;
mod yard;

use engine::answers::Answers;
use kurbo::Point;

use super::Scaled;
use super::area::Area;
use crate::paper::Paper;
use cut::Cut;
use doors::Doors;
use names::Name;
pub use names::Standing;
pub use upright::{TARGET, way_upright};

/// Least height of the words, in millimetres of the em.
const LETTERING: f64 = 3.5;
/// Words between windows want so much room, in sizes of the words.
const ENOUGH: f64 = 10.5;
/// Blank paper at the sides and between a name and what it speaks of, in millimetres.
const SIDE: f64 = 6.0;
const AIR: f64 = 5.0;
/// Room for the name of the skin, between the eave and the yard, in millimetres.
const SKIN: f64 = 34.0;
/// Width of the yard, in metres.
const YARD: f64 = 5.9;
/// A metre is drawn no longer than this, in millimetres.
const LARGEST: f64 = 60.0;
/// The yard lies a little farther off than the section.
const FARTHER: f64 = 0.84;
/// Things of the yard are drawn no smaller than this for a metre, in millimetres.
const YARD_LEAST: f64 = 12.0;
/// Ground shown below the trench, and the most sky above the roof, in millimetres.
const BELOW: f64 = 16.0;
const MOST_SKY: f64 = 62.0;

/// From metres of the section to millimetres of the sheet.
struct View {
    /// Millimetres for each metre.
    metre: f64,
    /// Where the section's own zero lies on the sheet.
    zero: [f64; 2],
}

impl View {
    fn at(&self, point: Point) -> [f64; 2] {
        [self.across(point.x), self.level(point.y)]
    }

    fn all(&self, points: &[Point]) -> Vec<[f64; 2]> {
        points.iter().map(|point| self.at(*point)).collect()
    }

    fn across(&self, x: f64) -> f64 {
        self.zero[0] + x * self.metre
    }

    fn level(&self, y: f64) -> f64 {
        self.zero[1] - y * self.metre
    }

    fn long(&self, metres: f64) -> f64 {
        metres * self.metre
    }
}

/// The cross-section of this house with the yard beside it, as wide as the medium; each of the leaves `ground`, `walls`,
/// `skin`, `roof`, `earth`, `stuff` and `book` that is asked for is a link to `#leaf` with its name, its mark and its words.
///
/// The section is true to one scale; plaster is drawn no thinner than it can be seen, and the yard is a picture.
#[must_use]
pub fn way(answers: &Answers, medium: Paper, states: &[Standing<'_>]) -> Scaled {
    let [width, height] = medium.drawing_mm();
    let size = (width / 70.0).clamp(LETTERING, 1.3 * LETTERING);
    let beside = SKIN * size / LETTERING;
    let cut = Cut::of(answers);
    let extent = cut.extent();
    let standing = |leaf: &str| states.iter().copied().find(|(own, _, _)| *own == leaf);
    let sky = standing("roof").map_or(0.0, |own| Name::of(own, 60.0, size).size()[1]) + 2.0 * AIR + SIDE;
    let across = (width - 2.0 * SIDE - beside - 8.0) / (extent.width() + YARD);
    let metre = across.min((height - sky - BELOW) / extent.height()).clamp(4.0, LARGEST);
    let above = (height - BELOW - extent.height() * metre).clamp(sky, MOST_SKY.max(sky));
    let slack = (width - 2.0 * SIDE - beside - 8.0 - (extent.width() + YARD) * metre).max(0.0);
    let left = SIDE + 8.0 + 0.3 * slack.min(120.0);
    let view = View { metre, zero: [left - extent.x0 * metre, above + extent.y1 * metre] };
    let bottom = above + extent.height() * metre + BELOW;
    let mut sheet =
        Doors::new("The way round the house: its cross-section and the yard", [width, bottom], &view, extent, size);
    sheet.drawn(yard::sky([0.0, width], [0.0, view.level(cut.ground)]));
    let sides = [0.0, width];
    let calm = under_the_floor(&cut, &view, standing("ground"), size);
    sheet.ground(&cut, &view, sides, standing("ground").map(|own| (own, calm)));
    sheet.drawn(cut.roof.as_ref().map_or_else(Vec::new, |roof| cover::ceiling(roof, &view)));
    sheet.walls(&cut, &view, standing("walls"), in_the_room(&cut, &view, standing("walls"), size));
    sheet.skin(&cut, &view, standing("skin"), beside - 6.0);
    sheet.roof(&cut, &view, standing("roof"), extent);
    let eaves = view.across(extent.x1);
    let start = if standing("skin").is_some() { eaves.max(sheet.right_of("skin")) + 6.0 } else { eaves + 12.0 };
    let bare = sheet.yard(states, [start, width - SIDE], view.level(cut.ground), (metre * FARTHER).max(YARD_LEAST));
    sheet.drawn(vec![ground::grass(&cut, &view, sides, &bare)]);
    sheet.finished()
}

/// Where the words of the ground stand: under the floor between the trenches, in the earth.
fn under_the_floor(cut: &Cut, view: &View, own: Option<Standing<'_>>, size: f64) -> Area {
    let feet = cut.trenches.iter().chain(&cut.stems);
    let [left, right] = cut.room().unwrap_or([0.3, 2.0]);
    let (mut from, mut to) = (left, right);
    for foot in feet {
        if foot.x0 < left && foot.x1 > left {
            from = from.max(foot.x1);
        }
        if foot.x0 < right && foot.x1 > right {
            to = to.min(foot.x0);
        }
    }
    let [from, to] = [from, to].map(|x| view.across(x));
    let Some(own) = own else { return Area::about([from, 0.0], 0.0, 0.0) };
    let name = Name::of(own, (to - from - 6.0).max(24.0), size);
    let floor = cut.floor.unwrap_or(cut.ground) - cut.floor_layers.iter().sum::<f64>();
    let [wide, _] = name.size();
    name.area([from.midpoint(to) - wide * 0.5, view.level(floor.min(cut.ground)) + 3.5])
}

/// Where the words of the walls stand: in the widest stretch of the room that has no window behind it.
fn in_the_room(cut: &Cut, view: &View, own: Option<Standing<'_>>, size: f64) -> Area {
    let [left, right] = cut.room().map_or([SIDE, 60.0], |room| room.map(|x| view.across(x)));
    let mut edges = vec![left, right];
    for opening in &cut.openings {
        let seen = cut::bounds(opening);
        edges.extend([seen.x0, seen.x1].map(|x| view.across(x).clamp(left, right)));
    }
    edges.sort_by(f64::total_cmp);
    let is_clear = |span: &[f64; 2]| {
        let middle = span[0].midpoint(span[1]);
        !cut.openings
            .iter()
            .map(|opening| cut::bounds(opening))
            .any(|seen| (view.across(seen.x0)..view.across(seen.x1)).contains(&middle))
    };
    let spans = edges.windows(2).map(|pair| [pair[0], pair[1]]).filter(is_clear);
    let [from, to] = spans.max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0]))).unwrap_or([left, right]);
    let Some(own) = own else { return Area::about([from, 0.0], 0.0, 0.0) };
    let [floor, top] = [cut.floor.unwrap_or(cut.ground), cut.top()];
    if to - from > ENOUGH * size {
        let name = Name::of(own, to - from - 7.0, size);
        let [wide, high] = name.size();
        return name.area([from.midpoint(to) - wide * 0.5, view.level(floor.midpoint(top)) - high * 0.5]);
    }
    // Between windows there is too little room for words: they stand under the lowest sill.
    let sill = cut.openings.iter().map(|opening| cut::bounds(opening).y0).fold(top, f64::min);
    let name = Name::of(own, (right - left - 7.0).max(24.0), size);
    let [wide, high] = name.size();
    let low = view.level(floor) - 0.5;
    let middle = view.level(sill).midpoint(low);
    name.area([left.midpoint(right) - wide * 0.5, (middle - high * 0.5).min(low - high)])
}
