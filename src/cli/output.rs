//! Where output goes: standard output, or a file written whole or not at all.

use std::io::{self, ErrorKind, IsTerminal as _, Write as _};
use std::path::Path;

use crate::write::{Look, Trouble, error_text};

use super::args::{Color, Form, OutputArgs};

/// How text looks on this terminal.
pub(super) fn look(arguments: &OutputArgs) -> Look {
    let coloured = match arguments.color {
        Color::Always => true,
        Color::Never => false,
        Color::Auto => {
            let unwanted = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
            !unwanted && arguments.out.is_none() && io::stdout().is_terminal()
        }
    };
    match (arguments.form, coloured) {
        (Form::Plain, _) => Look::Plain,
        (_, true) => Look::Colour,
        (_, false) => Look::Drawn,
    }
}

/// Whether the locale lets a terminal show more than ASCII; where there are no such variables
/// by custom, it does.
pub(super) fn shows_unicode() -> bool {
    let mut set = ["LC_ALL", "LC_CTYPE", "LANG"]
        .into_iter()
        .filter_map(|name| {
            let value = std::env::var_os(name)?.to_string_lossy().to_lowercase();
            (!value.is_empty()).then_some(value)
        });
    let locale = set.next();
    locale.map_or(cfg!(windows), |locale| {
        locale.contains("utf-8") || locale.contains("utf8")
    })
}

/// Writes the output; `false` if that failed. Where there is nothing to say no file is written:
/// an empty report would look like a clean one, and the last good one stays.
pub(super) fn write(text: &str, out: Option<&Path>) -> bool {
    if text.is_empty() {
        return true;
    }
    let written = match out {
        Some(path) => to_file(text, path).map_err(|why| format!("{}: {why}", path.display())),
        None => to_stdout(text).map_err(|why| format!("standard output: {why}")),
    };
    match written {
        Ok(()) => true,
        Err(why) => {
            complain(&Trouble::Other(&format!("cannot write {why}")), Look::Drawn);
            false
        }
    }
}

/// A reader that has seen enough closes the pipe: no error.
fn to_stdout(text: &str) -> io::Result<()> {
    let mut stdout = io::stdout().lock();
    let written = stdout
        .write_all(text.as_bytes())
        .and_then(|()| stdout.flush());
    match written {
        Err(why) if why.kind() == ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}

/// A file appears whole under its name, or not at all.
fn to_file(text: &str, path: &Path) -> io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut file = temporary(folder)?;
    file.write_all(text.as_bytes())?;
    file.as_file().sync_all()?;
    file.persist(path).map_err(|error| error.error)?;
    Ok(())
}

/// A temporary file with the permissions of any new file: a report is no private one.
#[cfg(unix)]
fn temporary(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    use std::os::unix::fs::PermissionsExt as _;
    let permissions = std::fs::Permissions::from_mode(0o666);
    tempfile::Builder::new()
        .permissions(permissions)
        .tempfile_in(folder)
}

#[cfg(not(unix))]
fn temporary(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    tempfile::NamedTempFile::new_in(folder)
}

/// Says on standard error what went wrong.
pub(super) fn complain(trouble: &Trouble<'_>, look: Look) {
    // Where standard error is closed there is nobody to tell.
    let _ = io::stderr().write_all(error_text(trouble, look).as_bytes());
}
