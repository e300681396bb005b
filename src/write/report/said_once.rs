//! On a long page, texts that many findings share are said once, and linked from each.

use std::collections::{BTreeMap, HashMap};
use std::fmt::Write as _;

use super::super::html::escaped;
use super::findings;
use super::model::{Audit, Finding};
use super::tool_section::limits;

/// Findings from which on a page is long.
const LONG: usize = 1000;
/// How many findings share a text that is said once.
const SHARED: usize = 5;

/// What kind of text it is.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) enum Kind {
    Why,
    Beware,
    Assumed,
    Limits,
}

impl Kind {
    /// Of these in this order.
    pub(super) const ALL: [Kind; 4] = [Kind::Why, Kind::Beware, Kind::Assumed, Kind::Limits];

    /// The word before the text.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Kind::Why => "Why",
            Kind::Beware => "Beware",
            Kind::Assumed => "Assumed",
            Kind::Limits => "Limits",
        }
    }

    /// The class of its paragraph, as an attribute.
    pub(super) const fn class(self) -> &'static str {
        match self {
            Kind::Why | Kind::Beware => "",
            Kind::Assumed => " class=\"soft\"",
            Kind::Limits => " class=\"facts\"",
        }
    }

    /// What a finding says of it, as markup.
    pub(super) fn of(self, finding: &Finding) -> String {
        match self {
            Kind::Why => escaped(&finding.why),
            Kind::Beware => escaped(&finding.caution),
            Kind::Assumed => escaped(&finding.assumptions.join(" · ")),
            Kind::Limits => limits(finding),
        }
    }
}

/// The texts that are said once, by their number. A short page has none.
#[derive(Default)]
pub(super) struct SaidOnce {
    numbers: HashMap<(Kind, String), usize>,
    /// Rule, kind and text, by number.
    texts: Vec<(String, Kind, String)>,
}

impl SaidOnce {
    pub(super) fn of(audit: &Audit) -> SaidOnce {
        if findings(audit).count() < LONG {
            return SaidOnce::default();
        }
        let mut counts: BTreeMap<(&str, Kind, String), usize> = BTreeMap::new();
        for (_, finding) in findings(audit) {
            for kind in Kind::ALL {
                let text = kind.of(finding);
                if !text.is_empty() {
                    *counts.entry((&finding.rule, kind, text)).or_default() += 1;
                }
            }
        }
        let mut once = SaidOnce::default();
        for ((rule, kind, text), _) in counts.into_iter().filter(|(_, count)| *count >= SHARED) {
            let next = once.texts.len() + 1;
            // Another rule may have said the same.
            once.numbers.entry((kind, text.clone())).or_insert_with(|| {
                once.texts.push((rule.to_owned(), kind, text));
                next
            });
        }
        once
    }

    pub(super) fn is_long(&self) -> bool {
        !self.texts.is_empty()
    }

    /// A link to a text that is said elsewhere.
    pub(super) fn link(&self, kind: Kind, text: &str) -> Option<String> {
        let number = self.numbers.get(&(kind, text.to_owned()))?;
        Some(format!(
            "<a href=\"#once{number}\">{} [{number}]</a>",
            kind.word()
        ))
    }

    /// The texts themselves.
    pub(super) fn section(&self, page: &mut String) {
        if self.texts.is_empty() {
            return;
        }
        *page += "<section aria-labelledby=\"once\"><h2 id=\"once\">Said once</h2>";
        *page += "<p class=\"soft\">Many findings link to these texts by their number.</p>";
        for (number, (rule, kind, text)) in self.texts.iter().enumerate() {
            // Writing to a String cannot fail.
            let _ = write!(
                page,
                "<p id=\"once{number}\">[{number}] {}: {text} <span class=\"soft\">({})</span></p>",
                kind.word(),
                escaped(rule),
                number = number + 1
            );
        }
        *page += "</section>\n";
    }
}
