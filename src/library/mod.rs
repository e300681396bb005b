//! Typed, linked records: what the shop says it has, and how sure that is.
//!
//! Stated, derived, default, assumed and unknown are kept apart to the end.

mod as_written;
mod assembly;
mod beside_number;
mod beside_rows;
mod cell;
mod chunk;
mod clamping;
mod closed_lists;
mod columns;
mod constant;
mod decimal_marks;
mod fallback;
mod files;
mod framing;
mod gaps;
mod hints;
mod job;
mod kind;
mod library_form;
mod link;
mod listed_elements;
mod load;
mod odd_cell;
mod outline;
mod own;
mod own_column;
mod property;
mod provenance;
mod read_error;
mod read_settings;
mod recognise;
mod record;
mod setting;
mod shankless;
mod sheet_faults;
pub mod standard_sizes;
mod stating;
mod stray;
mod survey;
mod tables;
mod thread;
mod trace;
mod trade_size;
mod twice;
mod two_sizes;
mod unlisted;
mod unstated;
mod view;
mod watch;
mod workbook;
mod workpiece;
mod xml_sections;

pub use as_written::{PassedOver, Says, Written, WrittenCell, WrittenColumn, WrittenRow};
pub use assembly::{Assembly, OperationRef, Operations};
pub use closed_lists::{
    BoreForm, ClampingKind, ClosedList, ColletSystem, Coolant, CutterKind, CutterMaterial, FLAG,
    Hand, NutStyle, OfOneField, OperationKind, SeatForm, ShankForm, Wall, find as find_word,
};
pub use columns::{fields_of, header_of, normal};
pub use constant::{Constant, constant};
pub use fallback::{needed, reason};
pub use files::ASSETS;
pub use framing::{Framing, NoRecord};
pub use job::Job;
pub use kind::Kind;
pub use library_form::Form;
pub use listed_elements::{ListedElements, NotListed, listed_elements};
pub use load::{Beside, Input, Loaded, load, load_for, load_written};
pub use own::{DEFAULTED, Defaults, Own};
pub use own_column::OwnColumn;
pub use property::{Field, PROPERTIES, Property, Range, ValueType};
pub use provenance::{Marks, Provenance};
pub use read_error::ReadError;
pub use read_settings::ReadSettings;
pub use recognise::{Headers, Recognised, is_of_assets, is_own_document, recognise};
pub use record::{Entry, Record};
pub use setting::{Setting, Settings};
pub use survey::{Guess, Meaning, PartName, PartNames, StrangeWord, Survey, SurveyedColumn};
pub use thread::Thread;
pub use trace::{All, FieldSet, Reckoned, SettingSet, Trace};
pub use unstated::{Corner, RANGED, Ranges, Unstated};
pub use view::{LENGTHS, Origin, Overrides, View};
pub use watch::{Watch, Watched};
pub use workbook::listed_tools;
pub use workpiece::{CuttingForce, Workpiece};

use crate::input::Faults;
use crate::text::{Sources, Unread};
use crate::units::print::DisplayUnits;

/// A whole library: assemblies, the parts they name, operations and stock.
#[derive(Debug)]
pub struct Library {
    /// The name it goes by.
    pub name: String,
    /// The path as the user gave it.
    pub path: String,
    /// The form it was read from.
    pub form: Form,
    /// The units its people read.
    pub units: DisplayUnits,
    /// The sources, for every place.
    pub sources: Sources,
    /// The assemblies in their order.
    pub assemblies: Vec<Assembly>,
    records: [Vec<Record>; Kind::ALL.len()],
    /// The headers of its tables; none where not all that they hold was read, or where files beside
    /// it may be the ones that a shop file speaks of.
    pub headers: Option<Vec<String>>,
    /// What the shop says where the records are silent.
    pub own: Own,
    /// What is wrong with its form, gaps aside.
    pub(crate) faults: Faults,
    gaps: gaps::Gaps,
    /// Inputs that should be part of it and were not read.
    pub unread: Vec<Unread>,
}

impl Library {
    /// The records of a kind, assemblies aside.
    #[must_use]
    #[expect(clippy::indexing_slicing, reason = "one list for every kind")]
    pub fn records(&self, kind: Kind) -> &[Record] {
        &self.records[kind as usize]
    }
}
