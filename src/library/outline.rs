//! The outline of an assembly: what its records state, whatever the numbers and texts are. Most of
//! a library has few outlines, and what no number decides is the same for all tools of one.

use super::{Assembly, Kind, Library, OperationRef, Record};

// Marks among pairs of a field's number and what it says: no field has the number 255.
const END: [u8; 2] = [u8::MAX, 0];
const OWN_ROW: [u8; 2] = [u8::MAX, 1];
const ASSET: [u8; 2] = [u8::MAX, 2];
const NOT_NAMED: [u8; 2] = [u8::MAX, 3];
const NOT_DESCRIBED: [u8; 2] = [u8::MAX, 4];

/// Room for the pairs of most assemblies, bytes.
const USUAL: usize = 128;

impl Library {
    /// Which fields an assembly, its parts and its operations state, and of words, yes and no,
    /// what. Two assemblies of one outline differ in numbers and texts alone.
    #[must_use]
    pub fn outline(&self, assembly: &Assembly) -> Vec<u8> {
        let mut outline = Vec::with_capacity(USUAL);
        add(&mut outline, &assembly.record);
        for operation in &assembly.operations {
            match operation {
                OperationRef::OwnRow => outline.extend_from_slice(&OWN_ROW),
                OperationRef::Record(number) => {
                    if let Some(record) = self.records(Kind::Operation).get(*number) {
                        add(&mut outline, record);
                    }
                }
            }
        }
        if let Some(asset) = &assembly.asset {
            outline.extend_from_slice(&ASSET);
            add(&mut outline, asset);
        }
        for kind in Kind::PARTS {
            let part = assembly.part(kind);
            match part.and_then(|number| self.records(kind).get(number)) {
                Some(part) => add(&mut outline, part),
                None if assembly.is_unresolved(kind) => outline.extend_from_slice(&NOT_DESCRIBED),
                None => outline.extend_from_slice(&NOT_NAMED),
            }
        }
        outline
    }
}

fn add(outline: &mut Vec<u8>, record: &Record) {
    record.outline(outline);
    outline.extend_from_slice(&END);
}
