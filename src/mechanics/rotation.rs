//! Rotation: balance, run-out, teeth a second.

use super::by_name::formulas;

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

/// Run-out of a collet's class, carried out to the tip.
///
/// # Formula
/// t max(1, p / l), t the run-out at the test distance l
/// # Units
/// mm.
/// # Source
/// Geometry of a tilted axis; never less than at the test distance. ISO 15488 states t and l.
#[must_use]
pub fn run_out_at_tip(run_out: f64, distance: f64, stick_out: f64) -> f64 {
    run_out * (stick_out / distance).max(1.0)
}

/// Difference in radius of neighbouring teeth of a cutter that runs out.
///
/// # Formula
/// TIR sin(π/z); one tooth has no neighbour
/// # Units
/// mm; TIR is the whole reading of the gauge, twice the eccentricity.
/// # Source
/// Geometry: chord between two teeth on a circle whose diameter is the TIR.
#[must_use]
pub fn neighbour_difference(run_out: f64, flutes: f64) -> f64 {
    if flutes <= 1.0 {
        return 0.0;
    }
    run_out * (std::f64::consts::PI / flutes).sin()
}

/// Thickest chip in milling.
///
/// # Formula
/// h_max = 2 f_z √(q (1 − q)), q = a_e/D below 0.5, else f_z
/// # Units
/// mm.
/// # Source
/// Geometry: f_z sin φ where the tooth leaves, cos φ = 1 − 2 q, or half way through.
#[must_use]
pub fn thickest_chip(feed: f64, width: f64, diameter: f64) -> f64 {
    let part = (width / diameter).clamp(0.0, 0.5);
    2.0 * feed * (part * (1.0 - part)).sqrt()
}

/// Difference of neighbouring teeth as a part of the thickest chip.
///
/// # Formula
/// TIR sin(π/z) / h_max
/// # Units
/// ratio; mm.
/// # Source
/// Geometry.
#[must_use]
pub fn run_out_share(difference: f64, chip: f64) -> f64 {
    difference / chip
}

/// Spindle speed at which the teeth pass at a frequency.
///
/// # Formula
/// n = 60 f / z
/// # Units
/// 1/min; f in Hz.
/// # Source
/// Counting.
#[must_use]
pub fn speed_of_teeth(frequency: f64, flutes: f64) -> f64 {
    60.0 * frequency / flutes
}

/// Teeth through the cut each second.
///
/// # Formula
/// f = z n / 60
/// # Units
/// Hz; n in 1/min.
/// # Source
/// Counting.
#[must_use]
pub fn tooth_frequency(speed: f64, flutes: f64) -> f64 {
    speed * flutes / 60.0
}

formulas! {
    "rotation" {
        permissible_unbalance(grade, mass, speed);
        run_out_at_tip(run_out, distance, stick_out);
        neighbour_difference(run_out, flutes);
        thickest_chip(feed, width, diameter);
        run_out_share(difference, chip);
        speed_of_teeth(frequency, flutes);
        tooth_frequency(speed, flutes);
        grade_at(grade, balanced_at, speed);
    } {}
}
