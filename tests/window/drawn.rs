//! The answer to a quick question as a drawing: true to scale, and well-formed.

use std::collections::BTreeMap;

use crate::support::{QUESTION, elements, run};

#[test]
fn the_drawing_has_the_lengths_of_the_question() {
    let output = run(&[&["window", "--as", "svg"], QUESTION].concat());
    assert_eq!(output.status.code(), Some(0));
    let text = String::from_utf8(output.stdout).unwrap();
    let mut seen = BTreeMap::new();
    for (_, own) in elements(&text) {
        let number = |key: &str| own[key].parse::<f64>().unwrap();
        if let Some(fact) = own.get("data-fact") {
            seen.insert(fact.clone(), number("x2") - number("x1"));
        }
    }
    assert!((seen["bore_length"] - 40.0).abs() < 0.01, "{seen:?}");
    assert!((seen["overall_length"] - 83.0).abs() < 0.01, "{seen:?}");
    assert!(
        seen.contains_key("stick_out") && seen.contains_key("gripped_length"),
        "{seen:?}"
    );
}

#[test]
fn what_cannot_be_drawn_is_refused() {
    let lint = run(&["lint", "fixtures/clean", "--as", "svg"]);
    assert_eq!(lint.status.code(), Some(2));
    let told = String::from_utf8(lint.stderr).unwrap();
    assert!(told.contains("only `window` draws svg"), "{told}");
}
