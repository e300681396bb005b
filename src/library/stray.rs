//! Files beside the tables of a folder that were meant for one, and tables that are given as if
//! they were libraries.

use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use crate::input::{Column, csv};
use crate::text::{Source, SourceId, closest, names, no_file};
use crate::units::split_unit;

use super::columns::fields_of;
use super::{Field, Kind};

/// Endings of tables of some program, this one's aside.
const ENDINGS: [&str; 16] = [
    "csv", "tsv", "tab", "txt", "dat", "xls", "xlsx", "xlsm", "ods", "bak", "old", "orig",
    "csv.txt", "csv.csv", "csv.bak", "csv.old",
];
/// Of these, what is text and has a header that can be looked at.
const TEXT_ENDINGS: [&str; 5] = ["csv", "tsv", "tab", "txt", "csv.txt"];
/// What people call a table besides its own name.
const ALIASES: [(&str, Kind); 5] = [
    ("job", Kind::Operation),
    ("task", Kind::Operation),
    ("crib", Kind::Stock),
    ("inventory", Kind::Stock),
    ("chuck", Kind::Holder),
];
/// Words no longer than this say nothing with others beside them: `op 10`, letters.
const SHORTEST: usize = 2;
/// How much of a file is looked at for its header, bytes.
const HEADER: u64 = 1 << 16;

/// A file that is not read and was meant for a table.
pub(super) struct Stray {
    /// The file as it is called in its folder.
    pub name: String,
    /// The table.
    pub near: Kind,
    /// Whether the table itself is not there, so that all that it should say is lost.
    pub instead: bool,
}

/// Files whose name is a slip of the hand, or whose columns are those of a table that is not
/// there: they would be left out in silence.
pub(super) fn stray(folder: &Path) -> Vec<Stray> {
    let names = names(folder);
    let is_table = |name: &str| Kind::ALL.iter().any(|kind| kind.tables().contains(&name));
    let is_there = |kind: Kind| {
        names
            .iter()
            .any(|name| kind.tables().contains(&name.as_str()))
    };
    let found = names.iter().filter(|name| !is_table(name));
    let found = found.filter_map(|name| {
        let lower = name.to_lowercase();
        let slip = (ending(&lower) == "csv")
            .then(|| closest(name, Kind::ALL.iter().map(|kind| kind.table())))
            .flatten();
        let slip = slip.and_then(|near| Kind::ALL.into_iter().find(|kind| kind.table() == near));
        let near = slip.or_else(|| {
            let missing = |kind: &Kind| !is_there(*kind);
            let path = folder.join(name);
            by_name(&lower)
                .filter(missing)
                .filter(|_| !path.is_dir())
                .or_else(|| by_columns(&path, &lower).into_iter().find(missing))
        })?;
        Some(Stray {
            name: name.clone(),
            near,
            instead: !is_there(near),
        })
    });
    found.collect()
}

/// What stands behind the first point of a name: `csv.txt` of `a.csv.txt`.
fn ending(name: &str) -> &str {
    name.split_once('.').map_or("", |(_, ending)| ending)
}

/// The table that a name stands for in short, with another ending, or with a number behind it:
/// `ops.csv`, `operations.tsv`, `operations (1).csv`.
fn by_name(name: &str) -> Option<Kind> {
    let (stem, _) = name.split_once('.')?;
    if !ENDINGS.contains(&ending(name)) {
        return None;
    }
    let words = stem.split(|c: char| !c.is_alphanumeric());
    let mut words = words.filter(|word| !word.is_empty());
    let word = words.next()?;
    if word.len() <= SHORTEST && word.len() < stem.len() {
        return None;
    }
    let is_number = |word: &str| word.bytes().all(|byte| byte.is_ascii_digit());
    let rest = ["copy", "old", "new", "final", "list", "table", "export"];
    if !words.all(|word| is_number(word) || rest.contains(&word)) {
        return None;
    }
    called(word)
}

/// The kind of record that a word calls: its name, a slip of it, its first letters, or an alias.
fn called(word: &str) -> Option<Kind> {
    let one = word.strip_suffix('s').unwrap_or(word);
    let alias = ALIASES.into_iter().find(|(alias, _)| *alias == one);
    let short = || {
        let mut kinds = Kind::ALL.into_iter();
        kinds.find(|kind| one.len() >= 2 && kind.name().starts_with(one))
    };
    let slip = || {
        let near = closest(word, Kind::ALL.iter().map(|kind| kind.section()))?;
        Kind::ALL.into_iter().find(|kind| kind.section() == near)
    };
    alias.map(|(_, kind)| kind).or_else(short).or_else(slip)
}

/// The tables that a file's header fits.
fn by_columns(path: &Path, name: &str) -> Vec<Kind> {
    if !TEXT_ENDINGS.contains(&ending(name)) || no_file(path).is_some() {
        return Vec::new();
    }
    let mut bytes = Vec::new();
    let read = File::open(path).and_then(|file| file.take(HEADER).read_to_end(&mut bytes));
    let Some(source) = read.ok().and_then(|_| Source::from_bytes("", bytes).ok()) else {
        return Vec::new();
    };
    let table = csv::Reader::open(&source, SourceId::default());
    table.map_or(Vec::new(), |table| kinds_of(&table.columns))
}

/// The tables, assemblies aside, that columns fit: their names are known there, and nothing that
/// only an assembly has is among them. The one that knows most of them comes first.
pub(super) fn kinds_of(columns: &[Column<'_>]) -> Vec<Kind> {
    let named: Vec<&str> = columns
        .iter()
        .map(|column| split_unit(&column.name).0)
        .filter(|name| !name.is_empty())
        .collect();
    if sets_tools(columns) {
        return Vec::new();
    }
    let known = |kind: Kind| {
        let known = named
            .iter()
            .filter(|name| !fields_of(name, kind).is_empty());
        known.count()
    };
    // What a row of a tool may say, and this table may not.
    let foreign = |kind: Kind| {
        named.iter().any(|name| {
            fields_of(name, kind).is_empty() && !fields_of(name, Kind::Assembly).is_empty()
        })
    };
    let own = |kind: Kind| {
        let mut fields = named.iter().flat_map(|name| fields_of(name, kind));
        match Field::id_of(kind) {
            Some(id) => fields.any(|field| field == id),
            None => fields.any(|field| field.kind() == kind),
        }
    };
    let numbered = named.iter().any(|name| {
        let fields = fields_of(name, Kind::Assembly);
        fields.contains(&Field::ToolNumber)
    });
    // A row with a tool number is a tool, unless the whole says that it is a job.
    let fits = |kind: &Kind| {
        let is_row = numbered && *kind != Kind::Operation;
        let needs_id = matches!(kind, Kind::Operation | Kind::Stock);
        let is_known = known(*kind) >= 2 && known(*kind) * 2 >= named.len();
        is_known && !is_row && !foreign(*kind) && (!needs_id || own(*kind))
    };
    let mut kinds: Vec<Kind> = Kind::ALL.into_iter().skip(1).filter(fits).collect();
    // Stable: the better known first, and of these the one whose own id is there.
    kinds.sort_by_key(|kind| (std::cmp::Reverse(known(*kind)), !own(*kind)));
    kinds
}

/// Whether a table says how tools are set up.
pub(super) fn sets_tools(columns: &[Column<'_>]) -> bool {
    columns.iter().any(|column| {
        let (name, _) = split_unit(&column.name);
        fields_of(name, Kind::Assembly).into_iter().any(is_as_set)
    })
}

/// Whether a field says how a tool is set up, which no table of parts does.
pub(super) fn is_as_set(field: Field) -> bool {
    matches!(
        field,
        Field::StickOut
            | Field::ProtrudingLength
            | Field::FunctionalLength
            | Field::ClampingLength
            | Field::NutTorque
    )
}
