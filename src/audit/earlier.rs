//! Reads an earlier audit: which libraries it had, and what it noted, one after the other.

use std::fs::File;
use std::io::{self, BufReader};
use std::path::{Path, PathBuf};

use super::baseline::{Baseline, Was};
use super::header::{Header, header};
use super::in_log;
use super::noted::Noted;
use super::table::{Row, rows};

/// The log of an audit, in its folder.
pub const LOG: &str = "audit.sarif";
/// The table of findings of an audit, in its folder.
pub const TABLE: &str = "findings.csv";

/// An earlier audit on disk.
#[derive(Debug)]
pub struct Earlier {
    log: PathBuf,
    /// The table of all its findings; none if there is none of the same run, and then only those
    /// in the log are known.
    table: Option<PathBuf>,
    header: Header,
}

/// Why an earlier audit cannot be used.
#[derive(Debug)]
pub struct NoAudit {
    /// The file.
    pub file: PathBuf,
    /// Why.
    pub why: String,
}

impl Earlier {
    /// Opens the audit in a folder, or the one that a log is of.
    ///
    /// # Errors
    /// If there is none, or it cannot be read.
    pub fn open(path: &Path) -> Result<Earlier, NoAudit> {
        let log = if path.is_dir() {
            path.join(LOG)
        } else {
            path.to_owned()
        };
        let refuse = |why: String| NoAudit {
            file: log.clone(),
            why,
        };
        let header = match header(&log) {
            Ok(Some(header)) => header,
            Ok(None) => return Err(refuse("is not the log of an audit".to_owned())),
            Err(why) => return Err(refuse(format!("cannot be read: {why}"))),
        };
        let table = log.with_file_name(TABLE);
        let own = is_of(&table, &header.id).then_some(table);
        Ok(Earlier {
            table: own,
            header,
            log,
        })
    }

    /// What a later audit compares with.
    ///
    /// # Errors
    /// If it cannot be read to its end.
    pub fn baseline(&self) -> io::Result<Baseline> {
        let header = self.header.clone();
        let is_whole = self.table.is_some();
        let libraries = header.libraries.into_iter().map(|own| {
            let cut = if is_whole { Vec::new() } else { own.cut };
            Was::new(own.key, own.name, cut)
        });
        let libraries: Vec<Was> = libraries.collect();
        let keys = libraries.iter().enumerate();
        let numbers: std::collections::HashMap<String, usize> =
            keys.map(|(at, was)| (was.key.clone(), at)).collect();
        let mut baseline = Baseline::new(header.id, header.day, libraries);
        self.each(|noted| {
            // What is of no library that it had is kept in its place, and compared with nothing.
            let library = numbers.get(&noted.library);
            baseline.add(&noted, library.copied().unwrap_or(usize::MAX));
            Ok(())
        })?;
        baseline.complete();
        Ok(baseline)
    }

    /// Everything that it notes, what was gone already aside, in its order.
    ///
    /// # Errors
    /// If it cannot be read to its end, or the first that `take` returns.
    pub fn each(&self, mut take: impl FnMut(Noted) -> io::Result<()>) -> io::Result<()> {
        if let Some(table) = &self.table {
            for row in rows(table)? {
                let row = row?;
                if !row.is_gone() {
                    take(row.noted)?;
                }
            }
            return Ok(());
        }
        in_log::each(BufReader::new(File::open(&self.log)?), take)
    }
}

/// Whether a table of findings belongs to a run; one without findings may.
fn is_of(table: &Path, id: &str) -> bool {
    let Ok(mut rows) = rows(table) else {
        return false;
    };
    match rows.next() {
        None => true,
        Some(Ok(Row { run, .. })) => run == id,
        Some(Err(_)) => false,
    }
}
