//! The files under `fixtures/formats`: all of `valid` load, none of `invalid` does without an
//! error. To add one, put a file or a folder of tables there.

use std::path::{Path, PathBuf};

use shankwise::judge::{Setup, judge};
use shankwise::library::{Input, Loaded, load};

use crate::support::{fixture, options};

/// Files and folders of tables in a folder of fixtures.
fn libraries(folder: &str) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(fixture(folder)).expect("the folder is there");
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    assert!(paths.len() >= 8, "{folder} holds {} libraries", paths.len());
    paths
}

fn loaded(path: &Path) -> (Loaded, Setup) {
    let setup = Setup::load(Some(path), None, &[], true).expect("the setup loads");
    (load(Input::Path(path), &setup.read_settings()), setup)
}

#[test]
fn every_valid_format_loads_and_its_grip_is_judged() {
    for path in libraries("formats/valid") {
        let shown = path.display();
        let (loaded, setup) = loaded(&path);
        assert_eq!(loaded.errors, [], "{shown}");
        let library = loaded.library.unwrap_or_else(|| panic!("{shown}"));
        let mut told = super::faults(&library);
        // One of them has rows of blank cells, which are counted.
        told.retain(|fault| !fault.starts_with("blank-rows "));
        assert_eq!(told, [] as [&str; 0], "{shown}");
        let summary = judge(&library, &setup, &options()).summary;
        assert!(summary.held_in_collets > 0, "{shown}");
        assert_eq!(summary.grip_judged, summary.held_in_collets, "{shown}");
    }
}

#[test]
fn every_invalid_format_is_an_error_with_file_and_reason() {
    for path in libraries("formats/invalid") {
        let (loaded, _) = loaded(&path);
        assert!(!loaded.errors.is_empty(), "{}", path.display());
        for error in &loaded.errors {
            assert!(Path::new(&error.file).starts_with(&path), "{}", error.file);
            assert!(error.reason.len() > 20, "{}", error.reason);
        }
    }
}
