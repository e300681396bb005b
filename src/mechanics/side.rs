//! What a milling cut does to the tool besides turning it: it pushes sideways and pulls.
//!
//! Left out: run-out, which loads one tooth more than the others; the force along the axis as a
//! moment; the edges under a flat end.

use std::f64::consts::TAU;

use super::arc::{Arc, Slice, mean_of};
use super::bending::{Beam, Step};
use super::by_name::formulas;
use super::cutting::{Cut, Resistance, thickest_force};

/// Edges in the cut at once beyond which the force hardly varies: the mean counts.
const MOST_EDGES: f64 = 64.0;

/// Largest side force of a milling cut over a tooth period.
///
/// # Formula
/// max |Σ F_t (t + k_r n)| over the teeth and slices in the cut, t and n the directions along and
/// across the path of each: √(1 + k_r²) max |Σ F_t e^(iφ)|, F_t = k_c1.1 K (f_z sin φ)^(1 − m_c) Δb
/// # Units
/// N; `radial_share` is k_r = F_r/F_t of one tooth. Teeth that pull against each other take off:
/// the sum of the forces without their directions is no force.
/// # Source
/// Kienzle's force on every slice of every tooth; statics of forces in a plane.
#[must_use]
pub fn side_force(cut: Cut, resistance: Resistance, radial_share: f64) -> f64 {
    SideCut::new(cut, resistance, radial_share).effect(|_| 1.0)
}

/// A milling cut in slices, to be asked for many effects: for what it does to one tool at many
/// stick-outs.
pub struct SideCut {
    /// Force of the thickest chip with its part across, N.
    force: f64,
    depth: f64,
    /// The mean over a tooth period; the grid of instants must not put the peak below it.
    mean: [f64; 2],
    instants: Vec<Vec<Slice>>,
}

impl SideCut {
    /// Slices a cut.
    ///
    /// # Formula
    /// f_z sin φ is the chip of a slice at φ; each edge trails by its lag over the depth
    /// # Units
    /// As [`Cut`]; `radial_share` is k_r = F_r/F_t of one tooth.
    /// # Source
    /// Kienzle's force on every slice of every tooth.
    #[must_use]
    pub fn new(cut: Cut, resistance: Resistance, radial_share: f64) -> SideCut {
        let arc = Arc::new(cut, 1.0 - resistance.mc);
        let (pitch, lag) = (TAU / cut.flutes, cut.lag());
        let instants = if (arc.engaged + lag) / pitch > MOST_EDGES {
            Vec::new()
        } else {
            let instants = arc.instants(pitch);
            instants
                .map(|first| arc.slices(first, pitch, lag))
                .collect()
        };
        SideCut {
            force: thickest_force(cut, resistance) * radial_share.hypot(1.0),
            depth: cut.depth,
            mean: arc.mean(cut.flutes),
            instants,
        }
    }

    /// Largest effect over a tooth period of each slice's force times what one newton does at its
    /// height: a deflection.
    ///
    /// # Formula
    /// √(1 + k_r²) max |Σ F_t e^(iφ) w(z)|, z from the tip up
    /// # Units
    /// N times the unit of w; z in mm.
    /// # Source
    /// As [`side_force`]; a linear beam adds up what each force does.
    #[must_use]
    pub fn effect(&self, per_newton: impl Fn(f64) -> f64) -> f64 {
        let effect = |part: f64| per_newton(part * self.depth);
        let mean = mean_of(&effect);
        let length = |[across, along]: [f64; 2]| across.hypot(along);
        let sum = |slices: &Vec<Slice>| {
            let weighed = slices.iter().map(|slice| slice.weighed(&effect, mean));
            weighed.fold([0.0; 2], |[x, y], [across, along]| [x + across, y + along])
        };
        let all = self.instants.iter().map(|slices| length(sum(slices)));
        all.fold(length(self.mean) * mean.abs(), f64::max) * self.force
    }
}

/// Tangential force of all teeth together, from their torque: what pulls along the axis adds up
/// like it, whatever the directions across.
///
/// # Formula
/// Σ F_t = 2 M / D
/// # Units
/// N; M in N·m, D in mm.
/// # Source
/// Moment of forces at one radius.
#[must_use]
pub fn tangential_force(torque: f64, diameter: f64) -> f64 {
    2e3 * torque / diameter
}

/// Pull of the helix along the axis, if the chip slid off without friction: the high end.
///
/// # Formula
/// F_a = F_t tan λ
/// # Units
/// N; λ, the helix angle, in radians.
/// # Source
/// Geometry of the helix, as for a helical gear: Shigley Eq. 13-40.
#[must_use]
pub fn axial_pull(force: f64, helix: f64) -> f64 {
    force * helix.tan()
}

/// Pull of the helix with the chip's friction on the face, which drags the other way: the low end.
///
/// # Formula
/// F_a = F_t tan i (cos(β − α) − sin β) / (cos(β − α) + tan² i sin β), i the helix angle, α the
/// normal rake, β the friction angle of the chip
/// # Units
/// N; angles in radians.
/// # Source
/// Orthogonal-to-oblique transformation with a chip flow angle equal to the inclination
/// (Stabler 1951): Altintas, Manufacturing Automation.
#[must_use]
pub fn axial_pull_with_friction(force: f64, helix: f64, rake: f64, friction: f64) -> f64 {
    let (slope, across) = (helix.tan(), (friction - rake).cos());
    force * slope * (across - friction.sin()) / (across + slope * slope * friction.sin())
}

formulas! {
    "cutting" {
        tangential_force(torque, diameter);
        axial_pull(force, helix degrees);
        axial_pull_with_friction(force, helix degrees, rake degrees, friction degrees);
    } {
        side_force => |given| Some(side_force(
            Cut::given(given)?,
            Resistance::given(given)?,
            given.number("radial_share")?,
        ));
        side_deflection => |given| {
            let beam = Beam::from(Step::given(given)?.as_slice());
            let (cut, resistance) = (Cut::given(given)?, Resistance::given(given)?);
            let cut = SideCut::new(cut, resistance, given.number("radial_share")?);
            Some(cut.effect(|height| beam.compliance(height)))
        };
    }
}
