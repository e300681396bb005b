//! Facts about the torque and the power of the cut.

use crate::library::{
    All, CutterKind, CuttingForce, Field, OperationKind, Provenance, Reckoned, Setting, Workpiece,
};
use crate::mechanics::cutting::{self, Cut, Resistance};
use crate::mechanics::drilling;

use super::{Fact, Scene};

/// What kind of cut a correction is for.
#[derive(Clone, Copy)]
pub(super) enum Process {
    Milling,
    Drilling,
    Tapping,
}

/// The workpiece's resistance, with a worn edge or a sharp one. A row from memory makes an
/// assumption; of a material that is known by its group only, `end` says which end of the group.
pub(super) fn resistance<P: Provenance>(
    scene: &Scene<'_, P>,
    process: Process,
    wear: Reckoned<f64, P>,
    end: fn(Workpiece) -> CuttingForce,
) -> Reckoned<Resistance, P> {
    let process = match process {
        Process::Milling => scene.setting(Setting::CuttingProcess),
        Process::Drilling => scene.setting(Setting::DrillingCompression),
        Process::Tapping => Reckoned::free(1.0),
    };
    let inputs = (scene.view.workpiece().map(end), process, wear).all();
    inputs.map(|(force, process, wear)| Resistance {
        kc11: force.kc11,
        mc: force.mc,
        correction: process * wear,
    })
}

/// The same with a worn edge: what rules on holding use.
pub(super) fn worn<P: Provenance>(
    scene: &Scene<'_, P>,
    process: Process,
) -> Reckoned<Resistance, P> {
    let wear = scene.setting(Setting::CuttingWear);
    resistance(scene, process, wear, |workpiece| workpiece.high)
}

/// A stated angle, else the common one, which is a limit from memory; in radians.
pub(super) fn angle<P: Provenance>(
    scene: &Scene<'_, P>,
    field: Field,
    unstated: Setting,
) -> Reckoned<f64, P> {
    let stated = scene.field(field);
    let angle = if stated.is_known() {
        stated
    } else {
        scene.setting(unstated)
    };
    angle.map(f64::to_radians)
}

/// The diameter that cuts: of a ball nose in a shallow cut less than its own.
pub(super) fn cutting_diameter<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let diameter = scene.field(Field::CuttingDiameter);
    let kind = scene.listed::<CutterKind>();
    if !kind.value.is_some_and(CutterKind::is_ball) {
        return diameter;
    }
    let both = (diameter, scene.field(Field::AxialDepth)).all();
    both.map(|(diameter, depth)| cutting::ball_diameter(diameter, depth))
        .resting_on(kind.trace)
}

pub(super) fn milling_cut<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<Cut, P> {
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

/// What a formula says of a drill: of its torque or its thrust.
pub(super) fn drilling<P: Provenance>(
    scene: &Scene<'_, P>,
    of_drill: fn(f64, f64, f64, Resistance) -> f64,
) -> Reckoned<f64, P> {
    let inputs = (
        scene.field(Field::CuttingDiameter),
        scene.field(Field::FeedPerRevolution),
        angle(scene, Field::PointAngle, Setting::PointUnstated),
        worn(scene, Process::Drilling),
    );
    inputs
        .all()
        .map(|(diameter, feed, point, material)| of_drill(diameter, feed, point, material))
}

/// With the friction in the thread and the reversal. The chip of a tap is about a tenth of its
/// pitch thick; the specific force is taken there.
fn tapping<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let inputs = (
        scene.field(Field::CuttingDiameter),
        scene.field(Field::ThreadPitch),
        worn(scene, Process::Tapping),
        scene.setting(Setting::TappingFriction),
    );
    inputs.all().map(|(diameter, pitch, material, friction)| {
        let specific = material.specific_force(pitch / 10.0);
        friction * cutting::tapping_torque(diameter, pitch, specific)
    })
}

/// Torque by kind of operation; of reaming and boring nothing is known without the allowance.
fn torque<P: Provenance>(
    scene: &Scene<'_, P>,
    of_cut: fn(Cut, Resistance) -> f64,
) -> Reckoned<f64, P> {
    let kind = scene.listed::<OperationKind>();
    kind.and_then(|kind| match kind {
        OperationKind::Milling => {
            let both = (milling_cut(scene), worn(scene, Process::Milling)).all();
            both.map(|(cut, material)| of_cut(cut, material))
        }
        OperationKind::Drilling => drilling(scene, drilling::torque),
        OperationKind::Tapping => tapping(scene),
        OperationKind::Reaming | OperationKind::Boring => Reckoned::unknown(P::default()),
    })
}

pub(super) fn torque_peak<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    torque(scene, cutting::peak_torque)
}

pub(super) fn torque_mean<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    torque(scene, cutting::mean_torque)
}

pub(super) fn power<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let both = (
        scene.number(Fact::CuttingTorqueMean),
        scene.field(Field::SpindleSpeed),
    );
    both.all()
        .map(|(torque, speed)| cutting::power(torque, speed))
}
