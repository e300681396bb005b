//! Until when something may be accepted: by its rule, and by the plant's terms.

use super::{Cell, GRIP, REACH, TODAY, UNTIL, entry, lapsed, of_rule, said};

/// What the file says is refused, at this line and column, with these words.
fn refused(cell: &Cell, place: &str, words: &str) {
    let output = cell.run(&["lint", "cell", "--as-of", TODAY]);
    assert_eq!(output.status.code(), Some(2), "{}", said(&output));
    let told = said(&output);
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        told.contains(&format!("shankwise.toml:{place}")),
        "{place}: {told}"
    );
    assert!(told.contains(words), "{words}: {told}");
}

/// Grip, holding and torque need a day, whatever comes of them, and so does what lets a tool
/// come out; nothing else does.
#[test]
fn some_rules_need_a_last_day() {
    for rule in [
        GRIP,
        "grip/coolant-unsealed",
        "holding/slips",
        "torque/over-torqued",
        "speed/over-speed",
    ] {
        let cell = Cell::new();
        cell.put("cell/shankwise.toml", &entry(rule, ""));
        refused(&cell, "2:8", "what is accepted of this rule has a last day");
        cell.put("cell/shankwise.toml", &entry(rule, UNTIL));
        let output = cell.run(&["lint", "cell"]);
        assert_ne!(output.status.code(), Some(2), "{rule}: {}", said(&output));
    }
    for rule in [REACH, "stiffness/tip-bends"] {
        let cell = Cell::new();
        cell.put("cell/shankwise.toml", &entry(rule, ""));
        let output = cell.run(&["lint", "cell"]);
        assert_ne!(output.status.code(), Some(2), "{rule}: {}", said(&output));
    }
}

/// A shop's own rule is asked by its topic and by what comes of it, not by its name.
#[test]
fn a_rule_of_the_shops_own() {
    let rule = |consequence: &str| {
        format!(
            "title = \"t\"\nlevel = \"warning\"\nbasis = \"shop\"\nconsequence = \"{consequence}\"\nexpect = \"stick_out < 60 mm\"\nmessage = \"m\"\nwhy = \"w\"\nadvice = \"a\"\n"
        )
    };
    for (id, consequence, needs) in [
        ("grip/own", "tidiness", true),
        ("reach/own", "tool may come out", true),
        ("reach/own", "scrap", false),
    ] {
        let cell = Cell::new();
        cell.put(&format!("cell/own/{id}.toml"), &rule(consequence));
        let shop = format!("rules = [\"own\"]\n\n{}", entry(id, ""));
        cell.put("cell/shankwise.toml", &shop);
        let code = cell.run(&["lint", "cell"]).status.code();
        assert_eq!(code == Some(2), needs, "{id} {consequence}");
    }
}

#[test]
fn a_plant_may_ask_for_a_day_of_all() {
    let cell = Cell::new();
    cell.put("shankwise.toml", "[acceptance]\nuntil_required = true\n");
    cell.put("cell/shankwise.toml", &entry(REACH, ""));
    refused(&cell, "2:8", "whatever the plant accepts has a last day");
    // The cell's own file cannot take that back.
    let loose = format!(
        "{}\n[acceptance]\nuntil_required = false\n",
        entry(REACH, "")
    );
    cell.put("cell/shankwise.toml", &loose);
    refused(&cell, "2:8", "whatever the plant accepts has a last day");
    cell.put("cell/shankwise.toml", &entry(REACH, UNTIL));
    assert_ne!(cell.run(&["lint", "cell"]).status.code(), Some(2));
}

/// Further off than the plant permits: it does not count, and is said; a day later it may.
#[test]
fn a_plant_may_say_for_how_long() {
    let was = "until = 2027-05-25\nnot_worse_than = \"18.0 mm\"\n";
    let cell = Cell::accepting(was);
    cell.put("shankwise.toml", "[acceptance]\nlongest = \"180 d\"\n");
    let long = "record/accepted-too-long";
    let judged = cell.judged_on("2026-11-25");
    assert_eq!(
        lapsed(&of_rule(&judged, GRIP)[0]),
        ["that is 181 days off, and the plant permits 180"]
    );
    let told = &of_rule(&judged, long)[0];
    assert_eq!(told["level"], "warning");
    assert_eq!(told["places"][0]["line"], 6);
    let judged = cell.judged_on("2026-11-26");
    assert!(of_rule(&judged, GRIP)[0]["accepted"].is_object());
    assert_eq!(of_rule(&judged, long).len(), 0);
    // Of two files the stricter counts, whichever is nearer.
    for (plant, own) in [("30 d", "180 d"), ("180 d", "30 d")] {
        cell.put(
            "shankwise.toml",
            &format!("[acceptance]\nlongest = \"{plant}\"\n"),
        );
        let text = format!("{}\n[acceptance]\nlongest = \"{own}\"\n", entry(GRIP, was));
        cell.put("cell/shankwise.toml", &text);
        assert_eq!(of_rule(&cell.judged_on("2027-03-01"), long).len(), 1);
        assert_eq!(of_rule(&cell.judged_on("2027-05-01"), long).len(), 0);
    }
}

#[test]
fn terms_that_make_no_sense_are_refused() {
    for longest in [
        "\"180 mm\"",
        "\"long\"",
        "0",
        "-3",
        "\"1.5 d\"",
        "true",
        "\"\"",
        "99999999",
    ] {
        let cell = Cell::new();
        cell.put(
            "cell/shankwise.toml",
            &format!("[acceptance]\nlongest = {longest}\n"),
        );
        refused(
            &cell,
            "2:11",
            "expected a number of days, such as \"180 d\"",
        );
    }
    for longest in [
        "\"180 d\"",
        "\"180 days\"",
        "\"1 day\"",
        "180",
        "\" 180d \"",
    ] {
        let cell = Cell::new();
        cell.put(
            "cell/shankwise.toml",
            &format!("[acceptance]\nlongest = {longest}\n"),
        );
        assert_ne!(
            cell.run(&["lint", "cell"]).status.code(),
            Some(2),
            "{longest}"
        );
    }
    let cell = Cell::new();
    cell.put(
        "cell/shankwise.toml",
        "[acceptance]\nuntil_requird = true\n",
    );
    refused(&cell, "2:1", "did you mean `until_required`?");
    // TOML cannot have both under one name.
    cell.put(
        "cell/shankwise.toml",
        &format!("[accept]\nlongest = 3\n\n{}", entry(GRIP, UNTIL)),
    );
    assert_eq!(cell.run(&["lint", "cell"]).status.code(), Some(2));
}

#[test]
fn values_that_cannot_be_are_refused_where_they_are() {
    for (line, place, words) in [
        ("not_worse_than = \"much\"", "7:18", "expected a number"),
        ("not_worse_than = \"21.0 furlong\"", "7:18", "furlong"),
        ("not_worse_than = true", "7:18", "expected a number"),
        (
            "part_of_needed = \"0.7 mm\"",
            "7:18",
            "does not measure this",
        ),
        ("nut_torque = \"80\"", "7:14", "such as \"80 N·m\""),
        ("nut_torque = \"80 mm\"", "7:14", "does not measure this"),
        (
            "operation_values = { reach = \"70\" }",
            "7:30",
            "such as \"70 mm\"",
        ),
        (
            "operation_values = { raech = \"70 mm\" }",
            "7:30",
            "is not a property of an operation",
        ),
        (
            "operation_values = { wall = \"ajar\" }",
            "7:29",
            "is not a known word",
        ),
        (
            "operation_values = { stick_out = \"70 mm\" }",
            "7:34",
            "is not a property of an operation",
        ),
    ] {
        let cell = Cell::accepting(&format!("{UNTIL}{line}\n"));
        refused(&cell, place, words);
    }
    let cell = Cell::accepting(&format!("{UNTIL}not_worse_then = \"21 mm\"\n"));
    refused(&cell, "7:1", "did you mean `not_worse_than`?");
    let cell = Cell::new();
    cell.put("cell/shankwise.toml", &entry("grip/shortgrip", UNTIL));
    refused(&cell, "2:8", "did you mean `grip/short-grip`?");
}
