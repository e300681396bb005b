//! What was not read is not "fine": the verdict, the report and the JSON say so, not standard
//! error alone.

use std::fs;
use std::os::unix::fs::symlink;

use serde_json::Value;

use super::{Bench, HEADER, complaint, run, run_with_input, status, stdout};

/// A good tool whose job needs more than it has: without its job nothing is found.
const TOOLS: &str = "tool_number,clamping_kind,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length,nut_torque\n1,taper collet,40,83,45,12,12,32,12,40,80\n";
const JOBS: &str = "operation,tool_number,reach\nO1,1,60\n";

/// A folder of a library with some file beside its tools.
fn with(name: &str, content: &[u8]) -> Bench {
    let bench = Bench::new();
    bench.put("l/assemblies.csv", TOOLS);
    if !name.is_empty() {
        bench.put(&format!("l/{name}"), content);
    }
    bench
}

fn json(path: &str) -> (i32, Value) {
    let output = run(&["lint", "--as", "json", path]);
    let object = serde_json::from_str(&stdout(&output)).expect("one object");
    (status(&output), object)
}

/// The inputs that an object names as unread, or passed over, by the end of their names.
fn listed<'j>(object: &'j Value, key: &str) -> Vec<&'j str> {
    let all = object["library"][key].as_array().unwrap();
    all.iter()
        .map(|input| {
            assert!(input["reason"].as_str().unwrap().len() > 10);
            let file = input["file"].as_str().unwrap();
            file.rsplit('/').next().unwrap()
        })
        .collect()
}

/// The file is named by every form of output, and the library is incomplete.
fn is_told(bench: &Bench, name: &str, exit: i32) {
    let path = bench.text_path("l");
    let (code, object) = json(&path);
    assert_eq!(
        (code, &object["summary"]["verdict"]),
        (exit, &"incomplete".into()),
        "{name}"
    );
    assert_eq!(listed(&object, "unread"), [name]);
    for form in ["text", "plain"] {
        let output = run(&["lint", "--as", form, "--show", "error", &path]);
        assert_eq!(status(&output), exit, "{name}");
        let text = stdout(&output);
        assert!(text.contains("Not read"), "{text}");
        let last = text.lines().last().unwrap();
        let words = format!("incomplete: {name} was not read; ");
        assert!(last.starts_with(&words), "{last}");
    }
    assert_eq!(
        status(&run(&["lint", "--strict", &path])),
        exit.max(1),
        "{name}"
    );
}

#[test]
fn a_table_that_cannot_be_read_takes_its_demands_with_it() {
    let (code, whole) = json(&with("operations.csv", JOBS.as_bytes()).text_path("l"));
    assert_eq!((code, &whole["summary"]["verdict"]), (1, &"fails".into()));
    let alone = with("", b"");
    let (code, object) = json(&alone.text_path("l"));
    assert_ne!(object["summary"]["verdict"], "fails");
    assert_eq!((code, listed(&object, "unread")), (0, Vec::new()));

    let nul = JOBS.replace("60", "6\0");
    is_told(&with("operations.csv", nul.as_bytes()), "operations.csv", 2);
    is_told(&with("operations.csv", b""), "operations.csv", 2);
    is_told(
        &with("operations.csv", b"part,price\n1,2\n"),
        "operations.csv",
        2,
    );
    let dangling = with("", b"");
    symlink("nowhere.csv", dangling.path("l/operations.csv")).unwrap();
    is_told(&dangling, "operations.csv", 2);
    let folder = with("", b"");
    fs::create_dir(folder.path("l/operations.csv")).unwrap();
    is_told(&folder, "operations.csv", 2);
    let pipe = with("", b"");
    fifo(&pipe, "l/operations.csv");
    is_told(&pipe, "operations.csv", 2);
}

/// Opened, it would be waited for without end.
fn fifo(bench: &Bench, name: &str) {
    let made = std::process::Command::new("mkfifo")
        .arg(bench.path(name))
        .status();
    assert!(made.expect("mkfifo starts").success());
}

#[test]
fn a_misnamed_table_is_not_read_and_named() {
    for name in [
        "operations.tsv",
        "ops.csv",
        "Operations.csv",
        "operation.csv",
        "operations (1).csv",
        "jobs.csv",
        "operations.csv.txt",
        "week 12.csv",
        "week 12.txt",
        "operations.xlsm",
    ] {
        is_told(&with(name, JOBS.as_bytes()), name, 0);
    }
    for name in [
        "prices.csv",
        "readme.txt",
        "operations.pdf",
        "operations.md",
        "op 10.txt",
    ] {
        let bench = with(name, b"part,price\nEM12,80\n");
        let (code, object) = json(&bench.text_path("l"));
        assert_eq!((code, listed(&object, "unread")), (0, Vec::new()), "{name}");
    }
    // A library that fails says what it did not read all the same.
    let bench = with("ops.csv", JOBS.as_bytes());
    bench.put("l/assemblies.csv", TOOLS.replace(",40,83", ",65,83"));
    let output = run(&["lint", &bench.text_path("l")]);
    let text = stdout(&output);
    let last = text.lines().last().unwrap();
    assert!(last.starts_with("fails; ops.csv was not read; "), "{last}");
}

#[test]
fn what_is_nearly_the_shops_file_is_named() {
    let shop = b"[units]\nlength = \"in\"\n";
    for name in [
        "Shankwise.toml",
        "shankwise.toml.txt",
        "shankwise.tml",
        "shankwies.toml",
        "shankwise.toml.bak",
    ] {
        is_told(&with(name, shop), name, 0);
    }
    // Beside the shop's file its old copies are nobody's business.
    let bench = with("shankwise.toml", b"name = \"cell 3\"\n");
    bench.put("l/shankwise.toml.bak", shop);
    bench.put("l/Cargo.toml", "[package]\n");
    assert_eq!(listed(&json(&bench.text_path("l")).1, "unread"), [""; 0]);
    // It lies beside a flat file too.
    let bench = Bench::new();
    bench.put("Shankwise.toml", shop);
    let flat = bench.put("tools.csv", TOOLS);
    assert_eq!(listed(&json(&flat).1, "unread"), ["Shankwise.toml"]);
}

/// Under its own name, what is no file keeps the program from judging: units and limits would be
/// another's.
#[test]
fn a_shops_file_that_is_none_is_refused() {
    let refused = |bench: &Bench, words: &str| {
        let output = run(&["lint", &bench.text_path("l")]);
        assert_eq!((status(&output), stdout(&output)), (2, String::new()));
        let said = complaint(&output);
        assert!(
            said.contains("shankwise.toml") && said.contains(words),
            "{said}"
        );
    };
    let folder = with("", b"");
    fs::create_dir(folder.path("l/shankwise.toml")).unwrap();
    refused(&folder, "is a folder");
    let link = with("", b"");
    symlink("nowhere.toml", link.path("l/shankwise.toml")).unwrap();
    refused(&link, "is a link that leads to no file");
    let pipe = with("", b"");
    fifo(&pipe, "l/shankwise.toml");
    refused(&pipe, "is a pipe");
    // A link to a file is one.
    let good = with("plant.toml", b"name = \"cell 3\"\n");
    symlink("plant.toml", good.path("l/shankwise.toml")).unwrap();
    assert_eq!(json(&good.text_path("l")).1["library"]["name"], "cell 3");
}

#[test]
fn files_among_rules_that_are_passed_over_are_named() {
    let rule = "title = \"t\"\nlevel = \"note\"\nbasis = \"shop\"\nconsequence = \"tidiness\"\nexpect = \"stick_out > 1 mm\"\nmessage = \"m\"\nwhy = \"w\"\nadvice = \"a\"\n";
    let bench = with("", b"");
    for name in [
        "rules/reach/mine.toml",
        "rules/reach/mine.toml~",
        "rules/reach/second.toml.txt",
        "rules/reach/deep/third.toml",
        "rules/README.md",
    ] {
        bench.put(name, rule);
    }
    let (path, rules) = (bench.text_path("l"), bench.text_path("rules"));
    let output = run(&["lint", "--as", "json", "--rules", &rules, &path]);
    assert_eq!(status(&output), 0, "{}", complaint(&output));
    let object: Value = serde_json::from_str(&stdout(&output)).unwrap();
    assert_eq!(listed(&object, "unread"), ["deep", "second.toml.txt"]);
    assert_eq!(listed(&object, "passed_over"), ["README.md", "mine.toml~"]);
    assert_eq!(object["summary"]["verdict"], "incomplete");
    let text = stdout(&run(&["lint", "--rules", &rules, &path]));
    for name in ["README.md", "second.toml.txt", "Ignored:"] {
        assert!(text.contains(name), "{text}");
    }
    fifo(&bench, "rules/reach/pipe.toml");
    let output = run(&["lint", "--rules", &rules, &path]);
    assert_eq!(status(&output), 2);
    assert!(complaint(&output).contains("is a pipe"));
}

/// A table of parts is no library, whether its name says so or its columns.
#[test]
fn a_part_table_alone_is_refused() {
    let bench = Bench::new();
    let collets = "collet,collet_size,bore_diameter,bore_length\nC12,32,12,40\n";
    let cases = [
        ("collets.csv", collets, "collets"),
        ("Collets.CSV", collets, "collets"),
        ("mine.csv", collets, "collets"),
        (
            "cutters.csv",
            "cutter,description\nEM12,end mill\n",
            "cutters",
        ),
        (
            "any.csv",
            "cutter;DC;OAL;our remark\nEM12;12;83;x\n",
            "cutters",
        ),
        ("jobs.csv", JOBS, "operations"),
        (
            "s.csv",
            "cutter,overall_length,quantity,location\nEM12,83,2,B4\n",
            "stock",
        ),
        (
            "h.csv",
            "id,clamping_kind,gauge_length\nH1,taper collet,90\n",
            "holders",
        ),
    ];
    for (name, text, table) in cases {
        let path = bench.put(name, text);
        for output in [run(&["lint", &path]), run(&["lint", "--as", "json", &path])] {
            assert_eq!(status(&output), 2, "{name}");
            assert!(!stdout(&output).contains("\"summary\":{"), "{name}");
            let said = complaint(&output);
            let words = format!("is a table of {table}, not a library");
            assert!(said.contains(&words), "{name}: {said}");
        }
    }
    let output = run_with_input(&["lint", "-"], collets.as_bytes());
    assert_eq!(status(&output), 2);
    // Rows of tools, whatever the file is called, and tools without a number.
    for (name, text) in [
        ("stock.csv", TOOLS.to_owned()),
        (
            "tools.csv",
            TOOLS.replace("tool_number", "tool").replace("\n1,", "\n,"),
        ),
        ("few.csv", "tool_number,cutting_diameter\n1,12\n".to_owned()),
    ] {
        let output = run(&["lint", &bench.put(name, text)]);
        assert!(
            !stdout(&output).is_empty(),
            "{name}: {}",
            complaint(&output)
        );
    }
}

/// Notes are hidden while there are errors; what is not read is not.
#[test]
fn unknown_columns_are_shown_whatever_else_is_wrong() {
    let bench = Bench::new();
    let text = format!(
        "{HEADER},favourite colour,,next review\n{},blue,x,60\n",
        super::SHORT
    );
    let path = bench.put("tools.csv", text);
    for arguments in [&["lint", &path][..], &["lint", "--show", "error", &path]] {
        let text = stdout(&run(arguments));
        let lines: Vec<&str> = text
            .lines()
            .filter(|line| line.starts_with("Columns not read"))
            .collect();
        assert_eq!(lines.len(), 1, "{text}");
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            flat.contains("Columns not read: favourite colour, (no name), next review of "),
            "{flat}"
        );
    }
    // Where the notes are shown, once is enough.
    let text = stdout(&run(&["lint", "--show", "all", &path]));
    assert!(!text.contains("Columns not read"), "{text}");
    assert!(text.contains("favourite colour"));
    // A near miss is a warning.
    let near = format!("{HEADER},reach needed,REACH mm\n{},60,60\n", super::SHORT);
    let text = stdout(&run(&["lint", &bench.put("near.csv", near)]));
    let flat = text
        .split_whitespace()
        .filter(|word| *word != "│")
        .collect::<Vec<_>>()
        .join(" ");
    assert!(flat.contains("did you mean `reach`?"), "{flat}");
    assert!(flat.contains("did you mean `reach [mm]`?"), "{flat}");
}
