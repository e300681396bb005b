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
        let harder = case.setting_times(Setting::CuttingWear, by);
        prop_assert!(same(harder.fact(Fact::TipDeflection), before * by));
        prop_assert!(same(before, case.fact(Fact::CuttingForce) / case.fact(Fact::TipStiffness)));
    }

    /// The shank's diameter counts where shank is in front of the face.
    #[test]
    fn deflection_falls_with_diameter_and_modulus(case in any_case(), by in raised()) {
        let case = case.with(Field::ChipFluteLength, case.get(Field::StickOut) * 0.6);
        let before = case.fact(Fact::TipDeflection);
        prop_assert!(case.times(Field::ShankDiameter, by).fact(Fact::TipDeflection) < before);
        prop_assert!(case.setting_times(Setting::FlutedPart, by).fact(Fact::TipDeflection) < before);
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
