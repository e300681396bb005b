//! What stops a tool: errors, a grip or a torque rule that is not judged; and what stops none.

use serde_json::Value;

use super::{Cell, DAY, Page, SOUND, printed, with};
use crate::support::{fixture, run};

fn judged(name: &str) -> Value {
    let path = fixture(name).display().to_string();
    let arguments = ["lint", &path, "--as", "json", "--with-facts"];
    let output = run(&[&arguments, &DAY[..]].concat());
    serde_json::from_str(&printed(&output)).unwrap()
}

/// By hand, from what each tool is to be told.
#[test]
fn every_clamping_has_its_stamp() {
    let page = Page::of("clampings");
    let stops = [
        2, 3, 8, 9, 12, 14, 16, 18, 19, 22, 24, 25, 26, 27, 30, 32, 33, 35, 38, 39, 41, 43, 50, 51,
        53, 56, 58, 66,
    ];
    let waits = [4, 7, 15, 21, 23, 44, 68];
    let cards = page.cards();
    assert_eq!(cards.len(), 69);
    for card in &cards {
        let number: u32 = card.tool.parse().unwrap();
        let stamp = match number {
            number if stops.contains(&number) => "DO NOT BUILD",
            number if waits.contains(&number) => "NOT RELEASED",
            _ => "",
        };
        assert_eq!(card.stamp(), stamp, "tool {number}");
    }
}

#[test]
fn an_error_of_the_demo_stops_and_says_why() {
    let (page, json) = (Page::of("demo"), judged("demo"));
    let findings = json["findings"].as_array().unwrap();
    let mut stopped = 0;
    for card in page.cards() {
        let own = findings
            .iter()
            .filter(|one| one["tool_number"] == card.tool);
        let mut errors = own
            .filter(|one| one["level"] == "error" && one["accepted"].is_null())
            .peekable();
        // Two tools have one number, and both are wrong.
        assert_eq!(
            card.stamp() == "DO NOT BUILD",
            errors.peek().is_some(),
            "tool {}",
            card.tool
        );
        if errors.peek().is_some() {
            stopped += 1;
            let said = errors.filter(|one| card.text.contains(one["rule"].as_str().unwrap()));
            assert!(said.count() > 0, "tool {} without a reason", card.tool);
            for set in ["mark", "torque", "LPR", "speed", "stop", "length"] {
                assert_eq!(card.row(set), None, "tool {}: {set}", card.tool);
            }
        }
    }
    assert_eq!(stopped, 17);
}

#[test]
fn what_is_accepted_says_by_whom_and_until_when() {
    let page = Page::of("demo");
    let card = page.card("34");
    assert_eq!(card.stamp(), "ACCEPTED");
    let words = card.words();
    assert!(
        words.contains("by the setter of cell 3 until 2099-12-31"),
        "{words}"
    );
    assert!(words.contains("the tool does not reach"), "{words}");
    // It is built as it is recorded.
    assert_eq!(card.row("stick-out"), Some(("36.0 mm", "recorded")));
    let others = page.cards();
    let others = others.iter().filter(|one| one.stamp() == "ACCEPTED");
    assert_eq!(others.count(), 1);
}

/// The recorded stick-out and no other: neither what is advised nor the limits.
#[test]
fn no_corrected_stick_out_is_on_a_card() {
    let mut asked = 0;
    for name in ["demo", "clampings"] {
        let (page, json) = (Page::of(name), judged(name));
        let assemblies = json["assemblies"].as_array().unwrap();
        assert_eq!(assemblies.len(), page.cards().len());
        for (card, assembly) in page.cards().iter().zip(assemblies) {
            assert_eq!(assembly["tool_number"], card.tool);
            if card.stamp() != "DO NOT BUILD" {
                continue;
            }
            let window = &assembly["window"];
            let advised = [&window["recommended"], &window["min"], &window["max"]];
            let recorded = card.row("stick-out").unwrap().0;
            let recorded: Option<f64> = recorded.trim_end_matches(" mm").parse().ok();
            for length in advised.iter().filter_map(|one| one.as_f64()) {
                // A length that is recorded, or that an error is about, may be the same by chance.
                let is_near = |own: f64| (own - length).abs() < 0.1;
                if recorded.is_some_and(is_near) || is_of_errors(&json, card.tool, is_near) {
                    continue;
                }
                asked += 1;
                let printed = format!(" {length:.1} mm");
                let words = card.words();
                assert!(
                    !words.contains(&printed),
                    "{name}, tool {}: {printed} in {words}",
                    card.tool
                );
            }
            assert!(!card.text.contains("class=\"want\""));
        }
        assert!(!page.0.contains("set the stick-out to"), "{name}");
    }
    assert!(asked > 60, "{asked}");
}

/// Whether an error of a tool states such a length that is no stick-out.
fn is_of_errors(json: &Value, tool: &str, is_near: impl Fn(f64) -> bool) -> bool {
    let findings = json["findings"].as_array().unwrap();
    let own = findings.iter().filter(|one| one["tool_number"] == tool);
    let facts = own.filter_map(|one| one["facts"].as_object());
    let mut values = facts.flatten().filter(|(name, _)| {
        let of_setting = ["reach", "stick_out"];
        !of_setting.iter().any(|part| name.contains(part))
    });
    values.any(|(_, fact)| fact["value"].as_f64().is_some_and(&is_near))
}

#[test]
fn a_torque_that_is_not_stated_is_a_field_and_no_stamp() {
    let cell = Cell::flat(&[&with(SOUND, &[("nut_torque", "")])]);
    let (page, status) = cell.cards(&[]);
    let card = page.card("7");
    assert_eq!((card.stamp(), status), ("", Some(0)));
    assert_eq!(card.row("torque").unwrap().0, "enter before release");
    assert!(card.text.contains("<tr class=\"enter\">"));
    let (page, _) = Cell::flat(&[SOUND]).cards(&[]);
    assert_eq!(page.card("7").row("torque").unwrap().0, "105.0 N·m");
    assert!(!page.0.contains("<tr class=\"enter\">"));
}

const TORQUE_RULE: &str = "title = \"a torque of the shop's\"\nlevel = \"error\"\n\
    basis = \"shop\"\nconsequence = \"scrap\"\nexpect = \"nut_torque <= torque_max\"\n\
    message = \"{nut_torque}\"\nwhy = \"so it is here\"\nadvice = \"less\"\n";

#[test]
fn a_rule_on_the_torque_that_is_not_judged_stops_the_release() {
    let rule = [
        ("lib.csv", format!("{}\n{SOUND}\n", super::HEADER)),
        ("rules/torque/own.toml", TORQUE_RULE.to_owned()),
    ];
    let files = rule.each_ref().map(|(name, text)| (*name, text.as_str()));
    let cell = Cell::new(&files);
    let (page, status) = cell.cards(&["--rules", "rules"]);
    let card = page.card("7");
    assert_eq!((card.stamp(), status), ("NOT RELEASED", Some(0)));
    assert!(card.text.contains("torque/own"));
    // The same rule of another topic is only told.
    let rule = [
        ("lib.csv", format!("{}\n{SOUND}\n", super::HEADER)),
        ("rules/shop/own.toml", TORQUE_RULE.to_owned()),
    ];
    let files = rule.each_ref().map(|(name, text)| (*name, text.as_str()));
    let (page, _) = Cell::new(&files).cards(&["--rules", "rules"]);
    let card = page.card("7");
    assert_eq!(card.stamp(), "");
    assert!(card.text.contains("shop/own"));
}

#[test]
fn a_grip_that_is_not_judged_stops_the_release() {
    let cell = Cell::flat(&[&with(
        SOUND,
        &[("bore_length", ""), ("bore_form", "relieved at the rear")],
    )]);
    let (page, status) = cell.cards(&[]);
    let card = page.card("7");
    assert_eq!((card.stamp(), status), ("NOT RELEASED", Some(0)));
    assert!(
        card.words().contains("collet.bore_length is not stated"),
        "{}",
        card.words()
    );
    assert!(page.0.contains("<b class=\"flag\">NOT CHECKED</b>"));
}

/// A fault in the record of a part is one of every tool that has it.
#[test]
fn an_error_in_a_part_stops_its_tools() {
    let assemblies = "tool_number,cutter,collet,holder,stick_out,nut_torque\n\
        1,c,k,h,40,105\n2,d,k,h,40,105\n";
    let cutters = "cutter,cutter_kind,cutting_diameter,overall_length,shank_diameter,\
        shank_length,neck_length\nc,end mill,12,83,12,45,0\nd,end mill,12,83,12,45,\n";
    let files = [
        ("lib/assemblies.csv", assemblies),
        ("lib/cutters.csv", cutters),
        (
            "lib/collets.csv",
            "collet,collet_size,bore_diameter,bore_length\nk,32,12,40\n",
        ),
        (
            "lib/holders.csv",
            "holder,clamping_kind,collet_size\nh,collet chuck,32\n",
        ),
    ];
    let cell = Cell::new(&files);
    let output = cell.run(&["cards", "lib", "--out", "c.html"]);
    assert_eq!(output.status.code(), Some(1));
    let page = Page(std::fs::read_to_string(cell.0.path().join("c.html")).unwrap());
    assert_eq!(page.card("1").stamp(), "DO NOT BUILD");
    assert!(page.card("1").text.contains("record/negative-length"));
    assert_eq!(page.card("2").stamp(), "");
}

#[test]
fn where_something_was_not_read_nothing_is_released() {
    let files = [
        ("lib/assemblies.csv", "tool_number,collet_size\n1,32\n"),
        ("lib/operations.csv", ""),
    ];
    let cell = Cell::new(&files);
    let output = cell.run(&["cards", "lib", "--out", "c.html"]);
    assert_eq!(output.status.code(), Some(2));
    let page = Page(std::fs::read_to_string(cell.0.path().join("c.html")).unwrap());
    let card = page.card("1");
    assert_eq!(card.stamp(), "NOT RELEASED");
    assert!(
        card.words().contains("operations.csv was not read"),
        "{}",
        card.words()
    );
    assert!(page.0.contains("Not read, so not judged:"));
}

/// The finding is that of the second row, and nobody can tell which of the two tools is meant.
#[test]
fn of_two_tools_of_one_number_neither_is_built() {
    let other = with(SOUND, &[("description", "the other")]);
    let cell = Cell::flat(&[SOUND, &other]);
    let (page, status) = cell.cards(&[]);
    assert_eq!(status, Some(1));
    let cards = page.cards();
    assert_eq!(cards.len(), 2);
    for card in &cards {
        assert_eq!(card.stamp(), "DO NOT BUILD", "{}", card.text);
    }
}
