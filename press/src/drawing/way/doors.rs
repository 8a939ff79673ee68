//! A sheet of doors: each part of the way round the house with its name at its place.

use kurbo::{Point, Rect};

use super::cut::Cut;
use super::names::{Name, Standing, door, leader};
use super::yard::{Spot, thing};
use super::{AIR, SIDE, View, cover, ground, roof, walls};
use crate::drawing::Scaled;
use crate::drawing::area::Area;
use crate::drawing::frame::{Frame, Margins};
use crate::paper::LIME;
use crate::svg::{Element, Svg};

/// A sheet that gathers doors and the boxes of their names.
pub(super) struct Doors {
    svg: Svg,
    frame: Frame,
    boxes: Vec<(String, Area)>,
    /// Height of the words, in millimetres of the em.
    size: f64,
}

impl Doors {
    pub(super) fn new(title: &str, size_mm: [f64; 2], view: &View, extent: Rect, size: f64) -> Doors {
        let mut svg = Svg::sheet(size_mm[0], size_mm[1], title);
        svg.push(Element::rectangle([0.0, 0.0], size_mm[0], size_mm[1]).with("fill", LIME));
        let margins = Margins { left: view.across(extent.x0), top: view.level(extent.y1), right: 0.0, bottom: 0.0 };
        let frame = Frame { size_mm, times_smaller: 1000.0 / view.metre, words: "", rows: vec![(extent, margins)] };
        Doors { svg, frame, boxes: Vec::new(), size }
    }

    pub(super) fn drawn(&mut self, elements: Vec<Element>) {
        self.svg.push(Element::group(elements).with("aria-hidden", "true"));
    }

    /// A door with its name at a place; without standing the part is drawn and no door.
    pub(super) fn door(
        &mut self,
        own: Option<(Standing<'_>, &Name<'_>, [f64; 2])>,
        mut drawn: Vec<Element>,
        touched: &[Area],
    ) {
        let Some((standing, name, at)) = own else { return self.drawn(drawn) };
        drawn.push(name.drawn(at));
        let area = name.area(at);
        let touched: Vec<Area> = touched.iter().copied().chain([area]).collect();
        self.svg.push(door(standing, drawn, &touched));
        self.boxes.push((standing.0.to_owned(), area));
    }

    pub(super) fn right_of(&self, leaf: &str) -> f64 {
        self.boxes.iter().filter(|(own, _)| own == leaf).map(|(_, area)| area.right).fold(0.0, f64::max)
    }

    pub(super) fn ground(&mut self, cut: &Cut, view: &View, sides: [f64; 2], own: Option<(Standing<'_>, Area)>) {
        let calm = own.map_or(Area::about([0.0, 0.0], 0.0, 0.0), |(_, calm)| calm);
        let drawn = ground::drawn(cut, view, sides, self.svg.height_mm(), calm);
        let name = own.map(|(standing, calm)| (standing, Name::of(standing, calm.width() + 0.1, self.size), calm));
        let own = name.as_ref().map(|(standing, name, calm)| (*standing, name, [calm.left, calm.top]));
        self.door(own, drawn, &[]);
    }

    pub(super) fn walls(&mut self, cut: &Cut, view: &View, own: Option<Standing<'_>>, place: Area) {
        let mut drawn = walls::drawn(cut, view);
        if let (Some(_), None, Some(wall)) = (own, cut.floor, cut.stems.last()) {
            // Between walls under the open sky nothing but a line says what the words speak of.
            let level = place.top + 0.5 * self.size;
            drawn.extend(leader(&[[place.right + 2.0, level], [view.across(wall.x0) + 3.0, level]]));
        }
        let name = own.map(|standing| (standing, Name::of(standing, place.width() + 0.1, self.size)));
        let own = name.as_ref().map(|(standing, name)| (*standing, name, [place.left, place.top]));
        self.door(own, drawn, &[]);
    }

    /// The plaster, its name to the right of the last wall.
    pub(super) fn skin(&mut self, cut: &Cut, view: &View, own: Option<Standing<'_>>, widest: f64) {
        let mut drawn = walls::skin(cut, view);
        let face = walls::outer_face(cut).unwrap_or(Point::new(0.0, 1.0));
        let [x, y] = view.at(face);
        let name = own.map(|standing| (standing, Name::of(standing, widest, self.size)));
        let own = name.as_ref().map(|(standing, name)| (*standing, name, [x + 9.0, y - 3.0]));
        if own.is_some() {
            drawn.extend(leader(&[[x + 8.0, y], [x + 0.8, y]]));
        }
        self.door(own, drawn, &[]);
    }

    /// The roof, its name in the sky over its left half.
    pub(super) fn roof(&mut self, cut: &Cut, view: &View, own: Option<Standing<'_>>, extent: Rect) {
        let mut drawn = cut.roof.as_ref().map_or_else(Vec::new, |roof| cover::drawn(roof, view));
        let name =
            own.map(|standing| (standing, Name::of(standing, view.long(extent.width() * 0.45).max(44.0), self.size)));
        let placed = name.as_ref().map(|(standing, name)| {
            let [wide, high] = name.size();
            let left = view.across(extent.x0 + 0.12 * extent.width()).max(SIDE);
            let over: Vec<[f64; 2]> = cut.roof.iter().flat_map(roof::points).map(|point| view.at(point)).collect();
            let near = over.iter().filter(|[x, _]| (left - 4.0..left + wide + 4.0).contains(x));
            let level = near.map(|[_, y]| *y).fold(view.level(cut.top()), f64::min);
            let top = (level - AIR * 1.6 - high).max(SIDE * 0.5);
            if cut.roof.is_some() {
                let foot = over.iter().filter(|[x, _]| (*x - left - 3.0).abs() < 6.0).map(|[_, y]| *y);
                let foot = foot.fold(f64::INFINITY, f64::min);
                if foot.is_finite() {
                    drawn.extend(leader(&[[left + 3.0, top + high + 0.8], [left + 3.0, foot.max(top + high + 2.0)]]));
                }
            }
            (*standing, name, [left, top])
        });
        self.door(placed, drawn, &[]);
    }

    /// What stands in the yard between two sides; says where it covers the ground.
    pub(super) fn yard(
        &mut self,
        states: &[Standing<'_>],
        [from, to]: [f64; 2],
        level: f64,
        metre: f64,
    ) -> Vec<[f64; 2]> {
        let things: Vec<_> = states.iter().filter_map(|own| Some((*own, thing(own.0)?))).collect();
        let whole: f64 = things.iter().map(|(_, thing)| thing.half).sum();
        let mut bare = Vec::new();
        let mut left = from;
        for (standing, thing) in things {
            let column = (to - from) * thing.half / whole.max(1e-6);
            let metre = metre.min((column - 3.0) / (2.0 * thing.half));
            let middle = left + column * 0.5;
            let reach = thing.half * metre;
            let name = Name::of(standing, column - 4.0, self.size);
            let [wide, high] = name.size();
            let top = level - thing.high * metre - AIR - high;
            let at = [(middle - reach).min(left + column - wide - 1.0).max(left), top];
            let whole = Area { left: middle - reach, top: top + high, right: middle + reach, bottom: level + 3.0 };
            self.door(Some((standing, &name, at)), (thing.draw)(Spot { foot: [middle, level], metre }), &[whole]);
            bare.push([middle - reach, middle + reach]);
            left += column;
        }
        bare
    }

    pub(super) fn finished(self) -> Scaled {
        let room = Area { left: 0.0, top: 0.0, right: self.svg.width_mm(), bottom: self.svg.height_mm() };
        let boxes = self.boxes.into_iter().map(|(_, area)| area).collect();
        Scaled { svg: self.svg, scale: String::new(), key: Vec::new(), boxes, room, frame: self.frame }
    }
}
