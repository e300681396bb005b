//! "Did you mean": the known name nearest to a mistyped one.

use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash as _, Hasher as _};

/// The candidate nearest to `name`, if it is near enough that a slip of the hand explains it:
/// at most one edit in three letters, and never all letters, ignoring case.
pub fn closest<'a>(name: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // A name is short; a cell of 100 kB is none, and comparing it would cost minutes.
    if name.len() > 80 {
        return None;
    }
    let name = name.to_lowercase();
    let own = name.chars().count();
    candidates
        .into_iter()
        // Names of other lengths need no comparing: a file may hold 100 000 unknown ones.
        .filter(|known| {
            let letters = known.chars().count();
            own.abs_diff(letters) <= letters.max(3) / 3
        })
        .map(|known| {
            let edits = strsim::osa_distance(&name, &known.to_lowercase());
            (edits, known)
        })
        .filter(|(edits, known)| {
            let letters = known.chars().count();
            *edits <= letters.max(3) / 3 && *edits < letters.max(1)
        })
        .min_by_key(|(edits, known)| (*edits, *known))
        .map(|(_, known)| known)
}

/// Whether one name of several words is another but for slips of the hand: word by word, so that no
/// word is taken for another one; or the words run together.
#[must_use]
pub fn is_slip(name: &str, known: &str) -> bool {
    let near = |a: &str, b: &str| {
        let letters = b.chars().count();
        strsim::osa_distance(a, b) <= (letters / 3).min(2)
    };
    let (own, other): (Vec<&str>, Vec<&str>) = (words(name), words(known));
    if own.len() == other.len() {
        return own.iter().zip(&other).all(|(a, b)| near(a, b));
    }
    strsim::osa_distance(&own.concat(), &other.concat()) <= 1
}

fn words(name: &str) -> Vec<&str> {
    name.split('_').filter(|word| !word.is_empty()).collect()
}

/// Known names that all of them are compared with; of more, an index picks.
const ALL: usize = 200;
/// NameIndex that are compared because one slip leads to them.
const SLIPS: usize = 256;
/// Names of which one is left when the same letter is taken away: `T100` to `T109`.
const ALIKE: usize = 64;
/// NameIndex that are compared because they stand beside the mistyped one, of each length.
const BESIDE: usize = 8;

/// Many known names, for many mistyped ones: of each only a few are compared, whatever the number
/// of the known ones. They are those that one slip of the hand leads to, and else those of nearly
/// the same length that begin alike.
#[derive(Debug)]
pub struct NameIndex<'k> {
    /// In small letters, by their length and then in order, with the name itself.
    all: Vec<(usize, String, &'k str)>,
    /// By what is left of them without any one letter; empty where all are compared.
    without_one: HashMap<u64, Vec<u32>>,
}

impl<'k> NameIndex<'k> {
    /// The names in any order.
    pub fn new(known: impl IntoIterator<Item = &'k str>) -> NameIndex<'k> {
        let mut all: Vec<(usize, String, &str)> = known
            .into_iter()
            .map(|known| (known.chars().count(), known.to_lowercase(), known))
            .collect();
        all.sort();
        let mut without_one: HashMap<u64, Vec<u32>> = HashMap::new();
        if all.len() > ALL {
            for ((_, name, _), at) in all.iter().zip(0..) {
                for key in keys(name) {
                    let alike = without_one.entry(key).or_default();
                    if alike.len() < ALIKE && alike.last() != Some(&at) {
                        alike.push(at);
                    }
                }
            }
        }
        NameIndex { all, without_one }
    }

    /// The one nearest to `name`, as [`closest`] has it, and never `name` itself.
    #[must_use]
    pub fn closest(&self, name: &str) -> Option<&'k str> {
        let other = |known: &&str| *known != name;
        if self.all.len() <= ALL {
            return closest(name, self.all.iter().map(|one| one.2).filter(other));
        }
        if name.len() > 80 {
            return None;
        }
        let folded = name.to_lowercase();
        let keys = keys(&folded);
        let slips = keys.iter().filter_map(|key| self.without_one.get(key));
        let slips = slips.flatten().take(SLIPS);
        let slips = slips.filter_map(|at| Some(self.all.get(*at as usize)?.2));
        let by_a_slip = closest(name, slips.filter(other));
        by_a_slip.or_else(|| closest(name, self.beside(&folded).filter(other)))
    }

    /// Names of nearly the same length that stand beside the mistyped one in the order.
    fn beside(&self, folded: &str) -> impl Iterator<Item = &'k str> {
        let letters = folded.chars().count();
        // Half as many again may still be one edit in three letters of the longer name.
        let lengths = letters - letters / 4..=letters + letters / 2;
        lengths.flat_map(move |length| {
            let own = |one: &(usize, String, &str)| (one.0, one.1.as_str()) < (length, folded);
            let at = self.all.partition_point(own);
            let near = self
                .all
                .get(at.saturating_sub(BESIDE)..)
                .unwrap_or_default();
            let near = near.iter().take(2 * BESIDE);
            near.filter(move |one| one.0 == length).map(|one| one.2)
        })
    }
}

/// Keys of a name and of what is left of it without any one letter: two names that are one edit
/// apart, or have two neighbouring letters exchanged, share one.
fn keys(name: &str) -> Vec<u64> {
    let hash = |before: &str, behind: &str| {
        let mut hasher = DefaultHasher::new();
        before
            .bytes()
            .chain(behind.bytes())
            .for_each(|byte| byte.hash(&mut hasher));
        hasher.finish()
    };
    let without = name.char_indices().map(|(at, letter)| {
        let (before, behind) = name.split_at(at);
        hash(before, behind.get(letter.len_utf8()..).unwrap_or(""))
    });
    let mut keys: Vec<u64> = std::iter::once(hash(name, "")).chain(without).collect();
    keys.sort_unstable();
    keys.dedup();
    keys
}

/// How alike two names are, from 0 to 1: names of one family begin alike (Jaro and Winkler).
#[must_use]
pub fn likeness(a: &str, b: &str) -> f64 {
    strsim::jaro_winkler(a, b)
}
