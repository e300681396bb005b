//! Rules meet facts: outcomes, findings, counts, verdict.

mod assumed;
mod certain;
mod corners;
mod coverage;
mod defaults;
mod demanded;
mod estimate;
mod finding;
mod gaps;
mod judgement;
mod measure;
mod names;
mod owners;
mod render;
mod report;
mod run;
mod setup;
mod shown;
mod verdicts;
mod write_up;

/// The kinds of faults of form, for writers, who do not read input.
pub use crate::input::fault_kind;
pub use corners::worst;
pub use coverage::{Came, Coverage, Covered, OfKind};
pub use defaults::defaults_in_use;
pub use finding::{
    Acceptance, FactShown, Finding, FindingPlace, LimitShown, Outcome, ShownValue, fingerprint,
};
pub use gaps::unlisted;
pub use judgement::Judge;
pub use measure::{Measure, State};
pub use names::VocabularyNames;
pub use report::{
    AssemblyFacts, LibraryShown, OperationFacts, RangeShown, Report, Summary, Verdict,
};
pub use run::{Options, judge};
pub use setup::{Selection, Setup, SetupError, settings_of};
pub use verdicts::{Ruling, Said, Waits};
pub use write_up::fault_of;
