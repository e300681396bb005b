//! A remedy as plain data: what is exchanged, to which stick-out, and what remains. Also what comes
//! nearest where there is none.

use crate::judge::FactShown;
use crate::library;

use super::super::Window;

/// What a remedy changes first of all.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RemedyKind {
    /// Only the stick-out.
    StickOut,
    /// The cutter, perhaps with its collet.
    Cutter,
    /// The collet, perhaps with its nut.
    Collet,
    /// Only the nut.
    Nut,
    /// The holder, perhaps with collet and nut.
    Holder,
    /// The operation: this tool does it as deep as it can, and a longer one the rest.
    Split,
}

impl RemedyKind {
    /// All of them.
    pub const ALL: [RemedyKind; 6] = [
        RemedyKind::StickOut,
        RemedyKind::Cutter,
        RemedyKind::Collet,
        RemedyKind::Nut,
        RemedyKind::Holder,
        RemedyKind::Split,
    ];

    /// Its name in JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            RemedyKind::StickOut => "stick-out",
            RemedyKind::Cutter => "cutter",
            RemedyKind::Collet => "collet",
            RemedyKind::Nut => "nut",
            RemedyKind::Holder => "holder",
            RemedyKind::Split => "split",
        }
    }
}

/// A part that takes the place of the present one.
#[derive(Clone, Debug, PartialEq)]
pub struct Changed {
    /// Its kind.
    pub part: library::Kind,
    /// Its id.
    pub id: String,
    /// Where it lies, if the table of stock says so.
    pub location: Option<String>,
    /// How many there are, if the table of stock says so.
    pub quantity: Option<f64>,
    /// Whether the table of stock names it; else it is only listed in the library.
    pub in_stock: bool,
}

/// How deep the present tool can do an operation.
#[derive(Clone, Debug, PartialEq)]
pub struct Split {
    /// The operation.
    pub operation: String,
    /// The reach that this tool can do, mm.
    pub reach: f64,
}

/// A change that corrects an assembly, rechecked by the whole rule set.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What it changes.
    pub kind: RemedyKind,
    /// The parts that it changes.
    pub changes: Vec<Changed>,
    /// Where to set the tool, mm.
    pub stick_out: Option<f64>,
    /// Gauge plane to tip then, mm, where the record states such a length.
    pub protruding_length: Option<f64>,
    /// How deep this tool then goes, operation by operation.
    pub split: Vec<Split>,
    /// The window of the changed assembly.
    pub window: Window,
    /// A few facts as they are.
    pub before: Vec<FactShown>,
    /// The same facts as they would be.
    pub after: Vec<FactShown>,
    /// Errors about the wrench that stand before and after.
    pub leaves: Vec<String>,
    /// Warnings that stand afterwards.
    pub warnings: Vec<String>,
    /// What the changed parts permit, N·m, where the present torque would be too much for them:
    /// never more than the present torque.
    pub torque_at_most: Option<f64>,
    /// What a part should be compared in and does not state.
    pub unstated: Vec<&'static str>,
    /// Whether the whole rule set was asked: only such remedies are listed.
    pub rechecked: bool,
}

impl Remedy {
    /// The id that takes the place of the present part of a kind, if it changes.
    #[must_use]
    pub fn changed(&self, part: library::Kind) -> Option<&str> {
        let mut changes = self.changes.iter();
        let found = changes.find(|change| change.part == part);
        found.map(|change| change.id.as_str())
    }
}

/// A cutter on hand that would serve, but for one respect in which it differs.
#[derive(Clone, Debug, PartialEq)]
pub struct Near {
    /// The cutter.
    pub cutter: Changed,
    /// The property in which it differs from the present one.
    pub differs: &'static str,
    /// What this one has of it, if it is stated.
    pub own: Option<String>,
    /// What the present one has of it.
    pub present: Option<String>,
    /// Where it would be set, mm.
    pub stick_out: f64,
}

/// What would have to be bought or stated where nothing on hand serves.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Nearest {
    /// Least overall length of a cutter that would do in this collet, mm: reach needed, bore
    /// setback, needed grip and square together.
    pub overall_length_min: Option<f64>,
    /// How much longer it should be so that it can be set, mm: the tolerance to both ends.
    pub room: f64,
    /// Least plain shank, from the tail, mm: needed grip and square.
    pub shank_length_min: Option<f64>,
    /// The land of the present collet, mm.
    pub land: Option<f64>,
    /// The reach that the deepest operation needs, with clearance, mm.
    pub reach_needed: Option<f64>,
    /// Front face to the land, mm.
    pub bore_setback: Option<f64>,
    /// The grip that this land needs, mm.
    pub needed_grip: Option<f64>,
    /// Length of the driving square, mm.
    pub square_length: Option<f64>,
    /// Least length of the flutes, or of flutes and relieved neck, mm.
    pub flute_length_min: Option<f64>,
    /// Least length of the cutting edges, mm.
    pub cutting_edge_min: Option<f64>,
    /// The bore that a collet would need, mm.
    pub bore: Option<f64>,
    /// The square that a collet would need, across flats, mm.
    pub drive_square: Option<f64>,
    /// How far a maker, or a tap's square, wants the tool inserted, mm, where that is more than
    /// the grip needs.
    pub clamped_min: Option<f64>,
    /// The largest nut that fits into the pocket, mm.
    pub nut_diameter_max: Option<f64>,
    /// The cutter on hand that comes nearest.
    pub cutter: Option<Near>,
    /// The rules that nothing on hand cures.
    pub rules: Vec<String>,
    /// Those of them that `why` is about; empty if it is about all.
    pub about: Vec<String>,
    /// Properties for want of which no remedy can be rechecked.
    pub missing: Vec<&'static str>,
    /// Why nothing serves, in words without lengths.
    pub why: String,
}

/// What can be done about one assembly.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Remedies {
    /// Whether it fails an error that another stick-out or other parts could cure.
    pub curable: bool,
    /// At most three remedies, the best first.
    pub list: Vec<Remedy>,
    /// What comes nearest, where nothing serves.
    pub nearest: Option<Nearest>,
    /// All cutters that were found to cure it, perhaps with another collet, where no stick-out
    /// does.
    pub cutters: Vec<Changed>,
}
