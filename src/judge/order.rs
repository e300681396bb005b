//! The order of findings, and numbers for those that would have one fingerprint.

use std::cmp::{Ordering, Reverse};
use std::collections::{HashMap, HashSet};
use std::hash::{DefaultHasher, Hash, Hasher};

use crate::input::{FAULT_KINDS, fault_kind};
use crate::library::{Field, Library};

use super::finding::{Finding, fingerprint};

/// Worst first, and the same order whatever the machine.
pub fn arrange(findings: &mut [Finding]) {
    findings.sort_by(|a, b| {
        let key = |f: &Finding| {
            let assembly = f.assembly_index.unwrap_or(usize::MAX);
            (Reverse(f.level), f.consequence, assembly)
        };
        key(a)
            .cmp(&key(b))
            .then_with(|| a.rule.cmp(&b.rule))
            .then_with(|| by_place(a, b))
    });
}

fn by_place(a: &Finding, b: &Finding) -> Ordering {
    place(a).cmp(&place(b))
}

fn place(finding: &Finding) -> Option<(&str, usize, usize)> {
    let place = finding.places.first()?;
    Some((&place.file, place.line, place.column))
}

/// Gives a number to all but the first of findings that would have one fingerprint, in the order
/// in which it sees them. It remembers only those that another assembly may share: faults of form,
/// and assemblies of one number, id and machine.
pub struct Twins {
    shared: HashSet<usize>,
    faults: HashSet<&'static str>,
    seen: HashMap<u64, u32>,
}

impl Twins {
    /// Of a library nothing of which was seen yet.
    #[must_use]
    pub fn of(library: &Library) -> Twins {
        let assemblies = library.assemblies.iter().enumerate();
        let mut all: Vec<(u64, usize)> = assemblies
            .map(|(at, assembly)| {
                let machine = assembly.record.text(Field::Machine);
                (
                    hashed(&(assembly.tool_number(), assembly.id(), machine)),
                    at,
                )
            })
            .collect();
        all.sort_unstable();
        let same = all.chunk_by(|a, b| a.0 == b.0);
        let shared = same.filter(|chunk| chunk.len() > 1).flatten();
        let kinds = FAULT_KINDS.iter().map(|(kind, _)| *kind);
        Twins {
            shared: shared.map(|(_, at)| *at).collect(),
            faults: kinds
                .filter(|kind| *kind != fault_kind::NO_WINDOW)
                .collect(),
            seen: HashMap::new(),
        }
    }

    /// Numbers the findings of one assembly, or faults of none.
    pub fn number(&mut self, findings: &mut [Finding]) {
        let mut own: HashMap<u64, u32> = HashMap::new();
        for finding in findings {
            let at = finding.assembly_index;
            let lasts = self.faults.contains(finding.rule.as_str())
                || at.is_none_or(|at| self.shared.contains(&at));
            let seen = if lasts { &mut self.seen } else { &mut own };
            let twins = seen.entry(hashed(&finding.fingerprint)).or_insert(0);
            *twins += 1;
            if *twins > 1 {
                let number = twins.to_string();
                finding.fingerprint = fingerprint(&[&finding.fingerprint, &number]);
            }
        }
    }
}

fn hashed(key: &impl Hash) -> u64 {
    let mut hasher = DefaultHasher::new();
    key.hash(&mut hasher);
    hasher.finish()
}
