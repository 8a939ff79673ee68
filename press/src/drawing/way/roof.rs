//! What the way round the house takes of the roof that is cut: its points, and what of it a strip shows.

use engine::pictures::RoofCut;
use kurbo::Point;

/// Everything of a roof that is drawn, as points of the section.
pub(super) fn points(roof: &RoofCut) -> impl Iterator<Item = Point> + '_ {
    let layers = roof.layers.iter().flat_map(|layer| layer.under.iter().chain(&layer.over));
    layers.chain(roof.cut.iter().flatten()).chain(roof.beyond.iter().flatten()).copied()
}

/// The roof without what lies to the left of a place.
pub(super) fn right_of(mut roof: RoofCut, left: f64) -> RoofCut {
    for layer in &mut roof.layers {
        layer.under = line_right_of(&layer.under, left);
        layer.over = line_right_of(&layer.over, left);
    }
    roof.layers.retain(|layer| layer.under.len() > 1 && layer.over.len() > 1);
    roof.beyond.retain(|axis| axis.iter().any(|end| end.x > left));
    roof.cut.retain(|outline| outline.iter().any(|point| point.x > left));
    roof.open.retain(|open| open[0].x > left);
    roof
}

fn line_right_of(line: &[Point], left: f64) -> Vec<Point> {
    let mut kept: Vec<Point> = line.iter().copied().filter(|point| point.x > left).collect();
    if kept.len() < line.len() && !kept.is_empty() {
        kept.insert(0, on(line, left));
    }
    kept
}

/// The place on a line that runs from left to right, its end where it does not reach so far.
pub(super) fn on(line: &[Point], across: f64) -> Point {
    let meets = line.windows(2).find(|pair| pair[1].x >= across && pair[1].x > pair[0].x);
    match meets {
        Some(pair) => pair[0].lerp(pair[1], ((across - pair[0].x) / (pair[1].x - pair[0].x)).max(0.0)),
        None => line.last().copied().unwrap_or_default(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_cut_off_where_it_passes_the_edge_of_the_strip() {
        let line = [(0.0, 0.0), (2.0, 1.0), (4.0, 1.0)].map(|(x, y)| Point::new(x, y));
        assert_eq!(line_right_of(&line, 1.0), [Point::new(1.0, 0.5), line[1], line[2]]);
        assert_eq!(line_right_of(&line, -1.0), line);
        assert_eq!(line_right_of(&line, 5.0), []);
        assert_eq!(on(&line, 9.0), line[2]);
    }
}
