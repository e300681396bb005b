//! From headers to properties: every spelling, the units, the qualified names.

use std::borrow::Cow;
use std::collections::HashMap;

use crate::input::{Column, Fault, Faults, fault_kind};
use crate::units::{Asked, Spelling, split_unit};

use super::hints;
use super::own_column::{self, OwnColumn};
use super::property::ValueType;
use super::stating::{Stating, Target};
use super::{Field, Kind, PROPERTIES, Property};

/// Where columns stand: a table of a kind, or elements of a kind within a section of one.
#[derive(Clone, Copy, Debug)]
pub(super) struct Host {
    /// The kind of table or section.
    pub table: Kind,
    /// The kind of element, in XML.
    pub element: Option<Kind>,
}

impl Host {
    /// A table of CSV.
    pub const fn table(table: Kind) -> Host {
        Host {
            table,
            element: None,
        }
    }

    /// The fields that a name stands for here.
    fn fields_of(self, name: &str) -> Vec<Field> {
        match self.element {
            // Of what the crib has, an element says whether it is a cutter or a collet.
            Some(kind) if kind != self.table => {
                let own = fields_of(&format!("{} {name}", kind.name()), self.table);
                if own.is_empty() {
                    let all = fields_of(name, self.table).into_iter();
                    all.filter(|field| field.kind() == self.table).collect()
                } else {
                    own
                }
            }
            _ => fields_of(name, self.table),
        }
    }

    /// The kinds of record that it may describe.
    pub fn kinds(self) -> Vec<Kind> {
        match self.element {
            Some(kind) if kind != self.table => vec![kind, self.table],
            _ => kinds(self.table).to_vec(),
        }
    }
}

/// Folds a name: case, and blank, `_`, `-`, `.` are the same.
#[must_use]
pub fn normal(name: &str) -> String {
    let words = name.split(|c: char| c.is_whitespace() || matches!(c, '_' | '-' | '.'));
    let words: Vec<String> = words
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    words.join("_")
}

/// The kinds of record that a table of a kind may describe.
fn kinds(table: Kind) -> &'static [Kind] {
    match table {
        Kind::Assembly => &Kind::OF_A_ROW,
        Kind::Cutter => &[Kind::Cutter],
        Kind::Collet => &[Kind::Collet],
        Kind::Nut => &[Kind::Nut],
        Kind::Holder => &[Kind::Holder],
        Kind::Operation => &[Kind::Operation],
        Kind::Stock => &[Kind::Stock, Kind::Cutter, Kind::Collet],
    }
}

/// Resolves all columns of a table; faults for those that are unknown, doubled or in a unit
/// that is none.
pub(super) fn resolve(
    (columns, units): (&[Column<'_>], &[Column<'_>]),
    host: Host,
    own: &[OwnColumn],
    faults: &mut Faults,
) -> Vec<Target> {
    let mut taken: Vec<(Field, bool, &Column<'_>)> = Vec::new();
    let mut targets = Vec::with_capacity(columns.len());
    let keys = if own.is_empty() {
        Vec::new()
    } else {
        keys(columns)
    };
    for (at, column) in columns.iter().enumerate() {
        let key = keys.get(at).map_or(column.name.as_ref(), Cow::as_ref);
        let mut target = one((column, key), host, own, faults);
        if let Some(unit) = units.get(at) {
            below(&mut target, column, unit, faults);
        }
        let shared = target.is_shared();
        let mut doubled = None;
        for &field in &target.fields {
            let same = taken.iter().find(|one| (one.0, one.1) == (field, shared));
            match same {
                Some((_, _, first)) => doubled = doubled.or(Some(*first)),
                None => taken.push((field, shared, column)),
            }
        }
        // One fault a column, however many records share the property.
        faults.extend(doubled.map(|first| twice(column, first)));
        target.fields.dedup();
        targets.push(Target::from(target));
    }
    targets
}

/// The names by which a shop file may name columns: their headers, and of headers that stand several
/// times each with its number, `Ø (2)`.
pub(super) fn keys<'c>(columns: &'c [Column<'_>]) -> Vec<Cow<'c, str>> {
    let mut many: HashMap<String, usize> = HashMap::new();
    for column in columns {
        *many.entry(normal(&column.name)).or_default() += 1;
    }
    let mut met: HashMap<String, usize> = HashMap::new();
    let each = columns.iter().map(|column| {
        let folded = normal(&column.name);
        if folded.is_empty() || many.get(&folded) == Some(&1) {
            return Cow::Borrowed(column.name.as_ref());
        }
        let number = met.entry(folded).or_default();
        *number += 1;
        Cow::Owned(format!("{} ({number})", column.name))
    });
    each.collect()
}

/// Takes the unit that stands below a header. What header and line say differently is not known.
fn below(target: &mut Stating, column: &Column<'_>, unit: &Column<'_>, faults: &mut Faults) {
    // A dash, or nothing, says that there is none.
    let says = unit
        .name
        .contains(|c: char| c.is_alphanumeric() || c == '%' || c == '"');
    if !says || !is_quantity(&target.fields) {
        return;
    }
    let name = unit.name.trim_matches(|c| "[]() ".contains(c));
    let known = unit_of(&target.fields, name, unit, faults);
    match (target.unit, known) {
        (None, found) if !target.broken_unit => {
            target.broken_unit = found.is_none();
            target.unit = found;
        }
        (Some(header), Some(line)) if header.name != line.name => {
            let property = target
                .fields
                .first()
                .map_or("", |field| field.property().name);
            faults.push(
                Fault::new(fault_kind::CELL_UNREADABLE, unit.place, property)
                    .with("property", property)
                    .quoting("text", &unit.name)
                    .with("problem", format!("the header says {}", header.name))
                    .with("kind", "header")
                    .also(column.place, column.name.to_string()),
            );
            target.broken_unit = true;
            target.unit = None;
        }
        _ => {}
    }
}

fn twice(column: &Column<'_>, first: &Column<'_>) -> Fault {
    Fault::new(
        fault_kind::COLUMN_TWICE,
        column.place,
        column.name.to_string(),
    )
    .quoting("column", &column.name)
    .quoting("first", &first.name)
    .also(first.place, first.name.to_string())
}

fn one(
    (column, key): (&Column<'_>, &str),
    host: Host,
    own: &[OwnColumn],
    faults: &mut Faults,
) -> Stating {
    let (entry, header_unit) = match own_column::find(own, key) {
        Some(entry) => (Some(entry), None),
        None => entry_of(column.name.as_ref(), own),
    };
    if entry.is_some_and(|entry| entry.ignored) {
        return Stating::default();
    }
    let written = column.name.as_ref();
    let name = entry.map_or(written, |entry| entry.meant(written));
    let own_unit = entry
        .and_then(|entry| entry.unit.as_deref())
        .or(header_unit);
    // A bracket may also be part of a name: try the whole header first.
    let mut fields = host.fields_of(name);
    let (bare, mut unit) = split_unit(name);
    if fields.is_empty() {
        fields = host.fields_of(bare);
    } else {
        unit = None;
    }
    if fields.is_empty() {
        faults.push(unknown(column, bare, host));
        return Stating::default();
    }
    let named = || entry.and_then(|_| unit_in(written, &fields));
    unit = own_unit.or(unit).or_else(named);
    let found = unit.and_then(|unit| unit_of(&fields, unit, column, faults));
    Stating {
        broken_unit: unit.is_some() && found.is_none() && is_quantity(&fields),
        unit: found,
        fields,
        values: entry.map_or_else(Vec::new, |entry| entry.values.clone()),
    }
}

/// The unit in a header that the shop names whole: `Anzug (ft-lb)`, `Md Nm`. In brackets may stand
/// something else, and a word at the end may be the name of another unit by chance.
fn unit_in<'h>(header: &'h str, fields: &[Field]) -> Option<&'h str> {
    let is_unit = |unit: &&str| Spelling::find_any(unit).is_some() && unit.parse::<f64>().is_err();
    let in_brackets = split_unit(header).1.filter(is_unit);
    in_brackets.or_else(|| {
        let ValueType::Quantity(wanted) = fields.first()?.property().value else {
            return None;
        };
        let (_, unit) = hints::unit_behind(header)?;
        (unit.unit == wanted).then_some(unit.name)
    })
}

/// The name of the property that the shop has for a header; else the header itself, and none where
/// the shop does not read it.
pub(super) fn renamed_to<'n>(written: &'n str, own: &'n [OwnColumn]) -> &'n str {
    match entry_of(written, own).0 {
        Some(entry) if entry.ignored => "",
        Some(entry) => entry.meant(written),
        None => written,
    }
}

/// What the shop says of a header, and the header's own unit if only the part before it is named.
pub(super) fn entry_of<'n>(
    written: &'n str,
    own: &'n [OwnColumn],
) -> (Option<&'n OwnColumn>, Option<&'n str>) {
    let (bare, unit) = split_unit(written);
    match (own_column::find(own, written), own_column::find(own, bare)) {
        (Some(entry), _) => (Some(entry), None),
        (None, Some(entry)) => (Some(entry), unit),
        (None, None) => (None, None),
    }
}

fn is_quantity(fields: &[Field]) -> bool {
    let value = fields.first().map(|field| field.property().value);
    matches!(value, Some(ValueType::Quantity(_)))
}

fn unit_of(
    fields: &[Field],
    unit: &str,
    column: &Column<'_>,
    faults: &mut Faults,
) -> Option<&'static Spelling> {
    let property = fields.first()?.property();
    let ValueType::Quantity(wanted) = property.value else {
        return None;
    };
    match Spelling::named(unit, wanted) {
        Ok(spelling) => Some(spelling),
        Err(problem) => {
            faults.push(
                Fault::new(fault_kind::CELL_UNREADABLE, column.place, property.name)
                    .with("property", property.name)
                    .quoting("text", &column.name)
                    .with("problem", problem.explain(wanted, Asked::InCell))
                    .with("kind", "header"),
            );
            None
        }
    }
}

/// The fields that a name without unit stands for in a table; none if it is not known there.
#[must_use]
pub fn fields_of(name: &str, table: Kind) -> Vec<Field> {
    let folded = normal(name);
    let whole = unqualified(&folded, table);
    if !whole.is_empty() {
        return whole;
    }
    let Some((first, rest)) = folded.split_once('_') else {
        return Vec::new();
    };
    let kind = kinds(table).iter().find(|kind| kind.name() == first);
    let Some(&kind) = kind else {
        return Vec::new();
    };
    if table == Kind::Assembly && rest == "id" {
        // `cutter id` in an assembly's row names its cutter.
        return unqualified(first, table);
    }
    let own = PROPERTIES.iter().filter(|property| property.kind == kind);
    let named = own.filter(|property| is_called(property, rest) || is_id(property, rest));
    named
        .map(|property| property.field)
        .filter(|field| stands_in(*field, table))
        .collect()
}

/// The header that states these fields in a table: the bare name where it means them and no
/// others, else with its record. None if no header states all of them at once.
#[must_use]
pub fn header_of(fields: &[Field], table: Kind) -> Option<String> {
    let property = fields.first()?.property();
    let qualified = format!("{}.{}", property.kind.name(), property.name);
    let names = [property.name.to_owned(), qualified];
    names
        .into_iter()
        .find(|name| fields_of(name, table) == fields)
}

fn unqualified(folded: &str, table: Kind) -> Vec<Field> {
    let all = PROPERTIES
        .iter()
        .filter(|property| kinds(table).contains(&property.kind))
        .filter(|property| is_called(property, folded) || is_own_id(property, folded, table))
        .filter(|property| stands_in(property.field, table));
    let fields: Vec<Field> = all.map(|property| property.field).collect();
    match fields.iter().find_map(|field| owner(*field)) {
        Some(owner) if fields.len() > 1 => {
            fields.into_iter().filter(|f| f.kind() == owner).collect()
        }
        _ => fields,
    }
}

/// Unqualified, these properties are one record's alone.
fn owner(field: Field) -> Option<Kind> {
    match field.property().name {
        "description" | "tool_number" | "machine" if field.kind() == Kind::Assembly => {
            Some(Kind::Assembly)
        }
        "drive_square" | "clamping_length_min" | "clamping_length_max"
            if field.kind() == Kind::Cutter =>
        {
            Some(Kind::Cutter)
        }
        _ => None,
    }
}

/// In an assembly's row the name of a part is a reference, and the operation's tool number is
/// the row's own.
fn stands_in(field: Field, table: Kind) -> bool {
    let part_id = Kind::PARTS
        .iter()
        .any(|kind| Field::id_of(*kind) == Some(field));
    let foreign = part_id || matches!(field, Field::OperationToolNumber | Field::OperationMachine);
    table != Kind::Assembly || !foreign
}

pub(super) fn is_called(property: &Property, folded: &str) -> bool {
    property.name == folded
        || property
            .symbols
            .iter()
            .any(|symbol| symbol.eq_ignore_ascii_case(folded))
}

fn is_id(property: &Property, folded: &str) -> bool {
    folded == "id" && Field::id_of(property.kind) == Some(property.field)
}

/// What the crib has are cutters and collets, each with its own id.
fn is_own_id(property: &Property, folded: &str, table: Kind) -> bool {
    (property.kind == table || table == Kind::Stock) && is_id(property, folded)
}

fn unknown(column: &Column<'_>, name: &str, host: Host) -> Fault {
    let hint = hints::hint(&column.name, name, host);
    if let Some(element) = host.element {
        return Fault::new(
            fault_kind::UNKNOWN_ELEMENT,
            column.place,
            column.name.to_string(),
        )
        .quoting("element", &column.name)
        .with("parent", element.name())
        .with("hint", hint.replace('_', "-"));
    }
    let shown = if column.name.is_empty() {
        "(no name)"
    } else {
        column.name.as_ref()
    };
    Fault::new(
        fault_kind::UNKNOWN_COLUMN,
        column.place,
        column.name.to_string(),
    )
    .quoting("column", shown)
    .with("table", host.table.table())
    .with("hint", hint)
}
