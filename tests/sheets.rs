//! Sheets: what anybody may show of one assembly stands in one place, as plain data.

use shankwise::judge::{Options, Setup};
use shankwise::library::{Input, Library, load};
use shankwise::sheet::{Group, Item, Origin, Overview, RecordShown, Records, Sheet, Wants, each};

use crate::support::{adds_up, built_in, fixture, lint_text, options};

/// All sheets of a library, and what is said of it as a whole.
fn sheets(
    library: &Library,
    setup: &Setup,
    options: &Options,
    wants: Wants,
) -> (Vec<Sheet>, Overview) {
    let mut sheets = Vec::new();
    let take = |item| {
        if let Item::Sheet(sheet) = item {
            sheets.push(*sheet);
        }
        Ok(())
    };
    let overview = each((library, setup, options), wants, |item| item, take);
    (sheets, overview.expect("nothing is written"))
}

const WANTS: Wants = Wants {
    card: true,
    plan: true,
    remedies: true,
    lacks: true,
    record: Records::All,
};

fn demo() -> (Vec<Sheet>, Overview) {
    let path = fixture("demo");
    let setup = Setup::load(Some(&path), None, &[], true).expect("the setup loads");
    let loaded = load(Input::Path(&path), &setup.read_settings());
    let library = loaded.library.expect("the demo loads");
    sheets(&library, &setup, &options(), WANTS)
}

#[test]
fn every_assembly_has_one_sheet_and_stands_in_one_group() {
    let (sheets, overview) = demo();
    adds_up(&overview.summary);
    assert_eq!(sheets.len(), overview.summary.assemblies);
    assert!(sheets.iter().enumerate().all(|(at, sheet)| sheet.at == at));
    let fails = sheets.iter().filter(|sheet| sheet.group == Group::Fails);
    assert_eq!(fails.count(), overview.came.fails);
    assert!(overview.came.fails > 0 && overview.came.sum() == sheets.len());
    assert!(!overview.plan.values.is_empty() || !overview.plan.cutters.is_empty());
}

#[test]
fn a_sheet_of_a_failing_tool_says_what_to_do_and_draws_it() {
    let (sheets, _) = demo();
    let failing = sheets.iter().filter(|sheet| sheet.group == Group::Fails);
    let mut remedies = 0;
    for sheet in failing {
        let [clamping] = sheet.clampings.as_slice() else {
            panic!("tool {:?} is clamped in one way", sheet.tool_number);
        };
        assert!(sheet.findings.is_sorted_by(|a, b| a.level >= b.level));
        assert!(clamping.drawing.is_some() && clamping.record.is_some());
        remedies += usize::from(clamping.remedies.is_some());
    }
    assert!(remedies > 0);
}

const HEADER: &str = "tool_number,pot,machine,description,clamping_kind,cutter,cutter_kind,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length,nut_torque";

fn record(row: &str) -> RecordShown {
    let text = format!("{HEADER}\n{row}\n");
    let library = crate::support::library(&text);
    let (sheets, _) = sheets(&library, &built_in(), &options(), WANTS);
    let [sheet] = sheets.as_slice() else {
        panic!("one row is one sheet");
    };
    let clamping = sheet.clampings.first().expect("one clamping");
    clamping.record.clone().expect("it was wanted")
}

#[test]
fn values_say_where_they_come_from() {
    let shown = record("7,12,mill 3,roughing,taper collet,em12,end mill,43,83,,12,12,32,12,,100");
    assert_eq!(shown.pot.as_deref(), Some("12"));
    assert_eq!(shown.machine.as_deref(), Some("mill 3"));
    assert_eq!(shown.description.as_deref(), Some("roughing"));
    let of = |name: &str| {
        let mut values = shown.values.iter();
        values
            .find(|value| value.name == name)
            .unwrap_or_else(|| panic!("{name}"))
    };
    let stated = of("cutter.overall_length");
    assert_eq!(stated.origin, Origin::Stated);
    let (file, line, column) = stated.place.clone().expect("it is stated");
    assert_eq!((file.as_str(), line, column), ("library.csv", 2, 52));
    assert_eq!(of("collet.bore_length").origin, Origin::Missing);
    assert!(matches!(of("nut.face_setback").origin, Origin::Range(..)));
    let set = shown.torques.set.expect("it is stated");
    assert!((set.value - 100.0).abs() < 1e-9);
    assert_eq!(set.from, ["assembly.nut_torque"]);
    assert_eq!(shown.torques.recommended, None);
}

#[test]
fn what_nobody_wants_is_not_made() {
    let library = crate::support::library("tool_number,stick_out,overall_length\n1,65,83\n");
    let (sheets, overview) = sheets(&library, &built_in(), &options(), Wants::default());
    let clamping = &sheets[0].clampings[0];
    assert_eq!(
        (&clamping.record, &clamping.drawing, &clamping.facts),
        (&None, &None, &None)
    );
    // The counts are those of a report that is held whole.
    let report = lint_text("tool_number,stick_out,overall_length\n1,65,83\n");
    assert_eq!(overview.summary.not_judged, report.summary.not_judged);
}
