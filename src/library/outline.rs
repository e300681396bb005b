//! The outline of an assembly: what its records state, whatever the numbers and texts are. Most of
//! a library has few outlines, and what no number decides is the same for all tools of one.

use super::{Assembly, Kind, Library, OperationRef, Record};

/// Behind each record: no field has this number.
const END: [u8; 2] = [u8::MAX; 2];

/// Before what a document of assets says.
const ASSET: [u8; 2] = [u8::MAX, 2];

/// What is there instead of a part's record.
const NOT_NAMED: [u8; 2] = [u8::MAX, 0];
/// The same, where it is named.
const NOT_DESCRIBED: [u8; 2] = [u8::MAX, 1];

impl Library {
    /// Which fields an assembly, its parts and its operations state, and of words, yes and no,
    /// what. Two assemblies of one outline differ in numbers and texts alone.
    #[must_use]
    pub fn outline(&self, assembly: &Assembly) -> Vec<u8> {
        let mut outline = Vec::with_capacity(128);
        let mut add = |record: &Record| {
            record.outline(&mut outline);
            outline.extend(END);
        };
        add(&assembly.record);
        let operations = assembly
            .operations
            .iter()
            .filter_map(|operation| match operation {
                OperationRef::OwnRow => Some(&assembly.record),
                OperationRef::Record(number) => self.records(Kind::Operation).get(*number),
            });
        operations.for_each(&mut add);
        if let Some(asset) = &assembly.asset {
            outline.extend(ASSET);
            asset.outline(&mut outline);
        }
        for kind in Kind::PARTS {
            let part = assembly.part(kind);
            match part.and_then(|number| self.records(kind).get(number)) {
                Some(part) => {
                    part.outline(&mut outline);
                    outline.extend(END);
                }
                None if assembly.is_unresolved(kind) => outline.extend(NOT_DESCRIBED),
                None => outline.extend(NOT_NAMED),
            }
        }
        outline
    }
}
