//! `shankwise facts`: the facts of a library, the list of facts, and the evidence for their formulas.

use std::fmt::Write as _;
use std::io::{self, Write as _};
use std::path::Path;

use crate::facts::{Fact, FactValue, evidence};
use crate::judge::Options;
use crate::sheet::{Item, Wants};
use crate::write::{self, Input, Json, Pieces};

use super::args::{FactsArgs, OutputForm};
use super::judged::Read;
use super::output::{self, Destination, Sink};
use super::progress::Shows;
use super::refusal::Refusal;
use super::{COULD_NOT, NOTHING_FAILS, judged};

/// Shows the facts of a library, or the registry of facts.
pub(super) fn run(arguments: &FactsArgs) -> u8 {
    if let Some(refusal) = Refusal::of_form(arguments.output.form, &[]) {
        refusal.tell(output::look(&arguments.output));
        return COULD_NOT;
    }
    let paths = arguments.path.as_slice();
    let Some(to) = Destination::of(&arguments.output, paths, &arguments.setup) else {
        return COULD_NOT;
    };
    if arguments.evidence {
        return shown_evidence(arguments, &to);
    }
    let Some(path) = arguments.path.as_deref() else {
        let list = match arguments.output.form {
            OutputForm::Json => write::to_json_line(&write::facts_json()),
            OutputForm::Text
            | OutputForm::Plain
            | OutputForm::Brief
            | OutputForm::Sarif
            | OutputForm::Svg
            | OutputForm::Html => registry(),
        };
        return if to.write(&list) {
            NOTHING_FAILS
        } else {
            COULD_NOT
        };
    };
    of_library(path, arguments, &to)
}

fn of_library(path: &Path, arguments: &FactsArgs, to: &Destination<'_>) -> u8 {
    let options = judged::everything(&arguments.day);
    let look = output::look(&arguments.output);
    let shows = Shows::of(&arguments.output, false);
    let mut sink = to.open();
    let read = judged::read(path, &arguments.setup, &options.selection, look, shows);
    let name = judged::input_name(path);
    let library = match read {
        Ok(library) => library,
        Err(unreadable) => {
            if arguments.output.form == OutputForm::Json {
                let input = Input::new(&name, &unreadable);
                // The sink remembers why, and tells it.
                let _ = sink.write_all(write::unreadable_json(input).as_bytes());
                sink.finish();
            }
            return COULD_NOT;
        }
    };
    let ended = if arguments.output.form == OutputForm::Json {
        json(&library, &name, &options, &mut sink)
    } else {
        text(&library, &options, &mut sink)
    };
    if let Err(why) = ended {
        sink.fail(&why);
    }
    if sink.finish() && library.unreadable.is_empty() {
        NOTHING_FAILS
    } else {
        COULD_NOT
    }
}

fn json(library: &Read, name: &str, options: &Options, to: &mut Sink<'_>) -> io::Result<()> {
    let input = Input::new(name, &library.unreadable);
    let mut json = Json::begin(to, input, true, false)?;
    let prepare = |item| Pieces::of(&item, true, false);
    let take = |pieces: Pieces| json.take(&pieces);
    let overview = library.each(options, Wants::default(), prepare, take)?;
    let fails = judged::fails(overview.summary.verdict, &overview.coverage, options.strict);
    json.finish(&overview, fails).map(drop)
}

fn text(library: &Read, options: &Options, to: &mut Sink<'_>) -> io::Result<()> {
    let units = library.library.units;
    let prepare = |item| match item {
        Item::Fault(_) => String::new(),
        Item::Sheet(sheet) => write::facts_of(&sheet, units),
    };
    let take = |text: String| to.write_all(text.as_bytes());
    let overview = library.each(options, Wants::default(), prepare, take)?;
    to.write_all(write::facts_end(&overview).as_bytes())
}

/// The evidence, computed now; a row that fails is no reason to hide the others.
fn shown_evidence(arguments: &FactsArgs, to: &Destination<'_>) -> u8 {
    let rows = match evidence() {
        Ok(rows) => rows,
        Err(why) => {
            Refusal::new(why, "").tell(output::look(&arguments.output));
            return COULD_NOT;
        }
    };
    let text = match arguments.output.form {
        OutputForm::Json => write::to_json_line(&write::evidence_json(&rows)),
        OutputForm::Text
        | OutputForm::Plain
        | OutputForm::Brief
        | OutputForm::Sarif
        | OutputForm::Svg
        | OutputForm::Html => write::evidence_text(&rows),
    };
    let written = to.write(&text);
    if written { NOTHING_FAILS } else { COULD_NOT }
}

fn registry() -> String {
    let mut text = String::new();
    for info in Fact::all() {
        let value = match info.value {
            FactValue::Number(unit) => unit.shown().to_owned(),
            FactValue::Word(words) => words.join(" | "),
            FactValue::Truth => "yes | no".to_owned(),
        };
        let of = if info.of_operation {
            " (of an operation)"
        } else {
            ""
        };
        // Writing to a String cannot fail.
        let _ = writeln!(
            text,
            "{} [{value}]{of}\n    {}\n    source: {}",
            info.name, info.meaning, info.source
        );
    }
    text
}
