//! Torque, frictions and diameters against force, grip and slip.

use proptest::prelude::*;
use shankwise::facts::Fact;
use shankwise::library::{Field, Setting};

use super::{any_case, config, raised, same};

/// Frictions with the force that each takes part in.
const CLAMPING: [(Setting, Fact, Fact); 4] = [
    (
        Setting::FrictionThreadHigh,
        Fact::ClampingForceLow,
        Fact::ClampingForceHigh,
    ),
    (
        Setting::FrictionConeHigh,
        Fact::ClampingForceLow,
        Fact::ClampingForceHigh,
    ),
    (
        Setting::FrictionThreadLow,
        Fact::ClampingForceHigh,
        Fact::ClampingForceLow,
    ),
    (
        Setting::FrictionConeLow,
        Fact::ClampingForceHigh,
        Fact::ClampingForceLow,
    ),
];

const LOW_AND_HIGH: [(Fact, Fact); 5] = [
    (Fact::ClampingForceLow, Fact::ClampingForceHigh),
    (Fact::GripForceLow, Fact::GripForceHigh),
    (Fact::SlipTorqueLow, Fact::SlipTorqueHigh),
    (Fact::SlipRatio, Fact::SlipRatioHigh),
    (Fact::PullOutRatio, Fact::PullOutRatioHigh),
];

proptest! {
    #![proptest_config(config())]

    #[test]
    fn clamping_force_falls_with_each_friction(case in any_case(), by in raised()) {
        for (friction, moved, kept) in CLAMPING {
            let rougher = case.setting_times(friction, by);
            prop_assert!(rougher.fact(moved) < case.fact(moved), "{friction:?}");
            prop_assert_eq!(rougher.fact(kept), case.fact(kept), "{:?}", friction);
        }
        // The taper lies behind the axial force, not before it.
        let rougher = case.setting_times(Setting::FrictionTaperHigh, by);
        prop_assert_eq!(rougher.fact(Fact::ClampingForceLow), case.fact(Fact::ClampingForceLow));
    }

    #[test]
    fn all_forces_follow_the_torque(case in any_case(), by in raised()) {
        let tighter = case.times(Field::NutTorque, by);
        for fact in LOW_AND_HIGH.into_iter().flat_map(|(low, high)| [low, high]) {
            prop_assert!(same(tighter.fact(fact), case.fact(fact) * by), "{fact:?}");
        }
        for fact in [Fact::SlipRatio, Fact::SlipRatioHigh, Fact::PullOutRatio, Fact::PullOutRatioHigh, Fact::NoseStress] {
            prop_assert!(same(tighter.fact(fact), case.fact(fact) * by), "{fact:?}");
        }
    }

    #[test]
    fn slip_torque_falls_with_the_taper_and_rises_with_the_shank(case in any_case(), by in raised()) {
        for (friction, slip, rises) in [
            (Setting::FrictionTaperHigh, Fact::SlipTorqueLow, false),
            (Setting::FrictionTaperLow, Fact::SlipTorqueHigh, false),
            (Setting::FrictionShankLow, Fact::SlipTorqueLow, true),
            (Setting::FrictionShankHigh, Fact::SlipTorqueHigh, true),
        ] {
            let (before, after) = (case.fact(slip), case.setting_times(friction, by).fact(slip));
            prop_assert!(if rises { after > before } else { after < before }, "{friction:?}");
        }
    }

    /// The nose is thinnest at its mouth, and thick behind it: more friction and a longer nut are
    /// in its favour, a wider mouth is not.
    #[test]
    fn nose_stress_is_taken_at_its_favourable_end(case in any_case(), by in raised()) {
        let before = case.fact(Fact::NoseStress);
        for setting in [Setting::FrictionThreadHigh, Setting::FrictionConeHigh, Setting::NutLengthRatio] {
            prop_assert!(case.setting_times(setting, by).fact(Fact::NoseStress) < before, "{setting:?}");
        }
        for setting in [Setting::FrictionThreadLow, Setting::FrictionConeLow, Setting::FrictionTaperHigh] {
            prop_assert_eq!(case.setting_times(setting, by).fact(Fact::NoseStress), before, "{:?}", setting);
        }
        let wider = case.with(Field::MouthDiameter, case.get(Field::MouthDiameter) + 0.5);
        prop_assert!(wider.fact(Fact::NoseStress) > before);
    }

    /// In this model only the diameter counts, not how much of the shank is held.
    #[test]
    fn slip_torque_rises_with_the_diameter_only(case in any_case(), by in raised()) {
        for slip in [Fact::SlipTorqueLow, Fact::SlipTorqueHigh] {
            let before = case.fact(slip);
            let thicker = case.times(Field::ShankDiameter, by);
            prop_assert!(same(thicker.fact(slip), before * by));
            for field in [Field::StickOut, Field::OverallLength, Field::ShankLength, Field::BoreLength] {
                prop_assert_eq!(case.times(field, by).fact(slip), before, "{:?}", field);
            }
        }
    }

    /// Whatever the frictions are, as long as each low one is no higher than its high one.
    #[test]
    fn low_is_never_above_high(case in any_case(), low in prop::array::uniform4(0.02..0.3_f64), more in prop::array::uniform4(0.0..0.3_f64)) {
        let pairs = [
            (Setting::FrictionThreadLow, Setting::FrictionThreadHigh),
            (Setting::FrictionConeLow, Setting::FrictionConeHigh),
            (Setting::FrictionTaperLow, Setting::FrictionTaperHigh),
            (Setting::FrictionShankLow, Setting::FrictionShankHigh),
        ];
        let mut case = case;
        for (at, (lower, higher)) in pairs.into_iter().enumerate() {
            case.settings.extend([(lower, low[at]), (higher, low[at] + more[at])]);
        }
        for (low, high) in LOW_AND_HIGH {
            prop_assert!(case.fact(low) <= case.fact(high), "{low:?}");
            prop_assert!(case.fact(low) > 0.0);
        }
    }

    /// A pull besides the torque never helps; neither does more of a helix.
    #[test]
    fn pull_out_ratio_is_no_better_than_that_of_torque(case in any_case(), by in 1.0..1.5_f64) {
        let [slip, pull] = case.facts([Fact::SlipRatio, Fact::PullOutRatio]);
        prop_assert!(pull.unwrap() <= slip.unwrap() * (1.0 + 1e-12));
        let straight = case.with(Field::HelixAngle, 0.0);
        let [slip, pull] = straight.facts([Fact::SlipRatio, Fact::PullOutRatio]);
        prop_assert!(same(pull.unwrap(), slip.unwrap()));
        // Per torque: the helix moves the peak of both.
        let steeper = case.times(Field::HelixAngle, by);
        let [torque, pull, low] = case.facts([Fact::CuttingTorquePeak, Fact::AxialPull, Fact::AxialPullLow]);
        let [torque_steep, pull_steep] = steeper.facts([Fact::CuttingTorquePeak, Fact::AxialPull]);
        prop_assert!(pull_steep.unwrap() / torque_steep.unwrap() >= pull.unwrap() / torque.unwrap() * (1.0 - 1e-12));
        // The chip's friction takes off most of the pull, and never turns it round.
        prop_assert!(low.unwrap() >= 0.0 && low.unwrap() <= 0.4 * pull.unwrap());
    }

    #[test]
    fn edge_ratio_is_one_at_a_full_land_and_rises_as_grip_falls(case in any_case(), by in 0.02..0.9_f64) {
        let whole = case.with(Field::OverallLength, 300.0).with(Field::ShankLength, 290.0);
        prop_assert!(same(whole.fact(Fact::EdgeRatio), 1.0));
        let before = case.fact(Fact::EdgeRatio);
        prop_assert!(before >= 1.0 - 1e-12);
        let grip = case.fact(Fact::GrippedLength);
        let shorter = case.with(Field::OverallLength, case.get(Field::OverallLength) - by * grip);
        prop_assert!(shorter.fact(Fact::EdgeRatio) > before);
        prop_assert_eq!(case.times(Field::FeedPerTooth, 1.5).fact(Fact::EdgeRatio), before);
    }
}
