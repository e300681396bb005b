//! What no number decides, settled once for all assemblies of an outline: whether a rule is about
//! what clamps the tool, or waits for what is not stated. Most rules of most tools end there.

use std::collections::HashMap;
use std::sync::{Arc, PoisonError, RwLock};

use super::tally::Counted;

/// So many outlines are kept; a library of more has no two tools alike.
const MOST: usize = 4_096;

/// What is known of the assemblies of one outline.
#[derive(Debug, Default)]
pub(super) struct Settled {
    /// What is counted of the rules that say nothing of any of them.
    pub counted: Counted,
    /// The numbers of the rules that have to be asked.
    pub open: Vec<usize>,
}

/// The outlines met so far, on any thread.
#[derive(Debug, Default)]
pub(super) struct Outlines(RwLock<HashMap<Vec<u8>, Arc<Settled>>>);

impl Outlines {
    pub(super) fn get(&self, outline: &[u8]) -> Option<Arc<Settled>> {
        let known = self.0.read().unwrap_or_else(PoisonError::into_inner);
        known.get(outline).cloned()
    }

    /// Keeps what was found of one.
    pub(super) fn keep(&self, outline: Vec<u8>, settled: Settled) {
        let mut known = self.0.write().unwrap_or_else(PoisonError::into_inner);
        if known.len() < MOST {
            known.insert(outline, Arc::new(settled));
        }
    }
}
