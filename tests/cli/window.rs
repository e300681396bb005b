//! The quick question: `shankwise window`.

use std::process::Output;

use super::{Bench, complaint, program, status, stdout};
use crate::support::QUESTION as ASKED;

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
            "mark: 44.5 mm from the shank end",
            "with a pen or set a stop collar; never scribe the shank, never measure along the cutting edges",
            "not below: 38.0 mm, flutes [grip/flutes-in-bore]",
            "next: 35.0 mm, reach [reach/too-short-for-the-job]",
            "not above: 56.3 mm, grip [grip/short-grip]",
            "needed 26.7 mm of the 40.0 mm gripping length; full grip up to 43.0",
            "shortest: 61.7 mm overall after regrinding, for this reach",
            "take it from the manufacturers' instructions for this bore",
            "stop (insertion_depth_max not stated); at 38.0 mm the shank end is 45.0 mm behind the nut face and needs 1.0 mm free",
            "update the library, simulate again, measure again",
            "█ gripped: the whole 40.0 mm gripping length",
        ],
    );
    let notice = shankwise::write::NOTICE;
    assert_eq!(flat(&output).matches(notice).count(), 1);
}

#[test]
fn inches_are_answered_in_inches() {
    let lengths = [
        "--bore-length",
        "1 1/2 in",
        "--overall-length",
        "3 1/4in",
        "--shank-diameter=1/2\"",
        "--face-setback=0 in",
        "--clearance=0 in",
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
        "--face-setback=0",
        "--clearance=0",
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
            "needed 1.000 in of the 1.500 in gripping length; full grip up to 1.750",
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
        "--face-setback=0",
        "--bore-length",
        "40",
        "--overall-length",
        "83",
        "--shank-length",
        "1 3/4 in",
    ];
    says(&ask(&mixed), &["limits 38.6 to 56.3 mm"]);
    let mixed = [
        "--face-setback=0",
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
            "limits 36.0 to 54.3 mm, partly assumed",
            "grip, assumed [grip/short-grip]; assumed: collet.bore_length, collet.collet_length",
            "assumed: collet.collet_length 40.0 mm: length of a standard collet of this size",
            "overall after regrinding, at 36.5 mm stick-out",
        ],
    );
}

#[test]
fn a_present_stick_out_is_inside_or_out_by_so_much() {
    for (stick_out, words) in [
        ("65", "65.0 mm: outside, 8.7 mm too long (grip)"),
        ("36.5", "36.5 mm: outside, 1.5 mm too short (flutes)"),
    ] {
        let output = ask(&with(&["--stick-out", stick_out]));
        assert_eq!(status(&output), 0);
        let as_stated = format!("as stated: {words}");
        says(&output, &[&as_stated, "Set the stick-out to 38.5 mm"]);
    }
    for (stick_out, mark) in [("40", "43.0"), ("56.3", "26.7")] {
        let output = ask(&with(&["--stick-out", stick_out]));
        let at: f64 = stick_out.parse().unwrap();
        let inside = format!(
            "{at:.1} mm is inside (limits 38.0 to 56.3 mm); the shortest advised is 38.5 mm"
        );
        let mark = format!("mark: {mark} mm from the shank end, for {at:.1} mm");
        says(&output, &[&inside, &mark]);
        assert!(!flat(&output).contains("Set the stick-out"));
    }
    // The drawing shows the tool as it is, and says so.
    says(
        &ask(&with(&["--stick-out", "65"])),
        &[
            "drawn at 65.0 mm, as stated",
            "gripped: 18.0 mm of the 40.0 mm gripping length",
        ],
    );
    assert!(!flat(&ask(ASKED)).contains("drawn at"));
}

#[test]
fn a_tool_cannot_stick_out_further_than_it_is_long() {
    let output = ask(&with(&["--stick-out", "90"]));
    assert_eq!((status(&output), stdout(&output).as_str()), (2, ""));
    let complaint = complaint(&output);
    assert!(
        complaint.contains("a tool that is 83.0 mm long cannot have a stick-out of 90.0 mm"),
        "{complaint}"
    );
}

/// 36cm where 36 mm were meant is seen before anything is set by it.
#[test]
fn a_length_in_another_unit_is_shown_as_it_was_read() {
    let output = ask(&[&ASKED[..6], &["--shank-length", "3.6cm"]].concat());
    says(&output, &["read as: --shank-length 3.6cm is 36.0 mm"]);
    assert!(!flat(&ask(&with(&["--clearance", "2 mm"]))).contains("read as"));
}

/// What depends on the stick-out and does not bound it is judged at the recommended one; nobody
/// is told where to set a tool that must not be built.
#[test]
fn what_stands_at_the_recommended_stick_out_comes_first() {
    let pocket = ["--room-diameter", "40", "--nut-outer-diameter", "42"];
    let output = ask(&with(&pocket));
    says(
        &output,
        &[
            "correct: error reach/nut-fouls: a nut of 42.0 mm enters a pocket of 40.0 mm",
            "Correct that and ask again; with the values as stated it would be 38.5 mm (limits",
        ],
    );
    assert!(!flat(&output).contains("mark:"));
    let wide = ["--room-diameter", "60", "--nut-outer-diameter", "42"];
    assert!(!flat(&ask(&with(&wide))).contains("correct:"));
}

/// The edge of the pocket is 5 mm above the floor: at 48 the nut is out of it, and before it is
/// not. How deep a pocket is that states no depth, nobody knows: no stick-out is out of it.
#[test]
fn a_pocket_bounds_the_stick_out_as_far_as_its_depth_is_known() {
    let pocket = [
        &ASKED[..10],
        &["--reach", "40", "--clearance", "3", "--room-diameter", "40"],
        &["--nut-outer-diameter", "50"],
    ]
    .concat();
    let shallow = [&pocket[..], &["--room-depth", "5"]].concat();
    says(
        &ask(&shallow),
        &[
            "Set the stick-out to 48.5 mm (limits 48.0 to 56.3 mm)",
            "not below: 48.0 mm, pocket [reach/nut-fouls]",
        ],
    );
    // Shorter still, it must be both out of the pocket and gripped: 48 + 26.67.
    says(
        &ask(&shallow),
        &["shortest: 74.7 mm overall after regrinding"],
    );
    let short = [&shallow[..], &["--overall-length-actual", "74"]].concat();
    says(
        &ask(&short),
        &[
            "There is no stick-out: pocket needs at least 48.0, grip at most 47.3; 0.7 mm short",
            "instead: a cutter at least 74.7 mm overall",
        ],
    );
    says(
        &ask(&pocket),
        &[
            "correct: error reach/nut-fouls",
            "not met: reach/nut-fouls: no stick-out meets it",
        ],
    );
}

/// A tap is not told where to stick out before anybody knows where its square is driven.
#[test]
fn a_tap_waits_for_the_place_of_its_square() {
    let tap = [
        "--overall-length",
        "100",
        "--shank-diameter",
        "7",
        "--shank-length",
        "60",
        "--cutter-drive-square",
        "5.5",
        "--drive-square-length",
        "8",
        "--bore-diameter",
        "7",
        "--bore-length",
        "18",
        "--face-setback",
        "0.6",
    ];
    let squared = [&tap[..], &["--collet-drive-square", "5.5"]].concat();
    says(
        &ask(&squared),
        &[
            "No stick-out can be recommended: the tap's square is not judged, collet.collet_length not stated",
        ],
    );
    // The square ends at 32.1 + 4 and begins behind 18.6 + 4: 63.9 to 77.4.
    let known = [&squared[..], &["--collet-length", "31.5"]].concat();
    says(
        &ask(&known),
        &[
            "Set the stick-out to 64.5 mm (limits 63.9 to 77.4 mm)",
            "tap's square [grip/square-not-driven]",
        ],
    );
    // In a plain collet there is none to be driven by.
    says(
        &ask(&tap),
        &["Set the stick-out to 40.0 mm (limits 39.4 to 79.4 mm)"],
    );
}

/// 90 long after regrinding, 92 when it was new: the shank that is gripped is the same.
#[test]
fn a_reground_tool_is_told_what_a_new_one_does_at_the_same_mark() {
    let output = ask(&[
        "--OAL",
        "92",
        "--overall-length-min",
        "90",
        "--LS",
        "48",
        "--face-setback=0",
        "--bore-length",
        "40",
    ]);
    says(
        &output,
        &[
            "mark: 47.5 mm from the shank end, for 42.5 mm",
            "length: calculated with 90.0 mm, the shortest length stated; at the same mark a tool of 92.0 mm sticks out 2.0 mm more",
            "reach: not stated: whether the tool reaches the bottom of the job is not judged",
        ],
    );
    assert!(!flat(&ask(ASKED)).contains("length: reckoned"));
    assert!(!flat(&ask(ASKED)).contains("reach: none"));
}

/// Ends nearer to each other than one can set are printed apart, and it is said.
#[test]
fn a_window_too_narrow_to_be_set_says_so() {
    let output = ask(&[&ASKED[..10], &["--clearance", "0", "--reach", "56.331"]].concat());
    says(
        &output,
        &[
            "Set the stick-out to 56.332 mm (limits 56.331 to 56.333 mm; less than the 1.0 mm that setting needs)",
            "not below: 56.331 mm, reach",
            "not above: 56.333 mm, grip",
        ],
    );
}

/// Longer does not help where a stop leaves less room than the grip needs; else it says how long.
#[test]
fn where_nothing_is_left_it_says_what_would_serve() {
    let far = [&ASKED[..10], &["--clearance", "0", "--reach", "60"]].concat();
    says(
        &ask(&far),
        &[
            "instead: a cutter at least 86.7 mm overall, of it at least 26.7 mm plain shank, and 1.0 mm more of both for setting; or a collet with a shorter gripping length",
        ],
    );
    // 36 mm behind the face are more than the 26.7 of the grip.
    let maker = [&far[..], &["--collet-clamping-length-min", "36"]].concat();
    says(
        &ask(&maker),
        &["a cutter at least 96.0 mm overall, of it at least 36.0 mm plain shank"],
    );
    let stop = ["--bore-diameter", "12", "--insertion-depth-max", "25"];
    let stopped = [
        &ASKED[..10],
        &["--clearance", "0", "--reach", "58"],
        &stop[..],
    ]
    .concat();
    says(
        &ask(&stopped),
        &[
            "instead: no cutter suits: 24.0 mm can be inserted behind the nut face, and 26.7 mm is needed",
        ],
    );
}

/// A stop that is not judged is what is said not to be judged, not the grip.
#[test]
fn what_is_not_judged_is_named() {
    let output = ask(&with(&["--insertion-depth-max", "55"]));
    says(
        &output,
        &[
            "No stick-out can be recommended: the stop is not judged, collet.bore_diameter not stated (what else is known: limits 38.0 to 56.3 mm)",
        ],
    );
    let output = ask(&[&ASKED[2..10], &["--collet-size", "32"]].concat());
    says(
        &output,
        &[
            "the grip is not judged, collet.bore_length not stated",
            "the size alone does not give the gripping length: measure it",
        ],
    );
}

#[test]
fn where_nothing_is_left_it_says_why_and_ends_with_1() {
    let far = [&ASKED[..10], &["--clearance", "0", "--reach", "60"]].concat();
    let output = ask(&far);
    assert_eq!(status(&output), 1);
    says(
        &output,
        &[
            "There is no stick-out: reach needs at least 60.0, grip at most 56.3; 3.7 mm short",
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
            "(what else is known: neither a lower nor an upper limit is known)",
        ],
    );
    let output = ask(&["--overall-length", "83", "--reach", "35"]);
    says(&output, &["not below 36.0 mm; no upper limit is known"]);
}

/// A stick-out that is stated is not said to be inside what nobody knows.
#[test]
fn a_stick_out_that_nobody_can_judge_is_not_inside() {
    let size = ["--collet-size", "32", "--stick-out", "40"];
    let output = ask(&size);
    assert_eq!(status(&output), 2);
    assert!(
        complaint(&output).starts_with("error: NOT JUDGED:"),
        "{}",
        complaint(&output)
    );
    let output = ask(&[&size[..], &["--overall-length", "83"]].concat());
    let text = flat(&output);
    assert!(text.starts_with("NOT JUDGED: "), "{text}");
    assert!(!text.contains("inside"), "{text}");
    assert!(text.contains("grip: NOT JUDGED: "), "{text}");
}

/// A drill gets no shorter than its flutes allow, whatever the grip says; where they are not
/// known, neither is how short it may get.
#[test]
fn a_drill_keeps_flutes_for_its_hole() {
    let drill = [
        "--cutter-kind",
        "drill",
        "--cutting-diameter",
        "10",
        "--overall-length",
        "118",
        "--shank-diameter",
        "10",
        "--shank-length",
        "40",
        "--bore-length",
        "30",
        "--face-setback",
        "0",
        "--reach",
        "60",
        "--clearance",
        "0",
    ];
    // 118 less the 17 by which flutes of 77 are longer than the hole is deep.
    let output = ask(&[&drill[..], &["--chip-flute-length", "77"]].concat());
    says(
        &output,
        &["shortest: 101.0 mm overall after regrinding, for this reach"],
    );
    let output = ask(&drill);
    says(
        &output,
        &["shortest: not known: chip_flute_length not stated"],
    );
}

/// What no collet holds has no grip to be judged, and no nut to be tightened.
#[test]
fn a_tool_in_no_collet_is_told_that_its_grip_is_not_judged() {
    for (question, grip) in [
        (&["--overall-length", "83"][..], "NOT JUDGED: "),
        (&with(&["--clamping-kind", "shrink fit"]), "NOT JUDGED: "),
        (
            &with(&["--clamping-kind", "arbor"]),
            "none to judge: no shank is held",
        ),
    ] {
        let output = ask(question);
        says(&output, &[&format!("grip: {grip}")]);
        let text = flat(&output);
        for word in ["torque:", "the nut ", "the nut's", "and nut"] {
            assert!(!text.contains(word), "{word} in {text}");
        }
    }
}

/// No torque is invented, and more of it is never the remedy.
#[test]
fn only_stated_torques_are_shown() {
    says(
        &ask(&with(&["--nut-torque", "80", "--torque-max", "120"])),
        &["as stated: set up with 80.0 N·m, at most 120.0 N·m; more torque never makes up"],
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
        &["correct: error grip/shank-outside-bore-range: a shank of 12.0 mm in a bore of 10.0 mm"],
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
    let far = [&ASKED[..10], &["--clearance", "0", "--reach", "60"]].concat();
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
    for (question, who, missing) in [
        (size_only, "grip", "bore_length"),
        (no_gap, "stop", "bore_diameter"),
    ] {
        let output = ask(&question);
        assert!(
            !flat(&output).contains("Set the stick-out"),
            "{}",
            flat(&output)
        );
        says(
            &output,
            &[
                &format!("No stick-out can be recommended: the {who} is not judged"),
                missing,
            ],
        );
    }
    let longer_than_itself = [
        &ASKED[..6],
        &[
            "--shank-length",
            "90",
            "--face-setback",
            "0",
            "--reach",
            "35",
            "--clearance",
            "0",
        ],
    ]
    .concat();
    let output = ask(&longer_than_itself);
    says(&output, &["correct:", "Correct that and ask again"]);
    assert!(!flat(&output).contains("Set the stick-out"));
}

/// Two thirds, the flutes and the reach at the worst that nobody states: a collet 1 mm in front
/// of its nut's face or 2 mm behind it, and 1 mm of clearance.
#[test]
fn what_is_not_stated_is_a_range_and_it_says_what_stating_it_would_win() {
    let bare = [&ASKED[..8], &["--reach", "35"]].concat();
    says(
        &ask(&bare),
        &[
            "Set the stick-out to 39.5 mm (limits 39.0 to 54.3 mm)",
            "next: 36.0 mm, reach",
            "not stated: face_setback: taken as -1.0 to 2.0 mm, from memory; the limits suit \
             all of it. Stated, at -1.0 mm they are 39.0 to 57.3, at 2.0 mm they are 36.0 to \
             54.3: add --face-setback",
        ],
    );
    assert!(!flat(&ask(ASKED)).contains("not stated: face_setback"));
    for option in ["--face-setback", "--bore-setback"] {
        let output = ask(&[&bare[..], &["--clearance", "0", option, "1.5"]].concat());
        says(&output, &["(limits 36.5 to 54.8 mm)"]);
        assert!(!flat(&output).contains("face_setback: taken as"));
    }
    let deep = [&ASKED[..10], &["--reach", "50"]].concat();
    says(
        &ask(&deep),
        &[
            "clearance: taken as 0.0 to 1.0 mm",
            "at 0.0 mm they are 50.0 to 56.3",
        ],
    );
}
