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

/// Angles of a tooth period at which the peak is sought.
const ANGLES: u16 = 48;
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
    let lag = (2.0 * cut.depth * cut.helix.tan() / cut.diameter).abs();
    // An edge that winds round and round cuts the same at every instant.
    if lag > LONGEST_LAG || cut.flutes > MOST_TEETH {
        return mean_torque(cut, resistance);
    }
    // From the instant at which a tooth is about to leave: there the thickest chip jumps to none,
    // and no grid of angles would meet it by itself.
    let instants = (0..ANGLES).map(|at| {
        let turned = f64::from(at) / f64::from(ANGLES) * pitch;
        arc.under_teeth((arc.engaged + turned).rem_euclid(pitch), pitch, lag)
    });
    let most = instants.fold(0.0, f64::max);
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
    let specific = resistance.kc11 * resistance.correction;
    teeth * specific * cut.feed.powf(1.0 - resistance.mc) * cut.depth * cut.diameter / 2e3
}

/// Cells over which sin^(1 − m) is summed along the arc.
const CELLS: u16 = 128;

/// The arc of the cut, with the integral of sin^(1 − m) from its entry.
struct Arc {
    engaged: f64,
    exponent: f64,
    sums: Vec<f64>,
}

impl Arc {
    fn new(cut: Cut, exponent: f64) -> Arc {
        let engaged = engagement_angle(cut.width, cut.diameter);
        let cell = engaged / f64::from(CELLS);
        let mut sum = 0.0;
        let mut sums = vec![0.0];
        sums.extend((0..CELLS).map(|at| {
            let middle = (f64::from(at) + 0.5) * cell;
            sum += middle.sin().powf(exponent) * cell;
            sum
        }));
        Arc {
            engaged,
            exponent,
            sums,
        }
    }

    /// The integral from the entry to an angle; nothing is cut before and behind the arc.
    fn up_to(&self, angle: f64) -> f64 {
        let cells = (angle / self.engaged).clamp(0.0, 1.0) * f64::from(CELLS);
        let whole = cells.floor().min(f64::from(CELLS - 1));
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between none and all cells"
        )]
        let mut ends = self.sums.iter().skip(whole as usize);
        let (from, to) = (ends.next(), ends.next());
        from.zip(to)
            .map_or(f64::NAN, |(from, to)| from + (to - from) * (cells - whole))
    }

    /// Sum over all teeth of the mean of sin^(1 − m) along each edge; `first` is the angle of the
    /// foremost point of the first edge, and each edge trails by `lag`.
    fn under_teeth(&self, first: f64, pitch: f64, lag: f64) -> f64 {
        let mut angle = first;
        let mut sum = 0.0;
        if lag < 1e-6 {
            while angle <= self.engaged + 1e-9 {
                sum += angle.min(self.engaged).sin().powf(self.exponent);
                angle += pitch;
            }
            return sum;
        }
        while angle < self.engaged + lag {
            let spans = angle >= self.engaged && angle < lag;
            // All edges that span the arc at once: a steep helix has as many as it likes.
            let edges = if spans {
                ((lag - angle) / pitch).ceil()
            } else {
                1.0
            };
            sum += edges * (self.up_to(angle) - self.up_to(angle - lag));
            angle += edges * pitch;
        }
        sum / lag
    }
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
