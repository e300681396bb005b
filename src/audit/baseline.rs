//! An earlier audit, as far as a later one compares with it: of each finding some forty bytes.

use std::collections::HashMap;

use crate::sheet::Trend;

use super::change::{Change, State};
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
    entries: Vec<Entry>,
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
    /// How many entries stand before its own.
    start: usize,
    /// How many it has.
    count: usize,
    /// Rules of which not every finding was kept.
    pub cut: Vec<String>,
}

/// A finding of an earlier audit.
#[derive(Clone, Copy, Debug)]
struct Entry {
    /// Its number in the order in which it was noted.
    number: u32,
    library: u32,
    fingerprint: u64,
    value: f64,
    needed: f64,
    what: u32,
    rule: u16,
    level: Level,
    accepted: bool,
}

/// How grave a finding is: what nobody could judge may turn out as anything.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Level {
    NotJudged,
    Note,
    Warning,
    Error,
}

impl Level {
    fn of(name: &str) -> Level {
        match name {
            "error" => Level::Error,
            "warning" => Level::Warning,
            "note" => Level::Note,
            _ => Level::NotJudged,
        }
    }
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
        let rule = self.number(&noted.rule);
        self.entries.push(Entry {
            number: short(self.entries.len()),
            library: short(library),
            fingerprint: number_of(&noted.fingerprint),
            value: noted.value.unwrap_or(f64::NAN),
            needed: noted.needed.unwrap_or(f64::NAN),
            what: hash(&noted.what),
            rule,
            level: Level::of(&noted.level),
            accepted: noted.is_accepted(),
        });
    }

    /// Ends: the findings of a library stand together from now on. What was not looked for one
    /// night stands behind all others.
    pub fn complete(&mut self) {
        // In place: sorting that keeps the order of equals needs half of it again.
        self.entries
            .sort_unstable_by_key(|entry| (entry.library, entry.number));
        let mut start = 0;
        for (at, was) in self.libraries.iter_mut().enumerate() {
            let own = self.entries.get(start..).unwrap_or_default();
            was.start = start;
            was.count = own.partition_point(|entry| entry.library as usize <= at);
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
        self.entries.len()
    }

    /// The fingerprints of a library.
    pub fn fingerprints(&self, library: usize) -> impl Iterator<Item = u64> {
        self.of(library).map(|(_, entry)| entry.fingerprint)
    }

    fn of(&self, library: usize) -> impl Iterator<Item = (usize, &Entry)> {
        let was = self.libraries.get(library);
        let (start, count) = was.map_or((0, 0), |was| (was.start, was.count));
        let own = self.entries.iter().enumerate();
        own.skip(start).take(count)
    }

    /// Begins to compare a library with what it was; with nothing, if it was not there.
    #[must_use]
    pub fn matcher(&self, library: Option<usize>) -> Matcher<'_> {
        let mut open: HashMap<u64, Vec<u32>> = HashMap::new();
        for (at, entry) in library.into_iter().flat_map(|library| self.of(library)) {
            let at = u32::try_from(at).unwrap_or(u32::MAX);
            open.entry(entry.fingerprint).or_default().push(at);
        }
        // The first of them is taken first.
        for same in open.values_mut() {
            same.reverse();
        }
        let cut = library.and_then(|library| self.libraries.get(library));
        Matcher {
            baseline: self,
            open,
            cut: cut.map_or(&[], |was| was.cut.as_slice()),
        }
    }

    fn rule_of(&self, finding: usize) -> &str {
        let entry = self.entries.get(finding);
        let rule = entry.and_then(|entry| self.rules.get(usize::from(entry.rule)));
        rule.map_or("", String::as_str)
    }
}

/// A finding that is not there any more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rest {
    /// Its number in the order in which it was noted.
    pub number: usize,
    /// Its rule.
    pub rule: String,
}

/// Compares the findings of one library with what they were: equal ones one by one.
pub struct Matcher<'b> {
    baseline: &'b Baseline,
    /// Findings that none of today's was yet found to be, by fingerprint.
    open: HashMap<u64, Vec<u32>>,
    cut: &'b [String],
}

impl Matcher<'_> {
    /// Compares the next finding.
    pub fn compare(&mut self, noted: &Noted) -> Change {
        let same = self.open.get_mut(&number_of(&noted.fingerprint));
        let entry = same.and_then(Vec::pop);
        let entry = entry.and_then(|at| self.baseline.entries.get(at as usize));
        match entry {
            Some(entry) => entry.since(noted),
            // It may be one of those that were not kept.
            None if self.cut.contains(&noted.rule) => Change {
                state: State::Same,
                before: None,
            },
            None => Change {
                state: State::New,
                before: None,
            },
        }
    }

    /// The findings that are not there any more, in their order.
    #[must_use]
    pub fn rest(self) -> Vec<Rest> {
        let rest = self.open.into_values().flatten();
        let entry = |at: u32| self.baseline.entries.get(at as usize);
        let rest = rest.filter_map(|at| Some((entry(at)?.number, at as usize)));
        let mut rest: Vec<(u32, usize)> = rest.collect();
        rest.sort_unstable();
        let rest = rest.into_iter();
        rest.map(|(number, at)| Rest {
            number: number as usize,
            rule: self.baseline.rule_of(at).to_owned(),
        })
        .collect()
    }
}

impl Entry {
    /// What became of it.
    fn since(&self, noted: &Noted) -> Change {
        let level = Level::of(&noted.level);
        let before = (self.value.is_finite() && self.needed.is_finite())
            .then_some((self.value, self.needed));
        let shortfall = noted.shortfall().filter(|_| hash(&noted.what) == self.what);
        let trend = shortfall.as_ref().zip(before);
        let trend = trend.map(|(shortfall, before)| shortfall.since(before));
        let state = match (level.cmp(&self.level), trend) {
            _ if self.accepted && !noted.is_accepted() => State::Lapsed,
            // What was judged and is not any more has not become better.
            _ if level == Level::NotJudged && self.level != level => State::Worse,
            (std::cmp::Ordering::Greater, _) | (_, Some(Trend::Worse)) => State::Worse,
            (std::cmp::Ordering::Less, _) | (_, Some(Trend::Better)) => State::Better,
            _ if before.is_some() != noted.value.is_some() || hash(&noted.what) != self.what => {
                State::Changed
            }
            _ => State::Same,
        };
        Change {
            state,
            before: before.filter(|_| trend.is_some()),
        }
    }
}

/// A fingerprint as a number; what is none has the number of nothing.
fn number_of(fingerprint: &str) -> u64 {
    u64::from_str_radix(fingerprint, 16).unwrap_or(0)
}

/// FNV-1a of a text, 32 bits: it only has to tell the sides of one rule apart.
fn hash(text: &str) -> u32 {
    let first = 0x811c_9dc5_u32;
    text.bytes().fold(first, |hash, byte| {
        (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193)
    })
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
