//! From a fault of form to a finding: its words stand in the rule file of its kind.

use crate::input::{Fault, FaultPlace, fault_kind};
use crate::library::{Assembly, Library, Trace};
use crate::rulebook::{Found, Level, Rule, Template, Values};
use crate::text::{Place, Sources};

use crate::units::Scalar;

use super::brief::Brief;
use super::finding::{Finding, fingerprint};
use super::judgement::Judge;
use super::made_words::Words;
use super::outcome::Outcome;
use super::render::{Manner, render};
use super::write_up::{and, located};

/// The words of a fault, by their place in its list.
struct FaultWords<'f> {
    names: &'static [&'static str],
    fault: &'f Fault,
}

impl<'v, 'f: 'v> Values<'v> for FaultWords<'f> {
    type Trace = Trace;

    fn value(&self, id: u32) -> Found<'v, Trace> {
        let name = self.names.get(id as usize);
        let word = self.fault.args.iter().find(|(word, _)| Some(word) == name);
        Found {
            value: Some(Scalar::Text(word.map_or("", |(_, value)| value.as_ref()))),
            trace: Trace::default(),
        }
    }
}

/// Writes up one fault that concerns an assembly; `None` if its rule is off.
#[must_use]
pub fn fault_of(
    library: &Library,
    judge: &Judge<'_>,
    fault: &Fault,
    assembly: usize,
) -> Option<Finding> {
    let rule = judge.book.rule(fault.kind).filter(|rule| !rule.off)?;
    Some(Finding {
        assembly_index: Some(assembly),
        ..of_fault((library, &library.sources), judge, rule, fault, |_| None)
    })
}

impl<'f> FaultWords<'f> {
    fn of(fault: &'f Fault) -> FaultWords<'f> {
        let mut kinds = crate::input::FAULT_KINDS.iter();
        let known = kinds.find(|(kind, _)| *kind == fault.kind);
        FaultWords {
            names: known.map_or(&[], |(_, names)| *names),
            fault,
        }
    }
}

/// What a fault comes to before it has words: its level, and what came of it.
pub(super) fn weight(judge: &Judge<'_>, rule: &Rule, fault: &Fault) -> (Level, Outcome) {
    let level = judge.fault_level(rule, &FaultWords::of(fault));
    let outcome = match fault.missing {
        // A missing starred property is a question that nobody can answer.
        Some(_) if fault.kind == fault_kind::FIELD_MISSING => Outcome::NotJudged,
        _ => Outcome::NotMet,
    };
    (level, outcome)
}

/// Writes up one fault, whose places are in `sources`; `names` tells a record by its place.
pub(super) fn of_fault<'v>(
    (library, sources): (&Library, &Sources),
    judge: &Judge<'_>,
    rule: &'v Rule,
    fault: &'v Fault,
    names: impl Fn(Place) -> Option<String>,
) -> Finding {
    let values = FaultWords::of(fault);
    let environment = judge.environment(usize::MAX, &values);
    let manner = Manner {
        compared: &[],
        units: library.units,
        guessed: judge.assumed_settings,
    };
    let words = |template: &'v Template| render(template, &environment, &manner);
    let missing = fault
        .missing
        .filter(|_| fault.kind == fault_kind::FIELD_MISSING);
    let (level, outcome) = weight(judge, rule, fault);
    let own = fault.of.and_then(|of| library.assemblies.get(of));
    let number = own.and_then(Assembly::tool_number);
    let place = fault.places.first();
    let field = place.map_or("", |place| place.field.as_ref());
    let part = place.filter(|_| number.is_none());
    let part = part.and_then(|place| names(place.place));
    // What stands in a cell may change and still be wrong: it tells faults apart only where
    // neither a tool nor a part does.
    let is_named = number.is_some() || part.is_some() || fault.missing.is_some();
    let text = place.filter(|_| !is_named);
    let fingerprint = fingerprint(&[
        &rule.id,
        number.or(part.as_deref()).unwrap_or(""),
        field,
        fault.missing.unwrap_or(""),
        text.map_or("", |place| sources.text(place.place)),
    ]);
    let record = |place: &FaultPlace| {
        if place.absent && fault.missing.is_some() {
            let tool = || Some(format!("tool {}", number?));
            names(place.place).or_else(tool).unwrap_or_default()
        } else {
            String::new()
        }
    };
    let (advice, besides) = (words(&rule.advice), words(&rule.besides));
    Finding {
        rule: rule.id.clone(),
        title: rule.title.clone().into(),
        level: missing.is_none().then_some(level),
        full_level: level,
        outcome,
        consequence: rule.consequence,
        basis: rule.basis,
        beside: rule.beside.clone(),
        assembly_index: None,
        part_of: Vec::new(),
        tool_number: number.map(str::to_owned),
        assembly: own.and_then(Assembly::id).map(str::to_owned),
        operation: None,
        message: words(&rule.message),
        why: words(&rule.why),
        advice: and(&advice, &besides),
        brief: Brief::of(advice),
        besides,
        without_moving: Words::default(),
        stick_out: None,
        otherwise: Vec::new(),
        caution: words(&rule.caution),
        missing: missing.into_iter().collect(),
        shortfall: None,
        facts: Vec::new(),
        limits: Vec::new(),
        assumptions: Vec::new(),
        accepted: None,
        lapsed: None,
        places: fault
            .places
            .iter()
            .map(|place| located(sources, place, record(place)))
            .collect(),
        of_torque: false,
        on_length: false,
        fingerprint,
    }
}
