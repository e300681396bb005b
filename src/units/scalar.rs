//! A value of any property or fact: a number, a word, a text, or yes and no.

/// A word of a closed list, and what else is read as it.
#[derive(Debug, PartialEq, Eq)]
pub struct Word {
    /// The word as stored and shown.
    pub word: &'static str,
    /// Other spellings accepted on input.
    pub also: &'static [&'static str],
    /// Its place in its list.
    pub at: u8,
}

/// A number in its canonical unit, a word of a closed list, a text, yes or no. `T` is how a text is held: borrowed
/// for computing, owned to be shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scalar<T> {
    /// A number. Within an expression it is in coherent units.
    Number(f64),
    /// A word of a closed list.
    Word(&'static Word),
    /// A text.
    Text(T),
    /// Yes or no.
    Truth(bool),
}

impl<T> Scalar<T> {
    /// The number, if it is one.
    pub fn number(self) -> Option<f64> {
        match self {
            Scalar::Number(number) => Some(number),
            Scalar::Word(_) | Scalar::Text(_) | Scalar::Truth(_) => None,
        }
    }

    /// The yes or no, if it is one.
    pub fn truth(self) -> Option<bool> {
        match self {
            Scalar::Truth(truth) => Some(truth),
            Scalar::Number(_) | Scalar::Word(_) | Scalar::Text(_) => None,
        }
    }
}

impl<'a> Scalar<&'a str> {
    /// The word or text, if it is one.
    #[must_use]
    pub fn text(self) -> Option<&'a str> {
        match self {
            Scalar::Word(word) => Some(word.word),
            Scalar::Text(text) => Some(text),
            Scalar::Number(_) | Scalar::Truth(_) => None,
        }
    }

    /// Whether both are the same; a word is the same as its text.
    #[must_use]
    pub fn is(self, other: Scalar<&str>) -> bool {
        match (self.text(), other.text()) {
            (Some(own), Some(other)) => own == other,
            _ => self == other,
        }
    }

    /// The same, to be kept.
    #[must_use]
    pub fn owned(self) -> Scalar<String> {
        match self {
            Scalar::Number(number) => Scalar::Number(number),
            Scalar::Word(word) => Scalar::Word(word),
            Scalar::Text(text) => Scalar::Text(text.to_owned()),
            Scalar::Truth(truth) => Scalar::Truth(truth),
        }
    }
}

impl<T> From<f64> for Scalar<T> {
    fn from(number: f64) -> Self {
        Scalar::Number(number)
    }
}

impl<'a> From<&'a str> for Scalar<&'a str> {
    fn from(text: &'a str) -> Self {
        Scalar::Text(text)
    }
}

impl<T> From<bool> for Scalar<T> {
    fn from(truth: bool) -> Self {
        Scalar::Truth(truth)
    }
}
