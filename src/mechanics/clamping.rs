//! From the nut's torque to the force that closes the collet, and from there to the grip.
//!
//! The frictions are separate inputs: of the thread, of the nut's cone, of the taper, of the
//! shank. One common friction nearly cancels and gives false comfort. The nut's cone closes the
//! collet's front as well; that part belongs to the high end of a grip. Left out: the force that
//! closes the collet by its gap.

use std::f64::consts::PI;

use super::by_name::{Given, formulas};

/// Flank angle of a metric thread, half of 60°, radians.
pub const METRIC_FLANK: f64 = 30.0 * PI / 180.0;
/// Setting angle of the taper, half angle, radians: ISO 15488.
pub const SETTING_ANGLE: f64 = 8.0 * PI / 180.0;

/// Pitch diameter of a metric thread.
///
/// # Formula
/// d2 = d − 0.649519 P
/// # Units
/// mm.
/// # Source
/// ISO 724: d2 = d − 3/4 H, H = √3/2 P.
#[must_use]
pub fn pitch_diameter(diameter: f64, pitch: f64) -> f64 {
    diameter - 0.75 * 0.75f64.sqrt() * pitch
}

/// Torque that a thread takes for one newton of axial force.
///
/// # Formula
/// (d2/2) tan(φ + ρ'), tan φ = P/(π d2), tan ρ' = μ / cos β
/// # Units
/// N·mm per N, so mm; β is half the flank angle in radians, 0 for a square thread. A negative
/// pitch lowers the load.
/// # Source
/// Shigley, Mechanical Engineering Design, ch. 8, Eqs. 8-1 to 8-5.
#[must_use]
pub fn thread_arm(pitch_diameter: f64, pitch: f64, friction: f64, flank: f64) -> f64 {
    let lead = (pitch / (PI * pitch_diameter)).atan();
    let rub = (friction / flank.cos()).atan();
    pitch_diameter / 2.0 * (lead + rub).tan()
}

/// Torque that a conical or flat face takes for one newton of axial force.
///
/// # Formula
/// μ r / sin γ, γ the half angle of the cone to the axis; 90° is a flat collar
/// # Units
/// N·mm per N, so mm; r in mm, γ in radians.
/// # Source
/// Shigley, Mechanical Engineering Design, Eq. 8-6 for the collar; a cone presses harder by
/// 1/sin γ.
#[must_use]
pub fn face_arm(friction: f64, radius: f64, half_angle: f64) -> f64 {
    friction * radius / half_angle.sin()
}

/// Axial force from a nut's torque.
///
/// # Formula
/// F = T / (thread arm + face arm)
/// # Units
/// N; torque in N·m, arms in mm.
/// # Source
/// Sum of both moments: Shigley ch. 8; VDI 2230 has the same in its small-angle form.
#[must_use]
pub fn axial_force(torque: f64, thread_arm: f64, face_arm: f64) -> f64 {
    torque * 1e3 / (thread_arm + face_arm)
}

/// Radial resultant of the collet's taper while it is pushed in.
///
/// # Formula
/// F_r = F_ax / (tan(α + ρ) + μ_b), ρ = atan μ, μ_b the friction of an axial slip at the bore
/// # Units
/// N; α in radians.
/// # Source
/// Equilibrium of a wedge; for a cone without friction Shigley, clutches, ch. 16.
#[must_use]
pub fn radial_force(axial: f64, half_angle: f64, friction: f64, bore_friction: f64) -> f64 {
    axial / ((half_angle + friction.atan()).tan() + bore_friction)
}

/// Radial resultant of the nut's cone on the collet's front: how much of it reaches the shank
/// depends on the collet's front, so that it belongs to the high end of a grip only.
///
/// # Formula
/// F_c = F_ax / tan(β + ρ), ρ = atan μ
/// # Units
/// N; β, half angle of the front cone to the axis, in radians.
/// # Source
/// Equilibrium of a wedge, as for the taper; β 30°: ISO 15488, from memory.
#[must_use]
pub fn cone_force(axial: f64, half_angle: f64, friction: f64) -> f64 {
    radial_force(axial, half_angle, friction, 0.0)
}

/// Core diameter of an external metric thread.
///
/// # Formula
/// d3 = d − 1.226869 P
/// # Units
/// mm.
/// # Source
/// ISO 898-1 and DIN 13-1, from memory: d3 = d1 − H/6, d1 = d − 5/4 H (ISO 724), H = √3/2 P.
#[must_use]
pub fn core_diameter(diameter: f64, pitch: f64) -> f64 {
    let height = 0.75f64.sqrt() * pitch;
    diameter - 5.0 / 4.0 * height - height / 6.0
}

/// Diameter of the socket's taper behind its mouth.
///
/// # Formula
/// D(z) = D − 2 z tan 8°
/// # Units
/// mm; z from the mouth.
/// # Source
/// Geometry; setting angle 8° of ISO 15488.
#[must_use]
pub fn taper_diameter(mouth_diameter: f64, depth: f64) -> f64 {
    mouth_diameter - 2.0 * depth * SETTING_ANGLE.tan()
}

/// Mean stress of an axial force in a ring.
///
/// # Formula
/// σ = 4 F / (π (d3² − D²))
/// # Units
/// MPa; force in N, outer and inner diameter in mm, outer above inner.
/// # Source
/// Definition of stress: Shigley, Mechanical Engineering Design, ch. 3. No notch, no bending and
/// no torsion: a lower bound.
#[must_use]
pub fn ring_tension(force: f64, outer: f64, inner: f64) -> f64 {
    4.0 * force / (PI * (outer * outer - inner * inner))
}

/// Normal resultant on the taper.
///
/// # Formula
/// F_n = F_r / (cos α − μ sin α)
/// # Units
/// N; α in radians.
/// # Source
/// Equilibrium of a wedge.
#[must_use]
pub fn normal_force(radial: f64, half_angle: f64, friction: f64) -> f64 {
    radial / (half_angle.cos() - friction * half_angle.sin())
}

/// Torque at which a shank slips. In this model it does not depend on the engaged length.
///
/// # Formula
/// T = μ F_r d / 2
/// # Units
/// N·m; force in N, diameter in mm.
/// # Source
/// Coulomb friction on a cylinder; Shigley Eq. 7-49 with F_r = π p l d.
#[must_use]
pub fn slip_torque(friction: f64, radial: f64, diameter: f64) -> f64 {
    friction * radial * diameter / 2e3
}

/// Grip over a torque and an axial pull together. 1 says nothing of a tool that creeps out under
/// rotating bending, which is the usual way.
///
/// # Formula
/// R = μ F_r / √((2T/d)² + F_a²)
/// # Units
/// ratio; torque in N·m, diameter in mm, forces in N.
/// # Source
/// Coulomb friction against the resultant of both.
#[must_use]
pub fn pull_out_ratio(grip: f64, torque: f64, pull: f64, diameter: f64) -> f64 {
    grip / (2e3 * torque / diameter).hypot(pull)
}

/// Pressure at the mouth of a bore under a side force on a rigid shank.
///
/// # Formula
/// p = 6 M/(d l²) + 4 F/(d l), M = F p_o the moment at the mouth
/// # Units
/// MPa; force in N, lengths in mm.
/// # Source
/// Roloff/Matek, pin in a hole, from memory; identical to the socket equations of NASA
/// CR-4608 (1994), linear contact.
#[must_use]
pub fn edge_pressure(force: f64, overhang: f64, diameter: f64, engaged: f64) -> f64 {
    6.0 * force * overhang / (diameter * engaged * engaged) + 4.0 * force / (diameter * engaged)
}

/// Hoop stress in a thick ring under pressure in its bore.
///
/// # Formula
/// σ(x) = p r²/(b² − r²) (1 + b²/x²)
/// # Units
/// MPa; radii in mm, r ≤ x ≤ b.
/// # Source
/// Lamé; W. J. Lineham, A Text-Book of Mechanical Engineering, Example 8.
#[must_use]
pub fn ring_hoop(pressure: f64, inner: f64, outer: f64, at: f64) -> f64 {
    let (r2, b2) = (inner * inner, outer * outer);
    pressure * r2 / (b2 - r2) * (1.0 + b2 / (at * at))
}

/// Force against which a shank slips.
///
/// # Formula
/// F = μ F_r
/// # Units
/// N.
/// # Source
/// Coulomb friction; Shigley Eq. 7-48 with F_r = π p l d.
#[must_use]
pub fn grip_force(friction: f64, radial: f64) -> f64 {
    friction * radial
}

/// Slip torque over the torque of the cut.
///
/// # Formula
/// R = slip torque / peak torque
/// # Units
/// ratio; both in N·m.
/// # Source
/// Definition of a ratio of capacity to load.
#[must_use]
pub fn slip_ratio(slip_torque: f64, peak_torque: f64) -> f64 {
    slip_torque / peak_torque
}

/// Edge pressure of a side force at this grip over that at a full land.
///
/// # Formula
/// p(l, p_o + a) / p(L, p_o), p as in [`edge_pressure`]; force and diameter cancel
/// # Units
/// ratio; lengths in mm: p_o from the tip to the front of the land, a of it without grip.
/// # Source
/// As [`edge_pressure`]; the lever is that to where the grip begins.
#[must_use]
pub fn edge_ratio(overhang: f64, bare: f64, engaged: f64, full: f64) -> f64 {
    let at = |overhang, length| edge_pressure(1.0, overhang, 1.0, length);
    at(overhang + bare, engaged) / at(overhang, full)
}

/// From the nut's torque to its force; one friction where the face has none of its own.
fn nut_force(given: Given<'_>) -> Option<f64> {
    let (pitch, friction) = (given.number("pitch")?, given.number("friction")?);
    let mean = pitch_diameter(given.number("diameter")?, pitch);
    let thread = thread_arm(mean, pitch, friction, METRIC_FLANK);
    let face = face_arm(
        given.or("face_friction", friction),
        given.number("radius")?,
        given.degrees("half_angle")?,
    );
    Some(axial_force(given.number("torque")?, thread, face))
}

/// From the nut's torque to the torque at which the shank slips: the whole chain.
fn nut_to_slip(given: Given<'_>) -> Option<f64> {
    let radial = radial_force(
        nut_force(given)?,
        SETTING_ANGLE,
        given.number("taper_friction")?,
        given.number("bore_friction")?,
    );
    Some(slip_torque(
        given.number("shank_friction")?,
        radial,
        given.number("shank")?,
    ))
}

formulas! {
    "clamping" {
        pitch_diameter(diameter, pitch);
        thread_arm(pitch_diameter, pitch, friction, flank degrees);
        face_arm(friction, radius, half_angle degrees);
        radial_force(axial, half_angle degrees, friction, bore_friction or 0.0);
        cone_force(axial, half_angle degrees, friction);
        core_diameter(diameter, pitch);
        taper_diameter(mouth, depth);
        ring_tension(force, outer, inner);
        normal_force(radial, half_angle degrees, friction);
        grip_force(friction, radial);
        slip_torque(friction, radial, diameter);
        slip_ratio(slip, torque);
        edge_ratio(overhang, bare or 0.0, engaged, full);
        pull_out_ratio(grip, torque, pull, diameter);
        edge_pressure(force, overhang, diameter, engaged);
        ring_hoop(pressure, inner, outer, at);
    } {
        axial_force => nut_force;
        nut_to_slip => nut_to_slip;
    }
}
