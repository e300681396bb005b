//! A document and a folder of tables with the same content are judged the same.

use std::fs;

use shankwise::judge::judge;
use shankwise::library::{Input, load};
use tempfile::TempDir;

use super::{document, lint};
use crate::support::{BUILT_IN, built_in, options};

const TABLES: [(&str, &str); 6] = [
    (
        "assemblies.csv",
        "tool_number,assembly,cutter,collet,nut,holder,stick_out,nut_torque [N·m]\n\
         1,A1,E12,C12,N32,H,65,300\n2,A2,E12,C12,N32,H,45 mm,\n3,A3,E13,C12,,H,x,100 lbf·ft\n",
    ),
    (
        "cutters.csv",
        "cutter,cutter_kind,DC,DMM,LS,OAL,coolant_channels\nE12,end mill,12,12,45,83,yes\n",
    ),
    (
        "collets.csv",
        "collet,collet_size,bore_diameter,bore_length,torque_recommended\nC12,32,12,40,120\n",
    ),
    ("nuts.csv", "nut,collet_size,torque_max\nN32,size 32,-5\n"),
    (
        "holders.csv",
        "holder,clamping_kind,insertion_depth_max\nH,taper colet,60\n",
    ),
    ("operations.csv", "operation,tool_number,reach\nO1,1,80\n"),
];

const SECTIONS: &str = "\
<operations><operation id='O1' tool-number='1'><reach>80</reach></operation></operations>
<holders><holder id='H'><clamping-kind>taper colet</clamping-kind><insertion-depth-max>60</insertion-depth-max></holder></holders>
<nuts><nut id='N32'><collet-size>size 32</collet-size><torque-max>-5</torque-max></nut></nuts>
<collets><collet id='C12'><collet-size>32</collet-size><bore-diameter>12</bore-diameter><bore-length>40</bore-length><torque-recommended>120</torque-recommended></collet></collets>
<cutters><cutter id='E12'><cutter-kind>end mill</cutter-kind><cutting-diameter>12</cutting-diameter><shank-diameter>12</shank-diameter><shank-length>45</shank-length><overall-length>83</overall-length><coolant-channels>yes</coolant-channels></cutter></cutters>
<assemblies>
<assembly tool-number='1' id='A1' cutter='E12' collet='C12' nut='N32' holder='H'><stick-out>65</stick-out><nut-torque unit='N·m'>300</nut-torque></assembly>
<assembly tool-number='2' id='A2' cutter='E12' collet='C12' nut='N32' holder='H'><stick-out unit='mm'>45</stick-out><nut-torque/></assembly>
<assembly tool-number='3' id='A3' cutter='E13' collet='C12' holder='H'><stick-out>x</stick-out><nut-torque>100 lbf·ft</nut-torque></assembly>
</assemblies>";

fn folder(tables: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().unwrap();
    for (name, text) in tables {
        fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

#[test]
fn the_same_findings_but_for_their_places() {
    let folder = folder(&TABLES);
    let setup = built_in();
    let loaded = load(Input::Path(folder.path()), &setup.read_settings());
    assert_eq!(loaded.errors, []);
    let tables = judge(&loaded.library.unwrap(), &setup, &options());
    let one = lint(&document(SECTIONS));
    let said = |report: &shankwise::judge::Report| {
        let findings = report.findings.iter();
        let mut said: Vec<String> = findings
            .map(|f| {
                let cells: Vec<(&str, &str)> = f
                    .places
                    .iter()
                    .map(|place| (place.field.as_str(), place.text.as_str()))
                    .filter(|(field, _)| !field.is_empty())
                    .collect();
                // Messages may name the file or line that the fault is in.
                let message = f.message.replace("cutters.csv", "<cutters>");
                format!("{} {:?} {message} {cells:?}", f.rule, f.level)
            })
            .collect();
        said.sort();
        said
    };
    let (csv, xml) = (said(&tables), said(&one));
    assert!(csv.len() > 8, "{csv:#?}");
    let only = |these: &[String], those: &[String]| -> Vec<String> {
        these
            .iter()
            .filter(|one| !those.contains(one))
            .cloned()
            .collect()
    };
    assert_eq!(only(&csv, &xml), only(&xml, &csv));
    assert_eq!(tables.summary, one.summary);
}

#[test]
fn a_document_under_a_tables_name_is_refused() {
    let mut tables = TABLES;
    let text = document(SECTIONS);
    tables[1].1 = &text;
    let folder = folder(&tables);
    let loaded = load(Input::Path(folder.path()), &BUILT_IN.read_settings());
    let [error] = loaded.errors.as_slice() else {
        panic!("{:?}", loaded.errors);
    };
    assert!(error.file.ends_with("cutters.csv"));
    assert!(error.reason.contains("XML document under a table's name"));
    let library = loaded.library.unwrap();
    assert_eq!(library.assemblies.len(), 3, "the tables are still judged");
    assert_eq!(library.form.name(), "folder");
}
