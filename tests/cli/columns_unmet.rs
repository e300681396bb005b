//! Headers of a shop file that no table has: said to whom they belong, and to nobody else.

use super::{Bench, program, stdout};

const TOOLS: &str = "tool_number,Auskraglg,shank_length,overall_length\n1,40,45,83\n";
const SHOP: &str = "[columns]\n\"Auskragl.\" = \"stick_out\"\n";
const RULE: &str = "record/column-not-there";

/// What `lint` says of a library, in one line a finding.
fn said(bench: &Bench, library: &str) -> String {
    let mut lint = program(&["lint", library, "--as", "brief"]);
    stdout(&lint.current_dir(bench.path("")).output().unwrap())
}

#[test]
fn a_slip_is_said_at_its_place_with_the_header_that_was_meant() {
    let bench = Bench::new();
    bench.put("lib/assemblies.csv", TOOLS);
    bench.put("lib/shankwise.toml", SHOP);
    let told = said(&bench, "lib");
    let line = told.lines().find(|line| line.contains(RULE));
    let line = line.unwrap_or_else(|| panic!("{told}"));
    assert!(line.contains("lib/shankwise.toml:2:1"), "{line}");
    assert!(line.contains("did you mean `Auskraglg`?"), "{line}");
}

#[test]
fn what_serves_other_libraries_is_not_said() {
    let bench = Bench::new();
    // Of a plant, and of a folder with several lists.
    bench.put("plant/shankwise.toml", SHOP);
    bench.put("plant/lib/assemblies.csv", TOOLS);
    bench.put("lists/shankwise.toml", SHOP);
    bench.put("lists/mill.csv", TOOLS);
    bench.put("lists/lathe.csv", "tool_number,Auskragl.\n1,40\n");
    for library in ["plant/lib", "lists/mill.csv"] {
        let told = said(&bench, library);
        assert!(!told.contains(RULE), "{library}: {told}");
        assert!(told.contains("record/"), "{library}: {told}");
    }
    // Alone in its folder, a list is what the file is about.
    bench.put("one/shankwise.toml", SHOP);
    bench.put("one/mill.csv", TOOLS);
    let told = said(&bench, "one/mill.csv");
    assert!(told.contains(RULE), "{told}");
}

#[test]
fn where_a_table_was_not_read_nobody_knows_its_headers() {
    let bench = Bench::new();
    bench.put("lib/assemblies.csv", TOOLS);
    bench.put("lib/collets.csv", "a,b\n1,2\n");
    bench.put("lib/shankwise.toml", SHOP);
    let told = said(&bench, "lib");
    assert!(!told.contains(RULE), "{told}");
}
