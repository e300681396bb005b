//! Well-formed with wrong content gives findings, at the right place.

use shankwise::judge::Report;

use super::{PARTS, document, library, lint};
use crate::support::lint_text;

/// Rule, line, column and message of the findings of form.
fn of_form(report: &Report) -> Vec<(String, usize, usize, String)> {
    let findings = report.findings.iter();
    let of_form = findings.filter(|f| f.rule.starts_with("record/") && f.missing.is_empty());
    of_form
        .map(|finding| {
            let place = &finding.places[0];
            (
                finding.rule.clone(),
                place.line,
                place.column,
                finding.message.to_string(),
            )
        })
        .collect()
}

fn one(text: &str) -> (String, usize, usize, String) {
    let mut all = of_form(&lint(text));
    let other = [
        "record/part-unused",
        "record/value-assumed",
        "record/looks-like-millimetres",
        "record/implausible-overall-length",
    ];
    all.retain(|(rule, ..)| !other.contains(&rule.as_str()));
    assert_eq!(all.len(), 1, "{text}\n{all:?}");
    all.remove(0)
}

#[test]
fn the_grip_is_judged() {
    let report = lint(&document(PARTS));
    let finding = report
        .findings
        .iter()
        .find(|f| f.rule == "grip/short-grip")
        .unwrap();
    assert_eq!(
        finding.message,
        "only 19.0 mm of plain shank gripped; 26.7 mm needed, 7.7 mm short (47 % of the 40.0 mm gripping length, not 67 %); the best case, as face_setback is not stated"
    );
    assert_eq!(
        (finding.places[0].line, finding.places[0].text.as_str()),
        (4, "65")
    );
    assert_eq!(report.library.form, "xml");
}

#[test]
fn unknown_names_are_findings() {
    let cases = [
        (
            PARTS.replace("cutters>", "cuters>"),
            "record/unknown-element",
            "did you mean `cutters`?",
        ),
        (
            PARTS
                .replace("<cutter id", "<cuter id")
                .replace("</cutter>", "</cuter>"),
            "record/unknown-element",
            "expected `cutter`",
        ),
        (
            PARTS.replace(
                "<stick-out>65</stick-out>",
                "<stick-out>65</stick-out><stick-outt>1</stick-outt>",
            ),
            "record/unknown-element",
            "did you mean `stick-out`?",
        ),
        (
            PARTS.replace("<stick-out>", "<stick-out measured=\"yes\">"),
            "record/unknown-element",
            "`measured`",
        ),
        (
            PARTS.replace("65<", "65<b>6</b><"),
            "record/unknown-element",
            "`b`",
        ),
        (
            PARTS.replace("<assemblies>", "<assemblies>hello"),
            "record/unknown-element",
            "`text`",
        ),
        (
            PARTS.replace(
                "<stick-out>65</stick-out>",
                "<stick-out>65</stick-out><stick-out>60</stick-out>",
            ),
            "record/column-twice",
            "stick-out",
        ),
    ];
    for (sections, rule, says) in cases {
        let report = lint(&document(&sections));
        let found = of_form(&report);
        let hit = found
            .iter()
            .find(|(id, .., message)| id == rule && message.contains(says));
        assert!(hit.is_some(), "{rule} {says}: {found:?}");
    }
}

#[test]
fn broken_values_point_at_themselves() {
    let text = document(&PARTS.replace(">65<", "> 6x5 <"));
    let at = text.lines().nth(3).unwrap().find("6x5").unwrap() + 1;
    let (rule, line, column, message) = one(&text);
    let found = (rule.as_str(), line, column);
    assert_eq!(found, ("record/cell-unreadable", 4, at), "{message}");
    let (rule, _, _, message) = one(&document(
        &PARTS.replace("<stick-out>", "<stick-out unit=\"mmm\">"),
    ));
    assert_eq!(rule, "record/cell-unreadable");
    assert!(message.contains("did you mean `mm`?"), "{message}");
    let inch = document(
        &PARTS
            .replace(
                "<stick-out>65<",
                "<stick-out>65</stick-out><nut-torque>100</nut-torque><assembly-mass>1<",
            )
            .replace("</stick-out></assembly>", "</assembly-mass></assembly>"),
    );
    let (rule, ..) = one(&inch.replace("units=\"mm\"", "units=\"in\""));
    assert_eq!(rule, "record/unit-missing");
}

#[test]
fn every_place_is_the_cells_text() {
    let text = document(PARTS)
        .replace(">65<", "><!-- measured --><![CDATA[65]]><")
        .replace('\n', "\r\n");
    let library = library(&text);
    let assembly = &library.assemblies[0];
    let entries = assembly.record.entries();
    let texts: Vec<&str> = entries
        .map(|entry| library.sources.text(entry.place()))
        .collect();
    assert_eq!(texts, ["7", "em12", "c32", "65"]);
    let written = document(&PARTS.replace(">65<", ">6&#53;<"));
    let report = lint(&written);
    let grip = report
        .findings
        .iter()
        .find(|f| f.rule == "grip/short-grip")
        .unwrap();
    assert_eq!(grip.places[0].text, "6&#53;");
}

#[test]
fn units_beside_and_inside() {
    let inch = |cell: &str| {
        let text = document(&PARTS.replace("<stick-out>65</stick-out>", cell));
        let library = library(&text);
        let record = &library.assemblies[0].record;
        record
            .get(shankwise::library::Field::StickOut)
            .and_then(|entry| entry.value.number())
    };
    assert_eq!(inch("<stick-out unit=\"in\">2</stick-out>"), Some(50.8));
    assert_eq!(inch("<stick-out>2 in</stick-out>"), Some(50.8));
    assert_eq!(inch("<stick-out unit=\"in\">2 in</stick-out>"), Some(50.8));
    assert_eq!(inch("<stick-out unit=\"\">50.8</stick-out>"), Some(50.8));
    // What the root calls `units` is not passed over in a field.
    assert_eq!(inch("<stick-out units=\"in\">2</stick-out>"), Some(50.8));
    assert_eq!(inch("<stick-out Unit=\"in\">2</stick-out>"), Some(50.8));
    assert_eq!(
        inch("<stick-out unit=\"in\" units=\"in\">2</stick-out>"),
        Some(50.8)
    );
    assert_eq!(
        inch("<stick-out unit=\"in\" units=\"mm\">2</stick-out>"),
        None
    );
    // Whoever wrote one of the two was wrong, and it is not for us to say which.
    let (rule, line, _, message) = one(&document(
        &PARTS.replace("<stick-out>65<", "<stick-out unit=\"mm\">2 in<"),
    ));
    assert_eq!((rule.as_str(), line), ("record/cell-unreadable", 4));
    assert!(
        message.contains("two units, `in` behind the number and `mm` beside it"),
        "{message}"
    );
}

#[test]
fn the_same_as_a_flat_file() {
    let flat = "tool_number,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length,stick_out\n7,83,45,12,12,32,12,40,65\n";
    let say = |report: &Report| {
        let findings = report
            .findings
            .iter()
            .filter(|f| f.rule != "record/part-unused");
        let mut said: Vec<(String, String)> = findings
            .map(|f| (f.rule.clone(), f.message.to_string()))
            .collect();
        said.sort();
        said
    };
    assert_eq!(say(&lint(&document(PARTS))), say(&lint_text(flat)));
}
