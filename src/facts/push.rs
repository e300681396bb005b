//! Facts about how the cut pushes the tool sideways, and along its axis in or out.

use crate::library::{
    All, CutterKind, CuttingForce, Field, Hand, OperationKind, Provenance, Reckoned, Setting,
    Workpiece,
};
use crate::mechanics::cutting::{Cut, Resistance};
use crate::mechanics::{drilling, side};

use super::cutting::{self, Process};
use super::{Fact, Scene};

/// Which end of an estimate.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum End {
    Low,
    High,
}

/// A milling cut with what it takes for its side force: a sharp edge that hardly pushes across at
/// the low end, a worn one at the high end.
pub(super) fn side_cut<P: Provenance>(
    scene: &Scene<'_, P>,
    end: End,
) -> Reckoned<(Cut, Resistance, f64), P> {
    let kind = scene.listed::<OperationKind>();
    kind.and_then(|kind| {
        if kind != OperationKind::Milling {
            return Reckoned::unknown(P::default());
        }
        let (wear, share) = match end {
            End::Low => (Reckoned::free(1.0), Setting::RadialShareLow),
            End::High => (
                scene.setting(Setting::CuttingWear),
                Setting::RadialShareHigh,
            ),
        };
        let material: fn(Workpiece) -> CuttingForce = match end {
            End::Low => |workpiece| workpiece.low,
            End::High => |workpiece| workpiece.high,
        };
        let inputs = (
            cutting::milling_cut(scene),
            cutting::resistance(scene, Process::Milling, wear, material),
            scene.setting(share),
        );
        inputs.all()
    })
}

fn side_force<P: Provenance>(scene: &Scene<'_, P>, end: End) -> Reckoned<f64, P> {
    side_cut(scene, end).map(|(cut, material, share)| side::side_force(cut, material, share))
}

pub(super) fn cutting_force<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    side_force(scene, End::Low)
}

pub(super) fn cutting_force_high<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    side_force(scene, End::High)
}

/// Into the holder. What pulls at breakthrough, and when a packed drill is withdrawn, is not
/// modelled.
pub(super) fn drill_thrust<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let kind = scene.listed::<OperationKind>();
    kind.and_then(|kind| match kind {
        OperationKind::Drilling => cutting::drilling(scene, drilling::thrust),
        _ => Reckoned::unknown(P::default()),
    })
}

/// Tangential force and helix of a milling cut that may pull. Only a stated helix tells: there is
/// no common one. Drills and taps are pushed in, or follow their pitch.
fn pull<P: Provenance>(
    scene: &Scene<'_, P>,
    of_cut: impl FnOnce(f64, f64) -> Reckoned<f64, P>,
) -> Reckoned<f64, P> {
    let kind = scene.listed::<OperationKind>();
    kind.and_then(|kind| {
        if kind != OperationKind::Milling {
            return Reckoned::free(0.0);
        }
        let hand = |field| scene.datum(field).listed::<Hand>();
        let hands = (hand(Field::Hand), hand(Field::HelixHand)).all();
        if hands.value.is_some_and(|(cut, helix)| cut != helix) {
            return Reckoned::known(0.0, hands.trace);
        }
        let inputs = (
            scene.number(Fact::CuttingTorquePeak),
            cutting::cutting_diameter(scene),
            scene.field(Field::HelixAngle),
        );
        let stated = inputs.all().resting_on(if_known(&hands));
        let inputs = stated.zip(has_that_helix(scene));
        inputs.and_then(|((torque, diameter, helix), ())| {
            of_cut(side::tangential_force(torque, diameter), helix.to_radians())
        })
    })
}

/// What a known value rests on; one that need not be stated lacks nothing.
fn if_known<T, P: Provenance>(value: &Reckoned<T, P>) -> P {
    if value.is_known() {
        value.trace
    } else {
        P::default()
    }
}

/// Whether the stated helix is that of the edges in the cut. It is not near the pole of a ball,
/// nor on inserts and saws.
fn has_that_helix<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<(), P> {
    let kind = scene.listed::<CutterKind>();
    match kind.value {
        Some(CutterKind::SlittingSaw | CutterKind::Indexable | CutterKind::FaceMill) => {
            Reckoned::unknown(kind.trace)
        }
        Some(own) if own.is_ball() => {
            let both = (
                scene.field(Field::AxialDepth),
                scene.field(Field::CuttingDiameter),
            );
            let deep = both.all().resting_on(kind.trace);
            deep.and_then(|(depth, diameter)| {
                // Shallower than half the radius.
                if depth < diameter / 4.0 {
                    Reckoned::unknown(P::default())
                } else {
                    Reckoned::free(())
                }
            })
        }
        _ => Reckoned::known((), if_known(&kind)),
    }
}

/// With the chip sliding off without friction.
pub(super) fn axial_pull<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    pull(scene, |force, helix| {
        Reckoned::free(side::axial_pull(force, helix))
    })
}

/// With the chip's friction, which drags the other way.
pub(super) fn axial_pull_low<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let angles = (
        scene.setting(Setting::ChipRake),
        scene.setting(Setting::ChipFriction),
    );
    pull(scene, |force, helix| {
        angles.all().map(|(rake, friction)| {
            let (rake, friction) = (rake.to_radians(), friction.to_radians());
            side::axial_pull_with_friction(force, helix, rake, friction)
        })
    })
}
