//! What is to be said of a workbook's sheets besides their cells: which are not read, what is
//! hidden, and where cells are merged.

use crate::input::csv::cell_of;
use crate::input::sheet::Area;
use crate::input::{Fault, fault_kind};
use crate::text::{Place, Source, SourceId, Span, cell_name, column_name, quoted};

use super::stating::Target;
use super::workbook::{About, Left};

/// Most names of sheets in one message.
const LISTED: usize = 12;

/// Sheets that are not read, by what is said of them. The place is a sheet that is.
pub(super) fn left(left: &[Left], beside: SourceId) -> Vec<Fault> {
    let place = Place::file(beside);
    let fault = |sheets: String, how: &'static str, near: &'static str| {
        Fault::new(fault_kind::SHEET_NOT_READ, place, "")
            .with("sheets", sheets)
            .with("how", how)
            .with("near", near)
    };
    let meant = left.iter().filter_map(|one| Some((one, one.near?)));
    let mut faults: Vec<Fault> = meant
        .map(|(one, near)| fault(name(one), "one", near.section()))
        .collect();
    let other: Vec<&Left> = left.iter().filter(|one| one.near.is_none()).collect();
    let names: Vec<String> = other.iter().take(LISTED).map(|one| name(one)).collect();
    let more = other.len().saturating_sub(LISTED);
    let rest = match more {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    let how = if other.len() == 1 { "one" } else { "several" };
    if !other.is_empty() {
        faults.push(fault(format!("{}{rest}", names.join(", ")), how, ""));
    }
    faults
}

fn name(one: &Left) -> String {
    format!("`{}`", quoted(&one.name))
}

/// What is hidden and merged in a sheet, where it is read: `targets` says which columns are.
pub(super) fn of(
    source: &Source,
    about: &About,
    targets: &[Target],
    header: Option<Place>,
) -> Vec<Fault> {
    let Some(header) = header else {
        return Vec::new();
    };
    let mut faults: Vec<Fault> = hidden(about, header).into_iter().collect();
    let merged = about.grid.merged.iter();
    faults.extend(merged.filter_map(|area| merged_cell(source, area, targets, header)));
    faults
}

/// Hidden cells count: a filter hides what is there, and a tool that nobody sees is in the
/// magazine all the same.
fn hidden(about: &About, header: Place) -> Option<Fault> {
    let (rows, columns) = about.grid.hidden();
    let named = |names: Vec<String>, one: &str| {
        let more = match names.len().saturating_sub(LISTED) {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        let shown: Vec<&str> = names.iter().take(LISTED).map(String::as_str).collect();
        match names.len() {
            0 => None,
            1 => Some(format!("hidden {one} {}", shown.join(""))),
            _ => Some(format!("hidden {one}s {}{more}", shown.join(", "))),
        }
    };
    let is_one = usize::from(about.hidden) + rows.len() + columns.len() == 1;
    let rows = rows.iter().map(|row| (row + 1).to_string()).collect();
    let columns = columns
        .iter()
        .map(|column| column_name(*column as usize + 1));
    let columns = columns.collect();
    let sheet = about.hidden.then(|| "this hidden sheet".to_owned());
    let parts = [sheet, named(rows, "row"), named(columns, "column")];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() {
        return None;
    }
    let fault = Fault::new(fault_kind::HIDDEN_CELLS, header, "")
        .with("what", parts.join(" and "))
        .with("verb", if is_one { "is" } else { "are" });
    Some(fault)
}

/// Merged cells of which a column other than the first, or a row other than the first, is read:
/// what a person sees there is not what is stored there.
fn merged_cell(
    source: &Source,
    (rows, columns): &Area,
    targets: &[Target],
    header: Place,
) -> Option<Fault> {
    let sheet = source.sheet()?;
    let first = (*rows.start(), *columns.start());
    let header_row = sheet.row_of(header.span.start)?;
    if *rows.end() < header_row {
        return None;
    }
    let down = rows.end() > rows.start();
    let covers = |column: u32| columns.contains(&column) && (down || column != first.1);
    let read = targets.iter().enumerate();
    let mut read = read.filter(|(_, target)| !target.fields.is_empty());
    if !read.any(|(field, _)| sheet.column_of_field(field).is_some_and(covers)) {
        return None;
    }
    let place = place_of(source, first).map_or(header, |span| Place {
        source: header.source,
        span,
    });
    let name = |row: u32, column: u32| cell_name(row as usize + 1, column as usize + 1);
    let (one, last) = (name(first.0, first.1), name(*rows.end(), *columns.end()));
    let fault = Fault::new(fault_kind::MERGED_CELLS, place, "")
        .with("area", format!("{one}:{last}"))
        .with("first", one);
    Some(fault)
}

/// Where a cell stands in the text.
fn place_of(source: &Source, (row, column): (u32, u32)) -> Option<Span> {
    let sheet = source.sheet()?;
    let line = sheet.line_of(row, source.text().len())?;
    cell_of(source.text(), line, b',', sheet.field_of_column(column)?)
}
