//! Built in, then the plant's file, then the library's own: who overrules whom, and what is
//! listed as weakened.

use shankwise::input::FAULT_KINDS;
use shankwise::judge::Setup;

use super::{RULE, Shop, changed, levels, tool};

const GRIP: &str = "grip/short-grip";

fn shop(plant: &str, own: &str, gripped: f64) -> Shop {
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

/// What a library's own file weakens, and only that, is listed.
#[test]
fn what_the_own_file_weakens_is_listed() {
    let weakened = [
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
            "[limit]\nlength_tolerance = \"0.5 mm\"\n",
            "limit length_tolerance: 0.5 mm instead of 0.01",
        ),
        (
            "[rule.\"grip/flutes-in-bore\".limit]\nrun_out_allowance = 5\n",
            "limit run_out_allowance of grip/flutes-in-bore: 5 instead of 2",
        ),
        (
            "[rule.\"grip/tail-on-stop\".limit]\nclosing_room = 0.5\n",
            "limit closing_room of grip/tail-on-stop: 0.5 instead of 1",
        ),
    ];
    for (own, listed) in weakened {
        let report = shop("", own, 40.0).report();
        assert_eq!(report.library.weakened, [listed], "{own}");
        // The same in a file that the user names is the plant's decision.
        let report = shop(own, "", 40.0).report();
        assert_eq!(report.library.weakened, [""; 0], "{own}");
    }
    // `length_tolerance` is stricter when lower, `min_grip_fraction` when higher.
    let stricter = [
        "[rule.\"torque/not-stated\"]\nlevel = \"error\"\n",
        "[rule.\"grip/short-grip\"]\nlevel = \"error\"\n",
        "[limit]\nmin_grip_fraction = \"3/4\"\n",
        "[limit]\nmin_grip_fraction = \"2/3\"\n",
        "[rule.\"grip/flutes-in-bore\".limit]\nrun_out_allowance = 1\n",
        "[rule.\"grip/tail-on-stop\".limit]\nclosing_room = 2\n",
    ];
    for own in stricter {
        let report = shop("", own, 40.0).report();
        assert_eq!(report.library.weakened, [""; 0], "{own}");
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
        report.library.weakened,
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

/// Rules of the shop lie in a folder, like the built-in ones, and take part like them.
#[test]
fn a_shop_rule_takes_part() {
    let shop = shop("", "rules = [\"shop-rules\"]\n", 40.0);
    shop.put("cell/shop-rules/reach/slender-overhang.toml", RULE);
    let report = shop.report();
    let finding = report
        .findings
        .iter()
        .find(|finding| finding.rule == "reach/slender-overhang")
        .expect("60 mm at 12 mm is five times");
    assert_eq!(
        finding.message,
        "sticks out 60.0 mm, 5.00 times its diameter"
    );
    assert_eq!(finding.limits[0].name, "slenderness");
    // Its own limit can be changed in the same file, like any rule's.
    shop.put(
        "cell/shankwise.toml",
        "rules = [\"shop-rules\"]\n[rule.\"reach/slender-overhang\".limit]\nslenderness = 6\n",
    );
    let report = shop.report();
    assert_eq!(levels(&report, "reach/slender-overhang"), [""; 0]);
    assert_eq!(
        report.library.weakened,
        ["limit slenderness of reach/slender-overhang: 6 instead of 4"]
    );
}

/// A shop rule may name a limit of a table of its own.
#[test]
fn a_shop_table_of_limits_takes_part() {
    let shop = shop("", "rules = [\"shop-rules\"]\n", 40.0);
    let (rule, limit) = RULE.split_at(RULE.find("[limit").unwrap());
    shop.put("cell/shop-rules/reach/slender-overhang.toml", rule);
    shop.put("cell/shop-rules/tables/limits.toml", limit);
    assert_eq!(
        levels(&shop.report(), "reach/slender-overhang"),
        ["warning"]
    );
}

/// A second rule of the same name would silently win or lose: it is refused.
#[test]
fn a_shop_rule_that_takes_a_built_in_name_is_refused() {
    let shop = shop("", "rules = [\"shop-rules\"]\n", 40.0);
    shop.put("cell/shop-rules/grip/short-grip.toml", RULE);
    let error = shop.refusal();
    assert!(error.message.contains("is defined already"), "{error}");
    assert!(error.file.contains("shop-rules"), "{error}");
}

/// The cases of `milder` only ever make a finding milder.
#[test]
fn a_milder_case_does_not_raise_a_level() {
    let shop = shop("", "rules = [\"shop-rules\"]\n", 40.0);
    let case = |level: &str| {
        let text = changed("level", "level = \"warning\"");
        text + &format!("[[milder]]\nwhen = \"stick_out > 50 mm\"\nlevel = \"{level}\"\n")
    };
    for (level, expected) in [
        ("note", "note"),
        ("warning", "warning"),
        ("error", "warning"),
    ] {
        shop.put("cell/shop-rules/reach/slender-overhang.toml", &case(level));
        let found = levels(&shop.report(), "reach/slender-overhang");
        assert_eq!(found, [expected], "{level}");
    }
}

/// Without the built-in rules the words for faults of form and the limits stay.
#[test]
fn without_built_in_rules_faults_still_have_words() {
    let setup = Setup::load(None, None, &[], false).expect("it loads");
    let mut ids: Vec<&str> = setup
        .book
        .rules
        .iter()
        .map(|rule| rule.id.as_str())
        .collect();
    ids.sort_unstable();
    let mut kinds: Vec<&str> = FAULT_KINDS.iter().map(|(kind, _)| *kind).collect();
    kinds.sort_unstable();
    assert_eq!(ids, kinds);
    assert!(setup.book.limit("min_grip_fraction").is_some());
    let text = tool(20.0).replace("bore_length", "boer_length");
    let shop = Shop::new(&[("cell/tools.csv", &text)]);
    let report = super::report(&shop.path("cell/tools.csv"), &setup);
    assert_eq!(levels(&report, "record/unknown-column").len(), 1);
    assert_eq!(report.summary.judgements, 0);
}

/// The shop's units, name and columns reach the library.
#[test]
fn units_name_and_columns() {
    let own =
        "name = \"cell 3\"\n[units]\nlength = \"in\"\n[columns]\n\"sticks out\" = \"stick_out\"\n";
    let shop = shop("", own, 40.0);
    shop.put(
        "cell/tools.csv",
        "tool_number,sticks out,overall_length\n1,1.5,3\n",
    );
    let report = shop.report();
    assert_eq!(
        (report.library.name.as_str(), report.library.units),
        ("cell 3", "in")
    );
    assert_eq!(levels(&report, "record/unknown-column"), [""; 0]);
    assert!(
        report
            .library
            .config
            .as_deref()
            .unwrap()
            .ends_with("shankwise.toml")
    );
}
