//! From metres of the house to millimetres of a drawing and back.

use kurbo::{Point, Rect};

/// Blank paper round the drawn part, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Margins {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

/// A drawn part in metres with its margins; several stand below each other on one sheet.
pub(super) type Row = (Rect, Margins);

/// The frame of a drawing: its scale, and which part of the house each of its rows shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    pub(super) size_mm: [f64; 2],
    pub(super) times_smaller: f64,
    /// The scale in words; empty on a screen.
    pub(super) words: &'static str,
    pub(super) rows: Vec<Row>,
}

impl Frame {
    /// Where a point of the house, in metres of the drawing's own plane, lies on the sheet, in millimetres. Rows count from 0
    /// at the top; one that is not there is taken for the last.
    #[must_use]
    pub fn at(&self, point: Point, row: usize) -> [f64; 2] {
        let (top, (extent, margins)) = self.row(row);
        let x = margins.left + self.paper(point.x - extent.x0);
        [x, top + margins.top + self.paper(extent.y1 - point.y)]
    }

    /// Which row a place on the sheet, in millimetres, lies in, and the point of the house there, in metres.
    #[must_use]
    pub fn house(&self, [x, y]: [f64; 2]) -> (usize, Point) {
        let last = self.rows.len().saturating_sub(1);
        let is_above = |row: &usize| y < self.row(row + 1).0;
        let row = (0..last).find(is_above).unwrap_or(last);
        let (top, (extent, margins)) = self.row(row);
        let metres = |paper: f64| paper * self.times_smaller / 1000.0;
        (row, Point::new(extent.x0 + metres(x - margins.left), extent.y1 - metres(y - top - margins.top)))
    }

    /// How many rows stand below each other.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.rows.len()
    }

    /// Metres of the house in millimetres of the sheet.
    pub(super) fn paper(&self, metres: f64) -> f64 {
        metres * 1000.0 / self.times_smaller
    }

    /// Where a row begins on the sheet, in millimetres, and the row.
    fn row(&self, row: usize) -> (f64, Row) {
        let row = row.min(self.rows.len().saturating_sub(1));
        let height = |(extent, margins): &Row| self.paper(extent.height()) + margins.top + margins.bottom;
        (self.rows[..row].iter().map(height).sum(), self.rows[row])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_to_the_sheet_and_back_ends_where_it_began_in_every_row() {
        let margins = Margins { left: 5.0, top: 13.0, right: 40.0, bottom: 9.0 };
        let rows = vec![(Rect::new(0.0, -0.6, 8.0, 2.2), margins), (Rect::new(8.0, -0.6, 16.0, 2.2), margins)];
        let frame = Frame { size_mm: [205.0, 170.0], times_smaller: 50.0, words: "", rows };
        for (row, point) in [(0, Point::new(3.0, 1.2)), (1, Point::new(9.5, -0.2))] {
            let (back, found) = frame.house(frame.at(point, row));
            assert!(back == row && found.distance(point) < 1e-12, "{point:?} in row {row} came back as {found:?}");
        }
    }
}
