//! A newer export in the place of the copy that a library was drafted from; all else stays.

use std::fs;
use std::path::Path;

use crate::library::{Kind, Meaning, Survey};
use crate::text::{Source, SourceId};
use crate::write::refreshed_text;

use super::super::output::{exchange, terminal_width};
use super::super::refusal::{Refusal, shown};
use super::super::start_args::StartArgs;
use super::{Export, settings, table_of};

/// Replaces the copy, and says which columns and parts are new or gone.
pub(super) fn refresh(
    export: &Export,
    folder: &Path,
    arguments: &StartArgs,
) -> Result<String, Refusal> {
    let name = shown(&folder.display().to_string());
    let settings = settings(arguments, folder)?;
    let survey = export.survey(&settings)?;
    let kinds = [Kind::Stock, Kind::Assembly].into_iter();
    // A drafted stock has a table of assemblies beside it that is the shop's own.
    let mut tables = kinds.filter(|kind| folder.join(kind.table()).is_file());
    let Some(kind) = tables.find(|kind| *kind == survey.kind || *kind == Kind::Assembly) else {
        return Err(Refusal::new(
            format!("{name} has no {} to replace", table_of(survey.kind)),
            "name a folder that `shankwise start FILE --into` has made",
        ));
    };
    if kind != survey.kind {
        return Err(Refusal::new(
            format!(
                "{name} is a library of tools as set up, and this export says nothing of how far they stick out"
            ),
            "name the folder of its stock",
        ));
    }
    let path = folder.join(table_of(kind));
    let fails = |why: std::io::Error| {
        let path = shown(&path.display().to_string());
        Refusal::new(format!("{path} cannot be written: {why}"), "")
    };
    let old = fs::read(&path).map_err(fails)?;
    let before = Source::from_bytes("", old.clone()).ok();
    let before = before.and_then(|source| Survey::of(&source, SourceId::default(), &settings));
    exchange(&path, &old, &export.bytes).map_err(fails)?;
    let headers = |survey: &Survey| -> Vec<String> {
        let columns = survey.columns.iter();
        let said = columns.filter(|column| column.meaning != Meaning::Blank);
        said.map(|column| column.header.clone()).collect()
    };
    let (now, then) = (
        headers(&survey),
        before.as_ref().map(headers).unwrap_or_default(),
    );
    let lost: Vec<String> = then
        .iter()
        .filter(|one| !now.contains(one))
        .cloned()
        .collect();
    let new: Vec<String> = now
        .iter()
        .filter(|one| !then.contains(one))
        .cloned()
        .collect();
    let rows = (before.map_or(0, |survey| survey.rows), survey.rows);
    let folder = folder.display().to_string();
    Ok(refreshed_text(
        (&folder, table_of(kind)),
        rows,
        (&new, &lost),
        terminal_width(),
    ))
}
