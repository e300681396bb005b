//! The rows of elements that repeat: attributes and the text of what is within are their cells.

use std::collections::HashMap;

use super::repeated::Repeated;
use super::walk::{Attribute, Visit};
use crate::units::Spelling;

/// Columns of a table: elements that hold more are lists themselves.
const COLUMNS: usize = 512;
/// Cells and bytes of all tables of a document.
const CELLS: usize = 1 << 24;
const BYTES: usize = 1 << 28;
/// A name that stands as a value is short, bytes.
const LONGEST_NAME: usize = 64;
/// Attributes that may name what their element states.
const NAMING: [&str; 5] = ["name", "key", "code", "id", "symbol"];
/// Attributes that may state it.
const STATING: [&str; 2] = ["value", "val"];

/// A table of elements that repeat.
#[derive(Debug)]
pub struct UnnamedTable {
    /// The name of these elements.
    pub element: String,
    /// The paths of what they hold, in the order in which they first stand there; one that stands
    /// several times in an element is a column each time.
    pub columns: Vec<String>,
    /// Of every element the cells that hold something, by column.
    pub rows: Vec<Vec<(usize, String)>>,
    /// The path of the elements, and those above it.
    path: Vec<usize>,
    /// Where a path has its columns.
    at: HashMap<(String, usize), usize>,
    is_too_wide: bool,
}

/// An element that is open.
struct Open {
    path: usize,
    /// Its attributes, as far as they are of rows within it.
    said: Vec<(String, String)>,
    /// What one of its attributes names, if its text may be the value, and the attribute.
    named: Option<(String, String)>,
    unit: Option<String>,
    text: String,
    has_children: bool,
    /// Whether something of it was a cell.
    has_said: bool,
}

/// Which of the rows that are open.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Of {
    /// That of the open element itself.
    Own,
    /// Those that it stands in.
    Outer,
}

/// A row that is open.
struct OpenRow {
    table: usize,
    /// How many elements were open above it.
    depth: usize,
    cells: Vec<(usize, String)>,
    /// How often each path has stood in it.
    met: HashMap<String, usize>,
}

/// Gathers the rows.
pub(super) struct Rows {
    repeated: Repeated,
    tables: Vec<UnnamedTable>,
    stack: Vec<Open>,
    open: Vec<OpenRow>,
    cells: usize,
    bytes: usize,
}

impl Rows {
    pub(super) fn new(repeated: Repeated) -> Rows {
        let tables = repeated.all().into_iter().map(|path| UnnamedTable {
            element: repeated.name(path).to_owned(),
            columns: Vec::new(),
            rows: Vec::new(),
            path: repeated.with_above(path),
            at: HashMap::new(),
            is_too_wide: false,
        });
        Rows {
            tables: tables.collect(),
            repeated,
            stack: Vec::new(),
            open: Vec::new(),
            cells: 0,
            bytes: 0,
        }
    }

    /// The tables that are none too wide.
    pub(super) fn tables(self) -> Vec<UnnamedTable> {
        let tables = self.tables.into_iter();
        tables.filter(|table| !table.is_too_wide).collect()
    }

    /// The path of the open element, `above` elements left out at its end, as seen from a row.
    fn path_in(&self, row: &OpenRow, above: usize) -> String {
        let end = self.stack.len().saturating_sub(above);
        let within = self.stack.get(row.depth + 1..end).unwrap_or_default();
        let names = within.iter().map(|open| self.repeated.name(open.path));
        names.collect::<Vec<_>>().join("/")
    }

    /// Puts a value into rows that are open, under the path of the open element with `above` elements
    /// left out and a name added.
    fn put(&mut self, of: Of, (above, name): (usize, &str), value: &str) {
        let here = self.stack.len().saturating_sub(1);
        let value = value.split_whitespace().collect::<Vec<_>>().join(" ");
        let paths = self.open.iter().map(|row| self.path_in(row, above));
        let paths: Vec<String> = paths.collect();
        for (row, path) in self.open.iter_mut().zip(paths) {
            let Some(table) = self.tables.get_mut(row.table) else {
                continue;
            };
            if (row.depth == here) != (of == Of::Own) {
                continue;
            }
            let column = match (path.as_str(), name) {
                ("", "") => "text".to_owned(),
                ("", name) => name.to_owned(),
                (_, "") => path,
                (_, name) => format!("{path}/{name}"),
            };
            let met = row.met.entry(column.clone()).or_insert(0);
            let at = table.column(column, *met);
            *met += 1;
            if !value.is_empty() && !table.is_too_wide {
                self.cells += 1;
                self.bytes += value.len();
                row.cells.push((at, value.clone()));
            }
        }
    }

    /// Begins a row where elements repeat, with what elements around it say that repeat themselves,
    /// and with units.
    fn begin_row(&mut self, path: usize) {
        let mut tables = self.tables.iter();
        let Some(table) = tables.position(|table| table.path.first() == Some(&path)) else {
            return;
        };
        let depth = self.stack.len().saturating_sub(1);
        let mut row = OpenRow {
            table,
            depth,
            cells: Vec::new(),
            met: HashMap::new(),
        };
        let around = self.stack.get(..depth).unwrap_or_default();
        for open in around {
            let repeats = self.repeated.repeats(open.path);
            for (name, value) in &open.said {
                let column = format!("{}/{name}", self.repeated.name(open.path));
                let is_told = repeats || name.to_lowercase().starts_with("unit");
                if let Some(table) = self.tables.get_mut(table).filter(|_| is_told) {
                    let at = table.column(column, 0);
                    self.cells += 1;
                    row.cells.push((at, value.clone()));
                }
            }
        }
        self.open.push(row);
    }

    fn is_row(&self) -> bool {
        let depth = self.stack.len().saturating_sub(1);
        self.open.last().is_some_and(|row| row.depth == depth)
    }

    /// Takes the attributes of the element that was opened.
    fn attributes(&mut self, attributes: &[Attribute<'_>]) {
        for (name, value) in attributes {
            self.put(Of::Own, (0, name), value);
        }
        let path = self.stack.last().map_or(0, |open| open.path);
        let of = |known: &[&str]| {
            let mut all = attributes.iter();
            all.find(|(name, _)| known.iter().any(|known| name.eq_ignore_ascii_case(known)))
        };
        // Only elements that repeat say different things under one name.
        let is_short = |value: &str| !value.trim().is_empty() && value.len() <= LONGEST_NAME;
        let naming =
            of(&NAMING).filter(|(_, value)| self.repeated.repeats(path) && is_short(value));
        let unit = attributes.iter().find(|(name, value)| is_unit(name, value));
        let pair = naming.zip(of(&STATING));
        // The only attribute beside a text may name that text.
        let is_alone = attributes.len() == 1 + usize::from(unit.is_some());
        let waiting = naming.filter(|_| pair.is_none() && is_alone);
        for one in attributes {
            let is_of_pair =
                pair.is_some_and(|(naming, stating)| [naming.0, stating.0].contains(&one.0));
            let waits = [waiting, unit].iter().any(|known| is_same(*known, one));
            if !is_of_pair && !waits {
                self.put(Of::Outer, (0, one.0), &one.1);
            }
            if let Some(open) = self.stack.last_mut() {
                open.said.push((one.0.to_owned(), one.1.to_string()));
                open.has_said |= !waits;
            }
        }
        let unit = unit.map(|(_, unit)| unit.to_string());
        if let Some((naming, stating)) = pair {
            let value = with_unit(&stating.1, unit.as_deref());
            self.put(Of::Outer, (1, naming.1.trim()), &value);
        } else if let Some(open) = self.stack.last_mut() {
            open.unit = unit;
            open.named = waiting.map(|(name, value)| ((*name).to_owned(), value.to_string()));
        }
    }

    /// Takes the text of the element that is closed.
    fn own_text(&mut self) {
        let Some(open) = self.stack.last_mut() else {
            return;
        };
        let text = std::mem::take(&mut open.text);
        let unit = open.unit.take();
        let named = open.named.take();
        let is_leaf = !open.has_children;
        let says_nothing = is_leaf && !open.has_said;
        let is_blank = text.trim().is_empty();
        if !is_blank {
            self.put(Of::Own, (0, ""), &text);
        }
        match named {
            Some((_, name)) if !is_blank && is_leaf => {
                let value = with_unit(&text, unit.as_deref());
                self.put(Of::Outer, (1, name.trim()), &value);
                return;
            }
            Some((attribute, value)) => self.put(Of::Outer, (0, &attribute), &value),
            None if is_blank && says_nothing && unit.is_none() => {
                // An element that is always empty is a column too.
                self.put(Of::Outer, (0, ""), "");
            }
            None => {}
        }
        match unit {
            Some(unit) if is_blank => self.put(Of::Outer, (0, "unit"), &unit),
            unit if !is_blank => {
                self.put(Of::Outer, (0, ""), &with_unit(&text, unit.as_deref()));
            }
            _ => {}
        }
    }
}

impl Visit for Rows {
    fn open(&mut self, name: &str, attributes: &[Attribute<'_>]) -> Result<(), String> {
        let parent = self.stack.last_mut().map(|open| {
            open.has_children = true;
            open.path
        });
        let path = self.repeated.below(parent, name).unwrap_or(0);
        self.stack.push(Open {
            path,
            said: Vec::new(),
            named: None,
            unit: None,
            text: String::new(),
            has_children: false,
            has_said: false,
        });
        if self.repeated.repeats(path) {
            self.begin_row(path);
        }
        self.attributes(attributes);
        if self.cells > CELLS || self.bytes > BYTES {
            return Err(
                "it holds more than a list of tools can; export the tools alone".to_owned(),
            );
        }
        Ok(())
    }

    fn text(&mut self, text: &str) {
        if let Some(open) = self.stack.last_mut().filter(|_| !self.open.is_empty()) {
            open.text.push_str(text);
        }
    }

    fn close(&mut self) -> Result<(), String> {
        self.own_text();
        if self.is_row()
            && let Some(row) = self.open.pop()
            && let Some(table) = self.tables.get_mut(row.table)
            && !table.is_too_wide
        {
            table.rows.push(row.cells);
        }
        self.stack.pop();
        Ok(())
    }
}

impl UnnamedTable {
    /// Whether the elements of another table stand within these.
    #[must_use]
    pub fn holds(&self, other: &UnnamedTable) -> bool {
        let own = self.path.first();
        own.is_some_and(|own| other.path.iter().skip(1).any(|above| above == own))
    }

    /// The column of what stands for a path for the so-manieth time in one element.
    fn column(&mut self, path: String, time: usize) -> usize {
        let next = self.columns.len();
        if next >= COLUMNS {
            self.is_too_wide = true;
            self.rows.clear();
            return next;
        }
        let columns = &mut self.columns;
        let at = self.at.entry((path, time));
        *at.or_insert_with_key(|(path, _)| {
            columns.push(path.clone());
            next
        })
    }
}

fn is_same(known: Option<&Attribute<'_>>, one: &Attribute<'_>) -> bool {
    known.is_some_and(|known| known.0 == one.0)
}

/// Whether an attribute names the unit of what its element says.
fn is_unit(name: &str, value: &str) -> bool {
    let name = name.to_lowercase();
    let names = name == "unit" || name == "units" || name == "uom";
    names && Spelling::find_any(value.trim()).is_some()
}

/// A number with the unit that its element names.
fn with_unit(text: &str, unit: Option<&str>) -> String {
    let text = text.trim();
    match unit {
        Some(unit) if text.ends_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | ',')) => {
            format!("{text} {}", unit.trim())
        }
        _ => text.to_owned(),
    }
}
