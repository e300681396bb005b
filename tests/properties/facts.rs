//! Facts scale, believe what they are told, and do not depend on who asks first.

use proptest::prelude::*;
use shankwise::facts::{Fact, FactValue};
use shankwise::library::{Field, Overrides, PROPERTIES};
use shankwise::units::{Scalar, Unit};

use super::{
    LENGTHS, OTHERS, all_facts, any_order, config, facts_of, names, numbers, scene, stated, text,
};
use crate::support::library;

proptest! {
    #![proptest_config(config())]

    /// A tool drawn at another scale grips as well: lengths follow, ratios and torques stay.
    #[test]
    fn lengths_scale(lengths in numbers(&LENGTHS, 1.0), others in numbers(&OTHERS, 1.0), k in 0.1..10.0_f64) {
        let words = || vec![(Field::CutterKind, "drill"), (Field::ColletSize, "32")];
        let by = |k: f64| {
            let scaled = lengths.iter().map(|(field, length)| (*field, length * k));
            let numbers: Vec<_> = scaled.chain(others.iter().copied()).collect();
            let more = [(Field::Reach, 40.0 * k), (Field::Clearance, k)];
            (numbers, more)
        };
        let value = |k: f64| -> Vec<Option<f64>> {
            let (numbers, more) = by(k);
            let library = library(&text(&(numbers, words())));
            let overrides = Overrides { numbers: more.to_vec(), ..Overrides::default() };
            let found = all_facts(&library, &overrides, &[]);
            found.iter().map(|fact| match fact.value {
                Some(Scalar::Number(number)) => Some(number),
                _ => None,
            }).collect()
        };
        let pairs = value(1.0).into_iter().zip(value(k));
        let mut known = 0;
        for (info, (once, scaled)) in Fact::all().zip(pairs) {
            let FactValue::Number(unit) = info.value else { continue };
            // Forces do not scale with lengths, and the room behind the shank end is a fixed length.
            let fixed = ["least_stick_out", "best_grip", "spare_overhang", "flat_in_bore", "insertion_possible"];
            if !info.source.starts_with("geometry") || fixed.contains(&info.name) { continue }
            prop_assert_eq!(once.is_some(), scaled.is_some(), "{} is known", info.name);
            let Some(once) = once else { continue };
            known += 1;
            let factor = if unit == Unit::Mm { k } else { 1.0 };
            let (once, scaled) = (once * factor, scaled.unwrap_or(f64::NAN));
            prop_assert!(
                (once - scaled).abs() <= 1e-9 * (1.0 + once.abs()),
                "{}: {} and {}", info.name, once, scaled
            );
        }
        prop_assert!(known >= 15, "only {known} facts are known");
    }

    /// "What if" gives what a library with those numbers gives: the same values, resting on
    /// the same fields.
    #[test]
    fn overrides_are_a_rewritten_library(before in stated(), other in numbers(&LENGTHS, 0.2)) {
        let mut after = before.clone();
        after.0.retain(|(field, _)| !other.iter().any(|(replaced, _)| replaced == field));
        after.0.extend(other.iter().copied());
        let (before, after) = (library(&text(&before)), library(&text(&after)));
        let overrides = Overrides { numbers: other.clone(), ..Overrides::default() };
        let nothing = Overrides::default();
        let what_if = all_facts(&before, &overrides, &[]);
        let rewritten = all_facts(&after, &nothing, &[]);
        for ((name, a), b) in names().zip(what_if).zip(rewritten) {
            prop_assert_eq!(a, b, "{} with {:?}", name, &other);
        }
    }

    /// To believe less never makes more known, and what is still known is the same.
    #[test]
    fn distrust_never_makes_known(stated in stated()) {
        let library = library(&text(&stated));
        let nothing = Overrides::default();
        let scene = scene(&library, &nothing);
        let trusted = facts_of(&scene);
        let bare = facts_of(scene.distrusting());
        for ((name, trusted), bare) in names().zip(trusted).zip(bare) {
            prop_assert!(trusted.is_known() || !bare.is_known(), "{name}");
            let starred = PROPERTIES.iter().filter(|property| property.starred);
            for property in starred {
                prop_assert!(!bare.trace.assumed.contains(property.field), "{name}");
            }
        }
    }

    /// Facts do not depend on which was asked for first.
    #[test]
    fn any_order_gives_the_same(stated in stated(), one in any_order(), other in any_order()) {
        let library = library(&text(&stated));
        let overrides = Overrides::default();
        let by_one = all_facts(&library, &overrides, &one);
        let by_other = all_facts(&library, &overrides, &other);
        for ((name, a), b) in names().zip(by_one).zip(by_other) {
            prop_assert_eq!(a, b, "{}", name);
        }
    }
}
