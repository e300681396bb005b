//! Libraries that try the format: control characters, other scripts, gaps, inches, shop files.

use std::fs;

use serde_json::Value;
use tempfile::TempDir;

use super::{all_forms, check, checked, findings};
use crate::support::run;

const FULL: &str = "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length,nut_torque,reach,face_setback,clearance\n";

fn put(folder: &TempDir, name: &str, bytes: &[u8]) -> String {
    let path = folder.path().join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(&path, bytes).unwrap();
    path.display().to_string()
}

/// Every library here is readable, so each gives an object, twice.
#[test]
fn inline_libraries_keep_the_format() {
    let folder = TempDir::new().unwrap();
    let rows = |rows: &str| format!("{FULL}{rows}").into_bytes();
    let mut paths = vec![
        put(&folder, "short.csv", &rows("1,65,83,45,12,12,32,12,40,80,60,0,0\n")),
        put(&folder, "whole.csv", &rows("1,40,83,45,12,12,32,12,40,80,30,0,0\n")),
        put(&folder, "gaps.csv", &rows("1,,,,,,,,,,\n2,65,,45,,12,32,,,,\n,,,,,,,,,,60\n")),
        put(&folder, "ragged.csv", &rows("1,65,83\n2,65,83,45,12,12,32,12,40,80,60,1,2,3\n")),
        put(&folder, "odd.csv", &rows("\u{1b}[31m,6\u{7}5,83 mm,45,-12,0,x,12 in,1e9,80 lbf·ft,60\n")),
        put(&folder, "far.csv", &rows("1,1e300,1e300,1e-300,12,12,32,12,1e300,80,60\n")),
        put(&folder, "thirds.csv", &rows("1,65 1/3,83 1/7,45 1/9,12,12,32,12,40 1/11,80,60 1/13\n")),
        put(&folder, "scripts.csv", "tool_number,assembly,stick_out,operation\nПроба 1,刀具,65,ø\u{202e}drehen\n".as_bytes()),
        put(&folder, "marks.csv", "\u{feff}tool_number;stick_out [mm];overall length (in)\r\n1;65,5;3 1/4\r\n".as_bytes()),
        put(&folder, "latin.csv", b"tool_number,description,stick_out\n1,Fr\xe4ser \xd8 12,65\n"),
        put(&folder, "unknown.csv", b"tool_number,stick_out,boer_lenght\n1,65,40\n"),
        put(&folder, "assumed.csv", b"tool_number,stick_out,OAL,DMM,DC,LCF,collet_size,bore_diameter,bore_form\n1,60,118,16,16,60,32,16,through\n"),
    ];
    put(&folder, "in/shankwise.toml", b"name = \"inch \\u001b cell\"\n[units]\nlength = \"in\"\n[limit]\nmin_grip_fraction = \"1/2\"\n[[accept]]\nrule = \"grip/flutes-in-bore\"\ntool_number = \"1\"\nreason = \"r\\u202e\"\nby = \"b\"\nuntil = 2099-01-01\n");
    paths.push(put(
        &folder,
        "in/tools.csv",
        &rows("1,1,3,1,0.5,0.5,32,0.5,1.5,80,2\n"),
    ));
    put(
        &folder,
        "tables/assemblies.csv",
        b"tool_number,cutter,collet,stick_out\n1,A,C,60\n2,B,X,\n",
    );
    put(
        &folder,
        "tables/cutters.csv",
        b"cutter,overall_length,shank_diameter\nA,100,12\nB,,\nB,90,10\n",
    );
    put(
        &folder,
        "tables/collets.csv",
        b"collet,collet_size,bore_diameter\nC,32,12\nD,32,10\n",
    );
    put(
        &folder,
        "tables/operations.csv",
        b"operation,tool_number,reach\nrough,1,70\nfinish,1,50\nlost,9,5\n",
    );
    paths.push(folder.path().join("tables").display().to_string());
    let paths: Vec<&str> = paths.iter().map(String::as_str).collect();
    let objects = all_forms(&paths);
    assert_eq!(objects.len(), 2 * paths.len());
    let verdict = |at: usize| objects[at]["summary"]["verdict"].as_str().unwrap();
    assert_eq!(
        (verdict(0), verdict(1), verdict(2)),
        ("fails", "nothing-found", "incomplete")
    );
    for path in paths {
        let facts = checked(&run(&["facts", "--as", "json", path]));
        assert_eq!(facts.len(), 1, "{path}");
        assert!(facts[0]["assemblies"].is_array());
    }
}

fn lint(text: &str) -> Value {
    let report = crate::support::lint_text(text);
    check(&shankwise::write::to_json_line(&shankwise::write::json(
        &report,
    )))
}

fn finding<'v>(object: &'v Value, rule: &str) -> &'v Value {
    let mut all = findings(object).iter();
    all.find(|finding| finding["rule"] == rule)
        .unwrap_or_else(|| panic!("no {rule} in {object}"))
}

/// The sentence of the format that an engineer would look at first.
#[test]
fn a_finding_in_full() {
    let object = lint(&format!("{FULL}12,65,83,45,12,12,32,12,40,80,60,0,0\n"));
    let found = finding(&object, "grip/short-grip");
    assert_eq!(found["level"], "error");
    assert_eq!(found["outcome"], "not met");
    assert_eq!(found["tool_number"], "12");
    assert_eq!(found["operation"], Value::Null);
    let grip = &found["facts"]["gripped_length"];
    assert_eq!(
        (&grip["value"], &grip["unit"]),
        (&18.0.into(), &"mm".into())
    );
    let needed = &found["facts"]["needed_grip"]["value"];
    assert_eq!(needed, &Value::from(26.666_666_7), "nine digits");
    let place = &found["places"][0];
    assert_eq!((&place["line"], &place["column"]), (&2.into(), &4.into()));
    assert_eq!(
        (&place["field"], &place["text"]),
        (&"stick_out".into(), &"65".into())
    );
}

/// JSON is in canonical units whatever the library's own are.
#[test]
fn json_is_metric() {
    let metric = lint(
        "tool_number,OAL,LS,DMM,DC,stick_out,collet_size,bore_diameter,bore_length\n1,76.2,25.4,12.7,12.7,63.5,32,12.7,38.1\n",
    );
    let inches = lint(
        "tool_number,OAL [in],LS [in],DMM [in],DC [in],stick_out [in],collet_size,bore_diameter [in],bore_length [in]\n1,3,1,1/2,0.5,2 1/2,32,0.5,1.5\n",
    );
    let facts = |object: &Value| finding(object, "grip/short-grip")["facts"].clone();
    assert_eq!(facts(&metric), facts(&inches));
}

/// A field that is missing: its record's line and start column, no text.
#[test]
fn a_missing_field_points_at_its_record() {
    let folder = TempDir::new().unwrap();
    put(
        &folder,
        "l/assemblies.csv",
        b"tool_number,cutter,collet,stick_out\n1,A,C,60\n",
    );
    put(
        &folder,
        "l/cutters.csv",
        b"cutter,overall_length\n\n  Z,1\n\"A\",100\n",
    );
    put(
        &folder,
        "l/collets.csv",
        b"collet,collet_size,bore_diameter,bore_length\nC,32,12,40\n",
    );
    let path = folder.path().join("l").display().to_string();
    let object = &checked(&run(&["lint", "--as", "json", &path]))[0];
    for rule in ["grip/short-grip", "record/field-missing"] {
        let missing = findings(object).iter().find(|finding| {
            finding["rule"] == rule
                && finding["missing"]
                    .as_array()
                    .unwrap()
                    .contains(&"cutter.shank_length".into())
        });
        let places = missing.expect(rule)["places"].as_array().unwrap().clone();
        let place = places
            .iter()
            .find(|place| place["field"] == "shank_length")
            .unwrap();
        assert!(place["file"].as_str().unwrap().ends_with("cutters.csv"));
        assert_eq!(
            (&place["line"], &place["column"], &place["text"]),
            (&4.into(), &1.into(), &"".into())
        );
    }
}

/// A fact that cannot be computed is null and says what is missing.
#[test]
fn an_unknown_fact_names_what_is_missing() {
    let object = lint(
        "tool_number,stick_out,OAL,LS,DMM,DC,collet_size,bore_diameter\n1,65,83,45,12,12,32,12\n",
    );
    let found = finding(&object, "grip/short-grip");
    assert_eq!(found["level"], "none");
    assert_eq!(found["missing"], serde_json::json!(["collet.bore_length"]));
    let fact = &found["facts"]["gripped_length"];
    assert_eq!(fact["value"], Value::Null);
    assert_eq!(fact["unit"], "mm");
    assert_eq!(fact["missing"], serde_json::json!(["collet.bore_length"]));
}

/// What a terminal would act on is escaped, and comes back as it stood in the cell.
#[test]
fn control_characters_are_escaped_and_kept() {
    let number = "\u{1b}[31m\u{7}\u{9b}\u{85}\u{202e}\u{2066}\u{200f}\u{feff}x";
    let report = crate::support::lint_text(&format!(
        "{FULL}{number},65,83,45,12,12,32,12,40,80,60,0,0\n"
    ));
    let line = shankwise::write::to_json_line(&shankwise::write::json(&report));
    let raw = line.trim_end_matches('\n');
    assert!(!raw.chars().any(char::is_control), "{raw}");
    for c in ['\u{202e}', '\u{2066}', '\u{200f}', '\u{feff}'] {
        assert!(!raw.contains(c), "{c:?}");
    }
    assert_eq!(
        finding(&check(&line), "grip/short-grip")["tool_number"],
        number
    );
}

/// Two runs are equal byte by byte, whatever the number of threads does.
#[test]
fn two_runs_are_equal() {
    let folder = TempDir::new().unwrap();
    let rows = (0..120).map(|tool| {
        let (out, reach) = (30 + tool % 50, tool % 70);
        format!("{tool},{out},83,45,12,12,32,12,40,,{reach}\n")
    });
    let text = FULL.to_owned() + &rows.collect::<String>();
    let path = put(&folder, "many.csv", text.as_bytes());
    for form in ["json", "text", "plain"] {
        let arguments = ["lint", "--with-facts", "--show", "all", "--as", form, &path];
        let (one, other) = (run(&arguments), run(&arguments));
        assert!(!one.stdout.is_empty());
        assert!(one.stdout == other.stdout, "{form}: two runs differ");
    }
}
