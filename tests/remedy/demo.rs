//! The demo: every assembly that fails has a remedy, or is told what to buy or to state.

use shankwise::judge::{Finding, Setup, judge};
use shankwise::library::{Input, Kind, Library, load};
use shankwise::rulebook::Level;

use super::shop::{self, of};
use crate::support::{fixture, options};

fn demo() -> (Setup, Library) {
    let folder = fixture("demo");
    let setup = Setup::load(Some(&folder), None, &[], true).unwrap();
    let loaded = load(Input::Path(&folder), &setup.read_settings());
    (setup, loaded.library.unwrap())
}

/// The rules whose errors are curable by topic; the wrench's own are not.
fn in_need(finding: &Finding) -> bool {
    let topics = ["grip/", "reach/", "suits/", "holding/"];
    finding.level.is_some()
        && finding.full_level == Level::Error
        && topics.iter().any(|topic| finding.rule.starts_with(topic))
}

#[test]
fn every_failing_tool_has_a_remedy_or_is_told_what_is_nearest() {
    let (setup, library) = demo();
    let report = judge(&library, &setup, &options());
    for at in 0..library.assemblies.len() {
        let own = |finding: &&Finding| finding.assembly_index == Some(at);
        let needed = report.findings.iter().filter(own).any(in_need);
        let found = of(&library, &setup, at);
        assert_eq!(found.curable, needed, "assembly {at}");
        assert_eq!(found.nearest.is_some(), needed && found.list.is_empty());
        assert!(found.list.iter().all(|remedy| remedy.rechecked));
        assert_eq!(found, of(&library, &setup, at), "the same again");
    }
}

#[test]
fn the_deep_pocket_gets_the_long_cutter_from_its_drawer() {
    let (setup, library) = demo();
    let mut tools = library.assemblies.iter();
    let at = tools.position(|tool| tool.tool_number() == Some("27"));
    let found = of(&library, &setup, at.unwrap());
    let first = &found.list[0];
    assert_eq!(first.changed(Kind::Cutter), Some("em16-125"));
    assert_eq!(first.changes[0].location.as_deref(), Some("drawer 3"));
    assert_eq!(first.leaves, ["torque/over-torqued"]);
}

#[test]
fn the_demo_has_values_to_measure_and_cutters_to_take_out() {
    let (setup, library) = demo();
    let plan = shop::plan(&library, &setup);
    assert_eq!(plan.values.len(), 3);
    assert!(
        plan.values
            .iter()
            .all(|value| value.decides > 0 || value.together > 0)
    );
    assert!(plan.cutters.iter().any(|cutter| cutter.cures == ["27"]));
}

/// The demo with every part listed once more, under another id.
fn with_copies() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let copied = [
        "collets.csv",
        "cutters.csv",
        "holders.csv",
        "nuts.csv",
        "stock.csv",
    ];
    for name in shankwise::text::names(&fixture("demo")) {
        let mut text = std::fs::read_to_string(fixture("demo").join(&name)).unwrap();
        if copied.contains(&name.as_str()) {
            let rows: Vec<&str> = text.lines().skip(1).collect();
            // The id comes first in each of these tables.
            let twins = rows
                .iter()
                .map(|row| format!("{}\n", row.replacen(',', "-copy,", 1)));
            text = twins.fold(text.clone(), |text, copy| text + &copy);
        }
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

#[test]
fn equal_parts_are_tried_once_and_push_out_no_others() {
    let (setup, library) = demo();
    let folder = with_copies();
    let loaded = load(Input::Path(folder.path()), &setup.read_settings());
    let copied = loaded.library.unwrap();
    let parts = |library: &Library| library.records(Kind::Cutter).len();
    assert_eq!(parts(&copied), 2 * parts(&library));
    for at in 0..library.assemblies.len() {
        let found = of(&copied, &setup, at);
        assert_eq!(found, of(&library, &setup, at), "assembly {at}");
    }
}
