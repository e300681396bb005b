//! How a value is missing: nothing stands there, what stands there cannot be read, or there is
//! only a guess. Told by the faults of form at the same place.

use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};

use crate::input::{Fault, fault_kind};
use crate::library::Library;

use super::finding::{FindingPlace, Lack};

/// Faults of a cell in which something stands that is no value.
const CELLS: [&str; 4] = [
    fault_kind::CELL_UNREADABLE,
    fault_kind::UNIT_MISSING,
    fault_kind::NEGATIVE_LENGTH,
    fault_kind::STATED_TWO_WAYS,
];

/// What the faults say of missing values, by the hash of where they stand: by line, and by tool,
/// because the cells of an XML record may stand on lines of their own.
#[derive(Default)]
pub(super) struct Lacks(HashMap<u64, Lack>);

impl Lacks {
    pub(super) fn of<'f>(library: &Library, faults: impl Iterator<Item = &'f Fault>) -> Lacks {
        let mut lacks = Lacks::default();
        for fault in faults {
            let lack = if fault.kind == fault_kind::VALUE_ASSUMED {
                Lack::Assumed
            } else if CELLS.contains(&fault.kind) {
                Lack::Unreadable
            } else {
                continue;
            };
            let Some(at) = fault.places.first() else {
                continue;
            };
            let file = library.sources.name(at.place);
            let line = library.sources.position(at.place).line;
            lacks.add(by_line(file, &at.field, line), lack);
            if let Some(tool) = &fault.tool_number {
                lacks.add(by_tool(file, &at.field, tool), lack);
            }
        }
        lacks
    }

    fn add(&mut self, key: u64, lack: Lack) {
        let known = self.0.entry(key).or_default();
        *known = known.or(lack);
    }

    pub(super) fn of_place(&self, place: &FindingPlace, tool: Option<&str>) -> Lack {
        if self.0.is_empty() {
            return Lack::NotStated;
        }
        let get = |key| self.0.get(&key).copied().unwrap_or_default();
        let of_line = get(by_line(&place.file, &place.field, place.line));
        let of_tool = tool.map(|tool| get(by_tool(&place.file, &place.field, tool)));
        of_line.or(of_tool.unwrap_or_default())
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
