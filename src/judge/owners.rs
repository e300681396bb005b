//! Whose a place in the input is: the assemblies whose row stands there, or whose part's or
//! operation's record does. By record, for two of them may share a line.

use crate::library::{Kind, Library, OperationRef, Record};
use crate::text::{Place, SourceId};

/// The records of a library by where they stand, and who uses them.
pub(super) struct Owners<'a> {
    library: &'a Library,
    users: [Users; Kind::ALL.len()],
}

/// The assemblies that use each record of a kind, one behind the other.
#[derive(Default)]
struct Users {
    /// Where those of a record end.
    ends: Vec<u32>,
    all: Vec<usize>,
}

/// A record by its number: of the assemblies, or of those of a kind.
#[derive(Clone, Copy)]
enum Owner {
    Assembly(usize),
    Record(Kind, usize),
}

impl<'a> Owners<'a> {
    pub(super) fn of(library: &'a Library) -> Owners<'a> {
        Owners {
            library,
            users: Kind::ALL.map(|kind| Users::of(library, kind)),
        }
    }

    /// The assemblies in whose records a place stands, in their order.
    pub(super) fn whose(&self, place: Place) -> impl Iterator<Item = usize> {
        let (own, users) = match self.owner(place) {
            Some(Owner::Assembly(at)) => (Some(at), &[][..]),
            Some(Owner::Record(kind, at)) => {
                let users = self.users.get(kind as usize);
                (None, users.map_or(&[][..], |users| users.of_record(at)))
            }
            None => (None, &[][..]),
        };
        own.into_iter().chain(users.iter().copied())
    }

    /// The part whose record begins at a place.
    pub(super) fn part_at(&self, place: Place) -> Option<(Kind, usize)> {
        match self.owner(place)? {
            Owner::Record(kind, at) if Kind::PARTS.contains(&kind) => {
                let record = self.library.records(kind).get(at)?;
                (record.place == place).then_some((kind, at))
            }
            _ => None,
        }
    }

    /// The record in which a place stands: the last that begins before it, if it does not end
    /// before it.
    fn owner(&self, place: Place) -> Option<Owner> {
        let library = self.library;
        let rows = &library.assemblies;
        let row = last(rows.len(), place, |at| rows.get(at).map(|row| &row.record));
        let row = row.map(|(at, record)| (record, Owner::Assembly(at)));
        let kinds = Kind::ALL.into_iter();
        let others = kinds.filter_map(|kind| {
            let records = library.records(kind);
            let (at, record) = last(records.len(), place, |at| records.get(at))?;
            Some((record, Owner::Record(kind, at)))
        });
        let each = row.into_iter().chain(others);
        let (record, owner) = each.max_by_key(|(record, _)| begins(record.place))?;
        (place.span.start <= record.end).then_some(owner)
    }
}

/// The last of some records of a source that begin at a place or before it. Records stand in the
/// order of their places.
fn last<'r>(
    count: usize,
    place: Place,
    get: impl Fn(usize) -> Option<&'r Record>,
) -> Option<(usize, &'r Record)> {
    let (mut low, mut high) = (0, count);
    while low < high {
        let middle = low.midpoint(high);
        if begins(get(middle)?.place) <= begins(place) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    let at = low.checked_sub(1)?;
    let record = get(at)?;
    (record.place.source == place.source).then_some((at, record))
}

fn begins(place: Place) -> (SourceId, u32) {
    (place.source, place.span.start)
}

impl Users {
    fn of(library: &Library, kind: Kind) -> Users {
        let count = library.records(kind).len();
        if count == 0 {
            return Users::default();
        }
        let mut ends = vec![0_u32; count];
        each_use(library, kind, |record, _| {
            if let Some(end) = ends.get_mut(record) {
                *end += 1;
            }
        });
        let mut total = 0;
        for end in &mut ends {
            // Where the users of this record begin, until they are filled in.
            total += std::mem::replace(end, total);
        }
        let mut all = vec![0; total as usize];
        each_use(library, kind, |record, assembly| {
            let Some(end) = ends.get_mut(record) else {
                return;
            };
            if let Some(slot) = all.get_mut(*end as usize) {
                *slot = assembly;
            }
            *end += 1;
        });
        Users { ends, all }
    }

    fn of_record(&self, record: usize) -> &[usize] {
        let end = |record: usize| self.ends.get(record).map(|end| *end as usize);
        let start = record.checked_sub(1).and_then(end).unwrap_or_default();
        let own = end(record).and_then(|end| self.all.get(start..end));
        own.unwrap_or_default()
    }
}

/// Calls for every assembly that uses a record of a kind: the record's number, the assembly's.
fn each_use(library: &Library, kind: Kind, mut each: impl FnMut(usize, usize)) {
    for (at, assembly) in library.assemblies.iter().enumerate() {
        if kind == Kind::Operation {
            for job in &assembly.operations {
                if let OperationRef::Record(job) = job {
                    each(*job, at);
                }
            }
        } else if let Some(part) = assembly.part(kind) {
            each(part, at);
        }
    }
}
