//! The way round the house for a narrow screen: the last wall of the cross-section as a strip, the yard below it.

use engine::answers::Answers;
use kurbo::{Point, Rect};

use super::cut::Cut;
use super::doors::Doors;
use super::names::{Name, Standing, leader};
use super::yard::{Spot, hills, thing};
use super::{BELOW, LETTERING, View, cover, ground, roof, walls};
use crate::drawing::Scaled;
use crate::drawing::area::Area;
use crate::drawing::hand::{Hand, strokes, wash};
use crate::drawing::hatch::mixed;
use crate::paper::{INK, LIME, MOSS, Paper, weight};
use crate::svg::Element;

/// The least side of what a finger can hit, in millimetres: 44 px.
pub const TARGET: f64 = 11.65;
/// Share of the width that the strip takes.
const STRIP: f64 = 0.54;
/// Room to the left of the wall, in metres.
const INSIDE: f64 = 0.75;
/// Blank paper between names and at the edge, in millimetres.
const AIR: f64 = 4.0;
/// Sky over the roof, in millimetres.
const SKY: f64 = 9.0;

/// The last wall of this house's cross-section from the sky down to the trench as an upright strip, and below it the yard;
/// as wide as the medium, as high as it has to be. The names stand beside, each with a target of at least 44 px. Leaves are
/// those of `way`.
#[must_use]
pub fn way_upright(answers: &Answers, medium: Paper, states: &[Standing<'_>]) -> Scaled {
    let [width, _] = medium.drawing_mm();
    let cut = Cut::of(answers);
    let extent = cut.extent();
    let wall = cut.stems.last().copied().unwrap_or(Rect::new(-0.2, -0.5, 0.2, 0.0));
    let strip = STRIP * width;
    let column = [strip + AIR, width - 2.0];
    let named: Vec<(Standing<'_>, Name<'_>)> = ["roof", "walls", "skin"]
        .iter()
        .filter_map(|leaf| states.iter().copied().find(|(own, _, _)| own == leaf))
        .map(|own| (own, Name::of(own, column[1] - column[0], LETTERING)))
        .collect();
    let metre = strip / (extent.x1.max(wall.x1 + 0.3) - wall.x0 + INSIDE);
    let needed: f64 = named.iter().map(|(_, name)| name.size()[1].max(TARGET) + AIR).sum();
    let above = (needed + AIR - (extent.y1 - cut.ground) * metre).max(SKY);
    let right = extent.x1.max(wall.x1 + 0.3);
    let view = View { metre, zero: [strip - right * metre, above + extent.y1 * metre] };
    let own_ground = states.iter().copied().find(|(own, _, _)| *own == "ground");
    let level = view.level(cut.ground);
    let earth_name = own_ground.map(|own| (own, Name::of(own, column[1] - column[0], LETTERING)));
    let calm =
        earth_name.as_ref().map(|(_, name)| name.area([column[0], level + view.long(cut.topsoil).max(2.0) + AIR]));
    let bottom =
        (view.level(extent.y0) + BELOW * 0.8).max(calm.map_or(0.0, |calm| calm.top + TARGET.max(calm.height()) + 9.0));
    let rows = yard(states, strip, column);
    let height = bottom + rows.iter().map(|row| row.high).sum::<f64>() + AIR;
    let cut = cut.from(right - strip / metre);
    let mut sheet = Doors::new(
        "The way round the house: its wall from the sky to the trench, then the yard",
        [width, height],
        &view,
        extent,
        LETTERING,
    );
    sheet.drawn(hills([0.0, width], level, level, &mut Hand::from(37)));
    let drawn = ground::drawn(&cut, &view, [0.0, width], bottom, calm.unwrap_or(Area::about([0.0, 0.0], 0.0, 0.0)));
    let placed = earth_name.as_ref().zip(calm).map(|((own, name), calm)| (*own, name, [calm.left, calm.top]));
    let touched = calm.map(|calm| Area {
        left: strip,
        top: level + 1.0,
        right: width,
        bottom: calm.bottom.max(level + 1.0 + TARGET),
    });
    sheet.door(placed, drawn, touched.as_slice());
    sheet.drawn(cut.roof.as_ref().map_or_else(Vec::new, |roof| cover::ceiling(roof, &view)));
    parts(&mut sheet, &cut, &view, &named, column);
    sheet.drawn(vec![ground::grass(&cut, &view, [0.0, width], &[])]);
    let mut top = bottom;
    for row in rows {
        top = row.drawn(&mut sheet, top, [strip, width]);
    }
    sheet.finished()
}

/// Walls, skin and roof with their names down the right side, each near what it speaks of.
fn parts(sheet: &mut Doors, cut: &Cut, view: &View, named: &[(Standing<'_>, Name<'_>)], column: [f64; 2]) {
    let wall = cut.stems.last().copied().unwrap_or_default();
    let half_way = cut.top() * 0.62;
    let skin = walls::outer_face(cut).map_or([column[0], 0.0], |face| view.at(face));
    let eave = cut.roof.iter().flat_map(roof::points).max_by(|a, b| a.x.total_cmp(&b.x));
    let meant = |leaf: &str| match leaf {
        "roof" => eave.map_or(view.at(Point::new(wall.x1, cut.top())), |eave| {
            [view.across(eave.x) - 2.5, view.level(eave.y) + 1.0]
        }),
        "walls" => view.at(Point::new(wall.center().x, half_way)),
        _ => [skin[0] + 0.6, view.level((cut.top() * 0.3).min(0.9))],
    };
    let lowest = view.level(cut.ground) - AIR;
    let mut tops: Vec<f64> = Vec::new();
    for (own, name) in named {
        let after = tops.last().zip(named.get(tops.len().saturating_sub(1)));
        let least = after.map_or(AIR * 0.5, |(top, (_, before))| top + before.size()[1].max(TARGET) + AIR);
        tops.push((meant(own.0)[1] - name.size()[1] * 0.4).max(least));
    }
    // From below, what reaches into the ground is pushed up again.
    let mut floor = lowest;
    for (top, (_, name)) in tops.iter_mut().zip(named).rev() {
        let high = name.size()[1].max(TARGET);
        *top = top.min(floor - high);
        floor = *top - AIR;
    }
    for leaf in ["walls", "skin", "roof"] {
        let mut drawn = match leaf {
            "walls" => walls::drawn(cut, view),
            "skin" => walls::skin(cut, view),
            _ => cut.roof.as_ref().map_or_else(Vec::new, |roof| cover::drawn(roof, view)),
        };
        let place = named.iter().position(|(own, _)| own.0 == leaf);
        let placed = place.map(|place| (named[place].0, &named[place].1, [column[0], tops[place]]));
        let mut touched = None;
        if let Some((_, name, [left, top])) = placed {
            let from = [left - 1.5, top + 3.0];
            let to = meant(leaf);
            if leaf != "roof" || cut.roof.is_some() {
                drawn.extend(leader(&[from, [from[0].min(to[0] + 12.0), from[1]], to]));
            }
            let high = name.size()[1].max(TARGET);
            touched = Some(Area { left: left - AIR, top, right: column[1] + 2.0, bottom: top + high });
        }
        sheet.door(placed, drawn, touched.as_slice());
    }
}

/// A thing of the yard with its name beside it.
struct Row<'a> {
    own: Standing<'a>,
    name: Name<'a>,
    metre: f64,
    high: f64,
    left: f64,
}

/// The rows of the yard, from the top.
fn yard<'a>(states: &[Standing<'a>], strip: f64, column: [f64; 2]) -> Vec<Row<'a>> {
    let row = |own: Standing<'a>| {
        let thing = thing(own.0)?;
        let name = Name::of(own, column[1] - column[0], LETTERING);
        let metre = ((strip - 6.0) / (2.0 * thing.half)).min(21.0);
        let high = (thing.high * metre).max(name.size()[1]).max(TARGET) + 2.0 * AIR;
        Some(Row { own, name, metre, high, left: column[0] })
    };
    states.iter().copied().filter_map(row).collect()
}

impl Row<'_> {
    /// Draws the row below a level and says where it ends.
    fn drawn(self, sheet: &mut Doors, top: f64, [strip, width]: [f64; 2]) -> f64 {
        let mut hand = Hand::from(self.own.0.len() as u64);
        let bottom = top + self.high;
        let level = bottom - AIR;
        let line = hand.line(&[[3.0, level], [width - 3.0, level]], 0.2);
        let band: Vec<[f64; 2]> = line
            .iter()
            .copied()
            .chain([[width - 5.0, level + 1.8], [strip, level + 2.6], [6.0, level + 1.6]])
            .collect();
        let mut drawn = vec![
            wash(&band, &mixed(MOSS, LIME, 0.3)),
            strokes(&[line]).with("stroke", INK).with("stroke-width", weight::SEEN),
        ];
        if let Some(thing) = thing(self.own.0) {
            let foot = [strip * 0.5, level];
            drawn.extend((thing.draw)(Spot { foot, metre: self.metre }));
            let reach = thing.half * self.metre;
            for ends in [[4.0, foot[0] - reach], [foot[0] + reach, width - 4.0]] {
                if ends[1] - ends[0] > 2.0 {
                    let grass: Element = hand.grass(&ends.map(|x| [x, level]), 2.6, 3.0);
                    drawn.push(grass.with("stroke", MOSS).with("stroke-width", weight::HIDDEN));
                }
            }
        }
        let [_, high] = self.name.size();
        let at = [self.left, (level - AIR * 0.8 - high).min(top + AIR + (self.high - 2.0 * AIR - high) * 0.5).max(top)];
        let whole = Area { left: 0.0, top, right: width, bottom };
        sheet.door(Some((self.own, &self.name, at)), drawn, &[whole]);
        bottom
    }
}
