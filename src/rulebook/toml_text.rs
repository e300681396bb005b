//! TOML with places: an error in a value is shown in the line where it stands.

use serde::de::DeserializeOwned;
use toml::Spanned;

use crate::text::{Source, Span, closest, quoted};

use super::RuleError;

/// Parses a whole file.
pub(super) fn parse<T: DeserializeOwned>(source: &Source) -> Result<T, RuleError> {
    toml::from_str(source.text()).map_err(|error| {
        let span = error.span().unwrap_or(0..0);
        let message = better(error.message());
        RuleError::at(source, Span::new(span.start, span.end), message)
    })
}

/// Adds "did you mean" to an unknown key.
fn better(message: &str) -> String {
    let mut names = message.split('`').skip(1).step_by(2);
    let Some(unknown) = names.next().filter(|_| message.starts_with("unknown ")) else {
        return message.to_owned();
    };
    let known: Vec<&str> = names.collect();
    let what = if message.starts_with("unknown field") {
        "key"
    } else {
        "word"
    };
    let near = closest(unknown, known.iter().copied());
    let unknown = quoted(unknown);
    match near {
        Some(near) => format!("unknown {what} `{unknown}`; did you mean `{near}`?"),
        None => format!(
            "unknown {what} `{unknown}`; expected one of: {}",
            known.join(", ")
        ),
    }
}

/// Span of a part of a text value, in the file: exact wherever the value is written without
/// escapes, else the value as a whole.
pub(super) fn inside(source: &Source, value: &Spanned<String>, part: Span) -> Span {
    let whole = value.span();
    let raw = source.text().get(whole.clone()).unwrap_or("");
    match raw.find(value.get_ref().as_str()) {
        Some(at) => {
            let start = whole.start + at;
            Span::new(start + part.start as usize, start + part.end as usize)
        }
        None => Span::new(whole.start, whole.end),
    }
}

/// Span of a value.
pub(super) fn span<T>(value: &Spanned<T>) -> Span {
    let range = value.span();
    Span::new(range.start, range.end)
}
