//! Obstacles by the strips of the sheet that they lie in, so that a label asks only those at its own level.

use super::area::Area;
use super::labels::Obstacle;

/// Height of a strip in millimetres: about that of a label.
const STRIP: f64 = 4.0;

/// Obstacles in level strips from the top of the sheet down.
pub(super) struct Strips<'a> {
    top: f64,
    strips: Vec<Vec<(&'a Obstacle, usize)>>,
}

impl<'a> Strips<'a> {
    /// Sorts obstacles into the strips of a sheet; what lies beyond its edge counts to the strip beside it.
    pub(super) fn of(sheet: Area, obstacles: &'a [Obstacle]) -> Strips<'a> {
        let count = (sheet.height() / STRIP).max(0.0) as usize + 1;
        let mut sorted = Strips { top: sheet.top, strips: vec![Vec::new(); count] };
        for obstacle in obstacles {
            let (top, bottom) = match obstacle {
                Obstacle::Area(area, _) => (area.top, area.bottom),
                Obstacle::Segment(from, to, _) => (from[1].min(to[1]), from[1].max(to[1])),
            };
            let first = sorted.strip(top);
            for strip in first..=sorted.strip(bottom) {
                sorted.strips[strip].push((obstacle, first));
            }
        }
        sorted
    }

    fn strip(&self, level: f64) -> usize {
        (((level - self.top) / STRIP).max(0.0) as usize).min(self.strips.len() - 1)
    }

    /// The obstacles at the level of a box, each once.
    pub(super) fn beside(&self, area: Area) -> impl Iterator<Item = &'a Obstacle> {
        let (top, bottom) = (self.strip(area.top), self.strip(area.bottom));
        // One that lies in several of these strips is taken in the first of them that it shares with the box.
        let own = move |strip: usize| self.strips[strip].iter().filter(move |(_, first)| strip == top.max(*first));
        (top..=bottom).flat_map(own).map(|(obstacle, _)| *obstacle)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SHEET: Area = Area { left: 0.0, top: 0.0, right: 100.0, bottom: 50.0 };

    #[test]
    fn an_obstacle_at_the_level_of_a_box_is_found_once_and_one_at_another_level_is_not() {
        let tall = Obstacle::Segment([5.0, 48.0], [60.0, 1.0], 1.0);
        let outside = Obstacle::Area(Area::about([10.0, 70.0], 4.0, 30.0), 1.0);
        let high = Obstacle::Segment([0.0, 2.0], [100.0, 2.0], 1.0);
        let all = [tall, outside, high];
        let strips = Strips::of(SHEET, &all);
        let found: Vec<&Obstacle> = strips.beside(Area::about([50.0, 40.0], 20.0, 30.0)).collect();
        assert_eq!(found, [&tall, &outside]);
    }
}
