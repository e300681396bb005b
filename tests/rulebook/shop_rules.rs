//! Rules, limits, units and columns that a shop brings along, and a run without built-in rules.

use shankwise::input::FAULT_KINDS;
use shankwise::judge::Setup;

use super::layers::{shop, weakened};
use super::{RULE, Shop, changed, levels, tool};

/// Rules of the shop lie in a folder, like the built-in ones, and take part like them.
#[test]
fn a_shop_rule_takes_part() {
    let shop = shop("", "rules = [\"shop-rules\"]\n", 40.0);
    shop.put("cell/shop-rules/reach/long-overhang.toml", RULE);
    let report = shop.report();
    let finding = report
        .findings
        .iter()
        .find(|finding| finding.rule == "reach/long-overhang")
        .expect("60 mm at 12 mm is five times");
    assert_eq!(finding.message, "sticks out 60.0 mm, 5 times its diameter");
    assert_eq!(finding.limits[0].name, "slenderness");
    // Its own limit can be changed in the same file, like any rule's.
    shop.put(
        "cell/shankwise.toml",
        "rules = [\"shop-rules\"]\n[rule.\"reach/long-overhang\".limit]\nslenderness = 6\n",
    );
    let report = shop.report();
    assert_eq!(levels(&report, "reach/long-overhang"), [""; 0]);
    assert_eq!(
        weakened(&report),
        ["limit slenderness of reach/long-overhang: 6 instead of 4"]
    );
}

/// A shop rule may name a limit of a table of its own.
#[test]
fn a_shop_table_of_limits_takes_part() {
    let shop = shop("", "rules = [\"shop-rules\"]\n", 40.0);
    let (rule, limit) = RULE.split_at(RULE.find("[limit").unwrap());
    shop.put("cell/shop-rules/reach/long-overhang.toml", rule);
    shop.put("cell/shop-rules/tables/limits.toml", limit);
    assert_eq!(levels(&shop.report(), "reach/long-overhang"), ["warning"]);
}

/// A second rule of the same name would silently win or lose: it is refused.
#[test]
fn a_shop_rule_that_takes_a_built_in_name_is_refused() {
    let shop = shop("", "rules = [\"shop-rules\"]\n", 40.0);
    shop.put("cell/shop-rules/grip/short-grip.toml", RULE);
    let error = shop.refusal();
    assert!(error.message.contains("is already defined"), "{error}");
    assert!(error.file.contains("shop-rules"), "{error}");
}

/// A rule file that lies in no topic, or whose ending is written large, would be left out in
/// silence and judge nothing: it is refused.
#[test]
fn a_shop_rule_in_the_wrong_place_is_refused() {
    for name in ["slender-overhang.toml", "reach/long-overhang.TOML"] {
        let shop = shop("", "rules = [\"shop-rules\"]\n", 40.0);
        shop.put(&format!("cell/shop-rules/{name}"), RULE);
        shop.put("cell/shop-rules/readme.txt", "not a rule");
        let error = shop.refusal();
        assert!(error.message.contains("is not a rule name"), "{error}");
        assert!(error.file.ends_with(name), "{error}");
    }
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
        shop.put("cell/shop-rules/reach/long-overhang.toml", &case(level));
        let found = levels(&shop.report(), "reach/long-overhang");
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
    let files = &report.library.shop_files;
    assert!(files.len() == 1 && files[0].own, "{files:?}");
    assert!(files[0].path.ends_with("cell/shankwise.toml"));
}
