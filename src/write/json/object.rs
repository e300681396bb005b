//! The object of one input. It is written head, findings, assemblies, tail, as these come to be
//! known.

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::Serialize;

use crate::sheet::{AssemblyFacts, Nearest, Overview, Plan, Remedies, Report, Window};

use super::super::NOTICE;
use super::coverage::Counts;
use super::fact::Facts;
use super::finding::Found;
use super::library::About;
use super::notation::name;
use super::plan::Begin;
use super::remedy::{Cure, Miss};
use super::run_record::Record;
use super::unreadable::{Fault, Input, Status};
use super::window::Limits;

/// What `lint`, `facts` and `window` write with `--as json`: one object an input, each in a line of
/// its own, in the order of the inputs. A key is always there, and null when there is nothing; the
/// few that are there only at times say so. Later versions may add keys.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "Shankwise output, format 1")]
pub(super) struct Object<'a> {
    #[serde(flatten)]
    pub head: Head<'a>,
    /// The findings: faults of form that belong to no one assembly, then assembly by assembly in
    /// the order of the library, by rule.
    pub findings: Vec<Found<'a>>,
    /// The assemblies, in the order of the library; null unless facts or remedies are asked for.
    pub assemblies: Option<Vec<Shown<'a>>>,
    #[serde(flatten)]
    pub tail: Tail<'a>,
}

/// What is known before anything is judged.
#[derive(Serialize, JsonSchema)]
pub(super) struct Head<'a> {
    /// The version of the format.
    #[schemars(extend("const" = 1))]
    format: u8,
    /// The program with its version.
    program: &'static str,
    /// The program is an aid, not an approval.
    notice: &'static str,
    /// The input, as the user named it.
    input: &'a str,
    /// Whether the input was read. What is `unreadable` has neither library nor summary; what was
    /// `read in part` was judged as far as it was read. Unless all are `read`, the exit status is 2.
    #[schemars(extend("enum" = Status::ALL.map(Status::name)))]
    status: &'static str,
    /// What could not be read.
    unreadable: Vec<Fault<'a>>,
    /// The tool numbers that a job names and that are not in the library; only where there are any.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    not_in_library: Vec<Cow<'a, str>>,
}

/// What is known when all was judged.
#[derive(Default, Serialize, JsonSchema)]
pub(super) struct Tail<'a> {
    /// The library; null if nothing of the input could be read.
    library: Option<About<'a>>,
    /// The counts; null if nothing of the input could be read.
    summary: Option<Counts<'a>>,
    /// Where to begin in the library. Only with `--remedies`.
    #[serde(skip_serializing_if = "Option::is_none")]
    plan: Option<Begin<'a>>,
    /// Whether it fails by what `--fail-on`, `--strict`, `--min-coverage` and `--tool` ask for. If
    /// everything was read, the exit status is 1 where one input fails, and else 0.
    fails: Option<bool>,
    /// By what it was judged, and when.
    run: Option<Record<'a>>,
}

/// What is known of one assembly.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Assembly")]
pub(super) struct Shown<'a> {
    /// The tool number.
    tool_number: Option<Cow<'a, str>>,
    /// Its id.
    assembly: Option<Cow<'a, str>>,
    /// The facts that do not depend on an operation, by name.
    facts: Facts<'a>,
    /// The facts that do, operation by operation.
    operations: Vec<Operation<'a>>,
    /// The stick-outs that the rules leave; null where they were not worked out.
    window: Option<Limits<'a>>,
    /// Changes that correct it, the best first. Only with `--remedies`.
    #[serde(skip_serializing_if = "Option::is_none")]
    remedies: Option<Vec<Cure<'a>>>,
    /// What comes nearest where nothing corrects it, else null. Only with `--remedies`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<Miss<'_>>")]
    nearest: Option<Nullable<Miss<'a>>>,
}

/// What may be null where its key is there.
#[derive(Serialize)]
#[serde(transparent)]
struct Nullable<T>(Option<T>);

/// An operation of an assembly.
#[derive(Serialize, JsonSchema)]
struct Operation<'a> {
    /// The operation.
    operation: Cow<'a, str>,
    /// Its facts, by name.
    facts: Facts<'a>,
}

impl<'a> Head<'a> {
    pub(super) fn of(input: Input<'a>, status: Status) -> Head<'a> {
        Head {
            format: 1,
            program: concat!("shankwise ", env!("CARGO_PKG_VERSION")),
            notice: NOTICE,
            input: input.name,
            status: status.name(),
            unreadable: input.unreadable.iter().map(Fault::of).collect(),
            not_in_library: input.lacking.iter().map(|number| name(number)).collect(),
        }
    }
}

impl<'a> Tail<'a> {
    pub(super) fn of(overview: &'a Overview, plan: Option<&'a Plan>, fails: bool) -> Tail<'a> {
        Tail {
            library: Some(About::of(&overview.library)),
            summary: Some(Counts::of(overview)),
            plan: plan.map(Begin::of),
            fails: Some(fails),
            run: Some(Record::of(overview)),
        }
    }
}

impl<'a> Shown<'a> {
    pub(super) fn of(assembly: &'a AssemblyFacts, window: Option<&'a Window>) -> Shown<'a> {
        let operations = assembly.operations.iter().map(|operation| Operation {
            operation: name(&operation.operation),
            facts: Facts(&operation.facts),
        });
        Shown {
            tool_number: assembly.tool_number.as_deref().map(name),
            assembly: assembly.assembly.as_deref().map(name),
            facts: Facts(&assembly.facts),
            operations: operations.collect(),
            window: window.map(Limits::of),
            remedies: None,
            nearest: None,
        }
    }

    /// The same with what can be done about it.
    pub(super) fn with(self, found: Option<&'a Remedies>) -> Shown<'a> {
        let list = found.iter().flat_map(|found| &found.list);
        let nearest: Option<&Nearest> = found.and_then(|found| found.nearest.as_ref());
        Shown {
            remedies: Some(list.map(Cure::of).collect()),
            nearest: Some(Nullable(nearest.map(Miss::of))),
            ..self
        }
    }
}

impl<'a> Object<'a> {
    /// Of a report that is in memory whole, with its overview and the windows of its assemblies.
    pub(super) fn of(
        report: &'a Report,
        overview: &'a Overview,
        windows: &[Option<&'a Window>],
        fails: bool,
    ) -> Object<'a> {
        let windows = windows.iter().copied().chain(std::iter::repeat(None));
        let assemblies = report.assemblies.as_ref().map(|all| {
            let all = all.iter().zip(windows);
            all.map(|(one, window)| Shown::of(one, window)).collect()
        });
        let found = report.findings.iter().map(|finding| {
            let at = finding.assembly_index;
            Found::of(finding, at.and_then(|at| report.headings.get(at)))
        });
        Object {
            head: Head::of(Input::new(&report.library.path, &[]), Status::Read),
            findings: found.collect(),
            assemblies,
            tail: Tail::of(overview, None, fails),
        }
    }
}
