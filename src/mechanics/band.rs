//! Symmetric systems of half bandwidth 3: what chains of two-node beam elements give.

#![expect(
    clippy::indexing_slicing,
    reason = "every index runs below the size that the matrix was made with"
)]

/// Half bandwidth: two unknowns a node.
const BAND: usize = 3;

/// The lower band of a symmetric, positive definite matrix.
#[derive(Clone, Debug)]
pub(super) struct Band {
    rows: Vec<[f64; BAND + 1]>,
}

impl Band {
    /// A zero matrix of this many unknowns.
    pub(super) fn new(size: usize) -> Band {
        Band {
            rows: vec![[0.0; BAND + 1]; size],
        }
    }

    /// Adds an element matrix whose first unknown is number `first`.
    pub(super) fn add(&mut self, first: usize, element: &[[f64; 4]; 4]) {
        for (i, row) in element.iter().enumerate() {
            for (j, value) in row.iter().enumerate().take(i + 1) {
                self.rows[first + i][i - j] += value;
            }
        }
    }

    /// Ties one unknown to nothing, by a stiffness that dwarfs all others.
    pub(super) fn fix(&mut self, unknown: usize) {
        let largest = self.rows.iter().map(|row| row[0]).fold(0.0, f64::max);
        self.rows[unknown][0] += largest * 1e9;
    }

    /// The product with a vector.
    pub(super) fn times(&self, vector: &[f64]) -> Vec<f64> {
        let mut product = vec![0.0; vector.len()];
        for (i, row) in self.rows.iter().enumerate() {
            product[i] += row[0] * vector[i];
            for back in 1..=BAND.min(i) {
                product[i] += row[back] * vector[i - back];
                product[i - back] += row[back] * vector[i];
            }
        }
        product
    }

    /// The Cholesky factor, in place.
    pub(super) fn factor(mut self) -> Factor {
        for i in 0..self.rows.len() {
            for back in (0..=BAND.min(i)).rev() {
                let j = i - back;
                let common = (1..=BAND.saturating_sub(back)).take_while(|k| *k <= j);
                let sum: f64 = common
                    .map(|k| self.rows[i][back + k] * self.rows[j][k])
                    .sum();
                let value = self.rows[i][back] - sum;
                self.rows[i][back] = if back == 0 {
                    value.sqrt()
                } else {
                    value / self.rows[j][0]
                };
            }
        }
        Factor(self)
    }
}

/// A factored matrix.
#[derive(Clone, Debug)]
pub(super) struct Factor(Band);

impl Factor {
    /// Solves for one right side.
    pub(super) fn solve(&self, right: &[f64]) -> Vec<f64> {
        let rows = &self.0.rows;
        let mut x = right.to_vec();
        for i in 0..x.len() {
            for back in 1..=BAND.min(i) {
                x[i] -= rows[i][back] * x[i - back];
            }
            x[i] /= rows[i][0];
        }
        for i in (0..x.len()).rev() {
            x[i] /= rows[i][0];
            for back in 1..=BAND.min(i) {
                x[i - back] -= rows[i][back] * x[i];
            }
        }
        x
    }
}
