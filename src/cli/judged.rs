//! One library, read and judged as the arguments say.

use std::io::{self, Read as _};
use std::path::Path;

use crate::judge::{Options, Selection, Setup, SetupError};
use crate::library::{Assembly, Input, Library, Loaded, load};
use crate::sheet::{Finding, Item, Overview, Wants, each};
use crate::write::{Look, Trouble};

use super::args::{DayArgs, SetupArgs};
use super::day::of_run;
use super::options::shown;
use super::output::complain;

/// A library and what it is judged with.
pub(super) struct Read {
    pub library: Library,
    setup: Setup,
    /// Whether everything could be read.
    pub whole: bool,
}

impl Read {
    /// Whether an assembly has this tool number.
    pub(super) fn has(&self, number: &str) -> bool {
        self.numbers().any(|own| own == number)
    }

    /// The tool numbers, in the order of the library.
    pub(super) fn numbers(&self) -> impl Iterator<Item = &str> {
        let assemblies = self.library.assemblies.iter();
        assemblies.filter_map(Assembly::tool_number)
    }

    fn is_numbered(&self, assembly: usize, number: &str) -> bool {
        let assembly = self.library.assemblies.get(assembly);
        assembly.is_some_and(|assembly| assembly.tool_number() == Some(number))
    }

    /// Whether a finding is about a tool: its own, or one about the record of a part or of an
    /// operation of it, which names no tool.
    pub(super) fn is_of(&self, finding: &Finding, number: &str) -> bool {
        match &finding.tool_number {
            Some(own) => own == number,
            None => {
                let mut assemblies = finding.part_of.iter();
                assemblies.any(|assembly| self.is_numbered(*assembly, number))
            }
        }
    }

    /// Judges assembly after assembly: each is prepared on any thread, and taken in order.
    pub(super) fn each<T: Send>(
        &self,
        options: &Options,
        wants: Wants,
        prepare: impl Fn(Item) -> T + Sync,
        take: impl FnMut(T) -> io::Result<()>,
    ) -> io::Result<Overview> {
        each((&self.library, &self.setup, options), wants, prepare, take)
    }
}

/// Reads one library. It is there if anything could be read; what went wrong is told on standard
/// error.
pub(super) fn read(
    path: &Path,
    setup: &SetupArgs,
    selection: &Selection,
    look: Look,
) -> Option<Read> {
    let is_stdin = path == Path::new("-");
    let near = (!is_stdin).then_some(path);
    let config = setup.config.as_deref();
    let loaded_setup = Setup::load(near, config, &setup.rules, !setup.no_built_in)
        .and_then(|setup| setup.check(selection).map(|()| setup));
    let setup = match loaded_setup {
        Ok(setup) => setup,
        Err(error) => {
            complain_setup(&error, look);
            return None;
        }
    };
    let bytes = if is_stdin { stdin(look)? } else { Vec::new() };
    let input = if is_stdin {
        Input::Bytes("standard input", &bytes)
    } else {
        Input::Path(path)
    };
    let Loaded { library, errors } = load(input, &setup.read_settings());
    for error in &errors {
        complain(&Trouble::Read(error), look);
    }
    Some(Read {
        library: library?,
        setup,
        whole: errors.is_empty(),
    })
}

fn stdin(look: Look) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    match std::io::stdin().lock().read_to_end(&mut bytes) {
        Ok(_) => Some(bytes),
        Err(why) => {
            let message = format!("standard input cannot be read: {why}");
            complain(&Trouble::Other(&message), look);
            None
        }
    }
}

/// Tells why a library cannot be judged at all.
pub(super) fn complain_setup(error: &SetupError, look: Look) {
    match error {
        SetupError::Rules(errors) => {
            for error in errors {
                complain(&Trouble::Rule(error), look);
            }
        }
        SetupError::NoSuchRule(wanted, near) => {
            let hint = match near {
                Some(near) => format!("did you mean `{near}`?"),
                None => "`shankwise rules` lists them".to_owned(),
            };
            let message = format!("there is no rule or topic `{}`; {hint}", shown(wanted));
            complain(&Trouble::Other(&message), look);
        }
    }
}

/// What a command asks that shows all it can work out, on the day that is asked for.
pub(super) fn everything(day: &DayArgs) -> Options {
    Options {
        with_facts: true,
        ..Options::on(of_run(day.as_of))
    }
}
