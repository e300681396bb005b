//! Facts about what the nut's torque does: force, grip, slip. Low and high bound the frictions.
//!
//! Low clamping is high friction at thread, cone and taper with the low one at the shank, and
//! an axial slip there; high clamping is the reverse, and has the part of the nut's cone, of
//! which nobody knows how much reaches the shank.

use crate::library::{
    All, Field, NutStyle, OperationKind, Provenance, Reckoned, Setting, Thread, standard_sizes,
};
use crate::mechanics::clamping;

use super::clamping::in_collet;
use super::{Fact, Scene};

/// Which end of the frictions.
#[derive(Clone, Copy)]
enum FrictionEnd {
    Low,
    High,
}

impl FrictionEnd {
    /// Friction of the nut's thread: the high one makes the low force, here and below.
    fn thread(self) -> Setting {
        match self {
            FrictionEnd::Low => Setting::FrictionThreadHigh,
            FrictionEnd::High => Setting::FrictionThreadLow,
        }
    }

    /// Friction of the nut's cone on the collet.
    fn cone(self) -> Setting {
        match self {
            FrictionEnd::Low => Setting::FrictionConeHigh,
            FrictionEnd::High => Setting::FrictionConeLow,
        }
    }

    /// Friction of the collet in its taper.
    fn taper(self) -> Setting {
        match self {
            FrictionEnd::Low => Setting::FrictionTaperHigh,
            FrictionEnd::High => Setting::FrictionTaperLow,
        }
    }
}

/// Diameter and pitch of the nut's thread, as nut or holder states it.
pub(super) fn stated_thread<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<(f64, f64), P> {
    for field in [Field::NutThread, Field::HolderNutThread] {
        let stated = scene.view.thread(field);
        if let Some(whole) = stated.value.and_then(Thread::whole) {
            return stated.map(|_| whole);
        }
    }
    Reckoned::missing(Field::NutThread)
}

/// Diameter and pitch of the nut's thread: stated, else that of the size's standard nut.
fn thread<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<(f64, f64), P> {
    let stated = stated_thread(scene);
    if stated.is_known() {
        return stated;
    }
    let size = scene.field(Field::ColletSize);
    let standard = size.value.and_then(standard_sizes::nut_size);
    match standard.and_then(|row| row.thread.whole()) {
        // A table stands in for the thread.
        Some(whole) => size.map(|_| whole).resting_on(P::assumed(Field::NutThread)),
        None => Reckoned::missing(Field::NutThread),
    }
}

/// Arm of the nut's cone, or of its bearing, in mm.
fn face_arm<P: Provenance>(scene: &Scene<'_, P>, end: FrictionEnd) -> Reckoned<f64, P> {
    let size = scene.field(Field::ColletSize);
    let Some(row) = size.value.and_then(standard_sizes::collet_size) else {
        return Reckoned::unknown(size.trace.union(P::missing(Field::ColletSize)));
    };
    let radius = scene
        .setting(Setting::ConeRadiusRatio)
        .map(|ratio| ratio * row.front_diameter)
        .resting_on(size.trace);
    let style = scene.listed::<NutStyle>();
    if style.value == Some(NutStyle::Bearing) {
        let bearing = (radius, scene.setting(Setting::FrictionBearing)).all();
        let flat = std::f64::consts::FRAC_PI_2;
        return bearing
            .map(|(radius, friction)| clamping::face_arm(friction, radius, flat))
            .resting_on(style.trace);
    }
    let cone = (
        radius,
        scene.setting(Setting::ConeHalfAngle),
        scene.setting(end.cone()),
    );
    cone.all()
        .map(|(radius, angle, friction)| clamping::face_arm(friction, radius, angle.to_radians()))
}

fn clamping_force<P: Provenance>(scene: &Scene<'_, P>, end: FrictionEnd) -> Reckoned<f64, P> {
    in_collet(scene, || {
        let inputs = (
            scene.field(Field::NutTorque),
            thread(scene),
            scene.setting(end.thread()),
            face_arm(scene, end),
        );
        inputs
            .all()
            .map(|(torque, (diameter, pitch), friction, face)| {
                let mean = clamping::pitch_diameter(diameter, pitch);
                let arm = clamping::thread_arm(mean, pitch, friction, clamping::METRIC_FLANK);
                clamping::axial_force(torque, arm, face)
            })
    })
}

pub(super) fn clamping_force_low<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    clamping_force(scene, FrictionEnd::Low)
}

pub(super) fn clamping_force_high<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    clamping_force(scene, FrictionEnd::High)
}

/// Radial force of the taper: with an axial slip at the bore for the low end.
fn radial<P: Provenance>(scene: &Scene<'_, P>, end: FrictionEnd) -> Reckoned<f64, P> {
    let (force, at_bore) = match end {
        FrictionEnd::Low => (
            scene.number(Fact::ClampingForceLow),
            scene.setting(Setting::FrictionShankLow),
        ),
        FrictionEnd::High => (scene.number(Fact::ClampingForceHigh), Reckoned::free(0.0)),
    };
    let inputs = (force, scene.setting(end.taper()), at_bore);
    inputs.all().map(|(force, taper, bore)| {
        clamping::radial_force(force, clamping::SETTING_ANGLE, taper, bore)
    })
}

/// Normal force on the taper at the high end: what loads the socket.
pub(super) fn normal_force_high<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let taper = scene.setting(FrictionEnd::High.taper());
    let inputs = (radial(scene, FrictionEnd::High), taper).all();
    inputs.map(|(radial, taper)| clamping::normal_force(radial, clamping::SETTING_ANGLE, taper))
}

/// What the nut's own cone adds on the collet's front, at the high end.
fn cone<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let inputs = (
        scene.number(Fact::ClampingForceHigh),
        scene.setting(Setting::ConeHalfAngle),
        scene.setting(FrictionEnd::High.cone()),
    );
    inputs
        .all()
        .map(|(force, angle, friction)| clamping::cone_force(force, angle.to_radians(), friction))
}

fn grip_force<P: Provenance>(
    radial: Reckoned<f64, P>,
    friction: Reckoned<f64, P>,
) -> Reckoned<f64, P> {
    let inputs = (radial, friction).all();
    inputs.map(|(radial, friction)| clamping::grip_force(friction, radial))
}

pub(super) fn grip_force_low<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    grip_force(
        radial(scene, FrictionEnd::Low),
        scene.setting(Setting::FrictionShankLow),
    )
}

pub(super) fn grip_force_high<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let both = (radial(scene, FrictionEnd::High), cone(scene)).all();
    grip_force(
        both.map(|(taper, cone)| taper + cone),
        scene.setting(Setting::FrictionShankHigh),
    )
}

fn slip_torque<P: Provenance>(scene: &Scene<'_, P>, grip: Fact) -> Reckoned<f64, P> {
    let inputs = (scene.number(grip), scene.field(Field::ShankDiameter)).all();
    inputs.map(|(grip, diameter)| clamping::slip_torque(1.0, grip, diameter))
}

pub(super) fn slip_torque_low<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    slip_torque(scene, Fact::GripForceLow)
}

pub(super) fn slip_torque_high<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    slip_torque(scene, Fact::GripForceHigh)
}

/// A drill without a stop is pushed in by its thrust: the friction has to carry both. On a stop
/// the thrust does not load it. How far a drill is pushed back is not modelled.
fn slip_over_cut<P: Provenance>(scene: &Scene<'_, P>, slip: Fact, grip: Fact) -> Reckoned<f64, P> {
    let thrust = scene.number(Fact::DrillThrust);
    let stop = scene.field(Field::InsertionDepthMax);
    if thrust.is_known() && !stop.is_known() {
        return grip_over_cut(scene, grip, Fact::DrillThrust);
    }
    let torques = (scene.number(slip), scene.number(Fact::CuttingTorquePeak));
    torques
        .all()
        .map(|(slip, cut)| clamping::slip_ratio(slip, cut))
        .resting_on(stop_in_use(&thrust, &stop))
}

/// What it rests on that a thrust does not load the friction: on the stop, of a drill.
fn stop_in_use<P: Provenance>(thrust: &Reckoned<f64, P>, stop: &Reckoned<f64, P>) -> P {
    if thrust.is_known() {
        stop.trace
    } else {
        P::default()
    }
}

pub(super) fn slip_ratio<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    slip_over_cut(scene, Fact::SlipTorqueLow, Fact::GripForceLow)
}

pub(super) fn slip_ratio_high<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    slip_over_cut(scene, Fact::SlipTorqueHigh, Fact::GripForceHigh)
}

fn grip_over_cut<P: Provenance>(scene: &Scene<'_, P>, grip: Fact, pull: Fact) -> Reckoned<f64, P> {
    let inputs = (
        scene.number(grip),
        scene.number(Fact::CuttingTorquePeak),
        scene.number(pull),
        scene.field(Field::ShankDiameter),
    );
    inputs.all().map(|(grip, torque, pull, diameter)| {
        clamping::pull_out_ratio(grip, torque, pull, diameter)
    })
}

/// The low grip against peak torque and axial pull together.
pub(super) fn pull_out_ratio<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    grip_over_cut(scene, Fact::GripForceLow, Fact::AxialPull)
}

/// The same at the favourable end of the frictions, those of the chip on its edge among them.
pub(super) fn pull_out_ratio_high<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    grip_over_cut(scene, Fact::GripForceHigh, Fact::AxialPullLow)
}

/// Edge pressure of the side force at this grip over that at a full land. The overhang runs to
/// where the grip begins, which is behind the front face, and behind a front that is bare. The
/// force cancels: what is needed of the cut is that it pushes sideways, as milling does.
pub(super) fn edge_ratio<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    let overhang = (
        scene.field(Field::StickOut),
        scene.number(Fact::BoreSetback),
        scene.number(Fact::UngrippedFront),
    );
    let inputs = (
        scene.listed::<OperationKind>(),
        overhang.all(),
        scene.number(Fact::GrippedLength),
        scene.field(Field::BoreLength),
    );
    inputs
        .all()
        .and_then(|(kind, (out, setback, bare), gripped, land)| {
            if kind != OperationKind::Milling || gripped <= 0.0 {
                return Reckoned::unknown(P::default());
            }
            Reckoned::free(clamping::edge_ratio(out + setback, bare, gripped, land))
        })
}
