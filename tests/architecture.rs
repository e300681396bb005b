//! The house: which module may use which, and habits that a machine can check.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use crate::support::root;

/// Modules in the order in which data flows, each with the modules that it may use. `text`
/// and `units` are leaves that all may use.
const ARROWS: &[(&str, &[&str])] = &[
    ("text", &[]),
    ("units", &["text"]),
    ("mechanics", &[]),
    ("input", &["text", "units"]),
    ("library", &["input", "text", "units"]),
    ("facts", &["library", "mechanics", "text", "units"]),
    ("rulebook", &["text", "units"]),
    (
        "judge",
        &["rulebook", "facts", "library", "input", "text", "units"],
    ),
    ("draw", &["facts", "library"]),
    (
        "advice",
        &[
            "judge", "rulebook", "facts", "library", "input", "text", "units",
        ],
    ),
    (
        "sheet",
        &[
            "advice", "draw", "judge", "rulebook", "facts", "library", "text", "units",
        ],
    ),
    ("audit", &["sheet", "library", "text", "units"]),
    (
        "write",
        &[
            "audit", "sheet", "rulebook", "facts", "library", "text", "units",
        ],
    ),
    (
        "cli",
        &[
            "write", "audit", "sheet", "advice", "judge", "rulebook", "facts", "library", "input",
            "text", "units",
        ],
    ),
    ("check", &["advice", "judge", "library"]),
    ("main", &["cli"]),
    ("lib", &[]),
    ("build", &[]),
];

/// Every Rust file below `src`.
pub fn sources() -> Vec<PathBuf> {
    fn walk(folder: &Path, found: &mut Vec<PathBuf>) {
        let mut entries: Vec<_> = fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .collect();
        entries.sort();
        for path in entries {
            if path.is_dir() {
                walk(&path, found);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                found.push(path);
            }
        }
    }
    let mut found = Vec::new();
    walk(&root().join("src"), &mut found);
    found
}

/// The top module that a file belongs to.
fn module(path: &Path) -> String {
    let inside = path.strip_prefix(root().join("src")).unwrap();
    let first = inside.components().next().unwrap().as_os_str();
    first.to_string_lossy().trim_end_matches(".rs").to_owned()
}

/// Modules named behind `crate::` or `shankwise::` in code, comments left out.
fn used(text: &str) -> Vec<String> {
    let code = text
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    let mut found = Vec::new();
    for line in code {
        for part in line.split("crate::").skip(1) {
            let end = part.find(|c: char| !(c.is_alphanumeric() || c == '_'));
            found.push(part[..end.unwrap_or(part.len())].to_owned());
        }
    }
    found
}

#[test]
fn modules_use_only_what_stands_before_them() {
    let allowed: BTreeMap<&str, &[&str]> = ARROWS.iter().copied().collect();
    for path in sources() {
        let own = module(&path);
        let Some(arrows) = allowed.get(own.as_str()) else {
            panic!("module `{own}` is not in the list of arrows");
        };
        let text = fs::read_to_string(&path).unwrap();
        for name in used(&text) {
            let fine = name == own || arrows.contains(&name.as_str());
            assert!(
                fine,
                "{} uses crate::{name}, which {own} may not",
                path.display()
            );
        }
    }
}

/// What a run says of a library comes from its sheets. Tables that belong to no library, an export
/// that is none yet, and what keeps the program from running, are shown as they are. A conversion
/// says nothing of a library: it writes what that states.
#[test]
fn writers_of_findings_read_sheets_only() {
    let tables = [
        "catalogue.rs",
        "evidence.rs",
        "lists.rs",
        "schema.rs",
        "start/mod.rs",
        "start/of_assets.rs",
        "xsd.rs",
        "xsd_strict.rs",
        "text/trouble.rs",
    ];
    let write = root().join("src/write");
    for path in sources() {
        let Ok(own) = path.strip_prefix(&write) else {
            continue;
        };
        let is_conversion = own.starts_with("convert");
        if is_conversion || tables.iter().any(|table| own == Path::new(table)) {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        for name in used(&text) {
            let fine = ["audit", "sheet", "text", "units", "write"].contains(&name.as_str());
            assert!(fine, "{} uses crate::{name}", path.display());
        }
    }
}

#[test]
fn the_arrows_have_no_cycle() {
    // Every arrow points to a module that stands earlier in the list.
    for (at, (module, arrows)) in ARROWS.iter().enumerate() {
        for arrow in *arrows {
            let target = ARROWS.iter().position(|(name, _)| name == arrow);
            assert!(
                target.is_some_and(|target| target < at),
                "{module} -> {arrow}"
            );
        }
    }
}

#[test]
fn no_group_of_modules_hides_a_path_without_crate() {
    // `use crate::{a, b}` would slip through the scan above.
    for path in sources() {
        let text = fs::read_to_string(&path).unwrap();
        assert!(!text.contains("crate::{"), "{}", path.display());
    }
}

#[test]
fn files_open_with_what_they_are_for_and_stay_small() {
    for path in sources() {
        let text = fs::read_to_string(&path).unwrap();
        assert!(text.starts_with("//!"), "{}", path.display());
        let lines = text.lines().count();
        assert!(lines <= 450, "{} has {lines} lines", path.display());
    }
    let main = fs::read_to_string(root().join("src/main.rs")).unwrap();
    assert!(main.lines().count() < 100);
}

#[test]
fn only_write_and_cli_speak_to_the_terminal() {
    for path in sources() {
        let own = module(&path);
        if ["write", "cli", "build"].contains(&own.as_str()) {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        for forbidden in [
            "println!",
            "eprintln!",
            "stdout()",
            "stderr()",
            "process::exit",
        ] {
            // It asks whether standard output is open, and writes nothing.
            let asks = own == "main" && forbidden == "stdout()";
            let has = text.contains(forbidden) && !asks;
            assert!(!has, "{}: {forbidden}", path.display());
        }
    }
}

#[test]
fn every_exception_to_a_lint_has_its_reason() {
    for path in sources() {
        let text = fs::read_to_string(&path).unwrap();
        for (at, _) in text
            .match_indices("#[expect(")
            .chain(text.match_indices("#[allow("))
        {
            let end = text[at..].find(")]").unwrap();
            let attribute = &text[at..at + end];
            assert!(
                attribute.contains("reason"),
                "{}: {attribute}",
                path.display()
            );
        }
    }
}

/// `Cargo.toml` builds neither library nor program for tests of their own: none would run.
#[test]
fn all_tests_stand_in_their_folder() {
    let marks = ["#[test]", "cfg(test)"];
    let of_tests = |path: &PathBuf| {
        let text = fs::read_to_string(path).unwrap();
        marks.iter().any(|mark| text.contains(mark))
    };
    let found: Vec<PathBuf> = sources().into_iter().filter(of_tests).collect();
    assert!(found.is_empty(), "{found:?}");
}

/// What the program must know of a rule stands in the rule's file; the faults that it raises
/// itself are listed once.
#[test]
fn no_rule_is_known_by_its_name() {
    let book = crate::support::built_in().book;
    let mut found = Vec::new();
    for path in sources() {
        if path.ends_with("src/input/fault.rs") {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        for (line, code) in text.lines().enumerate() {
            // Comments may give examples.
            let code = code.split("//").next().unwrap_or_default();
            let named = book.rules.iter().find(|rule| code.contains(&rule.id));
            found.extend(named.map(|rule| format!("{}:{}: {}", path.display(), line + 1, rule.id)));
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// File names that stand in several folders, as they mean the same thing there: what is read or
/// worked out in one is shown by another. Every other name stands once.
const SHARED: &[&str] = &[
    "clamping",
    "columns",
    "coverage",
    "cutting",
    "defaults",
    "evidence",
    "facts",
    "faults",
    "figure",
    "finding",
    "front",
    "grip",
    "mod",
    "place",
    "plan",
    "question",
    "reach",
    "record",
    "records",
    "register",
    "report",
    "rule",
    "run_record",
    "schema",
    "setup",
    "shortfall",
    "square",
    "unreadable",
    "window",
];

#[test]
fn a_file_name_has_one_meaning() {
    let mut folders: BTreeMap<String, Vec<PathBuf>> = BTreeMap::new();
    for path in sources() {
        let stem = path.file_stem().expect("a name").to_string_lossy();
        folders
            .entry(stem.into_owned())
            .or_default()
            .push(path.clone());
    }
    for (stem, paths) in &folders {
        let shared = SHARED.contains(&stem.as_str());
        assert!(paths.len() == 1 || shared, "{stem}: {paths:?}");
    }
    for stem in SHARED {
        let several = folders.get(*stem).is_some_and(|paths| paths.len() > 1);
        assert!(several, "{stem} stands once");
    }
}
