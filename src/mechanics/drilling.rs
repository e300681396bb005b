//! Drilling into the full: torque and thrust.
//!
//! Left out: web and margins; the pull at breakthrough and when a packed drill is withdrawn. A
//! handbook's thrust from web thickness and hardness is not used: no library states either.

use super::by_name::{Given, formulas};
use super::cutting::Resistance;

/// Thickness of the chip of each of the two lips.
///
/// # Formula
/// h = (f/2) sin(σ/2)
/// # Units
/// mm; f in mm per revolution, σ in radians.
/// # Source
/// Dietrich, Praxis der Zerspantechnik, drilling into the full.
#[must_use]
pub fn lip_chip(feed: f64, point: f64) -> f64 {
    feed / 2.0 * (point / 2.0).sin()
}

/// Torque of a drill.
///
/// # Formula
/// M = k_c d² f / 8000
/// # Units
/// N·m; mm, mm per revolution, σ in radians. The correction of the resistance holds the factor
/// for the compressed chip.
/// # Source
/// Dietrich, Praxis der Zerspantechnik, drilling into the full.
#[must_use]
pub fn torque(diameter: f64, feed: f64, point: f64, resistance: Resistance) -> f64 {
    resistance.specific_force(lip_chip(feed, point)) * diameter * diameter * feed / 8e3
}

/// Thrust of a drill's two lips: a lower end, as the web pushes besides.
///
/// # Formula
/// F_f = 0.5 k_c d (f/2) sin(σ/2)
/// # Units
/// N; mm, mm per revolution, σ in radians.
/// # Source
/// Dietrich, Praxis der Zerspantechnik: the feed force is about half of the cutting force.
#[must_use]
pub fn thrust(diameter: f64, feed: f64, point: f64, resistance: Resistance) -> f64 {
    let chip = lip_chip(feed, point);
    0.5 * resistance.specific_force(chip) * diameter * chip
}

/// What a formula says of the drill that is given.
fn of_drill(given: Given<'_>, formula: fn(f64, f64, f64, Resistance) -> f64) -> Option<f64> {
    Some(formula(
        given.number("diameter")?,
        given.number("feed")?,
        given.degrees("point")?,
        Resistance::given(given)?,
    ))
}

formulas! {
    "cutting" {} {
        drilling_torque => |given| of_drill(given, torque);
        drill_thrust => |given| of_drill(given, thrust);
    }
}
