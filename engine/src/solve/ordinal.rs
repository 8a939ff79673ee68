//! Ordered grades explained by numbers: a cumulative logistic model, its slopes held near nothing by a weak prior.

/// One graded thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Graded {
    /// What explains its grade.
    pub row: Vec<f64>,
    /// Its grade, from 0.
    pub grade: usize,
    /// How much of one thing it is in how sure the model is: less than one where several grade the same thing.
    pub counts: f64,
}

/// The model: P(grade ≤ k) = logistic(cutₖ − slopes · row).
#[derive(Clone, Debug, PartialEq)]
pub struct Ordinal {
    /// One cut above each grade but the last that occurs.
    pub cuts: Vec<f64>,
    /// A slope for each number; above zero, more of it means a higher grade.
    pub slopes: Vec<f64>,
    /// The logarithm of the chance of all grades as they are, without the prior.
    pub log_chance: f64,
    /// The grades that occur, rising; cuts stand between them.
    pub grades: Vec<usize>,
    /// How sharply the chance of all falls off about the model, its prior with it: the lower half of −H, cuts before slopes.
    sharp: Vec<Vec<f64>>,
}

/// Newton's steps; far fewer are taken.
const STEPS: usize = 100;
/// A step this small ends it.
const SMALL: f64 = 1e-10;

/// The likeliest model, each slope drawn to nothing by a normal prior of a deviation; none of fewer than two grades.
///
/// Source: P. McCullagh, Journal of the Royal Statistical Society B 42 (1980) 109-142, from memory.
#[must_use]
pub fn likeliest(graded: &[Graded], prior: f64) -> Option<Ordinal> {
    let mut grades: Vec<usize> = graded.iter().map(|one| one.grade).collect();
    grades.sort_unstable();
    grades.dedup();
    let width = graded.first()?.row.len();
    let cuts = grades.len().checked_sub(1).filter(|cuts| *cuts > 0)?;
    let place = |grade: usize| grades.iter().position(|own| *own == grade).unwrap_or(0);
    let levels: Vec<usize> = graded.iter().map(|one| place(one.grade)).collect();
    let mut model: Vec<f64> = (0..cuts)
        .map(|cut| {
            let below = levels.iter().filter(|level| **level <= cut).count() as f64 / levels.len() as f64;
            (below / (1.0 - below)).ln()
        })
        .collect();
    model.resize(cuts + width, 0.0);
    let likelihood = Likelihood { graded, levels: &levels, cuts, weight: prior.powi(-2) };
    let mut value = likelihood.value(&model);
    for _ in 0..STEPS {
        let step = likelihood.step(&model)?;
        let mut share = 1.0;
        let moved = loop {
            let tried: Vec<f64> = model.iter().zip(&step).map(|(own, step)| own + share * step).collect();
            let found = likelihood.value(&tried);
            if found >= value {
                model = tried;
                value = found;
                break share;
            }
            share *= 0.5;
            if share < SMALL {
                break 0.0;
            }
        };
        if moved * step.iter().fold(0.0_f64, |most, own| most.max(own.abs())) < SMALL {
            break;
        }
    }
    let (_, sharp) = likelihood.slope_and_bend(&model, |one| one.counts);
    let slopes = model.split_off(cuts);
    let log_chance = value + 0.5 * prior.powi(-2) * slopes.iter().map(|slope| slope * slope).sum::<f64>();
    Some(Ordinal { cuts: model, slopes, log_chance, grades, sharp })
}

impl Ordinal {
    /// The chance of a grade not above one; none where no grade occurred at or below it, or none above: that none was seen
    /// makes it neither sure nor impossible.
    #[must_use]
    pub fn at_most(&self, row: &[f64], grade: usize) -> Option<f64> {
        let cut = self.cuts.get(self.cut(grade)?)?;
        Some(logistic(cut - self.pull(row)))
    }

    /// The place of the cut above a grade.
    fn cut(&self, grade: usize) -> Option<usize> {
        self.grades.iter().filter(|own| **own <= grade).count().checked_sub(1)
    }

    fn pull(&self, row: &[f64]) -> f64 {
        row.iter().zip(&self.slopes).map(|(x, b)| x * b).sum()
    }

    /// How that chance moves with each cut and each slope.
    #[must_use]
    pub fn moves(&self, row: &[f64], grade: usize) -> Option<Vec<f64>> {
        let (chance, at) = (self.at_most(row, grade)?, self.cut(grade)?);
        let steep = chance * (1.0 - chance);
        let cuts = (0..self.cuts.len()).map(|cut| if cut == at { steep } else { 0.0 });
        Some(cuts.chain(row.iter().map(|x| -steep * x)).collect())
    }

    /// One deviation of what moves so, once as many more things as there are rows have been graded, each of which counts so much.
    ///
    /// The chance of all is taken as bell-shaped about the model; a thing that is graded next tells what it is expected to tell.
    ///
    /// Source: R. A. Fisher's information, from any book of statistics.
    #[must_use]
    pub fn deviation(&self, moves: &[f64], next: &[Vec<f64>], counts: f64) -> Option<f64> {
        let mut sharp = self.sharp.clone();
        next.iter().for_each(|row| self.sharpen(&mut sharp, row, counts));
        let solved = solved(sharp, moves.to_vec())?;
        Some(solved.iter().zip(moves).map(|(a, b)| a * b).sum::<f64>().max(0.0).sqrt())
    }

    /// Adds what one more thing is expected to tell: Σ ∇p ∇pᵀ / p over its grades.
    fn sharpen(&self, sharp: &mut [Vec<f64>], row: &[f64], counts: f64) {
        let (pull, count) = (self.pull(row), self.cuts.len());
        for level in 0..=count {
            let upper = self.cuts.get(level).map_or(1.0, |cut| logistic(cut - pull));
            let lower = level.checked_sub(1).map_or(0.0, |below| logistic(self.cuts[below] - pull));
            let (up, down, chance) = (upper * (1.0 - upper), lower * (1.0 - lower), upper - lower);
            let mut moves = vec![0.0; count];
            level.checked_sub(1).into_iter().for_each(|below| moves[below] = -down);
            moves.get_mut(level).into_iter().for_each(|own| *own = up);
            moves.extend(row.iter().map(|x| (down - up) * x));
            for (at, own) in sharp.iter_mut().enumerate() {
                let own = own.iter_mut().zip(&moves).take(at + 1);
                own.for_each(|(value, other)| *value += counts * moves[at] * other / chance);
            }
        }
    }
}

fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}

struct Likelihood<'g> {
    graded: &'g [Graded],
    levels: &'g [usize],
    cuts: usize,
    weight: f64,
}

impl Likelihood<'_> {
    /// The chances below and above a grade's two cuts.
    fn sides(&self, model: &[f64], at: usize) -> [f64; 2] {
        let pull: f64 = self.graded[at].row.iter().zip(&model[self.cuts..]).map(|(x, b)| x * b).sum();
        let level = self.levels[at];
        let upper = if level < self.cuts { logistic(model[level] - pull) } else { 1.0 };
        let lower = if level > 0 { logistic(model[level - 1] - pull) } else { 0.0 };
        [lower, upper]
    }

    /// The logarithm of the chance with the prior; nothing is as unlikely as cuts out of order.
    fn value(&self, model: &[f64]) -> f64 {
        let chances = (0..self.graded.len()).map(|at| {
            let [lower, upper] = self.sides(model, at);
            if upper > lower { (upper - lower).ln() } else { f64::NEG_INFINITY }
        });
        chances.sum::<f64>() - 0.5 * self.weight * model[self.cuts..].iter().map(|slope| slope * slope).sum::<f64>()
    }

    /// Newton's step: the logarithm of the chance is bent downwards everywhere, so it leads up.
    fn step(&self, model: &[f64]) -> Option<Vec<f64>> {
        let (rise, sharp) = self.slope_and_bend(model, |_| 1.0);
        solved(sharp, rise)
    }

    /// How the logarithm of the chance rises with each number of the model, and how sharply it is bent: the lower half of −H; each
    /// thing counts so much.
    fn slope_and_bend(&self, model: &[f64], counts: impl Fn(&Graded) -> f64) -> (Vec<f64>, Vec<Vec<f64>>) {
        let count = model.len();
        let (mut rise, mut bend) = (vec![0.0; count], vec![vec![0.0; count]; count]);
        for (at, one) in self.graded.iter().enumerate() {
            let [lower, upper] = self.sides(model, at);
            let chance = upper - lower;
            let (up, down) = (upper * (1.0 - upper), lower * (1.0 - lower));
            let [by_upper, by_lower] = [up / chance, -down / chance];
            let bent_upper = up * (1.0 - 2.0 * upper) / chance - by_upper.powi(2);
            let bent_lower = -down * (1.0 - 2.0 * lower) / chance - by_lower.powi(2);
            let bent_both = up * down / chance.powi(2);
            let (level, weight) = (self.levels[at], counts(one));
            // How each number of the model moves the upper and the lower side.
            let moves = |index: usize| -> [f64; 2] {
                match index.checked_sub(self.cuts) {
                    Some(slope) => [-one.row[slope]; 2],
                    None => [f64::from(u8::from(index == level)), f64::from(u8::from(index + 1 == level))],
                }
            };
            for row in 0..count {
                let [a, b] = moves(row);
                rise[row] += weight * (a * by_upper + b * by_lower);
                for (column, bent) in bend[row].iter_mut().enumerate().take(row + 1) {
                    let [c, d] = moves(column);
                    *bent -= weight * (a * c * bent_upper + b * d * bent_lower + (a * d + b * c) * bent_both);
                }
            }
        }
        for slope in self.cuts..count {
            rise[slope] -= self.weight * model[slope];
            bend[slope][slope] += self.weight;
        }
        (rise, bend)
    }
}

/// Solves −H step = rise by Cholesky's factor of −H, given by its lower half.
fn solved(sharp: Vec<Vec<f64>>, mut side: Vec<f64>) -> Option<Vec<f64>> {
    let count = side.len();
    let mut factor = sharp;
    for row in 0..count {
        for column in 0..=row {
            let sum: f64 = (0..column).map(|k| factor[row][k] * factor[column][k]).sum();
            let own = factor[row][column] - sum;
            factor[row][column] =
                if row == column { Some(own).filter(|own| *own > 0.0)?.sqrt() } else { own / factor[column][column] };
        }
    }
    for row in 0..count {
        let sum: f64 = (0..row).map(|k| factor[row][k] * side[k]).sum();
        side[row] = (side[row] - sum) / factor[row][row];
    }
    for row in (0..count).rev() {
        let sum: f64 = (row + 1..count).map(|k| factor[k][row] * side[k]).sum();
        side[row] = (side[row] - sum) / factor[row][row];
    }
    Some(side)
}

#[cfg(test)]
mod tests {
    use super::*;

    const GRADES: [(f64, f64, usize); 20] = [
        (0.94, 0.41, 3),
        (0.51, 0.89, 2),
        (0.98, 0.33, 1),
        (0.08, -0.73, 1),
        (0.61, -0.0, 1),
        (0.38, -0.01, 0),
        (0.8, 0.0, 1),
        (0.17, 0.92, 2),
        (0.87, -0.3, 3),
        (0.54, -0.55, 2),
        (0.9, 0.04, 3),
        (0.48, 0.28, 0),
        (0.43, 0.88, 2),
        (0.79, 0.16, 2),
        (0.98, -0.46, 3),
        (0.37, 0.86, 0),
        (0.97, -0.02, 2),
        (0.93, 0.35, 2),
        (0.18, -0.05, 3),
        (0.61, -0.57, 2),
    ];
    const EXPECTED: [f64; 6] = [-0.440788337, 0.751427896, 2.635763553, 2.337314940, -0.435288410, -24.947459478];

    fn graded() -> Vec<Graded> {
        GRADES.iter().map(|&(x, z, grade)| Graded { row: vec![x, z], grade, counts: 1.0 }).collect()
    }

    /// Cuts, slopes and the logarithm of the chance by an independent statistics package.
    #[test]
    fn without_a_prior_the_model_is_that_of_another_package() {
        let model = likeliest(&graded(), 1e6).unwrap();
        let found: Vec<f64> = model.cuts.iter().chain(&model.slopes).copied().chain([model.log_chance]).collect();
        for (found, expected) in found.iter().zip(EXPECTED) {
            assert!((found - expected).abs() < 2e-4, "{found} is not {expected}");
        }
    }

    /// Against numpy 2.3: second differences of the logarithm of the chance, its inverse, and what one more thing is expected to tell.
    #[test]
    fn how_far_a_chance_may_be_off_is_what_differences_of_another_library_say() {
        let model = likeliest(&graded(), 2.5).unwrap();
        let row = [0.3, 0.5];
        let moves = model.moves(&row, 1).unwrap();
        let near =
            |found: f64, expected: f64| assert!((found / expected - 1.0).abs() < 1e-6, "{found} is not {expected}");
        near(model.at_most(&row, 1).unwrap(), 0.516_684_105);
        near(model.deviation(&moves, &[], 1.0).unwrap(), 0.169_335_957);
        near(model.deviation(&moves, &[vec![0.6, -0.2]], 1.0).unwrap(), 0.168_192_971);
    }

    #[test]
    fn three_who_grade_a_thing_alike_each_counted_a_third_make_the_model_as_sure_as_one() {
        let three = graded().into_iter().flat_map(|one| [(); 3].map(|()| Graded { counts: 1.0 / 3.0, ..one.clone() }));
        let (three, one) = (likeliest(&three.collect::<Vec<_>>(), 1e6).unwrap(), likeliest(&graded(), 1e6).unwrap());
        let row = [0.3, 0.5];
        let sure = |model: &Ordinal| model.deviation(&model.moves(&row, 1).unwrap(), &[], 1.0).unwrap();
        assert!((sure(&three) / sure(&one) - 1.0).abs() < 1e-6, "{} {}", sure(&three), sure(&one));
        let next = vec![vec![0.6, -0.2]; 3];
        let after = |model: &Ordinal, next: &[Vec<f64>], counts| {
            model.deviation(&model.moves(&row, 1).unwrap(), next, counts).unwrap()
        };
        assert!((after(&three, &next, 1.0 / 3.0) / after(&one, &next[..1], 1.0) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn grades_that_a_number_parts_cleanly_keep_a_finite_slope_and_one_grade_alone_has_no_model() {
        let parted: Vec<Graded> =
            (0..8).map(|x| Graded { row: vec![f64::from(x)], grade: usize::from(x > 3), counts: 1.0 }).collect();
        let model = likeliest(&parted, 2.5).unwrap();
        assert!(model.slopes[0] > 0.5 && model.slopes[0] < 10.0, "{model:?}");
        assert!(model.at_most(&[0.0], 0).unwrap() > 0.9 && model.at_most(&[7.0], 0).unwrap() < 0.1);
        assert_eq!(likeliest(&parted[..3], 2.5), None);
    }

    #[test]
    fn chances_rise_from_grade_to_grade_and_none_is_told_outside_of_the_grades_that_occurred() {
        let model = likeliest(&graded(), 2.5).unwrap();
        let chances: Vec<f64> = (0..3).map(|grade| model.at_most(&[0.3, 0.5], grade).unwrap()).collect();
        assert!(chances.windows(2).all(|pair| pair[0] < pair[1]) && chances[2] < 1.0, "{chances:?}");
        assert_eq!(model.at_most(&[0.3, 0.5], 3), None, "no grade above 3 was seen");
        let higher: Vec<Graded> = graded().into_iter().map(|one| Graded { grade: one.grade + 1, ..one }).collect();
        assert_eq!(likeliest(&higher, 2.5).unwrap().at_most(&[0.3, 0.5], 0), None, "nor any as low as 0");
    }
}
