//! What a form has no place for is told, and what cannot be read stays unread.

use std::fs;

use super::{convert, faults, read, records};

fn in_folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

fn head(told: &str) -> Vec<&str> {
    told.lines().map(str::trim).collect()
}

/// Kinds of fault and what they quote, wherever they stand.
fn wrong(path: &std::path::Path) -> Vec<String> {
    let (library, _) = read(path);
    let unread = [
        "record/cell-unreadable",
        "record/unit-missing",
        "record/negative-length",
    ];
    let mut all: Vec<String> = library
        .faults()
        .filter(|fault| unread.contains(&fault.kind))
        .map(|fault| {
            let arg = |wanted| {
                fault
                    .args
                    .iter()
                    .find(|(name, _)| *name == wanted)
                    .map(|(_, text)| text.to_string())
            };
            format!("{} {:?} {:?}", fault.kind, arg("property"), arg("text"))
        })
        .collect();
    all.sort();
    all
}

const UNREAD: &str = "tool_number,cutter_kind,cutting_diameter,overall_length,shank_diameter,shank_length,collet.collet_size,collet.bore_diameter,collet.bore_length,stick_out,note\n\
1,end mil,ca. 42,n/a,12,\"12,5\",size ?,12 furlong,-4,0,in the drawer\n";

#[test]
fn cells_that_are_no_value_are_found_again() {
    let folder = in_folder(&[("a.csv", UNREAD)]);
    let at = |name: &str| folder.path().join(name);
    let before = wrong(&at("a.csv"));
    assert_eq!(before.len(), 8);
    let told = convert(&at("a.csv"), "xml", &at("b.xml"));
    assert!(
        head(&told).contains(
            &"columns that are not read and have no place here, with their cells: 1 (note 1)"
        ),
        "{told}"
    );
    convert(&at("b.xml"), "csv", &at("c.csv"));
    convert(&at("a.csv"), "csv", &at("d.csv"));
    for name in ["b.xml", "c.csv", "d.csv"] {
        assert_eq!(wrong(&at(name)), before, "{name}");
    }
    // What nobody reads has a place in a table.
    let again = fs::read_to_string(at("d.csv")).unwrap();
    assert!(
        again.contains(",note\n") && again.contains("in the drawer"),
        "{again}"
    );
    assert_eq!(faults(&read(&at("a.csv")).0), faults(&read(&at("d.csv")).0));
}

#[test]
fn numbers_that_another_form_would_read_bear_a_question_mark() {
    let text = "tool_number;stick_out;nut_torque;assembly_mass\n1;40;1.234;\n2;41;5;1.500\n";
    let folder = in_folder(&[("a.csv", text)]);
    let at = |name: &str| folder.path().join(name);
    assert_eq!(wrong(&at("a.csv")).len(), 2);
    for (to, name) in [("csv", "b.csv"), ("xml", "b.xml")] {
        let told = convert(&at("a.csv"), to, &at(name));
        let line = "numbers with two readings, with `?` behind them so that neither is taken: 2";
        assert!(head(&told).contains(&line), "{told}");
        let found = wrong(&at(name));
        assert_eq!(found.len(), 2, "{found:?}");
        assert!(
            found[0].contains("1.234 ?") && found[1].contains("1.500 ?")
                || found[0].contains("1.500 ?"),
            "{found:?}"
        );
    }
}

#[test]
fn a_torque_without_unit_gets_none() {
    let shop = "[units]\nlength = \"in\"\n";
    let folder = in_folder(&[
        ("a.csv", "tool_number,stick_out,nut_torque\n1,1 1/2,50\n"),
        ("shankwise.toml", shop),
    ]);
    let at = |name: &str| folder.path().join(name);
    let before = wrong(&at("a.csv"));
    assert_eq!(
        before,
        ["record/unit-missing Some(\"nut_torque\") Some(\"50\")"]
    );
    convert(&at("a.csv"), "xml", &at("b.xml"));
    convert(&at("a.csv"), "csv", &at("c.csv"));
    assert_eq!(wrong(&at("b.xml")), before);
    // Without the shop file a bare number would be read in newton metres.
    fs::remove_file(at("shankwise.toml")).unwrap();
    for name in ["b.xml", "c.csv"] {
        let (library, _) = read(&at(name));
        assert_eq!(wrong(&at(name)).len(), 1, "{name}");
        assert_eq!(
            records(&library),
            ["Assembly: assembly.tool_number 1; assembly.stick_out 38.1"]
        );
    }
}

/// A slip with a comma must not make doubtful in its new table what was settled in the old one.
#[test]
fn a_slip_elsewhere_leaves_numbers_alone() {
    let text = "tool_number,stick_out,assembly_mass,operation.reach,operation.cutting_speed\n1,40.5,1.234,\"5,5\",1.250\n";
    let folder = in_folder(&[("a.csv", text)]);
    let at = |name: &str| folder.path().join(name);
    let (before, _) = read(&at("a.csv"));
    assert!(records(&before)[0].contains("cutting_speed 1.25"));
    convert(&at("a.csv"), "folder", &at("b"));
    let (after, _) = read(&at("b"));
    assert!(
        records(&after)
            .iter()
            .any(|line| line.contains("cutting_speed 1.25")),
        "{:?}",
        records(&after)
    );
    assert_eq!(wrong(&at("a.csv")), wrong(&at("b")));
}

#[test]
fn parts_of_one_id_that_differ_are_two_records() {
    let text = "tool_number,cutter,cutter.overall_length,stick_out\n1,em12,83,40\n2,em12,83,41\n3,em12,110,60\n4,,83,30\n";
    let folder = in_folder(&[("a.csv", text)]);
    let at = |name: &str| folder.path().join(name);
    let told = convert(&at("a.csv"), "folder", &at("b"));
    let lines = head(&told);
    assert!(
        lines.contains(&"one id and not the same, so two records: 1 (cutter em12 and em12-2)"),
        "{told}"
    );
    assert!(
        lines.contains(&"no id was given: 1 cutter, numbered in the order of the tools"),
        "{told}"
    );
    let cutters = fs::read_to_string(at("b/cutters.csv")).unwrap();
    assert_eq!(
        cutters,
        "cutter,overall_length [mm]\nem12,83\nem12-2,110\ncutter-1,83\n"
    );
    let assemblies = fs::read_to_string(at("b/assemblies.csv")).unwrap();
    assert_eq!(
        assemblies,
        "tool_number,cutter,stick_out [mm]\n1,em12,40\n2,em12,41\n3,em12-2,60\n4,cutter-1,30\n"
    );
}

#[test]
fn what_no_row_has_a_place_for_is_listed() {
    let folder = in_folder(&[
        ("assemblies.csv", "tool_number,cutter,stick_out\n1,a,40\n"),
        (
            "cutters.csv",
            "cutter,overall_length,reach,colour\na,83,7,red\nb,90,8,blue\n",
        ),
        (
            "operations.csv",
            "operation,tool_number,reach\nx,1,30\ny,1,31\n",
        ),
        ("stock.csv", "cutter,overall_length,quantity\nc,100,2\n"),
    ]);
    let out = folder.path().join("rows").with_extension("csv");
    let told = convert(folder.path(), "csv", &out);
    let lines = head(&told);
    for line in [
        "no place in a row for each tool: 1 cutter (b)",
        "no place in a row for each tool: 1 operation (y)",
        "no place in a row for each tool: 1 row of stock (c)",
        "columns that are not read and have no place here, with their cells: 1 (reach 1)",
    ] {
        assert!(lines.contains(&line), "{line} is not in\n{told}");
    }
    // The cutter's `reach` is nobody's; in a row it would be the operation's.
    let rows = fs::read_to_string(out).unwrap();
    assert_eq!(
        rows,
        "tool_number,cutter,stick_out [mm],overall_length [mm],colour,operation,reach [mm]\n1,a,40,83,red,x,30\n"
    );
}

#[test]
fn comments_stay_in_a_document_and_are_counted_out_of_a_table() {
    let text = "<?xml version='1.0'?><!-- one --><shankwise xmlns='urn:shankwise:library:1'><?x y?><assemblies><!-- two --><assembly tool-number='1'><stick-out>40</stick-out><colour>red</colour></assembly></assemblies></shankwise>";
    let folder = in_folder(&[("a.xml", text)]);
    let at = |name: &str| folder.path().join(name);
    let told = convert(&at("a.xml"), "xml", &at("b.xml"));
    assert!(
        head(&told).contains(&"processing instructions: 1"),
        "{told}"
    );
    let again = fs::read_to_string(at("b.xml")).unwrap();
    assert!(
        again.contains("<!-- one -->") && again.contains("<!-- two -->"),
        "{again}"
    );
    let told = convert(&at("a.xml"), "csv", &at("b.csv"));
    assert!(
        head(&told).contains(&"comments, for which a table has no place: 2"),
        "{told}"
    );
    assert_eq!(
        fs::read_to_string(at("b.csv")).unwrap(),
        "tool_number,stick_out [mm],colour\n1,40,red\n"
    );
}

#[test]
fn rows_with_cells_too_many_keep_their_ids() {
    let folder = in_folder(&[("a.csv", "tool_number,stick_out\n1,40\n2,41,9\n")]);
    let at = |name: &str| folder.path().join(name);
    let told = convert(&at("a.csv"), "xml", &at("b.xml"));
    assert!(
        told.contains("only ids and tool number are written: 1 (") && told.contains("a.csv:3"),
        "{told}"
    );
    assert_eq!(
        records(&read(&at("b.xml")).0),
        [
            "Assembly: assembly.tool_number 1; assembly.stick_out 40.0",
            "Assembly: assembly.tool_number 2"
        ]
    );
}

/// What a table has around its records is told, and is no tool in the new form.
#[test]
fn lines_that_are_no_records_are_told() {
    let text = "Tool list of June,,,\ntool_number,stick_out,overall_length,shank_length\n1,40,83,45\ntotal,1,,\n";
    let folder = in_folder(&[("a.csv", text)]);
    let at = |name: &str| folder.path().join(name);
    let told = convert(&at("a.csv"), "csv", &at("b.csv"));
    let line = "lines that are not read as records: 2 (a total 1, above the header 1)";
    assert!(head(&told).contains(&line), "{told}");
    assert_eq!(
        records(&read(&at("a.csv")).0),
        records(&read(&at("b.csv")).0)
    );
}
