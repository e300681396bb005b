//! `shankwise cards`: a setup sheet and a card a tool, for whoever builds the tools.

use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};

use crate::audit::digest;
use crate::judge::Options;
use crate::library::Job;
use crate::sheet::{Item, Sheet, Wants};
use crate::text::Unreadable;
use crate::write::{Cards, CardsForm, Look, OfCards, OneCard};

use super::args::{OutputArgs, OutputForm};
use super::cards_args::{CardsArgs, CardsOutput};
use super::day::of_run;
use super::judged::{self, Read};
use super::output::{self, Destination, Sink};
use super::progress::Shows;
use super::refusal::{Refusal, shown};
use super::{COULD_NOT, FAILS, NOTHING_FAILS, near};

/// Writes sheet and cards.
pub(super) fn run(arguments: &CardsArgs) -> u8 {
    let look = output::look_of(arguments.colour.color, arguments.out.as_deref());
    if arguments.form == CardsOutput::Html && arguments.out.is_none() {
        let hint = "name a file with --out; `--as text` prints the setup sheet";
        Refusal::new("a page is not printed to a terminal", hint).tell(look);
        return COULD_NOT;
    }
    let output = OutputArgs {
        form: OutputForm::Text,
        out: arguments.out.clone(),
        quiet: false,
        colour: arguments.colour.clone(),
    };
    let read: Vec<PathBuf> = std::iter::once(&arguments.path)
        .chain(&arguments.job)
        .cloned()
        .collect();
    let to = match (&arguments.out, arguments.form) {
        (Some(out), CardsOutput::Html) => Destination::of_page(out, &read, &arguments.setup, look),
        _ => Destination::of(&output, &read, &arguments.setup),
    };
    let Some(to) = to else {
        return COULD_NOT;
    };
    let mut sink = to.open();
    let status = written(arguments, &output, look, &mut sink);
    if sink.finish() { status } else { COULD_NOT }
}

fn written(arguments: &CardsArgs, output: &OutputArgs, look: Look, to: &mut Sink<'_>) -> u8 {
    let options = Options::on(of_run(arguments.day.as_of));
    let shows = Shows::of(output, true);
    // Hashed first: of what changes while it is read the hash must not tell.
    let digest = digest::of_library(&arguments.path);
    let selection = &options.selection;
    let Ok(library) = judged::read(&arguments.path, &arguments.setup, selection, look, shows)
    else {
        return COULD_NOT;
    };
    let asked = match Asked::of(arguments, &library) {
        Ok(asked) => asked,
        Err(refusal) => {
            refusal.tell(look);
            return COULD_NOT;
        }
    };
    for number in &asked.lacking {
        let known: BTreeSet<String> = library.numbers().map(str::to_owned).collect();
        near::no_such_tool(number, &known).tell(look);
    }
    let unread: Vec<String> = library.unreadable.iter().map(said).collect();
    let day = options.today.to_string();
    let path = judged::input_name(&arguments.path);
    let about = OfCards {
        library: &library.library.name,
        path: &path,
        digest: &digest,
        day: &day,
        units: library.library.units,
        lacking: &asked.lacking,
        unread: &unread,
    };
    let form = match arguments.form {
        CardsOutput::Html => CardsForm::Html,
        CardsOutput::Text => CardsForm::Text(output::width(output)),
    };
    match cards(&library, &options, &asked, (&about, form), to) {
        Ok(_) if !library.unreadable.is_empty() => COULD_NOT,
        Ok(stops) if stops || !asked.lacking.is_empty() => FAILS,
        Ok(_) => NOTHING_FAILS,
        // It is told at the end.
        Err(why) => {
            to.fail(&why);
            COULD_NOT
        }
    }
}

/// Judges the library and writes the cards that are asked for; whether one of them stops.
fn cards(
    library: &Read,
    options: &Options,
    asked: &Asked,
    (about, form): (&OfCards<'_>, CardsForm),
    to: &mut Sink<'_>,
) -> io::Result<bool> {
    let wants = Wants {
        card: true,
        ..Wants::default()
    };
    let mut all = Cards::begin(form);
    let prepare = |item: Item| {
        let Item::Sheet(sheet) = item else {
            return Vec::new();
        };
        if !asked.takes(&sheet) {
            return Vec::new();
        }
        let cards = sheet.clampings.iter().filter_map(|one| one.card.as_ref());
        cards.map(|card| OneCard::of(card, about, form)).collect()
    };
    let take = |made: Vec<OneCard>| made.iter().try_for_each(|one| all.take(one));
    let overview = library.each(options, wants, prepare, take)?;
    let stops = all.stops();
    all.finish(about, &overview.run, to)?;
    Ok(stops)
}

/// What of a library was not read, in a line.
fn said(unreadable: &Unreadable) -> String {
    match &unreadable.file {
        Some(file) => format!("{file}: {}", unreadable.message),
        None => unreadable.message.clone(),
    }
}

/// Of which tools cards are asked for.
struct Asked {
    /// Their numbers; of all tools if there is neither option.
    numbers: Option<BTreeSet<String>>,
    /// Those that the library lacks, in the order in which they are asked for.
    lacking: Vec<String>,
}

impl Asked {
    fn of(arguments: &CardsArgs, library: &Read) -> Result<Asked, Refusal> {
        let job = match &arguments.job {
            Some(path) => Some(job(path, library)?),
            None => None,
        };
        let is_asked = job.is_some() || !arguments.tool.is_empty();
        let of_job = job.into_iter().flat_map(|job| job.numbers);
        let mut wanted: Vec<String> = Vec::new();
        for number in arguments.tool.iter().cloned().chain(of_job) {
            if !wanted.contains(&number) {
                wanted.push(number);
            }
        }
        let known: BTreeSet<&str> = library.numbers().collect();
        let lacking = wanted.iter().filter(|one| !known.contains(one.as_str()));
        Ok(Asked {
            lacking: lacking.cloned().collect(),
            numbers: is_asked.then(|| wanted.into_iter().collect()),
        })
    }

    fn takes(&self, sheet: &Sheet) -> bool {
        let own = sheet.tool_number.as_ref();
        match &self.numbers {
            None => true,
            Some(numbers) => own.is_some_and(|own| numbers.contains(own)),
        }
    }
}

fn job(path: &Path, library: &Read) -> Result<Job, Refusal> {
    let settings = library.setup().read_settings();
    Job::read(path, &settings.columns).map_err(|why| {
        let what = format!("{}: {}", shown(&why.file), why.reason);
        Refusal::new(what, "")
    })
}
