//! Symmetric positive definite systems of equations with few terms in each row: an order that keeps the factor sparse, and
//! the factor L of A = L Lᵀ, by supernodes where they are worth it.
//!
//! The only caller of the library that factorises.

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::llt::factor::LltRegularization;
use faer::sparse::linalg::amd;
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, LltRef, SymbolicCholesky, SymbolicCholeskyRaw, SymmetricOrdering,
    factorize_symbolic_cholesky,
};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Conj, MatMut, Par, Side};

/// Why there is no factor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoFactor {
    /// The pivot of this equation is not above zero: the matrix is not positive definite.
    Pivot(usize),
    /// The factor does not fit into memory.
    TooLarge,
}

/// The upper half of a symmetric matrix, column by column, rows of a column from the first down, the last on the diagonal.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Columns {
    /// Where each column starts, and where the last ends.
    pub starts: Vec<usize>,
    /// The row of each term.
    pub rows: Vec<usize>,
}

impl Columns {
    /// The number of equations.
    #[must_use]
    pub fn count(&self) -> usize {
        self.starts.len().saturating_sub(1)
    }

    fn pattern(&self) -> SymbolicSparseColMatRef<'_, usize> {
        SymbolicSparseColMatRef::new_checked(self.count(), self.count(), &self.starts, None, &self.rows)
    }

    /// The diagonal of a matrix of this pattern.
    #[must_use]
    pub fn diagonal(&self, values: &[f64]) -> Vec<f64> {
        self.starts.iter().skip(1).map(|&end| values[end - 1]).collect()
    }

    /// The product of a matrix of this pattern with a vector.
    #[must_use]
    pub fn times(&self, values: &[f64], vector: &[f64]) -> Vec<f64> {
        let mut product = vec![0.0; self.count()];
        for column in 0..self.count() {
            let (from, last) = (self.starts[column], self.starts[column + 1] - 1);
            let mut sum = 0.0;
            for term in from..last {
                product[self.rows[term]] += values[term] * vector[column];
                sum += values[term] * vector[self.rows[term]];
            }
            product[column] += sum + values[last] * vector[column];
        }
        product
    }
}

/// The place of each vertex of a graph in an order of approximately least degree, so that few terms arise when its
/// equations are eliminated one after the other.
///
/// # Errors
/// When it does not fit into memory.
pub fn order(graph: &Columns) -> Result<Vec<usize>, NoFactor> {
    let count = graph.count();
    let mut memory =
        MemBuffer::try_new(amd::order_scratch::<usize>(count, graph.rows.len())).map_err(|_| NoFactor::TooLarge)?;
    let (mut vertices, mut places) = (vec![0; count], vec![0; count]);
    let stack = MemStack::new(&mut memory);
    amd::order(&mut vertices, &mut places, graph.pattern(), amd::Control::default(), stack)
        .map_err(|_| NoFactor::TooLarge)?;
    Ok(places)
}

/// What is known of the factor from the pattern alone.
#[derive(Debug)]
pub struct Plan {
    columns: Columns,
    symbolic: SymbolicCholesky<usize>,
}

/// The terms of a factor.
#[derive(Clone, Debug)]
pub struct Factor(Vec<f64>);

impl Plan {
    /// Looks at the pattern, in the order in which it is given.
    ///
    /// # Errors
    /// When it does not fit into memory.
    pub fn of(columns: Columns) -> Result<Plan, NoFactor> {
        let params = CholeskySymbolicParams::default();
        let symbolic = factorize_symbolic_cholesky(columns.pattern(), Side::Upper, SymmetricOrdering::Identity, params)
            .map_err(|_| NoFactor::TooLarge)?;
        Ok(Plan { columns, symbolic })
    }

    /// The pattern.
    #[must_use]
    pub fn columns(&self) -> &Columns {
        &self.columns
    }

    /// Factorises a matrix of this pattern.
    ///
    /// # Errors
    /// When the matrix is not positive definite to rounding, or the factor does not fit into memory.
    pub fn factor(&self, values: &[f64]) -> Result<Factor, NoFactor> {
        let matrix = SparseColMatRef::new(self.columns.pattern(), values);
        let need = self.symbolic.factorize_numeric_llt_scratch::<f64>(Par::Seq, faer::Spec::default());
        let mut memory = MemBuffer::try_new(need).map_err(|_| NoFactor::TooLarge)?;
        let mut terms = vec![0.0; self.symbolic.len_val()];
        self.symbolic
            .factorize_numeric_llt(
                &mut terms,
                matrix,
                Side::Upper,
                LltRegularization::default(),
                Par::Seq,
                MemStack::new(&mut memory),
                faer::Spec::default(),
            )
            .map_err(|error| match error {
                faer::linalg::cholesky::llt::factor::LltError::NonPositivePivot { index } => NoFactor::Pivot(index),
            })?;
        Ok(Factor(terms))
    }

    /// Solves for right-hand sides that stand one after the other, each replaced by its solution.
    ///
    /// # Errors
    /// When it does not fit into memory.
    pub fn solve(&self, factor: &Factor, sides: &mut [f64]) -> Result<(), NoFactor> {
        let count = self.columns.count();
        if count == 0 || sides.is_empty() {
            return Ok(());
        }
        let width = sides.len() / count;
        let need = self.symbolic.solve_in_place_scratch::<f64>(width, Par::Seq);
        let mut memory = MemBuffer::try_new(need).map_err(|_| NoFactor::TooLarge)?;
        let sides = MatMut::from_column_major_slice_mut(sides, count, width);
        let lower = LltRef::new(&self.symbolic, &factor.0);
        lower.solve_in_place_with_conj(Conj::No, sides, Par::Seq, MemStack::new(&mut memory));
        Ok(())
    }

    /// What elimination left of each diagonal term before it was divided by: its pivot.
    #[must_use]
    pub fn pivots(&self, factor: &Factor) -> Vec<f64> {
        let mut pivots = Vec::with_capacity(self.columns.count());
        match self.symbolic.raw() {
            SymbolicCholeskyRaw::Simplicial(plan) => {
                pivots.extend(plan.col_ptr().iter().take(plan.ncols()).map(|&start| factor.0[start]));
            }
            SymbolicCholeskyRaw::Supernodal(plan) => {
                for node in 0..plan.n_supernodes() {
                    let wide = plan.supernode_end()[node] - plan.supernode_begin()[node];
                    let high = wide + plan.nnz_per_super()[node];
                    let start = plan.col_ptr_for_val()[node];
                    pivots.extend((0..wide).map(|column| factor.0[start + column * high + column]));
                }
            }
        }
        pivots.iter().map(|root| root * root).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A grid of springs, `side` points square, each held a little: its pattern and values.
    fn grid(side: usize, held: f64) -> (Columns, Vec<f64>) {
        let (mut columns, mut values) = (Columns { starts: vec![0], rows: Vec::new() }, Vec::new());
        for at in 0..side * side {
            let before = [(at >= side).then(|| at - side), (at % side > 0).then(|| at - 1)];
            for other in before.into_iter().flatten() {
                columns.rows.push(other);
                values.push(-1.0);
            }
            let joined = usize::from(at % side > 0) + usize::from(at % side + 1 < side);
            let above = usize::from(at >= side) + usize::from(at + side < side * side);
            columns.rows.push(at);
            values.push((joined + above) as f64 + held);
            columns.starts.push(columns.rows.len());
        }
        (columns, values)
    }

    #[test]
    fn what_is_solved_gives_back_its_right_hand_sides_on_small_and_large_grids() {
        for side in [1, 3, 30, 80] {
            let (columns, values) = grid(side, 0.1);
            let count = columns.count();
            let sides: Vec<f64> = (0..2 * count).map(|at| (at as f64 * 0.7).sin()).collect();
            let plan = Plan::of(columns).unwrap();
            let factor = plan.factor(&values).unwrap();
            let mut solved = sides.clone();
            plan.solve(&factor, &mut solved).unwrap();
            for (own, side) in solved.chunks_exact(count).zip(sides.chunks_exact(count)) {
                let back = plan.columns().times(&values, own);
                assert!(back.iter().zip(side).all(|(a, b)| (a - b).abs() < 1e-10));
            }
        }
    }

    #[test]
    fn the_product_of_the_pivots_is_the_determinant() {
        let columns = Columns { starts: vec![0, 1, 3, 6], rows: vec![0, 0, 1, 0, 1, 2] };
        let plan = Plan::of(columns).unwrap();
        let pivots = plan.pivots(&plan.factor(&[4.0, 1.0, 3.0, 2.0, 1.0, 5.0]).unwrap());
        assert!((pivots.iter().product::<f64>() - 43.0).abs() < 1e-12, "{pivots:?}");
    }

    #[test]
    fn a_matrix_that_is_not_positive_definite_has_no_factor() {
        let (columns, values) = grid(20, -0.2);
        assert!(matches!(Plan::of(columns).unwrap().factor(&values), Err(NoFactor::Pivot(_))));
    }

    #[test]
    fn an_order_names_each_place_once() {
        let (columns, _) = grid(30, 1.0);
        let mut places = order(&columns).unwrap();
        places.sort_unstable();
        assert!(places.into_iter().eq(0..900));
    }
}
