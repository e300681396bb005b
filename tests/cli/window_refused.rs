//! Questions that cannot be read: each wrong option is named, with what was expected.

use super::{complaint, run, status, stdout};

/// Asks what cannot be answered, and returns what is complained of.
fn refused(arguments: &[&str]) -> String {
    let output = run(&[&["window"], arguments].concat());
    assert_eq!(status(&output), 2, "{arguments:?}");
    assert_eq!(stdout(&output), "", "{arguments:?}");
    complaint(&output)
}

#[test]
fn an_unknown_option_is_named_with_the_nearest() {
    for (option, near) in [
        ("--bore-lenght", "did you mean `--bore-length`?"),
        ("--shank_diametre", "did you mean `--shank-diameter`?"),
        ("--unit", "did you mean `--units`?"),
        ("--colour", "did you mean `--color`?"),
        (
            "--quite-something-else",
            "`shankwise window --help` says more",
        ),
    ] {
        let said = refused(&["--overall-length", "83", option, "40"]);
        assert!(
            said.contains(&format!("there is no option `{option}`")),
            "{said}"
        );
        assert!(said.contains(near), "{said}");
    }
}

#[test]
fn a_value_that_cannot_be_read_is_named_with_what_was_expected() {
    for (arguments, words) in [
        (
            &["--overall-length", "long"][..],
            "--overall-length `long` cannot be read hint: expected a number",
        ),
        (
            &["--overall-length", "1,250"],
            "--overall-length `1,250` cannot be read: a comma before three digits may part thousands hint: write 1.250 or 1250",
        ),
        (
            &["--overall-length", "-83"],
            "--overall-length `-83` cannot be read hint: expected a number above zero",
        ),
        (
            &["--overall-length", "83 mn"],
            "the unit `mn` is not known hint: did you mean",
        ),
        (
            &["--cutter-kind", "endmil", "--OAL", "83"],
            "--cutter-kind `endmil` cannot be read: not a known word hint: did you mean `end",
        ),
        (
            &["--collet-size", "n/a", "--OAL", "83"],
            "--collet-size `n/a` cannot be read: a stand-in hint: leave the option out",
        ),
        (
            &["--overall-length"],
            "--overall-length has no value hint: expected a length such as 40, 40mm or '1 1/2 in'",
        ),
        (
            &["--overall-length", "--reach", "35"],
            "--overall-length has no value",
        ),
        (&["--OAL="], "--OAL has no value"),
        (
            &["--OAL", "83", "--overall-length", "84"],
            "--OAL is stated twice hint: state it once",
        ),
        (&["--OAL", "83", "--OAL", "84"], "--OAL is stated twice"),
        (&["83"], "`83` belongs to no option"),
        (
            &["--reach", "35"],
            "the tool's overall length is not stated",
        ),
        (&[], "the tool's overall length is not stated"),
    ] {
        let said = refused(arguments);
        assert!(said.contains(words), "no {words:?} in {said}");
    }
}

/// All that is wrong is said at once.
#[test]
fn every_wrong_option_is_named() {
    let said = refused(&["--OAL", "x", "--LS", "y"]);
    assert!(
        said.contains("--OAL `x`") && said.contains("--LS `y`"),
        "{said}"
    );
}

#[test]
fn nothing_of_an_option_reaches_the_terminal_raw() {
    let bad = "\u{1b}[31mX\u{1b}]0;t\u{7}\u{85}\u{202e}\n9";
    let option = format!("--{}", bad.replace('\n', ""));
    for arguments in [
        &["--overall-length", bad][..],
        &["--cutter-kind", bad, "--OAL", "83"],
        &["--operation", bad, "--OAL", "83"],
        &[&option, "1"],
        &[bad],
        &["--as", bad, "--OAL", "83"],
        &["--units", bad, "--OAL", "83"],
    ] {
        let output = run(&[&["window", "--color", "never"], arguments].concat());
        assert_eq!(status(&output), 2, "{arguments:?}");
        let said = String::from_utf8(output.stderr).unwrap();
        let raw = |c: char| c != '\n' && (c.is_control() || c == '\u{202e}');
        assert!(!said.contains(raw), "{said:?}");
        assert!(said.contains("\\u{"), "{said:?}");
    }
    // A text is kept, and shown by its escapes.
    let named = [
        "window",
        "--OAL",
        "83",
        "--reach",
        "35",
        "--operation",
        "a\u{202e}b",
    ];
    let text = stdout(&run(&named));
    assert!(
        !text.contains('\u{202e}') && text.contains("a\\u{202e}b"),
        "{text}"
    );
}
