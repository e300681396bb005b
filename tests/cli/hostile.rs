//! Cells that try to command the terminal: nothing that it would act on reaches it raw.

use super::{Bench, complaint, run, run_with_input, stdout};

/// Characters that a terminal, or a reader of the text, would act on instead of showing them:
/// controls of both sets, and the marks that turn the direction of writing (Unicode,
/// property Bidi_Control).
const ACTING: [char; 24] = [
    '\u{1}', '\u{2}', '\u{3}', '\u{61c}', '\u{1b}', '\u{7}', '\u{8}', '\u{b}', '\u{c}', '\u{7f}',
    '\u{85}', '\u{90}', '\u{9b}', '\u{9d}', '\u{200e}', '\u{200f}', '\u{202a}', '\u{202b}',
    '\u{202d}', '\u{202e}', '\u{2066}', '\u{2067}', '\u{2069}', '\u{feff}',
];

/// A text with all of them, that would colour, ring and turn if it could.
fn hostile() -> String {
    let mut text = "\u{1b}[31mX\u{1b}]0;title\u{7}".to_owned();
    text.extend(ACTING);
    text.push('y');
    text
}

fn is_tame(text: &str) {
    for c in text.chars().filter(|c| *c != '\n') {
        assert!(!c.is_control() && !ACTING.contains(&c), "{c:?} in {text:?}");
    }
}

/// The text in every column where it is kept, or refused with its words repeated.
fn library() -> String {
    let bad = hostile();
    let header = format!(
        "tool_number,assembly,description,cutter,collet,holder,cutter_kind,nut_thread,stick_out,\
         overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,\
         bore_length,operation,reach,clamping_kind,{bad},bore_recess [{bad}]"
    );
    let rows = [
        format!(
            "{bad},{bad},{bad},{bad},{bad},{bad},end mill,,65,83,45,12,12,32,12,40,{bad},70,taper collet,{bad},1"
        ),
        format!("{bad},2,,,,,{bad},{bad},{bad},83,45,12,12,32 {bad},12,,,,{bad},,2 {bad}"),
        format!("\"3\n{bad}\",3,,,,,,,65,83,45,12,12,32,12,,\"{bad},\t\",70,,,,{bad},more"),
    ];
    format!("{header}\n{}\n", rows.join("\n"))
}

#[test]
fn nothing_reaches_the_terminal_raw() {
    let text = library();
    for arguments in [
        &["lint", "--color", "never", "--show", "all", "-"][..],
        &["lint", "--as", "plain", "--show", "all", "-"],
        &["lint", "--as", "json", "--with-facts", "-"],
        &["facts", "-"],
        &["facts", "--as", "json", "-"],
    ] {
        let output = run_with_input(arguments, text.as_bytes());
        let shown = stdout(&output);
        assert!(
            shown.contains("\\u{1b}") || shown.contains("\\u001b"),
            "{arguments:?}: {shown}"
        );
        is_tame(&shown);
        is_tame(&complaint(&output));
    }
}

/// The same through a folder of tables, whose ids are repeated in messages.
#[test]
fn nothing_of_a_folder_reaches_the_terminal_raw() {
    let bench = Bench::new();
    let bad = hostile();
    bench.put(
        "l/assemblies.csv",
        format!("tool_number,cutter,collet,stick_out\n{bad},{bad}1,C,65\n{bad},{bad},C,65\n"),
    );
    bench.put(
        "l/cutters.csv",
        format!("cutter,overall_length\n{bad},83\n{bad},83\n{bad}2,80\n"),
    );
    bench.put(
        "l/collets.csv",
        "collet,collet_size,bore_diameter\nC,32,12\n",
    );
    bench.put(
        "l/operations.csv",
        format!("operation,tool_number,reach\n{bad},{bad},50\n{bad},{bad}9,50\n"),
    );
    let toml = |text: &str| toml::Value::String(text.to_owned()).to_string();
    bench.put(
        "l/shankwise.toml",
        format!(
            "name = {}\n[rule.\"torque/not-stated\"]\nlevel = \"off\"\nreason = {}\n",
            toml(&bad),
            toml(&bad)
        ),
    );
    let path = bench.text_path("l");
    for arguments in [
        &["lint", "--color", "never", "--show", "all", &path][..],
        &["lint", "--as", "plain", "--show", "all", &path],
        &["lint", "--as", "json", "--with-facts", &path],
        &["facts", &path],
    ] {
        let output = run(arguments);
        let shown = stdout(&output);
        assert!(!shown.is_empty());
        is_tame(&shown);
        is_tame(&complaint(&output));
    }
}

/// Errors repeat what they refuse: rule files and shop files are input too.
#[test]
fn errors_are_tame() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[super::GOOD]);
    let bad = toml::Value::String(hostile()).to_string();
    let config = bench.put("plant.toml", format!("[rule.{bad}]\nlevel = \"off\"\n"));
    let raw = bench.put("raw.toml", format!("# {}\nname = 1\n", '\u{202e}'));
    for arguments in [
        &["lint", "--config", &config, &good][..],
        &["lint", "--config", &raw, &good],
        &["lint", "--only", "\u{1b}[31m\u{202e}", &good],
        &["rules", "\u{1b}[31m\u{202e}"],
        &["columns", "\u{1b}[31m\u{202e}"],
    ] {
        let output = run(arguments);
        assert_eq!(super::status(&output), 2);
        assert!(!complaint(&output).is_empty());
        is_tame(&complaint(&output));
    }
}

/// A rule is input too: what it is called, says and bounds is shown by many commands.
#[test]
fn a_rule_is_tame() {
    let bench = Bench::new();
    let bad = toml::Value::String(hostile()).to_string();
    let keys = ["title", "message", "why", "advice", "caution", "binds"];
    let mut rule: String = keys.map(|key| format!("{key} = {bad}\n")).concat();
    rule += "level = \"error\"\nbasis = \"shop\"\nconsequence = \"scrap\"\nbounds = [\"stick_out_max\"]\nexpect = \"stick_out <= most\"\n";
    let limit = format!(
        "[limit.most]\nvalue = 30\nunit = \"mm\"\nbasis = \"shop\"\nreason = {bad}\nsource = {bad}\nstricter = \"lower\"\n"
    );
    rule += &limit;
    // A warning of a tool that has an error is only named.
    let named = rule.replace("level = \"error\"", "level = \"warning\"");
    bench.put("rules/grip/named.toml", named);
    bench.put("rules/grip/mine.toml", rule);
    let rules = bench.text_path("rules");
    let short = bench.library("short.csv", &[super::SHORT]);
    for arguments in [
        &["rules", "--rules", &rules][..],
        &["rules", "--rules", &rules, "--as", "markdown"],
        &["rules", "--rules", &rules, "grip/mine"],
        &[
            "lint", "--rules", &rules, "--color", "never", "--show", "all", &short,
        ],
        &[
            "lint", "--rules", &rules, "--as", "plain", "--show", "all", &short,
        ],
        &["lint", "--rules", &rules, "--color", "never", &short],
        &["lint", "--rules", &rules, "--color", "always", &short],
        &["lint", "--rules", &rules, "--as", "plain", &short],
        &["lint", "--rules", &rules, "--as", "brief", &short],
        &["facts", "--rules", &rules, &short],
        &[
            "window",
            "--rules",
            &rules,
            "--overall-length",
            "83",
            "--stick-out",
            "40",
        ],
    ] {
        let output = run(arguments);
        let shown = stdout(&output);
        assert!(
            shown.contains("\\u{1b}"),
            "{arguments:?}: {}{shown}",
            complaint(&output)
        );
        is_tame(&without_colours(&shown));
        is_tame(&complaint(&output));
    }
}

/// A text without the program's own colours: only these end in `m` behind digits and semicolons.
fn without_colours(text: &str) -> String {
    let mut parts = text.split("\u{1b}[");
    let mut left = parts.next().unwrap_or("").to_owned();
    for part in parts {
        let (codes, rest) = part.split_once('m').expect("a colour ends");
        assert!(
            codes.chars().all(|c| c.is_ascii_digit() || c == ';'),
            "{codes:?}"
        );
        left += rest;
    }
    left
}

/// An argument that no command knows is repeated in short.
#[test]
fn a_long_argument_is_cut() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[super::GOOD]);
    let long = "x".repeat(60_000);
    for arguments in [
        &["lint", "--only", &long, &good][..],
        &["lint", "--tool", &long, &good],
        &["rules", &long],
        &["columns", &long],
        &["window", "--bore-length", &long],
    ] {
        let output = run(arguments);
        assert_eq!(super::status(&output), 2);
        let told = complaint(&output);
        assert!((1..600).contains(&told.len()), "{} characters", told.len());
    }
}
