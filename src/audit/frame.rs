//! What comes of one library, in pieces that follow each other: written where it is judged, taken
//! in the order of libraries. A part of an audit that another machine does is a file of them.

use std::io::{self, ErrorKind, Read, Write};

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::noted::Noted;
use crate::text::{Position, Unreadable};

/// One piece.
#[derive(Clone, Debug, PartialEq)]
pub enum Frame {
    /// Where an assembly stands among all others, as JSON.
    Point(Vec<u8>),
    /// What is said of an assembly before its findings, as an open object of JSON.
    Sheet(Vec<u8>),
    /// A finding: of the sheet before it, or of the library where there is none.
    Finding(Box<Found>),
    /// What is said of the library as a whole; nothing of it comes behind.
    End(Box<Ended>),
}

/// A finding in every form that an output has.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// As it is noted.
    pub noted: Noted,
    /// Whether it is not judged, might be an error, and the shop does not accept it.
    pub open: bool,
    /// As a result of SARIF, an object; empty where enough of its rule are there.
    pub sarif: Vec<u8>,
    /// As JSON, an object; empty where enough of its rule are there.
    pub json: Vec<u8>,
}

/// What is said of a library as a whole.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Ended {
    /// Its key.
    pub key: String,
    /// Its path as it is shown.
    pub input: String,
    /// The name that it states, if it states one.
    pub name: Option<String>,
    /// What came of reading it.
    pub status: Status,
    /// SHA-256 of its files.
    pub digest: String,
    /// SHA-256 of what its shop files say, if it has any.
    pub config: Option<String>,
    /// Why it failed, where the program did.
    pub failed: Option<String>,
    /// What of it could not be read.
    pub unreadable: Vec<Fault>,
    /// Files that should be part of it and were not read, and why.
    pub unread: Vec<(String, String)>,
    /// Rules that are switched off or not asked for.
    pub inactive: Vec<String>,
    /// Rules of its own, each as an object of SARIF.
    pub rules: Vec<(String, String)>,
    /// Its counts.
    pub counts: Counts,
    /// What JSON says of it, as fields of an object.
    pub json: String,
    /// What SARIF says of it, an object.
    pub sarif: String,
}

/// What of a library could not be read.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fault {
    file: Option<String>,
    at: Option<(usize, usize)>,
    message: String,
}

impl Fault {
    /// The same, to be written.
    #[must_use]
    pub fn of(fault: &Unreadable) -> Fault {
        Fault {
            file: fault.file.clone(),
            at: fault.position.map(|at| (at.line, at.column)),
            message: fault.message.clone(),
        }
    }

    /// The same, to be told.
    #[must_use]
    pub fn told(&self) -> Unreadable {
        Unreadable {
            file: self.file.clone(),
            position: self.at.map(|(line, column)| Position { line, column }),
            message: self.message.clone(),
        }
    }
}

/// What came of reading a library.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Status {
    /// It was read.
    #[default]
    Read,
    /// Some of it was.
    InPart,
    /// It was not, or not what judges it.
    Unreadable,
    /// The program failed on it.
    Failed,
}

impl Status {
    /// All of them.
    pub const ALL: [Status; 4] = [
        Status::Read,
        Status::InPart,
        Status::Unreadable,
        Status::Failed,
    ];

    /// Its name in data.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Status::Read => "read",
            Status::InPart => "read in part",
            Status::Unreadable => "unreadable",
            Status::Failed => "failed",
        }
    }

    /// Whether what is not found today may be there all the same.
    #[must_use]
    pub const fn is_partial(self) -> bool {
        !matches!(self, Status::Read)
    }
}

/// What is counted of a library.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Counts {
    /// Findings by level, those aside that the shop accepts: errors, warnings, notes, not judged.
    pub levels: [usize; 4],
    /// Findings that the shop accepts.
    pub accepted: usize,
    /// Assemblies: failing, grip not judged, to be checked, else not judged, nothing found.
    pub groups: [usize; 5],
    /// Assemblies that are, or may be, held by a shank.
    pub held_by_shank: usize,
    /// Those of them of which the grip was judged.
    pub grip_judged: usize,
    /// Whether something fails, or is incomplete and that matters, or too little was judged.
    pub fails: bool,
    /// Whether something that matters could not be judged.
    pub incomplete: bool,
    /// Whether the grip was judged on fewer tools than is wanted.
    pub too_few: bool,
}

impl Counts {
    /// How many assemblies there are.
    #[must_use]
    pub fn assemblies(&self) -> usize {
        self.groups.iter().sum()
    }

    /// Adds those of another library.
    pub fn add(&mut self, other: &Counts) {
        let pairs = self.levels.iter_mut().zip(other.levels);
        pairs.for_each(|(own, other)| *own += other);
        let pairs = self.groups.iter_mut().zip(other.groups);
        pairs.for_each(|(own, other)| *own += other);
        self.accepted += other.accepted;
        self.held_by_shank += other.held_by_shank;
        self.grip_judged += other.grip_judged;
        self.fails |= other.fails;
        self.incomplete |= other.incomplete;
        self.too_few |= other.too_few;
    }
}

const POINT: u8 = b'P';
const SHEET: u8 = b'S';
const FINDING: u8 = b'F';
const END: u8 = b'E';
/// Longest piece, bytes: what is longer was not written here.
const LONGEST: u32 = 1 << 30;

impl Frame {
    /// Writes it.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn write(&self, to: &mut impl Write) -> io::Result<()> {
        match self {
            Frame::Point(json) => {
                to.write_all(&[POINT])?;
                put(json, to)
            }
            Frame::Sheet(json) => {
                to.write_all(&[SHEET])?;
                put(json, to)
            }
            Frame::Finding(found) => {
                to.write_all(&[FINDING])?;
                to.write_all(&[u8::from(found.open)])?;
                put(&serde_json::to_vec(&found.noted)?, to)?;
                put(&found.sarif, to)?;
                put(&found.json, to)
            }
            Frame::End(ended) => {
                to.write_all(&[END])?;
                put(&serde_json::to_vec(ended)?, to)
            }
        }
    }

    /// Reads the next one.
    ///
    /// # Errors
    /// If it cannot be read, or is none.
    pub fn read(from: &mut impl Read) -> io::Result<Frame> {
        let mut of = [0];
        from.read_exact(&mut of)?;
        Ok(match of {
            [POINT] => Frame::Point(take(from)?),
            [SHEET] => Frame::Sheet(take(from)?),
            [FINDING] => Frame::Finding(Box::new(Found {
                open: {
                    from.read_exact(&mut of)?;
                    of != [0]
                },
                noted: parsed(from)?,
                sarif: take(from)?,
                json: take(from)?,
            })),
            [END] => Frame::End(Box::new(parsed(from)?)),
            _ => return Err(ErrorKind::InvalidData.into()),
        })
    }
}

fn put(bytes: &[u8], to: &mut impl Write) -> io::Result<()> {
    let length = u32::try_from(bytes.len()).unwrap_or(u32::MAX);
    to.write_all(&length.to_le_bytes())?;
    to.write_all(bytes)
}

fn take(from: &mut impl Read) -> io::Result<Vec<u8>> {
    let mut length = [0; 4];
    from.read_exact(&mut length)?;
    let length = u32::from_le_bytes(length);
    if length > LONGEST {
        return Err(ErrorKind::InvalidData.into());
    }
    let mut bytes = Vec::new();
    from.take(u64::from(length)).read_to_end(&mut bytes)?;
    if bytes.len() < length as usize {
        return Err(ErrorKind::UnexpectedEof.into());
    }
    Ok(bytes)
}

fn parsed<T: DeserializeOwned>(from: &mut impl Read) -> io::Result<T> {
    Ok(serde_json::from_slice(&take(from)?)?)
}
