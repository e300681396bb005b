//! Texts of which each is held once.

use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};

use crate::text::Texts;

/// Texts by number.
#[derive(Clone, Debug, Default)]
pub(super) struct Pool {
    texts: Texts,
    /// By the hash of a text: a text for a key would hold it twice.
    known: HashMap<u64, u32>,
}

impl Pool {
    /// The number of a text, which is added if it is new.
    pub(super) fn id(&mut self, text: &str) -> u32 {
        let mut hasher = DefaultHasher::new();
        text.hash(&mut hasher);
        let hash = hasher.finish();
        let known = self.known.get(&hash).copied();
        if let Some(known) = known.filter(|known| self.get(*known) == text) {
            return known;
        }
        let id = u32::try_from(self.texts.push(text)).unwrap_or(u32::MAX);
        // Of two texts of one hash the first keeps it; the other is then held as often as it comes.
        self.known.entry(hash).or_insert(id);
        id
    }

    /// The text of a number.
    pub(super) fn get(&self, id: u32) -> &str {
        self.texts.get(id as usize)
    }
}
