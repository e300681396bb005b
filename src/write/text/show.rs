//! Which levels the full text shows: errors, warnings, notes, what is not judged.

use crate::sheet::{Level, Summary};

/// What of a report is shown as text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[expect(clippy::struct_excessive_bools, reason = "each can be asked for alone")]
pub struct Show {
    /// Errors.
    pub error: bool,
    /// Warnings.
    pub warning: bool,
    /// Notes.
    pub note: bool,
    /// What could not be judged.
    pub not_judged: bool,
}

impl Show {
    /// Everything.
    #[must_use]
    pub const fn all() -> Show {
        Show {
            error: true,
            warning: true,
            note: true,
            not_judged: true,
        }
    }

    /// What is shown unless the user says otherwise: notes only once nothing worse is left.
    #[must_use]
    pub const fn by_default(summary: &Summary) -> Show {
        Show {
            note: summary.error == 0,
            ..Show::all()
        }
    }

    pub(super) const fn takes(self, level: Option<Level>) -> bool {
        match level {
            Some(Level::Error) => self.error,
            Some(Level::Warning) => self.warning,
            Some(Level::Note) | None => false,
        }
    }
}
