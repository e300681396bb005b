//! What of a table is no record: title lines above its header, a row of units below it, the header
//! again on a second page, headings of groups, totals. Each is said, and each may be read as a
//! record where the shop says so.

use crate::input::csv::{self, BlankRows, Frame, Reader, TopLine};
use crate::input::{Column, Fault, Row, fault_kind};
use crate::text::{Place, Source, SourceId, Span, Texts};
use crate::units::{Spelling, split_unit};

use super::columns::{Host, fields_of, normal, renamed_to};
use super::standard_sizes::HEADER_WORDS;
use super::{Field, Kind, OwnColumn, ReadSettings, ValueType, hints};

/// A line of a table that is no record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoRecord {
    /// Lines above the header.
    TitleLines,
    /// Units below it.
    UnitsLine,
    /// The header once more.
    RepeatedHeader,
    /// What only names the group below it.
    Heading,
    /// A total.
    Total,
}

impl NoRecord {
    /// The key of the shop file that has it read as a record.
    const fn key(self) -> &'static str {
        match self {
            NoRecord::TitleLines => "title_lines",
            NoRecord::UnitsLine => "units_line",
            NoRecord::RepeatedHeader => "repeated_headers",
            NoRecord::Heading => "headings",
            NoRecord::Total => "totals",
        }
    }

    /// What it is, in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            NoRecord::TitleLines => "above the header",
            NoRecord::UnitsLine => "the units of the columns",
            NoRecord::RepeatedHeader => "the header once more",
            NoRecord::Heading => "a heading or remark",
            NoRecord::Total => "a total",
        }
    }
}

/// Which of these are looked for: all, if nobody says otherwise.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Framing {
    ignored: u8,
}

impl Framing {
    /// The same, with lines of a kind read as records.
    #[must_use]
    pub fn without(self, line: NoRecord) -> Framing {
        Framing {
            ignored: self.ignored | 1 << line as u8,
        }
    }

    fn looks_for(self, line: NoRecord) -> bool {
        self.ignored & 1 << line as u8 == 0
    }
}

/// What may stand between records.
const BETWEEN: [NoRecord; 4] = [
    NoRecord::RepeatedHeader,
    NoRecord::UnitsLine,
    NoRecord::Total,
    NoRecord::Heading,
];

/// Known headers that make a line a header where an earlier one has fewer.
const FEWEST: usize = 3;
/// Lines that are looked at for the header.
const TOP_LINES: usize = 25;
/// Longer texts than this are no header, bytes.
const LONGEST: usize = 80;
/// Columns from which on a line with one cell is no record: a short table may lack the rest.
const WIDE: usize = 5;

/// Opens a table where its header is.
pub(super) fn open<'s>(
    (source, id): (&'s Source, SourceId),
    kind: Kind,
    settings: &ReadSettings,
) -> Option<Reader<'s>> {
    let frame = frame_of(source, kind, (&settings.columns, settings.framing));
    Reader::open_in(source, id, frame)
}

/// Where the table in a text begins.
pub(super) fn frame_of(
    source: &Source,
    kind: Kind,
    (own, framing): (&[OwnColumn], Framing),
) -> Frame {
    let text = source.text();
    let mut delimiters = csv::delimiters(source).into_iter();
    let Some(delimiter) = delimiters.next() else {
        return Frame::default();
    };
    let known = |line: &TopLine<'_>| known_headers(line, kind, own);
    let lines = csv::top_lines(text, delimiter, 2);
    let plain = lines.first().map_or(0, known);
    let mut frame = Frame::default();
    let mut below = lines;
    below.drain(..below.len().min(1));
    if plain < FEWEST && framing.looks_for(NoRecord::TitleLines) {
        // A title may hold commas, so that its line does not tell what separates the cells.
        for delimiter in std::iter::once(delimiter).chain(delimiters) {
            let mut lines = csv::top_lines(text, delimiter, TOP_LINES);
            let counts: Vec<usize> = lines.iter().map(known).collect();
            let most = counts.iter().copied().max().unwrap_or(0);
            let above = counts.iter().position(|count| *count == most).unwrap_or(0);
            if above > 0 && most >= FEWEST && most > plain * 2 {
                frame = Frame {
                    delimiter: Some(delimiter),
                    above,
                    units: false,
                };
                below = lines.drain(..).skip(above + 1).collect();
                break;
            }
        }
    }
    let units = below
        .first()
        .filter(|_| framing.looks_for(NoRecord::UnitsLine));
    frame.units = units.is_some_and(|line| is_units(line));
    frame
}

/// How many of a line's cells are headers that are known, or that are words of the trade for one.
fn known_headers(line: &TopLine<'_>, kind: Kind, own: &[OwnColumn]) -> usize {
    let is_known = |cell: &&str| {
        if cell.is_empty() || cell.len() > LONGEST {
            return false;
        }
        let meant = renamed_to(cell, own);
        let bare = split_unit(meant).0;
        own.iter().any(|own| own.is(cell))
            || !fields_of(meant, kind).is_empty()
            || !fields_of(bare, kind).is_empty()
            || hints::is_word(bare, Host::table(kind))
    };
    let cells = line.cells.iter().map(AsRef::as_ref);
    cells.filter(is_known).count()
}

/// Whether a line says units: two at least, and nothing that has a digit besides.
fn is_units(line: &TopLine<'_>) -> bool {
    let filled = || line.cells.iter().filter(|cell| !cell.is_empty());
    let units = filled().filter(|cell| unit(cell).is_some()).count();
    let is_short =
        |cell: &str| cell.chars().count() <= 8 && !cell.contains(|c: char| c.is_ascii_digit());
    units >= 2 && filled().all(|cell| unit(cell).is_some() || is_short(cell))
}

/// The unit that a cell of such a line names, with or without brackets.
pub(super) fn unit(cell: &str) -> Option<&'static Spelling> {
    let bare = cell.trim_matches(|c: char| matches!(c, '[' | ']' | '(' | ')') || c.is_whitespace());
    // A ratio has the unit 1, and a cell that says 1 is a number.
    Spelling::find_any(bare).filter(|_| bare.parse::<f64>().is_err())
}

/// What is said of the lines around the header.
pub(super) fn around(table: &Reader<'_>) -> Vec<Fault> {
    let above = table
        .above
        .map(|place| passed_over(place, NoRecord::TitleLines));
    let units = table.units.first().zip(table.units.last());
    let units = units.map(|(first, last)| {
        let mut place = first.place;
        place.span.end = last.place.span.end;
        passed_over(place, NoRecord::UnitsLine)
    });
    above.into_iter().chain(units).collect()
}

/// Where the first row is that holds nothing, and how many there are: of a sheet they are not written
/// out, and what is found is the row behind them. `header` is the first header's place.
pub(super) fn blank_rows(
    source: &Source,
    header: Option<Place>,
    found: BlankRows,
) -> Option<(Span, usize)> {
    match (source.sheet(), header) {
        (Some(sheet), Some(header)) => sheet.blank_below(header.span.start, source.text().len()),
        _ => Some((found.first?, found.many)),
    }
}

/// What is said of rows that hold nothing: they are counted, and nothing of them is lost.
pub(super) fn blank_rows_told(first: Place, many: usize, is_sheet: bool) -> Fault {
    let rows = match many {
        1 => "1 blank row".to_owned(),
        many => format!("{many} blank rows"),
    };
    let rows = match (is_sheet, many) {
        (false, _) => rows,
        (true, 1) => format!("{rows} above this one"),
        (true, _) => format!("{rows}, the first above this one,"),
    };
    Fault::new(fault_kind::BLANK_ROWS, first, "").with("rows", rows)
}

fn passed_over(place: Place, line: NoRecord) -> Fault {
    Fault::new(fault_kind::LINE_PASSED_OVER, place, "")
        .with("what", line.words())
        .with("key", line.key())
}

/// Where a table may have headings among its records.
#[derive(Clone, Copy, Debug)]
enum Headed {
    /// A part may have no more than its id.
    Nowhere,
    /// In the first column, where names and texts stand, or what is not read.
    First,
    /// There, and a text with a digit may be the number of a tool.
    Numbered,
    /// There, and any text may describe a tool: only a colon tells.
    Described,
    /// In any column: a list of what lies in stock.
    Anywhere,
}

impl Headed {
    /// By the fields of the first column.
    fn of(first: &[Field], kind: Kind) -> Headed {
        match kind {
            Kind::Stock => Headed::Anywhere,
            Kind::Assembly if first.contains(&Field::ToolNumber) => Headed::Numbered,
            Kind::Assembly if first.contains(&Field::AssemblyDescription) => Headed::Described,
            Kind::Assembly if is_text(first) => Headed::First,
            _ => Headed::Nowhere,
        }
    }
}

/// What tells records from other lines of a table.
#[derive(Debug)]
pub(super) struct Lines {
    framing: Framing,
    /// The headers, folded; blank where there is none.
    headers: Texts,
    /// Whether the table has a row of units, which a second page repeats.
    has_units: bool,
    /// Where the tool number or an id stands.
    names: Option<usize>,
    headed: Headed,
}

impl Lines {
    /// By the headers of a table, its row of units, and the fields that its columns state.
    pub(super) fn new<'f>(
        (columns, units): (&[Column<'_>], &[Column<'_>]),
        (fields, kind): (impl Iterator<Item = &'f [Field]> + Clone, Kind),
        framing: Framing,
    ) -> Lines {
        let mut headers = Texts::default();
        for column in columns {
            headers.push(&normal(&column.name));
        }
        let first = fields.clone().next().unwrap_or_default();
        Lines {
            framing,
            headers,
            has_units: !units.is_empty(),
            headed: Headed::of(first, kind),
            names: names(fields, kind),
        }
    }

    /// What a row is instead of a record; `None` of a record.
    pub(super) fn other_line(&self, row: &Row<'_>) -> Option<NoRecord> {
        row.cells.first()?;
        let is = |line| match line {
            NoRecord::RepeatedHeader => self.is_header(row),
            NoRecord::UnitsLine => self.has_units && is_units_row(row),
            NoRecord::Total => self.is_total(row),
            NoRecord::Heading => self.is_heading(row),
            NoRecord::TitleLines => false,
        };
        let mut kinds = BETWEEN
            .into_iter()
            .filter(|line| self.framing.looks_for(*line));
        kinds.find(|line| is(*line))
    }

    /// What is said of a row that is no record; `None` of a record.
    pub(super) fn no_record(&self, row: &Row<'_>) -> Option<Fault> {
        let what = self.other_line(row)?;
        let first = row.cells.first()?;
        let mut place = first.place;
        place.span.end = row.cells.last().unwrap_or(first).place.span.end;
        Some(passed_over(place, what))
    }

    /// Most of its cells say what their headers say, two at least.
    fn is_header(&self, row: &Row<'_>) -> bool {
        let says = |cell: &&crate::input::Cell<'_>| {
            let header = self.headers.get(cell.column);
            // Folding is what costs, and most cells begin otherwise.
            begin_alike(&cell.text, header)
                && cell.text.len() < LONGEST
                && normal(&cell.text) == header
        };
        // Two that differ tell most rows.
        if !row.cells.iter().take(2).any(|cell| says(&cell)) {
            return false;
        }
        let same = row.cells.iter().filter(says).count();
        same >= 2 && same * 3 >= row.cells.len() * 2
    }

    /// A few cells, of which the first says so, and no tool number beside it.
    fn is_total(&self, row: &Row<'_>) -> bool {
        if row.cells.len() * 2 > self.headers.len().max(4) {
            return false;
        }
        let Some(first) = row.cells.first() else {
            return false;
        };
        let numbered = row.cells.iter().skip(1);
        let mut numbered = numbered.filter(|cell| Some(cell.column) == self.names);
        numbered.next().is_none() && starts_total(&first.text)
    }

    /// A single cell that names what follows: one with a blank in it, or a colon behind it.
    fn is_heading(&self, row: &Row<'_>) -> bool {
        let [only] = row.cells.as_slice() else {
            return false;
        };
        let text = only.text.as_ref();
        let is_title = text.ends_with(':');
        let is_told = match self.headed {
            Headed::Nowhere => false,
            Headed::Anywhere => is_title || text.contains(char::is_whitespace),
            _ if only.column != 0 => false,
            Headed::First => is_title || text.contains(char::is_whitespace),
            Headed::Numbered => {
                let has_digit = text.contains(|c: char| c.is_ascii_digit());
                is_title || text.contains(char::is_whitespace) && !has_digit
            }
            Headed::Described => is_title,
        };
        is_told && self.headers.len() >= WIDE && text.contains(char::is_alphabetic)
    }
}

fn is_text(fields: &[Field]) -> bool {
    let mut all = fields.iter().map(|field| field.property().value);
    all.all(|value| matches!(value, ValueType::Id | ValueType::Text))
}

fn begin_alike(a: &str, b: &str) -> bool {
    let first = |text: &str| text.chars().next().map(|c| c.to_lowercase().next());
    !b.is_empty() && first(a) == first(b)
}

fn is_units_row(row: &Row<'_>) -> bool {
    let units = row.cells.iter().filter(|cell| unit(&cell.text).is_some());
    let units = units.count();
    units >= 2 && units * 2 >= row.cells.len()
}

/// Whether a text begins with a word for a total.
fn starts_total(text: &str) -> bool {
    let word = text.split(|c: char| !c.is_alphabetic()).next();
    word.is_some_and(|word| {
        let mut words = HEADER_WORDS.table.totals.iter();
        !word.is_empty() && words.any(|known| known.eq_ignore_ascii_case(word))
    })
}

/// The column in which records have their names: the tool number, else the table's own id.
fn names<'f>(mut fields: impl Iterator<Item = &'f [Field]>, kind: Kind) -> Option<usize> {
    let wanted = match kind {
        Kind::Assembly => Some(Field::ToolNumber),
        Kind::Operation => Some(Field::OperationToolNumber),
        _ => Field::id_of(kind),
    }?;
    fields.position(|fields| fields.contains(&wanted))
}
