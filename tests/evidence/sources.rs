//! Every formula states itself, its units and its source; every fact is computed somewhere.

use shankwise::units::Scalar;
use std::fs;
use std::path::PathBuf;

use shankwise::facts::{Fact, FactValue};
use shankwise::judge::{Options, judge};

use crate::support::{built_in, library, options, root};

fn mechanics() -> Vec<(PathBuf, String)> {
    let entries = fs::read_dir(root().join("src/mechanics")).unwrap();
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    files.sort();
    let text = |path: &PathBuf| fs::read_to_string(path).unwrap();
    files
        .iter()
        .map(|path| (path.clone(), text(path)))
        .collect()
}

/// The doc comment above a line, without its slashes.
fn docs_above<'t>(lines: &[&'t str], at: usize) -> Vec<&'t str> {
    let above = lines[..at].iter().rev().map(|line| line.trim());
    let mut docs: Vec<&str> = above
        .take_while(|line| line.starts_with("///") || line.starts_with("#["))
        .filter_map(|line| line.strip_prefix("///"))
        .map(str::trim)
        .collect();
    docs.reverse();
    docs
}

/// The text under a heading of a doc comment.
fn under<'t>(docs: &[&'t str], heading: &str) -> Vec<&'t str> {
    let after = docs.iter().skip_while(|line| **line != heading).skip(1);
    let text = after.take_while(|line| !line.starts_with("# "));
    text.copied().filter(|line| !line.is_empty()).collect()
}

#[test]
fn every_formula_has_its_headings() {
    let mut seen = 0;
    for (path, text) in mechanics() {
        let lines: Vec<&str> = text.lines().collect();
        for (at, line) in lines.iter().enumerate() {
            let line = line.trim_start();
            if !line.starts_with("pub fn") && !line.starts_with("pub const fn") {
                continue;
            }
            seen += 1;
            let docs = docs_above(&lines, at);
            for heading in ["# Formula", "# Units", "# Source"] {
                let body = under(&docs, heading);
                assert!(
                    !body.is_empty(),
                    "{}:{}: nothing under {heading}",
                    path.display(),
                    at + 1
                );
            }
        }
    }
    assert!(seen >= 9, "only {seen} formulas were found");
}

/// Assemblies that between them let every fact be computed.
const EVERYTHING: &str = "\
tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,cutter_kind,cutter_material,point_angle,helix_angle,flute_count,chip_flute_length,gauge_length,insertion_depth_max,collet_size,bore_diameter,bore_length,nut_torque,torque_max,collet torque_recommended,reach,clamping_kind,face_setback,bore_recess,clamping_length_min,clamping_length_max,shank_form,description,room_diameter,nut_outer_diameter,spindle_speed,operation_kind,workpiece_material,axial_depth,radial_width,feed_per_tooth,nut_thread,mouth_diameter,taper_length,nose_diameter,mouth_setback,cutter_speed_max,balance_grade,balance_speed,assembly_mass,cutter drive_square,drive_square_length,collet drive_square,measured_frequency,feed_per_revolution,clearance
1,60,118,60,12,12,drill,carbide,140,30,3,50,80,70,32,12,40,100,180,120,75,taper collet,1,0,30,60,HB,D12 drill,80,50,3000,milling,C45E,6,6,0.05,M40x1.5,33,40,50,10,20000,2.5,12000,1.2,9,8,9,800,,1
2,60,118,60,12,12,drill,carbide,140,30,3,50,80,70,32,12,40,100,180,120,75,taper collet,1,0,30,60,HB,D12 drill,80,50,3000,drilling,C45E,6,6,0.05,M40x1.5,33,40,50,10,20000,2.5,12000,1.2,9,8,9,800,,1
2,,,,,10,drill,,140,,,,,,,,,,,,,,,,,,,,,,,drilling,C45E,,,,,,,,,,,,,,,,,0.2,
";

/// What only a side-lock holder or a double-ended cutter has.
const CLAMPINGS: &str = "\
tool_number,stick_out,overall_length,shank_length,shank_form,flat_distance,screw_distance,rear_flute_length,bore_length,shank_tolerance,clamping_kind
1,60,118,100,HB,30,28,12,40,h6,side-lock holder
";

#[test]
fn every_fact_is_computed_somewhere() {
    let options = Options {
        with_facts: true,
        ..options()
    };
    let reports = [EVERYTHING, CLAMPINGS].map(|text| judge(&library(text), &built_in(), &options));
    let assemblies = reports.into_iter().filter_map(|report| report.assemblies);
    let assemblies: Vec<_> = assemblies.flatten().collect();
    let shown: Vec<_> = assemblies
        .iter()
        .flat_map(|all| {
            all.facts
                .iter()
                .chain(all.operations.iter().flat_map(|o| &o.facts))
        })
        .collect();
    // The grip of an extension is named so that a rule can say that it is not known.
    for info in Fact::all().filter(|info| info.name != "outer_grip") {
        let known = shown
            .iter()
            .find(|fact| fact.name == info.name && fact.value.is_some());
        let fact = known.unwrap_or_else(|| panic!("{} is computed for no library", info.name));
        assert!(!fact.from.is_empty(), "{} comes from no field", info.name);
        match (info.value, fact.value.as_ref().unwrap()) {
            (FactValue::Number(unit), Scalar::Number(_)) => {
                assert_eq!(fact.unit, Some(unit), "{}", info.name);
            }
            (FactValue::Word(words), Scalar::Text(word)) => {
                assert!(words.contains(&word.as_str()), "{}: {word}", info.name);
            }
            (FactValue::Truth, Scalar::Truth(_)) => {}
            (_, other) => panic!("{} is {other:?}", info.name),
        }
    }
}

/// Where nothing is stated nothing is known, and what is missing is named: a fact never comes
/// from thin air.
#[test]
fn no_fact_is_computed_from_nothing() {
    let options = Options {
        with_facts: true,
        ..options()
    };
    let text = "tool_number,description,operation_kind\n1,a bare row,milling\n";
    let report = judge(&library(text), &built_in(), &options);
    let assembly = &report.assemblies.expect("facts were asked for")[0];
    let operation = &assembly.operations[0].facts;
    let all = assembly.facts.iter().chain(operation);
    // Operations that do not say what they do count as coarse work: a default. A description that
    // marks no diameter lacks nothing, and a milling cut no thrust of a drill.
    let others = [
        "fine_work",
        "outer_grip",
        "described_diameter",
        "drill_thrust",
    ];
    for fact in all.filter(|fact| !others.contains(&fact.name.as_str())) {
        assert_eq!(fact.value, None, "{}", fact.name);
        assert!(
            !fact.missing.is_empty(),
            "{} names nothing that is missing",
            fact.name
        );
    }
}

#[test]
fn every_fact_has_meaning_and_source() {
    let mut names: Vec<&str> = Vec::new();
    for info in Fact::all() {
        assert!(!info.source.trim().is_empty(), "{}", info.name);
        assert!(!info.meaning.trim().is_empty(), "{}", info.name);
        assert_eq!(info.fact.info().name, info.name);
        let is_name = |c: char| c.is_ascii_lowercase() || c == '_';
        assert!(info.name.chars().all(is_name), "{}", info.name);
        assert!(!names.contains(&info.name), "{} twice", info.name);
        names.push(info.name);
    }
    assert!(names.len() >= 20);
}
