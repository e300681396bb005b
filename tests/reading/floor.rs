//! Words, numbers and sizes as they are written on the floor.

use shankwise::library::{
    BoreForm, ClampingKind, ClosedList as _, Coolant, CutterKind, Field, Input, NutStyle,
    ShankForm, load, standard_sizes,
};
use shankwise::units::Scalar;

use super::{faults, faults_of, only, stated, with_column, word};
use crate::support::{BUILT_IN, library};

/// What a cell of a further column is read as.
#[track_caller]
fn read(header: &str, cell: &str, field: Field) -> String {
    let library = library(&with_column(header, cell));
    assert_eq!(faults(&library), [] as [&str; 0], "{header}: {cell}");
    format!("{:?}", stated(&library, field).unwrap())
}

fn show(value: Scalar<&str>) -> String {
    format!("{value:?}")
}

#[test]
fn words_of_the_trade() {
    let kinds = [
        ("twist drill", CutterKind::Drill),
        ("ball end mill", CutterKind::BallNose),
        ("Ball Mill", CutterKind::BallNose),
        ("bull nose", CutterKind::EndMillWithCornerRadius),
        ("bull-nose end mill", CutterKind::EndMillWithCornerRadius),
        ("slot drill", CutterKind::EndMill),
    ];
    for (cell, kind) in kinds {
        let own = read("cutter_kind", cell, Field::CutterKind);
        assert_eq!(own, show(Scalar::Word(kind.word())), "{cell}");
    }
    let others = [
        (
            "shank_form",
            "cylindrical",
            Field::ShankForm,
            ShankForm::Ha.word(),
        ),
        (
            "nut_style",
            "sealed",
            Field::NutStyle,
            NutStyle::Sealing.word(),
        ),
        ("coolant", "mist", Field::Coolant, Coolant::Mist.word()),
        (
            "bore_form",
            "counterbored",
            Field::BoreForm,
            BoreForm::RelievedAtTheRear.word(),
        ),
    ];
    for (header, cell, field, word) in others {
        assert_eq!(
            read(header, cell, field),
            show(Scalar::Word(word)),
            "{cell}"
        );
    }
    assert_eq!(
        ClampingKind::named("collet chuck"),
        Some(ClampingKind::ColletChuck)
    );
    for cell in ["x", "X"] {
        assert_eq!(
            read("nut sealed", cell, Field::NutSealed),
            show(Scalar::Truth(true))
        );
    }
    // A tick is no number: nobody knows what was ticked.
    assert_eq!(faults_of(&with_column("reach", "x")).len(), 1);
}

#[test]
fn units_of_the_floor() {
    let numbers = [
        ("spindle_speed", "8000 U/min", Field::SpindleSpeed, 8000.0),
        ("reach", "43 millimeters", Field::Reach, 43.0),
        ("reach", "43 millimetres", Field::Reach, 43.0),
        ("reach", "1.5”", Field::Reach, 38.1),
        ("reach", "1½ in", Field::Reach, 38.1),
        ("reach", "1 ½″", Field::Reach, 38.1),
        ("reach", "¾ in", Field::Reach, 19.05),
        ("reach", "⅜ in", Field::Reach, 9.525),
        ("reach", "1 1/8 in", Field::Reach, 28.575),
        ("reach", "12mm", Field::Reach, 12.0),
        ("spindle_speed", "12'000", Field::SpindleSpeed, 12000.0),
        ("spindle_speed", "12’000", Field::SpindleSpeed, 12000.0),
        ("spindle_speed", "12\u{a0}000", Field::SpindleSpeed, 12000.0),
        (
            "spindle_speed",
            "12\u{202f}000 rpm",
            Field::SpindleSpeed,
            12000.0,
        ),
        (
            "spindle_speed",
            "\"12,000.0\"",
            Field::SpindleSpeed,
            12000.0,
        ),
    ];
    for (header, cell, field, number) in numbers {
        assert_eq!(
            read(header, cell, field),
            show(Scalar::Number(number)),
            "{cell}"
        );
    }
    // Where the groups are not of three digits it is no number that anybody meant.
    for cell in ["12'00", "1'2345", "12\u{a0}00", "\"1,23.4\"", "½ ½"] {
        assert_eq!(faults_of(&with_column("reach", cell)).len(), 1, "{cell}");
    }
}

#[test]
fn threads_with_their_tolerance() {
    for cell in [
        "M40x1.5-6H",
        "M40x1,5 - 6g",
        "M40 x 1.5 - 4H5H",
        "M40x1.5-6H/6g",
    ] {
        let cell = format!("\"{cell}\"");
        let own = read("nut_thread", &cell, Field::NutThread);
        assert!(
            own.contains("M40x1.5") && !own.contains("-6"),
            "{cell}: {own}"
        );
    }
    // A left-hand thread is another thread.
    assert_eq!(faults_of(&with_column("nut_thread", "M40x1.5-LH")).len(), 1);
}

/// Sizes of drills: ASME B94.11M; of screws: ASME B1.1, number n is 0.060 + 0.013 n in.
#[test]
fn diameters_by_the_names_of_the_trade() {
    let text = |cell: &str| {
        format!(
            "tool_number,stick_out,cutter_kind,cutting_diameter,shank_diameter,shank_length,overall_length\n1,33,drill,{cell},12,45,83\n"
        )
    };
    let numbers = [
        ("Ø12", 12.0),
        ("ø 12", 12.0),
        ("⌀12 mm", 12.0),
        ("#7", 0.201 * 25.4),
        ("No. 7", 0.201 * 25.4),
        ("#80", 0.0135 * 25.4),
        ("#1", 0.228 * 25.4),
        ("F", 0.257 * 25.4),
        ("A", 0.234 * 25.4),
        ("Z", 0.413 * 25.4),
        ("#10-32", 0.19 * 25.4),
        ("10-32", 0.19 * 25.4),
        ("8-32 UNC", 0.164 * 25.4),
        ("1/4-20", 6.35),
        ("1/4-20 UNC", 6.35),
        ("1 1/8-7", 28.575),
        ("M8x1.25", 8.0),
        ("M8", 8.0),
        ("1/2\"\"", 12.7),
        ("12h6", 12.0),
        ("10H7", 10.0),
        ("12js14", 12.0),
    ];
    for (cell, number) in numbers {
        let cell = format!("\"{cell}\"");
        let library = library(&text(&cell));
        assert_eq!(faults(&library), [] as [&str; 0], "{cell}");
        let own = stated(&library, Field::CuttingDiameter).unwrap().number();
        assert!((own.unwrap() - number).abs() < 1e-9, "{cell}: {own:?}");
    }
    for cell in [
        "#0", "#81", "FF", "#7-", "x", "X", "f", "1/2-1", "Ø", "#10-0", "21x9", "8 R5", "10-33",
        "9-32", "10-12", "R4", "8 R", "12h99", "h6", "4-Jan", "06. Aug",
    ] {
        assert_eq!(faults_of(&text(cell)).len(), 1, "{cell}");
    }
    // A shank is no drill of that name, and a length no thread.
    for (header, cell) in [("reach", "M8"), ("reach", "F"), ("shank_diameter", "#7")] {
        let text = if header == "reach" {
            with_column(header, cell)
        } else {
            text("12").replacen(",12,45", &format!(",{cell},45"), 1)
        };
        assert_eq!(faults_of(&text).len(), 1, "{header} {cell}");
    }
}

/// A cell says the diameter and the corner radius of the cutter, and that reading is said.
#[test]
fn a_corner_radius_beside_the_diameter() {
    let text = |cell: &str| {
        format!(
            "tool_number,stick_out,cutting_diameter,shank_diameter,corner_radius\n1,33,{cell}\n"
        )
    };
    for (cell, diameter, radius) in [
        ("8 R4,8,", 8.0, 4.0),
        ("12 / R1,12,", 12.0, 1.0),
        ("8xR0.5,8,", 8.0, 0.5),
        ("Ø 8 r0.5,8,", 8.0, 0.5),
        ("1/2 in R.03 in,12,", 12.7, 0.762),
        ("8 mm R4 mm,8,", 8.0, 4.0),
        // A column of its own may say the same.
        ("8 R4,8,4", 8.0, 4.0),
    ] {
        let library = library(&text(cell));
        let number = |field| stated(&library, field).unwrap().number().unwrap();
        assert!(
            (number(Field::CuttingDiameter) - diameter).abs() < 1e-9,
            "{cell}"
        );
        assert!(
            (number(Field::CornerRadius) - radius).abs() < 1e-9,
            "{cell}"
        );
        let told = faults(&library).len();
        assert_eq!(told, usize::from(cell.ends_with(',')), "{cell}");
    }
    // Two radii are none.
    let two = library(&text("8 R4,8,3.5"));
    assert_eq!(faults(&two), ["stated-two-ways 2:6 corner_radius"]);
    assert_eq!(stated(&two, Field::CornerRadius), None);
    let library = library(&text("8 R4,8,"));
    let said = |name| word(only(&library, "record/two-in-a-cell"), name);
    assert_eq!(said("diameter"), "8 mm");
    assert_eq!(said("radius"), "4 mm");
    let of = |text: &str| {
        let library = crate::support::library(text);
        word(only(&library, "record/cell-unreadable"), "problem")
    };
    assert_eq!(
        of(&text("21x9,12,")),
        "two readings, a diameter of 21 and a width or length of 9, or one of 21 and a corner radius of 9; state the diameter alone"
    );
    assert_eq!(
        of(&text("8 R5,8,")),
        "a corner radius of 5, which is more than half of the diameter 8"
    );
}

#[test]
fn what_is_not_sure_is_said() {
    for cell in ["ca. 42", "approx 42", "~42", "about 42 mm", "≈ 42"] {
        let library = library(&with_column("reach", cell));
        let problem = word(only(&library, "record/cell-unreadable"), "problem");
        assert_eq!(
            problem, "not sure, as it says itself; measure it, and state the number alone",
            "{cell}"
        );
    }
}

#[test]
fn a_first_line_that_names_the_delimiter() {
    for (line, delimiter) in [("sep=;", ";"), ("SEP=,", ","), ("\u{feff}sep=\t", "\t")] {
        let rows = with_column("reach", "12").replace(',', delimiter);
        let text = format!("{line}\r\n{rows}");
        let library = library(&text);
        assert_eq!(faults(&library), [] as [&str; 0], "{line}");
        assert_eq!(stated(&library, Field::Reach), Some(Scalar::Number(12.0)));
    }
}

/// Each drill of the table is thinner than the one before its number, and thicker than the one
/// before its letter.
#[test]
fn number_drills_become_thinner_and_letter_drills_thicker() {
    let drills = &standard_sizes::DRILLS.table;
    assert_eq!((drills.numbers.len(), drills.letters.len()), (80, 26));
    assert!(drills.numbers.windows(2).all(|pair| pair[0] > pair[1]));
    assert!(drills.letters.windows(2).all(|pair| pair[0] < pair[1]));
    assert!(drills.numbers[0] < drills.letters[0]);
}

/// Whoever brings headers of their own is told where to name them, and what some of them mean.
#[test]
fn a_file_of_foreign_headers_is_answered_with_what_they_mean() {
    let text = "sep=;\nWkz-Nr;Auskraglänge;LOC;Sonst\n1;48;20;y\n";
    let input = Input::Bytes("export.csv", text.as_bytes());
    let errors = load(input, &BUILT_IN.read_settings()).errors;
    let reason = &errors[0].reason;
    let meant = "\"Wkz-Nr\" = \"tool_number\", \"Auskraglänge\" = \"stick_out\"";
    assert!(reason.contains(meant), "{reason}");
    assert!(
        !reason.contains("LOC") && !reason.contains("Sonst"),
        "{reason}"
    );
}
