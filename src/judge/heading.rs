//! What a tool is called: its pot, what it is, and what holds it.

use crate::library::{Assembly, Field, Kind, Library, Overrides, View};

/// The heading of a tool.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Heading {
    /// The machine that it is for.
    pub machine: Option<String>,
    /// Its pot in the magazine.
    pub pot: Option<String>,
    /// The line of its row or element.
    pub line: usize,
    /// What it is: its own description, else its cutter's.
    pub description: Option<String>,
    /// Ids of cutter, collet and holder, as far as there are any; a row that states them all at
    /// once names none.
    pub parts: Vec<String>,
    /// Ids of cutter, collet, nut and holder.
    pub ids: [Option<String>; 4],
}

/// The parts that a heading names, in the order in which they hold each other.
const NAMED: [Kind; 3] = [Kind::Cutter, Kind::Collet, Kind::Holder];

impl Heading {
    /// Of one assembly.
    #[must_use]
    pub fn of(library: &Library, assembly: &Assembly) -> Heading {
        let as_it_is = Overrides::default();
        let view = View::new(library, assembly, None, &as_it_is);
        let own = |field: Field| view.word(field).value.map(str::to_owned);
        let id = |kind: Kind| {
            let id = Field::id_of(kind)?;
            view.part(kind)?.text(id).map(str::to_owned)
        };
        let parts = NAMED.into_iter().filter_map(id);
        let sources = &library.sources;
        Heading {
            line: sources.position(assembly.record.place).line,
            machine: own(Field::Machine),
            pot: own(Field::Pot),
            description: own(Field::AssemblyDescription).or_else(|| own(Field::CutterDescription)),
            parts: parts.collect(),
            ids: Kind::PARTS.map(id),
        }
    }
}
