//! Workbooks of spreadsheets: `.xlsx` and `.ods` become sheets, each a text in CSV with the cell
//! that each stretch of it is.
//!
//! A number is written as it is stored, to the fifteen digits that a spreadsheet shows, with a
//! point: no decimal comma can go wrong. What a text cannot tell, that a cell is a date, an error
//! value or a formula without value, is kept beside it.
//!
//! The parts are read here and not by a crate for spreadsheets. What is hidden, merged, shown as a
//! percentage or never computed is known only while the cells are read. And limits must hold
//! before a repeated row is written out, not behind it.

mod archive;
mod grid;
mod ods;
mod rich_text;
mod value;
mod worksheet;
mod xlsx;
mod xml;

use archive::Archive;
pub use archive::is_workbook;
pub use grid::{Area, Grid};

use crate::text::{Source, quoted};

/// How OpenDocument names spreadsheets, and templates for them.
const SPREADSHEET: &str = "application/vnd.oasis.opendocument.spreadsheet";
/// How it names anything.
const DOCUMENT: &str = "application/vnd.oasis.opendocument.";
/// Bytes that such a name has at most.
const NAME: u64 = 200;

/// How much of each sheet is read.
#[derive(Clone, Copy, Debug)]
pub struct Wanted {
    /// Up to this row: what a file is can be told from its first ones.
    rows: u32,
}

impl Wanted {
    /// Everything.
    pub const ALL: Wanted = Wanted { rows: u32::MAX };
    /// What tells whether it is a library.
    pub const HEAD: Wanted = Wanted { rows: 64 };
}

/// One sheet of a workbook.
#[derive(Debug)]
pub struct Sheet {
    /// Its name.
    pub name: String,
    /// Whether it is hidden.
    pub hidden: bool,
    /// Its cells.
    pub grid: Grid,
}

impl Sheet {
    /// The sheet as a source of the workbook called `file`.
    ///
    /// # Errors
    /// If it is larger than a text can be.
    pub fn source(&mut self, file: &str) -> Result<Source, String> {
        let lines = self.grid.lines(&self.name);
        let (text, places) = lines.map_err(|why| {
            format!(
                "is a workbook that cannot be read: {why}, in its sheet `{}`; keep the library in a workbook of its own",
                quoted(&self.name)
            )
        })?;
        Source::of_sheet(file, text, places).map_err(|why| why.to_string())
    }
}

/// Reads the sheets of a workbook, those without any cell too.
///
/// # Errors
/// If it is none, or one that is not read: the reason, and what to do.
pub fn read(bytes: &[u8], wanted: Wanted) -> Result<Vec<Sheet>, String> {
    let mut archive = Archive::open(bytes)?;
    let kind = archive.start("mimetype", NAME);
    let kind = kind.map(|bytes| String::from_utf8_lossy(&bytes).trim().to_owned());
    match kind {
        Some(kind) if kind.starts_with(SPREADSHEET) => return ods::read(&mut archive, wanted),
        Some(kind) if kind.starts_with(DOCUMENT) => {
            let what = kind.strip_prefix(DOCUMENT).unwrap_or_default();
            return Err(format!(
                "is an OpenDocument file, and no spreadsheet (`{}`); save the table as .ods, .xlsx or CSV",
                quoted(what)
            ));
        }
        _ => {}
    }
    if archive.has("xl/workbook.bin") {
        return Err(
            "is a workbook in binary form, .xlsb, which is not read; save it as .xlsx or .ods"
                .to_owned(),
        );
    }
    if archive.has_ending("vbaProject.bin") {
        return Err(
            "is a workbook with macros, which may change its cells whenever it is opened; save it as .xlsx or .ods without them"
                .to_owned(),
        );
    }
    xlsx::read(&mut archive, wanted)
}
