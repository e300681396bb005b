//! Unknown values: what is missing is never taken for a yes or a no.

use super::{Value, fails, holds, not_known, value};

/// The table of `&&`, `||` and `!` over true, false and unknown, both ways round.
#[test]
fn one_side_may_decide_alone() {
    for (a, b) in [("no", "unknown"), ("unknown", "no")] {
        fails(&format!("{a} && {b}"));
        not_known(&format!("{a} || {b}"));
    }
    for (a, b) in [("yes", "unknown"), ("unknown", "yes")] {
        holds(&format!("{a} || {b}"));
        not_known(&format!("{a} && {b}"));
    }
    not_known("unknown && unknown");
    not_known("unknown || unknown");
    not_known("!unknown");
    // Comparisons inside count as unknown sides too.
    fails("no_length > 2 mm && no");
    holds("yes || nothing == 1");
}

#[test]
fn a_choice_evaluates_only_the_branch_taken() {
    assert_eq!(value("yes ? a : nothing"), Value::Number(2.0));
    assert_eq!(value("no ? nothing : a"), Value::Number(2.0));
    not_known("no ? a : nothing");
    not_known("yes ? nothing : a");
    not_known("unknown ? a : a");
    // The branch not taken may divide by zero.
    assert_eq!(value("yes ? a : a / zero"), Value::Number(2.0));
}

#[test]
fn known_is_never_unknown() {
    holds("known(a)");
    holds("known(kind)");
    holds("known(no)");
    for missing in ["nothing", "no_length", "no_name", "unknown"] {
        fails(&format!("known({missing})"));
        holds(&format!("!known({missing})"));
    }
    fails("known(a + nothing)");
    fails("known(a / zero)");
    holds("known(no && unknown)");
    fails("known(yes && unknown)");
}

#[test]
fn anything_else_with_an_unknown_is_unknown() {
    for expression in [
        "-nothing",
        "abs(nothing)",
        "min(a, nothing)",
        "min(nothing, a)",
        "max(a, nothing, 5)",
        "max(no_length, 3 mm)",
        "a + nothing",
        "nothing - a",
        "nothing * zero",
        "zero / nothing",
        "nothing == nothing",
        "nothing != 1",
        "a < nothing",
        "nothing >= a",
        "no_name == 'EM12'",
        "unknown == yes",
        "nothing in [1, 2]",
        "no_name in ['EM12']",
        "a in [1, nothing]",
        "a in [2, nothing]",
        "a in [nothing, 2]",
        "no_name in []",
    ] {
        not_known(expression);
    }
    fails("a in []");
}

/// A division by zero has no value: it is neither infinite nor true.
#[test]
fn a_division_by_zero_is_unknown() {
    for expression in [
        "a / zero",
        "zero / zero",
        "a / zero > 1",
        "a / (b - b) == 1",
    ] {
        not_known(expression);
    }
}
