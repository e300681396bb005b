//! The words: no text for people has a banned word in it, or a sentence that is too long to read.
//!
//! What rules, the source, help, lists, output and the two documents say is held against
//! `banned`; where a word is right all the same stands in `exceptions`, with the reason.

mod banned;
mod exceptions;
mod literals;
mod sentences;
mod texts;

use std::collections::BTreeMap;

use shankwise::write::Look;

use banned::{BANNED, Banned};
use exceptions::{EXCEPTIONS, is_excused};
use sentences::{LONGEST, sentences, words};
use texts::{Text, document, help, in_source, lists, output, rules};

/// What the program prints has no full stops: its sentences end at a semicolon too, and a list of
/// words has bars.
const PRINTED: &[char] = &['.', '!', '?', ':', ';', '|'];
/// Where a sentence of a document ends.
const WRITTEN: &[char] = &['.', '!', '?', ':'];

/// Places of a phrase in a text, as whole words.
fn places(phrase: &str, text: &str) -> Vec<usize> {
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    let found = text.match_indices(phrase).map(|(at, _)| at);
    found
        .filter(|at| {
            let before = text[..*at].chars().next_back();
            let behind = text[at + phrase.len()..].chars().next();
            !before.is_some_and(is_word) && !behind.is_some_and(is_word)
        })
        .collect()
}

impl Banned {
    /// Whether it is in a text of small letters, other than as part of what is good English.
    fn is_in(&self, text: &str) -> bool {
        let good = self.unless.iter().flat_map(|good| {
            let places = places(good, text).into_iter();
            places.map(|at| at..at + good.len())
        });
        let good: Vec<_> = good.collect();
        let mut found = places(self.phrase, text).into_iter();
        found.any(|at| !good.iter().any(|range| range.contains(&at)))
    }
}

/// The banned words of a text.
fn banned_in(text: &Text) -> impl Iterator<Item = &'static Banned> {
    let small = text.words.to_lowercase();
    BANNED.iter().filter(move |banned| banned.is_in(&small))
}

/// Complaints, those that differ only in their digits told once.
fn once(complaints: impl IntoIterator<Item = (String, String)>) -> Vec<String> {
    let mut found: BTreeMap<String, String> = BTreeMap::new();
    for (place, what) in complaints {
        let masked = what.replace(|c: char| c.is_ascii_digit(), "0");
        found
            .entry(masked)
            .or_insert_with(|| format!("{place}: {what}"));
    }
    found.into_values().collect()
}

fn banned_words(texts: &[Text]) -> Vec<String> {
    once(texts.iter().flat_map(|text| {
        let found = banned_in(text).filter(|banned| !is_excused(text, banned.phrase));
        found.map(|banned| {
            let Banned {
                phrase, instead, ..
            } = banned;
            let what = format!("`{phrase}`, write `{instead}`: {}", text.words);
            (text.place.clone(), what)
        })
    }))
}

/// Lines that list counts, one for each clamping kind.
const COUNTS: &str = "Grip judged:";

fn long_sentences(texts: &[Text], marks: &'static [char]) -> Vec<String> {
    let texts = texts.iter().filter(|text| !text.words.starts_with(COUNTS));
    once(texts.flat_map(|text| {
        let all = sentences(&text.words, marks).into_iter();
        all.filter(|sentence| words(sentence) > LONGEST)
            .map(|sentence| {
                let what = format!("{} words: {}", words(sentence), sentence.trim());
                (text.place.clone(), what)
            })
    }))
}

fn none(complaints: &[String]) {
    let count = complaints.len();
    let all = complaints.join("\n");
    assert!(complaints.is_empty(), "{count} to correct\n{all}\n");
}

fn check(texts: &[Text], marks: &'static [char]) {
    assert!(texts.len() > 10, "there is nothing to check");
    let long = long_sentences(texts, marks);
    none(&[banned_words(texts), long].concat());
}

#[test]
fn of_the_rules() {
    // With every alternative for the words, with the longest for the length.
    let long = long_sentences(&rules(false), PRINTED);
    none(&[banned_words(&rules(true)), long].concat());
}

#[test]
fn of_the_source() {
    check(&in_source(), PRINTED);
}

#[test]
fn of_the_help() {
    check(&help(), PRINTED);
}

/// The help's longer texts before they are broken into lines, where sentences are still whole.
#[test]
fn of_the_texts_behind_the_options() {
    for command in ["columns", "lint", "rules", "schema", "window"] {
        check(&document(&format!("src/cli/help/{command}.txt")), PRINTED);
    }
}

#[test]
fn of_the_lists() {
    check(&lists(), PRINTED);
}

#[test]
fn of_the_documents() {
    for name in ["README.md", "DEVELOPERS.md"] {
        check(&document(name), WRITTEN);
    }
}

#[test]
fn of_the_output() {
    let texts = [Look::Drawn, Look::Plain].map(output);
    check(&texts.into_iter().flatten().collect::<Vec<_>>(), PRINTED);
}

/// An exception that excuses nothing would hide the next slip.
#[test]
fn every_exception_is_needed() {
    let documents = ["README.md", "DEVELOPERS.md"]
        .into_iter()
        .flat_map(document);
    let texts: Vec<Text> = in_source()
        .into_iter()
        .chain(help())
        .chain(lists())
        .chain(documents)
        .collect();
    for (place, phrase, why) in EXCEPTIONS {
        let mut here = texts.iter().filter(|text| text.place.starts_with(place));
        let used = here.any(|text| banned_in(text).any(|banned| banned.phrase == *phrase));
        assert!(used, "{place}: `{phrase}` ({why}) excuses nothing");
    }
}

/// Each banned word is found where it is, and not inside what is good English.
#[test]
fn what_is_banned_is_found() {
    for banned in BANNED {
        let bad = format!("before {} behind", banned.phrase);
        assert!(banned.is_in(&bad), "{bad}");
        for good in banned.unless {
            assert!(!banned.is_in(&format!("before {good} behind")), "{good}");
        }
        let small = banned.phrase.to_lowercase();
        assert_eq!(small, banned.phrase, "a phrase is in small letters");
    }
}

/// A ratio of what holds to what pulls is a ratio: no name calls it a safety.
#[test]
fn no_name_speaks_of_safety() {
    let book = crate::support::built_in().book;
    let own = book.rules.iter().flat_map(|rule| &rule.limits);
    let limits = own.chain(&book.limits).map(|limit| limit.name.clone());
    let facts = shankwise::facts::Fact::all().map(|fact| fact.name.to_owned());
    let properties = shankwise::library::PROPERTIES.iter();
    let properties = properties.map(|property| property.name.to_owned());
    let names: Vec<String> = limits.chain(facts).chain(properties).collect();
    assert!(names.iter().any(|name| name == "slip_ratio"));
    let safe: Vec<&String> = names.iter().filter(|name| name.contains("safe")).collect();
    assert_eq!(safe, [""; 0]);
}

/// What other formats name so is said to be theirs where it is listed.
#[test]
fn the_group_of_the_tool_numbers_is_said_to_be_mtconnects() {
    let columns = String::from_utf8(crate::support::run(&["columns", "assembly"]).stdout).unwrap();
    let (_, group) = columns
        .split_once("program_tool_group")
        .expect("its column");
    let meaning = group.lines().nth(1).unwrap_or_default();
    assert!(
        meaning.contains("MTConnect's ProgramToolGroup"),
        "{meaning}"
    );
}
