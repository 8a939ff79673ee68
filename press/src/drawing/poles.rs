//! Round poles as drawings show them: two lines with taper, cut where another pole lies over them.

use engine::house::RingPlan;
use kurbo::{Point, Vec2};

use super::sheet::Sheet;
use crate::paper::{INK, weight};
use crate::svg::{Element, Run};

/// The outline of a pole between the ends of its axis: its left side, then its right one, in the unit of the ends.
pub(super) fn outline([from, to]: [Point; 2], diameters: [f64; 2]) -> [Point; 4] {
    let aside = (to - from).normalize().turn_90();
    let [start, end] = diameters.map(|diameter| aside * (0.5 * diameter));
    [from + start, to + end, to - end, from - start]
}

/// Poles of a ring in plan, each cut where another lies over it.
pub(super) struct Poles<'a> {
    /// The ring.
    pub(super) ring: &'a RingPlan,
    /// How far the picture is moved on its sheet, in metres.
    pub(super) shift: Vec2,
    /// The fill of a pole.
    pub(super) fill: &'a dyn Fn(usize) -> String,
}

impl Poles<'_> {
    /// Draws the poles of some places.
    pub(super) fn draw(&self, sheet: &mut Sheet, shown: &[usize]) {
        let outlines: Vec<[[f64; 2]; 4]> =
            (0..self.ring.places.len()).map(|place| self.on_paper(sheet, place)).collect();
        for &place in shown {
            let path = &self.ring.places[place].stem;
            sheet.push(Element::polygon(&outlines[place]).with("fill", (self.fill)(place)).data_path(path));
        }
        for &place in shown {
            let pole = &self.ring.places[place];
            let over: Vec<&[[f64; 2]; 4]> =
                pole.covered_by.iter().filter(|over| shown.contains(over)).map(|&over| &outlines[over]).collect();
            let corners = &outlines[place];
            let sides = (0..4).map(|side| [corners[side], corners[(side + 1) % 4]]);
            let seen: Vec<[[f64; 2]; 2]> = sides.flat_map(|side| left_of(side, &over)).collect();
            let runs: Vec<Run<'_>> = seen.iter().map(|side| Run::Open(side)).collect();
            let drawn = Element::path(&runs).with("fill", "none").with("stroke", INK).with("stroke-linecap", "round");
            sheet.push(drawn.with("stroke-width", weight::SEEN).data_path(&pole.stem));
            for side in &seen {
                sheet.avoid(side, false, 1.5);
            }
        }
    }

    /// The outline of a pole on the sheet, in millimetres.
    pub(super) fn on_paper(&self, sheet: &Sheet, place: usize) -> [[f64; 2]; 4] {
        let pole = &self.ring.places[place];
        let axis = pole.axis.map(|[x, y, _]| Point::new(x, y) + self.shift);
        outline(axis, pole.diameters).map(|corner| sheet.at(corner))
    }
}

/// What of a side is not under any of the poles over it.
fn left_of(side: [[f64; 2]; 2], over: &[&[[f64; 2]; 4]]) -> Vec<[[f64; 2]; 2]> {
    let mut seen: Vec<[f64; 2]> = vec![[0.0, 1.0]];
    for hidden in over.iter().filter_map(|outline| inside(side, outline)) {
        seen = seen
            .into_iter()
            .flat_map(|[from, to]| [[from, to.min(hidden[0])], [from.max(hidden[1]), to]])
            .filter(|[from, to]| to - from > 1e-9)
            .collect();
    }
    let at = |share: f64| [0, 1].map(|axis| side[0][axis] + share * (side[1][axis] - side[0][axis]));
    seen.into_iter().map(|ends| ends.map(at)).collect()
}

/// Between which shares of its way a line runs inside an outline without hollows; none where it passes by.
fn inside([from, to]: [[f64; 2]; 2], outline: &[[f64; 2]; 4]) -> Option<[f64; 2]> {
    let [from, to] = [from, to].map(|[x, y]| Point::new(x, y));
    let corners = outline.map(|[x, y]| Point::new(x, y));
    let middle = corners[0].midpoint(corners[2]);
    let (mut enter, mut leave): (f64, f64) = (0.0, 1.0);
    for side in 0..4 {
        let (corner, along) = (corners[side], corners[(side + 1) % 4] - corners[side]);
        let turn = along.cross(middle - corner).signum();
        let [start, end] = [from, to].map(|point| turn * along.cross(point - corner));
        match (start > 0.0, end > 0.0) {
            (false, false) => return None,
            (false, true) => enter = enter.max(start / (start - end)),
            (true, false) => leave = leave.min(start / (start - end)),
            (true, true) => {}
        }
    }
    (enter < leave).then_some([enter, leave])
}

#[cfg(test)]
mod tests {
    use super::*;

    const OVER: [[f64; 2]; 4] = [[2.0, -1.0], [4.0, -1.0], [4.0, 1.0], [2.0, 1.0]];

    #[test]
    fn a_line_under_a_pole_is_cut_where_that_pole_begins_and_ends() {
        let seen = left_of([[0.0, 0.0], [8.0, 0.0]], &[&OVER]);
        assert_eq!(seen, [[[0.0, 0.0], [2.0, 0.0]], [[4.0, 0.0], [8.0, 0.0]]]);
        assert_eq!(left_of([[2.5, 0.0], [3.5, 0.0]], &[&OVER]), Vec::<[[f64; 2]; 2]>::new());
        assert_eq!(left_of([[0.0, 2.0], [8.0, 2.0]], &[&OVER]).len(), 1);
    }

    #[test]
    fn a_pole_is_as_wide_at_its_ends_as_it_is_measured() {
        let corners = outline([Point::new(0.0, 0.0), Point::new(4.0, 0.0)], [0.24, 0.2]);
        assert_eq!(corners, [(0.0, 0.12), (4.0, 0.1), (4.0, -0.1), (0.0, -0.12)].map(|(x, y)| Point::new(x, y)));
    }
}
