//! Facts about what the cut asks of the grip.

use crate::library::{All, Field, Reckoned, Setting, Trace, standing};
use crate::mechanics::cutting::{self, Cut, Resistance};

use super::{Fact, Scene};

/// The workpiece's resistance with a worn edge. A row from memory makes an assumption.
fn resistance(scene: &Scene<'_>, milling: bool) -> Reckoned<Resistance> {
    let name = scene.view.word(Field::WorkpieceMaterial);
    let Some(row) = name.value.and_then(standing::material) else {
        return Reckoned::unknown(name.trace.union(Trace::missing(Field::WorkpieceMaterial)));
    };
    let process = if milling {
        scene.setting(Setting::CuttingProcess)
    } else {
        Reckoned::free(1.0)
    };
    let corrections = (process, scene.setting(Setting::CuttingWear)).all();
    let guess = if row.basis == "from memory" {
        Trace::assumed(Field::WorkpieceMaterial)
    } else {
        name.trace
    };
    corrections
        .map(|(process, wear)| Resistance {
            kc11: row.kc11,
            mc: row.mc,
            correction: process * wear,
        })
        .resting_on(guess)
}

/// A stated angle, else the common one, which is a limit from memory; in radians.
fn angle(scene: &Scene<'_>, field: Field, unstated: Setting) -> Reckoned<f64> {
    let stated = scene.field(field);
    let angle = if stated.is_known() {
        stated
    } else {
        scene.setting(unstated)
    };
    angle.map(f64::to_radians)
}

/// The diameter that cuts: of a ball nose in a shallow cut less than its own.
fn cutting_diameter(scene: &Scene<'_>) -> Reckoned<f64> {
    let diameter = scene.field(Field::CuttingDiameter);
    let kind = scene.view.word(Field::CutterKind);
    if !matches!(kind.value, Some("ball nose" | "ball with undercut")) {
        return diameter;
    }
    let both = (diameter, scene.field(Field::AxialDepth)).all();
    both.map(|(diameter, depth)| cutting::ball_diameter(diameter, depth))
        .resting_on(kind.trace)
}

fn milling_cut(scene: &Scene<'_>) -> Reckoned<Cut> {
    let cut = (
        scene.field(Field::AxialDepth),
        scene.field(Field::RadialWidth),
        scene.field(Field::FeedPerTooth),
    );
    let tool = (
        cutting_diameter(scene),
        scene.field(Field::FluteCount),
        angle(scene, Field::HelixAngle, Setting::HelixUnstated),
    );
    let all = cut.all().zip(tool.all());
    all.map(|((depth, width, feed), (diameter, flutes, helix))| Cut {
        diameter,
        flutes,
        helix,
        depth,
        width,
        feed,
    })
}

fn drilling(scene: &Scene<'_>) -> Reckoned<f64> {
    let inputs = (
        scene.field(Field::CuttingDiameter),
        scene.field(Field::FeedPerRevolution),
        angle(scene, Field::PointAngle, Setting::PointUnstated),
        resistance(scene, false),
    );
    inputs.all().map(|(diameter, feed, point, material)| {
        cutting::drilling_torque(diameter, feed, point, material)
    })
}

/// With the friction in the thread and the reversal. The chip of a tap is about a tenth of its
/// pitch thick; the specific force is taken there.
fn tapping(scene: &Scene<'_>) -> Reckoned<f64> {
    let inputs = (
        scene.field(Field::CuttingDiameter),
        scene.field(Field::ThreadPitch),
        resistance(scene, false),
        scene.setting(Setting::TappingFriction),
    );
    inputs.all().map(|(diameter, pitch, material, friction)| {
        let specific = material.specific_force(pitch / 10.0);
        friction * cutting::tapping_torque(diameter, pitch, specific)
    })
}

/// Torque by kind of operation; of reaming and boring nothing is known without the allowance.
fn torque(scene: &Scene<'_>, of_cut: fn(Cut, Resistance) -> f64) -> Reckoned<f64> {
    let kind = scene.view.word(Field::OperationKind);
    kind.and_then(|kind| match kind {
        "milling" => {
            let both = (milling_cut(scene), resistance(scene, true)).all();
            both.map(|(cut, material)| of_cut(cut, material))
        }
        "drilling" => drilling(scene),
        "tapping" => tapping(scene),
        _ => Reckoned::unknown(Trace::default()),
    })
}

pub(super) fn torque_peak(scene: &Scene<'_>) -> Reckoned<f64> {
    torque(scene, cutting::peak_torque)
}

pub(super) fn torque_mean(scene: &Scene<'_>) -> Reckoned<f64> {
    torque(scene, cutting::mean_torque)
}

/// Side force of a milling cut at its peak.
pub(super) fn cutting_force(scene: &Scene<'_>) -> Reckoned<f64> {
    let kind = scene.view.word(Field::OperationKind);
    kind.and_then(|kind| match kind {
        "milling" => {
            let inputs = (
                scene.number(Fact::CuttingTorquePeak),
                cutting_diameter(scene),
            );
            inputs
                .all()
                .map(|(torque, diameter)| cutting::side_force(torque, diameter))
        }
        _ => Reckoned::unknown(Trace::default()),
    })
}

/// Pull of the helix: out of the collet where helix and cut are of one hand, else none.
/// Drills and taps are pushed in, or follow their pitch.
pub(super) fn axial_pull(scene: &Scene<'_>) -> Reckoned<f64> {
    let kind = scene.view.word(Field::OperationKind);
    kind.and_then(|kind| {
        if kind != "milling" {
            return Reckoned::free(0.0);
        }
        let hands = (
            scene.view.word(Field::Hand),
            scene.view.word(Field::HelixHand),
        )
            .all();
        if hands.value.is_some_and(|(cut, helix)| cut != helix) {
            return Reckoned::known(0.0, hands.trace);
        }
        let helix = angle(scene, Field::HelixAngle, Setting::HelixUnstated);
        let both = (scene.number(Fact::CuttingForce), helix).all();
        both.map(|(force, helix)| cutting::axial_pull(force, helix))
    })
}

pub(super) fn power(scene: &Scene<'_>) -> Reckoned<f64> {
    let both = (
        scene.number(Fact::CuttingTorqueMean),
        scene.field(Field::SpindleSpeed),
    );
    both.all()
        .map(|(torque, speed)| cutting::power(torque, speed))
}
