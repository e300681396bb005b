//! Values: definitions of units exact, every number rounded once and correctly.

use proptest::prelude::*;
use shankwise::units::{Decimal, Spelling, Unit, read, read_count};

use super::{inch, length, stated};
use crate::support::cases;

/// International yard and pound agreement, 1959: an inch is 25.4 mm, a pound 0.45359237 kg.
/// Standard gravity, 3rd CGPM 1901: 9.80665 m/s². Their product with a foot of 304.8 mm is
/// 0.45359237 · 9.80665 · 0.3048 = 1.3558179483314004 exactly.
const POUND_FORCE_FOOT: f64 = 1.355_817_948_331_400_4;

#[test]
fn an_inch_is_25_point_4_millimetres() {
    let exact = [
        ("1 in", 25.4),
        ("0.3", 7.62),
        ("3/8", 9.525),
        ("1 1/2 in", 38.1),
        ("1-1/2\"", 38.1),
        ("1\u{a0}1/2 in", 38.1),
        ("-1-1/2\"", -38.1),
        ("1/64", 0.396_875),
        ("2.", 50.8),
        (".5", 12.7),
        ("5e-1", 12.7),
        ("10 mm", 10.0),
    ];
    for (text, millimetres) in exact {
        assert_eq!(inch(text), Ok(millimetres), "{text}");
    }
}

#[test]
fn groups_of_three_digits() {
    let millimetres = |text, decimal| read(text, Unit::Mm, Some(Spelling::millimetre()), decimal);
    for text in ["1,250.5", "12'000", "1\u{a0}250.5 mm", "1’234’567"] {
        let digits: String = text
            .chars()
            .filter(|c| c.is_ascii_digit() || *c == '.')
            .collect();
        let plain = digits.parse().unwrap();
        assert_eq!(millimetres(text, Decimal::Point), Ok(plain), "{text}");
    }
    for text in ["1.250,5", "1,250.5"] {
        assert_eq!(
            millimetres(text, Decimal::CommaOrPoint),
            Ok(1250.5),
            "{text}"
        );
    }
    // Without the other mark behind it, a comma may as well be a decimal mark.
    assert!(millimetres("1,250", Decimal::Point).is_err());
    assert_eq!(millimetres("1,250", Decimal::CommaOrPoint), Ok(1.25));
    assert_eq!(millimetres("0,250.5", Decimal::Point).ok(), None);
}

#[test]
fn pound_force_torques_are_products_of_their_definitions() {
    let product = 45_359_237_u128 * 980_665 * 3048;
    assert_eq!(product, 135_581_794_833_140_040, "1.3558… times 10^17");
    assert_eq!(product % 120, 0, "so that an inch's is exact too");
    assert_eq!(stated("1 lbf·ft", Unit::Nm), Ok(POUND_FORCE_FOOT));
    assert_eq!(stated("100 lbf·ft", Unit::Nm), Ok(135.581_794_833_140_04));
    assert_eq!(stated("1 lbf·in", Unit::Nm), Ok(0.112_984_829_027_616_7));
    assert_eq!(stated("12 lbf·in", Unit::Nm), Ok(POUND_FORCE_FOOT));
    assert_eq!(stated("1 lb", Unit::Kg), Ok(0.453_592_37));
}

#[test]
fn signs_blanks_and_exponents() {
    let read = [
        ("12.5", 12.5),
        ("+12.5", 12.5),
        ("-12.5", -12.5),
        ("−12.5", -12.5),
        ("- 12.5", -12.5),
        ("  12.5  ", 12.5),
        ("\u{a0}12.5\u{a0}mm", 12.5),
        ("12.5\u{202f}mm", 12.5),
        ("12.5mm", 12.5),
        ("1.25e1", 12.5),
        ("125E-1 mm", 12.5),
        ("1,25e1 mm", 12.5),
        ("12,5", 12.5),
        ("0012.50", 12.5),
        ("0", 0.0),
        ("-0.0", 0.0),
    ];
    for (text, value) in read {
        let found = super::read(
            text,
            Unit::Mm,
            Some(Spelling::millimetre()),
            Decimal::CommaOrPoint,
        );
        assert_eq!(found, Ok(value), "{text}");
    }
}

#[test]
fn a_default_unit_applies_to_a_bare_number_only() {
    let feet = Spelling::find("lbf·ft", Unit::Nm);
    let torque = |text| read(text, Unit::Nm, feet, Decimal::Point);
    assert_eq!(torque("1"), Ok(POUND_FORCE_FOOT));
    assert_eq!(torque("1 N·m"), Ok(1.0));
}

#[test]
fn counts_are_whole() {
    let count = |text| read_count(text, Decimal::Point);
    assert_eq!(count("4"), Ok(4.0));
    assert_eq!(count("4.0"), Ok(4.0));
    assert_eq!(count("8/2"), Ok(4.0));
    assert!(count("4.5").is_err());
    assert!(count("4 mm").is_err());
    assert!(count("four").is_err());
}

/// A decimal number as digits and places: `digits` / 10^`places`.
fn decimal() -> impl Strategy<Value = (u64, usize)> {
    (0..100_000_000_000_000_000_u64, 0..=17_usize, 0..=16_u32)
        .prop_map(|(digits, places, shorter)| (digits / 10u64.pow(shorter), places))
}

fn written(digits: u128, places: usize) -> String {
    let padded = format!("{digits:0>width$}", width = places + 1);
    let (whole, part) = padded.split_at(padded.len() - places);
    if part.is_empty() {
        whole.to_owned()
    } else {
        format!("{whole}.{part}")
    }
}

proptest! {
    #![proptest_config(cases(256))]

    /// The standard library rounds a decimal text correctly. A decimal number times a factor
    /// of finitely many decimals is a decimal number again, so it is the oracle for all units.
    #[test]
    fn every_decimal_number_is_rounded_once((digits, places) in decimal(), negative in any::<bool>()) {
        let sign = if negative { "-" } else { "" };
        let text = format!("{sign}{}", written(digits.into(), places));
        let factors = [
            ("mm", Unit::Mm, 1, 0),
            ("in", Unit::Mm, 254, 1),
            ("µm", Unit::Mm, 1, 3),
            ("m", Unit::Mm, 1000, 0),
            ("%", Unit::One, 1, 2),
            ("lbf·ft", Unit::Nm, 13_558_179_483_314_004, 16),
            ("lbf·in", Unit::Nm, 1_129_848_290_276_167, 16),
            ("ft/min", Unit::MPerMin, 3048, 4),
            ("lb", Unit::Kg, 45_359_237, 8),
        ];
        for (unit, canonical, factor, shift) in factors {
            let product = written(u128::from(digits) * factor, places + shift);
            let exact: f64 = format!("{sign}{product}").parse().unwrap();
            prop_assert_eq!(stated(&format!("{text} {unit}"), canonical), Ok(exact), "{} {}", text, unit);
        }
    }

    /// A vulgar fraction of an inch, against whole-number arithmetic: the value differs from
    /// the quotient by at most half the distance to the next number.
    #[test]
    fn every_fraction_of_an_inch_is_rounded_once(whole in 0..100_u64, top in 1..256_u64, bottom in 1..256_u64) {
        let value = inch(&format!("{whole} {top}/{bottom}")).unwrap();
        // In units of 2^-66 mm every value from 2^-14 mm on is a whole number.
        let scale = 1u128 << 66;
        let scaled = |value: f64| {
            let bits = value.to_bits();
            let digits = u128::from(bits & ((1 << 52) - 1) | 1 << 52);
            // An exponent of 1075 stands for whole numbers, of 1009 for multiples of 2^-66.
            digits << ((bits >> 52) - 1009)
        };
        let exact_top = (u128::from(whole * bottom) + u128::from(top)) * 254 * scale;
        let exact_bottom = u128::from(bottom) * 10;
        let off = (scaled(value) * exact_bottom).abs_diff(exact_top);
        let step = scaled(value.next_up()) - scaled(value);
        prop_assert!(2 * off <= step * exact_bottom, "{} {}/{}: {}", whole, top, bottom, value);
    }

    /// An inch text is 25.4 times its number, to the last digit, in millimetres.
    #[test]
    fn inches_and_their_millimetres_are_one_value(thousandths in 0..1_000_000_u64) {
        let inches = written(thousandths.into(), 3);
        let millimetres = written(u128::from(thousandths) * 254, 4);
        prop_assert_eq!(inch(&inches), length(&millimetres));
    }

    #[test]
    fn no_text_makes_reading_panic(text in any::<String>(), number in "[-−+]?[0-9.,/ e-]{0,12}[a-z\"]{0,3}") {
        for text in [&text, &number] {
            for decimal in [Decimal::Point, Decimal::CommaOrPoint] {
                for unit in Unit::ALL {
                    let found = read(text, unit, Spelling::find(unit.symbol(), unit), decimal);
                    prop_assert!(found.map_or(true, f64::is_finite), "{}", text);
                }
                let _ = read_count(text, decimal);
            }
        }
    }
}

proptest! {
    #![proptest_config(cases(4096))]

    /// With an exponent of nothing the same number takes the long way of exact fractions.
    #[test]
    fn a_plain_number_is_rounded_like_any_other(text in "-?[0-9]{0,18}[.,]?[0-9]{0,18}") {
        for decimal in [Decimal::Point, Decimal::CommaOrPoint] {
            for (unit, wanted) in [("mm", Unit::Mm), ("in", Unit::Mm), ("lbf·ft", Unit::Nm), ("%", Unit::One)] {
                let default = Spelling::find(unit, wanted);
                let bits = |text: &str| read(text, wanted, default, decimal).ok().map(f64::to_bits);
                prop_assert_eq!(bits(&text), bits(&format!("{text}e0")), "{} {}", text, unit);
            }
        }
    }
}
