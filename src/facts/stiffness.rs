//! Facts about bending and vibration: a stepped cantilever from the front face.

use crate::library::{All, CutterMaterial, Field, Provenance, Reckoned, Setting};
use crate::mechanics::bending::{self, Beam, Step};
use crate::mechanics::rotation;

use super::push::End;
use super::socket::modulus;
use super::{Fact, Scene};

fn density<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let material = scene.listed::<CutterMaterial>();
    material.and_then(|material| {
        let over_water = scene.setting(match material {
            CutterMaterial::Carbide => Setting::DensityCarbide,
            _ => Setting::DensitySteel,
        });
        over_water.map(|ratio| ratio * 1e3)
    })
}

/// Where the flutes end and where the neck ends, from the tip; no neck ends where flutes do.
fn ends<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<(f64, f64, f64), P> {
    let flutes = scene.field(Field::ChipFluteLength);
    let neck = (
        scene.field(Field::NeckLength),
        scene.field(Field::NeckDiameter),
    )
        .all();
    flutes.and_then(|flutes| match neck.value {
        Some((end, diameter)) if end > flutes => {
            Reckoned::known((flutes, end, diameter), neck.trace)
        }
        _ => Reckoned::free((flutes, flutes, 0.0)),
    })
}

/// The tool in front of the face, from the tip: flutes, neck, shank. Only a frequency asks for
/// the density; a stiffness must not seem to rest on it.
fn steps<P: Provenance>(
    scene: &Scene<'_, P>,
    density: Reckoned<f64, P>,
    fluted_part: Setting,
) -> Reckoned<Vec<Step>, P> {
    let shape = (
        scene.field(Field::StickOut),
        ends(scene),
        scene.field(Field::CuttingDiameter),
        scene.field(Field::ShankDiameter),
    );
    let material = (modulus(scene), density, scene.setting(fluted_part));
    let all = shape.all().zip(material.all());
    all.map(
        |((out, (flutes, neck_end, neck), cut, shank), (modulus, density, part))| {
            let step = |from: f64, to: f64, diameter: f64| Step {
                length: to.min(out) - from.min(out),
                diameter,
                modulus,
                density,
            };
            let all = [
                step(0.0, flutes, part * cut),
                step(flutes, neck_end, neck),
                step(neck_end, out, shank),
            ];
            all.into_iter().filter(|step| step.length > 0.0).collect()
        },
    )
}

/// The tool with flutes that bend little, or much.
fn beam<P: Provenance>(scene: &Scene<'_, P>, end: End) -> Reckoned<Vec<Step>, P> {
    let part = match end {
        End::Low => Setting::FlutedPartHigh,
        End::High => Setting::FlutedPartLow,
    };
    steps(scene, Reckoned::free(0.0), part)
}

/// Per newton at the tip.
pub(super) fn tip_stiffness<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    beam(scene, End::Low).map(|steps| bending::tip_stiffness(&steps))
}

/// Low end: each slice of the cut bends at its own height, and its direction counts.
pub(super) fn tip_deflection<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let inputs = (scene.side_cut(), beam(scene, End::Low)).all();
    inputs.map(|(cut, steps)| {
        let beam = Beam::from(steps.as_slice());
        cut.effect(|height| beam.compliance(height))
    })
}

/// High end: all of the force at the tip.
pub(super) fn tip_deflection_high<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let inputs = (scene.number(Fact::CuttingForceHigh), beam(scene, End::High));
    inputs
        .all()
        .map(|(force, steps)| bending::tip_deflection(&steps, force, 0.0))
}

/// Flutes at the tip that bend much weigh little too: together they swing the faster.
pub(super) fn first_frequency<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    steps(scene, density(scene), Setting::FlutedPartLow)
        .map(|steps| bending::first_frequency(&steps))
}

/// Where a spindle must not run for long: the teeth pass at the frequency that was measured.
pub(super) fn tooth_speed<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let both = (
        scene.field(Field::MeasuredFrequency),
        scene.field(Field::FluteCount),
    );
    both.all()
        .map(|(frequency, flutes)| rotation::speed_of_teeth(frequency, flutes))
}

pub(super) fn tooth_frequency<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let both = (
        scene.field(Field::SpindleSpeed),
        scene.field(Field::FluteCount),
    );
    both.all()
        .map(|(speed, flutes)| rotation::tooth_frequency(speed, flutes))
}
