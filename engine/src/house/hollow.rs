//! The outlines of an upright rectangle with rectangles taken out of it.

use kurbo::{Point, Rect};

/// Sides nearer to each other than this are one side, in metres.
const SAME: f64 = 1e-9;

/// A corner of the grid that the sides of all rectangles make: column and row.
type Corner = (usize, usize);

/// The outlines of `body` without `holes`, in metres, the solid to the left of each; an outline within another is a hole.
pub(super) fn hollow(body: Rect, holes: &[Rect]) -> Vec<Vec<Point>> {
    let holes: Vec<&Rect> = holes.iter().filter(|hole| hole.overlaps(body)).collect();
    let columns = sides([body.x0, body.x1], holes.iter().flat_map(|hole| [hole.x0, hole.x1]));
    let rows = sides([body.y0, body.y1], holes.iter().flat_map(|hole| [hole.y0, hole.y1]));
    let (across, up) = (columns.len().saturating_sub(1), rows.len().saturating_sub(1));
    let mut solid = vec![true; across * up];
    for hole in holes {
        let within = |sides: &[f64], [from, to]: [f64; 2]| {
            let is_in = |side: &[f64]| (from..to).contains(&side[0].midpoint(side[1]));
            sides.windows(2).enumerate().filter(|(_, side)| is_in(side)).map(|(at, _)| at).collect::<Vec<_>>()
        };
        let (own_columns, own_rows) = (within(&columns, [hole.x0, hole.x1]), within(&rows, [hole.y0, hole.y1]));
        for row in own_rows {
            own_columns.iter().for_each(|column| solid[row * across + column] = false);
        }
    }
    let is_solid = |column: usize, row: usize| solid[row * across + column];
    // The ways that leave each corner, the solid to their left.
    let mut ways: Vec<Vec<Corner>> = vec![Vec::new(); columns.len() * rows.len()];
    let index = |(column, row): Corner| row * columns.len() + column;
    for column in 0..across {
        for row in (0..up).filter(|&row| is_solid(column, row)) {
            let [right, top] = [column + 1, row + 1];
            for ([from, to], is_bare) in [
                ([(column, row), (right, row)], row == 0 || !is_solid(column, row - 1)),
                ([(right, row), (right, top)], right == across || !is_solid(right, row)),
                ([(right, top), (column, top)], top == up || !is_solid(column, top)),
                ([(column, top), (column, row)], column == 0 || !is_solid(column - 1, row)),
            ] {
                if is_bare {
                    ways[index(from)].push(to);
                }
            }
        }
    }
    let mut outlines = Vec::new();
    for row in 0..rows.len() {
        for start in (0..columns.len()).map(|column| (column, row)) {
            while let Some(first) = ways[index(start)].pop() {
                let mut corners = vec![start, first];
                while let Some(&last) = corners.last()
                    && last != start
                    && let Some(next) = ways[index(last)].pop()
                {
                    corners.push(next);
                }
                corners.pop();
                outlines.push(turns(&corners).map(|(column, row)| Point::new(columns[column], rows[row])).collect());
            }
        }
    }
    outlines
}

/// The ends of a body and the sides of holes between them, in order, each once.
fn sides([least, greatest]: [f64; 2], of_holes: impl Iterator<Item = f64>) -> Vec<f64> {
    let inside = of_holes.filter(|side| *side > least + SAME && *side < greatest - SAME);
    let mut sides: Vec<f64> = inside.chain([least, greatest]).collect();
    sides.sort_by(f64::total_cmp);
    sides.dedup_by(|a, b| (*a - *b).abs() < SAME);
    sides
}

/// The corners at which a closed way turns.
fn turns(corners: &[Corner]) -> impl Iterator<Item = Corner> {
    let count = corners.len();
    let at = move |index: usize| corners[index % count];
    let is_turn = move |index: &usize| {
        let (before, here, after) = (at(index + count - 1), at(*index), at(index + 1));
        (before.0 == here.0) != (here.0 == after.0)
    };
    (0..count).filter(is_turn).map(at)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(outlines: &[Vec<Point>]) -> f64 {
        let twice = |points: &Vec<Point>| -> f64 {
            (0..points.len()).map(|i| points[i].to_vec2().cross(points[(i + 1) % points.len()].to_vec2())).sum()
        };
        outlines.iter().map(|points| 0.5 * twice(points)).sum()
    }

    #[test]
    fn a_door_is_a_notch_a_window_a_hole_and_an_opening_at_the_end_a_step() {
        let body = Rect::new(0.0, 0.0, 10.0, 2.0);
        let door = hollow(body, &[Rect::new(2.0, -0.5, 3.0, 1.9)]);
        assert_eq!((door.len(), door[0].len()), (1, 8));
        assert!((area(&door) - 18.1).abs() < 1e-12);
        let window = hollow(body, &[Rect::new(2.0, 0.5, 3.0, 1.5)]);
        assert_eq!((window.len(), window[0].len(), window[1].len()), (2, 4, 4));
        assert!((area(&window) - 19.0).abs() < 1e-12);
        let end = hollow(body, &[Rect::new(-1.0, 0.5, 1.0, 1.5)]);
        assert_eq!((end.len(), end[0].len()), (1, 8));
        assert!((area(&end) - 19.0).abs() < 1e-12);
    }

    #[test]
    fn holes_that_touch_and_a_body_cut_through_leave_closed_outlines() {
        let body = Rect::new(0.0, 0.0, 10.0, 2.0);
        let corner_to_corner = hollow(body, &[Rect::new(2.0, 0.5, 3.0, 1.0), Rect::new(3.0, 1.0, 4.0, 1.5)]);
        assert!((area(&corner_to_corner) - 19.0).abs() < 1e-12);
        let through = hollow(body, &[Rect::new(2.0, -1.0, 3.0, 3.0)]);
        assert_eq!(through.len(), 2);
        assert!((area(&through) - 18.0).abs() < 1e-12);
        assert!(hollow(body, &[Rect::new(-1.0, -1.0, 11.0, 3.0)]).is_empty());
        assert!(hollow(Rect::new(0.0, 0.0, 1.0, 0.0), &[]).is_empty());
    }
}
