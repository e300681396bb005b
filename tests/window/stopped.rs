//! Where the record is wrong nothing is built on it: no window, no remedy, no "push it in".

use shankwise::advice::advise;
use shankwise::judge::{Options, judge};

use super::shop::{OWN, rule};
use super::{Cell, tool};
use crate::support::options;

const ID: &str = "reach/shop-own";

/// A shop's rule by which the record of a tool is wrong; `key` is what it stands for.
fn cell(key: &str, stick_out: &str) -> Cell {
    accepting("", key, stick_out)
}

/// The same where the shop's file goes on with `accepted`.
fn accepting(accepted: &str, key: &str, stick_out: &str) -> Cell {
    let own = rule("error", "[]", "stick_out <= own", "60");
    Cell::new(&[
        ("assemblies.csv", &tool(&[("stick_out", stick_out)])),
        (
            "shankwise.toml",
            &format!("{}{accepted}", super::shop::FOLDER),
        ),
        (OWN, &format!("{key}\n{own}")),
    ])
}

/// Every advice, and how many windows and remedies there are.
fn advised(cell: &Cell) -> (Vec<(String, String)>, usize, usize) {
    let options = Options {
        with_facts: true,
        ..options()
    };
    let mut report = judge(&cell.library, &cell.setup, &options);
    let advice = advise(&cell.library, &cell.setup, &options, true, &mut report);
    let all = report.findings.iter();
    let all = all.map(|finding| (finding.rule.clone(), finding.advice.to_string()));
    (
        all.collect(),
        advice.windows.iter().flatten().count(),
        advice.remedies.iter().flatten().count(),
    )
}

#[test]
fn nobody_is_told_to_move_a_tool_whose_record_is_wrong() {
    let (all, windows, remedies) = advised(&cell("stops_advice = true", "65"));
    assert_eq!((windows, remedies), (0, 0));
    // The torque has to do with no length, and is said all the same.
    let rules: Vec<&str> = all.iter().map(|(rule, _)| rule.as_str()).collect();
    assert_eq!(rules, [ID, "torque/not-stated"]);
    assert_eq!(all[0].1, "move it");
    assert!(all[1].1.starts_with("take the torque"), "{all:?}");
}

/// An accepted finding proves no length wrong: what rests on it is found, and not advised.
#[test]
fn who_accepts_a_wrong_length_still_sees_what_it_means() {
    let accepted = format!(
        "[[accept]]\nrule = \"{ID}\"\ntool_number = \"7\"\nreason = \"measured\"\nby = \"tool room\"\n"
    );
    let cell = accepting(&accepted, "stops_advice = true", "65");
    let (all, windows, _) = advised(&cell);
    assert_eq!(windows, 0);
    let short = all.iter().find(|(rule, _)| rule == "grip/short-grip");
    let (_, advice) = short.expect("it is short");
    assert_eq!(
        advice,
        "correct the record first (reach/shop-own): it allows no other advice"
    );
}

/// The same rule without the key, or where it holds, stops nothing.
#[test]
fn what_stops_nothing_stops_nothing() {
    for (key, stick_out) in [
        ("", "65"),
        ("stops_advice = false", "65"),
        ("stops_advice = true", "58"),
    ] {
        let (all, windows, _) = advised(&cell(key, stick_out));
        assert_eq!(windows, 1, "{key}");
        let short = all.iter().find(|(rule, _)| rule == "grip/short-grip");
        let (_, advice) = short.expect("it is short");
        assert!(advice.contains("set the stick-out to"), "{key}: {advice}");
    }
}
