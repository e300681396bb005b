//! The archive that a workbook is, and limits on what is unpacked of it.
//!
//! A file of some kilobytes may unpack to any size. So what is unpacked is counted as it is read,
//! whatever the archive says of itself.

use std::io::{self, Cursor, Read};

use zip::ZipArchive;
use zip::result::ZipError;

use super::grid::TOO_MANY;
use super::xml::Xml;
use crate::text::quoted;

/// Most files of a workbook: sheets, styles and pictures of a large one are some hundred.
const ENTRIES: usize = 10_000;
/// Most bytes that are unpacked of a workbook: half a million rows of eighteen columns.
const UNPACKED: u64 = 512 << 20;
/// Beginning of an archive.
const ARCHIVE: [&[u8]; 2] = [b"PK\x03\x04", b"PK\x05\x06"];
/// Beginning of a compound file, which holds old workbooks, and new ones with a password.
const COMPOUND: &[u8] = &[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];

const TOO_LARGE: &str = "is a workbook that unpacks to more than 512 MiB; keep the tool library in a workbook of its own";
pub(super) const PASSWORD: &str =
    "is protected by a password, so that it cannot be read; save a copy without a password";

/// Whether bytes are a workbook or something that people take for one, by how they begin. Text in
/// CSV or XML never begins so.
#[must_use]
pub fn is_workbook(bytes: &[u8]) -> bool {
    bytes.starts_with(COMPOUND) || ARCHIVE.iter().any(|start| bytes.starts_with(start))
}

/// An open workbook of either format.
pub(super) struct Archive<'b> {
    zip: ZipArchive<Cursor<&'b [u8]>>,
    /// Bytes that may still be unpacked.
    left: u64,
}

impl<'b> Archive<'b> {
    /// Opens the archive. What it says of itself is believed only where it is too much.
    pub fn open(bytes: &'b [u8]) -> Result<Archive<'b>, String> {
        if bytes.starts_with(COMPOUND) {
            return Err(compound(bytes));
        }
        let zip = ZipArchive::new(Cursor::new(bytes)).map_err(|why| broken(&why))?;
        if zip.len() > ENTRIES {
            return Err(format!(
                "is an archive of {} files; a workbook has at most {ENTRIES}",
                zip.len()
            ));
        }
        if zip.has_duplicate_names() {
            return Err(
                "is a workbook that has a part twice, and does not say which counts; save it again"
                    .to_owned(),
            );
        }
        let said = zip.decompressed_size().unwrap_or_default();
        if said > u128::from(UNPACKED) {
            return Err(TOO_LARGE.to_owned());
        }
        Ok(Archive {
            zip,
            left: UNPACKED,
        })
    }

    /// Whether it has a part of this name.
    pub fn has(&self, name: &str) -> bool {
        self.zip.index_for_name(name).is_some()
    }

    /// Whether it has a part whose name ends so.
    pub fn has_ending(&self, ending: &str) -> bool {
        let mut names = self.zip.file_names().filter_map(Result::ok);
        names.any(|name| name.ends_with(ending))
    }

    /// The beginning of a part, at most as many bytes; none if there is no such part.
    pub fn start(&mut self, name: &str, most: u64) -> Option<Vec<u8>> {
        let part = self.zip.by_name(name).ok()?;
        let mut bytes = Vec::new();
        part.take(most).read_to_end(&mut bytes).ok()?;
        Some(bytes)
    }

    /// Reads a part; `None` if there is no such part.
    pub fn part<T>(
        &mut self,
        name: &str,
        read: impl FnOnce(&mut Xml<'_>) -> Result<T, String>,
    ) -> Result<Option<T>, String> {
        let part = match self.zip.by_name(name) {
            Ok(part) => part,
            Err(ZipError::FileNotFound) => return Ok(None),
            Err(why) => return Err(broken(&why)),
        };
        let found = {
            let left = &mut self.left;
            let mut xml = Xml::new(Limited { part, left });
            read(&mut xml).map_err(|why| in_part(name, &why))
        };
        if self.left == 0 {
            return Err(TOO_LARGE.to_owned());
        }
        found.map(Some)
    }
}

/// What is wrong within a part, with its name.
fn in_part(name: &str, why: &str) -> String {
    let name = quoted(name);
    let what_to_do = if why == TOO_MANY {
        "keep the library in a workbook of its own"
    } else {
        "open and save it again"
    };
    format!("is a workbook that cannot be read: {why}, in its part `{name}`; {what_to_do}")
}

fn broken(why: &ZipError) -> String {
    match why {
        ZipError::UnsupportedArchive(what) if *what == ZipError::PASSWORD_REQUIRED => {
            PASSWORD.to_owned()
        }
        other => format!(
            "begins as a workbook does, and cannot be read as one: {}; it may be cut short, so copy or save it again",
            match other {
                ZipError::UnsupportedArchive(_) => "it is packed in a way that is not read",
                _ => "the list of its parts is missing or broken",
            }
        ),
    }
}

/// What a compound file is. The names in it are in UTF-16.
fn compound(bytes: &[u8]) -> String {
    let wide: Vec<u8> = "EncryptedPackage"
        .bytes()
        .flat_map(|byte| [byte, 0])
        .collect();
    let is_locked = bytes.windows(wide.len()).any(|part| part == wide);
    if is_locked {
        PASSWORD.to_owned()
    } else {
        "is a workbook of the old binary format, .xls, which is not read; save it as .xlsx or .ods"
            .to_owned()
    }
}

/// A part as it is unpacked, up to what may still be.
struct Limited<'l, R> {
    part: R,
    left: &'l mut u64,
}

impl<R: Read> Read for Limited<'_, R> {
    fn read(&mut self, to: &mut [u8]) -> io::Result<usize> {
        let read = self.part.read(to)?;
        let size = u64::try_from(read).unwrap_or(u64::MAX);
        *self.left = self.left.saturating_sub(size);
        if *self.left == 0 {
            return Err(io::Error::other("too large"));
        }
        Ok(read)
    }
}
