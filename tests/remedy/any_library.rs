//! Whatever the library: an answer, the same twice, and no crash.

use std::fs;
use std::path::{Path, PathBuf};

use shankwise::judge::Setup;
use shankwise::library::{Input, Library, load};

use super::shop::{of, plan};
use crate::rule_fixtures::cases::{CASES, Source};
use crate::support::{built_in, fixture};

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    let entries = fs::read_dir(folder).unwrap();
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    for path in paths {
        if path.is_dir() {
            if path.join("assemblies.csv").is_file() {
                found.push(path.clone());
            }
            files(&path, found);
        } else if path.extension().is_some_and(|ending| ending != "toml") {
            found.push(path);
        }
    }
}

/// Asks for the remedies of every assembly, and counts those that another part could cure.
fn answered(library: &Library, setup: &Setup, name: &str) -> usize {
    let mut curable = 0;
    for at in 0..library.assemblies.len() {
        let found = of(library, setup, at);
        assert!(found.list.len() <= 3, "{name}");
        let none = found.curable && found.list.is_empty();
        assert_eq!(found.nearest.is_some(), none, "{name}");
        curable += usize::from(found.curable);
    }
    assert!(plan(library, setup).values.len() <= 3, "{name}");
    curable
}

#[test]
fn every_fixture_is_answered() {
    let mut paths = Vec::new();
    for folder in ["rules", "formats"] {
        files(&fixture(folder), &mut paths);
    }
    let setup = built_in();
    let mut curable = 0;
    for path in paths {
        let loaded = load(Input::Path(&path), &setup.read_settings());
        if let Some(library) = loaded.library {
            curable += answered(&library, &setup, &path.display().to_string());
        }
    }
    let rows = CASES
        .iter()
        .filter(|case| matches!(case.source, Source::Rows(_)));
    for case in rows {
        curable += answered(&case.library, &setup, &case.to_string());
    }
    assert!(curable > 100, "{curable}");
}
