//! The faults of form that are asked for, each with the assembly that it belongs to. One is
//! written up only when it is its turn.

use std::collections::HashMap;
use std::sync::OnceLock;

use crate::input::Fault;
use crate::library::{Assembly, Field, Kind, Library};
use crate::text::Place;

use super::coverage::Found;
use super::fault_finding::{of_fault, weight};
use super::finding::{Finding, Lack};
use super::judgement::Judge;
use super::lacks::Lacks;
use super::owners::Owners;
use super::setup::Selection;

/// The faults of one library.
pub(super) struct Faults<'a> {
    library: &'a Library,
    /// Numbers of those that are of no one assembly, in the order in which they are shown.
    loose: Vec<u32>,
    /// Numbers of those of one assembly, each behind the assembly's, in order.
    own: Vec<(u32, u32)>,
    owners: Option<Owners>,
    named: OnceLock<HashMap<Place, (Kind, usize)>>,
    lacks: OnceLock<Lacks>,
}

impl<'a> Faults<'a> {
    pub(super) fn of(library: &'a Library, judge: &Judge<'_>, selection: &Selection) -> Faults<'a> {
        let all = library.faults.iter().enumerate();
        let asked = |fault: &Fault| {
            let rule = judge.book.rule(fault.kind);
            selection.takes(fault.kind) && rule.is_some_and(|rule| !rule.off)
        };
        let owners = (!library.faults.is_empty()).then(|| Owners::of(library));
        let numbers = assemblies_by_id(library);
        let (mut loose, mut own) = (Vec::new(), Vec::new());
        for (at, fault) in all.filter(|(_, fault)| asked(fault)) {
            let at = u32::try_from(at).unwrap_or(u32::MAX);
            match assembly_of(library, fault, &numbers, owners.as_ref()) {
                Some(assembly) => own.push((assembly, at)),
                None => loose.push(at),
            }
        }
        own.sort_unstable();
        loose.sort_by_key(|at| {
            library
                .faults
                .get(*at as usize)
                .map(|fault| shown(library, fault))
        });
        Faults {
            library,
            loose,
            own,
            owners,
            named: OnceLock::new(),
            lacks: OnceLock::new(),
        }
    }

    /// How many faults are of no one assembly.
    pub(super) fn loose(&self) -> usize {
        self.loose.len()
    }

    /// One of them, written up.
    pub(super) fn loose_one(&self, judge: &Judge<'_>, number: usize) -> Option<Finding> {
        self.written(judge, *self.loose.get(number)?, None)
    }

    /// The faults of one assembly, written up.
    pub(super) fn of_assembly(&self, judge: &Judge<'_>, assembly: usize) -> Vec<Finding> {
        let Ok(wanted) = u32::try_from(assembly) else {
            return Vec::new();
        };
        let start = self.own.partition_point(|(of, _)| *of < wanted);
        let own = self.own.get(start..).unwrap_or_default();
        let own = own.iter().take_while(|(of, _)| *of == wanted);
        own.filter_map(|(_, at)| self.written(judge, *at, Some(assembly)))
            .collect()
    }

    fn written(&self, judge: &Judge<'_>, at: u32, assembly: Option<usize>) -> Option<Finding> {
        let fault = self.library.faults.get(at as usize)?;
        let rule = judge.book.rule(fault.kind)?;
        let names = |place| self.name_at(place);
        Some(Finding {
            assembly_index: assembly,
            part_of: self.owners_of(fault).collect(),
            ..of_fault(self.library, judge, rule, fault, names)
        })
    }

    fn owners_of(&self, fault: &Fault) -> impl Iterator<Item = usize> {
        let places = fault.places.iter();
        let owners = self.owners.iter();
        let of = owners.flat_map(move |owners| {
            let each = places.clone().flat_map(|place| owners.whose(place.place));
            each.copied()
        });
        of.collect::<Vec<_>>().into_iter()
    }

    /// The part's record that stands at a place, by its id.
    fn name_at(&self, place: Place) -> Option<String> {
        let library = self.library;
        let named = self.named.get_or_init(|| {
            let mut named = HashMap::new();
            for kind in Kind::PARTS {
                for (at, record) in library.records(kind).iter().enumerate() {
                    named.entry(record.place).or_insert((kind, at));
                }
            }
            named
        });
        let (kind, at) = *named.get(&place)?;
        let id = library.records(kind).get(at)?.text(Field::id_of(kind)?)?;
        Some(format!("{} {id}", kind.name()))
    }

    /// How the places of findings that wait for them are missing.
    pub(super) fn tell_lacks(&self, findings: &mut [Finding]) {
        let lacks = || Lacks::of(self.library, self.asked());
        for finding in findings {
            let tool = finding.tool_number.as_deref();
            let absent = finding.places.iter_mut().filter(|place| place.absent);
            for place in absent {
                place.lack = self.lacks.get_or_init(lacks).of_place(place, tool);
            }
        }
    }

    fn asked(&self) -> impl Iterator<Item = &Fault> {
        let own = self.own.iter().map(|(_, at)| at);
        let all = self.loose.iter().chain(own);
        all.filter_map(|at| self.library.faults.get(*at as usize))
    }

    /// What the faults say of every assembly in whose records they stand.
    pub(super) fn prior(&self, judge: &Judge<'_>, accepted: impl Fn(&Fault) -> bool) -> Vec<Found> {
        let mut found = vec![Found::default(); self.library.assemblies.len()];
        let own = self.own.iter().map(|(of, at)| (Some(*of as usize), *at));
        let all = self.loose.iter().map(|at| (None, *at)).chain(own);
        for (of, at) in all {
            let Some(fault) = self.library.faults.get(at as usize) else {
                continue;
            };
            let Some(rule) = judge.book.rule(fault.kind) else {
                continue;
            };
            let (level, outcome) = weight(judge, rule, fault);
            let accepted = accepted(fault);
            for at in of.into_iter().chain(self.owners_of(fault)) {
                if let Some(found) = found.get_mut(at) {
                    found.weigh(outcome, level, accepted);
                }
            }
        }
        found
    }
}

/// Assemblies by id; of one id the last.
fn assemblies_by_id(library: &Library) -> HashMap<&str, u32> {
    if library.faults.iter().all(|fault| fault.assembly.is_none()) {
        return HashMap::new();
    }
    let all = library.assemblies.iter().enumerate();
    let named = all.filter_map(|(at, assembly): (usize, &Assembly)| {
        Some((assembly.id()?, u32::try_from(at).ok()?))
    });
    named.collect()
}

/// The assembly that a fault is about: of several with its id the one in whose row it stands, else
/// the last.
fn assembly_of(
    library: &Library,
    fault: &Fault,
    numbers: &HashMap<&str, u32>,
    owners: Option<&Owners>,
) -> Option<u32> {
    let id = fault.assembly.as_deref()?;
    let last = *numbers.get(id)?;
    let place = fault.places.first();
    let row = owners.zip(place).map(|(owners, at)| owners.whose(at.place));
    let Some([at]) = row else {
        return Some(last);
    };
    let own = library.assemblies.get(*at);
    let is_own = own.is_some_and(|own| own.id() == Some(id));
    if is_own {
        u32::try_from(*at).ok()
    } else {
        Some(last)
    }
}

/// The order in which faults are shown: by kind, then by where they stand.
fn shown<'f>(library: &'f Library, fault: &'f Fault) -> (&'static str, Option<(&'f str, u32)>) {
    let place = fault.places.first();
    let place = place.map(|at| (library.sources.name(at.place), at.place.span.start));
    (fault.kind, place)
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
