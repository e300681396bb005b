//! All rules of a session on one assembly: those that no number decides are asked once for all
//! assemblies of its outline.

use std::cell::Cell;

use crate::facts::Scene;
use crate::library::{Assembly, Overrides, Watch, Watched};
use crate::rulebook::Rule;

use super::coverage::Covered;
use super::outcome::Outcome;
use super::run::Session;
use super::settled::Settled;
use super::shown::all_facts;
use super::tally::{Counted, Tally};
use super::write_up;

/// The scenes of one assembly.
#[derive(Clone, Copy)]
struct Scenes<'s, 'a> {
    /// Number of the assembly.
    index: usize,
    base: &'s Scene<'a>,
    operations: &'s [Scene<'a>],
}

/// What one rule says of one assembly and its operations.
#[derive(Default)]
struct Said {
    counted: Counted,
    /// Whether there is something to be written up, or a range to be named.
    aloud: bool,
}

impl Session<'_> {
    /// What comes of an assembly by the rules alone.
    pub(super) fn tally(&self, index: usize, assembly: &Assembly) -> Tally {
        let overrides = Overrides::default();
        let outline = self.library.outline(assembly);
        if let Some(settled) = self.outlines.get(&outline) {
            return self
                .judge
                .look(self.library, assembly, &overrides, |base, operations| {
                    let scenes = Scenes {
                        index,
                        base,
                        operations,
                    };
                    self.known(scenes, &settled)
                });
        }
        let seen = Cell::new(false);
        let watch = Watch {
            of: Watched::Amount,
            seen: &seen,
        };
        let (judge, library) = (&self.judge, self.library);
        let (tally, settled) = judge.look_under(
            library,
            assembly,
            &overrides,
            Some(watch),
            |base, operations| {
                let scenes = Scenes {
                    index,
                    base,
                    operations,
                };
                self.first(scenes, &seen)
            },
        );
        self.outlines.keep(outline, settled);
        tally
    }

    /// An assembly of an outline that is known.
    fn known(&self, scenes: Scenes<'_, '_>, settled: &Settled) -> Tally {
        let mut tally = begun(scenes);
        tally.counted = settled.counted;
        for at in &settled.open {
            let said = self.rule(*at, scenes, &mut tally);
            tally.counted.add(said.counted);
        }
        self.covered(scenes, tally)
    }

    /// The first assembly of an outline, and what is settled by it. `seen` is set where a number
    /// or a text is read.
    fn first(&self, scenes: Scenes<'_, '_>, seen: &Cell<bool>) -> (Tally, Settled) {
        let mut tally = begun(scenes);
        let mut settled = Settled::default();
        for at in 0..self.judge.book.rules.len() {
            seen.set(false);
            let said = self.rule(at, scenes, &mut tally);
            tally.counted.add(said.counted);
            if said.aloud || seen.get() {
                settled.open.push(at);
            } else {
                settled.counted.add(said.counted);
            }
        }
        (self.covered(scenes, tally), settled)
    }

    fn covered(&self, scenes: Scenes<'_, '_>, mut tally: Tally) -> Tally {
        let Scenes {
            index,
            base,
            operations,
        } = scenes;
        for finding in &mut tally.findings {
            finding.assembly_index = Some(index);
        }
        let Counted { grip, reach, .. } = tally.counted;
        tally.covered = Covered::of(base, operations, (grip, reach));
        if self.options.with_facts {
            tally.facts = Some(all_facts(base, operations, self.judge.assumed_settings));
        }
        tally
    }

    /// Asks one rule; its findings go to the tally.
    fn rule(&self, at: usize, scenes: Scenes<'_, '_>, tally: &mut Tally) -> Said {
        let mut said = Said::default();
        let rule = self.judge.book.rules.get(at);
        let Some(rule) = rule.filter(|rule| !rule.is_fault()) else {
            return said;
        };
        if !self.asks(at) {
            self.unasked((at, rule), scenes, &mut said);
        } else if !rule.of_operation {
            self.subject((at, rule), scenes.base, tally, &mut said);
        } else if scenes.operations.is_empty() {
            said.counted.count(rule, Outcome::NotApplicable);
        } else {
            for scene in scenes.operations {
                self.subject((at, rule), scene, tally, &mut said);
            }
        }
        said
    }

    /// A rule that stands for grip or reach and was not asked for: who would have been judged by
    /// it is not judged.
    fn unasked(&self, (at, rule): (usize, &Rule), scenes: Scenes<'_, '_>, said: &mut Said) {
        if !rule.stands_for.grip && !rule.stands_for.reach {
            return;
        }
        let mut ask = |scene: &Scene<'_>| {
            let judged = self.judge.judge(at, rule, scene);
            said.counted.answers(rule, judged.outcome, false);
        };
        if rule.of_operation {
            scenes.operations.iter().for_each(ask);
        } else {
            ask(scenes.base);
        }
    }

    fn subject(
        &self,
        (at, rule): (usize, &Rule),
        scene: &Scene<'_>,
        tally: &mut Tally,
        said: &mut Said,
    ) {
        // Of most rules there is nothing to say, and that costs least.
        if let Some((outcome, ranged)) = self.judge.silent(at, rule, scene) {
            said.counted.count(rule, outcome);
            said.aloud |= !ranged.is_empty();
            tally.rests_on(ranged, scene);
            return;
        }
        said.aloud = true;
        let (judged, ranged) = self.judge.judge_aloud(at, rule, scene);
        tally.rests_on(ranged, scene);
        said.counted.count(rule, judged.outcome);
        if judged.outcome.is_found() {
            let finding = write_up::finding(&self.judge, at, rule, scene, &judged);
            tally.findings.push(finding);
        }
    }
}

fn begun(scenes: Scenes<'_, '_>) -> Tally {
    Tally {
        in_collet: scenes.base.quick().view.held_in_collet().value != Some(false),
        ..Tally::default()
    }
}
