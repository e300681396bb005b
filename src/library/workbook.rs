//! Which sheets of a workbook are the library: one with a row for each tool, or several that are
//! called as the tables of a folder are.

use crate::input::sheet::{self, Grid, Wanted};
use crate::text::{Source, closest, quoted};

use super::recognise::table_kind;
use super::{Form, Kind, OwnColumn, ReadSettings, Recognised};

/// Most names of sheets that are listed.
const LISTED: usize = 12;

/// A sheet that is read.
pub(super) struct Taken {
    pub kind: Kind,
    pub source: Source,
    pub about: About,
}

/// What is said of a sheet once its columns are known.
pub(super) struct About {
    /// Its cells, for what is hidden and merged.
    pub grid: Grid,
    /// Whether it is hidden as a whole.
    pub hidden: bool,
}

/// A sheet that is not read.
#[derive(Debug)]
pub(super) struct Left {
    /// Its name.
    pub name: String,
    /// The table that its name is a slip of, if that table is not there.
    pub near: Option<Kind>,
}

/// The sheets of a workbook that are read, and those that are not.
pub(super) struct Workbook {
    pub form: Form,
    pub taken: Vec<Taken>,
    pub left: Vec<Left>,
}

/// Which sheets are looked for.
#[derive(Clone, Copy, Debug)]
pub(super) struct Search<'s> {
    /// The table that the file is by its name, in a folder or for a job.
    pub only: Option<Kind>,
    /// The sheet that the shop names.
    pub named: Option<&'s str>,
    /// Headers of the shop.
    pub own: &'s [OwnColumn],
}

/// A sheet with some cell, before it is known what it is for.
struct Candidate {
    name: String,
    source: Source,
    about: About,
}

/// Opens a workbook and takes the sheets that are the library.
///
/// # Errors
/// If it cannot be read, or does not say which of its sheets is meant.
pub(super) fn open(file: &str, bytes: &[u8], search: Search<'_>) -> Result<Workbook, String> {
    choose(candidates(file, bytes, Wanted::ALL)?, search)
}

/// The sheet of a workbook that lists tools, as a table whose columns need not be known yet.
///
/// # Errors
/// If it cannot be read, or does not say which of its sheets is meant.
pub fn listed_tools(file: &str, bytes: &[u8], settings: &ReadSettings) -> Result<Source, String> {
    let search = Search {
        only: None,
        named: settings.sheet.as_deref(),
        own: &settings.columns,
    };
    let mut taken = open(file, bytes, search)?.taken.into_iter();
    let tools = taken.find(|one| one.kind == Kind::Assembly);
    tools.map(|one| one.source).ok_or_else(|| {
        "has sheets of parts, and none that lists tools; call that one `assemblies`".to_owned()
    })
}

/// Says what a workbook is, from the first rows of its sheets.
pub(super) fn recognise(bytes: &[u8], search: Search<'_>) -> Recognised {
    let chosen = candidates("", bytes, Wanted::HEAD).and_then(|all| choose(all, search));
    let workbook = match chosen {
        Ok(workbook) => workbook,
        Err(reason) => return Recognised::Foreign(reason),
    };
    let tools = workbook.taken.iter().find(|one| one.kind == Kind::Assembly);
    match tools.map(|one| table_kind(&one.source, search.own)) {
        Some(Recognised::Foreign(reason)) => Recognised::Foreign(reason),
        _ => Recognised::Library(workbook.form),
    }
}

fn candidates(file: &str, bytes: &[u8], wanted: Wanted) -> Result<Vec<Candidate>, String> {
    let sheets = sheet::read(bytes, wanted)?.into_iter();
    let all: Result<Vec<Candidate>, String> = sheets
        .filter(|sheet| !sheet.grid.is_empty())
        .map(|mut sheet| {
            let source = sheet.source(file)?;
            Ok(Candidate {
                name: sheet.name,
                source,
                about: About {
                    grid: sheet.grid,
                    hidden: sheet.hidden,
                },
            })
        })
        .collect();
    match all {
        Ok(all) if all.is_empty() => Err("has no sheet with a cell that holds anything".to_owned()),
        other => other,
    }
}

fn choose(mut all: Vec<Candidate>, search: Search<'_>) -> Result<Workbook, String> {
    if let Some(named) = search.named.filter(|_| search.only.is_none()) {
        let found = all.iter().position(|one| same(&one.name, named));
        let at = found.ok_or_else(|| {
            format!(
                "has no sheet `{}`, which the shop file names; its sheets: {}",
                quoted(named),
                listed(&all)
            )
        })?;
        return Ok(one(all, at, Kind::Assembly));
    }
    if let Some(kind) = search.only {
        let named = all.iter().position(|one| called(&one.name) == Some(kind));
        let at = match (named, all.len()) {
            (Some(at), _) => at,
            (None, 1) => 0,
            (None, _) => {
                return Err(format!(
                    "has several sheets, and none is called `{}`: {}; rename the one that is meant",
                    kind.section(),
                    listed(&all)
                ));
            }
        };
        return Ok(one(all, at, kind));
    }
    twice(&all)?;
    if all.iter().any(|one| called(&one.name).is_some()) {
        return tables(all, search);
    }
    if all.len() == 1 {
        return Ok(one(all, 0, Kind::Assembly));
    }
    let at = only_library(&all, search.own)?;
    let left = all.iter().enumerate().filter(|(other, _)| *other != at);
    let left = left.map(|(_, other)| left_out(&other.name, &[])).collect();
    let chosen = all.swap_remove(at);
    Ok(Workbook {
        form: Form::Sheet,
        taken: vec![taken(chosen, Kind::Assembly)],
        left,
    })
}

/// A workbook of which one sheet is read.
fn one(mut all: Vec<Candidate>, at: usize, kind: Kind) -> Workbook {
    let chosen = all.swap_remove(at);
    Workbook {
        form: Form::Sheet,
        taken: vec![taken(chosen, kind)],
        left: all.iter().map(|other| left_out(&other.name, &[])).collect(),
    }
}

/// A workbook whose sheets are tables. The one of the tools may have any name, if it is known by
/// its columns.
fn tables(all: Vec<Candidate>, search: Search<'_>) -> Result<Workbook, String> {
    let kinds: Vec<Option<Kind>> = all.iter().map(|one| called(&one.name)).collect();
    let tools = if kinds.contains(&Some(Kind::Assembly)) {
        None
    } else {
        Some(only_library(&all, search.own)?)
    };
    let present: Vec<Kind> = kinds.iter().copied().flatten().collect();
    let mut workbook = Workbook {
        form: Form::Workbook,
        taken: Vec::new(),
        left: Vec::new(),
    };
    for (at, (one, kind)) in all.into_iter().zip(kinds).enumerate() {
        match kind.or((tools == Some(at)).then_some(Kind::Assembly)) {
            Some(kind) => workbook.taken.push(taken(one, kind)),
            None => workbook.left.push(left_out(&one.name, &present)),
        }
    }
    workbook.taken.sort_by_key(|one| one.kind);
    Ok(workbook)
}

fn taken(one: Candidate, kind: Kind) -> Taken {
    Taken {
        kind,
        source: one.source,
        about: one.about,
    }
}

/// The only sheet whose columns are those of a library.
fn only_library(all: &[Candidate], own: &[OwnColumn]) -> Result<usize, String> {
    let is_library =
        |one: &Candidate| matches!(table_kind(&one.source, own), Recognised::Library(_));
    let fitting: Vec<usize> = (0..all.len())
        .filter(|at| all.get(*at).is_some_and(is_library))
        .collect();
    let what = match fitting.as_slice() {
        [only] => return Ok(*only),
        [] => "none has the columns of a tool library",
        _ => "more than one has the columns of a tool library",
    };
    Err(format!(
        "has several sheets, and {what}: {}; call the one with a row for each tool `assemblies`, or name it in shankwise.toml: sheet = \"…\"",
        listed(all)
    ))
}

/// Refuses two sheets that are the same table.
fn twice(all: &[Candidate]) -> Result<(), String> {
    for (at, one) in all.iter().enumerate() {
        let kind = called(&one.name);
        let mut before = all.iter().take(at);
        if let Some(other) = before.find(|other| kind.is_some() && called(&other.name) == kind) {
            return Err(format!(
                "has two sheets for one table, `{}` and `{}`; rename the one that is not meant",
                quoted(&other.name),
                quoted(&one.name)
            ));
        }
    }
    Ok(())
}

/// The table that a sheet is by its name: in any case, with or without an ending, one or many.
fn called(name: &str) -> Option<Kind> {
    let name = name.trim().to_lowercase();
    let bare = name.strip_suffix(".csv").unwrap_or(&name);
    let mut kinds = Kind::ALL.into_iter();
    kinds.find(|kind| bare == kind.section() || bare == kind.name())
}

/// A sheet that is not read, and the table that it may be meant for.
fn left_out(name: &str, present: &[Kind]) -> Left {
    let folded = name.trim().to_lowercase();
    let near = closest(&folded, Kind::ALL.iter().map(|kind| kind.section()));
    let near = Kind::ALL
        .into_iter()
        .find(|kind| Some(kind.section()) == near && !present.contains(kind));
    Left {
        name: name.to_owned(),
        near: near.filter(|_| !present.is_empty()),
    }
}

fn same(a: &str, b: &str) -> bool {
    a.trim().to_lowercase() == b.trim().to_lowercase()
}

fn listed(all: &[Candidate]) -> String {
    let first = all.iter().take(LISTED);
    let names: Vec<String> = first
        .map(|one| format!("`{}`", quoted(&one.name)))
        .collect();
    let more = all.len().saturating_sub(LISTED);
    let rest = if more > 0 {
        format!(" and {more} more")
    } else {
        String::new()
    };
    format!("{}{rest}", names.join(", "))
}
