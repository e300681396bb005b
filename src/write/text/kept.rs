//! A list that holds the first few of what is put into it in any order, and counts the rest by
//! rule: text stays short and needs little memory, however much is found.

use std::cmp::Reverse;
use std::collections::{BTreeMap, HashSet};

use crate::sheet::{Consequence, Finding, Level};

/// Where something stands among its like: worst first, then in the order of the library, then in
/// the order in which an assembly's findings stand.
pub(super) type Order = (Reverse<Option<Level>>, Consequence, usize, usize);

/// The order of a finding, which is number `nth` of its assembly's.
pub(super) fn order(finding: &Finding, nth: usize) -> Order {
    let assembly = finding.assembly_index.unwrap_or(usize::MAX);
    (Reverse(finding.level), finding.consequence, assembly, nth)
}

/// The first few.
pub(super) struct Kept<V> {
    most: usize,
    kept: BTreeMap<Order, V>,
}

impl<V> Kept<V> {
    /// At most so many.
    pub(super) const fn of(most: usize) -> Kept<V> {
        Kept {
            most,
            kept: BTreeMap::new(),
        }
    }

    /// Puts one in; what falls out for it, if that is not the same.
    pub(super) fn put(&mut self, at: Order, one: V) -> Option<V> {
        self.kept.insert(at, one);
        if self.kept.len() <= self.most {
            return None;
        }
        self.kept.pop_last().map(|(_, last)| last)
    }

    pub(super) fn get_mut(&mut self, at: Order) -> Option<&mut V> {
        self.kept.get_mut(&at)
    }

    /// In their order.
    pub(super) fn into_values(self) -> impl Iterator<Item = V> {
        self.kept.into_values()
    }
}

/// How often each rule speaks in what was left out.
#[derive(Default)]
pub(super) struct Left {
    things: usize,
    rules: BTreeMap<String, usize>,
}

impl Left {
    /// One more block, line or record with its findings.
    pub(super) fn add<'r>(&mut self, rules: impl Iterator<Item = (&'r str, usize)>) {
        self.things += 1;
        self.also(rules);
    }

    /// More findings of what was left out before.
    pub(super) fn also<'r>(&mut self, rules: impl Iterator<Item = (&'r str, usize)>) {
        for (rule, count) in rules {
            match self.rules.get_mut(rule) {
                Some(known) => *known += count,
                None => {
                    self.rules.insert(rule.to_owned(), count);
                }
            }
        }
    }

    /// `3800 more blocks are not shown (grip/short-grip 3800); --most 0 shows all`; `None` if
    /// nothing was left out.
    pub(super) fn words(&self, what: [&str; 2]) -> Option<String> {
        let [one, many] = what;
        let (what, are) = match self.things {
            0 => return None,
            1 => (one, "is"),
            _ => (many, "are"),
        };
        let rules = self.rules.iter();
        let rules: Vec<String> = rules
            .map(|(rule, count)| format!("{rule} {count}"))
            .collect();
        Some(format!(
            "{} more {what} {are} not shown ({}); --most 0 shows all",
            self.things,
            rules.join(", ")
        ))
    }
}

/// Names in the order in which they come, each once; at most so many are listed.
pub(super) struct NameList {
    most: usize,
    listed: Vec<String>,
    known: HashSet<String>,
    last: String,
    more: usize,
}

impl NameList {
    pub(super) fn of(most: usize) -> NameList {
        NameList {
            most,
            listed: Vec::new(),
            known: HashSet::new(),
            last: String::new(),
            more: 0,
        }
    }

    /// Adds a name, unless it is listed. What is not listed counts once as long as it comes again
    /// and again.
    pub(super) fn add(&mut self, name: &str) {
        if self.known.contains(name) {
            return;
        }
        if self.listed.len() < self.most {
            self.listed.push(name.to_owned());
            self.known.insert(name.to_owned());
        } else if self.last != name {
            self.more += 1;
            name.clone_into(&mut self.last);
        }
    }

    pub(super) fn listed(&self) -> Vec<&str> {
        self.listed.iter().map(String::as_str).collect()
    }

    /// ` and 12 more`; empty if all are listed.
    pub(super) fn rest(&self) -> String {
        match self.more {
            0 => String::new(),
            more => format!(" and {more} more"),
        }
    }
}
