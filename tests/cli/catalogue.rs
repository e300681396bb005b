//! What the catalogue says of a rule.

use super::{run, stdout};

/// One rule as a terminal shows it, in one line.
fn told(rule: &str) -> String {
    let text = stdout(&run(&["rules", rule]));
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A shop that replaces a rule must know what hangs on it besides its finding.
#[test]
fn it_says_what_a_rule_stands_for() {
    let cases = [
        (
            "grip/short-grip",
            "a tool that it judges has its grip judged",
        ),
        (
            "reach/too-short-for-the-job",
            "a tool that it judges has its reach judged",
        ),
        (
            "record/stick-out-beyond-tool",
            "nothing that rests on them is judged or advised",
        ),
    ];
    let page = stdout(&run(&["rules", "--as", "markdown"]));
    for (rule, words) in cases {
        let told = told(rule);
        assert!(told.contains("counts as") && told.contains(words), "{told}");
        assert!(page.contains(words), "{words}");
    }
    assert!(!told("torque/over-torqued").contains("counts as"));
}

#[test]
fn it_says_what_corrects_a_rule() {
    let cases = [
        (
            "grip/short-grip",
            "corrected by another stick-out, a cutter of other lengths, another holder",
        ),
        (
            "suits/side-cutter-in-drill-chuck",
            "corrected by another holder",
        ),
        ("torque/over-torqued", "corrected by another torque"),
    ];
    for (rule, words) in cases {
        let told = told(rule);
        assert!(told.contains(words), "{told}");
    }
    assert!(!told("record/negative-length").contains("corrected by"));
    let page = stdout(&run(&["rules", "--as", "markdown"]));
    assert!(page.contains("* corrected by: another collet\n"));
    let told = told("reach/drill-deeper-than-flutes");
    let buy = "to buy chip_flute_length >= reach + clear_diameters * cutting_diameter";
    assert!(told.contains(buy), "{told}");
}
