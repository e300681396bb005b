//! What rests on a shop's own default is listed in every form of output, and stated values win.

use super::{Bench, run, stdout};
use crate::support;

/// A question that states its setback and no clearance.
fn question() -> &'static [&'static str] {
    &support::QUESTION[..12]
}

const SHOP: &str = "[default]\nclearance = \"1 mm\"\n";
const TOOLS: &str = "tool_number,clamping_kind,overall_length,shank_diameter,shank_length,cutting_diameter,stick_out,collet_size,bore_diameter,bore_length,face_setback,nut_torque,reach,clearance\n1,taper collet,83,12,45,12,40,32,12,40,0,80,30,\n2,taper collet,83,12,45,12,40,32,12,40,0,80,30,\n3,taper collet,83,12,45,12,40,32,12,40,0,80,30,2\n";

#[test]
fn every_output_lists_the_defaults_once() {
    let bench = Bench::new();
    bench.put("shankwise.toml", SHOP);
    let path = bench.put("tools.csv", TOOLS);
    let listed = "operation.clearance 1.0 mm on 2 tools";
    for arguments in [
        &["lint", &path][..],
        &["lint", "--as", "plain", &path],
        &["lint", "--as", "json", &path],
        &["facts", &path],
        &["facts", "--as", "json", &path],
    ] {
        let text = stdout(&run(arguments));
        assert_eq!(text.matches(listed).count(), 1, "{arguments:?}: {text}");
    }
    let json: serde_json::Value =
        serde_json::from_str(&stdout(&run(&["lint", "--as", "json", &path]))).unwrap();
    assert_eq!(json["library"]["defaults"], serde_json::json!([listed]));
    // Without the file nothing is said of defaults.
    let bare = Bench::new();
    let path = bare.put("tools.csv", TOOLS);
    assert!(!stdout(&run(&["lint", &path])).contains("default"));
}

#[test]
fn the_quick_question_says_which_are_the_shops() {
    let bench = Bench::new();
    let plant = bench.put("plant.toml", SHOP);
    let asked = [&["window"], question(), &["--config", &plant]].concat();
    let text = stdout(&run(&asked));
    assert!(
        text.contains("operation.clearance 1.0 mm: not stated, the shop's default"),
        "{text}"
    );
    // Flutes leave the bore at 38.0 mm; a clearance of 4 mm asks for 39.
    let far = bench.put("far.toml", "[default]\nclearance = 4\n");
    let text = stdout(&run(
        &[&["window"], question(), &["--config", &far]].concat()
    ));
    assert!(text.contains("not below:  39.0 mm, reach"), "{text}");
    let stated = ["--config", &far, "--clearance", "1"];
    let text = stdout(&run(&[&["window"], question(), &stated].concat()));
    assert!(text.contains("not below:  38.0 mm, flutes"), "{text}");
    assert!(!text.contains("the shop's own"), "{text}");
}
