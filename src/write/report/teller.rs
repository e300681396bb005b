//! What was said already, so that no text stands twice where once is enough.

use std::collections::HashSet;

use super::super::html::escaped;
use super::model::Finding;
use super::said_once::{Kind, SaidOnce};

/// Says the texts of one tool.
pub(super) struct Teller<'a> {
    once: &'a SaidOnce,
    /// The library, as its files begin.
    folder: &'a str,
    said: HashSet<String>,
    /// Assumptions of several findings, which are listed after all of them.
    shared: HashSet<String>,
}

impl<'a> Teller<'a> {
    pub(super) fn new(once: &'a SaidOnce, folder: &'a str) -> Teller<'a> {
        Teller {
            once,
            folder,
            said: HashSet::new(),
            shared: HashSet::new(),
        }
    }

    /// A text of this kind, given as markup, or a link to where it stands; nothing where there is
    /// nothing to say.
    pub(super) fn told(&mut self, kind: Kind, text: &str) -> Option<String> {
        if text.is_empty() {
            return None;
        }
        if let Some(link) = self.once.link(kind, text) {
            return Some(link);
        }
        let word = kind.word();
        let own = format!("{word}: {text}");
        if self.said.insert(own.clone()) {
            Some(own)
        } else {
            Some(format!("{word}: as above"))
        }
    }

    /// Whether texts are said once at the end of the page.
    pub(super) fn is_long(&self) -> bool {
        self.once.is_long()
    }

    /// These assumptions are listed after all findings.
    pub(super) fn lists(&mut self, shared: impl Iterator<Item = String>) {
        self.shared.extend(shared);
    }

    /// What a finding alone rests on, and how much that others rest on too.
    pub(super) fn assumed(&self, finding: &Finding) -> Option<String> {
        let link = self.once.link(Kind::Assumed, &Kind::Assumed.of(finding));
        if link.is_some() {
            return link;
        }
        let all = finding.assumptions.iter();
        let (shared, own): (Vec<&String>, Vec<&String>) =
            all.partition(|one| self.shared.contains(*one));
        let mut parts: Vec<String> = own.into_iter().map(|one| escaped(one)).collect();
        if !shared.is_empty() {
            parts.push(format!("{} values that are listed below", shared.len()));
        }
        (!parts.is_empty()).then(|| format!("Assumed: {}", parts.join(" · ")))
    }

    /// What to do, its first clause strong.
    pub(super) fn advice(&mut self, advice: &str) -> String {
        if self.said.insert(advice.to_owned()) {
            strong(advice)
        } else {
            "as above".to_owned()
        }
    }

    /// A file's name within the library.
    pub(super) fn file<'f>(&self, file: &'f str) -> &'f str {
        let within = file.strip_prefix(self.folder);
        match within.map(|own| own.trim_start_matches('/')) {
            Some("") => file.rsplit('/').next().unwrap_or(file),
            Some(own) => own,
            None => file,
        }
    }
}

/// An advice with its first clause strong: that is what to do, and the rest says within what limits.
pub(super) fn strong(advice: &str) -> String {
    let end = [advice.find("; "), advice.find(". ")];
    let end = end.into_iter().flatten().min().unwrap_or(advice.len());
    let (first, rest) = advice.split_at(end);
    format!("<b>{}</b>{}", escaped(first), escaped(rest))
}
