//! Lines that are no records and name a machine: `Machine: VMC-2` above a table or between its rows.

use super::super::columns::{Host, normal};
use super::super::{Field, Kind, hints};

/// Names of machines are short, bytes.
const LONGEST: usize = 60;

/// The machine that a line names: behind a word for it and a colon, or in the cell behind that word.
pub(super) fn machine<'c>(cells: impl Iterator<Item = &'c str>) -> Option<String> {
    let cells = cells.map(|cell| cell.trim_matches(|c: char| c == '"' || c.is_whitespace()));
    let cells: Vec<&str> = cells.filter(|cell| !cell.is_empty()).collect();
    let named = cells.iter().enumerate().find_map(|(at, cell)| {
        if let Some((word, name)) = cell.split_once([':', '='])
            && is_word(word)
            && !name.trim().is_empty()
        {
            return Some(name.trim());
        }
        let alone = cell.trim_end_matches([':', '=']);
        cells.get(at + 1).copied().filter(|_| is_word(alone))
    });
    named
        .filter(|name| name.len() <= LONGEST)
        .map(str::to_owned)
}

fn is_word(word: &str) -> bool {
    let name = Field::Machine.property().name;
    let kinds = Host::table(Kind::Assembly).kinds();
    normal(word) == name || hints::meant(word, &kinds) == [name]
}
