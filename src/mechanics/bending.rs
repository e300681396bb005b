//! Bending: a stepped cantilever, built in at the front face.
//!
//! Left out: the clamp, the holder and the spindle, which give too. So a stiffness and a
//! frequency are at the high end of what they may be, and a deflection is at its low end.

#![expect(
    clippy::indexing_slicing,
    reason = "every index runs below the number of nodes"
)]

use std::f64::consts::PI;

use super::band::Band;
use super::by_name::{Given, formulas};

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

/// A stepped beam, to be asked for many heights.
pub struct Beam(Vec<Flexible>);

/// A step with what of it does not depend on the height.
struct Flexible {
    from: f64,
    to: f64,
    /// E I, N·mm².
    rigidity: f64,
}

impl From<&[Step]> for Beam {
    /// From its steps, from the tip on.
    fn from(steps: &[Step]) -> Beam {
        let mut from = 0.0;
        let flexible = steps.iter().map(|step| {
            let start = from;
            from += step.length;
            Flexible {
                from: start,
                to: from,
                rigidity: step.modulus * step.inertia(),
            }
        });
        Beam(flexible.collect())
    }
}

impl Beam {
    /// Deflection of the tip under one newton at a height above it.
    ///
    /// # Formula
    /// c = Σ 1/(E I) [x³/3 − a x²/2] over each step from a on, I = π d⁴/64, x from the tip; for
    /// one step (L − a)² (2 L + a) / (6 E I)
    /// # Units
    /// mm/N; a in mm, 0 at the tip.
    /// # Source
    /// Bernoulli beam: the moment of the force, x − a, times that of one newton at the tip, x.
    #[must_use]
    pub fn compliance(&self, height: f64) -> f64 {
        let primitive = |x: f64| x * x * (x / 3.0 - height / 2.0);
        let parts = self.0.iter().map(|step| {
            let start = step.from.max(height).min(step.to);
            (primitive(step.to) - primitive(start)) / step.rigidity
        });
        parts.sum()
    }
}

/// Deflection of the tip under a side force at a height above it.
///
/// # Formula
/// δ = F c, c as in [`Beam::compliance`]; at the tip Σ F (x_b³ − x_a³) / (3 E I), x from the tip to the ends of each step
/// # Units
/// mm; force in N, height in mm.
/// # Source
/// As there; for two equal halves the mechanics textbook's
/// F L³/(24 E) (1/I_tip + 7/I_root), e.g. Gere, Mechanics of Materials.
#[must_use]
pub fn tip_deflection(steps: &[Step], force: f64, height: f64) -> f64 {
    force * Beam::from(steps).compliance(height)
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
    1.0 / Beam::from(steps).compliance(0.0)
}

/// A step shorter than this part of its diameter is a sliver: lengths rounded in another unit
/// leave such between two that were meant to meet, and no beam is that short.
const SLIVER: f64 = 0.01;

/// The steps with slivers given to the neighbour at the root's side, or the last one to the tip's.
fn without_slivers(steps: &[Step]) -> Vec<Step> {
    let mut kept: Vec<Step> = Vec::new();
    let mut left_over = 0.0;
    for step in steps {
        let step = Step {
            length: step.length + left_over,
            ..*step
        };
        left_over = if step.length < SLIVER * step.diameter {
            step.length
        } else {
            kept.push(step);
            0.0
        };
    }
    match kept.last_mut() {
        Some(last) => last.length += left_over,
        None => kept.extend_from_slice(steps),
    }
    kept
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
/// S. Timoshenko, Vibration Problems in Engineering; consistent mass: J. S. Archer 1963. Steps
/// shorter than a hundredth of their diameter count with their neighbour.
#[must_use]
pub fn first_frequency(steps: &[Step]) -> f64 {
    let steps = without_slivers(steps);
    if steps.is_empty() {
        return f64::NAN;
    }
    let count = steps.len() * PARTS;
    let size = 2 * count + 2;
    let (mut stiffness, mut mass) = (Band::new(size), Band::new(size));
    // From the root, so that the unknowns that are held fast there are the first two.
    for (at, step) in steps.iter().rev().enumerate() {
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let length = step.length / PARTS as f64;
        for part in 0..PARTS {
            let first = 2 * (at * PARTS + part);
            stiffness.add(first, &stiff(length, step.modulus * step.inertia()));
            mass.add(first, &heavy(length, step.mass()));
        }
    }
    let mass = mass.without_first(2);
    let factor = stiffness.without_first(2).factor();
    let mut shape = vec![0.0; size - 2];
    shape[size - 4] = 1.0;
    let mut square = 0.0;
    for _ in 0..ROUNDS {
        let pushed = mass.times(&shape);
        let next = factor.solve(&pushed);
        let weight = |a: &[f64], b: &[f64]| -> f64 { a.iter().zip(b).map(|(a, b)| a * b).sum() };
        square = weight(&next, &pushed) / weight(&next, &mass.times(&next));
        let most = next
            .iter()
            .fold(0.0, |most: f64, value| most.max(value.abs()));
        shape = next.into_iter().map(|value| value / most).collect();
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

impl Step {
    /// Steps from the tip: `length1`, `diameter1`, `modulus1`, `density1`, and so on; none is no
    /// tool.
    pub(super) fn given(given: Given<'_>) -> Option<Vec<Step>> {
        let all = (1..=9).map_while(|number| {
            let of = |name: &str| given.number(&format!("{name}{number}"));
            Some(Step {
                length: of("length")?,
                diameter: of("diameter")?,
                modulus: of("modulus")?,
                density: of("density").unwrap_or(0.0),
            })
        });
        let all: Vec<Step> = all.collect();
        (!all.is_empty()).then_some(all)
    }
}

formulas! {
    "bending" {} {
        tip_deflection => |given| {
            let height = given.or("height", 0.0);
            Some(tip_deflection(&Step::given(given)?, given.number("force")?, height))
        };
        tip_stiffness => |given| Some(tip_stiffness(&Step::given(given)?));
        first_frequency => |given| Some(first_frequency(&Step::given(given)?));
    }
}
