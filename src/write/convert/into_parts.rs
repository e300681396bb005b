//! From a row for each tool to records of parts: parts that say the same are one record.

use std::collections::{HashMap, HashSet};

use super::book::{Book, BookCell, BookRow, ColumnKey, in_row, name, of, of_field};
use super::told::Told;
use crate::library::{
    Assembly, ClampingKind, ClosedList as _, Field, Kind, Library, Overrides, View, Written,
    WrittenCell, WrittenRow,
};
use crate::units::Scalar;

/// A holder's own bore. A bare column of a row states it beside that of a collet; where a collet
/// closes on the shank it is the collet's.
const OWN_BORE: [Field; 3] = [
    Field::HolderBoreDiameter,
    Field::HolderBoreLength,
    Field::HolderBoreRecess,
];

/// The parts of one kind, as they are found.
struct Parts<'a> {
    kind: Kind,
    /// Ids that rows give.
    given: HashSet<&'a str>,
    /// The id of each part, by the id that its row gives and by what is stated of it.
    known: HashMap<(Option<&'a str>, String), String>,
    /// Ids that a record has by now.
    taken: HashSet<String>,
    made: usize,
}

/// The records of a library that has a row for each tool.
pub(super) fn split<'a>(library: &'a Library, written: &'a Written, told: &mut Told) -> Book<'a> {
    let mut book = Book::new(written);
    let mut parts = Kind::PARTS.map(|kind| Parts::of(kind, library));
    let alone = Numbers::of(library);
    let rows = written.rows(Kind::Assembly).iter().zip(&library.assemblies);
    for (row, assembly) in rows {
        let mut left: Vec<bool> = vec![true; row.cells.len()];
        let mut own = BookRow::begun(row);
        let mut named: Vec<(Kind, String)> = Vec::new();
        for parts in &mut parts {
            let cells = of_part(parts.kind, (library, assembly), (written, row));
            let id = Field::naming(parts.kind).and_then(|field| assembly.record.text(field));
            let states = cells.iter().any(|(at, _)| is_value(row, *at));
            if id.is_none() && !states {
                continue;
            }
            for (at, _) in &cells {
                if let Some(left) = left.get_mut(*at) {
                    *left = false;
                }
            }
            let cells = cells
                .into_iter()
                .filter_map(|(at, field)| Some(of_field(written, row.cells.get(at)?, field)));
            let (id, record) = parts.part(id, cells.collect(), told);
            if let Some(mut record) = record {
                record.at = own.at;
                book.rows_mut(parts.kind).push(record);
            }
            named.push((parts.kind, id));
        }
        if alone.has(assembly)
            && let Some(operation) = operation(assembly, (written, row), &mut left)
        {
            book.rows_mut(Kind::Operation).push(operation);
        }
        let cells = row.cells.iter().zip(left);
        let cells = cells.filter(|(_, left)| *left);
        own.cells = cells.map(|(cell, _)| of(written, cell)).collect();
        for (kind, id) in named {
            names(&mut own, written, kind, id);
        }
        book.rows_mut(Kind::Assembly).push(own);
    }
    for parts in parts {
        told.ids_made(parts.kind, parts.made);
    }
    book
}

fn is_value(row: &WrittenRow, at: usize) -> bool {
    row.cells.get(at).is_some_and(|cell| cell.says.is_value())
}

/// Says in a row which part it has: in the column that the source has for it, if it has one.
fn names(row: &mut BookRow<'_>, written: &Written, kind: Kind, id: String) {
    let Some(field) = Field::naming(kind) else {
        return;
    };
    let mut cells = row.cells.iter_mut();
    let known = cells.find(|cell| cell.states.fields() == [field]);
    match known {
        Some(cell) => {
            cell.text = id.into();
            cell.says = crate::library::Says::Text;
        }
        None => {
            let column = in_row(written, field).unwrap_or(ColumnKey::Last(field));
            row.cells.push(name(column, field, id));
        }
    }
}

/// The cells of a row that are about its part of a kind, each with the field that it states: of
/// one that is stated for this part alone and with others the first. A cell that is no value
/// counts where no other is.
fn of_part(
    kind: Kind,
    (library, assembly): (&Library, &Assembly),
    (written, row): (&Written, &WrittenRow),
) -> Vec<(usize, Field)> {
    let clamps = match assembly.record.value(Field::ClampingKind) {
        Some(Scalar::Word(word)) => ClampingKind::of(word),
        _ => None,
    };
    let in_collet = clamps.is_none_or(ClampingKind::is_collet);
    let overrides = Overrides::default();
    let view: View<'_> = View::new(library, assembly, None, &overrides);
    if kind == Kind::Collet && !in_collet && !view.has_own_collet() {
        return Vec::new();
    }
    let mut all: Vec<(Field, u8, usize)> = Vec::new();
    for (at, cell) in row.cells.iter().enumerate() {
        let fields = written.fields(cell);
        let is_shared = fields.len() > 1;
        let about = fields.iter().filter(|field| field.kind() == kind);
        let about = about.filter(|field| !(is_shared && in_collet && OWN_BORE.contains(field)));
        all.extend(about.map(|field| (*field, rank(cell, is_shared), at)));
    }
    let best = |field: Field| {
        let same = all.iter().filter(|one| one.0 == field);
        same.map(|one| one.1).min()
    };
    let kept = all.iter().filter(|one| best(one.0) == Some(one.1));
    kept.map(|one| (one.2, one.0)).collect()
}

fn rank(cell: &WrittenCell, is_shared: bool) -> u8 {
    u8::from(is_shared) + if cell.says.is_value() { 0 } else { 2 }
}

impl<'a> Parts<'a> {
    fn of(kind: Kind, library: &'a Library) -> Parts<'a> {
        let field = Field::naming(kind);
        let ids = library.assemblies.iter();
        let ids = ids.filter_map(|assembly| assembly.record.text(field?));
        Parts {
            kind,
            given: ids.collect(),
            known: HashMap::new(),
            taken: HashSet::new(),
            made: 0,
        }
    }

    /// The id of a part, and its record if it is a new one.
    fn part(
        &mut self,
        given: Option<&'a str>,
        cells: Vec<BookCell<'a>>,
        told: &mut Told,
    ) -> (String, Option<BookRow<'a>>) {
        let key = (given, said(&cells));
        if let Some(id) = self.known.get(&key) {
            return (id.clone(), None);
        }
        let id = match given {
            Some(given) if !self.taken.contains(given) => given.to_owned(),
            Some(given) => {
                let id = self.unused(given, 2);
                told.same_id(self.kind, given, &id);
                id
            }
            None => {
                self.made += 1;
                self.unused(self.kind.name(), self.made)
            }
        };
        self.taken.insert(id.clone());
        self.known.insert(key, id.clone());
        let mut record = BookRow::default();
        if let Some(field) = Field::id_of(self.kind) {
            record
                .cells
                .push(name(ColumnKey::First(field), field, id.clone()));
        }
        record.cells.extend(cells);
        (id, Some(record))
    }

    /// An id that no row gives and no record has.
    fn unused(&self, stem: &str, from: usize) -> String {
        let mut all = (from..).map(|number| format!("{stem}-{number}"));
        let free = all.find(|id| !self.given.contains(id.as_str()) && !self.taken.contains(id));
        free.unwrap_or_default()
    }
}

/// All that cells say, for comparison.
fn said(cells: &[BookCell<'_>]) -> String {
    let of = |cell: &BookCell<'_>| {
        let field = cell.states.fields().first().copied();
        (field, format!("{:?} {} {:?}", field, cell.text, cell.unit))
    };
    let mut all: Vec<_> = cells.iter().map(of).collect();
    all.sort();
    all.into_iter().map(|(_, said)| said + "\n").collect()
}

/// The tool numbers by which an operation finds its tool.
struct Numbers<'a>(HashMap<&'a str, Vec<Option<&'a str>>>);

impl<'a> Numbers<'a> {
    fn of(library: &'a Library) -> Numbers<'a> {
        let mut all: HashMap<&str, Vec<Option<&str>>> = HashMap::new();
        for assembly in &library.assemblies {
            if let Some(number) = assembly.tool_number() {
                let machine = assembly.record.text(Field::Machine);
                all.entry(number).or_default().push(machine);
            }
        }
        Numbers(all)
    }

    /// Whether an operation of this tool, by its number and machine, finds it and no other.
    fn has(&self, assembly: &Assembly) -> bool {
        let machine = assembly.record.text(Field::Machine);
        let number = assembly.tool_number();
        let machines = number.and_then(|number| self.0.get(number));
        let fits = machines
            .into_iter()
            .flatten()
            .map(|other| match (machine, other) {
                (Some(own), Some(other)) => own == *other,
                _ => true,
            });
        fits.filter(|fits| *fits).count() == 1
    }
}

/// The operation of a row, if it states one.
fn operation<'a>(
    assembly: &'a Assembly,
    (written, row): (&'a Written, &'a WrittenRow),
    left: &mut [bool],
) -> Option<BookRow<'a>> {
    if !assembly.record.describes(Kind::Operation) {
        return None;
    }
    let mut operation = BookRow::begun(row);
    let linked = [
        (Field::OperationToolNumber, Field::ToolNumber),
        (Field::OperationMachine, Field::Machine),
    ];
    for (own, of_row) in linked {
        if let Some(text) = assembly.record.text(of_row) {
            operation.cells.push(name(ColumnKey::First(own), own, text));
        }
    }
    for (cell, left) in row.cells.iter().zip(left) {
        let fields = written.fields(cell);
        if fields.iter().any(|field| field.kind() == Kind::Operation) {
            operation.cells.push(of(written, cell));
            *left = false;
        }
    }
    Some(operation)
}
