//! What `start` says of an export: column by column, what was written, and what to do next.

mod of_assets;

use std::fmt::Write as _;

use crate::library::{Kind, Meaning, StrangeWord, Survey, SurveyedColumn};
use crate::units::Word;

use super::wrap::{list, name, wrapped_to};
pub(crate) use of_assets::{AssetsStarted, assets_described, assets_refreshed, assets_started};

/// A blank cell of a drafted table.
#[derive(Clone, Debug)]
pub(crate) struct Blank {
    /// The property.
    pub field: &'static str,
    /// The part.
    pub kind: Kind,
    /// Its id.
    pub id: String,
    /// How many tools name it.
    pub tools: usize,
}

/// What was written, and what is left to do.
#[derive(Debug)]
pub(crate) struct Started {
    /// The folder as it was named.
    pub folder: String,
    /// The files in it.
    pub files: Vec<String>,
    /// What is blank in them.
    pub blanks: Vec<Blank>,
    /// Columns that may mean something and are not answered, and columns of which nothing is known.
    pub open: (usize, usize),
    /// Words that are of no list.
    pub words: usize,
    /// Of how many tools the grip is judged, and of how many it is to be; none if nothing could be
    /// judged yet.
    pub judged: Option<(usize, usize)>,
    /// Whether the rows are what lies in stock.
    pub is_stock: bool,
    /// The copy of the export.
    pub table: String,
}

/// Blank cells that are listed.
const LISTED: usize = 9;
/// Guesses that are listed of one column.
const GUESSES: usize = 3;

/// What an export holds, column by column; without all, only what is to be answered.
pub(crate) fn survey_text(file: &str, survey: &Survey, shows_all: bool, width: usize) -> String {
    let mut text = wrapped_to(width, &head(file, survey), 0, 2);
    if !survey.other_lines.is_empty() || survey.blank_rows > 0 {
        let blank = match survey.blank_rows {
            0 => None,
            1 => Some("1 blank row".to_owned()),
            many => Some(format!("{many} blank rows")),
        };
        let lines = survey.other_lines.iter();
        let lines: Vec<String> = lines
            .map(|(line, many)| format!("{} ({many})", line.words()))
            .chain(blank)
            .collect();
        let said = format!("Not read as records: {}.", lines.join(", "));
        text.push_str(&wrapped_to(width, &said, 0, 2));
    }
    if let Some(said) = machines(survey) {
        text.push_str(&wrapped_to(width, &said, 0, 2));
    }
    if !survey.left.is_empty() {
        let left = survey.left.iter();
        let left: Vec<String> = left
            .map(|(element, many)| format!("{many} elements `{}`", name(element)))
            .collect();
        let left: Vec<&str> = left.iter().map(String::as_str).collect();
        let said = format!("Not read: {}.", list(&left));
        text.push_str(&wrapped_to(width, &said, 0, 2));
    }
    if is_in_inches(survey) {
        let said = format!(
            "{}: are bare lengths in inches? Then `length = \"in\"` under [units].",
            inch_reason(survey)
        );
        text.push_str(&wrapped_to(width, &said, 0, 2));
    }
    let of = |is: fn(&Meaning) -> bool| {
        let columns = survey.columns.iter();
        columns.filter(move |column| is(&column.meaning) && (shows_all || is_open(column)))
    };
    let parts: [Part; 5] = [
        ("Taken: `lint` reads these", |one| {
            matches!(one, Meaning::Taken(..))
        }),
        (
            "Guessed: `lint` does not read these until you answer",
            |one| matches!(one, Meaning::Guessed(_)),
        ),
        (
            "Open: name the property under [columns], or ignore the column",
            |one| *one == Meaning::Open,
        ),
        ("Ignored, as [columns] says", |one| *one == Meaning::Ignored),
        ("Blank in every row", |one| *one == Meaning::Blank),
    ];
    let settled = survey.columns.iter().filter(|column| !is_open(column));
    let settled = if shows_all { 0 } else { settled.count() };
    if settled > 0 {
        let said = format!("{settled} columns are settled.");
        text.push_str(&wrapped_to(width, &said, 0, 2));
    }
    for (title, is) in parts {
        if of(is).next().is_some() {
            let _ = write!(text, "\n{title}\n");
            of(is).for_each(|column| one_column(column, width, &mut text));
        }
    }
    text
}

/// What lines beside the rows say of machines: nobody is on one by that alone.
fn machines(survey: &Survey) -> Option<String> {
    let names: Vec<&str> = survey.machines.iter().map(String::as_str).collect();
    match names.as_slice() {
        [] => None,
        [one] => {
            let one = name(one);
            Some(format!(
                "A line beside the records names the machine {one}: are all these tools on it? Then `constant = \"{one}\"` under [columns.\"machine\"]."
            ))
        }
        several => Some(format!(
            "Lines beside the records name machines: {}. Only their order says which row is on which, and that is not read: add a column `machine` where the list comes from.",
            list(several)
        )),
    }
}

/// Whether something of a column is to be answered.
fn is_open(column: &SurveyedColumn) -> bool {
    let is_settled = matches!(
        column.meaning,
        Meaning::Taken(..) | Meaning::Ignored | Meaning::Blank
    );
    !is_settled || !column.words.is_empty()
}

/// A title, and which columns are below it.
type Part = (&'static str, fn(&Meaning) -> bool);

/// Whether so many numbers have an inch mark or a fraction that the others are likely inches.
pub(crate) fn is_in_inches(survey: &Survey) -> bool {
    let (marked, all) = survey.inches;
    survey.says_inches.is_some() || marked >= 3 && marked * 10 >= all
}

/// What speaks for inches.
pub(crate) fn inch_reason(survey: &Survey) -> String {
    let (marked, all) = survey.inches;
    match &survey.says_inches {
        Some(column) => format!("`{}` says inch in every row", name(column)),
        None => format!("{marked} of {all} numbers have an inch mark or a fraction"),
    }
}

fn head(file: &str, survey: &Survey) -> String {
    let parted = match (&survey.sheet, survey.delimiter) {
        _ if survey.elements.is_some() => {
            let element = survey.elements.as_deref().unwrap_or_default();
            format!("a row for each element `{}`", name(element))
        }
        (Some(sheet), _) => format!("on the sheet `{}`", name(sheet)),
        (None, ';') => "parted by semicolons".to_owned(),
        (None, '\t') => "parted by tabs".to_owned(),
        (None, _) => "parted by commas".to_owned(),
    };
    let rows = match survey.kind {
        Kind::Stock => {
            "rows, read as what lies in stock, since no column says how far a tool sticks out"
        }
        _ => "rows",
    };
    format!(
        "{}: {} {rows}; {} columns, {parted}",
        name(file),
        survey.rows,
        survey.columns.len()
    )
}

/// The header of a column and its first values.
fn one_column_head(column: &SurveyedColumn, width: usize, text: &mut String) {
    let first: Vec<&str> = column.first.iter().map(String::as_str).collect();
    let first = match first.as_slice() {
        [] => String::new(),
        some => format!("  {}", list(some)),
    };
    let unit = column
        .unit
        .map_or_else(String::new, |unit| format!(" [{unit}]"));
    let head = format!("\"{}\"{unit}{first}", name(&column.header));
    text.push_str(&wrapped_to(width, &head, 2, 6));
}

fn one_column(column: &SurveyedColumn, width: usize, text: &mut String) {
    one_column_head(column, width, text);
    match &column.meaning {
        Meaning::Taken(property, why) => {
            text.push_str(&wrapped_to(width, &format!("{property}: {why}"), 6, 8));
        }
        Meaning::Guessed(guesses) => {
            for (at, guess) in guesses.iter().take(GUESSES).enumerate() {
                let or = if at == 0 { "" } else { "or " };
                let said = format!("{or}{}? {}", guess.property, guess.reasons.join("; "));
                text.push_str(&wrapped_to(width, &said, 6, 8));
            }
        }
        Meaning::Ignored | Meaning::Open | Meaning::Blank => {}
    }
    if !column.words.is_empty() {
        let words = column.words.iter().map(|word| match word.meant {
            Some(meant) => format!("{} ({meant}?)", name(&word.text)),
            None => name(&word.text).into_owned(),
        });
        let words: Vec<String> = words.collect();
        let said = format!("words that are not known there: {}", words.join(", "));
        text.push_str(&wrapped_to(width, &said, 6, 8));
    }
}

/// What was written and what to do next.
pub(crate) fn started_text(started: &Started, width: usize) -> String {
    let folder = name(&started.folder);
    let table = &started.table;
    let mut text = String::from("\n");
    let line = |text: &mut String, said: &str, first, rest| {
        text.push_str(&wrapped_to(width, said, first, rest));
    };
    line(
        &mut text,
        &format!("Written to {folder}: {}.", started.files.join(", ")),
        0,
        2,
    );
    if let Some((judged, of)) = started.judged {
        line(
            &mut text,
            &format!("As it is, the grip is judged on {judged} of {of} tools."),
            0,
            2,
        );
    }
    if !started.blanks.is_empty() {
        let many = started.blanks.len();
        let shown = many.min(LISTED);
        text.push('\n');
        line(
            &mut text,
            &format!("Measure, look up or enter these {shown} values, those of most tools first:"),
            0,
            2,
        );
        for blank in started.blanks.iter().take(LISTED) {
            let tools = match blank.tools {
                1 => "1 tool".to_owned(),
                many => format!("{many} tools"),
            };
            let id = name(&blank.id);
            line(
                &mut text,
                &format!("{} of {} {id} ({tools})", blank.field, blank.kind.name()),
                2,
                4,
            );
        }
        if many > LISTED {
            line(
                &mut text,
                &format!("and {} more that are blank in these tables", many - LISTED),
                2,
                4,
            );
        }
    }
    text.push('\n');
    line(&mut text, "Next:", 0, 2);
    line(&mut text, &format!("1. {}", answers(started)), 2, 5);
    line(&mut text, &format!("2. {}", fill_in(started)), 2, 5);
    line(
        &mut text,
        &format!(
            "3. shankwise lint {folder}; what it says of {table}, correct where the export comes from, and bring that with: shankwise start --refresh FILE --into {folder}"
        ),
        2,
        5,
    );
    text
}

fn answers(started: &Started) -> String {
    let folder = name(&started.folder);
    let (guessed, unknown) = started.open;
    if guessed + unknown + started.words == 0 {
        return format!("look through {folder}/shankwise.toml: it says what every column means");
    }
    format!(
        "in {folder}/shankwise.toml, answer what {guessed} columns mean that are guessed, {unknown} of which nothing is known, and {} words: remove the # of each line that is right",
        started.words
    )
}

fn fill_in(started: &Started) -> String {
    let folder = name(&started.folder);
    if started.is_stock {
        return format!("add a line to {folder}/assemblies.csv for every tool that is set up");
    }
    if started.blanks.is_empty() {
        return format!("{folder} has no other table to fill in");
    }
    format!(
        "fill in what is blank in the other tables of {folder}; `shankwise columns holder` has the words of clamping_kind"
    )
}

/// The question whether bare lengths are in inches.
pub(crate) fn inches_question(survey: &Survey, width: usize) -> String {
    let said = format!(
        "{}. Are bare lengths in inches? y or n: ",
        inch_reason(survey)
    );
    wrapped_to(width, &said, 0, 2)
}

/// One question about a word of a column.
pub(crate) fn word_question(word: &StrangeWord, list: &[Word], width: usize) -> String {
    let rows = match word.rows {
        1 => "1 row".to_owned(),
        many => format!("{many} rows"),
    };
    let mut text = format!("\n  \"{}\" in {rows} means\n", name(&word.text));
    if let Some(meant) = word.meant {
        text.push_str(&wrapped_to(
            width,
            &format!("1  {meant}: a word of the trade for it"),
            4,
            8,
        ));
    }
    let all: Vec<&str> = list.iter().map(|word| word.word).collect();
    text.push_str(&wrapped_to(
        width,
        &format!("one of: {}", all.join(", ")),
        4,
        8,
    ));
    text.push_str("A word, or nothing to leave it open: ");
    text
}

/// One question at the terminal.
pub(crate) fn question_text(column: &SurveyedColumn, width: usize) -> String {
    let mut text = String::from("\n");
    one_column_head(column, width, &mut text);
    if let Meaning::Guessed(guesses) = &column.meaning {
        for (at, guess) in guesses.iter().enumerate() {
            let said = format!(
                "{}  {}: {}",
                at + 1,
                guess.property,
                guess.reasons.join("; ")
            );
            text.push_str(&wrapped_to(width, &said, 4, 8));
        }
    }
    text.push_str(
        "    0  not to be read\nA number, the name of a property, or nothing to leave it open: ",
    );
    text
}

/// What changed with a newer export.
#[derive(Debug)]
pub(crate) struct Refreshed {
    /// The folder as it was named.
    pub folder: String,
    /// The table that is new.
    pub table: String,
    /// Where the copy before it is kept.
    pub kept: String,
    /// Rows before, and now.
    pub rows: (usize, usize),
    /// Columns that were not there before.
    pub new: Vec<String>,
    /// Columns that are gone.
    pub lost: Vec<String>,
    /// Lines of the copy that the new export does not have.
    pub replaced: usize,
    /// Parts that it names and no table of the folder describes, with their kind.
    pub unknown: Vec<(Kind, Vec<String>)>,
}

/// Says what changed with a newer export.
pub(crate) fn refreshed_text(refreshed: &Refreshed, width: usize) -> String {
    let Refreshed {
        table,
        rows: (before, now),
        replaced,
        ..
    } = refreshed;
    let folder = name(&refreshed.folder);
    let kept = name(&refreshed.kept);
    let mut text = String::new();
    let mut line = |said: &str| text.push_str(&wrapped_to(width, said, 0, 2));
    line(&format!(
        "{folder}/{table} is the new export: {now} rows, {before} before. All else in {folder} is as it was."
    ));
    if *replaced > 0 {
        let lines = if *replaced == 1 { "line" } else { "lines" };
        line(&format!(
            "{replaced} {lines} of the copy before it are not in it: what was corrected there by hand is in {kept} now."
        ));
    }
    for (what, columns) in [
        ("New columns", &refreshed.new),
        ("Columns that are gone", &refreshed.lost),
    ] {
        if !columns.is_empty() {
            let columns: Vec<&str> = columns.iter().map(String::as_str).collect();
            line(&format!("{what}: {}.", list(&columns)));
        }
    }
    for (kind, ids) in &refreshed.unknown {
        let ids: Vec<&str> = ids.iter().map(String::as_str).collect();
        line(&format!("Not in {}: {}.", kind.table(), list(&ids)));
    }
    line(&format!("Next: shankwise lint {folder}"));
    text
}
