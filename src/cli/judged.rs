//! One library, read and judged as the arguments say.

use std::io::Read as _;
use std::path::Path;

use crate::advice::{Advice, advise};
use crate::judge::{Finding, Options, Report, Selection, Setup, SetupError, Verdict, judge};
use crate::library::{Assembly, Input, Library, Loaded, load};
use crate::rulebook::{Date, Level};
use crate::write::{Look, Trouble};

use super::args::SetupArgs;
use super::options::shown;
use super::output::complain;

/// What came of one library.
pub(super) struct Judged {
    library: Library,
    pub report: Report,
    pub advice: Advice,
}

impl Judged {
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

    /// What came of the library, or of the tools of these numbers alone.
    pub(super) fn outcome(&self, numbers: &[String]) -> (Verdict, bool) {
        let report = &self.report;
        if numbers.is_empty() {
            return (report.summary.verdict, report.coverage.is_enough());
        }
        let own = |finding: &Finding| numbers.iter().any(|number| self.is_of(finding, number));
        let shown = |at| numbers.iter().any(|number| self.is_numbered(at, number));
        let coverage = report.coverage.of(shown);
        (report.verdict_on(own), coverage.is_enough())
    }
}

/// Judges one library. The report is there if anything could be judged; the flag says whether
/// everything could be read. What went wrong is told on standard error.
pub(super) fn one(
    path: &Path,
    setup: &SetupArgs,
    options: &Options,
    with_remedies: bool,
    look: Look,
) -> (Option<Judged>, bool) {
    let is_stdin = path == Path::new("-");
    let near = (!is_stdin).then_some(path);
    let config = setup.config.as_deref();
    let loaded_setup = Setup::load(near, config, &setup.rules, !setup.no_built_in)
        .and_then(|setup| setup.check(&options.selection).map(|()| setup));
    let setup = match loaded_setup {
        Ok(setup) => setup,
        Err(error) => {
            complain_setup(&error, look);
            return (None, false);
        }
    };
    let bytes = if is_stdin {
        stdin(look)
    } else {
        Some(Vec::new())
    };
    let Some(bytes) = bytes else {
        return (None, false);
    };
    let input = if is_stdin {
        Input::Bytes("standard input", &bytes)
    } else {
        Input::Path(path)
    };
    let Loaded { library, errors } = load(input, &setup.read_settings());
    for error in &errors {
        complain(&Trouble::Read(error), look);
    }
    let judged = library.map(|library| {
        let mut report = judge(&library, &setup, options);
        let advice = advise(&library, &setup, options, with_remedies, &mut report);
        Judged {
            library,
            report,
            advice,
        }
    });
    (judged, errors.is_empty())
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

/// What a command asks that shows all it can work out.
pub(super) fn everything() -> Options {
    Options {
        strict: false,
        fail_on: Level::Error,
        selection: Selection::default(),
        with_facts: true,
        today: today(),
    }
}

/// Today by this machine's clock and zone.
pub(super) fn today() -> Date {
    let date = jiff::ZonedDateTime::now().date();
    Date {
        year: date.year(),
        month: date.month(),
        day: date.day(),
    }
}
