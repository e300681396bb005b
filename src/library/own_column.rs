//! The shop's own headers, and how their columns are read.

use super::columns::normal;

/// A header of the shop's own.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OwnColumn {
    /// The header.
    pub header: String,
    /// The property that it means; none where the header names one itself.
    pub property: Option<String>,
    /// The unit of its bare numbers.
    pub unit: Option<String>,
    /// What its cells say, and what that means.
    pub values: Vec<(String, String)>,
    /// Whether it is not read.
    pub ignored: bool,
}

impl OwnColumn {
    /// Whether a header is this one.
    #[must_use]
    pub fn is(&self, header: &str) -> bool {
        normal(&self.header) == normal(header)
    }

    /// The property's name as a header would have it.
    pub(super) fn meant<'n>(&'n self, written: &'n str) -> &'n str {
        self.property.as_deref().unwrap_or(written)
    }
}

/// The entry for a header, if the shop has one.
pub(super) fn find<'o>(all: &'o [OwnColumn], header: &str) -> Option<&'o OwnColumn> {
    all.iter().find(|own| own.is(header))
}
