//! XML of unknown make: elements that repeat as siblings are rows, and what is in each is its cells.
//!
//! Nothing is known of any name. The document is read twice: which elements repeat is known only at
//! its end. What is not well-formed or brings entities of its own is refused at a place, and limits
//! hold for what is deeper or larger than an export of tools.

mod gathered;
mod repeated;
mod walk;

use crate::text::Source;

use super::xml::Refusal;
use gathered::Rows;
pub use gathered::UnnamedTable;
use repeated::Repeated;

/// The tables that a document may be: one for each element that repeats, the outermost first.
///
/// # Errors
/// Where and why the document is refused.
pub fn read(source: &Source) -> Result<Vec<UnnamedTable>, Refusal> {
    let mut repeated = Repeated::default();
    walk::walk(source, &mut repeated)?;
    let mut rows = Rows::new(repeated);
    walk::walk(source, &mut rows)?;
    Ok(rows.tables())
}
