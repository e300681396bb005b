//! Limits have limits: a value in which a limit makes no sense is refused where it stands.

use shankwise::rulebook::{Limit, Rule};

use super::refused::{NAME, line_refused};
use super::{RULE, Shop, changed, load_files, place_of, tool};
use crate::support::built_in;

/// All limits that are part of the program, shared ones and those of rules.
fn all(of: &[Limit], rules: &[Rule]) -> Vec<Limit> {
    let own = rules.iter().flat_map(|rule| &rule.limits);
    of.iter().chain(own).cloned().collect()
}

#[test]
fn every_limit_says_in_which_range_it_makes_sense() {
    let book = built_in().book;
    let limits = all(&book.limits, &book.rules);
    assert!(limits.len() > 50);
    for limit in limits {
        let (Some((min, _)), Some((max, _))) = (&limit.range.min, &limit.range.max) else {
            panic!("{}: no `min` or no `max`", limit.name);
        };
        assert!(min < max, "{}", limit.name);
        // A range so tight that the value cannot be moved would be no range.
        assert!(
            limit.range.takes(limit.value * 0.98) && limit.range.takes(limit.value * 1.02)
                || limit.value == *min
                || limit.value == *max,
            "{}: {} is all that its range leaves",
            limit.name,
            limit.value
        );
    }
}

/// The refusal of a shop file, as the library's own and as the plant's.
#[track_caller]
fn refused(text: &str, needle: &str, words: &str) {
    for file in ["cell/shankwise.toml", "plant/shankwise.toml"] {
        let shop = Shop::new(&[("cell/tools.csv", &tool(40.0)), (file, text)]);
        let error = shop.refusal();
        assert!(error.message.contains(words), "{error}");
        let position = (error.position.line, error.position.column);
        assert_eq!(position, place_of(text, needle), "{error}");
    }
}

#[test]
fn a_shared_limit_outside_its_range() {
    refused(
        "name = \"cell 3\"\n[limit]\nlength_tolerance = \"0.5 mm\"\n",
        "\"0.5 mm\"",
        "`length_tolerance` must be from 0.001 mm to 0.05 mm",
    );
    for fraction in ["\"1/3\"", "0", "-1", "1.01", "66.7", "\"499/1000\""] {
        refused(
            &format!("[limit]\nmin_grip_fraction = {fraction}\n"),
            fraction,
            "`min_grip_fraction` must be from 1/2 to 1",
        );
    }
}

#[test]
fn a_rules_own_limit_outside_its_range() {
    refused(
        "[rule.\"grip/flutes-in-bore\".limit]\nrun_out_allowance = \"1 in\"\n",
        "\"1 in\"",
        "`run_out_allowance` must be from 0 mm to 10 mm",
    );
}

/// Both ends belong to the range.
#[test]
fn the_ends_are_taken() {
    for fraction in ["\"1/2\"", "0.5", "1", "\"0.75\""] {
        let text = format!("[limit]\nmin_grip_fraction = {fraction}\n");
        let shop = Shop::new(&[
            ("cell/tools.csv", &tool(40.0)),
            ("cell/shankwise.toml", &text),
        ]);
        assert!(shop.setup().is_ok(), "{fraction}");
    }
}

#[test]
fn a_rule_file_keeps_to_its_own_range() {
    line_refused(
        "value",
        "value = 4\nmin = 5",
        "4\nmin",
        "`slenderness` must be from 5",
    );
    line_refused(
        "value",
        "value = 4\nmin = 5\nmax = 3",
        "4\nmin",
        "must be from 5 to 3",
    );
    line_refused(
        "value",
        "value = 4\nmax = \"much\"",
        "\"much\"",
        "expected a number",
    );
    // A shop's own rule may leave the range out.
    assert!(load_files(&[(NAME, RULE)]).is_ok());
    let with = changed("value", "value = 4\nmax = 4");
    assert!(load_files(&[(NAME, &with)]).is_ok());
}
