//! `shankwise report`: a page for somebody who decides, of libraries or of audits that lie there.

use std::fs::File;
use std::io::{self, BufReader, Read, Seek as _, SeekFrom};
use std::path::{Path, PathBuf};

use crate::write::page;

use super::audit;
use super::audit_args::{AuditArgs, ReportArgs};
use super::output::{self, Destination};
use super::refusal::{Refusal, shown};
use super::{COULD_NOT, NOTHING_FAILS};

/// Writes the page.
pub(super) fn run(arguments: &ReportArgs) -> u8 {
    let look = output::look_of(arguments.colour.color, None);
    let to = Destination::of_page(&arguments.out, &arguments.paths, &arguments.setup, look);
    let Some(to) = to else {
        return COULD_NOT;
    };
    match report(arguments) {
        Ok((page, _)) if !to.write(&page) => COULD_NOT,
        Ok((_, status)) => status,
        Err(refusal) => {
            refusal.tell(look);
            COULD_NOT
        }
    }
}

/// The page, and the exit status.
fn report(arguments: &ReportArgs) -> Result<(String, u8), Refusal> {
    let (audits, libraries): (Vec<&PathBuf>, Vec<&PathBuf>) =
        arguments.paths.iter().partition(|path| is_json(path));
    let mut files: Vec<File> = Vec::new();
    for audit in audits {
        files.push(File::open(audit).map_err(|why| unreadable(audit, &why))?);
    }
    let mut status = NOTHING_FAILS;
    if !libraries.is_empty() {
        let paths = libraries.into_iter().cloned().collect();
        let own = judged(arguments, paths)?;
        status = if own.0 == COULD_NOT {
            COULD_NOT
        } else {
            NOTHING_FAILS
        };
        files.push(own.1);
    }
    let mut readers: Vec<BufReader<File>> = files.into_iter().map(BufReader::new).collect();
    let mut all: Vec<&mut dyn Read> = Vec::new();
    for reader in &mut readers {
        all.push(reader);
    }
    let page = page(&mut all).map_err(|why| {
        let named: Vec<String> = arguments
            .paths
            .iter()
            .map(|path| path.display().to_string())
            .collect();
        let what = format!("no page can be made of {}: {why}", shown(&named.join(", ")));
        Refusal::new(what, "name libraries, or the audit.json of an audit")
    })?;
    Ok((page, status))
}

fn is_json(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("json"))
}

/// The JSON of an audit of these libraries, and its status.
fn judged(arguments: &ReportArgs, paths: Vec<PathBuf>) -> Result<(u8, File), Refusal> {
    let audit = AuditArgs {
        paths,
        setup: arguments.setup.clone(),
        day: arguments.day.clone(),
        no_strict: !arguments.strict,
        // A reviewer decides what to take instead.
        remedies: true,
        quiet: true,
        colour: arguments.colour.clone(),
        ..AuditArgs::default()
    };
    let mut file = tempfile::tempfile()
        .map_err(|why| Refusal::new(format!("no temporary file can be made: {why}"), ""))?;
    let status = audit::json(&audit, &file)?;
    let back = file.seek(SeekFrom::Start(0));
    back.map_err(|why| Refusal::new(format!("a temporary file cannot be read: {why}"), ""))?;
    Ok((status, file))
}

fn unreadable(path: &Path, why: &io::Error) -> Refusal {
    let path = shown(&path.display().to_string());
    Refusal::new(format!("{path} cannot be read: {why}"), "")
}
