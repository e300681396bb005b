//! Facts about bending and vibration: a stepped cantilever from the front face.

use crate::library::{All, Field, Reckoned, Setting};
use crate::mechanics::bending::{self, Step};
use crate::mechanics::rotation;

use super::socket::modulus;
use super::{Fact, Scene};

fn density(scene: &Scene<'_>) -> Reckoned<f64> {
    let material = scene.view.word(Field::CutterMaterial);
    material.and_then(|material| {
        let over_water = scene.setting(match material {
            "carbide" => Setting::DensityCarbide,
            _ => Setting::DensitySteel,
        });
        over_water.map(|ratio| ratio * 1e3)
    })
}

/// Where the flutes end and where the neck ends, from the tip; no neck ends where flutes do.
fn ends(scene: &Scene<'_>) -> Reckoned<(f64, f64, f64)> {
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
fn steps(scene: &Scene<'_>, density: Reckoned<f64>) -> Reckoned<Vec<Step>> {
    let shape = (
        scene.field(Field::StickOut),
        ends(scene),
        scene.field(Field::CuttingDiameter),
        scene.field(Field::ShankDiameter),
    );
    let material = (modulus(scene), density, scene.setting(Setting::FlutedPart));
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

/// Per newton at the tip.
pub(super) fn tip_stiffness(scene: &Scene<'_>) -> Reckoned<f64> {
    steps(scene, Reckoned::free(0.0)).map(|steps| bending::tip_stiffness(&steps))
}

pub(super) fn tip_deflection(scene: &Scene<'_>) -> Reckoned<f64> {
    let both = (
        scene.number(Fact::CuttingForce),
        scene.number(Fact::TipStiffness),
    );
    both.all().map(|(force, stiffness)| force / stiffness)
}

pub(super) fn first_frequency(scene: &Scene<'_>) -> Reckoned<f64> {
    steps(scene, density(scene)).map(|steps| bending::first_frequency(&steps))
}

pub(super) fn tooth_frequency(scene: &Scene<'_>) -> Reckoned<f64> {
    let both = (
        scene.field(Field::SpindleSpeed),
        scene.field(Field::FluteCount),
    );
    both.all()
        .map(|(speed, flutes)| rotation::tooth_frequency(speed, flutes))
}
