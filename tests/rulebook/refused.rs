//! Expressions and messages of rule files that are refused, each at its line and column, with
//! what was meant.

use super::{RULE, changed, load_files, place_of};

/// Asserts that the file is refused where `needle` stands, with words that say why.
#[track_caller]
pub(super) fn refused(name: &str, text: &str, needle: &str, words: &str) {
    let errors = load_files(&[(name, text)]).expect_err(needle);
    assert_eq!(errors.len(), 1, "{errors:?}");
    let error = &errors[0];
    assert!(error.message.contains(words), "{error}");
    let position = (error.position.line, error.position.column);
    assert_eq!(position, place_of(text, needle), "{error}");
    assert_eq!(error.file, name);
    assert_eq!(Some(error.line.as_str()), text.lines().nth(position.0 - 1));
}

pub(super) const NAME: &str = "reach/long-overhang.toml";

#[track_caller]
pub(super) fn line_refused(key: &str, line: &str, needle: &str, words: &str) {
    refused(NAME, &changed(key, line), needle, words);
}

#[test]
fn the_rule_itself_loads() {
    let book = load_files(&[(NAME, RULE)]).expect("it loads");
    let rule = book.rule("reach/long-overhang").expect("it is there");
    assert_eq!(rule.level.name(), "warning");
    assert_eq!(rule.limits[0].value, 4.0);
    assert!(!rule.of_operation);
}

#[test]
fn a_part_to_buy_that_advice_has_no_words_for() {
    let demands = "level = \"warning\"\ndemands = [\"cutting_diameter >= 12 mm\"]";
    let words = "advice has no words for a part with `cutting_diameter >=`";
    refused(
        NAME,
        &changed("level", demands),
        "\"cutting_diameter",
        words,
    );
}

#[test]
fn only_a_property_is_doubted() {
    let doubts = "level = \"warning\"\ndoubts = [\"2 * overall_length\"]";
    let words = "only a property can be doubted";
    refused(NAME, &changed("level", doubts), "\"2 * overall", words);
}

/// Both numbers spelled out once: line 6, column 11.
#[test]
fn line_and_column_count_from_one() {
    let text = changed("expect", "expect = \"overhang_ration <= slenderness\"");
    let errors = load_files(&[(NAME, &text)]).unwrap_err();
    let position = errors[0].position;
    assert_eq!((position.line, position.column), (6, 11));
    assert_eq!(
        errors[0].to_string(),
        "reach/long-overhang.toml:6:11: unknown name `overhang_ration`; did you mean `overhang_ratio`?"
    );
}

/// What an assumption does not lower is named by limits that there are.
#[test]
fn despite_what_there_is_not() {
    let text = format!(
        "{RULE}\n[[certain]]\nwhen = \"overhang_ratio > 9\"\ndespite = [\"friction_shank\"]\n"
    );
    refused(
        NAME,
        &text,
        "\"friction_shank\"",
        "there is no shared limit `friction_shank`",
    );
}

#[test]
fn a_slip_in_a_name() {
    line_refused(
        "expect",
        "expect = \"overhang_ratio <= slendernes\"",
        "slendernes\"",
        "unknown name `slendernes`; did you mean `slenderness`?",
    );
    line_refused(
        "when",
        "when = \"held_in_colet\"",
        "held_in_colet",
        "did you mean `held_in_collet`?",
    );
    line_refused(
        "expect",
        "expect = \"quite_another_thing <= 4\"",
        "quite_another",
        "`shankwise columns` and `shankwise facts --list` name them all",
    );
}

#[test]
fn a_slip_in_a_placeholder() {
    for key in ["message", "why", "advice"] {
        line_refused(
            key,
            &format!("{key} = \"µ: {{stick_out}} and {{stick_ot}}\""),
            "stick_ot}",
            "unknown name `stick_ot`; did you mean `stick_out`?",
        );
    }
    line_refused(
        "message",
        "message = \"{overhang_ratio:%} of {grip_fractoin:%}\"",
        "grip_fractoin",
        "did you mean `grip_fraction`?",
    );
    line_refused(
        "message",
        "message = \"sticks out {stick_out\"",
        "{stick_out",
        "a brace without its other half",
    );
    line_refused(
        "message",
        "message = \"sticks out stick_out}\"",
        "}\"",
        "a brace without its other half",
    );
    line_refused(
        "message",
        "message = \"{}\"",
        "}\"",
        "expected a value, found the end",
    );
}

#[test]
fn what_measures_different_things() {
    line_refused(
        "expect",
        "expect = \"stick_out <= nut_torque\"",
        "nut_torque\"",
        "cannot compare a length and a torque",
    );
    line_refused(
        "expect",
        "expect = \"stick_out <= slenderness\"",
        "slenderness\"",
        "cannot compare a length and a plain number; a number without unit is a plain number",
    );
    line_refused(
        "when",
        "when = \"cutter_kind == 4\"",
        "4\"",
        "cannot compare a word and a plain number",
    );
}

#[test]
fn an_unknown_word() {
    line_refused(
        "when",
        "when = \"cutter_kind in ['drill', 'endmill']\"",
        "'endmill'",
        "'endmill' is never the value; did you mean 'end mill'?",
    );
    line_refused(
        "when",
        "when = \"front_is == 'flutes'\"",
        "'flutes'",
        "did you mean 'flute'?",
    );
}

#[test]
fn an_expectation_that_is_no_condition() {
    line_refused(
        "expect",
        "expect = \"overhang_ratio\"",
        "overhang_ratio\"",
        "expected a condition, found a plain number",
    );
    line_refused(
        "when",
        "when = \"cutter_kind\"",
        "cutter_kind",
        "expected a condition, found a word",
    );
    line_refused(
        "expect",
        "expect = \"overhang_ratio = 4\"",
        "= 4",
        "to compare write `==`",
    );
}

#[test]
fn a_name_that_several_records_share() {
    line_refused(
        "when",
        "when = \"collet_size == 32\"",
        "collet_size",
        "several records have `collet_size`; write one of: collet.collet_size, nut.collet_size, holder.collet_size",
    );
    let text = changed("when", "when = \"collet.collet_size == 32\"");
    assert!(load_files(&[(NAME, &text)]).is_ok());
}
