//! What cures a finding, in its advice: a stick-out, or a remedy from the crib.

use crate::facts::Scene;
use crate::judge::{Brief, Finding, Judge, Outcome, Words};
use crate::library::{Assembly, Field, Library, Origin, Overrides};
use crate::rulebook::{CuredBy, Level, Rule};
use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::empty::NO_WINDOW;
use super::remedy::{Nearest, Remedies, Remedy};
use super::remedy_words;
use super::window::Window;
use super::window::wording;

/// What a recommended stick-out does for an assembly: worked out once, for all its findings.
pub(super) struct Cure {
    /// The recommended stick-out, mm.
    stick_out: f64,
    /// Bounding rules that fail there all the same, with their levels.
    fail: Vec<(String, Level)>,
    /// Where it may be, what nobody knows of it, and what it brings along, in words.
    words: Words,
    /// The stick-out and its limits alone.
    brief: Brief,
}

impl Cure {
    /// `None` if no stick-out is recommended.
    pub(super) fn new(
        judge: &Judge<'_>,
        library: &Library,
        assembly: &Assembly,
        window: &Window,
        doubtful: Option<&str>,
    ) -> Option<Cure> {
        let stick_out = window.recommended?;
        let overrides = Overrides {
            numbers: vec![(Field::StickOut, stick_out)],
            ..Overrides::default()
        };
        let (fail, length, kept) = judge.look(library, assembly, &overrides, |base, jobs| {
            let gauge = base.field(Field::GaugeLength).value;
            let protruding = gauge.map(|gauge| gauge + stick_out);
            let kept = kept(judge, window, jobs, library.units);
            (failing(judge, base, jobs), protruding, kept)
        });
        let stated = assembly.record.get(Field::ProtrudingLength).is_some();
        let length = length.filter(|_| stated);
        let length = length.map(|length| print::value(length, Unit::Mm, library.units));
        let stay = fail.iter().filter(|(_, level)| *level == Level::Warning);
        let stay = stay.map(|(rule, _)| format!("the warning {rule} remains"));
        let assumed = window.min.iter().chain(&window.max);
        let mut assumed: Vec<&str> = assumed
            .flat_map(|end| end.assumed.iter().copied())
            .collect();
        assumed.dedup();
        let confirm = (!assumed.is_empty())
            .then(|| format!("first check on the tool: {}", assumed.join(", ")));
        let known = wording::unknown(window, library.units).into_iter();
        let whose = doubtful.map(str::to_owned).into_iter();
        let all = kept.into_iter().chain(known).chain(whose);
        let all = all.chain(confirm).chain(stay);
        let all = all.chain(length.map(|length| format!("new protruding length {length}")));
        let at = wording::recommended(window, library.units)?;
        let set = format!(
            "set the stick-out to {at}; {}",
            wording::span(window, library.units)
        );
        let all: Vec<String> = std::iter::once(set).chain(all).collect();
        Some(Cure {
            stick_out,
            fail,
            words: all.join("; ").into(),
            brief: first(doubtful, wording::brief(window, library.units, &at)),
        })
    }
}

impl Cure {
    /// Whether a rule fails at the recommended stick-out all the same.
    pub(super) fn fails(&self, rule: &str) -> bool {
        self.fail.iter().any(|(id, _)| id == rule)
    }
}

/// The clearance that a stick-out for a job's reach keeps, where the job does not state it.
fn kept(
    judge: &Judge<'_>,
    window: &Window,
    jobs: &[Scene<'_>],
    units: DisplayUnits,
) -> Option<String> {
    let min = window.min.as_ref()?;
    judge
        .book
        .rule(&min.rule)
        .filter(|rule| rule.stands_for.reach)?;
    let mut jobs = jobs.iter();
    let job = jobs.find(|job| job.view.operation_name() == min.operation.as_deref())?;
    let length = |value: f64| print::value(value, Unit::Mm, units);
    if let Some((_, most)) = job.view.range(Field::Clearance) {
        let most = length(most);
        return Some(format!(
            "this keeps {most} of clearance, because none is stated"
        ));
    }
    let shop = job.view.number(Field::Clearance).value.map(length)?;
    let (_, origin) = job.view.with_origin(Field::Clearance);
    (origin == Origin::Default).then(|| format!("this keeps the shop's {shop} of clearance"))
}

/// Whether what comes nearest has to do with a rule.
fn is_about(nearest: &Nearest, rule: &str) -> bool {
    nearest.about.is_empty() || nearest.about.iter().any(|about| about == rule)
}

/// Where two tools have one number, nobody knows whose an operation is that names the number.
pub(super) fn doubtful_jobs(number: &str, assembly: &Assembly) -> Option<String> {
    (!assembly.operations.is_empty())
        .then(|| format!("first settle which of two tools {number} its jobs mean"))
}

/// Another stick-out or part changes the tool's length, whatever the rule itself has to warn of.
fn warn_of_length(finding: &mut Finding, judge: &Judge<'_>) {
    if finding.caution.is_empty()
        && let Some(rule) = judge.book.rule(NO_WINDOW)
    {
        finding.caution = rule.caution.written().into();
    }
}

/// A step, behind what has to be settled before it.
fn first(doubtful: Option<&str>, brief: Brief) -> Brief {
    match doubtful {
        Some(words) => Brief::of(words).and(", then ").then(brief),
        None => brief,
    }
}

/// The bounding rules that fail on an assembly or on any of its operations, each with its level
/// as it is found: lowered where that rests on what is assumed.
fn failing(judge: &Judge<'_>, base: &Scene<'_>, jobs: &[Scene<'_>]) -> Vec<(String, Level)> {
    let found = judge.bounding().filter_map(|(index, rule)| {
        let level = |scene: &Scene<'_>| {
            let measure = judge.measure(index, rule, scene);
            let lowered = judge.lowers(measure.trace);
            let level = if lowered {
                rule.level.lowered()
            } else {
                rule.level
            };
            (measure.outcome == Outcome::NotMet).then_some(level)
        };
        let worst = if rule.of_operation {
            jobs.iter().filter_map(level).max()
        } else {
            level(base)
        };
        worst.map(|level| (rule.id.clone(), level))
    });
    found.collect()
}

/// Says which stick-out cures a finding, if one does.
pub(super) fn cured(finding: &mut Finding, judge: &Judge<'_>, cure: &Cure) {
    if finding.outcome != Outcome::NotMet {
        return;
    }
    let Some(rule) = judge.book.rule(&finding.rule) else {
        return;
    };
    if rule.level == Level::Note && rule.cured_by == [CuredBy::StickOut] {
        // A second number for one tool would only be asked about.
        finding.advice.clone_from(&cure.words);
        finding.brief.clone_from(&cure.brief);
        finding.stick_out = Some(cure.stick_out);
        return;
    }
    if rule.bounds.is_empty() || cure.fails(&finding.rule) {
        return;
    }
    warn_of_length(finding, judge);
    finding.stick_out = Some(cure.stick_out);
    let set = &cure.words;
    finding.brief.clone_from(&cure.brief);
    finding.advice = if rule.level < Level::Error {
        format!("{set}; or else: {}", finding.advice).into()
    } else if finding.besides.is_empty() {
        set.clone()
    } else {
        format!("{set}. {}", finding.besides).into()
    };
}

/// Says of a warning that a remedy ends that nothing else is to be done about it.
pub(super) fn ended(
    finding: &mut Finding,
    judge: &Judge<'_>,
    library: &Library,
    found: &Remedies,
    doubtful: Option<&str>,
) {
    let rule = judge.book.rule(&finding.rule);
    if let (Some(best), true) = (found.list.first(), rule.is_some_and(Rule::is_of_setup))
        && ends(best, finding)
    {
        finding.brief = first(doubtful, remedy_words::brief(best, library.units));
    }
}

/// Whether a warning is gone with a remedy: it is not among what was still found.
fn ends(remedy: &Remedy, finding: &Finding) -> bool {
    let remains = remedy.warnings.iter().chain(&remedy.leaves);
    finding.outcome == Outcome::NotMet
        && finding.level == Some(Level::Warning)
        && finding.full_level == Level::Warning
        && !remains.into_iter().any(|rule| *rule == finding.rule)
}

/// Says which remedy cures a finding that no stick-out cures, or what comes nearest.
pub(super) fn remedied(
    finding: &mut Finding,
    judge: &Judge<'_>,
    library: &Library,
    found: &Remedies,
    doubtful: Option<&str>,
) {
    let rule = judge.book.rule(&finding.rule);
    let of_setup = rule.is_some_and(Rule::is_of_setup);
    // What an empty window explains stands in its block, and the block has one advice.
    let explained = finding.rule == NO_WINDOW || finding.beside.as_deref() == Some(NO_WINDOW);
    let open =
        finding.outcome == Outcome::NotMet && (explained || finding.full_level == Level::Error);
    if !(of_setup || explained) || !open || finding.stick_out.is_some() {
        return;
    }
    let units = library.units;
    let behind = doubtful.map_or_else(String::new, |words| format!("; {words}"));
    let (says, brief) = match (found.list.first(), &found.nearest) {
        (Some(best), _) => (
            remedy_words::remedy(best, units) + &behind + &remedy_words::leaves(best),
            Some(first(doubtful, remedy_words::brief(best, units))),
        ),
        (None, Some(nearest)) if is_about(nearest, &finding.rule) => (
            remedy_words::nearest(nearest, units),
            remedy_words::nearest_brief(nearest, units),
        ),
        _ => return,
    };
    if brief.is_some() {
        warn_of_length(finding, judge);
    }
    // Where nothing is known to buy, the rule's own words say what would have to change.
    finding.brief = brief.unwrap_or_else(|| finding.brief.clone());
    let others = found.list.iter().skip(1);
    finding.otherwise = others
        .map(|remedy| remedy_words::remedy(remedy, units) + &remedy_words::leaves(remedy))
        .collect();
    finding.advice = if explained {
        format!("{says}. {}", finding.besides).into()
    } else {
        finding.advice.and(format!(". Here: {says}"))
    };
}
