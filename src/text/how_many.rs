//! How many of something, in words.

/// `1 error`, `2 errors`, `3 libraries`.
#[must_use]
pub fn counted(count: usize, what: &str) -> String {
    match (count, what.strip_suffix('y')) {
        (1, _) => format!("1 {what}"),
        (_, Some(stem)) => format!("{count} {stem}ies"),
        _ => format!("{count} {what}s"),
    }
}
