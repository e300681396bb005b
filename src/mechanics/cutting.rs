//! Cutting: speeds, chip thickness, forces and torques.
//!
//! The specific cutting force is that of a sharp tool; corrections for rake, speed, process and
//! wear are inputs. Left out: run-out, which loads one tooth more than the others, and built-up
//! edges.

use std::f64::consts::{PI, TAU};

/// Speed of the edge at the cutting diameter.
///
/// # Formula
/// vc = π · DC · n / 1000
/// # Units
/// m/min; DC in mm, n in 1/min.
/// # Source
/// ISO 3002-1, definition of the cutting speed as the speed of a point of the edge.
#[must_use]
pub fn cutting_speed(cutting_diameter: f64, spindle_speed: f64) -> f64 {
    PI * cutting_diameter * spindle_speed / 1000.0
}

/// What a workpiece material resists with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resistance {
    /// Specific cutting force k_c1.1, MPa: at 1 mm of width and 1 mm of thickness.
    pub kc11: f64,
    /// Its exponent m_c.
    pub mc: f64,
    /// Product of all corrections.
    pub correction: f64,
}

impl Resistance {
    /// Specific cutting force at a chip thickness.
    ///
    /// # Formula
    /// k_c = k_c1.1 · h^−m_c · K
    /// # Units
    /// MPa; h in mm, above 0.
    /// # Source
    /// O. Kienzle 1952; Dietrich, Praxis der Zerspantechnik.
    #[must_use]
    pub fn specific_force(self, thickness: f64) -> f64 {
        self.kc11 * thickness.powf(-self.mc) * self.correction
    }
}

/// Angle over which a tooth is in the cut.
///
/// # Formula
/// cos φ_s = 1 − 2 a_e/D
/// # Units
/// radians, from 0 to π; a_e beyond D counts as a slot.
/// # Source
/// Dietrich, Praxis der Zerspantechnik, peripheral milling.
#[must_use]
pub fn engagement_angle(width: f64, diameter: f64) -> f64 {
    (1.0 - 2.0 * (width / diameter).clamp(0.0, 1.0)).acos()
}

/// Mean chip thickness in milling.
///
/// # Formula
/// h_m = (2 a_e/D)/φ_s · f_z sin κ
/// # Units
/// mm; κ, the cutting edge angle, in radians: 90° for a square end mill with b = a_p.
/// # Source
/// Dietrich, Praxis der Zerspantechnik. The square-root form f_z √(a_e/D) is 11 % high at
/// a_e/D 0.5 and 57 % in a slot: not used.
#[must_use]
pub fn mean_chip_thickness(width: f64, diameter: f64, feed: f64, edge_angle: f64) -> f64 {
    let part = (width / diameter).clamp(0.0, 1.0);
    2.0 * part / engagement_angle(width, diameter) * feed * edge_angle.sin()
}

/// A milling cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// Cutting diameter, mm.
    pub diameter: f64,
    /// Flutes.
    pub flutes: f64,
    /// Helix angle, radians.
    pub helix: f64,
    /// Axial depth a_p, mm.
    pub depth: f64,
    /// Radial width a_e, mm.
    pub width: f64,
    /// Feed per tooth, mm.
    pub feed: f64,
}

/// Axial slices, and angles of a tooth period, over which the peak is sought.
const SLICES: usize = 48;
const ANGLES: usize = 48;
/// Teeth that are summed one by one. Of more, so many stand for all: the sum is an integral by
/// then, and no count that a library may state takes longer.
const MOST_TEETH: f64 = 240.0;

/// Torque at the worst instant of a tooth period: the peak slips the tool, not the mean.
///
/// # Formula
/// max over the period of Σ k_c1.1 K h^(1 − m_c) Δb D/2, h = f_z sin φ, teeth lagging by the
/// helix
/// # Units
/// N·m.
/// # Source
/// Kienzle's force on every slice of every tooth; geometry of helical teeth.
#[must_use]
pub fn peak_torque(cut: Cut, resistance: Resistance) -> f64 {
    let torques = (0..ANGLES).map(|at| instant_torque(cut, resistance, part(at, ANGLES)));
    torques.fold(0.0, f64::max)
}

/// Mean torque over a tooth period, by the same slices: for power only.
///
/// # Formula
/// mean over the period of Σ k_c1.1 K h^(1 − m_c) Δb D/2
/// # Units
/// N·m.
/// # Source
/// As [`peak_torque`].
#[must_use]
pub fn mean_torque(cut: Cut, resistance: Resistance) -> f64 {
    let torques = (0..ANGLES).map(|at| instant_torque(cut, resistance, part(at, ANGLES)));
    torques.sum::<f64>() / f64::from(u16::try_from(ANGLES).unwrap_or(1))
}

fn part(at: usize, of: usize) -> f64 {
    let number = |count: usize| f64::from(u16::try_from(count).unwrap_or(u16::MAX));
    (number(at) + 0.5) / number(of)
}

/// Torque at one instant; `period` runs from 0 to 1 over a tooth period.
fn instant_torque(cut: Cut, resistance: Resistance, period: f64) -> f64 {
    let engaged = engagement_angle(cut.width, cut.diameter);
    let flutes = cut.flutes.min(MOST_TEETH);
    let pitch = TAU / flutes;
    let slice = cut.depth / f64::from(u16::try_from(SLICES).unwrap_or(1));
    let lag = 2.0 * cut.depth * cut.helix.tan() / cut.diameter;
    let mut sum = 0.0;
    for at in 0..SLICES {
        // The first tooth behind the entry, and every pitch another while in the cut.
        let mut angle = (period * pitch - part(at, SLICES) * lag).rem_euclid(pitch);
        while angle < engaged {
            sum += (cut.feed * angle.sin()).powf(1.0 - resistance.mc);
            angle += pitch;
        }
    }
    let width = slice * cut.flutes / flutes;
    sum * resistance.kc11 * resistance.correction * width * cut.diameter / 2e3
}

/// Power of a milling cut.
///
/// # Formula
/// P = a_p a_e v_f k_c / 60·10⁶
/// # Units
/// kW; mm, mm/min, MPa.
/// # Source
/// Dietrich, Praxis der Zerspantechnik.
#[must_use]
pub fn milling_power(depth: f64, width: f64, feed_speed: f64, specific_force: f64) -> f64 {
    depth * width * feed_speed * specific_force / 60e6
}

/// Torque of a drill.
///
/// # Formula
/// M = k_c d² f / 8000, h = (f/2) sin(σ/2)
/// # Units
/// N·m; mm, mm per revolution, σ in radians.
/// # Source
/// Dietrich, Praxis der Zerspantechnik, drilling into the full.
#[must_use]
pub fn drilling_torque(diameter: f64, feed: f64, point: f64, resistance: Resistance) -> f64 {
    let thickness = feed / 2.0 * (point / 2.0).sin();
    resistance.specific_force(thickness) * diameter * diameter * feed / 8e3
}

/// Torque of a tap, without the friction in the thread and the reversal.
///
/// # Formula
/// M = k_c P² D / 8000
/// # Units
/// N·m; mm. A lower bound: common practice takes at least twice that.
/// # Source
/// Cross-section of the thread, P²/4 on both sides, at the mean radius.
#[must_use]
pub fn tapping_torque(diameter: f64, pitch: f64, specific_force: f64) -> f64 {
    specific_force * pitch * pitch * diameter / 8e3
}

/// Diameter at which a ball nose cuts in shallow cuts.
///
/// # Formula
/// D_eff = 2 √(a_p (D − a_p))
/// # Units
/// mm; a_p up to D/2.
/// # Source
/// Geometry of a sphere.
#[must_use]
pub fn ball_diameter(diameter: f64, depth: f64) -> f64 {
    let depth = depth.clamp(0.0, diameter / 2.0);
    2.0 * (depth * (diameter - depth)).sqrt()
}
