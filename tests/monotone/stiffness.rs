//! Bending and frequency against length, diameter and modulus.

use proptest::prelude::*;
use shankwise::facts::Fact;
use shankwise::library::{Field, Setting};

use super::{any_case, config, raised, same};

proptest! {
    #![proptest_config(config())]

    #[test]
    fn deflection_rises_with_stick_out_and_force(case in any_case(), by in raised()) {
        let before = case.fact(Fact::TipDeflection);
        prop_assert!(case.times(Field::StickOut, by).fact(Fact::TipDeflection) > before);
        let harder = case.setting_times(Setting::CuttingProcess, by);
        prop_assert!(same(harder.fact(Fact::TipDeflection), before * by));
        // The low end has a sharp edge, the high end a worn one.
        let worn = case.setting_times(Setting::CuttingWear, by);
        prop_assert!(same(worn.fact(Fact::TipDeflection), before));
        let high = case.fact(Fact::TipDeflectionHigh);
        prop_assert!(same(worn.fact(Fact::TipDeflectionHigh), high * by));
    }

    /// A force above the tip bends less than one at the tip, and the high end is the high end.
    #[test]
    fn low_is_below_what_the_tip_would_take(case in any_case()) {
        let [low, high, force, stiffness] = case.facts([
            Fact::TipDeflection, Fact::TipDeflectionHigh, Fact::CuttingForce, Fact::TipStiffness,
        ]);
        let low = low.unwrap();
        prop_assert!(low < force.unwrap() / stiffness.unwrap(), "{low}");
        prop_assert!(low < high.unwrap(), "{low} and {high:?}");
        // Where the cut is shallow, its height does not count.
        let shallow = case.with(Field::AxialDepth, 1e-6 * case.get(Field::StickOut));
        let at_tip = shallow.fact(Fact::CuttingForce) / shallow.fact(Fact::TipStiffness);
        let part = shallow.fact(Fact::TipDeflection) / at_tip;
        prop_assert!((part - 1.0).abs() < 1e-5, "{part}");
    }

    /// The shank's diameter counts where shank is in front of the face.
    #[test]
    fn deflection_falls_with_diameter_and_modulus(case in any_case(), by in raised()) {
        let case = case.with(Field::ChipFluteLength, case.get(Field::StickOut) * 0.6);
        let before = case.fact(Fact::TipDeflection);
        prop_assert!(case.times(Field::ShankDiameter, by).fact(Fact::TipDeflection) < before);
        prop_assert!(case.setting_times(Setting::FlutedPartHigh, by).fact(Fact::TipDeflection) < before);
        let high = case.fact(Fact::TipDeflectionHigh);
        prop_assert!(case.setting_times(Setting::FlutedPartLow, by).fact(Fact::TipDeflectionHigh) < high);
        let stiffer = case.setting_times(Setting::ModulusCarbide, by);
        prop_assert!(same(stiffer.fact(Fact::TipDeflection), before / by));
        let thicker = case.times(Field::CuttingDiameter, by).fact(Fact::TipStiffness);
        prop_assert!(thicker > case.fact(Fact::TipStiffness));
    }

    /// f is proportional to √(E/ρ), and falls with every length added at the root.
    #[test]
    fn frequency_falls_with_stick_out_and_density(case in any_case(), by in raised()) {
        let before = case.fact(Fact::FirstFrequency);
        let out = case.times(Field::StickOut, by).fact(Fact::FirstFrequency);
        prop_assert!(out < before, "{before} to {out}");
        let close = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-6;
        let heavier = case.setting_times(Setting::DensityCarbide, by).fact(Fact::FirstFrequency);
        prop_assert!(close(heavier, before / by.sqrt()), "{before} to {heavier}");
        let stiffer = case.setting_times(Setting::ModulusCarbide, by).fact(Fact::FirstFrequency);
        prop_assert!(close(stiffer, before * by.sqrt()), "{before} to {stiffer}");
    }
}
