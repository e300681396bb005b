//! A newer export in the place of the copy that a library was drafted from; all else stays.

use std::collections::HashSet;
use std::fs;
use std::io;
use std::path::Path;

use crate::library::{Kind, Meaning, ReadSettings, Survey};
use crate::text::{Source, SourceId};
use crate::write::{Refreshed, refreshed_text};

use super::super::output::{exchange, terminal_width};
use super::super::refusal::{Refusal, shown};
use super::Export;

/// Behind the name of a copy that was replaced.
pub(super) const OLD: &str = "old";

/// Replaces the copy, keeps the one before it, and says what is new or gone.
pub(super) fn refresh(
    export: &Export,
    folder: &Path,
    settings: &ReadSettings,
) -> Result<String, Refusal> {
    let survey = export.survey(settings)?;
    let table = replaced(folder, export, &survey)?;
    let path = folder.join(&table);
    let fails = |why: io::Error| {
        let path = shown(&path.display().to_string());
        Refusal::new(format!("{path} cannot be written: {why}"), "")
    };
    let old = fs::read(&path).map_err(fails)?;
    let before = Export::read(&path, settings)
        .ok()
        .map(|before| before.source);
    let earlier = before
        .as_ref()
        .and_then(|source| Survey::of(source, SourceId::default(), settings));
    let (now, then) = (
        headers(&survey),
        earlier.as_ref().map(headers).unwrap_or_default(),
    );
    let lost: Vec<String> = then
        .iter()
        .filter(|one| !now.contains(one))
        .cloned()
        .collect();
    if lost.len() * 2 > then.len() {
        let what = format!(
            "{} has {} of the {} columns of the copy that it would replace",
            shown(&export.name),
            then.len() - lost.len(),
            then.len()
        );
        return Err(Refusal::new(what, "name a newer export of the same list"));
    }
    let kept = path.with_file_name(format!("{table}.{OLD}"));
    if old != export.bytes {
        let older = fs::read(&kept).unwrap_or_default();
        exchange(&kept, &older, &old).map_err(fails)?;
    }
    exchange(&path, &old, &export.bytes).map_err(fails)?;
    let refreshed = Refreshed {
        folder: folder.display().to_string(),
        kept: format!("{table}.{OLD}"),
        table,
        rows: (earlier.map_or(0, |survey| survey.rows), survey.rows),
        new: now
            .iter()
            .filter(|one| !then.contains(one))
            .cloned()
            .collect(),
        lost,
        replaced: before.map_or(0, |before| lines_lost(before.text(), export.source.text())),
        unknown: unknown(folder, &survey, settings),
    };
    Ok(refreshed_text(&refreshed, terminal_width()))
}

/// The table of a folder that an export replaces.
fn replaced(folder: &Path, export: &Export, survey: &Survey) -> Result<String, Refusal> {
    let name = shown(&folder.display().to_string());
    let table = export.file_of(survey.kind);
    if folder.join(&table).is_file() {
        return Ok(table);
    }
    let other = match survey.kind {
        Kind::Stock => Kind::Assembly,
        _ => Kind::Stock,
    };
    Err(
        if folder.join(export.file_of(other)).is_file() && survey.kind == Kind::Stock {
            Refusal::new(
                format!(
                    "{name} is a library of tools as set up, and this export says nothing of how far they stick out"
                ),
                "name the folder of its stock",
            )
        } else {
            Refusal::new(
                format!("{name} has no {table} to replace"),
                "name a folder that `shankwise start FILE --into` has made",
            )
        },
    )
}

fn headers(survey: &Survey) -> Vec<String> {
    let columns = survey.columns.iter();
    let said = columns.filter(|column| column.meaning != Meaning::Blank);
    said.map(|column| column.header.clone()).collect()
}

/// How many lines of a text another does not have.
fn lines_lost(then: &str, now: &str) -> usize {
    let now: HashSet<&str> = now.lines().map(str::trim_end).collect();
    let then = then.lines().map(str::trim_end);
    then.filter(|line| !now.contains(line)).count()
}

/// Parts that an export names and that the tables of the folder do not describe, where there is such
/// a table.
fn unknown(folder: &Path, survey: &Survey, settings: &ReadSettings) -> Vec<(Kind, Vec<String>)> {
    let lacking = survey.parts.iter().filter_map(|parts| {
        let bytes = fs::read(folder.join(parts.kind.table())).ok()?;
        let source = Source::from_bytes("", bytes).ok()?;
        let known = Survey::ids(&source, settings)?;
        let names = parts.names.iter().map(|part| part.name.clone());
        let lacking: Vec<String> = names.filter(|name| !known.contains(name)).collect();
        (!lacking.is_empty()).then_some((parts.kind, lacking))
    });
    lacking.collect()
}
