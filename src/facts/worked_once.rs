//! What a scene keeps besides facts, since it is dear to work out and of no use to a rule.

use std::cell::{Cell, OnceCell};

/// A value worked out once, and whether that read what is watched for.
pub(super) struct Kept<T>(OnceCell<(T, bool)>);

impl<T: Clone> Kept<T> {
    /// Nothing yet.
    pub(super) const fn new() -> Kept<T> {
        Kept(OnceCell::new())
    }

    /// The value. `seen` is set, and stays so, where working it out read what is watched for.
    pub(super) fn recall(&self, seen: Option<&Cell<bool>>, reckon: impl FnOnce() -> T) -> T {
        let (found, own) = self.0.get_or_init(|| {
            let before = seen.is_some_and(|seen| seen.replace(false));
            let found = reckon();
            (found, seen.is_some_and(|seen| seen.replace(before)))
        });
        if let Some(seen) = seen.filter(|_| *own) {
            seen.set(true);
        }
        found.clone()
    }
}
