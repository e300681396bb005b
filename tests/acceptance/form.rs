//! Entries that are over, end soon, accept nothing or whatever comes are findings of form.

use super::{Cell, GRIP, TODAY, UNTIL, entry, lapsed, of_rule};

const WAS: &str = "not_worse_than = \"18.0 mm\"\npart_of_needed = 0.675\n";

/// The findings about entries: level, rule, line, column, and the message.
fn told(cell: &Cell, day: &str) -> Vec<(String, String)> {
    let judged = cell.judged_on(day);
    let all = judged["findings"].as_array().unwrap().iter();
    let own = all.filter(|finding| {
        let rule = finding["rule"].as_str().unwrap();
        rule.starts_with("record/accepted-")
    });
    own.map(|finding| {
        let place = &finding["places"][0];
        let rule = finding["rule"].as_str().unwrap();
        let rule = rule.trim_start_matches("record/accepted-");
        let level = finding["level"].as_str().unwrap();
        let (line, column) = (&place["line"], &place["column"]);
        assert!(place["file"].as_str().unwrap().ends_with("shankwise.toml"));
        let text = place["text"].as_str().unwrap();
        let message = finding["message"].as_str().unwrap();
        (
            format!("{level} {rule} {line}:{column} {text}"),
            message.to_owned(),
        )
    })
    .collect()
}

fn heads(cell: &Cell, day: &str) -> Vec<String> {
    told(cell, day).into_iter().map(|(head, _)| head).collect()
}

#[test]
fn a_day_that_has_passed() {
    let cell = Cell::accepting(&format!("{UNTIL}{WAS}"));
    assert_eq!(heads(&cell, "2026-12-31"), [""; 0]);
    for day in ["2027-01-01", "2027-01-31"] {
        assert_eq!(
            heads(&cell, day),
            ["note ends-soon 6:9 2027-01-31"],
            "{day}"
        );
        let grip = of_rule(&cell.judged_on(day), GRIP);
        assert!(grip[0]["accepted"].is_object(), "{day}");
    }
    let [(head, message)] = &told(&cell, "2027-02-01")[..] else {
        panic!("one finding");
    };
    assert_eq!(head, "warning expired 6:9 2027-01-31");
    assert_eq!(
        message,
        "tool 7, grip/short-grip: accepted by J. Example until 2027-01-31; that day has passed"
    );
    let grip = &of_rule(&cell.judged_on("2027-02-01"), GRIP)[0];
    assert_eq!(lapsed(grip), ["that day has passed"]);
    // Over and cured: it is said that it is over, and no more.
    cell.change("assemblies", ",65,", ",40,");
    assert_eq!(
        heads(&cell, "2027-02-01"),
        ["warning expired 6:9 2027-01-31"]
    );
}

#[test]
fn a_finding_that_is_cured() {
    let cell = Cell::accepting(&format!("{UNTIL}{WAS}"));
    cell.change("assemblies", ",65,", ",40,");
    assert_eq!(heads(&cell, TODAY), ["note unused 2:8 \"grip/short-grip\""]);
    // A rule that is off was not asked.
    let off = format!(
        "{}\n[rule.\"grip/short-grip\"]\nlevel = \"off\"\n",
        entry(GRIP, UNTIL)
    );
    cell.put("cell/shankwise.toml", &off);
    assert_eq!(heads(&cell, TODAY), [""; 0]);
}

/// What becomes of an entry does not hang on which rules a run asks for.
#[test]
fn a_run_that_asks_for_few_rules() {
    let cell = Cell::accepting(&format!("{UNTIL}{WAS}"));
    let only = |rule: &str| {
        let output = cell.run(&[
            "lint", "cell", "--as", "json", "--only", rule, "--as-of", TODAY,
        ]);
        serde_json::from_slice::<serde_json::Value>(&output.stdout).unwrap()
    };
    let judged = only("record");
    assert_eq!(of_rule(&judged, "record/accepted-unused").len(), 0);
    cell.change("assemblies", ",65,", ",40,");
    assert_eq!(of_rule(&only("record"), "record/accepted-unused").len(), 1);
    assert_eq!(only("grip")["findings"].as_array().unwrap().len(), 0);
}

#[test]
fn what_is_not_there() {
    let cases = [
        (
            "tool_number = \"7\"",
            "tool_number = \"71\"",
            "3:15 \"71\"",
            "there is no tool 71 in cell",
        ),
        (
            "by =",
            "machine = \"mil 2\"\nby =",
            "5:11 \"mil 2\"",
            "tool 7 is not on machine `mil 2`; did you mean `mill 2`?",
        ),
        (
            "by =",
            "operation = \"poket\"\nby =",
            "5:13 \"poket\"",
            "tool 7 has no operation `poket`; did you mean `pocket`?",
        ),
        (
            "by =",
            "library = \"../cel\"\nby =",
            "5:11 \"../cel\"",
            "there is no library `../cel`",
        ),
    ];
    for (from, to, place, what) in cases {
        let cell = Cell::accepting(&format!("{UNTIL}{WAS}"));
        let text = cell.read("cell/shankwise.toml").replacen(from, to, 1);
        cell.put("cell/shankwise.toml", &text);
        let [(head, message)] = &told(&cell, TODAY)[..] else {
            panic!("one finding of {to}: {:?}", told(&cell, TODAY));
        };
        assert_eq!(*head, format!("warning unmatched {place}"));
        assert_eq!(
            *message,
            format!("the entry of J. Example that accepts grip/short-grip fits nothing: {what}")
        );
        assert!(cell.finding(GRIP)["accepted"].is_null(), "{to}");
    }
}

/// What a plant's file accepts of a neighbour is the neighbour's matter.
#[test]
fn what_is_accepted_of_a_neighbour() {
    let cell = Cell::new();
    cell.put("other/assemblies.csv", "tool_number\n1\n");
    let of_other = entry(GRIP, "library = \"other\"\nuntil = 2027-01-31\n");
    cell.put("shankwise.toml", &of_other);
    assert_eq!(heads(&cell, TODAY), [""; 0]);
    cell.put("shankwise.toml", &of_other.replace("\"other\"", "\"othr\""));
    assert_eq!(heads(&cell, TODAY), ["warning unmatched 6:11 \"othr\""]);
}

#[test]
fn an_entry_that_accepts_whatever_comes() {
    let cell = Cell::accepting(UNTIL);
    let head = "warning whatever 2:8 \"grip/short-grip\"";
    assert_eq!(heads(&cell, TODAY), [head]);
    assert!(
        cell.finding(GRIP)["accepted"].is_object(),
        "it counts as before"
    );
    // Parts alone do not say how much of them is gripped.
    let cell = Cell::accepting(&format!("{UNTIL}cutter = \"em12\"\n"));
    assert_eq!(heads(&cell, TODAY), [head]);
    for one in [
        "not_worse_than = \"18 mm\"\n",
        "part_of_needed = \"67 %\"\n",
    ] {
        let cell = Cell::accepting(&format!("{UNTIL}{one}"));
        assert_eq!(heads(&cell, TODAY), [""; 0], "{one}");
    }
}

/// They have one fingerprint whatever else the file says, and none is another's.
#[test]
fn they_are_known_again() {
    let cell = Cell::new();
    let two = format!(
        "{}\n{}",
        entry(GRIP, UNTIL),
        entry("grip/tail-on-stop", UNTIL)
    );
    cell.put("cell/shankwise.toml", &two);
    let fingerprints = |cell: &Cell| {
        let judged = cell.judged();
        let all = judged["findings"].as_array().unwrap().iter();
        let own = all.filter(|one| one["rule"].as_str().unwrap().starts_with("record/accepted"));
        let own = own.map(|one| one["fingerprint"].as_str().unwrap().to_owned());
        own.collect::<std::collections::BTreeSet<String>>()
    };
    let before = fingerprints(&cell);
    assert_eq!(before.len(), 2);
    cell.put(
        "cell/shankwise.toml",
        &format!("# A comment.\nname = \"cell\"\n{two}"),
    );
    assert_eq!(fingerprints(&cell), before);
}

/// Who asks for one tool sees what is wrong with its entries.
#[test]
fn they_are_of_their_tool() {
    let cell = Cell::accepting(&UNTIL.replace("2027", "2026"));
    let output = cell.run(&["lint", "cell", "--tool", "7", "--as-of", TODAY]);
    let text = super::printed(&output);
    assert!(text.contains("record/accepted-expired"), "{text}");
}

/// They count: a run that fails on warnings fails on them, and the counts add up.
#[test]
fn they_count_as_faults_of_form() {
    let cell = Cell::accepting(&format!("until = 2026-01-31\n{WAS}"));
    cell.change("assemblies", ",65,", ",40,");
    cell.change("operations", ",70,2", ",30,2");
    let lint = |more: &[&str]| {
        let fixed = ["lint", "cell", "--as-of", TODAY, "--fail-on"];
        cell.run(&[&fixed[..], more].concat()).status.code()
    };
    assert_eq!(lint(&["error"]), Some(0));
    assert_eq!(lint(&["warning", "--only", "record"]), Some(1));
    let judged = cell.judged();
    let findings = judged["findings"].as_array().unwrap().len() as u64;
    let keys = ["error", "warning", "note", "not_judged", "accepted"];
    let counted = keys.map(|key| judged["summary"][key].as_u64().unwrap());
    assert_eq!(counted.iter().sum::<u64>(), findings, "{judged}");
}
