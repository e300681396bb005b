//! The order of findings, and numbers for those that would have one fingerprint.

use std::cmp::{Ordering, Reverse};
use std::collections::{HashMap, HashSet};
use std::hash::{DefaultHasher, Hash, Hasher};

use crate::input::{FAULT_KINDS, fault_kind};
use crate::library::{Assembly, Field, Library};

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

/// File, sheet and line, and the column in it.
type FirstPlace<'f> = ((&'f str, Option<&'f str>, usize), usize);

fn place(finding: &Finding) -> Option<FirstPlace<'_>> {
    let place = finding.places.first()?;
    Some((place.line_key(), place.column))
}

/// Gives a number to all but the first of findings that would have one fingerprint, in the order
/// in which it sees them. It remembers only those that another assembly may share: findings of
/// assemblies of one number, id and machine, and faults of form of those of one number.
pub struct Twins {
    /// Of each assembly, whether another has its number, id and machine.
    same: Vec<bool>,
    /// Of each assembly, whether another has its number, or it has none.
    same_number: Vec<bool>,
    faults: HashSet<&'static str>,
    seen: HashMap<u64, u32>,
}

impl Twins {
    /// Of a library nothing of which was seen yet.
    #[must_use]
    pub fn of(library: &Library) -> Twins {
        let same = shared(library, |assembly| {
            let machine = assembly.record.text(Field::Machine);
            hashed(&(assembly.tool_number(), assembly.id(), machine))
        });
        let mut same_number = shared(library, |assembly| hashed(&assembly.tool_number()));
        for (shared, assembly) in same_number.iter_mut().zip(&library.assemblies) {
            *shared |= assembly.tool_number().is_none();
        }
        let kinds = FAULT_KINDS.iter().map(|(kind, _)| *kind);
        Twins {
            same,
            same_number,
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
            let shared = if self.faults.contains(finding.rule.as_str()) {
                &self.same_number
            } else {
                &self.same
            };
            let at = finding.assembly_index;
            let lasts = at.is_none_or(|at| shared.get(at) == Some(&true));
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

/// Of each assembly, whether another has its key.
fn shared(library: &Library, key: impl Fn(&Assembly) -> u64) -> Vec<bool> {
    let mut all: Vec<(u64, u32)> = library.assemblies.iter().map(key).zip(0..).collect();
    all.sort_unstable();
    let mut shared = vec![false; all.len()];
    let same = all.chunk_by(|a, b| a.0 == b.0);
    for (_, at) in same.filter(|same| same.len() > 1).flatten() {
        if let Some(shared) = shared.get_mut(*at as usize) {
            *shared = true;
        }
    }
    shared
}

fn hashed(key: &impl Hash) -> u64 {
    let mut hasher = DefaultHasher::new();
    key.hash(&mut hasher);
    hasher.finish()
}
