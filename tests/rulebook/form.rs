//! Rule files whose form is refused: keys, limits, names of files and rules.

use super::refused::{NAME, line_refused, refused};
use super::{RULE, changed, load_files, place_of};

#[test]
fn unknown_keys_and_words_of_the_file_itself() {
    line_refused(
        "why",
        "wy = \"it bends\"",
        "wy",
        "unknown key `wy`; did you mean `why`?",
    );
    line_refused(
        "level",
        "level = \"warnin\"",
        "\"warnin\"",
        "unknown word `warnin`; did you mean `warning`?",
    );
    line_refused(
        "basis",
        "basis = \"hearsay\"",
        "\"hearsay\"",
        "unknown word `hearsay`; expected one of: standard, textbook, manufacturer's limit, common practice, from memory, shop",
    );
    line_refused(
        "consequence",
        "consequence = \"scrapp\"",
        "\"scrapp\"",
        "did you mean `scrap`?",
    );
    line_refused(
        "reason",
        "resaon = \"a habit\"",
        "resaon",
        "unknown key `resaon`; did you mean `reason`?",
    );
    let text = RULE.to_owned() + "\n[[milder]]\nwhen = \"held_in_collet\"\nlevle = \"note\"\n";
    refused(NAME, &text, "levle", "did you mean `level`?");
    let text = changed("title", "bounds = [\"stick_out_minn\"]\ntitle = \"t\"");
    refused(
        NAME,
        &text,
        "\"stick_out_minn\"",
        "did you mean `stick_out_min`?",
    );
}

/// Every limit has its unit, basis and reason, or the file does not load.
#[test]
fn a_limit_that_lacks_something() {
    for key in ["value", "unit", "reason", "stricter"] {
        let text = changed(key, "");
        let errors = load_files(&[(NAME, &text)]).expect_err(key);
        let said = &errors[0].message;
        assert!(said.contains(&format!("missing field `{key}`")), "{said}");
        assert_eq!(errors[0].position.line, place_of(&text, "[limit.").0);
    }
}

#[test]
fn a_limit_in_a_unit_that_is_none() {
    line_refused(
        "unit",
        "unit = \"inch\"",
        "\"inch\"",
        "`inch` is not one of the units: mm, 1, N, N·m",
    );
    line_refused(
        "value",
        "value = \"4 mm\"",
        "\"4 mm\"",
        "`mm` does not measure this",
    );
    line_refused(
        "value",
        "value = \"4 xyzzy\"",
        "\"4 xyzzy\"",
        "the unit `xyzzy` is not known",
    );
    line_refused("value", "value = \"four\"", "\"four\"", "expected");
    line_refused(
        "value",
        "value = true",
        "true",
        "expected a number, or a text",
    );
    line_refused(
        "value",
        "value = \"2/0\"",
        "\"2/0\"",
        "a fraction over zero",
    );
    line_refused("value", "value = nan", "nan", "");
    line_refused("value", "value = inf", "inf", "");
}

#[test]
fn one_name_for_two_limits() {
    // A shared limit of the built-in table, in a rule file.
    let text = RULE.replace("slenderness", "min_grip_fraction");
    let words = "`min_grip_fraction` is already defined; choose another name";
    refused(NAME, &text, "min_grip_fraction]", words);
    // A fact's name.
    let text = RULE.replace("slenderness", "grip_fraction");
    refused(NAME, &text, "grip_fraction]", "is already defined");
    // A property's name.
    let text = RULE.replace("slenderness", "stick_out");
    refused(NAME, &text, "stick_out]", "is already defined");
    // A shared limit, in a second table.
    let limit = &RULE[RULE.find("[limit").unwrap()..];
    let table = limit.replace("slenderness", "min_grip_fraction");
    refused(
        "tables/limits.toml",
        &table,
        "min_grip_fraction",
        "is already defined",
    );
    // Twice in one file.
    let text = format!("{RULE}\n{limit}");
    let errors = load_files(&[(NAME, &text)]).unwrap_err();
    assert_eq!(errors[0].position.line, RULE.lines().count() + 2);
    // Two rules may each have a limit of the same name: it is private.
    assert!(load_files(&[(NAME, RULE), ("reach/other.toml", RULE)]).is_ok());
}

#[test]
fn a_file_name_that_is_no_rules_name() {
    for name in [
        "reach/Slender.toml",
        "reach/slender_overhang.toml",
        "reach/slender overhang.toml",
        "slender.toml",
        "reach/a/b.toml",
        "/slender.toml",
        "reach/.toml",
    ] {
        let errors = load_files(&[(name, RULE)]).expect_err(name);
        let said = &errors[0].message;
        assert!(
            said.contains("is not a rule name; expected topic/rule-name.toml"),
            "{said}"
        );
        assert_eq!(errors[0].position.line, 1);
    }
}

#[test]
fn one_name_for_two_rules() {
    refused(
        "grip/short-grip.toml",
        RULE,
        "title",
        "rule `grip/short-grip` is already defined; change it in shankwise.toml, or choose another name",
    );
}

/// Only the words for a fault of form have no `expect`.
#[test]
fn a_rule_without_expectation() {
    refused(
        NAME,
        &changed("expect", ""),
        "title",
        "a rule needs `expect`",
    );
}

#[test]
fn a_rule_beside_one_that_there_is_not() {
    let text = changed("basis", "basis = \"shop\"\nbeside = \"grip/no-such-rule\"");
    refused(
        NAME,
        &text,
        "grip/no-such-rule",
        "there is no rule `grip/no-such-rule` to be shown beside",
    );
}

/// A comment may name the same rule: the place is that of the key.
#[test]
fn a_lost_host_is_shown_at_its_key() {
    let text = changed(
        "basis",
        "# once beside grip/no-such-rule\nbasis = \"shop\"\nbeside = \"grip/no-such-rule\"",
    );
    let errors = load_files(&[(NAME, &text)]).expect_err("no such rule");
    assert_eq!(errors[0].line, "beside = \"grip/no-such-rule\"");
    assert_eq!(errors[0].position.column, 11);
}

/// What an answer stands for is a key of rules that give one.
#[test]
fn only_a_rule_can_judge_the_grip() {
    for key in ["judges_grip", "judges_reach", "stops_advice"] {
        let line = format!("basis = \"shop\"\n{key} = true");
        let book = load_files(&[(NAME, &changed("basis", &line))]).expect(key);
        let stands_for = book.rule("reach/long-overhang").unwrap().stands_for;
        let all = [stands_for.grip, stands_for.reach, stands_for.stop];
        assert_eq!(all.iter().filter(|yes| **yes).count(), 1, "{key}");
        let line = format!("basis = \"shop\"\n{key} = \"yes\"");
        refused(
            NAME,
            &changed("basis", &line),
            "\"yes\"",
            "expected a boolean",
        );
    }
}

/// Words for a fault of form may use only what the fault brings along.
#[test]
fn a_fault_word_that_the_fault_does_not_bring() {
    let mut pack = shankwise::rulebook::built_in();
    let file = pack
        .files
        .iter_mut()
        .find(|(name, ..)| name == "record/part-twice.toml")
        .expect("the words are there");
    file.2 = file.2.replace("{id}", "{idd}");
    let names = shankwise::judge::VocabularyNames;
    let errors = shankwise::rulebook::Rulebook::load(&[pack], &names).unwrap_err();
    assert!(
        errors[0]
            .message
            .contains("has no word `idd`; it has: part, id, line"),
        "{}",
        errors[0]
    );
}

/// What is wrong in one file does not hide what is wrong in another.
#[test]
fn every_file_is_looked_at() {
    let text = changed("when", "when = \"held_in_colet\"");
    let errors = load_files(&[("reach/one.toml", &text), ("reach/two.toml", &text)]).unwrap_err();
    let files: Vec<_> = errors.iter().map(|error| error.file.as_str()).collect();
    assert_eq!(files, ["reach/one.toml", "reach/two.toml"]);
}

/// A rule is one on an operation if it names an operation's fact or property anywhere.
#[test]
fn a_rule_on_an_operation_is_found_out() {
    for (key, line) in [
        ("when", "when = \"known(reach)\""),
        (
            "expect",
            "expect = \"reach_margin >= 0 mm || slenderness < 1\"",
        ),
        ("message", "message = \"{clearance}\""),
        ("why", "why = \"{reach_needed}\""),
        ("advice", "advice = \"{operation_kind}\""),
    ] {
        let text = changed(key, line);
        let book = load_files(&[(NAME, &text)]).unwrap_or_else(|e| panic!("{line}: {e:?}"));
        let rule = book.rule("reach/long-overhang").unwrap();
        assert!(rule.of_operation, "{line}");
    }
    let text = RULE.to_owned() + "\n[[milder]]\nwhen = \"finishing\"\nlevel = \"note\"\n";
    let book = load_files(&[(NAME, &text)]).unwrap();
    assert!(book.rule("reach/long-overhang").unwrap().of_operation);
}
