//! Bending: a stepped cantilever, built in at the front face.
//!
//! Left out: the clamp, the holder and the spindle, which give too. So a deflection is a lower
//! bound and a frequency an upper one.

#![expect(
    clippy::indexing_slicing,
    reason = "every index runs below the number of nodes"
)]

use std::f64::consts::PI;

use super::band::Band;

/// One length of one diameter, from the tip on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Length, mm.
    pub length: f64,
    /// Diameter that carries, mm.
    pub diameter: f64,
    /// Young's modulus, MPa.
    pub modulus: f64,
    /// Density, kg/m³.
    pub density: f64,
}

impl Step {
    /// Second moment of area, mm⁴.
    fn inertia(self) -> f64 {
        PI * self.diameter.powi(4) / 64.0
    }

    /// Mass per length in t/mm, which with N and mm gives Hz.
    fn mass(self) -> f64 {
        self.density * 1e-12 * PI * self.diameter.powi(2) / 4.0
    }
}

/// Deflection of the tip under a side force at the tip.
///
/// # Formula
/// δ = Σ F (x_b³ − x_a³) / (3 E I), I = π d⁴/64, x from the tip to the ends of each step
/// # Units
/// mm; force in N.
/// # Source
/// Bernoulli beam; for two equal halves the mechanics textbook's
/// F L³/(24 E) (1/I_tip + 7/I_root), e.g. Gere, Mechanics of Materials.
#[must_use]
pub fn tip_deflection(steps: &[Step], force: f64) -> f64 {
    let mut from = 0.0;
    let mut deflection = 0.0;
    for step in steps {
        let to: f64 = from + step.length;
        deflection += force * (to.powi(3) - from.powi(3)) / (3.0 * step.modulus * step.inertia());
        from = to;
    }
    deflection
}

/// Side stiffness at the tip.
///
/// # Formula
/// k = F / δ, δ as in [`tip_deflection`]
/// # Units
/// N/mm.
/// # Source
/// As [`tip_deflection`]; one step: 3 E I / L³.
#[must_use]
pub fn tip_stiffness(steps: &[Step]) -> f64 {
    1.0 / tip_deflection(steps, 1.0)
}

/// Elements that each step is divided into.
const PARTS: usize = 6;
/// Rounds of inverse iteration; each takes off a factor of about forty for a cantilever.
const ROUNDS: usize = 12;

/// First natural frequency.
///
/// # Formula
/// K x = ω² M x with cubic beam elements and consistent mass; inverse iteration. For one step
/// f = (β L)² / (2π) √(E I / (m L⁴)), β L = 1.875104
/// # Units
/// Hz.
/// # Source
/// S. Timoshenko, Vibration Problems in Engineering; consistent mass: J. S. Archer 1963.
#[must_use]
pub fn first_frequency(steps: &[Step]) -> f64 {
    let count = steps.len() * PARTS;
    let size = 2 * count + 2;
    let (mut stiffness, mut mass) = (Band::new(size), Band::new(size));
    // From the root, so that the unknowns to be fixed are the first two.
    for (at, step) in steps.iter().rev().enumerate() {
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let length = step.length / PARTS as f64;
        for part in 0..PARTS {
            let first = 2 * (at * PARTS + part);
            stiffness.add(first, &stiff(length, step.modulus * step.inertia()));
            mass.add(first, &heavy(length, step.mass()));
        }
    }
    stiffness.fix(0);
    stiffness.fix(1);
    let factor = stiffness.factor();
    let mut shape = vec![0.0; size];
    shape[size - 2] = 1.0;
    let mut square = 0.0;
    for _ in 0..ROUNDS {
        let pushed = mass.times(&shape);
        let next = factor.solve(&pushed);
        let weight = |a: &[f64], b: &[f64]| -> f64 { a.iter().zip(b).map(|(a, b)| a * b).sum() };
        square = weight(&next, &pushed) / weight(&next, &mass.times(&next));
        let size = next
            .iter()
            .fold(0.0, |most: f64, value| most.max(value.abs()));
        shape = next.into_iter().map(|value| value / size).collect();
    }
    square.sqrt() / (2.0 * PI)
}

/// Stiffness of a cubic beam element over deflection and slope at both ends.
fn stiff(l: f64, bending: f64) -> [[f64; 4]; 4] {
    let k = bending / l.powi(3);
    [
        [12.0, 6.0 * l, -12.0, 6.0 * l],
        [6.0 * l, 4.0 * l * l, -6.0 * l, 2.0 * l * l],
        [-12.0, -6.0 * l, 12.0, -6.0 * l],
        [6.0 * l, 2.0 * l * l, -6.0 * l, 4.0 * l * l],
    ]
    .map(|row| row.map(|value| value * k))
}

/// Consistent mass of the same element.
fn heavy(l: f64, mass: f64) -> [[f64; 4]; 4] {
    let m = mass * l / 420.0;
    [
        [156.0, 22.0 * l, 54.0, -13.0 * l],
        [22.0 * l, 4.0 * l * l, 13.0 * l, -3.0 * l * l],
        [54.0, 13.0 * l, 156.0, -22.0 * l],
        [-13.0 * l, -3.0 * l * l, -22.0 * l, 4.0 * l * l],
    ]
    .map(|row| row.map(|value| value * m))
}
