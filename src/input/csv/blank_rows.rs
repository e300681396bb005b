//! Rows of a table that hold nothing.

use crate::text::Span;

/// How many rows of a table have cells and none that holds anything, and where the first is. An
/// empty line is no row.
#[derive(Clone, Copy, Debug, Default)]
pub struct BlankRows {
    /// The first of them.
    pub first: Option<Span>,
    /// How many there are.
    pub many: usize,
}

impl BlankRows {
    /// Takes one.
    pub(super) fn add(&mut self, row: Span) {
        self.first = self.first.or(Some(row));
        self.many += 1;
    }

    /// Those of rows, and of others behind them.
    #[must_use]
    pub fn then(self, behind: BlankRows) -> BlankRows {
        BlankRows {
            first: self.first.or(behind.first),
            many: self.many + behind.many,
        }
    }
}
