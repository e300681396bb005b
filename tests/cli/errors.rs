//! One style of error, whoever finds it: `error:` and what is wrong, then the hint; exit status 2.

use std::process::Output;

use super::{Bench, GOOD, program, run, status, stdout};

/// An error as it is told: what is wrong and the hint, each in one line.
fn told(output: &Output) -> (String, Option<String>) {
    let text = String::from_utf8(output.stderr.clone()).expect("UTF-8");
    let mut parts = vec![String::new()];
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{line}");
        if line.starts_with("  hint: ") {
            parts.push(String::new());
        } else {
            let is_first = line.starts_with("error: ") && parts == [""];
            assert!(is_first || line.starts_with("  "), "{text}");
        }
        let last = parts.last_mut().unwrap();
        *last += if last.is_empty() { "" } else { " " };
        *last += line.trim();
    }
    for foreign in ["×", "tip:", "Usage", "For more information", "'"] {
        assert!(!text.contains(foreign), "{foreign} in {text}");
    }
    let mut parts = parts.into_iter();
    (parts.next().unwrap(), parts.next())
}

/// Arguments, in which `GOOD`, `EMPTY` and `SHOP` stand for files; what is wrong; what to do.
type Case = (&'static [&'static str], &'static str, &'static str);

const BY_THE_PARSER: &[Case] = &[
    (
        &["lint", "--strikt", "GOOD"],
        "there is no option `--strikt`",
        "did you mean `--strict`?",
    ),
    (
        &["rules", "--quite-something-else"],
        "there is no option `--quite-something-else`",
        "`shankwise rules --help` says more",
    ),
    (
        &["lnt", "GOOD"],
        "there is no command `lnt`",
        "did you mean `lint`?",
    ),
    (
        &["polish"],
        "there is no command `polish`",
        "`shankwise --help` lists the commands",
    ),
    (
        &["lint", "--as", "jsn", "GOOD"],
        "--as `jsn` cannot be read",
        "did you mean `json`?",
    ),
    (
        &["facts", "--color", "sometimes", "GOOD"],
        "--color `sometimes` cannot be read",
        "expected one of: auto, always, never",
    ),
    (
        &["lint", "GOOD", "--as"],
        "--as has no value",
        "expected one of: text, plain, brief, json, sarif",
    ),
    (
        &["lint", "--min-coverage", "most", "GOOD"],
        "--min-coverage `most` cannot be read",
        "expected a share of the tools, such as 90%, 0.9 or 9/10",
    ),
    (
        &["lint", "--min-coverage", "90", "GOOD"],
        "--min-coverage `90` cannot be read: 90 is more than all of them",
        "for 90 % write 90%",
    ),
    (
        &["lint", "--as-of", "soon", "GOOD"],
        "--as-of `soon` cannot be read",
        "expected a day of the calendar, such as 2027-01-31",
    ),
    (
        &["lint", "--strict", "--strict", "GOOD"],
        "--strict is stated twice",
        "state it once",
    ),
    (
        &["facts", "--list", "GOOD"],
        "--list and PATH exclude each other",
        "leave one of them out",
    ),
    (
        &["facts"],
        "PATH is missing",
        "`shankwise facts --help` says more",
    ),
    (
        &["man", "page"],
        "`page` belongs to no option",
        "`shankwise man --help` says more",
    ),
    (
        &["completions", "tcl"],
        "SHELL `tcl` cannot be read",
        "expected one of: bash, elvish, fish, powershell, zsh",
    ),
    (
        &["window", "--bore-lenght", "40"],
        "there is no option `--bore-lenght`",
        "did you mean `--bore-length`?",
    ),
    (
        &["window", "--overall-length"],
        "--overall-length has no value",
        "expected a length such as 40, 40mm or \u{2019}1 1/2 in\u{2019}",
    ),
];

const BY_US: &[Case] = &[
    (
        &["rules", "grip/short-gripp"],
        "there is no rule or topic `grip/short-gripp`",
        "did you mean `grip/short-grip`?",
    ),
    (
        &["lint", "--only", "nothing-like-it", "GOOD"],
        "there is no rule or topic `nothing-like-it`",
        "`shankwise rules` lists them",
    ),
    (
        &["columns", "cuter"],
        "there is no record `cuter`",
        "did you mean `cutter`?",
    ),
    (
        &["lint", "--tool", "T1", "GOOD"],
        "no assembly has the tool number `T1`",
        "did you mean `1`?",
    ),
    (
        &["facts", "EMPTY"],
        "empty.csv: is empty",
        "expected a header line",
    ),
    (
        &["lint", "--config", "SHOP", "GOOD"],
        "plant.toml:1:2: unknown key `limits`",
        "did you mean `limit`?",
    ),
    (
        &["lint", "GOOD", "--out", "GOOD"],
        "what is read is never changed",
        "give --out another name",
    ),
    (
        &["window", "--reach", "35"],
        "the tool\u{2019}s overall length is not stated, so no stick-out can be given",
        "add --overall-length, such as --overall-length 83",
    ),
    (
        &["window", "--OAL", "83 mn"],
        "--OAL `83 mn` cannot be read: the unit `mn` is not known",
        "did you mean `in`?",
    ),
];

#[test]
fn the_parser_and_we_speak_alike() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    let empty = bench.put("empty.csv", "");
    let shop = bench.put("plant.toml", "[limits]\n");
    for (arguments, what, hint) in [BY_THE_PARSER, BY_US].concat() {
        let named = |name: &&str| match *name {
            "GOOD" => good.clone(),
            "EMPTY" => empty.clone(),
            "SHOP" => shop.clone(),
            name => name.to_owned(),
        };
        let arguments: Vec<String> = arguments.iter().map(named).collect();
        let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
        let output = run(&[&arguments, &["--color", "never"][..]].concat());
        assert_eq!(status(&output), 2, "{arguments:?}");
        let quoted = quotes(output);
        let (said, to_do) = told(&quoted);
        assert!(said.contains(what), "no {what:?} in {said:?}");
        let to_do = to_do.unwrap_or_else(|| panic!("no hint in {said}"));
        assert!(to_do.starts_with(&format!("hint: {hint}")), "{to_do}");
    }
}

/// Apostrophes in our own words are no quotes of another program's.
fn quotes(mut output: Output) -> Output {
    let text = String::from_utf8(output.stderr).unwrap();
    let ours = ["tool's", "'1 1/2 in'"];
    let text = ours.iter().fold(text, |text, own| {
        text.replace(own, &own.replace('\'', "\u{2019}"))
    });
    output.stderr = text.into_bytes();
    output
}

/// The line that is wrong is shown and marked, but to who listens.
#[test]
fn a_line_of_a_file_is_marked() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    let shop = bench.put("plant.toml", "name = \"x\"\n[limits]\n");
    for (form, mark) in [("text", true), ("plain", false)] {
        let output = run(&["lint", "--as", form, "--config", &shop, &good]);
        let text = String::from_utf8(output.stderr).unwrap();
        assert!(text.contains("\n    [limits]\n"), "{text}");
        assert_eq!(text.contains("\n     ^^^^^^\n"), mark, "{text}");
    }
}

/// Colour repeats what the words say, and no error of the parser escapes it.
#[test]
fn errors_have_colour_where_it_is_wanted() {
    for arguments in [&["rules", "grp"][..], &["rules", "--grp"]] {
        let errors = |force: &str| {
            let output = program(arguments).env(force, "1").output().unwrap();
            String::from_utf8(output.stderr).unwrap()
        };
        let (coloured, bare) = (errors("FORCE_COLOR"), errors("NO_COLOR"));
        assert!(
            coloured.starts_with("\u{1b}[1;31merror\u{1b}[0m: "),
            "{coloured}"
        );
        let stripped = coloured.split('\u{1b}').map(|part| {
            let code = part.strip_prefix('[').and_then(|part| part.split_once('m'));
            code.map_or(part, |(_, rest)| rest)
        });
        assert_eq!(stripped.collect::<String>(), bare);
    }
}

/// What is only left out is a warning: the run goes on.
#[test]
fn what_is_left_out_is_a_warning() {
    let bench = Bench::new();
    bench.put("Shankwise.toml", "name = \"x\"\n");
    let mut command = program(&["rules"]);
    let output = command.current_dir(bench.path("")).output().unwrap();
    assert_eq!(status(&output), 0);
    assert!(!stdout(&output).is_empty());
    let text = String::from_utf8(output.stderr).unwrap();
    assert_eq!(
        text,
        "warning: Shankwise.toml is not the shop's file\n  hint: did you mean `shankwise.toml`?\n"
    );
}
