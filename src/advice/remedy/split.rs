//! The operation split: this tool as deep as its grip lets it, a longer one for the rest.

use crate::facts::Fact;
use crate::judge::Ruling;
use crate::library::{Field, OperationKind, Overrides};

use super::super::lengths_needed::setting_tolerance;
use super::super::window::{Advised, End, Window};
use super::attempt::Patient;
use super::kinds::{Remedy, RemedyKind, Split};
use super::verify;

/// A reach so small that no reach binds the window, mm.
const NO_REACH: f64 = 0.01;
/// Most operations that are split; each is judged by itself.
const MOST: usize = 16;
/// An operation of which the tool does less than this share is better left to the longer one.
const SHARE: f64 = 0.5;
/// The stick-out is rounded down to whole numbers of these, mm.
const STEP: f64 = 0.5;

/// An operation that is too deep, and how deep it can be done.
struct Deep {
    at: usize,
    name: String,
    reach: f64,
}

/// The split, rechecked; `None` if there is nothing to split or it does not help.
pub(super) fn split(patient: &Patient<'_>) -> Option<(Remedy, f64)> {
    let mut overrides = Overrides::default();
    overrides.numbers.push((Field::Reach, NO_REACH));
    let without_reach = patient
        .window(&overrides)
        .filter(|window| !window.is_empty())?;
    let room = setting_tolerance(patient.judge);
    let most = without_reach.max.as_ref()?.value;
    let stick_out = ((most - room) / STEP + 1e-9).floor() * STEP;
    // Who sets it a little shorter must still reach what is left to this tool.
    let deep = too_deep(patient, stick_out - room)?;
    let window = with_reach(patient, without_reach, &deep, stick_out)?;
    let mut changed = Overrides::default();
    patient.set(&mut changed, stick_out);
    let after = ruled(patient, &changed, &deep);
    let leaves = verify::leaves(patient.judge, &patient.before, &after)?;
    // The facts shown are those of the part that this tool still does.
    let reaches = deep.iter().map(|one| one.reach);
    let least = reaches.fold(f64::INFINITY, f64::min);
    let mut own = changed;
    own.numbers.push((Field::Reach, least));
    let (shown, stiffness) = patient.facts(&own);
    let split = deep.into_iter().map(|one| Split {
        operation: one.name,
        reach: one.reach,
    });
    let remedy = Remedy {
        kind: RemedyKind::Split,
        changes: Vec::new(),
        stick_out: Some(stick_out),
        protruding_length: patient.protruding(&own),
        split: split.collect(),
        window,
        before: patient.shown.clone(),
        after: shown,
        leaves,
        warnings: verify::warnings(patient.judge, &after),
        torque_at_most: None,
        unstated: Vec::new(),
        rechecked: true,
    };
    Some((remedy, stiffness))
}

/// All rules on the assembly with its operations split. Another reach in the overrides is that
/// of all operations: so each that is split is judged with its own, and all others as they are.
fn ruled(patient: &Patient<'_>, changed: &Overrides<'_>, deep: &[Deep]) -> Vec<Ruling> {
    let mut after = patient.rulings(changed);
    for one in deep {
        let mut own = changed.clone();
        own.numbers.push((Field::Reach, one.reach));
        let rulings = patient.rulings(&own);
        for (after, ruling) in after.iter_mut().zip(rulings) {
            if ruling.operation == Some(one.at) {
                *after = ruling;
            }
        }
    }
    after
}

/// The window that is left by what this tool still reaches; `None` if no room to set it is left.
fn with_reach(
    patient: &Patient<'_>,
    window: Window,
    deep: &[Deep],
    stick_out: f64,
) -> Option<Window> {
    let value = stick_out - setting_tolerance(patient.judge);
    if window.min.as_ref().is_some_and(|min| min.value > value) {
        return None;
    }
    let mut rules = patient.judge.book.rules.iter();
    let rule = rules.find(|rule| rule.stands_for.reach && !rule.off)?;
    let end = End {
        value,
        rule: rule.id.clone(),
        name: rule.binds.clone(),
        operation: deep.first().map(|one| one.name.clone()),
        assumed: Vec::new(),
        assumptions: Vec::new(),
        where_none: String::new(),
        model_ends: None,
    };
    let full = window.full.filter(|(_, to)| *to >= value);
    Some(Window {
        full: full.map(|(from, to)| (from.max(value), to)),
        next_min: window.min,
        advised: window
            .advised
            .filter(|advised| {
                let most = advised.max.as_ref();
                most.is_none_or(|most| most.value >= stick_out)
            })
            .map(|advised| Advised {
                min: Some(end.clone()),
                ..advised
            }),
        min: Some(end),
        others: Vec::new(),
        recommended: Some(stick_out),
        ..window
    })
}

/// The operations that need more than a stick-out, mm. `None` if there are none, or one of them
/// cannot be split: a thread or a reamed hole is done in one go.
fn too_deep(patient: &Patient<'_>, stick_out: f64) -> Option<Vec<Deep>> {
    patient.look(&Overrides::default(), |base, operations| {
        if base.view.held_in_collet().value != Some(true) {
            return None;
        }
        let mut deep = Vec::new();
        for (at, scene) in operations.iter().enumerate() {
            let needed = scene.at_most(|scene| scene.number(Fact::ReachNeeded)).value;
            if needed.is_none_or(|needed| needed <= stick_out) {
                continue;
            }
            let kind = scene.view.listed::<OperationKind>().value;
            if !matches!(
                kind,
                None | Some(OperationKind::Milling | OperationKind::Drilling)
            ) {
                return None;
            }
            let stated = scene.field(Field::Reach).value?;
            let clearance = scene.at_most(|scene| scene.field(Field::Clearance));
            let reach = stick_out - clearance.value.unwrap_or(0.0);
            let deepest = scene.field(Field::AxialDepth).value.unwrap_or(0.0);
            if reach < stated * SHARE || reach < deepest {
                return None;
            }
            let name = scene.view.operation_name().unwrap_or("").to_owned();
            deep.push(Deep { at, name, reach });
        }
        (!deep.is_empty() && deep.len() <= MOST).then_some(deep)
    })
}
