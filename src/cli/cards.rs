//! `shankwise cards`: a setup sheet and a card a tool, for whoever builds the tools.

use std::io;
use std::path::PathBuf;

use crate::audit::digest;
use crate::judge::Options;
use crate::library::Beside;
use crate::sheet::{Item, Wants};
use crate::text::Unreadable;
use crate::write::{Cards, CardsForm, Look, OfCards, OneCard};

use super::args::{OutputArgs, OutputForm};
use super::cards_args::{CardsArgs, CardsOutput};
use super::day::of_run;
use super::judged::{self, Read};
use super::output::{self, Destination, Sink};
use super::progress::Shows;
use super::refusal::Refusal;
use super::{COULD_NOT, FAILS, NOTHING_FAILS, near};

/// Writes sheet and cards.
pub(super) fn run(arguments: &CardsArgs) -> u8 {
    let look = output::look_of(arguments.colour.color, arguments.out.as_deref());
    if arguments.form == CardsOutput::Html && arguments.out.is_none() {
        let hint = "name it with --out; `--as text` prints the setup sheet";
        Refusal::new("a page of cards goes to a file", hint).tell(look);
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
    let beside = Beside {
        job: arguments.job.as_deref(),
        tables: None,
    };
    let read = judged::read_for(
        &arguments.path,
        beside,
        &arguments.setup,
        selection,
        (look, shows),
    );
    let Ok(mut library) = read else {
        return COULD_NOT;
    };
    if let Some(numbers) = asked(arguments, &library) {
        library.only(&numbers);
    }
    for refusal in near::lacking(&library) {
        refusal.tell(look);
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
        lacking: &library.lacking,
        unread: &unread,
    };
    let form = match arguments.form {
        CardsOutput::Html => CardsForm::Html,
        CardsOutput::Text => CardsForm::Text(output::width(output)),
    };
    match cards(&library, &options, (&about, form), to) {
        Ok(_) if !library.unreadable.is_empty() => COULD_NOT,
        Ok(stops) if stops || !library.lacking.is_empty() => FAILS,
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

/// Of which tools cards are asked for, each number once; of all if there is neither option.
fn asked(arguments: &CardsArgs, library: &Read) -> Option<Vec<String>> {
    let job = library.job.as_ref();
    if job.is_none() && arguments.tool.is_empty() {
        return None;
    }
    let of_job = job.into_iter().flat_map(|job| &job.numbers);
    let mut wanted: Vec<String> = Vec::new();
    for number in arguments.tool.iter().chain(of_job) {
        if !wanted.contains(number) {
            wanted.push(number.clone());
        }
    }
    Some(wanted)
}
