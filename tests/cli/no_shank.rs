//! A tool that nothing holds by a shank.

use super::{Bench, program, stdout};

const HEADER: &str =
    "tool_number,cutter_kind,holder,shank_diameter,shank_length,overall_length,stick_out,reach\n";

fn said(assemblies: &str) -> String {
    let bench = Bench::new();
    bench.put("lib/assemblies.csv", format!("{HEADER}{assemblies}"));
    bench.put(
        "lib/holders.csv",
        "id,clamping_kind\nDorn 22,arbor\nZF32,collet chuck\n",
    );
    let mut lint = program(&["lint", "lib"]);
    let shown = stdout(&lint.current_dir(bench.path("")).output().unwrap());
    shown.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn grip_does_not_apply_to_a_face_mill_on_an_arbor() {
    let said = said("101,face mill,Dorn 22,-,n/a,-,48,4\n102,face mill,Dorn 22,,,,48,4\n");
    assert!(
        said.contains("grip does not apply, as no shank is held (2): 101, 102"),
        "{said}"
    );
    for none in ["check before use", "grip not judged", "do not use"] {
        assert!(!said.contains(none), "{none}: {said}");
    }
}

/// In a collet the same cells are gaps.
#[test]
fn a_shank_in_a_collet_is_asked_for() {
    let said = said("101,end mill,ZF32,-,n/a,-,48,4\n");
    assert!(said.contains("shank_length: `n/a`: a stand-in"), "{said}");
    assert!(said.contains("grip not judged (1): 101"), "{said}");
    assert!(!said.contains("grip does not apply"), "{said}");
}
