//! Very many short texts, one behind the other.

/// Texts by number, in one piece of memory.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Texts {
    text: String,
    /// Where each ends.
    ends: Vec<usize>,
}

impl Texts {
    /// Adds a text and returns its number.
    pub fn push(&mut self, text: &str) -> usize {
        self.text.push_str(text);
        self.ends.push(self.text.len());
        self.ends.len() - 1
    }

    /// The text of a number; empty if there is none.
    #[must_use]
    pub fn get(&self, number: usize) -> &str {
        let before = number
            .checked_sub(1)
            .and_then(|before| self.ends.get(before));
        let end = self.ends.get(number).copied().unwrap_or_default();
        let own = before.copied().unwrap_or_default()..end;
        self.text.get(own).unwrap_or("")
    }

    /// How many there are.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.ends.len()
    }

    /// Whether there are none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.ends.is_empty()
    }

    /// All of them, in their order.
    pub fn iter(&self) -> impl Iterator<Item = &str> {
        (0..self.ends.len()).map(|number| self.get(number))
    }
}
