//! The options of the quick question come from the vocabulary: each property is one, with its
//! unit, its other spellings and its completion.

use serde_json::Value;

use super::{complaint, run, status, stdout};

fn columns() -> Vec<Value> {
    let listed = stdout(&run(&["columns", "--as", "json"]));
    let object: Value = serde_json::from_str(&listed).unwrap();
    let all = object["columns"].as_array().unwrap().clone();
    let of_a_row = all.into_iter().filter(|column| column["record"] != "stock");
    of_a_row.collect()
}

/// Whether the program knows an option: it complains of its value, and not of its name.
fn is_known(option: &str) -> bool {
    let output = run(&["window", "--OAL", "83", option]);
    assert_eq!(status(&output), 2, "{option}");
    let said = complaint(&output);
    if said.contains("there is no option") {
        return false;
    }
    assert!(
        said.contains(" has no value") || said.contains("is stated twice"),
        "{said}"
    );
    true
}

#[test]
fn every_column_is_an_option() {
    for column in columns() {
        let name = column["name"].as_str().unwrap().replace('_', "-");
        let record = column["record"].as_str().unwrap();
        let known = [format!("--{name}"), format!("--{record}-{name}")];
        assert!(known.iter().any(|option| is_known(option)), "{known:?}");
        let by_column = format!("--{}", column["name"].as_str().unwrap());
        assert_eq!(is_known(&by_column), is_known(&known[0]), "{by_column}");
        for symbol in column["symbols"].as_array().unwrap() {
            let symbol = format!("--{}", symbol.as_str().unwrap());
            assert!(is_known(&symbol) || symbol == "--OAL", "{symbol}");
            let small = symbol.to_lowercase();
            assert!(is_known(&small) || small == "--oal", "{small}");
        }
    }
    // What several records have may be asked of one.
    for option in ["--collet-size", "--nut-collet-size", "--holder_collet_size"] {
        assert!(is_known(option), "{option}");
    }
    assert!(!is_known("--cutter-collet-size"));
    assert!(!is_known("--quantity"));
}

/// The help names meaning, unit and symbols, record by record; the short one what the main rules
/// need.
#[test]
fn the_help_lists_them() {
    let long = stdout(&run(&["window", "--help"]));
    for words in [
        "\nCutter:\n",
        "\nCollet:\n",
        "\nJob:\n",
        "--overall-length <mm>",
        "[alias: --OAL]",
        "--nut-torque <N·m>",
        "--cutter-kind <WORD>",
        "end-mill",
        "--collet-size <NUMBER>",
    ] {
        assert!(long.contains(words), "no {words:?} in {long}");
    }
    assert!(!long.contains("--overall_length <"), "an alias in {long}");
    let short = stdout(&run(&["window", "-h"]));
    assert!(short.contains("--overall-length <mm>"), "{short}");
    assert!(!short.contains("--balance"), "{short}");
    assert!(short.lines().count() < long.lines().count() / 2);
}

#[test]
fn a_word_may_be_written_with_hyphens() {
    let asked = |kind: &str| {
        let question = ["window", "--OAL", "83", "--LS", "45", "--cutter-kind", kind];
        let output = run(&question);
        assert_eq!(status(&output), 0, "{}", complaint(&output));
        stdout(&output)
    };
    assert_eq!(asked("end mill"), asked("end-mill"));
}

#[test]
fn a_decimal_comma_is_read() {
    let point = [
        "--OAL",
        "83.5",
        "--LS",
        "45",
        "--reach",
        "35.5 mm",
        "--bore-length",
        "1.5 in",
    ];
    let comma = [
        "--OAL",
        "83,5",
        "--LS",
        "45",
        "--reach",
        "35,5 mm",
        "--bore-length",
        "1,5 in",
    ];
    let [point, comma] = [point, comma].map(|asked| run(&[&["window"], &asked[..]].concat()));
    assert_eq!((status(&comma), complaint(&comma)), (0, String::new()));
    assert_eq!(stdout(&comma), stdout(&point));
    // Of a text it is a part; before three digits it may part thousands.
    let named = [
        "window",
        "--OAL",
        "83",
        "--reach",
        "35",
        "--operation",
        "side, far",
    ];
    assert!(stdout(&run(&named)).contains("side, far"));
    for (value, words) in [
        ("1,250", "a comma before three digits may part thousands"),
        ("1,250.5", "more than one mark in a number"),
        ("1.250,5", "more than one mark in a number"),
        ("35,", "a comma with no digit behind it"),
        ("3,5,5", "more than one mark in a number"),
    ] {
        let output = run(&["window", "--OAL", "83", "--reach", value]);
        assert_eq!(status(&output), 2, "{value}");
        let said = complaint(&output);
        let named = format!("--reach `{value}` cannot be read: {words}");
        assert!(said.contains(&named), "{said}");
    }
    let small = run(&["window", "--OAL", "83", "--clearance", "0,125"]);
    assert_eq!(status(&small), 0, "{}", complaint(&small));
}

/// A setback may be negative, and what follows an option is never another.
#[test]
fn a_value_may_begin_with_a_minus() {
    for value in ["-1", "-1 mm", "-0,5", "-0.04in"] {
        for joined in [false, true] {
            let one = format!("--face-setback={value}");
            let asked = if joined {
                vec![one.as_str()]
            } else {
                vec!["--face-setback", value]
            };
            let output = run(&[&["window", "--OAL", "83"], &asked[..]].concat());
            assert_eq!(status(&output), 0, "{value}: {}", complaint(&output));
        }
    }
}
