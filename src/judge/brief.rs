//! What to do in short, with the values that are to be set.

use super::made_words::Words;

/// Words and values to set, in their order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Brief {
    pieces: Vec<BriefPiece>,
    rerun: bool,
}

/// A part of a [`Brief`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BriefPiece {
    /// Words.
    Words(Words),
    /// A value to set: writers may stress it.
    Value(Words),
}

impl Brief {
    /// Words.
    #[must_use]
    pub fn of(words: impl Into<Words>) -> Brief {
        Brief::default().and(words)
    }

    /// The same, and words behind it.
    #[must_use]
    pub fn and(mut self, words: impl Into<Words>) -> Brief {
        let words = words.into();
        if !words.is_empty() {
            self.pieces.push(BriefPiece::Words(words));
        }
        self
    }

    /// The same, and a value to set behind it.
    #[must_use]
    pub fn set(mut self, value: impl Into<Words>) -> Brief {
        self.pieces.push(BriefPiece::Value(value.into()));
        self
    }

    /// The same, and another behind it.
    #[must_use]
    pub fn then(mut self, other: Brief) -> Brief {
        self.pieces.extend(other.pieces);
        self.rerun |= other.rerun;
        self
    }

    /// The same, and then the check is to be run again: only it can say what follows.
    #[must_use]
    pub fn and_rerun(mut self) -> Brief {
        self.rerun = true;
        self
    }

    /// Whether the check is to be run again behind it.
    #[must_use]
    pub const fn asks_rerun(&self) -> bool {
        self.rerun
    }

    /// Its parts.
    #[must_use]
    pub fn pieces(&self) -> &[BriefPiece] {
        &self.pieces
    }

    /// Whether it says nothing; it may ask for the check all the same.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }
}

impl From<String> for Brief {
    fn from(words: String) -> Brief {
        Brief::of(words)
    }
}
