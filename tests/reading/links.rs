//! Links between tables: parts, operations, and numbers that must be unique.

use shankwise::library::{Field, Kind, Origin, Overrides};

use super::{faults, folder_library, number, only, operations, view, word};
use crate::support::library;

const CUTTERS: &str = "cutter,overall_length,shank_length\nEM12,83,45\nEM10,72,40\n";

#[test]
fn parts_are_joined_by_id_and_one_cutter_may_be_built_into_many_assemblies() {
    let library = folder_library(&[
        (
            "assemblies.csv",
            "tool_number,cutter,stick_out\n1,EM12,33\n2,EM12,35\n3,EM10,30\n",
        ),
        ("cutters.csv", CUTTERS),
    ]);
    assert_eq!(faults(&library), [] as [&str; 0]);
    let parts: Vec<_> = library
        .assemblies
        .iter()
        .map(|a| a.part(Kind::Cutter))
        .collect();
    assert_eq!(parts, [Some(0), Some(0), Some(1)]);
    assert_eq!(
        number(&library, Field::OverallLength),
        (Some(83.0), Origin::Stated)
    );
}

#[test]
fn an_unknown_part_is_an_error_at_its_cell_with_the_nearest_id() {
    let library = folder_library(&[
        (
            "assemblies.csv",
            "tool_number,assembly,cutter,stick_out\n1,A1,EM21,33\n2,A2,EM12,3\n3,A3,EM10,3\n4,A4,sawblade,3\n",
        ),
        ("cutters.csv", CUTTERS),
    ]);
    let expected = ["part-unknown 2:6 cutter", "part-unknown 5:6 cutter"];
    assert_eq!(faults(&library), expected);
    let fault = library.faults().next().unwrap();
    assert_eq!(word(&fault, "hint"), "did you mean `EM12`?");
    assert_eq!(word(&fault, "id"), "EM21");
    assert_eq!(word(&fault, "table"), "cutters");
    let own = &library.assemblies[fault.of.unwrap()];
    assert_eq!(own.tool_number(), Some("1"));
    assert_eq!(own.id(), Some("A1"));
    assert_eq!(word(library.faults().nth(1).unwrap(), "hint"), "");
    assert_eq!(library.assemblies[0].part(Kind::Cutter), None);
}

#[test]
fn names_of_parts_in_a_flat_library_are_only_names() {
    let flat = library("tool_number,cutter,collet,stick_out\n1,EM12,C12,33\n");
    assert_eq!(faults(&flat), [] as [&str; 0]);
    // So they are in a folder that has no table at all besides the assemblies.
    let folder = folder_library(&[(
        "assemblies.csv",
        "tool_number,cutter,stick_out\n1,EM12,33\n",
    )]);
    assert_eq!(faults(&folder), [] as [&str; 0]);
}

#[test]
fn a_row_that_restates_a_value_of_its_part_hides_no_slip_in_the_id() {
    let assemblies = "tool_number,cutter,stick_out,overall_length\n1,EM21,33,80\n";
    let library = folder_library(&[
        ("assemblies.csv", assemblies),
        ("cutters.csv", "cutter,overall_length\nEM12,83\n"),
    ]);
    let expected = ["part-unknown 2:3 cutter", "part-unused 2:1 cutter"];
    assert_eq!(faults(&library), expected);
    // Without a table of cutters the row describes its own.
    let nuts = ("nuts.csv", "nut,face_setback\n");
    let operations = (
        "operations.csv",
        "operation,tool_number,reach\nrough,1,30\n",
    );
    let own = folder_library(&[("assemblies.csv", assemblies), nuts, operations]);
    assert_eq!(faults(&own), [] as [&str; 0]);
}

#[test]
fn an_id_twice_counts_as_its_first_line_and_is_told_at_the_second() {
    let library = folder_library(&[
        (
            "assemblies.csv",
            "tool_number,cutter,stick_out\n1,EM12,33\n",
        ),
        ("cutters.csv", "cutter,overall_length\nEM12,83\nEM12,90\n"),
    ]);
    let fault = only(&library, "record/part-twice");
    assert_eq!(word(&fault, "line"), "2");
    assert_eq!(library.sources.position(fault.places[0].place).line, 3);
    assert_eq!(library.sources.position(fault.places[1].place).line, 2);
    assert_eq!(number(&library, Field::OverallLength).0, Some(83.0));
}

#[test]
fn a_part_that_no_assembly_uses_is_noted_at_its_id() {
    let library = folder_library(&[
        (
            "assemblies.csv",
            "tool_number,cutter,stick_out\n1,EM12,33\n",
        ),
        ("cutters.csv", CUTTERS),
        ("stock.csv", "cutter,overall_length,quantity\nEM12L,110,2\n"),
    ]);
    assert_eq!(
        faults(&library),
        ["part-unused 3:1 cutter"],
        "stock is used by nobody"
    );
    assert_eq!(word(library.faults().next().unwrap(), "id"), "EM10");
}

#[test]
fn a_tool_number_is_unique_within_machine_and_group() {
    let twice = library("tool_number,assembly,stick_out\n1,A,33\n2,B,33\n1,C,33\n");
    assert_eq!(faults(&twice), ["number-taken-twice 4:1 tool_number"]);
    let fault = only(&twice, "record/number-taken-twice");
    assert_eq!(word(&fault, "line"), "2");
    assert_eq!(twice.assemblies[fault.of.unwrap()].id(), Some("C"));
    assert_eq!(twice.sources.position(fault.places[1].place).line, 2);
    for column in ["machine", "program_tool_group"] {
        let apart = format!("tool_number,{column},stick_out\n1,M1,33\n1,M2,33\n");
        assert_eq!(faults(&library(&apart)), [] as [&str; 0], "{column}");
        let same = format!("tool_number,{column},stick_out\n1,M1,33\n1,M1,33\n");
        assert_eq!(
            faults(&library(&same)),
            ["number-taken-twice 3:1 tool_number"]
        );
    }
}

#[test]
fn operations_are_joined_by_tool_number_and_machine() {
    let library = folder_library(&[
        (
            "assemblies.csv",
            "tool_number,machine,stick_out\n1,M1,33\n1,M2,33\n2,,33\n",
        ),
        (
            "operations.csv",
            "operation,tool_number,machine,reach\nboth,1,,30\nfirst,1,M1,30\nsecond,1,M2,30\nany,2,M1,30\n",
        ),
    ]);
    assert_eq!(faults(&library), [] as [&str; 0]);
    assert_eq!(operations(&library, 0), ["both", "first"]);
    assert_eq!(operations(&library, 1), ["both", "second"]);
    assert_eq!(operations(&library, 2), ["any"]);
}

#[test]
fn operations_of_several_tools_may_have_one_name() {
    let library = folder_library(&[
        ("assemblies.csv", "tool_number,stick_out\n1,33\n2,33\n"),
        (
            "operations.csv",
            "operation,tool_number,reach\nrough,1,30\nrough,2,20\n",
        ),
    ]);
    assert_eq!(faults(&library), [] as [&str; 0]);
    assert_eq!(operations(&library, 0), ["rough"]);
    assert_eq!(operations(&library, 1), ["rough"]);
}

#[test]
fn an_operation_of_a_tool_that_is_not_there_is_told_at_its_cell() {
    let library = folder_library(&[
        (
            "assemblies.csv",
            "tool_number,machine,stick_out\nT101,M1,33\n",
        ),
        (
            "operations.csv",
            "operation,tool_number,machine,reach\na,T110,,30\nb,T101,M2,30\nc,,,30\n",
        ),
    ]);
    let expected = [
        "part-unknown 2:3 tool_number",
        "part-unknown 3:3 tool_number",
        "part-unknown 4:1 tool_number",
    ];
    assert_eq!(faults(&library), expected);
    assert_eq!(
        word(library.faults().next().unwrap(), "hint"),
        "did you mean `T101`?"
    );
    assert_eq!(
        word(library.faults().nth(1).unwrap(), "hint"),
        "",
        "the number itself is no help"
    );
    assert!(operations(&library, 0).is_empty());
}

#[test]
fn an_operation_in_the_assemblys_own_row_is_called_by_the_tool_number() {
    let library = library("tool_number,stick_out,reach\n7,33,30\n8,33,\n");
    assert_eq!(operations(&library, 0), ["own row"]);
    assert!(operations(&library, 1).is_empty());
    let overrides = Overrides::default();
    let mut own = view(&library, &overrides);
    own.operation = Some(library.assemblies[0].operations[0]);
    assert_eq!(own.operation_name(), Some("7"));
    assert_eq!(own.number(Field::Reach).value, Some(30.0));
}

#[test]
fn a_value_in_the_assemblys_row_outranks_the_parts_record() {
    let library = folder_library(&[
        (
            "assemblies.csv",
            "tool_number,cutter,stick_out,overall_length\n1,EM12,33,80\n2,EM12,33,\n",
        ),
        (
            "cutters.csv",
            "cutter,overall_length,shank_length\nEM12,83,45\n",
        ),
    ]);
    let overrides = Overrides::default();
    let of = |row: usize, field| {
        let mut view = view(&library, &overrides);
        view.assembly = &library.assemblies[row];
        view.number(field).value
    };
    assert_eq!(of(0, Field::OverallLength), Some(80.0));
    assert_eq!(
        of(0, Field::ShankLength),
        Some(45.0),
        "what it does not restate stays"
    );
    assert_eq!(of(1, Field::OverallLength), Some(83.0));
}

#[test]
fn the_id_of_an_assembly_is_its_tool_number_unless_stated() {
    let library = library("tool_number,assembly,stick_out\n1,A,33\n2,,33\n");
    let ids: Vec<_> = library
        .assemblies
        .iter()
        .map(shankwise::library::Assembly::id)
        .collect();
    assert_eq!(ids, [Some("A"), Some("2")]);
}

#[test]
fn a_table_with_a_slip_in_its_name_is_told() {
    let library = folder_library(&[
        (
            "assemblies.csv",
            "tool_number,cutter,stick_out\n1,EM12,33\n",
        ),
        ("cutter.csv", CUTTERS),
        ("operatoins.csv", "operation,tool_number\n"),
        ("prices.csv", "part,price\nEM12,80\n"),
        ("readme.txt", "not a table"),
    ]);
    let expected = ["unknown-table 1:1 ", "unknown-table 1:1 "];
    assert_eq!(faults(&library), expected, "prices.csv is nobody's table");
    let near = ["table", "near"].map(|name| word(library.faults().next().unwrap(), name));
    assert_eq!(near, ["cutter.csv", "cutters.csv"]);
    assert!(
        library
            .sources
            .name(library.faults().next().unwrap().places[0].place)
            .ends_with("cutter.csv")
    );
    assert_eq!(
        word(library.faults().nth(1).unwrap(), "near"),
        "operations.csv"
    );
}
