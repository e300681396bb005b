//! What the shop accepts: a rule on a tool as it was then, until a day.

mod form;
mod register;
mod since;
mod then;
mod was;

pub(super) use form::told;
pub(super) use register::register;
pub use register::{EntryState, Registered};
pub(super) use then::stated;
pub use was::was;

use std::collections::HashMap;

use crate::input::Fault;
use crate::library::{Assembly, Field, Library, Overrides, View};
use crate::rulebook::{Accept, Date, Terms, Tolerance};
use crate::text::quoted;
use crate::units::print::DisplayUnits;

use super::finding::{Acceptance, Finding, Lapsed};
use super::judgement::Judge;
use super::outcome::Outcome;
use super::run::Options;
use super::setup::Setup;
use super::shortfall::Shortfall;

/// The day and the terms on which something is accepted.
#[derive(Clone, Copy)]
pub(super) struct Terming {
    pub today: Date,
    pub terms: Terms,
    pub tolerance: Tolerance,
}

impl Terming {
    pub(super) fn of(judge: &Judge<'_>, setup: &Setup, options: &Options) -> Terming {
        Terming {
            today: options.today,
            terms: setup.shop.terms,
            tolerance: judge.tolerance,
        }
    }
}

/// The entries by their tool numbers: a plant may have thousands, and a library a million tools.
#[derive(Default)]
pub(super) struct ByTool<'a>(HashMap<&'a str, Vec<&'a Accept>>);

impl<'a> ByTool<'a> {
    pub(super) fn new(accepted: &'a [Accept]) -> ByTool<'a> {
        let mut all: HashMap<&str, Vec<&Accept>> = HashMap::new();
        for accept in accepted {
            all.entry(&accept.tool_number).or_default().push(accept);
        }
        ByTool(all)
    }

    fn of(&self, assembly: &Assembly) -> &[&'a Accept] {
        let own = assembly.tool_number().and_then(|number| self.0.get(number));
        own.map_or(&[], Vec::as_slice)
    }

    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// What an entry is held against: a finding, and its tool as the record has it now.
#[derive(Clone, Copy)]
pub(super) struct AtIssue<'a> {
    pub rule: &'a str,
    pub operation: Option<&'a str>,
    pub outcome: Outcome,
    pub shortfall: Option<&'a Shortfall>,
    pub library: &'a Library,
    pub assembly: &'a Assembly,
}

/// What the shop says of a finding.
#[derive(Default)]
pub(super) enum ShopAnswer {
    /// Nothing.
    #[default]
    Nothing,
    /// It accepts it.
    Counts(Acceptance),
    /// It accepted it once.
    Lapsed(Lapsed),
}

impl<'a> AtIssue<'a> {
    /// A finding of a library; none if it is of no assembly.
    pub(super) fn of(finding: &'a Finding, library: &'a Library) -> Option<AtIssue<'a>> {
        Some(AtIssue {
            rule: &finding.rule,
            operation: finding.operation.as_deref(),
            outcome: finding.outcome,
            shortfall: finding.shortfall.as_ref(),
            library,
            assembly: library.assemblies.get(finding.assembly_index?)?,
        })
    }

    /// Of a fault of form that belongs to an assembly.
    pub(super) fn of_fault(fault: &Fault, library: &'a Library) -> Option<AtIssue<'a>> {
        Some(AtIssue {
            rule: fault.kind,
            operation: None,
            outcome: Outcome::NotMet,
            shortfall: None,
            library,
            assembly: library.assemblies.get(fault.of?)?,
        })
    }

    /// Whether an entry is about it, whatever became of it since.
    pub(super) fn is_of(&self, accept: &Accept) -> bool {
        let operation = accept.operation.as_deref();
        accept.rule == self.rule
            && is_tool(accept, self.assembly)
            && (operation.is_none() || operation == self.operation)
    }

    fn units(&self) -> DisplayUnits {
        self.library.units
    }
}

/// Whether an entry is about a tool.
fn is_tool(accept: &Accept, assembly: &Assembly) -> bool {
    let machine = accept.machine.as_deref();
    assembly.tool_number() == Some(accept.tool_number.as_str())
        && (machine.is_none() || machine == assembly.record.text(Field::Machine))
}

/// What the shop says of a finding: the first entry that counts, else what became of the first
/// that was made for it.
pub(super) fn answer(
    accepted: &ByTool<'_>,
    terming: Terming,
    subject: Option<AtIssue<'_>>,
) -> ShopAnswer {
    let Some(subject) = subject else {
        return ShopAnswer::Nothing;
    };
    let mut lapsed = None;
    let of_tool = accepted.of(subject.assembly);
    for accept in of_tool.iter().filter(|accept| subject.is_of(accept)) {
        let why = since::since(accept, &subject, terming);
        let at = since::at(accept, &subject);
        if why.is_empty() {
            return ShopAnswer::Counts(Acceptance {
                reason: accept.reason.clone(),
                by: accept.by.clone(),
                until: accept.until.map(|date| date.to_string()),
                at,
            });
        }
        lapsed.get_or_insert_with(|| Lapsed {
            reason: accept.reason.clone(),
            by: accept.by.clone(),
            until: accept.until.map(|date| date.to_string()),
            at,
            why,
        });
    }
    lapsed.map_or(ShopAnswer::Nothing, ShopAnswer::Lapsed)
}

impl ShopAnswer {
    /// Whether the shop accepts it.
    pub(super) const fn counts(&self) -> bool {
        matches!(self, ShopAnswer::Counts(_))
    }

    /// Writes it into the finding. Where it was accepted once, its message says so: every form of
    /// output shows that.
    pub(super) fn tell(self, finding: &mut Finding) {
        match self {
            ShopAnswer::Nothing => {}
            ShopAnswer::Counts(acceptance) => finding.accepted = Some(acceptance),
            ShopAnswer::Lapsed(lapsed) => {
                finding.message = finding.message.and(format!("; {}", lapsed.told()));
                finding.lapsed = Some(lapsed);
            }
        }
    }
}

impl Lapsed {
    /// `accepted by N. N. until 2027-01-31 at 21.0 mm of 26.7 mm; it is 19.0 mm now`.
    #[must_use]
    pub fn told(&self) -> String {
        let by = quoted(&self.by);
        let until = self.until.as_ref();
        let until = until.map_or_else(String::new, |day| format!(" until {day}"));
        let at = self.at.as_ref();
        let at = at.map_or_else(String::new, |at| format!(" at {at}"));
        format!("accepted by {by}{until}{at}; {}", self.why.join("; "))
    }
}

/// The names of an assembly's operations.
fn operations(library: &Library, assembly: &Assembly) -> Vec<String> {
    let as_it_is = Overrides::default();
    let names = assembly.operations.iter().filter_map(|operation| {
        let view: View<'_> = View::new(library, assembly, Some(*operation), &as_it_is);
        view.operation_name().map(str::to_owned)
    });
    names.collect()
}
