//! Spreadsheets in OpenDocument, `.ods`: ISO/IEC 26300 and OASIS OpenDocument 1.3, part 3.

use quick_xml::events::BytesStart;

use super::archive::Archive;
use super::grid::{COLUMNS, Grid, ROWS};
use super::value::{self, Shown};
use super::xml::{Node, Xml, attribute, number, unescaped};
use super::{Sheet, Wanted};
use crate::text::Odd;

/// Most blanks that one element stands for.
const BLANKS: u32 = 256;
/// Most hidden stretches of columns, and most merged cells, that are kept of a sheet.
const MARKS: usize = 1 << 11;

/// Reads the sheets of a document.
pub(super) fn read(archive: &mut Archive<'_>, wanted: Wanted) -> Result<Vec<Sheet>, String> {
    let locked = archive.part("META-INF/manifest.xml", |xml| {
        loop {
            match xml.next()? {
                Node::Open(tag) if tag.local_name().as_ref() == "encryption-data" => {
                    return Ok(true);
                }
                Node::End => return Ok(false),
                _ => {}
            }
        }
    })?;
    if locked == Some(true) {
        return Err(super::archive::PASSWORD.to_owned());
    }
    let mut sheets = Vec::new();
    archive
        .part("content.xml", |xml| {
            loop {
                match xml.next()? {
                    Node::Open(tag) if tag.local_name().as_ref() == "table" => {
                        let name = attribute(&tag, "name").unwrap_or_default();
                        sheets.extend(table(xml, name, wanted)?);
                    }
                    Node::End => return Ok(()),
                    _ => {}
                }
            }
        })?
        .ok_or("is a spreadsheet without content; save it again")?;
    Ok(sheets)
}

/// Reads one table; none if it is a copy of another file's, kept for links to it.
fn table(xml: &mut Xml<'_>, name: String, wanted: Wanted) -> Result<Option<Sheet>, String> {
    let within = xml.depth().saturating_sub(1);
    let mut grid = Grid::default();
    let (mut row, mut column) = (0, 0);
    let mut is_own = true;
    while xml.depth() > within {
        let tag = match xml.next()? {
            Node::Open(tag) => tag,
            Node::End => break,
            _ => continue,
        };
        match tag.local_name().as_ref() {
            "table-source" => is_own = false,
            "table-column" => {
                let next = times(&tag, "number-columns-repeated", column, COLUMNS);
                if is_hidden(&tag) && next > column && grid.hidden_columns.len() < MARKS {
                    grid.hidden_columns.push(column..=next - 1);
                }
                column = next;
            }
            "table-row" => {
                let next = times(&tag, "number-rows-repeated", row, ROWS);
                let hidden = is_hidden(&tag);
                if row > wanted.rows && grid.last_row().is_some() {
                    xml.skip()?;
                } else if cells(xml, (row, next), &mut grid)? && hidden {
                    // Rows without a cell that holds something are none, however often they come.
                    grid.hidden_rows.extend(row..next);
                }
                row = next;
            }
            "shapes" | "forms" | "dde-link" => xml.skip()?,
            _ => {}
        }
    }
    Ok(is_own.then_some(Sheet {
        name,
        hidden: false,
        grid,
    }))
}

/// Where a stretch that may be repeated ends: never beyond the last row or column of a sheet.
fn times(tag: &BytesStart<'_>, name: &str, from: u32, last: u32) -> u32 {
    let times = number(tag, name).unwrap_or(1).max(1);
    from.saturating_add(times).min(last)
}

fn is_hidden(tag: &BytesStart<'_>) -> bool {
    let visibility = attribute(tag, "visibility");
    visibility.is_some_and(|word| matches!(word.as_str(), "collapse" | "filter"))
}

/// Reads the cells of a row, which stands for all rows from the first to before the last; whether
/// any holds something. Cells are put into all of them only where they do.
fn cells(xml: &mut Xml<'_>, (row, last): (u32, u32), grid: &mut Grid) -> Result<bool, String> {
    let within = xml.depth().saturating_sub(1);
    let mut column = 0;
    let mut found = Vec::new();
    while xml.depth() > within {
        let tag = match xml.next()? {
            Node::Open(tag) => tag,
            Node::End => break,
            _ => continue,
        };
        if !matches!(
            tag.local_name().as_ref(),
            "table-cell" | "covered-table-cell"
        ) {
            continue;
        }
        let next = times(&tag, "number-columns-repeated", column, COLUMNS);
        merged(&tag, (row, column), grid);
        let stored = Stored::of(&tag);
        let text = paragraphs(xml)?;
        let (text, odd) = stored.text(text);
        if let Some(text) = grid.text(&text) {
            found.extend((column..next).map(|column| (column, text, odd)));
        }
        column = next;
    }
    if !found.is_empty() {
        grid.room_for(found.len().saturating_mul((last - row) as usize))?;
        for row in row..last {
            for (column, text, odd) in &found {
                grid.cell((row, *column), *text, *odd)?;
            }
        }
    }
    Ok(!found.is_empty())
}

fn merged(tag: &BytesStart<'_>, (row, column): (u32, u32), grid: &mut Grid) {
    let across = number(tag, "number-columns-spanned").unwrap_or(1);
    let down = number(tag, "number-rows-spanned").unwrap_or(1);
    if across.max(down) > 1 && grid.merged.len() < MARKS {
        let last = |first: u32, span: u32| first.saturating_add(span.max(1) - 1);
        grid.merged
            .push((row..=last(row, down), column..=last(column, across)));
    }
}

/// The text of a cell, in paragraphs; notes and drawings are none of it.
fn paragraphs(xml: &mut Xml<'_>) -> Result<String, String> {
    let within = xml.depth().saturating_sub(1);
    let mut text = String::new();
    let (mut inside, mut first) = (None, true);
    while xml.depth() > within {
        let (name, blanks) = match xml.next()? {
            Node::Open(tag) => {
                let name = tag.local_name().as_ref().to_owned();
                (name, number(&tag, "c").unwrap_or(1).min(BLANKS))
            }
            Node::Text(piece) if inside.is_some() => {
                text.push_str(&piece);
                continue;
            }
            Node::End => break,
            _ => {
                inside = inside.filter(|depth| xml.depth() >= *depth);
                continue;
            }
        };
        match name.as_str() {
            "p" if inside.is_none() => {
                if !first {
                    text.push('\n');
                }
                (inside, first) = (Some(xml.depth()), false);
            }
            "s" => text.extend((0..blanks).map(|_| ' ')),
            "tab" => text.push('\t'),
            "line-break" => text.push('\n'),
            "a" | "span" => {}
            _ => xml.skip()?,
        }
    }
    Ok(text)
}

/// How a cell stores its value.
struct Stored {
    kind: String,
    /// The stored value of a number, a date, a time, a truth or a text.
    value: Option<String>,
    formula: Option<String>,
    is_error: bool,
}

impl Stored {
    fn of(tag: &BytesStart<'_>) -> Stored {
        let mut stored = Stored {
            kind: String::new(),
            value: None,
            formula: attribute(tag, "formula"),
            is_error: false,
        };
        for one in tag.attributes().with_checks(false).filter_map(Result::ok) {
            let value = || unescaped(&one);
            match one.key.as_ref() {
                "calcext:value-type" => stored.is_error = value().as_deref() == Some("error"),
                other if other.ends_with(":value-type") => {
                    stored.kind = value().unwrap_or_default();
                }
                other => {
                    let name = other.rsplit(':').next().unwrap_or_default();
                    if matches!(
                        name,
                        "value" | "date-value" | "time-value" | "boolean-value" | "string-value"
                    ) {
                        stored.value = value();
                    }
                }
            }
        }
        stored
    }

    /// The text that it is, and what is odd about it; `text` is what the cell shows.
    fn text(self, text: String) -> (String, Option<Odd>) {
        if self.is_error {
            return (text, Some(Odd::Error));
        }
        let value = self.value.unwrap_or_default();
        match self.kind.as_str() {
            "float" | "currency" | "percentage" => match value.trim().parse::<f64>() {
                Ok(number) if number.is_finite() => {
                    let is_part = self.kind == "percentage";
                    let shown = if is_part {
                        Shown::Percent
                    } else {
                        Shown::Number
                    };
                    value::shown(number, shown, false)
                }
                _ => (value, Some(Odd::Error)),
            },
            "date" => (value.replace('T', " "), Some(Odd::Date)),
            "time" => (text, Some(Odd::Date)),
            "boolean" => (value.to_uppercase(), None),
            "string" => {
                let text = if text.is_empty() { value } else { text };
                let odd = value::of_text(&text);
                (text, odd)
            }
            _ => match self.formula {
                Some(formula) => (formula_text(&formula), Some(Odd::Unsaved)),
                None => (text, None),
            },
        }
    }
}

/// A formula without the name of its language: `of:=[.A1]` is `=[.A1]`.
fn formula_text(formula: &str) -> String {
    let at = formula.find('=').unwrap_or_default();
    formula.get(at..).unwrap_or_default().to_owned()
}
