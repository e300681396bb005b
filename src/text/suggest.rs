//! "Did you mean": the known name nearest to a mistyped one.

/// The candidate nearest to `name`, if it is near enough that a slip of the hand explains it:
/// at most one edit in three letters, and never all letters, ignoring case.
pub fn closest<'a>(name: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // A name is short; a cell of 100 kB is none, and comparing it would cost minutes.
    if name.len() > 80 {
        return None;
    }
    let name = name.to_lowercase();
    let own = name.chars().count();
    candidates
        .into_iter()
        // Names of other lengths need no comparing: a file may hold 100 000 unknown ones.
        .filter(|known| {
            let letters = known.chars().count();
            own.abs_diff(letters) <= letters.max(3) / 3
        })
        .map(|known| {
            let edits = strsim::osa_distance(&name, &known.to_lowercase());
            (edits, known)
        })
        .filter(|(edits, known)| {
            let letters = known.chars().count();
            *edits <= letters.max(3) / 3 && *edits < letters.max(1)
        })
        .min_by_key(|(edits, known)| (*edits, *known))
        .map(|(_, known)| known)
}

/// How alike two names are, from 0 to 1: names of one family begin alike (Jaro and Winkler).
#[must_use]
pub fn likeness(a: &str, b: &str) -> f64 {
    strsim::jaro_winkler(a, b)
}
