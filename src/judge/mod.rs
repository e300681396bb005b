//! Rules meet facts: outcomes, findings, counts, verdict.

mod accepted;
mod ask_all;
mod assumed;
mod brief;
mod certain;
mod corners;
mod coverage;
mod defaults;
mod demanded;
mod estimate;
mod fault_finding;
mod faults;
mod finding;
mod heading;
mod judgement;
mod lacks;
mod made_words;
mod measure;
mod names;
mod not_known;
mod order;
mod outcome;
mod owners;
mod render;
mod report;
mod run;
mod run_record;
mod settled;
mod setup;
mod shortfall;
mod shown;
mod tally;
mod totals;
mod unmet_columns;
mod verdicts;
mod write_up;

/// The kinds of faults of form, for writers, who do not read input.
pub(crate) use crate::input::fault_kind;
pub(crate) use accepted::was;
pub use accepted::{EntryState, Registered};
pub use brief::{Brief, BriefPiece};
pub use corners::worst;
pub use coverage::{Came, Counts, Coverage, Covered, Group, OfKind};
pub(crate) use defaults::defaults_in_use;
pub(crate) use fault_finding::fault_of;
pub use finding::{
    Acceptance, FactShown, Finding, FindingPlace, Lack, Lapsed, LimitShown, fingerprint,
};
pub use heading::Heading;
pub use judgement::Judge;
pub use made_words::Words;
pub use measure::Measure;
pub use names::VocabularyNames;
pub use not_known::unlisted;
pub(crate) use order::{Twins, arrange};
pub use outcome::{Outcome, Ruling};
pub use report::{
    AssemblyFacts, LibraryShown, OperationFacts, RangeShown, Report, Summary, Verdict, Weakened,
    judge,
};
pub use run::Options;
pub(crate) use run::{OfAssembly, Session};
pub use run_record::RunRecord;
pub use setup::{Named, Selection, Setup, SetupError, settings_of};
pub use shortfall::{Shortfall, Trend, Wanted};
pub(crate) use totals::{Leaning, Totals};
pub use verdicts::Waits;
