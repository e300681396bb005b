//! Rotation: balance.

/// Permissible residual unbalance.
///
/// # Formula
/// U = 1000 G m / ω, ω = 2π n/60; so 9549.3 G m / n
/// # Units
/// g·mm; grade G in mm/s, mass in kg, n in 1/min.
/// # Source
/// ISO 21940-11: the grade is the product of eccentricity and angular speed.
#[must_use]
pub fn permissible_unbalance(grade: f64, mass: f64, speed: f64) -> f64 {
    1e3 * grade * mass / (std::f64::consts::TAU * speed / 60.0)
}

/// The grade that a rotor balanced to `grade` at `balanced_at` has at another speed.
///
/// # Formula
/// G' = G n / n0: the eccentricity stays
/// # Units
/// mm/s; speeds in 1/min.
/// # Source
/// ISO 21940-11, definition of the grade.
#[must_use]
pub fn grade_at(grade: f64, balanced_at: f64, speed: f64) -> f64 {
    grade * speed / balanced_at
}
