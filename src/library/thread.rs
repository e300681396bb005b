//! A metric thread: what it measures, and how it was written.

use std::fmt;

use serde::Deserialize;

/// A metric thread.
#[derive(Clone, Debug, Deserialize)]
#[serde(try_from = "String")]
pub struct Thread {
    /// Nominal diameter, mm.
    pub diameter: f64,
    /// Pitch, mm, if it is stated.
    pub pitch: Option<f64>,
    /// As it was written, but in one spelling: `M40 X 1,5` and `M40x1.5` are the same.
    written: Box<str>,
}

impl Thread {
    /// The thread that a text states: `M40x1.5`, or `M40` without its pitch.
    #[must_use]
    pub fn read(text: &str) -> Option<Thread> {
        let written: String = text
            .chars()
            .filter(|c| !c.is_whitespace())
            .map(|c| match c {
                'x' | 'X' | '×' | '*' => 'x',
                ',' => '.',
                other => other.to_ascii_uppercase(),
            })
            .collect();
        let written = without_tolerance(&written)?.to_owned();
        let body = written.strip_prefix('M')?;
        let (diameter, pitch) = match body.split_once('x') {
            Some((diameter, pitch)) => (diameter, Some(pitch)),
            None => (body, None),
        };
        let length = |text: &str| {
            let length = text.parse::<f64>().ok();
            length.filter(|length| length.is_finite() && *length > 0.0)
        };
        Some(Thread {
            diameter: length(diameter)?,
            pitch: match pitch {
                Some(pitch) => Some(length(pitch)?),
                None => None,
            },
            written: written.into(),
        })
    }

    /// As it was written, without its tolerance class.
    #[must_use]
    pub fn written(&self) -> &str {
        &self.written
    }

    /// Diameter and pitch, if both are stated.
    #[must_use]
    pub fn whole(&self) -> Option<(f64, f64)> {
        Some((self.diameter, self.pitch?))
    }

    /// Whether a nut of one cannot go on the other; where one of them leaves out its pitch, the
    /// diameters alone tell.
    #[must_use]
    pub fn differs_from(&self, other: &Thread) -> bool {
        let pitches = self.pitch.zip(other.pitch);
        self.diameter != other.diameter || pitches.is_some_and(|(own, other)| own != other)
    }
}

/// The thread without its tolerance class, ISO 965-1: `M40x1.5-6H`, `M40x1.5-6H/6G`. `None` where
/// something else stands behind the hyphen, such as a left hand, which is another thread.
fn without_tolerance(written: &str) -> Option<&str> {
    let Some((thread, classes)) = written.split_once('-') else {
        return Some(written);
    };
    let is_class = |class: &str| {
        let grades: Vec<char> = class.chars().collect();
        let is_grade = |pair: &[char]| matches!(pair, [grade, place] if grade.is_ascii_digit() && ('A'..='H').contains(place));
        matches!(grades.len(), 2 | 4) && grades.chunks(2).all(is_grade)
    };
    classes.split('/').all(is_class).then_some(thread)
}

impl PartialEq for Thread {
    fn eq(&self, other: &Thread) -> bool {
        self.diameter == other.diameter && self.pitch == other.pitch
    }
}

impl TryFrom<String> for Thread {
    type Error = String;

    fn try_from(text: String) -> Result<Thread, String> {
        Thread::read(&text).ok_or_else(|| format!("`{text}` is not a thread such as M40x1.5"))
    }
}

impl fmt::Display for Thread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.written)
    }
}
