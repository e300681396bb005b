//! Advice for a job's reach says which clearance it keeps, where the job states none.

use shankwise::advice::advise;
use shankwise::judge::judge;

use super::{Cell, tool};
use crate::support::options;

/// The advice on a tool that is too short for a reach of 45 mm.
fn advice(clearance: &str, shop: &str) -> String {
    let row = [
        ("stick_out", "40"),
        ("reach", "45"),
        ("clearance", clearance),
    ];
    let cell = Cell::flat(&tool(&row), shop);
    let mut report = judge(&cell.library, &cell.setup, &options());
    let _ = advise(&cell.library, &cell.setup, &options(), false, &mut report);
    let mut findings = report.findings.into_iter();
    let short = findings.find(|finding| finding.rule == "reach/too-short-for-the-job");
    short.expect("it is too short").advice.to_string()
}

#[test]
fn an_unstated_clearance_is_kept_and_said() {
    let unstated = advice("", "");
    assert!(
        unstated.starts_with("set the stick-out to 46.5 mm"),
        "{unstated}"
    );
    let says = "this keeps 1.0 mm of clearance, because none is stated";
    assert!(unstated.contains(says), "{unstated}");
}

#[test]
fn the_shops_own_clearance_is_said_to_be_the_shops() {
    let own = advice("", "[default]\nclearance = \"2 mm\"\n");
    assert!(own.starts_with("set the stick-out to 47.5 mm"), "{own}");
    assert!(
        own.contains("this keeps the shop's 2.0 mm of clearance"),
        "{own}"
    );
}

#[test]
fn a_stated_clearance_needs_no_word() {
    let stated = advice("3", "");
    assert!(
        stated.starts_with("set the stick-out to 48.5 mm"),
        "{stated}"
    );
    assert!(!stated.contains("of clearance"), "{stated}");
}
