//! What to do in short, with the values that are to be set.

/// Words and values to set, in their order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Brief(Vec<Piece>);

/// A part of a [`Brief`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// Words.
    Words(String),
    /// A value to set: writers may stress it.
    Value(String),
}

impl Brief {
    /// Words.
    #[must_use]
    pub fn of(words: impl Into<String>) -> Brief {
        Brief::default().and(words)
    }

    /// The same, and words behind it.
    #[must_use]
    pub fn and(mut self, words: impl Into<String>) -> Brief {
        let words = words.into();
        if !words.is_empty() {
            self.0.push(Piece::Words(words));
        }
        self
    }

    /// The same, and a value to set behind it.
    #[must_use]
    pub fn set(mut self, value: impl Into<String>) -> Brief {
        self.0.push(Piece::Value(value.into()));
        self
    }

    /// The same, and another behind it.
    #[must_use]
    pub fn then(mut self, other: Brief) -> Brief {
        self.0.extend(other.0);
        self
    }

    /// Its parts.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.0
    }

    /// Whether it says nothing.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl From<String> for Brief {
    fn from(words: String) -> Brief {
        Brief::of(words)
    }
}
