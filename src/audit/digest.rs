//! What the inputs of an audit are, as hashes: by them a run is told from another.

use std::fmt::Write as _;
use std::fs::File;
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};

use sha2::{Digest as _, Sha256};

use crate::library::Kind;

/// How much is read at once, bytes.
const PIECE: usize = 1 << 16;

/// SHA-256 of all files that a library is read from, in hexadecimal digits. What cannot be read
/// counts as that.
#[must_use]
pub fn of_library(path: &Path) -> String {
    let mut hash = Sha256::new();
    for file in files(path) {
        let name = file.file_name().unwrap_or_default();
        hash.update(name.as_encoded_bytes());
        // No name and no text holds this byte: what follows cannot be taken for part of it.
        hash.update([0xff]);
        if let Err(why) = add(&file, &mut hash) {
            hash.update(why.kind().to_string());
        }
        hash.update([0xff]);
    }
    hex(hash)
}

/// SHA-256 of texts in their order.
#[must_use]
pub fn of_texts<'t>(texts: impl IntoIterator<Item = &'t str>) -> String {
    let mut hash = Sha256::new();
    for text in texts {
        hash.update(text);
        hash.update([0xff]);
    }
    hex(hash)
}

/// The files of a library; of a folder its tables alone.
fn files(path: &Path) -> Vec<PathBuf> {
    if !path.is_dir() {
        return vec![path.to_owned()];
    }
    let tables = Kind::ALL.into_iter().flat_map(Kind::tables);
    let tables = tables.map(|table| path.join(table));
    tables.filter(|table| table.is_file()).collect()
}

fn add(path: &Path, hash: &mut Sha256) -> io::Result<()> {
    let mut file = File::open(path)?;
    let mut piece = vec![0; PIECE];
    loop {
        let read = file.read(&mut piece)?;
        if read == 0 {
            return Ok(());
        }
        hash.update(piece.get(..read).unwrap_or_default());
    }
}

fn hex(hash: Sha256) -> String {
    let mut hex = String::new();
    for byte in hash.finalize() {
        // Writing to a String cannot fail.
        let _ = write!(hex, "{byte:02x}");
    }
    hex
}
