//! Rules as the log describes them, each once.

use std::collections::HashMap;

use serde::Serialize;

use crate::sheet::RuleShown;

use super::message::Message;
use super::put;

/// The rules of all libraries so far, written, and the number of each.
#[derive(Default)]
pub(super) struct Rules {
    pub(super) numbers: Numbers,
    pub(super) written: Vec<u8>,
}

/// The numbers of rules in the list of the log.
#[derive(Clone, Default)]
pub(crate) struct Numbers(HashMap<String, usize>);

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Descriptor<'a> {
    id: &'a str,
    name: String,
    short_description: Message,
    #[serde(skip_serializing_if = "Option::is_none")]
    full_description: Option<Message>,
    #[serde(skip_serializing_if = "Option::is_none")]
    help: Option<Message>,
    default_configuration: Configuration,
    properties: Properties,
}

#[derive(Serialize)]
struct Configuration {
    enabled: bool,
    level: &'static str,
}

#[derive(Serialize)]
struct Properties {
    basis: &'static str,
    consequence: &'static str,
}

impl Rules {
    /// Adds those that are not there yet. A rule keeps what it was first: where libraries differ in
    /// its level, each result has its own.
    pub(super) fn add(&mut self, rules: &[RuleShown]) {
        for rule in rules {
            if self.numbers.of(&rule.id).is_none() {
                let mut line = Vec::new();
                put(&Descriptor::of(rule), &mut line);
                self.add_written(&rule.id, &line);
            }
        }
    }

    /// Adds one that is written already, if it is not there yet.
    pub(super) fn add_written(&mut self, id: &str, descriptor: &[u8]) {
        if self.numbers.of(id).is_some() {
            return;
        }
        if !self.written.is_empty() {
            self.written.extend(b",\n");
        }
        self.written.extend(descriptor);
        let numbers = &mut self.numbers.0;
        numbers.insert(id.to_owned(), numbers.len());
    }
}

impl Numbers {
    /// The number of a rule.
    pub(super) fn of(&self, id: &str) -> Option<usize> {
        self.0.get(id).copied()
    }
}

impl<'a> Descriptor<'a> {
    pub(super) fn of(rule: &'a RuleShown) -> Descriptor<'a> {
        Descriptor {
            id: &rule.id,
            name: name(&rule.id),
            short_description: Message::of(&rule.title),
            full_description: Message::unless_empty(&rule.why),
            help: Message::unless_empty(&rule.advice),
            default_configuration: Configuration {
                enabled: !rule.off,
                level: rule.level.name(),
            },
            properties: Properties {
                basis: rule.basis.name(),
                consequence: rule.consequence.name(),
            },
        }
    }
}

/// An id as one word: `GripShortGrip`.
fn name(id: &str) -> String {
    let words = id.split(['/', '-']);
    let capital = |word: &str| {
        let mut letters = word.chars();
        let first = letters.next().map(|letter| letter.to_ascii_uppercase());
        first.into_iter().chain(letters).collect::<String>()
    };
    words.map(capital).collect()
}
