//! Cutting: speeds.

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
    std::f64::consts::PI * cutting_diameter * spindle_speed / 1000.0
}
