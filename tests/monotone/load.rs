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
}
