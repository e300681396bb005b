//! Standing tables: what a standard or the trade says where a library is silent.
//!
//! The values stand in `rules/tables/`, each table with basis and source, and only ever make
//! assumptions.

use std::sync::LazyLock;

use serde::Deserialize;

/// One size of collet.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ColletSize {
    /// The size's number.
    pub size: f64,
    /// Overall length, mm.
    pub length: f64,
    /// Largest nominal bore, mm.
    pub bore_max: f64,
    /// How far below its nominal bore it is normally closed, mm.
    pub collapse: f64,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    dead_code,
    reason = "a table states its standing for its readers; only the rows are computed with"
)]
struct Head {
    title: String,
    unit: String,
    basis: String,
    source: String,
    reason: String,
}

#[derive(Debug, Deserialize)]
struct Shanks {
    #[serde(flatten)]
    _head: Head,
    rows: Vec<[f64; 2]>,
}

#[derive(Debug, Deserialize)]
struct Collets {
    #[serde(flatten)]
    _head: Head,
    size: Vec<ColletSize>,
}

/// The standing tables.
#[derive(Debug)]
pub struct Standing {
    shanks: Vec<[f64; 2]>,
    collets: Vec<ColletSize>,
}

impl Standing {
    /// Plain shank length of DIN 6535 for a shank diameter of its table, mm.
    #[must_use]
    pub fn shank_length(&self, diameter: f64) -> Option<f64> {
        let mut rows = self.shanks.iter();
        let row = rows.find(|[standard, _]| (standard - diameter).abs() <= 0.01);
        row.map(|[_, length]| *length)
    }

    /// The size of collet with this number.
    #[must_use]
    pub fn collet_size(&self, size: f64) -> Option<&ColletSize> {
        self.collets.iter().find(|row| row.size == size)
    }

    /// All sizes of collet.
    #[must_use]
    pub fn collet_sizes(&self) -> &[ColletSize] {
        &self.collets
    }
}

static STANDING: LazyLock<Standing> = LazyLock::new(|| Standing {
    shanks: parsed::<Shanks>(include_str!("../../rules/tables/shanks.toml")).rows,
    collets: parsed::<Collets>(include_str!("../../rules/tables/collets.toml")).size,
});

/// The standing tables of the program.
#[must_use]
pub fn standing() -> &'static Standing {
    &STANDING
}

#[expect(
    clippy::expect_used,
    reason = "the tables are part of the program, and a test reads them"
)]
fn parsed<T: for<'de> Deserialize<'de>>(text: &str) -> T {
    toml::from_str(text).expect("a built-in table is well formed")
}
