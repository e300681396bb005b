//! Why something is not known, in words: not stated, or stated and in no table.

use crate::library::{Field, FieldSet, View};

/// Of the fields that are missing those which the library states, each with what is to be said:
/// ``stated as `1.2379`, not in the table of materials``.
#[must_use]
pub fn unlisted(view: &View<'_>, missing: FieldSet) -> Vec<(&'static str, String)> {
    let words = missing.iter().filter_map(|field| {
        let words = view.unlisted(field)?;
        Some((field.qualified(), words))
    });
    words.collect()
}

/// All fields that are missing, in a sentence's end: `a is not stated`, `a and b are not stated`,
/// ``c is stated as `1.2379`, not in the table of materials``. Empty if none is.
pub(super) fn lacking(view: &View<'_>, missing: FieldSet) -> String {
    let stated = unlisted(view, missing);
    let listed = |name: &&str| stated.iter().all(|(known, _)| known != name);
    let absent: Vec<&str> = missing
        .iter()
        .map(Field::qualified)
        .filter(listed)
        .collect();
    let absent = match absent.as_slice() {
        [] => None,
        [one] => Some(format!("{one} is not stated")),
        [rest @ .., last] => Some(format!("{} and {last} are not stated", rest.join(", "))),
    };
    let stated = stated.iter();
    let stated = stated.map(|(name, words)| format!("{name} is {words}"));
    let all: Vec<String> = absent.into_iter().chain(stated).collect();
    all.join("; ")
}
