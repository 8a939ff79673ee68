//! What the poles of a ring do to the wall, load by load.

use super::{Answers, Combination, Feet, Model};
use crate::units::Force;

/// What each pole does to the wall under each basic load: along x, along y, up.
pub type OnWall = Vec<Vec<[Force; 3]>>;

impl Model {
    /// For each kind of feet what each pole does to the wall under each basic load.
    #[must_use]
    pub fn on_wall(&self, answers: &Answers) -> Vec<(Feet, OnWall)> {
        let levels: Vec<[f64; 2]> = self
            .lies
            .iter()
            .map(|lie| {
                let way = lie.way(0.0);
                let long = way[0].hypot(way[1]);
                [way[0] / long, way[1] / long]
            })
            .collect();
        let turned = |(foot, level): (&[f64; 3], &[f64; 2])| {
            let [inwards, across, up] = *foot;
            let plan = [inwards * level[0] - across * level[1], inwards * level[1] + across * level[0], up];
            plan.map(|force| Force::n(-force))
        };
        let on_wall = |(feet, found): &(Feet, Vec<super::answers::Found>)| {
            let all = found.iter().map(|found| found.feet.iter().zip(&levels).map(turned).collect());
            (*feet, all.collect())
        };
        answers.of.iter().map(on_wall).collect()
    }
}

impl Answers {
    /// How many of each basic load a combination takes, in their order.
    #[must_use]
    pub fn shares(&self, combination: &Combination) -> Vec<f64> {
        self.factors(combination)
    }
}
