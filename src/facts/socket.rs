//! Facts about the socket's mouth, from the holder's own dimensions.

use crate::library::{All, CutterMaterial, Field, FieldSet, Provenance, Reckoned, Setting};
use crate::mechanics::clamping;
use crate::mechanics::mouth::{self, Filling, Loading, Mouth, Socket};

use super::clamping::in_collet;
use super::holding::{normal_force_high, stated_thread};
use super::{Fact, Scene};

/// Poisson's ratio of steel and of carbide: textbook.
const STEEL_POISSON: f64 = 0.3;
const CARBIDE_POISSON: f64 = 0.22;

/// Normal force of the collet at which the mouth is worked out, N; what comes of it is in
/// proportion.
const SAME_FORCE: f64 = 1e3;

/// What the model needs of one assembly.
struct SocketSetup {
    socket: Socket,
    filling: Filling,
    engaged: f64,
}

/// The socket as the holder's maker states it; nothing of it is assumed.
fn socket<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Socket, P> {
    let taper = (
        scene.field(Field::MouthDiameter),
        scene.field(Field::TaperLength),
        scene.field(Field::NoseDiameter),
        scene.setting(Setting::ModulusSteel),
    );
    let behind = (
        scene.field(Field::NoseLength),
        scene.field(Field::BodyDiameter),
    );
    taper
        .all()
        .and_then(|(mouth_diameter, taper_length, nose, modulus)| {
            let mut outside = vec![(nose, 0.0)];
            let mut trace = P::default();
            let behind = behind.all();
            if let Some((from, body)) = behind.value {
                // The nose is the holder's own: it begins at the mouth, as depth does.
                outside.push((body, from));
                trace = behind.trace;
            }
            let socket = Socket {
                mouth_diameter,
                taper_length,
                outside,
                modulus,
                poisson: STEEL_POISSON,
            };
            Reckoned::known(socket, trace)
        })
}

/// Mean stress of the nut's pull in the nose, at the favourable end: high friction, and the
/// longest nut, as behind its rear end the nose is no thinner. Only from a stated thread and mouth.
pub(super) fn nose_stress<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    in_collet(scene, || {
        let mouth = (
            scene.field(Field::MouthDiameter),
            scene.field(Field::MouthSetback),
            scene.setting(Setting::NutLengthRatio),
        );
        let inputs = (
            scene.number(Fact::ClampingForceLow),
            stated_thread(scene),
            mouth.all(),
        );
        inputs.all().and_then(|(force, thread, mouth)| {
            let ((diameter, pitch), (mouth_diameter, setback, length)) = (thread, mouth);
            let core = clamping::core_diameter(diameter, pitch);
            let depth = (length * diameter - setback).max(0.0);
            let bore = clamping::taper_diameter(mouth_diameter, depth).max(0.0);
            if core > bore {
                Reckoned::free(clamping::ring_tension(force, core, bore))
            } else {
                Reckoned::unknown(P::default())
            }
        })
    })
}

/// The shank by its cutter's material; unknown if that is not stated.
pub(super) fn modulus<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let material = scene.listed::<CutterMaterial>();
    material.and_then(|material| {
        scene.setting(match material {
            CutterMaterial::Carbide => Setting::ModulusCarbide,
            CutterMaterial::Steel => Setting::ModulusSteel,
            CutterMaterial::Hss | CutterMaterial::HssCo => Setting::ModulusHss,
        })
    })
}

fn filling<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Filling, P> {
    let inputs = (
        scene.field(Field::ShankDiameter),
        modulus(scene),
        scene.listed::<CutterMaterial>(),
        scene.setting(Setting::ModulusSteel),
    );
    inputs.all().map(
        |(shank_diameter, shank_modulus, material, collet_modulus)| Filling {
            shank_diameter,
            shank_modulus,
            shank_poisson: if material == CutterMaterial::Carbide {
                CARBIDE_POISSON
            } else {
                STEEL_POISSON
            },
            collet_modulus,
        },
    )
}

/// Depths to which the taper is engaged: as built, and with a full land. Depth is measured from
/// the socket's mouth, which lies behind the front face.
fn depths<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<(f64, f64), P> {
    let inputs = (
        scene.number(Fact::Insertion),
        scene.number(Fact::BoreSetback),
        scene.field(Field::BoreLength),
        scene.field(Field::MouthSetback),
    );
    let square = scene.field(Field::DriveSquareLength);
    let inputs = inputs.all().zip(square);
    inputs.map(|((insertion, setback, land, mouth), square)| {
        let end = setback + land;
        let gripped = end.min(insertion - square);
        (gripped - mouth, end - mouth)
    })
}

/// The setup, or why the model says nothing of it.
fn checked<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Result<SocketSetup, &'static str>, P> {
    in_collet(scene, || {
        let front = (
            scene.number(Fact::UngrippedFront),
            scene.number(Fact::BoreSetback),
            scene.field(Field::MouthSetback),
        );
        let inputs = (socket(scene), filling(scene), depths(scene), front.all());
        inputs.all().map(|(socket, filling, depths, front)| {
            let (bare, setback, mouth_setback) = front;
            if bare > 0.0 {
                return Err("no plain shank fills the front of the bore");
            }
            if setback > mouth_setback {
                return Err("the gripping length begins behind the holder's mouth");
            }
            let engaged = engaged_depth(&socket, depths.0);
            let full = engaged_depth(&socket, depths.1);
            let outside = |depth| mouth::outside_validity(&socket, depth);
            match outside(engaged).or_else(|| outside(full)) {
                Some(why) => Err(why),
                None => Ok(SocketSetup {
                    socket,
                    filling,
                    engaged,
                }),
            }
        })
    })
}

/// The whole setup; unknown, with nothing missing, where the model was not checked.
fn setup<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<SocketSetup, P> {
    let checked = checked(scene);
    Reckoned {
        value: checked.value.and_then(Result::ok),
        trace: checked.trace,
    }
}

/// Why the model says nothing, where nothing is missing.
pub(super) fn outside<P: Provenance>(scene: &Scene<'_, P>) -> Option<&'static str> {
    checked(scene).value?.err()
}

/// What one force puts into the mouth as the tool is built: all is in proportion to the force.
pub(super) fn engaged_mouth<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Mouth, P> {
    setup(scene).map(|setup| {
        let loading = Loading::Wedge(setup.filling);
        mouth::mouth(&setup.socket, loading, setup.engaged, SAME_FORCE)
    })
}

pub(super) fn mouth_stress<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let inputs = (scene.engaged_mouth(), normal_force_high(scene)).all();
    inputs.map(|(mouth, force)| mouth.stress * (force / SAME_FORCE))
}

pub(super) fn mouth_opening<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let inputs = (scene.engaged_mouth(), normal_force_high(scene)).all();
    inputs.map(|(mouth, force)| mouth.opening * (force / SAME_FORCE))
}

pub(super) fn mouth_stress_upper<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let inputs = (setup(scene), normal_force_high(scene)).all();
    inputs.map(|(setup, force)| {
        mouth::mouth(&setup.socket, Loading::Uniform, setup.engaged, force).stress
    })
}

/// Needs no torque: the same force at both depths.
pub(super) fn mouth_stress_ratio<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let engaged = scene.engaged_mouth();
    engaged.and_then(|engaged| scene.full_mouth().map(|full| engaged.stress / full))
}

/// What the same force puts into the mouth with a full land: asks for no stick-out, so that it is
/// worked out once a tool.
pub(super) fn full_mouth<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let place = (
        scene.number(Fact::BoreSetback),
        scene.field(Field::BoreLength),
        scene.field(Field::MouthSetback),
    );
    let inputs = (socket(scene), filling(scene), place.all()).all();
    inputs.map(|(socket, filling, (setback, land, mouth))| {
        let full = engaged_depth(&socket, setback + land - mouth);
        mouth::mouth(&socket, Loading::Wedge(filling), full, SAME_FORCE).stress
    })
}

/// The stress that the collet puts into the socket along its bore.
#[derive(Clone, Debug, PartialEq)]
pub struct AlongBore {
    /// Depth behind the mouth, mm, and the hoop stress there over that of the mouth with a full
    /// grip. The first is the mouth; the last lies just before the end of the taper.
    pub stations: Vec<(f64, f64)>,
    /// Where the taper ends, mm behind the mouth.
    pub end: f64,
}

/// The stress along the bore, as a multiple of what full grip puts into the mouth: needs no torque.
/// Unknown, with nothing missing, where the model was not checked.
pub fn along_bore<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<AlongBore, P> {
    let inputs = (setup(scene), scene.full_mouth()).all();
    inputs.map(|(setup, full)| {
        let loading = Loading::Wedge(setup.filling);
        let along = mouth::along(&setup.socket, loading, setup.engaged, SAME_FORCE);
        AlongBore {
            stations: along
                .iter()
                .map(|station| (station.depth, station.stress / full))
                .collect(),
            end: setup.socket.taper_length,
        }
    })
}

/// Why there is no such stress: fields that are missing, else what the model does not cover.
pub fn why_not_along(scene: &Scene<'_>) -> Result<FieldSet, &'static str> {
    let checked = checked(scene);
    match checked.value {
        Some(Err(why)) => Err(why),
        _ => Ok(checked.trace.missing),
    }
}

/// How much of a depth lies in the taper.
fn engaged_depth(socket: &Socket, depth: f64) -> f64 {
    depth.clamp(0.0, socket.taper_length)
}
