//! What the log of an audit says of the audit itself. It stands behind all results, as much of it is
//! known only then: a log of gigabytes is looked at from its end.

use std::fs::File;
use std::io::{self, BufRead as _, BufReader, Read as _, Seek as _, SeekFrom};
use std::path::Path;

use serde::Deserialize;

/// What is said of an audit.
#[derive(Clone, Debug, Default, Deserialize)]
pub(super) struct Header {
    pub id: String,
    pub day: String,
    pub libraries: Vec<Library>,
}

/// What is said of one of its libraries.
#[derive(Clone, Debug, Default, Deserialize)]
pub(super) struct Library {
    pub key: String,
    pub name: Option<String>,
    /// Rules of which the log has not every result.
    #[serde(default)]
    pub cut: Vec<String>,
}

#[derive(Deserialize)]
struct Properties {
    audit: Option<Header>,
}

/// Reads it; `None` if the log is of no audit.
///
/// # Errors
/// If the log cannot be read, or is none.
pub(super) fn header(log: &Path) -> io::Result<Option<Header>> {
    let file = File::open(log)?;
    if let Some(header) = behind_results(&file)? {
        return Ok(Some(header));
    }
    wherever(&file)
}

/// How a line begins that holds it, in a log as the program writes it. Within a text there is no
/// end of a line, and no other line of such a log begins so.
const MARK: &[u8] = b"\n\"properties\":{\"audit\":";
/// How much is looked at in one go, bytes.
const STEP: u64 = 1 << 16;

/// Looks for it from the end; `None` where the log has not the lines that the program gives it.
fn behind_results(mut file: &File) -> io::Result<Option<Header>> {
    let mut end = file.seek(SeekFrom::End(0))?;
    let mut bytes = Vec::new();
    while end > 0 {
        let start = end.saturating_sub(STEP);
        file.seek(SeekFrom::Start(start))?;
        bytes.clear();
        // A mark that two steps share is seen whole in the second.
        let length = end - start + MARK.len() as u64;
        file.take(length).read_to_end(&mut bytes)?;
        let mut windows = bytes.windows(MARK.len());
        if let Some(at) = windows.rposition(|window| window == MARK) {
            return in_line(file, start + at as u64);
        }
        end = start;
    }
    Ok(None)
}

/// Reads it from the line that begins here; `None` where it is cut off.
fn in_line(mut file: &File, at: u64) -> io::Result<Option<Header>> {
    file.seek(SeekFrom::Start(at))?;
    let mut line = BufReader::new(file);
    // The object begins behind its key.
    line.skip_until(b':')?;
    let mut properties = serde_json::Deserializer::from_reader(line);
    match Properties::deserialize(&mut properties) {
        Ok(properties) => Ok(properties.audit),
        Err(why) if why.is_io() => Err(why.into()),
        Err(_) => Ok(None),
    }
}

/// Looks for it in the whole log.
fn wherever(mut file: &File) -> io::Result<Option<Header>> {
    #[derive(Deserialize)]
    struct Log {
        #[serde(default)]
        runs: Vec<Run>,
    }
    #[derive(Deserialize)]
    struct Run {
        properties: Option<Properties>,
    }
    file.seek(SeekFrom::Start(0))?;
    let log: Log = serde_json::from_reader(BufReader::new(file))?;
    let mut runs = log.runs.into_iter();
    Ok(runs.find_map(|run| run.properties?.audit))
}
