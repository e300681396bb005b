//! Advice for one assembly after another: windows and remedies are worked out and put into its
//! findings.

use std::collections::HashSet;

use crate::input::fault_kind;
use crate::judge::{Finding, Judge, OfAssembly, Options, Outcome, Session, arrange};
use crate::library::{Assembly, Field, Library, Overrides, View};
use crate::rulebook::{Level, Rule};

use super::agree::{Way, bounds};
use super::cure::{Cure, cured, doubtful_jobs, ended, remedied};
use super::doubted::Doubted;
use super::empty::{NO_WINDOW, empty_throughout, gather, no_window, ranged};
use super::remedy::{Crib, Remedies, remedies_from};
use super::stopped;
use super::window::Window;
use super::window::window;
use super::window::wording;

/// What advises on the assemblies of one library, in any order and on any thread.
pub struct Advisor<'a> {
    session: &'a Session<'a>,
    /// What remedies are taken from, where they are wanted.
    crib: Option<Crib<'a>>,
    /// Tool numbers that two assemblies have.
    twice: HashSet<&'a str>,
}

/// What is advised on one assembly, besides what its findings say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Counsel {
    /// Its window, where it was solved and there is one.
    pub window: Option<Window>,
    /// Its remedies, where they were looked for and something curable fails.
    pub remedies: Option<Remedies>,
    /// Whether something of it is not judged, and its record is not known to be wrong.
    pub waits: bool,
    /// Whether its window is empty, which is a finding of its own.
    pub is_empty: bool,
}

impl<'a> Advisor<'a> {
    /// Takes a library. Windows are solved where a bounding rule fails or the stick-out is not
    /// known, and for all assemblies if facts are wanted.
    #[must_use]
    pub fn new(session: &'a Session<'a>, with_remedies: bool) -> Advisor<'a> {
        let faults = session.library.faults.iter();
        let twice = faults.filter(|fault| fault.kind() == fault_kind::NUMBER_TAKEN_TWICE);
        let assemblies = &session.library.assemblies;
        Advisor {
            session,
            crib: with_remedies.then(|| Crib::read(session.library)),
            twice: twice
                .filter_map(|fault| assemblies.get(fault.of()?)?.tool_number())
                .collect(),
        }
    }

    /// Works out window and remedies of an assembly and puts what they say into its findings:
    /// those that a stick-out cures say which, and an empty window is a finding of its own.
    #[must_use]
    pub fn advise(&self, one: &mut OfAssembly) -> Counsel {
        let advised = self.on(one.at, &mut one.findings);
        one.add_faults(usize::from(advised.is_empty));
        advised
    }

    /// The same of an assembly by its number and its findings, the worst first.
    pub(super) fn on(&self, at: usize, findings: &mut Vec<Finding>) -> Counsel {
        let session = self.session;
        let (judge, library) = (&session.judge, session.library);
        let Some(assembly) = library.assemblies.get(at) else {
            return Counsel::default();
        };
        let window = wanted(library, judge, session.options, assembly, findings)
            .then(|| window(judge, library, assembly, &Overrides::default()))
            .flatten();
        // Nothing is found, so that nothing is to be said.
        if findings.is_empty() && window.as_ref().is_none_or(|window| !window.is_empty()) {
            return Counsel {
                window,
                ..Counsel::default()
            };
        }
        let doubtful = assembly.tool_number();
        let doubtful = doubtful.filter(|number| self.twice.contains(number));
        let doubtful = doubtful.and_then(|number| doubtful_jobs(number, assembly));
        let cure = window.as_ref();
        let cure = cure
            .and_then(|window| Cure::new(judge, library, assembly, window, doubtful.as_deref()));
        let empty = self.empty(window.as_ref(), (at, assembly), findings);
        if let Some(cure) = &cure {
            for finding in findings.iter_mut() {
                cured(finding, judge, cure);
            }
        }
        let is_empty = empty.is_some();
        if let Some(empty) = empty {
            gather(findings, judge, &empty);
            findings.push(empty);
            arrange(findings);
        }
        let doubted = Doubted::of(judge, findings);
        let remedies = if doubted.is_sought(findings, judge) {
            None
        } else {
            self.sought(assembly, findings)
        };
        if let Some(found) = &remedies {
            for finding in findings.iter_mut() {
                remedied(finding, judge, library, found, doubtful.as_deref());
            }
        }
        agree(
            session,
            assembly,
            (window.as_ref(), cure.as_ref(), remedies.as_ref()),
            findings,
        );
        for finding in findings.iter_mut() {
            if let Some(found) = &remedies {
                ended(finding, judge, library, found, doubtful.as_deref());
            }
        }
        doubted.say(findings, judge);
        let waits = stopped::say(judge, library, assembly, findings);
        Counsel {
            window,
            remedies,
            waits,
            is_empty,
        }
    }

    /// The finding that stands for an empty window.
    fn empty(
        &self,
        window: Option<&Window>,
        (at, assembly): (usize, &Assembly),
        findings: &[Finding],
    ) -> Option<Finding> {
        let session = self.session;
        let (judge, library) = (&session.judge, session.library);
        let window = window.filter(|window| window.is_empty())?;
        if !empty_throughout(judge, library, assembly) {
            return None;
        }
        let mut empty = no_window(session, window, (at, assembly), findings)?;
        session.accept(&mut empty);
        Some(empty)
    }

    /// Sees between some assemblies and the next whether attempts at remedies are left.
    pub fn settle(&self) {
        if let Some(crib) = &self.crib {
            crib.settle();
        }
    }

    /// Remedies for an assembly with an error that another stick-out or other parts may cure.
    fn sought(&self, assembly: &Assembly, findings: &[Finding]) -> Option<Remedies> {
        let crib = self.crib.as_ref()?;
        let open = |finding: &Finding| finding.accepted.is_none();
        // Where every rule was asked, only what one of these finds can be in need.
        let whole = self.session.options.selection.is_whole();
        let book = &self.session.judge.book;
        let of_setup = |finding: &Finding| book.rule(&finding.rule).is_some_and(Rule::is_of_setup);
        let fails = |finding: &Finding| {
            finding.outcome == Outcome::NotMet
                && finding.full_level == Level::Error
                && (!whole || of_setup(finding))
        };
        findings
            .iter()
            .find(|finding| open(finding) && fails(finding))?;
        let accepted = findings.iter().filter(|finding| !open(finding));
        let accepted: Vec<&str> = accepted.map(|finding| finding.rule.as_str()).collect();
        let session = self.session;
        let found = remedies_from(crib, &session.judge, session.library, assembly, &accepted);
        found.curable.then_some(found)
    }
}

/// What the findings of one assembly say together.
#[derive(Clone, Default)]
struct Together {
    /// How many rules that bound the stick-out fail.
    failing: usize,
    /// Whether one of them says where to set the tool.
    is_set: bool,
    /// The errors that nothing but another part corrects.
    parts: Vec<String>,
}

impl Together {
    fn take(&mut self, finding: &Finding, judge: &Judge<'_>) {
        let bounds = bounds(judge, finding) && finding.level >= Some(Level::Warning);
        self.failing += usize::from(bounds);
        self.is_set |= finding.stick_out.is_some();
        let open = finding.outcome == Outcome::NotMet && finding.accepted.is_none();
        if open && finding.level == Some(Level::Error) && !self.parts.contains(&finding.rule) {
            let rule = judge.book.rule(&finding.rule);
            let rule = rule.filter(|rule| rule.needs_part());
            self.parts.extend(rule.map(|rule: &Rule| rule.id.clone()));
        }
    }
}

/// One way for every tool.
fn agree(
    session: &Session<'_>,
    assembly: &Assembly,
    (window, cure, remedies): (Option<&Window>, Option<&Cure>, Option<&Remedies>),
    findings: &mut [Finding],
) {
    let (judge, library) = (&session.judge, session.library);
    let mut own = Together::default();
    for finding in findings.iter() {
        own.take(finding, judge);
    }
    let undecided = match window {
        Some(window) if window.is_empty() => {
            let fields = ranged(judge, library, assembly).into_iter();
            fields.map(Field::qualified).collect()
        }
        Some(window) => window.undecided.clone(),
        None => Vec::new(),
    };
    let narrow = window.filter(|window| window.is_narrow());
    let narrow = narrow.map(|window| wording::span(window, library.units));
    let way = Way {
        judge,
        library,
        empty: window.is_some_and(Window::is_empty),
        undecided: &undecided,
        narrow: narrow.as_deref(),
        cure,
        remedies,
        failing: own.failing,
        cured: own.is_set,
        parts: &own.parts,
    };
    for finding in findings {
        way.agree(finding);
    }
}

/// Whether a window is solved for an assembly.
fn wanted(
    library: &Library,
    judge: &Judge<'_>,
    options: &Options,
    assembly: &Assembly,
    findings: &[Finding],
) -> bool {
    // Asked for alone, an empty window must be found without the findings that point at it.
    let alone = !options.selection.only.is_empty() && options.selection.takes(NO_WINDOW);
    let bounding = |finding: &Finding| {
        let rule = judge.book.rule(&finding.rule);
        finding.outcome == Outcome::NotMet && rule.is_some_and(|rule| !rule.bounds.is_empty())
    };
    options.with_facts || alone || findings.iter().any(bounding) || not_set(library, assembly)
}

/// Whether an assembly's stick-out is not known.
fn not_set(library: &Library, assembly: &Assembly) -> bool {
    let as_it_is = Overrides::default();
    let view: View<'_> = View::new(library, assembly, None, &as_it_is);
    !view.number(Field::StickOut).is_known()
}
