//! Which library of today is which of an earlier audit: by its path, else by the name that it
//! states, else by what was found in it.

use std::collections::{HashMap, HashSet};

use super::baseline::Baseline;

/// What tells a library of today whose path is not known from the earlier audit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Known {
    /// Its name, if it states one.
    pub name: Option<String>,
    /// The fingerprints of what was found in it.
    pub fingerprints: Vec<u64>,
}

/// Which library of the baseline each of today's is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pairing {
    /// For each of today's, the number of the one that it was.
    pub was: Vec<Option<usize>>,
}

impl Pairing {
    /// Pairs libraries by their keys.
    #[must_use]
    pub fn by_key<'k>(keys: impl Iterator<Item = &'k str>, baseline: &Baseline) -> Pairing {
        let libraries = baseline.libraries.iter().enumerate();
        let known: HashMap<&str, usize> =
            libraries.map(|(at, was)| (was.key.as_str(), at)).collect();
        Pairing {
            was: keys.map(|key| known.get(key).copied()).collect(),
        }
    }

    /// The libraries of today that are not paired; none where the baseline has none left.
    #[must_use]
    pub fn open(&self, baseline: &Baseline) -> Vec<usize> {
        if self.gone(baseline).next().is_none() {
            return Vec::new();
        }
        let all = self.was.iter().enumerate();
        all.filter(|(_, was)| was.is_none())
            .map(|(at, _)| at)
            .collect()
    }

    /// The libraries of the baseline that are none of today's.
    pub fn gone(&self, baseline: &Baseline) -> impl Iterator<Item = usize> {
        let paired: HashSet<usize> = self.was.iter().flatten().copied().collect();
        (0..baseline.libraries.len()).filter(move |at| !paired.contains(at))
    }

    /// Pairs what is left by name, then by what was found; `open` has each library that is not
    /// paired with what is known of it.
    pub fn complete(&mut self, open: &[(usize, Known)], baseline: &Baseline) {
        self.by_name(open, baseline);
        self.by_findings(open, baseline);
    }

    /// A name that two libraries state tells neither.
    fn by_name(&mut self, open: &[(usize, Known)], baseline: &Baseline) {
        let mut today: HashMap<&str, Vec<usize>> = HashMap::new();
        for (at, known) in open {
            if let Some(name) = &known.name {
                today.entry(name).or_default().push(*at);
            }
        }
        let mut before: HashMap<&str, Vec<usize>> = HashMap::new();
        for was in self.gone(baseline) {
            let library = baseline.libraries.get(was);
            if let Some(name) = library.and_then(|library| library.name.as_deref()) {
                before.entry(name).or_default().push(was);
            }
        }
        for (name, at) in today {
            if let ([at], Some([was])) = (at.as_slice(), before.get(name).map(Vec::as_slice)) {
                self.set(*at, *was);
            }
        }
    }

    /// Those that share most go together, as long as that is half of the smaller one.
    fn by_findings(&mut self, open: &[(usize, Known)], baseline: &Baseline) {
        let gone: Vec<(usize, HashMap<u64, usize>, usize)> = self
            .gone(baseline)
            .map(|was| {
                let counts = counts(baseline.fingerprints(was));
                let total = counts.values().sum();
                (was, counts, total)
            })
            .collect();
        let mut pairs: Vec<(usize, usize, usize)> = Vec::new();
        for (at, known) in open {
            if self.was.get(*at).copied().flatten().is_some() {
                continue;
            }
            let own = counts(known.fingerprints.iter().copied());
            for (was, before, total) in &gone {
                let shared = |(key, count): (&u64, &usize)| {
                    before.get(key).map_or(0, |other| *count.min(other))
                };
                let equal: usize = own.iter().map(shared).sum();
                let smaller = (*total).min(known.fingerprints.len());
                if equal > 0 && equal * 2 >= smaller {
                    pairs.push((equal, *at, *was));
                }
            }
        }
        pairs.sort_by_key(|(equal, at, was)| (std::cmp::Reverse(*equal), *at, *was));
        let mut taken: HashSet<usize> = HashSet::new();
        for (_, at, was) in pairs {
            if self.was.get(at).copied().flatten().is_none() && taken.insert(was) {
                self.set(at, was);
            }
        }
    }

    fn set(&mut self, at: usize, was: usize) {
        if let Some(slot) = self.was.get_mut(at) {
            *slot = Some(was);
        }
    }
}

fn counts(fingerprints: impl Iterator<Item = u64>) -> HashMap<u64, usize> {
    let mut counts = HashMap::new();
    for one in fingerprints {
        *counts.entry(one).or_insert(0) += 1;
    }
    counts
}
