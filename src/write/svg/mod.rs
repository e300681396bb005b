//! A longitudinal section of one assembly as SVG, true to scale in both directions: one unit of the
//! drawing is one millimetre. What is assumed is dashed; what is not known is not drawn.

mod bench;
mod marks;
mod stress_band;

use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::json::{At, Drawn, Outlined, Span, Stretch};
pub(super) use bench::setting;
pub(super) use marks::escaped;
use marks::{Canvas, Dimension, Pen, n};

/// What is drawn besides the shapes.
pub(super) struct Labels<'a> {
    /// The assembly, as tests and readers find it.
    pub assembly: &'a str,
    /// The stick-out that is advised, mm.
    pub recommended: Option<f64>,
    /// The units that its people read.
    pub units: DisplayUnits,
    /// How far all drawings go to the right that it is shown beside, mm from the tip: all have one
    /// scale, and their texts are larger and fewer.
    pub beside: Option<f64>,
}

/// Lines and fills, for light and for dark; a page has them once.
pub(super) const STYLE: &str = include_str!("drawing.css");

/// The hatchings of drawings, once in a page: cut metal in thin lines at 45°, neighbours the
/// other way or closer, and crossed where a gripping length holds nothing.
pub(super) const HATCHINGS: &str = include_str!("hatchings.svg");

/// The drawing as a file of its own, with its lines and fills.
pub(super) fn document(drawn: &Drawn, labels: &Labels<'_>) -> Option<String> {
    let drawing = drawing(drawn, labels)?;
    let (tag, rest) = drawing.split_once('>')?;
    Some(format!(
        "{tag} xmlns=\"http://www.w3.org/2000/svg\"><style>{STYLE}</style>{HATCHINGS}{rest}\n"
    ))
}

/// The half widths, lengths and sizes that all marks of a drawing share.
struct Frame {
    /// The furthest right that anything is drawn, mm from the tip.
    right: f64,
    /// The greatest radius, mm.
    radius: f64,
    /// The size of texts, mm.
    size: f64,
}

/// The drawing; `None` if nothing of the cutter is known.
pub(super) fn drawing(drawn: &Drawn, labels: &Labels<'_>) -> Option<String> {
    drawn.cutter.first()?;
    let frame = Frame::of(drawn, labels);
    let mut canvas = Canvas::default();
    shapes(drawn, &frame, &mut canvas);
    let reach = frame.radius + frame.size;
    marks(drawn, labels, &frame, reach, &mut canvas);
    dimensions(drawn, labels, &frame, &mut canvas);
    let below = match (&drawn.stress, labels.beside.is_some()) {
        (None, false) => 8.5,
        (None, true) => 3.0,
        (Some(stress), is_small) => {
            let at = if is_small { 2.6 } else { 9.4 };
            let top = frame.radius + frame.size * at;
            at + stress_band::scale(stress, top, frame.size, is_small, &mut canvas)
        }
    };
    let above = frame.radius + frame.size * if is_moved(drawn, labels) { 8.4 } else { 6.6 };
    let below = frame.radius + frame.size * below;
    // A value that is longer than its line goes on at the right.
    let right = if labels.beside.is_some() { 7.0 } else { 3.0 };
    Some(framed(
        &canvas,
        &frame,
        (above, below),
        (3.0, right),
        labels.assembly,
    ))
}

/// What is there: holder, nut, collet and cutter, what grips, and the axis.
fn shapes(drawn: &Drawn, frame: &Frame, canvas: &mut Canvas) {
    around(drawn, frame, canvas);
    for part in &drawn.cutter {
        stretch(part, canvas);
    }
    flats(drawn, canvas);
    stress_band::band(drawn, frame, canvas);
    grip(drawn, canvas);
    canvas.line(
        (-frame.size, 0.0),
        (frame.right + frame.size, 0.0),
        Pen::Axis,
    );
}

/// The drawing with its margins: above and below in mm, those at the sides in sizes of texts.
fn framed(
    canvas: &Canvas,
    frame: &Frame,
    (above, below): (f64, f64),
    (left, right): (f64, f64),
    assembly: &str,
) -> String {
    let (left, right) = (frame.size * left, frame.size * right);
    let name = escaped(assembly);
    format!(
        "<svg class=\"draw\" role=\"img\" data-assembly=\"{name}\" viewBox=\"{} {} {} {}\" aria-label=\"section of {name}\">{}</svg>",
        n(-left),
        n(-above),
        n(frame.right + left + right),
        n(above + below),
        canvas.drawn()
    )
}

impl Frame {
    /// A dimension between two places, its line so far from the axis.
    fn dimension(
        &self,
        (fact, label): (&str, &str),
        (from, to): (At, At),
        at: f64,
        canvas: &mut Canvas,
    ) {
        let dimension = Dimension {
            fact,
            from: from.z,
            to: to.z,
            at,
            edge: self.radius * 0.6 * at.signum(),
            label,
            is_assumed: from.assumed || to.assumed,
        };
        canvas.dimension(&dimension, self.size);
    }

    fn of(drawn: &Drawn, labels: &Labels<'_>) -> Frame {
        let all = [rightmost(drawn)].into_iter().chain(labels.recommended);
        let right = all.chain(labels.beside).fold(10.0, f64::max);
        let radii = drawn.around.iter().flat_map(|one| [one.front, one.rear]);
        let own = drawn.cutter.iter().flat_map(|one| [one.front, one.rear]);
        let radius = radii.chain(own).flatten().fold(6.0, f64::max) / 2.0;
        Frame {
            right,
            radius,
            size: (right / if labels.beside.is_some() { 24.0 } else { 38.0 }).clamp(1.2, 10.0),
        }
    }
}

/// The furthest right that anything of it lies, mm from the tip.
pub(super) fn rightmost(drawn: &Drawn) -> f64 {
    let cutter = drawn.cutter.iter().map(|part| part.span.to);
    let around = drawn
        .around
        .iter()
        .map(|one| one.to.map_or(one.from.z, |to| to.z));
    let marks = [drawn.tail, drawn.face, drawn.stop];
    let marks = marks.into_iter().flatten().map(|mark| mark.z);
    cutter.chain(around).chain(marks).fold(0.0, f64::max)
}

/// Holder, nut and collet, from the outside inwards.
fn around(drawn: &Drawn, frame: &Frame, canvas: &mut Canvas) {
    let find = |of: &str| drawn.around.iter().find(|one| one.of == of);
    for (of, class) in [("body", "metal"), ("nose", "metal"), ("nut", "metal2")] {
        if let Some(one) = find(of) {
            outline(one, class, frame, canvas);
        }
    }
    if let Some(socket) = find("socket") {
        outline(socket, "void", frame, canvas);
        if let Some(collet) = find("collet") {
            in_socket(socket, collet, canvas);
        }
    }
    let (Some(collet), Some(land)) = (find("collet"), &drawn.land) else {
        return;
    };
    let end = collet.to.map_or(land.from.z, |to| to.z);
    let bore = land.bore_diameter.map(|bore| bore / 2.0);
    if let Some(bore) = bore {
        canvas.band("void", (collet.from.z, end), (bore, bore));
        let pen = Pen::of(land.from.assumed);
        canvas.edges((collet.from.z, end), (bore, bore), pen);
        if let Some(to) = land.to {
            // Behind and before its land a collet is relieved: how deep, nobody states.
            let relief = frame.size * 0.25;
            for (from, to) in [(collet.from.z, land.from.z), (to.z, end)] {
                if to - from > 0.05 {
                    canvas.edges((from, to), (bore + relief, bore + relief), Pen::Assumed);
                }
            }
        }
    }
}

/// A closed collet fills its socket, as far as it goes into it.
fn in_socket(socket: &Outlined, collet: &Outlined, canvas: &mut Canvas) {
    let (Some(front), Some(rear), Some(end), Some(to)) =
        (socket.front, socket.rear, socket.to, collet.to)
    else {
        return;
    };
    let (from, to) = (socket.from.z.max(collet.from.z), to.z.min(end.z));
    let whole = end.z - socket.from.z;
    if to <= from || whole <= 0.0 {
        return;
    }
    let taper = (rear - front) / whole;
    let at = |z: f64| (z - socket.from.z).mul_add(taper, front) / 2.0;
    canvas.band("collet", (from, to), (at(from), at(to)));
    for z in [from, to] {
        canvas.line((z, -at(z)), (z, at(z)), Pen::of(collet.assumed));
    }
}

/// An outline, open where how far it goes is not known.
fn outline(one: &Outlined, class: &str, frame: &Frame, canvas: &mut Canvas) {
    let (Some(front), Some(rear)) = (one.front.or(one.rear), one.rear.or(one.front)) else {
        return;
    };
    let (front, rear) = (front / 2.0, rear / 2.0);
    // How long a nut is nobody states; a holder goes on behind the tool.
    let open = match one.of.as_ref() {
        "nut" => one.from.z + frame.size * 4.0,
        _ => frame.right,
    };
    let open = open.min(frame.right + frame.size);
    let to = one.to.map_or(open.max(one.from.z), |to| to.z);
    canvas.band(class, (one.from.z, to), (front, rear));
    let pen = Pen::of(one.assumed || one.from.assumed);
    canvas.edges((one.from.z, to), (front, rear), pen);
    canvas.line((one.from.z, -front), (one.from.z, front), pen);
    if let Some(to) = one.to {
        canvas.line(
            (to.z, -rear),
            (to.z, rear),
            Pen::of(one.assumed || to.assumed),
        );
    }
}

/// A stretch of the cutter, which as a shaft is not cut.
fn stretch(part: &Stretch, canvas: &mut Canvas) {
    let (Some(front), Some(rear)) = (part.front.or(part.rear), part.rear.or(part.front)) else {
        return;
    };
    let (front, rear) = (front / 2.0, rear / 2.0);
    let class = if part.of == "flutes" {
        "flutes"
    } else {
        "tool"
    };
    let Span { from, to, assumed } = part.span;
    canvas.band(class, (from, to), (front, rear));
    let pen = Pen::of(assumed || part.of == "not stated");
    canvas.edges((from, to), (front, rear), pen);
    canvas.line((from, -front), (from, front), pen);
    canvas.line((to, -rear), (to, rear), pen);
    if part.of == "flutes" {
        let pitch = (front * 2.0).max(2.0);
        let mut at = from;
        while at + pitch * 0.5 < to {
            canvas.line((at, front), ((at + pitch * 0.5).min(to), -front), Pen::Thin);
            at += pitch * 0.5;
        }
    }
}

/// The drive flats of the shank, seen from the side; of one whose depth is not known only the ends.
fn flats(drawn: &Drawn, canvas: &mut Canvas) {
    let shank = drawn.cutter.iter().find(|part| part.of == "shank");
    let Some(half) = shank.and_then(|shank| shank.front).map(|front| front / 2.0) else {
        return;
    };
    for flat in &drawn.flats {
        let Span { from, to, assumed } = flat.span;
        let pen = Pen::of(assumed);
        let bottom = half - flat.depth.unwrap_or(half * 0.2);
        if flat.depth.is_some() {
            canvas.box_of("void", (from, bottom), (to - from, half - bottom));
            canvas.line((from, bottom), (to, bottom), pen);
        }
        for at in [from, to] {
            canvas.line((at, bottom), (at, half), pen);
        }
    }
}

/// Which part of the gripping length grips, and which does not.
fn grip(drawn: &Drawn, canvas: &mut Canvas) {
    let Some((land, to)) = drawn.land.as_ref().and_then(|land| Some((land, land.to?))) else {
        return;
    };
    // A collet that grips has closed on the shank.
    let shank = drawn.cutter.iter().find(|part| part.of == "shank");
    let shank = shank.and_then(|shank| shank.front);
    let Some(bore) = land.bore_diameter.or(shank).map(|bore| bore / 2.0) else {
        return;
    };
    let thick = (bore * 0.16).max(0.5);
    let mut stretch = |from: f64, to: f64, held: bool| {
        if to - from < 0.01 {
            return;
        }
        for side in [-bore - thick, bore] {
            let class = if held { "held" } else { "missing" };
            canvas.box_of(class, (from, side), (to - from, thick));
        }
    };
    match (drawn.grip.state.as_ref(), drawn.grip.span) {
        ("over", Some(grip)) => {
            stretch(land.from.z, grip.from, false);
            stretch(grip.from, grip.to, true);
            stretch(grip.to, to.z, false);
        }
        ("nothing", _) => stretch(land.from.z, to.z, false),
        _ => {}
    }
}

/// Faces, the stop, the work's surface, and where the tool should be set.
fn marks(drawn: &Drawn, labels: &Labels<'_>, frame: &Frame, reach: f64, canvas: &mut Canvas) {
    let size = frame.size;
    if let Some(stop) = drawn.stop {
        let half = frame.radius * 0.35;
        canvas.line((stop.z, -half), (stop.z, half), Pen::of(stop.assumed));
        canvas.text("mid", (stop.z, half + size), size * 0.85, "stop");
    }
    if let Some(work) = &drawn.workpiece {
        let own = |mark: At, class: &str, text: &str, at: f64, canvas: &mut Canvas| {
            canvas.marked(class, (mark.z, -reach), (mark.z, reach + size * 1.2));
            let gap = size * 0.3;
            let (beside, anchor) = match class {
                "work" => (-gap, "end"),
                _ => (gap, "start"),
            };
            canvas.text(anchor, (mark.z + beside, reach + at), size * 0.85, text);
        };
        own(work.surface, "work", "work's surface", size, canvas);
        if let Some(keep) = work
            .keep_above
            .filter(|keep| (keep.z - work.surface.z).abs() > 0.05)
        {
            own(keep, "thin", "shortest for the reach", size * 2.0, canvas);
        }
    }
    if let Some(at) = labels.recommended.filter(|_| is_moved(drawn, labels)) {
        canvas.marked("want", (at, -reach - size * 5.6), (at, reach));
        let shown = print::value(at, Unit::Mm, labels.units);
        let text = format!("set to {shown}");
        canvas.text("mid", (at, -reach - size * 6.0), size, &text);
    }
}

/// Whether it should be set otherwise than it is.
fn is_moved(drawn: &Drawn, labels: &Labels<'_>) -> bool {
    let own = drawn.face.map(|face| face.z);
    let wanted = labels.recommended;
    wanted.is_some_and(|at| own.is_none_or(|face| (face - at).abs() > 0.05))
}

fn dimensions(drawn: &Drawn, labels: &Labels<'_>, frame: &Frame, canvas: &mut Canvas) {
    let Frame { radius, size, .. } = *frame;
    let value = |length: f64| print::value(length, Unit::Mm, labels.units);
    let one = |fact: &str, name: &str, (from, to): (At, At), at: f64, canvas: &mut Canvas| {
        let label = format!("{name} {}", value((to.z - from.z).abs()));
        frame.dimension((fact, &label), (from, to), at, canvas);
    };
    let tip = At {
        z: 0.0,
        assumed: false,
    };
    if let Some(face) = drawn.face {
        one(
            "stick_out",
            "stick-out",
            (tip, face),
            -radius - size * 2.5,
            canvas,
        );
    }
    if let Some(tail) = drawn.tail.filter(|_| labels.beside.is_none()) {
        one(
            "overall_length",
            "overall length",
            (tip, tail),
            radius + size * 7.5,
            canvas,
        );
    }
    if let Some((land, to)) = drawn
        .land
        .as_ref()
        .and_then(|land| Some((land.from, land.to?)))
        .filter(|_| labels.beside.is_none())
    {
        one(
            "bore_length",
            "gripping length",
            (land, to),
            radius + size * 5.0,
            canvas,
        );
    }
    if let ("over", Some(Span { from, to, assumed })) = (drawn.grip.state.as_ref(), drawn.grip.span)
    {
        let mark = |z: f64| At { z, assumed };
        one(
            "gripped_length",
            "gripped",
            (mark(from), mark(to)),
            -radius - size * 4.8,
            canvas,
        );
    }
}
