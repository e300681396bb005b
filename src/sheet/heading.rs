//! What a tool is called: its pot, what it is, and what holds it.

use crate::judge::Session;
use crate::library::{Assembly, Field, Kind, Overrides, View};

/// The heading of a tool.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Heading {
    /// Its pot in the magazine.
    pub pot: Option<String>,
    /// The line of its row or element.
    pub line: usize,
    /// What it is: its own description, else its cutter's.
    pub description: Option<String>,
    /// Ids of cutter, collet and holder, as far as there are any; a row that states them all at
    /// once names none.
    pub parts: Vec<String>,
}

/// The parts that a heading names, in the order in which they hold each other.
const NAMED: [Kind; 3] = [Kind::Cutter, Kind::Collet, Kind::Holder];

impl Heading {
    pub(super) fn of(session: &Session<'_>, assembly: &Assembly) -> Heading {
        let as_it_is = Overrides::default();
        let view = View::new(session.library, assembly, None, &as_it_is);
        let own = |field: Field| view.word(field).value.map(str::to_owned);
        let parts = NAMED.into_iter().filter_map(|kind| {
            let id = Field::id_of(kind)?;
            view.part(kind)?.text(id).map(str::to_owned)
        });
        let sources = &session.library.sources;
        Heading {
            line: sources.position(assembly.record.place).line,
            pot: own(Field::Pot),
            description: own(Field::AssemblyDescription).or_else(|| own(Field::CutterDescription)),
            parts: parts.collect(),
        }
    }
}
