//! Rule files, limits and the shop's file: what they change, and what is refused where.

mod accepted;
mod defaults;
mod form;
mod layers;
mod materials;
mod places;
mod ranges;
mod refused;
mod shop_refused;
mod shop_rules;

use std::fs;
use std::path::{Path, PathBuf};

use shankwise::judge::{Report, Setup, SetupError, VocabularyNames, judge};
use shankwise::library::{Input, load};
use shankwise::rulebook::{Pack, RuleError, Rulebook, built_in};
use tempfile::TempDir;

use crate::support::options;

/// A rule that loads; the tests change one line of it.
const RULE: &str = "\
title = \"overhang long for its diameter\"
level = \"warning\"
basis = \"common practice\"
consequence = \"scrap\"
when = \"held_in_collet\"
expect = \"overhang_ratio <= slenderness\"
message = \"sticks out {stick_out}, {overhang_ratio} times its diameter\"
why = \"it bends\"
advice = \"push it in\"

[limit.slenderness]
value = 4
unit = \"1\"
basis = \"common practice\"
reason = \"a habit\"
source = \"\"
stricter = \"lower\"
";

/// The rule with one of its lines replaced: the first that starts with `key`.
fn changed(key: &str, line: &str) -> String {
    let mut found = false;
    let lines = RULE.lines().map(|old| {
        if !found && old.starts_with(key) {
            found = true;
            line
        } else {
            old
        }
    });
    let text = lines.collect::<Vec<_>>().join("\n") + "\n";
    assert!(found, "no line starts with {key}");
    text
}

/// Loads rule files besides the built-in ones.
fn load_files(files: &[(&str, &str)]) -> Result<Rulebook, Vec<RuleError>> {
    let files = files.iter().map(|(name, text)| {
        let (name, text) = ((*name).to_owned(), (*text).to_owned());
        (name.clone(), name, text)
    });
    let own = Pack {
        files: files.collect(),
        ..Pack::default()
    };
    Rulebook::load(&[built_in(), own], &VocabularyNames)
}

/// Line and column, from 1, in characters, of the first occurrence of a text.
fn place_of(text: &str, needle: &str) -> (usize, usize) {
    let at = text.find(needle).expect("the needle is there");
    let before = &text[..at];
    let line = before.matches('\n').count() + 1;
    let start = before.rfind('\n').map_or(0, |at| at + 1);
    (line, before[start..].chars().count() + 1)
}

/// A folder of one library: `tools.csv` or what else is put there.
struct Shop(TempDir);

impl Shop {
    fn new(files: &[(&str, &str)]) -> Shop {
        let shop = Shop(TempDir::new().expect("a folder"));
        for (name, text) in files {
            shop.put(name, text);
        }
        shop
    }

    fn put(&self, name: &str, text: &str) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// The setup for `tools.csv`, with a plant's file if there is one.
    fn setup(&self) -> Result<Setup, SetupError> {
        let plant = self.path("plant/shankwise.toml");
        let plant = plant.is_file().then_some(plant);
        Setup::load(
            Some(&self.path("cell/tools.csv")),
            plant.as_deref(),
            &[],
            true,
        )
    }

    /// The one error that keeps the setup from loading.
    fn refusal(&self) -> RuleError {
        match self.setup() {
            Err(SetupError::Rules(errors)) => {
                assert_eq!(errors.len(), 1, "{errors:?}");
                errors[0].clone()
            }
            other => panic!("expected a refusal, got {other:?}"),
        }
    }

    fn report(&self) -> Report {
        let setup = self.setup().expect("the setup loads");
        report(&self.path("cell/tools.csv"), &setup)
    }
}

fn report(path: &Path, setup: &Setup) -> Report {
    let loaded = load(Input::Path(path), &setup.read_settings());
    assert_eq!(loaded.errors, []);
    judge(&loaded.library.expect("a library"), setup, &options())
}

/// A tool whose grip is `gripped` of a land of 40 mm, and nothing else to find fault with.
fn tool(gripped: f64) -> String {
    format!(
        "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,\
         collet_size,bore_diameter,bore_length,nut_torque,face_setback\n\
         7,{},100,60,12,12,32,12,40,80,0\n",
        100.0 - gripped
    )
}

/// How a rule came out in a report: the levels of its findings.
fn levels(report: &Report, rule: &str) -> Vec<&'static str> {
    let findings = report.findings.iter();
    findings
        .filter(|finding| finding.rule == rule && finding.accepted.is_none())
        .map(shankwise::judge::Finding::level_name)
        .collect()
}

/// Asserts that a library's own shop file is refused where `needle` stands.
#[track_caller]
fn refused(text: &str, needle: &str, words: &str) {
    let shop = Shop::new(&[
        ("cell/tools.csv", &tool(40.0)),
        ("cell/shankwise.toml", text),
    ]);
    let error = shop.refusal();
    assert!(error.message.contains(words), "{error}");
    let position = (error.position.line, error.position.column);
    assert_eq!(position, place_of(text, needle), "{error}");
    assert!(error.file.ends_with("shankwise.toml"), "{error}");
}
