//! Broken numbers and units: each is told apart, so that the advice fits.

use shankwise::units::{Asked, Decimal, NumberFault, Problem, Spelling, Unit, read};

use super::{length, stated};

fn fault(text: &str) -> NumberFault {
    match length(text) {
        Err(Problem::Number(fault)) => fault,
        other => panic!("{text}: {other:?}"),
    }
}

#[test]
fn no_number() {
    for text in [
        "", " ", "abc", "NaN", "nan", "inf", "-inf", "infinity", ".", "-.", "mm", "١٢",
    ] {
        assert_eq!(fault(text), NumberFault::None, "{text}");
    }
}

#[test]
fn stand_ins() {
    for text in [
        "-", "--", "–", "—", "?", "n/a", "N/A", "na", "n.a.", "tbd", "TBD", "none", "NULL",
        "unknown", "x",
    ] {
        assert_eq!(fault(text), NumberFault::Placeholder, "{text}");
    }
}

#[test]
fn something_before_the_number() {
    for text in [
        "~12", "Ø12", "ø 12", ">12", "≤12", "ca. 12", "D12", "--12", "$12", "'12",
    ] {
        assert_eq!(fault(text), NumberFault::Prefix, "{text}");
    }
}

#[test]
fn a_decimal_comma_where_only_a_point_is_one() {
    for text in ["12,5", "12,5 mm", "1,250", "-12,5", "12,", "12,5e1"] {
        assert_eq!(fault(text), NumberFault::DecimalComma, "{text}");
    }
}

#[test]
fn two_marks() {
    for text in ["12.5.3", "12..5", "1.250,5", "12.5,3", "1.5/2", "1,25.5"] {
        assert_eq!(fault(text), NumberFault::TwoMarks, "{text}");
    }
    let comma = |text| {
        read(
            text,
            Unit::Mm,
            Some(Spelling::millimetre()),
            Decimal::CommaOrPoint,
        )
    };
    for text in ["1.25,5", "1,25.5", "1,250,5", "12,,5"] {
        let two = Err(Problem::Number(NumberFault::TwoMarks));
        assert_eq!(comma(text), two, "{text} where a comma is a mark");
    }
}

#[test]
fn two_numbers() {
    for text in [
        "1 250",
        "1\u{a0}25",
        "12 13",
        "1 250.5",
        "1.5 1/2",
        "12/13/14",
        "12 /",
        "3/",
    ] {
        assert_eq!(fault(text), NumberFault::TwoNumbers, "{text}");
    }
}

#[test]
fn ranges() {
    for text in [
        "12-14",
        "12–14",
        "12−14",
        "12 - 14",
        "12 – 14 mm",
        "12.5-13.5",
    ] {
        assert_eq!(fault(text), NumberFault::Range, "{text}");
    }
}

#[test]
fn fractions_over_zero() {
    for text in ["1/0", "1 1/0", "0/0", "3/000 in"] {
        assert_eq!(fault(text), NumberFault::ZeroDenominator, "{text}");
    }
}

#[test]
fn numbers_beyond_any_dimension() {
    let forty = "1234567890".repeat(4);
    let small = format!("0.{}1", "0".repeat(39));
    for text in [
        "1e999",
        "1e-999",
        "1e99999999999",
        "123456789012345678",
        &forty,
        &small,
    ] {
        assert_eq!(fault(text), NumberFault::TooLarge, "{text}");
    }
    // The exponent and the decimals together must not overflow either.
    assert_eq!(fault("0.05e-2147483647"), NumberFault::TooLarge);
    assert_eq!(fault("1e2147483647"), NumberFault::TooLarge);
}

#[test]
fn seventeen_digits_are_read_since_programs_write_them() {
    assert_eq!(length("0.30000000000000004"), Ok(0.300_000_000_000_000_04));
    assert_eq!(length("000000000000000000012.5"), Ok(12.5));
    assert_eq!(length("12.500000000000000000000"), Ok(12.5));
}

#[test]
fn unknown_units_are_answered_with_the_nearest() {
    let unknown = |text: &str, near| Err(Problem::UnitUnknown(text.into(), near));
    assert_eq!(length("12 mmm"), unknown("mmm", Some("mm")));
    assert_eq!(length("12 furlong"), unknown("furlong", None));
    assert_eq!(length("12 e"), unknown("e", None));
    assert_eq!(length("12 /x"), unknown("/x", None));
    assert_eq!(
        stated("12 lbf·fr", Unit::Nm),
        unknown("lbf·fr", Some("lbf·ft"))
    );
}

#[test]
fn units_of_another_kind_are_wrong() {
    assert_eq!(length("12 deg"), Err(Problem::UnitWrong("deg")));
    assert_eq!(length("12 N·m"), Err(Problem::UnitWrong("N·m")));
    assert_eq!(stated("12 mm", Unit::Nm), Err(Problem::UnitWrong("mm")));
    assert_eq!(stated("12 kg", Unit::Nm), Err(Problem::UnitWrong("kg")));
    assert_eq!(stated("12 Hz", Unit::PerMin), Err(Problem::UnitWrong("Hz")));
}

#[test]
fn a_number_without_unit_and_without_default() {
    assert_eq!(stated("120", Unit::Nm), Err(Problem::UnitMissing));
}

#[test]
fn every_problem_is_explained_in_words_that_name_what_was_expected() {
    let problems = [
        Problem::UnitUnknown("\u{1b}[2J".into(), None),
        Problem::UnitUnknown("mmm".into(), Some("mm")),
        Problem::UnitWrong("deg"),
        Problem::UnitMissing,
        Problem::NotWhole,
        Problem::Number(NumberFault::None),
        Problem::Number(NumberFault::Placeholder),
        Problem::Number(NumberFault::Prefix),
        Problem::Number(NumberFault::DecimalComma),
        Problem::Number(NumberFault::TwoMarks),
        Problem::Number(NumberFault::TwoNumbers),
        Problem::Number(NumberFault::Range),
        Problem::Number(NumberFault::ZeroDenominator),
        Problem::Number(NumberFault::TooLarge),
    ];
    let mut told: Vec<String> = problems
        .iter()
        .map(|p| p.explain(Unit::Mm, Asked::InCell))
        .collect();
    assert!(
        told[0].contains("expected mm, in, cm, m or µm"),
        "{}",
        told[0]
    );
    assert!(told[1].contains("did you mean `mm`?"), "{}", told[1]);
    for text in &told {
        assert!(!text.chars().any(char::is_control), "{text:?}");
        assert!(text.len() > 15, "{text}");
    }
    told.sort();
    told.dedup();
    assert_eq!(told.len(), problems.len(), "each has words of its own");
}
