//! The socket's mouth against grip, torque and frictions.

use proptest::prelude::*;
use shankwise::facts::Fact;
use shankwise::library::{Field, Setting};

use super::{Case, any_case, config, raised, same};
use crate::rule_fixtures::cases::of;
use crate::support::run;

/// The grid moves with the engaged length: so far may two neighbouring solutions be apart.
const GRID: f64 = 2e-3;

/// The grip taken from behind: the tool is shorter, nothing else changes.
fn shorter(case: &Case, by: f64) -> Case {
    case.with(Field::OverallLength, case.get(Field::OverallLength) - by)
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn ratio_is_at_least_one_and_rises_as_grip_falls(case in any_case(), by in 1.0..6.0_f64) {
        let [Some(before)] = case.facts([Fact::MouthStressRatio]) else {
            // Less than a quarter of the taper is engaged.
            return Ok(());
        };
        prop_assert!(before >= 1.0 - 1e-9, "{before}");
        let whole = case.with(Field::OverallLength, 300.0).with(Field::ShankLength, 290.0);
        prop_assert!(same(whole.fact(Fact::MouthStressRatio), 1.0));
        if let [Some(after)] = shorter(&case, by).facts([Fact::MouthStressRatio]) {
            prop_assert!(after >= before * (1.0 - GRID), "{before} to {after}");
        }
    }

    /// The same force at both depths: neither torque nor friction is in the ratio.
    #[test]
    fn ratio_needs_no_torque(case in any_case(), by in raised()) {
        let before = case.facts([Fact::MouthStressRatio]);
        prop_assert_eq!(case.times(Field::NutTorque, by).facts([Fact::MouthStressRatio]), before);
        for friction in [
            Setting::FrictionThreadLow, Setting::FrictionThreadHigh, Setting::FrictionConeLow,
            Setting::FrictionConeHigh, Setting::FrictionTaperLow, Setting::FrictionTaperHigh,
            Setting::FrictionShankLow, Setting::FrictionShankHigh,
        ] {
            let rougher = case.setting_times(friction, by);
            prop_assert_eq!(rougher.facts([Fact::MouthStressRatio]), before, "{:?}", friction);
        }
    }

    /// A modulus between 190 and 220 GPa, or that share of another, does not turn a ratio: what a
    /// rule may call certain although a modulus is from memory.
    #[test]
    fn ratio_hardly_hangs_on_a_modulus(case in any_case()) {
        let [Some(before)] = case.facts([Fact::MouthStressRatio]) else { return Ok(()) };
        for modulus in [Setting::ModulusSteel, Setting::ModulusCarbide] {
            for share in [190.0 / 210.0, 220.0 / 210.0] {
                let after = case.setting_times(modulus, share).fact(Fact::MouthStressRatio);
                prop_assert!((after / before - 1.0).abs() < 0.01, "{modulus:?}: {before} to {after}");
            }
        }
    }

    #[test]
    fn stress_follows_the_torque_and_falls_with_grip(case in any_case(), by in raised(), less in 1.0..6.0_f64) {
        const STRESSES: [Fact; 3] = [Fact::MouthStress, Fact::MouthStressUpper, Fact::MouthOpening];
        let before = case.facts(STRESSES);
        let tighter = case.times(Field::NutTorque, by).facts(STRESSES);
        let short = shorter(&case, less).facts(STRESSES);
        for ((before, tighter), short) in before.into_iter().zip(tighter).zip(short) {
            let Some(before) = before else { return Ok(()) };
            prop_assert!(before > 0.0);
            prop_assert!(same(tighter.unwrap(), before * by));
            prop_assert!(short.is_none_or(|short| short >= before * (1.0 - GRID)), "{before} to {short:?}");
        }
    }

    /// Stress rests on the force of the favourable frictions: the most that may come in.
    #[test]
    fn stress_falls_with_the_low_frictions_only(case in any_case(), by in raised()) {
        let [Some(before)] = case.facts([Fact::MouthStress]) else { return Ok(()) };
        for friction in [Setting::FrictionThreadLow, Setting::FrictionConeLow, Setting::FrictionTaperLow] {
            prop_assert!(case.setting_times(friction, by).fact(Fact::MouthStress) < before, "{friction:?}");
        }
        for friction in [Setting::FrictionThreadHigh, Setting::FrictionConeHigh, Setting::FrictionTaperHigh, Setting::FrictionShankLow] {
            prop_assert_eq!(case.setting_times(friction, by).fact(Fact::MouthStress), before, "{:?}", friction);
        }
    }

    /// The nut's cone closes the collet too, but not in the socket's taper: its angle moves the
    /// stress by the nut's force alone.
    #[test]
    fn stress_has_no_part_of_the_nut_cone(case in any_case()) {
        let [Some(before)] = case.facts([Fact::MouthStress]) else { return Ok(()) };
        let force = case.fact(Fact::ClampingForceHigh);
        let blunter = case.setting_times(Setting::ConeHalfAngle, 1.5);
        let by = blunter.fact(Fact::ClampingForceHigh) / force;
        prop_assert!(same(blunter.fact(Fact::MouthStress), before * by));
        prop_assert!(blunter.fact(Fact::GripForceHigh) < case.fact(Fact::GripForceHigh) * by);
        prop_assert!(same(
            blunter.fact(Fact::GripForceLow) / blunter.fact(Fact::ClampingForceLow),
            case.fact(Fact::GripForceLow) / case.fact(Fact::ClampingForceLow),
        ));
    }

    #[test]
    fn equal_pressure_bounds_the_best_estimate(case in any_case()) {
        if let [Some(best), Some(upper)] = case.facts([Fact::MouthStress, Fact::MouthStressUpper]) {
            prop_assert!(upper >= best, "{best} above {upper}");
        }
    }
}

/// The tests above say nothing where the model does: most cases must lie within it.
#[test]
fn most_cases_lie_within_the_model() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::new(config());
    let known = (0..96).filter(|_| {
        let case = any_case().new_tree(&mut runner).expect("a case").current();
        case.facts([Fact::MouthStressRatio])[0].is_some()
    });
    let known = known.count();
    assert!(known > 70, "{known} of 96");
}

/// Where the model says nothing although nothing is missing, the output says why.
#[test]
fn facts_say_why_the_model_does_not_apply() {
    let folder = tempfile::TempDir::new().unwrap();
    for (case, why) in [
        (
            "na front bare",
            "no plain shank fills the front of the bore",
        ),
        (
            "na land begins behind the mouth",
            "the gripping length begins behind the holder's mouth",
        ),
        (
            "na wall thinner than checked",
            "the wall at the mouth is thinner or thicker than",
        ),
        (
            "na taper longer than checked",
            "the taper is shorter or longer than",
        ),
        (
            "na less than a quarter engaged",
            "less than a quarter of the taper is engaged",
        ),
    ] {
        let case = of("holding/mouth-overstressed").find(|found| found.name == case);
        let path = case.expect("there is such a case").on_disk(folder.path());
        let path = path.display().to_string();
        let text = String::from_utf8(run(&["facts", &path]).stdout).unwrap();
        let line = text
            .lines()
            .find(|line| line.contains("mouth_stress_ratio"));
        let line = line.expect("the fact is shown");
        assert!(line.contains(&format!("not judged: {why}")), "{line}");
        let json = run(&["facts", &path, "--as", "json"]).stdout;
        let json: serde_json::Value = serde_json::from_slice(&json).unwrap();
        let fact = &json["assemblies"][0]["facts"]["mouth_stress_ratio"];
        assert!(
            fact["value"].is_null() && fact["missing"] == serde_json::json!([]),
            "{fact}"
        );
    }
}
