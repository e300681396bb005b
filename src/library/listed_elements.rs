//! An XML document of unknown make as the table that a list of tools is.

use crate::input::unnamed::{self, UnnamedTable};
use crate::input::xml;
use crate::text::Source;
use crate::units::split_unit;

use super::columns::{Host, fields_of, renamed_to};
use super::{Kind, ReadSettings, hints};

/// The elements of a document that are read as rows.
#[derive(Debug)]
pub struct ListedElements {
    /// Their name.
    pub element: String,
    /// Them as a table.
    pub text: String,
    /// Other elements that repeat and are not within these: their name and how many there are.
    pub others: Vec<(String, usize)>,
}

/// Why a document is no list of tools, and where.
#[derive(Debug)]
pub struct NotListed {
    /// Line and column, if it is about one.
    pub at: Option<(usize, usize)>,
    /// What is wrong with it, and what to do.
    pub reason: String,
}

/// Reads a document as the table of those elements of which most columns are known.
///
/// # Errors
/// It is not well-formed, or none of its elements repeats.
pub fn listed_elements(
    source: &Source,
    settings: &ReadSettings,
) -> Result<ListedElements, NotListed> {
    let refused = |refusal: xml::Refusal| {
        let at = source.position(refusal.span.range().start);
        NotListed {
            at: Some((at.line, at.column)),
            reason: refusal.reason,
        }
    };
    let tables = unnamed::read(source).map_err(refused)?;
    let score = |table: &UnnamedTable| {
        let once = |column: &&String| {
            let mut all = table.columns.iter();
            all.by_ref().find(|one| one == column);
            !all.any(|one| one == *column)
        };
        let once = table.columns.iter().filter(once);
        let known = once.clone().filter(|column| is_known(column, settings));
        (known.count(), once.count())
    };
    let mut best: Option<(&UnnamedTable, (usize, usize))> = None;
    for table in &tables {
        let own = score(table);
        // Of two alike the outer one.
        if best.is_none_or(|(_, known)| own > known) {
            best = Some((table, own));
        }
    }
    let Some((table, _)) = best else {
        return Err(NotListed {
            at: None,
            reason: "is XML in which no element repeats; expected an element for each tool, two at least".to_owned(),
        });
    };
    let others = tables.iter().filter(|other| {
        other.element != table.element && !table.holds(other) && !other.holds(table)
    });
    Ok(ListedElements {
        element: table.element.clone(),
        text: as_csv(table),
        others: others
            .map(|other| (other.element.clone(), other.rows.len()))
            .collect(),
    })
}

/// Whether a path, or its last part, is a header that is known or a word of the trade.
fn is_known(column: &str, settings: &ReadSettings) -> bool {
    let last = column.rsplit('/').next().unwrap_or(column);
    [column, last].into_iter().any(|name| {
        let meant = renamed_to(name, &settings.columns);
        let bare = split_unit(meant).0;
        !fields_of(bare, Kind::Assembly).is_empty()
            || hints::is_word(bare, Host::table(Kind::Assembly))
    })
}

/// The table as text: semicolons part its cells where a number has a decimal comma.
fn as_csv(table: &UnnamedTable) -> String {
    let cells = || table.rows.iter().flatten().map(|(_, text)| text.as_str());
    let delimiter = if cells().any(has_decimal_comma) {
        b';'
    } else {
        b','
    };
    let mut writer = csv::WriterBuilder::new()
        .delimiter(delimiter)
        .from_writer(Vec::new());
    // Into memory nothing fails, and all rows are of one length.
    let _ = writer.write_record(&table.columns);
    let mut row = vec![""; table.columns.len()];
    for cells in &table.rows {
        row.fill("");
        for (at, text) in cells {
            if let Some(cell) = row.get_mut(*at) {
                *cell = text;
            }
        }
        let _ = writer.write_record(&row);
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8_lossy(&bytes).into_owned()
}

fn has_decimal_comma(text: &str) -> bool {
    let number = text.split_whitespace().next().unwrap_or("");
    let is_digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    number
        .trim_start_matches('-')
        .split_once(',')
        .is_some_and(|(whole, part)| is_digits(whole) && is_digits(part))
}
