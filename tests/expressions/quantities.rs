//! Units, dimensions and the tolerance of comparisons.

use super::{Value, fails, holds, refusal, value};

/// Lengths within 0.01 mm are equal; every other comparison follows from that.
#[test]
fn lengths_within_a_hundredth_are_equal() {
    for near in ["18.0099 mm", "17.9901 mm", "18.01 mm", "17.99 mm"] {
        holds(&format!("grip == {near}"));
        holds(&format!("grip <= {near}"));
        holds(&format!("grip >= {near}"));
        fails(&format!("grip != {near}"));
        fails(&format!("grip < {near}"));
        fails(&format!("grip > {near}"));
        holds(&format!("grip in [{near}]"));
    }
    holds("grip < 18.0101 mm");
    fails("grip >= 18.0101 mm");
    holds("grip > 17.9899 mm");
    fails("grip <= 17.9899 mm");
    holds("grip != 18.0101 mm");
    fails("grip in [18.0101 mm]");
}

/// Everything else is equal within a billionth of the larger value.
#[test]
fn other_values_within_a_billionth_are_equal() {
    holds("1000000000 == 1000000001");
    holds("1000000000 >= 1000000001");
    fails("1000000000 < 1000000001");
    fails("1000000000 == 1000000002");
    holds("1000000000 < 1000000002");
    holds("0.1 + 0.2 == 0.3");
    holds("2 == 2.0000000019");
    fails("2 == 2.000000003");
    holds("torque == 2.0000000019 N·m");
    fails("torque == 2.001 N·m");
    fails("grip / land == 0.4501");
    // A ratio of lengths is no length: 0.005 is no small difference there.
    fails("grip / land == 0.455");
    holds("zero == 0");
    fails("zero == 0.000000000001");
}

#[test]
fn a_number_may_carry_a_unit() {
    assert_eq!(value("2 mm"), Value::Number(2.0));
    assert_eq!(value("2mm"), Value::Number(2.0));
    assert_eq!(value("2.5 N·m"), Value::Number(2500.0));
    holds("grip == 18 mm");
    holds("torque == 2 N·m");
    holds("force == 50 N");
    holds("stress == 5 MPa");
    holds("angle == 118 deg");
    holds("speed == 6000 1/min");
    holds("frequency == 100 Hz");
    holds("power == 3 kW");
    holds("min(2 mm, 3 mm) == 2 mm");
}

/// Dimensions multiply and divide, and units of one dimension may be compared.
#[test]
fn dimensions_are_an_algebra() {
    // 50 N at 40 mm is 2 N·m.
    holds("force * land == torque");
    holds("torque / land == force");
    holds("torque / force == land");
    holds("force / (land * land) == 0.03125 MPa");
    holds("force / land == 1.25 N/mm");
    holds("land / 0.5 == 80 mm");
    holds("land / land == 1");
    // 6000 1/min is 100 Hz: both measure turns a time.
    holds("speed == frequency");
    // 2 N·m at 6000 1/min: without the angle's 2π it is 0.2 kW.
    holds("torque * speed == 0.2 kW");
    holds("max(torque, 1.9 N·m) == 2 N·m");
    holds("abs(-land) == 40 mm");
    holds("(yes ? grip : land) == 18 mm");
}

/// What measures different things is never compared, added or chosen between.
#[test]
fn dimensions_that_differ_are_refused() {
    let refused = [
        ("2 N·m > 1 mm", "cannot compare a torque and a length"),
        ("grip >= torque", "cannot compare a length and a torque"),
        ("grip + force", "cannot add a length and a force"),
        ("grip - 2", "cannot add a length and a plain number"),
        ("grip > 2", "cannot compare a length and a plain number"),
        ("min(grip, torque)", "cannot compare a length and a torque"),
        (
            "yes ? grip : force",
            "cannot choose between a length and a force",
        ),
        ("grip in [2 N]", "cannot look for a length and a force"),
        ("angle == 2", "cannot compare an angle and a plain number"),
        ("grip * land == 2 mm", "cannot compare an area and a length"),
        ("1 / speed == 2 mm", "and a length"),
        ("kind == 2", "cannot compare a word and a plain number"),
        ("yes == 1", "cannot compare yes or no and a plain number"),
        ("name < other_name", "only numbers have an order"),
        ("yes < no", "only numbers have an order"),
        ("!grip", "expected yes or no, found a length"),
        ("-yes", "expected a number, found yes or no"),
        ("abs(name)", "expected a number, found a word"),
        ("a && yes", "expected yes or no, found a plain number"),
        ("a ? 1 : 2", "expected yes or no, found a plain number"),
    ];
    for (expression, message) in refused {
        let said = refusal(expression);
        assert!(said.contains(message), "{expression}: {said}");
    }
}

/// A word that the name can never be is a slip of the hand.
#[test]
fn a_word_must_be_one_of_the_list() {
    holds("kind == 'end mill'");
    holds("'end mill' == kind");
    holds("kind in ['drill', 'end mill']");
    for expression in [
        "kind == 'endmill'",
        "'endmill' != kind",
        "kind in ['tap', 'endmill']",
    ] {
        let said = refusal(expression);
        assert!(
            said.contains("'endmill' is never the value; did you mean 'end mill'?"),
            "{said}"
        );
    }
    let said = refusal("kind == 'spanner'");
    assert!(said.contains("one of: drill, end mill, tap"), "{said}");
    // A free text may be anything.
    fails("name == 'endmill'");
}
