//! The shapes: plain data in millimetres, z along the axis from the tip towards the tail.

use crate::library::{FieldSet, Reckoned};

/// A place on the axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Distance from the tip, mm, finite; negative in front of the tip, where a collet that
    /// stands proud may reach.
    pub z: f64,
    /// Whether it rests on a value that is only assumed.
    pub assumed: bool,
}

impl Mark {
    /// The tip: z = 0 by definition.
    pub const TIP: Mark = Mark {
        z: 0.0,
        assumed: false,
    };

    /// A reckoned place; none if it is unknown or no number.
    pub(super) fn of(place: Reckoned<f64>) -> Option<Mark> {
        let z = place.value.filter(|z| z.is_finite())?;
        let assumed = !place.trace.assumed.is_empty();
        Some(Mark { z, assumed })
    }

    /// The one that lies nearer to the tip.
    pub(super) fn nearer(self, other: Option<Mark>) -> Mark {
        match other {
            Some(other) if other.z < self.z => other,
            _ => self,
        }
    }
}

/// A stretch of the axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Its end towards the tip, mm from the tip.
    pub from: f64,
    /// Its end towards the tail, mm from the tip; greater than `from`.
    pub to: f64,
    /// Whether one of its ends rests on a value that is only assumed.
    pub assumed: bool,
}

impl Extent {
    /// From one place to another; none if nothing lies between them.
    #[must_use]
    pub fn between(from: Mark, to: Mark) -> Option<Extent> {
        (from.z < to.z).then_some(Extent {
            from: from.z,
            to: to.z,
            assumed: from.assumed || to.assumed,
        })
    }

    /// Its length, mm, above 0.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.to - self.from
    }

    /// What it has in common with another; none if nothing.
    #[must_use]
    pub fn overlap(&self, other: &Extent) -> Option<Extent> {
        let (from, to) = (self.from.max(other.from), self.to.min(other.to));
        (from < to).then_some(Extent {
            from,
            to,
            assumed: self.assumed || other.assumed,
        })
    }
}

/// The form of the tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tip {
    /// Nothing is stated that shapes it; drawn square.
    Square,
    /// A cone that widens from nothing to the cutting diameter over this length, mm, above 0.
    Cone(f64),
    /// Corners rounded with this radius, mm, above 0 and at most half the cutting diameter; a
    /// ball where it is half.
    Round(f64),
}

/// What a stretch of the cutter is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartKind {
    /// Flutes, point included.
    Flutes,
    /// Relieved neck.
    Neck,
    /// Between flutes or neck and the plain shank: no cylinder that a collet could grip.
    RunOut,
    /// Plain cylindrical shank.
    Shank,
    /// Driving square at the tail.
    Square,
    /// The cutter is there, and what it is there is not known.
    Unstated,
}

/// One stretch of the cutter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// What it is.
    pub kind: PartKind,
    /// Where it lies.
    pub span: Extent,
    /// Its diameter at the end towards the tip, mm, above 0, if it is known. The cutting
    /// diameter for flutes, whatever the form of the tip; across flats for a square.
    pub front: Option<f64>,
    /// Its diameter at the end towards the tail, mm, above 0, if it is known.
    pub rear: Option<f64>,
}

/// A flat of the shank by which a holder drives it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriveFlat {
    /// Where it lies.
    pub span: Extent,
    /// How deep it is below the surface of the shank, mm, above 0, if it is known.
    pub depth: Option<f64>,
}

/// The collet's gripping land.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Land {
    /// Its end towards the tip.
    pub from: Mark,
    /// Its end towards the tail, if its length is known.
    pub to: Option<Mark>,
    /// Its nominal bore, mm, above 0, if it is known: the diameter before the collet closes.
    pub bore_diameter: Option<f64>,
}

impl Land {
    /// The whole land; none if its length is not known.
    #[must_use]
    pub fn span(&self) -> Option<Extent> {
        Extent::between(self.from, self.to?)
    }
}

/// Which part of the land grips the plain shank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Grip {
    /// The tool is not held in a taper collet: there is no land.
    NoCollet,
    /// It is not known, for want of these fields.
    Unknown(FieldSet),
    /// No plain shank lies in the land.
    Nothing,
    /// This part of it.
    Over(Extent),
}

/// What lies around the cutter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Around {
    /// The collet, from its front end. Its diameters are those of its bore.
    Collet,
    /// The nut, from its front face. Its diameters are its outer ones.
    Nut,
    /// The holder's tapered socket, from its mouth. Its diameters are those of the taper.
    Socket,
    /// The holder's nose. Its diameters are its outer ones.
    Nose,
    /// The holder's body behind the nose. Its diameters are its outer ones.
    Body,
}

/// The outline of something around the cutter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outline {
    /// What it is.
    pub kind: Around,
    /// Its end towards the tip.
    pub from: Mark,
    /// Its end towards the tail; none if how far it goes is not known.
    pub to: Option<Mark>,
    /// Its diameter at the end towards the tip, mm, above 0, if it is known.
    pub front: Option<f64>,
    /// Its diameter at the end towards the tail, mm, at least 0, if it is known.
    pub rear: Option<f64>,
    /// Whether a diameter is only assumed.
    pub assumed: bool,
}

/// The workpiece as one operation sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Workpiece {
    /// The highest surface that the front face must stay above; the deepest point cut is the tip.
    pub surface: Mark,
    /// Where the front face would just keep its clearance above that surface.
    pub keep_above: Option<Mark>,
}
