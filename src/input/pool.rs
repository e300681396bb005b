//! Texts of which each is held once.

use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};

/// Texts by number.
#[derive(Clone, Debug, Default)]
pub(super) struct Pool {
    /// One behind the other, and where each ends.
    text: String,
    ends: Vec<usize>,
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
        let id = u32::try_from(self.ends.len()).unwrap_or(u32::MAX);
        self.text.push_str(text);
        self.ends.push(self.text.len());
        // Of two texts of one hash the first keeps it; the other is then held as often as it comes.
        self.known.entry(hash).or_insert(id);
        id
    }

    /// The text of a number.
    pub(super) fn get(&self, id: u32) -> &str {
        let at = id as usize;
        let start = at.checked_sub(1).and_then(|before| self.ends.get(before));
        let end = self.ends.get(at).copied().unwrap_or_default();
        self.text
            .get(start.copied().unwrap_or_default()..end)
            .unwrap_or("")
    }
}
