//! What text always says, and how it looks.

use super::{Bench, GAP, GOOD, NOTED, SHORT, program, run, status, stdout};

/// Whoever reads only the last line knows the verdict and how much of it was judged.
#[test]
fn the_last_line_says_what_was_judged() {
    let bench = Bench::new();
    let chuck = "5,40,83,45,12,12,,,,";
    for (rows, verdict, judged, held) in [
        (&[GOOD][..], "nothing found", 1, 1),
        (&[GOOD, SHORT], "fails", 2, 2),
        (&[GOOD, GAP], "incomplete", 1, 2),
        (
            &[GAP],
            "grip NOT checked: it was judged on no tool; incomplete",
            0,
            1,
        ),
        // Nothing says what clamps it: it may be a collet.
        (&[GOOD, chuck], "incomplete", 1, 2),
    ] {
        let path = bench.library("tools.csv", rows);
        for form in ["text", "plain"] {
            for show in ["all", "error", "note"] {
                let output = run(&["lint", "--as", form, "--show", show, &path]);
                let text = stdout(&output);
                let last = text.lines().last().unwrap();
                assert!(last.starts_with(verdict), "{last}");
                let coverage =
                    format!("; grip judged on {judged} of {held} tools held by a shank; ");
                assert!(last.contains(&coverage), "{last}");
                let lower = text.to_lowercase();
                for boast in [
                    "no findings",
                    "no problems",
                    "all good",
                    "ok",
                    "safe",
                    "passed.",
                ] {
                    let words = lower.split(|c: char| !c.is_alphanumeric() && c != '.');
                    let said = words.filter(|word| *word == boast).count();
                    assert_eq!(said, 0, "{boast}: {text}");
                    assert!(
                        !boast.contains(' ') || !lower.contains(boast),
                        "{boast}: {text}"
                    );
                }
            }
        }
    }
}

/// A finding that does not fail the run is still there: the last line must not deny it.
#[test]
fn nothing_found_does_not_deny_what_is_open() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[GOOD, NOTED]);
    let output = run(&["lint", &path]);
    let text = stdout(&output);
    assert_eq!(
        text.lines().last().unwrap(),
        "nothing found except 1 note; grip judged on 2 of 2 tools held by a shank; no reach is stated: reach judged on 0 of 2"
    );
    assert_eq!(status(&output), 0);
    // A warning is a rule not met, whether or not it fails the run.
    let header = format!("{},gauge_lenght", super::HEADER);
    let path = bench.put("misspelt.csv", format!("{header}\n{GOOD},70\n"));
    let output = run(&["lint", &path]);
    let text = stdout(&output);
    assert_eq!(
        text.lines().last().unwrap(),
        "nothing found except 1 warning; grip judged on 1 of 1 tools held by a shank; no reach is stated: reach judged on 0 of 1"
    );
    assert_eq!(status(&output), 0);
    assert_eq!(status(&run(&["lint", "--fail-on", "warning", &path])), 1);
}

/// Whatever holds a shank is counted; an arbor holds none and is a count beside it.
#[test]
fn whatever_holds_a_shank_is_counted() {
    let bench = Bench::new();
    let header = format!("{},clamping_kind", super::HEADER);
    let rows = format!(
        "{header}\n{GOOD},taper collet\n5,40,83,45,12,12,,,,,shrink fit\n6,40,83,,16,63,,,,,arbor\n"
    );
    let output = run(&["lint", "--full", &bench.put("tools.csv", rows)]);
    let text = stdout(&output);
    let last = text.lines().last().unwrap();
    assert!(
        last.contains("; grip judged on 1 of 2 tools held by a shank; "),
        "{last}"
    );
    for line in [
        "Grip judged: collet chuck 1 of 1, shrink fit 0 of 1",
        "Grip not judged: tool 5",
        "Not held by a shank: arbor 1",
    ] {
        assert!(text.contains(&format!("{line}\n")), "{line} in {text}");
    }
    assert_eq!(status(&output), 0);
}

/// The program is an aid and says so, once for each library, in every form.
#[test]
fn the_notice_is_there_once() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[SHORT, GAP]);
    let notice = "Shankwise is an aid, not an approval.";
    for arguments in [
        &["lint", &path][..],
        &["lint", "--as", "plain", &path],
        &["lint", "--as", "json", &path],
        &["lint", "--show", "error", &path],
        &["facts", &path],
        &["facts", "--as", "json", &path],
    ] {
        let text = stdout(&run(arguments));
        assert_eq!(text.matches(notice).count(), 1, "{arguments:?}");
    }
    let two = stdout(&run(&["lint", "--as", "json", &path, &path]));
    assert_eq!(two.matches(notice).count(), 2);
    assert!(stdout(&run(&["--help"])).contains("Shankwise is an aid"));
}

/// Colour is asked for, or not there: a pipe is no terminal.
#[test]
fn colour() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[SHORT]);
    let coloured = |arguments: &[&str], no_color: Option<&str>| {
        let mut command = program(&[&["lint"], arguments, &[path.as_str()]].concat());
        if let Some(value) = no_color {
            command.env("NO_COLOR", value);
        }
        let output = command.output().unwrap();
        assert_eq!(status(&output), 1);
        stdout(&output).contains('\u{1b}')
    };
    assert!(!coloured(&[], None));
    assert!(!coloured(&["--color", "auto"], None));
    assert!(!coloured(&["--color", "never"], None));
    assert!(coloured(&["--color", "always"], None));
    assert!(!coloured(&["--color", "auto"], Some("1")));
    // What is said on the command line outranks the environment.
    assert!(coloured(&["--color", "always"], Some("1")));
    assert!(!coloured(&["--color", "always", "--as", "json"], None));
    assert!(!coloured(&["--color", "always", "--as", "plain"], None));
}

/// Colour changes nothing but colour.
#[test]
fn colour_is_only_colour() {
    let bench = Bench::new();
    let path = bench.library("tools.csv", &[SHORT, GAP, NOTED]);
    let with = stdout(&run(&["lint", "--color", "always", &path]));
    let without = stdout(&run(&["lint", "--color", "never", &path]));
    let mut plain = String::new();
    let mut rest = with.as_str();
    while let Some(at) = rest.find("\u{1b}[") {
        plain.push_str(&rest[..at]);
        let sequence = &rest[at + 2..];
        let end = sequence.find(|c: char| c.is_ascii_alphabetic()).unwrap();
        assert_eq!(&sequence[end..=end], "m", "only colours");
        rest = &sequence[end + 1..];
    }
    plain.push_str(rest);
    assert_eq!(plain, without);
}

/// What the library's own file weakens is in every form of output.
#[test]
fn what_is_weakened_is_said() {
    let bench = Bench::new();
    bench.put(
        "shankwise.toml",
        "[limit]\nmin_grip_fraction = \"1/2\"\n[rule.\"torque/not-stated\"]\nlevel = \"off\"\nreason = \"no wrench\"\n",
    );
    // 21 to 24 of 40 mm: held by more than half, wherever the nut holds the collet.
    let path = bench.library("tools.csv", &[&SHORT.replace("65", "60")]);
    for form in ["text", "plain", "json"] {
        let output = run(&["lint", "--as", form, "--show", "error", &path]);
        assert_eq!(status(&output), 0);
        let text = stdout(&output);
        assert!(
            text.contains("limit min_grip_fraction: 1/2 instead of 2/3"),
            "{text}"
        );
        assert!(
            text.contains("rule torque/not-stated: off instead of note (no wrench)"),
            "{text}"
        );
    }
}

/// No torque is proposed that nobody stated, and more torque is never the cure.
#[test]
fn no_torque_from_nowhere() {
    let bench = Bench::new();
    let bare = SHORT.trim_end_matches("80");
    let path = bench.library("tools.csv", &[bare, NOTED]);
    for form in ["text", "plain", "json"] {
        let text = stdout(&run(&["lint", "--as", form, "--show", "all", &path]));
        let units = ["N·m", "lbf"];
        for word in text.split_whitespace() {
            let before = units
                .iter()
                .find_map(|unit| word.find(unit).map(|at| &word[..at]));
            let has_number = before.is_some_and(|text| text.contains(|c: char| c.is_ascii_digit()));
            assert!(!has_number, "{word}");
        }
        let words = text.split_whitespace().collect::<Vec<_>>();
        for pair in words.windows(2) {
            let number = pair[0].parse::<f64>().is_ok();
            assert!(
                !(number && units.iter().any(|unit| pair[1].starts_with(unit))),
                "{pair:?}"
            );
        }
    }
    let text = stdout(&run(&["lint", &path]));
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("More torque on the nut is not the remedy"),
        "{words}"
    );
}

/// Plain text is for screen readers and logs: nothing in it is drawn.
#[test]
fn plain_text_draws_nothing() {
    let bench = Bench::new();
    bench.put("shankwise.toml", "[limit]\nlength_tolerance = 0.02\n");
    let path = bench.library("tools.csv", &[SHORT, GAP, NOTED]);
    let text = stdout(&run(&["lint", "--as", "plain", "--show", "all", &path]));
    let drawn =
        |c: char| matches!(c, '\u{2190}'..='\u{21ff}' | '\u{2500}'..='\u{25ff}' | '×' | '⚠' | '☞');
    for line in text.lines() {
        assert!(!line.contains(drawn), "{line}");
    }
}

/// One tool at a time: its findings with their notes, and the counts of the whole library.
#[test]
fn a_tool_may_be_shown_alone() {
    let output = run(&["lint", "fixtures/demo", "--tool", "27"]);
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8(output.stdout).unwrap();
    for rule in [
        "reach/no-window, grip/short-grip",
        "torque/over-torqued",
        "note holding/edge-lifts",
    ] {
        assert!(text.contains(rule), "{text}");
    }
    for number in ["tool 28", "tool 29", "Where to begin"] {
        assert!(!text.contains(number), "{text}");
    }
    assert!(
        text.contains("Only tool 27 is shown; counts and verdict are those of the whole library")
    );
    let all = String::from_utf8(run(&["lint", "fixtures/demo"]).stdout).unwrap();
    assert_eq!(text.lines().last(), all.lines().last());
    // What no part cures stands behind every remedy, not behind the first alone.
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let stays = "torque/over-torqued remains until the torque is corrected";
    assert_eq!(flat.matches(stays).count(), 3, "{flat}");
}

#[test]
fn a_tool_that_is_clean_or_not_there_is_said_to_be() {
    let output = run(&["lint", "fixtures/demo", "--tool", "6,999"]);
    assert_eq!(output.status.code(), Some(2));
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(
        text.starts_with("tool 6: every rule that was judged is met\n"),
        "{text}"
    );
    let complaint = String::from_utf8(output.stderr).unwrap();
    assert!(
        complaint.contains("no assembly has the tool number `999`"),
        "{complaint}"
    );
}

/// What cannot be read of a tool's job stands in the operation's record, which names no tool.
#[test]
fn what_is_wrong_with_a_tools_records_is_shown_with_it() {
    let output = run(&["lint", "fixtures/demo", "--tool", "33"]);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("reach: `14,5`: decimal comma"), "{text}");
    assert!(!text.contains("tool 37"), "{text}");
    let flat = String::from_utf8(run(&["lint", "fixtures/forms/demo.xml", "--tool", "33"]).stdout);
    assert!(flat.unwrap().contains("reach: `14,5`"));
}

/// One tool whose grip is lost in a heavy cut, at every friction; and the same tool again.
const SLIPPING: &str = "\
tool_number,clamping_kind,collet_size,nut_thread,shank_diameter,cutting_diameter,flute_count,\
helix_angle,operation_kind,workpiece_material,axial_depth,radial_width,feed_per_tooth,nut_torque
1,taper collet,32,M40x1.5,12,12,3,30,milling,C45E,12,12,0.06,10
2,taper collet,32,M40x1.5,12,12,3,30,milling,C45E,12,12,0.06,11
";

/// What is said of slipping, in one form of output.
fn slips(form: &str, path: &str) -> String {
    stdout(&run(&[
        "lint",
        "--as",
        form,
        "--full",
        "--only",
        "holding/slips",
        path,
    ]))
}

/// What rests on an assumed friction or an estimated cut has two digits and says so; JSON keeps
/// its digits.
#[test]
fn estimates_say_so() {
    let bench = Bench::new();
    let path = bench.put("slipping.csv", SLIPPING);
    for form in ["text", "plain"] {
        let text = slips(form, &path);
        let joined = text.split_whitespace().filter(|word| *word != "│");
        let joined = joined.collect::<Vec<_>>().join(" ");
        for words in ["up to 23 N·m (estimated)", "at most 9.2 N·m (estimated)"] {
            assert!(joined.contains(words), "{words}: {text}");
        }
    }
    let json = slips("json", &path);
    assert!(json.contains("22.7407"), "{json}");
    let facts = stdout(&run(&["facts", &path]));
    let line = facts.lines().find(|line| line.contains("slip_torque_high"));
    let line = line.expect("the fact is listed");
    assert!(
        line.contains(" 9.2 N·m") && line.contains("estimated"),
        "{line}"
    );
}

/// Each limit stands with its basis in the first block of its rule, and only there; those from
/// memory among what is assumed.
#[test]
fn limits_are_printed_once_a_rule() {
    let bench = Bench::new();
    let path = bench.put("slipping.csv", SLIPPING);
    for form in ["text", "plain"] {
        let text = slips(form, &path);
        let joined = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for words in [
            "least_slip_ratio 1: textbook, Coulomb friction",
            "radius_sway 1.04: from memory",
        ] {
            assert_eq!(joined.matches(words).count(), 1, "{words}: {text}");
        }
        let band =
            "friction_shank_low 0.1: from memory; the result is the same over its whole band";
        assert_eq!(joined.matches(band).count(), 2, "{text}");
    }
    let short = bench.library("short.csv", &[SHORT]);
    let text = stdout(&run(&[
        "lint",
        "--full",
        "--only",
        "grip/short-grip",
        &short,
    ]));
    let words = "limits: min_grip_fraction 2/3: common practice, no source";
    assert_eq!(text.matches(words).count(), 1, "{text}");
}
