//! The wall of a socket, cut into elements along its depth.

#![expect(clippy::indexing_slicing, reason = "two stations at a time")]

use super::mouth::{ALPHA, Filling, Loading, Socket};

/// Elements along the socket.
const ELEMENTS: usize = 40;
/// The wall is modelled to this many taper lengths.
const MODELLED: f64 = 1.5;
/// Part of a collet's circumference that its segments fill.
const FILL: f64 = 0.88;

/// One element: its middle, its length and its section.
#[derive(Clone, Copy, Debug)]
pub(super) struct Element {
    pub length: f64,
    pub radius: f64,
    pub wall: f64,
    /// Mean radius of the wall.
    pub mean: f64,
    /// Slope of the mean radius.
    pub slope: f64,
    pub ring: f64,
    pub engaged: bool,
    /// Contact stiffness of the wedge, MPa/mm; 0 elsewhere.
    pub contact: f64,
}

/// Stations where something changes, and the elements between them.
pub(super) fn elements(socket: &Socket, loading: Loading, engaged: f64) -> Vec<Element> {
    let end = MODELLED * socket.taper_length;
    let mut stations = vec![0.0, engaged, socket.taper_length, end];
    stations.extend(socket.outside.iter().map(|(_, from)| *from));
    stations.retain(|station| (0.0..=end).contains(station));
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    let mut elements = Vec::with_capacity(ELEMENTS + stations.len());
    for pair in stations.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "a small positive count"
        )]
        let count = ((ELEMENTS as f64 * (to - from) / end).round() as usize).max(1);
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let length = (to - from) / count as f64;
        for part in 0..count {
            #[expect(clippy::cast_precision_loss, reason = "a small count")]
            let middle = from + (part as f64 + 0.5) * length;
            elements.push(element(socket, loading, engaged, middle, length));
        }
    }
    elements
}

fn element(socket: &Socket, loading: Loading, engaged: f64, middle: f64, length: f64) -> Element {
    let radius = socket.mouth_diameter / 2.0 - middle * ALPHA.tan();
    let outer = outer_radius(&socket.outside, middle);
    let half = length / 2.0 * (1.0 - 1e-9);
    let widening =
        outer_radius(&socket.outside, middle + half) - outer_radius(&socket.outside, middle - half);
    let wall = outer - radius;
    let (b2, r2) = (outer * outer, radius * radius);
    let compliance = radius / socket.modulus * ((b2 + r2) / (b2 - r2) + socket.poisson);
    let is_engaged = middle < engaged;
    Element {
        length,
        radius,
        wall,
        mean: f64::midpoint(radius, outer),
        slope: (widening / length - ALPHA.tan()) / 2.0,
        ring: radius / compliance,
        engaged: is_engaged,
        contact: match loading {
            Loading::Wedge(filling) if is_engaged => contact_stiffness(radius, filling),
            _ => 0.0,
        },
    }
}

/// Elastic collet and shank between the wall and the axis, MPa/mm.
fn contact_stiffness(radius: f64, filling: Filling) -> f64 {
    let shank = filling.shank_diameter / 2.0;
    let collet = radius * (radius / shank).ln() / (FILL * filling.collet_modulus);
    let core = (1.0 - filling.shank_poisson) * radius / filling.shank_modulus;
    1.0 / (collet + core)
}

/// Outer radius that carries: behind an outward step it grows by 45°.
fn outer_radius(outside: &[(f64, f64)], depth: f64) -> f64 {
    let mut effective = f64::NAN;
    for (diameter, from) in outside.iter().filter(|(_, from)| *from <= depth) {
        let radius = diameter / 2.0;
        effective = if effective.is_nan() || radius <= effective {
            radius
        } else {
            radius.min(effective + (depth - from))
        };
    }
    effective
}
