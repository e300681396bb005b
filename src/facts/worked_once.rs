//! What a scene keeps besides facts, since it is dear to work out and of no use to a rule.

use std::cell::{Cell, OnceCell};

/// A value worked out once, and whether that read how far the tool sticks out.
pub(super) struct Kept<T>(OnceCell<(T, bool)>);

impl<T: Clone> Kept<T> {
    /// Nothing yet.
    pub(super) const fn new() -> Kept<T> {
        Kept(OnceCell::new())
    }

    /// The value. `moved` is set, and stays so, where working it out read how far the tool sticks
    /// out.
    pub(super) fn recall(&self, moved: Option<&Cell<bool>>, reckon: impl FnOnce() -> T) -> T {
        let (found, own) = self.0.get_or_init(|| {
            let before = moved.is_some_and(|moved| moved.replace(false));
            let found = reckon();
            (found, moved.is_some_and(|moved| moved.replace(before)))
        });
        if let Some(moved) = moved.filter(|_| *own) {
            moved.set(true);
        }
        found.clone()
    }
}
