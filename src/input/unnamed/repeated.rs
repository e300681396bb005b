//! Which elements of a document repeat as siblings.

use std::collections::{HashMap, HashSet};

use super::walk::{Attribute, Visit};

/// Paths of elements: an export of tools has some dozens.
const PATHS: usize = 4096;

/// The paths of elements in a document.
#[derive(Debug, Default)]
pub(super) struct Repeated {
    paths: Vec<PathOf>,
    /// The open elements, and which children each has had.
    stack: Vec<(usize, HashSet<usize>)>,
}

/// One path.
#[derive(Debug)]
struct PathOf {
    name: String,
    parent: Option<usize>,
    children: HashMap<String, usize>,
    repeats: bool,
}

impl Repeated {
    /// The path of an element by its name below another; the root has none above it.
    pub(super) fn below(&self, parent: Option<usize>, name: &str) -> Option<usize> {
        match parent {
            None => (!self.paths.is_empty()).then_some(0),
            Some(parent) => self.paths.get(parent)?.children.get(name).copied(),
        }
    }

    /// Whether elements of a path stand beside each other.
    pub(super) fn repeats(&self, path: usize) -> bool {
        self.paths.get(path).is_some_and(|path| path.repeats)
    }

    /// The name of its elements.
    pub(super) fn name(&self, path: usize) -> &str {
        self.paths.get(path).map_or("", |path| &path.name)
    }

    /// A path and those above it.
    pub(super) fn with_above(&self, path: usize) -> Vec<usize> {
        let above = |path: &usize| self.paths.get(*path)?.parent;
        std::iter::successors(Some(path), above).collect()
    }

    /// Those that repeat, the outermost first.
    pub(super) fn all(&self) -> Vec<usize> {
        let all = (0..self.paths.len()).filter(|path| self.repeats(*path));
        let mut all: Vec<usize> = all.collect();
        all.sort_by_key(|path| self.with_above(*path).len());
        all
    }
}

impl Visit for Repeated {
    fn open(&mut self, name: &str, _: &[Attribute<'_>]) -> Result<(), String> {
        let parent = self.stack.last().map(|(path, _)| *path);
        let path = if let Some(known) = self.below(parent, name) {
            known
        } else {
            if self.paths.len() >= PATHS {
                return Err(format!(
                    "it has more than {PATHS} different elements; an export of tools has some dozens"
                ));
            }
            let path = self.paths.len();
            self.paths.push(PathOf {
                name: name.to_owned(),
                parent,
                children: HashMap::new(),
                repeats: false,
            });
            if let Some(above) = parent.and_then(|parent| self.paths.get_mut(parent)) {
                above.children.insert(name.to_owned(), path);
            }
            path
        };
        let is_first = self
            .stack
            .last_mut()
            .is_none_or(|(_, had)| had.insert(path));
        if let Some(own) = self.paths.get_mut(path).filter(|_| !is_first) {
            own.repeats = true;
        }
        self.stack.push((path, HashSet::new()));
        Ok(())
    }

    fn text(&mut self, _: &str) {}

    fn close(&mut self) -> Result<(), String> {
        self.stack.pop();
        Ok(())
    }
}
