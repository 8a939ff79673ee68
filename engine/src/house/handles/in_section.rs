//! Handles of the cross-section: levels of floor and ground, the stem, the height and the thickness of the wall.

use kurbo::{Point, Vec2};

use super::on_wall::rise_of_top;
use super::{Held, Hold, On, Rise, Way};
use crate::house::House;
use crate::house::section::{cut, through, top_at};

pub(super) fn held(house: &House) -> Vec<Held> {
    let wall = &house.wall;
    let cut = cut(house);
    let half = 0.5 * wall.stem_width.value.in_m();
    let stems = through(house, -half, half, &cut);
    let (Some(first), Some(last)) = (stems.first(), stems.last()) else { return Vec::new() };
    let up = |x: f64, y: f64| (On::Section, Point::new(x, y), Way::Up);
    let level = |path: &str| Hold::Rise(vec![Rise::level(path)]);
    let mut all = Vec::new();
    let ground = house.ground.value.in_m();
    all.push(Held::new(
        "ground.outside",
        "ground outside".to_owned(),
        up(last[1] + 0.35, ground),
        level("ground.outside"),
    ));
    if wall.line.is_closed() {
        let floor = house.floor_level.value.in_m();
        let middle = stems.get(1).map_or(0.0, |second| first[1].midpoint(second[0]));
        all.push(Held::new("ground.floor", "finished floor".to_owned(), up(middle, floor), level("ground.floor")));
    }
    let foot = wall.stem_height.value.in_m();
    let hold = Hold::Rise(vec![Rise { path: "wall.stem.height".to_owned(), sign: -1.0, more: 0.0 }]);
    all.push(Held::new(
        "wall.stem.height",
        "foot of the stem wall".to_owned(),
        up(last[0].midpoint(last[1]), -foot),
        hold,
    ));
    if wall.top.is_level() {
        let at = up(last[0].midpoint(last[1]), top_at(house, *last, &cut));
        all.push(Held::new("wall.height", "top of the wall".to_owned(), at, rise_of_top(house, 0.0)));
    }
    if wall.thicknesses.is_even() {
        // The cut is square to the wall where it begins, at the door.
        let is_square = !house.openings.is_empty() || !wall.line.is_closed();
        let outer = Point::new(-0.5 * wall.thickness.value.in_m(), 0.0);
        let across = Vec2::new(-1.0, 0.0);
        let hold = Hold::Width { path: "wall.thickness".to_owned(), middle: Point::ORIGIN, across };
        let held =
            Held::new("wall.thickness", "thickness of the wall".to_owned(), (On::Section, outer, Way::Along), hold);
        all.extend(is_square.then(|| held.axis(across)));
    }
    all
}
