//! What is stated two ways, or may be read two ways, is not known: never one of the two in
//! silence.

use shankwise::library::Field;
use shankwise::units::Scalar;

use super::{faults, only, stated, word};
use crate::support::library;

#[test]
fn a_property_stated_two_ways_is_unknown() {
    let library = library("tool_number,stick_out,Stick-Out\n1,43,63\n");
    assert_eq!(
        faults(&library),
        [
            "column-twice 1:23 Stick-Out",
            "stated-two-ways 2:6 stick_out"
        ]
    );
    assert_eq!(stated(&library, Field::StickOut), None);
    let fault = only(&library, "record/stated-two-ways");
    assert_eq!(
        ["first", "second"].map(|name| word(&fault, name)),
        ["43", "63"]
    );
    assert_eq!(fault.places.len(), 2);
    assert_eq!(
        library.assemblies[fault.of.unwrap()].tool_number(),
        Some("1")
    );
}

#[test]
fn only_what_differs_is_lost() {
    let library = library(
        "tool_number,collet_size,Collet Size,nut collet_size,OAL,overall length\n1,25,32,40,83,83\n",
    );
    assert_eq!(stated(&library, Field::ColletSize), None);
    assert_eq!(stated(&library, Field::HolderColletSize), None);
    assert_eq!(
        stated(&library, Field::NutColletSize),
        Some(Scalar::Number(40.0))
    );
    assert_eq!(
        stated(&library, Field::OverallLength),
        Some(Scalar::Number(83.0))
    );
}

/// The reading of a cell in a table, or that it has two.
fn reading(table: &str, field: Field) -> Result<f64, String> {
    let library = library(table);
    match stated(&library, field) {
        Some(value) => Ok(value.number().unwrap()),
        None => {
            let faults = library.faults();
            let problems = faults.filter(|f| f.kind == "record/cell-unreadable");
            Err(problems.map(|f| word(f, "problem")).collect())
        }
    }
}

#[test]
fn a_point_among_decimal_commas_may_separate_thousands() {
    let speed = |table: &str| reading(table, Field::SpindleSpeed);
    let two = |table: &str| {
        let problem = speed(table).unwrap_err();
        assert!(
            problem.contains("two readings, 90 and 90000"),
            "{table}: {problem}"
        );
    };
    two("tool_number;stick_out;spindle_speed\n1;40,5;90.000\n");
    two("tool_number;stick_out;spindle_speed\n1;40;90.000\n");
    two("tool_number\tstick_out\tspindle_speed\n1\t40,5\t90.000\n");
    two("tool_number\tstick_out\tspindle_speed\n1\t40.5\t90,000\n");
    two("tool_number\tstick_out\tspindle_speed\n1\t40\t90,000\n");
    two("tool_number;stick_out;spindle_speed\n1;40.5;90,000\n");
    two("tool_number,stick_out,spindle_speed\n1,40,\"90,000\"\n");
    two("tool_number,stick_out,spindle_speed\n1,\"40,5\",90.000\n");
    two("tool_number;stick_out;spindle_speed\n1;40,5;90.000 1/min\n");
    two("tool_number\tstick_out\tspindle_speed\n1\t40\t90.000\n");
    // The numbers beside it tell.
    assert_eq!(
        speed("tool_number;stick_out;spindle_speed\n1;40,5;90,000\n"),
        Ok(90.0)
    );
    assert_eq!(
        speed("tool_number;stick_out;spindle_speed\n1;40.5;90.000\n"),
        Ok(90.0)
    );
    assert_eq!(
        speed("tool_number,stick_out,spindle_speed\n1,40.5,90.000\n"),
        Ok(90.0)
    );
    assert_eq!(
        speed("tool_number,stick_out,spindle_speed\n1,40,90.000\n"),
        Ok(90.0)
    );
    assert_eq!(
        speed("tool_number;stick_out;spindle_speed\n1;40,5;90.00\n"),
        Ok(90.0)
    );
    assert_eq!(
        speed("tool_number;stick_out;spindle_speed\n1;40,5;9000\n"),
        Ok(9000.0)
    );
    assert_eq!(
        speed("tool_number;stick_out;spindle_speed\n1;40,5;0.125\n"),
        Ok(0.125)
    );
    assert_eq!(
        speed("tool_number;stick_out;spindle_speed\n1;40,5;9000.125\n"),
        Ok(9000.125)
    );
    // No spindle turns at 9 revolutions a minute to cut: where both readings are open, it is 9000.
    let no_speed = "tool_number;stick_out;spindle_speed\n1;40,5;9.000\n";
    assert_eq!(speed(no_speed), Ok(9000.0));
    let no_speed = "tool_number,stick_out,spindle_speed\n1,40,\"9,500\"\n";
    assert_eq!(speed(no_speed), Ok(9500.0));
}

#[test]
fn every_property_with_a_number_has_two_readings() {
    let length = |table: &str| reading(table, Field::OverallLength);
    let problem = length("tool_number;stick_out;overall_length\n1;5,5;1.234\n").unwrap_err();
    assert!(
        problem.contains("two readings, 1.234 and 1234"),
        "{problem}"
    );
    assert_eq!(
        length("tool_number;stick_out;overall_length\n1;43.500;83.000\n"),
        Ok(83.0)
    );
    assert_eq!(
        length("tool_number,stick_out,overall_length\n1,43.500,83.000\n"),
        Ok(83.0)
    );
    let count = "tool_number;stick_out;flute_count\n1;40,5;4.000\n";
    assert!(reading(count, Field::FluteCount).is_err());
    // A speed is as long as it likes: only a length of many metres cannot be meant.
    let tabs = "tool_number\tstick_out\toverall_length\tspindle_speed\n1\t43.500\t83.000\t9.000\n";
    assert_eq!(reading(tabs, Field::SpindleSpeed), Ok(9.0));
    // A description tells nothing of marks.
    let words = "tool_number;description;stick_out;overall_length\n1;1,5;43.500;83.000\n";
    assert_eq!(length(words), Ok(83.0));
}

#[test]
fn a_tool_is_not_called_by_a_stand_in() {
    let library = library("tool_number,stick_out\n?,33\n");
    assert_eq!(faults(&library), ["cell-unreadable 2:1 tool_number"]);
    assert_eq!(library.assemblies[0].tool_number(), None);
}

#[test]
fn only_the_words_that_belong_there_stand_before_a_size() {
    let size = |cell: &str| {
        let text = format!("tool_number,stick_out,collet collet_size\n1,40,{cell}\n");
        reading(&text, Field::ColletSize)
    };
    for cell in ["32", "size 32", "Size32", "SIZE-32", "size: 32"] {
        assert_eq!(size(cell), Ok(32.0), "{cell}");
    }
    for cell in [
        "XX32",
        "ABC 32",
        "a32",
        "ca. 32",
        "~32",
        "Ø32",
        "sizes 32",
        "size size 32",
        "size",
    ] {
        let problem = size(cell).unwrap_err();
        assert!(problem.contains("`size`"), "{cell}: {problem}");
    }
}
