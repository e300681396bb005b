//! A value of any property or fact: a number, a text, or yes and no.

/// A number in its canonical unit, a word or text, yes or no. `T` is how a text is held: borrowed
/// for computing, owned to be shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scalar<T> {
    /// A number. Within an expression it is in coherent units.
    Number(f64),
    /// A word or text.
    Text(T),
    /// Yes or no.
    Truth(bool),
}

impl<T> Scalar<T> {
    /// The number, if it is one.
    pub fn number(self) -> Option<f64> {
        match self {
            Scalar::Number(number) => Some(number),
            Scalar::Text(_) | Scalar::Truth(_) => None,
        }
    }

    /// The word or text, if it is one.
    pub fn text(self) -> Option<T> {
        match self {
            Scalar::Text(text) => Some(text),
            Scalar::Number(_) | Scalar::Truth(_) => None,
        }
    }

    /// The yes or no, if it is one.
    pub fn truth(self) -> Option<bool> {
        match self {
            Scalar::Truth(truth) => Some(truth),
            Scalar::Number(_) | Scalar::Text(_) => None,
        }
    }
}

impl Scalar<&str> {
    /// The same, to be kept.
    #[must_use]
    pub fn owned(self) -> Scalar<String> {
        match self {
            Scalar::Number(number) => Scalar::Number(number),
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
