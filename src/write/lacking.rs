//! What is missing, in few words: not stated, or stated and in no table.

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
