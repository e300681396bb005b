//! Shop files that are refused, each at its line and column.

use super::{Shop, refused, tool};

#[test]
fn unknown_keys() {
    refused(
        "name = \"cell 3\"\n\n[limits]\nmin_grip_fraction = \"3/4\"\n",
        "limits",
        "unknown key `limits`; did you mean `limit`?",
    );
    refused("nmae = \"cell 3\"\n", "nmae", "did you mean `name`?");
    refused(
        "[units]\nlenght = \"in\"\n",
        "lenght",
        "did you mean `length`?",
    );
    refused(
        "[rule.\"grip/short-grip\"]\nlevle = \"note\"\n",
        "levle",
        "did you mean `level`?",
    );
    let accept =
        "[[accept]]\nrule = \"grip/short-grip\"\ntool_number = \"7\"\nreason = \"r\"\nby = \"b\"\n";
    refused(
        &(accept.to_owned() + "untill = 2027-01-31\n"),
        "untill",
        "did you mean `until`?",
    );
    refused(
        &accept.replace("reason = \"r\"\n", ""),
        "[[accept]]",
        "missing field `reason`",
    );
}

#[test]
fn unknown_rules_and_limits() {
    refused(
        "[rule.\"grip/short-gripp\"]\nlevel = \"note\"\n",
        "\"grip/short-gripp\"",
        "there is no rule `grip/short-gripp`; did you mean `grip/short-grip`?",
    );
    refused(
        "[rule.\"colour/of-the-door\"]\nlevel = \"note\"\n",
        "\"colour",
        "`shankwise rules` lists them",
    );
    refused(
        "[limit]\nmin_grip_fractoin = \"3/4\"\n",
        "min_grip_fractoin",
        "there is no limit `min_grip_fractoin`; did you mean `min_grip_fraction`?",
    );
    refused(
        "[rule.\"grip/flutes-in-bore\".limit]\nrun_out_allowence = \"1 mm\"\n",
        "run_out_allowence",
        "did you mean `run_out_allowance`?",
    );
    // A shared limit is not one of a rule, nor the other way round.
    refused(
        "[rule.\"grip/short-grip\".limit]\nmin_grip_fraction = \"3/4\"\n",
        "min_grip_fraction",
        "there is no limit `min_grip_fraction`",
    );
    refused(
        "[limit]\nrun_out_allowance = \"1 mm\"\n",
        "run_out_allowance",
        "there is no limit `run_out_allowance`",
    );
    refused(
        "[rule.\"grip/short-grip\"]\nlevel = \"of\"\n",
        "\"of\"",
        "unknown word `of`; did you mean `off`?",
    );
    refused(
        "\n[[accept]]\nrule = \"grip/short-gripp\"\ntool_number = \"7\"\nreason = \"r\"\nby = \"b\"\n",
        "\"grip/short-gripp\"",
        "did you mean `grip/short-grip`?",
    );
}

#[test]
fn bad_units() {
    refused(
        "[units]\nlength = \"N·m\"\n",
        "\"N·m\"",
        "`N·m` cannot be the unit here; expected mm or in",
    );
    refused(
        "[units]\ntorque = \"furlong\"\n",
        "\"furlong\"",
        "expected N·m or lbf·ft or lbf·in",
    );
    refused("[units]\nlength = \"cm\"\n", "\"cm\"", "expected mm or in");
    refused(
        "[limit]\nmin_grip_fraction = \"3/4 mm\"\n",
        "\"3/4 mm\"",
        "does not measure this",
    );
    refused(
        "[limit]\nclosing_room = \"0.5 N\"\n",
        "\"0.5 N\"",
        "does not measure this",
    );
}

#[test]
fn bad_dates() {
    let accept = |until: &str| {
        format!(
            "[[accept]]\nrule = \"grip/short-grip\"\ntool_number = \"7\"\nreason = \"r\"\nby = \"b\"\nuntil = {until}\n"
        )
    };
    refused(
        &accept("07:32:00"),
        "07:32:00",
        "expected a date such as 2027-01-31",
    );
    for until in ["\"2027-01-31\"", "2027-13-01", "2027-02-30", "soon"] {
        let text = accept(until);
        let shop = Shop::new(&[
            ("cell/tools.csv", &tool(40.0)),
            ("cell/shankwise.toml", &text),
        ]);
        let error = shop.refusal();
        assert_eq!(error.position.line, 6, "{until}: {error}");
    }
}

#[test]
fn columns_that_lead_nowhere() {
    refused(
        "[columns]\n\"sticks out\" = \"stick_ot\"\n",
        "\"stick_ot\"",
        "`stick_ot` is not a property; did you mean `stick_out`?",
    );
    let table = |keys: &str| format!("[columns]\n\"Typ\" = {{ {keys} }}\n");
    for (keys, words) in [
        (
            "property = \"cuter_kind\"",
            "`cuter_kind` is not a property",
        ),
        ("unit = \"mm\"", "`property` may say which is meant"),
        (
            "property = \"stick_out\", unit = \"N·m\"",
            "`N·m` does not measure this; expected mm",
        ),
        (
            "property = \"stick_out\", values = { \"ca. 30\" = \"30\" }",
            "`stick_out` is a number, and `values` translates words",
        ),
        (
            "property = \"cutter_kind\", values = { \"F\" = \"endmil\" }",
            "`endmil` is not a known word; did you mean `end mill`?",
        ),
        (
            "property = \"coolant_channels\", values = { \"ja\" = \"ja\" }",
            "expected one of: yes, no",
        ),
        (
            "property = \"stick_out\", unit = \"furlong\"",
            "the unit `furlong` is not known; expected mm",
        ),
        (
            "ignored = true, unit = \"mm\"",
            "it is ignored, and says how it is read",
        ),
    ] {
        refused(&table(keys), &format!("{{ {keys} }}"), words);
    }
}

/// A shop file reaches only into its own folder, the library's as the plant's.
#[test]
fn a_shop_file_stays_in_its_folder() {
    let outside = std::env::temp_dir();
    let absolute = toml::Value::String(outside.display().to_string()).to_string();
    let words = "a shop file may name only folders inside its own folder";
    for folder in [
        "\"../rules\"",
        "\"shop/../../rules\"",
        "\"..\"",
        absolute.as_str(),
    ] {
        let text = format!("rules = [{folder}]\n");
        refused(&text, folder, words);
        let plant = Shop::new(&[
            ("cell/tools.csv", &tool(40.0)),
            ("plant/shankwise.toml", &text),
        ]);
        let error = plant.refusal();
        assert!(error.message.contains(words), "{error}");
        assert!(error.file.ends_with("plant/shankwise.toml"), "{error}");
    }
    let rule = super::RULE;
    let plant = Shop::new(&[
        ("cell/tools.csv", &tool(40.0)),
        ("plant/shankwise.toml", "rules = [\"rules\"]\n"),
        ("plant/rules/reach/long-overhang.toml", rule),
    ]);
    let setup = plant.setup().expect("it stays in its folder");
    assert!(setup.book.rule("reach/long-overhang").is_some());
    // The folder itself, spelled with a leading dot, is inside.
    let own = Shop::new(&[
        ("cell/tools.csv", &tool(40.0)),
        ("cell/shankwise.toml", "rules = [\"./shop-rules\"]\n"),
        ("cell/shop-rules/reach/long-overhang.toml", rule),
    ]);
    let setup = own.setup().expect("`./` is inside");
    assert!(setup.book.rule("reach/long-overhang").is_some());
}

/// A folder of rules that is not there, or holds none, is said to be so.
#[test]
fn a_folder_of_rules_without_rules() {
    let shop = Shop::new(&[
        ("cell/tools.csv", &tool(40.0)),
        ("cell/shankwise.toml", "rules = [\"shop-rules\"]\n"),
    ]);
    assert!(shop.refusal().message.contains("cannot be read"));
    shop.put("cell/shop-rules/readme.txt", "nothing here");
    assert!(shop.refusal().message.contains("has no rule"));
}
