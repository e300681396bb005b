//! Findings that the shop accepts, until a day.

use shankwise::judge::{Report, Verdict};

use super::{Shop, levels, tool};
use crate::support::adds_up;

const GRIP: &str = "grip/short-grip";

fn report(more: &str) -> Report {
    let accept = format!(
        "[[accept]]\nrule = \"grip/short-grip\"\ntool_number = \"7\"\nreason = \"trial cut\"\nby = \"shift lead\"\n{more}"
    );
    let shop = Shop::new(&[
        ("cell/tools.csv", &tool(26.0)),
        ("cell/shankwise.toml", &accept),
    ]);
    shop.report()
}

/// The tests' day is 2026-11-25: the last day still counts.
#[test]
fn until_a_day() {
    let cases = [
        ("until = 2026-11-24\n", false),
        ("until = 2026-11-25\n", true),
        ("until = 2026-11-26\n", true),
        ("until = 2025-12-31\n", false),
        ("until = 2027-01-01\n", true),
    ];
    for (until, is_accepted) in cases {
        let report = report(until);
        let open = levels(&report, GRIP);
        assert_eq!(open.is_empty(), is_accepted, "{until}");
        assert_eq!(report.summary.accepted, usize::from(is_accepted), "{until}");
        assert_eq!(report.summary.error, usize::from(!is_accepted), "{until}");
        let expected = if is_accepted {
            Verdict::NothingFound
        } else {
            Verdict::Fails
        };
        assert_eq!(report.summary.verdict, expected, "{until}");
    }
}

/// An accepted finding stays in the report, with who and why.
#[test]
fn an_accepted_finding_stays_in_sight() {
    let report = report("until = 2027-01-31\n");
    let finding = report.findings.iter().find(|f| f.rule == GRIP).unwrap();
    let accepted = finding.accepted.as_ref().expect("it is accepted");
    assert_eq!(accepted.reason, "trial cut");
    assert_eq!(accepted.by, "shift lead");
    assert_eq!(accepted.until.as_deref(), Some("2027-01-31"));
    assert_eq!(finding.level_name(), "error");
}

/// Only that rule, on that tool, and on that operation if one is named.
#[test]
fn nothing_else_is_accepted() {
    let accept = "[[accept]]\nrule = \"grip/short-grip\"\ntool_number = \"8\"\nreason = \"r\"\nby = \"b\"\nuntil = 2027-01-31\n";
    let shop = Shop::new(&[
        ("cell/tools.csv", &tool(26.0)),
        ("cell/shankwise.toml", accept),
    ]);
    let report_of = shop.report();
    assert_eq!(levels(&report_of, GRIP), ["error"]);
    assert_eq!(levels(&report_of, "record/accepted-unmatched"), ["warning"]);
    // The rule is one on the assembly, so naming an operation fits none of its findings.
    assert_eq!(
        levels(&report("until = 2027-01-31\noperation = \"7\"\n"), GRIP),
        ["error"]
    );
}

/// Counts still add up: accepted findings are in none of the other counters.
#[test]
fn counts_add_up() {
    for more in ["until = 2027-01-31\n", "until = 2026-11-24\n"] {
        adds_up(&report(more).summary);
    }
}
