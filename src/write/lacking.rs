//! What is missing, in few words: not stated, or stated and in no table.

use crate::text::visible;

use super::wrap::{list, name, wrapped_to};

/// `a, b not stated; c stated as …`: of the names that are missing, and what is to be said of
/// those that are stated and in no table.
pub(super) fn lacking(missing: &[&str], unlisted: &[(&str, String)]) -> String {
    let listed = |name: &&&str| unlisted.iter().all(|(known, _)| known != *name);
    let absent: Vec<&str> = missing.iter().filter(listed).copied().collect();
    let absent = (!absent.is_empty()).then(|| format!("{} not stated", absent.join(", ")));
    let stated = unlisted.iter();
    let stated = stated.map(|(name, words)| format!("{name} {words}"));
    let all: Vec<String> = absent.into_iter().chain(stated).collect();
    all.join("; ")
}

/// Tools of a job that are not in the library, for the first lines of a text.
pub(crate) fn lacking_text(lacking: &[String], width: usize) -> String {
    if lacking.is_empty() {
        return String::new();
    }
    let all: Vec<&str> = lacking.iter().map(String::as_str).collect();
    let words = format!("not in the library ({}): {}", all.len(), list(&all));
    wrapped_to(width, &words, 0, 2) + "\n"
}

/// The same, a line each.
pub(crate) fn lacking_brief(input: &str, lacking: &[String]) -> String {
    let line = |number: &String| {
        format!(
            "{}: error: tool {} is not in the library\n",
            visible(input),
            name(number)
        )
    };
    lacking.iter().map(line).collect()
}
