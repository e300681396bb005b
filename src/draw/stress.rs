//! The stress that the collet puts into the socket, along its bore.

use crate::facts::{Scene, along_bore};

use super::Mark;
use super::around::holder_front;

/// The stress along the socket's bore, as the mouth's model has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Stress {
    /// Where it is worked out, mm from the tip, and what it is there: a multiple of what a full
    /// grip puts into the mouth. The first is the mouth.
    pub stations: Vec<(f64, f64)>,
    /// Where the taper ends, mm from the tip.
    pub end: f64,
    /// Whether its place or its size rests on a value that is only assumed.
    pub assumed: bool,
}

/// None where the socket is not stated, or the model was not checked for it.
pub(super) fn stress(scene: &Scene<'_>) -> Option<Stress> {
    let along = along_bore(scene);
    let assumed = !along.trace.assumed.is_empty();
    let along = along.value?;
    let mouth = Mark::of(holder_front(scene))?;
    let at = |(depth, ratio): &(f64, f64)| (mouth.z + depth, *ratio);
    Some(Stress {
        stations: along.stations.iter().map(at).collect(),
        end: mouth.z + along.end,
        assumed: assumed || mouth.assumed,
    })
}
