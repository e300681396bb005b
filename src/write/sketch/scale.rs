//! From millimetres to columns.

use crate::sheet::{Drawing, Mark};

use super::canvas::COLUMNS;

/// Nothing that a collet holds is longer, mm; beyond it a number would not fit its label.
pub(super) const LONGEST: f64 = 1e5;
/// What lies further away than this part of the drawing's length would make the rest too small.
const FARTHEST: f64 = 0.25;

/// Which column a place falls on.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    from: f64,
    to: f64,
}

impl Scale {
    /// The scale on which all that matters is seen; none where too little is known to draw it:
    /// the front face, and how far the tool or the land goes behind it.
    pub(super) fn of(drawing: &Drawing) -> Option<Scale> {
        let land = drawing.land.as_ref();
        let face = drawing.face?;
        let behind = [drawing.tail, land.and_then(|land| land.to)];
        behind.iter().flatten().next()?;
        let places = behind.into_iter().chain([
            Some(Mark::TIP),
            Some(face),
            land.map(|land| land.from),
            drawing.cutter.last().map(|part| Mark {
                z: part.span.to,
                ..Mark::TIP
            }),
        ]);
        let places: Vec<f64> = places.flatten().map(|mark| mark.z).collect();
        let from = places.iter().copied().fold(0.0, f64::min);
        let to = places.iter().copied().fold(0.0, f64::max);
        let possible = from > -LONGEST && to < LONGEST && to > from;
        possible.then(|| {
            Scale { from, to }.with(&[drawing.collet_end, drawing.stop, keep_above(drawing)])
        })
    }

    /// Room for what is good to see too, if it is not too far away.
    fn with(self, more: &[Option<Mark>]) -> Scale {
        let far = self.to + FARTHEST * (self.to - self.from);
        let near = more.iter().flatten().map(|mark| mark.z);
        let near = near.filter(|z| *z <= far);
        Scale {
            to: near.fold(self.to, f64::max),
            ..self
        }
    }

    /// Whether a place is on the drawing.
    pub(super) fn shows(&self, mark: Mark) -> bool {
        (self.from..=self.to).contains(&mark.z)
    }

    /// The column nearest to a place. The last column is kept free: a stop may touch the tail.
    pub(super) fn column(&self, z: f64) -> usize {
        let at = (z - self.from) / (self.to - self.from) * f64::from(COLUMNS - 2);
        let off = |column: &u16| (f64::from(*column) - at).abs();
        let nearest = (0..COLUMNS - 1).min_by(|a, b| off(a).total_cmp(&off(b)));
        usize::from(nearest.unwrap_or(0))
    }
}

/// Where the front face must stay for the job.
pub(super) fn keep_above(drawing: &Drawing) -> Option<Mark> {
    drawing.workpiece.and_then(|work| work.keep_above)
}
