//! What the parser refuses, where, and that no text makes it panic or exhaust the stack.

use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};
use shankwise::rulebook::parse;

use super::refusal;

fn config() -> Config {
    Config {
        cases: 256,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(6535),
        ..Config::default()
    }
}

#[test]
fn what_is_wrong_is_said_where_it_stands() {
    let refused = [
        ("", 0, "expected a value, found the end"),
        ("1 +", 3, "expected a value, found the end"),
        ("1 2", 2, "expected an operator, found a number"),
        ("a b", 2, "expected an operator, found `b`"),
        ("(a", 2, "expected `)`, found the end"),
        ("a)", 1, "expected an operator, found `)`"),
        ("a ? b", 5, "expected `:`, found the end"),
        ("a ? b : c d", 10, "expected an operator, found `d`"),
        ("min(a, )", 7, "expected a value, found `)`"),
        ("min(a b)", 6, "expected `)`, found `b`"),
        ("a = b", 2, "to compare write `==`"),
        ("a & b", 2, "write it twice"),
        ("a | b", 2, "write it twice"),
        ("a == 'drill", 5, "this text is never closed"),
        ("a == \"drill'", 5, "this text is never closed"),
        ("a % b", 2, "unexpected `%`"),
        ("a.", 1, "unexpected `.`"),
        ("3e5", 1, "expected an operator, found `e5`"),
        ("2 mmm", 2, "expected an operator, found `mmm`"),
        ("2 inch", 2, "expected an operator, found `inch`"),
        ("2 N·mm", 3, "unexpected `·`"),
        ("a in b c", 7, "expected an operator, found `c`"),
        ("[1, 2", 5, "expected `]`, found the end"),
        ("\u{1b}[31m", 0, "unexpected `\\u{1b}`"),
    ];
    for (text, at, message) in refused {
        let (span, said) = parse(text).expect_err(text);
        assert_eq!(span.start, at, "{text}: {said}");
        assert!(said.contains(message), "{text}: {said}");
        assert!(!said.contains('\u{1b}'), "{text}: raw control character");
    }
}

#[test]
fn functions_and_lists_have_their_places() {
    let refused = [
        (
            "mini(a, b)",
            "there is no function `mini`; did you mean `min`?",
        ),
        ("sine(a)", "there are known, min, max and abs"),
        ("known()", "`known` takes one argument"),
        ("abs(a, b)", "`abs` takes one argument"),
        ("min(a)", "`min` takes two or more arguments"),
        ("a in b", "expected a list such as"),
        ("[a, b] == a", "a list is allowed only after `in`"),
        ("[a]", "a list is allowed only after `in`"),
        ("gripp > 2 mm", "unknown name `gripp`; did you mean `grip`?"),
        (
            "known(nothin)",
            "unknown name `nothin`; did you mean `nothing`?",
        ),
    ];
    for (expression, message) in refused {
        let said = refusal(expression);
        assert!(said.contains(message), "{expression}: {said}");
    }
}

/// A file from anywhere must not be able to exhaust the stack, whichever way it nests.
#[test]
fn deep_nesting_is_refused() {
    for text in nested(80) {
        let (_, said) = parse(&text).expect_err("nested too deeply");
        assert!(said.contains("nested too deeply"), "{said}");
    }
    for text in nested(10_000) {
        assert!(parse(&text).is_err());
    }
    // What an engineer writes is far from the bound.
    let tame = format!("{}a{}", "(".repeat(20), ")".repeat(20));
    assert!(parse(&tame).is_ok());
}

fn nested(many: usize) -> [String; 9] {
    [
        format!("{}a{}", "(".repeat(many), ")".repeat(many)),
        "(".repeat(many),
        format!("{}a", "!".repeat(many)),
        format!("{}a", "-".repeat(many)),
        format!("{}a", "-(".repeat(many)),
        "[".repeat(many),
        "abs(".repeat(many),
        "a in [".repeat(many),
        format!("{}a", "yes ? a : ".repeat(many)),
    ]
}

/// A long sum nests to the left without a single bracket.
#[test]
fn a_chain_without_end_is_refused() {
    for sign in ["+", "*", "==", "&&", "||", "<", "in"] {
        let chain = vec!["a"; 100_000].join(&format!(" {sign} "));
        let (_, said) = parse(&chain).expect_err("too long");
        assert!(said.contains("too long"), "{said}");
    }
    let tame = vec!["a"; 100].join(" + ");
    assert!(parse(&tame).is_ok());
}

/// Pieces of the language in any order reach deeper than arbitrary characters do.
fn soup() -> impl Strategy<Value = String> {
    let pieces = prop::sample::select(vec![
        "(",
        ")",
        "[",
        "]",
        ",",
        "?",
        ":",
        "!",
        "-",
        "+",
        "*",
        "/",
        "&&",
        "||",
        "==",
        "<=",
        "<",
        "in",
        "known",
        "min",
        "a",
        "a.b",
        "true",
        "2",
        "0.5",
        "2 mm",
        "3 N·m",
        "1/min",
        "'",
        "\"",
        "'drill'",
        ".",
        "·",
        "µ",
        " ",
        "\u{feff}",
        "999999999999999999999999",
    ]);
    prop::collection::vec(pieces, 0..40).prop_map(|pieces| pieces.concat())
}

/// Parses; a refusal must point into the text, between characters.
fn is_judged(text: &str) {
    if let Err((span, message)) = parse(text) {
        assert!(text.get(span.range()).is_some(), "{span:?} in {text:?}");
        assert!(!message.is_empty());
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn no_text_makes_it_panic(text in "\\PC{0,60}") {
        is_judged(&text);
    }

    #[test]
    fn no_bytes_make_it_panic(text in any::<Vec<char>>()) {
        is_judged(&text.into_iter().collect::<String>());
    }

    #[test]
    fn no_soup_of_pieces_makes_it_panic(text in soup()) {
        is_judged(&text);
    }
}

/// A number of any length is a number, but not one that no float can hold.
#[test]
fn a_number_too_large_is_refused() {
    let text = "9".repeat(400);
    let (span, said) = parse(&format!("a < {text}")).expect_err("400 nines");
    assert_eq!(span.start, 4);
    assert!(said.contains("too large"), "{said}");
}
