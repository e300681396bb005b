//! Where output goes: standard output, a file written whole or not at all, or through a device.

mod closed;
mod folder;
mod inputs;
mod replace;
mod signals;
mod sink;
mod target;

use std::io::{self, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};

use crate::write::{Look, Trouble, error_text, parted};

use super::args::{Color, OutputArgs, OutputForm, SetupArgs};
use super::refusal::Refusal;
use super::{COULD_NOT, NOTHING_FAILS};
pub use closed::standard_output_is_closed;
pub(super) use folder::{Files, Folder};
use inputs::Inputs;
use replace::Pending;
pub(super) use sink::Sink;
use target::Target;

/// How text looks on this terminal.
pub(super) fn look(arguments: &OutputArgs) -> Look {
    match arguments.form {
        OutputForm::Plain => Look::Plain,
        _ => look_of(arguments.colour.color, arguments.out.as_deref()),
    }
}

/// Whether text that is drawn has colour. The first of these that says something decides:
///
/// 1. `--color always` or `--color never`;
/// 2. `NO_COLOR`, if it is not empty: no colour;
/// 3. `--out`: no colour in a file, where no terminal shows it;
/// 4. `CLICOLOR_FORCE` or `FORCE_COLOR`, if not empty and not `0`: colour;
/// 5. `TERM=dumb`: no colour;
/// 6. standard output: colour if it is a terminal.
pub(super) fn look_of(color: Color, out: Option<&Path>) -> Look {
    let set = |name| std::env::var_os(name).filter(|value| !value.is_empty());
    let forces = |name| set(name).is_some_and(|value| value != "0");
    let coloured = match color {
        Color::Always => true,
        Color::Never => false,
        Color::Auto if set("NO_COLOR").is_some() || out.is_some() => false,
        Color::Auto if forces("CLICOLOR_FORCE") || forces("FORCE_COLOR") => true,
        Color::Auto => set("TERM").is_none_or(|term| term != "dumb") && io::stdout().is_terminal(),
    };
    if coloured { Look::Colour } else { Look::Drawn }
}

/// Columns of lines that go to a file, or to a terminal that does not tell.
const WIDTH: u16 = WIDEST;
/// Widest lines: longer ones are hard to follow.
const WIDEST: u16 = 100;
/// Narrowest lines that cells and limits fit into.
const NARROWEST: u16 = 60;

/// Columns of a line of text: the terminal's, within reason.
pub(super) fn width(arguments: &OutputArgs) -> usize {
    width_of(arguments.out.is_none())
}

fn width_of(is_printed: bool) -> usize {
    let stated = std::env::var("COLUMNS").ok();
    let stated = stated.and_then(|columns| columns.parse().ok());
    let own = || terminal_size::terminal_size().map(|(columns, _)| columns.0);
    let shown = is_printed && io::stdout().is_terminal();
    let columns = if shown { stated.or_else(own) } else { stated };
    usize::from(columns.unwrap_or(WIDTH).clamp(NARROWEST, WIDEST))
}

/// Columns of a line that a command prints.
pub(super) fn terminal_width() -> usize {
    width_of(true)
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

/// Where a command writes to, once it is known that nothing which it reads stands there.
pub(super) struct Destination<'a> {
    out: Option<&'a Path>,
    inputs: Inputs,
    look: Look,
    /// Whether what would go to standard output goes nowhere.
    is_silent: bool,
}

impl<'a> Destination<'a> {
    /// Where `--out` says, or standard output; `None`, told on standard error, if that is
    /// something that is read from these paths or by this setup.
    pub(super) fn of(
        output: &'a OutputArgs,
        paths: &[PathBuf],
        setup: &SetupArgs,
    ) -> Option<Destination<'a>> {
        Destination {
            out: output.out.as_deref(),
            inputs: Inputs::of(paths, setup),
            look: look(output),
            is_silent: output.quiet && output.out.is_none(),
        }
        .unless_read()
    }

    /// Where a page goes that is made of these paths; `None`, told on standard error, if it would
    /// take the place of what is read.
    pub(super) fn of_page(
        out: &'a Path,
        paths: &'a [PathBuf],
        setup: &SetupArgs,
        look: Look,
    ) -> Option<Destination<'a>> {
        let destination = Destination {
            out: Some(out),
            inputs: Inputs::of(paths, setup),
            look,
            is_silent: false,
        };
        // Somewhere below a folder that is read, any other file may be a library.
        let is_page = out.extension().is_some_and(|ending| {
            ending.eq_ignore_ascii_case("html") || ending.eq_ignore_ascii_case("htm")
        });
        if !is_page && out.exists() {
            destination.complain("it is there and no page; give a name that ends with .html");
            return None;
        }
        destination.unless_read()
    }

    fn unless_read(self) -> Option<Destination<'a>> {
        // What cannot be written is told by the writing; only what is read has to be known now.
        let target = self.out.and_then(|out| Target::of(out).ok());
        let clash = target.and_then(|target| self.inputs.clash(&target));
        match clash {
            Some(clash) => {
                self.complain(&clash);
                None
            }
            None => Some(self),
        }
    }

    /// Opens the destination: at the first byte that is written, and not before.
    pub(super) const fn open(&self) -> Sink<'_> {
        Sink::of(self)
    }

    /// Writes the output; `false`, told on standard error, if that failed.
    pub(super) fn write(&self, text: &str) -> bool {
        let mut sink = self.open();
        // The sink remembers why, and tells it.
        let _ = sink.write_all(text.as_bytes());
        sink.finish()
    }

    /// What stands where `--out` says, if nothing that is read does; `None` for standard output.
    fn target(&self) -> io::Result<Option<Target>> {
        let Some(out) = self.out else {
            return Ok(None);
        };
        let target = Target::of(out)?;
        match self.inputs.clash(&target) {
            Some(clash) => Err(io::Error::other(clash)),
            None => Ok(Some(target)),
        }
    }

    fn complain(&self, why: &str) {
        let (out, look) = match self.out {
            Some(out) => (out.display().to_string(), self.look),
            None => ("standard output".to_owned(), self.look),
        };
        let (why, hint) = parted(why);
        Refusal::new(format!("cannot write {out}: {why}"), hint).tell(look);
    }
}

/// Writes to standard output all that a command prints, and returns its status; what failed is
/// told on standard error.
pub(super) fn write(text: &str, look: Look) -> u8 {
    let destination = Destination {
        out: None,
        inputs: Inputs::default(),
        look,
        is_silent: false,
    };
    if destination.write(text) {
        NOTHING_FAILS
    } else {
        COULD_NOT
    }
}

/// Why files must not be written; `None` if none of them takes the place of what is read from
/// these paths or by this setup.
pub(super) fn clash(files: &[PathBuf], paths: &[PathBuf], setup: &SetupArgs) -> Option<String> {
    let inputs = Inputs::of(paths, setup);
    // What cannot be written is told by the writing.
    let mut targets = files.iter().filter_map(|file| Target::of(file).ok());
    targets.find_map(|target| inputs.clash(&target))
}

/// Puts a new text in the place of a file that was read as `old`, or where there was none: whole
/// or not at all, and not over what another has written there since.
pub(super) fn exchange(path: &Path, old: &[u8], new: &[u8]) -> io::Result<()> {
    let (path, node) = match Target::of(path)? {
        Target::File { path, old } => (path, old),
        Target::Stdout | Target::Through { .. } => {
            return Err(io::Error::other("it is not a file"));
        }
    };
    let mut pending = Pending::begin(path.clone(), node.clone())?;
    pending.write_all(new)?;
    let now = match node {
        Some(_) => std::fs::read(&path)?,
        None if path.exists() => return Err(io::ErrorKind::AlreadyExists.into()),
        None => Vec::new(),
    };
    if now != old {
        return Err(io::Error::other("it has changed meanwhile; try again"));
    }
    pending.commit()
}

/// Says on standard error what went wrong.
pub(super) fn complain(trouble: &Trouble<'_>, look: Look) {
    // Where standard error is closed there is nobody to tell.
    let _ = io::stderr().write_all(error_text(trouble, look).as_bytes());
}
