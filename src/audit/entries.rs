//! The findings of an earlier audit as small as a comparison allows: thirty-two bytes each.

use crate::sheet::Trend;

use super::change::{Change, State};
use super::noted::Noted;

/// A finding of an earlier audit. Its number is its place among all of them.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub fingerprint: u64,
    value: f64,
    needed: f64,
    what: u32,
    pub rule: u16,
    level: Level,
    accepted: bool,
}

/// A million findings have forty megabytes, and whatever else is there to compare with is in them
/// too.
const _: () = assert!(size_of::<Entry>() == 32);

/// Findings in a block. A block has 64 kB: the allocator takes it from what it has, and it is
/// never moved. One list that doubles leaves its former places behind as holes.
const BLOCK: usize = 2048;

/// Findings in the order in which they were noted.
#[derive(Debug, Default)]
pub(super) struct Entries {
    blocks: Vec<Vec<Entry>>,
    count: usize,
}

impl Entries {
    pub(super) const fn count(&self) -> usize {
        self.count
    }

    pub(super) fn push(&mut self, entry: Entry) {
        self.count += 1;
        match self.blocks.last_mut().filter(|last| last.len() < BLOCK) {
            Some(last) => last.push(entry),
            None => {
                let mut block = Vec::with_capacity(BLOCK);
                block.push(entry);
                self.blocks.push(block);
            }
        }
    }

    pub(super) fn get(&self, number: u32) -> Option<&Entry> {
        let number = number as usize;
        self.blocks.get(number / BLOCK)?.get(number % BLOCK)
    }
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

impl Entry {
    /// A finding, by the number of its rule.
    pub(super) fn of(noted: &Noted, rule: u16) -> Entry {
        Entry {
            fingerprint: number_of(&noted.fingerprint),
            value: noted.value.unwrap_or(f64::NAN),
            needed: noted.needed.unwrap_or(f64::NAN),
            what: hash(&noted.what),
            rule,
            level: Level::of(&noted.level),
            accepted: noted.is_accepted(),
        }
    }

    /// What became of it.
    pub(super) fn since(&self, noted: &Noted) -> Change {
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
            newly_accepted: noted.is_accepted() && !self.accepted,
        }
    }
}

/// A fingerprint as a number; what is none has the number of nothing.
pub(super) fn number_of(fingerprint: &str) -> u64 {
    u64::from_str_radix(fingerprint, 16).unwrap_or(0)
}

/// FNV-1a of a text, 32 bits: it only has to tell the sides of one rule apart.
fn hash(text: &str) -> u32 {
    let first = 0x811c_9dc5_u32;
    text.bytes().fold(first, |hash, byte| {
        (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193)
    })
}
