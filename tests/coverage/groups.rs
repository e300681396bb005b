//! Every assembly is in exactly one group, the first that fits.

use shankwise::judge::{Came, Report, judge};
use shankwise::rulebook::Level;

use crate::support::{built_in, fixture, library, lint_text, options};

const HEADER: &str = "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length,nut_torque,clamping_kind,insertion_depth_max\n";
const GOOD: &str = "1,40,83,45,12,12,32,12,40,80,taper collet,\n";
const SHORT: &str = "2,65,83,45,12,12,32,12,40,80,taper collet,\n";
const GAP: &str = "3,40,83,45,12,12,32,12,,80,taper collet,\n";
const NOTED: &str = "4,40,83,45,12,12,32,12,40,,taper collet,\n";
/// Half of a millimetre behind the shank end, where a whole one should be.
const WARNED: &str = "7,40,83,45,12,12,32,12,40,80,taper collet,43.5\n";
const ARBOR: &str = "5,40,83,,16,63,,,,,arbor,\n";

fn came(rows: &[&str]) -> Came {
    lint_text(&format!("{HEADER}{}", rows.concat())).came()
}

#[test]
fn each_group_by_itself() {
    let none = Came::default();
    let one = |of: fn(&mut Came)| {
        let mut came = none;
        of(&mut came);
        came
    };
    assert_eq!(came(&[GOOD]), one(|came| came.nothing_found = 1));
    assert_eq!(came(&[SHORT]), one(|came| came.fails = 1));
    assert_eq!(came(&[GAP]), one(|came| came.grip_not_judged = 1));
    assert_eq!(came(&[WARNED]), one(|came| came.warned = 1));
    // A note is no warning.
    assert_eq!(came(&[NOTED]), one(|came| came.nothing_found = 1));
    let all = came(&[GOOD, SHORT, GAP, NOTED, ARBOR]);
    assert_eq!((all.sum(), all.fails, all.grip_not_judged), (5, 1, 1));
}

/// What fails is in no other group, though its grip is not judged.
#[test]
fn a_tool_that_fails_is_not_also_unjudged() {
    let both = "6,40,83,45,12,12,32,10,,80,taper collet,\n";
    let report = lint_text(&format!("{HEADER}{both}"));
    assert!(report.summary.error > 0 && report.coverage.grip_judged() == 0);
    assert_eq!((report.came().fails, report.came().sum()), (1, 1));
}

/// `--fail-on` says what fails.
#[test]
fn what_fails_is_what_fails_the_run() {
    let library = library(&format!("{HEADER}{NOTED}"));
    let options = shankwise::judge::Options {
        fail_on: Level::Note,
        ..options()
    };
    let report = judge(&library, &built_in(), &options);
    assert_eq!(report.came().fails, 1);
}

/// What is wrong with a part's record is wrong with the tools that use it, and no others; also
/// where records share one line.
#[test]
fn a_fault_of_a_part_counts_for_its_tools() {
    let folder = tempfile::TempDir::new().unwrap();
    let path = folder.path().join("tools.xml");
    let cutter = |id: &str, more: &str| {
        format!(
            "<cutter id=\"{id}\"><overall-length>83</overall-length><shank-length>45</shank-length><shank-diameter>12</shank-diameter><cutting-diameter>12</cutting-diameter>{more}</cutter>"
        )
    };
    let tool = |number: u32, cutter: &str| {
        format!(
            "<assembly tool-number=\"{number}\" cutter=\"{cutter}\" collet=\"C\"><stick-out>40</stick-out><nut-torque>80</nut-torque></assembly>"
        )
    };
    let text = format!(
        "<shankwise xmlns=\"urn:shankwise:library:1\" units=\"mm\"><cutters>{}{}</cutters><collets><collet id=\"C\"><collet-size>32</collet-size><bore-diameter>12</bore-diameter><bore-length>40</bore-length></collet></collets><assemblies>{}{}{}</assemblies></shankwise>",
        cutter("A", ""),
        cutter("B", "<corner-radius>x</corner-radius>"),
        tool(1, "A"),
        tool(2, "B"),
        tool(3, "B"),
    );
    std::fs::write(&path, text).unwrap();
    let setup = built_in();
    let input = shankwise::library::Input::Path(&path);
    let library = shankwise::library::load(input, &setup.read_settings()).library;
    let notes_fail = shankwise::judge::Options {
        fail_on: Level::Note,
        ..options()
    };
    let report = judge(&library.unwrap(), &setup, &notes_fail);
    let of_cell = |finding: &&shankwise::judge::Finding| finding.rule == "record/cell-unreadable";
    let fault = report.findings.iter().find(of_cell).expect("the radius");
    assert_eq!(fault.part_of, [1, 2]);
    let came = report.came();
    assert_eq!((came.fails, came.sum()), (2, 3), "{came:?}");
}

fn of_fixture(path: &str) -> Report {
    let setup = built_in();
    let path = fixture(path);
    let input = shankwise::library::Input::Path(&path);
    let library = shankwise::library::load(input, &setup.read_settings()).library;
    judge(&library.expect("it loads"), &setup, &options())
}

/// On whole libraries the groups add up, and those held by a shank and the others too.
#[test]
fn the_groups_add_up() {
    for name in ["demo", "forms/demo.xml", "forms/demo-flat.csv"] {
        let report = of_fixture(name);
        let coverage = &report.coverage;
        assert_eq!(report.came().sum(), report.summary.assemblies, "{name}");
        let others = coverage
            .kinds(false)
            .iter()
            .map(|kind| kind.held_by_shank)
            .sum::<usize>();
        let held: usize = coverage
            .kinds(true)
            .iter()
            .map(|kind| kind.held_by_shank)
            .sum();
        assert_eq!(held, report.summary.held_by_shank, "{name}");
        assert_eq!(held + others, report.summary.assemblies, "{name}");
        let open = coverage.grip_not_judged().count();
        assert_eq!(coverage.grip_judged() + open, held, "{name}");
    }
}
