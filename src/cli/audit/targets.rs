//! Where the outputs of an audit go.

use std::fs::File;
use std::io::{self, BufWriter, Write};

use crate::audit::{LOG, TABLE};
use crate::write::audit::Places;

use super::super::output::{Files, Folder};

/// Files that an audit writes besides its log and its table.
const JSON: &str = "audit.json";
const COMMENT: &str = "audit.md";
const JUNIT: &str = "junit.xml";

/// Where an output goes: into a file, or nowhere if no folder was named.
pub(super) enum To {
    File(Box<Files>),
    /// A file without a name, for whoever reads it next.
    Kept(BufWriter<File>),
    Nowhere,
}

impl Write for To {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match self {
            To::File(file) => file.write(bytes),
            To::Kept(file) => file.write(bytes),
            To::Nowhere => Ok(bytes.len()),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        match self {
            To::File(file) => file.flush(),
            To::Kept(file) => file.flush(),
            To::Nowhere => Ok(()),
        }
    }
}

pub(super) fn places(folder: Option<&Folder>, junit: bool) -> io::Result<Places<To>> {
    let to = |name: &str| match folder {
        Some(folder) => folder.file(name).map(|file| To::File(Box::new(file))),
        None => Ok(To::Nowhere),
    };
    Ok(Places {
        sarif: to(LOG)?,
        json: to(JSON)?,
        table: to(TABLE)?,
        junit: junit.then(|| to(JUNIT)).transpose()?,
    })
}

/// Where JSON alone is wanted.
pub(super) fn json_alone(file: File) -> Places<To> {
    Places {
        sarif: To::Nowhere,
        json: To::Kept(BufWriter::new(file)),
        table: To::Nowhere,
        junit: None,
    }
}

/// All outputs are whole and take their places, the log last: who finds it finds all.
pub(super) fn commit(folder: &Folder, places: Places<To>, comment: &str) -> io::Result<()> {
    let mut text = folder.file(COMMENT)?;
    text.write_all(comment.as_bytes())?;
    let Places {
        sarif,
        json,
        table,
        junit,
    } = places;
    text.commit()?;
    for to in [Some(json), Some(table), junit, Some(sarif)] {
        if let Some(To::File(file)) = to {
            file.commit()?;
        }
    }
    Ok(())
}
