//! Options, rule packs and shop files that keep the program from running, and the commands that
//! judge nothing.

use super::{Bench, GAP, GOOD, SHORT, complaint, run, run_with_input, status, stdout};

#[test]
fn bad_options() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    for arguments in [
        &["lint"][..],
        &["lint", "--strikt", &good],
        &["lint", "--as", "html", &good],
        &["lint", "--fail-on", "never", &good],
        &["lint", "--show", "everything", &good],
        &["lint", "--color", "sometimes", &good],
        &["polish", &good],
        &["facts"],
        &["facts", "--list", &good],
        &[],
    ] {
        let output = run(arguments);
        assert_eq!(status(&output), 2, "{arguments:?}");
        assert_eq!(stdout(&output), "", "{arguments:?}");
        assert!(!complaint(&output).is_empty(), "{arguments:?}");
    }
    for arguments in [&["--help"][..], &["--version"], &["lint", "--help"]] {
        let output = run(arguments);
        assert_eq!(status(&output), 0, "{arguments:?}");
        assert!(!stdout(&output).is_empty(), "{arguments:?}");
    }
}

/// A rule pack or shop file that cannot be used: 2, with the line that is wrong.
#[test]
fn broken_rules_and_shop_files() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    let rule = "title = \"t\"\nlevel = \"error\"\nbasis = \"shop\"\nconsequence = \"scrap\"\nexpect = \"stick_ot > 1 mm\"\nmessage = \"m\"\nwhy = \"w\"\nadvice = \"a\"\n";
    bench.put("rules/reach/mine.toml", rule);
    let rules = bench.text_path("rules");
    let config = bench.put("plant.toml", "[limits]\n");
    bench.put("cell/shankwise.toml", "nmae = \"x\"\n");
    let cell = bench.library("cell/tools.csv", &[GOOD]);
    let absent = bench.text_path("absent.toml");
    let cases = [
        (
            &["lint", "--rules", &rules, &good][..],
            "did you mean `stick_out`?",
            "mine.toml:5:11",
        ),
        (
            &["lint", "--config", &config, &good],
            "did you mean `limit`?",
            "plant.toml:1:2",
        ),
        (
            &["lint", &cell],
            "did you mean `name`?",
            "shankwise.toml:1:1",
        ),
        (
            &["lint", "--config", &absent, &good],
            "cannot be read",
            "absent.toml",
        ),
        (
            &["lint", "--rules", &absent, &good],
            "cannot be read",
            "absent.toml",
        ),
        (
            &["facts", "--config", &config, &good],
            "did you mean `limit`?",
            "plant.toml:1:2",
        ),
        (
            &["rules", "--rules", &rules],
            "did you mean `stick_out`?",
            "mine.toml:5:11",
        ),
    ];
    for (arguments, words, place) in cases {
        let output = run(arguments);
        assert_eq!(status(&output), 2, "{arguments:?}");
        assert_eq!(stdout(&output), "", "{arguments:?}");
        let said = complaint(&output);
        assert!(said.contains(words), "{said}");
        assert!(said.contains(place), "{place} in {said}");
    }
    // Another library is still judged.
    let output = run(&["lint", "--as", "json", &cell, &good]);
    assert_eq!(status(&output), 2);
    let verdicts = stdout(&output)
        .lines()
        .map(|line| line.contains("\"verdict\""))
        .collect::<Vec<_>>();
    assert_eq!(verdicts, [false, true]);
}

/// Commands that judge nothing end with 0 or 2.
#[test]
fn other_commands() {
    let bench = Bench::new();
    let short = bench.library("short.csv", &[SHORT, GAP]);
    for arguments in [
        &["facts", &short][..],
        &["facts", "--as", "json", &short],
        &["facts", "--list"],
        &["rules"],
        &["rules", "grip/short-grip"],
        &["rules", "--no-built-in"],
        &["columns"],
        &["columns", "cutter"],
        &["columns", "cutter", "--template"],
    ] {
        let output = run(arguments);
        assert_eq!(status(&output), 0, "{arguments:?}: {}", complaint(&output));
        assert!(!stdout(&output).is_empty(), "{arguments:?}");
    }
    for (arguments, words) in [
        (
            ["rules", "grip/short-gripp"],
            "did you mean `grip/short-grip`?",
        ),
        (["rules", "nothing/like-it"], "`shankwise rules` lists them"),
        (["columns", "cuter"], "did you mean `cutter`?"),
    ] {
        let output = run(&arguments);
        assert_eq!((status(&output), stdout(&output)), (2, String::new()));
        assert!(complaint(&output).contains(words), "{}", complaint(&output));
    }
}

/// A template of columns is itself a table that can be read: every header is known.
#[test]
fn a_template_is_a_table() {
    let template = stdout(&run(&["columns", "assembly", "--template"]));
    let columns = template.trim_end().split(',').count();
    let row = "7".to_owned() + &",".repeat(columns - 1);
    let output = run_with_input(
        &["lint", "--as", "json", "-"],
        format!("{template}{row}\n").as_bytes(),
    );
    let text = stdout(&output);
    assert_eq!(text.lines().count(), 1, "{}", complaint(&output));
    assert!(!text.contains("record/unknown-column"), "{text}");
}
