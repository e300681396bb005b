//! What is said of the library itself.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::Serialize;

use crate::sheet::{Form, LibraryShown, RangeShown, ShopFile, Weakened};
use crate::text;
use crate::units::Unit;

use super::notation::{FieldName, Number, UnitName, name};

/// The library.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Library")]
pub(in crate::write) struct About<'a> {
    /// What the shop calls it; else its file or folder.
    name: Cow<'a, str>,
    /// Where it was read from, as the user gave it.
    path: &'a str,
    /// The form that it is kept in.
    #[schemars(extend("enum" = Form::ALL.map(Form::name)))]
    form: &'static str,
    /// The units that its people read: those of messages. All other numbers have their own unit.
    #[schemars(extend("enum" = ["mm", "in"]))]
    units: &'static str,
    /// The shop file that counts most.
    config: Option<String>,
    /// The shop files that were used; the last counts most.
    shop_files: Vec<File>,
    /// Properties that are not stated and taken as a range.
    ranges: Vec<Ranged>,
    /// What shop files relax.
    weakened: Vec<String>,
    /// The shop's own values that stand in for what no record states.
    defaults: &'a [String],
    /// Inputs that should be part of it, or of what it is judged by, and were not read.
    unread: Vec<Unread<'a>>,
    /// Other files in folders of rules that are not read.
    passed_over: Vec<Unread<'a>>,
}

/// A shop file.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "ShopFile")]
struct File {
    /// The file.
    file: String,
    /// Whose it is: one above the library, or named by an option, is the plant's.
    #[schemars(extend("enum" = ["plant", "library"]))]
    of: &'static str,
}

/// A property that is not stated and taken as a range.
#[derive(Serialize, JsonSchema)]
struct Ranged {
    /// The property.
    field: FieldName,
    /// Its least and its greatest value.
    range: [Number; 2],
    /// The unit of both.
    unit: UnitName,
    /// On how many assemblies something was judged over it.
    assemblies: usize,
}

/// A file that was not read.
#[derive(Serialize, JsonSchema)]
struct Unread<'a> {
    /// The file.
    file: &'a str,
    /// Why it was not read, and what to do.
    reason: &'a str,
}

impl<'a> About<'a> {
    pub(in crate::write) fn of(library: &'a LibraryShown) -> About<'a> {
        About {
            name: name(&library.name),
            path: &library.path,
            form: library.form,
            units: library.units,
            config: library.shop_files.last().map(ShopFile::name),
            shop_files: library.shop_files.iter().map(File::of).collect(),
            ranges: library.ranges.iter().map(Ranged::of).collect(),
            weakened: library.weakened.iter().map(Weakened::told).collect(),
            defaults: &library.defaults,
            unread: library.unread.iter().map(Unread::of).collect(),
            passed_over: library.passed_over.iter().map(Unread::of).collect(),
        }
    }
}

impl File {
    fn of(file: &ShopFile) -> File {
        File {
            file: file.name(),
            of: if file.own { "library" } else { "plant" },
        }
    }
}

impl Ranged {
    fn of(range: &RangeShown) -> Ranged {
        Ranged {
            field: FieldName(range.field),
            range: [Number(range.range.0), Number(range.range.1)],
            unit: UnitName::from(Unit::Mm),
            assemblies: range.tools,
        }
    }
}

impl<'a> Unread<'a> {
    fn of(input: &'a text::Unread) -> Unread<'a> {
        Unread {
            file: &input.file,
            reason: &input.reason,
        }
    }
}
