//! Where a document departs from its standard: it is read all the same, and each is a note.

use super::Attribute;
use crate::input::{Fault, fault_kind};
use crate::text::{Place, SourceId, Span, quoted};

/// How the namespace of every version begins.
const NAMESPACE: &str = "urn:mtconnect.org:MTConnectAssets:";

/// The children of a life cycle, in the order of every version.
const ORDER: [&str; 11] = [
    "CutterStatus",
    "ReconditionCount",
    "ToolLife",
    "ProgramToolGroup",
    "ProgramToolNumber",
    "Location",
    "ProcessSpindleSpeed",
    "ProcessFeedRate",
    "ConnectionCodeMachineSide",
    "Measurements",
    "CuttingItems",
];

/// States that a tool cannot have at once.
const EXCLUDE: [(&str, &str); 8] = [
    ("NEW", "USED"),
    ("NEW", "RECONDITIONED"),
    ("NEW", "EXPIRED"),
    ("ALLOCATED", "UNALLOCATED"),
    ("AVAILABLE", "UNAVAILABLE"),
    ("AVAILABLE", "EXPIRED"),
    ("AVAILABLE", "BROKEN"),
    ("AVAILABLE", "NOT_REGISTERED"),
];

fn fault(place: Place, what: String) -> Fault {
    Fault::new(fault_kind::ASSET_DEPARTS, place, "").with("what", what)
}

/// What is said of an attribute that every asset has.
pub(super) fn missing(attribute: &str) -> String {
    format!("it has no {attribute}")
}

/// Where one asset departs.
#[derive(Default)]
pub(super) struct Departures {
    said: Vec<String>,
    /// The place of the last child of its life cycle in the order.
    last: usize,
    states: Vec<String>,
}

impl Departures {
    /// Says one, once.
    pub(super) fn say(&mut self, what: String) {
        if !self.said.contains(&what) {
            self.said.push(what);
        }
    }

    /// A child of its life cycle.
    pub(super) fn child(&mut self, name: &str) {
        let Some(at) = ORDER.iter().position(|known| *known == name) else {
            return;
        };
        if at < self.last {
            let before = ORDER.get(self.last).copied().unwrap_or_default();
            self.say(format!("`{name}` is behind `{before}`"));
        }
        self.last = self.last.max(at);
    }

    /// A state of it.
    pub(super) fn status(&mut self, state: &str) {
        for (one, other) in EXCLUDE {
            let excluded = match state {
                state if state == one => other,
                state if state == other => one,
                _ => continue,
            };
            if self.states.iter().any(|known| known == excluded) {
                self.say(format!("its status is {one} and {other} at once"));
            }
        }
        self.states.push(state.to_owned());
    }

    /// A measurement that belongs elsewhere.
    pub(super) fn wrong_level(&mut self, element: &str, in_item: bool) {
        let (own, other) = if in_item {
            ("a cutting item", "the whole tool")
        } else {
            ("the whole tool", "a cutting item")
        };
        self.say(format!(
            "`{element}` is with {own} and belongs to {other}, so it is not read"
        ));
    }

    /// A measurement that names the unit of its origin alone.
    pub(super) fn native(&mut self, element: &str, unit: &str) {
        let element = quoted(element);
        self.say(format!(
            "`{element}` has nativeUnits and no units, so it counts as {unit}"
        ));
    }

    /// All of them.
    pub(super) fn told(&self, place: Place) -> Vec<Fault> {
        self.said
            .iter()
            .map(|what| fault(place, what.clone()))
            .collect()
    }
}

/// What a document says of its names.
pub(super) struct Namespaces {
    source: SourceId,
    /// Prefixes and what they stand for; of a prefix that is declared twice the last counts.
    known: Vec<(String, String)>,
    said: Vec<Fault>,
    is_begun: bool,
    has_asset: bool,
}

impl Namespaces {
    pub(super) fn new(source: SourceId) -> Namespaces {
        Namespaces {
            source,
            known: Vec::new(),
            said: Vec::new(),
            is_begun: false,
            has_asset: false,
        }
    }

    /// An element with its prefix.
    pub(super) fn element(&mut self, name: &str, attributes: &[Attribute<'_>], span: Span) {
        for (attribute, value, _) in attributes {
            if attribute == "xmlns" {
                self.known.push((String::new(), value.to_string()));
            } else if let Some(prefix) = attribute.strip_prefix("xmlns:") {
                self.known.push((prefix.to_owned(), value.to_string()));
            }
        }
        let (prefix, local) = name.split_once(':').unwrap_or(("", name));
        let place = Place {
            source: self.source,
            span,
        };
        if !self.is_begun && local != "MTConnectAssets" {
            self.said.push(fault(
                place,
                "it has no envelope `MTConnectAssets`".to_owned(),
            ));
        }
        self.is_begun = true;
        let mut all = self.known.iter().rev();
        let space = all
            .find(|(own, _)| own == prefix)
            .map(|(_, space)| space.clone());
        if space.is_none() && !prefix.is_empty() {
            let shown = quoted(prefix);
            self.said.push(fault(
                place,
                format!("its prefix `{shown}` is not declared"),
            ));
            self.known.push((prefix.to_owned(), String::new()));
        }
        let is_asset = local == super::asset::TOOL || local == super::asset::ARCHETYPE;
        let is_own = space
            .as_ref()
            .is_some_and(|space| space.starts_with(NAMESPACE));
        if is_asset && !self.has_asset {
            self.has_asset = true;
            if !is_own {
                let what = "it is not in a namespace of these assets".to_owned();
                self.said.push(fault(place, what));
            }
        }
    }

    /// Where the document departs.
    pub(super) fn told(self) -> Vec<Fault> {
        self.said
    }
}
