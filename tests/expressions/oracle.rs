//! Our evaluator against an independent one for the Common Expression Language, on the subset
//! that both know. All numbers are small binary fractions, so that sums and products are exact
//! and no comparison is so near that our tolerance would decide it.

use cel::{Context, Program};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};
use shankwise::units::Scalar;

use super::grammar::grammar;
use super::{NUMBERS, OTHERS, Value, value};

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

/// Longer ones than the parser takes are of no use here.
fn short(expression: impl AsRef<str>) -> bool {
    expression.as_ref().len() < 600
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
    fn numbers_agree_with_the_oracle(expression in grammar(2).number.prop_filter("short", |text| short(text))) {
        prop_assert_eq!(value(&expression), by_oracle(&expression), "{}", expression);
    }

    #[test]
    fn conditions_agree_with_the_oracle(expression in grammar(2).truth.prop_filter("short", |text| short(text))) {
        prop_assert_eq!(value(&expression), by_oracle(&expression), "{}", expression);
    }

    #[test]
    fn white_space_does_not_matter(expression in grammar(1).truth.prop_filter("short", |text| short(text))) {
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
