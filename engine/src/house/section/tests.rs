//! The cross-section of first builds, cut at and near every named point of the line.

use super::*;
use crate::build::{self, Source};
use crate::solve::polygon;

const SHAPES: [&str; 4] = ["ring", "bean", "rounded", "free"];
const SIZES: [(&str, &str); 12] = [
    ("5 m", "3.6 m"),
    ("5.4 m", "4.2 m"),
    ("3.2 m", "2.4 m"),
    ("3.6 m", "3.6 m"),
    ("4 m", "3 m"),
    ("4.2 m", "3.3 m"),
    ("4.5 m", "4.5 m"),
    ("4.8 m", "2.8 m"),
    ("6 m", "4 m"),
    ("6.5 m", "3.9 m"),
    ("7 m", "4.4 m"),
    ("8 m", "4.5 m"),
];

fn begun(shape: &str, (length, width): (&str, &str)) -> House {
    let text = build::begin(shape, length, width, "Wren house", "metric").unwrap();
    let source = Source::new(&text);
    crate::house::place(&source, &build::read(&source, &text)).unwrap()
}

fn all() -> impl Iterator<Item = (String, House)> {
    let of =
        |shape: &'static str| SIZES.map(|size| (format!("{shape} of {} by {}", size.0, size.1), begun(shape, size)));
    SHAPES.into_iter().flat_map(of)
}

/// Cuts at a distance beside each named point and each summit of either face, along both axes.
fn beside(house: &House, off: f64) -> Vec<Cut> {
    let half = 0.5 * house.wall.thickness.value.in_m();
    let line = &house.wall.line;
    let mut points: Vec<Point> = (0..house.wall.points.len()).map(|at| line.named_point(at).point).collect();
    for offset in [-half, half] {
        let (extent, _) = line.extent(offset);
        points.extend([Point::new(extent.x0, extent.y0), Point::new(extent.x1, extent.y1)]);
    }
    let ways = [Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0)];
    let cut =
        |point: Point| ways.map(|along| Cut { origin: point + along.turn_90() * off, along, beyond: along.turn_90() });
    points.into_iter().flat_map(cut).collect()
}

/// Whether a place of the cut, or one a hair to either side of it, lies between the outlines of a body or not: along a straight
/// face either is true.
fn lies(outlines: &[Vec<Point>], cut: &Cut, place: f64, inside: bool) -> bool {
    let at = cut.origin + cut.along * place;
    [-1e-5, 1e-5].into_iter().any(|aside| {
        let holds = |outline: &&Vec<Point>| polygon::contains(outline, at + cut.along.turn_90() * aside);
        (outlines.iter().filter(holds).count() % 2 == 1) == inside
    })
}

#[test]
fn a_cut_at_or_near_a_named_point_is_inside_the_wall_and_outside_it_by_turns() {
    for (what, house) in all() {
        let half = 0.5 * house.wall.thickness.value.in_m();
        let outlines = house.wall.line.band(-half, half, 1e-7);
        for off in [0.0, 1e-16, -1e-16, 1e-12, -1e-12, 1e-9, -1e-9, 1e-6, -1e-6, 1e-3, -1e-3] {
            for cut in beside(&house, off) {
                let spans = through(&house, -half, half, &cut);
                let mut at = -20.0;
                for [from, to] in spans.iter().copied().chain([[20.0, 20.0]]) {
                    // Where a face is only touched, what lies between is no wider than the chord error of the outline.
                    if from - at > 2e-3 {
                        assert!(
                            lies(&outlines, &cut, at.midpoint(from), false),
                            "{what}, {off} m beside {:?}: {spans:?}",
                            cut.origin
                        );
                    }
                    if to - from > 2e-3 {
                        assert!(
                            lies(&outlines, &cut, from.midpoint(to), true),
                            "{what}, {off} m beside {:?}: {spans:?}",
                            cut.origin
                        );
                    }
                    at = to;
                }
            }
        }
    }
}

#[test]
fn the_length_that_is_cut_does_not_leap_beside_a_named_point() {
    for (what, house) in all() {
        let half = 0.5 * house.wall.thickness.value.in_m();
        let sum = |cut: &Cut| -> f64 { through(&house, -half, half, cut).iter().map(|[from, to]| to - from).sum() };
        let cuts = [0.0, 1e-9, -1e-9, 1e-7, -1e-7].map(|off| beside(&house, off));
        for place in 0..cuts[0].len() {
            // Only a straight face in the cut makes the length leap.
            let graze = !house.wall.line.pieces().iter().all(|piece| piece.curvature() != 0.0);
            let here = sum(&cuts[0][place]);
            for near in &cuts[1..] {
                let apart = (sum(&near[place]) - here).abs();
                assert!(graze || apart < 4e-3, "{what}: {apart} m beside {:?}", cuts[0][place].origin);
            }
        }
    }
}

/// Area of the cob in the cross-section, as it is drawn.
fn area(house: &House) -> f64 {
    let parts = section(house).parts;
    let cob = parts.iter().filter(|part| part.path == "wall").flat_map(|part| &part.outlines);
    cob.map(|outline| polygon::area(&outline.points)).sum()
}

#[test]
fn the_first_cross_section_of_every_shape_shows_a_wall_over_the_door_and_one_across_the_room() {
    for (what, house) in all() {
        let shown = section(&house);
        let of = |path: &str| -> Vec<&Outline> {
            shown.parts.iter().filter(|part| part.path == path).flat_map(|part| &part.outlines).collect()
        };
        for (path, count) in [("wall.stem", 2), ("water.trench", 2), ("ground.floor", 1), ("ground.outside", 2)] {
            assert_eq!(of(path).len(), count, "{what}: {path}");
        }
        // Where the window stands opposite the door, there is cob under it and over it.
        assert!((2..=3).contains(&of("wall").len()), "{what}: {} pieces", of("wall").len());
        let width = |outline: &&Outline| {
            let across = outline.points.iter().map(|point| point.x);
            across.clone().fold(f64::MIN, f64::max) - across.fold(f64::MAX, f64::min)
        };
        // Square to the wall at the door it is as thick as is written, elsewhere it is cut slantwise.
        let least = of("wall.stem").iter().map(width).fold(f64::MAX, f64::min);
        assert!((0.449..0.46).contains(&least), "{what}: a stem of {least} m");
        for outline in of("wall") {
            assert!((0.36..1.5).contains(&width(&outline)), "{what}: {} m thick", width(&outline));
        }
        assert!(width(&of("ground.floor")[0]) > 1.0, "{what}");
        // Door of 1.95 m under 2.1 m of wall, the other wall whole; faces lean by 1:25 outside.
        assert!((0.5..3.0).contains(&area(&house)), "{what}: {} m2", area(&house));
    }
}

#[test]
fn the_area_of_the_cob_in_a_cross_section_does_not_leap_when_its_place_is_moved_by_less_than_a_hair() {
    for (what, mut house) in all() {
        let line = house.wall.line.clone();
        for name in 0..house.wall.points.len() {
            let along = line.along_line(line.named_point(name));
            let mut at = |along: f64| {
                house.openings[0].station = line.at(along);
                (cut(&house), area(&house))
            };
            let (here, whole) = at(along);
            for near in [-1e-9, 1e-9] {
                let (there, beside) = at(along + near);
                // On an arc and off it the direction of the cut is the same.
                if (here.along - there.along).hypot() < 1e-6 {
                    assert!((whole - beside).abs() < 0.01, "{what}: {whole} and {beside} m2 at point {name}");
                }
            }
        }
    }
}
