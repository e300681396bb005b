//! The kinds of record: assembly, cutter, collet, nut, holder, operation, stock.

use std::path::Path;

/// What a record describes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// A tool as built: cutter, collet, nut and holder put together.
    Assembly,
    /// A cutter: end mill, drill, tap.
    Cutter,
    /// A collet.
    Collet,
    /// A clamping nut.
    Nut,
    /// A holder.
    Holder,
    /// What a job asks of an assembly.
    Operation,
    /// What the crib has.
    Stock,
}

impl Kind {
    /// All kinds, in the order in which places of a finding are listed.
    pub const ALL: [Kind; 7] = [
        Kind::Assembly,
        Kind::Cutter,
        Kind::Collet,
        Kind::Nut,
        Kind::Holder,
        Kind::Operation,
        Kind::Stock,
    ];

    /// All kinds, in the order of the sections of a document: parts before what is put together.
    pub const IN_DOCUMENT: [Kind; 7] = [
        Kind::Cutter,
        Kind::Collet,
        Kind::Nut,
        Kind::Holder,
        Kind::Assembly,
        Kind::Operation,
        Kind::Stock,
    ];

    /// The kinds that an assembly is put together from.
    pub const PARTS: [Kind; 4] = [Kind::Cutter, Kind::Collet, Kind::Nut, Kind::Holder];

    /// The kinds that a row for each assembly may describe.
    pub const OF_A_ROW: [Kind; 6] = [
        Kind::Assembly,
        Kind::Cutter,
        Kind::Collet,
        Kind::Nut,
        Kind::Holder,
        Kind::Operation,
    ];

    /// The record's name, as headers and rules write it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Kind::Assembly => "assembly",
            Kind::Cutter => "cutter",
            Kind::Collet => "collet",
            Kind::Nut => "nut",
            Kind::Holder => "holder",
            Kind::Operation => "operation",
            Kind::Stock => "stock",
        }
    }

    /// Name of the section of an XML document that holds such records.
    #[must_use]
    pub const fn section(self) -> &'static str {
        match self {
            Kind::Assembly => "assemblies",
            Kind::Cutter => "cutters",
            Kind::Collet => "collets",
            Kind::Nut => "nuts",
            Kind::Holder => "holders",
            Kind::Operation => "operations",
            Kind::Stock => "stock",
        }
    }

    /// Name of the table of a folder that holds such records.
    #[must_use]
    pub const fn table(self) -> &'static str {
        match self {
            Kind::Assembly => "assemblies.csv",
            Kind::Cutter => "cutters.csv",
            Kind::Collet => "collets.csv",
            Kind::Nut => "nuts.csv",
            Kind::Holder => "holders.csv",
            Kind::Operation => "operations.csv",
            Kind::Stock => "stock.csv",
        }
    }

    /// Names of the table in a folder, where it may also be a workbook of its own.
    #[must_use]
    pub const fn tables(self) -> [&'static str; 3] {
        let [xlsx, ods] = match self {
            Kind::Assembly => ["assemblies.xlsx", "assemblies.ods"],
            Kind::Cutter => ["cutters.xlsx", "cutters.ods"],
            Kind::Collet => ["collets.xlsx", "collets.ods"],
            Kind::Nut => ["nuts.xlsx", "nuts.ods"],
            Kind::Holder => ["holders.xlsx", "holders.ods"],
            Kind::Operation => ["operations.xlsx", "operations.ods"],
            Kind::Stock => ["stock.xlsx", "stock.ods"],
        };
        [self.table(), xlsx, ods]
    }

    /// Whether a folder has its table, in whatever form.
    #[must_use]
    pub fn lies_in(self, folder: &Path) -> bool {
        let mut names = self.tables().into_iter();
        names.any(|name| folder.join(name).symlink_metadata().is_ok())
    }
}
