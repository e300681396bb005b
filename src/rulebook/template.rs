//! Messages with values in them: `only {gripped_length} of shank`.

use std::sync::Arc;

use crate::text::Span;

use super::parser::Mistake;
use super::type_check::{Checked, Scope, check};

/// A message, checked. Findings hold on to it: a copy costs next to nothing.
#[derive(Clone, Debug, Default)]
pub struct Template {
    /// Its parts in order.
    pub parts: Arc<[Piece]>,
    /// The whole of it, where it has no values.
    plain: Option<Arc<str>>,
}

/// A part of a message.
#[derive(Clone, Debug)]
pub enum Piece {
    /// Text as it is.
    Text(String),
    /// The value of an expression.
    Value(Box<Checked>),
    /// The value of an expression in percent.
    Percent(Box<Checked>),
}

impl Template {
    /// Reads a message: `{expression}`, `{expression:%}`; `{{` and `}}` are braces.
    pub(super) fn read(text: &str, scope: &dyn Scope) -> Result<Template, Mistake> {
        let mut parts = Vec::new();
        let mut plain = String::new();
        let mut rest = text;
        let at = |rest: &str| text.len() - rest.len();
        while let Some(brace) = rest.find(['{', '}']) {
            let (before, from) = rest.split_at(brace);
            plain.push_str(before);
            if let Some(after) = from.strip_prefix("{{").or(from.strip_prefix("}}")) {
                plain.extend(from.chars().next());
                rest = after;
                continue;
            }
            let start = at(from);
            let inner = from.strip_prefix('{').and_then(|from| from.split_once('}'));
            let Some((inner, after)) = inner else {
                let message = "a brace without its other half; write `{{` for a brace";
                return Err((Span::new(start, start + 1), message.to_owned()));
            };
            if !plain.is_empty() {
                parts.push(Piece::Text(std::mem::take(&mut plain)));
            }
            parts.push(value(inner, start + 1, scope)?);
            rest = after;
        }
        plain.push_str(rest);
        let whole = parts.is_empty().then(|| Arc::from(plain.as_str()));
        if !plain.is_empty() {
            parts.push(Piece::Text(plain));
        }
        Ok(Template {
            parts: parts.into(),
            plain: whole,
        })
    }

    /// The whole of it, where it has no values: it is the same for every finding.
    #[must_use]
    pub fn plain(&self) -> Option<Arc<str>> {
        if self.is_empty() {
            return Some(Arc::default());
        }
        self.plain.clone()
    }

    /// Whether it says something whatever its values are.
    #[must_use]
    pub fn has_text(&self) -> bool {
        self.parts.iter().any(|part| matches!(part, Piece::Text(_)))
    }

    /// The expressions in it.
    pub fn expressions(&self) -> impl Iterator<Item = &Checked> {
        self.parts.iter().filter_map(|part| match part {
            Piece::Text(_) => None,
            Piece::Value(checked) | Piece::Percent(checked) => Some(checked.as_ref()),
        })
    }

    /// The message as written.
    #[must_use]
    pub fn written(&self) -> String {
        let parts = self.parts.iter().map(|part| match part {
            Piece::Text(text) => text.clone(),
            Piece::Value(checked) => format!("{{{}}}", checked.text),
            Piece::Percent(checked) => format!("{{{}:%}}", checked.text),
        });
        parts.collect()
    }

    /// Whether it says nothing.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.parts.is_empty()
    }
}

fn value(inner: &str, start: usize, scope: &dyn Scope) -> Result<Piece, Mistake> {
    let (text, percent) = match inner.strip_suffix(":%") {
        Some(text) => (text, true),
        None => (inner, false),
    };
    let checked = check(text, scope).map_err(|(span, message)| {
        let span = Span::new(start + span.start as usize, start + span.end as usize);
        (span, message)
    })?;
    let checked = Box::new(checked);
    Ok(if percent {
        Piece::Percent(checked)
    } else {
        Piece::Value(checked)
    })
}
