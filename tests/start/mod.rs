//! From an export to a judged library: the exports of invented shops, made by somebody who did not
//! write the program, with what those shops answer and what they measured.

mod asked;
mod documents;
mod drafts;
mod exports;
mod guesses;
mod hostile;
mod left_behind;
mod machines;

use std::path::{Path, PathBuf};
use std::process::Output;

use crate::support::{fixture, run};

/// An export, and what lies beside it.
fn export(shop: &str, file: &str) -> String {
    let path = fixture("exports").join(shop).join(file);
    path.display().to_string()
}

/// A shop's export: most are tables, one is a workbook.
fn export_of(shop: &str) -> String {
    let workbook = export(shop, "export.xlsx");
    if Path::new(&workbook).exists() {
        workbook
    } else {
        export(shop, "export.csv")
    }
}

/// A library of an export, drafted with the shop's answers in a new folder.
fn started(shop: &str, folder: &Path) -> (PathBuf, Output) {
    let library = folder.join("library");
    let output = run(&[
        "start",
        &export_of(shop),
        "--into",
        &library.display().to_string(),
        "--answers",
        &export(shop, "answers.toml"),
    ]);
    (library, output)
}

fn text(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn said(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}
