//! The picture itself: seven rows about the axis.
//!
//! Lengths are to scale. Diameters are not: the shank is three rows, whatever is thinner one,
//! whatever is thicker five, and the collet's land lies on both sides of the shank.

use crate::sheet::{Drawing, Extent, Grip, Part, PartKind, Tip};

use super::canvas::{COLUMNS, Canvas, Ink};
use super::glyphs::Glyphs;
use super::scale::Scale;

/// The row of the axis.
const AXIS: usize = 3;
/// Rows between the axis and the land, and between the axis and the outermost row.
const LAND: usize = 2;
const OUTERMOST: usize = 3;
/// Diameters nearer than this part of the shank's are drawn alike.
const ALIKE: f64 = 0.02;

pub(super) struct Figure<'a> {
    pub drawing: &'a Drawing,
    pub scale: Scale,
    pub glyphs: &'a Glyphs,
}

impl Figure<'_> {
    /// The rows, drawn.
    pub(super) fn drawn(&self) -> Canvas {
        let mut canvas = Canvas::new(2 * OUTERMOST + 1);
        for part in &self.drawing.cutter {
            self.part(part, &mut canvas);
        }
        self.tip(&mut canvas);
        self.face(&mut canvas);
        self.land(&mut canvas);
        self.stop(&mut canvas);
        canvas
    }

    /// How many rows beyond the axis a part has on either side.
    fn half(&self, part: &Part) -> usize {
        let shank = self
            .drawing
            .cutter
            .iter()
            .find(|part| part.kind == PartKind::Shank);
        let shank = shank.and_then(|shank| shank.front);
        let own = match part.kind {
            PartKind::Square => return 0,
            PartKind::Shank | PartKind::Unstated => return 1,
            PartKind::Flutes | PartKind::Neck | PartKind::RunOut => part.front,
        };
        match shank.zip(own) {
            Some((shank, own)) if own < shank * (1.0 - ALIKE) => 0,
            Some((shank, own)) if own > shank * (1.0 + ALIKE) => 2,
            _ => 1,
        }
    }

    fn part(&self, part: &Part, canvas: &mut Canvas) {
        let (first, end) = (
            self.scale.column(part.span.from),
            self.scale.column(part.span.to),
        );
        let half = self.half(part);
        let glyphs = self.glyphs;
        match part.kind {
            PartKind::Flutes => fill(canvas, half, first..end, 1, glyphs.flutes),
            // Every second column: flutes that fade.
            PartKind::RunOut => fill(canvas, half, first + 1..end, 2, glyphs.flutes),
            PartKind::Neck => {
                edges(canvas, half, first..end, glyphs.neck);
            }
            PartKind::Square => fill(canvas, 0, first + 1..end + 1, 1, glyphs.square),
            PartKind::Shank => self.body(part.span, glyphs.edge, canvas),
            PartKind::Unstated => {
                self.body(part.span, glyphs.assumed, canvas);
                canvas.put(AXIS, usize::midpoint(first, end), '?', Ink::Plain);
            }
        }
    }

    /// A body with corners, dashed where its place is only assumed.
    fn body(&self, span: Extent, edge: char, canvas: &mut Canvas) {
        let (first, last) = (self.scale.column(span.from), self.scale.column(span.to));
        let edge = if span.assumed {
            self.glyphs.assumed
        } else {
            edge
        };
        edges(canvas, 1, first..last, edge);
        let [front_above, rear_above, front_below, rear_below] = self.glyphs.corners;
        for (column, above, below) in [
            (first, front_above, front_below),
            (last, rear_above, rear_below),
        ] {
            canvas.put(AXIS - 1, column, above, Ink::Plain);
            canvas.put(AXIS, column, self.glyphs.wall, Ink::Plain);
            canvas.put(AXIS + 1, column, below, Ink::Plain);
        }
    }

    fn tip(&self, canvas: &mut Canvas) {
        let Some(part) = self.drawing.cutter.first() else {
            return;
        };
        let mark = match self.drawing.tip {
            Tip::Square => return,
            Tip::Cone(_) => '<',
            Tip::Round(_) => '(',
        };
        let column = self.scale.column(0.0);
        // A thin tool has one row only, a thick one keeps its flank.
        for away in 1..=self.half(part) {
            canvas.put(AXIS - away, column, ' ', Ink::Plain);
            canvas.put(AXIS + away, column, ' ', Ink::Plain);
        }
        canvas.put(AXIS, column, mark, Ink::Plain);
    }

    /// The front face: the thick line across the drawing, with its name beside it.
    fn face(&self, canvas: &mut Canvas) {
        let Some(face) = self.drawing.face else {
            return;
        };
        let column = self.scale.column(face.z);
        for away in [LAND, OUTERMOST] {
            canvas.put(AXIS - away, column, self.glyphs.face, Ink::Face);
            canvas.put(AXIS + away, column, self.glyphs.face, Ink::Face);
        }
        let name = if self.drawing.face_is_nut {
            "nut face"
        } else {
            "face"
        };
        let right = column + 2;
        let fits = right + name.len() <= usize::from(COLUMNS);
        let start = if fits {
            right
        } else {
            column.saturating_sub(name.len() + 1)
        };
        canvas.text(AXIS - OUTERMOST, start, name);
    }

    fn land(&self, canvas: &mut Canvas) {
        let Some(land) = self.drawing.land else {
            return;
        };
        let face = self.drawing.face.map(|face| face.z);
        let mut first = self.scale.column(land.from.z);
        if face.is_some_and(|face| land.from.z >= face && self.scale.column(face) == first) {
            first += 1;
        }
        let Some(span) = land.span() else {
            edges(canvas, LAND, first..first + 1, '?');
            return;
        };
        for (end, glyph, ink) in self.pieces(span) {
            // What is there is seen, however short.
            let last = self.scale.column(end).max(first + 1);
            for column in first..last {
                canvas.put(AXIS - LAND, column, glyph, ink);
                canvas.put(AXIS + LAND, column, glyph, ink);
            }
            first = last;
        }
    }

    /// The pieces of the land one behind the other: where each ends, and how it is drawn.
    fn pieces(&self, land: Extent) -> Vec<(f64, char, Ink)> {
        let glyphs = self.glyphs;
        let bare = self.drawing.ungripped().into_iter();
        let mut pieces: Vec<_> = bare.map(|span| (span.to, glyphs.bare, Ink::Bare)).collect();
        match self.drawing.grip {
            Grip::NoCollet | Grip::Unknown(_) => {
                pieces.push((land.to, glyphs.open, Ink::Plain));
            }
            Grip::Nothing => {}
            Grip::Over(grip) => pieces.push((grip.to, glyphs.gripped, Ink::Gripped)),
        }
        pieces.sort_by(|a, b| a.0.total_cmp(&b.0));
        pieces
    }

    fn stop(&self, canvas: &mut Canvas) {
        let stop = self.drawing.stop.filter(|stop| self.scale.shows(*stop));
        let Some(stop) = stop else {
            return;
        };
        let mut column = self.scale.column(stop.z);
        let tail = self.drawing.tail.filter(|tail| stop.z >= tail.z);
        if tail.is_some_and(|tail| self.scale.column(tail.z) == column) {
            column += 1;
        }
        fill(canvas, 1, column..column + 1, 1, self.glyphs.stop);
    }
}

/// Fills rows about the axis, every column or every second one.
fn fill(
    canvas: &mut Canvas,
    half: usize,
    columns: std::ops::Range<usize>,
    step: usize,
    glyph: char,
) {
    for column in columns.step_by(step) {
        for row in AXIS - half..=AXIS + half {
            canvas.put(row, column, glyph, Ink::Plain);
        }
    }
}

/// Two rows at the same distance from the axis.
fn edges(canvas: &mut Canvas, half: usize, columns: std::ops::Range<usize>, glyph: char) {
    for column in columns {
        canvas.put(AXIS - half, column, glyph, Ink::Plain);
        canvas.put(AXIS + half, column, glyph, Ink::Plain);
    }
}
