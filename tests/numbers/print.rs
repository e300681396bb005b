//! Printing: two compared values are told apart, and neither looks nearer to "enough".

use proptest::prelude::*;
use shankwise::units::Unit;
use shankwise::units::print::{
    DisplayUnits, Rounding, bare, bare_estimate, estimate, estimate_against, inwards, pair,
    percent, value,
};

use crate::support::cases;

fn metric() -> DisplayUnits {
    DisplayUnits::default()
}

fn imperial() -> DisplayUnits {
    DisplayUnits::new("in", "lbf·ft")
}

/// Two significant digits whatever the size, in the library's units; a compared one is rounded
/// away from the other and so kept apart from it.
#[test]
fn estimates_have_two_digits() {
    let against = |own, other| estimate_against(own, other, Unit::Nm, metric());
    let shown = [
        (estimate(25_187.9, Unit::N, metric()), "25000 N"),
        (estimate(124.453, Unit::Nm, metric()), "120 N·m"),
        (estimate(5.7167, Unit::Nm, metric()), "5.7 N·m"),
        (estimate(99.7, Unit::Nm, metric()), "100 N·m"),
        (estimate(0.041_49, Unit::Mm, metric()), "0.041 mm"),
        (estimate(0.3485, Unit::One, metric()), "0.35"),
        (estimate(-1234.0, Unit::N, metric()), "-1200 N"),
        (estimate(0.0, Unit::N, metric()), "0 N"),
        (
            estimate(135.581_794_833, Unit::Nm, imperial()),
            "100 lbf·ft",
        ),
        (against(25.76, 25.80), "25 N·m"),
        (against(25.80, 25.76), "26 N·m"),
        (against(0.9987, 1.0), "0.99 N·m"),
        (against(1049.0, 1040.0), "1100 N·m"),
        (against(7.0, 7.0), "7.0 N·m"),
    ];
    for (printed, expected) in shown {
        assert_eq!(printed, expected);
    }
    let (digits, unit) = bare_estimate(15_486.32, Unit::N, metric());
    assert_eq!((digits.as_str(), unit), ("15000", "N"));
    for odd in [f64::NAN, f64::INFINITY, 1e308, 5e-324, -1e-300] {
        assert!(estimate(odd, Unit::N, metric()).ends_with(" N"));
    }
}

#[test]
fn values_as_a_shop_writes_them() {
    let shown = [
        (value(18.0, Unit::Mm, metric()), "18.0 mm"),
        (value(0.04, Unit::Mm, metric()), "0.04 mm"),
        (value(0.0, Unit::Mm, metric()), "0.0 mm"),
        // Below 2 mm hundredths, and thousandths that are no rounding of them.
        (value(1.25, Unit::Mm, metric()), "1.25 mm"),
        (value(1.5, Unit::Mm, metric()), "1.5 mm"),
        (value(1.337, Unit::Mm, metric()), "1.337 mm"),
        (value(4.0 / 3.0, Unit::Mm, metric()), "1.33 mm"),
        // From there on hundredths only if they say all of it.
        (value(6.35, Unit::Mm, metric()), "6.35 mm"),
        (value(26.667, Unit::Mm, metric()), "26.7 mm"),
        (value(-0.000_000_1, Unit::Mm, metric()), "0.00000 mm"),
        (value(7.62, Unit::Mm, imperial()), "0.300 in"),
        // Ten-thousandths of an inch only if they say all of it: 3/16 and 1/64.
        (value(4.7625, Unit::Mm, imperial()), "0.1875 in"),
        (value(0.396_875, Unit::Mm, imperial()), "0.016 in"),
        (value(120.0, Unit::Nm, metric()), "120.0 N·m"),
        (value(135.581_794_833, Unit::Nm, imperial()), "100.0 lbf·ft"),
        (value(0.45, Unit::One, metric()), "0.45"),
        (value(32.0, Unit::One, metric()), "32"),
        (value(8000.0, Unit::PerMin, imperial()), "8000 rpm"),
        (value(1.2, Unit::Kg, metric()), "1.200 kg"),
        (percent(0.666_6, Rounding::Down), "66 %"),
        (percent(0.666_6, Rounding::Up), "67 %"),
        (percent(2.0 / 3.0, Rounding::Nearest), "67 %"),
    ];
    for (text, expected) in shown {
        assert_eq!(text, expected);
    }
    assert_eq!(bare(26.666_67, Unit::Mm, metric()), ("26.667".into(), "mm"));
    assert_eq!(bare(26.0, Unit::Mm, metric()), ("26".into(), "mm"));
    assert_eq!(bare(7.62, Unit::Mm, imperial()), ("0.3".into(), "in"));
}

#[test]
fn a_short_grip_never_reads_as_enough() {
    let two = |a, b| pair(a, b, Unit::Mm, metric());
    assert_eq!(two(18.0, 80.0 / 3.0), ("18.0 mm".into(), "26.7 mm".into()));
    assert_eq!(
        two(26.66, 80.0 / 3.0),
        ("26.66 mm".into(), "26.67 mm".into())
    );
    assert_eq!(two(26.656, 26.667), ("26.65 mm".into(), "26.67 mm".into()));
    assert_eq!(
        two(80.0 / 3.0, 26.66),
        ("26.67 mm".into(), "26.66 mm".into())
    );
    assert_eq!(two(26.0, 26.0), ("26.0 mm".into(), "26.0 mm".into()));
    let inches = pair(26.65, 80.0 / 3.0, Unit::Mm, imperial());
    assert_eq!(inches, ("1.049 in".into(), "1.050 in".into()));
    assert_eq!(
        pair(-0.1, 0.0, Unit::Mm, metric()),
        ("-0.1 mm".into(), "0.0 mm".into())
    );
}

/// The number in a printed text, and one step of its last digit.
fn number(text: &str) -> (f64, f64) {
    let digits = text.split(' ').next().unwrap();
    let decimals = digits.split_once('.').map_or(0, |(_, part)| part.len());
    let step = 10f64.powi(-i32::try_from(decimals).unwrap());
    (digits.parse().unwrap(), step)
}

/// What [`pair`] owes its reader, for a smaller and a larger value.
fn check(low: f64, high: f64, unit: Unit, units: DisplayUnits, per: f64) {
    let (low_text, high_text) = pair(low, high, unit, units);
    assert_eq!(
        pair(high, low, unit, units),
        (high_text.clone(), low_text.clone())
    );
    assert_ne!(low_text, high_text, "{low} and {high} differ");
    let ((shown_low, step), (shown_high, same)) = (number(&low_text), number(&high_text));
    assert_eq!(
        step, same,
        "{low_text} and {high_text} have as many decimals"
    );
    assert!(shown_low < shown_high, "{low_text} against {high_text}");
    // A millionth of a step is the noise of arithmetic that printing smooths over.
    let noise = step * 2e-6 + high.abs() * 1e-15;
    assert!(shown_low <= low / per + noise, "{low} shown as {low_text}");
    assert!(
        shown_high >= high / per - noise,
        "{high} shown as {high_text}"
    );
    assert!(
        shown_low > low / per - step * 1.01,
        "{low} shown as {low_text}"
    );
    assert!(
        shown_high < high / per + step * 1.01,
        "{high} shown as {high_text}"
    );
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn lengths_apart_by_more_than_the_tolerance(low in -500.0..2000.0_f64, apart in 0.010_01..2.0_f64) {
        check(low, low + apart, Unit::Mm, metric(), 1.0);
        check(low, low + apart, Unit::Mm, imperial(), 25.4);
    }

    #[test]
    fn lengths_on_a_grid_of_hundredths(low in 0..100_000_i32, apart in 2..50_i32) {
        let hundredths = |n: i32| f64::from(n) / 100.0;
        check(hundredths(low), hundredths(low + apart), Unit::Mm, metric(), 1.0);
    }

    #[test]
    fn other_values_apart_by_more_than_the_tolerance(low in 0.01..1e5_f64, apart in 2e-9..0.2_f64) {
        for unit in [Unit::One, Unit::N, Unit::Nm, Unit::PerMin, Unit::Kg] {
            check(low, low * (1.0 + apart), unit, metric(), 1.0);
        }
    }
}

/// Ends of a stretch never reach beyond it, however it is rounded; where it is narrow they get
/// finer, and a single value stays one.
#[test]
fn ends_are_rounded_inwards() {
    let (metric, inch) = (metric(), imperial());
    for (least, most, units, shown) in [
        (38.0, 56.333_333, metric, ("38.0", "56.3")),
        (38.01, 56.39, metric, ("38.1", "56.3")),
        (38.01, 38.09, metric, ("38.01", "38.09")),
        (38.1, 57.15, inch, ("1.500", "2.250")),
        (38.0, 56.333_333, inch, ("1.497", "2.217")),
        (38.123_46, 38.123_46, metric, ("38.1235", "38.1235")),
    ] {
        let (up, down) = inwards(least, most, units);
        assert_eq!((up.as_str(), down.as_str()), shown, "{least} to {most}");
    }
}

/// What is between two values on one screen is what their printed numbers make, and never less
/// than it is.
#[test]
fn a_difference_agrees_with_what_is_printed() {
    use shankwise::units::print::difference;
    let units = DisplayUnits::default();
    let third = 40.0 / 3.0;
    assert_eq!(pair(0.0, third, Unit::Mm, units).1, "13.4 mm");
    assert_eq!(difference(third, 0.0, Unit::Mm, units), "13.4 mm");
    assert_eq!(difference(0.0, third, Unit::Mm, units), "-13.4 mm");
    for tenths in 0..400 {
        let has = f64::from(tenths) / 7.0;
        let number = |text: &str| text.split(' ').next().unwrap().parse::<f64>().unwrap();
        let (a, b) = pair(60.0, has, Unit::Mm, units);
        let between = number(&difference(60.0, has, Unit::Mm, units));
        assert!((between - (number(&a) - number(&b))).abs() < 1e-9);
        assert!(between >= 60.0 - has - 1e-9);
    }
}

/// `13.4 needed` and `13.3 short` of nothing in one line would be a puzzle.
#[test]
fn what_is_short_is_the_difference_of_what_is_printed() {
    let report = crate::support::lint_text(
        "tool_number,OAL,LS,DMM,DC,stick_out,collet_size,bore_diameter,bore_length,face_setback\n1,83,20,12,12,82,32,12,20,1\n",
    );
    let mut findings = report.findings.iter();
    let short = findings.find(|finding| finding.rule == "grip/short-grip");
    let short = short.expect("nothing is gripped");
    assert!(
        short
            .message
            .starts_with("only 0.0 mm of plain shank gripped; 13.4 mm needed, 13.4 mm short"),
        "{}",
        short.message
    );
}
