//! The quick question: `shankwise window`.

use std::process::Output;

use super::{Bench, complaint, program, status, stdout};
use crate::support::{QUESTION as ASKED, root};

/// Asks in a locale of UTF-8.
fn ask(arguments: &[&str]) -> Output {
    ask_in("C.UTF-8", arguments)
}

fn ask_in(locale: &str, arguments: &[&str]) -> Output {
    let mut program = program(&["window"]);
    let program = program.args(arguments).env_remove("LC_CTYPE");
    program.env_remove("LANG").env("LC_ALL", locale);
    program.output().expect("the program starts")
}

fn with(more: &[&'static str]) -> Vec<&'static str> {
    [ASKED, more].concat()
}

/// The answer in one line, to look for words that a line break may part.
fn flat(output: &Output) -> String {
    let text = stdout(output);
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn says(output: &Output, words: &[&str]) {
    let text = flat(output);
    for words in words {
        assert!(text.contains(words), "no {words:?} in {text}");
    }
}

#[test]
fn it_answers_to_the_digit() {
    let output = ask(ASKED);
    assert_eq!(status(&output), 0);
    says(
        &output,
        &[
            "Set the stick-out to 38.5 mm (limits 38.0 to 56.3 mm)",
            "mark: 44.5 mm from the tail",
            "with a pen or set a stop collar; never scribe the shank, never measure along the cutting edges",
            "not below: 38.0 mm, flutes [grip/flutes-in-bore]",
            "next: 35.0 mm, reach [reach/too-short-for-the-job]",
            "not above: 56.3 mm, grip [grip/short-grip]",
            "needed 26.7 mm of the 40.0 mm land; bore full up to 43.0",
            "shortest: 61.7 mm overall after regrinding, for this reach",
            "take it from the makers' instructions for this bore",
            "stop (insertion_depth_max not stated); the tail goes 45.0 mm in behind the nut's face and needs 1.0 mm of room",
            "change the library, simulate again, measure again",
            "█ gripped: the whole 40.0 mm land",
        ],
    );
    let notice = shankwise::write::NOTICE;
    assert_eq!(flat(&output).matches(notice).count(), 1);
}

/// What the README shows is what the program says.
#[test]
fn the_readme_shows_the_true_answer() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let answer = stdout(&ask(ASKED));
    let indented = answer.lines().map(|line| match line {
        "" => "\n".to_owned(),
        line => format!("    {line}\n"),
    });
    let indented: String = indented.collect();
    assert!(readme.contains(&indented), "{indented}");
}

#[test]
fn inches_are_answered_in_inches() {
    let lengths = [
        "--bore-length",
        "1 1/2 in",
        "--overall-length",
        "3 1/4in",
        "--shank-diameter=1/2\"",
        "--LS",
        "1.75 inch",
        "--reach",
        "1 3/8 in",
    ];
    let bare = [
        "--bore_length",
        "1.5",
        "--OAL",
        "3.25",
        "--DMM",
        "0.5",
        "--units",
        "in",
        "--ls",
        "1.75",
        "--reach",
        "1 3/8",
    ];
    let output = ask(&lengths);
    says(
        &output,
        &[
            "(limits 1.500 to 2.250 in)",
            "needed 1.000 in of the 1.500 in land; bore full up to 1.750",
            "shortest: 2.375 in",
        ],
    );
    assert!(!flat(&output).contains(" mm "), "{}", flat(&output));
    assert_eq!(stdout(&output), stdout(&ask(&bare)));
}

/// One length in millimetres, and the answer is in millimetres; unless it is asked for in inches.
#[test]
fn mixed_lengths_are_answered_in_millimetres() {
    let mixed = [
        "--bore-length",
        "40",
        "--overall-length",
        "83",
        "--shank-length",
        "1 3/4 in",
    ];
    says(&ask(&mixed), &["limits 38.6 to 56.3 mm"]);
    let mixed = [
        "--bore-length",
        "40 mm",
        "--overall-length",
        "83mm",
        "--shank-length",
        "45 mm",
        "--units",
        "in",
    ];
    // 38 mm are 1.49606 in, and 56.333 mm are 2.21785 in.
    says(&ask(&mixed), &["limits 1.497 to 2.217 in"]);
}

#[test]
fn a_size_fills_in_what_is_standard_and_says_so() {
    let output = ask(&[
        "--overall-length",
        "83",
        "--shank-diameter",
        "16",
        "--shank-length",
        "48",
        "--bore-diameter",
        "16",
        "--bore-form",
        "through",
        "--collet-size",
        "32",
    ]);
    assert_eq!(status(&output), 0);
    says(
        &output,
        &[
            "limits 35.0 to 56.3 mm, partly assumed",
            "grip (assumed) [grip/short-grip]; assumed: collet.bore_length, collet.collet_length",
            "assumed: collet.collet_length 40.0 mm: length of a standard collet of this size",
            "overall after regrinding, at 35.5 mm stick-out",
        ],
    );
}

#[test]
fn a_present_stick_out_is_inside_or_out_by_so_much() {
    for (stick_out, words) in [
        ("65", "65.0 mm: outside, 8.7 mm too long (grip)"),
        ("36.5", "36.5 mm: outside, 1.5 mm too short (flutes)"),
        ("40", "40.0 mm: inside the limits"),
        ("56.3", "56.3 mm: inside the limits"),
    ] {
        let output = ask(&[ASKED, &["--stick-out", stick_out]].concat());
        assert_eq!(status(&output), 0);
        says(&output, &[&format!("as stated: {words}"), "38.0 to 56.3"]);
    }
    // The drawing shows the tool as it is.
    says(
        &ask(&with(&["--stick-out", "65"])),
        &["gripped: 18.0 mm of the 40.0 mm land"],
    );
}

#[test]
fn where_nothing_is_left_it_says_why_and_ends_with_1() {
    let far = [&ASKED[..8], &["--reach", "60"]].concat();
    let output = ask(&far);
    assert_eq!(status(&output), 1);
    says(
        &output,
        &[
            "There is no stick-out: reach asks for 60.0 or more, grip for 56.3 or less; 3.7 mm short",
            "[reach/too-short-for-the-job]",
            "[grip/short-grip]",
        ],
    );
    assert!(!stdout(&output).contains("Set the stick-out"));
    let json = ask(&[&far[..], &["--as", "json"]].concat());
    assert_eq!(status(&json), 1);
}

/// Without anything that keeps the tool from going in, no stick-out is recommended.
#[test]
fn an_end_that_is_not_known_is_named() {
    let output = ask(&["--overall-length", "83"]);
    assert_eq!(status(&output), 0);
    says(
        &output,
        &[
            "No stick-out can be recommended: the grip is not judged, holder.clamping_kind not stated",
            "(neither a lower nor an upper end is known)",
        ],
    );
    let output = ask(&["--overall-length", "83", "--reach", "35"]);
    says(&output, &["not below 35.0 mm; no upper end is known"]);
}

/// What no collet holds has no grip to be judged, and no nut to be tightened.
#[test]
fn a_tool_in_no_collet_is_told_that_its_grip_is_not_judged() {
    for question in [
        &["--overall-length", "83"][..],
        &with(&["--clamping-kind", "shrink fit"]),
    ] {
        let output = ask(question);
        says(
            &output,
            &["grip: not judged: nothing stated says that a collet holds"],
        );
        assert!(!stdout(&output).contains("torque:"));
    }
}

/// No torque is invented, and more of it is never the remedy.
#[test]
fn only_stated_torques_are_shown() {
    says(
        &ask(&with(&["--nut-torque", "80", "--torque-max", "136"])),
        &["as stated: set up with 80.0 N·m, at most 136.0 N·m; more torque never makes up"],
    );
    assert!(!stdout(&ask(ASKED)).contains("N·m"));
    // In inches there is no default for a torque.
    let output = ask(&["--OAL", "3 in", "--nut-torque", "80"]);
    assert_eq!(status(&output), 2);
    assert!(complaint(&output).contains("--nut-torque `80` cannot be read: a number without its unit, and this question has no default for it"));
}

/// What is wrong whatever the stick-out is said too.
#[test]
fn what_no_stick_out_cures_is_told() {
    let output = ask(&with(&["--bore-diameter", "10"]));
    says(
        &output,
        &["put right: error grip/shank-outside-bore-range: a 12.0 mm shank in a 10.0 mm bore"],
    );
}

#[test]
fn the_drawing_follows_the_locale() {
    for locale in ["C.UTF-8", "de_DE.utf8"] {
        assert!(stdout(&ask_in(locale, ASKED)).contains('█'), "{locale}");
    }
    for (locale, more) in [("C", &[][..]), ("C.UTF-8", &["--ascii"])] {
        let text = stdout(&ask_in(locale, &with(more)));
        assert!(text.is_ascii() && text.contains("# gripped"), "{text}");
    }
    let plain = stdout(&ask(&with(&["--as", "plain"])));
    assert!(plain.is_ascii() && !plain.contains("gripped"), "{plain}");
}

/// Colour only repeats what the words say.
#[test]
fn colour_changes_no_word() {
    let far = [&ASKED[..8], &["--reach", "60"]].concat();
    for question in [with(&[]), with(&["--stick-out", "65"]), far] {
        let coloured = stdout(&ask(&[&question[..], &["--color", "always"]].concat()));
        let mut bare = String::new();
        for part in coloured.split('\u{1b}') {
            let code = part.strip_prefix('[').and_then(|part| part.split_once('m'));
            bare.push_str(code.map_or(part, |(_, rest)| rest));
        }
        assert_ne!(coloured, bare);
        assert_eq!(bare, stdout(&ask(&question)));
    }
}

#[test]
fn every_line_fits_a_terminal() {
    let inch = ["--units", "in", "--as", "plain"];
    for question in [
        with(&[]),
        with(&["--stick-out", "65"]),
        with(&inch),
        with(&["--collet-size", "32", "--bore-diameter", "12"]),
        with(&["--operation", "pocket at the far end of the long housing"]),
        vec!["--overall-length", "83"],
    ] {
        for line in stdout(&ask(&question)).lines() {
            assert!(line.chars().count() <= 80, "{line}");
            assert_eq!(line, line.trim_end(), "{line}");
        }
    }
}

/// A file is written whole; options may stand anywhere among the properties.
#[test]
fn own_options_may_stand_anywhere() {
    let bench = Bench::new();
    let file = bench.text_path("answer.txt");
    let mixed = [
        &["--bore-length", "40", "--as", "plain"],
        &ASKED[2..6],
        &["--out", &file],
        &ASKED[6..],
    ];
    let output = ask(&mixed.concat());
    assert_eq!((status(&output), stdout(&output).as_str()), (0, ""));
    let written = std::fs::read_to_string(&file).unwrap();
    assert_eq!(written, stdout(&ask(&with(&["--as", "plain"]))));
}

/// A plant's file and rules of its own count as they do for a library.
#[test]
fn the_shops_rules_are_asked() {
    let bench = Bench::new();
    let config = bench.put("plant.toml", "[limit]\nmin_grip_fraction = 1\n");
    let output = ask(&[ASKED, &["--config", &config]].concat());
    says(&output, &["limits 38.0 to 43.0 mm", "needed 40.0 mm"]);
    let missing = bench.text_path("none.toml");
    assert_eq!(status(&ask(&[ASKED, &["--config", &missing]].concat())), 2);
}

/// A grip that nobody can judge, or an error that stands, is nothing to set a tool by.
#[test]
fn it_tells_nobody_to_set_what_is_not_judged() {
    let size_only = [&ASKED[2..], &["--collet-size", "32"]].concat();
    let no_gap = with(&["--insertion-depth-max", "46"]);
    for (question, missing) in [(size_only, "bore_length"), (no_gap, "bore_diameter")] {
        let output = ask(&question);
        assert!(
            !flat(&output).contains("Set the stick-out"),
            "{}",
            flat(&output)
        );
        says(
            &output,
            &[
                "No stick-out can be recommended: the grip is not judged",
                missing,
            ],
        );
    }
    let longer_than_itself = [&ASKED[..6], &["--shank-length", "90", "--reach", "35"]].concat();
    let output = ask(&longer_than_itself);
    says(&output, &["put right:", "Once that is put right"]);
    assert!(!flat(&output).contains("Set the stick-out"));
}
