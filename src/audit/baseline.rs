//! An earlier audit, as far as a later one compares with it.

use std::collections::HashMap;

use super::change::{Change, State};
use super::entries::{Entries, Entry, number_of};
use super::noted::Noted;

/// What is known of an earlier audit.
#[derive(Debug, Default)]
pub struct Baseline {
    /// Its run id.
    pub id: String,
    /// Its day.
    pub day: String,
    /// Its libraries, in the order in which its findings stand.
    pub libraries: Vec<Was>,
    entries: Entries,
    stretches: Vec<Stretch>,
    rules: Vec<String>,
    numbers: HashMap<String, u16>,
}

/// A library of an earlier audit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Was {
    /// Its key.
    pub key: String,
    /// Its name, if it states one.
    pub name: Option<String>,
    /// How many stretches of findings stand before its own.
    start: usize,
    /// How many it has.
    count: usize,
    /// Rules of which not every finding was kept.
    pub cut: Vec<String>,
}

/// Findings of one library that stand together. What was not looked for one night stands behind
/// all others, so that a library may have two such stretches.
#[derive(Clone, Copy, Debug)]
struct Stretch {
    library: u32,
    start: u32,
    count: u32,
}

impl Baseline {
    /// Of an audit of which no finding is known yet.
    #[must_use]
    pub fn new(id: String, day: String, libraries: Vec<Was>) -> Baseline {
        Baseline {
            id,
            day,
            libraries,
            ..Baseline::default()
        }
    }

    /// Adds the next finding, of this library.
    pub fn add(&mut self, noted: &Noted, library: usize) {
        let short = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
        let (library, start) = (short(library), short(self.entries.count()));
        let rule = self.number(&noted.rule);
        self.entries.push(Entry::of(noted, rule));
        match self.stretches.last_mut() {
            Some(last) if last.library == library => last.count += 1,
            _ => self.stretches.push(Stretch {
                library,
                start,
                count: 1,
            }),
        }
    }

    /// Ends: from now on each library knows its findings.
    pub fn complete(&mut self) {
        self.stretches
            .sort_unstable_by_key(|stretch| (stretch.library, stretch.start));
        let mut start = 0;
        for (at, was) in self.libraries.iter_mut().enumerate() {
            let own = self.stretches.get(start..).unwrap_or_default();
            was.start = start;
            was.count = own.partition_point(|stretch| stretch.library as usize <= at);
            start += was.count;
        }
    }

    fn number(&mut self, rule: &str) -> u16 {
        if let Some(known) = self.numbers.get(rule) {
            return *known;
        }
        let next = u16::try_from(self.rules.len()).unwrap_or(u16::MAX);
        self.rules.push(rule.to_owned());
        self.numbers.insert(rule.to_owned(), next);
        next
    }

    /// How many findings are known.
    #[must_use]
    pub const fn findings(&self) -> usize {
        self.entries.count()
    }

    /// The fingerprints of a library.
    pub fn fingerprints(&self, library: usize) -> impl Iterator<Item = u64> {
        self.of(library).map(|(_, entry)| entry.fingerprint)
    }

    /// Its findings with their numbers, in their order.
    fn of(&self, library: usize) -> impl Iterator<Item = (u32, &Entry)> {
        let was = self.libraries.get(library);
        let (start, count) = was.map_or((0, 0), |was| (was.start, was.count));
        let own = self.stretches.iter().skip(start).take(count);
        let numbers = own.flat_map(|own| own.start..own.start.saturating_add(own.count));
        numbers.filter_map(|number| Some((number, self.entries.get(number)?)))
    }

    /// Begins to compare a library with what it was; with nothing, if it was not there.
    #[must_use]
    pub fn matcher(&self, library: Option<usize>) -> Matcher<'_> {
        let own = library.into_iter().flat_map(|library| self.of(library));
        let mut numbers: Vec<u32> = own.map(|(number, _)| number).collect();
        numbers.sort_unstable_by_key(|number| (self.fingerprint(*number), *number));
        let cut = library.and_then(|library| self.libraries.get(library));
        Matcher {
            baseline: self,
            taken: vec![0; numbers.len()],
            numbers,
            cut: cut.map_or(&[], |was| was.cut.as_slice()),
        }
    }

    fn fingerprint(&self, finding: u32) -> Option<u64> {
        self.entries.get(finding).map(|entry| entry.fingerprint)
    }

    fn rule_of(&self, finding: u32) -> &str {
        let entry = self.entries.get(finding);
        let rule = entry.and_then(|entry| self.rules.get(usize::from(entry.rule)));
        rule.map_or("", String::as_str)
    }
}

/// A finding that is not there any more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rest<'b> {
    /// Its number in the order in which it was noted.
    pub number: u32,
    /// Its rule.
    pub rule: &'b str,
}

/// Compares the findings of one library with what they were: equal ones one by one.
pub struct Matcher<'b> {
    baseline: &'b Baseline,
    /// Its findings by fingerprint; of equal ones the first is taken first.
    numbers: Vec<u32>,
    /// At the first of equal ones: how many of today's were found to be one of them.
    taken: Vec<u32>,
    cut: &'b [String],
}

impl<'b> Matcher<'b> {
    /// Compares the next finding.
    pub fn compare(&mut self, noted: &Noted) -> Change {
        match self.next(number_of(&noted.fingerprint)) {
            Some(entry) => entry.since(noted),
            // It may be one of those that were not kept.
            None if self.cut.contains(&noted.rule) => Change {
                state: State::Same,
                ..Change::default()
            },
            None => Change {
                state: State::New,
                newly_accepted: noted.is_accepted(),
                ..Change::default()
            },
        }
    }

    /// The next of this fingerprint.
    fn next(&mut self, fingerprint: u64) -> Option<&'b Entry> {
        let of = |number: &u32| self.baseline.fingerprint(*number);
        let first = self
            .numbers
            .partition_point(|number| of(number) < Some(fingerprint));
        let taken = self.taken.get_mut(first)?;
        let number = self.numbers.get(first.checked_add(*taken as usize)?)?;
        let entry = self.baseline.entries.get(*number)?;
        if entry.fingerprint != fingerprint {
            return None;
        }
        *taken += 1;
        Some(entry)
    }

    /// The findings that are not there any more, in their order.
    pub fn rest(mut self) -> impl Iterator<Item = Rest<'b>> {
        let mut start = 0;
        while let Some(taken) = self.taken.get(start).copied() {
            let of = |at: usize| {
                let number = self.numbers.get(at).copied();
                number.and_then(|number| self.baseline.fingerprint(number))
            };
            let same = (start..self.numbers.len()).take_while(|at| of(*at) == of(start));
            let end = start + same.count().max(1);
            let own = self.numbers.iter_mut().take(end).skip(start);
            own.take(taken as usize)
                .for_each(|number| *number = u32::MAX);
            start = end;
        }
        self.numbers.sort_unstable();
        let rest = self.numbers.into_iter().filter(|at| *at != u32::MAX);
        rest.map(|number| Rest {
            number,
            rule: self.baseline.rule_of(number),
        })
    }
}

impl Was {
    /// A library of which no finding is known yet.
    #[must_use]
    pub fn new(key: String, name: Option<String>, cut: Vec<String>) -> Was {
        Was {
            key,
            name,
            cut,
            ..Was::default()
        }
    }
}
