//! The faults of form that are asked for, each with the assembly that it belongs to. One is
//! written up only when it is its turn.

use std::collections::HashSet;
use std::sync::OnceLock;

use crate::input::{FAULT_KINDS, Fault, Kept};
use crate::library::{Field, Library};
use crate::text::Place;

use super::coverage::Worst;
use super::fault_finding::{of_fault, weight};
use super::finding::{Finding, Lack};
use super::judgement::Judge;
use super::lacks::Lacks;
use super::owners::Owners;
use super::setup::Selection;

/// The faults of one library.
pub(super) struct Faults<'a> {
    library: &'a Library,
    /// Those that are of no one assembly, in the order in which they are shown.
    loose: Vec<Loose>,
    /// Numbers of those of one assembly, gaps aside, each behind the assembly's, in order.
    own: Vec<(u32, u32)>,
    /// The kinds that are asked for.
    asked: HashSet<&'static str>,
    owners: Option<Owners<'a>>,
    lacks: OnceLock<Lacks>,
}

/// A fault that is of no one assembly.
#[derive(Clone, Copy)]
enum Loose {
    /// This one of those that the library keeps.
    Kept(u32),
    /// This one of the gaps of an assembly that has neither number nor id.
    Gap(u32, u32),
}

impl<'a> Faults<'a> {
    pub(super) fn of(library: &'a Library, judge: &Judge<'_>, selection: &Selection) -> Faults<'a> {
        let kinds = FAULT_KINDS.iter().map(|(kind, _)| *kind);
        let asked = |kind: &&'static str| {
            let rule = judge.book.rule(kind);
            selection.takes(kind) && rule.is_some_and(|rule| !rule.off)
        };
        let mut faults = Faults {
            library,
            loose: Vec::new(),
            own: Vec::new(),
            asked: kinds.filter(asked).collect(),
            owners: (!library.is_faultless()).then(|| Owners::of(library)),
            lacks: OnceLock::new(),
        };
        for (at, fault) in (0..).zip(library.faults.iter()) {
            if !faults.asked.contains(fault.kind()) {
                continue;
            }
            match faults.named(fault.of()) {
                Some(assembly) => faults.own.push((assembly, at)),
                None => faults.loose.push(Loose::Kept(at)),
            }
        }
        faults.own.shrink_to_fit();
        faults.own.sort_unstable();
        faults.loose_gaps();
        let mut loose = std::mem::take(&mut faults.loose);
        if loose.iter().any(|one| matches!(one, Loose::Gap(..))) {
            loose.sort_by_cached_key(|one| faults.shown(*one));
        } else {
            // Where a fault that is kept stands is known at once, and keys take memory.
            loose.sort_by_key(|one| faults.shown(*one));
        }
        faults.loose = loose;
        faults
    }

    /// The assembly that a fault belongs to, if it can be called by a name.
    fn named(&self, assembly: Option<usize>) -> Option<u32> {
        let own = self.library.assemblies.get(assembly?)?;
        own.id()?;
        u32::try_from(assembly?).ok()
    }

    /// Takes down the gaps of assemblies that cannot be called by any name.
    fn loose_gaps(&mut self) {
        let library = self.library;
        let all = (0..).zip(&library.assemblies);
        for (at, _) in all.filter(|(_, assembly)| assembly.id().is_none()) {
            let gaps = (0..).zip(library.gaps(at as usize));
            let asked = gaps.filter(|(_, gap)| self.asked.contains(gap.kind));
            let loose = asked.map(|(gap, _)| Loose::Gap(at, gap));
            self.loose.extend(loose);
        }
    }

    /// How many faults are of no one assembly.
    pub(super) fn loose(&self) -> usize {
        self.loose.len()
    }

    /// One of them, written up.
    pub(super) fn loose_one(&self, judge: &Judge<'_>, number: usize) -> Option<Finding> {
        let fault = self.whole(*self.loose.get(number)?)?;
        self.written(judge, &fault, None)
    }

    fn whole(&self, loose: Loose) -> Option<Fault> {
        match loose {
            Loose::Kept(at) => Some(self.library.faults.get(at as usize)?.fault()),
            Loose::Gap(of, at) => {
                let mut gaps = self.library.gaps(of as usize).into_iter();
                gaps.nth(at as usize)
            }
        }
    }

    /// Those of one assembly that are asked for.
    fn of_one(&self, assembly: usize) -> impl Iterator<Item = Fault> {
        let wanted = u32::try_from(assembly).unwrap_or(u32::MAX);
        let start = self.own.partition_point(|(of, _)| *of < wanted);
        let own = self.own.get(start..).unwrap_or_default();
        let own = own.iter().take_while(move |(of, _)| *of == wanted);
        let kept = own.filter_map(|(_, at)| self.library.faults.get(*at as usize));
        let named = self.named(Some(assembly)).is_some();
        let gaps = if named {
            self.library.gaps(assembly)
        } else {
            Vec::new()
        };
        let gaps = gaps.into_iter();
        let gaps = gaps.filter(|gap| self.asked.contains(gap.kind));
        kept.map(Kept::fault).chain(gaps)
    }

    /// The faults of one assembly, written up.
    pub(super) fn of_assembly(&self, judge: &Judge<'_>, assembly: usize) -> Vec<Finding> {
        let own = self.of_one(assembly);
        own.filter_map(|fault| self.written(judge, &fault, Some(assembly)))
            .collect()
    }

    fn written(
        &self,
        judge: &Judge<'_>,
        fault: &Fault,
        assembly: Option<usize>,
    ) -> Option<Finding> {
        let rule = judge.book.rule(fault.kind)?;
        let names = |place| self.name_at(place);
        Some(Finding {
            assembly_index: assembly,
            part_of: self.owners_of(fault),
            ..of_fault(
                (self.library, &self.library.sources),
                judge,
                rule,
                fault,
                names,
            )
        })
    }

    /// The assemblies of whose records a fault speaks. What an assembly lacks is its own matter,
    /// however many others use the part.
    fn owners_of(&self, fault: &Fault) -> Vec<usize> {
        if fault.missing.is_some() {
            return fault.of.into_iter().collect();
        }
        let owners = self.owners.iter();
        let of = owners.flat_map(|owners| {
            let places = fault.places.iter();
            places.flat_map(|place| owners.whose(place.place))
        });
        of.collect()
    }

    /// The part's record that stands at a place, by its id.
    fn name_at(&self, place: Place) -> Option<String> {
        let (kind, at) = self.owners.as_ref()?.part_at(place)?;
        let id = self.library.records(kind).get(at)?;
        let id = id.text(Field::id_of(kind)?)?;
        Some(format!("{} {id}", kind.name()))
    }

    /// How the places of findings that wait for them are missing.
    pub(super) fn tell_lacks(&self, findings: &mut [Finding]) {
        let lacks = || Lacks::of(self.library, &self.asked);
        for finding in findings {
            let tool = finding.tool_number.as_deref();
            let absent = finding.places.iter_mut().filter(|place| place.absent);
            for place in absent {
                place.lack = self.lacks.get_or_init(lacks).of_place(place, tool);
            }
        }
    }

    /// What the faults say of every assembly in whose records they stand.
    pub(super) fn prior(&self, judge: &Judge<'_>, accepted: impl Fn(&Fault) -> bool) -> Vec<Worst> {
        let mut found = vec![Worst::default(); self.library.assemblies.len()];
        let mut weigh = |fault: &Fault, of: Option<usize>| {
            let Some(rule) = judge.book.rule(fault.kind) else {
                return;
            };
            let (level, outcome) = weight(judge, rule, fault);
            let accepted = accepted(fault);
            for at in of.into_iter().chain(self.owners_of(fault)) {
                if let Some(found) = found.get_mut(at) {
                    found.weigh(outcome, level, accepted);
                }
            }
        };
        for fault in self.loose.iter().filter_map(|one| self.whole(*one)) {
            weigh(&fault, None);
        }
        for at in 0..self.library.assemblies.len() {
            self.of_one(at).for_each(|fault| weigh(&fault, Some(at)));
        }
        found
    }

    /// The order in which faults are shown: by kind, then by where they stand.
    fn shown(&self, loose: Loose) -> (&'static str, Option<(&'a str, u32)>) {
        let (kind, place) = match loose {
            Loose::Kept(at) => {
                let fault = self.library.faults.get(at as usize);
                (fault.map_or("", Kept::kind), fault.map(Kept::place))
            }
            Loose::Gap(..) => {
                let fault = self.whole(loose);
                let place = fault.as_ref().and_then(|fault| fault.places.first());
                let kind = fault.as_ref().map_or("", |fault| fault.kind);
                (kind, place.map(|at| at.place))
            }
        };
        let sources = &self.library.sources;
        (kind, place.map(|at| (sources.name(at), at.span.start)))
    }
}

impl Lack {
    /// The stronger of two things that are known of a missing value: a guess goes before a cell
    /// that cannot be read.
    pub(super) const fn or(self, other: Lack) -> Lack {
        match (self, other) {
            (Lack::Assumed, _) | (_, Lack::Assumed) => Lack::Assumed,
            (Lack::Unreadable, _) | (_, Lack::Unreadable) => Lack::Unreadable,
            _ => Lack::NotStated,
        }
    }
}
