//! The socket's mouth: what the collet puts into its wall.
//!
//! A Timoshenko beam on a foundation of Lamé rings: slices of a thick cylinder that are not
//! independent but coupled by the wall's bending and shear. Depth z runs from the mouth.
//!
//! The stress is the one that the collet puts in. Left out: the nut's thread pull and flank
//! force, which take off a part that does not depend on the engaged length; the slits of the
//! collet beyond their share of the circumference; yielding. Held against an axisymmetric
//! finite-element reference, 5 sockets by 8 engagements by 2 loadings: mouth hoop −1.3 to
//! +5.4 %, its ratio to full engagement −3.7 to +1.1 %. No measurement of a real holder stands
//! behind it. There is no cliff at two thirds: the curves are smooth.

#![expect(
    clippy::indexing_slicing,
    reason = "every index runs below the number of nodes or elements"
)]

use std::f64::consts::PI;

use super::band::{Band, Factor};
use super::by_name::{Given, formulas};
use super::socket_wall::{Element, elements};

/// Setting angle of the taper, radians: 8° a side, ISO 15488.
pub(super) const ALPHA: f64 = 8.0 * PI / 180.0;
/// Fixed-point corrections of moment and axial force in the wedge.
const CORRECTIONS: usize = 2;

/// A socket: its taper and the outside of its nose.
#[derive(Clone, Debug, PartialEq)]
pub struct Socket {
    /// Diameter of the mouth, mm.
    pub mouth_diameter: f64,
    /// Length of the taper, L, mm.
    pub taper_length: f64,
    /// Outer diameter of the nose and of what follows, each with the depth it begins at, mm;
    /// the first begins at 0.
    pub outside: Vec<(f64, f64)>,
    /// Young's modulus, MPa.
    pub modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
}

/// What sits in the socket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Filling {
    /// Shank diameter, mm.
    pub shank_diameter: f64,
    /// Young's modulus of the shank, MPa.
    pub shank_modulus: f64,
    /// Poisson's ratio of the shank.
    pub shank_poisson: f64,
    /// Young's modulus of the collet, MPa.
    pub collet_modulus: f64,
}

/// How the collet loads the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Loading {
    /// Equal pressure over the engaged length: an upper bound of the stress.
    Uniform,
    /// A rigid wedge on elastic collet and shank: the best estimate.
    Wedge(Filling),
}

/// What the mouth does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mouth {
    /// Hoop stress at the mouth's bore, MPa.
    pub stress: f64,
    /// Radial opening of the mouth, mm.
    pub opening: f64,
}

/// Hoop stress and opening of the mouth when the shank fills the taper from the mouth to
/// `engaged`.
///
/// # Formula
/// ∫ [EI ψ' δψ' + GA (w' − ψ)(δw' − δψ) + (k_r + k_i) w δw] = ∫ [q δw + m δψ − N R' δw'],
/// k_r = r / C_L, C_L = (r/E) [(b² + r²)/(b² − r²) + ν], EI = E t³ R / (12 (1 − ν²)),
/// GA = 5/6 G t R per radian; σ = E w(0)/r_m − ν p(0). Uniform: q = r p. Wedge:
/// p = k_c (δ − w cos α), 1/k_c = r ln(r/a)/(φ E_c) + (1 − ν_s) r/E_s, δ such that ∫ p dA = F_n.
/// # Units
/// MPa and mm; `normal_force` F_n in N, `engaged` in mm, above 0 and up to the taper's length.
/// # Source
/// Timoshenko beam theory on Lamé's thick rings (S. Timoshenko, Strength of Materials, part
/// II); compared with axisymmetric finite elements, see the module.
#[must_use]
pub fn mouth(socket: &Socket, loading: Loading, engaged: f64, normal_force: f64) -> Mouth {
    Model::new(socket, loading, engaged).solve(normal_force)
}

/// The stress at one depth of the socket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Depth behind the mouth, mm, from 0 to the taper's length.
    pub depth: f64,
    /// Hoop stress at the bore, MPa.
    pub stress: f64,
}

/// Hoop stress at the bore from the mouth to the end of the taper, as [`mouth`] has it at the
/// mouth, and in the middle of every element.
///
/// # Formula
/// σ(z) = E w/r − ν p + ν σ_z, σ_z = N/(t R) + E ψ' t/(2 (1 − ν²)): a ring that the wall's bending
/// and thrust along the axis stress too.
/// # Units
/// MPa and mm, as for [`mouth`].
/// # Source
/// Hooke's law on Lamé's thick rings and a Timoshenko beam (S. Timoshenko, Strength of Materials,
/// part II). Held against axisymmetric finite elements at eight depths of three engagements: within
/// 7 % of the stress at the mouth in the whole taper.
#[must_use]
pub fn along(socket: &Socket, loading: Loading, engaged: f64, normal_force: f64) -> Vec<Station> {
    Model::new(socket, loading, engaged).along(normal_force, socket.taper_length)
}

/// Whether the model was checked for such a socket and engagement; if not, why.
///
/// # Formula
/// wall/r_m at the mouth from 0.12 to 0.52, L/r_m from 2 to 3.3, engaged/L at least 0.25
/// # Units
/// ratios; `engaged` in mm.
/// # Source
/// The sockets of the finite-element reference span this; 1e-9 of slack for arithmetic.
#[must_use]
pub fn outside_validity(socket: &Socket, engaged: f64) -> Option<&'static str> {
    let slack = 1e-9;
    let radius = socket.mouth_diameter / 2.0;
    let wall = socket
        .outside
        .first()
        .map_or(0.0, |(outer, _)| outer / 2.0 - radius)
        / radius;
    let length = socket.taper_length / radius;
    if !(0.12 - slack..=0.52 + slack).contains(&wall) {
        Some("the wall at the mouth is thinner or thicker than the model was checked for")
    } else if !(2.0 - slack..=3.3 + slack).contains(&length) {
        Some("the taper is shorter or longer than the model was checked for")
    } else if engaged / socket.taper_length < 0.25 - slack {
        Some("less than a quarter of the taper is engaged, which the model was not checked for")
    } else {
        None
    }
}

/// What a normal force does to the wall.
struct Solved {
    /// Pressure at the mouth, MPa.
    at_mouth: f64,
    /// Pressures in the middle of the elements, MPa.
    pressures: Vec<f64>,
    /// Displacement, mm, and rotation of each node, one after the other.
    displacements: Vec<f64>,
}

struct Model {
    elements: Vec<Element>,
    factor: Factor,
    wedge: bool,
    radius: f64,
    modulus: f64,
    poisson: f64,
}

impl Model {
    fn new(socket: &Socket, loading: Loading, engaged: f64) -> Model {
        let elements = elements(socket, loading, engaged);
        let shear = socket.modulus / 2.0 / (1.0 + socket.poisson);
        let mut matrix = Band::new(2 * elements.len() + 2);
        for (at, element) in elements.iter().enumerate() {
            let bending = socket.modulus * element.wall.powi(3) * element.mean
                / (12.0 * (1.0 - socket.poisson.powi(2)));
            let stiffness = 5.0 / 6.0 * shear * element.wall * element.mean;
            let foundation = element.ring + element.radius * ALPHA.cos() * element.contact;
            matrix.add(
                2 * at,
                &stiffnesses(element.length, bending, stiffness, foundation),
            );
        }
        Model {
            factor: matrix.factor(),
            wedge: matches!(loading, Loading::Wedge(_)),
            radius: socket.mouth_diameter / 2.0,
            modulus: socket.modulus,
            poisson: socket.poisson,
            elements,
        }
    }

    fn solve(&self, normal_force: f64) -> Mouth {
        let solved = self.under(normal_force);
        let opening = solved.displacements[0];
        Mouth {
            stress: self.hoop(self.radius, opening, solved.at_mouth),
            opening,
        }
    }

    fn along(&self, normal_force: f64, taper_length: f64) -> Vec<Station> {
        let solved = self.under(normal_force);
        let stress = self.hoop(self.radius, solved.displacements[0], solved.at_mouth);
        let mut stations = vec![Station { depth: 0.0, stress }];
        let (mut from, mut axial) = (0.0, 0.0);
        for (at, element) in self.elements.iter().enumerate() {
            let (end, pressure) = (from + element.length, solved.pressures[at]);
            if end > taper_length + 1e-9 {
                break;
            }
            let thrust = element.radius * pressure * ALPHA.tan() * element.length;
            let pull = (axial - thrust / 2.0) / (element.wall * element.mean);
            axial -= thrust;
            let node = |of: usize| solved.displacements[2 * at + of];
            let turn = (node(3) - node(1)) / element.length;
            let bend = self.modulus * turn * element.wall / 2.0 / (1.0 - self.poisson.powi(2));
            let middle = f64::midpoint(node(0), node(2));
            let ring = self.hoop(element.radius, middle, pressure);
            stations.push(Station {
                depth: f64::midpoint(from, end),
                stress: ring + self.poisson * (pull + bend),
            });
            from = end;
        }
        stations
    }

    /// Hoop stress at the bore of a ring.
    fn hoop(&self, radius: f64, displacement: f64, pressure: f64) -> f64 {
        self.modulus * displacement / radius - self.poisson * pressure
    }

    /// What a normal force does.
    fn under(&self, normal_force: f64) -> Solved {
        let (mut pressures, mut displacements) = if self.wedge {
            self.wedged()
        } else {
            let pressures = self.each(|element, _| f64::from(u8::from(element.engaged)));
            let displacements = self.displaced(&self.loads(&pressures, &pressures));
            (pressures, displacements)
        };
        // Linear: solved for some force, then scaled to the one asked for.
        let scale = normal_force / self.force(&pressures);
        let at_mouth = match self.elements.first() {
            Some(first) if self.wedge => first.contact * (1.0 - displacements[0] * ALPHA.cos()),
            _ => pressures.first().copied().unwrap_or(0.0),
        } * scale;
        for value in pressures.iter_mut().chain(&mut displacements) {
            *value *= scale;
        }
        Solved {
            at_mouth,
            pressures,
            displacements,
        }
    }

    /// Pressures and displacements of a wedge pushed in by one unit.
    fn wedged(&self) -> (Vec<f64>, Vec<f64>) {
        let pushed = self.each(|element, _| element.contact);
        let none = vec![0.0; pushed.len()];
        let mut displacements = self.displaced(&self.loads(&pushed, &none));
        let mut pressures = self.contact(&displacements);
        for _ in 0..CORRECTIONS {
            displacements = self.displaced(&self.loads(&pushed, &pressures));
            pressures = self.contact(&displacements);
        }
        (pressures, displacements)
    }

    fn each(&self, of: impl Fn(&Element, usize) -> f64) -> Vec<f64> {
        let numbered = self.elements.iter().enumerate();
        numbered.map(|(at, element)| of(element, at)).collect()
    }

    /// Contact pressure where the wall gives way to the wedge.
    fn contact(&self, displacements: &[f64]) -> Vec<f64> {
        self.each(|element, at| {
            let middle = f64::midpoint(displacements[2 * at], displacements[2 * at + 2]);
            element.contact * (1.0 - middle * ALPHA.cos())
        })
    }

    /// Resultant of pressures over the taper's surface, N.
    fn force(&self, pressures: &[f64]) -> f64 {
        let slices = self.elements.iter().zip(pressures);
        let ring = |(element, p): (&Element, &f64)| p * element.radius * element.length;
        2.0 * PI / ALPHA.cos() * slices.map(ring).sum::<f64>()
    }

    /// Right side: `pushing` presses outward; `leaning` makes moment and axial force.
    fn loads(&self, pushing: &[f64], leaning: &[f64]) -> Vec<f64> {
        let mut loads = vec![0.0; 2 * self.elements.len() + 2];
        let mut axial = 0.0;
        for (at, element) in self.elements.iter().enumerate() {
            let out = element.radius * pushing[at];
            let along = element.radius * leaning[at] * ALPHA.tan();
            // Axial force at the element's middle.
            let force = axial - along * element.length / 2.0;
            axial -= along * element.length;
            let moment = along * element.wall / 2.0;
            let bend = force * element.slope;
            loads[2 * at] += out * element.length / 2.0 + bend;
            loads[2 * at + 2] += out * element.length / 2.0 - bend;
            loads[2 * at + 1] += moment * element.length / 2.0;
            loads[2 * at + 3] += moment * element.length / 2.0;
        }
        loads
    }

    fn displaced(&self, loads: &[f64]) -> Vec<f64> {
        self.factor.solve(loads)
    }
}

/// Element matrix over w, ψ at both nodes; shear by one point, so that thin walls do not lock.
fn stiffnesses(length: f64, bending: f64, shear: f64, foundation: f64) -> [[f64; 4]; 4] {
    let turn = [0.0, -1.0 / length, 0.0, 1.0 / length];
    let angle = [-1.0 / length, -0.5, 1.0 / length, -0.5];
    let mut matrix = [[0.0; 4]; 4];
    for i in 0..4 {
        for j in 0..4 {
            let mass = match (i, j) {
                (0, 0) | (2, 2) => length / 3.0,
                (0, 2) | (2, 0) => length / 6.0,
                _ => 0.0,
            };
            matrix[i][j] = length * (bending * turn[i] * turn[j] + shear * angle[i] * angle[j])
                + foundation * mass;
        }
    }
    matrix
}

impl Socket {
    fn given(given: Given<'_>) -> Option<Socket> {
        let mut outside = vec![(given.number("nose")?, 0.0)];
        let body = given.number("body").zip(given.number("nose_length"));
        outside.extend(body);
        Some(Socket {
            mouth_diameter: given.number("mouth")?,
            taper_length: given.number("taper")?,
            outside,
            modulus: given.number("modulus")?,
            poisson: given.number("poisson")?,
        })
    }
}

impl Loading {
    fn wedge(given: Given<'_>) -> Option<Loading> {
        Some(Loading::Wedge(Filling {
            shank_diameter: given.number("shank")?,
            shank_modulus: given.number("shank_modulus")?,
            shank_poisson: given.number("shank_poisson")?,
            collet_modulus: given.number("collet_modulus")?,
        }))
    }
}

fn stress(given: Given<'_>, loading: Loading) -> Option<f64> {
    let socket = Socket::given(given)?;
    let (engaged, force) = (given.number("engaged")?, given.number("normal_force")?);
    Some(mouth(&socket, loading, engaged, force).stress)
}

/// The stress over that of a taper that is engaged over its whole length.
fn ratio(given: Given<'_>, loading: Loading) -> Option<f64> {
    let socket = Socket::given(given)?;
    let force = given.number("normal_force")?;
    let whole = mouth(&socket, loading, socket.taper_length, force).stress;
    Some(stress(given, loading)? / whole)
}

// By one name held against the solid, by the other against the beam solved finely.
formulas! {
    "mouth" {} {
        stress => |given| stress(given, Loading::wedge(given)?);
        beam_stress => |given| stress(given, Loading::wedge(given)?);
        stress_upper => |given| stress(given, Loading::Uniform);
        beam_stress_upper => |given| stress(given, Loading::Uniform);
        ratio => |given| ratio(given, Loading::wedge(given)?);
        ratio_upper => |given| ratio(given, Loading::Uniform);
        stress_at => |given| {
            let socket = Socket::given(given)?;
            let (engaged, force) = (given.number("engaged")?, given.number("normal_force")?);
            let stations = along(&socket, Loading::wedge(given)?, engaged, force);
            let depth = given.number("depth")?;
            let after = stations.iter().position(|station| station.depth >= depth)?;
            let [before, after] = [after.saturating_sub(1), after].map(|at| stations[at]);
            let part = (depth - before.depth) / (after.depth - before.depth).max(1e-12);
            Some(before.stress + (after.stress - before.stress) * part)
        };
        opening => |given| {
            let socket = Socket::given(given)?;
            let (engaged, force) = (given.number("engaged")?, given.number("normal_force")?);
            Some(mouth(&socket, Loading::wedge(given)?, engaged, force).opening)
        };
    }
}
