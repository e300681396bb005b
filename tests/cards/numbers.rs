//! The numbers of a card against numbers by hand.

use std::fs;

use super::{Cell, HEADER, Page, SOUND, with};

fn sound(changes: &[(&str, &str)]) -> Page {
    Cell::flat(&[&with(SOUND, changes)]).cards(&[]).0
}

#[test]
fn lengths_by_hand() {
    let page = sound(&[]);
    let card = page.card("7");
    assert_eq!(card.stamp(), "");
    assert_eq!(card.row("stick-out"), Some(("40.0 mm", "recorded")));
    // 83 - 40.
    let (mark, note) = card.row("mark").unwrap();
    assert_eq!(mark, "43.0 mm from the shank end");
    assert!(
        note.starts_with("for a tool 83.0 mm long (else: length less 40.0 mm)"),
        "{note}"
    );
    assert!(
        note.ends_with("flush with the nut face once the nut is tight"),
        "{note}"
    );
    // Two thirds of 40; the collet begins 1 mm behind the nut face, so that 42 are in it.
    let grip = ("26.7 mm", "gripped as recorded: 40.0 mm of 40.0 mm");
    assert_eq!(card.row("min. grip"), Some(grip));
    // 40 + 1 + 26.67.
    let length = ("83.0 mm", "shank Ø 12.0 mm; at least 67.7 mm for this grip");
    assert_eq!(card.row("length"), Some(length));
    // 70 - 43; 1 mm must remain.
    let stop = ("70.0 mm", "from the nut face; 27.0 mm free (1.0 mm needed)");
    assert_eq!(card.row("stop"), Some(stop));
    assert_eq!(card.row("torque"), Some(("105.0 N·m", "lib.csv line 2")));
    // 60 + 40.
    assert_eq!(card.row("LPR").unwrap().0, "100.0 mm ± 0.5 mm");
    assert_eq!(card.row("speed"), Some(("18000 rpm", "of the nut")));
    let words = card.words();
    for part in [
        "mill-1 · pot 12 · spindle right",
        "pocket · end mill Ø 12.0 mm",
        "collet: size 32, bore 12.0 mm (shanks from 11.0 mm), through",
        "standard; nut not sealed; sealing of collet not recorded",
    ] {
        assert!(words.contains(part), "{part}: {words}");
    }
}

/// Only where the collet closes at its nominal bore is the protruding length a target.
#[test]
fn a_collet_that_closes_further_has_no_target() {
    let page = sound(&[("shank_diameter", "11.5"), ("cutting_diameter", "11.5")]);
    let card = page.card("7");
    assert_eq!(card.stamp(), "", "{}", card.words());
    let (value, note) = card.row("LPR").unwrap();
    assert_eq!(value, "no target");
    // 0.5 / (2 tan 8°) = 1.78.
    let said = "100.0 mm at the nominal bore, less a draw-in of about 1.78 mm";
    assert!(note.contains(said), "{note}");
    // The stop needs that too: 1 + 1.78, printed as lengths above 2 mm are.
    assert!(
        card.row("stop").unwrap().1.ends_with("(2.8 mm needed)"),
        "{card:?}",
        card = card.row("stop")
    );
    // Nothing is drawn in where a bore of its own grips.
    let chuck = sound(&[
        ("clamping_kind", "shrink fit"),
        ("collet_system", ""),
        ("collet_size", ""),
        ("bore_form", ""),
        ("nut_style", ""),
        ("nut.sealed", ""),
        ("face_setback", ""),
        ("nut_torque", ""),
        ("nut_speed_max", ""),
        ("bore_diameter_min", ""),
    ]);
    let card = chuck.card("7");
    assert_eq!(card.row("LPR").unwrap().0, "100.0 mm ± 0.5 mm");
    assert_eq!(card.row("torque"), None);
}

/// Where the tool has been reground the mark is that of the tool as it is.
#[test]
fn the_mark_is_of_the_tool_as_it_is() {
    let header = format!("{HEADER},overall_length_actual,overall_length_min");
    let library = |actual: &str, least: &str| {
        let text = format!("{header}\n{SOUND},{actual},{least}\n");
        Cell::new(&[("lib.csv", &text)]).cards(&[]).0
    };
    let now = library("80", "");
    assert_eq!(
        now.card("7").row("mark").unwrap().0,
        "40.0 mm from the shank end"
    );
    assert_eq!(now.card("7").row("length").unwrap().0, "80.0 mm");
    // A tool that may become shorter is marked as long as it was new, and drawn so.
    let page = library("", "75");
    let card = page.card("7");
    assert_eq!(card.row("mark").unwrap().0, "43.0 mm from the shank end");
    assert_eq!(
        card.row("length"),
        Some(("83.0 mm", "shank Ø 12.0 mm; at least 75.0 mm as recorded"))
    );
    assert_eq!(drawn(card.text, "insertion"), Some(43.0));
}

/// The length of a dimension in the drawing, mm.
fn drawn(text: &str, fact: &str) -> Option<f64> {
    let line = text
        .split("<line")
        .find(|line| line.contains(&format!("data-fact=\"{fact}\"")))?;
    let at = |name: &str| -> f64 {
        let value = line.split(&format!(" {name}=\"")).nth(1).unwrap();
        value.split('"').next().unwrap().parse().unwrap()
    };
    Some(at("x2") - at("x1"))
}

#[test]
fn what_is_drawn_is_what_is_set() {
    let mut seen = 0;
    for name in ["demo", "clampings"] {
        let page = Page::of(name);
        for card in page.cards() {
            let number = |row: &str| -> Option<f64> {
                let value = card.row(row)?.0;
                value
                    .strip_suffix(" mm")
                    .or(value.strip_suffix(" mm from the shank end"))?
                    .parse()
                    .ok()
            };
            for (row, fact) in [("stick-out", "stick_out"), ("mark", "insertion")] {
                let Some(drawn) = drawn(card.text, fact) else {
                    continue;
                };
                let Some(said) = number(row) else {
                    panic!("{name} {}: {fact} is drawn and not said", card.tool)
                };
                assert!(
                    (drawn - said).abs() < 0.051,
                    "{name} {}: {drawn} {said}",
                    card.tool
                );
                seen += 1;
            }
            assert!(card.text.matches("<svg").count() <= 1);
        }
    }
    assert!(seen > 150, "{seen}");
}

/// At the limit every rule is met, and a thousandth beyond it one is not.
#[test]
fn the_run_out_is_limited_where_the_rules_end() {
    let header = format!("{HEADER},run_out");
    let drill = with(
        SOUND,
        &[("cutter_kind", "drill"), ("cutting_diameter", "2.5")],
    );
    let text = |run_out: &str| format!("{header}\n{drill},{run_out}\n");
    let cell = Cell::new(&[("lib.csv", &text(""))]);
    let (page, _) = cell.cards(&[]);
    // A hundredth of 2.5 mm.
    let limit = page.card("7").row("run-out").unwrap();
    assert_eq!(
        limit,
        (
            "max. 0.025 mm",
            "TIR, by stiffness/run-out-of-a-small-drill"
        )
    );
    for (run_out, fails) in [("0.025", false), ("0.026", true)] {
        let cell = Cell::new(&[("lib.csv", &text(run_out))]);
        let output = cell.run(&["lint", "lib.csv", "--as", "brief"]);
        let found = super::printed(&output).contains("run-out-of-a-small-drill");
        assert_eq!(found, fails, "{run_out}");
        let note = cell.cards(&[]).0;
        let note = note.card("7").row("run-out").unwrap().1.to_owned();
        assert!(note.ends_with(&format!("recorded {run_out} mm")), "{note}");
    }
    // An end mill without a cut has no such limit.
    let page = sound(&[]);
    let (value, note) = page.card("7").row("run-out").unwrap();
    assert_eq!(value, "no limit recorded");
    assert!(note.contains("new collet of normal class"), "{note}");
}

#[test]
fn parts_have_the_place_where_they_lie() {
    let page = Page::of("demo");
    let words = page.card("1").words();
    assert!(words.contains("em16-92 in drawer 3"), "{words}");
    assert!(words.contains("c32-16") && words.contains("h32-a") && words.contains("n32"));
    let stock = fs::read_to_string(crate::support::fixture("demo").join("stock.csv")).unwrap();
    assert!(
        stock
            .lines()
            .any(|line| line.starts_with("em16-92,") && line.ends_with("drawer 3"))
    );
}

#[test]
fn cautions_are_those_of_the_clamping() {
    let page = Page::of("clampings");
    let says = |tool: &str, words: &str| page.card(tool).words().contains(words);
    let [snap, nut, actuate, wrench, cone, discard] = [
        "Snap the collet into the nut first.",
        "Never tighten the nut without a shank.",
        "Never actuate the chuck without a shank.",
        "No extension on the wrench.",
        "Lubricate thread and cone only as the manufacturer says.",
        "Discard a collet that was closed on a short or undersize shank.",
    ];
    for all in [snap, nut, wrench, cone, discard, "No flutes in the collet."] {
        assert!(says("1", all) && says("13", all), "{all}");
        assert!(!says("59", all), "{all}");
    }
    assert!(!says("1", actuate) && says("31", actuate) && says("48", actuate));
    assert!(says("17", "No flutes in the bore.") && !says("17", wrench) && !says("17", nut));
    assert!(says("37", wrench) && !says("37", actuate));
    for tool in ["1", "17", "31", "59"] {
        assert!(says(tool, "Clean taper, bore and shank."), "{tool}");
    }
}

/// Every number that is to be set has its unit, in a library of either unit.
#[test]
fn every_value_has_its_unit() {
    let inch = [
        ("lib.csv", format!("{HEADER}\n{}\n", inch())),
        (
            "shankwise.toml",
            "[units]\nlength = \"in\"\ntorque = \"lbf·ft\"\n".to_owned(),
        ),
    ];
    let files = inch.each_ref().map(|(name, text)| (*name, text.as_str()));
    let (page, _) = Cell::new(&files).cards(&[]);
    let card = page.card("7");
    assert_eq!(card.row("stick-out"), Some(("1.575 in", "recorded")));
    assert_eq!(card.row("mark").unwrap().0, "1.693 in from the shank end");
    assert_eq!(card.row("torque").unwrap().0, "77.0 lbf·ft");
    assert!(!card.words().contains(" mm"), "{}", card.words());
    let pages = [page, Page::of("demo"), Page::of("clampings")];
    let mut seen = 0;
    for page in &pages {
        for card in page.cards() {
            for value in card.text.split("<b>").skip(1) {
                let value = value.split("</b>").next().unwrap();
                let words: Vec<&str> = value.split(' ').collect();
                for (at, word) in words.iter().enumerate() {
                    if word.parse::<f64>().is_ok() {
                        let unit = words.get(at + 1);
                        let units = ["mm", "in", "N·m", "lbf·ft", "rpm"];
                        assert!(unit.is_some_and(|unit| units.contains(unit)), "{value}");
                        seen += 1;
                    }
                }
            }
        }
    }
    assert!(seen > 400, "{seen}");
}

fn inch() -> String {
    with(
        SOUND,
        &[
            ("cutting_diameter", "0.472"),
            ("overall_length", "3.268"),
            ("shank_diameter", "0.4724"),
            ("shank_length", "1.7717"),
            ("bore_diameter", "0.4724"),
            ("bore_diameter_min", "0.433"),
            ("bore_length", "1.5748"),
            ("face_setback", "0.0394"),
            ("gauge_length", "2.362"),
            ("insertion_depth_max", "2.756"),
            ("stick_out", "1.575"),
            ("nut_torque", "77"),
        ],
    )
}
