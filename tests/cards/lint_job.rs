//! `lint` for a job: its tools alone, and what it asks of them.

use serde_json::Value;

use super::{Cell, HEADER, SOUND, printed, told, with};

/// Two sound tools, and one that is pulled out.
fn cell(job: &str) -> Cell {
    let pulled = with(SOUND, &[("tool_number", "9"), ("stick_out", "65")]);
    let other = with(SOUND, &[("tool_number", "8")]);
    let library = format!("{HEADER}\n{SOUND}\n{other}\n{pulled}\n");
    Cell::new(&[("lib.csv", &library), ("job.csv", job)])
}

fn lint(cell: &Cell, with: &[&str]) -> (String, Option<i32>) {
    let output = cell.run(&[&["lint", "lib.csv", "--job", "job.csv"], with].concat());
    (printed(&output), output.status.code())
}

fn json(cell: &Cell) -> (Value, Option<i32>) {
    let (text, status) = lint(cell, &["--as", "json"]);
    (serde_json::from_str(&text).unwrap(), status)
}

/// How many tools were judged.
fn judged(of: &Value) -> u64 {
    let groups = of["summary"]["assemblies"].as_object().unwrap();
    groups.values().map(|count| count.as_u64().unwrap()).sum()
}

#[test]
fn only_the_tools_of_the_job_are_judged() {
    let (of_job, status) = json(&cell("7\n8\n"));
    assert_eq!((judged(&of_job), status), (2, Some(0)));
    assert_eq!(of_job["summary"]["error"], 0);
    assert!(of_job.get("not_in_library").is_none());
    let (of_job, status) = json(&cell("9\n"));
    assert_eq!((judged(&of_job), status), (1, Some(1)));
    let findings = of_job["findings"].as_array().unwrap();
    assert!(findings.iter().any(|one| one["rule"] == "grip/short-grip"));
    assert!(findings.iter().all(|one| one["tool_number"] == "9"));
    let (text, _) = lint(&cell("7\n"), &[]);
    assert!(text.starts_with("lib: 1 tool"), "{text}");
    // What a finding of it is called does not depend on the job.
    let all = cell("7\n8\n9\n");
    let whole = printed(&all.run(&["lint", "lib.csv", "--as", "json"]));
    let whole: Value = serde_json::from_str(&whole).unwrap();
    let prints = |of: &Value| {
        let found = of["findings"].as_array().unwrap().iter();
        let own = found.filter(|one| one["tool_number"] == "9");
        own.map(|one| one["fingerprint"].to_string())
            .collect::<Vec<_>>()
    };
    assert_eq!(prints(&whole), prints(&of_job));
}

#[test]
fn what_is_not_there_is_named_first_and_fails() {
    let cell = cell("7\n98\n99\n");
    let (text, status) = lint(&cell, &[]);
    assert_eq!(status, Some(1));
    let first = text.lines().next().unwrap();
    assert_eq!(first, "not in the library (2): 98, 99");
    let (text, _) = lint(&cell, &["--full"]);
    assert!(
        text.lines()
            .any(|line| line == "not in the library (2): 98, 99"),
        "{text}"
    );
    let (object, status) = json(&cell);
    assert_eq!(object["not_in_library"], serde_json::json!(["98", "99"]));
    assert_eq!((&object["fails"], status), (&Value::Bool(true), Some(1)));
    let (lines, status) = lint(&cell, &["--as", "brief"]);
    assert_eq!(status, Some(1));
    assert!(
        lines.contains("lib.csv: error: tool 98 is not in the library\n"),
        "{lines}"
    );
    let output = cell.run(&["lint", "lib.csv", "--job", "job.csv"]);
    assert!(told(&output).contains("no assembly has the tool number `99`"));
    let (log, status) = lint(&cell, &["--as", "sarif"]);
    assert_eq!(status, Some(1));
    assert!(
        log.contains("no assembly has the tool number `98`"),
        "{log}"
    );
}

#[test]
fn what_a_table_asks_is_asked_of_its_tools() {
    // 40 mm of stick-out, and a job that wants 45 mm.
    let asked = cell("tool_number,reach,clearance\n7,43,2\n8,30,2\n");
    let (of_job, status) = json(&asked);
    assert_eq!(status, Some(1));
    let findings = of_job["findings"].as_array().unwrap();
    let short = findings
        .iter()
        .find(|one| one["rule"] == "reach/too-short-for-the-job");
    let short = short.expect("the tool does not reach");
    assert_eq!(short["tool_number"], "7");
    let places = short["places"].as_array().unwrap();
    assert!(
        places.iter().any(|place| place["file"] == "job.csv"),
        "{short}"
    );
    assert_eq!(of_job["summary"]["error"], 1, "{findings:?}");
    // Without it nothing is asked, and a list asks nothing either.
    assert_eq!(json(&cell("7\n8\n")).1, Some(0));
    // A card of it is stopped likewise.
    let output = asked.run(&["cards", "lib.csv", "--job", "job.csv", "--out", "c.html"]);
    assert_eq!(output.status.code(), Some(1));
    let page = super::Page(std::fs::read_to_string(asked.0.path().join("c.html")).unwrap());
    assert_eq!(
        (page.card("7").stamp(), page.card("8").stamp()),
        ("DO NOT BUILD", "")
    );
    assert!(page.card("7").words().contains("the tool does not reach"));
}

/// Whether an id is only a name does not depend on the job.
#[test]
fn a_job_is_no_table_of_the_library() {
    let row = format!("{SOUND},em12,c32-12");
    let library = format!("{HEADER},cutter,collet\n{row}\n");
    let job = "tool_number,reach,clearance\n7,20,2\n";
    let cell = Cell::new(&[("lib.csv", &library), ("job.csv", job)]);
    let (of_job, status) = json(&cell);
    assert_eq!(status, Some(0), "{of_job}");
    assert_eq!(of_job["summary"]["error"], 0);
}

#[test]
fn a_job_is_of_one_library() {
    let cell = cell("7\n");
    let output = cell.run(&["lint", "lib.csv", "lib.csv", "--job", "job.csv"]);
    assert_eq!(
        (output.status.code(), printed(&output)),
        (Some(2), String::new())
    );
    let output = cell.run(&["lint", "lib.csv", "--job", "none.csv"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(told(&output).contains("none.csv"));
    let over = cell.run(&["lint", "lib.csv", "--job", "job.csv", "--out", "job.csv"]);
    assert_eq!(over.status.code(), Some(2));
}
