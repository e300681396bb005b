//! Parts of an audit: a scheduler spreads the libraries over machines, and one run puts together
//! what they made of them.

use std::fs::{self, File};
use std::io::{self, BufReader, Read, Write};
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use crate::audit::Frame;
use crate::write::audit::Head;

use super::super::refusal::{Refusal, shown};
use super::Source;

/// Which part of an audit: of every `of` libraries the one with this number, from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(in super::super) struct Shard {
    number: usize,
    of: usize,
}

/// Reads `3/8`.
pub(in super::super) fn shard(text: &str) -> Result<Shard, String> {
    let expected = "expected a part and how many there are, such as 3/8";
    let (number, of) = text.split_once('/').ok_or(expected)?;
    let read = |text: &str| text.trim().parse::<usize>().map_err(|_| expected);
    let (number, of) = (read(number)?, read(of)?);
    if number == 0 || number > of {
        return Err(format!("{expected}; the first is 1/{}", of.max(1)));
    }
    Ok(Shard { number, of })
}

impl Shard {
    /// The name of its file.
    pub(super) fn name(self) -> String {
        format!("audit-{}-of-{}.part", self.number, self.of)
    }

    /// The libraries that are its own, of so many.
    pub(super) fn own(self, libraries: usize) -> Vec<usize> {
        (self.number - 1..libraries).step_by(self.of).collect()
    }
}

/// What stands first in a part.
#[derive(Serialize, Deserialize)]
struct Front {
    /// The version of this form.
    part: u8,
    version: String,
    shard: Shard,
    head: Head,
}

/// The version of the form of parts.
const FORM: u8 = 1;
/// Longest front, bytes.
const LONGEST: u64 = 1 << 30;

/// Begins a part.
///
/// # Errors
/// If it cannot be written.
pub(super) fn begin(shard: Shard, head: &Head, to: &mut impl Write) -> io::Result<()> {
    let front = serde_json::to_vec(&Front {
        part: FORM,
        version: env!("CARGO_PKG_VERSION").to_owned(),
        shard,
        head: head.clone(),
    })?;
    let length = u64::try_from(front.len()).unwrap_or(u64::MAX);
    to.write_all(&length.to_le_bytes())?;
    to.write_all(&front)
}

/// All parts of one audit.
pub(super) struct Parts {
    /// In the order of their numbers.
    files: Vec<PathBuf>,
    pub(super) head: Head,
}

impl Parts {
    /// Looks for the parts in folders.
    ///
    /// # Errors
    /// If one is missing or cannot be read, or they are not of one audit.
    pub(super) fn of(folders: &[PathBuf]) -> Result<Parts, Refusal> {
        let mut found: Vec<(PathBuf, Front)> = Vec::new();
        for file in folders.iter().flat_map(|folder| parts_in(folder)) {
            let (front, _) = open(&file).map_err(|why| unreadable(&file, &why))?;
            found.push((file, front));
        }
        found.sort_by_key(|(_, front)| front.shard.number);
        let Some((first, front)) = found.first() else {
            let folders: Vec<String> = folders
                .iter()
                .map(|one| one.display().to_string())
                .collect();
            return Err(Refusal::new(
                format!(
                    "there is no part of an audit in {}",
                    shown(&folders.join(", "))
                ),
                "make parts with --shard K/N --out DIR",
            ));
        };
        for (file, other) in &found {
            if other.head != front.head || other.shard.of != front.shard.of {
                return Err(Refusal::new(
                    format!("{} and {} are not of one audit", named(first), named(file)),
                    "make all parts of the same files, on the same day, with the same options",
                ));
            }
        }
        let numbers: Vec<usize> = found.iter().map(|(_, front)| front.shard.number).collect();
        for number in 1..=front.shard.of {
            match numbers.iter().filter(|own| **own == number).count() {
                1 => {}
                0 => {
                    let what = format!("part {number} of {} is missing", front.shard.of);
                    return Err(Refusal::new(what, "name the folder that it is in, too"));
                }
                _ => {
                    let what = format!("part {number} of {} is there twice", front.shard.of);
                    return Err(Refusal::new(what, "name each folder once"));
                }
            }
        }
        let head = front.head.clone();
        Ok(Parts {
            files: found.into_iter().map(|(file, _)| file).collect(),
            head,
        })
    }
}

impl Source for Parts {
    fn each(
        &self,
        which: &[usize],
        take: &mut dyn FnMut(usize, &mut dyn Read) -> io::Result<()>,
    ) -> io::Result<()> {
        let mut files: Vec<BufReader<File>> = Vec::new();
        for file in &self.files {
            files.push(open(file)?.1);
        }
        let of = files.len();
        let mut wanted = which.iter().copied().peekable();
        for at in 0..self.head.keys.len() {
            let Some(file) = files.get_mut(at % of) else {
                return Ok(());
            };
            match wanted.next_if_eq(&at) {
                Some(_) => take(at, file)?,
                None => while !matches!(Frame::read(file)?, Frame::End(_)) {},
            }
        }
        Ok(())
    }
}

/// The parts that lie in a folder, by name.
fn parts_in(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let files = entries.map(|entry| entry.path());
    let is_part = |path: &PathBuf| {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        name.starts_with("audit-") && name.ends_with(".part")
    };
    let mut files: Vec<PathBuf> = files.filter(is_part).collect();
    files.sort();
    files
}

/// What stands first in a part, and what is behind it.
fn open(path: &Path) -> io::Result<(Front, BufReader<File>)> {
    let mut file = BufReader::new(File::open(path)?);
    let mut length = [0; 8];
    file.read_exact(&mut length)?;
    let length = u64::from_le_bytes(length);
    let no_part = || io::Error::other("is not a part of an audit by this version of the program");
    if length > LONGEST {
        return Err(no_part());
    }
    let mut bytes = Vec::new();
    (&mut file).take(length).read_to_end(&mut bytes)?;
    let front: Front = serde_json::from_slice(&bytes).map_err(|_| no_part())?;
    if front.part != FORM || front.version != env!("CARGO_PKG_VERSION") {
        return Err(no_part());
    }
    Ok((front, file))
}

fn named(path: &Path) -> String {
    shown(&path.display().to_string())
}

fn unreadable(path: &Path, why: &io::Error) -> Refusal {
    Refusal::new(format!("{} cannot be read: {why}", named(path)), "")
}
