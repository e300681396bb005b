//! One tool on which every model speaks: facts move the way mechanics says when one input is raised,
//! and every setting moves some fact.

use proptest::prelude::*;

use shankwise::facts::{Fact, Scene};
use shankwise::library::{Field, Library, Overrides, Setting, Settings, Trace, View};

use super::BUILT_IN;
use crate::support::{cases, library};

/// A tool on which every model says something.
const ROW: &str = "\
tool_number,clamping_kind,cutter_kind,cutter_material,cutting_diameter,overall_length,shank_length,chip_flute_length,shank_diameter,collet_size,bore_diameter,bore_length,stick_out,nut_torque,nut_thread,flute_count,helix_angle,operation_kind,workpiece_material,axial_depth,radial_width,feed_per_tooth,spindle_speed,mouth_diameter,taper_length,nose_diameter,nose_length,body_diameter,mouth_setback,assembly_mass,balance_grade,balance_speed,run_out
1,taper collet,end mill,carbide,12,83,45,26,12,32,12,40,50,100,M40x1.5,3,35,milling,C45E,6,3,0.05,5000,33,40,38.2,14,50,0,1.2,2.5,12000,0.01
";

/// The settings with one of them multiplied.
fn with_setting(changed: Option<(Setting, f64)>) -> Settings {
    Settings::new(|setting| {
        let value = BUILT_IN.get::<Trace>(setting).value.unwrap_or(f64::NAN);
        match changed {
            Some((other, factor)) if other == setting => value * factor,
            _ => value,
        }
    })
}

/// Looks at the tool with some numbers and settings changed.
fn look<R>(
    library: &Library,
    numbers: &[(Field, f64)],
    settings: &Settings,
    see: impl FnOnce(&Scene<'_>) -> R,
) -> R {
    let overrides = Overrides {
        numbers: numbers.to_vec(),
        ..Overrides::default()
    };
    let view = View::new(
        library,
        &library.assemblies[0],
        library.assemblies[0].operations.first().copied(),
        &overrides,
    );
    see(&Scene::new(view, settings))
}

/// A fact of the tool with some numbers and one setting changed.
fn fact_with(
    library: &Library,
    fact: Fact,
    numbers: &[(Field, f64)],
    changed: Option<(Setting, f64)>,
) -> Option<f64> {
    let settings = with_setting(changed);
    look(library, numbers, &settings, |scene| {
        scene.number(fact).value
    })
}

fn fact(library: &Library, fact: Fact, numbers: &[(Field, f64)]) -> f64 {
    let value = fact_with(library, fact, numbers, None);
    value.unwrap_or_else(|| panic!("{fact:?} is known with {numbers:?}"))
}

/// Every setting is an input of some fact: none could be changed unnoticed.
#[test]
fn every_setting_moves_a_fact() {
    // Other rows bring in what one tool cannot be at once.
    let more = [
        ROW.to_owned(),
        ROW.replace("end mill,carbide", "end mill,HSS"),
        ROW.replace("end mill,carbide", "end mill,steel"),
        ROW.replace("35,milling", ",milling"),
        ROW.replace(",flute_count", ",nut_style,flute_count")
            .replace("M40x1.5,3", "M40x1.5,bearing,3"),
        "tool_number,cutter_kind,cutting_diameter,feed_per_revolution,operation_kind,workpiece_material\n1,drill,10,0.2,drilling,C45E\n".to_owned(),
        "tool_number,cutter_kind,cutting_diameter,thread_pitch,operation_kind,workpiece_material\n1,tap,10,1.5,tapping,C45E\n".to_owned(),
        ROW.replace(",run_out", ",run_out,insertion_depth_max,reach")
            .replace("12000,0.01", "12000,0.01,38,45"),
        "tool_number,clamping_kind,stick_out,overall_length,shank_length,drive_square_length,cutter drive_square,collet drive_square,collet_length,bore_length,reach\n1,taper collet,58,90,55,9,6.2,6.2,31.5,18,24\n".to_owned(),
    ];
    let libraries: Vec<Library> = more.iter().map(|text| library(text)).collect();
    let facts = |library: &Library, settings: &Settings| -> Vec<Option<f64>> {
        look(library, &[], settings, |scene| {
            let all = Fact::all().map(|info| scene.number(info.fact).value);
            all.collect()
        })
    };
    let as_they_are = with_setting(None);
    let before = libraries.iter().map(|library| facts(library, &as_they_are));
    let before: Vec<_> = before.collect();
    for setting in Setting::ALL {
        let changed = with_setting(Some((*setting, 1.01)));
        let mut pairs = libraries.iter().zip(&before);
        let moves = pairs.any(|(library, before)| facts(library, &changed) != *before);
        assert!(moves, "{} moves no fact", setting.name());
    }
}

fn rises(low: f64, high: f64) -> bool {
    high > low
}

proptest! {
    #![proptest_config(cases(64))]

    #[test]
    fn torque_clamps(torque in 20.0..200.0_f64, by in 1.01..2.0_f64) {
        let library = library(ROW);
        for known in [
            Fact::ClampingForceLow, Fact::ClampingForceHigh, Fact::GripForceLow,
            Fact::SlipTorqueLow, Fact::SlipTorqueHigh, Fact::MouthStress, Fact::MouthStressUpper,
            Fact::MouthOpening, Fact::SlipRatio, Fact::PullOutRatio,
        ] {
            let at = |torque| fact(&library, known, &[(Field::NutTorque, torque)]);
            // Linear: twice the torque is twice the force.
            prop_assert!((at(torque * by) / at(torque) - by).abs() < 1e-9, "{known:?}");
        }
        let low_high = [
            (Fact::ClampingForceLow, Fact::ClampingForceHigh),
            (Fact::GripForceLow, Fact::GripForceHigh),
            (Fact::SlipTorqueLow, Fact::SlipTorqueHigh),
            (Fact::MouthStress, Fact::MouthStressUpper),
        ];
        for (low, high) in low_high {
            let at = |known| fact(&library, known, &[(Field::NutTorque, torque)]);
            prop_assert!(rises(at(low), at(high)), "{low:?} {high:?}");
        }
        let ratio = |torque| fact(&library, Fact::MouthStressRatio, &[(Field::NutTorque, torque)]);
        prop_assert_eq!(ratio(torque), ratio(torque * by), "the ratio needs no torque");
    }

    #[test]
    fn friction_takes_and_gives(by in 1.01..1.5_f64) {
        let library = library(ROW);
        let moved = |known, setting| fact_with(&library, known, &[], Some((setting, by))).unwrap();
        let still = |known| fact(&library, known, &[]);
        for (setting, force) in [
            (Setting::FrictionThreadHigh, Fact::ClampingForceLow),
            (Setting::FrictionConeHigh, Fact::ClampingForceLow),
            (Setting::FrictionThreadLow, Fact::ClampingForceHigh),
            (Setting::FrictionConeLow, Fact::ClampingForceHigh),
            (Setting::FrictionTaperHigh, Fact::GripForceLow),
            (Setting::FrictionTaperLow, Fact::GripForceHigh),
            (Setting::FrictionTaperLow, Fact::MouthStress),
        ] {
            prop_assert!(rises(moved(force, setting), still(force)), "{setting:?} {force:?}");
        }
        for (setting, grip) in [
            (Setting::FrictionShankLow, Fact::SlipTorqueLow),
            (Setting::FrictionShankHigh, Fact::SlipTorqueHigh),
        ] {
            prop_assert!(rises(still(grip), moved(grip, setting)), "{setting:?}");
        }
    }

    #[test]
    fn grip_spares_the_mouth(out in 43.0..68.0_f64, further in 0.2..4.0_f64) {
        let library = library(ROW);
        let at = |known, out| fact(&library, known, &[(Field::StickOut, out)]);
        for known in [Fact::MouthStressRatio, Fact::MouthStress, Fact::EdgeRatio] {
            prop_assert!(rises(at(known, out), at(known, out + further)), "{known:?}");
            prop_assert!(at(known, out) >= 0.999);
        }
        // In this model slip does not depend on the engaged length.
        prop_assert_eq!(at(Fact::SlipTorqueLow, out), at(Fact::SlipTorqueLow, out + further));
        prop_assert!((at(Fact::EdgeRatio, 43.0) - 1.0).abs() < 1e-12, "full land");
        prop_assert!((at(Fact::MouthStressRatio, 43.0) - 1.0).abs() < 1e-12, "full land");
    }

    #[test]
    fn overhang_bends(out in 40.0..70.0_f64, further in 0.5..10.0_f64, thicker in 1.05..1.5_f64) {
        let library = library(ROW);
        let at = |known, out| fact(&library, known, &[(Field::StickOut, out)]);
        prop_assert!(rises(at(Fact::TipDeflection, out), at(Fact::TipDeflection, out + further)));
        prop_assert!(rises(at(Fact::FirstFrequency, out + further), at(Fact::FirstFrequency, out)));
        let shank = |known, d| fact(&library, known, &[(Field::StickOut, out), (Field::ShankDiameter, d)]);
        prop_assert!(rises(shank(Fact::TipStiffness, 12.0), shank(Fact::TipStiffness, 12.0 * thicker)));
        let moved = fact_with(&library, Fact::TipStiffness, &[], Some((Setting::ModulusCarbide, 1.1)));
        prop_assert!(rises(fact(&library, Fact::TipStiffness, &[]), moved.unwrap()));
        let slip = |d| fact(&library, Fact::SlipTorqueLow, &[(Field::ShankDiameter, d)]);
        prop_assert!((slip(12.0 * thicker) / slip(12.0) - thicker).abs() < 1e-9);
    }

    #[test]
    fn cuts_load(feed in 0.02..0.2_f64, depth in 1.0..20.0_f64, by in 1.05..2.0_f64) {
        let library = library(ROW);
        let at = |known, feed, depth| {
            fact(&library, known, &[(Field::FeedPerTooth, feed), (Field::AxialDepth, depth)])
        };
        for known in [Fact::CuttingTorqueMean, Fact::CuttingPower] {
            prop_assert!(rises(at(known, feed, depth), at(known, feed * by, depth)));
            prop_assert!(rises(at(known, feed, depth), at(known, feed, depth * by)));
        }
        prop_assert!(at(Fact::CuttingTorquePeak, feed, depth) >= at(Fact::CuttingTorqueMean, feed, depth));
        prop_assert!(rises(at(Fact::CuttingTorquePeak, feed, depth), at(Fact::CuttingTorquePeak, feed * by, depth)));
        prop_assert!(rises(at(Fact::SlipRatio, feed * by, depth), at(Fact::SlipRatio, feed, depth)));
        prop_assert!(at(Fact::PullOutRatio, feed, depth) <= at(Fact::SlipRatio, feed, depth));
        let speed = |known, n| fact(&library, known, &[(Field::SpindleSpeed, n)]);
        prop_assert!(rises(speed(Fact::UnbalanceAllowed, 5000.0 * by), speed(Fact::UnbalanceAllowed, 5000.0)));
        prop_assert!(rises(speed(Fact::BalanceAtSpeed, 5000.0), speed(Fact::BalanceAtSpeed, 5000.0 * by)));
    }
}
