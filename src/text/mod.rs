//! Bytes become text with places: what every later stage points back to.
//!
//! A [`Source`] is one decoded input. A [`Place`] names a stretch of one source and
//! costs twelve bytes, so that every field of a large library can keep its own.

mod clean;
mod how_many;
mod json_schema;
mod on_disk;
mod place;
mod sheet_places;
mod source;
mod suggest;
mod texts;
mod unread;

pub use clean::{cut, quoted, visible};
pub use how_many::counted;
pub use json_schema::described;
pub use on_disk::{names, no_file};
pub use place::{Place, Position, SourceId, Sources, Span};
pub use sheet_places::{Odd, SheetPlaces, SheetRow, cell_name, column_name, spot};
pub use source::{NotText, Source};
pub use suggest::{NameIndex, closest, is_slip, likeness};
pub use texts::Texts;
pub use unread::{Unread, Unreadable};
