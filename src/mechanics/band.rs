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

    /// The same without the first so many unknowns, which are held fast.
    pub(super) fn without_first(self, fixed: usize) -> Band {
        let mut rows: Vec<_> = self.rows.into_iter().skip(fixed).collect();
        // Nothing reaches back to what is gone.
        for (i, row) in rows.iter_mut().take(BAND).enumerate() {
            row[i + 1..].fill(0.0);
        }
        Band { rows }
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

    /// The Cholesky factor, in place. On the diagonal stand the reciprocals: a division in
    /// every row of every solution would cost more than all else.
    pub(super) fn factor(mut self) -> Factor {
        for i in 0..self.rows.len() {
            let mut row = self.rows[i];
            // Entries before the first column are zeros in every row.
            for back in (1..=BAND.min(i)).rev() {
                let before = &self.rows[i - back];
                let mut value = row[back];
                for k in 1..=BAND - back {
                    value -= row[back + k] * before[k];
                }
                row[back] = value * before[0];
            }
            let square = row[1] * row[1] + row[2] * row[2] + row[3] * row[3];
            row[0] = 1.0 / (row[0] - square).sqrt();
            self.rows[i] = row;
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
        let mut x = right.to_vec();
        let mut behind = [0.0; BAND];
        for (row, x) in self.0.rows.iter().zip(&mut x) {
            // The newest value last, as the next one waits for it.
            let rest = *x - row[3] * behind[2] - row[2] * behind[1];
            *x = (rest - row[1] * behind[0]) * row[0];
            behind = [*x, behind[0], behind[1]];
        }
        // What the rows behind take off this one, the nearest first.
        let mut taken = [0.0; BAND];
        for (row, x) in self.0.rows.iter().zip(&mut x).rev() {
            *x = (*x - taken[0]) * row[0];
            taken = [taken[1] + row[1] * *x, taken[2] + row[2] * *x, row[3] * *x];
        }
        x
    }
}
