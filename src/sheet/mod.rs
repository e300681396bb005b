//! Sheets: all that anybody may show of one assembly, as plain data, and what is said of a whole
//! library. Here the judge's findings, the advice, the drawing and the record come together;
//! whoever writes them, as text, JSON or a page, works nothing out.
//!
//! [`each`] makes the sheets of a library one after another and drops them again, so that a
//! library of any size needs the memory of a few hundred sheets.

mod at_stick_out;
mod card;
mod front;
mod of_assembly;
mod question;
mod record;
mod register;
mod rule_shown;
mod stream;

pub use crate::advice::{
    Changed, End, Helps, How, Measured, Near, Nearest, Plan, Remedies, Remedy, RemedyKind, Split,
    Unjudged, Window, remedy_words, span, wording,
};
pub use crate::draw::{
    Around, Drawing, DriveFlat, Extent, Grip, Land, Mark, Outline, Part, PartKind, Stress, Tip,
    Workpiece,
};
pub(crate) use crate::judge::fault_kind;
pub use crate::judge::{
    Acceptance, AssemblyFacts, Brief, BriefPiece, Came, Coverage, Covered, FactShown, Finding,
    FindingPlace, Group, Heading, Lack, Lapsed, LibraryShown, LimitShown, OfKind, OperationFacts,
    Outcome, RangeShown, Report, RunRecord, Shortfall, Summary, Trend, Verdict, Wanted, Weakened,
    Words,
};
pub use crate::library::{ClampingKind, Field, FieldSet, Form, Kind};
pub use crate::rulebook::{Basis, Bound, Consequence, Level, ShopFile};
pub use at_stick_out::{AtStickOut, NoModel, Which};
pub use card::{
    AcceptedShown, BoreMarked, Card, CardPart, Caution, Lies, NutShown, Placed, Protruding, Reason,
    Release, Released, RunOutShown, Setting, Shortest as ShortestTool, StickOut, Stop, TorqueShown,
};
pub use front::Front;
pub use of_assembly::{Clamping, Records, Sheet, Wants};
pub use question::{Answer, Asked, Job, RangeAsked, Shortest};
pub use record::{Origin, PartShown, RecordShown, Sourced, Torques, ValueShown};
pub use register::{Entered, EntryState, register};
pub use rule_shown::RuleShown;
pub use stream::{Item, Overview, each, each_of};
