//! The fixtures in every other form, and back.

use std::fs;
use std::path::{Path, PathBuf};

use super::{assert_same, convert, faults, findings, findings_of_tools, read, records, tools};
use crate::support::fixture;

/// Libraries of the tree, with the shop file that lies beside each.
pub fn libraries() -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> = ["demo", "clampings", "clean", "blanks"]
        .map(fixture)
        .to_vec();
    all.push(fixture("forms/demo.xml"));
    all.push(fixture("forms/demo-flat.csv"));
    let valid = fs::read_dir(fixture("formats/valid")).unwrap();
    let valid = valid.map(|entry| entry.unwrap().path());
    // A workbook has no form to be written in again; `places` says what becomes of one.
    let is_workbook = |path: &PathBuf| {
        let ending = path.extension().unwrap_or_default();
        ending == "xlsx" || ending == "ods"
    };
    all.extend(valid.filter(|path| !is_workbook(path)));
    all.sort();
    all
}

/// Where outputs go, and the shop file that the library is judged by.
struct Bench {
    folder: tempfile::TempDir,
    shop: PathBuf,
}

impl Bench {
    fn of(library: &Path) -> Bench {
        let beside = if library.is_dir() {
            library
        } else {
            library.parent().unwrap()
        };
        Bench {
            folder: tempfile::tempdir().unwrap(),
            shop: beside.join("shankwise.toml"),
        }
    }

    /// Converts a library into a folder of its own, with the shop file beside the output.
    fn convert(&self, library: &Path, to: &str, name: &str) -> PathBuf {
        let own = self.folder.path().join(name);
        let out = match to {
            "folder" => own.clone(),
            _ => own.join("out").with_extension(to),
        };
        fs::create_dir(&own).unwrap();
        convert(library, to, &out);
        if self.shop.exists() {
            fs::copy(&self.shop, own.join("shankwise.toml")).unwrap();
        }
        out
    }
}

fn is_table(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == "csv")
}

/// Whether it has a row for each tool and no other table.
fn is_flat(path: &Path) -> bool {
    let ending = path.extension().unwrap_or_default();
    if ending == "xlsx" || ending == "ods" {
        return read(path).0.form.is_flat();
    }
    let tables = |all: fs::ReadDir| {
        all.flatten()
            .filter(|entry| is_table(&entry.path()))
            .count()
    };
    is_table(path) || fs::read_dir(path).is_ok_and(|all| tables(all) == 1)
}

#[test]
fn a_form_written_anew_is_the_same() {
    for library in libraries() {
        let bench = Bench::of(&library);
        let is_xml = library.extension().is_some_and(|ending| ending == "xml");
        let to = match (is_xml, is_flat(&library)) {
            (true, _) => "xml",
            (false, true) => "csv",
            (false, false) => "folder",
        };
        let again = bench.convert(&library, to, "again");
        let ((a, a_setup), (b, b_setup)) = (read(&library), read(&again));
        let shown = library.display().to_string();
        assert_same(&records(&a), &records(&b), &shown);
        assert_same(&faults(&a), &faults(&b), &shown);
        assert_same(&findings(&a, &a_setup), &findings(&b, &b_setup), &shown);
    }
}

/// From a folder to a document and back: all records are the same.
#[test]
fn folder_and_document_are_one_library() {
    for library in libraries().into_iter().filter(|path| !is_flat(path)) {
        let bench = Bench::of(&library);
        let document = bench.convert(&library, "xml", "a");
        let folder = bench.convert(&document, "folder", "b");
        let (a, a_setup) = read(&library);
        for other in [&document, &folder] {
            let (b, b_setup) = read(other);
            let shown = format!("{} as {}", library.display(), other.display());
            assert_same(&records(&a), &records(&b), &shown);
            assert_same(&faults(&a), &faults(&b), &shown);
            assert_same(&findings(&a, &a_setup), &findings(&b, &b_setup), &shown);
        }
    }
}

/// From a row for each tool to a document, a folder, and back to rows: of every tool the same is
/// known, and the same is found.
#[test]
fn rows_and_parts_are_one_library() {
    for library in libraries().into_iter().filter(|path| is_flat(path)) {
        let bench = Bench::of(&library);
        let document = bench.convert(&library, "xml", "a");
        let folder = bench.convert(&document, "folder", "b");
        let rows = bench.convert(&folder, "csv", "c");
        let (a, a_setup) = read(&library);
        for other in [&document, &folder, &rows] {
            let (b, b_setup) = read(other);
            let shown = format!("{} as {}", library.display(), other.display());
            assert_same(&tools(&a), &tools(&b), &shown);
            let (a, b) = (
                findings_of_tools(&a, &a_setup),
                findings_of_tools(&b, &b_setup),
            );
            assert_same(&a, &b, &shown);
        }
    }
}

/// A cell that says two things says both in every form.
#[test]
fn a_corner_radius_beside_a_diameter_is_kept() {
    let folder = tempfile::tempdir().unwrap();
    let library = folder.path().join("tools.csv");
    let rows = "1;40;83;45;8;8 R4\n2;40;83;45;12;12,5 / R1,5\n3;40;83;45;12;.5 in R.03 in\n";
    let header =
        "tool_number;stick_out;overall_length;shank_length;shank_diameter;cutting_diameter";
    fs::write(&library, format!("{header}\n{rows}")).unwrap();
    let own = records(&read(&library).0);
    let radii = own.iter().filter(|record| record.contains("corner_radius"));
    assert_eq!(radii.count(), 3, "{own:?}");
    let tools_of = |path: &Path| tools(&read(path).0);
    for (to, out) in [("csv", "a.csv"), ("xml", "a.xml"), ("folder", "a")] {
        let out = folder.path().join(out);
        convert(&library, to, &out);
        assert_same(&tools_of(&library), &tools_of(&out), to);
    }
}
