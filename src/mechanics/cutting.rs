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

/// Parts of the arc over which the chip is summed up; with them the sum is good to 0.01 %.
const ARC: usize = 240;
/// Angles of a tooth period at which the peak is sought.
const ANGLES: usize = 240;
/// From so many teeth on the torque hardly varies: the peak is the mean.
const MANY: f64 = 1e3;
/// Below this lag over the whole depth, in radians, an edge is straight.
const STRAIGHT: f64 = 1e-6;

/// Torque at the worst instant of a tooth period: the peak slips the tool, not the mean.
///
/// # Formula
/// max over the period of Σ over the teeth ∫ k_c1.1 K h^(1 − m_c) (D/2) db, h = f_z sin φ,
/// φ falling behind by 2 b tan λ / D along the edge
/// # Units
/// N·m.
/// # Source
/// Kienzle's force along every edge; geometry of helical teeth.
#[must_use]
pub fn peak_torque(cut: Cut, resistance: Resistance) -> f64 {
    if cut.flutes > MANY {
        return mean_torque(cut, resistance);
    }
    let arc = Arc::of(cut, resistance);
    let torques = (0..ANGLES).map(|at| instant_torque(cut, &arc, part(at, ANGLES)));
    torques.fold(0.0, f64::max) * full_torque(cut, resistance)
}

/// Mean torque over a tooth period: for power only. It does not depend on the helix, as every
/// point of every edge passes the same arc.
///
/// # Formula
/// z/(2π) k_c1.1 K a_p (D/2) ∫ h^(1 − m_c) dφ over the arc, h = f_z sin φ
/// # Units
/// N·m.
/// # Source
/// As [`peak_torque`].
#[must_use]
pub fn mean_torque(cut: Cut, resistance: Resistance) -> f64 {
    let arc = Arc::of(cut, resistance);
    cut.flutes / TAU * arc.until(arc.engaged) * full_torque(cut, resistance)
}

/// Torque of one straight tooth over the whole depth where its chip is as thick as the feed.
fn full_torque(cut: Cut, resistance: Resistance) -> f64 {
    let width = resistance.kc11 * resistance.correction * cut.feed.powf(1.0 - resistance.mc);
    width * cut.depth * cut.diameter / 2e3
}

fn part(at: usize, of: usize) -> f64 {
    let number = |count: usize| f64::from(u16::try_from(count).unwrap_or(u16::MAX));
    (number(at) + 0.5) / number(of)
}

/// The integral of sin^(1 − m_c) from the start of the arc on, summed up once.
struct Arc {
    engaged: f64,
    exponent: f64,
    sums: [f64; ARC + 1],
}

impl Arc {
    fn of(cut: Cut, resistance: Resistance) -> Arc {
        let engaged = engagement_angle(cut.width, cut.diameter);
        let exponent = 1.0 - resistance.mc;
        let mut sums = [0.0; ARC + 1];
        let mut sum = 0.0;
        for (at, next) in sums.iter_mut().skip(1).enumerate() {
            sum += (part(at, ARC) * engaged).sin().powf(exponent) * engaged * step();
            *next = sum;
        }
        Arc {
            engaged,
            exponent,
            sums,
        }
    }

    /// The integral up to an angle; before the arc nothing, behind it all.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the arc, so from 0 to ARC"
    )]
    fn until(&self, angle: f64) -> f64 {
        let at = (angle / self.engaged).clamp(0.0, 1.0) / step();
        let low = at.floor();
        let sum = |at: usize| self.sums.get(at.min(ARC)).copied().unwrap_or_default();
        let (from, to) = (sum(low as usize), sum(low as usize + 1));
        from + (to - from) * (at - low)
    }

    /// What one tooth takes at an instant: the mean of sin^(1 − m_c) along its edge, whose
    /// point at the tip stands at `lead` and whose other end is `lag` behind.
    fn along(&self, lead: f64, lag: f64) -> f64 {
        if lag < STRAIGHT {
            let cuts = lead < self.engaged;
            return f64::from(u8::from(cuts)) * lead.sin().abs().powf(self.exponent);
        }
        let between = |from: f64, to: f64| self.until(to) - self.until(from);
        let turns = (lag / TAU).floor();
        let rest = lag - turns * TAU;
        let once = between(lead - rest, lead) + between(lead + TAU - rest, lead + TAU);
        (once + turns * self.until(self.engaged)) / lag
    }
}

fn step() -> f64 {
    1.0 / f64::from(u16::try_from(ARC).unwrap_or(1))
}

/// Part of the full torque at one instant; `period` runs from 0 to 1 over a tooth period.
fn instant_torque(cut: Cut, arc: &Arc, period: f64) -> f64 {
    let pitch = TAU / cut.flutes;
    let lag = 2.0 * cut.depth * cut.helix.tan() / cut.diameter;
    let mut sum = 0.0;
    let mut tooth = 0.0;
    while tooth < cut.flutes {
        sum += arc.along(((period + tooth) * pitch).rem_euclid(TAU), lag);
        tooth += 1.0;
    }
    sum
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

/// Side force of a milling cut, from its torque.
///
/// # Formula
/// F = 2 M / D
/// # Units
/// N; M in N·m, D in mm.
/// # Source
/// Moment of a force at the edge; the radial part of the force is left out.
#[must_use]
pub fn side_force(torque: f64, diameter: f64) -> f64 {
    2e3 * torque / diameter
}

/// Pull of the helix along the axis.
///
/// # Formula
/// F_a = F tan λ
/// # Units
/// N; λ, the helix angle, in radians.
/// # Source
/// Geometry of the helix, as for a helical gear: Shigley Eq. 13-40.
#[must_use]
pub fn axial_pull(force: f64, helix: f64) -> f64 {
    force * helix.tan()
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
