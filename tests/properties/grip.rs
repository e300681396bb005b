//! The grip is part of the land and of the shank, and follows the stick-out.

use proptest::prelude::*;
use shankwise::facts::Fact;
use shankwise::library::Overrides;
use shankwise::mechanics::axial::{Land, Shank, gripped_length};
use shankwise::units::Scalar;

use super::{all_facts, config, stated, text};
use crate::support::library;

fn shank_and_land() -> impl Strategy<Value = (Shank, Land)> {
    let shank = (1.0..150.0_f64, 0.0..1.0_f64, 0.0..20.0_f64);
    let land = (0.0..150.0_f64, -10.0..20.0_f64, 0.0..60.0_f64);
    (shank, land).prop_map(|((overall_length, part, square_length), land)| {
        let (stick_out, bore_setback, bore_length) = land;
        let shank_length = overall_length * part;
        let shank = Shank {
            overall_length,
            shank_length,
            square_length,
        };
        let land = Land {
            stick_out,
            bore_setback,
            bore_length,
        };
        (shank, land)
    })
}

/// Room for the rounding of a few sums.
const ROUNDING: f64 = 1e-9;

proptest! {
    #![proptest_config(config())]

    /// No stick-out changes the grip faster than the tool is moved.
    #[test]
    fn grip_follows_the_stick_out((shank, land) in shank_and_land(), by in -50.0..50.0_f64) {
        let moved = Land { stick_out: land.stick_out + by, ..land };
        let change = gripped_length(shank, moved) - gripped_length(shank, land);
        prop_assert!(change.abs() <= by.abs() + ROUNDING, "{change} for {by}");
    }

    #[test]
    fn grip_is_part_of_land_and_shank((shank, land) in shank_and_land()) {
        let grip = gripped_length(shank, land);
        prop_assert!(grip >= 0.0);
        prop_assert!(grip <= land.bore_length + ROUNDING);
        prop_assert!(grip <= shank.shank_length + ROUNDING);
    }

    /// The same through a whole library.
    #[test]
    fn the_fact_is_part_of_land_and_shank(stated in stated()) {
        let library = library(&text(&stated));
        let overrides = Overrides::default();
        let found = all_facts(&library, &overrides, &[]);
        let number = |fact: Fact| match found[fact as usize].value {
            Some(Scalar::Number(number)) => Some(number),
            _ => None,
        };
        if let (Some(grip), Some(shank)) = (number(Fact::GrippedLength), number(Fact::PlainShank)) {
            prop_assert!(grip >= 0.0 && grip <= shank + ROUNDING, "{grip} of {shank}");
        }
        if let Some(part) = number(Fact::GripFraction) {
            prop_assert!((0.0..=1.0 + ROUNDING).contains(&part), "{part}");
        }
    }
}
