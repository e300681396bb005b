//! One library, read and judged as the arguments say.

use std::io::Read as _;
use std::ops::RangeInclusive;
use std::path::Path;

use crate::advice::{Advice, advise};
use crate::judge::{Finding, Options, Report, Selection, Setup, SetupError, judge};
use crate::library::{Assembly, Input, Kind, Library, Loaded, OperationRef, Record, load};
use crate::rulebook::{Date, Level};
use crate::write::{Look, Trouble};

use super::args::SetupArgs;
use super::output::complain;

/// What came of one library.
pub(super) struct Judged {
    library: Library,
    pub report: Report,
    pub advice: Advice,
}

impl Judged {
    fn numbered<'j>(&'j self, number: &'j str) -> impl Iterator<Item = &'j Assembly> {
        let assemblies = self.library.assemblies.iter();
        assemblies.filter(move |assembly| assembly.tool_number() == Some(number))
    }

    /// Whether an assembly has this tool number.
    pub(super) fn has(&self, number: &str) -> bool {
        self.numbered(number).next().is_some()
    }

    /// Whether a finding is about a tool: its own, or one about the record of a part or of an
    /// operation of it, which names no tool.
    pub(super) fn is_of(&self, finding: &Finding, number: &str) -> bool {
        if let Some(own) = &finding.tool_number {
            return own == number;
        }
        let Some(place) = finding.places.first() else {
            return false;
        };
        let records = self
            .numbered(number)
            .flat_map(|assembly| self.records(assembly));
        let mut lines = records.map(|record| self.lines(record));
        lines.any(|(file, lines)| file == place.file && lines.contains(&place.line))
    }

    /// The records that describe an assembly.
    fn records<'j>(&'j self, assembly: &'j Assembly) -> impl Iterator<Item = &'j Record> {
        let part = |kind| self.library.records(kind).get(assembly.part(kind)?);
        let parts = Kind::PARTS.into_iter().filter_map(part);
        let jobs = assembly.operations.iter().filter_map(|job| match job {
            OperationRef::Record(at) => self.library.records(Kind::Operation).get(*at),
            OperationRef::OwnRow => None,
        });
        let all: Vec<&Record> = parts.chain(jobs).collect();
        std::iter::once(&assembly.record).chain(all)
    }

    /// The file and the lines in which a record stands.
    fn lines(&self, record: &Record) -> (&str, RangeInclusive<usize>) {
        let sources = &self.library.sources;
        let entries = record.entries().iter();
        let places = entries.map(|entry| sources.position(entry.place).line);
        let first = sources.position(record.place).line;
        let last = places.max().map_or(first, |last| last.max(first));
        (sources.name(record.place), first..=last)
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
            let message = format!("there is no rule or topic `{wanted}`; {hint}");
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
