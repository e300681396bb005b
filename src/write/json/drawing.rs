//! The shapes of an assembly, mm, from the tip towards the tail: enough to draw it without the
//! library. Angles, colours and lines are the drawer's.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::sheet::{
    Around, Drawing, DriveFlat, Extent, Grip, Land, Mark, Outline, Part, PartKind, Stress, Tip,
    Workpiece,
};

/// A half section along the axis, mm; z is 0 at the tip.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Drawing")]
pub(in crate::write) struct Drawn {
    /// The tip of the cutter.
    pub tip: Tipped,
    /// The lengths of the cutter, from the tip.
    pub cutter: Vec<Stretch>,
    /// Drive flats of the shank; only where there are any.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub flats: Vec<Flattened>,
    /// The end of the shank.
    pub tail: Option<At>,
    /// The face from which the stick-out is measured.
    pub face: Option<At>,
    /// Whether that is the face of a nut; else it is the holder's.
    pub face_is_nut: bool,
    /// What can grip the shank.
    pub land: Option<Gripping>,
    /// The end of the collet.
    pub collet_end: Option<At>,
    /// Where the shank is gripped.
    pub grip: Gripped,
    /// What is around the shank.
    pub around: Vec<Outlined>,
    /// The stop behind the tool.
    pub stop: Option<At>,
    /// The stress in the socket.
    #[serde(default)]
    pub stress: Option<Stressed>,
    /// The workpiece, where an operation says how deep the tool goes.
    pub workpiece: Option<Surface>,
}

/// A place on the axis; whether it rests on something assumed.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Mark")]
pub(in crate::write) struct At {
    pub z: f64,
    pub assumed: bool,
}

/// A stretch of the axis; whether it rests on something assumed.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
pub(in crate::write) struct Span {
    pub from: f64,
    pub to: f64,
    pub assumed: bool,
}

/// The tip of a cutter.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Tip")]
pub(in crate::write) struct Tipped {
    /// `square`, `cone` or `round`.
    pub form: Cow<'static, str>,
    /// The length of a cone or the radius of corners.
    pub size: Option<f64>,
}

/// A length of the cutter.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "CutterPart")]
pub(in crate::write) struct Stretch {
    /// What it is, such as `flutes` or `shank`.
    pub of: Cow<'static, str>,
    /// From where to where.
    pub span: Span,
    /// The diameter at its front.
    pub front: Option<f64>,
    /// The diameter at its rear.
    pub rear: Option<f64>,
}

/// A drive flat of the shank; its depth, where it is stated.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Flat")]
pub(in crate::write) struct Flattened {
    pub span: Span,
    pub depth: Option<f64>,
}

impl Flattened {
    fn of(flat: &DriveFlat) -> Flattened {
        Flattened {
            span: Span::of(flat.span),
            depth: flat.depth,
        }
    }
}

/// What can grip the shank; its diameter.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub(in crate::write) struct Gripping {
    pub from: At,
    pub to: Option<At>,
    pub bore_diameter: Option<f64>,
}

/// Where the shank is gripped.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Grip")]
pub(in crate::write) struct Gripped {
    /// `over` the span, `nothing`, `not known`, or `no collet`.
    pub state: Cow<'static, str>,
    /// From where to where.
    pub span: Option<Span>,
    /// For want of what it is not known.
    pub missing: Vec<Cow<'static, str>>,
}

/// What is around the shank.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Outline")]
pub(in crate::write) struct Outlined {
    /// What it is, such as `collet` or `nut`.
    pub of: Cow<'static, str>,
    /// Where it begins.
    pub from: At,
    /// Where it ends; null where that is not known.
    pub to: Option<At>,
    /// The diameter at its front.
    pub front: Option<f64>,
    /// The diameter at its rear.
    pub rear: Option<f64>,
    /// Whether its diameters rest on something assumed.
    pub assumed: bool,
}

/// The surface of the workpiece, and above what the holder must stay.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Workpiece")]
pub(in crate::write) struct Surface {
    pub surface: At,
    pub keep_above: Option<At>,
}

impl Drawn {
    pub(in crate::write) fn of(drawing: &Drawing) -> Drawn {
        Drawn {
            tip: Tipped::of(drawing.tip),
            cutter: drawing.cutter.iter().map(Stretch::of).collect(),
            flats: drawing.flats.iter().map(Flattened::of).collect(),
            tail: drawing.tail.map(At::of),
            face: drawing.face.map(At::of),
            face_is_nut: drawing.face_is_nut,
            land: drawing.land.as_ref().map(Gripping::of),
            collet_end: drawing.collet_end.map(At::of),
            grip: Gripped::of(drawing.grip),
            around: drawing.around.iter().map(Outlined::of).collect(),
            stop: drawing.stop.map(At::of),
            stress: drawing.stress.as_ref().map(Stressed::of),
            workpiece: drawing.workpiece.as_ref().map(Surface::of),
        }
    }
}

/// The stress in the socket, a model.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Stress")]
pub(in crate::write) struct Stressed {
    /// Place, mm from the tip, and stress there over that of the mouth with a full grip.
    pub stations: Vec<(f64, f64)>,
    /// Where the grip ends, mm from the tip.
    pub end: f64,
    /// Whether it rests on something assumed.
    pub assumed: bool,
}

impl Stressed {
    fn of(stress: &Stress) -> Stressed {
        Stressed {
            stations: stress.stations.clone(),
            end: stress.end,
            assumed: stress.assumed,
        }
    }
}

impl At {
    fn of(mark: Mark) -> At {
        At {
            z: mark.z,
            assumed: mark.assumed,
        }
    }
}

impl Span {
    fn of(extent: Extent) -> Span {
        Span {
            from: extent.from,
            to: extent.to,
            assumed: extent.assumed,
        }
    }
}

impl Tipped {
    fn of(tip: Tip) -> Tipped {
        let (form, size) = match tip {
            Tip::Square => ("square", None),
            Tip::Cone(length) => ("cone", Some(length)),
            Tip::Round(radius) => ("round", Some(radius)),
        };
        Tipped {
            form: form.into(),
            size,
        }
    }
}

impl Stretch {
    fn of(part: &Part) -> Stretch {
        Stretch {
            of: Cow::Borrowed(match part.kind {
                PartKind::Flutes => "flutes",
                PartKind::Neck => "neck",
                PartKind::RunOut => "run-out",
                PartKind::Shank => "shank",
                PartKind::Square => "square",
                PartKind::Unstated => "not stated",
            }),
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
                let missing = fields.iter().map(|field| field.qualified().into());
                ("not known", None, missing.collect())
            }
            Grip::Nothing => ("nothing", None, Vec::new()),
            Grip::Over(extent) => ("over", Some(Span::of(extent)), Vec::new()),
        };
        Gripped {
            state: state.into(),
            span,
            missing,
        }
    }
}

impl Outlined {
    fn of(outline: &Outline) -> Outlined {
        Outlined {
            of: Cow::Borrowed(match outline.kind {
                Around::Collet => "collet",
                Around::Nut => "nut",
                Around::Socket => "socket",
                Around::Nose => "nose",
                Around::Body => "body",
            }),
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
