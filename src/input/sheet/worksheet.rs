//! One sheet of a workbook in Office Open XML: its cells, and what of it is hidden or merged.

use quick_xml::events::BytesStart;

use super::Wanted;
use super::grid::{Area, COLUMNS, Grid, ROWS};
use super::rich_text::{rich, whole};
use super::value::{self, Shown};
use super::xlsx::Book;
use super::xml::{Node, Xml, attribute, flag, number};
use crate::text::Odd;

/// Most hidden stretches of columns, and most merged cells, that are kept of a sheet.
const MARKS: usize = 1 << 11;

/// Reads a sheet's cells, and what is hidden and merged.
pub(super) fn read(
    xml: &mut Xml<'_>,
    book: &Book,
    wanted: Wanted,
    grid: &mut Grid,
) -> Result<(), String> {
    let (mut row, mut column): (u32, u32) = (0, 0);
    loop {
        let tag = match xml.next()? {
            Node::Open(tag) => tag,
            Node::Close(tag) if tag.local_name().as_ref() == "row" => {
                row = row.saturating_add(1);
                if grid.last_row().is_some() && row > wanted.rows {
                    return Ok(());
                }
                continue;
            }
            Node::End => return Ok(()),
            _ => continue,
        };
        match tag.local_name().as_ref() {
            "col" if flag(&tag, "hidden") && grid.hidden_columns.len() < MARKS => {
                grid.hidden_columns.extend(columns(&tag));
            }
            "row" => {
                row = number(&tag, "r")
                    .and_then(|r| r.checked_sub(1))
                    .unwrap_or(row);
                column = 0;
                if flag(&tag, "hidden") && grid.hidden_rows.len() < ROWS as usize {
                    grid.hidden_rows.push(row);
                }
            }
            "c" => {
                let (at, stored) = Stored::of(&tag, book);
                let at = at.unwrap_or((row, column));
                (row, column) = (at.0, at.1.saturating_add(1));
                stored.read(xml, book, at, grid)?;
            }
            "mergeCell" if grid.merged.len() < MARKS => {
                let area = attribute(&tag, "ref").and_then(|area| self::area(&area));
                grid.merged.extend(area);
            }
            _ => {}
        }
    }
}

fn columns(tag: &BytesStart<'_>) -> Option<std::ops::RangeInclusive<u32>> {
    let first = number(tag, "min")?.checked_sub(1)?;
    let last = number(tag, "max")?.checked_sub(1)?;
    Some(first..=last)
}

/// Row and column of a cell by its name, `F12`, from 0.
fn reference(name: &str) -> Option<(u32, u32)> {
    let name = name.trim().trim_start_matches('$');
    let digits = name.find(|c: char| !c.is_ascii_alphabetic())?;
    let (letters, row) = name.split_at(digits);
    let mut column: u32 = 0;
    for letter in letters.bytes() {
        let letter = u32::from(letter.to_ascii_uppercase() - b'A') + 1;
        column = column.checked_mul(26)?.checked_add(letter)?;
    }
    let row: u32 = row.trim_start_matches('$').parse().ok()?;
    let at = (row.checked_sub(1)?, column.checked_sub(1)?);
    (at.0 < ROWS && at.1 < COLUMNS).then_some(at)
}

/// A stretch of cells, `B2:C4`.
fn area(text: &str) -> Option<Area> {
    let (from, to) = text.split_once(':')?;
    let (from, to) = (reference(from)?, reference(to)?);
    Some((from.0..=to.0, from.1..=to.1))
}

/// What a cell stores.
#[derive(Clone, Copy)]
enum Type {
    Number,
    /// The number of a text that cells share.
    Shared,
    Text,
    Truth,
    Error,
    Day,
}

/// How a cell stores its value.
struct Stored {
    kind: Type,
    shown: Shown,
}

/// A part of a cell.
enum Part {
    Value,
    Formula,
    Text,
    Other,
}

impl Stored {
    /// Where a cell is, if it says so, and how it stores its value.
    fn of(tag: &BytesStart<'_>, book: &Book) -> (Option<(u32, u32)>, Stored) {
        let mut at = None;
        let mut stored = Stored {
            kind: Type::Number,
            shown: book.styles.first().copied().unwrap_or_default(),
        };
        for one in tag.attributes().with_checks(false).filter_map(Result::ok) {
            let value = one.value.trim();
            match one.key.as_ref() {
                "r" => at = reference(value),
                "s" => {
                    let style = value.parse().ok().and_then(|s: usize| book.styles.get(s));
                    stored.shown = style.copied().unwrap_or_default();
                }
                "t" => {
                    stored.kind = match value {
                        "s" => Type::Shared,
                        "str" | "inlineStr" => Type::Text,
                        "b" => Type::Truth,
                        "e" => Type::Error,
                        "d" => Type::Day,
                        _ => Type::Number,
                    };
                }
                _ => {}
            }
        }
        (at, stored)
    }

    /// Reads the cell to its end.
    fn read(
        &self,
        xml: &mut Xml<'_>,
        book: &Book,
        at: (u32, u32),
        grid: &mut Grid,
    ) -> Result<(), String> {
        let within = xml.depth().saturating_sub(1);
        let (mut value, mut formula) = (None, None);
        while xml.depth() > within {
            let part = match xml.next()? {
                Node::Open(tag) => match tag.local_name().as_ref() {
                    "v" => Part::Value,
                    "f" => Part::Formula,
                    "is" => Part::Text,
                    _ => Part::Other,
                },
                Node::End => break,
                _ => continue,
            };
            match part {
                Part::Value => value = Some(whole(xml)?),
                Part::Formula => formula = Some(whole(xml)?),
                Part::Text => value = Some(rich(xml)?),
                Part::Other => xml.skip()?,
            }
        }
        let (text, odd) = match (value, formula) {
            // An empty text may be the value of a formula, if it is stored as a text.
            (Some(value), _) if !value.is_empty() || matches!(self.kind, Type::Text) => {
                self.text(value, book)?
            }
            (_, Some(formula)) => (format!("={formula}"), Some(Odd::Unsaved)),
            _ => return Ok(()),
        };
        if let Some(text) = grid.text(&text) {
            grid.cell(at, text, odd)?;
        }
        Ok(())
    }

    /// The text of a value, and what is odd about it.
    fn text(&self, value: String, book: &Book) -> Result<(String, Option<Odd>), String> {
        Ok(match self.kind {
            Type::Shared => {
                let number: Option<usize> = value.trim().parse().ok();
                let text = number.and_then(|number| book.strings.get(number));
                let text = text.ok_or("a cell names a text that there is not")?;
                (text.clone(), value::of_text(text))
            }
            Type::Text => {
                let odd = value::of_text(&value);
                (value, odd)
            }
            Type::Truth => {
                let yes = matches!(value.trim(), "1" | "true");
                (if yes { "TRUE" } else { "FALSE" }.to_owned(), None)
            }
            Type::Error => (value, Some(Odd::Error)),
            Type::Day => (value.replace('T', " "), Some(Odd::Date)),
            Type::Number => match value.trim().parse::<f64>() {
                Ok(number) if number.is_finite() => {
                    value::shown(number, self.shown, book.since_1904)
                }
                _ => (value, Some(Odd::Error)),
            },
        })
    }
}
