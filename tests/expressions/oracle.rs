//! Our evaluator against an independent one for the Common Expression Language, on the subset
//! that both know. All numbers are small binary fractions, so that sums and products are exact
//! and no comparison is so near that our tolerance would decide it.

use std::fmt::Write as _;

use cel::{Context, Program};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};

use super::{NUMBERS, OTHERS, Scalar, Value, value};

fn config() -> Config {
    Config {
        cases: 256,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(15488),
        ..Config::default()
    }
}

/// The same expression by the other evaluator.
fn by_oracle(expression: &str) -> Value {
    let program = Program::compile(expression)
        .unwrap_or_else(|why| panic!("the oracle refuses {expression}: {why}"));
    let mut context = Context::default();
    for (name, _, number) in NUMBERS {
        if let Some(number) = number {
            context.add_variable(name, number).unwrap();
        }
    }
    for (name, scalar) in OTHERS {
        match scalar {
            Some(Scalar::Text(text)) => context.add_variable(name, text).unwrap(),
            Some(Scalar::Truth(truth)) => context.add_variable(name, truth).unwrap(),
            _ => {}
        }
    }
    match program.execute(&context) {
        Ok(cel::Value::Float(number)) => Value::Number(number),
        Ok(cel::Value::Bool(truth)) => Value::Truth(truth),
        Ok(cel::Value::String(text)) => Value::Text(text.to_string()),
        other => panic!("{expression}: {other:?}"),
    }
}

/// One alternative of several texts.
fn word(words: &'static [&'static str]) -> BoxedStrategy<String> {
    prop::sample::select(words).prop_map(str::to_owned).boxed()
}

/// `first op next op next …`, with no bracket but what the operands bring along: which
/// operator takes which operand is left to precedence and associativity.
fn chain(
    operand: BoxedStrategy<String>,
    operators: &'static [&'static str],
    longest: usize,
) -> BoxedStrategy<String> {
    let step = (prop::sample::select(operators), operand.clone());
    (operand, prop::collection::vec(step, 0..longest))
        .prop_map(|(first, rest)| {
            rest.into_iter().fold(first, |mut text, (sign, next)| {
                let _ = write!(text, " {sign} {next}");
                text
            })
        })
        .boxed()
}

/// Numbers and conditions nest in each other, so both grow together.
#[derive(Clone)]
struct Grammar {
    number: BoxedStrategy<String>,
    truth: BoxedStrategy<String>,
}

fn grammar(depth: usize) -> Grammar {
    let atoms = Grammar {
        number: word(&[
            "a", "b", "c", "zero", "1.0", "2.0", "0.5", "3.25", "7.0", "12.0",
        ]),
        truth: word(&["yes", "no", "true", "false"]),
    };
    (0..depth).fold(atoms, |inner, _| grow(&inner))
}

fn grow(inner: &Grammar) -> Grammar {
    let (number, truth) = (&inner.number, &inner.truth);
    let choice = |of: &BoxedStrategy<String>| {
        (truth.clone(), of.clone(), of.clone())
            .prop_map(|(test, yes, no)| format!("({test} ? {yes} : {no})"))
    };
    let factor = prop_oneof![
        4 => number.clone().prop_map(|text| bracketed(&text)),
        2 => number.clone().prop_map(|text| format!("-{}", bracketed(&text))),
        1 => choice(number),
    ]
    .boxed();
    // A divisor that is a power of two keeps every number a binary fraction.
    let quotient = (
        factor,
        word(&["", "", "", " / 2.0", " / 0.5", " / 4.0 / 0.5"]),
    )
        .prop_map(|(factor, divided)| format!("{factor}{divided}"))
        .boxed();
    let sum = chain(chain(quotient, &["*"], 2), &["+", "-"], 3);
    let truth = chain(chain(relation(&sum, truth), &["&&"], 2), &["||"], 2);
    let test = truth.clone();
    Grammar {
        number: sum,
        truth: prop_oneof![
            4 => test.clone(),
            1 => (test.clone(), test.clone(), test)
                .prop_map(|(test, yes, no)| format!("({test} ? {yes} : {no})")),
        ]
        .boxed(),
    }
}

/// Atoms stay bare, so that `-a * b` and the like are there; all else is bracketed.
fn bracketed(text: &str) -> String {
    if text.contains(' ') {
        format!("({text})")
    } else {
        text.to_owned()
    }
}

fn relation(
    number: &BoxedStrategy<String>,
    truth: &BoxedStrategy<String>,
) -> BoxedStrategy<String> {
    let signs = &["==", "!=", "<", "<=", ">", ">="][..];
    let compared = (number.clone(), prop::sample::select(signs), number.clone())
        .prop_map(|(left, sign, right)| format!("{left} {sign} {right}"));
    let listed = (number.clone(), prop::collection::vec(number.clone(), 0..3))
        .prop_map(|(item, list)| format!("{item} in [{}]", list.join(", ")));
    let text = || word(&["name", "other_name", "'EM12'", "\"DR5\"", "'µ 12°'", "''"]);
    let texts = (text(), word(&["==", "!="]), text())
        .prop_map(|(left, sign, right)| format!("{left} {sign} {right}"));
    let text_listed = (text(), prop::collection::vec(text(), 0..4))
        .prop_map(|(item, list)| format!("{item} in [{}]", list.join(", ")));
    let atom = truth.clone().prop_map(|text| bracketed(&text));
    let not = atom.clone().prop_map(|text| format!("!{text}"));
    // Relations associate to the left: `a < b == yes` is `(a < b) == yes`.
    let chained = (compared.clone(), atom.clone())
        .prop_map(|(compared, atom)| format!("{compared} == {atom}"));
    prop_oneof![
        4 => compared, 2 => listed, 2 => texts, 1 => text_listed,
        2 => atom, 2 => not, 1 => chained,
    ]
    .boxed()
}

/// Longer ones than the parser takes are of no use here.
fn short(expression: &String) -> bool {
    expression.len() < 600
}

/// White space never matters.
fn squeezed(expression: &str) -> String {
    expression
        .replace(" + ", "+")
        .replace(" * ", "*")
        .replace(" && ", "&&")
        .replace(" < ", "<")
        .replace(" ? ", "?\n\t")
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn numbers_agree_with_the_oracle(expression in grammar(2).number.prop_filter("short", short)) {
        prop_assert_eq!(value(&expression), by_oracle(&expression), "{}", expression);
    }

    #[test]
    fn conditions_agree_with_the_oracle(expression in grammar(2).truth.prop_filter("short", short)) {
        prop_assert_eq!(value(&expression), by_oracle(&expression), "{}", expression);
    }

    #[test]
    fn white_space_does_not_matter(expression in grammar(1).truth.prop_filter("short", short)) {
        prop_assert_eq!(value(&expression), value(&squeezed(&expression)), "{}", expression);
    }
}

/// Precedence and associativity where a slip would show, each with its value worked out by
/// hand and confirmed by the oracle.
#[test]
fn precedence_and_associativity() {
    let numbers = [
        ("1.0 + 2.0 * 3.0", 7.0),
        ("2.0 * 3.0 + 1.0", 7.0),
        ("10.0 - 4.0 - 3.0", 3.0),
        ("10.0 - 4.0 + 3.0", 9.0),
        ("16.0 / 4.0 / 2.0", 2.0),
        ("16.0 / 4.0 * 2.0", 8.0),
        ("-a * 3.0", -6.0),
        ("-a + 3.0", 1.0),
        ("3.0 - -a", 5.0),
        ("(1.0 + 2.0) * 3.0", 9.0),
        ("yes ? 1.0 : no ? 2.0 : 3.0", 1.0),
        ("no ? 1.0 : no ? 2.0 : 3.0", 3.0),
        ("no || yes ? 1.0 + 1.0 : 5.0", 2.0),
        ("yes ? 1.0 : 2.0 + 3.0", 1.0),
    ];
    for (expression, expected) in numbers {
        assert_eq!(value(expression), Value::Number(expected), "{expression}");
        assert_eq!(
            by_oracle(expression),
            Value::Number(expected),
            "{expression}"
        );
    }
    let truths = [
        ("yes || yes && no", true),
        ("no && yes || yes", true),
        ("(yes || yes) && no", false),
        ("!no && no", false),
        ("!(no && no)", true),
        ("1.0 + 1.0 == 2.0", true),
        ("1.0 < 2.0 == yes", true),
        ("1.0 < 2.0 && 3.0 < 2.0 || yes", true),
        ("!yes == no", true),
        ("a + 1.0 in [3.0]", true),
        ("a in [1.0, 2.0] == yes", true),
    ];
    for (expression, expected) in truths {
        assert_eq!(value(expression), Value::Truth(expected), "{expression}");
        assert_eq!(
            by_oracle(expression),
            Value::Truth(expected),
            "{expression}"
        );
    }
}
