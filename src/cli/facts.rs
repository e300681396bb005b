//! `shankwise facts`.

use std::fmt::Write as _;
use std::path::Path;

use crate::facts::{Fact, FactValue, evidence};
use crate::write::{self, Look, Trouble};

use super::args::{FactsArgs, Form};
use super::output::{self, Destination};
use super::{COULD_NOT, NOTHING_FAILS, judged, lint};

/// Shows the facts of a library, or the registry of facts.
pub(super) fn run(arguments: &FactsArgs) -> u8 {
    let paths = arguments.path.as_slice();
    let Some(to) = Destination::of(&arguments.output, paths, &arguments.setup) else {
        return COULD_NOT;
    };
    if arguments.evidence {
        return shown_evidence(arguments, &to);
    }
    let Some(path) = arguments.path.as_deref() else {
        return if to.write(&registry()) {
            NOTHING_FAILS
        } else {
            COULD_NOT
        };
    };
    of_library(path, arguments, &to)
}

fn of_library(path: &Path, arguments: &FactsArgs, to: &Destination<'_>) -> u8 {
    let options = judged::everything();
    let look = output::look(&arguments.output);
    let (found, readable) = judged::one(path, &arguments.setup, &options, false, look);
    let text = match &found {
        None => String::new(),
        Some(judged) if arguments.output.form == Form::Json => {
            lint::json_line(&judged.report, &judged.advice, false)
        }
        Some(judged) => write::facts(&judged.report, &judged.advice.windows),
    };
    let written = to.write(&text);
    if written && readable {
        NOTHING_FAILS
    } else {
        COULD_NOT
    }
}

/// The evidence, computed now; a row that fails is no reason to hide the others.
fn shown_evidence(arguments: &FactsArgs, to: &Destination<'_>) -> u8 {
    let rows = match evidence() {
        Ok(rows) => rows,
        Err(why) => {
            output::complain(&Trouble::Other(&why), Look::Drawn);
            return COULD_NOT;
        }
    };
    let text = match arguments.output.form {
        Form::Json => write::to_json_line(&write::evidence_json(&rows)),
        Form::Text | Form::Plain => write::evidence_text(&rows),
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
