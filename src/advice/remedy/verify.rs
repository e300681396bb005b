//! Whether a changed assembly is cured: by the whole rule set, before and after.

use crate::judge::{Judge, Outcome, Ruling};
use crate::library::{Field, FieldSet, PROPERTIES};
use crate::rulebook::{CuredBy, Level, Rule};

/// Whether a remedy has to remove the errors of a rule: another stick-out or another part does.
fn concerns(rule: &Rule) -> bool {
    rule.is_of_setup()
}

fn lacks_starred(lacks: FieldSet) -> bool {
    let mut starred = PROPERTIES.iter().filter(|property| property.starred);
    starred.any(|property| lacks.contains(property.field))
}

/// Takes rules that the shop accepts out of what is judged: they need no cure.
pub(super) fn leave_out(judge: &Judge<'_>, rulings: &mut Vec<Ruling>, accepted: &[&str]) {
    rulings.retain(|ruling| {
        let rule = judge.book.rules.get(ruling.rule);
        rule.is_none_or(|rule| !accepted.contains(&rule.id.as_str()))
    });
}

/// The warnings that stand.
pub(super) fn warnings(judge: &Judge<'_>, rulings: &[Ruling]) -> Vec<String> {
    let of_assembly = rulings
        .iter()
        .filter(|ruling| ruling.level == Some(Level::Warning));
    let rules = of_assembly.filter_map(|ruling| judge.book.rules.get(ruling.rule));
    let mut found: Vec<String> = rules.map(|rule| rule.id.clone()).collect();
    found.dedup();
    found
}

/// The rules that an assembly fails and a remedy may cure, each once.
pub(super) fn needs<'j>(judge: &'j Judge<'_>, rulings: &[Ruling]) -> Vec<&'j Rule> {
    let failing = rulings.iter().filter(|ruling| ruling.is_error());
    let rules = failing.filter_map(|ruling| judge.book.rules.get(ruling.rule));
    let mut found: Vec<&Rule> = rules.filter(|rule| concerns(rule)).collect();
    found.dedup_by(|a, b| a.id == b.id);
    found
}

/// The starred properties for want of which error-level rules are not judged.
pub(super) fn missing(judge: &Judge<'_>, rulings: &[Ruling]) -> Vec<&'static str> {
    let mut found = Vec::new();
    for ruling in rulings {
        let error = judge.book.rules.get(ruling.rule);
        let error = error.is_some_and(|rule| rule.level == Level::Error && concerns(rule));
        if ruling.outcome != Outcome::NotJudged {
            continue;
        }
        let fields = ruling.lacks.iter();
        let fields = fields.filter(|field| field.property().starred);
        for name in fields.map(Field::qualified) {
            if error && !found.contains(&name) {
                found.push(name);
            }
        }
    }
    found
}

/// What a change leaves standing, if it cures all that it has to and brings no new error.
/// Both lists are of the same rules on the same operations.
pub(super) fn leaves(
    judge: &Judge<'_>,
    before: &[Ruling],
    after: &[Ruling],
) -> Option<Vec<String>> {
    if before.len() != after.len() {
        return None;
    }
    let mut left: Vec<String> = Vec::new();
    for (before, after) in before.iter().zip(after) {
        let rule = judge.book.rules.get(after.rule)?;
        if !bearable(rule, before, after) {
            return None;
        }
        if after.is_error() && rule.is_of_wrench() && !left.contains(&rule.id) {
            left.push(rule.id.clone());
        }
    }
    Some(left)
}

/// What a part need not state of itself: its maker may ask for nothing there, but that is to be
/// looked up before it is taken.
const OF_THE_PART: [Field; 5] = [
    Field::CutterClampingLengthMin,
    Field::CutterClampingLengthMax,
    Field::ColletClampingLengthMin,
    Field::ColletClampingLengthMax,
    Field::HolderClampingLengthMin,
];

/// Whether a rule is an error-level one about how deep the tool goes or how far it goes in, and
/// was judged.
fn is_lost(rule: &Rule, before: &Ruling) -> bool {
    let judged = matches!(before.outcome, Outcome::Met | Outcome::NotMet);
    let deep = rule.of_operation && rule.is_cured_by(CuredBy::Length);
    let asked = deep || !rule.bounds.is_empty();
    asked && rule.level == Level::Error && judged
}

/// What is not stated after a change, so that a rule is not asked any more.
pub(super) fn lost(judge: &Judge<'_>, before: &[Ruling], after: &[Ruling]) -> FieldSet {
    let pairs = before.iter().zip(after);
    pairs.fold(FieldSet::default(), |found, (before, after)| {
        let rule = judge.book.rules.get(after.rule);
        let lost = rule.is_some_and(|rule| is_lost(rule, before));
        if lost && after.is_silent() {
            found.union(after.lacks)
        } else {
            found
        }
    })
}

/// Whether one rule's answer to a change may be borne.
fn bearable(rule: &Rule, before: &Ruling, after: &Ruling) -> bool {
    let concerns = concerns(rule);
    let was_to_go = concerns && before.is_error();
    if after.is_error() {
        return !concerns && before.is_error();
    }
    // An error that merely cannot be seen any more is not removed, unless it was the old part's
    // own demand; nor does a part whose flutes are not stated reach what the present one does.
    if after.is_silent() {
        let own = after.lacks.iter().all(|field| OF_THE_PART.contains(&field));
        let blind = after.lacks.contains(Field::ChipFluteLength);
        return (!was_to_go || own) && !(blind && is_lost(rule, before));
    }
    if after.outcome == Outcome::NotJudged {
        let judges = concerns && rule.level == Level::Error;
        return !(was_to_go || judges && lacks_starred(after.lacks));
    }
    true
}

/// Whether rules that judge the grip say that it is enough: one of them is met, and none that
/// applies waits. Where the rulebook has none, nobody asks.
pub(super) fn grip_is_judged(judge: &Judge<'_>, rulings: &[Ruling]) -> bool {
    let judges = |ruling: &&Ruling| {
        let rule = judge.book.rules.get(ruling.rule);
        rule.is_some_and(|rule| rule.stands_for.grip)
    };
    let mut of_grip = rulings.iter().filter(judges).peekable();
    if of_grip.peek().is_none() {
        return true;
    }
    let came: Vec<Outcome> = of_grip.map(|ruling| ruling.outcome).collect();
    came.contains(&Outcome::Met) && !came.contains(&Outcome::NotJudged)
}

/// Whether an error stands that only the wrench corrects.
pub(super) fn is_over_torqued(judge: &Judge<'_>, rulings: &[Ruling]) -> bool {
    let mut failing = rulings.iter().filter(|ruling| ruling.is_error());
    failing.any(|ruling| {
        let rule = judge.book.rules.get(ruling.rule);
        rule.is_some_and(Rule::is_of_wrench)
    })
}
