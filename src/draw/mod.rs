//! One assembly as shapes in millimetres, in a half section along its axis; no format.
//!
//! z runs from the tip towards the tail. What is not known is left out, and what rests on an
//! assumed value is marked as assumed, so that whoever draws it can dash it. Everything is asked
//! of a [`Scene`]: a drawing of other stick-outs or parts is one of a scene with overrides.
//!
//! Left out though it might be known: the collet's outer shape, and chamfers; how deep a flat is that
//! slopes or is of no known standard.

mod around;
mod cutter;
mod grip;
mod shape;
mod stress;

pub use shape::{
    Around, DriveFlat, Extent, Grip, Land, Mark, Outline, Part, PartKind, Tip, Workpiece,
};
pub use stress::Stress;

use crate::facts::Scene;
use crate::library::{Field, Kind};

/// Lengths nearer than this, mm, are one.
const SAME: f64 = 0.01;

/// One assembly, with at most one of its operations.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The form of the tip.
    pub tip: Tip,
    /// The cutter from the tip towards the tail, without overlaps or gaps; it ends before the
    /// tail where the overall length is not known.
    pub cutter: Vec<Part>,
    /// The drive flats of the shank, as far as their places are known.
    pub flats: Vec<DriveFlat>,
    /// The tail, that is, the overall length that judges; none if it is not known.
    pub tail: Option<Mark>,
    /// The front face of what clamps the tool, that is, the stick-out; none if it is not known.
    pub face: Option<Mark>,
    /// Whether that face is known to be a nut's.
    pub face_is_nut: bool,
    /// The collet's gripping land; none if its place is not known, or no collet holds the tool.
    pub land: Option<Land>,
    /// The rear end of a collet that drives the tool's square, which must lie before it; none
    /// without a square, or if it is not known.
    pub collet_end: Option<Mark>,
    /// Which part of the land grips.
    pub grip: Grip,
    /// Collet, nut and holder, as far as their dimensions are known.
    pub around: Vec<Outline>,
    /// Whatever stops the tail, with the collet drawn in; none if it is not known.
    pub stop: Option<Mark>,
    /// The stress that the collet puts into the socket; none where it is not worked out.
    pub stress: Option<Stress>,
    /// What the operation asks for; none without an operation, or if its reach is not known.
    pub workpiece: Option<Workpiece>,
}

/// Describes the assembly of a scene.
#[must_use]
pub fn assembly(scene: &Scene<'_>) -> Drawing {
    let cutter = cutter::parts(scene);
    let land = grip::land(scene);
    let held = scene.view.held_in_collet().value == Some(true);
    Drawing {
        tip: cutter::tip(scene),
        grip: grip::grip(scene, land, &cutter),
        cutter,
        flats: cutter::flats(scene),
        tail: Mark::of(scene.view.overall_length()),
        face: Mark::of(scene.field(Field::StickOut)),
        face_is_nut: held && scene.view.names(Kind::Nut),
        land,
        collet_end: around::collet_end(scene),
        around: around::outlines(scene, land),
        stop: around::stop(scene),
        stress: stress::stress(scene),
        workpiece: around::workpiece(scene),
    }
}

impl Drawing {
    /// The parts of the land that grip nothing, from the tip towards the tail; none where the
    /// grip is not known. What is shorter than 0.01 mm is no part: such lengths count as equal.
    #[must_use]
    pub fn ungripped(&self) -> Vec<Extent> {
        let land = self.land.and_then(|land| land.span());
        let (pieces, assumed) = match (land, self.grip) {
            (Some(land), Grip::Nothing) => (vec![(land.from, land.to)], land.assumed),
            (Some(land), Grip::Over(grip)) => {
                let pieces = vec![(land.from, grip.from), (grip.to, land.to)];
                (pieces, grip.assumed || land.assumed)
            }
            _ => (Vec::new(), false),
        };
        let seen = pieces.into_iter().filter(|(from, to)| to - from >= SAME);
        seen.map(|(from, to)| Extent { from, to, assumed })
            .collect()
    }
}
