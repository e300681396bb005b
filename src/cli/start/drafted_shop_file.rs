//! The shop file of a drafted library: what was answered, and as remarks what is guessed or open.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use toml_edit::{DocumentMut, Item, Table, Value};

use crate::library::standard_sizes::COLLETS;
use crate::library::{Kind, Meaning, PROPERTIES, Survey, SurveyedColumn, ValueType};
use crate::text::cut;
use crate::units::{Spelling, split_unit};
use crate::write::{inch_reason, is_in_inches};

use super::super::refusal::{Refusal, shown};

/// What a shop says of the columns of its export, and of itself.
#[derive(Debug, Default)]
pub(super) struct Answers {
    document: DocumentMut,
}

/// Characters of a remark.
const LONGEST: usize = 160;
/// The table of a shop file that says what columns mean.
const COLUMNS: &str = "columns";

impl Answers {
    /// Reads a file of answers: a part of a shop file.
    pub(super) fn read(path: &Path) -> Result<Answers, Refusal> {
        let name = path.display().to_string();
        let text = fs::read_to_string(path).map_err(|why| {
            let what = format!("{} cannot be read: {why}", shown(&name));
            Refusal::new(what, "name a file of answers")
        })?;
        let document = text.parse::<DocumentMut>().map_err(|why| {
            let what = format!("{} cannot be read: {}", shown(&name), shown(why.message()));
            Refusal::new(what, "expected a part of a shop file, with [columns] in it")
        })?;
        Ok(Answers { document })
    }

    /// Answers that a column means a property.
    pub(super) fn add(&mut self, column: &SurveyedColumn, property: &str) {
        let said = match unit_behind(column, property) {
            Some(unit) => {
                let mut table = toml_edit::InlineTable::new();
                table.insert("property", property.into());
                table.insert("unit", unit.into());
                Value::InlineTable(table)
            }
            None => property.into(),
        };
        self.entry(&column.header, Item::Value(said));
    }

    /// Answers that bare lengths are in inches.
    pub(super) fn in_inches(&mut self) {
        let mut units = Table::new();
        units.insert("length", "in".into());
        self.document.insert("units", Item::Table(units));
    }

    /// Answers what a word of a column means, whose property is answered.
    pub(super) fn translate(&mut self, header: &str, property: &str, (text, word): (&str, &str)) {
        let columns = self.document.get_mut(COLUMNS).and_then(Item::as_table_mut);
        let Some(columns) = columns else { return };
        if !columns.get(header).is_some_and(Item::is_table) {
            let mut table = Table::new();
            table.insert("property", property.into());
            table.insert("values", Item::Table(Table::new()));
            columns.insert(header, Item::Table(table));
        }
        let values = columns
            .get_mut(header)
            .and_then(|own| own.get_mut("values"));
        if let Some(values) = values.and_then(Item::as_table_mut) {
            values.insert(text, word.into());
        }
    }

    /// Answers that a column is not read.
    pub(super) fn ignore(&mut self, header: &str) {
        let mut table = toml_edit::InlineTable::new();
        table.insert("ignored", true.into());
        self.entry(header, Item::Value(Value::InlineTable(table)));
    }

    fn entry(&mut self, header: &str, said: Item) {
        let columns = self.document.entry(COLUMNS);
        let columns = columns.or_insert_with(|| Item::Table(Table::new()));
        if let Some(columns) = columns.as_table_mut() {
            columns.insert(header, said);
        }
    }

    fn has(&self, table: &str) -> bool {
        self.document.contains_key(table)
    }

    fn answers(&self, header: &str) -> bool {
        let columns = self.document.get(COLUMNS).and_then(Item::as_table_like);
        columns.is_some_and(|columns| columns.contains_key(header))
    }
}

/// The text of the shop file.
pub(super) fn text(file: &str, survey: &Survey, answers: &Answers) -> String {
    let mut text = String::from(
        "# How this shop works. Drafted by `shankwise start`; it is yours now. A line behind # counts\n# for nothing: it is a guess to be confirmed, or a value to be filled in. `shankwise help rules`\n# lists all keys.\n",
    );
    let _ = writeln!(text, "# The export was {}.", remark(file));
    let mut rest = answers.document.clone();
    let columns = rest.remove(COLUMNS);
    if is_in_inches(survey) && !answers.has("units") {
        let reason = inch_reason(survey);
        let _ = write!(
            text,
            "\n# {}.\n# [units]\n# length = \"in\"\n",
            remark(&reason)
        );
    }
    // Keys before the first table belong to no table.
    let loose: DocumentMut = loose_of(&mut rest);
    let loose = loose.to_string();
    if !loose.trim().is_empty() {
        let _ = write!(text, "\n{}\n", loose.trim());
    }
    text.push_str("\n[columns]\n");
    let with_words = |header: &str| {
        let mut columns = survey.columns.iter();
        columns.any(|column| column.header == header && !column.words.is_empty())
    };
    let (simple, tables) = parted(columns.as_ref(), &with_words);
    text.push_str(&simple);
    for column in &survey.columns {
        if !answers.answers(&column.header) && column.words.is_empty() {
            text.push_str(&guess(column));
        }
    }
    text.push_str(&tables);
    for column in survey.columns.iter().filter(|one| !one.words.is_empty()) {
        text.push_str(&words(column, answers.answers(&column.header)));
    }
    text.push_str(&machine(survey, answers));
    let rest = rest.to_string();
    if !rest.trim().is_empty() {
        let _ = write!(text, "\n{}\n", rest.trim());
    }
    if !answers.has("default") {
        text.push_str(&defaults(survey));
    }
    text
}

/// The machine that a line of the export names, as a remark: if all its tools are on it.
fn machine(survey: &Survey, answers: &Answers) -> String {
    match survey.machines.as_slice() {
        [one] if !answers.answers("machine") => format!(
            "\n# A line of the export names this machine. If all its tools are on it:\n# [columns.\"machine\"]\n# constant = {}\n",
            value(one)
        ),
        _ => String::new(),
    }
}

/// Takes the keys out that belong to no table.
fn loose_of(document: &mut DocumentMut) -> DocumentMut {
    let keys = document.iter().filter(|(_, item)| item.is_value());
    let keys: Vec<String> = keys.map(|(key, _)| key.to_owned()).collect();
    let mut loose = DocumentMut::new();
    for key in keys {
        if let Some(item) = document.remove(&key) {
            loose.insert(&key, item);
        }
    }
    loose
}

/// Answers in one line each, and those that are tables of their own: also where words are to be added.
fn parted(columns: Option<&Item>, with_words: &dyn Fn(&str) -> bool) -> (String, String) {
    let (mut simple, mut tables) = (String::new(), String::new());
    let Some(columns) = columns.and_then(Item::as_table_like) else {
        return (simple, tables);
    };
    for (header, said) in columns.iter() {
        if let (Some(property), true) = (said.as_str(), with_words(header)) {
            let _ = write!(
                tables,
                "\n[columns.{}]\nproperty = {}\n",
                value(header),
                value(property)
            );
        } else if let Some(known) = said.as_value() {
            let _ = writeln!(simple, "{} = {}", value(header), known.to_string().trim());
        } else if let Some(table) = said.as_table() {
            // Printed below its own path, with whatever stands in it.
            let mut inner = Table::new();
            inner.set_implicit(true);
            inner.insert(header, Item::Table(table.clone()));
            let mut outer = DocumentMut::new();
            outer.insert(COLUMNS, Item::Table(inner));
            let _ = write!(tables, "\n{}\n", outer.to_string().trim());
        }
    }
    (simple, tables)
}

/// What may be said of a column that nobody has answered, as a remark.
fn guess(column: &SurveyedColumn) -> String {
    let header = value(&column.header);
    let first: Vec<&str> = column.first.iter().map(String::as_str).collect();
    let first = remark(&first.join(", "));
    match &column.meaning {
        Meaning::Guessed(guesses) => {
            let mut text = format!("\n# {header}: {first}\n");
            for guess in guesses {
                let said = entry(column, guess.property);
                let reasons = remark(&guess.reasons.join("; "));
                let _ = writeln!(text, "# {header} = {said}    # {reasons}");
            }
            text
        }
        Meaning::Open if column.header.is_empty() => String::new(),
        Meaning::Open => format!(
            "\n# {header}: {first}\n# {header} = {{ ignored = true }}    # nothing is known of it: name its property, or ignore it\n"
        ),
        Meaning::Taken(..) | Meaning::Ignored | Meaning::Blank => String::new(),
    }
}

/// The unit that only a person sees in a header, `Md Nm`, if it measures the property.
fn unit_behind(column: &SurveyedColumn, property: &str) -> Option<&'static str> {
    let in_header = split_unit(&column.header).1.is_some();
    let unit = column.unit.filter(|_| !in_header && !column.unit_below)?;
    let measures = PROPERTIES.iter().any(|one| match one.value {
        ValueType::Quantity(wanted) if one.name == property => {
            Spelling::find(unit, wanted).is_some()
        }
        _ => false,
    });
    measures.then_some(unit)
}

/// What is to be said of a column that means a property: with the unit, where the program would not
/// see it in the header.
fn entry(column: &SurveyedColumn, property: &str) -> String {
    match unit_behind(column, property) {
        Some(unit) => format!(
            "{{ property = {}, unit = {} }}",
            value(property),
            value(unit)
        ),
        None => value(property),
    }
}

/// The words of a column that its property does not have, as remarks.
fn words(column: &SurveyedColumn, is_answered: bool) -> String {
    let header = value(&column.header);
    let Some(property) = column.property() else {
        return String::new();
    };
    let mut text = format!("\n# Words under {header}, and in how many rows.\n");
    if !is_answered {
        let _ = writeln!(text, "# [columns.{header}]");
        match &column.meaning {
            Meaning::Guessed(guesses) => {
                for guess in guesses {
                    let reasons = remark(&guess.reasons.join("; "));
                    let own = value(guess.property);
                    let _ = writeln!(text, "# property = {own}    # {reasons}");
                }
            }
            _ => {
                let _ = writeln!(text, "# property = {}", value(property));
            }
        }
    }
    let _ = writeln!(text, "# [columns.{header}.values]");
    for word in &column.words {
        let (meant, why) = match word.meant {
            Some(meant) => (meant, "a word of the trade for it"),
            None => ("", "which of the words of its list?"),
        };
        let _ = writeln!(
            text,
            "# {} = {}    # in {} {}; {why}",
            value(&word.text),
            value(meant),
            word.rows,
            if word.rows == 1 { "row" } else { "rows" }
        );
    }
    text
}

/// Places for what no list states.
fn defaults(survey: &Survey) -> String {
    let mut text = String::from(
        "\n# What is the same for all of them, where no table states it; measured, with its unit.\n# [default]\n# clearance = \" mm\"                    # face of nut or holder above the work\n# face_setback = { standard = \" mm\" }   # nut face to the front end of the collet\n",
    );
    let collets = survey
        .parts
        .iter()
        .filter(|parts| parts.kind == Kind::Collet);
    let names = collets.flat_map(|parts| &parts.names);
    let sizes = names.filter_map(|name| name.collet.as_ref()?.0.parse().ok());
    let mut sizes: Vec<f64> = sizes.collect();
    sizes.sort_by(f64::total_cmp);
    sizes.dedup();
    let known = sizes.iter().filter_map(|size| {
        let mut all = COLLETS.table.size.iter();
        let known = all.find(|known| known.size == *size)?;
        Some(format!("size {size}: {} mm", known.length))
    });
    let known: Vec<String> = known.collect();
    if !known.is_empty() {
        let _ = writeln!(
            text,
            "\n# How long collets are, {}: {}.\n# The gripping length is shorter where the bore is relieved: measure it, and enter it as bore_length.",
            COLLETS.source,
            known.join(", ")
        );
    }
    text
}

/// A header, or a word of a cell, as a key or a value: in one line whatever is in it, as it may stand
/// in a remark. What JSON escapes TOML does too, but for the one control character that JSON leaves.
fn value(text: &str) -> String {
    let escaped = serde_json::to_string(text).unwrap_or_default();
    escaped.replace('\u{7f}', "\\u007F")
}

/// A text of the input as a remark may hold it: one line, cut.
fn remark(text: &str) -> String {
    let line: String = text
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    cut(&line, LONGEST).into_owned()
}
