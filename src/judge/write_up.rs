//! From a judgement to a finding that needs no further look-up.

use crate::facts::{NameId, Scene};
use crate::input::FaultPlace;
use crate::library::{Field, FieldSet, Kind, Setting, Trace, ValueType};
use crate::rulebook::{Compared, CuredBy, Limit, Rule, Symbol, Template};
use crate::text::{Sources, cut};
use crate::units::Unit;
use crate::units::print;

use super::brief::Brief;
use super::finding::{FactShown, Finding, FindingPlace, Lack, LimitShown, fingerprint};
use super::judgement::{Judge, SceneValues};
use super::made_words::Words;
use super::measure::{outside, rests_on_length};
use super::names::meant;
use super::not_known::lacking;
use super::outcome::{Judgement, Outcome};
use super::render::{Manner, render};
use super::shortfall::Shortfall;
use super::shown::{fact_shown, field_shown};

/// Longest text of a cell that a finding keeps, in characters.
const LONGEST_CELL: usize = 200;
/// Why a rule is not judged where nothing is missing and no fact says more.
const NO_RESULT: &str = "its values allow no result";

/// Why a rule that waits for values matters, where its own words would speak of these.
const WAITS: &str = "what is not stated cannot be checked";

/// What is not judged gives no reason and no advice about a value that nobody states: `otherwise`
/// takes their place, if there is one.
fn unless_unknown(outcome: Outcome, words: Words, otherwise: Option<Words>) -> Words {
    let is_open = outcome == Outcome::NotJudged && words.speaks_of_unknown();
    match otherwise.filter(|_| is_open) {
        Some(otherwise) => otherwise,
        None => words,
    }
}

/// Where a value is not stated, what is said holds at the end of its range that is best for the tool:
/// it may be worse, and is not better.
fn at_best(message: Words, trace: Trace) -> Words {
    let ranged: Vec<&str> = trace.ranged.iter().map(Field::short).collect();
    if ranged.is_empty() {
        return message;
    }
    let verb = if ranged.len() == 1 { "is" } else { "are" };
    message.and(format!(
        "; the best case, as {} {verb} not stated",
        ranged.join(" and ")
    ))
}

/// Writes up a judgement that fails or cannot be made.
pub(super) fn finding<'v>(
    judge: &Judge<'_>,
    index: usize,
    rule: &'v Rule,
    scene: &Scene<'_>,
    judged: &Judgement,
) -> Finding {
    let Judgement {
        outcome,
        trace,
        failing,
    } = *judged;
    let level = failing.map(|failing| failing.level);
    let full_level = failing.map_or(rule.level, |failing| failing.full_level);
    let shown = failing.map_or(trace, |failing| failing.shown);
    let case = failing.and_then(|failing| failing.case);
    let case = case.and_then(|case| rule.milder.get(case));
    let message = case
        .and_then(|case| case.message.as_ref())
        .unwrap_or(&rule.message);
    let why = case.and_then(|case| case.why.as_ref()).unwrap_or(&rule.why);
    let advice = case
        .and_then(|case| case.advice.as_ref())
        .unwrap_or(&rule.advice);
    let at = judge.spoken_of(index, rule, scene, judged);
    let values = SceneValues(at);
    let environment = judge.environment(index, &values);
    let compared: Vec<Compared> = match (&rule.expect, outcome) {
        (Some(expect), Outcome::NotMet) => expect.failing(&environment),
        _ => Vec::new(),
    };
    let units = scene.view.library.units;
    let manner = Manner {
        compared: &compared,
        units,
        guessed: judge.assumed_settings,
    };
    let words = |template: &'v Template| render(template, &environment, &manner);
    let assembly = scene.view.assembly;
    let missing: Vec<&'static str> = trace.missing.iter().map(Field::qualified).collect();
    let message = match outcome {
        Outcome::NotMet => at_best(words(message), trace),
        Outcome::Met | Outcome::NotApplicable => words(message),
        Outcome::NotJudged if !rule.unjudged.is_empty() => words(&rule.unjudged),
        Outcome::NotJudged => {
            let turns = || judge.turns(index, rule, scene, trace);
            let decided = undecided(scene, trace).zip(turns());
            let lacking = lacking(&scene.view, trace.missing);
            let why = if lacking.is_empty() {
                outside(rule, scene).map_or_else(|| NO_RESULT.to_owned(), str::to_owned)
            } else {
                lacking
            };
            not_judged(rule, &why, decided).into()
        }
    };
    let operation = scene.view.operation_name().map(str::to_owned);
    let places = places(rule, scene, shown, outcome);
    let number = assembly.tool_number().unwrap_or("");
    let fingerprint = fingerprint(&[
        &rule.id,
        number,
        assembly.id().unwrap_or(""),
        assembly.record.text(Field::Machine).unwrap_or(""),
        operation.as_deref().unwrap_or(""),
    ]);
    let ask = (!missing.is_empty()).then(|| format!("state {}", missing.join(", ")).into());
    let advice = unless_unknown(outcome, words(advice), ask);
    let besides = words(&rule.besides);
    Finding {
        rule: rule.id.clone(),
        title: rule.title.clone().into(),
        level,
        full_level,
        outcome,
        consequence: rule.consequence,
        basis: rule.basis,
        beside: rule.beside.clone(),
        assembly_index: None,
        part_of: Vec::new(),
        tool_number: assembly.tool_number().map(str::to_owned),
        assembly: assembly.id().map(str::to_owned),
        operation,
        message,
        why: unless_unknown(outcome, words(why), Some(WAITS.to_owned().into())),
        advice: and(&advice, &besides),
        brief: Brief::of(advice),
        besides,
        without_moving: words(&rule.without_moving),
        stick_out: None,
        otherwise: Vec::new(),
        caution: unless_unknown(outcome, words(&rule.caution), Some(Words::default())),
        missing: match outcome {
            Outcome::NotJudged => missing,
            _ => Vec::new(),
        },
        shortfall: compared.first().map(Shortfall::of),
        facts: facts(judge, rule, scene),
        limits: limits(judge, rule, trace),
        assumptions: judge.assumptions(scene, trace, judge.harmless(rule, &environment)),
        accepted: None,
        lapsed: None,
        places,
        of_torque: rule.is_cured_by(CuredBy::Torque),
        on_length: !rule.is_of_record() && rests_on_length(trace),
        fingerprint,
    }
}

/// Advice with what is said beside it.
pub(super) fn and(advice: &Words, besides: &Words) -> Words {
    if besides.is_empty() {
        return advice.clone();
    }
    advice.and(". ").and(besides.clone())
}

/// The properties whose range decides, each with it, where nothing else is missing.
fn undecided(scene: &Scene<'_>, trace: Trace) -> Option<String> {
    let units = scene.view.library.units;
    let mut words = Vec::new();
    for field in trace.missing.iter() {
        let range = scene.view.range(field)?;
        let range = print::ends(range, Unit::Mm, units);
        words.push(format!(
            "{}, which is not stated ({range})",
            field.qualified()
        ));
    }
    (!words.is_empty()).then(|| words.join(" and "))
}

fn not_judged(rule: &Rule, why: &str, turns: Option<(String, String)>) -> String {
    let title = &rule.title;
    if let Some((decided_by, how_near)) = turns {
        return format!("not judged ({title}): {how_near}; decided by {decided_by}");
    }
    format!("not judged ({title}): {why}")
}

/// The facts and properties that the rule names, limits aside.
fn facts(judge: &Judge<'_>, rule: &Rule, scene: &Scene<'_>) -> Vec<FactShown> {
    let guessed = judge.assumed_settings;
    let mut found: Vec<FactShown> = Vec::new();
    for (name, symbol) in rule.expressions().flat_map(|checked| &checked.symbols) {
        let Symbol::Outside(id) = symbol else {
            continue;
        };
        if found.iter().any(|known| known.name == *name) {
            continue;
        }
        match meant(*id) {
            Some(NameId::Fact(fact)) => found.push(fact_shown(fact.info(), scene, guessed)),
            Some(NameId::Field(field)) => {
                found.push(field_shown(name, field_unit(field), field, scene, guessed));
            }
            None => {}
        }
    }
    found
}

pub(super) fn field_unit(field: Field) -> Option<Unit> {
    match field.property().value {
        ValueType::Quantity(unit) => Some(unit),
        ValueType::Count | ValueType::Size => Some(Unit::One),
        _ => None,
    }
}

/// The limits that the rule names, and the settings behind the facts that it used.
fn limits(judge: &Judge<'_>, rule: &Rule, trace: Trace) -> Vec<LimitShown> {
    let named = rule
        .expressions()
        .flat_map(|checked| &checked.symbols)
        .filter_map(|(_, symbol)| match symbol {
            Symbol::Private(at) => rule.limits.get(*at),
            Symbol::Shared(at) => judge.book.limits.get(*at),
            Symbol::Outside(_) => None,
        });
    let settings = trace.settings.iter().map(Setting::name);
    let behind = settings.filter_map(|name| judge.book.limit(name));
    let mut all: Vec<&Limit> = named.chain(behind).collect();
    all.sort_by(|a, b| a.name.cmp(&b.name));
    all.dedup_by(|a, b| a.name == b.name);
    let show = |limit: &Limit| LimitShown {
        name: limit.name.clone(),
        value: limit.value,
        written: limit.written.clone(),
        unit: limit.unit,
        basis: limit.basis.name(),
        source: limit.source.clone(),
    };
    all.into_iter().map(show).collect()
}

/// Whether a cell is what a person changes first to correct what a rule finds.
fn is_changed(rule: &Rule, field: Field) -> bool {
    match rule.cured_by.first() {
        Some(CuredBy::StickOut) => field == Field::StickOut,
        Some(CuredBy::Torque) => field == Field::NutTorque,
        Some(CuredBy::Cut) => field.kind() == Kind::Operation,
        _ => false,
    }
}

/// Cells that the judgement points at, and records that lack a field. What a person changes comes
/// first, the rest in the order of the vocabulary; if it cannot be made, what is missing.
fn places(rule: &Rule, scene: &Scene<'_>, trace: Trace, outcome: Outcome) -> Vec<FindingPlace> {
    let library = scene.view.library;
    let lacking = |field: Field| {
        let place = FaultPlace {
            place: scene.view.record_of(field.kind()).place,
            field: field.short().into(),
            absent: true,
        };
        located(&library.sources, &place, name_of(scene, field.kind()))
    };
    let stated = |field: Field| {
        let entry = scene.view.entry(field)?;
        let place = FaultPlace {
            place: entry.place(),
            field: field.short().into(),
            absent: false,
        };
        let located = located(&library.sources, &place, name_of(scene, field.kind()));
        Some(FindingPlace {
            unit: entry.header_unit().filter(|_| is_bare(&located.text)),
            ..located
        })
    };
    let missing = match outcome {
        Outcome::NotJudged => trace.missing,
        _ => FieldSet::default(),
    };
    // What is stated and in no table is shown where it is stated.
    let missed = |field: Field| match scene.view.unlisted(field) {
        Some(_) => stated(field).unwrap_or_else(|| lacking(field)),
        None => lacking(field),
    };
    let mut places: Vec<FindingPlace> = missing.iter().map(missed).collect();
    let used = trace.used.iter().filter(|field| !missing.contains(*field));
    let (changed, others): (Vec<Field>, Vec<Field>) =
        used.partition(|field| is_changed(rule, *field));
    places.extend(changed.into_iter().chain(others).filter_map(stated));
    places.extend(trace.absent.iter().map(lacking));
    if places.is_empty() {
        let place = FaultPlace {
            place: scene.view.assembly.record.place,
            field: "".into(),
            absent: true,
        };
        places.push(located(
            &library.sources,
            &place,
            name_of(scene, Kind::Assembly),
        ));
    }
    places
}

/// Whether a cell is a number alone, without a unit of its own.
fn is_bare(text: &str) -> bool {
    !text.contains(|c: char| c.is_alphabetic() || matches!(c, '"' | '\'' | '°'))
}

/// A record's name for people: `cutter EM12`, `tool 7`.
fn name_of(scene: &Scene<'_>, kind: Kind) -> String {
    let record = scene.view.record_of(kind);
    let assembly = scene.view.assembly;
    if kind == Kind::Assembly || std::ptr::eq(record, &raw const assembly.record) {
        return assembly
            .tool_number()
            .map_or(String::new(), |number| format!("tool {number}"));
    }
    let id = Field::id_of(kind).and_then(|field| record.text(field));
    id.map_or_else(
        || kind.name().to_owned(),
        |id| format!("{} {id}", kind.name()),
    )
}

pub(super) fn located(sources: &Sources, at: &FaultPlace, record: String) -> FindingPlace {
    let position = sources.position(at.place);
    let end = if at.absent {
        position
    } else {
        sources.end(at.place)
    };
    let text = if at.absent {
        String::new()
    } else {
        cut(&sources.cell(at.place), LONGEST_CELL).into_owned()
    };
    FindingPlace {
        file: sources.name(at.place).to_owned(),
        sheet: sources.sheet(at.place).map(str::to_owned),
        line: position.line,
        column: position.column,
        end_line: end.line,
        end_column: end.column,
        field: at.field.to_string(),
        unit: None,
        text,
        record,
        absent: at.absent,
        lack: Lack::NotStated,
    }
}
