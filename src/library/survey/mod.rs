//! What an export holds, column by column: which property each is taken for, which it may mean and
//! why, and what is open. Nothing here is applied: what a column means is the shop's to say.

mod claims;
mod machine_line;
mod meaning;
mod part_names;
mod raw_columns;
mod shares;
mod strange_words;

use std::collections::HashSet;

use crate::text::{Source, SourceId};

use super::columns::normal;
use super::{Field, Kind, NoRecord, ReadSettings};
pub use meaning::{Guess, Meaning};
pub use part_names::{PartName, PartNames};
use raw_columns::RawColumns;
pub use strange_words::StrangeWord;

/// What an export holds.
#[derive(Debug)]
pub struct Survey {
    /// Whether its rows are tools as set up, or what lies in stock.
    pub kind: Kind,
    /// How many rows there are.
    pub rows: usize,
    /// The lines that are not records, and how many of each.
    pub other_lines: Vec<(NoRecord, usize)>,
    /// How many rows hold nothing.
    pub blank_rows: usize,
    /// Machines that lines above the table or between its rows name, where no column does.
    pub machines: Vec<String>,
    /// The sheet that it is, of a workbook.
    pub sheet: Option<String>,
    /// The elements that are its rows, of an XML document.
    pub elements: Option<String>,
    /// Other elements of such a document that repeat, and how many there are.
    pub left: Vec<(String, usize)>,
    /// What parts its cells.
    pub delimiter: char,
    /// Of its cells that look like lengths, how many have an inch mark or a fraction, and all.
    pub inches: (usize, usize),
    /// The column that says in every row that lengths are in inches.
    pub says_inches: Option<String>,
    /// Its columns, in their order.
    pub columns: Vec<SurveyedColumn>,
    /// The parts that it only names, by kind.
    pub parts: Vec<PartNames>,
}

/// One column.
#[derive(Debug)]
pub struct SurveyedColumn {
    /// Its header.
    pub header: String,
    /// Its first values, each once.
    pub first: Vec<String>,
    /// What it means, or may mean.
    pub meaning: Meaning,
    /// The unit that its header, or the line below it, names.
    pub unit: Option<&'static str>,
    /// Whether it stands in the line below the header, where the program reads it.
    pub unit_below: bool,
    /// Words in it that are none of the property's.
    pub words: Vec<StrangeWord>,
}

impl SurveyedColumn {
    /// Whether `lint` reads it.
    #[must_use]
    pub const fn is_taken(&self) -> bool {
        matches!(self.meaning, Meaning::Taken(..))
    }

    /// The property that it is taken for, or is most likely to mean.
    #[must_use]
    pub fn property(&self) -> Option<&'static str> {
        self.meaning.likeliest()
    }
}

/// First values of a column that are shown.
const SHOWN: usize = 4;

impl Survey {
    /// What stands in the column `id` of a table of parts; `None` if it has none.
    #[must_use]
    pub fn ids(source: &Source, settings: &ReadSettings) -> Option<HashSet<String>> {
        let raw = RawColumns::read((source, SourceId::default()), settings)?;
        let ids = raw
            .columns
            .into_iter()
            .find(|column| normal(&column.header) == "id")?;
        Some(ids.cells.into_iter().map(|(_, text)| text).collect())
    }

    /// Looks at a table; `None` if it has no header.
    #[must_use]
    pub fn of(source: &Source, id: SourceId, settings: &ReadSettings) -> Option<Survey> {
        let raw = RawColumns::read((source, id), settings)?;
        let kind = meaning::kind_of(&raw, settings);
        let mut meanings = meaning::meanings(&raw, kind, settings);
        claims::weigh(&raw, &mut meanings, settings);
        let parts = part_names::of(&raw, &meanings);
        let machine = Field::Machine.property().name;
        let has_machine = meanings.iter().any(|one| one.likeliest() == Some(machine));
        let columns = raw.columns.iter().zip(meanings);
        let columns = columns.map(|(column, meaning)| {
            let mut one = SurveyedColumn {
                header: column.header.clone(),
                first: column.first(SHOWN),
                meaning,
                unit: column.unit,
                unit_below: column.unit_below,
                words: Vec::new(),
            };
            one.words = strange_words::of(column, one.property(), settings);
            one
        });
        Some(Survey {
            kind,
            rows: raw.rows,
            other_lines: raw.other_lines.clone(),
            blank_rows: raw.blank_rows,
            machines: if has_machine {
                Vec::new()
            } else {
                raw.machines.clone()
            },
            sheet: source.sheet().map(|sheet| sheet.name().to_owned()),
            elements: None,
            left: Vec::new(),
            delimiter: raw.delimiter,
            inches: raw.inches(),
            says_inches: raw.says_inches(),
            columns: columns.collect(),
            parts,
        })
    }
}
