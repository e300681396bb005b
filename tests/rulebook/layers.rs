//! Built in, then the plant's file, then the library's own: who overrules whom, and what is
//! listed as weakened.

use shankwise::judge::Report;

use super::{Shop, levels, tool};

const GRIP: &str = "grip/short-grip";

/// What is listed as weakened.
pub(super) fn weakened(report: &Report) -> Vec<String> {
    let all = report.library.weakened.iter();
    all.map(shankwise::judge::Weakened::told).collect()
}

pub(super) fn shop(plant: &str, own: &str, gripped: f64) -> Shop {
    let shop = Shop::new(&[("cell/tools.csv", &tool(gripped))]);
    if !plant.is_empty() {
        shop.put("plant/shankwise.toml", plant);
    }
    if !own.is_empty() {
        shop.put("cell/shankwise.toml", own);
    }
    shop
}

/// 28 of 40 mm is more than two thirds, and less than three quarters.
#[test]
fn each_layer_overrules_the_one_before() {
    let three_quarters = "[limit]\nmin_grip_fraction = \"3/4\"\n";
    let seven_tenths = "[limit]\nmin_grip_fraction = 0.7\n";
    let cases = [
        ("", "", 0),
        (three_quarters, "", 1),
        ("", three_quarters, 1),
        (three_quarters, seven_tenths, 0),
        (seven_tenths, three_quarters, 1),
    ];
    for (plant, own, errors) in cases {
        let report = shop(plant, own, 28.0).report();
        assert_eq!(levels(&report, GRIP).len(), errors, "{plant} {own}");
    }
}

/// A changed limit says so: its basis is the shop, its source the file.
#[test]
fn a_changed_limit_is_the_shops() {
    let report = shop("", "[limit]\nmin_grip_fraction = \"3/4\"\n", 28.0).report();
    let finding = report.findings.iter().find(|f| f.rule == GRIP).unwrap();
    let limit = finding
        .limits
        .iter()
        .find(|l| l.name == "min_grip_fraction")
        .unwrap();
    assert_eq!((limit.value, limit.basis), (0.75, "shop"));
    assert!(limit.source.ends_with("shankwise.toml"), "{}", limit.source);
    assert!(finding.message.contains("75 %"), "{}", finding.message);
}

/// What a shop file weakens, and only that, is listed; what is the plant's says so.
#[test]
fn what_a_shop_file_weakens_is_listed() {
    let weakening = [
        (
            "[rule.\"grip/short-grip\"]\nlevel = \"off\"\nreason = \"too loud\"\n",
            "rule grip/short-grip: off instead of error (too loud)",
        ),
        (
            "[rule.\"grip/short-grip\"]\nlevel = \"warning\"\n",
            "rule grip/short-grip: warning instead of error (no reason given)",
        ),
        (
            "[limit]\nmin_grip_fraction = \"1/2\"\n",
            "limit min_grip_fraction: 1/2 instead of 2/3",
        ),
        (
            "[limit]\nlength_tolerance = \"0.05 mm\"\n",
            "limit length_tolerance: 0.05 mm instead of 0.01 mm",
        ),
        (
            "[rule.\"grip/flutes-in-bore\".limit]\nrun_out_allowance = 5\n",
            "limit run_out_allowance of grip/flutes-in-bore: 5 mm instead of 2 mm",
        ),
        (
            "[limit]\nclosing_room = 0.5\n",
            "limit closing_room: 0.5 mm instead of 1 mm",
        ),
    ];
    for (own, listed) in weakening {
        let report = shop("", own, 40.0).report();
        assert_eq!(weakened(&report), [listed], "{own}");
        let report = shop(own, "", 40.0).report();
        let told = weakened(&report);
        let [by_plant] = told.as_slice() else {
            panic!("{told:?}")
        };
        let start = format!("{listed}, by ");
        assert!(by_plant.starts_with(&start), "{by_plant}");
        assert!(by_plant.ends_with("plant/shankwise.toml"), "{by_plant}");
    }
    // `length_tolerance` is stricter when lower, `min_grip_fraction` when higher.
    let stricter = [
        "[rule.\"torque/not-stated\"]\nlevel = \"error\"\n",
        "[rule.\"grip/short-grip\"]\nlevel = \"error\"\n",
        "[limit]\nmin_grip_fraction = \"3/4\"\n",
        "[limit]\nmin_grip_fraction = \"2/3\"\n",
        "[rule.\"grip/flutes-in-bore\".limit]\nrun_out_allowance = 1\n",
        "[limit]\nclosing_room = 2\n",
    ];
    for own in stricter {
        for (plant, own) in [("", own), (own, "")] {
            let report = shop(plant, own, 40.0).report();
            assert_eq!(weakened(&report), [""; 0], "{plant}{own}");
        }
    }
}

/// Weaker than the plant's own rule is weaker, even if it is the built-in value again.
#[test]
fn weakening_is_measured_against_the_plant() {
    let plant =
        "[limit]\nmin_grip_fraction = \"3/4\"\n[rule.\"torque/not-stated\"]\nlevel = \"error\"\n";
    let own = "[limit]\nmin_grip_fraction = \"2/3\"\n[rule.\"torque/not-stated\"]\nlevel = \"note\"\nreason = \"as built in\"\n";
    let report = shop(plant, own, 40.0).report();
    assert_eq!(
        weakened(&report),
        [
            "limit min_grip_fraction: 2/3 instead of 3/4",
            "rule torque/not-stated: note instead of error (as built in)"
        ]
    );
}

#[test]
fn a_rule_may_be_switched_off_and_on_again() {
    let off = "[rule.\"grip/short-grip\"]\nlevel = \"off\"\n";
    assert_eq!(levels(&shop("", off, 20.0).report(), GRIP), [""; 0]);
    assert_eq!(levels(&shop(off, "", 20.0).report(), GRIP), [""; 0]);
    let on = "[rule.\"grip/short-grip\"]\nlevel = \"warning\"\n";
    assert_eq!(levels(&shop(off, on, 20.0).report(), GRIP), ["warning"]);
    // A rule that is off judges nothing, so no grip was judged.
    let report = shop("", off, 20.0).report();
    assert_eq!(
        (report.summary.grip_judged, report.summary.held_in_collets),
        (0, 1)
    );
}
