//! Which rule judges the grip is said by the rule, whatever its name.

use shankwise::judge::{Report, Setup, judge};

use crate::support::{library, options};

const TOOLS: &str = "tool_number,stick_out,overall_length,shank_length,shank_diameter,collet_size,bore_diameter,bore_length\n1,40,83,45,12,32,12,40\n2,65,83,45,12,32,12,40\n3,40,83,45,12,32,12,\n";
const RULE: &str = "title = \"too little\"\nlevel = \"error\"\nbasis = \"shop\"\nconsequence = \"tool may come out\"\nwhen = \"held_in_collet\"\nexpect = \"gripped_length >= bore_length / 2\"\nmessage = \"{gripped_length}\"\nwhy = \"it slips\"\nadvice = \"push it in\"\n";

fn report(more: &str) -> Report {
    let folder = tempfile::TempDir::new().unwrap();
    let own = folder.path().join("cell/half-of-it.toml");
    std::fs::create_dir_all(own.parent().unwrap()).unwrap();
    std::fs::write(own, format!("{more}{RULE}")).unwrap();
    let packs = [folder.path().to_owned()];
    let setup = Setup::load(None, None, &packs, false).expect("it loads");
    judge(&library(TOOLS), &setup, &options())
}

#[test]
fn a_shops_own_grip_rule_counts() {
    let report = report("judges_grip = true\n");
    let coverage = &report.coverage;
    assert_eq!((coverage.grip_judged(), coverage.held_by_shank()), (2, 3));
    assert_eq!(coverage.grip_not_judged().collect::<Vec<_>>(), ["3"]);
    assert_eq!(
        (report.summary.grip_judged, report.summary.held_in_collets),
        (2, 3)
    );
}

#[test]
fn a_rule_that_does_not_say_so_does_not() {
    let report = report("");
    assert_eq!(report.coverage.grip_judged(), 0);
    assert!(!report.coverage.grip_asked());
}

/// One of these rules was judged, and another that applies waits: the grip is not judged.
#[test]
fn all_that_apply_must_be_judged() {
    let folder = tempfile::TempDir::new().unwrap();
    let more = RULE.replace("bore_length / 2", "clamping_length");
    for (name, text) in [("half", RULE), ("whole", more.as_str())] {
        let own = folder.path().join(format!("cell/{name}.toml"));
        std::fs::create_dir_all(own.parent().unwrap()).unwrap();
        std::fs::write(own, format!("judges_grip = true\n{text}")).unwrap();
    }
    let packs = [folder.path().to_owned()];
    let setup = Setup::load(None, None, &packs, false).expect("it loads");
    let report = judge(&library(TOOLS), &setup, &options());
    assert_eq!(report.coverage.grip_judged(), 0);
    assert!(report.coverage.grip_asked());
}
