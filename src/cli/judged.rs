//! One library, read and judged as the arguments say.

use std::collections::HashSet;
use std::io::{self, Read as _};
use std::path::Path;

use crate::judge::{Options, Selection, Setup};
use crate::library::{Assembly, Beside, Input, Job, Library, Loaded, load_for};
use crate::sheet::{Coverage, Finding, Item, Overview, RuleShown, Verdict, Wants, each_of};
use crate::text::Unreadable;
use crate::write::{Look, Trouble};

use super::args::{DayArgs, SetupArgs};
use super::day::of_run;
use super::output::complain;
use super::progress::Shows;
use super::refusal::Refusal;
use super::unreadable::{complain_setup, of_input, of_setup};

/// A library and what it is judged with.
pub(super) struct Read {
    pub library: Library,
    setup: Setup,
    /// Inputs of it that could not be read.
    pub unreadable: Vec<Unreadable>,
    /// The job that it is read for.
    pub job: Option<Job>,
    /// Tools that were asked for and that it lacks.
    pub lacking: Vec<String>,
    /// The assemblies that alone are judged, in order.
    which: Option<Vec<usize>>,
    shows: Shows,
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

    /// Judges the tools of these numbers alone from now on.
    pub(super) fn only(&mut self, numbers: &[String]) {
        let wanted: HashSet<&str> = numbers.iter().map(String::as_str).collect();
        let assemblies = self.library.assemblies.iter().enumerate();
        let own = |one: &Assembly| one.tool_number().is_some_and(|own| wanted.contains(own));
        let which = assemblies.filter(|(_, one)| own(one)).map(|(at, _)| at);
        let which: Vec<usize> = which.collect();
        let known: HashSet<&str> = self.numbers().collect();
        let lacking = numbers.iter().filter(|one| !known.contains(one.as_str()));
        let lacking: Vec<String> = lacking.cloned().collect();
        self.which = Some(which);
        self.lacking = lacking;
    }

    /// The rules that it is judged by.
    pub(super) fn rules(&self) -> Vec<RuleShown> {
        RuleShown::all(&self.setup)
    }

    /// What it is judged with.
    pub(super) const fn setup(&self) -> &Setup {
        &self.setup
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
        let which = self.which.as_deref();
        let tools = which.map_or(self.library.assemblies.len(), <[usize]>::len);
        let judging = self.shows.judging(&self.library.name, tools);
        let counted = |item| {
            if matches!(item, Item::Sheet(_)) {
                judging.step();
            }
            prepare(item)
        };
        let subject = (&self.library, &self.setup, options);
        each_of(subject, which, wants, counted, take)
    }
}

/// Reads one library. It is there if anything could be read, else what went wrong; that is told
/// on standard error too.
pub(super) fn read(
    path: &Path,
    setup: &SetupArgs,
    selection: &Selection,
    look: Look,
    shows: Shows,
) -> Result<Read, Vec<Unreadable>> {
    read_for(path, Beside::default(), setup, selection, (look, shows))
}

/// The same for a job: where that is a table, what it asks of the tools is read with them. And with
/// the tables of another folder, whose shop file says how to read them.
pub(super) fn read_for(
    path: &Path,
    beside: Beside<'_>,
    setup: &SetupArgs,
    selection: &Selection,
    (look, shows): (Look, Shows),
) -> Result<Read, Vec<Unreadable>> {
    let job = beside.job;
    let loaded_setup = setup
        .load(beside.tables.unwrap_or(path))
        .and_then(|setup| setup.check(selection).map(|()| setup));
    let setup = match loaded_setup {
        Ok(setup) => setup,
        Err(error) => {
            complain_setup(&error, look);
            return Err(of_setup(&error));
        }
    };
    let bytes = bytes(path, look)?;
    let input = input(path, &bytes);
    let settings = setup.read_settings();
    let named = match job.map(|job| Job::read(job, &settings)).transpose() {
        Ok(named) => named,
        Err(error) => {
            complain(&Trouble::Read(&error), look);
            return Err(vec![of_input(&error)]);
        }
    };
    let asks = job.filter(|_| named.as_ref().is_some_and(|named| named.is_table));
    let reading = shows.reading(path);
    let beside = Beside {
        job: asks,
        ..beside
    };
    let Loaded { library, errors } = load_for(input, &settings, beside);
    drop(reading);
    for error in &errors {
        complain(&Trouble::Read(error), look);
    }
    let unreadable: Vec<Unreadable> = errors.iter().map(of_input).collect();
    match library {
        Some(library) => Ok(Read {
            library,
            setup,
            unreadable,
            job: named,
            lacking: Vec::new(),
            which: None,
            shows,
        }),
        None => Err(unreadable),
    }
}

/// What standard input is called.
const STDIN: &str = "standard input";

/// An input as output names it.
pub(super) fn input_name(path: &Path) -> String {
    if path == Path::new("-") {
        STDIN.to_owned()
    } else {
        path.display().to_string()
    }
}

/// What is read before the library is: standard input, if that is what a path means.
pub(super) fn bytes(path: &Path, look: Look) -> Result<Vec<u8>, Vec<Unreadable>> {
    if path == Path::new("-") {
        stdin(look)
    } else {
        Ok(Vec::new())
    }
}

/// Where a library comes from; `bytes` are those of standard input.
pub(super) fn input<'a>(path: &'a Path, bytes: &'a [u8]) -> Input<'a> {
    if path == Path::new("-") {
        Input::Bytes(STDIN, bytes)
    } else {
        Input::Path(path)
    }
}

fn stdin(look: Look) -> Result<Vec<u8>, Vec<Unreadable>> {
    let mut bytes = Vec::new();
    match std::io::stdin().lock().read_to_end(&mut bytes) {
        Ok(_) => Ok(bytes),
        Err(why) => {
            let why = format!("cannot be read: {why}");
            Refusal::new(format!("{STDIN} {why}"), "").tell(look);
            Err(vec![Unreadable {
                file: Some(STDIN.to_owned()),
                position: None,
                message: why,
            }])
        }
    }
}

/// Whether a verdict fails the run: exit status 1, unless something could not be read.
pub(super) fn fails(verdict: Verdict, coverage: &Coverage, strict: bool) -> bool {
    match verdict {
        _ if !coverage.is_enough() => true,
        Verdict::Fails => true,
        Verdict::Incomplete => strict,
        Verdict::NothingFound => false,
    }
}

/// What a command asks that shows all it can work out, on the day that is asked for.
pub(super) fn everything(day: &DayArgs) -> Options {
    Options {
        with_facts: true,
        ..Options::on(of_run(day.as_of))
    }
}
