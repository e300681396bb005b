//! `shankwise accept`: what it takes, what it refuses, what comes of it.

use super::{Cell, GRIP, REACH, TODAY, WHO, lapsed, of_rule, printed, said};

fn folded(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Accepted as it is, it counts; pulled out further, it counts again.
#[test]
fn there_and_back() {
    let cell = Cell::new();
    let output = cell.accept(GRIP, &["--until", "2027-01-31"]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert_eq!(
        printed(&output),
        "accepted: tool 7 grip/short-grip at 18.0 mm, until 2027-01-31\nwritten to cell/shankwise.toml:1\n"
    );
    let written = cell.read("cell/shankwise.toml");
    assert_eq!(
        written,
        "[[accept]]\nrule = \"grip/short-grip\"\ntool_number = \"7\"\nmachine = \"mill 2\"\nreason = \"light finishing\"\nby = \"J. Example\"\nuntil = 2027-01-31\nnot_worse_than = \"18.0 mm\"\npart_of_needed = 0.675\nvalue_of = \"gripped_length\"\ncutter = \"em12\"\ncollet = \"c12\"\nnut = \"n32\"\nholder = \"h32\"\nnut_torque = \"80.0 N·m\"\n"
    );
    assert_eq!(cell.finding(GRIP)["accepted"]["at"], "18.0 mm of 26.7 mm");
    assert_eq!(
        cell.finding("record/accepted-whatever"),
        serde_json::Value::Null
    );
    cell.change("assemblies", ",65,", ",70,");
    assert!(cell.finding(GRIP)["accepted"].is_null());
    assert!(lapsed(&cell.finding(GRIP))[0].ends_with("mm now"));
}

/// Each finding of the cell can be accepted, and then none of its rule counts.
#[test]
fn every_finding_of_a_tool() {
    let cell = Cell::new();
    for _ in 0..40 {
        let judged = cell.judged();
        let all = judged["findings"].as_array().unwrap();
        let open = all
            .iter()
            .find(|one| one["accepted"].is_null() && !one["tool_number"].is_null());
        let Some(open) = open else {
            assert!(
                cell.read("cell/shankwise.toml")
                    .matches("[[accept]]")
                    .count()
                    >= 3
            );
            let summary = &judged["summary"];
            assert_eq!(
                (&summary["error"], &summary["not_judged"]),
                (&0.into(), &0.into())
            );
            return;
        };
        let fingerprint = open["fingerprint"].as_str().unwrap();
        let output = cell.run(&[
            "accept",
            "cell",
            fingerprint,
            "--as-of",
            TODAY,
            "--until",
            "2027-03-01",
            "--reason",
            "r",
            "--by",
            "b",
        ]);
        assert_eq!(output.status.code(), Some(0), "{open}: {}", said(&output));
    }
    panic!("it does not end");
}

/// An operation's values are written with it.
#[test]
fn a_finding_of_an_operation() {
    let cell = Cell::new().accepted(REACH);
    let written = cell.read("cell/shankwise.toml");
    assert!(written.contains("operation = \"pocket\"\n"), "{written}");
    let values = "operation_values = { operation_kind = \"milling\", reach = \"70.0 mm\", clearance = \"2.0 mm\" }\n";
    assert!(written.contains(values), "{written}");
    cell.change("operations", ",70,2", ",69,2");
    let why = lapsed(&cell.finding(REACH));
    assert_eq!(why, ["reach is 69.0 mm now, not 70.0 mm"]);
}

/// Rounded as it is written, a value must not condemn what it was written for.
#[test]
fn values_that_are_no_round_numbers() {
    for stick_out in ["65.333", "64.9999", "66.66666", "2 5/8 in"] {
        let cell = Cell::new();
        cell.change("assemblies", ",65,", &format!(",{stick_out},"));
        let cell = cell.accepted(GRIP);
        assert!(cell.finding(GRIP)["accepted"].is_object(), "{stick_out}");
        let cell = cell.accepted(REACH);
        assert!(cell.finding(REACH)["accepted"].is_object(), "{stick_out}");
    }
}

/// In a library of inches the entry is in inches.
#[test]
fn a_library_of_inches() {
    let cell = Cell::new();
    cell.put(
        "cell/shankwise.toml",
        "[units]\nlength = \"in\"\ntorque = \"lbf·ft\"\n",
    );
    for (table, from, to) in [
        ("assemblies", ",65,80", ",2.5,60"),
        (
            "cutters",
            "em12,end mill,12,83,12,45",
            "em12,end mill,0.5,3.25,0.5,1.75",
        ),
        ("collets", "c12,32,12,40", "c12,32,0.5,1.575"),
        ("operations", ",70,2", ",3,0.125"),
    ] {
        cell.change(table, from, to);
    }
    let cell = cell.accepted(GRIP).accepted(REACH);
    let written = cell.read("cell/shankwise.toml");
    assert!(
        written.contains(" in\"\n") && written.contains("reach = \"3.0 in\""),
        "{written}"
    );
    assert!(
        written.contains("nut_torque = \"60.0 lbf·ft\""),
        "{written}"
    );
    for rule in [GRIP, REACH] {
        assert!(cell.finding(rule)["accepted"].is_object(), "{rule}");
    }
}

/// The beginning of a fingerprint is enough where no other begins so.
#[test]
fn the_beginning_of_a_fingerprint() {
    let cell = Cell::new();
    let judged = cell.judged();
    let all = judged["findings"].as_array().unwrap();
    let all: Vec<&str> = all
        .iter()
        .map(|one| one["fingerprint"].as_str().unwrap())
        .collect();
    let own = cell.finding(GRIP)["fingerprint"]
        .as_str()
        .unwrap()
        .to_owned();
    let short = (1..=16).map(|most| &own[..most]);
    let short = short
        .into_iter()
        .find(|short| all.iter().filter(|one| one.starts_with(short)).count() == 1);
    let short = short.unwrap();
    let accept =
        |fingerprint: &str| cell.run(&[&["accept", "cell", fingerprint][..], &WHO].concat());
    for unknown in ["zzzz", "", " ", "0123456789abcdef0", "\u{1b}[31m"] {
        let output = accept(unknown);
        assert_eq!(output.status.code(), Some(2), "{unknown:?}");
        let told = folded(&said(&output));
        assert!(
            told.contains("no finding of a tool has the fingerprint"),
            "{told}"
        );
        assert!(told.contains(&format!("{own} (tool 7, {GRIP})")), "{told}");
        assert!(!told.contains('\u{1b}'), "{told}");
        assert!(!cell.path("cell/shankwise.toml").exists());
    }
    let output = accept(&short.to_uppercase());
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    // What is accepted is not accepted twice.
    let output = accept(&own);
    assert_eq!(output.status.code(), Some(2));
    let told = folded(&said(&output));
    assert!(
        told.contains("is already accepted by b until 2027-01-31"),
        "{told}"
    );
    assert_eq!(
        cell.read("cell/shankwise.toml")
            .matches("[[accept]]")
            .count(),
        1
    );
}

/// With many tools two fingerprints begin alike: both are named.
#[test]
fn a_beginning_that_two_have() {
    let cell = Cell::new();
    let rows = (10..60).map(|n| format!("{n},mill 2,em12,c12,n32,h32,65,80"));
    let rows = rows.collect::<Vec<_>>().join("\n");
    let head = super::ASSEMBLIES.lines().next().unwrap();
    cell.put("cell/assemblies.csv", &format!("{head}\n{rows}"));
    let judged = cell.judged();
    let grips = of_rule(&judged, GRIP);
    let mut firsts = grips
        .iter()
        .map(|one| one["fingerprint"].as_str().unwrap()[..1].to_owned());
    let first = firsts.next().unwrap();
    let output = cell.run(&[&["accept", "cell", &first][..], &WHO].concat());
    assert_eq!(output.status.code(), Some(2));
    let told = folded(&said(&output));
    assert!(
        told.contains(&format!(
            "findings have a fingerprint that begins with `{first}`"
        )),
        "{told}"
    );
    assert!(told.matches("(tool ").count() >= 2, "{told}");
}

#[test]
fn a_day_that_does_not_fit() {
    let cell = Cell::new();
    cell.put("shankwise.toml", "[acceptance]\nlongest = \"90 d\"\n");
    for (more, words) in [
        (&[][..], "has a last day"),
        (&["--until", "2026-11-24"], "has passed"),
        (
            &["--until", "2027-11-25"],
            "365 days off, and the plant permits 90",
        ),
        (&["--until", "2027-02-30"], "such as 2027-01-31"),
    ] {
        let output = cell.accept(GRIP, more);
        assert_eq!(output.status.code(), Some(2), "{more:?}");
        assert!(folded(&said(&output)).contains(words), "{}", said(&output));
        assert!(!cell.path("cell/shankwise.toml").exists(), "{more:?}");
    }
    // A rule of reach needs none, unless the plant asks.
    let output = cell.accept(REACH, &[]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    cell.put("shankwise.toml", "[acceptance]\nuntil_required = true\n");
    fs_remove(&cell);
    let output = cell.accept(REACH, &[]);
    assert_eq!(output.status.code(), Some(2));
    assert!(folded(&said(&output)).contains("whatever the plant accepts has a last day"));
}

fn fs_remove(cell: &Cell) {
    std::fs::remove_file(cell.path("cell/shankwise.toml")).unwrap();
}

/// What is wrong with a plant's or its own file, or with a table, is told, and nothing written.
#[test]
fn what_cannot_be_read_is_not_accepted() {
    let cell = Cell::new();
    let own = cell.finding(GRIP)["fingerprint"]
        .as_str()
        .unwrap()
        .to_owned();
    let accept = |library: &str| {
        let output = cell.run(&[&["accept", library, &own][..], &WHO].concat());
        assert_eq!(output.status.code(), Some(2), "{library}");
        said(&output)
    };
    assert!(accept("-").contains("standard input"));
    accept("no-such-cell");
    cell.put("cell/shankwise.toml", "nmae = \"cell\"\n");
    assert!(accept("cell").contains("did you mean `name`?"));
    assert_eq!(cell.read("cell/shankwise.toml"), "nmae = \"cell\"\n");
    fs_remove(&cell);
    std::fs::write(cell.path("cell/nuts.csv"), b"nut\n\0\n").unwrap();
    assert!(accept("cell").contains("nothing is accepted"));
    assert!(!cell.path("cell/shankwise.toml").exists());
}

/// A file has neighbours in its folder, so that its entries name it.
#[test]
fn a_library_of_one_file() {
    let cell = Cell::new();
    let head = "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length\n";
    for name in ["a.csv", "b.csv"] {
        cell.put(name, &format!("{head}7,65,83,45,12,12,32,12,40\n"));
    }
    let judged = |name: &str| -> serde_json::Value {
        let output = cell.run(&["lint", name, "--as", "json", "--as-of", TODAY]);
        serde_json::from_slice(&output.stdout).unwrap()
    };
    let own = of_rule(&judged("a.csv"), GRIP)[0]["fingerprint"]
        .as_str()
        .unwrap()
        .to_owned();
    let output = cell.run(&[&["accept", "a.csv", &own][..], &WHO].concat());
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(
        cell.read("shankwise.toml")
            .contains("library = \"a.csv\"\n")
    );
    assert!(of_rule(&judged("a.csv"), GRIP)[0]["accepted"].is_object());
    assert!(of_rule(&judged("b.csv"), GRIP)[0]["accepted"].is_null());
    assert_eq!(
        of_rule(&judged("b.csv"), "record/accepted-unmatched").len(),
        0
    );
}

#[test]
fn texts_that_say_nothing() {
    let cell = Cell::new();
    let own = cell.finding(GRIP)["fingerprint"]
        .as_str()
        .unwrap()
        .to_owned();
    for (reason, by) in [("", "b"), ("r", " "), ("r\nr", "b"), ("r", "\u{1b}[31m")] {
        let who = ["--reason", reason, "--by", by, "--until", "2027-01-31"];
        let output = cell.run(&[&["accept", "cell", &own][..], &who].concat());
        assert_eq!(output.status.code(), Some(2), "{reason:?} {by:?}");
        assert!(said(&output).contains("needs a text of one line"));
        assert!(!cell.path("cell/shankwise.toml").exists());
    }
}
