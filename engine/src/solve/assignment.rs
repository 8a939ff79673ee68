//! The cheapest way to give each row a column of its own.

/// Rows that compete for too few columns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shortage {
    /// The rows, one more than there are columns for them.
    pub rows: Vec<usize>,
    /// The only columns that any of them can take.
    pub columns: Vec<usize>,
}

/// The column of each row, at the least sum of costs; a cost that is infinite forbids the pair. Rows of equal length, at
/// most as many as columns, or some row goes without.
///
/// Shortest augmenting paths with prices on rows and columns: rows² times columns steps.
///
/// Source: R. Jonker and A. Volgenant, Computing 38 (1987) 325-340, without their reduction (from memory; a test counts out
/// every arrangement).
///
/// # Errors
/// The rows that no arrangement can serve together.
pub fn assignment(costs: &[Vec<f64>]) -> Result<Vec<usize>, Shortage> {
    let columns = costs.first().map_or(0, Vec::len);
    let mut prices = Prices { rows: vec![0.0; costs.len()], columns: vec![0.0; columns], taken: vec![None; columns] };
    for row in 0..costs.len() {
        prices.serve(costs, row)?;
    }
    let mut chosen = vec![0; costs.len()];
    for (column, row) in prices.taken.iter().enumerate() {
        if let Some(row) = row {
            chosen[*row] = column;
        }
    }
    Ok(chosen)
}

struct Prices {
    rows: Vec<f64>,
    columns: Vec<f64>,
    taken: Vec<Option<usize>>,
}

impl Prices {
    /// Gives a row its column, moving those that stand in the way along the cheapest path.
    fn serve(&mut self, costs: &[Vec<f64>], start: usize) -> Result<(), Shortage> {
        let count = self.columns.len();
        let (mut far, mut from, mut is_seen) = (vec![f64::INFINITY; count], vec![None; count], vec![false; count]);
        let (mut row, mut through) = (start, None);
        loop {
            let mut nearest: Option<usize> = None;
            for column in (0..count).filter(|&column| !is_seen[column]) {
                let reach = costs[row][column] - self.rows[row] - self.columns[column];
                if reach < far[column] {
                    (far[column], from[column]) = (reach, through);
                }
                if nearest.is_none_or(|best| far[column] < far[best]) {
                    nearest = Some(column);
                }
            }
            let Some(column) = nearest.filter(|&column| far[column].is_finite()) else {
                return Err(self.shortage(start, &is_seen));
            };
            self.raise(far[column], start, &is_seen);
            let step = far[column];
            far.iter_mut().zip(&is_seen).filter(|(_, seen)| !**seen).for_each(|(far, _)| *far -= step);
            is_seen[column] = true;
            let Some(holder) = self.taken[column] else {
                self.hand_over(column, start, &from);
                return Ok(());
            };
            (row, through) = (holder, Some(column));
        }
    }

    fn raise(&mut self, step: f64, start: usize, is_seen: &[bool]) {
        self.rows[start] += step;
        for (column, holder) in self.taken.iter().enumerate() {
            if let (true, Some(row)) = (is_seen[column], holder) {
                self.rows[*row] += step;
                self.columns[column] -= step;
            }
        }
    }

    fn hand_over(&mut self, mut column: usize, start: usize, from: &[Option<usize>]) {
        while let Some(before) = from[column] {
            self.taken[column] = self.taken[before];
            column = before;
        }
        self.taken[column] = Some(start);
    }

    fn shortage(&self, start: usize, is_seen: &[bool]) -> Shortage {
        let columns: Vec<usize> = (0..is_seen.len()).filter(|&column| is_seen[column]).collect();
        let mut rows: Vec<usize> = columns.iter().filter_map(|&column| self.taken[column]).chain([start]).collect();
        rows.sort_unstable();
        Shortage { rows, columns }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cost(costs: &[Vec<f64>], chosen: &[usize]) -> f64 {
        costs.iter().zip(chosen).map(|(row, &column)| row[column]).sum()
    }

    fn least(costs: &[Vec<f64>], row: usize, taken: &mut Vec<usize>) -> f64 {
        if row == costs.len() {
            return 0.0;
        }
        let mut best = f64::INFINITY;
        for column in 0..costs[row].len() {
            if !taken.contains(&column) {
                taken.push(column);
                best = best.min(costs[row][column] + least(costs, row + 1, taken));
                taken.pop();
            }
        }
        best
    }

    #[test]
    fn no_arrangement_is_cheaper_when_all_are_counted_out() {
        let mut state = 1_u64;
        let mut draw = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((state >> 33) % 1000) as f64
        };
        for (rows, columns) in [(1, 1), (3, 3), (5, 5), (4, 7), (6, 8)] {
            for _ in 0..40 {
                let costs: Vec<Vec<f64>> = (0..rows)
                    .map(|_| {
                        (0..columns)
                            .map(|_| Some(draw()).filter(|cost| *cost > 150.0).unwrap_or(f64::INFINITY))
                            .collect()
                    })
                    .collect();
                let expected = least(&costs, 0, &mut Vec::new());
                match assignment(&costs) {
                    Ok(chosen) => assert_eq!(cost(&costs, &chosen), expected),
                    Err(_) => assert!(expected.is_infinite()),
                }
            }
        }
    }

    #[test]
    fn rows_that_want_the_same_few_columns_are_named_with_them() {
        let never = f64::INFINITY;
        let costs = vec![vec![1.0, never, never], vec![2.0, 3.0, 4.0], vec![5.0, never, never]];
        assert_eq!(assignment(&costs), Err(Shortage { rows: vec![0, 2], columns: vec![0] }));
        assert_eq!(assignment(&[vec![never, never]]), Err(Shortage { rows: vec![0], columns: vec![] }));
        assert_eq!(assignment(&[]), Ok(vec![]));
        let crowd = vec![vec![1.0, 1.0]; 3];
        assert_eq!(assignment(&crowd).map_err(|short| short.rows.len()), Err(3));
    }
}
