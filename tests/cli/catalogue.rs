//! What the catalogue says of a rule.

use serde_json::Value;

use super::{complaint, run, status, stdout};

/// One rule as a terminal shows it, in one line.
fn told(rule: &str) -> String {
    let text = stdout(&run(&["rules", rule]));
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A shop that replaces a rule must know what hangs on it besides its finding.
#[test]
fn it_says_what_a_rule_stands_for() {
    let cases = [
        (
            "grip/short-grip",
            "a tool that it judges has its grip judged",
        ),
        (
            "reach/too-short-for-the-job",
            "a tool that it judges has its reach judged",
        ),
        (
            "record/stick-out-beyond-tool",
            "nothing that rests on them is judged or advised",
        ),
    ];
    let page = stdout(&run(&["rules", "--as", "markdown"]));
    for (rule, words) in cases {
        let told = told(rule);
        assert!(told.contains("counts as") && told.contains(words), "{told}");
        assert!(page.contains(words), "{words}");
    }
    assert!(!told("torque/over-torqued").contains("counts as"));
}

#[test]
fn it_says_what_corrects_a_rule() {
    let cases = [
        (
            "grip/short-grip",
            "corrected by another stick-out, a cutter of other lengths, another holder",
        ),
        (
            "suits/side-cutter-in-drill-chuck",
            "corrected by another holder",
        ),
        ("torque/over-torqued", "corrected by another torque"),
    ];
    for (rule, words) in cases {
        let told = told(rule);
        assert!(told.contains(words), "{told}");
    }
    assert!(!told("record/negative-length").contains("corrected by"));
    let page = stdout(&run(&["rules", "--as", "markdown"]));
    assert!(page.contains("* corrected by: another collet\n"));
    let told = told("reach/drill-deeper-than-flutes");
    let buy = "to buy chip_flute_length >= reach + clear_diameters * cutting_diameter";
    assert!(told.contains(buy), "{told}");
}

/// The topic's rules, each with its level, and the shared limits that they name.
#[test]
fn a_topic_is_listed() {
    let all = stdout(&run(&["rules"]));
    let output = run(&["rules", "grip"]);
    assert_eq!((status(&output), complaint(&output)), (0, String::new()));
    let text = stdout(&output);
    assert_eq!(stdout(&run(&["rules", "grip/"])), text);
    let own = |text: &str| {
        let lines = text.lines().filter(|line| line.contains(" grip/"));
        lines.map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(own(&text), own(&all));
    assert!(own(&text).len() > 10);
    assert!(!text.contains("torque/"), "{text}");
    assert!(text.contains("min_grip_fraction = "), "{text}");
    assert!(
        !text.contains("friction"),
        "a limit of other topics: {text}"
    );
    let page = stdout(&run(&["rules", "torque", "--as", "markdown"]));
    assert!(page.contains("## torque\n") && !page.contains("## grip"));
    let near = run(&["rules", "gripp"]);
    assert_eq!((status(&near), stdout(&near)), (2, String::new()));
    let said = complaint(&near);
    assert!(said.contains("did you mean `grip`?"), "{said}");
}

fn object(arguments: &[&str]) -> Value {
    let output = run(arguments);
    assert_eq!((status(&output), complaint(&output)), (0, String::new()));
    let text = stdout(&output);
    assert_eq!(text.lines().count(), 1, "{arguments:?}");
    let object: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(object["format"], 1);
    object
}

fn named<'v>(list: &'v Value, key: &str, name: &str) -> &'v Value {
    let mut all = list.as_array().unwrap().iter();
    all.find(|one| one[key] == name)
        .unwrap_or_else(|| panic!("no {name}"))
}

#[test]
fn rules_as_json() {
    let all = object(&["rules", "--as", "json"]);
    let rules = all["rules"].as_array().unwrap();
    let listed = stdout(&run(&["rules"]));
    for rule in rules {
        let id = rule["id"].as_str().unwrap();
        let line = listed
            .lines()
            .find(|line| line.contains(&format!(" {id} ")));
        let line = line.unwrap_or_else(|| panic!("{id} is not listed"));
        assert!(line.starts_with(rule["level"].as_str().unwrap()), "{line}");
        assert!(line.ends_with(rule["title"].as_str().unwrap()), "{line}");
    }
    let one = object(&["rules", "grip/short-grip", "--as", "json"]);
    assert_eq!(one["rules"].as_array().unwrap().len(), 1);
    let rule = &one["rules"][0];
    assert_eq!(rule, named(&all["rules"], "id", "grip/short-grip"));
    assert_eq!(rule["level"], "error");
    assert_eq!(rule["consequence"], "tool may come out");
    assert!(rule["when"].as_str().unwrap().contains("slotted_collet"));
    assert!(rule["expect"].is_string());
    let limit = named(&rule["limits"], "name", "min_grip_fraction");
    assert_eq!(limit["value"], 0.666_666_667);
    assert_eq!(limit["min"], 0.5);
    assert_eq!(limit["basis"], "common practice");
    assert_eq!(limit["unit"], "1");
    let topic = object(&["rules", "torque", "--as", "json"]);
    let ids = topic["rules"].as_array().unwrap().iter();
    assert!(ids.clone().count() > 1);
    assert!(
        ids.clone()
            .all(|rule| rule["id"].as_str().unwrap().starts_with("torque/"))
    );
    let form = named(&all["rules"], "id", "record/field-missing");
    assert_eq!(form["expect"], Value::Null);
}

#[test]
fn columns_as_json() {
    let all = object(&["columns", "--as", "json"]);
    let nuts = object(&["columns", "nut", "--as", "json"]);
    let own: Vec<&Value> = all["columns"].as_array().unwrap().iter().collect();
    let of_nut = own.into_iter().filter(|column| column["record"] == "nut");
    assert!(of_nut.eq(nuts["columns"].as_array().unwrap()));
    let template = stdout(&run(&["columns", "nut", "--template"]));
    let columns = nuts["columns"].as_array().unwrap();
    let header: Vec<String> = columns
        .iter()
        .map(|column| {
            let name = column["name"].as_str().unwrap();
            match column["unit"].as_str() {
                Some("1") | None => name.to_owned(),
                Some(unit) => format!("{name} [{unit}]"),
            }
        })
        .collect();
    let known: Vec<&str> = template.trim_end().split(',').collect();
    assert_eq!(header.len(), known.len());
    for (own, known) in header.iter().zip(known) {
        assert!(
            known.starts_with(own.split(' ').next().unwrap()),
            "{own} {known}"
        );
    }
    let cutter = object(&["columns", "cutter", "--as", "json"]);
    let length = named(&cutter["columns"], "name", "overall_length");
    assert_eq!(length["symbols"][0], "OAL");
    assert_eq!(
        (&length["type"], &length["unit"], &length["range"]),
        (&"quantity".into(), &"mm".into(), &"positive".into())
    );
    assert_eq!(length["needed"], true);
    let kind = named(&cutter["columns"], "name", "cutter_kind");
    assert!(
        kind["words"]
            .as_array()
            .unwrap()
            .contains(&"end mill".into())
    );
    for flag in ["--template", "--xsd"] {
        let both = run(&["columns", "nut", flag, "--as", "json"]);
        assert_eq!((status(&both), stdout(&both)), (2, String::new()));
    }
}

#[test]
fn facts_as_json() {
    let facts = object(&["facts", "--list", "--as", "json"]);
    let listed = stdout(&run(&["facts", "--list"]));
    let names: Vec<&str> = listed
        .lines()
        .filter(|line| !line.starts_with(' '))
        .filter_map(|line| line.split(' ').next())
        .collect();
    let all = facts["facts"].as_array().unwrap();
    let own: Vec<&str> = all
        .iter()
        .filter_map(|fact| fact["name"].as_str())
        .collect();
    assert_eq!(own, names);
    let grip = named(&facts["facts"], "name", "gripped_length");
    assert_eq!(
        (&grip["type"], &grip["unit"]),
        (&"number".into(), &"mm".into())
    );
    assert_eq!(grip["of_operation"], false);
}
