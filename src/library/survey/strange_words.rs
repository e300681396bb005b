//! Words in the cells of a column that are none of its property's list, and what they may mean.

use super::super::standard_sizes::CELL_WORDS;
use super::super::{PROPERTIES, ReadSettings, ValueType, find_word};
use super::raw_columns::RawColumn;
use crate::units::is_stand_in;

/// A word that the property of its column does not have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StrangeWord {
    /// As it is written.
    pub text: String,
    /// In how many rows.
    pub rows: usize,
    /// The word that it may mean.
    pub meant: Option<&'static str>,
}

/// The words of a column that its property does not have, the most used first.
pub(super) fn of(
    column: &RawColumn,
    property: Option<&'static str>,
    settings: &ReadSettings,
) -> Vec<StrangeWord> {
    let list = PROPERTIES.iter().find_map(|one| match one.value {
        ValueType::Word(list) if Some(one.name) == property => Some(list),
        _ => None,
    });
    let Some((list, property)) = list.zip(property) else {
        return Vec::new();
    };
    let own = settings.columns.iter().find(|own| own.is(&column.header));
    let translated = |text: &str| {
        let mut values = own.into_iter().flat_map(|own| &own.values);
        values.any(|(said, _)| said.trim().eq_ignore_ascii_case(text))
    };
    let mut words: Vec<StrangeWord> = Vec::new();
    for (text, rows) in column.counted() {
        if find_word(list, text).is_some() || is_stand_in(text) || translated(text) {
            continue;
        }
        words.push(StrangeWord {
            text: text.to_owned(),
            rows,
            meant: meant(property, text),
        });
    }
    words.sort_by_key(|word| std::cmp::Reverse(word.rows));
    words
}

/// The word of a property's list that a word of the trade means.
pub(super) fn meant(property: &str, text: &str) -> Option<&'static str> {
    let words = CELL_WORDS.table.words.get(property)?;
    let is = |known: &String| known.to_lowercase() == text.trim().to_lowercase();
    let mut words = words.iter();
    words.find_map(|(word, known)| known.iter().any(is).then_some(word.as_str()))
}
