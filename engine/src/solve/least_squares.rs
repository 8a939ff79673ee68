//! Least squares by an orthogonal basis of the columns: A = Q R, every column made orthogonal twice.

/// A column is a sum of those before it when so little of its length is left.
const NOTHING_LEFT: f64 = 1e-11;

/// The matrix of a fit as Q R: columns of Q of length one at right angles to each other, R upper triangular.
#[derive(Clone, Debug, PartialEq)]
pub struct Basis {
    rows: usize,
    /// Columns of Q, one after the other.
    q: Vec<f64>,
    /// Columns of R, one after the other, each as long as the matrix is wide.
    r: Vec<f64>,
    width: usize,
}

impl Basis {
    /// The basis of a matrix given by its columns.
    ///
    /// Source: Gram and Schmidt, made orthogonal twice: G. W. Stewart, Matrix Algorithms I (1998), from memory.
    ///
    /// # Errors
    /// The first column that is a sum of those before it.
    pub fn of(columns: &[Vec<f64>]) -> Result<Basis, usize> {
        let (rows, width) = (columns.first().map_or(0, Vec::len), columns.len());
        let mut basis = Basis { rows, q: Vec::with_capacity(rows * width), r: vec![0.0; width * width], width };
        for (column, values) in columns.iter().enumerate() {
            let mut own = values.clone();
            for _ in 0..2 {
                for before in 0..column {
                    let part = dot(basis.column(before), &own);
                    basis.r[column * width + before] += part;
                    own.iter_mut().zip(basis.column(before)).for_each(|(value, unit)| *value -= part * unit);
                }
            }
            let (left, whole) = (dot(&own, &own).sqrt(), dot(values, values).sqrt());
            if left.is_nan() || left <= NOTHING_LEFT * whole {
                return Err(column);
            }
            basis.r[column * width + column] = left;
            basis.q.extend(own.iter().map(|value| value / left));
        }
        Ok(basis)
    }

    fn column(&self, index: usize) -> &[f64] {
        &self.q[index * self.rows..(index + 1) * self.rows]
    }

    /// The coefficients whose sum of columns comes nearest to a side: R b = Qᵀ y. The side is swept by one column after
    /// the other, so that what the first ones explain does not blur the last.
    #[must_use]
    pub fn coefficients(&self, side: &[f64]) -> Vec<f64> {
        let mut left = side.to_vec();
        let mut parts = vec![0.0; self.width];
        for (index, part) in parts.iter_mut().enumerate() {
            *part = dot(self.column(index), &left);
            left.iter_mut().zip(self.column(index)).for_each(|(value, unit)| *value -= *part * unit);
        }
        for row in (0..self.width).rev() {
            for column in row + 1..self.width {
                parts[row] -= self.r[column * self.width + row] * parts[column];
            }
            parts[row] /= self.r[row * self.width + row];
        }
        parts
    }

    /// R⁻ᵀ x: a row of the matrix, or of one more run, in the basis.
    #[must_use]
    pub fn turned(&self, row: &[f64]) -> Vec<f64> {
        let mut turned = row.to_vec();
        for column in 0..self.width {
            for before in 0..column {
                turned[column] -= self.r[column * self.width + before] * turned[before];
            }
            turned[column] /= self.r[column * self.width + column];
        }
        turned
    }

    /// How much of the variance of one run stands behind a fitted value: xᵀ (AᵀA)⁻¹ x.
    #[must_use]
    pub fn leverage(&self, row: &[f64]) -> f64 {
        let turned = self.turned(row);
        dot(&turned, &turned)
    }

    /// The leverage of each row of the matrix on its own fitted value.
    #[must_use]
    pub fn leverages(&self) -> Vec<f64> {
        (0..self.rows).map(|row| (0..self.width).map(|column| self.q[column * self.rows + row].powi(2)).sum()).collect()
    }

    /// The variance of each coefficient against that of one run: the diagonal of (AᵀA)⁻¹.
    #[must_use]
    pub fn variances(&self) -> Vec<f64> {
        let unit =
            |index: usize| (0..self.width).map(|other| f64::from(u8::from(other == index))).collect::<Vec<f64>>();
        (0..self.width).map(|index| self.leverage(&unit(index))).collect()
    }

    /// The weight of each run in a fitted value: xᵀ (AᵀA)⁻¹ Aᵀ.
    #[must_use]
    pub fn weights(&self, row: &[f64]) -> Vec<f64> {
        let turned = self.turned(row);
        (0..self.rows)
            .map(|run| turned.iter().enumerate().map(|(column, part)| part * self.q[column * self.rows + run]).sum())
            .collect()
    }
}

/// The sum of the products of two lists.
#[must_use]
pub fn dot(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(found: &[f64], expected: &[f64], within: f64) {
        for (found, expected) in found.iter().zip(expected) {
            assert!((found - expected).abs() <= within * expected.abs(), "{found:e} is not {expected:e}");
        }
    }

    const EMPLOYED: [f64; 16] = [
        60323., 61122., 60171., 61187., 63221., 63639., 64989., 63761., 66019., 67857., 68169., 66513., 68655., 69564.,
        69331., 70551.,
    ];
    const ECONOMY: [[f64; 16]; 6] = [
        [83.0, 88.5, 88.2, 89.5, 96.2, 98.1, 99.0, 100.0, 101.2, 104.6, 108.4, 110.8, 112.6, 114.2, 115.7, 116.9],
        [
            234289., 259426., 258054., 284599., 328975., 346999., 365385., 363112., 397469., 419180., 442769., 444546.,
            482704., 502601., 518173., 554894.,
        ],
        [
            2356., 2325., 3682., 3351., 2099., 1932., 1870., 3578., 2904., 2822., 2936., 4681., 3813., 3931., 4806.,
            4007.,
        ],
        [
            1590., 1456., 1616., 1650., 3099., 3594., 3547., 3350., 3048., 2857., 2798., 2637., 2552., 2514., 2572.,
            2827.,
        ],
        [
            107608., 108632., 109773., 110929., 112075., 113270., 115094., 116219., 117388., 118734., 120445., 121950.,
            123366., 125368., 127852., 130081.,
        ],
        [
            1947., 1948., 1949., 1950., 1951., 1952., 1953., 1954., 1955., 1956., 1957., 1958., 1959., 1960., 1961.,
            1962.,
        ],
    ];

    /// Source: NIST Statistical Reference Datasets, Longley, certified values, from memory; the data are those that a
    /// statistics package carries, and rational arithmetic gives the same digits.
    #[test]
    fn the_longley_data_give_the_certified_coefficients_and_their_deviations() {
        let mut columns = vec![vec![1.0; 16]];
        columns.extend(ECONOMY.iter().map(|column| column.to_vec()));
        let basis = Basis::of(&columns).unwrap();
        let found = basis.coefficients(&EMPLOYED);
        let certified = [
            -3_482_258.634_595_82,
            15.061_872_271_373_3,
            -0.035_819_179_292_591,
            -2.020_229_803_816_83,
            -1.033_226_867_173_59,
            -0.051_104_105_653_580_7,
            1_829.151_464_613_55,
        ];
        near(&found, &certified, 1e-7);
        let fitted = |run: usize| columns.iter().zip(&found).map(|(column, b)| column[run] * b).sum::<f64>();
        let squares: f64 = (0..16).map(|run| (EMPLOYED[run] - fitted(run)).powi(2)).sum();
        let spread = (squares / 9.0).sqrt();
        near(&[spread], &[304.854_073_561_965], 1e-9);
        let deviations: Vec<f64> = basis.variances().iter().map(|variance| spread * variance.sqrt()).collect();
        let certified = [
            890_420.383_607_373,
            84.914_925_774_766_9,
            0.033_491_007_772_243_2,
            0.488_399_681_651_699,
            0.214_274_163_161_675,
            0.226_073_200_069_37,
            455.478_499_142_212,
        ];
        near(&deviations, &certified, 1e-8);
    }

    /// Source: NIST Statistical Reference Datasets, Wampler 1 and 2: sums of powers of 0 to 20 whose coefficients are known.
    #[test]
    fn powers_up_to_the_fifth_give_back_the_coefficients_that_made_them() {
        let powers: Vec<Vec<f64>> = (0..6).map(|power| (0..21).map(|x| f64::from(x).powi(power)).collect()).collect();
        let basis = Basis::of(&powers).unwrap();
        for base in [1.0_f64, 0.1] {
            let expected: Vec<f64> = (0..6).map(|power| base.powi(power)).collect();
            let side: Vec<f64> =
                (0..21).map(|run| powers.iter().zip(&expected).map(|(x, b)| x[run] * b).sum()).collect();
            near(&basis.coefficients(&side), &expected, 1e-7);
        }
    }

    #[test]
    fn a_column_that_is_a_sum_of_others_is_named() {
        let columns = [vec![1.0, 0.0, 1.0, 0.5], vec![0.0, 1.0, 1.0, 0.5], vec![1.0, 1.0, 2.0, 1.0]];
        assert_eq!(Basis::of(&columns), Err(2));
        assert_eq!(Basis::of(&[vec![0.0, 0.0]]), Err(0));
    }

    #[test]
    fn leverages_add_up_to_the_number_of_columns_and_weights_give_the_fitted_value() {
        let columns = [vec![1.0; 5], vec![0.0, 1.0, 2.0, 4.0, 8.0]];
        let basis = Basis::of(&columns).unwrap();
        assert!((basis.leverages().iter().sum::<f64>() - 2.0).abs() < 1e-12);
        let side = [3.0, 1.0, 4.0, 1.0, 5.0];
        let b = basis.coefficients(&side);
        let row = [1.0, 3.0];
        assert!((dot(&basis.weights(&row), &side) - dot(&row, &b)).abs() < 1e-12);
        assert!((dot(&basis.weights(&row), &basis.weights(&row)) - basis.leverage(&row)).abs() < 1e-12);
    }
}
