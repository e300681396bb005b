//! What the shop accepts: a finding on a tool as it was then, until a day.

use std::fs;
use std::path::{Path, PathBuf};

use crate::text::Place;

use super::date::Date;

/// A finding that the shop accepts.
#[derive(Clone, Debug, PartialEq)]
pub struct Accept {
    /// The library that it counts for, if it names one.
    pub library: Option<NamedLibrary>,
    /// The rule.
    pub rule: String,
    /// The tool.
    pub tool_number: String,
    /// The machine, if only the tool of one of them is meant.
    pub machine: Option<String>,
    /// The operation, if only one of them is meant.
    pub operation: Option<String>,
    /// Why.
    pub reason: String,
    /// Who.
    pub by: String,
    /// Last day on which it holds.
    pub until: Option<Date>,
    /// What was accepted.
    pub was: Was,
    /// Where it says so.
    pub spots: Spots,
}

/// A library, as a shop file names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NamedLibrary {
    /// As it is written.
    pub written: String,
    /// Seen from where the run was started.
    pub path: PathBuf,
}

impl NamedLibrary {
    /// Where it is, if it is anywhere and may be a library: as seen from the folder of its file, else from a root. What
    /// is there below two roots could be either, and is neither.
    pub(super) fn place(
        &self,
        roots: &[PathBuf],
        is_library: &dyn Fn(&Path) -> bool,
    ) -> Option<PathBuf> {
        let found = |path: &Path| fs::canonicalize(path).ok().filter(|path| is_library(path));
        let beside = found(&self.path);
        beside.or_else(|| {
            let places = roots.iter().map(|root| root.join(&self.written));
            let mut places = places.filter_map(|place| found(&place));
            let first = places.next()?;
            places.all(|other| other == first).then_some(first)
        })
    }
}

/// What was accepted, as far as an entry says it. As written: which units and words a value may
/// have is known only to who knows the properties.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Was {
    /// The value, such as `21.0 mm`.
    pub value: Option<String>,
    /// What of the finding has that value, as its rule writes it: `gripped_length`.
    pub of: Option<String>,
    /// How much of what is needed that was.
    pub ratio: Option<f64>,
    /// Ids of the parts, in the order of [`PARTS`]; an empty one says that there was none.
    pub parts: [Option<String>; PARTS.len()],
    /// The tightening torque of the record; empty where it stated none.
    pub nut_torque: Option<String>,
    /// Properties of the operation and their values.
    pub values: Vec<(String, String)>,
}

/// The parts whose ids an entry may state, by their keys.
pub const PARTS: [&str; 4] = ["cutter", "collet", "nut", "holder"];

/// Where an entry says what.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Spots {
    /// The rule.
    pub rule: Place,
    /// The tool.
    pub tool_number: Place,
    /// The machine; where none is named, the tool.
    pub machine: Place,
    /// The operation; where none is named, the tool.
    pub operation: Place,
    /// The last day; where none is named, the rule.
    pub until: Place,
    /// The library; where none is named, the rule.
    pub library: Place,
}

impl Was {
    /// Whether the entry does not say what was accepted: then it accepts whatever comes.
    #[must_use]
    pub fn is_open(&self) -> bool {
        *self == Was::default()
    }

    /// Whether it says how much there was.
    #[must_use]
    pub fn states_value(&self) -> bool {
        self.value.is_some() || self.ratio.is_some()
    }
}
