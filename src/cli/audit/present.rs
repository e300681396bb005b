//! Which tools there are today in libraries that have lost findings: a finding that is gone with its
//! tool was not corrected.

use std::collections::{HashMap, HashSet};
use std::hash::{BuildHasher as _, RandomState};

use serde::Deserialize;

use crate::audit::Noted;

/// Longest name that is compared, in characters: JSON cuts longer ones.
const LONGEST: usize = 200;

/// The tools of a library, in as few bytes as will do.
#[derive(Default)]
pub(super) struct Tools(HashSet<u64>);

/// The tools of libraries, by the keys that these had in the earlier audit.
#[derive(Default)]
pub(super) struct Present {
    libraries: HashMap<String, Tools>,
    hasher: RandomState,
}

#[derive(Deserialize)]
struct Point {
    tool: String,
}

impl Present {
    /// Adds a tool to those of a library, as JSON says where it stands among all others.
    pub(super) fn tool(&self, point: &[u8], tools: &mut Tools) {
        if let Ok(point) = serde_json::from_slice::<Point>(point) {
            tools.0.insert(self.hasher.hash_one(point.tool.as_str()));
        }
    }

    /// Keeps the tools of a library.
    pub(super) fn keep(&mut self, key: &str, tools: Tools) {
        self.libraries.insert(key.to_owned(), tools);
    }

    /// Whether the tool of a finding is in its library no more.
    pub(super) fn lacks(&self, noted: &Noted) -> bool {
        let names = [&noted.tool_number, &noted.assembly];
        let name = names.into_iter().find(|name| !name.is_empty());
        let name = name.filter(|name| name.chars().count() <= LONGEST);
        let tools = self.libraries.get(&noted.library);
        name.zip(tools)
            .is_some_and(|(name, tools)| !tools.0.contains(&self.hasher.hash_one(name.as_str())))
    }
}
