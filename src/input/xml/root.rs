//! The root element alone: which document this is.

use quick_xml::NsReader;
use quick_xml::events::Event;
use quick_xml::name::ResolveResult;

use super::{FORMER_ROOT, NAMESPACE, ROOT};

/// The root element of a document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Root {
    /// Its name, without prefix.
    pub name: String,
    /// Whether it is that of a tool library, in whatever namespace: what is wrong with it is said
    /// when the document is read.
    pub is_library: bool,
}

/// The root element of a document of which the beginning is known; `None` if none is in it.
#[must_use]
pub fn root(text: &str) -> Option<Root> {
    let mut reader = NsReader::from_str(text);
    loop {
        let (space, event) = reader.read_resolved_event().ok()?;
        match event {
            Event::Start(tag) | Event::Empty(tag) => {
                let own =
                    matches!(space, ResolveResult::Bound(space) if space.as_ref() == NAMESPACE);
                let name = tag.local_name().as_ref().to_owned();
                let is_library = own || name == ROOT || name == FORMER_ROOT;
                return Some(Root { name, is_library });
            }
            Event::Eof => return None,
            _ => {}
        }
    }
}
