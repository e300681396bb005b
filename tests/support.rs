//! What several tests need: loading and judging a library, running the program.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::LazyLock;

use proptest::test_runner::{Config, RngSeed};
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};
use shankwise::judge::{Options, Report, Selection, Setup, Summary, judge};
use shankwise::library::{Input, Library, Loaded, load};
use shankwise::rulebook::{Date, Level, Rulebook, Shop};

/// Settings of a property test: the same cases in every run, and no file left behind.
pub fn cases(cases: u32) -> Config {
    Config {
        cases,
        rng_seed: RngSeed::Fixed(83),
        failure_persistence: None,
        ..Config::default()
    }
}

/// All commands.
pub const COMMANDS: [&str; 12] = [
    "lint",
    "cards",
    "convert",
    "accept",
    "accepted",
    "facts",
    "window",
    "rules",
    "columns",
    "schema",
    "completions",
    "man",
];

/// The folder of the project.
pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A path below the fixtures.
pub fn fixture(path: &str) -> PathBuf {
    root().join("fixtures").join(path)
}

/// Options as the program has them by default, on a fixed day.
pub fn options() -> Options {
    Options {
        strict: false,
        fail_on: Level::Error,
        selection: Selection::default(),
        with_facts: false,
        today: Date {
            year: 2026,
            month: 11,
            day: 25,
        },
    }
}

/// The built-in rules and no shop file, read once: reading them takes as long as judging a
/// hundred tools.
pub static BUILT_IN: LazyLock<Setup> =
    LazyLock::new(|| Setup::load(None, None, &[], true).expect("the built-in rules load"));

/// The built-in rules, for a test that changes them or keeps them beside others.
pub fn built_in() -> Setup {
    with_book(BUILT_IN.book.clone())
}

/// Rules and no shop file.
pub fn with_book(book: Rulebook) -> Setup {
    Setup {
        book,
        shop: Shop::default(),
        changes: Vec::new(),
        files: Vec::new(),
        unread: Vec::new(),
        passed_over: Vec::new(),
        rules_sha256: None,
        config_sha256: None,
    }
}

/// Reads a flat CSV library from text, with the built-in settings.
pub fn read_text(text: &str) -> Loaded {
    let settings = BUILT_IN.read_settings();
    load(Input::Bytes("library.csv", text.as_bytes()), &settings)
}

/// A library that is known to load.
pub fn library(text: &str) -> Library {
    let loaded = read_text(text);
    assert_eq!(loaded.errors, [], "{text}");
    loaded.library.expect("there is a library")
}

/// Judges a flat CSV library with the built-in rules.
pub fn lint_text(text: &str) -> Report {
    judge(&library(text), &BUILT_IN, &options())
}

/// Runs the program in the project's folder.
pub fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_shankwise"))
        .args(arguments)
        .current_dir(root())
        .env_remove("NO_COLOR")
        .env_remove("FORCE_COLOR")
        .env_remove("CLICOLOR_FORCE")
        .env_remove("SHANKWISE_CONFIG")
        .output()
        .expect("the program starts")
}

/// The quick question of the README; its job comes last.
pub const QUESTION: &[&str] = &[
    "--bore-length",
    "40",
    "--overall-length",
    "83",
    "--shank-diameter",
    "12",
    "--shank-length",
    "45",
    "--face-setback",
    "0",
    "--reach",
    "35",
    "--clearance",
    "0",
];

/// Every judgement and every fault of form is in exactly one of the counts.
pub fn adds_up(summary: &Summary) {
    let counted = summary.error
        + summary.warning
        + summary.note
        + summary.not_judged
        + summary.not_applicable
        + summary.met
        + summary.accepted;
    assert_eq!(counted, summary.judgements + summary.faults, "{summary:?}");
    assert!(summary.grip_judged <= summary.held_in_collets);
    assert!(summary.held_in_collets <= summary.held_by_shank);
    assert!(summary.held_by_shank <= summary.assemblies);
}

/// The elements of a piece of markup that closes what it opens, each with its attributes.
pub fn elements(markup: &str) -> Vec<(String, BTreeMap<String, String>)> {
    let mut reader = Reader::from_str(markup);
    reader.config_mut().check_end_names = true;
    let mut found = Vec::new();
    let take = |tag: &BytesStart<'_>| {
        let attributes = tag.html_attributes().flatten();
        let attributes = attributes.map(|one| {
            let key = one.key.as_ref().to_owned();
            (key, one.value.to_string())
        });
        (tag.name().as_ref().to_owned(), attributes.collect())
    };
    loop {
        match reader.read_event().expect("it is well-formed") {
            Event::Start(tag) | Event::Empty(tag) => found.push(take(&tag)),
            Event::Eof => return found,
            _ => {}
        }
    }
}

/// What a path is told, one line a finding.
pub fn lint_of(path: &Path) -> String {
    let path = path.to_str().expect("it is UTF-8");
    let output = run(&["lint", path, "--as", "brief"]);
    String::from_utf8(output.stdout).expect("it is UTF-8")
}
