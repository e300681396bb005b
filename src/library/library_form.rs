//! The forms that a library may be kept in.

/// The form a library is kept in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// One CSV file, a row an assembly.
    Flat,
    /// A folder of CSV tables.
    Folder,
    /// One XML document.
    Xml,
    /// One sheet of a workbook, a row an assembly.
    Sheet,
    /// A workbook whose sheets are tables.
    Workbook,
}

impl Form {
    /// All of them.
    pub const ALL: [Form; 5] = [
        Form::Flat,
        Form::Folder,
        Form::Xml,
        Form::Sheet,
        Form::Workbook,
    ];

    /// Its name in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Form::Flat => "csv",
            Form::Folder => "folder",
            Form::Xml => "xml",
            Form::Sheet => "sheet",
            Form::Workbook => "workbook",
        }
    }

    /// Whether it has one table, with a row for each tool.
    #[must_use]
    pub const fn is_flat(self) -> bool {
        matches!(self, Form::Flat | Form::Sheet)
    }
}
