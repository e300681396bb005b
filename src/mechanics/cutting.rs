//! Cutting: speeds, chip thickness and torques.
//!
//! The specific cutting force is that of a sharp tool; corrections for rake, speed, process and
//! wear are inputs. Left out: run-out, which loads one tooth more than the others, and built-up
//! edges.

use std::f64::consts::{PI, TAU};

use super::arc::Arc;
use super::by_name::{Given, formulas};

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

impl Cut {
    /// Angle by which an edge trails from the tip to the top of the cut, radians.
    pub(super) fn lag(self) -> f64 {
        (2.0 * self.depth * self.helix.tan() / self.diameter).abs()
    }
}

/// Teeth that are summed one by one. With more the torque hardly varies: the peak is the mean,
/// and no count that a library may state takes longer.
const MOST_TEETH: f64 = 1e3;

/// An edge that trails by more, in radians, is summed no further.
const LONGEST_LAG: f64 = 1e4;

/// Torque at the worst instant of a tooth period: the peak slips the tool, not the mean.
///
/// # Formula
/// max over the period of Σ k_c1.1 K h^(1 − m_c) Δb D/2, h = f_z sin φ, teeth lagging by the
/// helix. For each tooth the sum over its depth is an integral over the angles that its edge
/// covers: ∫ h^(1 − m_c) dφ · a_p/lag, lag = 2 a_p tan(helix)/D
/// # Units
/// N·m.
/// # Source
/// Kienzle's force on every slice of every tooth; geometry of helical teeth.
#[must_use]
pub fn peak_torque(cut: Cut, resistance: Resistance) -> f64 {
    let arc = Arc::new(cut, 1.0 - resistance.mc);
    let pitch = TAU / cut.flutes;
    let lag = cut.lag();
    // An edge that winds round and round cuts the same at every instant.
    if lag > LONGEST_LAG || cut.flutes > MOST_TEETH {
        return mean_torque(cut, resistance);
    }
    let most = arc
        .instants(pitch)
        .map(|first| arc.under_teeth(first, pitch, lag));
    let most = most.fold(0.0, f64::max);
    // Where many teeth share the cut, the grid must not put the peak below the mean.
    torque_of(cut, resistance, most).max(mean_torque(cut, resistance))
}

/// Mean torque over a tooth period: for power only. It does not depend on the helix.
///
/// # Formula
/// z/(2π) · k_c1.1 K a_p D/2 · ∫ (f_z sin φ)^(1 − m_c) dφ from 0 to φ_s
/// # Units
/// N·m.
/// # Source
/// As [`peak_torque`].
#[must_use]
pub fn mean_torque(cut: Cut, resistance: Resistance) -> f64 {
    let arc = Arc::new(cut, 1.0 - resistance.mc);
    torque_of(cut, resistance, arc.up_to(arc.engaged) * cut.flutes / TAU)
}

/// Torque of so many teeth with a chip as thick as the feed over the whole depth.
fn torque_of(cut: Cut, resistance: Resistance, teeth: f64) -> f64 {
    teeth * thickest_force(cut, resistance) * cut.diameter / 2e3
}

/// Tangential force, in N, of one tooth with a chip as thick as the feed over the whole depth.
pub(super) fn thickest_force(cut: Cut, resistance: Resistance) -> f64 {
    let specific = resistance.kc11 * resistance.correction;
    specific * cut.feed.powf(1.0 - resistance.mc) * cut.depth
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

/// Power of a torque at a speed.
///
/// # Formula
/// P = 2π n M, so M n / 9549.3
/// # Units
/// kW; M in N·m, n in 1/min.
/// # Source
/// Mechanics.
#[must_use]
pub fn power(torque: f64, speed: f64) -> f64 {
    torque * speed * TAU / 60.0 / 1e3
}

impl Resistance {
    pub(super) fn given(given: Given<'_>) -> Option<Resistance> {
        Some(Resistance {
            kc11: given.number("kc11")?,
            mc: given.number("mc")?,
            correction: given.or("correction", 1.0),
        })
    }
}

impl Cut {
    pub(super) fn given(given: Given<'_>) -> Option<Cut> {
        Some(Cut {
            diameter: given.number("diameter")?,
            flutes: given.number("flutes")?,
            helix: given.degrees("helix")?,
            depth: given.number("depth")?,
            width: given.number("width")?,
            feed: given.number("feed")?,
        })
    }
}

fn of_cut(given: Given<'_>, formula: fn(Cut, Resistance) -> f64) -> Option<f64> {
    Some(formula(Cut::given(given)?, Resistance::given(given)?))
}

formulas! {
    "cutting" {
        cutting_speed(diameter, speed);
        mean_chip_thickness(width, diameter, feed, edge_angle degrees);
        milling_power(depth, width, feed_speed, specific_force);
        tapping_torque(diameter, pitch, specific_force);
        power(torque, speed);
        ball_diameter(diameter, depth);
    } {
        engagement_angle => |given| {
            let angle = engagement_angle(given.number("width")?, given.number("diameter")?);
            Some(angle.to_degrees())
        };
        specific_force => |given| {
            let resistance = Resistance::given(given)?;
            Some(resistance.specific_force(given.number("thickness")?))
        };
        peak_torque => |given| of_cut(given, peak_torque);
        mean_torque => |given| of_cut(given, mean_torque);
        peak_over_mean => |given| Some(of_cut(given, peak_torque)? / of_cut(given, mean_torque)?);
    }
}
