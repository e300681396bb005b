//! Starred properties that are missing or only assumed, assembly by assembly. Of each assembly a
//! few bits are kept; the faults are put together when somebody asks for them.

use rayon::prelude::*;

use crate::input::{Fault, FaultPlace, Kept, fault_kind};

use super::{Assembly, Field, Library, Origin, Overrides, PROPERTIES, View, needed};

/// How many properties are starred.
const STARRED_COUNT: usize = {
    let (mut count, mut at) = (0, 0);
    while at < PROPERTIES.len() {
        #[expect(clippy::indexing_slicing, reason = "worked out by the compiler")]
        let starred = PROPERTIES[at].starred;
        count += starred as usize;
        at += 1;
    }
    count
};

/// The starred properties.
const STARRED: [Field; STARRED_COUNT] = {
    let mut starred = [Field::ToolNumber; STARRED_COUNT];
    let (mut count, mut at) = (0, 0);
    while at < PROPERTIES.len() {
        #[expect(clippy::indexing_slicing, reason = "worked out by the compiler")]
        if PROPERTIES[at].starred {
            starred[count] = PROPERTIES[at].field;
            count += 1;
        }
        at += 1;
    }
    starred
};

/// What one assembly lacks: two bits a starred property.
type Bits = u32;

const MISSING: Bits = 1;
const ASSUMED: Bits = 2;
const BOTH: Bits = 3;

/// What the assemblies of a library lack.
#[derive(Debug, Default)]
pub(super) struct Gaps {
    /// Of each assembly; empty if none lacks anything.
    of: Vec<Bits>,
}

impl Gaps {
    pub(super) fn of(library: &Library) -> Gaps {
        const { assert!(2 * STARRED_COUNT <= Bits::BITS as usize) };
        let each = library.assemblies.par_iter();
        let of: Vec<Bits> = each.map(|assembly| lacks(library, assembly)).collect();
        let any = of.iter().any(|bits| *bits != 0);
        Gaps {
            of: if any { of } else { Vec::new() },
        }
    }

    /// Whether there are none.
    pub(super) fn is_empty(&self) -> bool {
        self.of.is_empty()
    }

    /// The kinds of those of an assembly, in their order.
    fn each(&self, assembly: usize) -> impl Iterator<Item = (Field, &'static str)> {
        let bits = self.of.get(assembly).copied().unwrap_or_default();
        let each = STARRED.into_iter().enumerate();
        each.filter_map(move |(at, field)| match (bits >> (2 * at)) & BOTH {
            MISSING => Some((field, fault_kind::FIELD_MISSING)),
            ASSUMED => Some((field, fault_kind::VALUE_ASSUMED)),
            _ => None,
        })
    }
}

/// What is missing or only assumed of one assembly, of what the main rules cannot do without.
fn lacks(library: &Library, assembly: &Assembly) -> Bits {
    let overrides = Overrides::default();
    let view = View::new(library, assembly, None, &overrides);
    // Most tools state all of it, and then nothing is asked about what holds them.
    let row = &assembly.record;
    let stated = |field: &Field| row.value(*field).is_some() || view.entry(*field).is_some();
    if STARRED.iter().all(stated) {
        return 0;
    }
    let needed = needed(&view).into_iter();
    needed.fold(0, |bits, field| {
        let bit = match view.with_origin(field) {
            (found, _) if !found.is_known() => MISSING,
            (_, Origin::Assumed(_)) => ASSUMED,
            _ => 0,
        };
        let at = STARRED.iter().position(|starred| *starred == field);
        bits | at.map_or(0, |at| bit << (2 * at))
    })
}

impl Library {
    /// The starred properties that one of its assemblies lacks or that are only assumed, as
    /// faults.
    pub fn gaps(&self, assembly: usize) -> Vec<Fault> {
        let Some(own) = self.assemblies.get(assembly) else {
            return Vec::new();
        };
        let overrides = Overrides::default();
        let view = View::new(self, own, None, &overrides);
        let each = self.gaps.each(assembly);
        each.map(|(field, kind)| Fault {
            of: Some(assembly),
            ..incomplete(&view, field, kind)
        })
        .collect()
    }

    /// All that is wrong with its form.
    pub fn faults(&self) -> impl Iterator<Item = Fault> {
        let gaps = (0..self.assemblies.len()).flat_map(|assembly| self.gaps(assembly));
        let kept = self.faults.iter().map(Kept::fault);
        kept.chain(gaps)
    }

    /// Whether nothing is wrong with its form.
    #[must_use]
    pub fn is_faultless(&self) -> bool {
        self.faults.is_empty() && self.gaps.is_empty()
    }

    /// Forgets what is wrong with its form.
    pub(crate) fn forgive(&mut self) {
        self.faults = crate::input::Faults::of(&self.sources);
        self.gaps = Gaps::default();
    }
}

fn incomplete(view: &View<'_>, field: Field, kind: &'static str) -> Fault {
    let record = view.record_of(field.kind());
    let property = field.property();
    let mut fault = Fault::new(kind, record.place, field.short())
        .with("property", property.name)
        .with("meaning", property.meaning)
        .with("record", property.kind.name())
        .with("why", super::reason(view, field).unwrap_or_default());
    fault.places = vec![FaultPlace {
        place: record.place,
        field: field.short().into(),
        absent: true,
    }];
    fault.missing = Some(property.qualified);
    fault
}
