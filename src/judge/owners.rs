//! Whose a place in the input is: the assemblies whose row stands there, or whose part's or
//! operation's record does. By record, for two of them may share a line.

use std::collections::HashMap;

use crate::library::{Kind, Library, OperationRef};
use crate::text::Place;

/// Every record by where it begins and ends.
pub(super) struct Owners {
    starts: Vec<(Place, u32, Owner)>,
    of_record: HashMap<(Kind, usize), Vec<usize>>,
}

#[derive(Clone, Copy)]
enum Owner {
    Assembly(usize),
    Record(Kind, usize),
}

impl Owners {
    pub(super) fn of(library: &Library) -> Owners {
        let assemblies = library.assemblies.iter().enumerate();
        let own = assemblies.map(|(at, one)| {
            let record = &one.record;
            (record.place, record.end, Owner::Assembly(at))
        });
        let kinds = Kind::ALL.into_iter();
        let kinds = kinds.filter(|kind| *kind != Kind::Assembly);
        let others = kinds.flat_map(|kind| {
            let records = library.records(kind).iter().enumerate();
            records.map(move |(at, record)| (record.place, record.end, Owner::Record(kind, at)))
        });
        let mut starts: Vec<(Place, u32, Owner)> = own.chain(others).collect();
        starts.sort_by_key(|(place, ..)| *place);
        Owners {
            starts,
            of_record: used(library),
        }
    }

    /// The assemblies in whose records a place stands, in their order.
    pub(super) fn whose(&self, place: Place) -> &[usize] {
        let after = self
            .starts
            .partition_point(|(start, ..)| begins(*start) <= begins(place));
        let before = after.checked_sub(1).and_then(|at| self.starts.get(at));
        let same = before
            .filter(|(start, end, _)| start.source == place.source && place.span.start <= *end);
        match same {
            Some((_, _, Owner::Assembly(at))) => std::slice::from_ref(at),
            Some((_, _, Owner::Record(kind, at))) => {
                let users = self.of_record.get(&(*kind, *at));
                users.map_or(&[], Vec::as_slice)
            }
            None => &[],
        }
    }
}

fn begins(place: Place) -> (crate::text::SourceId, u32) {
    (place.source, place.span.start)
}

/// Which assemblies use a record.
fn used(library: &Library) -> HashMap<(Kind, usize), Vec<usize>> {
    let mut used: HashMap<(Kind, usize), Vec<usize>> = HashMap::new();
    for (at, assembly) in library.assemblies.iter().enumerate() {
        let part = |kind| Some((kind, assembly.part(kind)?));
        let parts = Kind::PARTS.into_iter().filter_map(part);
        let jobs = assembly.operations.iter().filter_map(|job| match job {
            OperationRef::Record(job) => Some((Kind::Operation, *job)),
            OperationRef::OwnRow => None,
        });
        for key in parts.chain(jobs) {
            used.entry(key).or_default().push(at);
        }
    }
    used
}
