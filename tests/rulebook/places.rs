//! Places inside TOML texts, however the text is written.

use super::{changed, load_files, place_of};

const NAME: &str = "reach/long-overhang.toml";

/// Line and column of the one error.
fn position(text: &str) -> (usize, usize) {
    let errors = load_files(&[(NAME, text)]).expect_err("a slip in a name");
    assert_eq!(errors.len(), 1, "{errors:?}");
    assert!(
        errors[0].message.contains("unknown name `stick_ot`"),
        "{}",
        errors[0]
    );
    (errors[0].position.line, errors[0].position.column)
}

/// Written without escapes, the place is exact: also in literal and multi-line texts.
#[test]
fn exact_without_escapes() {
    for line in [
        "message = 'sticks out {stick_ot}'",
        "message   =   \"sticks out {stick_ot}\"   # a comment",
        "message = \"°·µ {stick_ot}\"",
        "message = \"\"\"sticks out\n  and further out\n  by {stick_ot}\n\"\"\"",
        "message = \"\"\"\nsticks out {stick_ot}\"\"\"",
        "message = '''\n{stick_ot}'''",
    ] {
        let text = changed("message", line);
        assert_eq!(position(&text), place_of(&text, "stick_ot}"), "{line}");
    }
}

/// With escapes the whole value is the place: its line is right, its column the value's start.
#[test]
fn the_value_where_there_are_escapes() {
    for line in [
        "message = \"a \\\"long\\\" one: {stick_ot}\"",
        "message = \"\\u00b5: {stick_ot}\"",
        "message = \"two\\nlines: {stick_ot}\"",
        "message = \"\"\"goes \\\n   on: {stick_ot}\"\"\"",
    ] {
        let text = changed("message", line);
        let (at, column) = place_of(&text, "message = ");
        assert_eq!(position(&text), (at, column + 10), "{line}");
    }
}

/// A file as saved on another system: the same lines.
#[test]
fn with_carriage_returns() {
    let text = changed("message", "message = \"sticks out {stick_ot}\"");
    let crlf = text.replace('\n', "\r\n");
    assert_eq!(position(&crlf), place_of(&text, "stick_ot}"));
    let marked = format!("\u{feff}{text}");
    assert_eq!(position(&marked), place_of(&text, "stick_ot}"));
}

/// What is no TOML at all is refused at its place too.
#[test]
fn broken_toml() {
    let text = changed("why", "why = \"it bends");
    let errors = load_files(&[(NAME, &text)]).unwrap_err();
    assert_eq!(errors[0].position.line, place_of(&text, "why").0);
    let text = changed("level", "level = warning");
    let errors = load_files(&[(NAME, &text)]).unwrap_err();
    assert_eq!(errors[0].position.line, 2);
    let errors = load_files(&[(NAME, "a\0b")]).unwrap_err();
    assert!(errors[0].message.contains("byte 2"), "{}", errors[0]);
}
