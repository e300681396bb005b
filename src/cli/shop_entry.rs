//! An entry of `[[accept]]` as text, and a shop file with one more.
//!
//! The file's own bytes are left as they are and the entry is put behind them: comments, order
//! and line endings cannot change. The whole is then read by the editor of TOML, which tells
//! whether the entry arrived, and that nothing else did.

use std::fmt::Write as _;

use toml_edit::{ArrayOfTables, DocumentMut, InlineTable, Item, Table, Value};

use crate::rulebook::{Accept, PARTS};

/// The array of the entries.
const ACCEPT: &str = "accept";

/// The entry, each line ended by a line feed.
pub(super) fn entry(accept: &Accept) -> String {
    let mut table = Table::new();
    let mut add = |key: &str, value: Value| {
        table.insert(key, Item::Value(value));
    };
    if let Some(library) = &accept.library {
        add("library", text(&library.written));
    }
    add("rule", text(&accept.rule));
    add("tool_number", text(&accept.tool_number));
    let named = [
        ("machine", &accept.machine),
        ("operation", &accept.operation),
    ];
    for (key, value) in named {
        if let Some(value) = value {
            add(key, text(value));
        }
    }
    add("reason", text(&accept.reason));
    add("by", text(&accept.by));
    if let Some(until) = accept.until.and_then(|day| day.to_string().parse().ok()) {
        add("until", Value::Datetime(toml_edit::Formatted::new(until)));
    }
    let was = &accept.was;
    if let Some(value) = &was.value {
        add("not_worse_than", text(value));
    }
    if let Some(ratio) = was.ratio {
        add("part_of_needed", Value::from(ratio));
    }
    if let Some(of) = &was.of {
        add("value_of", text(of));
    }
    let torque = [("nut_torque", &was.nut_torque)];
    let parts = PARTS.into_iter().zip(&was.parts);
    for (key, value) in parts.chain(torque) {
        if let Some(value) = value {
            add(key, text(value));
        }
    }
    if !was.values.is_empty() {
        let mut values = InlineTable::new();
        for (name, value) in &was.values {
            values.insert(name, text(value));
        }
        add("operation_values", Value::InlineTable(values));
    }
    let mut tables = ArrayOfTables::new();
    tables.push(table);
    let mut document = DocumentMut::new();
    document.insert(ACCEPT, Item::ArrayOfTables(tables));
    document.to_string()
}

/// A text in one line: what a cell holds may have line ends, which would take those of the file.
fn text(text: &str) -> Value {
    let mut written = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => written.extend(['\\', c]),
            // A string takes all that is written into it.
            c if c.is_control() => drop(write!(written, "\\u{:04X}", u32::from(c))),
            c => written.push(c),
        }
    }
    written.push('"');
    written.parse().unwrap_or_else(|_| Value::from(text))
}

/// A shop file with one more entry, and the line in which that begins; what is in the way if it
/// cannot be added.
pub(super) fn with_entry(old: &str, entry: &str) -> Result<(String, usize), String> {
    let end = if old.ends_with("\r\n") || (!old.ends_with('\n') && old.contains("\r\n")) {
        "\r\n"
    } else {
        "\n"
    };
    let mut new = old.to_owned();
    if !old.is_empty() && !old.ends_with('\n') {
        new.push_str(end);
    }
    let is_apart = old.trim_start_matches('\u{feff}').is_empty()
        || new.ends_with("\n\n")
        || new.ends_with("\n\r\n");
    if !is_apart {
        new.push_str(end);
    }
    let line = new.matches('\n').count() + 1;
    new.push_str(&entry.replace('\n', end));
    if is_only_more(old, &new, entry) {
        Ok((new, line))
    } else {
        let why = "its accepted findings are not written as [[accept]] tables; write each as one of its own";
        Err(why.to_owned())
    }
}

/// Whether the new text says what the old one says and this entry, and nothing else.
fn is_only_more(old: &str, new: &str, entry: &str) -> bool {
    let parsed = |text: &str| {
        let text = text.trim_start_matches('\u{feff}');
        text.parse::<toml::Table>().ok()
    };
    let (Some(mut old), Some(mut new), Some(mut entry)) = (parsed(old), parsed(new), parsed(entry))
    else {
        return false;
    };
    let taken = |table: &mut toml::Table| match table.remove(ACCEPT) {
        Some(toml::Value::Array(all)) => all,
        _ => Vec::new(),
    };
    let mut wanted = taken(&mut old);
    wanted.append(&mut taken(&mut entry));
    taken(&mut new) == wanted && old == new
}
