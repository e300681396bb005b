//! How a value is missing: nothing stands there, what stands there cannot be read, or there is
//! only a guess. Told by the faults of form at the same place.

use std::borrow::Cow;
use std::collections::HashSet;
use std::hash::{DefaultHasher, Hash, Hasher};

use crate::input::fault_kind;
use crate::library::{Assembly, Library};
use crate::text::Place;

use super::finding::{FindingPlace, Lack};

/// Faults of a cell in which something stands that is no value.
const CELLS: [&str; 4] = [
    fault_kind::CELL_UNREADABLE,
    fault_kind::UNIT_MISSING,
    fault_kind::NEGATIVE_LENGTH,
    fault_kind::STATED_TWO_WAYS,
];

/// What the faults say of missing values, by the hash of where they stand: by line, and by tool
/// where a cell stands on a line of its own, as in XML. In the order of the hashes,
/// which takes half the memory of a table.
#[derive(Default)]
pub(super) struct Lacks(Vec<(u64, Lack)>);

impl Lacks {
    /// Of the faults of the kinds that are asked for.
    pub(super) fn of(library: &Library, asked: &HashSet<&'static str>) -> Lacks {
        let mut lacks = Lacks::default();
        let mut add = |lack, (place, field): (Place, &str), of: Option<usize>| {
            let file = file_key(library.sources.name(place), library.sources.sheet(place));
            let file = file.as_ref();
            let line = library.sources.position(place).line;
            lacks.0.push((by_line(file, field, line), lack));
            let own = of.and_then(|of| library.assemblies.get(of));
            let line_of = |own: &&Assembly| library.sources.position(own.record.place).line;
            let apart = own.filter(|own| line_of(own) != line);
            let tool = apart.and_then(Assembly::tool_number);
            let by_tool = tool.map(|tool| (by_tool(file, field, tool), lack));
            lacks.0.extend(by_tool);
        };
        for fault in library.faults.iter() {
            if CELLS.contains(&fault.kind()) && asked.contains(fault.kind()) {
                add(
                    Lack::Unreadable,
                    (fault.place(), &fault.field()),
                    fault.of(),
                );
            }
        }
        if asked.contains(fault_kind::VALUE_ASSUMED) {
            for at in 0..library.assemblies.len() {
                let gaps = library.gaps(at).into_iter();
                for gap in gaps.filter(|gap| gap.kind == fault_kind::VALUE_ASSUMED) {
                    if let Some(place) = gap.places.first() {
                        add(Lack::Assumed, (place.place, &place.field), gap.of);
                    }
                }
            }
        }
        lacks.0.sort_unstable_by_key(|(key, _)| *key);
        // Of one place the stronger counts.
        lacks.0.dedup_by(|next, kept| {
            let same = next.0 == kept.0;
            if same {
                kept.1 = kept.1.or(next.1);
            }
            same
        });
        lacks.0.shrink_to_fit();
        lacks
    }

    pub(super) fn of_place(&self, place: &FindingPlace, tool: Option<&str>) -> Lack {
        if self.0.is_empty() {
            return Lack::NotStated;
        }
        let get = |key: u64| {
            let at = self.0.binary_search_by_key(&key, |(key, _)| *key).ok();
            let found = at.and_then(|at| self.0.get(at));
            found.map_or_else(Lack::default, |(_, lack)| *lack)
        };
        let file = file_key(&place.file, place.sheet.as_deref());
        let of_line = get(by_line(&file, &place.field, place.line));
        let of_tool = tool.map(|tool| get(by_tool(&file, &place.field, tool)));
        of_line.or(of_tool.unwrap_or_default())
    }
}

/// The file, and the sheet of it: the same field may stand in the same line of another.
fn file_key<'k>(file: &'k str, sheet: Option<&str>) -> Cow<'k, str> {
    match sheet {
        None => Cow::Borrowed(file),
        Some(sheet) => Cow::Owned(format!("{file}\0{sheet}")),
    }
}

fn by_line(file: &str, field: &str, line: usize) -> u64 {
    hashed(&(0_u8, file, field, line))
}

fn by_tool(file: &str, field: &str, tool: &str) -> u64 {
    hashed(&(1_u8, file, field, tool))
}

fn hashed(key: &impl Hash) -> u64 {
    let mut hasher = DefaultHasher::new();
    key.hash(&mut hasher);
    hasher.finish()
}
