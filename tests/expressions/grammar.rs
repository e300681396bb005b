//! Expressions at random, in the grammar that both evaluators know.

use std::fmt::Write as _;

use proptest::prelude::*;

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
pub(super) struct Grammar {
    pub(super) number: BoxedStrategy<String>,
    pub(super) truth: BoxedStrategy<String>,
}

pub(super) fn grammar(depth: usize) -> Grammar {
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
