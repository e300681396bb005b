//! Shop files beside the library and above it: which are found, who overrules whom, what the
//! plant's may not do, and how they are told.

use std::fs;
use std::path::Path;
use std::process::{Output, Stdio};

use serde_json::{Value, json};

use super::{Bench, complaint, program, status, stdout, table};

/// 27 to 30 of 40 mm, wherever the collet stands behind its nut's face: more than two thirds, less
/// than four fifths, more than a half.
const TOOL: &str = "7,54,83,45,12,12,32,12,40,80";
const STRICT: &str = "[limit]\nmin_grip_fraction = \"4/5\"\n";
const AS_BUILT_IN: &str = "[limit]\nmin_grip_fraction = \"2/3\"\n";
const LOOSE: &str = "[limit]\nmin_grip_fraction = \"1/2\"\n";
const FILE: &str = "shankwise.toml";

/// A library in `plant/cell/line`, below a repository's root in `plant` unless there is none.
fn plant(root: Option<&str>, files: &[(&str, &str)]) -> Bench {
    let bench = Bench::new();
    bench.library("plant/cell/line/tools.csv", &[TOOL]);
    if let Some(root) = root {
        fs::create_dir_all(bench.path(root)).unwrap();
    }
    for (folder, text) in files {
        bench.put(&format!("{folder}/{FILE}"), text);
    }
    bench
}

/// Runs it in a folder of the bench.
fn run_in(bench: &Bench, folder: &str, arguments: &[&str], variables: &[(&str, &str)]) -> Output {
    let mut command = program(arguments);
    command.current_dir(bench.path(folder));
    command.envs(variables.iter().copied());
    command.output().expect("the program starts")
}

/// The exit status and the JSON of the library, asked for from its own folder.
fn judged(bench: &Bench, more: &[&str], variables: &[(&str, &str)]) -> (i32, Value) {
    let only = ["--as", "json", "--only", "grip/short-grip"];
    let arguments = [&["lint", "tools.csv"], &only[..], more].concat();
    let output = run_in(bench, "plant/cell/line", &arguments, variables);
    let text = stdout(&output);
    let object = serde_json::from_str(&text);
    (
        status(&output),
        object.unwrap_or_else(|_| panic!("{text}{}", complaint(&output))),
    )
}

/// The shop files that were used, each with whose it is.
fn used(object: &Value) -> Vec<(&str, &str)> {
    let all = object["library"]["shop_files"].as_array().unwrap().iter();
    all.map(|one| (one["file"].as_str().unwrap(), one["of"].as_str().unwrap()))
        .collect()
}

#[test]
fn it_is_found_upwards_as_far_as_the_repositorys_root() {
    let bench = plant(Some("plant/.git"), &[("plant", STRICT)]);
    let (exit, object) = judged(&bench, &[], &[]);
    assert_eq!(exit, 1, "{object}");
    let file = format!("../../{FILE}");
    assert_eq!(used(&object), [(file.as_str(), "plant")]);
    assert_eq!(object["library"]["config"], file.as_str());
    // From elsewhere it has another name, and counts as much.
    for (folder, library, file) in [
        (".", "plant/cell/line/tools.csv", "plant/shankwise.toml"),
        ("plant", "cell/line/tools.csv", "shankwise.toml"),
        (
            "plant/cell/line",
            "../line/tools.csv",
            "../../shankwise.toml",
        ),
    ] {
        let arguments = ["lint", "--as", "json", library];
        let output = run_in(&bench, folder, &arguments, &[]);
        let object: Value = serde_json::from_str(&stdout(&output)).unwrap();
        assert_eq!(status(&output), 1, "{folder}");
        assert_eq!(used(&object), [(file, "plant")]);
    }
    let absolute = bench.text_path("plant/cell/line/tools.csv");
    let output = run_in(&bench, ".", &["lint", "--as", "json", &absolute], &[]);
    let object: Value = serde_json::from_str(&stdout(&output)).unwrap();
    let [(file, "plant")] = used(&object)[..] else {
        panic!("{object}")
    };
    assert!(Path::new(file).is_absolute() && file.ends_with("plant/shankwise.toml"));
}

#[test]
fn it_is_not_looked_for_above_the_root() {
    for mark in [".git", ".hg", ".jj", ".bzr", ".svn"] {
        let root = format!("plant/cell/{mark}");
        let bench = plant(Some(&root), &[("plant", STRICT)]);
        let (exit, object) = judged(&bench, &[], &[]);
        assert_eq!((exit, used(&object)), (0, Vec::new()), "{mark}");
    }
    // The root of a working tree that is kept elsewhere is marked by a file.
    let bench = plant(None, &[("plant", STRICT)]);
    bench.put("plant/cell/.git", "gitdir: elsewhere\n");
    assert_eq!(judged(&bench, &[], &[]).0, 0);
    // The library may be the root itself.
    let bench = plant(Some("plant/cell/line/.git"), &[("plant/cell", STRICT)]);
    assert_eq!(judged(&bench, &[], &[]).0, 0);
}

#[test]
fn without_a_repository_only_the_folder_above_is_looked_at() {
    let bench = plant(None, &[("plant", STRICT)]);
    assert_eq!(judged(&bench, &[], &[]).0, 0);
    let bench = plant(None, &[("plant/cell", STRICT)]);
    let (exit, object) = judged(&bench, &[], &[]);
    assert_eq!(
        (exit, used(&object)),
        (1, vec![("../shankwise.toml", "plant")])
    );
}

/// For a folder of tables and for an XML document as for a flat file.
#[test]
fn every_form_of_library_has_them() {
    let bench = plant(None, &[("plant/cell", STRICT)]);
    bench.put("plant/cell/tables/assemblies.csv", table(&[TOOL]));
    let document = "<shankwise xmlns=\"urn:shankwise:library:1\" units=\"mm\"><cutters><cutter id=\"A\"><overall-length>83</overall-length><shank-length>45</shank-length><shank-diameter>12</shank-diameter></cutter></cutters><collets><collet id=\"C\"><collet-size>32</collet-size><bore-diameter>12</bore-diameter><bore-length>40</bore-length></collet></collets><assemblies><assembly id=\"7\" tool-number=\"7\" cutter=\"A\" collet=\"C\"><stick-out>54</stick-out></assembly></assemblies></shankwise>";
    bench.put("plant/cell/papers/tools.xml", document);
    for library in ["cell/tables", "cell/papers/tools.xml"] {
        let only = ["lint", "--as", "json", "--only", "grip/short-grip", library];
        let output = run_in(&bench, "plant", &only, &[]);
        assert_eq!(status(&output), 1, "{library}: {}", stdout(&output));
        let object: Value = serde_json::from_str(&stdout(&output)).unwrap();
        assert_eq!(used(&object), [("cell/shankwise.toml", "plant")]);
    }
}

#[test]
fn the_nearest_wins_key_by_key() {
    let root = Some("plant/.git");
    let cases = [
        ([STRICT, LOOSE, AS_BUILT_IN], 0),
        ([LOOSE, AS_BUILT_IN, STRICT], 1),
        ([AS_BUILT_IN, STRICT, ""], 1),
        ([STRICT, AS_BUILT_IN, ""], 0),
    ];
    for (texts, expected) in cases {
        let folders = ["plant", "plant/cell", "plant/cell/line"];
        let files: Vec<(&str, &str)> = folders.into_iter().zip(texts).collect();
        let (exit, object) = judged(&plant(root, &files), &[], &[]);
        assert_eq!(exit, expected, "{texts:?}: {object}");
    }
    // What the nearer file does not say, the one above says; of one header the nearer has it.
    let far = "name = \"plant\"\n[units]\nlength = \"in\"\n[columns]\n\"sticks out\" = \"overall_length\"\n";
    let near = "name = \"line\"\n[columns]\n\"sticks out\" = \"stick_out\"\n";
    let bench = plant(root, &[("plant", far), ("plant/cell/line", near)]);
    let inches = "tool_number,sticks out,overall_length\n7,2,4\n";
    bench.put("plant/cell/line/tools.csv", inches);
    let (_, object) = judged(&bench, &["--with-facts"], &[]);
    assert_eq!(object["library"]["units"], "in");
    assert_eq!(object["library"]["name"], "line");
    let facts = &object["assemblies"][0]["facts"];
    assert_eq!(facts["insertion"]["value"], json!(50.8), "{facts}");
    // A bare number in a file below one that counts in inches may be either.
    let bare = plant(
        root,
        &[
            ("plant", far),
            ("plant/cell/line", "[default]\nclearance = 1\n"),
        ],
    );
    let output = run_in(&bare, "plant/cell/line", &["lint", "tools.csv"], &[]);
    assert_eq!(status(&output), 2);
    assert!(complaint(&output).contains("this shop counts in inches"));
}

/// Text, plain and the quick question name them, with what they relax.
#[test]
fn every_output_names_them_and_what_they_relax() {
    let root = Some("plant/.git");
    let own = "[rule.\"torque/not-stated\"]\nlevel = \"off\"\nreason = \"set by hand\"\n";
    let bench = plant(root, &[("plant", LOOSE), ("plant/cell/line", own)]);
    let question = ["window", "--overall-length", "83", "--reach", "35"];
    for arguments in [
        &["lint", "tools.csv"][..],
        &["lint", "tools.csv", "--full"],
        &["lint", "tools.csv", "--as", "plain"],
        &["lint", "tools.csv", "--tool", "7"],
        &["facts", "tools.csv"],
        &question,
        &[&question[..], &["--as", "plain"]].concat(),
    ] {
        let output = run_in(&bench, "plant/cell/line", arguments, &[]);
        let text = stdout(&output)
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        for words in [
            "Shop files: ../../shankwise.toml, shankwise.toml; of what several say, the last counts",
            "elaxed by the plant's ../../shankwise.toml: limit min_grip_fraction: 1/2 instead of 2/3",
            "elaxed by the library's own shankwise.toml: rule torque/not-stated: off instead of note (set by hand)",
        ] {
            assert!(text.contains(words), "{arguments:?}: no {words} in {text}");
        }
    }
    let (_, object) = judged(&bench, &[], &[]);
    let weakened = [
        "limit min_grip_fraction: 1/2 instead of 2/3, by ../../shankwise.toml",
        "rule torque/not-stated: off instead of note (set by hand)",
    ];
    assert_eq!(object["library"]["weakened"], json!(weakened));
    let one = plant(root, &[("plant/cell/line", STRICT)]);
    let text = stdout(&run_in(
        &one,
        "plant/cell/line",
        &["lint", "tools.csv"],
        &[],
    ));
    assert!(text.contains("\nShop file: shankwise.toml\n"), "{text}");
}

const RULE: &str = "title = \"t\"\nlevel = \"error\"\nbasis = \"shop\"\nconsequence = \"scrap\"\nexpect = \"stick_out < 1 mm\"\nmessage = \"m\"\nwhy = \"w\"\nadvice = \"a\"\n";

#[test]
fn rules_of_the_plant_stay_in_its_folder() {
    let bench = plant(Some("plant/.git"), &[("plant", "rules = [\"own\"]\n")]);
    bench.put("plant/own/reach/mine.toml", RULE);
    bench.put("beside/reach/mine.toml", RULE);
    let lint = ["lint", "--only", "reach/mine", "tools.csv"];
    let output = run_in(&bench, "plant/cell/line", &lint, &[]);
    assert_eq!(status(&output), 1, "{}", complaint(&output));
    // A report is not written into what the next run would read.
    let out = [&lint[..], &["--out", "../../own/reach/report.toml"]].concat();
    assert_eq!(status(&run_in(&bench, "plant/cell/line", &out, &[])), 2);
    for place in ["plant/shankwise.toml", "plant/cell/shankwise.toml"] {
        let out = bench.text_path(place);
        let over = ["lint", "tools.csv", "--out", &out];
        let output = run_in(&bench, "plant/cell/line", &over, &[]);
        assert_eq!(status(&output), 2, "{place}");
        assert!(complaint(&output).contains("give --out another name"));
    }
    for (name, is_named) in [("plant/shankwise.toml", false), ("other/plant.toml", true)] {
        let bench = plant(Some("plant/.git"), &[]);
        bench.put("beside/reach/mine.toml", RULE);
        let file = bench.put(name, "rules = [\"../beside\"]\n");
        let named = ["--config", &file];
        let more = if is_named { &named[..] } else { &[] };
        let arguments = [&["lint", "tools.csv"], more].concat();
        let output = run_in(&bench, "plant/cell/line", &arguments, &[]);
        assert_eq!((status(&output), stdout(&output)), (2, String::new()));
        let said = complaint(&output);
        assert!(
            said.contains("only folders inside its own folder"),
            "{said}"
        );
        assert!(said.contains(":1:10"), "{said}");
    }
}

/// An accepted finding on tool 7, of a library if one is named.
fn accept(library: &str) -> String {
    let library = match library {
        "" => String::new(),
        named => format!("library = \"{named}\"\n"),
    };
    format!(
        "{STRICT}[[accept]]\nrule = \"grip/short-grip\"\ntool_number = \"7\"\nreason = \"r\"\nby = \"b\"\nuntil = 2099-01-01\n{library}"
    )
}

#[test]
fn what_the_plant_accepts_counts_for_the_library_that_it_names() {
    let root = Some("plant/.git");
    for (folder, library, exit) in [
        ("plant", "cell/line/tools.csv", 0),
        ("plant", "./cell/../cell/line/tools.csv", 0),
        ("plant", "cell/line/others.csv", 1),
        ("plant", "cell/line", 1),
        ("plant", "line/tools.csv", 1),
        ("plant/cell", "line/tools.csv", 0),
        ("plant/cell/line", "tools.csv", 0),
        ("plant/cell/line", "others.csv", 1),
        ("plant/cell/line", "", 0),
    ] {
        let bench = plant(root, &[(folder, &accept(library))]);
        bench.library("plant/cell/line/others.csv", &[TOOL]);
        let (found, object) = judged(&bench, &[], &[]);
        assert_eq!(found, exit, "{folder} {library}: {object}");
    }
    // A folder of tables is named by its folder.
    let bench = plant(root, &[("plant", &accept("cell/tables"))]);
    bench.put("plant/cell/tables/assemblies.csv", table(&[TOOL]));
    let only = ["lint", "--only", "grip/short-grip", "cell/tables"];
    assert_eq!(status(&run_in(&bench, "plant", &only, &[])), 0);
}

#[test]
fn what_the_plant_accepts_without_a_library_is_refused() {
    let root = Some("plant/.git");
    let absolute = "/cell/tools.csv";
    for (library, words, line) in [
        ("", "counts for one library", 4),
        (absolute, "as seen from the folder of this file", 9),
        (" ", "as seen from the folder of this file", 9),
    ] {
        let bench = plant(root, &[("plant", &accept(library))]);
        let config = bench.put("other/plant.toml", accept(library));
        let elsewhere = plant(root, &[]);
        for (bench, more) in [(&bench, &[][..]), (&elsewhere, &["--config", &config])] {
            let arguments = [&["lint", "tools.csv"], more].concat();
            let output = run_in(bench, "plant/cell/line", &arguments, &[]);
            assert_eq!((status(&output), stdout(&output)), (2, String::new()));
            let said = complaint(&output);
            assert!(said.contains(words), "{said}");
            let file = if more.is_empty() {
                "shankwise"
            } else {
                "plant"
            };
            let place = format!("{file}.toml:{line}:");
            assert!(said.contains(&place), "{said}");
        }
    }
}

/// The file that `--config` names is a plant's, and counts less than any that is found.
#[test]
fn a_named_file_is_the_plants() {
    let root = Some("plant/.git");
    let bench = plant(root, &[]);
    let loose = bench.put("other/loose.toml", LOOSE);
    let strict = bench.put("other/strict.toml", STRICT);
    let (exit, object) = judged(&bench, &["--config", &strict], &[]);
    assert_eq!((exit, used(&object)), (1, vec![(strict.as_str(), "plant")]));
    let (_, object) = judged(&bench, &["--config", &loose], &[]);
    let told = format!("limit min_grip_fraction: 1/2 instead of 2/3, by {loose}");
    assert_eq!(object["library"]["weakened"], json!([told]));
    let found = plant(root, &[("plant", AS_BUILT_IN)]);
    let (exit, object) = judged(&found, &["--config", &strict], &[]);
    assert_eq!(exit, 0, "{object}");
    let all = [
        (strict.as_str(), "plant"),
        ("../../shankwise.toml", "plant"),
    ];
    assert_eq!(used(&object), all);
    // One file is one file, by whatever name.
    let same = found.text_path("plant/cell/../shankwise.toml");
    let (_, object) = judged(&found, &["--config", &same], &[]);
    assert_eq!(used(&object), [("../../shankwise.toml", "plant")]);
    let question = ["window", "--overall-length", "83", "--config", &strict];
    let text = stdout(&run_in(&bench, ".", &question, &[]));
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(&format!("Shop file: {strict}")), "{flat}");
}

#[test]
fn the_environment_names_one_where_the_command_line_does_not() {
    let root = Some("plant/.git");
    let bench = plant(root, &[]);
    let strict = bench.put("other/strict.toml", STRICT);
    let loose = bench.put("other/loose.toml", LOOSE);
    let set = [("SHANKWISE_CONFIG", strict.as_str())];
    let (exit, object) = judged(&bench, &[], &set);
    assert_eq!((exit, used(&object)), (1, vec![(strict.as_str(), "plant")]));
    let (exit, object) = judged(&bench, &["--config", &loose], &set);
    assert_eq!((exit, used(&object)), (0, vec![(loose.as_str(), "plant")]));
    assert_eq!(judged(&bench, &["--no-config"], &set).0, 0);
    assert_eq!(judged(&bench, &[], &[("SHANKWISE_CONFIG", "")]).0, 0);
    let absent = [("SHANKWISE_CONFIG", "/none/there.toml")];
    for arguments in [
        &["lint", "tools.csv"][..],
        &["facts", "tools.csv"],
        &["window", "--overall-length", "83"],
        &["rules"],
    ] {
        let output = run_in(&bench, "plant/cell/line", arguments, &absent);
        assert_eq!((status(&output), stdout(&output)), (2, String::new()));
        let said = complaint(&output);
        assert!(said.contains("/none/there.toml"), "{said}");
        assert!(
            said.contains("hint: SHANKWISE_CONFIG names this file"),
            "{said}"
        );
    }
    let page = stdout(&run_in(&bench, ".", &["rules"], &set));
    assert!(page.contains("min_grip_fraction = 4/5"), "{page}");
    let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.ends_with(&format!("Shop file: {strict}")), "{flat}");
}

#[test]
fn no_config_uses_none() {
    let root = Some("plant/.git");
    let files = [("plant", STRICT), ("plant/cell/line", "nmae = 1\n")];
    let bench = plant(root, &files);
    let (exit, object) = judged(&bench, &["--no-config"], &[]);
    assert_eq!((exit, used(&object)), (0, Vec::new()));
    assert_eq!(object["library"]["config"], Value::Null);
    for arguments in [
        &["facts", "tools.csv"][..],
        &["window", "--overall-length", "83"],
        &["rules"],
    ] {
        let more = [arguments, &["--no-config"]].concat();
        let output = run_in(&bench, "plant/cell/line", &more, &[]);
        assert_eq!(status(&output), 0, "{more:?}: {}", complaint(&output));
        let bad = run_in(&bench, "plant/cell/line", arguments, &[]);
        assert_eq!(status(&bad), 2, "{arguments:?}");
    }
    let both = ["lint", "tools.csv", "--no-config", "--config", "x.toml"];
    assert_eq!(status(&run_in(&bench, "plant/cell/line", &both, &[])), 2);
}

/// What comes through a pipe lies in no folder: the working folder's file is its own.
#[test]
fn standard_input_has_the_working_folders() {
    let own = "name = \"of the pipe\"\n";
    let bench = plant(
        Some("plant/.git"),
        &[("plant", STRICT), ("plant/cell", own)],
    );
    let read = |folder: &str| {
        let mut command = program(&["lint", "--as", "json", "--only", "grip/short-grip", "-"]);
        let library = fs::File::open(bench.path("plant/cell/line/tools.csv")).unwrap();
        command.current_dir(bench.path(folder));
        let output = command.stdin(Stdio::from(library)).output().unwrap();
        let object: Value = serde_json::from_str(&stdout(&output)).unwrap();
        (status(&output), object)
    };
    let (exit, object) = read("plant/cell");
    let both = [
        ("../shankwise.toml", "plant"),
        ("shankwise.toml", "library"),
    ];
    assert_eq!((exit, used(&object)), (1, both.to_vec()));
    assert_eq!(object["library"]["name"], "of the pipe");
    let (exit, object) = read(".");
    assert_eq!((exit, used(&object)), (0, Vec::new()));
    let (_, object) = read("plant/cell/line");
    let names: Vec<&str> = used(&object).into_iter().map(|(file, _)| file).collect();
    assert_eq!(names, ["../../shankwise.toml", "../shankwise.toml"]);
}

/// A slip in a name above the library would lose its limits as well.
#[test]
fn what_is_nearly_a_shop_file_is_named_wherever_it_lies() {
    let bench = plant(Some("plant/.git"), &[]);
    bench.put("plant/Shankwise.toml", STRICT);
    let (_, object) = judged(&bench, &[], &[]);
    assert_eq!(object["summary"]["verdict"], "incomplete");
    assert_eq!(
        object["library"]["unread"][0]["file"],
        "../../Shankwise.toml"
    );
    assert_eq!(
        judged(&bench, &["--no-config"], &[]).1["library"]["unread"],
        json!([])
    );
    let bench = plant(Some("plant/.git"), &[]);
    fs::create_dir(bench.path("plant/cell/shankwise.toml")).unwrap();
    let output = run_in(&bench, "plant/cell/line", &["lint", "tools.csv"], &[]);
    assert_eq!((status(&output), stdout(&output)), (2, String::new()));
    let said = complaint(&output);
    assert!(
        said.contains("../shankwise.toml") && said.contains("is a folder"),
        "{said}"
    );
}
