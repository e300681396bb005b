//! The drawing for a card of a few centimetres: no job and no model, and only the lengths that are set
//! at the bench, in larger letters.

use crate::units::Unit;
use crate::units::print;

use super::super::json::{At, Drawn};
use super::marks::{Canvas, Pen};
use super::{Frame, Labels, framed, shapes};

/// The drawing with the stick-out, and with what is behind the face if that is marked; `None` if
/// nothing of the cutter is known.
pub(in crate::write) fn setting(
    drawn: &Drawn,
    labels: &Labels<'_>,
    is_marked: bool,
) -> Option<String> {
    drawn.cutter.first()?;
    let whole = Frame::of(drawn, labels);
    let frame = Frame {
        size: (whole.right / 20.0).max(whole.radius / 5.0),
        ..whole
    };
    let alone = Drawn {
        workpiece: None,
        stress: None,
        ..drawn.clone()
    };
    let mut canvas = Canvas::default();
    shapes(&alone, &frame, &mut canvas);
    stop(&alone, &frame, &mut canvas);
    dimensions(&alone, labels, &frame, is_marked, &mut canvas);
    let above = frame.radius + frame.size * 3.4;
    let below = frame.radius + frame.size * 2.8;
    Some(framed(
        &canvas,
        &frame,
        (above, below),
        (1.2, 2.4),
        labels.assembly,
    ))
}

/// The stop, and its name above all that is drawn: no edge runs behind the word.
fn stop(drawn: &Drawn, frame: &Frame, canvas: &mut Canvas) {
    let Some(stop) = drawn.stop else { return };
    let half = frame.radius * 0.35;
    let top = -frame.radius - frame.size * 0.2;
    canvas.line((stop.z, -half), (stop.z, half), Pen::of(stop.assumed));
    canvas.line((stop.z, top), (stop.z, -half), Pen::Thin);
    let at = (stop.z, top - frame.size * 0.2);
    canvas.text("mid", at, frame.size * 0.85, "stop");
}

/// The recorded stick-out, and how much of the tool is behind the face: where its mark is.
fn dimensions(
    drawn: &Drawn,
    labels: &Labels<'_>,
    frame: &Frame,
    is_marked: bool,
    canvas: &mut Canvas,
) {
    let Frame { radius, size, .. } = *frame;
    let Some(face) = drawn.face else { return };
    let tip = At {
        z: 0.0,
        assumed: false,
    };
    let tail = drawn.tail.filter(|tail| is_marked && tail.z > face.z);
    let mut one = |fact: &str, (from, to): (At, At), at: f64| {
        let label = print::value(to.z - from.z, Unit::Mm, labels.units);
        frame.dimension((fact, &label), (from, to), at, canvas);
    };
    one("stick_out", (tip, face), -radius - size * 1.6);
    if let Some(tail) = tail {
        one("insertion", (face, tail), radius + size * 2.2);
    }
}
