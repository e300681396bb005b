//! Inputs that cannot be read: which file, why, and that the rest is judged all the same.

use std::fs;
use std::path::Path;

use shankwise::library::{Input, Loaded, load};

use super::{folder, load_folder};
use crate::support::BUILT_IN;

fn bytes(bytes: &[u8]) -> Loaded {
    load(Input::Bytes("t.csv", bytes), &BUILT_IN.read_settings())
}

/// The one reason why nothing can be read.
fn reason(loaded: &Loaded) -> &str {
    assert!(loaded.library.is_none());
    assert_eq!(loaded.errors.len(), 1, "{:?}", loaded.errors);
    assert_eq!(loaded.errors[0].file, "t.csv");
    &loaded.errors[0].reason
}

#[test]
fn a_file_that_is_no_library_says_why() {
    let cases: [(&[u8], &str); 8] = [
        (b"", "is empty; expected a header"),
        (b"\r\n  \n", "is empty; expected a header"),
        (b"\xef\xbb\xbf", "is empty; expected a header"),
        (b"tool_number,stick_out\n", "has a header and no record"),
        (
            b"tool_number,stick_out\n,\n\n",
            "has a header and no record",
        ),
        (b"part,price\nEM12,80\n", "no column of this table is known"),
        (b"tool_number\0,stick_out\n", "byte 12 does not occur"),
        (
            b"PK\x03\x04\x14\x00\x08",
            "begins as a workbook does, and cannot be read as one",
        ),
    ];
    for (input, expected) in cases {
        let loaded = bytes(input);
        let told = reason(&loaded);
        assert!(told.starts_with(expected), "{input:?}: {told}");
    }
}

#[test]
fn an_unknown_header_is_pointed_at_where_it_stands() {
    let loaded = bytes(b"\n\nof our crib;price\nEM12;80\n");
    let at = loaded.errors[0].position.unwrap();
    assert_eq!((at.line, at.column), (3, 1));
}

#[test]
fn a_path_that_is_not_there_is_an_error_with_its_name() {
    let path = Path::new("no/such/library.csv");
    let loaded = load(Input::Path(path), &BUILT_IN.read_settings());
    assert!(loaded.library.is_none());
    assert!(loaded.errors[0].file.ends_with("library.csv"));
    assert!(loaded.errors[0].reason.starts_with("cannot be read: "));
}

#[test]
fn a_folder_without_assemblies_is_no_library() {
    let folder = folder(&[("cutters.csv", "cutter,overall_length\nEM12,83\n")]);
    let loaded = load_folder(&folder);
    assert!(loaded.library.is_none());
    assert_eq!(loaded.errors.len(), 1);
    assert!(loaded.errors[0].reason.contains("assemblies.csv"));
    assert_eq!(loaded.errors[0].file, folder.path().display().to_string());
    for near in ["Assemblies.csv", "assembly.csv", "asemblies.csv"] {
        let folder = self::folder(&[(near, "tool_number,stick_out\n1,33\n")]);
        let reason = load_folder(&folder).errors.remove(0).reason;
        assert!(
            reason.ends_with(&format!("is `{near}` meant for it?")),
            "{reason}"
        );
    }
}

#[test]
fn one_unreadable_table_does_not_hide_the_others() {
    let broken: [(&[u8], &str); 3] = [
        (b"nut\0", "byte 4 does not occur"),
        (b"", "is empty"),
        (b"price,shelf\n80,B4\n", "no column of this table is known"),
    ];
    for (bytes, expected) in broken {
        let folder = folder(&[
            (
                "assemblies.csv",
                "tool_number,cutter,stick_out\n1,EM12,33\n",
            ),
            ("cutters.csv", "cutter,overall_length\nEM12,83\n"),
        ]);
        fs::write(folder.path().join("nuts.csv"), bytes).unwrap();
        let loaded = load_folder(&folder);
        assert_eq!(loaded.errors.len(), 1, "{:?}", loaded.errors);
        assert!(loaded.errors[0].file.ends_with("nuts.csv"));
        assert!(loaded.errors[0].reason.starts_with(expected));
        let library = loaded.library.expect("the rest is a library");
        assert_eq!(library.assemblies.len(), 1);
        assert_eq!(super::faults(&library), [] as [&str; 0]);
    }
}

#[test]
fn a_folder_in_the_place_of_a_table_is_an_error() {
    let folder = folder(&[("assemblies.csv", "tool_number,stick_out\n1,33\n")]);
    fs::create_dir(folder.path().join("cutters.csv")).unwrap();
    let loaded = load_folder(&folder);
    assert_eq!(loaded.errors.len(), 1);
    assert!(loaded.errors[0].file.ends_with("cutters.csv"));
    assert!(loaded.library.is_some());
}

#[test]
fn a_table_with_a_header_only_is_an_empty_table() {
    let folder = folder(&[
        ("assemblies.csv", "tool_number,stick_out\n1,33\n"),
        ("stock.csv", "cutter,quantity\n"),
    ]);
    let loaded = load_folder(&folder);
    assert_eq!(loaded.errors, []);
    assert!(loaded.library.is_some());
}
