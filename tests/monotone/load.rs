//! The cut: torque against depth, feed and material; speed and balance.

use proptest::prelude::*;
use shankwise::facts::Fact;
use shankwise::library::{Field, Setting};

use super::{any_case, config, raised, same};

/// So coarse may the peak be between two angles at which it is sought.
const GRID: f64 = 2e-3;

proptest! {
    #![proptest_config(config())]

    #[test]
    fn torque_rises_with_depth(case in any_case(), by in 1.1..2.0_f64) {
        let deeper = case.times(Field::AxialDepth, by);
        let before = case.fact(Fact::CuttingTorquePeak);
        prop_assert!(deeper.fact(Fact::CuttingTorquePeak) >= before * (1.0 - GRID));
        // The mean is proportional to the depth, whatever the helix.
        let before = case.fact(Fact::CuttingTorqueMean);
        prop_assert!(same(deeper.fact(Fact::CuttingTorqueMean), before * by));
        let steeper = case.with(Field::HelixAngle, 45.0);
        prop_assert!(same(steeper.fact(Fact::CuttingTorqueMean), before));
    }

    /// Thicker chips are softer: torque rises with the feed, but less than in proportion.
    #[test]
    fn torque_rises_with_feed(case in any_case(), by in raised()) {
        for torque in [Fact::CuttingTorquePeak, Fact::CuttingTorqueMean] {
            let before = case.fact(torque);
            let after = case.times(Field::FeedPerTooth, by).fact(torque);
            prop_assert!(after > before && after < before * by, "{before} to {after}");
        }
    }

    #[test]
    fn torque_is_proportional_to_the_specific_force(case in any_case(), by in raised()) {
        for torque in [Fact::CuttingTorquePeak, Fact::CuttingTorqueMean, Fact::CuttingPower] {
            for correction in [Setting::CuttingWear, Setting::CuttingProcess] {
                let after = case.setting_times(correction, by).fact(torque);
                prop_assert!(same(after, case.fact(torque) * by), "{torque:?} {correction:?}");
            }
        }
    }

    #[test]
    fn peak_is_never_below_the_mean(case in any_case()) {
        let [peak, mean, force] = case.facts([Fact::CuttingTorquePeak, Fact::CuttingTorqueMean, Fact::CuttingForce]);
        let (peak, mean) = (peak.unwrap(), mean.unwrap());
        prop_assert!(peak >= mean * (1.0 - 1e-12), "{peak} below {mean}");
        prop_assert!(mean > 0.0 && force.unwrap() > 0.0);
    }

    /// The mean grows with the width, and is proportional to the flutes.
    #[test]
    fn mean_rises_with_width_and_flutes(case in any_case(), by in 1.1..2.0_f64) {
        let before = case.fact(Fact::CuttingTorqueMean);
        prop_assert!(case.times(Field::RadialWidth, by).fact(Fact::CuttingTorqueMean) >= before * (1.0 - 1e-12));
        let flutes = case.get(Field::FluteCount);
        let more = case.with(Field::FluteCount, flutes + 1.0).fact(Fact::CuttingTorqueMean);
        prop_assert!(same(more, before * (flutes + 1.0) / flutes), "{before} to {more}");
    }

    #[test]
    fn speed_moves_balance_frequency_and_power(case in any_case(), by in raised()) {
        let faster = case.times(Field::SpindleSpeed, by);
        for (fact, factor) in [
            (Fact::UnbalanceAllowed, 1.0 / by),
            (Fact::BalanceAtSpeed, by),
            (Fact::ToothFrequency, by),
            (Fact::CuttingPower, by),
        ] {
            prop_assert!(same(faster.fact(fact), case.fact(fact) * factor), "{fact:?}");
        }
        prop_assert!(same(case.times(Field::AssemblyMass, by).fact(Fact::UnbalanceAllowed), case.fact(Fact::UnbalanceAllowed) * by));
    }

    #[test]
    fn run_out_share_follows_both(case in any_case(), by in raised()) {
        let before = case.fact(Fact::RunOutShare);
        prop_assert!(same(case.times(Field::RunOut, by).fact(Fact::RunOutShare), before * by));
        prop_assert!(same(case.times(Field::FeedPerTooth, by).fact(Fact::RunOutShare), before / by));
    }

    /// In a thin cut the same run-out is more of the chip; among many teeth neighbours are alike.
    #[test]
    fn run_out_counts_by_neighbours_and_chip(case in any_case(), by in 0.1..0.9_f64) {
        let width = case.get(Field::CuttingDiameter) / 2.0;
        let half = case.with(Field::RadialWidth, width).with(Field::FluteCount, 2.0);
        let before = half.fact(Fact::RunOutShare);
        prop_assert!(same(before, case.get(Field::RunOut) / case.get(Field::FeedPerTooth)));
        prop_assert!(same(half.times(Field::RadialWidth, 2.0).fact(Fact::RunOutShare), before));
        prop_assert!(half.times(Field::RadialWidth, by).fact(Fact::RunOutShare) > before);
        let mut last = before;
        for flutes in [3.0, 4.0, 6.0, 24.0] {
            let share = half.with(Field::FluteCount, flutes).fact(Fact::RunOutShare);
            prop_assert!(share < last);
            last = share;
        }
        prop_assert!(same(half.with(Field::FluteCount, 1.0).fact(Fact::RunOutShare), 0.0));
    }

    /// The vector of the teeth is never more than their forces without their directions.
    #[test]
    fn the_side_force_is_a_vector(case in any_case(), by in raised()) {
        let [low, high, torque] = case.facts([Fact::CuttingForce, Fact::CuttingForceHigh, Fact::CuttingTorquePeak]);
        let along = 2e3 * torque.unwrap() / case.get(Field::CuttingDiameter);
        let share = case.setting(Setting::RadialShareHigh);
        prop_assert!(high.unwrap() <= along * share.hypot(1.0) * (1.0 + GRID), "{high:?} of {along}");
        prop_assert!(low.unwrap() < high.unwrap());
        for (setting, fact) in [
            (Setting::RadialShareLow, Fact::CuttingForce),
            (Setting::RadialShareHigh, Fact::CuttingForceHigh),
        ] {
            let share = case.setting(setting);
            let grown = (share * by).hypot(1.0) / share.hypot(1.0);
            prop_assert!(same(case.setting_times(setting, by).fact(fact), case.fact(fact) * grown), "{fact:?}");
        }
    }
}
