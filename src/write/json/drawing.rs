//! The shapes of an assembly, mm, from the tip towards the tail: enough to draw it without the
//! library. Angles, colours and lines are the drawer's.

use serde::Serialize;

use crate::sheet::{
    Around, Drawing, Extent, Grip, Land, Mark, Outline, Part, PartKind, Tip, Workpiece,
};

/// A half section along the axis; z is 0 at the tip.
#[derive(Serialize)]
pub(super) struct Drawn {
    tip: Tipped,
    cutter: Vec<Stretch>,
    tail: Option<At>,
    face: Option<At>,
    face_is_nut: bool,
    land: Option<Gripping>,
    collet_end: Option<At>,
    grip: Gripped,
    around: Vec<Outlined>,
    stop: Option<At>,
    workpiece: Option<Surface>,
}

#[derive(Serialize)]
struct At {
    z: f64,
    assumed: bool,
}

#[derive(Serialize)]
struct Span {
    from: f64,
    to: f64,
    assumed: bool,
}

#[derive(Serialize)]
struct Tipped {
    form: &'static str,
    /// The length of a cone or the radius of corners.
    size: Option<f64>,
}

#[derive(Serialize)]
struct Stretch {
    of: &'static str,
    span: Span,
    front: Option<f64>,
    rear: Option<f64>,
}

#[derive(Serialize)]
struct Gripping {
    from: At,
    to: Option<At>,
    bore_diameter: Option<f64>,
}

#[derive(Serialize)]
struct Gripped {
    state: &'static str,
    span: Option<Span>,
    missing: Vec<&'static str>,
}

#[derive(Serialize)]
struct Outlined {
    of: &'static str,
    from: At,
    to: Option<At>,
    front: Option<f64>,
    rear: Option<f64>,
    assumed: bool,
}

#[derive(Serialize)]
struct Surface {
    surface: At,
    keep_above: Option<At>,
}

impl Drawn {
    pub(super) fn of(drawing: &Drawing) -> Drawn {
        Drawn {
            tip: Tipped::of(drawing.tip),
            cutter: drawing.cutter.iter().map(Stretch::of).collect(),
            tail: drawing.tail.map(At::of),
            face: drawing.face.map(At::of),
            face_is_nut: drawing.face_is_nut,
            land: drawing.land.as_ref().map(Gripping::of),
            collet_end: drawing.collet_end.map(At::of),
            grip: Gripped::of(drawing.grip),
            around: drawing.around.iter().map(Outlined::of).collect(),
            stop: drawing.stop.map(At::of),
            workpiece: drawing.workpiece.as_ref().map(Surface::of),
        }
    }
}

impl At {
    const fn of(mark: Mark) -> At {
        At {
            z: mark.z,
            assumed: mark.assumed,
        }
    }
}

impl Span {
    const fn of(extent: Extent) -> Span {
        Span {
            from: extent.from,
            to: extent.to,
            assumed: extent.assumed,
        }
    }
}

impl Tipped {
    const fn of(tip: Tip) -> Tipped {
        let (form, size) = match tip {
            Tip::Square => ("square", None),
            Tip::Cone(length) => ("cone", Some(length)),
            Tip::Round(radius) => ("round", Some(radius)),
        };
        Tipped { form, size }
    }
}

impl Stretch {
    const fn of(part: &Part) -> Stretch {
        Stretch {
            of: match part.kind {
                PartKind::Flutes => "flutes",
                PartKind::Neck => "neck",
                PartKind::RunOut => "run-out",
                PartKind::Shank => "shank",
                PartKind::Square => "square",
                PartKind::Unstated => "not stated",
            },
            span: Span::of(part.span),
            front: part.front,
            rear: part.rear,
        }
    }
}

impl Gripping {
    fn of(land: &Land) -> Gripping {
        Gripping {
            from: At::of(land.from),
            to: land.to.map(At::of),
            bore_diameter: land.bore_diameter,
        }
    }
}

impl Gripped {
    fn of(grip: Grip) -> Gripped {
        let (state, span, missing) = match grip {
            Grip::NoCollet => ("no collet", None, Vec::new()),
            Grip::Unknown(fields) => {
                let missing = fields.iter().map(crate::sheet::Field::qualified);
                ("not known", None, missing.collect())
            }
            Grip::Nothing => ("nothing", None, Vec::new()),
            Grip::Over(extent) => ("over", Some(Span::of(extent)), Vec::new()),
        };
        Gripped {
            state,
            span,
            missing,
        }
    }
}

impl Outlined {
    fn of(outline: &Outline) -> Outlined {
        Outlined {
            of: match outline.kind {
                Around::Collet => "collet",
                Around::Nut => "nut",
                Around::Socket => "socket",
                Around::Nose => "nose",
                Around::Body => "body",
            },
            from: At::of(outline.from),
            to: outline.to.map(At::of),
            front: outline.front,
            rear: outline.rear,
            assumed: outline.assumed,
        }
    }
}

impl Surface {
    fn of(workpiece: &Workpiece) -> Surface {
        Surface {
            surface: At::of(workpiece.surface),
            keep_above: workpiece.keep_above.map(At::of),
        }
    }
}
