//! What is stated and in no table is said to be so, in every form of output.

use super::{Bench, complaint, run, status, stdout};
use crate::support::QUESTION;

/// A tool that lacks nothing but a material that the table knows.
const TOOL: &str = "tool_number,clamping_kind,cutter_kind,cutter_material,flute_count,helix_angle,cutting_diameter,chip_flute_length,shank_diameter,shank_length,overall_length,stick_out,collet_size,bore_diameter,bore_length,nut_torque,operation_kind,axial_depth,radial_width,feed_per_tooth,workpiece_material\n7,taper collet,end mill,carbide,3,38,12,26,12,45,83,43,32,12,40,80,milling,6,3,0.05,";

#[test]
fn a_material_in_no_table_is_quoted() {
    let bench = Bench::new();
    bench.put("tools.csv", format!("{TOOL}1.2379\n"));
    let path = bench.text_path("tools.csv");
    let facts = stdout(&run(&["facts", &path]));
    let words = "operation.workpiece_material stated as `1.2379`, not in the table of materials";
    let line = facts
        .lines()
        .find(|line| line.contains("cutting_torque_peak"));
    assert!(line.unwrap().contains(words), "{line:?}");
    assert!(!facts.contains("workpiece_material not stated"), "{facts}");
    // An empty cell is not stated.
    bench.put("tools.csv", format!("{TOOL}\n"));
    let facts = stdout(&run(&["facts", &path]));
    assert!(
        facts.contains("operation.workpiece_material not stated"),
        "{facts}"
    );
}

#[test]
fn a_finding_points_at_the_cell() {
    let bench = Bench::new();
    bench.put("tools.csv", format!("{TOOL}AlSi10Mg\n"));
    // A shop's rule that needs the torque; the built-in ones wait in silence.
    bench.put(
        "rules/torque/needs-power.toml",
        "title = \"too much for the spindle\"\nlevel = \"warning\"\nbasis = \"shop\"\nconsequence = \"tidiness\"\nexpect = \"cutting_torque_peak <= 50 N·m\"\nmessage = \"{cutting_torque_peak}\"\nwhy = \"w\"\nadvice = \"a\"\n",
    );
    let rules = bench.text_path("rules");
    let path = bench.text_path("tools.csv");
    let output = run(&["lint", &path, "--rules", &rules, "--as", "json"]);
    let json: serde_json::Value = serde_json::from_str(&stdout(&output)).unwrap();
    let findings = json["findings"].as_array().unwrap();
    let of_rule = |finding: &&serde_json::Value| finding["rule"] == "torque/needs-power";
    let finding = findings.iter().find(of_rule).expect("it is not judged");
    let message = finding["message"].as_str().unwrap();
    assert!(
        message.ends_with("operation.workpiece_material is stated as `AlSi10Mg`, not in the table of materials; nearest there: EN AW-2017 (AlCuMg1)"),
        "{message}"
    );
    let place = &finding["places"][0];
    assert_eq!(place["field"], "workpiece_material");
    assert_eq!(place["text"], "AlSi10Mg");
    assert_eq!(finding["missing"][0], "operation.workpiece_material");
}

#[test]
fn the_quick_question_says_so_too() {
    let job = [
        "--cutter-kind",
        "end mill",
        "--cutter-material",
        "carbide",
        "--cutting-diameter",
        "12",
        "--flute-count",
        "3",
        "--operation-kind",
        "milling",
        "--axial-depth",
        "6",
        "--radial-width",
        "3",
        "--feed-per-tooth",
        "0.05",
        "--workpiece-material",
        "1.2379",
    ];
    let output = run(&[&["window"], QUESTION, &job].concat());
    let text = stdout(&output)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(
        text.contains("workpiece_material stated as `1.2379`, not in the table of materials"),
        "{text}"
    );
    assert!(!text.contains("workpiece_material not stated"), "{text}");
}

/// A question with a slip is not answered with another.
#[test]
fn a_question_that_no_tool_can_be() {
    for (slip, words) in [
        (
            &["--face-setback", "100"][..],
            "[record/implausible-face-setback]",
        ),
        (&["--reach", "1e15"], "[record/implausible-reach]"),
        (
            &["--collet-size", "1.25"],
            "[record/implausible-collet-size]",
        ),
        (
            &["--cutting-diameter", "12 in"],
            "[record/implausible-cutting-diameter]",
        ),
        (
            &["--nut-outer-diameter", "500", "--collet-size", "32"],
            "[record/implausible-nut-diameter]",
        ),
        (
            &["--feed-per-tooth", "6", "--cutting-diameter", "12"],
            "[record/implausible-feed-per-tooth]",
        ),
    ] {
        let reach: &[&str] = if slip.contains(&"--reach") {
            &[]
        } else {
            &["--reach", "35"]
        };
        for form in ["text", "json"] {
            let asked = [&["window", "--as", form][..], &QUESTION[..8], reach, slip].concat();
            let output = run(&asked);
            assert_eq!(status(&output), 2, "{slip:?}");
            assert_eq!(stdout(&output), "");
            let said = complaint(&output);
            assert!(said.contains(words), "{said}");
        }
    }
    // What a shop allows is asked for.
    let bench = Bench::new();
    let plant = bench.put(
        "plant.toml",
        "[rule.\"record/implausible-feed-per-tooth\"]\nlevel = \"off\"\nreason = \"high-feed cutters\"\n",
    );
    let slip = [
        "--feed-per-tooth",
        "6",
        "--cutting-diameter",
        "12",
        "--config",
        &plant,
    ];
    let output = run(&[&["window"], &QUESTION[..8], &slip].concat());
    assert_eq!(status(&output), 0, "{}", complaint(&output));
}
