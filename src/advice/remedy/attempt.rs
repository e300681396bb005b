//! One change tried: its window, its stick-out, and what all rules say of it.

use std::cell::Cell;

use crate::facts::{Fact, Scene};
use crate::judge::{FactShown, Judge, Ruling};
use crate::library::{self, Assembly, Field, Library, Overrides};
use crate::rulebook::{Level, Rule};

use super::super::lengths_needed::{grip_needed, reach_needed};
use super::super::{Window, window};
use super::crib::Part;
use super::kinds::{Changed, Remedy, RemedyKind};
use super::{alike, verify};

/// Facts that are shown before and after.
const SHOWN: [Fact; 5] = [
    Fact::GrippedLength,
    Fact::GripFraction,
    Fact::UngrippedFront,
    Fact::OverhangRatio,
    Fact::TipStiffness,
];

/// The fact by which a rule asks for a collet's grip.
const GRIP: &str = "needed_grip";
/// What is longer by less may still count as equal to both of them, mm.
const EQUAL: f64 = 0.05;

/// One assembly in need, and what is known of it.
pub(super) struct Patient<'p> {
    pub judge: &'p Judge<'p>,
    pub library: &'p Library,
    pub assembly: &'p Assembly,
    /// Ids of rules that the shop accepts on it.
    pub accepted: Vec<String>,
    pub before: Vec<Ruling>,
    pub shown: Vec<FactShown>,
    /// Attempts with other parts so far, as far as a window was solved.
    pub attempts: Cell<usize>,
}

impl Patient<'_> {
    pub(super) fn look<R>(
        &self,
        overrides: &Overrides<'_>,
        see: impl FnOnce(&Scene<'_>, &[Scene<'_>]) -> R,
    ) -> R {
        self.judge.look(self.library, self.assembly, overrides, see)
    }

    pub(super) fn rulings(&self, overrides: &Overrides<'_>) -> Vec<Ruling> {
        let mut found = self.judge.verdicts(self.library, self.assembly, overrides);
        let accepted: Vec<&str> = self.accepted.iter().map(String::as_str).collect();
        verify::leave_out(self.judge, &mut found, &accepted);
        found
    }

    pub(super) fn window(&self, overrides: &Overrides<'_>) -> Option<Window> {
        window(self.judge, self.library, self.assembly, overrides)
    }

    /// Tries other parts, or none, at the stick-out that their window recommends.
    pub(super) fn with_parts(&self, parts: &[&Part<'_>]) -> Option<(Remedy, f64)> {
        let mut overrides = self.swapped(parts)?;
        if self.is_hopeless(&overrides) {
            return None;
        }
        let attempts = self.attempts.get() + usize::from(!parts.is_empty());
        self.attempts.set(attempts);
        let window = self
            .window(&overrides)
            .filter(|window| !window.is_empty())?;
        let stick_out = window.recommended?;
        self.set(&mut overrides, stick_out);
        let torque_at_most = self.torque_at_most(&overrides);
        let torque = torque_at_most.map(|torque| (Field::NutTorque, torque));
        overrides.numbers.extend(torque);
        let after = self.rulings(&overrides);
        let leaves = verify::leaves(self.judge, &self.before, &after)?;
        if !verify::grip_is_judged(self.judge, &after) {
            return None;
        }
        let stands = self.look(&overrides, |base, _| {
            clamps(base) && (leaves.is_empty() || self.torque_is_no_worse(base))
        });
        if !stands {
            return None;
        }
        let (shown, stiffness) = self.facts(&overrides);
        let remedy = Remedy {
            kind: kind(parts),
            changes: parts.iter().map(|part| changed(part)).collect(),
            stick_out: Some(stick_out),
            protruding_length: self.protruding(&overrides),
            split: Vec::new(),
            window,
            before: self.shown.clone(),
            after: shown,
            leaves,
            warnings: verify::warnings(self.judge, &after),
            torque_at_most,
            unstated: self.unstated(parts, &after),
            rechecked: true,
        };
        Some((remedy, stiffness))
    }

    /// Whether reach and grip ask for more than the whole tool: then nothing is left of the
    /// window, and that is known long before it is solved. Only where both are errors here.
    fn is_hopeless(&self, overrides: &Overrides<'_>) -> bool {
        let asks = |asks: &dyn Fn(&Rule) -> bool| {
            let mut rules = self.judge.book.rules.iter();
            rules.any(|rule| !rule.off && rule.level == Level::Error && asks(rule))
        };
        let of_grip = |rule: &Rule| rule.stands_for.grip && rule.names(GRIP);
        if !asks(&|rule| rule.stands_for.reach) || !asks(&of_grip) {
            return false;
        }
        self.look(overrides, |base, operations| {
            let held = base.view.held_in_collet().value == Some(true);
            let front = reach_needed(operations);
            let back = grip_needed(base).value;
            let needed = front.zip(back).map(|(front, back)| front + back);
            let long = base.view.overall_length().value;
            held && needed
                .zip(long)
                .is_some_and(|(needed, long)| needed > long + EQUAL)
        })
    }

    /// What other parts do not state and should be looked at.
    fn unstated(&self, parts: &[&Part<'_>], after: &[Ruling]) -> Vec<&'static str> {
        let mut found: Vec<&'static str> = self.look(&Overrides::default(), |base, _| {
            let each = parts.iter().flat_map(|part| alike::unstated(part, base));
            each.collect()
        });
        let lost = verify::lost(self.judge, &self.before, after);
        found.extend(lost.iter().map(Field::qualified));
        found
    }

    /// The torque that other parts permit, N·m, where the present one is right for the present
    /// parts and too much for them: it can only come down.
    fn torque_at_most(&self, overrides: &Overrides<'_>) -> Option<f64> {
        if verify::is_over_torqued(self.judge, &self.before) {
            return None;
        }
        self.look(overrides, |base, _| {
            let limit = base.number(Fact::TorqueLimit).value?;
            let torque = base.field(Field::NutTorque).value?;
            (torque > limit).then_some(limit)
        })
    }

    /// What stands about the wrench may stand, but not for a weaker collet, nut or wrench.
    fn torque_is_no_worse(&self, after: &Scene<'_>) -> bool {
        let limit = |scene: &Scene<'_>| scene.number(Fact::TorqueLimit).value;
        let was = self.look(&Overrides::default(), |base, _| limit(base));
        limit(after).zip(was).is_some_and(|(is, was)| is >= was)
    }

    /// The facts shown of a changed assembly, and its stiffness, N/mm, by which it is ranked.
    pub(super) fn facts(&self, overrides: &Overrides<'_>) -> (Vec<FactShown>, f64) {
        self.look(overrides, |base, operations| {
            let shown = shown(self.judge, base, operations);
            let stiffness = base.number(Fact::TipStiffness).value.unwrap_or(0.0);
            (shown, stiffness)
        })
    }
}

/// A few facts, and the margin of the operation that is nearest to its reach.
pub(super) fn shown(
    judge: &Judge<'_>,
    base: &Scene<'_>,
    operations: &[Scene<'_>],
) -> Vec<FactShown> {
    let mut found: Vec<FactShown> = SHOWN.iter().map(|fact| judge.shown(*fact, base)).collect();
    let margin = |scene: &Scene<'_>| scene.number(Fact::ReachMargin).value;
    let known = operations.iter().filter(|scene| margin(scene).is_some());
    let worst = known.min_by(|a, b| {
        let value = |scene| margin(scene).unwrap_or(f64::INFINITY);
        value(a).total_cmp(&value(b))
    });
    found.extend(worst.map(|scene| judge.shown(Fact::ReachMargin, scene)));
    found
}

/// Whether what is no collet chuck clamps the tool as its manufacturer requires: only where that
/// is stated is another holder proposed, and only as far as it vouches.
fn clamps(base: &Scene<'_>) -> bool {
    if base.view.held_in_collet().value == Some(true) {
        return true;
    }
    let overall = base.view.overall_length().value;
    let inserted = overall.zip(base.field(Field::StickOut).value);
    let least = base.field(Field::HolderClampingLengthMin).value;
    let Some((inserted, least)) = inserted.map(|(all, out)| all - out).zip(least) else {
        return false;
    };
    let most = base.field(Field::InsertionDepthMax).value;
    let shank = base.field(Field::ShankLength);
    let plain = shank.value.filter(|_| shank.trace.assumed.is_empty());
    inserted >= least
        && most.is_none_or(|most| inserted <= most)
        && plain.is_some_and(|plain| inserted <= plain)
}

fn kind(parts: &[&Part<'_>]) -> RemedyKind {
    let swapped = |kind| parts.iter().any(|part| part.kind == kind);
    if swapped(library::Kind::Holder) {
        RemedyKind::Holder
    } else if swapped(library::Kind::Cutter) {
        RemedyKind::Cutter
    } else if swapped(library::Kind::Collet) {
        RemedyKind::Collet
    } else if swapped(library::Kind::Nut) {
        RemedyKind::Nut
    } else {
        RemedyKind::StickOut
    }
}

fn changed(part: &Part<'_>) -> Changed {
    Changed {
        part: part.kind,
        id: part.id.to_owned(),
        location: part.location.map(str::to_owned),
        quantity: part.quantity,
        in_stock: part.in_stock,
    }
}
